//! Lives of repairs as a table: how long each lasted, or was watched and still held.

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
