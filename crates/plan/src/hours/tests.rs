//! Daylight, barred hours and the forecast, and the days on which the clock is changed.

use jiff::Timestamp;
use model::district::BarredHours;
use model::quantity::{minutes, percent};
use proptest::prelude::*;

use super::*;

/// Daylight from 06:00 to 20:00 with half an hour's margin; what is barred, and what is left.
#[test]
fn barred_hours_are_cut_out_of_daylight() {
    let day = Some((SecondOfDay::hm(6, 0), SecondOfDay::hm(20, 0)));
    let clock = |hour, minute| ClockTime::constant(hour, minute, 0, 0);
    let bar = |from, to| BarredHours { classes: vec![RoadClass::Primary], from, to };
    let hm = SecondOfDay::hm;
    let table = [
        (vec![], vec![(hm(6, 30), hm(19, 30))]),
        (vec![bar(clock(7, 0), clock(9, 0))], vec![(hm(6, 30), hm(7, 0)), (hm(9, 0), hm(19, 30))]),
        (vec![bar(clock(5, 0), clock(9, 0))], vec![(hm(9, 0), hm(19, 30))]),
        (vec![bar(clock(18, 0), clock(21, 0))], vec![(hm(6, 30), hm(18, 0))]),
        (vec![bar(clock(0, 0), clock(23, 0))], vec![]),
        (
            vec![bar(clock(15, 0), clock(17, 0)), bar(clock(7, 0), clock(9, 0)), bar(clock(8, 0), clock(10, 0))],
            vec![(hm(6, 30), hm(7, 0)), (hm(10, 0), hm(15, 0)), (hm(17, 0), hm(19, 30))],
        ),
    ];
    for (barred_hours, expected) in table {
        let mut district = exchange::district::default_district();
        district.shift.daylight_margin = minutes(30.0);
        district.barred_hours = barred_hours;
        assert_eq!(windows(&district, day, RoadClass::Primary), expected);
        assert_eq!(windows(&district, day, RoadClass::Tertiary), [(hm(6, 30), hm(19, 30))]);
        assert_eq!(windows(&district, None, RoadClass::Primary), []);
    }
}

/// Rules of the tests: above 0.1 mm/h or 50 % is wet, below 10 °C is cold, one dry hour before work and two after it.
fn rules() -> WeatherRules {
    let sourced = |value: f64| model::rules::Sourced {
        value,
        source: serde_json::from_value(serde_json::json!("common practice, no source")).unwrap(),
    };
    WeatherRules {
        rain_mm_per_h_max: sourced(0.1),
        rain_chance_percent_max: sourced(50.0),
        air_temperature_c_min: sourced(10.0),
        dry_hours_before: sourced(1.0),
        dry_hours_after: sourced(2.0),
    }
}

/// A district with no margin of daylight, so that the windows are the daylight itself.
fn bright_district() -> District {
    let mut district = exchange::district::default_district();
    district.shift.daylight_margin = minutes(0.0);
    district.barred_hours = Vec::new();
    district
}

/// One hour: temperature, rain in mm, chance of rain in percent.
type Weather = (f64, f64, Option<f64>);

/// Hours from a begin.
fn hours_from(begin: &str, hours: impl IntoIterator<Item = Weather>) -> Forecast {
    let begin: Timestamp = begin.parse().unwrap();
    let at = |hour: i64| begin + jiff::SignedDuration::from_hours(hour);
    let hour = |(index, (air_temperature_c, rain_mm, chance)): (i64, Weather)| ForecastHour {
        from: at(index),
        to: at(index + 1),
        air_temperature_c,
        rain_mm,
        rain_chance: chance.map(percent),
    };
    Forecast { hours: (0..).zip(hours).map(hour).collect() }
}

const FAIR: Weather = (15.0, 0.0, Some(10.0));

/// A whole fair day of Greenwich with some hours changed.
fn fair_but(changed: &[(usize, Weather)]) -> Forecast {
    // From the day before to the day after, so that everything around the day is known.
    let mut hours = vec![FAIR; 72];
    for (hour, weather) in changed {
        hours[24 + hour] = *weather;
    }
    hours_from("2026-06-08T00:00:00Z", hours)
}

