//! The `patch` block.

use model::patch::{AgainstPatch, PatchDecision, PatchLimit};
use schemars::JsonSchema;
use serde::Serialize;

use super::figures::{FigureJson, figure};

/// Whether the repair is a patch by the agency's limits; one that is not is never in the round.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Patch")]
pub struct PatchJson {
    is_patch: bool,
    /// Share of the lane that cuts take around this one, 0 to 1.
    cut_share: FigureJson,
    /// What speaks against a patch.
    against: Vec<AgainstJson>,
    /// What has to be told with it; empty for a patch.
    caution: String,
}

/// One limit that is passed.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "AgainstPatch")]
struct AgainstJson {
    /// `size`, `cut_share`, `base_wetness` or `repeats`.
    limit: &'static str,
    words: String,
    why: String,
}

/// The `patch` block.
pub fn patch(decision: &PatchDecision) -> PatchJson {
    let against = |against: &AgainstPatch| AgainstJson {
        limit: match against.limit {
            PatchLimit::Size => "size",
            PatchLimit::CutShare => "cut_share",
            PatchLimit::BaseWetness => "base_wetness",
            PatchLimit::Repeats => "repeats",
        },
        words: against.words.clone(),
        why: against.why.to_string(),
    };
    PatchJson {
        is_patch: decision.is_patch(),
        cut_share: figure(&decision.cut_share, |share| share),
        against: decision.against.iter().map(against).collect(),
        caution: decision.caution.clone(),
    }
}
