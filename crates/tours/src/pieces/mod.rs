//! Constraints as pieces. A piece knows what it must remember of a stretch of a route (its segment) and how two
//! stretches join. A route keeps the segments of all its beginnings and ends, so a piece judges a change at any place in
//! constant time. A new constraint is one new file here and one more entry where `solve` puts pieces together.

mod charges;
mod clock;
mod deliveries;
mod loads;
mod order;
mod reach;
mod released;
mod several;
mod span;
mod stock;
mod trips;

pub(crate) use charges::Charges;
pub(crate) use clock::Clock;
pub(crate) use deliveries::Deliveries;
pub(crate) use loads::Loads;
pub(crate) use order::Order;
pub(crate) use reach::Reach;
pub(crate) use released::Released;
pub(crate) use several::Several;
pub(crate) use span::Span;
pub(crate) use stock::Stock;
pub(crate) use trips::{OneTrip, TripRule, Trips};

/// The two nodes between which two stretches join.
pub(crate) type Joint = (u32, u32);

/// One constraint, or several together.
pub(crate) trait Piece {
    /// What is remembered of a stretch.
    type Segment: Copy;

    /// Does it matter where in the route a visit stands? If not, `may_take` decides alone.
    const POSITIONAL: bool;

    /// May a trip have to wait for one of its visits, so that a reload can gain time?
    const TRIPS_WAIT: bool = false;

    /// The stretch of a single node.
    fn node(&self, vehicle: usize, node: u32) -> Self::Segment;

    /// One stretch after another.
    fn join(&self, vehicle: usize, left: &Self::Segment, joint: Joint, right: &Self::Segment) -> Self::Segment;

    /// Quick and only necessary: can a stretch be part of a route that holds?
    #[inline]
    fn is_possible(&self, _stretch: &Self::Segment) -> bool {
        true
    }

    /// Quick and only necessary: can one stretch follow another when at least so much time lies between them?
    #[inline]
    fn may_follow(&self, _left: &Self::Segment, _between: i64, _right: &Self::Segment) -> bool {
        true
    }

    /// Least time that a stretch takes.
    #[inline]
    fn least_time(&self, _stretch: &Self::Segment) -> i64 {
        0
    }

    /// Does a whole route hold?
    fn allows(&self, vehicle: usize, whole: &Self::Segment) -> bool;

    /// Is it time that a stretch, or a whole route, fails by, so that a longer way there would fail all the more?
    #[inline]
    fn is_late(&self, _vehicle: usize, _stretch: &Self::Segment, _whole: bool) -> bool {
        false
    }

    /// What a whole route costs by this piece.
    #[inline]
    fn price(&self, _vehicle: usize, _whole: &Self::Segment) -> i64 {
        0
    }

    /// Quick and only necessary: may a visit fit into this whole route at all?
    #[inline]
    fn may_take(&self, _vehicle: usize, _whole: &Self::Segment, _visit: usize) -> bool {
        true
    }
}

impl<A: Piece, B: Piece> Piece for (A, B) {
    type Segment = (A::Segment, B::Segment);

    const POSITIONAL: bool = A::POSITIONAL || B::POSITIONAL;

    const TRIPS_WAIT: bool = A::TRIPS_WAIT || B::TRIPS_WAIT;

    #[inline]
    fn node(&self, vehicle: usize, node: u32) -> Self::Segment {
        (self.0.node(vehicle, node), self.1.node(vehicle, node))
    }

    #[inline]
    fn join(&self, vehicle: usize, left: &Self::Segment, joint: Joint, right: &Self::Segment) -> Self::Segment {
        (self.0.join(vehicle, &left.0, joint, &right.0), self.1.join(vehicle, &left.1, joint, &right.1))
    }

    #[inline]
    fn is_possible(&self, stretch: &Self::Segment) -> bool {
        self.0.is_possible(&stretch.0) && self.1.is_possible(&stretch.1)
    }

    #[inline]
    fn may_follow(&self, left: &Self::Segment, between: i64, right: &Self::Segment) -> bool {
        self.0.may_follow(&left.0, between, &right.0) && self.1.may_follow(&left.1, between, &right.1)
    }

    #[inline]
    fn least_time(&self, stretch: &Self::Segment) -> i64 {
        self.0.least_time(&stretch.0).max(self.1.least_time(&stretch.1))
    }

    #[inline]
    fn allows(&self, vehicle: usize, whole: &Self::Segment) -> bool {
        self.0.allows(vehicle, &whole.0) && self.1.allows(vehicle, &whole.1)
    }

    #[inline]
    fn is_late(&self, vehicle: usize, stretch: &Self::Segment, whole: bool) -> bool {
        self.0.is_late(vehicle, &stretch.0, whole) || self.1.is_late(vehicle, &stretch.1, whole)
    }

    #[inline]
    fn price(&self, vehicle: usize, whole: &Self::Segment) -> i64 {
        self.0.price(vehicle, &whole.0) + self.1.price(vehicle, &whole.1)
    }

    #[inline]
    fn may_take(&self, vehicle: usize, whole: &Self::Segment, visit: usize) -> bool {
        self.0.may_take(vehicle, &whole.0, visit) && self.1.may_take(vehicle, &whole.1, visit)
    }
}
