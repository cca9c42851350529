//! Moisture and density of the placed base.

use serde::Deserialize;

use crate::rules::Sourced;

/// Moisture and density of the placed base.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MoistureRules {
    /// Dry density reached, as a fraction of the maximum dry density.
    pub degree_of_compaction: Sourced<f64>,
    /// Water added over the computed amount, because some dries off before rolling; fraction of the water to add. Taken
    /// where the weather is not told.
    pub drying_allowance: Sourced<f64>,
    /// Water that dries off where the weather is told.
    pub drying: DryingRules,
    /// Moisture by how the base feels in the hand, from and to, as a share of the optimum.
    pub feel: FeelRules,
}

/// Water that dries off the open base.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DryingRules {
    /// Evaporation from a wet surface.
    pub evaporation: Sourced<Evaporation>,
    /// Relative humidity where it is not told, per cent.
    pub humidity_percent: Sourced<f64>,
    /// How long a layer or batch lies open where it is not told, minutes.
    pub open_min: Sourced<f64>,
    /// What still evaporates under a sheet, as a share.
    pub covered_share: Sourced<f64>,
    /// Open surface of a batch, square metres for each loose cubic metre.
    pub batch_surface_m2_per_m3: Sourced<f64>,
}

/// `E = k * ((T + c)^p - r * (T + c)^p) * (v + d)`: kilograms for each square metre and hour; base and air at the same
/// temperature T (°C), relative humidity r as a fraction, wind v in km/h.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Evaporation {
    /// `k`.
    pub factor: f64,
    /// `c`, °C.
    pub temperature_shift_c: f64,
    /// `p`.
    pub power: f64,
    /// `d`, km/h.
    pub wind_shift_km_per_h: f64,
}

/// Moisture by how the base feels in the hand, from and to, as a share of the optimum.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FeelRules {
    /// Falls apart.
    pub falls_apart: Sourced<[f64; 2]>,
    /// Keeps its shape.
    pub keeps_shape: Sourced<[f64; 2]>,
    /// Water oozes out.
    pub oozes: Sourced<[f64; 2]>,
}
