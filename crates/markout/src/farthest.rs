//! How far a cut's edge lies from the holes inside, at its furthest point.

use geo::{Coord, Distance, Euclidean, Line};

/// The result is at most this much too small. A saw line is not set out finer.
pub(crate) const ACCURACY_M: f64 = 1e-4;

/// Greatest distance from a point of the ring `corners` to the nearest of `edges` (the holes' edges).
///
/// The furthest point need not be a corner: it may lie between two holes, or before a bay of the outline. The distance
/// to one edge is convex along a side, so over a stretch of the side it is at most the greater of its two ends; the
/// least of these bounds over all edges bounds the distance to the holes. Stretches that can't beat the best are dropped,
/// the others halved.
pub(crate) fn farthest(corners: &[Coord], edges: &[Line]) -> f64 {
    let mut best = 0.0;
    for (index, &from) in corners.iter().enumerate() {
        search(from, corners[(index + 1) % corners.len()], edges, &mut best);
    }
    best
}

fn search(from: Coord, to: Coord, edges: &[Line], best: &mut f64) {
    let ends: Vec<(f64, f64)> = edges.iter().map(|edge| (distance(from, edge), distance(to, edge))).collect();
    let least = |pick: fn(&(f64, f64)) -> f64| ends.iter().map(pick).fold(f64::INFINITY, f64::min);
    *best = best.max(least(|d| d.0)).max(least(|d| d.1));
    let bound = least(|d| d.0.max(d.1));
    if bound <= *best + ACCURACY_M {
        return;
    }
    // An edge that is nowhere on the stretch nearer than the bound can't decide there.
    let half = (to - from) / 2.0;
    let half_length = half.x.hypot(half.y);
    let deciding: Vec<Line> = edges
        .iter()
        .zip(&ends)
        .filter(|(_, ends)| ends.0.min(ends.1) - half_length <= bound)
        .map(|(edge, _)| *edge)
        .collect();
    let middle = from + half;
    search(from, middle, &deciding, best);
    search(middle, to, &deciding, best);
}

fn distance(point: Coord, edge: &Line) -> f64 {
    Euclidean.distance(point, edge)
}
