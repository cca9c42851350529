//! The plan under change: routes, where each visit stands, and how to get back to before an iteration.

use crate::nodes::Kind;
use crate::nodes::Nodes;
use crate::pieces::Piece;
use crate::plan::{Plan, Route as PlanRoute, Stop};
use crate::route::Route;

/// In no route.
const ABSENT: u32 = u32::MAX;

pub(crate) struct State<'a, P: Piece> {
    pub(crate) nodes: &'a Nodes<'a>,
    pub(crate) piece: &'a P,
    /// Also empty ones, whose vehicles are free.
    pub(crate) routes: Vec<Route<P::Segment>>,
    /// Vehicles not in use, by kind.
    pub(crate) free: Vec<usize>,
    /// Route of each visit.
    route_of: Vec<u32>,
    /// Position of a visit in its route, or in `absent`.
    position: Vec<u32>,
    /// Visits in no route.
    pub(crate) absent: Vec<u32>,
    pub(crate) cost: i64,
    /// Absent visits that must be made.
    pub(crate) missing: usize,
    /// Routes as they were before the iteration.
    saved: Vec<(usize, Route<P::Segment>)>,
    /// Is the route saved?
    is_saved: Vec<bool>,
    saved_cost: i64,
    /// Buffers for reuse.
    spare: Vec<Route<P::Segment>>,
}

impl<'a, P: Piece> State<'a, P> {
    pub(crate) fn new(nodes: &'a Nodes<'a>, piece: &'a P) -> Self {
        let visits = &nodes.problem.visits;
        Self {
            nodes,
            piece,
            routes: Vec::new(),
            free: nodes.problem.vehicles.iter().map(|vehicle| vehicle.count).collect(),
            route_of: vec![ABSENT; visits.len()],
            position: (0..visits.len() as u32).collect(),
            absent: (0..visits.len() as u32).collect(),
            cost: visits.iter().filter_map(|visit| visit.prize).sum(),
            missing: visits.iter().filter(|visit| visit.prize.is_none()).count(),
            saved: Vec::new(),
            is_saved: Vec::new(),
            saved_cost: 0,
            spare: Vec::new(),
        }
    }

    /// Route and position of a visit that is in one.
    pub(crate) fn place_of(&self, visit: usize) -> Option<(usize, usize)> {
        let route = self.route_of[visit];
        (route != ABSENT).then(|| (route as usize, self.position[visit] as usize))
    }

    pub(crate) fn is_absent(&self, visit: usize) -> bool {
        self.route_of[visit] == ABSENT
    }

    /// From here on changes can be taken back.
    pub(crate) fn begin(&mut self) {
        for (index, route) in self.saved.drain(..) {
            self.is_saved[index] = false;
            self.spare.push(route);
        }
        self.saved_cost = self.cost;
    }

