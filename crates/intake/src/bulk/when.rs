//! Times as exports write them.

use jiff::Timestamp;
use jiff::civil::{Date, DateTime, Time};
use jiff::fmt::strtime;
use jiff::tz::TimeZone;

/// How dates with slashes are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SlashOrder {
    /// `11/20/2026`.
    MonthFirst,
    /// `20/11/2026`.
    DayFirst,
}

/// A time that was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct When {
    /// The moment; `None` where only a day is told.
    pub at: Option<Timestamp>,
    /// The day in the district's time.
    pub day: Date,
    /// Whether it named its zone, or is a day, which needs none.
    pub has_zone: bool,
}

/// Why a time can't be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhenFault {
    /// Dates with slashes, and nobody said how they are written.
    Slashes,
    /// No time that is known here.
    Unreadable,
}

/// Reads a time. One that falls into the hour that is left out or comes twice when clocks are changed is taken as the clock
/// before the change.
pub fn read(text: &str, zone: &TimeZone, slashes: Option<SlashOrder>) -> Result<When, WhenFault> {
    if text.contains('/') {
        let order = slashes.ok_or(WhenFault::Slashes)?;
        return with_slashes(text, order).and_then(|clock| of_clock(clock, zone)).ok_or(WhenFault::Unreadable);
    }
    if text.len() == 10 {
        let day: Date = text.parse().map_err(|_| WhenFault::Unreadable)?;
        return Ok(When { at: None, day, has_zone: true });
    }
    // Reading a clock stops at no offset: what has one is a moment.
    if let Ok(at) = text.parse::<Timestamp>() {
        return Ok(When { at: Some(at), day: zone.to_datetime(at).date(), has_zone: true });
    }
    let clock = text.parse::<DateTime>().ok();
    clock.and_then(|clock| of_clock(clock, zone)).ok_or(WhenFault::Unreadable)
}

fn of_clock(clock: DateTime, zone: &TimeZone) -> Option<When> {
    let at = zone.to_timestamp(clock).ok()?;
    Some(When { at: Some(at), day: clock.date(), has_zone: false })
}

fn with_slashes(text: &str, order: SlashOrder) -> Option<DateTime> {
    let (date, time) = text.split_once(' ').map_or((text, ""), |(date, time)| (date, time.trim()));
    let format = match order {
        SlashOrder::MonthFirst => "%m/%d/%Y",
        SlashOrder::DayFirst => "%d/%m/%Y",
    };
    let date = strtime::parse(format, date).ok()?.to_date().ok()?;
    let formats = ["%I:%M:%S %p", "%H:%M:%S", "%I:%M %p", "%H:%M"];
    let read = |format: &&str| strtime::parse(format, time).ok()?.to_time().ok();
    let time = if time.is_empty() { Time::midnight() } else { formats.iter().find_map(read)? };
    Some(date.to_datetime(time))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_exports_write_them() {
        let zone = TimeZone::get("America/New_York").unwrap();
        let read = |text: &str, order| {
            read(text, &zone, order).map(|when| (when.at.map(|at| at.to_string()), when.day.to_string(), when.has_zone))
        };
        let moment = |text: &str, day: &str, has_zone| Ok((Some(text.to_owned()), day.to_owned(), has_zone));
        assert_eq!(read("2016-04-12 07:54:00.0", None), moment("2016-04-12T11:54:00Z", "2016-04-12", false));
        assert_eq!(read("2016-04-12T23:54:00-05:00", None), moment("2016-04-13T04:54:00Z", "2016-04-13", true));
        assert_eq!(read("2016-04-13T03:54:00Z", None), moment("2016-04-13T03:54:00Z", "2016-04-12", true));
        assert_eq!(read("2016-04-12", None), Ok((None, "2016-04-12".into(), true)));
        assert_eq!(read("04/12/2016 07:54:00 PM", None), Err(WhenFault::Slashes));
        let month_first = Some(SlashOrder::MonthFirst);
        assert_eq!(read("04/12/2016 07:54:00 PM", month_first), moment("2016-04-12T23:54:00Z", "2016-04-12", false));
        assert_eq!(
            read("12/04/2016 19:54", Some(SlashOrder::DayFirst)),
            moment("2016-04-12T23:54:00Z", "2016-04-12", false)
        );
        assert_eq!(read("20/04/2016", month_first), Err(WhenFault::Unreadable));
        for text in ["", "soon", "2016-13-01", "2016-04-12 25:00", "12.04.2016"] {
            assert_eq!(read(text, None), Err(WhenFault::Unreadable), "{text}");
        }
        // The clock is set from 2 to 3 o'clock: half past two is not there, and is half past three.
        assert_eq!(read("2016-03-13 02:30:00", None), moment("2016-03-13T07:30:00Z", "2016-03-13", false));
    }
}
