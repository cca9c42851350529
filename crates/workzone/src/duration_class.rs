//! Duration class of the work.

use model::figure::Why;
use model::quantity::{InTime, Time};
use model::rules::traffic::TrafficRules;

use crate::text::{joined, tidy};

/// A duration class with how it was found.
#[derive(Debug, Clone, PartialEq)]
pub struct DurationClass {
    /// Name by the rule set.
    pub name: String,
    /// How it was found.
    pub why: Why,
}

/// The class for the whole time at one spot: set-up, work and take-in together. Work that moves (mobile) is not laid out here. A time that is not a number counts as
/// longest.
pub fn duration_class(time: Time, night: bool, rules: &TrafficRules) -> DurationClass {
    let duration = &rules.duration;
    let hours = time.in_hours();
    let names = &duration.names.value;
    let (name, rule) = if hours <= duration.short_max_hours.value + MILLISECOND_HOURS {
        (&names.short_duration, "t up to the short limit")
    } else if hours.is_nan() || hours > duration.long_over_hours.value + MILLISECOND_HOURS {
        (&names.long_term, "t above the long limit")
    } else if night || hours > duration.daylight_hours.value + MILLISECOND_HOURS {
        (&names.intermediate_term, "t at night above the short limit, or more than one daylight period")
    } else {
        (&names.short_term, "t within one daylight period")
    };
    let why = Why::new(rule, joined(&[&duration.names.source, &duration.daylight_hours.source]))
        .with("t", format!("{} h", tidy(hours)))
        .with("short limit", format!("{} h", duration.short_max_hours.value))
        .with("daylight period", format!("{} h", duration.daylight_hours.value))
        .with("long limit", format!("{} h", duration.long_over_hours.value))
        .with("night", if night { "yes" } else { "no" });
    DurationClass { name: name.clone(), why }
}

/// A millisecond: an hour that went through a unit conversion is still an hour.
const MILLISECOND_HOURS: f64 = 1.0 / 3_600_000.0;
