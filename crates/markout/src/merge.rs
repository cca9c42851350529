//! Near holes become one cut.

use geo::{Coord, Distance, Euclidean};
use model::rules::markout::MarkOutRules;

use crate::Pavement;
use crate::outline::HoleOnPavement;
use crate::rectangle::{Rectangle, convex_hull, least_rectangle};

/// Holes that share one cut.
pub(crate) struct Group {
    /// Indexes of the holes, ascending.
    pub holes: Vec<usize>,
    /// The cut.
    pub rectangle: Rectangle,
    hull: Vec<Coord>,
    bounds: Bounds,
}

/// Joins holes until no two cuts are nearer to each other than the gap; groups in the order of their first hole.
///
/// A joined cut is larger and may come near to further ones, so each join is followed by a new look at all. Holes are
/// taken in by place, not by their order in the list, so that the list's order does not change the result.
pub(crate) fn merge_near(holes: &[HoleOnPavement], pavement: &Pavement, rules: &MarkOutRules) -> Vec<Group> {
    let mut by_place: Vec<usize> = (0..holes.len()).collect();
    by_place.sort_by(|&a, &b| by_coordinates(&holes[a].hull, &holes[b].hull));

    let mut settled: Vec<Group> = Vec::new();
    for index in by_place {
        let mut group = Group::new(vec![index], holes[index].hull.clone(), pavement, rules);
        while let Some(near) = settled.iter().position(|other| group.is_near(other, rules.merge_gap_m.value)) {
            let other = settled.swap_remove(near);
            group = group.join(other, pavement, rules);
        }
        settled.push(group);
    }
    settled.sort_by_key(|group| group.holes[0]);
    settled
}

impl Group {
    fn new(holes: Vec<usize>, hull: Vec<Coord>, pavement: &Pavement, rules: &MarkOutRules) -> Self {
        let rectangle = least_rectangle(&hull, pavement, rules);
        Group { holes, rectangle, hull, bounds: Bounds::of(&rectangle) }
    }

    fn join(self, other: Group, pavement: &Pavement, rules: &MarkOutRules) -> Self {
        let mut holes = [self.holes, other.holes].concat();
        holes.sort_unstable();
        Group::new(holes, convex_hull(&[self.hull, other.hull].concat()), pavement, rules)
    }

    /// Whether two cuts are nearer than the gap, touch or overlap.
    fn is_near(&self, other: &Group, gap: f64) -> bool {
        // The boxes say no to nearly all pairs; only then the exact distance is worth its time.
        if self.bounds.distance(other.bounds) > gap {
            return false;
        }
        let distance = Euclidean.distance(&self.rectangle.polygon(), &other.rectangle.polygon());
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
    fn of(rectangle: &Rectangle) -> Self {
        let corners = rectangle.corners();
        let fold = |pick: fn(f64, f64) -> f64| {
            corners.into_iter().reduce(|a, b| Coord { x: pick(a.x, b.x), y: pick(a.y, b.y) }).unwrap_or_default()
        };
        Bounds { min: fold(f64::min), max: fold(f64::max) }
    }

    fn distance(self, other: Bounds) -> f64 {
        let x = (other.min.x - self.max.x).max(self.min.x - other.max.x).max(0.0);
        let y = (other.min.y - self.max.y).max(self.min.y - other.max.y).max(0.0);
        x.hypot(y)
    }
}

/// Order by coordinates, corner after corner.
fn by_coordinates(a: &[Coord], b: &[Coord]) -> std::cmp::Ordering {
    let least = |hull: &[Coord]| {
        hull.iter().copied().min_by(|p, q| p.x.total_cmp(&q.x).then(p.y.total_cmp(&q.y))).unwrap_or_default()
    };
    let (p, q) = (least(a), least(b));
    p.x.total_cmp(&q.x).then(p.y.total_cmp(&q.y)).then_with(|| {
        let flat = |hull: &[Coord]| hull.iter().flat_map(|c| [c.x, c.y]).collect::<Vec<_>>();
        flat(a).partial_cmp(&flat(b)).unwrap_or(std::cmp::Ordering::Equal)
    })
}
