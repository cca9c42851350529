//! One seal designed alone, without a cut: what `lengthsman seal` shows.

use model::district::{Binder, CoverStone, Plant};
use model::figure::Figure;
use model::quantity::{Area, Mass, Volume};
use model::repair::{Containers, Opening};
use model::rules::repair::RepairRules;

use super::{SealRates, check, containers, opening, product, rates, why};
use crate::binder_volume::{hot_volume, volume_factor};
use crate::cautions;
use crate::input::{Errors, InputError};

/// What is sealed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SealAreas {
    /// Fresh granular base.
    pub base: Area,
    /// Old seal under the overlap.
    pub overlap: Area,
}

/// A seal, figure by figure.
#[derive(Debug, Clone, PartialEq)]
pub struct SealDesign {
    /// Rates.
    pub rates: SealRates,
    /// Binder product at 15 °C.
    pub binder_volume: Figure<Volume>,
    /// Binder product at spraying temperature.
    pub binder_volume_hot: Figure<Volume>,
    /// Whole containers of hot binder.
    pub binder_containers: Figure<Containers>,
    /// Cover stone.
    pub cover_mass: Figure<Mass>,
    /// Cover stone, loose.
    pub cover_volume: Figure<Volume>,
    /// Opening to traffic.
    pub opening: Opening,
    /// Cautions for this binder and this weather.
    pub cautions: Vec<String>,
}

/// Designs a seal. `vehicles_per_day` both ways, where known; `surface_c` the temperature of the surface, where measured,
/// else what the rules count on.
///
/// # Errors
/// Every value that can't be worked with.
pub fn design(
    stone: &CoverStone,
    binder: &Binder,
    plant: &Plant,
    areas: SealAreas,
    vehicles_per_day: Option<f64>,
    surface_c: Option<f64>,
    rules: &RepairRules,
) -> Result<SealDesign, Vec<InputError>> {
    check_all(stone, binder, areas, vehicles_per_day, surface_c, rules)?;
    let rates = rates(stone, binder, vehicles_per_day, rules);
    let factor = volume_factor(binder, &rules.binder_volume);
    let cold = rates.binder(areas.base, areas.overlap);
    let hot = hot_volume(cold, factor.factor);
    let mass = rates.residual.stone.value * (areas.base + areas.overlap);
    let sizes = containers::sizes(plant, &rules.binder_volume);
    Ok(SealDesign {
        binder_volume: Figure::exact(cold, why::volume(&rates, areas)),
        binder_volume_hot: Figure::exact(hot, why::hot(cold, binder, &factor)),
        binder_containers: Figure::exact(containers::fill(hot, &sizes.list), why::containers(hot, &sizes)),
        cover_mass: Figure::exact(mass, why::stone_mass(&rates, areas.base + areas.overlap)),
        cover_volume: Figure::exact(mass / stone.loose_density, why::loose_stone(mass, stone)),
        opening: opening::opening(binder.kind, surface_c.unwrap_or(rules.opening.surface_c.value), &rules.opening),
        cautions: cautions::for_seal(stone, binder, plant, surface_c, rules),
        rates,
    })
}

fn check_all(
    stone: &CoverStone,
    binder: &Binder,
    areas: SealAreas,
    vehicles_per_day: Option<f64>,
    surface_c: Option<f64>,
    rules: &RepairRules,
) -> Result<(), Vec<InputError>> {
    let mut errors = Errors::default();
    check::materials(stone, binder, &mut errors);
    check::traffic(vehicles_per_day, &mut errors);
    check::areas(areas, surface_c, &mut errors);
    if let Err(error) = product::check(binder, rules) {
        errors.add(error.what, error.found, error.right);
    }
    errors.into_result()
}
