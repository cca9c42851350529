//! A box on the globe, which may cross the antimeridian.

use geo::{Intersects, LineString, Rect, coord};
use model::place::LonLat;

use crate::feature::Geometry;

/// A box of longitudes and latitudes, WGS 84 degrees, borders included. Where `west` is greater than `east` it crosses the
/// antimeridian.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LonLatBox {
    /// Western border, degrees.
    pub west: f64,
    /// Southern border, degrees.
    pub south: f64,
    /// Eastern border, degrees.
    pub east: f64,
    /// Northern border, degrees.
    pub north: f64,
}

impl LonLatBox {
    /// The whole globe.
    pub const GLOBE: LonLatBox = LonLatBox { west: -180.0, south: -90.0, east: 180.0, north: 90.0 };

    /// The smallest box around places; of boxes that cross the antimeridian and those that don't, the narrower. `None` without places.
    pub fn around(places: impl IntoIterator<Item = LonLat>) -> Option<LonLatBox> {
        let places: Vec<LonLat> = places.into_iter().filter(|p| p.lon.is_finite() && p.lat.is_finite()).collect();
        let mut lons: Vec<f64> = places.iter().map(|p| p.lon).collect();
        lons.sort_by(f64::total_cmp);
        let (first, last) = (*lons.first()?, *lons.last()?);
        // The widest stretch of the circle without a place is what the box leaves out.
        let mut widest = (first + 360.0 - last, first, last);
        for pair in lons.windows(2) {
            let gap = pair[1] - pair[0];
            if gap > widest.0 {
                widest = (gap, pair[1], pair[0]);
            }
        }
        let south = places.iter().map(|p| p.lat).fold(f64::INFINITY, f64::min);
        let north = places.iter().map(|p| p.lat).fold(f64::NEG_INFINITY, f64::max);
        Some(LonLatBox { west: widest.1, south, east: widest.2, north })
    }

    /// Whether a place is inside or on the border.
    pub fn contains(&self, place: LonLat) -> bool {
        let across = if self.west > self.east {
            place.lon >= self.west || place.lon <= self.east
        } else {
            (self.west..=self.east).contains(&place.lon)
        };
        // The two names of the antimeridian are one line.
        let seam = place.lon.abs() == 180.0 && (self.west == -180.0 || self.east == 180.0);
        (across || seam) && (self.south..=self.north).contains(&place.lat)
    }

    /// Whether any part of a geometry is inside or on the border.
    pub fn touches(&self, geometry: &Geometry) -> bool {
        match geometry {
            Geometry::Point(place) => self.contains(*place),
            Geometry::Line(places) => {
                places.iter().any(|place| self.contains(*place))
                    || (!self.is_beside(places) && self.is_crossed_by(places))
            }
        }
    }

    /// Whether a line lies wholly to one side of it, as most lines do.
    fn is_beside(&self, places: &[LonLat]) -> bool {
        let all = |test: &dyn Fn(&LonLat) -> bool| places.iter().all(test);
        let on_one_sheet =
            self.west <= self.east && places.windows(2).all(|pair| (pair[1].lon - pair[0].lon).abs() <= 180.0);
        all(&|place| place.lat < self.south)
            || all(&|place| place.lat > self.north)
            || (on_one_sheet && (all(&|place| place.lon < self.west) || all(&|place| place.lon > self.east)))
    }

    /// Whether a leg of a line, none of whose points is inside, passes through.
    fn is_crossed_by(&self, places: &[LonLat]) -> bool {
        let parts: Vec<Rect> = self.parts().iter().map(LonLatBox::rect).collect();
        places.windows(2).any(|pair| {
            let legs = legs(pair[0], pair[1]);
            parts.iter().any(|part| legs.iter().any(|leg| part.intersects(leg)))
        })
    }

    /// The middle of its borders.
    pub fn middle(&self) -> LonLat {
        let width = (self.east - self.west).rem_euclid(360.0);
        let width = if self.west == -180.0 && self.east == 180.0 { 360.0 } else { width };
        let lon = (self.west + width / 2.0 + 180.0).rem_euclid(360.0) - 180.0;
        LonLat { lon, lat: f64::midpoint(self.south, self.north) }
    }

    /// As boxes that do not cross the antimeridian, one or two: what a store can ask for by comparing numbers.
    pub fn parts(&self) -> Vec<LonLatBox> {
        if self.west > self.east {
            vec![LonLatBox { east: 180.0, ..*self }, LonLatBox { west: -180.0, ..*self }]
        } else {
            vec![*self]
        }
    }

    fn rect(&self) -> Rect {
        Rect::new(coord! {x: self.west, y: self.south}, coord! {x: self.east, y: self.north})
    }
}

/// A leg of a line in the plane of degrees; one that goes the short way over the antimeridian lies at both ends of the plane.
fn legs(from: LonLat, to: LonLat) -> Vec<LineString> {
    let line = |a: f64, b: f64| LineString::from(vec![(a, from.lat), (b, to.lat)]);
    if (to.lon - from.lon).abs() <= 180.0 {
        return vec![line(from.lon, to.lon)];
    }
    let (east, west) =
        if from.lon > 0.0 { (to.lon + 360.0, from.lon - 360.0) } else { (to.lon - 360.0, from.lon + 360.0) };
    vec![line(from.lon, east), line(west, to.lon)]
}
