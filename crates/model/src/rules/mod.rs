//! Rules as data. Each value has its source; an agency's own file overrides single values.
//!
//! The types here are the shapes of the files in `rules/`; `exchange` reads them.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::figure::Source;

pub mod gradation;
pub mod lasting;
pub mod markout;
pub mod matching;
pub mod planning;
pub mod repair;
pub mod roads;
pub mod severity;
pub mod soil;
pub mod traffic;

/// A value with its source, in a rule file `{ value = 0.15, source = "common practice, no source" }`.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Sourced<T> {
    /// The value, in the unit its name says.
    pub value: T,
    /// Where it is from.
    pub source: Source,
}

/// Words for every number that lies outside the least and the most that are believed (NaN always does), each with its
/// field. The ranges are common practice, no source: wide enough for any agency, narrow enough to catch a wrong unit.
pub fn not_believed<'f>(numbers: impl IntoIterator<Item = (&'f str, f64, f64, f64)>) -> Vec<String> {
    numbers
        .into_iter()
        .filter(|(_, value, least, most)| !(least..=most).contains(&value))
        .map(|(field, value, least, most)| format!("{field} is {value}; a number from {least} to {most} is believed"))
        .collect()
}
