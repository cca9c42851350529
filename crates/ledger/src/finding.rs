//! What somebody has to look at.

use jiff::civil::Date;
use model::record::stock::{StockItem, StockPlace};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::Serialize;
use uuid::Uuid;

/// Something in the books that somebody has to look at.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Finding {
    /// What kind.
    pub kind: FindingKind,
    /// Where.
    pub place: Option<StockPlace>,
    /// What.
    pub item: Option<StockItem>,
    /// Event that it was seen at.
    pub event: Option<Uuid>,
    /// Day that it is of.
    #[schemars(with = "String", extend("format" = "date"))]
    pub day: Date,
    /// How much, in the unit of the item.
    pub amount: Option<Decimal>,
    /// In words.
    pub words: String,
}

/// Kinds of findings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FindingKind {
    /// Devices stand at a zone that is closed.
    DevicesLeft,
    /// A zone of an earlier day is not closed.
    ZoneNotClosed,
    /// More was taken from a place than the books know of there.
    BelowZero,
    /// An event says something that can't be, and is not counted.
    NotCounted,
    /// Nobody knows which crew's truck the material came from.
    CrewUnknown,
    /// What was moved into a repair by hand and what its layers and seal say differ.
    MovedAndToldDiffer,
    /// Goods came in without a price.
    NoPrice,
    /// A price stands on a move that is not from a supplier.
    PriceNotUsed,
    /// A lot was named that the books do not have there, or not as much of it.
    LotNotThere,
    /// Goods are past the last day on which they may be used.
    PastUseBy,
    /// Goods were used past their last day.
    UsedPastUseBy,
}

impl FindingKind {
    /// The word of it, as in JSON.
    pub fn word(self) -> &'static str {
        match self {
            FindingKind::DevicesLeft => "devices_left",
            FindingKind::ZoneNotClosed => "zone_not_closed",
            FindingKind::BelowZero => "below_zero",
            FindingKind::NotCounted => "not_counted",
            FindingKind::CrewUnknown => "crew_unknown",
            FindingKind::MovedAndToldDiffer => "moved_and_told_differ",
            FindingKind::NoPrice => "no_price",
            FindingKind::PriceNotUsed => "price_not_used",
            FindingKind::LotNotThere => "lot_not_there",
            FindingKind::PastUseBy => "past_use_by",
            FindingKind::UsedPastUseBy => "used_past_use_by",
        }
    }
}
