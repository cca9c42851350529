//! From how far a device must be seen.

use model::figure::{Figure, Why};
use model::quantity::seconds;
use model::rules::traffic::TrafficRules;

use crate::stopping::stopping_distance;
use crate::text::{distance_words, joined, speed_words};

/// From how far a flagger must be seen at a speed, both in the rule set's unit: the stopping distance.
pub fn flagger_seen_from(speed: f64, rules: &TrafficRules) -> Figure<f64> {
    stopping_distance(speed, rules)
}

/// From how far the first sign of a series must be seen: the stopping distance, the way driven while it is seen and read, or
/// the rule set's least, whichever is longest.
pub fn sign_seen_from(speed: f64, rules: &TrafficRules) -> Figure<f64> {
    let (units, sight) = (rules.units, &rules.sight);
    let stopping = stopping_distance(speed, rules);
    let driven = units.distance_of(units.velocity(speed) * seconds(sight.sign_seen_s.value));
    let source = joined(&[&stopping.why.source, &sight.sign_seen_s.source, &sight.sign_seen_min.source]);
    let why = Why::new("d = max(stopping distance, t v, d_least)", source)
        .with("v", speed_words(speed, units))
        .with("stopping distance", distance_words(stopping.value, units))
        .with("t", format!("{} s", sight.sign_seen_s.value))
        .with("d_least", distance_words(sight.sign_seen_min.value, units));
    Figure::exact(stopping.value.max(driven).max(sight.sign_seen_min.value), why)
}
