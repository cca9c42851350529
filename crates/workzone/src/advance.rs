//! Advance warning: how far ahead of the restriction the signs stand.

use model::figure::{Figure, Source, Why};
use model::quantity::seconds;
use model::road::{RoadSection, Setting};
use model::rules::Sourced;
use model::rules::traffic::{SignPlace, TrafficRules};

use crate::stopping::stopping_distance;
use crate::text::{distance_words, joined, round_up, speed_words};

/// Distances of the sign series ahead of the restriction, in the rule set's unit, each with how it was worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct SignSeries {
    /// Nearest sign: A.
    pub first: Figure<f64>,
    /// Second: A + B.
    pub second: Figure<f64>,
    /// Third, furthest upstream: A + B + C.
    pub third: Figure<f64>,
}

/// The series for a road and a speed (already on a step) in the rule set's unit.
pub fn sign_series(section: &RoadSection, speed: f64, rules: &TrafficRules) -> SignSeries {
    let advance = &rules.advance;
    let (rule, kind) = if advance.expressway_classes.value.contains(&section.class) {
        (&advance.expressway, "expressway or freeway")
    } else if section.setting == Setting::Rural {
        (&advance.rural, "rural")
    } else if speed <= advance.urban_low_speed_max.value {
        (&advance.urban_low, "urban, low speed")
    } else {
        (&advance.urban_high, "urban, high speed")
    };
    let units = rules.units;
    let stopping = advance.first_least_stopping_distances.value * stopping_distance(speed, rules).value;
    let driven = units.distance_of(units.velocity(speed) * seconds(advance.between_least_s.value));
    // Nothing is added where the rows stand as they are.
    let at_least = |row: f64, least: f64| row.max(round_up(least, rules.taper.round_up.value));
    let (a, b, c) = (at_least(rule.value.a, stopping), at_least(rule.value.b, driven), at_least(rule.value.c, driven));
    let why = |sum: &str, sources: &[&Source]| {
        Why::new(format!("distance ahead of the restriction = {sum}, road type {kind}"), joined(sources))
            .with("S", speed_words(speed, units))
            .with("A", distance_words(a, units))
    };
    let first_sources = sources(rule, &advance.first_least_stopping_distances, a > rule.value.a);
    let further = b > rule.value.b || c > rule.value.c;
    let all_sources = [first_sources.clone(), sources(rule, &advance.between_least_s, further)].concat();
    let (to_second, to_third) = (distance_words(b, units), distance_words(c, units));
    SignSeries {
        first: Figure::exact(a, why("A", &first_sources)),
        second: Figure::exact(a + b, why("A + B", &all_sources).with("B", &to_second)),
        third: Figure::exact(a + b + c, why("A + B + C", &all_sources).with("B", &to_second).with("C", &to_third)),
    }
}

/// The row's source, and that of the least where it is what counts.
fn sources<'a, T>(row: &'a Sourced<T>, least: &'a Sourced<f64>, counts: bool) -> Vec<&'a Source> {
    std::iter::once(&row.source).chain(counts.then_some(&least.source)).collect()
}

impl SignSeries {
    /// Distance ahead of the restriction of a place in the series; `None` for what does not stand ahead of it.
    pub fn at(&self, place: SignPlace) -> Option<&Figure<f64>> {
        match place {
            SignPlace::First => Some(&self.first),
            SignPlace::Second => Some(&self.second),
            SignPlace::Third => Some(&self.third),
            SignPlace::Closure | SignPlace::End | SignPlace::Vehicle => None,
        }
    }
}
