//! Severity by depth and diameter.

use geo::{ConvexHull, Coord, MultiPoint, Point};
use model::figure::{Figure, Why};
use model::place::FramePoint;
use model::quantity::{Area, InArea, InLength, Length, metres};
use model::rules::severity::{Band, RatingRules, SeverityRules};
use model::triage::Severity;

use crate::TriageInput;

/// A rating and how it came about.
pub(crate) struct Rated {
    pub severity: Option<Severity>,
    pub why: Why,
    /// As how many holes it counts; none where it is not rated.
    pub counts_as: Option<Figure<f64>>,
    /// Why it is not rated, if it is not.
    pub too_small: Option<String>,
}

/// Diameter of the circle of the same area: `d_e = sqrt(4 A / pi)`.
pub fn equivalent_diameter(area: Area) -> Length {
    metres((4.0 * area.in_square_metres() / std::f64::consts::PI).sqrt())
}

/// The least width of an outline, in whatever direction: what a straight gauge laid on the hole could still pass through.
/// One side of it lies along an edge of the convex hull. Zero for fewer than three points.
pub fn least_plan_dimension(ring: &[FramePoint]) -> Length {
    let points: MultiPoint = ring.iter().map(|point| Point::new(point.along_m, point.across_m)).collect();
    let hull = points.convex_hull();
    let corners: Vec<Coord> = hull.exterior().coords().copied().collect();
    let width = |edge: &[Coord]| {
        let (dx, dy) = (edge[1].x - edge[0].x, edge[1].y - edge[0].y);
        let long = dx.hypot(dy);
        let from_edge = |corner: &Coord| (dx * (corner.y - edge[0].y) - dy * (corner.x - edge[0].x)).abs() / long;
        if long > 0.0 { corners.iter().map(from_edge).fold(0.0, f64::max) } else { f64::INFINITY }
    };
    let least = corners.windows(2).map(width).fold(f64::INFINITY, f64::min);
    metres(if least.is_finite() { least } else { 0.0 })
}

/// Looks a hole up in the system's table.
pub(crate) fn rate(input: &TriageInput, rules: &SeverityRules) -> Rated {
    let rating = &rules.rating;
    let depth_m = to_micrometre(input.depth.in_metres());
    let diameter_m = to_micrometre(equivalent_diameter(input.area).in_metres());
    let narrowest_m = to_micrometre(input.least_plan_dimension.in_metres());
    let why = Why::new("severity = table(D, d_e); d_e = sqrt(4 * A / pi)", rating.table.source.clone())
        .with("system", &rules.system)
        .with("D", millimetres(depth_m))
        .with("A", format!("{:.3} m²", input.area.in_square_metres()))
        .with("d_e", millimetres(diameter_m))
        .with("least width", millimetres(narrowest_m));

    if let Some(reason) = not_rated(depth_m, diameter_m, narrowest_m, rating) {
        return Rated { severity: None, why: why.with("not rated", &reason), counts_as: None, too_small: Some(reason) };
    }
    let row = band_of(depth_m, &rating.depth_bands.value);
    let column = band_of(diameter_m, &rating.diameter_bands.value);
    let severity = rating.table.value.get(row).and_then(|row| row.get(column)).copied();
    let counts_as = counts_as(input.area, rating.diameter_bands.value.get(column), rating);
    let mut why = why
        .with("depth band", band_words(row, &rating.depth_bands.value, rating.least_depth_m.value))
        .with("diameter band", band_words(column, &rating.diameter_bands.value, rating.least_diameter_m.value));
    if counts_as.value > 1.0 {
        why = why.with("counts as", format!("{:.1} holes", counts_as.value));
    }
    Rated { severity, why, counts_as: Some(counts_as), too_small: None }
}

/// A large hole counts as several in the system's tally; never as less than one.
fn counts_as(area: Area, band: Option<&Band>, rating: &RatingRules) -> Figure<f64> {
    match band.and_then(|band| band.area_per_hole_m2) {
        Some(each_m2) => {
            let why = Why::new("n = max(1, A / A_1)", rating.diameter_bands.source.clone())
                .with("A", format!("{:.3} m²", area.in_square_metres()))
                .with("A_1", format!("{each_m2} m²"));
            Figure::exact((area.in_square_metres() / each_m2).max(1.0), why)
        }
        None => Figure::exact(1.0, Why::new("n = 1", rating.diameter_bands.source.clone())),
    }
}

/// Why the table does not rate the hole, if it does not.
fn not_rated(depth_m: f64, diameter_m: f64, narrowest_m: f64, rating: &RatingRules) -> Option<String> {
    let (least_depth_m, least_diameter_m) = (rating.least_depth_m.value, rating.least_diameter_m.value);
    let least_plan_m = rating.least_plan_dimension_m.value;
    if depth_m < least_depth_m {
        Some(format!("less than {} deep", millimetres(least_depth_m)))
    } else if diameter_m < least_diameter_m {
        Some(format!("less than {} across", millimetres(least_diameter_m)))
    } else if narrowest_m < least_plan_m {
        Some(format!("narrower than {}", millimetres(least_plan_m)))
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
