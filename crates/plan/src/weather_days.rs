//! The weather to come, day by day, and what of it allows work.

use jiff::Timestamp;
use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;
use model::district::District;
use model::forecast::{Forecast, ForecastHour};
use model::quantity::InRatio as _;
use model::round::SecondOfDay;
use model::rules::planning::WeatherRules;

use crate::daylight::daylight;
use crate::hours::{not_spoken_of, weather_against};

/// A day of the forecast, by the district's clock.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherDay {
    /// Which.
    pub date: Date,
    /// Sunrise and sunset at the depot; `None` when the sun does not rise.
    pub daylight: Option<(SecondOfDay, SecondOfDay)>,
    /// What is foretold of it, by what begins on it.
    pub hours: Vec<WeatherHour>,
    /// What the forecast does not speak of.
    pub not_forecast: Vec<(SecondOfDay, SecondOfDay)>,
}

/// An hour of the forecast, or as long as its line lasts.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherHour {
    /// As it is foretold.
    pub hour: ForecastHour,
    /// By the district's clock.
    pub from: DateTime,
    /// Likewise.
    pub to: DateTime,
    /// What bars work in it or in a part of it; empty: nothing.
    pub why: String,
}

/// Every day that the forecast has a line of.
pub fn weather_days(
    district: &District,
    forecast: &Forecast,
    time_zone: &TimeZone,
    rules: &WeatherRules,
) -> Vec<WeatherDay> {
    let local = |time: Timestamp| time_zone.to_datetime(time);
    let mut days: Vec<WeatherDay> = Vec::new();
    for (index, hour) in forecast.hours.iter().enumerate() {
        let from = local(hour.from);
        let date = from.date();
        if days.last().is_none_or(|day| day.date != date) {
            days.push(WeatherDay {
                date,
                daylight: daylight(district.depot.position, date, time_zone),
                hours: Vec::new(),
                not_forecast: not_spoken_of(date, time_zone, forecast),
            });
        }
        let shown = WeatherHour { hour: *hour, from, to: local(hour.to), why: why(index, forecast, rules) };
        days.last_mut().into_iter().for_each(|day| day.hours.push(shown.clone()));
    }
    days
}

/// What bars work: the hour itself, or a wet one too near to it.
fn why(index: usize, forecast: &Forecast, rules: &WeatherRules) -> String {
    let hour = &forecast.hours[index];
    let against = weather_against(hour, rules);
    let mut words = Vec::new();
    if against.rains {
        words.push(format!("rain, {:.1} mm/h", hour.rain_mm_per_h()));
    } else if let Some(chance) = hour.rain_chance.filter(|_| against.may_rain) {
        words.push(format!("rain is likely, {:.0} %", chance.in_percent()));
    }
    if against.is_cold {
        words.push(format!("too cold for the binder, {:.0} °C", hour.air_temperature_c));
    }
    if words.is_empty() {
        for (other, wet) in forecast.hours.iter().enumerate().filter(|(other, _)| *other != index) {
            let touches = weather_against(wet, rules).kept_off_s.is_some_and(|(from, to)| {
                weather_against(wet, rules).is_wet() && from < hour.to.as_second() && hour.from.as_second() < to
            });
            let word = if other < index { "the road has not dried" } else { "rain soon after" };
            if touches && !words.iter().any(|known| known == word) {
                words.push(word.to_owned());
            }
        }
    }
    words.join("; ")
}
