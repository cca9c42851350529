//! Moisture and density of the placed base.

use serde::Deserialize;

use crate::rules::Sourced;

/// Moisture and density of the placed base.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MoistureRules {
    /// Dry density reached, as a fraction of the maximum dry density.
    pub degree_of_compaction: Sourced<f64>,
    /// Water added over the computed amount, because some dries off before rolling; fraction of the water to add.
    pub drying_allowance: Sourced<f64>,
}
