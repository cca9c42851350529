//! The rectangle around a cut in one direction, and what limits its sides.

use geo::Coord;
use model::rules::markout::MarkOutRules;

use crate::body::Body;
use crate::{Pavement, WheelPath};

/// Rounding may not decide whether a cut keeps its distance from the edge; a hundredth of a micrometre may.
pub(crate) const ROUNDING_M: f64 = 1e-8;

/// A rectangle in a direction of its own, measured from the body's origin.
#[derive(Debug, Clone)]
pub(crate) struct Outer {
    /// Unit vector that the first coordinate runs along; the second runs to the right of it.
    pub direction: Coord,
    /// Least coordinates.
    pub low: Coord,
    /// Greatest coordinates.
    pub high: Coord,
    /// What limits the sides along the road. Nothing does in other directions: there a cut is taken or left.
    pub limits: SideLimits,
}

/// What limits a side that runs along the road. Coordinates across, from the body's origin.
#[derive(Debug, Clone, Default)]
pub(crate) struct SideLimits {
    /// The pavement's left edge, where the cut lies on it.
    pub left_edge: Option<f64>,
    /// The pavement's right edge, where the cut lies on it.
    pub right_edge: Option<f64>,
    /// A strip narrower than this is not left beside such an edge.
    pub edge_gap: f64,
    /// Wheel paths to keep clear.
    pub wheel_paths: Vec<WheelPath>,
    /// A side is moved out of a wheel path by no more than this.
    pub greatest_shift: f64,
}

impl SideLimits {
    /// Where a right side at `across` or beyond may lie.
    pub fn right_side(&self, across: f64) -> f64 {
        let mut side = across;
        for path in &self.wheel_paths {
            let shift = path.across_max_m - side;
            if path.across_min_m < side && shift > 0.0 && shift <= self.greatest_shift {
                side = path.across_max_m;
            }
        }
        self.right_edge.filter(|edge| edge - side < self.edge_gap).unwrap_or(side)
    }

    /// Where a left side at `across` or beyond may lie.
    pub fn left_side(&self, across: f64) -> f64 {
        let mut side = across;
        for path in self.wheel_paths.iter().rev() {
            let shift = side - path.across_min_m;
            if path.across_max_m > side && shift > 0.0 && shift <= self.greatest_shift {
                side = path.across_min_m;
            }
        }
        self.left_edge.filter(|edge| side - edge < self.edge_gap).unwrap_or(side)
    }

    /// Whether a side may be at `across`, whichever way it could be moved.
    pub fn allows(&self, across: f64) -> bool {
        !self.wheel_paths.iter().any(|path| path.across_min_m < across && across < path.across_max_m)
    }
}

impl Outer {
    /// The rectangle with a side along `direction`, margins and least sides included, the pavement not looked at.
    pub fn around(body: &Body, direction: Coord, rules: &MarkOutRules) -> Self {
        let (margin, smallest) = (rules.margin_m.value, rules.smallest_side_m.value);
        let normal = turned_right(direction);
        let side = |axis: Coord| {
            let (low, high) = extent(body.hull.iter().map(|&p| dot(p, axis)));
            let widened = ((smallest - (high - low + 2.0 * margin)) / 2.0).max(0.0);
            (low - margin - widened, high + margin + widened)
        };
        let ((x0, x1), (y0, y1)) = (side(direction), side(normal));
        Outer { direction, low: Coord { x: x0, y: y0 }, high: Coord { x: x1, y: y1 }, limits: SideLimits::default() }
    }

    /// The rectangle square to the road: its sides kept out of wheel paths where that is asked for, and taken to the
    /// pavement's edge where they come too near to it.
    pub fn square(body: &Body, pavement: &Pavement, rules: &MarkOutRules) -> Self {
        let free = Outer::around(body, Coord { x: 1.0, y: 0.0 }, rules);
        let (margin, smallest) = (rules.margin_m.value, rules.smallest_side_m.value);
        let mut limits = SideLimits {
            edge_gap: rules.edge_gap_m.value,
            greatest_shift: rules.wheel_path.greatest_shift_m.value,
            ..SideLimits::default()
        };
        if rules.wheel_path.keep_clear.value {
            limits.wheel_paths = pavement.wheel_paths.iter().map(|path| path.moved(-body.origin.y)).collect();
            limits.wheel_paths.sort_by(|a, b| a.across_min_m.total_cmp(&b.across_min_m));
        }
        let (left_edge, right_edge) = (pavement.across_min_m - body.origin.y, pavement.across_max_m - body.origin.y);
        let (hull_left, hull_right) = extent(body.hull.iter().map(|p| p.y));
        let (mut left, mut right) = (limits.left_side(hull_left - margin), limits.right_side(hull_right + margin));
        // Looked at twice: between, a side too short is widened, which may bring it near the other edge.
        for widen in [true, false] {
            if left - left_edge < limits.edge_gap {
                limits.left_edge = Some(left_edge);
            }
            if right_edge - right < limits.edge_gap {
                limits.right_edge = Some(right_edge);
            }
            (left, right) = (limits.left_edge.unwrap_or(left), limits.right_edge.unwrap_or(right));
            let missing = if widen { (smallest - (right - left)).max(0.0) } else { 0.0 };
            let shares = match (limits.left_edge, limits.right_edge) {
                (Some(_), Some(_)) => (0.0, 0.0),
                (Some(_), None) => (0.0, 1.0),
                (None, Some(_)) => (1.0, 0.0),
                (None, None) => (0.5, 0.5),
            };
            left = limits.left_side(left - shares.0 * missing);
            right = limits.right_side(right + shares.1 * missing);
        }
        Outer { low: Coord { y: left, ..free.low }, high: Coord { y: right, ..free.high }, limits, ..free }
    }

    /// Whether a side lies on the pavement's edge.
    pub fn is_on_edge(&self) -> bool {
        self.limits.left_edge.is_some() || self.limits.right_edge.is_some()
    }
}

pub(crate) fn turned_right(direction: Coord) -> Coord {
    Coord { x: -direction.y, y: direction.x }
}

pub(crate) fn dot(a: Coord, b: Coord) -> f64 {
    a.x * b.x + a.y * b.y
}

fn extent(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
}
