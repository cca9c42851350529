//! What a cut must hold: the edges of the holes inside, in coordinates of their own.

use geo::{Coord, Line};
use model::place::FramePoint;

use crate::hull::convex_hull;

/// The holes of one cut, around an origin of their own: chainages are long and margins short.
///
/// Nothing in it depends on the order of the holes, on where a ring starts or on which way round it goes.
#[derive(Debug, Clone)]
pub(crate) struct Body {
    /// The corner of least chainage, in the road frame.
    pub origin: Coord,
    /// Every edge, its lesser end first.
    pub edges: Vec<Line>,
    /// Convex hull, corners in order.
    pub hull: Vec<Coord>,
    /// No more than the area that the holes cover together.
    pub least_area: f64,
}

impl Body {
    /// Of rings that enclose an area.
    pub fn of(rings: &[&[FramePoint]]) -> Self {
        let points: Vec<Coord> = rings.iter().flat_map(|ring| ring.iter().map(coord)).collect();
        let hull = convex_hull(&points);
        let origin = hull.iter().copied().min_by(by_place).unwrap_or_default();
        let mut edges = Vec::with_capacity(points.len());
        for ring in rings {
            for (index, to) in ring.iter().enumerate() {
                let from = coord(&ring[(index + ring.len() - 1) % ring.len()]) - origin;
                let to = coord(to) - origin;
                edges.push(if by_place(&from, &to).is_le() { Line::new(from, to) } else { Line::new(to, from) });
            }
        }
        let hull: Vec<Coord> = hull.into_iter().map(|corner| corner - origin).collect();
        let hull_area = shoelace(&hull);
        let ring_area = |ring: &&[FramePoint]| shoelace(&ring.iter().map(|p| coord(p) - origin).collect::<Vec<_>>());
        let least_area = rings.iter().map(ring_area).fold(0.0, f64::max).min(hull_area);
        Body { origin, edges, hull, least_area }
    }
}

/// Order by coordinates, along before across.
pub(crate) fn by_place(a: &Coord, b: &Coord) -> std::cmp::Ordering {
    a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
}

fn coord(point: &FramePoint) -> Coord {
    Coord { x: point.along_m, y: point.across_m }
}

fn shoelace(ring: &[Coord]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(a, b)| a.x * b.y - b.x * a.y).sum::<f64>().abs() / 2.0
}
