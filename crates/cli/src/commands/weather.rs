//! Flags that tell the weather, for every command that works out water.

use exchange::limits::believed;
use exchange::measure::{read_share, read_temperature_c};
use exchange::quantity_text::{SpeedTextError, read_speed};
use model::moisture::Weather;
use model::quantity::{InRatio, Ratio, Time, Velocity, kilometres_per_hour, minutes};

/// The weather while the moist base lies open. Temperature and wind go together; without them the plain allowance of the
/// rules, or the district file's weather, is taken.
#[derive(Debug, clap::Args)]
pub(crate) struct WeatherFlags {
    /// Air temperature, e.g. 31C or 88F: works out the water that dries off.
    #[arg(long, value_parser = temperature, requires = "wind", allow_hyphen_values = true)]
    air_temperature: Option<f64>,
    /// Wind over the base, e.g. 15km/h.
    #[arg(long, value_parser = wind, allow_hyphen_values = true, requires = "air_temperature")]
    wind: Option<Velocity>,
    /// Relative humidity, e.g. 40%.
    #[arg(long, value_parser = humidity, allow_hyphen_values = true, requires = "air_temperature")]
    humidity: Option<Ratio>,
    /// The base is kept under a sheet.
    #[arg(long, requires = "air_temperature")]
    covered: bool,
    /// How long each layer or batch lies open, minutes.
    #[arg(long, value_parser = open, allow_hyphen_values = true, requires = "air_temperature")]
    minutes_open: Option<Time>,
}

impl WeatherFlags {
    /// The weather told by the flags, else the district's.
    pub(crate) fn or(&self, district: Option<Weather>) -> Option<Weather> {
        let (Some(air_temperature_c), Some(wind)) = (self.air_temperature, self.wind) else { return district };
        let (humidity, covered, open) = (self.humidity, self.covered, self.minutes_open);
        Some(Weather { air_temperature_c, humidity, wind, covered, open })
    }
}

fn temperature(text: &str) -> Result<f64, String> {
    read_temperature_c(text)
}

fn wind(text: &str) -> Result<Velocity, String> {
    match read_speed(text) {
        // Speeds of traffic are never zero, but the air may be still.
        Err(SpeedTextError::NotPositive) if !text.trim_start().starts_with('-') => Ok(kilometres_per_hour(0.0)),
        read => read.map_err(|error| error.to_string()),
    }
}

fn humidity(text: &str) -> Result<Ratio, String> {
    let share = read_share(text)?;
    believed("weather", "humidity", "humidity", share.in_percent()).map(|()| share)
}

fn open(text: &str) -> Result<Time, String> {
    let number = text.parse::<f64>().map_err(|_| "write minutes as a number, e.g. 30".to_owned())?;
    if number.is_finite() { Ok(minutes(number)) } else { Err("the number is not finite".into()) }
}
