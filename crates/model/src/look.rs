//! Looks at repairs that were made before: what is wanted, and what a crew does on its way.

use uuid::Uuid;

use crate::place::{LonLat, RoadPosition};
use crate::quantity::{Length, Time};
use crate::rules::lasting::LookStopRules;

/// Looks that plans may put on the way, and by which rules.
#[derive(Debug, Clone, PartialEq)]
pub struct LooksWanted {
    /// What is wanted, each repair once.
    pub looks: Vec<WantedLook>,
    /// How a crew stops for one.
    pub rules: LookStopRules,
}

/// A repair that somebody should look at.
#[derive(Debug, Clone, PartialEq)]
pub struct WantedLook {
    /// The repair's number in the record.
    pub repair: Uuid,
    /// Where it is.
    pub place: LonLat,
    /// Whether it is due; else it may be made when a crew passes by anyway.
    pub is_due: bool,
    /// Why, in words.
    pub why: String,
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
    /// Whether it is due.
    pub is_due: bool,
    /// Why, in words.
    pub why: String,
    /// How long the stop takes.
    pub stop: Time,
    /// How much further the crew drives for it, seconds.
    pub detour_s: u32,
    /// How much further.
    pub detour: Length,
}

/// A wanted look that is on no round.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LookLeft {
    /// The repair's number in the record.
    pub repair: Uuid,
    /// Why not, in words.
    pub words: String,
}
