//! Water that dries off the moist base before it is compacted.

use model::moisture::Weather;
use model::quantity::{Area, InArea, InRatio, InTime, InVelocity, Mass, Time, fraction, kilograms, minutes};
use model::rules::repair::DryingRules;

/// How the drying of the placed base is reckoned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Drying {
    /// The weather is not told: the rules' plain allowance on the water to add.
    Allowance,
    /// The weather is told: so much water is lost.
    Loss(Mass),
}

impl Drying {
    /// By the weather where it is told, for that much surface lying open.
    pub fn of(weather: Option<Weather>, surface: Area, rules: &DryingRules) -> Self {
        weather.map_or(Drying::Allowance, |weather| Drying::Loss(drying_loss(&weather, surface, rules)))
    }
}

/// Evaporation from a wet surface, kilograms for each square metre and hour: `k * ((T + c)^p - r * (T + c)^p) * (v + d)`.
///
/// Zero in saturated air, and below `-c`, where the formula has no meaning.
pub fn evaporation_rate(weather: &Weather, rules: &DryingRules) -> f64 {
    let formula = rules.evaporation.value;
    let warmth = (weather.air_temperature_c + formula.temperature_shift_c).max(0.0).powf(formula.power);
    let wind = weather.wind.in_kilometres_per_hour() + formula.wind_shift_km_per_h;
    (formula.factor * (warmth - humidity(weather, rules) * warmth) * wind).max(0.0)
}

/// Water lost from that much surface: rate, time open, and less under a sheet.
pub fn drying_loss(weather: &Weather, surface: Area, rules: &DryingRules) -> Mass {
    let open = time_open(weather, rules).in_hours();
    kilograms(evaporation_rate(weather, rules) * sheet(weather, rules) * surface.in_square_metres() * open)
}

/// Relative humidity as a fraction.
pub fn humidity(weather: &Weather, rules: &DryingRules) -> f64 {
    weather.humidity.unwrap_or_else(|| fraction(rules.humidity_percent.value / 100.0)).in_fraction()
}

/// How long it lies open.
pub fn time_open(weather: &Weather, rules: &DryingRules) -> Time {
    weather.open.unwrap_or_else(|| minutes(rules.open_min.value))
}

/// What evaporates as a share of an open surface.
pub fn sheet(weather: &Weather, rules: &DryingRules) -> f64 {
    if weather.covered { rules.covered_share.value } else { 1.0 }
}
