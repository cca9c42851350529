//! Looks at repairs made before.

use jiff::civil::Date;
use model::look::{LookLeft, PlannedLook};
use model::quantity::{InArea, InLength, InTime};
use schemars::JsonSchema;
use serde::Serialize;
use uuid::Uuid;

use super::day::place;
use super::figures::round;

/// A look on the round: a short stop off the carriageway, no work zone.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Look")]
pub struct LookJson {
    /// The repair's number in the record, which what is found is told of.
    #[schemars(with = "String")]
    repair: Uuid,
    /// Where the truck stops.
    place: [f64; 2],
    road: String,
    chainage_m: f64,
    /// Where the chainage counts from, and towards what.
    chainage_from: String,
    chainage_towards: String,
    /// Whether it is due; else it is made because the crew passes by.
    due: bool,
    why: String,
    /// Day on which traffic first ran over it, where known.
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    opened: Option<Date>,
    /// Area cut, where told.
    area_m2: Option<f64>,
    stop_s: f64,
    /// How much further the crew drives for it.
    detour_s: u32,
    detour_m: f64,
}

/// A wanted look that is on no round.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "LookLeft")]
pub struct LookLeftJson {
    /// The repair's number in the record.
    #[schemars(with = "String")]
    repair: Uuid,
    words: String,
}

impl From<&PlannedLook> for LookJson {
    fn from(look: &PlannedLook) -> Self {
        LookJson {
            repair: look.repair,
            place: place(look.place),
            road: look.road.clone(),
            chainage_m: round(look.position.chainage.in_metres()),
            chainage_from: look.chainage_from.clone(),
            chainage_towards: look.chainage_towards.clone(),
            due: look.is_due,
            opened: look.opened,
            area_m2: look.area.map(|area| round(area.in_square_metres())),
            why: look.why.to_string(),
            stop_s: round(look.stop.in_seconds()),
            detour_s: look.detour_s,
            detour_m: round(look.detour.in_metres()),
        }
    }
}

impl From<&LookLeft> for LookLeftJson {
    fn from(left: &LookLeft) -> Self {
        LookLeftJson { repair: left.repair, words: left.words.clone() }
    }
}
