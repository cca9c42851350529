//! How high and how low the grown holes reach, over stretches along one axis of a cut.

use geo::Coord;

use crate::body::Body;
use crate::outer::{Outer, dot, turned_right};
use crate::shape::Axis;

/// An edge of a hole in the cut's coordinates: `u` along the axis of the steps, `v` along the levels.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Span {
    /// End of lesser `u`.
    from: Coord,
    /// End of greater `u`.
    to: Coord,
    /// Rise of `v` over `u`.
    slope: f64,
}

/// Greatest and least level that the holes, grown by the margin, reach over each stretch between two bounds.
///
/// Grown by a square with sides along the cut: a point reaches the margin further along both axes.
#[derive(Debug, Clone)]
pub(crate) struct Profile {
    /// Rising; one more than the stretches.
    pub bounds: Vec<f64>,
    /// Negative infinity where no hole is.
    pub top: Vec<f64>,
    /// Infinity where no hole is.
    pub bottom: Vec<f64>,
}

/// The edges as seen along an axis of the cut.
pub(crate) fn spans(body: &Body, direction: Coord, axis: Axis) -> Vec<Span> {
    let (u, v) = match axis {
        Axis::Along => (direction, turned_right(direction)),
        Axis::Across => (turned_right(direction), direction),
    };
    body.edges
        .iter()
        .map(|edge| {
            let (a, b) = (
                Coord { x: dot(edge.start, u), y: dot(edge.start, v) },
                Coord { x: dot(edge.end, u), y: dot(edge.end, v) },
            );
            if a.x <= b.x { Span::new(a, b) } else { Span::new(b, a) }
        })
        .collect()
}

impl Profile {
    /// Over the stretches between `bounds`, which rise and cover the grown holes.
    pub fn new(spans: &[Span], bounds: Vec<f64>, margin: f64) -> Self {
        let count = bounds.len() - 1;
        let (mut top, mut bottom) = (vec![f64::NEG_INFINITY; count], vec![f64::INFINITY; count]);
        // The stretch an edge begins in: near that of the edge before, its neighbour on the ring.
        let mut first = 0;
        for span in spans {
            let (low, high) = (span.from.x - margin, span.to.x + margin);
            while first > 0 && bounds[first] > low {
                first -= 1;
            }
            while first + 1 < count && bounds[first + 1] <= low {
                first += 1;
            }
            let stretches = bounds[first..].windows(2).take_while(|stretch| stretch[0] < high);
            for ((stretch, top), bottom) in stretches.zip(&mut top[first..]).zip(&mut bottom[first..]) {
                let (a, b) = (span.level_at(stretch[0] - margin), span.level_at(stretch[1] + margin));
                *top = top.max(a.max(b) + margin);
                *bottom = bottom.min(a.min(b) - margin);
            }
        }
        Profile { bounds, top, bottom }
    }
}

impl Span {
    fn new(from: Coord, to: Coord) -> Self {
        Span { from, to, slope: (to.y - from.y) / (to.x - from.x) }
    }

    /// Level at `u`; of the nearer end beyond the ends.
    #[inline]
    fn level_at(&self, u: f64) -> f64 {
        if u <= self.from.x {
            self.from.y
        } else if u >= self.to.x {
            self.to.y
        } else {
            self.from.y + (u - self.from.x) * self.slope
        }
    }

    /// The stretch of `u` over which it lies above `level`; `None` where it does not.
    pub fn above(&self, level: f64) -> Option<(f64, f64)> {
        let crossing = || {
            let part = (level - self.from.y) / (self.to.y - self.from.y);
            self.from.x + part * (self.to.x - self.from.x)
        };
        match (self.from.y > level, self.to.y > level) {
            (true, true) => Some((self.from.x, self.to.x)),
            (true, false) => Some((self.from.x, crossing())),
            (false, true) => Some((crossing(), self.to.x)),
            (false, false) => None,
        }
    }

    /// The same with the levels mirrored.
    pub fn mirrored(self) -> Self {
        let mirror = |c: Coord| Coord { y: -c.y, ..c };
        Span::new(mirror(self.from), mirror(self.to))
    }
}

/// Both ends along an axis, and of the levels.
pub(crate) fn ends(outer: &Outer, axis: Axis) -> ([f64; 2], [f64; 2]) {
    let (along, across) = ([outer.low.x, outer.high.x], [outer.low.y, outer.high.y]);
    match axis {
        Axis::Along => (along, across),
        Axis::Across => (across, along),
    }
}
