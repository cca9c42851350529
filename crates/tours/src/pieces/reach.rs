//! The longest distance of a shift.

use super::{Joint, Piece};
use crate::nodes::Nodes;

pub(crate) struct Reach<'a> {
    nodes: &'a Nodes<'a>,
}

impl<'a> Reach<'a> {
    pub(crate) fn new(nodes: &'a Nodes<'a>) -> Self {
        Self { nodes }
    }
}

impl Piece for Reach<'_> {
    type Segment = i64;

    const POSITIONAL: bool = true;

    #[inline]
    fn node(&self, _vehicle: usize, _node: u32) -> i64 {
        0
    }

    #[inline]
    fn join(&self, vehicle: usize, left: &i64, (from, to): Joint, right: &i64) -> i64 {
        left + right + self.nodes.distance(vehicle, from, to)
    }

    #[inline]
    fn allows(&self, vehicle: usize, whole: &i64) -> bool {
        self.nodes.problem.vehicles[vehicle].greatest_distance.is_none_or(|greatest| *whole <= greatest)
    }
}
