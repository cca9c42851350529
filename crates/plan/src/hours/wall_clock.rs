//! Spans of time as the clock on the wall shows them on one date. On the day the clock is changed some times are shown
//! twice and some never.

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use model::round::SecondOfDay;

use super::spans::{Span, joined, less};

/// Seconds of a day on the wall.
const DAY_S: i64 = 86_400;

/// One date by the clock of one time zone.
pub struct WallClock {
    /// Stretches of time with one offset each, which hold the date whatever the clock does: from and to in Unix seconds,
    /// and what to add for the second of the date.
    stretches: Vec<(i64, i64, i64)>,
}

impl WallClock {
    /// The date's own clock.
    pub fn new(date: Date, zone: &TimeZone) -> Self {
        let midnight = unix_s(date.at(0, 0, 0, 0));
        // No offset is more than a day and a bit from Greenwich, and no change of the clock more than a day.
        let (begin, end) = (midnight - 3 * DAY_S, midnight + 4 * DAY_S);
        let Ok(first) = Timestamp::from_second(begin) else { return WallClock { stretches: Vec::new() } };
        let changes = zone.following(first).map(|change| change.timestamp().as_second());
        let changes: Vec<i64> = changes.take_while(|second| *second < end).collect();
        let begins = std::iter::once(begin).chain(changes.iter().copied());
        let ends = changes.iter().copied().chain([end]);
        let stretch = |(from, to): (i64, i64)| {
            let offset = zone.to_offset(Timestamp::from_second(from).ok()?);
            Some((from, to, i64::from(offset.seconds()) - midnight))
        };
        WallClock { stretches: begins.zip(ends).filter_map(stretch).collect() }
    }

    /// What the clock shows of the date from one moment (Unix seconds) to another; ascending, apart.
    pub fn shown(&self, from: i64, to: i64) -> Vec<Span> {
        let of_stretch = |(begin, end, shift): &(i64, i64, i64)| {
            let second = |moment: i64| SecondOfDay((moment + shift).clamp(0, DAY_S) as u32);
            (second(from.max(*begin)), second(to.min(*end)))
        };
        joined(self.stretches.iter().map(of_stretch))
    }

    /// Times that the clock never shows on the date.
    pub fn never_shown(&self) -> Vec<Span> {
        less(&[(SecondOfDay(0), SecondOfDay(DAY_S as u32))], &self.shown(i64::MIN, i64::MAX))
    }

    /// First and last moment, in Unix seconds, that can have to do with the date.
    pub fn reach(&self) -> Option<(i64, i64)> {
        Some((self.stretches.first()?.0, self.stretches.last()?.1))
    }
}

/// A clock reading as though it were of Greenwich.
fn unix_s(clock: jiff::civil::DateTime) -> i64 {
    TimeZone::UTC.to_timestamp(clock).map_or(0, Timestamp::as_second)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Spans of one date in hours and minutes, by the zone database.
    #[test]
    fn what_the_clock_shows_on_days_it_is_changed() {
        let hm = SecondOfDay::hm;
        let day = (hm(0, 0), hm(24, 0));
        let clock = |zone: &str, date: &str| WallClock::new(date.parse().unwrap(), &TimeZone::get(zone).unwrap());
        let of = |clock: &WallClock, from: &str, to: &str| {
            let second = |text: &str| text.parse::<Timestamp>().unwrap().as_second();
            clock.shown(second(from), second(to))
        };
        let plain = clock("Europe/Berlin", "2026-06-09");
        assert_eq!(plain.never_shown(), []);
        assert_eq!(of(&plain, "2026-06-09T05:00:00Z", "2026-06-09T06:30:00Z"), [(hm(7, 0), hm(8, 30))]);
        assert_eq!(of(&plain, "2026-06-08T20:00:00Z", "2026-06-08T23:00:00Z"), [(hm(0, 0), hm(1, 0))]);
        assert_eq!(of(&plain, "2026-06-08T20:00:00Z", "2026-06-08T22:00:00Z"), [], "the day before");

        let forward = clock("Europe/Berlin", "2026-03-29");
        assert_eq!(forward.never_shown(), [(hm(2, 0), hm(3, 0))]);
        let night = of(&forward, "2026-03-29T00:30:00Z", "2026-03-29T01:30:00Z");
        assert_eq!(night, [(hm(1, 30), hm(2, 0)), (hm(3, 0), hm(3, 30))]);

        let back = clock("Europe/Berlin", "2026-10-25");
        assert_eq!(back.never_shown(), []);
        for (from, to) in
            [("2026-10-25T00:00:00Z", "2026-10-25T00:30:00Z"), ("2026-10-25T01:00:00Z", "2026-10-25T01:30:00Z")]
        {
            assert_eq!(of(&back, from, to), [(hm(2, 0), hm(2, 30))], "shown twice");
        }
        assert_eq!(of(&back, "2026-10-24T00:00:00Z", "2026-10-27T00:00:00Z"), [day]);

        // The clock goes forward at midnight: the date begins at 01:00.
        assert_eq!(clock("America/Santiago", "2026-09-06").never_shown(), [(hm(0, 0), hm(1, 0))]);
        // Samoa went over the date line and had no such date.
        assert_eq!(clock("Pacific/Apia", "2011-12-30").never_shown(), [day]);
    }

    #[test]
    fn a_date_at_the_end_of_time_is_no_reason_to_panic() {
        for date in [Date::MIN, Date::MAX] {
            let clock = WallClock::new(date, &TimeZone::get("Europe/Berlin").unwrap());
            let _ = (clock.never_shown(), clock.reach());
        }
    }
}
