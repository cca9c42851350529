//! Hours in which work on a road may lie: daylight, less the hours barred for its class, less those that are too wet or
//! too cold by the forecast. The shift is the search's own matter.

mod spans;
mod wall_clock;

use jiff::civil::{Date, Time as ClockTime};
use jiff::tz::TimeZone;
use model::district::District;
use model::forecast::{Forecast, ForecastHour};
use model::quantity::{InRatio, InTime};
use model::road::RoadClass;
use model::round::SecondOfDay;
use model::rules::planning::WeatherRules;

use spans::{Span, joined, less};
use wall_clock::WallClock;

/// Windows in which work on a road of that class may lie whole, ascending.
pub(crate) fn windows(
    district: &District,
    daylight: Option<(SecondOfDay, SecondOfDay)>,
    class: RoadClass,
) -> Vec<(SecondOfDay, SecondOfDay)> {
    let Some((rise, set)) = daylight else { return Vec::new() };
    let margin = district.shift.daylight_margin.in_seconds().ceil() as u32;
    let open = rise.0.saturating_add(margin);
    let close = set.0.saturating_sub(margin);
    let mut barred: Vec<(u32, u32)> = district
        .barred_hours
        .iter()
        .filter(|hours| hours.classes.contains(&class))
        .map(|hours| (second_of_day(hours.from).0, second_of_day(hours.to).0))
        .collect();
    barred.sort_unstable();
    let mut windows = Vec::new();
    let mut from = open;
    for (bar_from, bar_to) in barred {
        if bar_from > from && from < close {
            windows.push((SecondOfDay(from), SecondOfDay(bar_from.min(close))));
        }
        from = from.max(bar_to);
    }
    if from < close {
        windows.push((SecondOfDay(from), SecondOfDay(close)));
    }
    windows
}

/// The windows of [`windows`] on that date, less the hours that are too wet or too cold by the forecast, in seconds of the
/// date as the clock on the wall shows them. Hours that the forecast does not cover stay in; [`hours_not_known`] has them.
///
/// An hour is wet where more rain falls or is likelier than the rules allow. Work must end `dry_hours_after` before a wet
/// hour, and begins `dry_hours_before` after one. A time that the clock shows twice is in only where both are; one that it
/// never shows, because it is put forward, is not.
pub(crate) fn working_windows(
    district: &District,
    daylight: Option<Span>,
    class: RoadClass,
    date: Date,
    time_zone: &TimeZone,
    forecast: Option<&Forecast>,
    rules: &WeatherRules,
) -> Vec<Span> {
    let clock = WallClock::new(date, time_zone);
    let bad =
        forecast.iter().flat_map(|forecast| &forecast.hours).filter_map(|hour| weather_against(hour, rules).kept_off_s);
    let shown = bad.flat_map(|(from, to)| clock.shown(from, to));
    let barred = joined(shown.chain(clock.never_shown()));
    less(&joined(windows(district, daylight, class)), &barred)
}

/// What of these windows the forecast does not speak of: the time itself, or what follows or precedes it for as long as it
/// has to be dry.
pub(crate) fn hours_not_known(
    windows: &[Span],
    date: Date,
    time_zone: &TimeZone,
    forecast: &Forecast,
    rules: &WeatherRules,
) -> Vec<Span> {
    let clock = WallClock::new(date, time_zone);
    let Some((begin, end)) = clock.reach() else { return Vec::new() };
    let mut silent = Vec::new();
    let mut known_to = begin;
    for hour in &forecast.hours {
        silent.push((known_to, first_second(hour)));
        known_to = known_to.max(end_second(hour));
    }
    silent.push((known_to, end));
    let silent = silent.into_iter().filter(|(from, to)| from < to).map(|(from, to)| widened(from, to, rules));
    let silent = joined(silent.flat_map(|(from, to)| clock.shown(from, to)));
    less(windows, &less(windows, &silent))
}

/// What the forecast does not speak of on a date.
pub(crate) fn not_spoken_of(date: Date, time_zone: &TimeZone, forecast: &Forecast) -> Vec<Span> {
    let clock = WallClock::new(date, time_zone);
    let told = forecast.hours.iter().flat_map(|hour| clock.shown(first_second(hour), end_second(hour)));
    less(&[(SecondOfDay(0), SecondOfDay(86_400))], &joined(told.chain(clock.never_shown())))
}

/// What of an hour of the forecast is against work on the road.
pub(crate) struct WeatherAgainst {
    /// More rain falls than may.
    pub rains: bool,
    /// Rain is likelier than it may be.
    pub may_rain: bool,
    /// The air is colder than it may be.
    pub is_cold: bool,
    /// From when to when (Unix seconds) it keeps work off the road, if it does.
    pub kept_off_s: Option<(i64, i64)>,
}

impl WeatherAgainst {
    pub fn is_wet(&self) -> bool {
        self.rains || self.may_rain
    }
}

/// Holds an hour of the forecast against the rules.
pub(crate) fn weather_against(hour: &ForecastHour, rules: &WeatherRules) -> WeatherAgainst {
    let (from, to) = (first_second(hour), end_second(hour));
    let chance = hour.rain_chance.map_or(0.0, InRatio::in_percent);
    // A share read as a fraction may miss its percentage by a rounding error.
    let may_rain = chance > rules.rain_chance_percent_max.value + 1e-9;
    let rains = hour.rain_mm_per_h() > rules.rain_mm_per_h_max.value + 1e-9;
    let is_cold = hour.air_temperature_c < rules.air_temperature_c_min.value;
    let kept_off_s = if rains || may_rain { Some(widened(from, to, rules)) } else { is_cold.then_some((from, to)) };
    WeatherAgainst { rains, may_rain, is_cold, kept_off_s }
}

/// A wet time with the time before it that must stay dry for work to hold, and the time after it until the road is dry.
fn widened(from: i64, to: i64, rules: &WeatherRules) -> (i64, i64) {
    let seconds = |hours: f64| (hours * 3600.0).ceil() as i64;
    let (after_work, before_work) = (seconds(rules.dry_hours_after.value), seconds(rules.dry_hours_before.value));
    (from.saturating_sub(after_work), to.saturating_add(before_work))
}

/// The second in which an hour of the forecast begins.
fn first_second(hour: &ForecastHour) -> i64 {
    hour.from.as_nanosecond().div_euclid(NANOSECONDS) as i64
}

/// The second at whose begin it has ended.
fn end_second(hour: &ForecastHour) -> i64 {
    hour.to.as_nanosecond().div_euclid(NANOSECONDS) as i64 + i64::from(hour.to.subsec_nanosecond() != 0)
}

const NANOSECONDS: i128 = 1_000_000_000;

/// A clock time as seconds after midnight.
pub(crate) fn second_of_day(time: ClockTime) -> SecondOfDay {
    let part = |value: i8| u32::from(value.unsigned_abs());
    SecondOfDay(part(time.hour()) * 3600 + part(time.minute()) * 60 + part(time.second()))
}

#[cfg(test)]
mod tests;
