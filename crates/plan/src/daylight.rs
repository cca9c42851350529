//! Sunrise and sunset at a place, in local time.

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use model::place::LonLat;
use model::round::SecondOfDay;
use sunrise::{Coordinates, SolarDay, SolarEvent};

const DAY_S: i64 = 86_400;

/// Sunrise and sunset in the zone's clock time; `None` when the sun does not rise that day. Where it does not set, the
/// whole day.
///
/// Computed by the `sunrise` library (upper limb at the horizon with standard refraction); checked in this crate's tests
/// against another library's values.
pub(crate) fn daylight(place: LonLat, date: Date, zone: &TimeZone) -> Option<(SecondOfDay, SecondOfDay)> {
    let (Some(coordinates), Some(day)) = (
        Coordinates::new(place.lat, place.lon),
        chrono::NaiveDate::from_ymd_opt(
            i32::from(date.year()),
            date.month().unsigned_abs().into(),
            date.day().unsigned_abs().into(),
        ),
    ) else {
        return None;
    };
    let solar_day = SolarDay::new(coordinates, day);
    let at = |event| solar_day.event_time(event).map(|time| local_second(time.timestamp(), date, zone));
    match (at(SolarEvent::Sunrise), at(SolarEvent::Sunset)) {
        (Some(rise), Some(set)) => Some((rise, set)),
        _ if sun_stays_up(place.lat, date) => Some((SecondOfDay(0), SecondOfDay(DAY_S as u32))),
        _ => None,
    }
}

/// Where the sun neither rises nor sets: it stays up in the half year in which its declination has the latitude's sign.
fn sun_stays_up(lat: f64, date: Date) -> bool {
    let northern_summer = (date.month(), date.day()) >= (3, 20) && (date.month(), date.day()) < (9, 23);
    (lat > 0.0) == northern_summer
}

/// What a clock on the wall shows at that instant, counted from the date's midnight on the clock: on a day when summer
/// time begins, noon is still twelve hours after midnight.
fn local_second(unix_s: i64, date: Date, zone: &TimeZone) -> SecondOfDay {
    let Ok(instant) = Timestamp::from_second(unix_s) else { return SecondOfDay(0) };
    let clock = zone.to_datetime(instant);
    let days = i64::from(date.until(clock.date()).map_or(0, |span| span.get_days()));
    let time = clock.time();
    let second = i64::from(time.hour()) * 3600 + i64::from(time.minute()) * 60 + i64::from(time.second());
    SecondOfDay((days * DAY_S + second).clamp(0, DAY_S) as u32)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(serde::Deserialize)]
    struct Row {
        lat: f64,
        lon: f64,
        date: String,
        rise_unix_s: Option<i64>,
        set_unix_s: Option<i64>,
    }

    /// Reference: `ephem` 4 from the Python package index (horizon at 34 minutes of arc below, upper limb), written by
    /// `tests/reference/sunrise.py`. Two minutes, three where the sun sets at a slant: the library's series is short.
    #[test]
    fn agrees_with_another_library_within_minutes() {
        let rows: Vec<Row> = serde_json::from_str(include_str!("../tests/reference/sunrise.json")).unwrap();
        assert!(rows.len() > 100);
        for row in rows {
            let date: Date = row.date.parse().unwrap();
            let found = daylight(LonLat { lon: row.lon, lat: row.lat }, date, &TimeZone::UTC);
            let midnight = TimeZone::UTC.to_timestamp(date.at(0, 0, 0, 0)).unwrap().as_second();
            if let (Some(rise), Some(set)) = (row.rise_unix_s, row.set_unix_s) {
                let (found_rise, found_set) = found.unwrap_or_else(|| panic!("{}: no day", row.date));
                for (ours, theirs) in [(found_rise, rise), (found_set, set)] {
                    let theirs = (theirs - midnight).clamp(0, DAY_S);
                    let off = (i64::from(ours.0) - theirs).abs();
                    let tolerance = if row.lat.abs() > 50.0 { 180 } else { 120 };
                    assert!(off <= tolerance, "{} at {},{}: {off} s apart", row.date, row.lat, row.lon);
                }
            }
        }
    }

    /// Washington, D.C., 1 January and 1 July: table of the U.S. Naval Observatory, from memory: 07:27/16:57 EST and
    /// 05:47/20:37 EDT.
    #[test]
    fn agrees_with_a_published_table_to_the_minute() {
        let place = LonLat { lon: -77.02, lat: 38.9 };
        let zone = TimeZone::get("America/New_York").unwrap();
        let table = [
            (jiff::civil::date(2024, 1, 1), SecondOfDay::hm(7, 27), SecondOfDay::hm(16, 57)),
            (jiff::civil::date(2024, 7, 1), SecondOfDay::hm(5, 47), SecondOfDay::hm(20, 37)),
        ];
        for (date, rise, set) in table {
            let (found_rise, found_set) = daylight(place, date, &zone).unwrap();
            assert!(found_rise.0.abs_diff(rise.0) <= 90, "{date}: {found_rise}");
            assert!(found_set.0.abs_diff(set.0) <= 90, "{date}: {found_set}");
        }
    }

    /// Berlin on the day summer time begins, 29 March 2026: sunrise about 04:44 UTC, which the clock shows as 06:44.
    #[test]
    fn the_clock_is_read_at_the_instant_not_at_midnight() {
        let zone = TimeZone::get("Europe/Berlin").unwrap();
        let place = LonLat { lon: 13.4, lat: 52.5 };
        let day = |day| daylight(place, jiff::civil::date(2026, 3, day), &zone).unwrap();
        let (before, after) = (day(28), day(29));
        let minutes = |from: SecondOfDay, to: SecondOfDay| (i64::from(to.0) - i64::from(from.0)) / 60;
        assert!((56..=60).contains(&minutes(before.0, after.0)), "{} then {}", before.0, after.0);
        assert!((60..=64).contains(&minutes(before.1, after.1)), "{} then {}", before.1, after.1);
    }

    #[test]
    fn polar_night_has_no_day_and_polar_day_no_end() {
        let place = LonLat { lon: 20.0, lat: 78.0 };
        assert_eq!(daylight(place, jiff::civil::date(2026, 12, 20), &TimeZone::UTC), None);
        assert_eq!(
            daylight(place, jiff::civil::date(2026, 6, 20), &TimeZone::UTC),
            Some((SecondOfDay(0), SecondOfDay(86_400)))
        );
    }
}
