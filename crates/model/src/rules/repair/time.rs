//! Task times of the crew.

use serde::Deserialize;

use crate::rules::Sourced;

/// Task times of the crew, traffic control not included.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TimeRules {
    /// Mark out: clean and look first.
    pub mark_out_s: Sourced<f64>,
    /// Mark out: each metre of line.
    pub mark_out_s_per_m: Sourced<f64>,
    /// Cut out: setting up.
    pub cut_out_s: Sourced<f64>,
    /// Cut out: sawing or picking each metre of edge.
    pub cut_out_s_per_m: Sourced<f64>,
    /// Cut out: digging and loading each cubic metre in place.
    pub cut_out_s_per_m3: Sourced<f64>,
    /// Cut out: trimming each square metre of bottom.
    pub cut_out_s_per_m2: Sourced<f64>,
    /// Fill: placing each loose cubic metre.
    pub fill_s_per_m3: Sourced<f64>,
    /// Fill: levelling and judging the moisture of each layer.
    pub fill_s_per_layer: Sourced<f64>,
    /// Compact: bringing the machine in and checking each layer; the rolling itself is computed.
    pub compact_s_per_layer: Sourced<f64>,
    /// Seal: sweeping the surface, readying the sprayer.
    pub seal_s: Sourced<f64>,
    /// Seal: binder, stone and bedding each square metre.
    pub seal_s_per_m2: Sourced<f64>,
    /// Clean up: counting back tools and material.
    pub clean_up_s: Sourced<f64>,
    /// Clean up: sweeping each square metre sealed.
    pub clean_up_s_per_m2: Sourced<f64>,
}