    /// Indices of the routes changed since `begin`.
    pub(crate) fn changed(&self) -> impl Iterator<Item = usize> + '_ {
        self.saved.iter().map(|&(index, _)| index)
    }

    /// Takes back everything since `begin`.
    pub(crate) fn undo(&mut self) {
        let saved = std::mem::take(&mut self.saved);
        for &(index, _) in &saved {
            self.release(index);
        }
        for (index, route) in saved {
            self.is_saved[index] = false;
            self.spare.push(std::mem::replace(&mut self.routes[index], route));
            self.occupy(index);
        }
        self.cost = self.saved_cost;
    }

    /// Changes the nodes or vehicle of a route; all that follows from it is brought up to date.
    pub(crate) fn change(&mut self, index: usize, change: impl FnOnce(&mut Route<P::Segment>)) {
        self.save(index);
        self.release(index);
        self.cost -= self.routes[index].cost;
        let route = &mut self.routes[index];
        change(route);
        route.update(self.nodes, self.piece);
        self.cost += route.cost;
        self.occupy(index);
    }

    /// A visit and what comes with it (reloads) enter a route before `position`.
    pub(crate) fn insert(&mut self, index: usize, position: usize, chain: &[u32]) {
        self.save(index);
        self.cost -= self.routes[index].cost;
        let route = &mut self.routes[index];
        if route.visits == 0 {
            self.free[route.vehicle] -= 1;
        }
        route.nodes.splice(position..position, chain.iter().copied());
        route.update(self.nodes, self.piece);
        self.cost += route.cost;
        for position in position..self.routes[index].nodes.len() - 1 {
            let node = self.routes[index].nodes[position];
            if self.nodes.is_visit(node) {
                if self.is_absent(node as usize) {
                    self.leave_absent(node as usize);
                }
                self.route_of[node as usize] = index as u32;
                self.position[node as usize] = position as u32;
            }
        }
    }

    /// An empty route of that kind of vehicle.
    pub(crate) fn open(&mut self, vehicle: usize) -> usize {
        let empty = self.routes.iter().position(|route| route.visits == 0);
        let index = empty.unwrap_or_else(|| {
            self.routes.push(Route::new(self.nodes, self.piece, vehicle));
            self.is_saved.push(false);
            self.routes.len() - 1
        });
        if self.routes[index].vehicle != vehicle {
            self.change(index, |route| route.set_vehicle(self.nodes, vehicle));
        }
        index
    }

    fn save(&mut self, index: usize) {
        if !self.is_saved[index] {
            self.is_saved[index] = true;
            let mut copy = self.spare.pop().unwrap_or_else(|| self.routes[index].clone());
            copy.clone_from(&self.routes[index]);
            self.saved.push((index, copy));
        }
    }

    /// The visits of a route become absent, its vehicle free.
    fn release(&mut self, index: usize) {
        if self.routes[index].visits > 0 {
            self.free[self.routes[index].vehicle] += 1;
        }
        for position in 1..self.routes[index].nodes.len() - 1 {
            let node = self.routes[index].nodes[position];
            if self.nodes.is_visit(node) {
                self.enter_absent(node as usize);
            }
        }
    }

    fn occupy(&mut self, index: usize) {
        if self.routes[index].visits > 0 {
            self.free[self.routes[index].vehicle] -= 1;
        }
        for position in 1..self.routes[index].nodes.len() - 1 {
            let node = self.routes[index].nodes[position];
            if self.nodes.is_visit(node) {
                self.leave_absent(node as usize);
                self.route_of[node as usize] = index as u32;
                self.position[node as usize] = position as u32;
            }
        }
    }

    fn enter_absent(&mut self, visit: usize) {
        self.route_of[visit] = ABSENT;
        self.position[visit] = self.absent.len() as u32;
        self.absent.push(visit as u32);
        match self.nodes.problem.visits[visit].prize {
            Some(prize) => self.cost += prize,
            None => self.missing += 1,
        }
    }

    fn leave_absent(&mut self, visit: usize) {
        let at = self.position[visit] as usize;
        self.absent.swap_remove(at);
        if let Some(&moved) = self.absent.get(at) {
            self.position[moved as usize] = at as u32;
        }
        match self.nodes.problem.visits[visit].prize {
            Some(prize) => self.cost -= prize,
            None => self.missing -= 1,
        }
    }

    pub(crate) fn plan(&self) -> Plan {
        let stops = |route: &Route<P::Segment>| {
            let inner = &route.nodes[1..route.nodes.len() - 1];
            let stop = |&node: &u32| match self.nodes.kind(node) {
                Kind::Visit(visit) => Stop::Visit(visit),
                Kind::Reload(depot) | Kind::Start(depot) | Kind::End(depot) => Stop::Reload(depot),
            };
            inner.iter().map(stop).collect()
        };
        let used = self.routes.iter().filter(|route| route.visits > 0);
        let routes = used.map(|route| PlanRoute { vehicle: route.vehicle, stops: stops(route) }).collect();
        let mut left_out: Vec<usize> = self.absent.iter().map(|&visit| visit as usize).collect();
        left_out.sort_unstable();
        Plan { routes, left_out, cost: self.cost, missing: self.missing }
    }

    /// Takes over those routes of a plan that hold and use what is still free; says nothing of the others.
    pub(crate) fn take_over(&mut self, plan: &Plan) {
        for route in &plan.routes {
            let sound = |stop: &Stop| match *stop {
                Stop::Visit(visit) => {
                    visit < self.nodes.visits && self.is_absent(visit) && self.nodes.allowed(route.vehicle, visit)
                }
                Stop::Reload(depot) => self.nodes.problem.vehicles[route.vehicle].reloads.contains(&depot),
            };
            let mut visits: Vec<usize> = route
                .stops
                .iter()
                .filter_map(|stop| if let Stop::Visit(visit) = stop { Some(*visit) } else { None })
                .collect();
            let count = visits.len();
            visits.sort_unstable();
            visits.dedup();
            let known = route.vehicle < self.free.len() && self.free[route.vehicle] > 0;
            if !known || count == 0 || visits.len() < count || !route.stops.iter().all(sound) {
                continue;
            }
            let nodes = self.nodes;
            let chain: Vec<u32> = route
                .stops
                .iter()
                .map(|stop| match *stop {
                    Stop::Visit(visit) => visit as u32,
                    Stop::Reload(depot) => nodes.reload(depot),
                })
                .collect();
            let mut trial = Route::new(nodes, self.piece, route.vehicle);
            trial.nodes.splice(1..1, chain.iter().copied());
            trial.update(nodes, self.piece);
            if trial.holds(self.piece) {
                let index = self.open(route.vehicle);
                self.insert(index, 1, &chain);
            }
        }
    }
}
