//! The search against brute force on small problems: the same objective, exactly.

mod common;

use common::brute_force::best_objective;
use common::{checker, random_problem, solve};

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
