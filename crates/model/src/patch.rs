//! Whether a repair is a patch, or a case for the engineer.

use crate::figure::{Figure, Why};

/// Whether a repair is a patch by the agency's limits. Its figures are worked out either way.
#[derive(Debug, Clone, PartialEq)]
pub struct PatchDecision {
    /// Share of the lane that cuts take over the stretch around this one, 0 to 1.
    pub cut_share: Figure<f64>,
    /// What speaks against a patch; empty where nothing does.
    pub against: Vec<AgainstPatch>,
    /// What has to be told with it; empty for a patch.
    pub caution: String,
}

/// One limit that is passed.
#[derive(Debug, Clone, PartialEq)]
pub struct AgainstPatch {
    /// Which.
    pub limit: PatchLimit,
    /// In words, with the values.
    pub words: String,
    /// How it was worked out.
    pub why: Why,
}

/// The limits beyond which a repair is no patch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PatchLimit {
    /// The cut may turn out too deep or too large.
    Size,
    /// Cuts take too much of the lane.
    CutShare,
    /// The state of the base is not mended by a patch.
    BaseWetness,
    /// Mended too often already.
    Repeats,
}

impl PatchDecision {
    /// Whether the repair may be planned as a patch.
    pub fn is_patch(&self) -> bool {
        self.against.is_empty()
    }

    /// All that speaks against it in one sentence, beginning with what to do; empty for a patch.
    pub fn words(&self) -> String {
        if self.is_patch() {
            return String::new();
        }
        let reasons: Vec<&str> = self.against.iter().map(|against| against.words.as_str()).collect();
        format!("not a patch, ask the engineer: {}", reasons.join("; "))
    }
}
