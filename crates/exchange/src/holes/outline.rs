//! Outlines: `POLYGON ((lon lat, lon lat, ...))` (OGC well-known text) or `lon lat; lon lat; ...`.

use model::place::LonLat;
use model::problem::Locator;

use super::place;
use super::row::{Cell, Findings};
use crate::limits;

const RIGHT: &str = "write POLYGON ((lon lat, lon lat, lon lat)) or lon lat; lon lat; lon lat";

/// The points of an outline cell, not yet checked.
pub fn read(cell: &Cell, findings: &mut Findings) -> Option<Vec<LonLat>> {
    let ring = if cell.text.trim_start().to_lowercase().starts_with("polygon") {
        well_known_text(cell, findings)
    } else {
        points(&cell.text, ';')
    };
    if ring.is_none() {
        let shown: String = cell.text.chars().take(60).collect();
        findings.refuse("hole.outline.unreadable", &cell.at, format!("outline `{shown}` can't be read"), RIGHT);
    }
    ring
}

/// An open ring that encloses something the size of a hole, and its centre.
pub fn checked(
    mut ring: Vec<LonLat>,
    at: &Locator,
    depot: Option<LonLat>,
    findings: &mut Findings,
) -> Option<(Vec<LonLat>, LonLat)> {
    ring.dedup();
    while ring.len() > 1 && ring.first() == ring.last() {
        ring.pop();
    }
    for point in &ring {
        place::checked(*point, at, depot, findings)?;
    }
    if ring.len() < 3 {
        findings.refuse(
            "hole.outline.too_few_points",
            at,
            format!("the outline has {} points", ring.len()),
            "at least three",
        );
        return None;
    }
    let (east, north) = extent_metres(&ring);
    let limit = limits::of("hole", "length")?;
    if east.max(north) > limit.greatest() {
        let wrong = format!("the outline is {east:.0} m by {north:.0} m, which is absurd");
        findings.refuse("hole.outline.absurd", at, wrong, format!("{} ({})", limit.words(), limit.source));
        return None;
    }
    let Some(centre) = centre(&ring).filter(|_| limit.holds(east.max(north))) else {
        findings.refuse("hole.outline.flat", at, "the outline encloses nothing", "points around the hole, in order");
        return None;
    };
    Some((ring, centre))
}

fn well_known_text(cell: &Cell, findings: &mut Findings) -> Option<Vec<LonLat>> {
    let text = cell.text.trim();
    let inner = text.get(text.find('(')? + 1..)?.trim_end().strip_suffix(')')?.trim();
    let rings: Vec<&str> = inner.strip_prefix('(')?.strip_suffix(')')?.split(')').collect();
    if rings.len() > 1 {
        let right = "leave the inner rings out; the whole outline is cut";
        findings.warn("hole.outline.inner_rings", &cell.at, "inner rings of the outline are not used", right);
    }
    points(rings.first()?, ',')
}

fn points(text: &str, separator: char) -> Option<Vec<LonLat>> {
    text.split(separator).filter(|point| !point.trim().is_empty()).map(point).collect()
}

/// `lon lat`, further numbers (height) not used.
fn point(text: &str) -> Option<LonLat> {
    let mut numbers = text.split_whitespace().map(|number| number.parse().ok().filter(|n: &f64| n.is_finite()));
    let point = LonLat { lon: numbers.next()??, lat: numbers.next()?? };
    numbers.all(|number| number.is_some()).then_some(point)
}

/// East-west and north-south extent on the sphere; good enough for a thing of a few metres.
fn extent_metres(ring: &[LonLat]) -> (f64, f64) {
    const METRES_PER_DEGREE: f64 = 111_195.0; // mean radius 6371.0088 km
    let span = |value: fn(&LonLat) -> f64| {
        let (low, high) = ring.iter().map(value).fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(v), high.max(v)));
        high - low
    };
    let narrowing = ring[0].lat.to_radians().cos();
    (span(|p| p.lon) * narrowing * METRES_PER_DEGREE, span(|p| p.lat) * METRES_PER_DEGREE)
}

/// Centre of the enclosed area; `None` when nothing is enclosed.
fn centre(ring: &[LonLat]) -> Option<LonLat> {
    let origin = ring[0];
    let (mut twice_area, mut lon, mut lat) = (0.0, 0.0, 0.0);
    for (index, point) in ring.iter().enumerate() {
        let next = ring[(index + 1) % ring.len()];
        let (ax, ay) = (point.lon - origin.lon, point.lat - origin.lat);
        let (bx, by) = (next.lon - origin.lon, next.lat - origin.lat);
        let cross = ax * by - bx * ay;
        twice_area += cross;
        lon += (ax + bx) * cross;
        lat += (ay + by) * cross;
    }
    // A square millimetre in square degrees: less than any outline of a hole.
    let encloses = twice_area.abs() > 1e-16;
    encloses.then(|| LonLat { lon: origin.lon + lon / (3.0 * twice_area), lat: origin.lat + lat / (3.0 * twice_area) })
}
