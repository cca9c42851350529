//! Shape of `rules/planning/*.toml`: how a day is put together.

use serde::Deserialize;

use super::Sourced;

/// How a day is put together from judged holes, cuts and zones.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanningRules {
    /// Name of the rule set.
    pub name: String,
    /// One sentence on what the rule set is for.
    pub about: String,
    /// Distance of a wheel path from the middle of its lane, m.
    pub wheel_path_offset_m: Sourced<f64>,
    /// A located place this far from where the hole is taken to lie across the road is remarked, m.
    pub position_doubt_m: Sourced<f64>,
    /// Whether work that leaves traffic no way past may be planned; the authorised person must close the road or lead
    /// traffic round.
    pub full_closure_allowed: Sourced<bool>,
    /// How many times its risk a hole is worth on or after the day it is due.
    pub overdue_worth: Sourced<f64>,
    /// Sites that the search looks at; the rest are less urgent or too far and wait.
    pub candidate_sites_max: Sourced<u32>,
}
