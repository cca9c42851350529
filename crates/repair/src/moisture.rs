//! Mass of base, its water, and its loose volume.

mod batch;
mod drying;

use model::district::BaseMaterial;
use model::quantity::{
    InLength, InMass, InMassDensity, InRatio, InVolume, Length, Mass, MassDensity, Volume, cubic_metres, kilograms,
    kilograms_per_cubic_metre, metres,
};
use model::rules::repair::MoistureRules;

pub(crate) use batch::loss_why;
pub use batch::{batch_faults, batch_water, feel_range};
pub use drying::{Drying, drying_loss, evaporation_rate};

/// What one compacted volume takes from the stock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FillMass {
    /// Dry mass.
    pub dry: Mass,
    /// Mass with the stock's moisture.
    pub wet: Mass,
    /// Water to add, drying allowance included; zero when the stock is at or over the optimum.
    pub water_to_add: Mass,
    /// Water over the optimum, to dry out before compacting; zero when the stock is dry enough.
    pub water_to_dry: Mass,
    /// Loose volume, moist as loaded.
    pub loose: Volume,
}

/// Dry density to reach: `rho_d = degree of compaction * MDD`.
pub fn dry_density(base: &BaseMaterial, rules: &MoistureRules) -> MassDensity {
    base.maximum_dry_density * rules.degree_of_compaction.value
}

/// Masses, water and loose volume of a compacted volume.
///
/// `M_d = V * rho_d`, `M_w = M_d * (1 + w)`, water `= M_d * (OMC - w) * (1 + allowance)` where the stock is dry of the
/// optimum, or with the loss of the weather `max(0, M_d * (OMC - w) + loss)`; `V_loose = M_w / rho_loose`.
pub fn fill_mass(volume: Volume, base: &BaseMaterial, drying: Drying, rules: &MoistureRules) -> FillMass {
    let dry = volume.in_cubic_metres() * dry_density(base, rules).in_kilograms_per_cubic_metre();
    let stock = base.stock_moisture.in_fraction();
    let wet = dry * (1.0 + stock);
    let short = water_short(kilograms(dry), base.optimum_moisture.in_fraction(), stock).in_kilograms();
    let (needed, excess) = match drying {
        Drying::Allowance => (short * (1.0 + rules.drying_allowance.value), -short),
        Drying::Loss(lost) => (short + lost.in_kilograms(), -short - lost.in_kilograms()),
    };
    FillMass {
        dry: kilograms(dry),
        wet: kilograms(wet),
        water_to_add: kilograms(needed.max(0.0)),
        water_to_dry: kilograms(excess.max(0.0)),
        loose: cubic_metres(wet / base.loose_density.in_kilograms_per_cubic_metre()),
    }
}

/// Water between moisture `now` and moisture `target` (both by dry mass): `M_d * (target - now)`; negative: too wet.
pub fn water_short(dry: Mass, target: f64, now: f64) -> Mass {
    dry * (target - now)
}

/// Dry mass of a moist mass: `M_d = M_w / (1 + w)`.
pub fn dry_mass(wet: Mass, moisture: f64) -> Mass {
    wet / (1.0 + moisture)
}

/// Thickness to place loose so that it compacts to `compacted`: `t * rho_d * (1 + w) / rho_loose`.
pub fn loose_thickness(compacted: Length, base: &BaseMaterial, rules: &MoistureRules) -> Length {
    metres(compacted.in_metres() * loose_factor(dry_density(base, rules), base))
}

/// Loose volume, moist as loaded, over compacted volume.
pub fn loose_factor(dry_density: MassDensity, base: &BaseMaterial) -> f64 {
    let moist = kilograms_per_cubic_metre(
        dry_density.in_kilograms_per_cubic_metre() * (1.0 + base.stock_moisture.in_fraction()),
    );
    (moist / base.loose_density).in_fraction()
}
