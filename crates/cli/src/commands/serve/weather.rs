//! The weather to come: `forecast.csv` in the data folder, which somebody or something puts there anew each day.

use jiff::civil::DateTime;
use jiff::tz::TimeZone;
use model::forecast::Forecast;
use model::quantity::InRatio as _;
use model::round::SecondOfDay;
use plan::weather_days;
use server::{Weather, WeatherDay, WeatherHour};

use super::planner::in_words;
use crate::input::Setting;

/// The file's name.
const FILE: &str = "forecast.csv";

/// The forecast; `None` where there is no file. What can't be used of it is left out, as everywhere.
///
/// # Errors
/// Nothing of the file can be used: work that the weather bars would be planned unseen.
pub(super) fn forecast(setting: &Setting) -> Result<Option<Forecast>, String> {
    let file = setting.folder.join(FILE);
    if matches!(file.try_exists(), Ok(false)) {
        return Ok(None);
    }
    let zone = TimeZone::get(&setting.district.time_zone).unwrap_or(TimeZone::UTC);
    let read = exchange::forecast::read_forecast(&file, &zone);
    if read.forecast.hours.is_empty() {
        return Err(format!("{} can't be used: {}", file.display(), in_words(&read.problems)));
    }
    Ok(Some(read.forecast))
}

/// The same day by day, with what of it allows work.
pub(super) fn shown(setting: &Setting) -> Result<Weather, String> {
    let Some(forecast) = forecast(setting)? else { return Ok(Weather::default()) };
    let zone = TimeZone::get(&setting.district.time_zone).unwrap_or(TimeZone::UTC);
    let days = weather_days(&setting.district, &forecast, &zone, &setting.rules.planning.weather);
    Ok(Weather { days: days.into_iter().map(day).collect() })
}

fn day(day: plan::WeatherDay) -> WeatherDay {
    let clock = |time: SecondOfDay| format!("{:02}:{:02}", time.0 / 3600, time.0 / 60 % 60);
    WeatherDay {
        date: day.date.to_string(),
        sunrise: day.daylight.map(|(sunrise, _)| clock(sunrise)),
        sunset: day.daylight.map(|(_, sunset)| clock(sunset)),
        hours: day.hours.into_iter().map(hour).collect(),
        not_forecast: day.not_forecast.into_iter().map(|(from, to)| [clock(from), clock(to)]).collect(),
    }
}

fn hour(hour: plan::WeatherHour) -> WeatherHour {
    let local = |time: &DateTime| time.strftime("%Y-%m-%dT%H:%M").to_string();
    let foretold = hour.hour;
    WeatherHour {
        at: local(&hour.from),
        to: local(&hour.to),
        temperature_c: rounded(foretold.air_temperature_c),
        rain_mm: rounded(foretold.rain_mm),
        rain_chance_percent: foretold.rain_chance.map(|chance| rounded(chance.in_percent())),
        workable: hour.why.is_empty(),
        why: hour.why,
    }
}

/// To the hundredth: without the noise of conversions.
fn rounded(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}
