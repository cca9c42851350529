//! Whether a rule set makes sense: complete, in order, and never milder for a worse hole.

use model::road::RoadClass;
use model::rules::severity::{Band, DueGroup, SeverityRules, Step, WeekDay, WetnessFactors, WorseningRules};
use thiserror::Error;

/// What is wrong with a rule set.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{rule}: {wrong}")]
pub struct RulesError {
    /// The key in the file, e.g. `risk.depth_m`.
    pub rule: &'static str,
    /// What is wrong and what would be right.
    pub wrong: String,
}

/// Looks a rule set over; all that is wrong with it, in the file's order.
pub fn check_rules(rules: &SeverityRules) -> Result<(), Vec<RulesError>> {
    let mut errors = Vec::new();
    let mut expect = |rule: &'static str, holds: bool, wrong: &str| {
        if !holds {
            errors.push(RulesError { rule, wrong: wrong.to_owned() });
        }
    };
    check_rating(rules, &mut expect);
    check_risk(rules, &mut expect);
    check_due(&rules.due.groups.value, &mut expect);
    let days = &rules.due.rest_days.value;
    let worked = [
        WeekDay::Monday,
        WeekDay::Tuesday,
        WeekDay::Wednesday,
        WeekDay::Thursday,
        WeekDay::Friday,
        WeekDay::Saturday,
        WeekDay::Sunday,
    ];
    expect("due.rest_days", worked.iter().any(|day| !days.contains(day)), "a week must have a working day");
    check_worsening(&rules.worsening, &mut expect);
    if errors.is_empty() { Ok(()) } else { Err(errors) }
}

