//! Shape of `rules/gradation/*.toml`: envelopes of a base's grading.
//!
//! `name`, `about` and `extends` at the head of a file belong to the loader.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::Sourced;

/// A family of gradings.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GradationRules {
    /// Gradings by name.
    pub grading: BTreeMap<String, Grading>,
    /// The rule on fines of all of them, if there is one.
    pub fines: Option<Sourced<FinesRule>>,
}

/// One envelope.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Grading {
    /// What it is for, in a few words.
    pub about: String,
    /// Limits, coarsest sieve first.
    pub limits: Sourced<Vec<PassingLimits>>,
}

/// Limits of what passes one sieve.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PassingLimits {
    /// Sieve's designation, as in the soil rules.
    pub sieve: String,
    /// Least, per cent.
    pub least_percent: f64,
    /// Most, per cent.
    pub most_percent: f64,
}

/// No more of the finest than a share of what passes another sieve.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FinesRule {
    /// The fine sieve.
    pub fine_sieve: String,
    /// The other.
    pub of_sieve: String,
    /// Greatest share.
    pub most_share: f64,
}
