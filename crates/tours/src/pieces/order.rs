//! Visits of a trip in non-decreasing rank, as deliveries before pickups.

use super::TripRule;
use crate::nodes::Nodes;

pub(crate) struct Order {
    ranks: Vec<u8>,
    starts_with_zero: bool,
}

/// Ranks of a stretch.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ranks {
    first: u8,
    last: u8,
    sorted: bool,
    empty: bool,
}

impl Order {
    pub(crate) fn new(nodes: &Nodes<'_>) -> Self {
        let ranks = nodes.problem.visits.iter().map(|visit| visit.rank).collect();
        Self { ranks, starts_with_zero: nodes.problem.starts_with_rank_zero }
    }
}

impl TripRule for Order {
    type Segment = Ranks;

    #[inline]
    fn nothing(&self) -> Ranks {
        Ranks { first: 0, last: 0, sorted: true, empty: true }
    }

    #[inline]
    fn visit(&self, visit: usize) -> Ranks {
        Ranks { first: self.ranks[visit], last: self.ranks[visit], sorted: true, empty: false }
    }

    #[inline]
    fn join(&self, left: &Ranks, right: &Ranks) -> Ranks {
        if left.empty {
            return *right;
        }
        if right.empty {
            return *left;
        }
        let sorted = left.sorted && right.sorted && left.last <= right.first;
        Ranks { first: left.first, last: right.last, sorted, empty: false }
    }

    #[inline]
    fn allows(&self, _vehicle: usize, trip: &Ranks) -> bool {
        trip.sorted && (trip.empty || trip.first == 0 || !self.starts_with_zero)
    }

    #[inline]
    fn may_take(&self, _vehicle: usize, _trip: &Ranks, _visit: usize) -> bool {
        true
    }
}
