//! Distances between places that are near each other.

use model::record::happened::Position;

/// Radius of a sphere with the earth's mean radius, m: GRS 80, (2a + b) / 3.
const EARTH_RADIUS_M: f64 = 6_371_008.8;

/// Metres of a degree along a meridian.
pub const METRES_PER_DEGREE: f64 = EARTH_RADIUS_M * std::f64::consts::PI / 180.0;

/// Metres between two places, as on a plane at their mean latitude: of places some hundred metres apart within a centimetre of the
/// sphere's, and within half a per cent of the ellipsoid's.
pub fn metres_between(a: Position, b: Position) -> f64 {
    let shrink = f64::midpoint(a.lat, b.lat).to_radians().cos();
    let mut east = (a.lon - b.lon).abs();
    if east > 180.0 {
        east = 360.0 - east;
    }
    (east * shrink).hypot(a.lat - b.lat) * METRES_PER_DEGREE
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the great circle on the same sphere.
    #[test]
    fn near_places_are_as_far_apart_as_on_the_sphere() {
        let half = |degrees: f64| (degrees.to_radians() / 2.0).sin().powi(2);
        for (lat, east, north) in
            [(0.0, 0.001, 0.001), (47.3, 0.002, -0.001), (-47.3, 0.0, 0.002), (70.0, 0.004, 0.001)]
        {
            let (a, b) = (Position { lon: 179.999, lat }, Position { lon: 179.999 + east - 360.0, lat: lat + north });
            let chord = half(north) + a.lat.to_radians().cos() * b.lat.to_radians().cos() * half(east);
            let sphere = 2.0 * EARTH_RADIUS_M * chord.sqrt().asin();
            assert!((metres_between(a, b) - sphere).abs() < 0.01, "{lat} {east} {north}");
        }
    }
}
