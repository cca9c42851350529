//! The worked examples of the handbook's page, and some worked by hand.

use serde::Deserialize;
use testkit::worked_examples;
use tours::{Depot, Iterations, Matrix, Options, Plan, Problem, Profile, Route, Stop, Vehicle, Visit, Window, solve};

/// Visits on a straight road, the depot at 0.
#[derive(Deserialize)]
struct Line {
    at: Vec<i32>,
    delivery: Vec<i64>,
    capacity: i64,
    /// One for each visit, or none.
    leave_out_price: Vec<i64>,
    cost: i64,
    routes: usize,
}

#[test]
fn visits_on_a_line_cost_what_the_page_says() {
    for line in worked_examples::<Line>("tours", "line") {
        let places: Vec<i32> = std::iter::once(0).chain(line.at.iter().copied()).collect();
        let distance =
            Matrix::from_fn(places.len(), |from, to| (places[from] - places[to]).abs()).expect("a sound matrix");
        let visit = |index: usize| Visit {
            delivery: vec![line.delivery[index]],
            prize: line.leave_out_price.get(index).copied(),
            ..Visit::at(index + 1)
        };
        let problem = Problem {
            profiles: vec![Profile { distance, duration: None }],
            depots: vec![Depot::at(0)],
            visits: (0..line.at.len()).map(visit).collect(),
            vehicles: vec![Vehicle { capacity: vec![line.capacity], ..Vehicle::new(line.at.len()) }],
            starts_with_rank_zero: false,
            pickup_first: false,
        };
        let plan = solve(&problem, None, &Options::default(), &mut Iterations(2000)).expect("a sound problem");
        assert_eq!((plan.cost, plan.missing, plan.routes.len()), (line.cost, 0, line.routes));
    }
}

/// A straight road: a visit that gives 6 at 1, a quarry at 2, a tip at 3, a visit that takes 6 at 4, the first one first. A vehicle
/// for 10 that loads on its way to the tip holds 12 between the two, though no visit is there to tell.
#[test]
fn the_load_fits_between_two_depots_too() {
    let places: [i32; 5] = [0, 1, 2, 3, 4];
    let distance = Matrix::from_fn(5, |from, to| (places[from] - places[to]).abs()).expect("a sound matrix");
    let first = Visit { pickup: vec![6], windows: vec![Window { open: 0, close: 1 }], ..Visit::at(1) };
    let second = Visit { delivery: vec![6], ..Visit::at(4) };
    let quarry = Depot { gives: [true; 2], takes: false, ..Depot::at(2) };
    let tip = Depot { gives: [false; 2], ..Depot::at(3) };
    let problem = Problem {
        profiles: vec![Profile { distance, duration: None }],
        depots: vec![Depot::at(0), quarry, tip],
        visits: vec![first, second],
        vehicles: vec![Vehicle { capacity: vec![10], reloads: vec![1, 2], ..Vehicle::new(1) }],
        starts_with_rank_zero: false,
        pickup_first: true,
    };
    let by = |calls: [usize; 2]| {
        let stops = vec![Stop::Visit(0), Stop::Reload(calls[0]), Stop::Reload(calls[1]), Stop::Visit(1)];
        Plan { routes: vec![Route { vehicle: 0, stops }], ..Plan::default() }
    };
    let from = |start: &Plan| solve(&problem, Some(start), &Options::default(), &mut Iterations(0)).expect("sound");
    let tips_first = from(&by([2, 1]));
    assert_eq!((tips_first.cost, tips_first.missing), (1 + 2 + 1 + 2 + 4, 0));
    assert_eq!(from(&by([1, 2])).missing, 1, "12 between the quarry and the tip");
}
