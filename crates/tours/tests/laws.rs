//! Laws that hold for any problem: plans pass an independent checker, tiny ones are optimal, more search is never worse.

mod common;

use common::brute_force::optimum;
use common::checker::check;
use common::random_problem;
use proptest::prelude::*;
use tours::{Iterations, Matrix, Options, Plan, Problem, Visit, solve};

fn solved(problem: &Problem, seed: u64, iterations: u64) -> Plan {
    let options = Options { seed, ..Options::default() };
    solve(problem, None, &options, &mut Iterations(iterations)).expect("a sound problem")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn every_plan_passes_the_checker(seed: u64, visits in 0..25usize) {
        let problem = random_problem(seed, visits);
        let plan = solved(&problem, seed, 300);
        prop_assert_eq!(check(&problem, &plan), Ok((plan.cost, plan.missing)));
    }

    #[test]
    fn a_longer_run_in_rounds_is_never_worse(seed: u64) {
        let problem = random_problem(seed, 12);
        let options = Options { seed, round: Some(100), ..Options::default() };
        let mut last = (usize::MAX, i64::MAX);
        for iterations in [0, 50, 150, 250] {
            let plan = solve(&problem, None, &options, &mut Iterations(iterations)).expect("a sound problem");
            prop_assert!((plan.missing, plan.cost) <= last);
            last = (plan.missing, plan.cost);
        }
    }

    #[test]
    fn a_plan_to_begin_with_is_never_made_worse(seed: u64) {
        let problem = random_problem(seed, 12);
        let plan = solved(&problem, seed, 200);
        let again = solve(&problem, Some(&plan), &Options::default(), &mut Iterations(0)).expect("a sound problem");
        prop_assert!((again.missing, again.cost) <= (plan.missing, plan.cost));
        prop_assert_eq!(check(&problem, &again), Ok((again.cost, again.missing)));
    }
}

/// Problems whose optimum the search must find. It is a heuristic: one in fifty may be missed by a little.
#[test]
fn tiny_problems_are_solved_to_the_optimum() {
    let mut missed = Vec::new();
    for seed in 0..150 {
        let problem = random_problem(seed, 4 + seed as usize % 2);
        let plan = solved(&problem, seed, 3000);
        let (missing, cost) = optimum(&problem);
        assert!((plan.missing, plan.cost) >= (missing, cost), "seed {seed}: better than the optimum {missing} {cost}");
        if (plan.missing, plan.cost) != (missing, cost) {
            missed.push((seed, (plan.missing, plan.cost), (missing, cost)));
        }
    }
    assert!(missed.len() <= 3, "{missed:?}");
}

#[test]
fn the_same_seed_gives_the_same_plan() {
    for seed in 0..10 {
        let problem = random_problem(seed, 30);
        assert_eq!(solved(&problem, seed, 500), solved(&problem, seed, 500));
    }
}

/// What a missing visit is reckoned at beside costs: about that of a visit by itself.
const MISSING: i64 = 150;

fn with_missing(plan: &Plan) -> i64 {
    plan.cost + MISSING * i64::try_from(plan.missing).expect("few")
}

#[test]
fn the_order_of_visits_hardly_matters() {
    let (mut one, mut other) = (0, 0);
    for seed in 0..8 {
        let problem = random_problem(seed, 20);
        let mut shuffled = problem.clone();
        shuffled.visits.reverse();
        let plans = (solved(&problem, 1, 4000), solved(&shuffled, 1, 4000));
        one += with_missing(&plans.0);
        other += with_missing(&plans.1);
    }
    assert!((one - other).abs() * 50 <= one, "{one} {other}");
}

#[test]
fn the_budget_ends_the_search_with_the_best_so_far() {
    let problem = random_problem(7, 20);
    let mut asked = 0;
    let mut last = None;
    let plan = solve(&problem, None, &Options::default(), &mut |progress: &tours::Progress| {
        asked += 1;
        last = Some(*progress);
        if progress.iterations < 40 { 0.5 } else { 1.0 }
    });
    let plan = plan.expect("a sound problem");
    let last = last.expect("asked at least once");
    assert_eq!((asked, last.iterations), (41, 40));
    assert_eq!((plan.cost, plan.missing), (last.cost, last.missing));
}

#[test]
fn a_plan_that_does_not_fit_is_taken_only_where_it_does() {
    let problem = random_problem(3, 6);
    let nonsense = |vehicle, visits: &[usize]| {
        let stops = visits.iter().map(|&visit| tours::Stop::Visit(visit)).collect();
        tours::Route { vehicle, stops }
    };
    let routes = vec![nonsense(99, &[0]), nonsense(0, &[1, 1]), nonsense(0, &[77]), nonsense(0, &[])];
    let start = Plan { routes, ..Plan::default() };
    let plan = solve(&problem, Some(&start), &Options::default(), &mut Iterations(100)).expect("a sound problem");
    assert_eq!(check(&problem, &plan), Ok((plan.cost, plan.missing)));
}

#[test]
fn unsound_problems_are_refused_with_the_reason() {
    type Spoil = fn(&mut Problem);
    let cases: &[(&str, Spoil)] = &[
        ("at least one profile", |it| it.vehicles.clear()),
        ("there is no place 999", |it| it.visits[0].place = 999),
        ("there is no depot 9", |it| it.vehicles[0].end = 9),
        ("windows must end", |it| it.visits[0].windows = vec![tours::Window { open: 5, close: 4 }]),
        ("delivery -1", |it| it.visits[0].delivery = vec![-1]),
        ("no service time for class 5", |it| {
            it.visits[0].service = vec![1];
            it.vehicles[0].service_class = 5;
        }),
        ("9 load dimensions", |it| it.visits[0].pickup = vec![0; 9]),
        ("distance cost", |it| it.vehicles[0].distance_cost = 1 << 30),
    ];
    for (says, spoil) in cases {
        let mut problem = random_problem(1, 3);
        spoil(&mut problem);
        let error = solve(&problem, None, &Options::default(), &mut Iterations(1)).expect_err(says);
        assert!(error.to_string().contains(says), "{error} should say {says}");
    }
    assert!(Matrix::new(2, vec![0; 3]).is_err());
    assert!(Matrix::new(1, vec![-1]).is_err());
    assert!(random_problem(1, 3).visits.iter().all(|visit| *visit != Visit::at(0)));
}
