//! Peaks and their standard errors against numpy.polyfit and scipy; `reference/compaction.py` wrote the values.

use model::figure::Spread;
use model::quantity::{InMassDensity, InRatio};
use model::soil::FitDegree;
use serde::Deserialize;
use soil::least_squares::Polynomial;
use soil::{DegreeChoice, compaction_test};

use crate::support::{near, soil_rules, specimens};

#[derive(Deserialize)]
struct Reference {
    cases: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    degree: usize,
    moisture: Vec<f64>,
    density: Vec<f64>,
    at: f64,
    value: f64,
    spare: usize,
    at_error: Option<f64>,
    value_error: Option<f64>,
    t90: Option<f64>,
    scatter: Option<f64>,
}

fn cases() -> Vec<Case> {
    let reference: Reference = serde_json::from_str(include_str!("../reference/compaction.json")).unwrap();
    assert_eq!(reference.cases.len(), 60);
    reference.cases
}

/// Tolerance 1e-9 relative: both solve the same small system, ours by singular values.
#[test]
fn peaks_and_their_errors_agree() {
    let mut with_error = 0;
    for case in cases() {
        let points: Vec<(f64, f64)> = case.moisture.iter().copied().zip(case.density.iter().copied()).collect();
        let curve = Polynomial::fit(&points, case.degree).expect("the points fix it");
        let peak = curve.peak().expect("numpy found one");
        assert_eq!(curve.degrees_of_freedom(), case.spare);
        near(peak.at, case.at, 1e-9 * case.at.abs());
        near(peak.value, case.value, 1e-9 * case.value);
        let plain = curve.plain_constants();
        let height = plain.iter().rev().fold(0.0, |sum, c| sum * case.at + c);
        near(height, case.value, 1e-7 * case.value);
        assert_eq!(peak.at_error.is_some(), case.at_error.is_some());
        if let (Some(at), Some(value), Some(scatter)) = (case.at_error, case.value_error, case.scatter) {
            near(peak.at_error.unwrap(), at, 1e-8 * at);
            near(peak.value_error.unwrap(), value, 1e-8 * value);
            near(curve.scatter().unwrap(), scatter, 1e-8 * scatter);
            with_error += 1;
        }
    }
    assert!(with_error > 30);
}

/// The spread that the test reports is the value plus and minus t times the standard error.
#[test]
fn spreads_are_students_t_times_the_error() {
    let rules = soil_rules().compaction;
    let mut compared = 0;
    for case in cases() {
        let points: Vec<(f64, f64)> = case.moisture.iter().map(|w| 100.0 * w).zip(case.density.clone()).collect();
        let degree = if case.degree == 2 { FitDegree::Parabola } else { FitDegree::Cubic };
        let (test, problems) = compaction_test(&specimens(&points), Some(3.9), DegreeChoice::Only(degree), &rules);
        assert!(problems.is_empty());
        let (Ok(fit), Some(t)) = (test.fit, case.t90) else { continue };
        let Some(Spread { p10, p50, p90 }) = fit.maximum_dry_density.spread else { panic!("no spread") };
        let off = t * case.value_error.unwrap();
        near(p10.in_kilograms_per_cubic_metre(), case.value - off, 1e-5);
        near(p50.in_kilograms_per_cubic_metre(), case.value, 1e-5);
        near(p90.in_kilograms_per_cubic_metre(), case.value + off, 1e-5);
        let Some(Spread { p10, p90, .. }) = fit.optimum_moisture.spread else { panic!("no spread") };
        let off = t * case.at_error.unwrap();
        near(p10.in_fraction(), (case.at - off).max(0.0), 1e-7);
        near(p90.in_fraction(), case.at + off, 1e-7);
        compared += 1;
    }
    assert!(compared > 20, "{compared}");
}
