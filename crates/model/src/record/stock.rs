//! Stock as it is moved and counted.

use jiff::civil::Date;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// Where stock is, comes from or goes to.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "at", rename_all = "snake_case", deny_unknown_fields)]
pub enum StockPlace {
    /// Outside: somebody who sells or lends it. What comes from here is received.
    Supplier {
        /// Name.
        name: String,
    },
    /// A depot or supply place of the district.
    Depot {
        /// Name, as in the district file.
        name: String,
    },
    /// A crew's truck.
    Truck {
        /// Name of the crew, as in the district file.
        crew: String,
    },
    /// Devices that stand on the road at a zone.
    Zone {
        /// Which.
        zone: Uuid,
    },
    /// In a repair. What goes here is used.
    Repair {
        /// Which.
        repair: Uuid,
    },
    /// Thrown away, spilt, gone off, lost. What goes here is wasted.
    Waste {
        /// Why.
        why: String,
    },
}

/// A thing that is held in stock.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StockItem {
    /// What kind of thing.
    pub what: StockKind,
    /// Which of the kind: a grade, a product, a sign's designation. Empty where there is only one.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub which: String,
}

/// Kinds of things held in stock; each is counted in one unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum StockKind {
    Base,
    CoverStone,
    Binder,
    Water,
    Spoil,
    Sign,
    Cone,
    OtherDevice,
}

/// What stock is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum StockUnit {
    /// Cubic metres, loose.
    CubicMetres,
    /// Litres.
    Litres,
    /// Pieces.
    Pieces,
}

/// A lot that was delivered together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StockLot {
    /// Its number on the delivery note.
    pub number: String,
    /// Last day on which it may be used, where it keeps only so long.
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub use_by: Option<Date>,
}

/// Money as an exact decimal, in the district's currency.
pub type Money = Decimal;

impl StockKind {
    /// All.
    pub const ALL: [StockKind; 8] = [
        StockKind::Base,
        StockKind::CoverStone,
        StockKind::Binder,
        StockKind::Water,
        StockKind::Spoil,
        StockKind::Sign,
        StockKind::Cone,
        StockKind::OtherDevice,
    ];

    /// What it is counted in.
    pub fn unit(self) -> StockUnit {
        match self {
            StockKind::Base | StockKind::CoverStone | StockKind::Spoil => StockUnit::CubicMetres,
            StockKind::Binder | StockKind::Water => StockUnit::Litres,
            StockKind::Sign | StockKind::Cone | StockKind::OtherDevice => StockUnit::Pieces,
        }
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            StockKind::Base => "base",
            StockKind::CoverStone => "cover stone",
            StockKind::Binder => "binder",
            StockKind::Water => "water",
            StockKind::Spoil => "spoil",
            StockKind::Sign => "signs",
            StockKind::Cone => "cones",
            StockKind::OtherDevice => "other devices",
        }
    }
}

impl StockUnit {
    /// Its symbol.
    pub fn symbol(self) -> &'static str {
        match self {
            StockUnit::CubicMetres => "m³",
            StockUnit::Litres => "l",
            StockUnit::Pieces => "pieces",
        }
    }
}
