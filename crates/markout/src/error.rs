//! What can't be marked out, and why.

use model::hole::HoleId;
use model::rules::markout::MarkOutRules;
use thiserror::Error;

use crate::{Pavement, WheelPath};

/// Why nothing could be marked out.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum MarkOutError {
    /// A coordinate is no finite number, or too large to be a place on a road.
    #[error("hole {}: outline point {point} is not a place on a road ({along_m}, {across_m}); finite metres are needed", hole.0)]
    NotAPlace {
        /// Which hole.
        hole: HoleId,
        /// Which point, from 1.
        point: usize,
        /// Its coordinate along.
        along_m: f64,
        /// Its coordinate across.
        across_m: f64,
    },
    /// Fewer than three different points, or all on one line.
    #[error("hole {}: the outline encloses no area; at least three points that are not on one line are needed", hole.0)]
    NoArea {
        /// Which hole.
        hole: HoleId,
    },
    /// The hole lies beside the pavement.
    #[error(
        "hole {}: the outline lies from {across_min_m:.3} to {across_max_m:.3} m across, outside the pavement from {pavement_min_m:.3} to {pavement_max_m:.3} m", hole.0
    )]
    OutsidePavement {
        /// Which hole.
        hole: HoleId,
        /// Its left end.
        across_min_m: f64,
        /// Its right end.
        across_max_m: f64,
        /// Left edge of the pavement.
        pavement_min_m: f64,
        /// Right edge of the pavement.
        pavement_max_m: f64,
    },
    /// The pavement has no width or length.
    #[error("the pavement is given as {0:?}; finite metres, least before greatest, are needed")]
    BadPavement(Pavement),
    /// A cut can't have that many corners.
    #[error("rule most_corners is {0}; 4, 6 or 8 is possible")]
    BadCorners(u32),
    /// A wheel path without width.
    #[error("a wheel path is given as {0:?}; finite metres, least before greatest, are needed")]
    BadWheelPath(WheelPath),
    /// A rule's value can't be used.
    #[error("rule {name} is {value}; a finite number, zero or more, is needed")]
    BadRule {
        /// The field's name.
        name: &'static str,
        /// Its value.
        value: f64,
    },
}

/// Refuses a pavement or a wheel path without width or length.
pub(crate) fn check_pavement(pavement: &Pavement) -> Result<(), MarkOutError> {
    let &Pavement { across_min_m, across_max_m, along_min_m, along_max_m, .. } = pavement;
    let finite = [across_min_m, across_max_m, along_min_m, along_max_m].iter().all(|v| v.is_finite());
    if !(finite && across_min_m < across_max_m && along_min_m < along_max_m) {
        return Err(MarkOutError::BadPavement(pavement.clone()));
    }
    let is_strip = |path: &WheelPath| {
        path.across_min_m.is_finite() && path.across_max_m.is_finite() && path.across_min_m < path.across_max_m
    };
    match pavement.wheel_paths.iter().find(|path| !is_strip(path)) {
        Some(path) => Err(MarkOutError::BadWheelPath(*path)),
        None => Ok(()),
    }
}

/// Refuses values that are negative or no numbers.
pub(crate) fn check_rules(rules: &MarkOutRules) -> Result<(), MarkOutError> {
    let values = [
        ("margin_m", rules.margin_m.value),
        ("far_limit_m", rules.far_limit_m.value),
        ("merge_gap_m", rules.merge_gap_m.value),
        ("edge_gap_m", rules.edge_gap_m.value),
        ("smallest_side_m", rules.smallest_side_m.value),
        ("square_tolerance", rules.square_tolerance.value),
        ("corner_price_m2", rules.corner_price_m2.value),
        ("edge_price_m2_per_m", rules.edge_price_m2_per_m.value),
        ("smallest_notch_m", rules.smallest_notch_m.value),
        ("wheel_path.greatest_shift_m", rules.wheel_path.greatest_shift_m.value),
    ];
    if !matches!(rules.most_corners.value, 4 | 6 | 8) {
        return Err(MarkOutError::BadCorners(rules.most_corners.value));
    }
    match values.into_iter().find(|(_, value)| !(value.is_finite() && *value >= 0.0)) {
        Some((name, value)) => Err(MarkOutError::BadRule { name, value }),
        None => Ok(()),
    }
}
