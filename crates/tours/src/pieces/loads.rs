//! Several load dimensions; what is taken back uses the space that deliveries have freed.
//!
//! The three sums and their join are those of T. Vidal, T. G. Crainic, M. Gendreau, C. Prins, "A unified solution
//! framework for multi-attribute vehicle routing problems", European Journal of Operational Research 234 (3), 2014, with
//! the peak for deliveries and pickups mixed in one trip; from memory.

use super::TripRule;
use crate::nodes::Nodes;
use crate::problem::Visit;

pub(crate) struct Loads<const D: usize> {
    visits: Vec<Load<D>>,
    capacity: Vec<[i64; D]>,
}

/// Of a stretch, per dimension.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Load<const D: usize> {
    /// On board when the stretch begins, to be handed out in it.
    delivery: [i64; D],
    /// On board when it ends, taken up in it.
    pickup: [i64; D],
    /// Most on board at any time of it.
    peak: [i64; D],
}

impl<const D: usize> Loads<D> {
    pub(crate) fn new(nodes: &Nodes<'_>) -> Self {
        let load = |visit: &Visit| {
            let delivery: [i64; D] = std::array::from_fn(|index| visit.delivery.get(index).copied().unwrap_or(0));
            let pickup: [i64; D] = std::array::from_fn(|index| visit.pickup.get(index).copied().unwrap_or(0));
            let peak = |index: usize| {
                if nodes.problem.pickup_first {
                    delivery[index] + pickup[index]
                } else {
                    delivery[index].max(pickup[index])
                }
            };
            Load { delivery, pickup, peak: std::array::from_fn(peak) }
        };
        let vehicles = nodes.problem.vehicles.iter();
        let capacity =
            vehicles.map(|kind| std::array::from_fn(|index| kind.capacity.get(index).copied().unwrap_or(i64::MAX)));
        Self { visits: nodes.problem.visits.iter().map(load).collect(), capacity: capacity.collect() }
    }
}

impl<const D: usize> TripRule for Loads<D> {
    type Segment = Load<D>;

    #[inline]
    fn nothing(&self) -> Load<D> {
        Load { delivery: [0; D], pickup: [0; D], peak: [0; D] }
    }

    #[inline]
    fn visit(&self, visit: usize) -> Load<D> {
        self.visits[visit]
    }

    #[inline]
    fn join(&self, left: &Load<D>, right: &Load<D>) -> Load<D> {
        Load {
            delivery: std::array::from_fn(|index| left.delivery[index] + right.delivery[index]),
            pickup: std::array::from_fn(|index| left.pickup[index] + right.pickup[index]),
            peak: std::array::from_fn(|index| {
                (left.peak[index] + right.delivery[index]).max(left.pickup[index] + right.peak[index])
            }),
        }
    }

    #[inline]
    fn allows(&self, vehicle: usize, trip: &Load<D>) -> bool {
        (0..D).all(|index| trip.peak[index] <= self.capacity[vehicle][index])
    }

    #[inline]
    fn may_take(&self, vehicle: usize, trip: &Load<D>, visit: usize) -> bool {
        let (more, most) = (&self.visits[visit], &self.capacity[vehicle]);
        (0..D).all(|index| {
            trip.delivery[index] + more.delivery[index] <= most[index]
                && trip.pickup[index] + more.pickup[index] <= most[index]
        })
    }
}
