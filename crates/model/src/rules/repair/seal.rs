//! Binder and cover stone rates.

use serde::Deserialize;

use crate::rules::Sourced;

/// Binder and cover stone rates, one stone thick.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SealRules {
    /// Overlap onto the sound pavement on each side, metres.
    pub overlap_m: Sourced<f64>,
    /// Greatest nominal size of cover stone, metres.
    pub greatest_stone_m: Sourced<f64>,
    /// Median size as a fraction of the nominal size, where neither median nor least dimension was measured.
    pub median_of_nominal: Sourced<f64>,
    /// `a` and `b` of the average least dimension `H = M / (a + b * FI)`, flakiness index FI in per cent.
    pub least_dimension: Sourced<[f64; 2]>,
    /// `k` of the stone rate `C = (1 - k * V) * H * G * E` and of the binder rate `B = (k * H * T * V + ...) / R`.
    pub void_share: Sourced<f64>,
    /// Factor for stone lost to traffic and uneven spreading, `E`.
    pub waste_factor: Sourced<f64>,
    /// Binder the stone itself takes up, litres per square metre of residual binder, `A`.
    pub absorption_l_per_m2: Sourced<f64>,
    /// Correction for the old seal under the overlap, litres per square metre of residual binder, `S`.
    pub old_seal_correction_l_per_m2: Sourced<f64>,
    /// What soaks into the fresh granular base, litres per square metre of residual binder.
    pub soak_l_per_m2: Sourced<f64>,
    /// Share of the voids to fill, by traffic, `T`. The first row that holds the count is taken.
    pub traffic_factors: Sourced<Vec<TrafficFactor>>,
    /// Traffic taken where the count is not known, vehicles a day.
    pub unknown_traffic_vehicles_per_day: Sourced<f64>,
}

/// One row of the traffic factors.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TrafficFactor {
    /// Upper limit in vehicles a day; none in the last row.
    pub limit: Option<f64>,
    /// Whether a count exactly on the limit still belongs to this row.
    #[serde(default)]
    pub limit_included: bool,
    /// Share of the voids to fill.
    pub factor: f64,
}
