//! What makes a seal impossible to work out: its materials, and the rules of the methods.

use model::district::{Binder, CoverStone, Residue};
use model::quantity::{InArea, InLength, InMassDensity, InRatio};
use model::rules::repair::{GradeRules, OpeningPractice, RepairRules, SealMethod};

use super::SealAreas;
use crate::check_rules::{Believed, CELSIUS};
use crate::input::{Errors, VEHICLES_PER_DAY_MOST};

/// Most hours that a fresh seal is slow or unswept: a month.
const HOURS: f64 = 720.0;
/// Largest container anybody fills by hand, litres.
const CONTAINER_L: f64 = 1000.0;
/// Greatest voids factor, adjustments included: a seal is less than half voids.
const VOID_FACTOR: f64 = 0.5;

/// Stone and binder.
pub(crate) fn materials(stone: &CoverStone, binder: &Binder, errors: &mut Errors) {
    let loose = stone.loose_density.in_kilograms_per_cubic_metre();
    let particle = stone.particle_density.in_kilograms_per_cubic_metre();
    errors.positive("nominal size of the cover stone (m)", stone.nominal_size.in_metres());
    for size in [stone.median_size, stone.average_least_dimension].into_iter().flatten() {
        errors.positive("size of the cover stone (m)", size.in_metres());
    }
    errors.positive("loose density of the cover stone (kg/m3)", loose);
    errors.positive("density of the stone's particles (kg/m3)", particle);
    if loose >= particle {
        let found = format!("{loose} of {particle} kg/m3");
        errors.add("loose density of the cover stone", found, "it must be less than that of its particles");
    }
    errors.fraction("flakiness index", stone.flakiness.in_fraction());
    if let Some(Residue::ByVolume(residue) | Residue::ByMass(residue)) = binder.residue {
        errors.fraction("residue of the binder", residue.in_fraction());
        errors.positive("residue of the binder", residue.in_fraction());
    }
    errors.positive("density of the binder (kg/m3)", binder.density.in_kilograms_per_cubic_metre());
    let hot = binder.spray_temperature_c;
    if !(CELSIUS[0]..=CELSIUS[1]).contains(&hot) {
        errors.add("spraying temperature (°C)", hot.to_string(), "between 0 and 250 °C");
    }
}

/// Vehicles a day.
pub(crate) fn traffic(vehicles_per_day: Option<f64>, errors: &mut Errors) {
    errors.believed("vehicles a day", vehicles_per_day.unwrap_or(0.0), 0.0, VEHICLES_PER_DAY_MOST);
}

/// Areas, and the temperature of the surface where measured.
pub(crate) fn areas(areas: SealAreas, surface_c: Option<f64>, errors: &mut Errors) {
    errors.not_negative("area of fresh base (m2)", areas.base.in_square_metres());
    errors.not_negative("area of old seal (m2)", areas.overlap.in_square_metres());
    errors.believed("temperature of the surface (°C)", surface_c.unwrap_or(0.0), -40.0, 90.0);
}

/// Everything the rules say about seal, grades and opening.
pub(crate) fn rules(rules: &RepairRules, errors: &mut Errors) {
    let tables = [seal(rules), mcleod(rules), austroads(rules), binder_volume(rules)];
    for (field, value, least, most) in tables.into_iter().flatten() {
        errors.believed(field, value, least, most);
    }
    traffic_factors(rules, errors);
    void_factor(rules, errors);
    for (name, grade) in &rules.grade {
        check_grade(name, grade, errors);
    }
    opening("cutback", &rules.opening.cutback, errors);
    opening("emulsion", &rules.opening.emulsion, errors);
}

