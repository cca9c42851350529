//! Near holes become one cut.

use std::cmp::Ordering;

use geo::{Coord, Distance, Euclidean, Polygon};
use model::place::FramePoint;
use model::rules::markout::MarkOutRules;

use crate::Pavement;
use crate::body::Body;
use crate::outline::HoleOnPavement;
use crate::search::{Choice, cheapest};

/// Holes that share one cut.
pub(crate) struct Group {
    /// Indexes of the holes, ascending.
    pub holes: Vec<usize>,
    /// The cut.
    pub choice: Choice,
    polygon: Polygon,
    bounds: Bounds,
}

/// Joins holes until no two cuts are nearer to each other than the gap; groups in the order of their first hole.
///
/// A joined cut is larger and may come near to further ones, so each join is followed by a new look at all. Holes are
/// taken in by place, not by their order in the list, so that the list's order does not change the result.
pub(crate) fn merge_near(holes: &[HoleOnPavement], pavement: &Pavement, rules: &MarkOutRules) -> Vec<Group> {
    let points: Vec<Vec<(f64, f64)>> = holes.iter().map(|hole| sorted(&hole.outline.ring)).collect();
    let mut by_place: Vec<usize> = (0..holes.len()).collect();
    by_place.sort_by(|&a, &b| points[a].partial_cmp(&points[b]).unwrap_or(Ordering::Equal));

    let mut settled: Vec<Group> = Vec::new();
    for index in by_place {
        let mut group = Group::new(vec![index], holes, pavement, rules);
        while let Some(near) = settled.iter().position(|other| group.is_near(other, rules.merge_gap_m.value)) {
            let other = settled.swap_remove(near);
            group = group.join(other, holes, pavement, rules);
        }
        settled.push(group);
    }
    settled.sort_by_key(|group| group.holes[0]);
    settled
}

impl Group {
    fn new(indexes: Vec<usize>, holes: &[HoleOnPavement], pavement: &Pavement, rules: &MarkOutRules) -> Self {
        let rings: Vec<&[FramePoint]> = indexes.iter().map(|&index| &holes[index].outline.ring[..]).collect();
        let choice = cheapest(&Body::of(&rings), pavement, rules);
        let polygon = choice.laid.polygon();
        Group { holes: indexes, bounds: Bounds::of(&polygon), choice, polygon }
    }

    fn join(self, other: Group, holes: &[HoleOnPavement], pavement: &Pavement, rules: &MarkOutRules) -> Self {
        let mut indexes = [self.holes, other.holes].concat();
        indexes.sort_unstable();
        Group::new(indexes, holes, pavement, rules)
    }

    /// Whether two cuts are nearer than the gap, touch or overlap.
    fn is_near(&self, other: &Group, gap: f64) -> bool {
        // The boxes say no to nearly all pairs; only then the exact distance is worth its time.
        if self.bounds.distance(other.bounds) > gap {
            return false;
        }
        let distance = Euclidean.distance(&self.polygon, &other.polygon);
        distance < gap || distance <= 0.0
    }
}

/// Box around a cut, parallel to the axes.
#[derive(Clone, Copy)]
struct Bounds {
    min: Coord,
    max: Coord,
}

impl Bounds {
    fn of(polygon: &Polygon) -> Self {
        let corners = || polygon.exterior().coords().copied();
        let fold = |pick: fn(f64, f64) -> f64| {
            corners().reduce(|a, b| Coord { x: pick(a.x, b.x), y: pick(a.y, b.y) }).unwrap_or_default()
        };
        Bounds { min: fold(f64::min), max: fold(f64::max) }
    }

    fn distance(self, other: Bounds) -> f64 {
        let x = (other.min.x - self.max.x).max(self.min.x - other.max.x).max(0.0);
        let y = (other.min.y - self.max.y).max(self.min.y - other.max.y).max(0.0);
        x.hypot(y)
    }
}

/// The points of a ring in an order of their own, wherever it starts and whichever way round it goes.
fn sorted(ring: &[FramePoint]) -> Vec<(f64, f64)> {
    let mut points: Vec<(f64, f64)> = ring.iter().map(|p| (p.along_m, p.across_m)).collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    points
}