fn check_rating(rules: &SeverityRules, expect: &mut impl FnMut(&'static str, bool, &str)) {
    let rating = &rules.rating;
    let number = "must be a finite number, zero or more";
    expect("rating.least_depth_m", is_amount(rating.least_depth_m.value), number);
    expect("rating.least_diameter_m", is_amount(rating.least_diameter_m.value), number);
    expect("rating.least_plan_dimension_m", is_amount(rating.least_plan_dimension_m.value), number);
    let bands = "ends must rise, be more than the least, and the last band have none";
    let (depths, diameters) = (&rating.depth_bands.value, &rating.diameter_bands.value);
    expect("rating.depth_bands", bands_rise(depths, rating.least_depth_m.value), bands);
    expect("rating.diameter_bands", bands_rise(diameters, rating.least_diameter_m.value), bands);
    let counted = diameters.iter().filter_map(|band| band.area_per_hole_m2).all(|area| area.is_finite() && area > 0.0);
    expect("rating.diameter_bands", counted, "area_per_hole_m2 must be more than zero");

    let table = &rating.table.value;
    let shape = table.len() == depths.len() && table.iter().all(|row| row.len() == diameters.len());
    expect("rating.table", shape, "needs one row for each depth band and one column for each diameter band");
    let rows_rise = table.iter().all(|row| row.is_sorted());
    let columns_rise = table.windows(2).all(|rows| rows[0].iter().zip(&rows[1]).all(|(above, below)| above <= below));
    expect("rating.table", rows_rise && columns_rise, "a deeper or larger hole must not be less severe");
}

fn check_risk(rules: &SeverityRules, expect: &mut impl FnMut(&'static str, bool, &str)) {
    let risk = &rules.risk;
    let severity = risk.severity.value;
    let in_order = [severity.not_rated, severity.low, severity.medium, severity.high];
    expect("risk.severity", factors_rise(&in_order), "factors must be above zero and rise with severity");
    let steps = "the first step must begin at 0, steps and factors must rise, factors be above zero";
    expect("risk.depth_m", steps_rise(&risk.depth_m.value), steps);
    let position = risk.position.value;
    let positions =
        [position.unknown, position.lane, position.wheel_path, position.edge, position.shoulder, position.centre];
    expect("risk.position", positions.into_iter().all(is_factor), "factors must be above zero");
    expect("risk.speed_km_h", steps_rise(&risk.speed_km_h.value), steps);
    expect("risk.vehicles_per_day", steps_rise(&risk.vehicles_per_day.value), steps);
    let assumed = &risk.vehicles_assumed.value;
    let complete = RoadClass::ALL.iter().all(|class| assumed.get(class).is_some_and(|vehicles| is_amount(*vehicles)));
    expect("risk.vehicles_assumed", complete, "needs a finite number, zero or more, for every class of road");
    expect("risk.wetness", wetness_rises(&risk.wetness.value), WETNESS);
    expect("risk.age_days", steps_rise(&risk.age_days.value), steps);
}

fn check_worsening(rules: &WorseningRules, expect: &mut impl FnMut(&'static str, bool, &str)) {
    let number = "must be a finite number, zero or more";
    expect("worsening.depth_m_per_month", is_amount(rules.depth_m_per_month.value), number);
    expect("worsening.area_share_per_month", is_amount(rules.area_share_per_month.value), number);
    expect("worsening.greatest_depth_m", is_amount(rules.greatest_depth_m.value), number);
    expect("worsening.horizon_days", rules.horizon_days.value <= 3650, "must be ten years at most");
    let steps = "the first step must begin at 0, steps and factors must rise, factors be above zero";
    expect("worsening.vehicles_per_day", steps_rise(&rules.vehicles_per_day.value), steps);
    expect("worsening.wetness", wetness_rises(&rules.wetness.value), WETNESS);
}

const WETNESS: &str = "factors must be above zero and rise: dry, damp, wet, seepage, pumping; unknown from dry to wet";

fn wetness_rises(factors: &WetnessFactors) -> bool {
    factors_rise(&[factors.dry, factors.damp, factors.wet, factors.seepage, factors.pumping])
        && factors_rise(&[factors.dry, factors.unknown, factors.wet])
}

fn check_due(groups: &[DueGroup], expect: &mut impl FnMut(&'static str, bool, &str)) {
    let takes_all = |group: &DueGroup| group.classes.is_empty() && group.speed_from_km_h.is_none();
    expect(
        "due.groups",
        groups.last().is_some_and(takes_all),
        "the last group must take every road: no classes, no speed",
    );
    let speeds = groups.iter().filter_map(|group| group.speed_from_km_h);
    expect("due.groups", speeds.clone().all(is_amount), "speed_from_km_h must be a finite number, zero or more");
    let rows: Vec<[u32; 4]> = groups.iter().map(days_in_order).collect();
    expect("due.groups", rows.iter().all(|row| row.is_sorted()), "a more severe hole must not have more days");
    let earlier_presses = rows.windows(2).all(|pair| pair[0].iter().zip(&pair[1]).all(|(first, next)| first <= next));
    expect("due.groups", earlier_presses, "an earlier group must not have more days than a later one");
}

/// Days from the most severe on; no time set is longer than any.
fn days_in_order(group: &DueGroup) -> [u32; 4] {
    [group.high_days, group.medium_days, group.low_days, group.not_rated_days]
        .map(|days| days.map_or(u32::MAX, u32::from))
}

fn bands_rise(bands: &[Band], least: f64) -> bool {
    let Some((last, others)) = bands.split_last() else { return false };
    let ends: Vec<f64> = std::iter::once(least).chain(others.iter().filter_map(|band| band.up_to_m)).collect();
    last.up_to_m.is_none()
        && ends.len() == bands.len()
        && ends.iter().all(|end| end.is_finite())
        && ends.windows(2).all(|pair| pair[0] < pair[1])
}

fn steps_rise(steps: &[Step]) -> bool {
    let factors: Vec<f64> = steps.iter().map(|step| step.factor).collect();
    steps.first().is_some_and(|first| first.from == 0.0)
        && steps.iter().all(|step| step.from.is_finite())
        && steps.windows(2).all(|pair| pair[0].from < pair[1].from)
        && factors_rise(&factors)
}

fn factors_rise(factors: &[f64]) -> bool {
    factors.iter().copied().all(is_factor) && factors.is_sorted()
}

fn is_factor(value: f64) -> bool {
    value.is_finite() && value > 0.0
}

fn is_amount(value: f64) -> bool {
    value.is_finite() && value >= 0.0
}
