//! Shape of `rules/markout/*.toml`: how a cut is laid around a hole.

use serde::Deserialize;

use super::Sourced;

/// How a cut is laid around a hole. Lengths in metres.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkOutRules {
    /// Name of the rule set.
    pub name: String,
    /// One sentence on what the rule set is for.
    pub about: String,
    /// Least distance from the hole to the cut, in sound pavement, m.
    pub margin_m: Sourced<f64>,
    /// No part of the cut should lie further from the hole than this, m.
    pub far_limit_m: Sourced<f64>,
    /// Two cuts nearer to each other than this become one, m.
    pub merge_gap_m: Sourced<f64>,
    /// A strip between cut and pavement edge narrower than this is cut out too, m.
    pub edge_gap_m: Sourced<f64>,
    /// No side of a cut is shorter than this, so that a compactor fits in, m.
    pub smallest_side_m: Sourced<f64>,
    /// A cut squarer to the road is preferred where it costs at most this part more area; 0.02 is two per cent.
    pub square_tolerance: Sourced<f64>,
}
