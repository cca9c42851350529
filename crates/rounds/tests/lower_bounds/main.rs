//! Costs of programmes against optima and lower bounds of small problems, by a mixed-integer programme that `HiGHS` solves.
//! Formulas and symbols stand in handbook/methods/programme.md.

mod exhaustive;
mod instances;
mod model;

use ::model::programme::{Programme, ProgrammeProblem};
use rounds::SearchSettings;
use serde::Deserialize;

use crate::model::{Loads, least_cost};

/// The solver's own tolerances, relative.
const TOLERANCE: f64 = 1e-6;

fn search(problem: &ProgrammeProblem) -> Programme {
    let settings = SearchSettings { seed: 1, iterations: 10_000 };
    let programme = rounds::programme(problem, None, &settings, &mut |_, _| true);
    assert_eq!(check::programme_breaches(problem, &programme), []);
    programme
}

/// Problems of six to eight sites.
fn problems(first_seed: u64, calls: bool) -> impl Iterator<Item = (u64, ProgrammeProblem)> {
    (first_seed..first_seed + 9).map(move |seed| (seed, instances::random(seed, 6 + seed as usize % 3, calls)))
}

#[test]
fn the_model_finds_what_trying_everything_finds() {
    for seed in 0..8 {
        let problem = instances::random(seed, 6, false);
        let (model, all) = (least_cost(&problem, Loads::One), exhaustive::least_cost(&problem));
        assert!((model - all).abs() <= TOLERANCE * all, "problem {seed}: {model} by the model, {all} by trying");
    }
}

/// Mean gap at most 0.1 %, each at most 1 %.
#[test]
fn with_one_load_a_shift_the_search_finds_the_optimum() {
    let mut gaps = Vec::new();
    for (seed, problem) in problems(100, false) {
        let least = least_cost(&problem, Loads::One);
        let found = search(&problem).cost.total();
        println!("problem {seed}: {found:.2} found, {least:.2} least");
        let gap = found / least - 1.0;
        assert!(gap >= -TOLERANCE, "problem {seed}: {found} is less than the least, {least}");
        assert!(gap <= 0.01, "problem {seed}: {found} is {:.2} % above the least, {least}", 100.0 * gap);
        gaps.push(gap);
    }
    let mean = gaps.iter().sum::<f64>() / gaps.len() as f64;
    assert!(mean <= 0.001, "mean gap {:.3} %", 100.0 * mean);
}

/// No programme costs less than the bound; what the search finds is what trying everything finds.
#[test]
fn with_several_loads_no_programme_costs_less_than_the_bound() {
    let mut loads = 0;
    for (seed, problem) in problems(200, true) {
        let bound = least_cost(&problem, Loads::Several);
        let all = exhaustive::least_cost(&problem);
        let programme = search(&problem);
        let found = programme.cost.total();
        println!("problem {seed}: {found:.2} found, {all:.2} least, at least {bound:.2}");
        assert!(bound <= all * (1.0 + TOLERANCE), "problem {seed}: the bound {bound} is above the least, {all}");
        assert!(found >= bound * (1.0 - TOLERANCE), "problem {seed}: {found} is less than the bound {bound}");
        assert!(found >= all * (1.0 - TOLERANCE), "problem {seed}: {found} is less than the least, {all}");
        assert!(found <= all * 1.01, "problem {seed}: {found} is more than 1 % above the least, {all}");
        loads += programme.rounds.iter().map(|round| round.trips().len() - 1).sum::<usize>();
    }
    assert!(loads > 0, "some truck loads again");
}

/// Whoever stays at home costs nothing.
#[test]
fn a_shift_more_never_makes_the_bound_worse() {
    for seed in 300..304 {
        let mut problem = instances::random(seed, 6, true);
        let all = problem.shifts.clone();
        for site in &mut problem.sites {
            site.shifts = None;
        }
        let mut before = f64::INFINITY;
        for shifts in 0..=all.len() {
            problem.shifts = all[..shifts].to_vec();
            let least = least_cost(&problem, Loads::Several);
            assert!(
                least <= before + TOLERANCE * least,
                "problem {seed}: {least} with {shifts} shifts, {before} without"
            );
            before = least;
        }
    }
}

#[derive(Deserialize)]
struct Case {
    sites: Vec<instances::Simple>,
    shift_min: i64,
    cost: f64,
    done_on: Vec<i64>,
}

#[test]
fn worked_examples() {
    for case in testkit::worked_examples::<Case>("programme", "least_cost") {
        let problem = instances::simple(&case.sites, case.shift_min);
        let close = |cost: f64| (cost - case.cost).abs() <= TOLERANCE * case.cost;
        let least = least_cost(&problem, Loads::One);
        assert!(close(least), "{least} by the model, {} by hand", case.cost);
        let programme = search(&problem);
        assert!(close(programme.cost.total()), "{} by the search, {} by hand", programme.cost.total(), case.cost);
        let mut done_on = vec![-1; case.sites.len()];
        for round in &programme.rounds {
            round.sites().for_each(|site| done_on[site] = i64::from(problem.shifts[round.shift].day));
        }
        assert_eq!(done_on, case.done_on);
    }
}
