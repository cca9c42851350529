//! Advance warning: how far ahead of the restriction the signs stand.

use model::figure::{Figure, Why};
use model::road::{RoadSection, Setting};
use model::rules::traffic::{SignPlace, TrafficRules};

use crate::text::{distance_words, speed_words};

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
    let distances = &rule.value;
    let why = |sum: &str| {
        Why::new(format!("distance ahead of the restriction = {sum}, road type {kind}"), rule.source.clone())
            .with("S", speed_words(speed, rules.units))
            .with("A", distance_words(distances.a, rules.units))
    };
    let second = distances.a + distances.b;
    SignSeries {
        first: Figure::exact(distances.a, why("A")),
        second: Figure::exact(second, why("A + B").with("B", distance_words(distances.b, rules.units))),
        third: Figure::exact(
            second + distances.c,
            why("A + B + C")
                .with("B", distance_words(distances.b, rules.units))
                .with("C", distance_words(distances.c, rules.units)),
        ),
    }
}

impl SignSeries {
    /// Distance ahead of the restriction of a place in the series; `None` for the sign past the closure.
    pub fn at(&self, place: SignPlace) -> Option<&Figure<f64>> {
        match place {
            SignPlace::First => Some(&self.first),
            SignPlace::Second => Some(&self.second),
            SignPlace::Third => Some(&self.third),
            SignPlace::End => None,
        }
    }
}
