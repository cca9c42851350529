//! Severity by depth and diameter.

use model::figure::Why;
use model::quantity::{Area, InArea, InLength, Length, metres};
use model::rules::severity::{Band, RatingRules, SeverityRules};
use model::triage::Severity;

use crate::TriageInput;

/// A rating and how it came about.
pub(crate) struct Rated {
    pub severity: Option<Severity>,
    pub why: Why,
}

/// Diameter of the circle of the same area: `d_e = sqrt(4 A / pi)`.
pub fn equivalent_diameter(area: Area) -> Length {
    metres((4.0 * area.in_square_metres() / std::f64::consts::PI).sqrt())
}

/// Looks a hole up in the system's table.
pub(crate) fn rate(input: &TriageInput, rules: &SeverityRules) -> Rated {
    let rating = &rules.rating;
    let depth_m = to_micrometre(input.depth.in_metres());
    let diameter_m = to_micrometre(equivalent_diameter(input.area).in_metres());
    let why = Why::new("severity = table(D, d_e); d_e = sqrt(4 * A / pi)", rating.table.source.clone())
        .with("system", &rules.system)
        .with("D", millimetres(depth_m))
        .with("A", format!("{:.3} m²", input.area.in_square_metres()))
        .with("d_e", millimetres(diameter_m));

    if let Some(reason) = not_rated(depth_m, diameter_m, rating) {
        return Rated { severity: None, why: why.with("not rated", reason) };
    }
    let row = band_of(depth_m, &rating.depth_bands.value);
    let column = band_of(diameter_m, &rating.diameter_bands.value);
    let severity = rating.table.value.get(row).and_then(|row| row.get(column)).copied();
    let mut why = why
        .with("depth band", band_words(row, &rating.depth_bands.value, rating.least_depth_m.value))
        .with("diameter band", band_words(column, &rating.diameter_bands.value, rating.least_diameter_m.value));
    if let Some(each_m2) = rating.diameter_bands.value.get(column).and_then(|band| band.area_per_hole_m2) {
        why = why.with("counts as", format!("{:.1} holes (A / {each_m2} m²)", input.area.in_square_metres() / each_m2));
    }
    Rated { severity, why }
}

/// Why the table does not rate the hole, if it does not.
fn not_rated(depth_m: f64, diameter_m: f64, rating: &RatingRules) -> Option<String> {
    let (least_depth_m, least_diameter_m) = (rating.least_depth_m.value, rating.least_diameter_m.value);
    if depth_m < least_depth_m {
        Some(format!("less than {} deep", millimetres(least_depth_m)))
    } else if diameter_m < least_diameter_m {
        Some(format!("less than {} across", millimetres(least_diameter_m)))
    } else {
        None
    }
}

/// Index of the band a value lies in; the last one where it lies in none.
fn band_of(value: f64, bands: &[Band]) -> usize {
    let ends_before = |band: &Band| match band.up_to_m {
        Some(end) if band.end_included => value > end,
        Some(end) => value >= end,
        None => false,
    };
    bands.iter().position(|band| !ends_before(band)).unwrap_or(bands.len().saturating_sub(1))
}

fn band_words(index: usize, bands: &[Band], least_m: f64) -> String {
    let before = index.checked_sub(1).and_then(|before| bands.get(before));
    let from = match before {
        Some(Band { up_to_m: Some(end), end_included: true, .. }) => format!("more than {}", millimetres(*end)),
        Some(Band { up_to_m: Some(end), .. }) => format!("from {}", millimetres(*end)),
        _ => format!("from {}", millimetres(least_m)),
    };
    match bands.get(index) {
        Some(Band { up_to_m: Some(end), end_included: true, .. }) => {
            format!("{from} to {} inclusive", millimetres(*end))
        }
        Some(Band { up_to_m: Some(end), .. }) => format!("{from} to less than {}", millimetres(*end)),
        _ => from,
    }
}

/// Converting units or taking a root must not carry a value over a band's end; nobody measures a hole to a micrometre.
fn to_micrometre(value_m: f64) -> f64 {
    (value_m * 1e6).round() / 1e6
}

fn millimetres(value_m: f64) -> String {
    format!("{:.0} mm", value_m * 1000.0)
}
