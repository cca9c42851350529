//! Lengths and directions on the WGS 84 ellipsoid.
//!
//! Source of the method: published: C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87 (2013) 43-55, by way of
//! the `geographiclib-rs` library.

use std::sync::LazyLock;

use geographiclib_rs::{DirectGeodesic, Geodesic, InverseGeodesic};
use model::place::LonLat;
use model::quantity::{Length, metres};

static WGS84: LazyLock<Geodesic> = LazyLock::new(Geodesic::wgs84);

/// Length of the shortest line between two places on the ellipsoid.
pub fn distance(from: LonLat, to: LonLat) -> Length {
    metres(inverse(from, to).metres)
}

/// How to get from one place to another.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Inverse {
    pub metres: f64,
    /// Azimuth at the start, degrees clockwise from north.
    pub azimuth_from: f64,
}

pub(crate) fn inverse(from: LonLat, to: LonLat) -> Inverse {
    let (metres, azimuth_from, _, _): (f64, f64, f64, f64) = WGS84.inverse(from.lat, from.lon, to.lat, to.lon);
    Inverse { metres, azimuth_from }
}

/// The place at a distance in a direction, and the azimuth of the line there. A negative distance goes backwards.
pub(crate) fn direct(from: LonLat, azimuth: f64, metres: f64) -> (LonLat, f64) {
    let (lat, lon, azimuth): (f64, f64, f64) = WGS84.direct(from.lat, from.lon, azimuth, metres);
    (LonLat { lon, lat }, azimuth)
}

/// Brings an azimuth into [0, 360).
pub(crate) fn normal_azimuth(degrees: f64) -> f64 {
    let turned = degrees.rem_euclid(360.0);
    // `rem_euclid` of a tiny negative number rounds up to the modulus itself.
    if turned >= 360.0 { 0.0 } else { turned }
}

/// The turn from one azimuth to another, degrees in (-180, 180], positive to the right.
pub(crate) fn turn(from: f64, to: f64) -> f64 {
    let difference = (to - from).rem_euclid(360.0);
    if difference > 180.0 { difference - 360.0 } else { difference }
}

/// Cartesian geocentric coordinates of a place on the ellipsoid, metres. They have no seam at the antimeridian and no
/// distortion, so nearness can be searched in them.
pub(crate) fn geocentric(place: LonLat) -> [f64; 3] {
    let (a, f) = (WGS84.equatorial_radius(), WGS84.flattening());
    let (sin_lat, cos_lat) = place.lat.to_radians().sin_cos();
    let (sin_lon, cos_lon) = place.lon.to_radians().sin_cos();
    let eccentricity2 = f * (2.0 - f);
    let normal = a / (1.0 - eccentricity2 * sin_lat * sin_lat).sqrt();
    [normal * cos_lat * cos_lon, normal * cos_lat * sin_lon, normal * (1.0 - eccentricity2) * sin_lat]
}

/// Whether a place is finite and on the globe.
pub(crate) fn is_on_globe(place: LonLat) -> bool {
    // Written so that NaN fails.
    place.lat.abs() <= 90.0 && place.lon.abs() <= 180.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// published: the self-test table of the `GeographicLib` Python package 2 (`geographiclib/test/test_geodesic.py`,
    /// `testcases`): latitude and longitude of the start, azimuth there, latitude and longitude of the end, metres.
    const TEST_VALUES: &[(f64, f64, f64, f64, f64, f64)] = &[
        (-66.99028, 112.2363, 173.73491240878403, -12.70631, 285.90344, 11150344.231208025),
        (-17.42761, 173.34268, -159.03355766119293, -15.84784, 5.93557, 16076603.163118068),
        (32.84994, 48.28919, 150.492927788122, -56.28556, 202.29132, 16727068.943816446),
        (6.96833, 52.74123, 92.58158538631771, -7.39675, 206.17291, 17102477.249695837),
        (-50.56724, -16.30485, -105.43967990759016, -33.56571, -94.97412, 6455670.511866869),
        (-58.93002, -8.90775, 140.96539790250068, -8.91104, 133.13503, 11756066.021986462),
        (-68.82867, -74.28391, 93.77434776311487, -50.63005, -8.36685, 3956936.926063544),
        (-10.62672, -32.0898, -86.42671328674776, 5.883, -134.31681, 11470869.386456301),
        (-21.76221, 166.90563, 29.31942120693643, 48.72884, 213.97627, 9098627.398655491),
        (-19.79938, -174.47484, 71.16727578017154, -11.99349, -154.35109, 2319004.860116939),
        (-11.95887, -116.94513, 92.71261983045255, 4.57352, 7.16501, 13834722.580140138),
        (-87.85331, 85.66836, -65.12031304024275, 66.48646, 16.09921, 17286615.314714465),
        (1.74708, 128.32011, -101.58484363117385, -11.16617, 11.87109, 12942901.124134742),
        (-25.72959, -144.90758, -153.6474686931172, -57.70581, -269.17879, 9413446.745245311),
        (-41.22777, 122.32875, 14.285113402275739, -7.57291, 130.37946, 3812686.035106021),
        (11.01307, 138.25278, 79.43682622782374, 6.62726, 247.05981, 11911190.819018409),
        (-29.47124, 95.14681, -163.77913044168838, -27.46601, -69.15955, 13487015.838114548),
    ];

    #[test]
    fn geodesics_reach_the_published_test_values() {
        for &(lat1, lon1, azimuth, lat2, lon2, length) in TEST_VALUES {
            let (from, to) = (LonLat { lon: lon1, lat: lat1 }, LonLat { lon: lon2, lat: lat2 });
            let found = inverse(from, to);
            assert!((found.metres - length).abs() < 1e-7, "{length}: {}", found.metres);
            assert!(turn(found.azimuth_from, azimuth).abs() < 1e-9, "{azimuth}: {}", found.azimuth_from);
            let (end, _) = direct(from, azimuth, length);
            assert!((end.lat - lat2).abs() < 1e-12 && turn(end.lon, lon2).abs() < 1e-12, "{end:?}");
        }
    }

    #[derive(serde::Deserialize)]
    struct Row {
        from: [f64; 2],
        azimuth_deg: f64,
        to: [f64; 2],
        length_m: f64,
    }

    #[test]
    fn geodesics_reach_the_worked_examples_of_the_handbook() {
        for row in testkit::worked_examples::<Row>("place", "geodesic") {
            let [from, to] = [row.from, row.to].map(|[lat, lon]| LonLat { lon, lat });
            let found = inverse(from, to);
            assert!((found.metres - row.length_m).abs() < 1e-7, "{}", found.metres);
            assert!(turn(found.azimuth_from, row.azimuth_deg).abs() < 1e-9, "{}", found.azimuth_from);
        }
    }

    #[test]
    fn geocentric_coordinates_have_the_ellipsoids_axes() {
        // WGS 84 by definition: a = 6378137 m, 1/f = 298.257223563, hence b = 6356752.3142 m.
        assert!((geocentric(LonLat { lon: 0.0, lat: 0.0 })[0] - 6378137.0).abs() < 1e-6);
        assert!((geocentric(LonLat { lon: 0.0, lat: 90.0 })[2] - 6356752.3142).abs() < 1e-4);
    }

    #[test]
    fn turns_are_signed_to_the_right() {
        for (from, to, expected) in
            [(350.0, 10.0, 20.0), (10.0, 350.0, -20.0), (0.0, 180.0, 180.0), (-90.0, 270.0, 0.0)]
        {
            assert_eq!(turn(from, to), expected);
        }
        assert_eq!(normal_azimuth(-1e-20), 0.0);
    }
}
