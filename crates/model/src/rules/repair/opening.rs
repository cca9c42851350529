//! When a fresh seal may be opened to traffic, how fast, and when it is swept.

use serde::Deserialize;

use crate::rules::Sourced;

/// When a fresh seal may be opened to traffic, how fast, and when it is swept.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpeningRules {
    /// Temperature of the surface that the sheets count on, degrees Celsius.
    pub surface_c: Sourced<f64>,
    /// Coldest surface that is sealed, degrees Celsius.
    pub least_surface_c: Sourced<f64>,
    /// Cutback.
    pub cutback: OpeningPractice,
    /// Emulsion.
    pub emulsion: OpeningPractice,
}

/// The same for one kind of binder.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpeningPractice {
    /// From the last stone to the first vehicle, by temperature of the surface; the warmest row that is not warmer than the
    /// surface is taken, below all of them the first.
    pub open_after: Sourced<Vec<OpenAfter>>,
    /// Greatest speed of the traffic at first, km/h.
    pub speed_km_per_h: Sourced<f64>,
    /// How long that speed holds, hours.
    pub slow_for_h: Sourced<f64>,
    /// Loose stone is swept off after, hours.
    pub sweep_after_h: Sourced<f64>,
    /// And again after, hours.
    pub sweep_again_after_h: Sourced<f64>,
}

/// One row of the waiting times.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpenAfter {
    /// Surface at least this warm, degrees Celsius.
    pub from_c: f64,
    /// Minutes.
    pub minutes: f64,
}
