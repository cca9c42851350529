//! The least rectangle around a convex hull, square to the road where that costs little, kept inside the pavement.

use geo::{ConvexHull, Coord, LineString, MultiPoint, Polygon};
use model::rules::markout::MarkOutRules;

use crate::Pavement;

/// Rounding may not decide whether a cut keeps its distance from the edge; a hundredth of a micrometre may.
const ROUNDING_M: f64 = 1e-8;

/// A rectangle at any angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rectangle {
    /// Middle.
    pub centre: Coord,
    /// Unit vector along one side.
    pub direction: Coord,
    /// Size along `direction`.
    pub along: f64,
    /// Size across `direction`.
    pub across: f64,
    /// Its left side lies on the pavement's left edge (then `direction` is the road's).
    pub on_left_edge: bool,
    /// Its right side lies on the pavement's right edge.
    pub on_right_edge: bool,
}

impl Rectangle {
    /// Area, m².
    pub fn area(&self) -> f64 {
        self.along * self.across
    }

    /// Corners, turning right (x along, y to the right), from the one behind and to the left of `direction`.
    pub fn corners(&self) -> [Coord; 4] {
        let half_along = self.direction * (self.along / 2.0);
        let half_across = turned_right(self.direction) * (self.across / 2.0);
        [
            self.centre - half_along - half_across,
            self.centre + half_along - half_across,
            self.centre + half_along + half_across,
            self.centre - half_along + half_across,
        ]
    }

    /// As a polygon.
    pub fn polygon(&self) -> Polygon {
        Polygon::new(LineString::from(self.corners().to_vec()), Vec::new())
    }
}

/// Lays the cut around a hull of at least three corners.
pub(crate) fn least_rectangle(hull: &[Coord], pavement: &Pavement, rules: &MarkOutRules) -> Rectangle {
    let square = square_rectangle(hull, pavement, rules);
    if square.on_left_edge || square.on_right_edge {
        return square;
    }
    let turned = (0..hull.len()).filter_map(|index| {
        let edge = hull[(index + 1) % hull.len()] - hull[index];
        let length = edge.x.hypot(edge.y);
        (length > 0.0).then(|| rectangle_along(edge / length, hull, rules))
    });
    let candidates: Vec<Rectangle> =
        std::iter::once(square).chain(turned.filter(|r| keeps_from_edges(r, pavement, rules))).collect();

    let least = candidates.iter().map(Rectangle::area).fold(f64::INFINITY, f64::min);
    let affordable = least * (1.0 + rules.square_tolerance.value);
    candidates
        .into_iter()
        .filter(|r| r.area() <= affordable)
        .min_by(|a, b| skew(a).total_cmp(&skew(b)).then(a.area().total_cmp(&b.area())))
        .unwrap_or(square)
}

/// Convex hull with its corners in a sequence that depends on the set of points only, not on their order.
///
/// Fewer than three corners: the points enclose no area.
pub(crate) fn convex_hull(points: &[Coord]) -> Vec<Coord> {
    let mut points = points.to_vec();
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let hull = MultiPoint::from(points).convex_hull();
    let mut corners = hull.exterior().0.clone();
    corners.pop(); // the closing point
    corners.dedup();
    corners
}

/// The rectangle with a side along `direction`, margins and least sides included, the pavement not looked at.
fn rectangle_along(direction: Coord, hull: &[Coord], rules: &MarkOutRules) -> Rectangle {
    let normal = turned_right(direction);
    let (margin, smallest) = (rules.margin_m.value, rules.smallest_side_m.value);
    // Measured from a corner of the hull, since chainages are long and margins short.
    let origin = hull[0];
    let (along_min, along_max) = extent(hull.iter().map(|&p| dot(p - origin, direction)));
    let (across_min, across_max) = extent(hull.iter().map(|&p| dot(p - origin, normal)));
    Rectangle {
        centre: origin + direction * (along_min.midpoint(along_max)) + normal * (across_min.midpoint(across_max)),
        direction,
        along: (along_max - along_min + 2.0 * margin).max(smallest),
        across: (across_max - across_min + 2.0 * margin).max(smallest),
        on_left_edge: false,
        on_right_edge: false,
    }
}

/// The rectangle square to the road, taken to the pavement's edge where it comes too near to it.
fn square_rectangle(hull: &[Coord], pavement: &Pavement, rules: &MarkOutRules) -> Rectangle {
    let free = rectangle_along(Coord { x: 1.0, y: 0.0 }, hull, rules);
    let (margin, gap, smallest) = (rules.margin_m.value, rules.edge_gap_m.value, rules.smallest_side_m.value);
    let to_left_edge = |left: f64| left - pavement.across_min_m < gap;
    let to_right_edge = |right: f64| pavement.across_max_m - right < gap;
    let (hull_left, hull_right) = extent(hull.iter().map(|p| p.y));
    let (mut left, mut right) = (hull_left - margin, hull_right + margin);
    let (mut on_left_edge, mut on_right_edge) = (false, false);
    // Looked at twice: between, a side too short is widened, which may bring it near the other edge.
    for widen in [true, false] {
        on_left_edge |= to_left_edge(left);
        on_right_edge |= to_right_edge(right);
        if on_left_edge {
            left = pavement.across_min_m;
        }
        if on_right_edge {
            right = pavement.across_max_m;
        }
        let missing = if widen { (smallest - (right - left)).max(0.0) } else { 0.0 };
        let shares = match (on_left_edge, on_right_edge) {
            (true, true) => (0.0, 0.0),
            (true, false) => (0.0, 1.0),
            (false, true) => (1.0, 0.0),
            (false, false) => (0.5, 0.5),
        };
        left -= shares.0 * missing;
        right += shares.1 * missing;
    }
    if !on_left_edge && !on_right_edge {
        return free;
    }
    Rectangle {
        centre: Coord { x: free.centre.x, y: left.midpoint(right) },
        across: right - left,
        on_left_edge,
        on_right_edge,
        ..free
    }
}

/// Whether all corners stay at least the edge gap away from the pavement's edges.
fn keeps_from_edges(rectangle: &Rectangle, pavement: &Pavement, rules: &MarkOutRules) -> bool {
    let gap = rules.edge_gap_m.value - ROUNDING_M;
    rectangle
        .corners()
        .iter()
        .all(|corner| corner.y - pavement.across_min_m >= gap && pavement.across_max_m - corner.y >= gap)
}

/// Sine of the angle by which a rectangle is turned against the road, from 0 (square) to 0.707 (45 degrees).
fn skew(rectangle: &Rectangle) -> f64 {
    rectangle.direction.x.abs().min(rectangle.direction.y.abs())
}

fn turned_right(direction: Coord) -> Coord {
    Coord { x: -direction.y, y: direction.x }
}

fn dot(a: Coord, b: Coord) -> f64 {
    a.x * b.x + a.y * b.y
}

fn extent(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
}
