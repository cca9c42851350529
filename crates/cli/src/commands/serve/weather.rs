//! The weather to come: `forecast.csv` in the data folder, which somebody or something puts there anew each day.

use jiff::tz::TimeZone;
use model::forecast::Forecast;

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
