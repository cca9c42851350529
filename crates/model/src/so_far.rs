//! How far the crews are in the course of a day: what a plan of the rest of it begins with.

use crate::hole::HoleId;
use crate::place::LonLat;
use crate::quantity::{Time, Volume};
use crate::round::SecondOfDay;

/// The day so far.
#[derive(Debug, Clone, PartialEq)]
pub struct SoFar {
    /// The time on the clock.
    pub time: SecondOfDay,
    /// Each crew that is out; no two of one name.
    pub crews: Vec<CrewSoFar>,
}

/// One crew so far.
#[derive(Debug, Clone, PartialEq)]
pub struct CrewSoFar {
    /// Its name, as in the district file.
    pub crew: String,
    /// Where its truck stands.
    pub position: LonLat,
    /// Whether it has had its break.
    pub rested: bool,
    /// What is on the truck.
    pub aboard: AboardSoFar,
    /// Holes that are mended.
    pub done: Vec<HoleId>,
    /// Holes that are begun, each with the work left there, taking in the signs counted.
    pub half_done: Vec<HalfDone>,
    /// What the plan had next, in its order.
    pub next: Vec<HoleId>,
}

/// A hole that is begun.
#[derive(Debug, Clone, PartialEq)]
pub struct HalfDone {
    /// Which.
    pub hole: HoleId,
    /// Work left there.
    pub left: Time,
}

/// What is on a truck, loose.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct AboardSoFar {
    /// Base.
    pub base: Volume,
    /// Cover stone.
    pub cover_stone: Volume,
    /// Binder.
    pub binder: Volume,
    /// Water.
    pub water: Volume,
    /// Spoil not yet tipped.
    pub spoil: Volume,
}
