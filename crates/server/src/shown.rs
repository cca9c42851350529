//! What the server knows of its district besides the record: passed in, since reading files is not its business.

use std::collections::BTreeMap;

use feeds::{Extent, Feature};
use jiff::tz::TimeZone;
use ledger::ReorderRule;
use model::place::LonLat;
use model::record::known::TimePrices;
use model::record::stock::StockKind;
use rust_decimal::Decimal;

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
    /// Its time zone.
    pub time_zone: TimeZone,
    /// Currency, three letters.
    pub currency: String,
    /// Prices of people and plant.
    pub prices: TimePrices,
    /// Which product is meant where nobody says.
    pub usual: BTreeMap<StockKind, String>,
    /// Depot of each crew.
    pub crew_depots: BTreeMap<String, String>,
    /// Depot of every other crew.
    pub depot: String,
    /// When to order what.
    pub reorder_rules: Vec<ReorderRule>,
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
            time_zone: TimeZone::UTC,
            currency: "XTS".to_owned(),
            prices: TimePrices { labour_per_h: Decimal::ZERO, plant_per_h: Decimal::ZERO },
            usual: BTreeMap::new(),
            crew_depots: BTreeMap::new(),
            depot: String::new(),
            reorder_rules: Vec::new(),
        }
    }
}
