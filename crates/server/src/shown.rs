//! What the server knows of its district besides the record: passed in, since reading files is not its business.

use feeds::{Extent, Feature};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use ledger::Period;
use model::place::LonLat;

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
        }
    }
}
