//! Cones along a part of the zone.

use model::figure::{Figure, Why};
use model::rules::traffic::TrafficRules;

use crate::text::{FORGIVEN, ft, mph};

/// Guard against absurd input: no part of a zone gets more gaps between cones than this.
const GAPS_MAX: f64 = 10_000.0;

/// Cones on a length at a greatest spacing, both ends included: n = ceil(L / s) + 1. A spacing or length that is not a
/// number above zero gives the one cone at the start.
pub fn cone_count(length_ft: f64, spacing_ft: f64) -> u32 {
    gaps(length_ft, spacing_ft) + 1
}

/// Gaps between cones: ceil(L / s).
pub fn gaps(length_ft: f64, spacing_ft: f64) -> u32 {
    let usable = length_ft.is_finite() && spacing_ft.is_finite() && length_ft > 0.0 && spacing_ft > 0.0;
    if usable { (length_ft / spacing_ft - FORGIVEN).ceil().clamp(1.0, GAPS_MAX) as u32 } else { 0 }
}

/// Greatest spacing in a merging, shifting or shoulder taper.
pub fn in_taper(speed_mph: f64, rules: &TrafficRules) -> Figure<f64> {
    let rule = &rules.spacing.taper_ft_per_mph;
    let why =
        Why::new("s = f S, f in ft for each mph", rule.source.clone()).with("f", rule.value).with("S", mph(speed_mph));
    Figure::exact(rule.value * speed_mph, why)
}

/// Greatest spacing along buffer and work space.
pub fn in_tangent(speed_mph: f64, rules: &TrafficRules) -> Figure<f64> {
    let rule = &rules.spacing.tangent_ft_per_mph;
    let why =
        Why::new("s = f S, f in ft for each mph", rule.source.clone()).with("f", rule.value).with("S", mph(speed_mph));
    Figure::exact(rule.value * speed_mph, why)
}

/// Spacing in one-lane two-way and downstream tapers.
pub fn in_short_taper(rules: &TrafficRules) -> Figure<f64> {
    let rule = &rules.spacing.short_taper_ft;
    let why = Why::new("s fixed", rule.source.clone()).with("s", ft(rule.value));
    Figure::exact(rule.value, why)
}
