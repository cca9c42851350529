//! A hole's outline, checked and clipped to the pavement.

use geo::{Coord, LineString};
use model::cut_out::FrameOutline;
use model::place::FramePoint;

use crate::body::by_place;
use crate::hull::convex_hull;
use crate::{MarkOutError, Pavement};

/// Coordinates beyond this are no place on a road, and their squares would lose the millimetres.
const GREATEST_COORDINATE_M: f64 = 1e7;

/// A hole, as far as it lies on the pavement.
pub(crate) struct HoleOnPavement {
    /// Outline clipped to the pavement.
    pub outline: FrameOutline,
    /// How far the hole reached past the pavement's edge, zero if it did not.
    pub past_edge_m: f64,
}

/// Checks an outline and clips it to the seal's width.
pub(crate) fn on_pavement(outline: &FrameOutline, pavement: &Pavement) -> Result<HoleOnPavement, MarkOutError> {
    let hole = || outline.hole.clone();
    let is_place = |v: f64| v.is_finite() && v.abs() <= GREATEST_COORDINATE_M;
    if let Some(index) = outline.ring.iter().position(|p| !is_place(p.along_m) || !is_place(p.across_m)) {
        let FramePoint { along_m, across_m } = outline.ring[index];
        return Err(MarkOutError::NotAPlace { hole: hole(), point: index + 1, along_m, across_m });
    }
    let ring: Vec<Coord> = outline.ring.iter().map(|p| Coord { x: p.along_m, y: p.across_m }).collect();
    if convex_hull(&ring).len() < 3 {
        return Err(MarkOutError::NoArea { hole: hole() });
    }

    let (low, high) = (pavement.across_min_m, pavement.across_max_m);
    let across_min_m = ring.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    let across_max_m = ring.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
    let past_edge_m = (low - across_min_m).max(across_max_m - high).max(0.0);
    let ring =
        if past_edge_m > 0.0 { clip_across(&clip_across(&ring, low, 1.0), high, -1.0) } else { without_repeats(&ring) };
    if convex_hull(&ring).len() < 3 {
        return Err(MarkOutError::OutsidePavement {
            hole: hole(),
            across_min_m,
            across_max_m,
            pavement_min_m: low,
            pavement_max_m: high,
        });
    }
    let ring = ring.iter().map(|p| FramePoint { along_m: p.x, across_m: p.y }).collect();
    Ok(HoleOnPavement { outline: FrameOutline { hole: hole(), ring }, past_edge_m })
}

/// Sutherland and Hodgman's clip against one line: keeps what lies on the side of `limit` that `sign` points to.
fn clip_across(ring: &[Coord], limit: f64, sign: f64) -> Vec<Coord> {
    let inside = |p: Coord| (p.y - limit) * sign >= 0.0;
    let mut kept = Vec::with_capacity(ring.len() + 2);
    for (index, &to) in ring.iter().enumerate() {
        let from = ring[(index + ring.len() - 1) % ring.len()];
        if inside(from) != inside(to) {
            // From the same end whichever way round the ring goes, so that rounding is the same.
            let (a, b) = if by_place(&from, &to).is_le() { (from, to) } else { (to, from) };
            let part = (limit - a.y) / (b.y - a.y);
            kept.push(Coord { x: a.x + part * (b.x - a.x), y: limit });
        }
        if inside(to) {
            kept.push(to);
        }
    }
    without_repeats(&kept)
}

/// Drops points equal to the one before them, and a closing point equal to the first.
fn without_repeats(ring: &[Coord]) -> Vec<Coord> {
    let mut line = ring.to_vec();
    line.dedup();
    while line.len() > 1 && line.first() == line.last() {
        line.pop();
    }
    line
}

/// The ring as a closed line around `origin`: near zero the geometry library keeps its digits.
pub(crate) fn closed_line(ring: &[FramePoint], origin: Coord) -> LineString {
    let mut line: LineString =
        ring.iter().map(|p| Coord { x: p.along_m - origin.x, y: p.across_m - origin.y }).collect();
    line.close();
    line
}
