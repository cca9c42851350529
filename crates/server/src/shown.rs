//! What the server knows of its district besides the record: passed in, since reading files is not its business.

use std::sync::Arc;

use feeds::{Extent, Feature, RoadTiles};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use ledger::Period;
use model::district::{DrivingSide, UnitSystem};
use model::place::LonLat;
use serde::Serialize;
use utoipa::ToSchema;

/// A district as others see it.
#[derive(Debug, Clone)]
pub struct District {
    /// Its name.
    pub name: String,
    /// Where it is, roughly: what tells which local grid is offered. `None`: not known.
    pub middle: Option<LonLat>,
    /// Its roads, ready to be given out.
    pub roads: Vec<Feature>,
    /// Where all roads together are.
    pub road_extent: Extent,
    /// What the licence of the road file asks to be said.
    pub road_attribution: Option<String>,
    /// What its books need, and its time zone. The period is that of each request; the one here counts for none.
    pub books: ledger::Settings,
    /// The roads for a map. `None`: there are none.
    pub tiles: Option<Arc<RoadTiles>>,
    /// What its file says. `None`: there is none.
    pub file: Option<DistrictFile>,
}

/// What a district file says that people are shown.
#[derive(Debug, Clone)]
pub struct DistrictFile {
    /// Language of the district.
    pub language: String,
    /// Units to show.
    pub units: UnitSystem,
    /// Side of the road that traffic keeps to.
    pub driving_side: DrivingSide,
    /// All crews.
    pub crews: Vec<CrewShown>,
    /// Depots, stockpiles and tips.
    pub yards: Vec<YardShown>,
    /// Binders by name.
    pub binders: Vec<String>,
}

/// A crew.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CrewShown {
    /// Its name.
    pub name: String,
    /// People in all.
    pub people: u32,
    /// `07:00`, by the district's clock.
    pub shift_start: String,
    /// Likewise.
    pub shift_end: String,
    /// Name of its truck.
    pub truck: String,
    /// Name of its depot.
    pub depot: String,
}

/// A place where trucks load or tip.
#[derive(Debug, Clone)]
pub struct YardShown {
    /// Its name.
    pub name: String,
    /// Where.
    pub position: LonLat,
    /// What it is.
    pub kind: YardKind,
}

/// What a yard is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum YardKind {
    Depot,
    Stockpile,
    Tip,
}

impl Default for District {
    /// A district of which nothing is known yet.
    fn default() -> Self {
        Self {
            name: "a district".to_owned(),
            middle: None,
            roads: Vec::new(),
            road_extent: Extent::default(),
            road_attribution: None,
            books: ledger::Settings::new(Period { from: Date::ZERO, to: Date::ZERO }, TimeZone::UTC),
            tiles: None,
            file: None,
        }
    }
}
