//! What the books need besides the events.

use std::collections::BTreeMap;

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use model::record::known::TimePrices;
use model::record::stock::{StockItem, StockKind};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What the books need besides the events: which days, where, at what prices.
#[derive(Debug, Clone)]
pub struct Settings {
    /// The days that the books are of.
    pub period: Period,
    /// The district's time zone, in which days begin and end.
    pub time_zone: TimeZone,
    /// Prices of labour and plant, from nothing to [`crate::GREATEST`]; what is beyond is taken as that.
    pub prices: TimePrices,
    /// The currency, three letters, for headings.
    pub currency: String,
    /// Decimals that money is shown with; the books themselves hold six.
    pub money_decimals: u32,
    /// Which of its kind is meant where nobody says: base, cover stone, binder by the names of the district file.
    pub usual: BTreeMap<StockKind, String>,
    /// The depot that each crew loads at; a crew that is not named loads at [`Self::depot`].
    pub crew_depots: BTreeMap<String, String>,
    /// The depot of every other crew.
    pub depot: String,
    /// When to order what.
    pub reorder_rules: Vec<ReorderRule>,
}

/// Days from the first to the last, both within.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Period {
    /// First day.
    #[schemars(with = "String", extend("format" = "date"))]
    pub from: Date,
    /// Last day.
    #[schemars(with = "String", extend("format" = "date"))]
    pub to: Date,
}

/// When to order an item for a depot: data of the agency.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReorderRule {
    /// Name of the depot.
    pub depot: String,
    /// What.
    pub item: StockItem,
    /// Calendar days from the order until the goods are there.
    pub lead_time_days: u32,
    /// What must never be gone below, in the unit of the item: from nothing to [`crate::GREATEST`]; what is beyond is taken as that.
    pub safety_stock: Decimal,
    /// What is ordered at once: amounts are rounded up to whole ones of these. Absent, or not more
    /// than nothing: any amount.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub order_unit: Option<Decimal>,
    /// Where these values are from.
    pub source: String,
}

impl Settings {
    /// Books of a period with no prices of time, no rules of ordering, and one depot without a name.
    pub fn new(period: Period, time_zone: TimeZone) -> Self {
        Self {
            period,
            time_zone,
            prices: TimePrices { labour_per_h: Decimal::ZERO, plant_per_h: Decimal::ZERO },
            currency: "XTS".to_owned(),
            money_decimals: 2,
            usual: BTreeMap::new(),
            crew_depots: BTreeMap::new(),
            depot: String::new(),
            reorder_rules: Vec::new(),
        }
    }

    /// The depot that a crew loads at.
    pub fn depot_of(&self, crew: &str) -> &str {
        self.crew_depots.get(crew).unwrap_or(&self.depot)
    }

    /// The local day of a moment.
    pub(crate) fn day(&self, at: Timestamp) -> Date {
        self.time_zone.to_datetime(at).date()
    }

    /// When the period begins, and when it is over: the first moment of its first day and of the day after its last.
    pub(crate) fn bounds(&self) -> (Timestamp, Timestamp) {
        let from = self.first_moment(self.period.from).unwrap_or(Timestamp::MIN);
        let after = self.period.to.checked_add(1.day()).ok().and_then(|day| self.first_moment(day));
        (from, after.unwrap_or(Timestamp::MAX))
    }

    fn first_moment(&self, day: Date) -> Option<Timestamp> {
        let midnight = day.to_datetime(Time::midnight());
        // where the clock skips midnight, the day begins when it goes on
        self.time_zone.to_ambiguous_timestamp(midnight).compatible().ok()
    }
}
