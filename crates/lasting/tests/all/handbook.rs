//! The handbook's worked examples.

use lasting::accelerated::{AcceleratedFit, LifeFamily};
use lasting::interval_censored::{IntervalCurve, SeenBetween};
use lasting::life_table::LifeTable;
use lasting::log_rank::{holm, log_rank, stratified_log_rank};
use lasting::product_limit::{SurvivalCurve, area_rating};
use lasting::proportional::ProportionalFit;
use lasting::regression::{Coefficients, CovariateLife, CovariateLives};
use serde::Deserialize;
use testkit::worked_examples;

use crate::support::{assert_all_near, assert_near};

#[derive(Deserialize)]
struct ProductLimit {
    name: String,
    durations: Vec<f64>,
    failed: Vec<bool>,
    times: Vec<f64>,
    survival: Vec<f64>,
    lower: Vec<f64>,
    upper: Vec<f64>,
    median: Option<f64>,
    mean_until_20: f64,
}

impl ProductLimit {
    fn table(&self) -> LifeTable {
        LifeTable::of(self.durations.iter().copied().zip(self.failed.iter().copied())).unwrap()
    }
}

fn product_limits() -> Vec<ProductLimit> {
    worked_examples("lasting", "product_limit")
}

#[test]
fn product_limit() {
    for case in product_limits() {
        let curve = SurvivalCurve::of(&case.table(), 0.95);
        let each = |of: fn(&lasting::product_limit::CurvePoint) -> f64| curve.points.iter().map(of).collect::<Vec<_>>();
        assert_all_near(&each(|point| point.time), &case.times, 0.0, &case.name);
        assert_all_near(&each(|point| point.survival), &case.survival, 1e-9, &case.name);
        assert_all_near(&each(|point| point.lower), &case.lower, 1e-8, &case.name);
        assert_all_near(&each(|point| point.upper), &case.upper, 1e-8, &case.name);
        assert_eq!(curve.median(), case.median, "{}", case.name);
        assert_near(curve.restricted_mean(20.0).mean, case.mean_until_20, 1e-8, &case.name);
    }
}

#[derive(Deserialize)]
struct ByCounts {
    at_risk: Vec<u64>,
    failures: Vec<u64>,
    survival: Vec<f64>,
}

#[test]
fn survival_by_counts() {
    for case in worked_examples::<ByCounts>("lasting", "survival_by_counts") {
        let mut lives = Vec::new();
        for (at, (risk, failures)) in case.at_risk.iter().zip(&case.failures).enumerate() {
            let left = case.at_risk.get(at + 1).copied().unwrap_or(0);
            let time = at as f64 + 1.0;
            lives.extend((0..*failures).map(|_| (time, true)));
            lives.extend((0..risk - failures - left).map(|_| (time + 0.5, false)));
        }
        let curve = SurvivalCurve::of(&LifeTable::of(lives).unwrap(), 0.95);
        let survival: Vec<f64> = (1..=case.at_risk.len()).map(|time| curve.survival_at(time as f64)).collect();
        assert_all_near(&survival, &case.survival, 5e-6, "by counts");
    }
}

#[derive(Deserialize)]
struct MeanCase {
    durations: Vec<f64>,
    until: f64,
    mean: f64,
    error: f64,
}

#[test]
fn restricted_mean() {
    for case in worked_examples::<MeanCase>("lasting", "restricted_mean") {
        let table = LifeTable::of(case.durations.iter().map(|duration| (*duration, true))).unwrap();
        let mean = SurvivalCurve::of(&table, 0.95).restricted_mean(case.until);
        assert_near(mean.mean, case.mean, 1e-9, "mean");
        assert_near(mean.error, case.error, 1e-9, "error");
    }
}

#[derive(Deserialize)]
struct Test {
    chi2: f64,
    df: usize,
    p: f64,
}

#[test]
fn log_rank_of_three_groups() {
    let tables: Vec<LifeTable> = product_limits().iter().map(ProductLimit::table).collect();
    for case in worked_examples::<Test>("lasting", "log_rank") {
        let test = log_rank(&tables).unwrap();
        assert_near(test.chi2, case.chi2, 1e-9, "chi2");
        assert_eq!(test.df, case.df);
        assert_near(test.p, case.p, 1e-9, "p");
    }
}

