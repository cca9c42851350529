//! The judgement in words that a foreman reads aloud.

use jiff::civil::Date;
use model::district::UnitSystem;
use model::figure::Figure;
use model::hole::{LanePosition, Wetness};
use model::quantity::InVelocity;
use model::triage::Severity;

use crate::risk::Factor;
use crate::severity::{Rated, equivalent_diameter};
use crate::{TriageInput, words};

/// `High: 60 mm deep and 400 mm across in a wheel path at 80 km/h; mend by Friday 12 June.`
pub(crate) fn severity_and_due(
    input: &TriageInput,
    rated: &Rated,
    due: Option<Date>,
    today: Date,
    units: UnitSystem,
) -> String {
    let severity = match &rated.too_small {
        Some(reason) => format!("Not rated, {reason}"),
        None => capital(Severity::word(rated.severity)),
    };
    let place = input.lane_position.map(|place| format!(" {}", LanePosition::words(place))).unwrap_or_default();
    let water = match input.wetness {
        Some(Wetness::Wet) => ", wet",
        Some(Wetness::Seepage) => ", water seeping into it",
        Some(Wetness::Pumping) => ", the base pumping",
        Some(Wetness::Dry | Wetness::Damp) | None => "",
    };
    let due = match due {
        None => "no day is set for it".to_owned(),
        Some(day) if day < today => format!("it was to be mended by {}", words::day(day, today)),
        Some(day) if day == today => "mend it today".to_owned(),
        Some(day) => format!("mend by {}", words::day(day, today)),
    };
    format!("{severity}: {}{place} at {}{water}; {due}.", size_words(input, units), speed_words(input, units))
}

/// `138 points: 15 for medium, times 1.2 (60 mm deep), 1.5 (in a wheel path).` Factors of 1 are left out.
pub(crate) fn risk(risk: &Figure<f64>, factors: &[Factor]) -> String {
    let Some((base, others)) = factors.split_first() else { return String::new() };
    let times: Vec<String> = others
        .iter()
        .filter(|factor| factor.value != 1.0)
        .map(|factor| format!("{} ({})", factor.value, factor.chosen_by))
        .collect();
    let times = if times.is_empty() { String::new() } else { format!(", times {}", times.join(", ")) };
    format!("{:.0} points: {} for {}{times}.", risk.value, base.value, base.chosen_by)
}

/// `Left alone it may be 75 mm deep and 430 mm across by Friday 12 June, and high from Thursday 18 June.`
pub(crate) fn outlook(
    now: &TriageInput,
    then: &TriageInput,
    day: Date,
    today: Date,
    worse: Option<(Severity, Date)>,
    units: UnitSystem,
) -> String {
    let (size_now, size_then) = (size_words(now, units), size_words(then, units));
    let by = words::day(day, today);
    let size = if size_now == size_then {
        format!("Left alone it stays about as it is until {by}")
    } else {
        format!("Left alone it may be {size_then} by {by}")
    };
    match worse {
        Some((severity, from)) => {
            format!("{size}; it may turn {} about {}.", Severity::word(Some(severity)), words::day(from, today))
        }
        None => format!("{size}."),
    }
}

fn size_words(input: &TriageInput, units: UnitSystem) -> String {
    let across = equivalent_diameter(input.area);
    format!("{} deep and {} across", words::size(input.depth, units), words::size(across, units))
}

fn speed_words(input: &TriageInput, units: UnitSystem) -> String {
    match units {
        UnitSystem::Si => format!("{:.0} km/h", input.speed.in_kilometres_per_hour()),
        UnitSystem::UsCustomary => format!("{:.0} mph", input.speed.in_miles_per_hour()),
    }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
