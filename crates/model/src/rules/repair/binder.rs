//! The binder as a product: its grades, its volume when hot, what it is carried in.

use serde::Deserialize;

use crate::district::BinderKind;
use crate::rules::Sourced;

/// Volume of binder at spraying temperature.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BinderVolumeRules {
    /// Temperature at which product is measured and sold, degrees Celsius.
    pub base_c: Sourced<f64>,
    /// Cutback at least this dense (kg/m3 at 15 °C) follows `cutback_dense`, lighter follows `cutback_light`.
    pub dense_from_kg_per_m3: Sourced<f64>,
    /// `[c0, c1, c2]` of the factor `c0 + c1 * T + c2 * T^2` (T in °C) from hot to base volume.
    pub cutback_dense: Sourced<[f64; 3]>,
    /// The same for lighter product.
    pub cutback_light: Sourced<[f64; 3]>,
    /// `k` of the emulsion's factor `1 - k * (T - base)`, per °C.
    pub emulsion_per_c: Sourced<f64>,
    /// Density of the residual binder, kg/m3 at 15 °C: from a residue by mass to one by volume.
    pub residue_density_kg_per_m3: Sourced<f64>,
    /// Containers that a pouring pot's crew fills, litres each; the district's own list goes before it.
    pub pouring_pot_l: Sourced<Vec<f64>>,
    /// The same for a sprayer. None: it draws from the tank.
    pub sprayer_l: Sourced<Vec<f64>>,
}

/// Residue, spraying window and flash point of one grade.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GradeRules {
    /// Cutback or emulsion.
    pub kind: BinderKind,
    /// Least residue the grade must have, per cent: of the volume for cutback, of the mass for emulsion, as their
    /// standards measure it; none where no standard is at hand.
    pub least_residue_percent: Option<Sourced<f64>>,
    /// Spraying temperature from and to, degrees Celsius.
    pub spray_window_c: Sourced<[f64; 2]>,
    /// Greatest temperature allowed at all, degrees Celsius.
    pub greatest_c: Sourced<f64>,
    /// Least flash point the grade must have, degrees Celsius; none where the standard states none.
    pub least_flash_c: Option<Sourced<f64>>,
}
