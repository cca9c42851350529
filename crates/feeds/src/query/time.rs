//! The parameter `datetime` (OGC 17-069r4, 7.15.4).

use jiff::Timestamp;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;

use super::Wrong;

/// From a moment to another, both included; open where one is `None`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Interval {
    /// The beginning.
    pub from: Option<Timestamp>,
    /// The end.
    pub to: Option<Timestamp>,
}

impl Interval {
    /// Whether the two have a moment in common.
    pub fn meets(&self, other: &Interval) -> bool {
        let before =
            |end: Option<Timestamp>, start: Option<Timestamp>| matches!((end, start), (Some(e), Some(s)) if e < s);
        !before(self.to, other.from) && !before(other.to, self.from)
    }

    /// The interval around both.
    #[must_use]
    pub fn with(&self, other: &Interval) -> Interval {
        Interval {
            from: self.from.zip(other.from).map(|(a, b)| a.min(b)),
            to: self.to.zip(other.to).map(|(a, b)| a.max(b)),
        }
    }
}

const RIGHT: &str = "a moment as RFC 3339 has it, 2026-06-09T07:15:00Z, a day of universal time, 2026-06-09, or two of them \
                     with a `/` between, one of which may be `..`";

pub(super) fn read(text: &str) -> Result<Interval, Wrong> {
    let interval = match text.split_once('/') {
        None => one(text)?,
        Some((from, to)) => Interval { from: end(from)?.from, to: end(to)?.to },
    };
    match (interval.from, interval.to) {
        (Some(from), Some(to)) if from > to => {
            Err((format!("{text:?} ends before it begins"), "the earlier moment first".to_owned()))
        }
        _ => Ok(interval),
    }
}

fn end(text: &str) -> Result<Interval, Wrong> {
    if text.is_empty() || text == ".." { Ok(Interval::default()) } else { one(text) }
}

/// A moment, or a day of universal time.
fn one(text: &str) -> Result<Interval, Wrong> {
    let day = |date: Date| {
        let at = |time: Time| TimeZone::UTC.to_timestamp(date.to_datetime(time)).ok();
        Some(Interval { from: Some(at(Time::MIN)?), to: Some(at(Time::MAX)?) })
    };
    let interval = date(text).and_then(day).or_else(|| {
        let moment = moment(text)?;
        Some(Interval { from: Some(moment), to: Some(moment) })
    });
    interval.ok_or_else(|| {
        let plus = if text.contains(' ') { "; a `+` in an address is written %2B" } else { "" };
        (format!("{text:?} is no moment"), format!("{RIGHT}{plus}"))
    })
}

/// `2026-06-09` and nothing else.
pub(super) fn date(text: &str) -> Option<Date> {
    shaped(text, "dddd-dd-dd").then(|| text.parse().ok()).flatten()
}

/// A `date-time` of RFC 3339, section 5.6, and nothing else that the library reads.
pub(super) fn moment(text: &str) -> Option<Timestamp> {
    let (day_and_time, rest) = text.is_ascii().then(|| text.split_at_checked(19)).flatten()?;
    let fraction = rest.strip_prefix('.').map_or(0, |rest| 1 + rest.bytes().take_while(u8::is_ascii_digit).count());
    let offset = &rest[fraction..];
    let right = (shaped(day_and_time, "dddd-dd-ddTdd:dd:dd") || shaped(day_and_time, "dddd-dd-ddtdd:dd:dd"))
        && fraction != 1
        && (matches!(offset, "Z" | "z") || shaped(offset, "+dd:dd") || shaped(offset, "-dd:dd"));
    right.then(|| text.parse().ok()).flatten()
}

/// Whether a text is of that shape; `d` is any digit.
fn shaped(text: &str, shape: &str) -> bool {
    text.len() == shape.len()
        && text
            .bytes()
            .zip(shape.bytes())
            .all(|(byte, shape)| if shape == b'd' { byte.is_ascii_digit() } else { byte == shape })
}
