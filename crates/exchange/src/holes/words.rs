//! Date, position across the road, wetness, earlier repairs. None of them is needed to mend a hole, so one that can't be read is
//! left out with a warning and the hole goes on.

use jiff::civil::Date;
use model::hole::{EarlierRepairs, LanePosition, Wetness};

use super::row::{Cell, Findings};
use crate::suggest;

/// A date; one in the future is not used.
pub fn date(cell: &Cell, today: Date, findings: &mut Findings) -> Option<Date> {
    let day = cell.text.split(['T', 't', ' ']).next().unwrap_or_default();
    let Some(date) = iso_day(day) else {
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

/// How wet the hole and its base are.
pub fn wetness(cell: &Cell, findings: &mut Findings) -> Option<Wetness> {
    let word = cell.text.to_lowercase();
    let known = match word.as_str() {
        "yes" | "true" | "1" | "y" => Some(Wetness::Wet),
        "no" | "false" | "0" | "n" => Some(Wetness::Dry),
        "moist" => Some(Wetness::Damp),
        "seeping" => Some(Wetness::Seepage),
        word => Wetness::ALL.into_iter().find(|wetness| wetness.word() == word),
    };
    if known.is_none() {
        let wrong = format!("`{}` does not say how wet it is and is not used", cell.text);
        let right = "write dry, damp, wet, seepage or pumping (yes and no are wet and dry)";
        findings.warn("hole.wet.unknown_word", &cell.at, wrong, right);
    }
    known
}

/// Repairs made there before: how many, or on which days.
pub fn repairs(cell: &Cell, today: Date, findings: &mut Findings) -> Option<EarlierRepairs> {
    /// More than this at one place is a slip of the pen.
    const BELIEVED: u32 = 100;
    if let Some(count) = cell.text.parse::<u32>().ok().filter(|count| *count <= BELIEVED) {
        return Some(EarlierRepairs::Count(count));
    }
    let parts = cell.text.split([';', ',', ' ']).filter(|part| !part.is_empty());
    let days: Option<Vec<Date>> = parts.map(|day| iso_day(day).filter(|day| *day <= today)).collect();
    let Some(mut days) = days.filter(|days| !days.is_empty()) else {
        let wrong = format!("earlier repairs `{}` can't be read and are not used", cell.text);
        let right = format!("write how many (0 to {BELIEVED}), or their days, e.g. 2025-11-04; 2026-03-18");
        findings.warn("hole.repairs.unreadable", &cell.at, wrong, right);
        return None;
    };
    days.sort_unstable();
    days.dedup();
    Some(EarlierRepairs::Days(days))
}

/// A day written year-month-day, with leading zeros.
fn iso_day(text: &str) -> Option<Date> {
    let is_iso = text.len() == 10 && text.as_bytes()[4] == b'-' && text.as_bytes()[7] == b'-';
    text.parse::<Date>().ok().filter(|_| is_iso)
}
