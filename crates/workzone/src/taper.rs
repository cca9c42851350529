//! Taper lengths.

use model::figure::{Figure, Source, Why};
use model::rules::Sourced;
use model::rules::traffic::TrafficRules;

use crate::text::{ft, joined, mph, round_up, tidy};

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

/// Length of a taper in feet, for a width closed in feet and a speed (already on a step) in miles per hour; rounded up.
/// A width that is not a number above zero needs no taper.
pub fn taper_length_ft(kind: TaperKind, width_ft: f64, speed_mph: f64, rules: &TrafficRules) -> Figure<f64> {
    let taper = &rules.taper;
    match kind {
        TaperKind::Merging => part_of_merging("", None, width_ft, speed_mph, rules),
        TaperKind::Shifting => part_of_merging(" / k", Some(&taper.shifting_divisor), width_ft, speed_mph, rules),
        TaperKind::Shoulder => part_of_merging(" / k", Some(&taper.shoulder_divisor), width_ft, speed_mph, rules),
        TaperKind::OneLaneTwoWay => {
            within(&taper.one_lane_ft, &taper.one_lane_min_ft, &taper.one_lane_max_ft, "one-lane two-way taper")
        }
        TaperKind::Downstream => within(
            &taper.downstream_ft,
            &taper.downstream_min_ft,
            &taper.downstream_max_ft,
            "downstream taper, each lane",
        ),
    }
}

/// L, or L divided by `divisor`.
fn part_of_merging(
    suffix: &str,
    divisor: Option<&Sourced<f64>>,
    width_ft: f64,
    speed_mph: f64,
    rules: &TrafficRules,
) -> Figure<f64> {
    let taper = &rules.taper;
    let width = if width_ft.is_finite() { width_ft.max(0.0) } else { 0.0 };
    let low = speed_mph <= taper.low_speed_max_mph.value;
    let (full, formula, source) = if low {
        (
            width * speed_mph * speed_mph / taper.low_speed_divisor.value,
            low_formula(rules),
            &taper.low_speed_divisor.source,
        )
    } else {
        (width * speed_mph * taper.high_speed_factor.value, high_formula(rules), &taper.high_speed_factor.source)
    };
    let mut sources: Vec<&Source> = vec![source];
    sources.extend(divisor.map(|d| &d.source));
    let length = round_up(full / divisor.map_or(1.0, |d| d.value), taper.round_up_ft.value);
    let mut why =
        Why::new(format!("L{suffix}, {formula}, rounded up to {} ft", tidy(taper.round_up_ft.value)), joined(&sources))
            .with("W", ft(width))
            .with("S", mph(speed_mph));
    if let Some(divisor) = divisor {
        why = why.with("k", divisor.value);
    }
    Figure::exact(length, why)
}

fn low_formula(rules: &TrafficRules) -> String {
    let taper = &rules.taper;
    format!("L = W S²/{} (S up to {} mph)", tidy(taper.low_speed_divisor.value), tidy(taper.low_speed_max_mph.value))
}

fn high_formula(rules: &TrafficRules) -> String {
    let taper = &rules.taper;
    let factor = if taper.high_speed_factor.value == 1.0 {
        String::new()
    } else {
        format!("{} ", taper.high_speed_factor.value)
    };
    format!("L = {factor}W S (S above {} mph)", tidy(taper.low_speed_max_mph.value))
}

/// The chosen length, kept between the shortest and the longest that are right.
fn within(chosen: &Sourced<f64>, least: &Sourced<f64>, most: &Sourced<f64>, name: &str) -> Figure<f64> {
    let length = chosen.value.max(least.value).min(most.value);
    let why = Why::new(
        format!("{name}: chosen, not under the least, not over the most"),
        joined(&[&most.source, &chosen.source]),
    )
    .with("chosen", ft(chosen.value))
    .with("least", ft(least.value))
    .with("most", ft(most.value));
    Figure::exact(length, why)
}
