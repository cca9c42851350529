//! Shape of `rules/planning/*.toml`: how a day is put together.

use serde::Deserialize;

use super::{Sourced, not_believed};

/// How a day is put together from judged holes, cuts and zones.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanningRules {
    /// Name of the rule set.
    pub name: String,
    /// One sentence on what the rule set is for.
    pub about: String,
    /// Distance of a wheel path from the middle of its lane, m.
    pub wheel_path_offset_m: Sourced<f64>,
    /// A located place this far from where the hole is taken to lie across the road is remarked, m.
    pub position_doubt_m: Sourced<f64>,
    /// Whether work that leaves traffic no way past may be planned; the authorised person must close the road or lead
    /// traffic round.
    pub full_closure_allowed: Sourced<bool>,
    /// How many times its risk a hole is worth on or after the day it is due.
    pub overdue_worth: Sourced<f64>,
    /// Sites that the search looks at; the rest are less urgent or too far and wait.
    pub candidate_sites_max: Sourced<u32>,
    /// More sites are not searched as a whole but by the depots' areas, then along their borders.
    pub sites_searched_whole_max: Sourced<u32>,
    /// When cuts share a work zone.
    pub sharing: SharingRules,
    /// In what weather there is work.
    pub weather: WeatherRules,
    /// In the course of a day the crews' order is changed only where that saves at least so many minutes of a crew.
    pub change_saves_min: Sourced<f64>,
}

/// In what weather of the forecast there is work.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WeatherRules {
    /// An hour with more rain than this is wet, mm/h.
    pub rain_mm_per_h_max: Sourced<f64>,
    /// An hour in which rain is likelier than this is wet, percent.
    pub rain_chance_percent_max: Sourced<f64>,
    /// An hour colder than this is too cold for the binder, degrees Celsius.
    pub air_temperature_c_min: Sourced<f64>,
    /// Hours after a wet one until the surface is dry enough to work on.
    pub dry_hours_before: Sourced<f64>,
    /// Hours that must stay dry after the work ends, so that the binder holds.
    pub dry_hours_after: Sourced<f64>,
}

/// What a work zone is taken to cost, so that cuts share one where that is cheaper. In any one unit of price.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SharingRules {
    /// A minute of the whole crew.
    pub crew_minute: Sourced<f64>,
    /// One device put out and taken in again.
    pub device: Sourced<f64>,
    /// A metre of closed road for an hour: what traffic loses.
    pub closed_metre_hour: Sourced<f64>,
}

/// No price is believed above this (common practice, no source).
const PRICE_MAX: f64 = 1e6;

impl PlanningRules {
    /// Values that can't be worked with, in words. Empty when the set can be used.
    pub fn faults(&self) -> Vec<String> {
        let sharing = &self.sharing;
        let prices = [
            ("sharing.crew_minute", sharing.crew_minute.value, f64::MIN_POSITIVE),
            ("sharing.device", sharing.device.value, 0.0),
            ("sharing.closed_metre_hour", sharing.closed_metre_hour.value, 0.0),
        ]
        .into_iter()
        .filter(|(_, value, least)| !(value.is_finite() && value >= least && *value <= PRICE_MAX))
        .map(|(field, value, least)| {
            let right = if least > 0.0 { "above zero" } else { "not below zero" };
            format!("{field} is {value}; a number {right} and up to {PRICE_MAX} is right")
        });
        let weather = &self.weather;
        let weather = [
            ("weather.rain_mm_per_h_max", weather.rain_mm_per_h_max.value, 0.0, 20.0),
            ("weather.rain_chance_percent_max", weather.rain_chance_percent_max.value, 0.0, 100.0),
            ("weather.air_temperature_c_min", weather.air_temperature_c_min.value, -20.0, 40.0),
            ("weather.dry_hours_before", weather.dry_hours_before.value, 0.0, 72.0),
            ("weather.dry_hours_after", weather.dry_hours_after.value, 0.0, 72.0),
        ];
        let search = [
            ("change_saves_min", self.change_saves_min.value, 0.0, 480.0),
            ("sites_searched_whole_max", f64::from(self.sites_searched_whole_max.value), 1.0, 4000.0),
        ];
        prices.chain(not_believed(weather)).chain(not_believed(search)).collect()
    }
}