#[derive(Deserialize)]
struct StrataCase {
    strata: usize,
    a: Vec<f64>,
    b: Vec<f64>,
    chi2: f64,
}

#[test]
fn log_rank_within_strata() {
    for case in worked_examples::<StrataCase>("lasting", "stratified_log_rank") {
        let table = |lives: &[f64]| LifeTable::of(lives.iter().map(|life| (*life, true))).unwrap();
        let strata = vec![vec![table(&case.a), table(&case.b)]; case.strata];
        assert_near(stratified_log_rank(&strata).unwrap().chi2, case.chi2, 1e-9, "chi2");
    }
}

#[derive(Deserialize)]
struct Holm {
    chances: Vec<f64>,
    corrected: Vec<f64>,
}

#[test]
fn correction_of_several_comparisons() {
    for case in worked_examples::<Holm>("lasting", "holm") {
        assert_all_near(&holm(&case.chances), &case.corrected, 1e-12, "Holm");
    }
}

#[derive(Deserialize)]
struct Intervals {
    check: String,
    after: Vec<f64>,
    until: Vec<f64>,
    masses: Vec<MassCase>,
}

#[derive(Deserialize)]
struct MassCase {
    after: f64,
    until: f64,
    mass: f64,
}

#[test]
fn failures_seen_between_looks() {
    for case in worked_examples::<Intervals>("lasting", "interval_censored") {
        let seen =
            case.after.iter().zip(&case.until).map(|(after, until)| SeenBetween { after: *after, until: *until });
        let curve = IntervalCurve::of(&seen.collect::<Vec<_>>(), 1e-7).unwrap();
        assert!(curve.is_top(1e-7), "{}: {curve:?}", case.check);
        let found: Vec<(f64, f64)> = curve.intervals.iter().map(|i| (i.after, i.until)).collect();
        let expected: Vec<(f64, f64)> = case.masses.iter().map(|mass| (mass.after, mass.until)).collect();
        assert_eq!(found, expected, "{}", case.check);
        for (interval, mass) in curve.intervals.iter().zip(&case.masses) {
            assert_near(interval.mass, mass.mass, 5.1e-5, &case.check);
        }
    }
}

#[derive(Deserialize)]
struct RatingCase {
    times: Vec<f64>,
    percentages: Vec<f64>,
    rating: f64,
}

#[test]
fn area_ratings() {
    for case in worked_examples::<RatingCase>("lasting", "area_rating") {
        assert_near(area_rating(&case.times, &case.percentages).unwrap(), case.rating, 5e-5, "rating");
    }
}

#[derive(Deserialize)]
struct Factors {
    names: Vec<String>,
    durations: Vec<f64>,
    failed: Vec<u8>,
    wet: Vec<f64>,
    trucks: Vec<f64>,
    weibull: Fit,
    log_normal: Fit,
    proportional: Fit,
}

#[derive(Deserialize)]
struct Fit {
    values: Vec<f64>,
    errors: Vec<f64>,
    log_likelihood: f64,
}

#[test]
fn factors() {
    for case in worked_examples::<Factors>("lasting-factors", "factors") {
        let lives = (0..case.durations.len()).map(|at| CovariateLife {
            duration: case.durations[at],
            failed: case.failed[at] == 1,
            covariates: vec![case.wet[at], case.trucks[at]],
        });
        let lives = CovariateLives { names: case.names, lives: lives.collect() };
        for (family, expected) in [(LifeFamily::Weibull, case.weibull), (LifeFamily::LogNormal, case.log_normal)] {
            assert_fit(&AcceleratedFit::of(family, &lives).unwrap().coefficients, &expected);
        }
        assert_fit(&ProportionalFit::of(&lives).unwrap().coefficients, &case.proportional);
    }
}

fn assert_fit(ours: &Coefficients, expected: &Fit) {
    let values: Vec<f64> = ours.each.iter().map(|coefficient| coefficient.value).collect();
    let errors: Vec<f64> = ours.each.iter().map(|coefficient| coefficient.error).collect();
    assert_all_near(&values, &expected.values, 2e-6, "values");
    assert_all_near(&errors, &expected.errors, 2e-6, "errors");
    assert_near(ours.log_likelihood, expected.log_likelihood, 1e-7, "log likelihood");
}
