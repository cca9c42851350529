//! Volume of binder at spraying temperature.

use model::district::{Binder, BinderKind};
use model::figure::Source;
use model::quantity::{InMassDensity, Volume};
use model::rules::repair::BinderVolumeRules;

/// The factor from hot volume to volume at base temperature, with its rule in symbols and its source.
#[derive(Debug, Clone, PartialEq)]
pub struct VolumeFactor {
    /// `V_base / V_hot`.
    pub factor: f64,
    /// The rule.
    pub rule: String,
    /// Where it is from.
    pub source: Source,
}

/// The factor for this binder at its spraying temperature.
pub fn volume_factor(binder: &Binder, rules: &BinderVolumeRules) -> VolumeFactor {
    let hot = binder.spray_temperature_c;
    if binder.kind == BinderKind::Emulsion {
        return VolumeFactor {
            factor: emulsion_factor(hot, rules.base_c.value, rules.emulsion_per_c.value),
            rule: format!("VCF = 1 - {} * (T - {})", rules.emulsion_per_c.value, rules.base_c.value),
            source: rules.emulsion_per_c.source.clone(),
        };
    }
    let dense = binder.density.in_kilograms_per_cubic_metre() >= rules.dense_from_kg_per_m3.value;
    let formula = if dense { &rules.cutback_dense } else { &rules.cutback_light };
    let [c0, c1, c2] = formula.value;
    VolumeFactor {
        factor: asphalt_factor(hot, formula.value),
        rule: format!("VCF = {c0} + {c1} * T + {c2} * T^2"),
        source: formula.source.clone(),
    }
}

/// Asphalt other than emulsion: `c0 + c1 * T + c2 * T^2`.
pub fn asphalt_factor(temperature: f64, [c0, c1, c2]: [f64; 3]) -> f64 {
    c0 + c1 * temperature + c2 * temperature * temperature
}

/// Emulsion: `1 - k * (T - base)`.
pub fn emulsion_factor(temperature: f64, base: f64, per_degree: f64) -> f64 {
    1.0 - per_degree * (temperature - base)
}

/// Hot volume of a volume measured at base temperature: `V_hot = V_base / VCF`; larger when hotter.
pub fn hot_volume(at_base: Volume, factor: f64) -> Volume {
    at_base / factor
}
