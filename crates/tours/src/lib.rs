//! A generic engine for vehicle routing: who visits what, in what order, with which vehicle, at the least cost.
//!
//! Cost, method and sources stand in `handbook/methods/tours.md`; start reading at [`solve`], then `search`. A constraint
//! is a piece (module `pieces`): what it remembers of a stretch of a route, and how two stretches join.

mod budget;
mod matrix;
mod nodes;
mod pieces;
mod plan;
mod problem;
mod recreate;
mod route;
mod ruin;
mod search;
mod state;

pub use budget::{Budget, Iterations, Progress};
pub use matrix::Matrix;
pub use plan::{Plan, Route, Stop};
pub use problem::{Aboard, Depot, GREATEST, MOST_LOADS, Problem, ProblemError, Profile, Rest, Vehicle, Visit, Window};
pub use search::Options;

use nodes::Nodes;
use pieces::{Charges, Clock, Deliveries, Loads, OneTrip, Order, Piece, Reach, Released, Several, Span, Stock, Trips};

/// The best plan found within the budget, beginning with `start` where one is given.
pub fn solve(
    problem: &Problem,
    start: Option<&Plan>,
    options: &Options,
    budget: &mut dyn Budget,
) -> Result<Plan, ProblemError> {
    problem.validate()?;
    let nodes = &Nodes::new(problem);
    let needs = Needs::of(problem);
    let go = Go { nodes, start, options, budget };
    let several = needs.several || needs.reach || needs.loads > 1;
    let plain_time = needs.several && !(needs.released || needs.order || needs.reach);
    if needs.charges || needs.stock || plain_time {
        return Ok(match (needs.stock, needs.loads) {
            (true, _) => go.with_all(&needs, Stock::<MOST_LOADS>::new(nodes)),
            (false, ..=2) => go.with_all(&needs, Trips::new(nodes, Loads::<2>::new(nodes))),
            (false, ..=5) => go.with_all(&needs, Trips::new(nodes, Loads::<5>::new(nodes))),
            (false, _) => go.with_all(&needs, Trips::new(nodes, Loads::<MOST_LOADS>::new(nodes))),
        });
    }
    Ok(match (several, needs.reloads || needs.released, needs.order, needs.pickups, needs.time) {
        (false, false, false, false, false) => go.with(&Deliveries::new(nodes)),
        (false, false, false, false, true) => go.with(&(Deliveries::new(nodes), Clock::<Span>::new(nodes))),
        (false, false, _, _, false) => go.with(&OneTrip::new(nodes, (Loads::<1>::new(nodes), Order::new(nodes)))),
        (false, _, false, _, _) => go.with(&(Trips::new(nodes, Loads::<1>::new(nodes)), Released::<Span>::new(nodes))),
        _ => {
            let trips = Trips::new(nodes, (Loads::<MOST_LOADS>::new(nodes), Order::new(nodes)));
            go.with(&((trips, Reach::new(nodes)), Released::<Several>::new(nodes)))
        }
    })
}

struct Go<'a> {
    nodes: &'a Nodes<'a>,
    start: Option<&'a Plan>,
    options: &'a Options,
    budget: &'a mut dyn Budget,
}

impl Go<'_> {
    fn with<P: Piece>(self, piece: &P) -> Plan {
        search::search(self.nodes, piece, self.start, self.options, self.budget)
    }

    /// All that concerns time, distance and charges, with that way of keeping account of loads.
    fn with_all<L: Piece>(self, needs: &Needs, loads: L) -> Plan {
        let nodes = self.nodes;
        if needs.released || needs.order || needs.reach {
            let order = Trips::new(nodes, Order::new(nodes));
            let besides = ((order, Reach::new(nodes)), Charges::new(nodes));
            return self.with(&((loads, besides), Released::<Several>::new(nodes)));
        }
        let besides = (loads, Charges::new(nodes));
        if needs.several {
            self.with(&(besides, Clock::<Several>::new(nodes)))
        } else {
            self.with(&(besides, Clock::<Span>::new(nodes)))
        }
    }
}

/// What of all that the engine knows a problem uses.
#[expect(clippy::struct_excessive_bools, reason = "each is a feature of its own")]
struct Needs {
    loads: usize,
    pickups: bool,
    order: bool,
    reloads: bool,
    released: bool,
    reach: bool,
    time: bool,
    several: bool,
    charges: bool,
    stock: bool,
}

impl Needs {
    fn of(problem: &Problem) -> Self {
        let (visits, vehicles) = (&problem.visits, &problem.vehicles);
        let second = |visit: &Visit| visit.second_delivery.iter().any(|&amount| amount > 0);
        let visit_loads = visits.iter().map(|visit| visit.delivery.len().max(visit.pickup.len())).max();
        let timed = |vehicle: &Vehicle| {
            vehicle.time_cost > 0 || vehicle.greatest_duration.is_some() || vehicle.shift != Window::ALWAYS
        };
        let rests = vehicles.iter().any(|vehicle| vehicle.rest.is_some());
        Self {
            loads: visit_loads.unwrap_or(0),
            pickups: visits.iter().any(|visit| visit.pickup.iter().any(|&amount| amount > 0)),
            order: visits.iter().any(|visit| visit.rank > 0),
            reloads: vehicles.iter().any(|vehicle| !vehicle.reloads.is_empty()),
            released: visits.iter().any(|visit| visit.release > 0),
            reach: vehicles.iter().any(|vehicle| vehicle.greatest_distance.is_some()),
            time: rests || visits.iter().any(|visit| !visit.windows.is_empty()) || vehicles.iter().any(timed),
            charges: visits.iter().any(|visit| visit.charge.iter().any(|&charge| charge > 0)),
            stock: visits.iter().any(second)
                || vehicles.iter().any(|vehicle| vehicle.aboard.is_some())
                || problem.depots.iter().any(|depot| depot.gives != [true; 2] || !depot.takes),
            several: rests || visits.iter().any(|visit| visit.windows.len() > 1),
        }
    }
}
