//! Looks at earlier repairs: what a crew needs to find each, and where it marks what it found.

use model::look::{LookReason, PlannedLook};
use model::plan::Plan;
use serde::Serialize;

use super::words;
use crate::display::Units;
use crate::drawing::look_letter;
use crate::printable::shorten;

/// One look, to be ticked.
#[derive(Debug, Serialize)]
pub struct LookRow {
    letter: String,
    road: String,
    /// Along the road, and on which side.
    place: String,
    /// Where that counts from.
    counts: String,
    /// As navigators take it.
    degrees: String,
    /// When it was mended and how large it is, as far as known.
    made: String,
    why: String,
}

/// In the order of the round.
pub fn looks(plan: &Plan, units: Units) -> Vec<LookRow> {
    plan.looks.iter().enumerate().map(|(index, look)| row(units, index, look)).collect()
}

fn row(units: Units, index: usize, look: &PlannedLook) -> LookRow {
    let opened = look.opened.map(|day| units.words.say_with("sheet-look-mended", [("day", day.to_string().into())]));
    let made: Vec<String> = opened.into_iter().chain(look.area.map(|area| units.area(area))).collect();
    let (message, days) = match look.why {
        LookReason::AfterOpening { days } => ("sheet-look-after-opening", days),
        LookReason::FoundWorn { days } => ("sheet-look-found-worn", days),
    };
    LookRow {
        letter: look_letter(index),
        road: shorten(&look.road, 48),
        place: units.list(&[units.chainage(look.position.chainage), words::side(units, look.position.side)]),
        counts: words::chainage_rule(units, &look.chainage_from, &look.chainage_towards),
        degrees: words::degrees(units, look.place),
        made: units.list(&made),
        why: units.words.say_with(message, [("days", usize::from(days).into())]),
    }
}
