//! The problem laid out flat for the search: one index for everything that can stand in a route.
//!
//! Visits come first, then each depot three times: as a reload, as the begin and as the end of a shift.

use crate::matrix::Matrix;
use crate::problem::Problem;

/// What a node is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Visit(usize),
    Reload(usize),
    Start(usize),
    End(usize),
}

/// Distances, the same transposed, and times.
pub(crate) struct Ways {
    pub(crate) distance: Matrix,
    pub(crate) into: Option<Matrix>,
    pub(crate) duration: Option<Matrix>,
}

impl Ways {
    /// Distances from everywhere to one place.
    #[inline]
    pub(crate) fn row_to(&self, to: usize) -> &[i32] {
        self.into.as_ref().unwrap_or(&self.distance).row(to)
    }

    #[inline]
    pub(crate) fn time(&self, from: usize, to: usize) -> i64 {
        i64::from(self.duration.as_ref().unwrap_or(&self.distance).get(from, to))
    }
}

pub(crate) struct Nodes<'a> {
    pub(crate) problem: &'a Problem,
    pub(crate) visits: usize,
    pub(crate) depots: usize,
    /// Place of each node.
    pub(crate) place: Vec<u32>,
    /// Distances and times by profile.
    pub(crate) ways: Vec<Ways>,
    /// May vehicle `k` take visit `v`: entry `k * visits + v`; empty when all may.
    allowed: Vec<bool>,
    /// Of each kind of vehicle.
    profile: Vec<usize>,
}

impl<'a> Nodes<'a> {
    pub(crate) fn new(problem: &'a Problem) -> Self {
        let visits = problem.visits.len();
        let depot_places = || problem.depots.iter().map(|depot| depot.place as u32);
        let place = problem.visits.iter().map(|visit| visit.place as u32);
        let place = place.chain(depot_places()).chain(depot_places()).chain(depot_places()).collect();
        let ways = problem.profiles.iter().map(|profile| {
            let transposed = profile.distance.transposed();
            Ways {
                distance: profile.distance.clone(),
                into: (transposed != profile.distance).then_some(transposed),
                duration: profile.duration.clone(),
            }
        });
        let mut allowed = Vec::new();
        if problem.visits.iter().any(|visit| visit.vehicles.is_some()) {
            for vehicle in 0..problem.vehicles.len() {
                let may = |visit: &crate::Visit| visit.vehicles.as_ref().is_none_or(|kinds| kinds.contains(&vehicle));
                allowed.extend(problem.visits.iter().map(may));
            }
        }
        let profile = problem.vehicles.iter().map(|vehicle| vehicle.profile).collect();
        Self { problem, visits, depots: problem.depots.len(), place, ways: ways.collect(), allowed, profile }
    }

    #[inline]
    pub(crate) fn kind(&self, node: u32) -> Kind {
        let node = node as usize;
        if node < self.visits {
            return Kind::Visit(node);
        }
        let (role, depot) = ((node - self.visits) / self.depots, (node - self.visits) % self.depots);
        match role {
            0 => Kind::Reload(depot),
            1 => Kind::Start(depot),
            _ => Kind::End(depot),
        }
    }

    #[inline]
    pub(crate) fn is_visit(&self, node: u32) -> bool {
        (node as usize) < self.visits
    }

    pub(crate) fn reload(&self, depot: usize) -> u32 {
        (self.visits + depot) as u32
    }

    pub(crate) fn start(&self, vehicle: usize) -> u32 {
        (self.visits + self.depots + self.problem.vehicles[vehicle].start) as u32
    }

    pub(crate) fn end(&self, vehicle: usize) -> u32 {
        (self.visits + 2 * self.depots + self.problem.vehicles[vehicle].end) as u32
    }

    /// Whether a call at one depot, the start or the end of a shift leaves nothing to do for a reload right beside it.
    pub(crate) fn covers(&self, vehicle: usize, node: u32, reload: u32) -> bool {
        let Kind::Reload(other) = self.kind(reload) else { return false };
        let other = &self.problem.depots[other];
        match self.kind(node) {
            Kind::Visit(_) => false,
            Kind::Start(_) => self.problem.vehicles[vehicle].aboard.is_none(),
            Kind::End(_) => true,
            Kind::Reload(depot) => {
                let depot = &self.problem.depots[depot];
                (0..2).all(|kind| depot.gives[kind] || !other.gives[kind]) && (depot.takes || !other.takes)
            }
        }
    }

    #[inline]
    pub(crate) fn allowed(&self, vehicle: usize, visit: usize) -> bool {
        self.allowed.is_empty() || self.allowed[vehicle * self.visits + visit]
    }

    #[inline]
    pub(crate) fn ways(&self, vehicle: usize) -> &Ways {
        &self.ways[self.profile[vehicle]]
    }

    #[inline]
    pub(crate) fn distance(&self, vehicle: usize, from: u32, to: u32) -> i64 {
        let (from, to) = (self.place[from as usize] as usize, self.place[to as usize] as usize);
        i64::from(self.ways(vehicle).distance.get(from, to))
    }

    #[inline]
    pub(crate) fn time(&self, vehicle: usize, from: u32, to: u32) -> i64 {
        let (from, to) = (self.place[from as usize] as usize, self.place[to as usize] as usize);
        self.ways(vehicle).time(from, to)
    }
}
