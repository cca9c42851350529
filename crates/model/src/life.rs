//! Lives of repairs as a table: how long each lasted, or was watched and still held; and what the lives of groups come to.

use schemars::JsonSchema;
use serde::Serialize;

/// Lives, each in one of several groups.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LifeRows {
    /// Names of the groups, in the order in which they first stand.
    pub groups: Vec<String>,
    /// The lives.
    pub rows: Vec<LifeRow>,
}

/// One life.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LifeRow {
    /// From its begin to its failure, or to when it was last seen whole; days, or whatever all rows are told in.
    pub duration: f64,
    /// Group, an index into [`LifeRows::groups`].
    pub group: u32,
    /// Whether it failed. One that did not is censored: it lasted longer than its duration.
    pub failed: bool,
}

/// Curve of one group. The lists have one entry for each duration at which a life ended, the first for 0.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupCurve {
    /// Its name.
    pub name: String,
    /// Lives.
    pub n: u64,
    /// Those that failed.
    pub failures: u64,
    /// Whether so few failed that the group says nothing a plan should rest on.
    pub too_few: bool,
    /// Durations.
    pub times: Vec<f64>,
    /// Part that lasts longer.
    pub survival: Vec<f64>,
    /// Lower end of the band.
    pub lower: Vec<f64>,
    /// Upper end of the band.
    pub upper: Vec<f64>,
    /// Duration that half outlast; nothing where more than half still do at the end.
    pub median: Option<f64>,
    /// At risk just before each duration; for the plot.
    #[serde(skip)]
    pub at_risk: Vec<u64>,
}

/// What the comparison of the groups comes to, by the rules' fewest failures and significance.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Verdict {
    /// Fewer than two groups have lives: there is nothing to compare.
    OneGroup,
    /// Fewer than two groups have enough failures.
    TooFew {
        /// Names of those that have not.
        groups: Vec<String>,
    },
    /// Chance alone would hardly part the groups so far.
    Differ {
        /// In what part of cases it would.
        p: f64,
        /// Pairs that differ by themselves too, with Holm's correction; of two groups the two.
        pairs: Vec<[String; 2]>,
    },
    /// Chance alone might part them so far. That is no proof that they are alike.
    NoDifference {
        /// In what part of cases it would.
        p: f64,
    },
}
