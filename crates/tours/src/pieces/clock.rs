//! Time windows, shifts, the longest duration, rests and the price of time.

use super::span::Algebra;
use super::{Joint, Piece};
use crate::nodes::{Kind, Nodes};
use crate::problem::{Vehicle, Window};

/// The time of each node alone, by kind of vehicle.
pub(crate) struct Services<'a, A> {
    pub(crate) nodes: &'a Nodes<'a>,
    /// Row of `visits` for each vehicle: vehicles of equal service class, rest and, with several windows, shift share one.
    row: Vec<usize>,
    visits: Vec<A>,
}

impl<'a, A: Algebra> Services<'a, A> {
    pub(crate) fn new(nodes: &'a Nodes<'a>) -> Self {
        let problem = nodes.problem;
        // Windows outside of a shift are nothing to it: with many days each shift has few.
        let several = problem.visits.iter().any(|visit| visit.windows.len() > 1);
        let class = |vehicle: &Vehicle| {
            (vehicle.service_class, vehicle.rest, if several { vehicle.shift } else { Window::ALWAYS })
        };
        let mut classes = Vec::new();
        let mut row = Vec::new();
        for vehicle in &problem.vehicles {
            let known = classes.iter().position(|known| *known == class(vehicle));
            row.push(known.unwrap_or_else(|| {
                classes.push(class(vehicle));
                classes.len() - 1
            }));
        }
        let mut visits = Vec::new();
        let mut windows = Vec::new();
        for &(service_class, rest, shift) in &classes {
            visits.extend(problem.visits.iter().map(|visit| {
                let length = visit.service.get(service_class).copied().unwrap_or(0);
                windows.clear();
                windows.extend(visit.windows.iter().filter_map(|window| {
                    let close = window.close - if visit.ends_within { length } else { 0 };
                    let (open, close) = (window.open.max(shift.open), close.min(shift.close));
                    (open <= close).then_some(Window { open, close })
                }));
                if windows.is_empty() && !visit.windows.is_empty() {
                    A::NEVER
                } else {
                    A::service(&windows, length, rest)
                }
            }));
        }
        Self { nodes, row, visits }
    }

    #[inline]
    pub(crate) fn of(&self, vehicle: usize, node: u32) -> A {
        let problem = self.nodes.problem;
        match self.nodes.kind(node) {
            Kind::Visit(visit) => self.visits[self.row[vehicle] * self.nodes.visits + visit],
            Kind::Reload(depot) => {
                let depot = &problem.depots[depot];
                A::service(&[depot.window], depot.reload_time, problem.vehicles[vehicle].rest)
            }
            Kind::Start(_) => {
                let vehicle = &problem.vehicles[vehicle];
                let close = if vehicle.begins_on_time { vehicle.shift.open } else { vehicle.shift.close };
                A::service(&[Window { close, ..vehicle.shift }], vehicle.loading_time, vehicle.rest)
            }
            Kind::End(_) => {
                let vehicle = &problem.vehicles[vehicle];
                let close = vehicle.shift.close - vehicle.unloading_time;
                A::end(Window { close, ..vehicle.shift }, vehicle.unloading_time, vehicle.rest)
            }
        }
    }

    #[inline]
    pub(crate) fn allows(&self, vehicle: usize, whole: &A) -> bool {
        let vehicle = &self.nodes.problem.vehicles[vehicle];
        let duration = whole.duration(vehicle.rest);
        duration.is_some_and(|duration| vehicle.greatest_duration.is_none_or(|greatest| duration <= greatest))
    }

    #[inline]
    pub(crate) fn price(&self, vehicle: usize, whole: &A) -> i64 {
        let vehicle = &self.nodes.problem.vehicles[vehicle];
        if vehicle.time_cost == 0 { 0 } else { vehicle.time_cost * whole.duration(vehicle.rest).unwrap_or(0) }
    }
}

/// Time without releases.
pub(crate) struct Clock<'a, A> {
    services: Services<'a, A>,
}

impl<'a, A: Algebra> Clock<'a, A> {
    pub(crate) fn new(nodes: &'a Nodes<'a>) -> Self {
        Self { services: Services::new(nodes) }
    }
}

impl<A: Algebra> Piece for Clock<'_, A> {
    type Segment = A;

    const POSITIONAL: bool = true;

    #[inline]
    fn node(&self, vehicle: usize, node: u32) -> A {
        self.services.of(vehicle, node)
    }

    #[inline]
    fn join(&self, vehicle: usize, left: &A, (from, to): Joint, right: &A) -> A {
        left.then(self.services.nodes.time(vehicle, from, to), right)
    }

    #[inline]
    fn is_possible(&self, stretch: &A) -> bool {
        stretch.can_be()
    }

    #[inline]
    fn may_follow(&self, left: &A, between: i64, right: &A) -> bool {
        left.may_precede(between, right)
    }

    #[inline]
    fn least_time(&self, stretch: &A) -> i64 {
        stretch.least_time()
    }

    #[inline]
    fn allows(&self, vehicle: usize, whole: &A) -> bool {
        self.services.allows(vehicle, whole)
    }

    #[inline]
    fn is_late(&self, vehicle: usize, stretch: &A, whole: bool) -> bool {
        if whole { !self.services.allows(vehicle, stretch) } else { !stretch.can_be() }
    }

    #[inline]
    fn price(&self, vehicle: usize, whole: &A) -> i64 {
        self.services.price(vehicle, whole)
    }
}