fn seal(rules: &RepairRules) -> Vec<Believed> {
    let (seal, base, opening) = (&rules.seal, &rules.seal.fresh_base, &rules.opening);
    let soak = base.soak_l_per_m2.value;
    let mut table = vec![
        ("seal.overlap_m", seal.overlap_m.value, 0.0, 1.0),
        ("seal.greatest_stone_m", seal.greatest_stone_m.value, 0.001, 0.1),
        ("seal.median_of_nominal", seal.median_of_nominal.value, 0.1, 1.0),
        ("seal.least_dimension, a", seal.least_dimension.value[0], 0.1, 10.0),
        ("seal.least_dimension, b", seal.least_dimension.value[1], 0.0, 1.0),
        ("seal.unknown_traffic_vehicles_per_day", seal.unknown_traffic_vehicles_per_day.value, 0.0, 200_000.0),
        ("seal.fresh_base.embedment_l_per_m2", base.embedment_l_per_m2.value, -1.0, 0.0),
        ("opening.surface_c", opening.surface_c.value, -10.0, 80.0),
        ("opening.least_surface_c", opening.least_surface_c.value, -10.0, 40.0),
    ];
    let soaks = [soak.primed, soak.tight, soak.medium, soak.open];
    table.extend(soaks.map(|value| ("seal.fresh_base.soak_l_per_m2", value, 0.0, 3.0)));
    table
}

fn mcleod(rules: &RepairRules) -> Vec<Believed> {
    let mcleod = &rules.seal.mcleod;
    let surface = mcleod.surface_l_per_m2.value;
    let mut table = vec![
        ("seal.mcleod.void_share", mcleod.void_share.value, 0.0, 1.0),
        ("seal.mcleod.waste_factor", mcleod.waste_factor.value, 0.5, 3.0),
        ("seal.mcleod.absorption_l_per_m2", mcleod.absorption_l_per_m2.value, 0.0, 2.0),
    ];
    // A flushed old seal takes less than none; what its rate comes to is kept from falling below zero.
    let corrections =
        [surface.flushed, surface.smooth, surface.slightly_porous, surface.slightly_pocked, surface.badly_pocked];
    table.extend(corrections.map(|value| ("seal.mcleod.surface_l_per_m2", value, -2.0, 2.0)));
    let factors = mcleod.traffic_factors.value.iter();
    table.extend(factors.map(|row| ("factor of seal.mcleod.traffic_factors", row.factor, 0.0, 1.0)));
    table
}

fn austroads(rules: &RepairRules) -> Vec<Believed> {
    let austroads = &rules.seal.austroads;
    let mut table = vec![
        ("seal.austroads.lanes", f64::from(austroads.lanes.value), 1.0, 12.0),
        ("seal.austroads.shape_adjustment", austroads.shape_adjustment.value, -VOID_FACTOR, VOID_FACTOR),
        ("seal.austroads.traffic_adjustment", austroads.traffic_adjustment.value, -VOID_FACTOR, VOID_FACTOR),
        ("seal.austroads.binder_factor", austroads.binder_factor.value, 0.5, 3.0),
        ("seal.austroads.texture_l_per_m2", austroads.texture_l_per_m2.value, -2.0, 2.0),
        ("seal.austroads.absorption_l_per_m2", austroads.absorption_l_per_m2.value, 0.0, 2.0),
        ("seal.austroads.spread", austroads.spread.value, 300.0, 3000.0),
    ];
    if let Some(factor) = &austroads.void_factor {
        let factor = factor.value;
        let bands = [factor.very_low, factor.low, factor.medium, factor.high];
        table.extend(bands.map(|value| ("seal.austroads.void_factor", value, 0.01, VOID_FACTOR)));
    }
    table
}

fn binder_volume(rules: &RepairRules) -> Vec<Believed> {
    let volume = &rules.binder_volume;
    let mut table = vec![
        ("binder_volume.base_c", volume.base_c.value, -20.0, 60.0),
        ("binder_volume.dense_from_kg_per_m3", volume.dense_from_kg_per_m3.value, 500.0, 2000.0),
        ("binder_volume.emulsion_per_c", volume.emulsion_per_c.value, 0.0, 0.01),
        ("binder_volume.residue_density_kg_per_m3", volume.residue_density_kg_per_m3.value, 800.0, 1300.0),
    ];
    for [c0, c1, c2] in [volume.cutback_dense.value, volume.cutback_light.value] {
        table.push(("c0 of a binder_volume formula", c0, 0.5, 1.5));
        table.push(("c1 of a binder_volume formula", c1, -0.01, 0.01));
        table.push(("c2 of a binder_volume formula", c2, -1e-4, 1e-4));
    }
    table.extend(volume.pouring_pot_l.value.iter().map(|&l| ("binder_volume.pouring_pot_l", l, 0.1, CONTAINER_L)));
    table.extend(volume.sprayer_l.value.iter().map(|&l| ("binder_volume.sprayer_l", l, 0.1, CONTAINER_L)));
    table
}

