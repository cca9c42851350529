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
        let to = corners[(index + 1) % corners.len()];
        let edges =
            edges.iter().map(|edge| Edge { line: *edge, at_from: distance(from, edge), at_to: distance(to, edge) });
        search(from, to, &edges.collect::<Vec<_>>(), &mut best);
    }
    best
}

/// An edge of a hole with its distances from both ends of a stretch.
#[derive(Clone, Copy)]
struct Edge {
    line: Line,
    at_from: f64,
    at_to: f64,
}

fn search(from: Coord, to: Coord, edges: &[Edge], best: &mut f64) {
    let least = |pick: fn(&Edge) -> f64| edges.iter().map(pick).fold(f64::INFINITY, f64::min);
    *best = best.max(least(|edge| edge.at_from)).max(least(|edge| edge.at_to));
    let bound = least(|edge| edge.at_from.max(edge.at_to));
    if bound <= *best + ACCURACY_M {
        return;
    }
    let half = (to - from) / 2.0;
    let middle = from + half;
    // The distance changes no faster than the point moves: an edge that is nowhere on the stretch nearer than the bound
    // can't decide there.
    let half_length = half.x.hypot(half.y);
    let deciding = edges.iter().filter(|edge| edge.at_from.midpoint(edge.at_to) - half_length <= bound);
    let (first, second): (Vec<Edge>, Vec<Edge>) = deciding
        .map(|edge| {
            let at_middle = distance(middle, &edge.line);
            (Edge { at_to: at_middle, ..*edge }, Edge { at_from: at_middle, ..*edge })
        })
        .unzip();
    search(from, middle, &first, best);
    search(middle, to, &second, best);
}

fn distance(point: Coord, edge: &Line) -> f64 {
    Euclidean.distance(point, edge)
}
