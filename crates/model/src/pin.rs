//! What somebody asks of a plan for holes by name: on that day, by that crew, or not at all.

use jiff::civil::Date;

use crate::hole::HoleId;

/// What is asked for some holes. It counts for the whole zone that a hole is mended in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pin {
    /// Which holes; any report of a hole names it.
    pub holes: Vec<HoleId>,
    /// Where to.
    pub to: PinnedTo,
}

/// What is asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PinnedTo {
    /// To be mended.
    Round {
        /// On that day; `None`: any.
        date: Option<Date>,
        /// By the crew of that name; `None`: any.
        crew: Option<String>,
    },
    /// Not to be mended within these days.
    Out,
}

/// What can't be as asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PinRefused {
    /// Which holes.
    pub holes: Vec<HoleId>,
    /// Why, in words.
    pub words: String,
}
