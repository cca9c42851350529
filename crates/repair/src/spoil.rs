//! What comes out of the cut.

use model::quantity::{Area, InVolume, Length, Mass, Volume, cubic_metres, kilograms, kilograms_per_cubic_metre};
use model::rules::repair::SpoilRules;

/// Volume dug, in place: `A * D - V_hole`. The hole itself is empty already; without its volume the whole cut is
/// counted, which is the most there can be.
pub fn bank_volume(area: Area, depth: Length, hole: Option<Volume>) -> Volume {
    let cut: Volume = area * depth;
    cubic_metres((cut.in_cubic_metres() - hole.map_or(0.0, InVolume::in_cubic_metres)).max(0.0))
}

/// Loose volume: `V_bank * bulking`.
pub fn loose_volume(bank: Volume, rules: &SpoilRules) -> Volume {
    bank * rules.bulking.value
}

/// Mass, which bulking does not change: `V_bank * rho_bank`.
pub fn mass(bank: Volume, rules: &SpoilRules) -> Mass {
    let mass: Mass = bank * kilograms_per_cubic_metre(rules.bank_density_kg_per_m3.value);
    mass.max(kilograms(0.0))
}
