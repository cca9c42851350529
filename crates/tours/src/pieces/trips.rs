//! Rules that begin anew with each trip: a reload in the middle of a shift cuts the route.

use super::{Joint, Piece};
use crate::nodes::{Kind, Nodes};

/// A rule within one trip.
pub(crate) trait TripRule {
    /// What is remembered of a stretch of a trip.
    type Segment: Copy;

    /// A stretch without visits.
    fn nothing(&self) -> Self::Segment;

    /// The stretch of a single visit.
    fn visit(&self, visit: usize) -> Self::Segment;

    /// One stretch after another of the same trip.
    fn join(&self, left: &Self::Segment, right: &Self::Segment) -> Self::Segment;

    /// Does a whole trip hold?
    fn allows(&self, vehicle: usize, trip: &Self::Segment) -> bool;

    /// Quick and only necessary: may the visit join this trip at all?
    fn may_take(&self, vehicle: usize, trip: &Self::Segment, visit: usize) -> bool;
}

impl<A: TripRule, B: TripRule> TripRule for (A, B) {
    type Segment = (A::Segment, B::Segment);

    #[inline]
    fn nothing(&self) -> Self::Segment {
        (self.0.nothing(), self.1.nothing())
    }

    #[inline]
    fn visit(&self, visit: usize) -> Self::Segment {
        (self.0.visit(visit), self.1.visit(visit))
    }

    #[inline]
    fn join(&self, left: &Self::Segment, right: &Self::Segment) -> Self::Segment {
        (self.0.join(&left.0, &right.0), self.1.join(&left.1, &right.1))
    }

    #[inline]
    fn allows(&self, vehicle: usize, trip: &Self::Segment) -> bool {
        self.0.allows(vehicle, &trip.0) && self.1.allows(vehicle, &trip.1)
    }

    #[inline]
    fn may_take(&self, vehicle: usize, trip: &Self::Segment, visit: usize) -> bool {
        self.0.may_take(vehicle, &trip.0, visit) && self.1.may_take(vehicle, &trip.1, visit)
    }
}

/// A trip rule when no vehicle ever reloads.
pub(crate) struct OneTrip<R> {
    rule: R,
    visits: usize,
}

impl<R> OneTrip<R> {
    pub(crate) fn new(nodes: &Nodes<'_>, rule: R) -> Self {
        Self { rule, visits: nodes.visits }
    }
}

impl<R: TripRule> Piece for OneTrip<R> {
    type Segment = R::Segment;

    const POSITIONAL: bool = true;

    #[inline]
    fn node(&self, _vehicle: usize, node: u32) -> R::Segment {
        if (node as usize) < self.visits { self.rule.visit(node as usize) } else { self.rule.nothing() }
    }

    #[inline]
    fn join(&self, _vehicle: usize, left: &R::Segment, _joint: Joint, right: &R::Segment) -> R::Segment {
        self.rule.join(left, right)
    }

    #[inline]
    fn allows(&self, vehicle: usize, whole: &R::Segment) -> bool {
        self.rule.allows(vehicle, whole)
    }

    #[inline]
    fn may_take(&self, vehicle: usize, whole: &R::Segment, visit: usize) -> bool {
        self.rule.may_take(vehicle, whole, visit)
    }
}

/// A trip rule across reloads.
pub(crate) struct Trips<'a, R> {
    nodes: &'a Nodes<'a>,
    rule: R,
}

impl<'a, R> Trips<'a, R> {
    pub(crate) fn new(nodes: &'a Nodes<'a>, rule: R) -> Self {
        Self { nodes, rule }
    }
}

/// The stretch up to its first reload, after its last one, and whether all whole trips between hold.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Cut<S> {
    /// Up to the first reload, or all of it.
    head: S,
    /// After the last reload; without meaning when there is none.
    tail: S,
    reloads: u32,
    holds: bool,
}

impl<R: TripRule> Piece for Trips<'_, R> {
    type Segment = Cut<R::Segment>;

    const POSITIONAL: bool = true;

    #[inline]
    fn node(&self, _vehicle: usize, node: u32) -> Self::Segment {
        let nothing = self.rule.nothing();
        match self.nodes.kind(node) {
            Kind::Visit(visit) => Cut { head: self.rule.visit(visit), tail: nothing, reloads: 0, holds: true },
            Kind::Reload(_) => Cut { head: nothing, tail: nothing, reloads: 1, holds: true },
            Kind::Start(_) | Kind::End(_) => Cut { head: nothing, tail: nothing, reloads: 0, holds: true },
        }
    }

    #[inline]
    fn join(&self, vehicle: usize, left: &Self::Segment, _joint: Joint, right: &Self::Segment) -> Self::Segment {
        let reloads = left.reloads + right.reloads;
        let holds = left.holds && right.holds;
        match (left.reloads > 0, right.reloads > 0) {
            (false, _) => Cut { head: self.rule.join(&left.head, &right.head), tail: right.tail, reloads, holds },
            (true, false) => Cut { head: left.head, tail: self.rule.join(&left.tail, &right.head), reloads, holds },
            (true, true) => {
                let holds = holds && self.rule.allows(vehicle, &self.rule.join(&left.tail, &right.head));
                Cut { head: left.head, tail: right.tail, reloads, holds }
            }
        }
    }

    #[inline]
    fn is_possible(&self, stretch: &Self::Segment) -> bool {
        stretch.holds
    }

    #[inline]
    fn allows(&self, vehicle: usize, whole: &Self::Segment) -> bool {
        whole.holds
            && whole.reloads as usize <= self.nodes.problem.vehicles[vehicle].greatest_reloads
            && self.rule.allows(vehicle, &whole.head)
            && (whole.reloads == 0 || self.rule.allows(vehicle, &whole.tail))
    }

    #[inline]
    fn may_take(&self, vehicle: usize, whole: &Self::Segment, visit: usize) -> bool {
        // With a reload the visit may get a trip of its own.
        !self.nodes.problem.vehicles[vehicle].reloads.is_empty() || self.rule.may_take(vehicle, &whole.head, visit)
    }
}
