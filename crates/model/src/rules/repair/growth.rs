//! How much more is dug out than was surveyed.

use serde::Deserialize;

use crate::rules::Sourced;

/// How much more is dug out than was surveyed: `V_cut = V_surveyed * g`, `g` log-normal.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GrowthRules {
    /// Median of `g`.
    pub median: Sourced<f64>,
    /// Standard deviation of `ln g`.
    pub sigma: Sourced<f64>,
    /// Share of the growth that goes into depth: depth grows by `g^share`, area by `g^(1 - share)`.
    pub depth_share: Sourced<f64>,
    /// Correlation of `ln g` between two holes of one road.
    pub same_road_correlation: Sourced<f64>,
}
