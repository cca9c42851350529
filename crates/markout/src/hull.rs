//! Convex hull.

use geo::{ConvexHull, Coord, MultiPoint};

use crate::body::by_place;

/// Convex hull with its corners in a sequence that depends on the set of points only, not on their order.
///
/// Fewer than three corners: the points enclose no area.
pub(crate) fn convex_hull(points: &[Coord]) -> Vec<Coord> {
    let mut points = points.to_vec();
    points.sort_by(by_place);
    points.dedup();
    let hull = MultiPoint::from(points).convex_hull();
    let mut corners = hull.exterior().0.clone();
    corners.pop(); // the closing point
    corners.dedup();
    corners
}
