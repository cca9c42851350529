//! What each compactor can do.

use serde::Deserialize;

use crate::rules::Sourced;

/// What each compactor can do.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompactorRules {
    /// Free play that drum or plate needs between the cut's sides, metres.
    pub clearance_m: Sourced<f64>,
    /// Vibratory roller.
    pub roller: CompactorPractice,
    /// Plate compactor.
    pub plate: CompactorPractice,
    /// Hand tamper.
    pub hand_tamper: CompactorPractice,
}

/// How one kind of compactor is worked.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompactorPractice {
    /// Greatest compacted thickness of one layer, metres.
    pub greatest_layer_m: Sourced<f64>,
    /// Passes without vibration, each layer.
    pub static_passes: Sourced<u32>,
    /// Least passes with vibration, each layer.
    pub vibrating_passes_least: Sourced<u32>,
    /// Most passes with vibration, each layer; the plan counts on these.
    pub vibrating_passes_most: Sourced<u32>,
    /// Overlap of neighbouring lanes, metres.
    pub lane_overlap_m: Sourced<f64>,
    /// Time to turn or reverse at the end of each pass, seconds.
    pub turn_s: Sourced<f64>,
}
