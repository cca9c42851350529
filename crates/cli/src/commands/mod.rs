//! One file a command.

pub(crate) mod check;
pub(crate) mod field_density;
pub(crate) mod grading;
pub(crate) mod growth;
mod hole_list;
pub(crate) mod judge;
pub(crate) mod mark_out;
pub(crate) mod plan;
pub(crate) mod proctor;
pub(crate) mod repair;
pub(crate) mod round;
pub(crate) mod same_hole;
pub(crate) mod seal;
pub(crate) mod snap;
mod soil_rules;
pub(crate) mod water;
mod weather;
pub(crate) mod zone;

use model::hole::Wetness;

pub(crate) use hole_list::HoleListFlags;

/// A wetness for a flag.
fn wetness(word: &str) -> Result<Wetness, String> {
    let known = Wetness::ALL.map(Wetness::word);
    let found = Wetness::ALL.into_iter().find(|wetness| wetness.word() == word);
    found.ok_or_else(|| format!("known words: {}", known.join(", ")))
}
