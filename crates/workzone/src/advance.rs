//! Advance warning: how far ahead of the restriction the signs stand.

use model::figure::{Figure, Why};
use model::road::{RoadSection, Setting};
use model::rules::traffic::{SignPlace, TrafficRules};

use crate::text::{ft, mph};

/// Distances of the sign series ahead of the restriction, in feet, each with how it was worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct SignSeries {
    /// Nearest sign: A.
    pub first_ft: Figure<f64>,
    /// Second: A + B.
    pub second_ft: Figure<f64>,
    /// Third, furthest upstream: A + B + C.
    pub third_ft: Figure<f64>,
}

/// The series for a road and a speed (already on a step) in miles per hour.
pub fn sign_series(section: &RoadSection, speed_mph: f64, rules: &TrafficRules) -> SignSeries {
    let advance = &rules.advance;
    let (rule, kind) = if advance.expressway_classes.value.contains(&section.class) {
        (&advance.expressway, "expressway or freeway")
    } else if section.setting == Setting::Rural {
        (&advance.rural, "rural")
    } else if speed_mph <= advance.urban_low_speed_max_mph.value {
        (&advance.urban_low, "urban, low speed")
    } else {
        (&advance.urban_high, "urban, high speed")
    };
    let distances = &rule.value;
    let why = |sum: &str| {
        Why::new(format!("distance ahead of the restriction = {sum}, road type {kind}"), rule.source.clone())
            .with("S", mph(speed_mph))
            .with("A", ft(distances.a_ft))
    };
    let second = distances.a_ft + distances.b_ft;
    SignSeries {
        first_ft: Figure::exact(distances.a_ft, why("A")),
        second_ft: Figure::exact(second, why("A + B").with("B", ft(distances.b_ft))),
        third_ft: Figure::exact(
            second + distances.c_ft,
            why("A + B + C").with("B", ft(distances.b_ft)).with("C", ft(distances.c_ft)),
        ),
    }
}

impl SignSeries {
    /// Distance ahead of the restriction of a place in the series; `None` for the sign past the closure.
    pub fn at(&self, place: SignPlace) -> Option<&Figure<f64>> {
        match place {
            SignPlace::First => Some(&self.first_ft),
            SignPlace::Second => Some(&self.second_ft),
            SignPlace::Third => Some(&self.third_ft),
            SignPlace::End => None,
        }
    }
}
