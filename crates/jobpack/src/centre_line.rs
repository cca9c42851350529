//! Places along a section's centre line, for the files and drawings that put chainages on the globe.

use geo::{Bearing, Distance, Geodesic, InterpolatePoint, Point};
use model::place::{FramePoint, LonLat, Side};
use model::quantity::Length;
use model::road::RoadSection;

use crate::flat;

/// Chainages nearer than this to an end of the section are at that end, metres: a millimetre is nobody's business.
const AT_AN_END_M: f64 = 1e-3;

/// The line of one section with the chainage of each of its points.
#[derive(Debug, Clone)]
pub struct CentreLine {
    points: Vec<Point>,
    chainages: Vec<f64>,
}

impl CentreLine {
    /// Of a section's line, along the ellipsoid. Points that are no places, and those said twice in a row, are passed over.
    pub fn of(section: &RoadSection) -> Self {
        let mut points: Vec<Point> = Vec::new();
        let mut chainages: Vec<f64> = Vec::new();
        for place in section.line.iter().filter(|p| p.lon.is_finite() && p.lat.is_finite()) {
            let point = Point::new(place.lon, place.lat);
            let step = points.last().map_or(0.0, |before| Geodesic.distance(*before, point));
            if points.is_empty() || step > 0.0 {
                points.push(point);
                chainages.push(chainages.last().copied().unwrap_or(0.0) + step);
            }
        }
        CentreLine { points, chainages }
    }

    /// Length of the line, metres.
    pub fn length_m(&self) -> f64 {
        self.chainages.last().copied().unwrap_or(0.0)
    }

    /// The place at a chainage, `across` beside it (positive to the right); `None` where the chainage is not on the line.
    pub fn at(&self, chainage: Length, across: Length) -> Option<LonLat> {
        let chainage = chainage.value;
        let on_line = (-AT_AN_END_M..=self.length_m() + AT_AN_END_M).contains(&chainage);
        if !on_line || self.points.len() < 2 || !across.value.is_finite() {
            return None;
        }
        let segment = self.segment(chainage);
        let (from, to) = (self.points[segment], self.points[segment + 1]);
        let place = self.place(chainage);
        let aside = FramePoint { along_m: 0.0, across_m: across.value };
        let azimuth = Geodesic.bearing(from, to);
        Some(flat::frame_to_globe(place, FramePoint { along_m: 0.0, across_m: 0.0 }, azimuth, aside))
    }

    /// On which side of the line a place is, seen from a chainage; beyond an end the line is taken to go on straight. `None`
    /// without a line.
    pub fn side(&self, chainage: Length, place: LonLat) -> Option<Side> {
        if self.points.len() < 2 || !chainage.value.is_finite() {
            return None;
        }
        let segment = self.segment(chainage.value);
        let azimuth = Geodesic.bearing(self.points[segment], self.points[segment + 1]).to_radians();
        let (east, north) = flat::to_flat(self.place(chainage.value), place);
        let right = east * azimuth.cos() - north * azimuth.sin();
        Some(if right >= 0.0 { Side::Right } else { Side::Left })
    }

    /// The places from the smaller to the larger of two chainages, each taken to the nearer end where it is not on the
    /// line. Two equal chainages give the same place twice, so that it stays a line.
    pub fn stretch(&self, a: Length, b: Length) -> Vec<LonLat> {
        if self.points.len() < 2 || !(a.value.is_finite() && b.value.is_finite()) {
            return Vec::new();
        }
        let (from, to) = (a.value.min(b.value), a.value.max(b.value));
        let mut places = vec![self.place(from)];
        let between = self.points.iter().zip(&self.chainages).filter(|(_, c)| **c > from && **c < to);
        places.extend(between.map(|(p, _)| lon_lat(*p)));
        places.push(self.place(to));
        places
    }

    /// Azimuth from the start of the line to its end, as the crow flies; of its first segment where it comes back to where
    /// it began.
    pub fn azimuth_deg(&self) -> Option<f64> {
        let (first, last) = (*self.points.first()?, *self.points.last()?);
        let second = *self.points.get(1)?;
        let closed = Geodesic.distance(first, last) < self.length_m() * 0.1;
        Some(Geodesic.bearing(first, if closed { second } else { last }))
    }

    /// The segment that holds a chainage; needs two points.
    fn segment(&self, chainage: f64) -> usize {
        self.chainages.partition_point(|c| *c <= chainage).clamp(1, self.points.len() - 1) - 1
    }

    fn place(&self, chainage: f64) -> LonLat {
        let segment = self.segment(chainage);
        let (start, end) = (self.chainages[segment], self.chainages[segment + 1]);
        let (from, to) = (self.points[segment], self.points[segment + 1]);
        let along = chainage.clamp(start, end) - start;
        lon_lat(Geodesic.point_at_distance_between(from, to, along))
    }
}

fn lon_lat(point: Point) -> LonLat {
    LonLat { lon: point.x(), lat: point.y() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::quantity::metres;

    /// By hand: a line of about 1.1 km due north on the equator, and on due east; a place east of its first half is on the
    /// right, west of it on the left; north of its second half is left.
    #[test]
    fn sides_are_seen_along_growing_chainage() {
        let points = [(0.0, 0.0), (0.0, 0.01), (0.01, 0.01)].map(|(lon, lat)| Point::new(lon, lat)).to_vec();
        let line = CentreLine { points, chainages: vec![0.0, 1105.7, 2218.9] };
        for (chainage, lon, lat, side) in [
            (500.0, 0.001, 0.0045, Some(Side::Right)),
            (500.0, -0.001, 0.0045, Some(Side::Left)),
            (-300.0, 0.001, -0.003, Some(Side::Right)),
            (-300.0, -0.001, -0.003, Some(Side::Left)),
            (1500.0, 0.0035, 0.011, Some(Side::Left)),
            (1500.0, 0.0035, 0.009, Some(Side::Right)),
            (9000.0, 0.05, 0.011, Some(Side::Left)),
            (f64::NAN, 0.05, 0.011, None),
        ] {
            assert_eq!(line.side(metres(chainage), LonLat { lon, lat }), side, "{chainage} {lon} {lat}");
        }
    }
}
