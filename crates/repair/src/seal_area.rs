//! The sealed area: the cut grown by the overlap, kept on the pavement.

use geo::algorithm::buffer::{Buffer, BufferStyle, LineJoin};
use geo::{Area as _, BooleanOps, BoundingRect, Centroid, LineString, Polygon, Rect};
use model::place::FramePoint;
use model::quantity::{Area, InLength, Length, square_metres};

/// The paved strip in the road frame, distances across from the centre line, positive to the right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pavement {
    /// Left edge (the smaller value).
    pub left: Length,
    /// Right edge.
    pub right: Length,
}

/// Area inside the cut's outline grown outwards by `overlap` with mitred corners and clipped to the pavement.
///
/// `corners` is an open ring of at least three points in metres; `None` for the pavement clips nothing. A ring with a
/// number that is not finite, or of fewer points, has no area.
pub fn seal_area(corners: &[FramePoint], pavement: Option<Pavement>, overlap: Length) -> Area {
    let Some(cut) = polygon(corners) else { return square_metres(0.0) };
    grown_seal_area(&cut, pavement, overlap)
}

/// The sealed area when the cut's sides have grown by `side_factor` about the cut's middle.
///
/// A cut that would then reach over the pavement's edge is moved back inside: at the edge it grows inwards.
pub(crate) fn seal_area_when_grown(
    corners: &[FramePoint],
    pavement: Option<Pavement>,
    overlap: Length,
    side_factor: f64,
) -> Area {
    let Some(cut) = polygon(corners) else { return square_metres(0.0) };
    let Some(centre) = cut.centroid() else { return square_metres(0.0) };
    let mut ring: Vec<FramePoint> = corners
        .iter()
        .map(|corner| FramePoint {
            along_m: centre.x() + side_factor * (corner.along_m - centre.x()),
            across_m: centre.y() + side_factor * (corner.across_m - centre.y()),
        })
        .collect();
    if let Some(pavement) = pavement {
        let shift = shift_inside(&ring, pavement);
        for corner in &mut ring {
            corner.across_m += shift;
        }
    }
    seal_area(&ring, pavement, overlap)
}

/// How far across to move the ring so that it lies on the pavement; zero when it can't.
fn shift_inside(ring: &[FramePoint], pavement: Pavement) -> f64 {
    let least = ring.iter().map(|corner| corner.across_m).fold(f64::INFINITY, f64::min);
    let most = ring.iter().map(|corner| corner.across_m).fold(f64::NEG_INFINITY, f64::max);
    let over_left = (pavement.left.in_metres() - least).max(0.0);
    let over_right = (most - pavement.right.in_metres()).max(0.0);
    if over_left > 0.0 && over_right > 0.0 { 0.0 } else { over_left - over_right }
}

fn grown_seal_area(cut: &Polygon, pavement: Option<Pavement>, overlap: Length) -> Area {
    // The mitre's least angle (radians) only cuts off needle corners; a cut's corners are near right angles.
    const LEAST_MITRE_ANGLE: f64 = 0.2;
    let style = BufferStyle::new(overlap.in_metres()).line_join(LineJoin::Miter(LEAST_MITRE_ANGLE));
    let grown = cut.buffer_with_style(style);
    let kept = match (pavement, grown.bounding_rect()) {
        (Some(pavement), Some(bounds)) => {
            let (left, right) = (pavement.left.in_metres(), pavement.right.in_metres());
            if bounds.min().y >= left && bounds.max().y <= right {
                grown
            } else {
                let strip = Rect::new((bounds.min().x - 1.0, left), (bounds.max().x + 1.0, right));
                grown.intersection(&strip.to_polygon())
            }
        }
        _ => grown,
    };
    square_metres(kept.unsigned_area())
}

fn polygon(corners: &[FramePoint]) -> Option<Polygon> {
    let finite = corners.iter().all(|corner| corner.along_m.is_finite() && corner.across_m.is_finite());
    (corners.len() >= 3 && finite).then(|| {
        let ring: LineString = corners.iter().map(|corner| (corner.along_m, corner.across_m)).collect();
        Polygon::new(ring, Vec::new())
    })
}
