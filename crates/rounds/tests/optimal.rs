//! The search against brute force on small problems: the same objective, exactly.

mod common;

use common::brute_force::best_objective;
use common::{checker, plain_site, problem_at, random_problem, solve};
use serde::Deserialize;

fn assert_optimal(seed: u64, sites: usize, iterations: u32) {
    let problem = random_problem(seed, sites);
    let solution = solve(&problem, seed, iterations);
    checker::check(&problem, &solution);
    let best = best_objective(&problem);
    let gap = solution.objective - best;
    assert!(gap.abs() <= 1e-9 * best.max(1.0), "seed {seed}, {sites} sites: {} against {best}", solution.objective);
}

#[test]
fn up_to_five_sites() {
    for seed in 0..300 {
        assert_optimal(seed, 1 + seed as usize % 5, 2_000);
    }
}

#[test]
fn six_sites() {
    for seed in 1000..1100 {
        assert_optimal(seed, 6, 3_000);
    }
}

#[test]
fn seven_sites() {
    for seed in 2000..2030 {
        assert_optimal(seed, 7, 5_000);
    }
}

#[derive(Deserialize)]
struct OneSite {
    worth: f64,
    service_min: u32,
    distance_m: f64,
    objective: f64,
    done: bool,
}

#[test]
fn one_site_is_done_when_it_is_worth_its_hours() {
    for case in testkit::worked_examples::<OneSite>("round", "one_site") {
        let site = plain_site(60 * case.service_min, case.worth);
        let solution = solve(&problem_at(&[(0.0, 0.0), (case.distance_m, 0.0)], vec![site]), 1, 100);
        assert!((solution.objective - case.objective).abs() < 1e-5, "{}", solution.objective);
        assert_eq!(solution.left_out.is_empty(), case.done);
    }
}
