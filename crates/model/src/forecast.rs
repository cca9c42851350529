//! The weather to come, hour by hour, as a weather service gives it.

use jiff::Timestamp;

use crate::quantity::Ratio;

/// A forecast for one district.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Forecast {
    /// Ascending; none overlaps another. There may be gaps.
    pub hours: Vec<ForecastHour>,
}

/// What is foretold for a span of time, most often an hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ForecastHour {
    /// Begins.
    pub from: Timestamp,
    /// Ends; after it begins.
    pub to: Timestamp,
    /// Air temperature, degrees Celsius.
    pub air_temperature_c: f64,
    /// Rain that falls from its begin to its end, mm.
    pub rain_mm: f64,
    /// Chance that it rains then, where it is told.
    pub rain_chance: Option<Ratio>,
}

impl ForecastHour {
    /// How hard it rains on the average, mm/h.
    pub fn rain_mm_per_h(&self) -> f64 {
        self.rain_mm * 3600.0 / self.from.duration_until(self.to).as_secs_f64()
    }
}
