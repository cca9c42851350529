//! One file a command.

pub(crate) mod arrivals;
pub(crate) mod check;
pub(crate) mod field_density;
mod given;
pub(crate) mod grading;
pub(crate) mod growth;
mod hole_list;
pub(crate) mod import;
pub(crate) mod judge;
pub(crate) mod lasting;
pub(crate) mod mark_out;
pub(crate) mod month_report;
pub(crate) mod plan;
pub(crate) mod proctor;
pub(crate) mod record;
pub(crate) mod renewals;
pub(crate) mod repair;
mod road_places;
pub(crate) mod round;
pub(crate) mod rules;
pub(crate) mod same_hole;
pub(crate) mod seal;
pub(crate) mod serve;
pub(crate) mod snap;
mod soil_rules;
pub(crate) mod water;
mod weather;
pub(crate) mod zone;

use model::figure::Source;
use model::hole::Wetness;
use model::rules::Sourced;
use serde::de::DeserializeOwned;
use serde::de::value::{Error, StrDeserializer};

pub(crate) use hole_list::HoleListFlags;

/// One of the words of a type of the rules, for a flag.
fn word<T: DeserializeOwned>(text: &str) -> Result<T, String> {
    T::deserialize(StrDeserializer::<Error>::new(text)).map_err(|error| error.to_string())
}

/// What is given for this one time goes before the agency's rule.
fn given_over_rule<T>(given: Option<T>, rule: &mut Sourced<T>) {
    if let Some(value) = given {
        *rule = Sourced { value, source: Source::agency("as given") };
    }
}

/// A wetness for a flag.
fn wetness(word: &str) -> Result<Wetness, String> {
    let known = Wetness::ALL.map(Wetness::word);
    let found = Wetness::ALL.into_iter().find(|wetness| wetness.word() == word);
    found.ok_or_else(|| format!("known words: {}", known.join(", ")))
}
