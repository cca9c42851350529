//! Looks at repairs that were made before: what is wanted, and what a crew does on its way.

use std::fmt;

use jiff::civil::Date;
use uuid::Uuid;

use crate::place::{LonLat, RoadPosition};
use crate::quantity::{Area, Length, Time};
use crate::rules::lasting::LookStopRules;

/// Looks that plans may put on the way, and by which rules.
#[derive(Debug, Clone, PartialEq)]
pub struct LooksWanted {
    /// What is wanted, each repair once.
    pub looks: Vec<WantedLook>,
    /// How a crew stops for one.
    pub rules: LookStopRules,
}

/// Why somebody should look at a repair.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LookReason {
    /// So long after it was opened.
    AfterOpening {
        /// Days.
        days: u16,
    },
    /// It was found worn, so long before.
    FoundWorn {
        /// Days.
        days: u16,
    },
}

/// A repair that somebody should look at.
#[derive(Debug, Clone, PartialEq)]
pub struct WantedLook {
    /// The repair's number in the record.
    pub repair: Uuid,
    /// Where it is.
    pub place: LonLat,
    /// Day on which traffic first ran over it, where known.
    pub opened: Option<Date>,
    /// Area cut, where told.
    pub area: Option<Area>,
    /// Whether it is due; else it may be made when a crew passes by anyway.
    pub is_due: bool,
    /// Why.
    pub why: LookReason,
}

/// A look on a round.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedLook {
    /// The repair's number in the record.
    pub repair: Uuid,
    /// Where the truck stops, on the side of the repair.
    pub position: RoadPosition,
    /// Where that is.
    pub place: LonLat,
    /// Its road.
    pub road: String,
    /// Where its chainages count from, and towards what.
    pub chainage_from: String,
    /// Likewise.
    pub chainage_towards: String,
    /// Day on which traffic first ran over it, where known.
    pub opened: Option<Date>,
    /// Area cut, where told.
    pub area: Option<Area>,
    /// Whether it is due.
    pub is_due: bool,
    /// Why.
    pub why: LookReason,
    /// How long the stop takes.
    pub stop: Time,
    /// How much further the crew drives for it, seconds.
    pub detour_s: u32,
    /// How much further.
    pub detour: Length,
    /// The rule's least shoulder to stop on.
    pub shoulder_least: Length,
    /// Whether the rule lets a shoulder count that the map does not tell.
    pub default_shoulder_counts: bool,
}

/// A wanted look that is on no round.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LookLeft {
    /// The repair's number in the record.
    pub repair: Uuid,
    /// Why not, in words.
    pub words: String,
}

impl fmt::Display for LookReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LookReason::AfterOpening { days } => write!(f, "{days} days after it was opened"),
            LookReason::FoundWorn { days } => write!(f, "found worn, looked at again after {days} days"),
        }
    }
}