/// Daylight from 06:00 to 20:00 on 9 June 2026 by the clock of Greenwich; the forecast, and what is left.
#[test]
fn wet_and_cold_hours_are_cut_out() {
    let day = Some((SecondOfDay::hm(6, 0), SecondOfDay::hm(20, 0)));
    let date: Date = "2026-06-09".parse().unwrap();
    let hm = SecondOfDay::hm;
    let rain = (15.0, 2.0, None);
    let whole = vec![(hm(6, 0), hm(20, 0))];
    let table: Vec<(&str, Forecast, Vec<Span>)> = vec![
        ("fair", fair_but(&[]), whole.clone()),
        ("nothing foretold", Forecast::default(), whole.clone()),
        // Work ends two hours before the rain, and begins one hour after it.
        ("rain at noon", fair_but(&[(12, rain)]), vec![(hm(6, 0), hm(10, 0)), (hm(14, 0), hm(20, 0))]),
        ("rain before work", fair_but(&[(4, rain)]), whole.clone()),
        ("rain until work", fair_but(&[(5, rain)]), vec![(hm(7, 0), hm(20, 0))]),
        ("rain in the evening", fair_but(&[(21, rain)]), vec![(hm(6, 0), hm(19, 0))]),
        (
            "two showers near each other",
            fair_but(&[(9, rain), (12, rain)]),
            vec![(hm(6, 0), hm(7, 0)), (hm(14, 0), hm(20, 0))],
        ),
        ("as much rain as is allowed", fair_but(&[(12, (15.0, 0.1, None))]), whole.clone()),
        ("a little more", fair_but(&[(12, (15.0, 0.11, None))]), vec![(hm(6, 0), hm(10, 0)), (hm(14, 0), hm(20, 0))]),
        ("rain as likely as is allowed", fair_but(&[(12, (15.0, 0.0, Some(50.0)))]), whole.clone()),
        ("likelier", fair_but(&[(12, (15.0, 0.0, Some(51.0)))]), vec![(hm(6, 0), hm(10, 0)), (hm(14, 0), hm(20, 0))]),
        ("a cold morning", fair_but(&[(6, (9.9, 0.0, None)), (7, (10.0, 0.0, None))]), vec![(hm(7, 0), hm(20, 0))]),
        ("wet all day", hours_from("2026-06-09T00:00:00Z", vec![rain; 24]), vec![]),
        ("cold all day", hours_from("2026-06-09T00:00:00Z", vec![(4.0, 0.0, None); 24]), vec![]),
        ("rain on another day", hours_from("2026-06-11T00:00:00Z", vec![rain; 24]), whole.clone()),
    ];
    for (what, forecast, expected) in table {
        let of = |class, daylight, forecast| {
            working_windows(&bright_district(), daylight, class, date, &TimeZone::UTC, forecast, &rules())
        };
        assert_eq!(of(RoadClass::Tertiary, day, Some(&forecast)), expected, "{what}");
        assert_eq!(of(RoadClass::Tertiary, None, Some(&forecast)), [], "{what}, polar night");
        assert_eq!(of(RoadClass::Tertiary, day, None), whole, "no forecast");
    }
    let mut district = bright_district();
    let clock = |hour| ClockTime::constant(hour, 0, 0, 0);
    district.barred_hours = vec![BarredHours { classes: vec![RoadClass::Primary], from: clock(7), to: clock(9) }];
    let left = working_windows(
        &district,
        day,
        RoadClass::Primary,
        date,
        &TimeZone::UTC,
        Some(&fair_but(&[(12, rain)])),
        &rules(),
    );
    assert_eq!(left, [(hm(6, 0), hm(7, 0)), (hm(9, 0), hm(10, 0)), (hm(14, 0), hm(20, 0))], "barred and wet");
}

/// Rain over three hours is spread evenly: 0.3 mm in three hours is 0.1 mm/h, which is allowed.
#[test]
fn rain_is_counted_by_the_hour_however_long_the_row() {
    let day = Some((SecondOfDay::hm(6, 0), SecondOfDay::hm(20, 0)));
    let left = |rain_mm| {
        let mut forecast = hours_from("2026-06-09T09:00:00Z", [(15.0, rain_mm, None)]);
        forecast.hours[0].to = "2026-06-09T12:00:00Z".parse().unwrap();
        let date = "2026-06-09".parse().unwrap();
        let of = Some(&forecast);
        working_windows(&bright_district(), day, RoadClass::Tertiary, date, &TimeZone::UTC, of, &rules())
    };
    let hm = SecondOfDay::hm;
    assert_eq!(left(0.3), [(hm(6, 0), hm(20, 0))]);
    assert_eq!(left(0.33), [(hm(6, 0), hm(7, 0)), (hm(13, 0), hm(20, 0))]);
}

