//! Small parts of `GeoJSON` (RFC 7946, WGS 84) that its files share.

use model::place::LonLat;
use serde_json::{Value, json};

/// Digits of degrees: eight are a millimetre.
pub const DIGITS: i32 = 8;

/// Longitude before latitude.
pub fn coordinates(place: LonLat) -> Value {
    json!([rounded(place.lon, DIGITS), rounded(place.lat, DIGITS)])
}

/// A point.
pub fn point(place: LonLat) -> Value {
    json!({"type": "Point", "coordinates": coordinates(place)})
}

/// A line; nothing (an unlocated feature) of fewer than two points.
pub fn line(places: &[LonLat]) -> Value {
    if places.len() < 2 {
        return Value::Null;
    }
    json!({"type": "LineString", "coordinates": places.iter().copied().map(coordinates).collect::<Vec<_>>()})
}

/// Rounded to so many digits behind the point.
pub fn rounded(value: f64, digits: i32) -> f64 {
    let scale = 10_f64.powi(digits);
    (value * scale).round() / scale
}
