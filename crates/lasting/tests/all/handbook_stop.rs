//! The handbook's worked examples of stopping to patch.

use lasting::stop_patching::{
    BudgetOption, BudgetSite, PatchLaw, Renewal, SectionCase, StopSettings, best_set, expected_path, horizon_cost,
    outlooks,
};
use serde::Deserialize;
use testkit::worked_examples;

use crate::support::{assert_all_near, assert_near};

#[derive(Deserialize)]
struct ByHand {
    holes_per_year: f64,
    growth: f64,
    repair_cost: f64,
    discount_rate: f64,
    years: usize,
    renewal_cost: f64,
    rate_left: f64,
    life_years: f64,
    on_until: Vec<f64>,
    after_until: Vec<f64>,
    break_even: usize,
    best_year: usize,
    best_cost: f64,
}

#[test]
fn by_hand() {
    for case in worked_examples::<ByHand>("stop-patching", "by_hand") {
        let renewal = Renewal {
            name: "reseal".into(),
            cost: case.renewal_cost,
            rate_left: case.rate_left,
            life_years: case.life_years,
        };
        // a thousand sections' worth of holes: chance then makes no difference
        let many = 1e4;
        let section = SectionCase {
            name: "mill lane".into(),
            holes_per_year: case.holes_per_year * many,
            rate_shape: f64::INFINITY,
            yearly_growth: case.growth.ln(),
            yearly_growth_sd: 0.0,
            law: 0,
            repair_cost: case.repair_cost / many,
            renewals: vec![renewal.clone()],
        };
        let law = PatchLaw::weibull(f64::INFINITY, 1.0).unwrap();
        let settings = StopSettings {
            years: case.years,
            discount_rate: case.discount_rate,
            weather_sd: 0.0,
            futures: 40,
            seed: 1,
        };
        assert_all_near(&expected_path(&section, &law, &settings, None).cost_until, &case.on_until, 0.005, "on");
        let after = expected_path(&section, &law, &settings, Some(&renewal));
        assert_all_near(&after.cost_until, &case.after_until, 0.005, "after");

        let outlook = outlooks(&[section], &[law], &settings).unwrap().remove(0);
        let drawn = &outlook.renewals[0];
        assert_eq!((drawn.best_year, drawn.break_even.p50), (Some(case.best_year), Some(case.break_even)));
        assert_near(drawn.best_cost, case.best_cost, 0.005, "best");
        assert_near(drawn.now.mean / case.best_cost, 1.0, 0.01, "drawn");
        assert_near(outlook.patch_on.mean / case.on_until[case.years - 1], 1.0, 0.01, "drawn");
    }
}

#[derive(Deserialize)]
struct MendedAgain {
    scale_years: f64,
    shape: f64,
    again: Vec<f64>,
}

#[test]
fn mended_again() {
    for case in worked_examples::<MendedAgain>("stop-patching", "mended_again") {
        let law = PatchLaw::weibull(case.scale_years, case.shape).unwrap();
        assert_all_near(&law.mended_again(case.again.len()), &case.again, 1e-3, "again");
    }
}

#[derive(Deserialize)]
struct OnePassCase {
    material_per_t: f64,
    tonnes: f64,
    per_day: f64,
    tonnes_per_day: f64,
    life_months: f64,
    horizon_months: f64,
    one_pass: f64,
    horizon: f64,
    per_tonne_and_month: f64,
}

#[test]
fn one_pass() {
    for case in worked_examples::<OnePassCase>("stop-patching", "one_pass") {
        let one_pass = case.material_per_t * case.tonnes + case.tonnes / case.tonnes_per_day * case.per_day;
        assert_near(one_pass, case.one_pass, 1e-9, "one pass");
        let horizon = horizon_cost(one_pass, case.life_months, case.horizon_months);
        assert_near(horizon, case.horizon, 1e-9, "horizon");
        let per_tonne_and_month = horizon / case.tonnes / case.horizon_months;
        assert_near(per_tonne_and_month, case.per_tonne_and_month, 0.005, "per tonne and month");
    }
}

#[derive(Deserialize)]
struct BudgetCase {
    budget: f64,
    sites: Vec<Vec<Taken>>,
    taken: Vec<usize>,
    left: f64,
}

#[derive(Deserialize)]
struct Taken {
    capital: f64,
    left: f64,
}

#[test]
fn under_a_budget() {
    for case in worked_examples::<BudgetCase>("stop-patching", "budget") {
        let option = |taken: &Taken| BudgetOption { name: String::new(), capital: taken.capital, left: taken.left };
        let sites = case
            .sites
            .iter()
            .map(|options| BudgetSite { name: String::new(), options: options.iter().map(option).collect() });
        let set = best_set(&sites.collect::<Vec<_>>(), case.budget).unwrap();
        assert_eq!(set.taken, case.taken);
        assert_near(set.left, case.left, 1e-9, "left");
    }
}
