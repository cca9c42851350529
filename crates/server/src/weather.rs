//! The weather to come, as it is given out.

use serde::Serialize;
use utoipa::ToSchema;

/// What is foretold.
#[derive(Debug, Clone, PartialEq, Default, Serialize, ToSchema)]
pub struct Weather {
    /// By date; empty where there is no forecast.
    pub days: Vec<WeatherDay>,
}

/// A day, by the district's clock.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct WeatherDay {
    /// Which.
    pub date: String,
    /// `05:12`; nothing where the sun does not rise.
    pub sunrise: Option<String>,
    /// Likewise.
    pub sunset: Option<String>,
    /// In order.
    pub hours: Vec<WeatherHour>,
    /// Hours that the forecast does not speak of, from and to.
    pub not_forecast: Vec<[String; 2]>,
}

/// An hour, or as long as the forecast's line lasts.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct WeatherHour {
    /// Begins, by the district's clock.
    pub at: String,
    /// Ends.
    pub to: String,
    /// Of the air.
    pub temperature_c: f64,
    /// Falls from its begin to its end.
    pub rain_mm: f64,
    /// Where it is told.
    pub rain_chance_percent: Option<f64>,
    /// Whether the weather allows work all through it.
    pub workable: bool,
    /// Why not; empty where it does.
    pub why: String,
}
