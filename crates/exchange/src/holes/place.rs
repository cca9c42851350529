//! Positions: in range, and not with longitude and latitude swapped.

use model::place::LonLat;
use model::problem::Locator;

use super::columns::HoleField;
use super::row::{Findings, Row};
use crate::limits;
use crate::quantity_text::DecimalMark;

/// The position of a row's longitude and latitude cells.
pub fn from_cells(row: &Row, depot: Option<LonLat>, findings: &mut Findings) -> Option<LonLat> {
    let lon = degrees(row, HoleField::Lon, findings);
    let lat = degrees(row, HoleField::Lat, findings);
    checked(LonLat { lon: lon?, lat: lat? }, &row.at_field(HoleField::Lon), depot, findings)
}

/// The position, if there is such a place and it does not look swapped.
pub fn checked(point: LonLat, at: &Locator, depot: Option<LonLat>, findings: &mut Findings) -> Option<LonLat> {
    let LonLat { lon, lat } = point;
    let swapped = LonLat { lon: lat, lat: lon };
    if !exists(point) {
        let wrong = format!("there is no place at longitude {lon}, latitude {lat}");
        if exists(swapped) {
            let right = format!("they look swapped: longitude {lat}, latitude {lon}?");
            findings.refuse("hole.position.swapped", at, wrong, right);
        } else {
            let right = "longitude is from -180 to 180, latitude from -90 to 90 degrees (WGS 84)";
            findings.refuse("hole.position.out_of_range", at, wrong, right);
        }
        return None;
    }
    let far = limits::of("position", "distance_from_depot").map_or(f64::INFINITY, limits::Limit::greatest);
    if let Some(depot) = depot.filter(|_| exists(swapped)) {
        let (as_written, if_swapped) = (kilometres_between(depot, point), kilometres_between(depot, swapped));
        if as_written > far && if_swapped <= far {
            let wrong = format!("longitude {lon}, latitude {lat} is {as_written:.0} km from the depot");
            let right = format!("they look swapped: longitude {lat}, latitude {lon} is {if_swapped:.0} km from it");
            findings.refuse("hole.position.swapped", at, wrong, right);
            return None;
        }
    }
    Some(point)
}

fn exists(point: LonLat) -> bool {
    let within = |name, value| limits::of("depot", name).is_none_or(|limit| limit.holds(value));
    within("lon", point.lon) && within("lat", point.lat)
}

fn degrees(row: &Row, field: HoleField, findings: &mut Findings) -> Option<f64> {
    let at = row.at_field(field);
    let word = if field == HoleField::Lon { "longitude" } else { "latitude" };
    let right = "write decimal degrees (WGS 84), e.g. -28.41230";
    let Some(cell) = row.cell(field) else {
        findings.refuse("hole.position.missing", &at, format!("there is no {word}"), right);
        return None;
    };
    let text = cell.text.replace('\u{2212}', "-");
    let text = if row.mark == DecimalMark::CommaOrPoint { text.replacen(',', ".", 1) } else { text };
    if text.contains(',') {
        let wrong = format!("{word} `{}` has a comma, which may mean decimals or thousands", cell.text);
        findings.refuse("hole.number.comma", &at, wrong, "write decimals with a point, no thousands mark");
        return None;
    }
    let degrees = text.parse().ok().filter(|number: &f64| number.is_finite());
    if degrees.is_none() {
        let wrong = format!("{word} `{}` is not a finite number", cell.text);
        findings.refuse("hole.position.not_a_number", &at, wrong, right);
    }
    degrees
}

/// Great-circle distance on a sphere of the earth's mean radius: good enough to tell one ocean from another.
fn kilometres_between(a: LonLat, b: LonLat) -> f64 {
    const MEAN_RADIUS_KM: f64 = 6371.0088; // GRS 80, (2a + b) / 3
    let half = |degrees: f64| (degrees.to_radians() / 2.0).sin().powi(2);
    let chord = half(b.lat - a.lat) + a.lat.to_radians().cos() * b.lat.to_radians().cos() * half(b.lon - a.lon);
    2.0 * MEAN_RADIUS_KM * chord.min(1.0).sqrt().asin()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_of_the_equator() {
        // By definition of the sphere: a quarter of 2 pi R.
        let quarter = kilometres_between(LonLat { lon: 0.0, lat: 0.0 }, LonLat { lon: 90.0, lat: 0.0 });
        assert!((quarter - std::f64::consts::FRAC_PI_2 * 6371.0088).abs() < 1e-6);
        let to_pole = kilometres_between(LonLat { lon: 12.0, lat: 0.0 }, LonLat { lon: -77.0, lat: 90.0 });
        assert!((to_pole - quarter).abs() < 1e-6);
    }
}
