//! Places, items and amounts in words.

use model::record::stock::{StockItem, StockPlace, StockUnit};
use rust_decimal::Decimal;

use crate::facts::Facts;

/// The crew that stands for a crew nobody knows.
pub const UNKNOWN_CREW: &str = "unknown crew";

/// An item: `binder CRS-2`, `cones`.
pub fn item(item: &StockItem) -> String {
    let word = item.what.word();
    if item.which.is_empty() { word.to_owned() } else { format!("{word} {}", item.which) }
}

/// An amount of an item, to three decimals where that is not nothing: `0.35 m³ of base`, `3 cones`, `1 sign W20-1`.
pub fn amount(amount: Decimal, of: &StockItem) -> String {
    let rounded = amount.round_dp(3);
    let amount = if rounded.is_zero() { amount } else { rounded }.normalize();
    match of.what.unit() {
        StockUnit::Pieces => {
            let one = amount == Decimal::ONE;
            let word = if one { of.what.word().trim_end_matches('s') } else { of.what.word() };
            let which = if of.which.is_empty() { String::new() } else { format!(" {}", of.which) };
            format!("{amount} {word}{which}")
        }
        unit => format!("{amount} {} of {}", unit.symbol(), item(of)),
    }
}

/// A number of days: `1 day`, `3 days`.
pub fn days(count: i64) -> String {
    if count == 1 { "1 day".to_owned() } else { format!("{count} days") }
}

/// A place: `depot Osk Yard`, `truck of Crew Fulmar`, `zone on Kiln Lane`.
pub fn place(place: &StockPlace, facts: &Facts) -> String {
    match place {
        StockPlace::Supplier { name } => format!("supplier {name}"),
        StockPlace::Depot { name } => format!("depot {name}"),
        StockPlace::Truck { crew } => format!("truck of {crew}"),
        StockPlace::Zone { zone } => on_road("zone", facts.zones.get(zone).and_then(|zone| zone.road), *zone),
        StockPlace::Repair { repair } => on_road("repair", Some(facts.road_of(*repair)), *repair),
        StockPlace::Waste { why } if why.is_empty() => "waste".to_owned(),
        StockPlace::Waste { why } => format!("waste ({why})"),
    }
}

/// What kind of place, and its name: for tables.
pub fn place_cells(place: Option<&StockPlace>) -> (&'static str, String) {
    match place {
        None => ("count", String::new()),
        Some(StockPlace::Supplier { name }) => ("supplier", name.clone()),
        Some(StockPlace::Depot { name }) => ("depot", name.clone()),
        Some(StockPlace::Truck { crew }) => ("truck", crew.clone()),
        Some(StockPlace::Zone { zone }) => ("zone", zone.to_string()),
        Some(StockPlace::Repair { repair }) => ("repair", repair.to_string()),
        Some(StockPlace::Waste { why }) => ("waste", why.clone()),
    }
}

fn on_road(what: &str, road: Option<&str>, id: uuid::Uuid) -> String {
    match road {
        Some(road) if !road.is_empty() => format!("{what} on {road}"),
        _ => format!("{what} {id}"),
    }
}
