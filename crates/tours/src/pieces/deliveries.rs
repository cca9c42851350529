//! One load dimension, deliveries only, one trip: the sum is all that matters, wherever the visits stand.

use super::{Joint, Piece};
use crate::nodes::Nodes;

pub(crate) struct Deliveries {
    amount: Vec<i64>,
    capacity: Vec<i64>,
}

impl Deliveries {
    pub(crate) fn new(nodes: &Nodes<'_>) -> Self {
        let visits = &nodes.problem.visits;
        let vehicles = &nodes.problem.vehicles;
        Self {
            amount: visits.iter().map(|visit| visit.delivery.first().copied().unwrap_or(0)).collect(),
            capacity: vehicles.iter().map(|kind| kind.capacity.first().copied().unwrap_or(i64::MAX)).collect(),
        }
    }
}

impl Piece for Deliveries {
    type Segment = i64;

    const POSITIONAL: bool = false;

    #[inline]
    fn node(&self, _vehicle: usize, node: u32) -> i64 {
        self.amount.get(node as usize).copied().unwrap_or(0)
    }

    #[inline]
    fn join(&self, _vehicle: usize, left: &i64, _joint: Joint, right: &i64) -> i64 {
        left + right
    }

    #[inline]
    fn allows(&self, vehicle: usize, whole: &i64) -> bool {
        *whole <= self.capacity[vehicle]
    }

    #[inline]
    fn may_take(&self, vehicle: usize, whole: &i64, visit: usize) -> bool {
        whole + self.amount[visit] <= self.capacity[vehicle]
    }
}
