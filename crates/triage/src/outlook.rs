//! What a hole may come to if it is left alone.

use jiff::ToSpan;
use jiff::civil::Date;
use model::district::UnitSystem;
use model::figure::{Figure, Why};
use model::hole::Wetness;
use model::quantity::{InArea, InLength, metres, square_metres};
use model::rules::severity::{SeverityRules, WorseningRules};
use model::triage::{Outlook, Severity};

use crate::risk::{factor_at, risk, vehicles_per_day};
use crate::severity::rate;
use crate::{TriageInput, counted_from, sentence};

/// Days of the month that the rates are for.
const MONTH_DAYS: f64 = 30.0;

/// Looks ahead to the due day, and on to the day on which the next severity begins.
pub(crate) fn outlook(
    input: &TriageInput,
    severity: Option<Severity>,
    due: Option<Date>,
    rules: &SeverityRules,
    today: Date,
    units: UnitSystem,
) -> Outlook {
    let day = due.map_or(today, |due| due.max(today));
    let rate_factor = RateFactor::of(input, rules);
    let then = grown(input, day, today, &rate_factor, &rules.worsening);
    let rated = rate(&then, rules).severity;
    let worse = next_severity(input, severity, rules, today, &rate_factor);
    let days = days_grown(input, day, today, &rules.worsening);
    let why = |rule: &str, rate: String, source: &model::figure::Source| {
        Why::new(rule, source.clone())
            .with("t", format!("{days:.0} days"))
            .with("f_traffic", &rate_factor.traffic_words)
            .with("f_wetness", &rate_factor.wetness_words)
            .with("rate", rate)
    };
    let growth = &rules.worsening;
    let depth_why = why(
        "D(t) = max(D, min(D_max, D + d f_traffic f_wetness t / 30)); an aid to ranking, no forecast",
        format!("{:.0} mm a month", growth.depth_m_per_month.value * 1000.0),
        &growth.depth_m_per_month.source,
    )
    .with("D", format!("{:.0} mm", input.depth.in_millimetres()))
    .with("D_max", format!("{:.0} mm", growth.greatest_depth_m.value * 1000.0));
    let area_why = why(
        "A(t) = A (1 + a)^(f_traffic f_wetness t / 30); an aid to ranking, no forecast",
        format!("{:.0} % a month", growth.area_share_per_month.value * 100.0),
        &growth.area_share_per_month.source,
    )
    .with("A", format!("{:.3} m²", input.area.in_square_metres()));
    let (risk, _) = risk(&then, rated, &rules.risk, day);
    let sentence = sentence::outlook(input, &then, day, today, worse, units);
    Outlook {
        day,
        depth: Figure::exact(then.depth, depth_why),
        area: Figure::exact(then.area, area_why),
        severity: rated,
        risk,
        worse,
        sentence,
    }
}

/// How fast this hole grows against the plain rate.
struct RateFactor {
    value: f64,
    traffic_words: String,
    wetness_words: String,
}

impl RateFactor {
    fn of(input: &TriageInput, rules: &SeverityRules) -> Self {
        let (vehicles, words) = vehicles_per_day(input, &rules.risk);
        let traffic = factor_at(vehicles, &rules.worsening.vehicles_per_day.value);
        let wetness = rules.worsening.wetness.value.of(input.wetness);
        let wetness_word = input.wetness.map_or("wet or dry unknown", Wetness::word);
        RateFactor {
            value: traffic * wetness,
            traffic_words: format!("{traffic} ({words})"),
            wetness_words: format!("{wetness} ({wetness_word})"),
        }
    }
}

/// Days that it has grown by then since its size was taken; no more than the rules look ahead.
fn days_grown(input: &TriageInput, day: Date, today: Date, rules: &WorseningRules) -> f64 {
    let from = counted_from(input.sized.or(input.seen), today);
    let days = day.duration_since(from).as_hours() / 24;
    days.clamp(0, i64::from(rules.horizon_days.value)) as f64
}

/// The hole on that day, left alone.
fn grown(input: &TriageInput, day: Date, today: Date, rate_factor: &RateFactor, rules: &WorseningRules) -> TriageInput {
    let months = days_grown(input, day, today, rules) / MONTH_DAYS * rate_factor.value;
    let deepest = rules.greatest_depth_m.value.max(input.depth.in_metres());
    let depth = (input.depth.in_metres() + rules.depth_m_per_month.value * months).min(deepest);
    let area_factor = (1.0 + rules.area_share_per_month.value).powf(months);
    TriageInput {
        depth: metres(depth),
        area: square_metres(input.area.in_square_metres() * area_factor),
        least_plan_dimension: input.least_plan_dimension * area_factor.sqrt(),
        ..input.clone()
    }
}

/// The first day after today on which the hole, left alone, is of a higher severity than it is now, and that severity.
fn next_severity(
    input: &TriageInput,
    severity: Option<Severity>,
    rules: &SeverityRules,
    today: Date,
    rate_factor: &RateFactor,
) -> Option<(Severity, Date)> {
    if severity == Some(Severity::High) {
        return None;
    }
    (1..=i64::from(rules.worsening.horizon_days.value)).find_map(|days| {
        let day = today.saturating_add(days.days());
        let then = rate(&grown(input, day, today, rate_factor, &rules.worsening), rules).severity;
        then.filter(|_| then > severity).map(|worse| (worse, day))
    })
}
