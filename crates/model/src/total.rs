//! What several repairs take together: of a road, of a trip, of a day.

use crate::figure::Figure;
use crate::quantity::{Mass, Time, Volume};
use crate::site_unit::SiteCount;

/// Sums over several cuts, each with the spread of the sum itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Totals {
    /// Cuts summed.
    pub cuts: usize,
    /// Loose base.
    pub base_volume: Figure<Volume>,
    /// Mass of that base as it comes from the stock.
    pub base_mass: Figure<Mass>,
    /// Water to add.
    pub water_volume: Figure<Volume>,
    /// Binder at spraying temperature.
    pub binder_volume: Figure<Volume>,
    /// Loose cover stone.
    pub cover_volume: Figure<Volume>,
    /// Mass of that stone.
    pub cover_mass: Figure<Mass>,
    /// Loose spoil.
    pub spoil_volume: Figure<Volume>,
    /// Mass of that spoil.
    pub spoil_mass: Figure<Mass>,
    /// The materials as the crew counts them.
    pub site_counts: Vec<SiteCount>,
    /// Work at the holes, traffic control not included.
    pub duration: Figure<Time>,
}

/// The sums of a day's round.
#[derive(Debug, Clone, PartialEq)]
pub struct DayTotals {
    /// The whole day; `None` when nothing is done.
    pub day: Option<Totals>,
    /// Each trip, in order.
    pub trips: Vec<Totals>,
    /// Each road that is worked on, in the order of the round.
    pub roads: Vec<RoadTotals>,
}

/// The sums of one road.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadTotals {
    /// Its name.
    pub road: String,
    /// Its sums.
    pub totals: Totals,
}
