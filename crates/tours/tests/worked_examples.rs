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
    // By the quarry first it would be 8.
    assert_eq!(from(&by([1, 2])).cost, tips_first.cost, "12 between the quarry and the tip");
}

/// A straight road: two visits that take 8 and give 8 at 1 and 4, a tip at 2, a quarry at 3. A vehicle for 10 can't take the
/// material of both at the begin, nor load again with the spoil of the first on board: it tips, loads, and goes on.
#[test]
fn a_tip_and_a_quarry_in_a_row_are_found() {
    let places: [i32; 5] = [0, 1, 2, 3, 4];
    let distance = Matrix::from_fn(5, |from, to| (places[from] - places[to]).abs()).expect("a sound matrix");
    let visit = |place| Visit { delivery: vec![8], pickup: vec![8], ..Visit::at(place) };
    let tip = Depot { gives: [false; 2], ..Depot::at(2) };
    let quarry = Depot { takes: false, ..Depot::at(3) };
    let problem = |reloads: &[usize]| Problem {
        profiles: vec![Profile { distance: distance.clone(), duration: None }],
        depots: vec![Depot::at(0), tip.clone(), quarry.clone()],
        visits: vec![visit(1), visit(4)],
        vehicles: vec![Vehicle { capacity: vec![10], reloads: reloads.to_vec(), ..Vehicle::new(1) }],
        starts_with_rank_zero: false,
        pickup_first: false,
    };
    let solved = |reloads: &[usize]| {
        solve(&problem(reloads), None, &Options::default(), &mut Iterations(200)).expect("a sound problem")
    };
    let plan = solved(&[1, 2]);
    assert_eq!((plan.cost, plan.missing), (8, 0), "{plan:?}");
    let calls: Vec<Stop> =
        plan.routes[0].stops.iter().copied().filter(|stop| matches!(stop, Stop::Reload(_))).collect();
    assert_eq!(calls, [Stop::Reload(1), Stop::Reload(2)]);
    for alone in [1, 2] {
        assert_eq!(solved(&[alone]).missing, 1, "depot {alone} alone does not do");
    }
}

/// A vehicle under way with nothing left to hand out loads first: 1 to the depot, 3 on to the visit, 3 home.
#[test]
fn an_empty_vehicle_under_way_loads_first() {
    let places: [i32; 3] = [0, 1, 3];
    let distance = Matrix::from_fn(3, |from, to| (places[from] - places[to]).abs()).expect("a sound matrix");
    let under_way = Depot { gives: [false; 2], takes: false, ..Depot::at(1) };
    let vehicle = Vehicle {
        start: 1,
        capacity: vec![10],
        aboard: Some(tours::Aboard::default()),
        reloads: vec![0],
        ..Vehicle::new(1)
    };
    let problem = Problem {
        profiles: vec![Profile { distance, duration: None }],
        depots: vec![Depot::at(0), under_way],
        visits: vec![Visit { delivery: vec![8], ..Visit::at(2) }],
        vehicles: vec![vehicle],
        starts_with_rank_zero: false,
        pickup_first: false,
    };
    let plan = solve(&problem, None, &Options::default(), &mut Iterations(0)).expect("a sound problem");
    assert_eq!((plan.cost, plan.missing), (7, 0));
    assert_eq!(plan.routes[0].stops, [Stop::Reload(0), Stop::Visit(0)]);
}
