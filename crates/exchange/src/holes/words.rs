//! Date, position across the road, wet or dry. None of them is needed to mend a hole, so one that can't be read is
//! left out with a warning and the hole goes on.

use jiff::civil::Date;
use model::hole::LanePosition;

use super::row::{Cell, Findings};
use crate::suggest;

/// A date; one in the future is not used.
pub fn date(cell: &Cell, today: Date, findings: &mut Findings) -> Option<Date> {
    let day = cell.text.split(['T', 't', ' ']).next().unwrap_or_default();
    let is_iso = day.len() == 10 && day.as_bytes()[4] == b'-' && day.as_bytes()[7] == b'-';
    let Some(date) = day.parse::<Date>().ok().filter(|_| is_iso) else {
        let wrong = format!("date `{}` can't be read and is not used", cell.text);
        findings.warn("hole.date.unreadable", &cell.at, wrong, "write year-month-day, e.g. 2026-11-20");
        return None;
    };
    if date > today {
        let wrong = format!("date {date} is in the future and is not used");
        findings.warn("hole.date.future", &cell.at, wrong, format!("the day it was seen, {today} or before"));
        return None;
    }
    Some(date)
}

/// Where across the road.
pub fn lane_position(cell: &Cell, findings: &mut Findings) -> Option<LanePosition> {
    const KNOWN: [&str; 5] = ["lane", "wheel path", "edge", "shoulder", "centre"];
    let word = cell.text.to_lowercase().replace(['_', '-'], " ");
    let position = match word.as_str() {
        "lane" => LanePosition::Lane,
        "wheel path" | "wheelpath" => LanePosition::WheelPath,
        "edge" => LanePosition::Edge,
        "shoulder" => LanePosition::Shoulder,
        "centre" | "center" | "centre line" | "center line" | "centreline" | "centerline" => LanePosition::Centre,
        _ => {
            let wrong = format!("position `{}` is not known and is not used", cell.text);
            findings.warn("hole.position.unknown_word", &cell.at, wrong, suggest::hint(&word, &KNOWN));
            return None;
        }
    };
    Some(position)
}

/// Wet or dry.
pub fn wet(cell: &Cell, findings: &mut Findings) -> Option<bool> {
    match cell.text.to_lowercase().as_str() {
        "wet" | "yes" | "true" | "1" | "y" => Some(true),
        "dry" | "no" | "false" | "0" | "n" => Some(false),
        _ => {
            let wrong = format!("`{}` is neither wet nor dry and is not used", cell.text);
            findings.warn("hole.wet.unknown_word", &cell.at, wrong, "write wet or dry, yes or no");
            None
        }
    }
}
