//! Flat metres around a point on the globe, good for drawings and for the few metres of a cut.

use model::place::{FramePoint, LonLat};

/// Metres for one degree of latitude and of longitude at a latitude: series for the WGS 84 ellipsoid
/// (from memory: National Geospatial-Intelligence Agency, length of a degree).
pub fn metres_per_degree(lat: f64) -> (f64, f64) {
    let phi = lat.to_radians();
    let north = 111_132.92 - 559.82 * (2.0 * phi).cos() + 1.175 * (4.0 * phi).cos();
    let east = 111_412.84 * phi.cos() - 93.5 * (3.0 * phi).cos() + 0.118 * (5.0 * phi).cos();
    (north, east)
}

/// Metres east and north of an origin.
pub fn to_flat(origin: LonLat, place: LonLat) -> (f64, f64) {
    let (north, east) = metres_per_degree(origin.lat);
    ((place.lon - origin.lon) * east, (place.lat - origin.lat) * north)
}

/// A point of the road frame on the globe, given one point of that frame (`frame_centre`) that lies at `centre`, and the
/// azimuth of increasing chainage there.
pub fn frame_to_globe(centre: LonLat, frame_centre: FramePoint, azimuth_deg: f64, point: FramePoint) -> LonLat {
    let (along, across) = (point.along_m - frame_centre.along_m, point.across_m - frame_centre.across_m);
    let (sin, cos) = azimuth_deg.to_radians().sin_cos();
    // Along looks to the azimuth, across looks a quarter turn clockwise from it.
    let east = along * sin + across * cos;
    let north = along * cos - across * sin;
    let (per_north, per_east) = metres_per_degree(centre.lat);
    LonLat { lon: centre.lon + east / per_east, lat: centre.lat + north / per_north }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_degree_at_45_north() {
        // From memory: a degree at 45 N is 111 132 m north and 78 847 m east on WGS 84.
        let (north, east) = metres_per_degree(45.0);
        assert!((north - 111_132.0).abs() < 2.0, "{north}");
        assert!((east - 78_847.0).abs() < 2.0, "{east}");
    }

    #[test]
    fn across_is_right_of_along() {
        let centre = LonLat { lon: -28.4, lat: 47.3 };
        let here = FramePoint { along_m: 100.0, across_m: 1.0 };
        let right = FramePoint { along_m: 100.0, across_m: 2.0 };
        // Heading north, right is east.
        let place = frame_to_globe(centre, here, 0.0, right);
        assert!(place.lon > centre.lon && (place.lat - centre.lat).abs() < 1e-12);
        // Heading east, right is south.
        let place = frame_to_globe(centre, here, 90.0, right);
        assert!(place.lat < centre.lat);
    }
}
