//! A cut laid on the road: its shape, where it is, and what it costs.

use geo::{Coord, LineString, Polygon};
use model::rules::markout::MarkOutRules;

use crate::body::Body;
use crate::outer::{Outer, ROUNDING_M, turned_right};
use crate::shape::{Axis, Shape, Steps};
use crate::{Pavement, WheelPath};

/// A shorter side can't be marked, whatever the rules say.
pub(crate) const LEAST_NOTCH_M: f64 = 1e-3;
/// A cut edge within this of a wheel path's border is outside of it.
const WHEEL_PATH_TOLERANCE_M: f64 = 1e-6;

/// A cut, as one of several that could be taken.
#[derive(Debug, Clone)]
pub(crate) struct Laid {
    origin: Coord,
    /// The rectangle it was made in: its direction, and what limits its sides along the road.
    pub outer: Outer,
    /// In the coordinates of that direction, measured from the body's origin.
    pub shape: Shape,
    /// Area, and the prices of corners and edge, m².
    pub cost: f64,
}

impl Laid {
    pub fn new(body: &Body, outer: &Outer, shape: Shape, rules: &MarkOutRules) -> Self {
        let mut laid = Laid { origin: body.origin, outer: outer.clone(), shape, cost: shape.area() };
        let more_corners = shape.corner_count() as f64 - 4.0;
        laid.cost += rules.corner_price_m2.value * more_corners + rules.edge_price_m2_per_m.value * laid.edge_to_cut();
        laid
    }

    pub fn rectangle(body: &Body, outer: &Outer, rules: &MarkOutRules) -> Self {
        let shape = Shape {
            axis: Axis::Along,
            ends: [outer.low.x, outer.high.x],
            top: Steps::level(outer.high.y),
            bottom: Steps::level(outer.low.y),
        };
        Laid::new(body, outer, shape, rules)
    }

    /// Corners in the road frame, turning right.
    pub fn corners(&self) -> Vec<Coord> {
        let (direction, normal) = (self.outer.direction, turned_right(self.outer.direction));
        let corners = self.shape.corners().into_iter();
        corners.map(|corner| self.origin + direction * corner.x + normal * corner.y).collect()
    }

    /// As a polygon in the road frame.
    pub fn polygon(&self) -> Polygon {
        Polygon::new(LineString::from(self.corners()), Vec::new())
    }

    /// Sides of the rectangle around it, along its direction and across.
    pub fn sides(&self) -> (f64, f64) {
        let (first, second) = (self.shape.ends[1] - self.shape.ends[0], self.shape.highest() - self.shape.lowest());
        match self.shape.axis {
            Axis::Along => (first, second),
            Axis::Across => (second, first),
        }
    }

    /// Length of its sides that lie on the pavement's edge.
    pub fn on_edge(&self) -> f64 {
        let corners = self.shape.corners();
        let next = corners.iter().cycle().skip(1);
        let edges = [self.outer.limits.left_edge, self.outer.limits.right_edge];
        corners
            .iter()
            .zip(next)
            .filter(|(a, b)| a.y == b.y && edges.contains(&Some(a.y)))
            .map(|(a, b)| (b.x - a.x).abs())
            .fold(0.0, |sum, length| sum + length)
    }

    /// Length to saw or pick.
    pub fn edge_to_cut(&self) -> f64 {
        self.shape.perimeter() - self.on_edge()
    }

    /// Sine of the angle by which it is turned against the road, from 0 (square) to 0.707 (45 degrees).
    pub fn skew(&self) -> f64 {
        self.outer.direction.x.abs().min(self.outer.direction.y.abs())
    }

    /// Whether all corners lie on an edge that the cut is taken to, or stay at least the edge gap away.
    pub fn keeps_from_edges(&self, pavement: &Pavement, rules: &MarkOutRules) -> bool {
        let gap = rules.edge_gap_m.value - ROUNDING_M;
        let keeps = |distance: f64, on_edge: bool| distance >= gap || (on_edge && distance.abs() < ROUNDING_M);
        self.corners().iter().all(|corner| {
            keeps(corner.y - pavement.across_min_m, self.outer.limits.left_edge.is_some())
                && keeps(pavement.across_max_m - corner.y, self.outer.limits.right_edge.is_some())
        })
    }

    /// Whether an edge that runs more along the road than across it lies in a wheel path. Edges on the pavement's edge
    /// are no joints.
    pub fn has_joint_in(&self, wheel_paths: &[WheelPath]) -> bool {
        let corners = self.corners();
        let next = corners.iter().cycle().skip(1);
        corners.iter().zip(next).any(|(a, b)| {
            let (low, high) = (a.y.min(b.y), a.y.max(b.y));
            let is_along = (b.x - a.x).abs() >= high - low;
            is_along
                && wheel_paths.iter().any(|path| {
                    high > path.across_min_m + WHEEL_PATH_TOLERANCE_M
                        && low < path.across_max_m - WHEEL_PATH_TOLERANCE_M
                })
        })
    }
}

#[cfg(test)]
mod tests {
    use model::place::FramePoint;

    use super::*;

    /// A square of 1 m between 11 and 12 m across, laid square to a road whose seal lies between two edges.
    fn laid(left_edge: Option<f64>, right_edge: Option<f64>) -> Laid {
        let ring = [(0.0, 11.0), (1.0, 11.0), (1.0, 12.0), (0.0, 12.0)];
        let ring = ring.map(|(along_m, across_m)| FramePoint { along_m, across_m });
        let body = Body::of(&[&ring]);
        let mut outer = Outer {
            direction: Coord { x: 1.0, y: 0.0 },
            low: Coord { x: 0.0, y: 0.0 },
            high: Coord { x: 1.0, y: 1.0 },
            limits: crate::outer::SideLimits::default(),
        };
        (outer.limits.left_edge, outer.limits.right_edge) = (left_edge, right_edge);
        Laid::rectangle(&body, &outer, &rules())
    }

    fn rules() -> MarkOutRules {
        let path = testkit::in_repository("rules/markout/common-practice.toml");
        let mut rules: MarkOutRules = toml::from_str(&std::fs::read_to_string(path).expect("shipped")).expect("reads");
        rules.edge_gap_m.value = 0.5;
        rules
    }

    #[test]
    fn a_cut_lies_on_its_edge_or_keeps_the_gap_from_it() {
        let keeps = |across_min_m: f64, across_max_m: f64, laid: &Laid| {
            laid.keeps_from_edges(&Pavement { across_min_m, across_max_m, ..Pavement::without_edges() }, &rules())
        };
        let free = laid(None, None);
        for (from, to, expected) in
            [(10.5, 12.5, true), (10.6, 12.5, false), (10.5, 12.4, false), (11.0, 12.5, false), (10.5, 12.0, false)]
        {
            assert_eq!(keeps(from, to, &free), expected, "{from} to {to}");
        }
        // Taken to an edge it lies on that, not near it.
        let at_both = laid(Some(0.0), Some(1.0));
        assert!(keeps(11.0, 12.0, &at_both));
        assert!(!keeps(10.9, 12.0, &at_both) && !keeps(11.0, 12.1, &at_both));
        assert!(!keeps(11.0, 12.0, &laid(Some(0.0), None)) && !keeps(11.0, 12.0, &laid(None, Some(1.0))));
    }
}
