//! Cones along a part of the zone.

use model::figure::{Figure, Why};
use model::rules::Sourced;
use model::rules::traffic::{TrafficRules, Units};

use crate::text::{FORGIVEN, distance_words, speed_words};

/// Guard against absurd input: no part of a zone gets more gaps between cones than this.
const GAPS_MAX: f64 = 10_000.0;

/// Cones on a length at a greatest spacing, both ends included: n = ceil(L / s) + 1. A spacing or length that is not a
/// number above zero gives the one cone at the start.
pub fn cone_count(length: f64, spacing: f64) -> u32 {
    gaps(length, spacing) + 1
}

/// Gaps between cones: ceil(L / s).
pub fn gaps(length: f64, spacing: f64) -> u32 {
    let usable = length.is_finite() && spacing.is_finite() && length > 0.0 && spacing > 0.0;
    if usable { (length / spacing - FORGIVEN).ceil().clamp(1.0, GAPS_MAX) as u32 } else { 0 }
}

/// Greatest spacing in a merging, shifting or shoulder taper.
pub fn in_taper(speed: f64, rules: &TrafficRules) -> Figure<f64> {
    for_speed(&rules.spacing.taper_per_speed, speed, rules.units)
}

/// Greatest spacing along buffer and work space.
pub fn in_tangent(speed: f64, rules: &TrafficRules) -> Figure<f64> {
    for_speed(&rules.spacing.tangent_per_speed, speed, rules.units)
}

/// s = f S.
fn for_speed(factor: &Sourced<f64>, speed: f64, units: Units) -> Figure<f64> {
    let rule = format!("s = f S, f in {} for each {}", units.distance.symbol(), units.speed.symbol());
    let why = Why::new(rule, factor.source.clone()).with("f", factor.value).with("S", speed_words(speed, units));
    Figure::exact(factor.value * speed, why)
}

/// Spacing in one-lane two-way and downstream tapers.
pub fn in_short_taper(rules: &TrafficRules) -> Figure<f64> {
    let rule = &rules.spacing.short_taper;
    let why = Why::new("s fixed", rule.source.clone()).with("s", distance_words(rule.value, rules.units));
    Figure::exact(rule.value, why)
}