/// Berlin, by the zone database: on 29 March 2026 the clock goes from 02:00 to 03:00 (01:00 UTC), on 25 October from 03:00
/// back to 02:00 (01:00 UTC). The sun is taken to be up all day, as it is only near a pole.
#[test]
fn the_clock_on_the_wall_says_when() {
    let zone = TimeZone::get("Europe/Berlin").unwrap();
    let day = Some((SecondOfDay(0), SecondOfDay(86_400)));
    let hm = SecondOfDay::hm;
    let rain = (15.0, 2.0, None);
    let left = |date: &str, forecast: &Forecast| {
        let date = date.parse().unwrap();
        working_windows(&bright_district(), day, RoadClass::Tertiary, date, &zone, Some(forecast), &rules())
    };
    // The hour that never was is no working time, whatever the forecast.
    let dry = Forecast::default();
    assert_eq!(left("2026-03-29", &dry), [(hm(0, 0), hm(2, 0)), (hm(3, 0), hm(24, 0))]);
    // Rain from 04:00 to 05:00 by the clock, 02:00 to 03:00 UTC: two hours before it are 00:00 UTC, when the clock shows 01:00.
    let forward = hours_from("2026-03-29T02:00:00Z", [rain]);
    assert_eq!(left("2026-03-29", &forward), [(hm(0, 0), hm(1, 0)), (hm(6, 0), hm(24, 0))]);
    // The second 02:00 to 03:00, 01:00 to 02:00 UTC: two hours before it the clock shows 01:00, an hour after it 04:00.
    let back = hours_from("2026-10-25T01:00:00Z", [rain]);
    assert_eq!(left("2026-10-25", &back), [(hm(0, 0), hm(1, 0)), (hm(4, 0), hm(24, 0))]);
    // Cold in the first 02:00 to 03:00 alone bars the time both times it is shown: a plan by the clock can't tell them apart.
    let cold = hours_from("2026-10-25T00:00:00Z", [(5.0, 0.0, None)]);
    assert_eq!(left("2026-10-25", &cold), [(hm(0, 0), hm(2, 0)), (hm(3, 0), hm(24, 0))]);
    // Rain after midnight bars the evening before.
    let midnight = hours_from("2026-10-25T23:00:00Z", [rain]);
    assert_eq!(left("2026-10-25", &midnight), [(hm(0, 0), hm(22, 0))]);
}

/// 06:00 to 20:00 by the clock of Greenwich; the hours that are foretold, and those of which it is not known whether they may
/// be worked.
#[test]
fn what_the_forecast_does_not_cover_is_told() {
    let hm = SecondOfDay::hm;
    let windows = [(hm(6, 0), hm(12, 0)), (hm(13, 0), hm(20, 0))];
    let date: Date = "2026-06-09".parse().unwrap();
    let of = |forecast: &Forecast| hours_not_known(&windows, date, &TimeZone::UTC, forecast, &rules());
    assert_eq!(of(&fair_but(&[])), []);
    assert_eq!(of(&Forecast::default()), windows);
    // To 18:00: whether work that ends after 16:00 stays dry for two hours is not known. From 05:00: from 06:00 it is.
    assert_eq!(of(&hours_from("2026-06-09T05:00:00Z", vec![FAIR; 13])), [(hm(16, 0), hm(20, 0))]);
    assert_eq!(of(&hours_from("2026-06-09T06:00:00Z", vec![FAIR; 24])), [(hm(6, 0), hm(7, 0))]);
    // A gap from 14:00 to 15:00 reaches from 12:00 to 16:00, of which 12:00 to 13:00 is in no window.
    let mut gap = fair_but(&[]);
    gap.hours.remove(24 + 14);
    assert_eq!(of(&gap), [(hm(13, 0), hm(16, 0))]);
    // Another day's forecast says nothing of this one.
    assert_eq!(of(&hours_from("2026-07-09T00:00:00Z", vec![FAIR; 24])), windows);
    assert_eq!(of(&hours_from("2026-05-09T00:00:00Z", vec![FAIR; 24])), windows);
}

