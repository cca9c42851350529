//! Made lives whose law is known: the estimates find it, and their intervals cover it as often as they say.

use lasting::accelerated::{AcceleratedFit, INTERCEPT, LOG_SHAPE, LifeFamily};
use lasting::life_table::LifeTable;
use lasting::product_limit::SurvivalCurve;
use lasting::proportional::ProportionalFit;
use lasting::regression::{CovariateLife, CovariateLives};
use rand::{RngExt, SeedableRng};
use rand_distr::{Distribution, StandardNormal};
use rand_pcg::Pcg64;

/// Studies made, and repairs in each.
const STUDIES: usize = 400;
const REPAIRS: usize = 250;
/// What the made lives follow: `ln T = 3 + 0.5 wet' - 0.3 trucks + e / 1.5`.
const TRUTH: [(&str, f64); 4] = [("layers", 0.5), ("trucks", -0.3), (INTERCEPT, 3.0), (LOG_SHAPE, 0.405465108)];

/// Of 400 intervals of 95 % between 363 and 393 cover, but for one case in five thousand (binomial, 380 +- 3.7 deviations).
fn assert_covers(covered: usize, what: &str) {
    println!("{what}: {covered} of {STUDIES}");
    assert!((364..=396).contains(&covered), "{what}: {covered} of {STUDIES} intervals cover");
}

fn study(family: LifeFamily, seed: u64) -> CovariateLives {
    let mut chance = Pcg64::seed_from_u64(seed);
    let lives = (0..REPAIRS).map(|_| {
        let layers = f64::from(chance.random_bool(0.5));
        let trucks: f64 = 3.0 * chance.random::<f64>();
        let e = match family {
            LifeFamily::Weibull => (-(1.0 - chance.random::<f64>()).ln()).ln(),
            LifeFamily::LogNormal => StandardNormal.sample(&mut chance),
        };
        let life = (3.0 + 0.5 * layers - 0.3 * trucks + e / 1.5).exp();
        let watched = 5.0 + 40.0 * chance.random::<f64>();
        CovariateLife { duration: life.min(watched), failed: life <= watched, covariates: vec![layers, trucks] }
    });
    CovariateLives { names: vec!["layers".into(), "trucks".into()], lives: lives.collect() }
}

#[test]
fn accelerated_lives_are_recovered() {
    for family in [LifeFamily::Weibull, LifeFamily::LogNormal] {
        let fits: Vec<AcceleratedFit> =
            (0..STUDIES).map(|seed| AcceleratedFit::of(family, &study(family, seed as u64)).unwrap()).collect();
        for (name, truth) in TRUTH {
            let found = || fits.iter().map(|fit| fit.coefficients.of(name).unwrap());
            let mean = found().map(|found| found.value).sum::<f64>() / STUDIES as f64;
            assert!((mean - truth).abs() < 0.02, "{family:?} {name}: {mean}, not {truth}");
            let covers = |(low, high): (f64, f64)| low <= truth && truth <= high;
            assert_covers(found().filter(|found| covers(found.interval(0.95))).count(), &format!("{family:?} {name}"));
        }
    }
}

/// Weibull lives have proportional hazards: the coefficient is minus the shape times that of the lives.
#[test]
fn proportional_hazards_are_recovered() {
    let fits: Vec<ProportionalFit> =
        (0..STUDIES).map(|seed| ProportionalFit::of(&study(LifeFamily::Weibull, seed as u64)).unwrap()).collect();
    for (name, truth) in [("layers", -0.75), ("trucks", 0.45)] {
        let found = || fits.iter().map(|fit| fit.coefficients.of(name).unwrap());
        let covers = |(low, high): (f64, f64)| low <= truth && truth <= high;
        assert_covers(found().filter(|found| covers(found.interval(0.95))).count(), name);
    }
}

#[test]
fn bands_cover_the_true_survival() {
    let mut covered = 0;
    for seed in 0..STUDIES {
        let mut chance = Pcg64::seed_from_u64(seed as u64);
        let lives = (0..REPAIRS).map(|_| {
            let life = -20.0 * (1.0 - chance.random::<f64>()).ln();
            let watched = 40.0 * chance.random::<f64>();
            (life.min(watched), life <= watched)
        });
        let curve = SurvivalCurve::of(&LifeTable::of(lives).unwrap(), 0.95);
        let truth = (-0.5_f64).exp();
        let point = curve.point_at(10.0).unwrap();
        covered += usize::from(point.lower <= truth && truth <= point.upper);
    }
    assert_covers(covered, "band at 10");
}
