//! The worked examples of the handbook's page.

use serde::Deserialize;
use testkit::worked_examples;
use tours::{Depot, Iterations, Matrix, Options, Problem, Profile, Vehicle, Visit, solve};

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
