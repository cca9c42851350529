//! The catalogue of compactors: what each kind can do and how it is worked.

use serde::Deserialize;

use crate::district::CompactorKind;
use crate::rules::Sourced;

/// What each kind of compactor can do. An agency overrides single values of a kind.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompactorRules {
    /// Hand tamper.
    pub hand_tamper: CompactorPractice,
    /// Vibrating plate.
    pub vibrating_plate: CompactorPractice,
    /// Heavy reversible plate.
    pub heavy_plate: CompactorPractice,
    /// Trench rammer.
    pub trench_rammer: CompactorPractice,
    /// Pedestrian or trench roller.
    pub pedestrian_roller: CompactorPractice,
    /// Single-drum vibratory roller.
    pub single_drum_roller: CompactorPractice,
    /// Tandem steel roller.
    pub tandem_roller: CompactorPractice,
}

/// What one kind of compactor can do and how it is worked.
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
    /// Whether it may work inside the cut, below the surface of the road.
    pub works_in_cut: Sourced<bool>,
    /// Whether it may finish the last layer from above, riding over the cut, where it does not fit inside.
    pub finishes_last_layer: Sourced<bool>,
    /// Free play that it needs between the cut's sides, metres.
    pub clearance_m: Sourced<f64>,
    /// Shortest cut it can work inside, metres.
    pub room_along_m: Sourced<f64>,
    /// How it goes over the ground.
    pub worked_in: Sourced<WorkedIn>,
    /// Usual width of drum, plate or foot, metres.
    pub width_m: Sourced<f64>,
    /// Usual working speed, kilometres an hour.
    pub speed_km_per_h: Sourced<f64>,
    /// Usual mass, kilograms.
    pub mass_kg: Sourced<f64>,
}

/// How a compactor goes over the ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WorkedIn {
    /// Along the whole cut and back.
    Lanes,
    /// Blow beside blow, from each end of a lane to its middle.
    Blows,
}

impl CompactorRules {
    /// The practice of a kind.
    pub fn of(&self, kind: CompactorKind) -> &CompactorPractice {
        match kind {
            CompactorKind::HandTamper => &self.hand_tamper,
            CompactorKind::VibratingPlate => &self.vibrating_plate,
            CompactorKind::HeavyPlate => &self.heavy_plate,
            CompactorKind::TrenchRammer => &self.trench_rammer,
            CompactorKind::PedestrianRoller => &self.pedestrian_roller,
            CompactorKind::SingleDrumRoller => &self.single_drum_roller,
            CompactorKind::TandemRoller => &self.tandem_roller,
        }
    }
}
