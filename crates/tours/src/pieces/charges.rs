//! What visits cost by the kind of vehicle that makes them: a later day, another crew.

use super::{Joint, Piece};
use crate::nodes::Nodes;

pub(crate) struct Charges<'a> {
    nodes: &'a Nodes<'a>,
}

impl<'a> Charges<'a> {
    pub(crate) fn new(nodes: &'a Nodes<'a>) -> Self {
        Self { nodes }
    }
}

impl Piece for Charges<'_> {
    type Segment = i64;

    const POSITIONAL: bool = true;

    #[inline]
    fn node(&self, vehicle: usize, node: u32) -> i64 {
        let problem = self.nodes.problem;
        let charge =
            problem.visits.get(node as usize).and_then(|it| it.charge.get(problem.vehicles[vehicle].charge_class));
        charge.copied().unwrap_or(0)
    }

    #[inline]
    fn join(&self, _vehicle: usize, left: &i64, _joint: Joint, right: &i64) -> i64 {
        left + right
    }

    #[inline]
    fn allows(&self, _vehicle: usize, _whole: &i64) -> bool {
        true
    }

    #[inline]
    fn price(&self, _vehicle: usize, whole: &i64) -> i64 {
        *whole
    }
}