fn total(spans: &[Span]) -> u32 {
    spans.iter().map(|(from, to)| to.0 - from.0).sum()
}

fn weather() -> impl Strategy<Value = Weather> {
    (5.0..20.0_f64, prop_oneof![Just(0.0), 0.0..3.0_f64], prop_oneof![Just(None), (0.0..100.0_f64).prop_map(Some)])
}

proptest! {
    /// More rain, or rain that is likelier, never adds working time, on whatever day; nor does colder air. What is left is
    /// inside what there was.
    #[test]
    fn worse_weather_never_adds_working_time(
        hours in prop::collection::vec((weather(), 0.0..4.0_f64, 0.0..60.0_f64, 0.0..8.0_f64), 1..60),
        start in 0_i64..72,
        date in prop::sample::select(vec!["2026-03-29", "2026-06-09", "2026-10-25"]),
        (rise, set) in (0_u32..43_200, 43_200_u32..=86_400),
    ) {
        let zone = TimeZone::get("Europe/Berlin").unwrap();
        let date: Date = date.parse().unwrap();
        let begin = zone.to_timestamp(date.at(0, 0, 0, 0)).unwrap() + jiff::SignedDuration::from_hours(start - 48);
        let begin = begin.to_string();
        let fine = hours_from(&begin, hours.iter().map(|(weather, ..)| *weather));
        let worse = hours_from(&begin, hours.iter().map(|((c, rain, chance), more, likelier, colder)| {
            (c - colder, rain + more, chance.map(|chance| (chance + likelier).min(100.0)))
        }));
        let daylight = Some((SecondOfDay(rise), SecondOfDay(set)));
        let of = |forecast| {
            working_windows(&bright_district(), daylight, RoadClass::Tertiary, date, &zone, forecast, &rules())
        };
        let (none, fine, worse) = (of(None), of(Some(&fine)), of(Some(&worse)));
        prop_assert!(total(&worse) <= total(&fine) && total(&fine) <= total(&none));
        prop_assert_eq!(less(&worse, &fine), []);
        prop_assert_eq!(less(&fine, &none), []);
        for spans in [&none, &fine, &worse] {
            prop_assert!(spans.iter().all(|(from, to)| from < to));
            prop_assert!(spans.windows(2).all(|pair| pair[0].1 < pair[1].0));
        }
    }

    /// What is known and what is not are the windows, with nothing in both; the more is foretold, the less is not known.
    #[test]
    fn foretelling_more_leaves_less_unknown(count in 0_usize..60, start in 0_i64..72, more in 0_usize..40) {
        let zone = TimeZone::get("Europe/Berlin").unwrap();
        let date: Date = "2026-03-29".parse().unwrap();
        let begin = zone.to_timestamp(date.at(0, 0, 0, 0)).unwrap() + jiff::SignedDuration::from_hours(start - 48);
        let windows = [(SecondOfDay::hm(6, 0), SecondOfDay::hm(11, 30)), (SecondOfDay::hm(12, 0), SecondOfDay::hm(19, 0))];
        let of = |hours| {
            let forecast = hours_from(&begin.to_string(), vec![FAIR; hours]);
            hours_not_known(&windows, date, &zone, &forecast, &rules())
        };
        let (short, long) = (of(count), of(count + more));
        prop_assert_eq!(less(&long, &short), []);
        prop_assert_eq!(total(&less(&windows, &short)) + total(&short), total(&windows));
    }

    /// Against a second-by-second count of sets.
    #[test]
    fn sets_of_spans_are_sets(
        a in prop::collection::vec((0_u32..100, 0_u32..100), 0..8),
        b in prop::collection::vec((0_u32..100, 0_u32..100), 0..8),
    ) {
        let set = |spans: &[(u32, u32)]| joined(spans.iter().map(|(from, to)| (SecondOfDay(*from), SecondOfDay(*to))));
        let holds = |spans: &[(u32, u32)], second| spans.iter().any(|(from, to)| (*from..*to).contains(&second));
        let found = less(&set(&a), &set(&b));
        for second in 0..100 {
            let is_in = found.iter().any(|(from, to)| (from.0..to.0).contains(&second));
            prop_assert_eq!(is_in, holds(&a, second) && !holds(&b, second));
        }
    }
}
