//! Taper lengths.

use model::figure::{Figure, Source, Why};
use model::rules::Sourced;
use model::rules::traffic::{TrafficRules, Units};

use crate::text::{distance_words, joined, round_up, speed_words, tidy};

/// Kinds of taper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum TaperKind {
    /// Traffic merges into another lane: L.
    Merging,
    /// Traffic moves sideways and keeps its lane: L / 2.
    Shifting,
    /// The shoulder is closed: L / 3.
    Shoulder,
    /// Traffic of two directions takes turns: short, so that nobody takes the closed lane for open.
    OneLaneTwoWay,
    /// The end of the closure, for the given width of one lane.
    Downstream,
}

/// Length of a taper for a width closed and a speed (already on a step), all in the rule set's units; rounded up.
/// A width that is not a number above zero needs no taper.
pub fn taper_length(kind: TaperKind, width: f64, speed: f64, rules: &TrafficRules) -> Figure<f64> {
    let taper = &rules.taper;
    match kind {
        TaperKind::Merging => part_of_merging("", None, width, speed, rules),
        TaperKind::Shifting => part_of_merging(" / k", Some(&taper.shifting_divisor), width, speed, rules),
        TaperKind::Shoulder => part_of_merging(" / k", Some(&taper.shoulder_divisor), width, speed, rules),
        TaperKind::OneLaneTwoWay => {
            within(&taper.one_lane, &taper.one_lane_min, &taper.one_lane_max, "one-lane two-way taper", rules.units)
        }
        TaperKind::Downstream => within(
            &taper.downstream,
            &taper.downstream_min,
            &taper.downstream_max,
            "downstream taper, each lane",
            rules.units,
        ),
    }
}

/// L, or L divided by `divisor`.
fn part_of_merging(
    suffix: &str,
    divisor: Option<&Sourced<f64>>,
    width: f64,
    speed: f64,
    rules: &TrafficRules,
) -> Figure<f64> {
    let taper = &rules.taper;
    let width = if width.is_finite() { width.max(0.0) } else { 0.0 };
    let low = speed <= taper.low_speed_max.value;
    let (full, formula, source) = if low {
        (width * speed * speed / taper.low_speed_divisor.value, low_formula(rules), &taper.low_speed_divisor.source)
    } else {
        (width * speed * taper.high_speed_factor.value, high_formula(rules), &taper.high_speed_factor.source)
    };
    let mut sources: Vec<&Source> = vec![source];
    sources.extend(divisor.map(|d| &d.source));
    let length = round_up(full / divisor.map_or(1.0, |d| d.value), taper.round_up.value);
    let mut why = Why::new(
        format!("L{suffix}, {formula}, rounded up to {} {}", tidy(taper.round_up.value), rules.units.distance.symbol()),
        joined(&sources),
    )
    .with("W", distance_words(width, rules.units))
    .with("S", speed_words(speed, rules.units));
    if let Some(divisor) = divisor {
        why = why.with("k", divisor.value);
    }
    Figure::exact(length, why)
}

fn low_formula(rules: &TrafficRules) -> String {
    let taper = &rules.taper;
    format!(
        "L = W S²/{} (S up to {} {})",
        tidy(taper.low_speed_divisor.value),
        tidy(taper.low_speed_max.value),
        rules.units.speed.symbol()
    )
}

fn high_formula(rules: &TrafficRules) -> String {
    let taper = &rules.taper;
    let factor = if taper.high_speed_factor.value == 1.0 {
        String::new()
    } else {
        format!("{} ", taper.high_speed_factor.value)
    };
    format!("L = {factor}W S (S above {} {})", tidy(taper.low_speed_max.value), rules.units.speed.symbol())
}

/// The chosen length, kept between the shortest and the longest that are right.
fn within(chosen: &Sourced<f64>, least: &Sourced<f64>, most: &Sourced<f64>, name: &str, units: Units) -> Figure<f64> {
    let length = chosen.value.max(least.value).min(most.value);
    let why = Why::new(
        format!("{name}: chosen, not under the least, not over the most"),
        joined(&[&most.source, &chosen.source]),
    )
    .with("chosen", distance_words(chosen.value, units))
    .with("least", distance_words(least.value, units))
    .with("most", distance_words(most.value, units));
    Figure::exact(length, why)
}
