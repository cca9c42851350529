//! Risk points: a product of factors, to put holes in order.

use jiff::civil::Date;
use model::figure::{Figure, Why};
use model::hole::{LanePosition, Wetness};
use model::quantity::{InLength, InVelocity};
use model::rules::severity::{RiskRules, Step};
use model::triage::Severity;

use crate::{TriageInput, counted_from};

/// Multiplies the factors; the reason lists every one with what chose it. The factors come too, that of severity first.
pub(crate) fn risk<'r>(
    input: &TriageInput,
    severity: Option<Severity>,
    rules: &'r RiskRules,
    today: Date,
) -> (Figure<f64>, [Factor<'r>; 7]) {
    let factors = [
        by_severity(severity, rules),
        by_depth(input, rules),
        by_position(input, rules),
        by_speed(input, rules),
        by_traffic(input, rules),
        by_wetness(input, rules),
        by_age(input, rules, today),
    ];
    let rule = "R = f_severity * f_depth * f_position * f_speed * f_traffic * f_wetness * f_age; \
                a ranking aid only";
    let main_source = &rules.severity.source;
    let why = factors.iter().fold(Why::new(rule, main_source.clone()), |why, factor| {
        // A factor from elsewhere than the first says so itself.
        let source = if factor.source == main_source { String::new() } else { format!(" [{}]", factor.source) };
        why.with(factor.name, format!("{} ({}){source}", factor.value, factor.chosen_by))
    });
    (Figure::exact(factors.iter().map(|factor| factor.value).product(), why), factors)
}

/// One factor of the risk.
pub(crate) struct Factor<'r> {
    pub name: &'static str,
    pub value: f64,
    /// What chose it, in words.
    pub chosen_by: String,
    source: &'r model::figure::Source,
}

fn by_severity(severity: Option<Severity>, rules: &RiskRules) -> Factor<'_> {
    let table = rules.severity.value;
    let value = match severity {
        None => table.not_rated,
        Some(Severity::Low) => table.low,
        Some(Severity::Medium) => table.medium,
        Some(Severity::High) => table.high,
    };
    Factor { name: "f_severity", value, chosen_by: Severity::word(severity).to_owned(), source: &rules.severity.source }
}

fn by_depth<'r>(input: &TriageInput, rules: &'r RiskRules) -> Factor<'r> {
    // To the micrometre, so that unit conversion does not decide at a step.
    let depth_m = (input.depth.in_metres() * 1e6).round() / 1e6;
    Factor {
        name: "f_depth",
        value: factor_at(depth_m, &rules.depth_m.value),
        chosen_by: format!("{:.0} mm", depth_m * 1000.0),
        source: &rules.depth_m.source,
    }
}

fn by_position<'r>(input: &TriageInput, rules: &'r RiskRules) -> Factor<'r> {
    let table = rules.position.value;
    let value = match input.lane_position {
        None => table.unknown,
        Some(LanePosition::Lane) => table.lane,
        Some(LanePosition::WheelPath) => table.wheel_path,
        Some(LanePosition::Edge) => table.edge,
        Some(LanePosition::Shoulder) => table.shoulder,
        Some(LanePosition::Centre) => table.centre,
    };
    let word = input.lane_position.map_or("place in the lane unknown", LanePosition::words);
    Factor { name: "f_position", value, chosen_by: word.to_owned(), source: &rules.position.source }
}

fn by_speed<'r>(input: &TriageInput, rules: &'r RiskRules) -> Factor<'r> {
    let speed_km_h = (input.speed.in_kilometres_per_hour() * 1e6).round() / 1e6;
    Factor {
        name: "f_speed",
        value: factor_at(speed_km_h, &rules.speed_km_h.value),
        chosen_by: format!("{speed_km_h:.0} km/h"),
        source: &rules.speed_km_h.source,
    }
}

fn by_traffic<'r>(input: &TriageInput, rules: &'r RiskRules) -> Factor<'r> {
    let (vehicles, words) = vehicles_per_day(input, rules);
    Factor {
        name: "f_traffic",
        value: factor_at(vehicles, &rules.vehicles_per_day.value),
        chosen_by: words,
        source: &rules.vehicles_per_day.source,
    }
}

/// Vehicles a day, counted or assumed for the class of road, and in words.
pub(crate) fn vehicles_per_day(input: &TriageInput, rules: &RiskRules) -> (f64, String) {
    let assumed = || rules.vehicles_assumed.value.get(&input.class).copied().unwrap_or(0.0);
    let (vehicles, note) = match input.vehicles_per_day {
        Some(counted) => (counted, String::new()),
        None => (assumed(), format!(", assumed for class {}", input.class.word())),
    };
    (vehicles, format!("{vehicles:.0} vehicles a day{note}"))
}

fn by_wetness<'r>(input: &TriageInput, rules: &'r RiskRules) -> Factor<'r> {
    let value = rules.wetness.value.of(input.wetness);
    let word = input.wetness.map_or("wet or dry unknown", Wetness::word);
    Factor { name: "f_wetness", value, chosen_by: word.to_owned(), source: &rules.wetness.source }
}

fn by_age<'r>(input: &TriageInput, rules: &'r RiskRules, today: Date) -> Factor<'r> {
    let days = today.duration_since(counted_from(input.seen, today)).as_hours() / 24;
    let chosen_by = match input.seen {
        None => "day seen unknown".to_owned(),
        Some(_) => match days {
            0 => "seen today".to_owned(),
            1 => "seen yesterday".to_owned(),
            days => format!("seen {days} days ago"),
        },
    };
    Factor {
        name: "f_age",
        value: factor_at(days as f64, &rules.age_days.value),
        chosen_by,
        source: &rules.age_days.source,
    }
}

/// The factor of the last step that begins at or before the value; of the first where none does.
pub(crate) fn factor_at(value: f64, steps: &[Step]) -> f64 {
    let reached = steps.iter().rev().find(|step| step.from <= value).or(steps.first());
    reached.map_or(1.0, |step| step.factor)
}
