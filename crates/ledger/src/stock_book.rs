//! What a stock book consists of: moves, balances, totals, lots.

use std::sync::Arc;

use jiff::Timestamp;
use jiff::civil::Date;
use model::record::stock::{Money, StockItem, StockLot, StockPlace};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Serialize, Serializer};
use uuid::Uuid;

use crate::lots::LotAmount;

/// Something that went from one place to another, or that a count found or missed.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct StockMove {
    /// Event that says so.
    pub event: Uuid,
    /// When.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
    /// Day in the district's time zone.
    #[schemars(with = "String", extend("format" = "date"))]
    pub day: Date,
    /// What kind of event says so.
    pub told_by: ToldBy,
    /// From where; absent: found by count.
    #[serde(serialize_with = "inner_of_some")]
    pub from: Option<Arc<StockPlace>>,
    /// To where; absent: missed by count.
    #[serde(serialize_with = "inner_of_some")]
    pub to: Option<Arc<StockPlace>>,
    /// What.
    #[serde(serialize_with = "inner")]
    pub item: Arc<StockItem>,
    /// How much, in the unit of the item.
    pub amount: Decimal,
    /// What it is worth, all of it.
    pub value: Money,
    /// Lots that it is of, as far as known.
    pub lots: Vec<LotAmount>,
}

/// What kind of event a move comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ToldBy {
    /// Somebody booked it.
    Move,
    /// A layer was placed.
    Layer,
    /// A repair was sealed.
    Seal,
    /// Stock was counted.
    Count,
}

/// What came in and went out, each nothing or more but for what was found. All in one measure: the unit of the item, or money.
///
/// `opened + received - returned + taken_out - used - wasted + moved_in - moved_out + found = closed`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct Flows {
    /// There at the beginning of the period.
    pub opened: Decimal,
    /// From suppliers.
    pub received: Decimal,
    /// Back to suppliers.
    pub returned: Decimal,
    /// Out of repairs to here: spoil dug, or material taken out again.
    pub taken_out: Decimal,
    /// Into repairs.
    pub used: Decimal,
    /// Thrown away, spilt, gone off, lost.
    pub wasted: Decimal,
    /// From other places of the district.
    pub moved_in: Decimal,
    /// To other places of the district.
    pub moved_out: Decimal,
    /// Found by count, or again after it was written off; below nothing: missed by count.
    pub found: Decimal,
    /// There at the end of the period.
    pub closed: Decimal,
}

/// The book of one item at one place.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Balance {
    /// Where: a depot, a truck, a zone or a repair.
    #[serde(serialize_with = "inner")]
    pub place: Arc<StockPlace>,
    /// What.
    #[serde(serialize_with = "inner")]
    pub item: Arc<StockItem>,
    /// Amounts, in the unit of the item.
    pub amount: Flows,
    /// What is there at the end is worth this.
    pub value: Money,
    /// Average price of one at the end, or the last there was.
    pub average_price: Option<Money>,
}

/// The book of one item over all depots, trucks and zones, in amounts and in money.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ItemTotal {
    /// What.
    #[serde(serialize_with = "inner")]
    pub item: Arc<StockItem>,
    /// Amounts, in the unit of the item.
    pub amount: Sums,
    /// What they are worth.
    pub value: Sums,
}

/// What an item came to over all depots, trucks and zones.
///
/// `opened + bought - into_repairs - wasted + found - price_difference = closed`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct Sums {
    /// There at the beginning of the period.
    pub opened: Decimal,
    /// From suppliers, less what went back.
    pub bought: Decimal,
    /// Into repairs, less what came out of them.
    pub into_repairs: Decimal,
    /// Thrown away, less what turned up again.
    pub wasted: Decimal,
    /// Found by count; below nothing: missed.
    pub found: Decimal,
    /// By how much stock that was overdrawn cost more when it came than it was taken out at; nothing for amounts.
    pub price_difference: Decimal,
    /// There at the end of the period.
    pub closed: Decimal,
}

/// A lot at a place at the end of the period.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct LotBalance {
    /// Where.
    #[serde(serialize_with = "inner")]
    pub place: Arc<StockPlace>,
    /// What.
    #[serde(serialize_with = "inner")]
    pub item: Arc<StockItem>,
    /// The lot.
    pub lot: StockLot,
    /// How much.
    pub amount: Decimal,
}

impl Flows {
    /// What has to be there at the end by what was there and what came and went.
    pub fn expected(&self) -> Decimal {
        self.opened + self.received - self.returned + self.taken_out - self.used - self.wasted + self.moved_in
            - self.moved_out
            + self.found
    }

    /// Without noughts that say nothing: the same numbers are always written the same.
    pub(crate) fn plain(self) -> Self {
        Self {
            opened: self.opened.normalize(),
            received: self.received.normalize(),
            returned: self.returned.normalize(),
            taken_out: self.taken_out.normalize(),
            used: self.used.normalize(),
            wasted: self.wasted.normalize(),
            moved_in: self.moved_in.normalize(),
            moved_out: self.moved_out.normalize(),
            found: self.found.normalize(),
            closed: self.closed.normalize(),
        }
    }

    /// Whether nothing is, was, came or went.
    pub fn is_empty(&self) -> bool {
        *self == Flows::default()
    }
}

impl Sums {
    /// What has to be there at the end by what was there and what came and went.
    pub fn expected(&self) -> Decimal {
        self.opened + self.bought - self.into_repairs - self.wasted + self.found - self.price_difference
    }

    /// Without noughts that say nothing: the same numbers are always written the same.
    pub(crate) fn plain(self) -> Self {
        Self {
            opened: self.opened.normalize(),
            bought: self.bought.normalize(),
            into_repairs: self.into_repairs.normalize(),
            wasted: self.wasted.normalize(),
            found: self.found.normalize(),
            price_difference: self.price_difference.normalize(),
            closed: self.closed.normalize(),
        }
    }
}

impl ToldBy {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            ToldBy::Move => "move",
            ToldBy::Layer => "layer",
            ToldBy::Seal => "seal",
            ToldBy::Count => "count",
        }
    }
}

fn inner<T: Serialize, S: Serializer>(value: &Arc<T>, serializer: S) -> Result<S::Ok, S::Error> {
    value.as_ref().serialize(serializer)
}

#[allow(clippy::ref_option)] // as serde asks
fn inner_of_some<T: Serialize, S: Serializer>(value: &Option<Arc<T>>, serializer: S) -> Result<S::Ok, S::Error> {
    value.as_deref().serialize(serializer)
}
