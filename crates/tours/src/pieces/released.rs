//! Time with releases: a trip leaves its depot no earlier than the last of its visits is released.
//!
//! A stretch is cut at its last depot. What comes before is settled but for the releases of its own first trip; what
//! comes after waits at that depot for releases that a later join may still bring.

use super::clock::Services;
use super::span::Algebra;
use super::{Joint, Piece};
use crate::nodes::{Kind, Nodes};
use crate::problem::Window;

pub(crate) struct Released<'a, A> {
    services: Services<'a, A>,
}

impl<'a, A: Algebra> Released<'a, A> {
    pub(crate) fn new(nodes: &'a Nodes<'a>) -> Self {
        Self { services: Services::new(nodes) }
    }
}

/// A stretch by trips.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Stretch<A> {
    /// Up to and with the last depot; neutral when there is none.
    head: A,
    /// From there on.
    tail: A,
    /// Latest release of the visits before the first depot.
    first: i64,
    /// Latest release of the visits after the last depot; the same as `first` when there is none.
    last: i64,
    has_depot: bool,
}

impl<A: Algebra> Stretch<A> {
    /// With the departure from the last depot settled.
    #[inline]
    fn settled(&self, last: i64) -> A {
        if last == 0 {
            return self.head.then(0, &self.tail);
        }
        let wait = A::service(&[Window { open: last, close: Window::ALWAYS.close }], 0, None);
        self.head.then(0, &wait).then(0, &self.tail)
    }
}

impl<A: Algebra> Piece for Released<'_, A> {
    type Segment = Stretch<A>;

    const POSITIONAL: bool = true;

    const TRIPS_WAIT: bool = true;

    #[inline]
    fn node(&self, vehicle: usize, node: u32) -> Stretch<A> {
        let time = self.services.of(vehicle, node);
        if let Kind::Visit(visit) = self.services.nodes.kind(node) {
            let release = self.services.nodes.problem.visits[visit].release;
            Stretch { head: A::NEUTRAL, tail: time, first: release, last: release, has_depot: false }
        } else {
            Stretch { head: time, tail: A::NEUTRAL, first: 0, last: 0, has_depot: true }
        }
    }

    #[inline]
    fn join(&self, vehicle: usize, left: &Stretch<A>, (from, to): Joint, right: &Stretch<A>) -> Stretch<A> {
        let way = self.services.nodes.time(vehicle, from, to);
        let release = left.last.max(right.first);
        if !right.has_depot {
            let first = if left.has_depot { left.first } else { release };
            return Stretch { tail: left.tail.then(way, &right.tail), first, last: release, ..*left };
        }
        let (head, first) = if left.has_depot {
            (left.settled(release).then(way, &right.head), left.first)
        } else {
            (left.tail.then(way, &right.head), release)
        };
        Stretch { head, tail: right.tail, first, last: right.last, has_depot: true }
    }

    #[inline]
    fn is_possible(&self, stretch: &Stretch<A>) -> bool {
        stretch.tail.can_be() && stretch.head.can_be()
    }

    #[inline]
    fn may_follow(&self, left: &Stretch<A>, between: i64, right: &Stretch<A>) -> bool {
        left.tail.may_precede(between, if right.has_depot { &right.head } else { &right.tail })
    }

    #[inline]
    fn allows(&self, vehicle: usize, whole: &Stretch<A>) -> bool {
        self.services.allows(vehicle, &whole.settled(whole.last))
    }

    #[inline]
    fn price(&self, vehicle: usize, whole: &Stretch<A>) -> i64 {
        self.services.price(vehicle, &whole.settled(whole.last))
    }
}
