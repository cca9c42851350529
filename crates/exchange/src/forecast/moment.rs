//! One moment as a forecast writes it: with its offset from Greenwich, or by the clock of the district.

use jiff::Timestamp;
use jiff::civil::DateTime;
use jiff::tz::{AmbiguousOffset, Offset, TimeZone};
use model::problem::{Locator, Problem};

use crate::table::refused;

/// Reads `2026-06-09T07:00:00+02:00`, `2026-06-09T05:00:00Z`, or `2026-06-09 07:00` by the clock of `zone`. A clock time
/// that comes twice or never on the day the clock is changed is refused with what would be right.
pub fn moment(text: &str, at: &Locator, zone: &TimeZone) -> Result<Timestamp, Box<Problem>> {
    if let Ok(time) = text.parse::<Timestamp>() {
        return Ok(time);
    }
    let clock = text.parse::<DateTime>().ok().filter(|_| text.contains(':')).ok_or_else(|| {
        let wrong = format!("`{text}` is not a date with a time of day");
        let right = "write e.g. 2026-06-09T07:00:00+02:00, or 2026-06-09 07:00 by the district's clock".into();
        Box::new(refused("forecast.time.unreadable", at.clone(), wrong, right))
    })?;
    let with = |offset: Offset| {
        let time = offset.to_timestamp(clock);
        time.map_or_else(|_| String::from("another time"), |time| on_the_clock(time, zone))
    };
    match zone.to_ambiguous_timestamp(clock).offset() {
        AmbiguousOffset::Unambiguous { offset } => offset.to_timestamp(clock).map_err(|_| {
            let wrong = format!("`{text}` is beyond the years that are known");
            Box::new(refused("forecast.time.unreadable", at.clone(), wrong, "write a time of these years".into()))
        }),
        AmbiguousOffset::Fold { before, after } => {
            let wrong = format!("the clock shows {clock} twice that day");
            let right = format!("write the offset too: {} or {}", with(before), with(after));
            Err(Box::new(refused("forecast.time.twice", at.clone(), wrong, right)))
        }
        AmbiguousOffset::Gap { before, .. } => {
            let wrong = format!("the clock never shows {clock}: it is put forward over it that day");
            let right = format!("write the time with its offset: {}, if it goes on from the hour before", with(before));
            Err(Box::new(refused("forecast.time.skipped", at.clone(), wrong, right)))
        }
    }
}

/// A moment as the district's clock shows it, with the offset, so that it can be written into the file as it is told.
pub fn on_the_clock(time: Timestamp, zone: &TimeZone) -> String {
    let zoned = time.to_zoned_datetime(zone.clone());
    zoned.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()
}