fn traffic_factors(rules: &RepairRules, errors: &mut Errors) {
    let rows = &rules.seal.mcleod.traffic_factors.value;
    let limits: Vec<f64> = rows.iter().map(|row| row.limit.unwrap_or(f64::INFINITY)).collect();
    if limits.last() != Some(&f64::INFINITY) || !limits.is_sorted_by(|a, b| a < b) {
        let found = format!("{limits:?}");
        errors.add("limits of seal.mcleod.traffic_factors", found, "rising limits, none in the last row");
    }
    let bands = rules.seal.austroads.band_limits.value;
    if !bands.iter().all(|limit| limit.is_finite() && *limit > 0.0) || !bands.is_sorted_by(|a, b| a < b) {
        errors.add("seal.austroads.band_limits", format!("{bands:?}"), "three rising limits over zero");
    }
}

/// The method of Austroads rests on a factor that only the agency can read off the guide's charts.
fn void_factor(rules: &RepairRules, errors: &mut Errors) {
    let austroads = &rules.seal.austroads;
    if rules.seal.method.value == SealMethod::Austroads && austroads.void_factor.is_none() {
        let [very_low, low, medium] = austroads.band_limits.value;
        errors.add(
            "seal.austroads.void_factor",
            "not entered, and seal.method is \"austroads\"".into(),
            format!(
                "read the basic voids factor Vf off the charts of AGPT04K for your stone and write, in L/m2 per mm, \
                 void_factor = {{ value = {{ very_low = .., low = .., medium = .., high = .. }}, source = \"..\" }} under \
                 [seal.austroads]: the bands end at {very_low}, {low} and {medium} vehicles a lane and day"
            ),
        );
    }
}

fn check_grade(name: &str, grade: &GradeRules, errors: &mut Errors) {
    let [from, to] = grade.spray_window_c.value;
    let greatest = grade.greatest_c.value;
    let flash = grade.least_flash_c.as_ref().map(|flash| ("least_flash_c", flash.value));
    let temperatures = [("spray_window_c, from", from), ("spray_window_c, to", to), ("greatest_c", greatest)];
    for (field, value) in temperatures.into_iter().chain(flash) {
        errors.believed(format!("grade.{name}.{field}"), value, CELSIUS[0], CELSIUS[1]);
    }
    if let Some(least) = &grade.least_residue_percent {
        errors.believed(format!("grade.{name}.least_residue_percent"), least.value, 10.0, 100.0);
    }
    if from > to || to > greatest {
        let found = format!("{from} to {to}, greatest {greatest}");
        errors.add(format!("grade.{name}.spray_window_c"), found, "from no more than to, to no more than greatest_c");
    }
}

fn opening(kind: &str, practice: &OpeningPractice, errors: &mut Errors) {
    for (field, value, least, most) in [
        ("speed_km_per_h", practice.speed_km_per_h.value, 5.0, 130.0),
        ("slow_for_h", practice.slow_for_h.value, 0.0, HOURS),
        ("sweep_after_h", practice.sweep_after_h.value, 0.0, HOURS),
        ("sweep_again_after_h", practice.sweep_again_after_h.value, 0.0, HOURS),
    ] {
        errors.believed(format!("opening.{kind}.{field}"), value, least, most);
    }
    let rows = &practice.open_after.value;
    for row in rows {
        errors.believed(format!("minutes of opening.{kind}.open_after"), row.minutes, 0.0, 60.0 * HOURS);
        errors.believed(format!("from_c of opening.{kind}.open_after"), row.from_c, -40.0, 90.0);
    }
    let is_in_order = rows.is_sorted_by(|a, b| a.from_c < b.from_c && a.minutes >= b.minutes);
    if rows.is_empty() || !is_in_order {
        let found: Vec<String> = rows.iter().map(|row| format!("{} °C {} min", row.from_c, row.minutes)).collect();
        let right = "one row at least, colder first, and no longer when warmer";
        errors.add(format!("opening.{kind}.open_after"), found.join(", "), right);
    }
}
