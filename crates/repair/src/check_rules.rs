//! Rules an agency wrote that can't be worked with, or that nobody believes.

use model::district::CompactorKind;
use model::road::RoadClass;
use model::rules::repair::{CompactorPractice, GradeRules, GrowthRules, RepairRules, TimeRules};

use crate::input::{Errors, InputError};

/// A value with its field and the least and most that are believed (common practice, no source: wide enough for any
/// agency, narrow enough to catch a wrong unit or a slipped decimal point).
type Believed = (&'static str, f64, f64, f64);

/// Coldest and hottest that binder is ever sprayed or heated to, °C.
const CELSIUS: [f64; 2] = [0.0, 250.0];
/// Most passes in each layer.
const PASSES: f64 = 50.0;
/// Most records that a belief counts as.
const RECORDS: f64 = 1e6;
/// Longest time for any stage, or for a unit of it: a day.
const DAY_S: f64 = 86_400.0;

/// Everything about the rules that makes a repair impossible to work out or its figures nonsense. A value may come from an
/// agency's own file, where a number can be anything, not-a-number included.
pub fn check_rules(rules: &RepairRules) -> Result<(), Vec<InputError>> {
    let mut errors = Errors::default();
    let tables = [fill(rules), growth_and_spoil(rules), seal(rules), binder_volume(rules), times(&rules.time)];
    for (field, value, least, most) in tables.into_iter().flatten() {
        errors.believed(field, value, least, most);
    }
    let compactor = &rules.compactor;
    for kind in CompactorKind::ALL {
        check_practice(kind.key(), compactor.of(kind), &mut errors);
    }
    check_traffic_factors(rules, &mut errors);
    growth(&rules.growth, &mut errors);
    for (name, grade) in &rules.grade {
        check_grade(name, grade, &mut errors);
    }
    errors.into_result()
}

fn fill(rules: &RepairRules) -> Vec<Believed> {
    let (fill, limits, moisture) = (&rules.fill, &rules.limits, &rules.moisture);
    let (drying, feel) = (&moisture.drying, &moisture.feel);
    vec![
        ("fill.crown_m", fill.crown_m.value, 0.0, 0.1),
        ("fill.least_layer_stones", fill.least_layer_stones.value, 1.0, 10.0),
        ("fill.deeper_step_m", fill.deeper_step_m.value, 0.001, 0.5),
        // The table must stay on the sheet.
        ("fill.deeper_rows", f64::from(fill.deeper_rows.value), 0.0, 20.0),
        ("limits.patch_area_m2", limits.patch_area_m2.value, 0.1, 1000.0),
        ("limits.patch_depth_m", limits.patch_depth_m.value, 0.05, 5.0),
        ("limits.cut_share", limits.cut_share.value, 0.001, 1.0),
        ("limits.cut_share_stretch_m", limits.cut_share_stretch_m.value, 1.0, 1000.0),
        ("limits.repairs_max", f64::from(limits.repairs_max.value), 0.0, 100.0),
        ("limits.repairs_within_days", f64::from(limits.repairs_within_days.value), 1.0, 36500.0),
        ("moisture.degree_of_compaction", moisture.degree_of_compaction.value, 0.5, 1.1),
        ("moisture.drying_allowance", moisture.drying_allowance.value, 0.0, 2.0),
        ("moisture.drying.evaporation, factor", drying.evaporation.value.factor, 0.0, 1e-4),
        ("moisture.drying.evaporation, temperature_shift_c", drying.evaporation.value.temperature_shift_c, 0.0, 100.0),
        ("moisture.drying.evaporation, power", drying.evaporation.value.power, 0.0, 5.0),
        ("moisture.drying.evaporation, wind_shift_km_per_h", drying.evaporation.value.wind_shift_km_per_h, 0.0, 50.0),
        ("moisture.drying.humidity_percent", drying.humidity_percent.value, 0.0, 100.0),
        ("moisture.drying.open_min", drying.open_min.value, 0.0, 1440.0),
        ("moisture.drying.covered_share", drying.covered_share.value, 0.0, 1.0),
        ("moisture.drying.batch_surface_m2_per_m3", drying.batch_surface_m2_per_m3.value, 0.0, 100.0),
        ("moisture.feel.falls_apart, from", feel.falls_apart.value[0], 0.0, feel.falls_apart.value[1]),
        ("moisture.feel.falls_apart, to", feel.falls_apart.value[1], 0.0, 3.0),
        ("moisture.feel.keeps_shape, from", feel.keeps_shape.value[0], 0.0, feel.keeps_shape.value[1]),
        ("moisture.feel.keeps_shape, to", feel.keeps_shape.value[1], 0.0, 3.0),
        ("moisture.feel.oozes, from", feel.oozes.value[0], 0.0, feel.oozes.value[1]),
        ("moisture.feel.oozes, to", feel.oozes.value[1], 0.0, 3.0),
    ]
}

fn growth(growth: &GrowthRules, errors: &mut Errors) {
    for (name, class) in growth.classes() {
        let place = if name == GrowthRules::DEFAULT { name.to_owned() } else { format!("class.{name}") };
        for (field, value, least, most) in [
            ("median", class.median.value, 0.2, 5.0),
            ("sigma", class.sigma.value, 0.0, 2.0),
            ("mean_weight", class.mean_weight.value, 0.1, RECORDS),
            // With fewer the t's tails reach where no cut ever went.
            ("spread_weight", class.spread_weight.value, 3.0, RECORDS),
        ] {
            errors.believed(format!("growth.{place}.{field}"), value, least, most);
        }
    }
    if growth.class.contains_key(GrowthRules::DEFAULT) {
        errors.add("growth.class.default", "a class of that name".into(), "write it as [growth.default]");
    }
    for road in RoadClass::ALL {
        let listed: Vec<&str> = growth
            .class
            .iter()
            .filter(|(_, class)| class.roads.contains(&road))
            .map(|(name, _)| name.as_str())
            .collect();
        if listed.len() > 1 {
            errors.add(
                "roads of growth.class",
                format!("{} in {}", road.word(), listed.join(", ")),
                "each road in one class",
            );
        }
    }
}

fn growth_and_spoil(rules: &RepairRules) -> Vec<Believed> {
    let (spoil, growth) = (&rules.spoil, &rules.growth);
    vec![
        ("spoil.bank_density_kg_per_m3", spoil.bank_density_kg_per_m3.value, 500.0, 4000.0),
        ("spoil.bulking", spoil.bulking.value, 0.5, 3.0),
        ("growth.depth_share", growth.depth_share.value, 0.0, 1.0),
        ("growth.depth_share_weight", growth.depth_share_weight.value, 0.0, RECORDS),
        ("growth.draws", f64::from(growth.draws.value), 1000.0, 1_000_000.0),
        ("growth.same_road_correlation", growth.same_road_correlation.value, 0.0, 1.0),
    ]
}

fn seal(rules: &RepairRules) -> Vec<Believed> {
    let seal = &rules.seal;
    let mut table = vec![
        ("seal.overlap_m", seal.overlap_m.value, 0.0, 1.0),
        ("seal.greatest_stone_m", seal.greatest_stone_m.value, 0.001, 0.1),
        ("seal.median_of_nominal", seal.median_of_nominal.value, 0.1, 1.0),
        ("seal.least_dimension, a", seal.least_dimension.value[0], 0.1, 10.0),
        ("seal.least_dimension, b", seal.least_dimension.value[1], 0.0, 1.0),
        ("seal.void_share", seal.void_share.value, 0.0, 1.0),
        ("seal.waste_factor", seal.waste_factor.value, 0.5, 3.0),
        ("seal.absorption_l_per_m2", seal.absorption_l_per_m2.value, 0.0, 2.0),
        // A flushed old seal takes less than none; what its rate comes to is kept from falling below zero.
        ("seal.old_seal_correction_l_per_m2", seal.old_seal_correction_l_per_m2.value, -2.0, 2.0),
        ("seal.soak_l_per_m2", seal.soak_l_per_m2.value, 0.0, 3.0),
        ("seal.unknown_traffic_vehicles_per_day", seal.unknown_traffic_vehicles_per_day.value, 0.0, 200_000.0),
    ];
    table.extend(seal.traffic_factors.value.iter().map(|row| ("factor of seal.traffic_factors", row.factor, 0.0, 1.0)));
    table
}

fn binder_volume(rules: &RepairRules) -> Vec<Believed> {
    let volume = &rules.binder_volume;
    let mut table = vec![
        ("binder_volume.base_c", volume.base_c.value, -20.0, 60.0),
        ("binder_volume.dense_from_kg_per_m3", volume.dense_from_kg_per_m3.value, 500.0, 2000.0),
        ("binder_volume.emulsion_per_c", volume.emulsion_per_c.value, 0.0, 0.01),
    ];
    for [c0, c1, c2] in [volume.cutback_dense.value, volume.cutback_light.value] {
        table.push(("c0 of a binder_volume formula", c0, 0.5, 1.5));
        table.push(("c1 of a binder_volume formula", c1, -0.01, 0.01));
        table.push(("c2 of a binder_volume formula", c2, -1e-4, 1e-4));
    }
    table
}

fn times(time: &TimeRules) -> Vec<Believed> {
    [
        ("time.mark_out_s", &time.mark_out_s),
        ("time.mark_out_s_per_m", &time.mark_out_s_per_m),
        ("time.cut_out_s", &time.cut_out_s),
        ("time.cut_out_s_per_m", &time.cut_out_s_per_m),
        ("time.cut_out_s_per_m3", &time.cut_out_s_per_m3),
        ("time.cut_out_s_per_m2", &time.cut_out_s_per_m2),
        ("time.fill_s_per_m3", &time.fill_s_per_m3),
        ("time.fill_s_per_layer", &time.fill_s_per_layer),
        ("time.compact_s_per_layer", &time.compact_s_per_layer),
        ("time.seal_s", &time.seal_s),
        ("time.seal_s_per_m2", &time.seal_s_per_m2),
        ("time.clean_up_s", &time.clean_up_s),
        ("time.clean_up_s_per_m2", &time.clean_up_s_per_m2),
    ]
    .map(|(field, time)| (field, time.value, 0.0, DAY_S))
    .into()
}

fn check_practice(name: &str, practice: &CompactorPractice, errors: &mut Errors) {
    let (least, most) = (practice.vibrating_passes_least.value, practice.vibrating_passes_most.value);
    for (field, value, low, high) in [
        ("greatest_layer_m", practice.greatest_layer_m.value, 0.01, 0.5),
        ("static_passes", f64::from(practice.static_passes.value), 0.0, PASSES),
        ("vibrating_passes_least", f64::from(least), 0.0, PASSES),
        ("vibrating_passes_most", f64::from(most), 0.0, PASSES),
        ("lane_overlap_m", practice.lane_overlap_m.value, 0.0, 1.0),
        ("turn_s", practice.turn_s.value, 0.0, 600.0),
        ("clearance_m", practice.clearance_m.value, 0.0, 1.0),
        ("room_along_m", practice.room_along_m.value, 0.0, 20.0),
        ("width_m", practice.width_m.value, 0.05, 3.0),
        ("speed_km_per_h", practice.speed_km_per_h.value, 0.01, 15.0),
        ("mass_kg", practice.mass_kg.value, 1.0, 30_000.0),
    ] {
        errors.believed(format!("compactor.{name}.{field}"), value, low, high);
    }
    if least > most {
        let field = format!("compactor.{name}.vibrating_passes_least");
        errors.add(field, least.to_string(), "no more than vibrating_passes_most");
    }
}

fn check_traffic_factors(rules: &RepairRules, errors: &mut Errors) {
    let rows = &rules.seal.traffic_factors.value;
    let limits: Vec<f64> = rows.iter().map(|row| row.limit.unwrap_or(f64::INFINITY)).collect();
    if limits.last() != Some(&f64::INFINITY) || !limits.is_sorted_by(|a, b| a < b) {
        errors.add("limits of seal.traffic_factors", format!("{limits:?}"), "rising limits, none in the last row");
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
    if from > to || to > greatest {
        let found = format!("{from} to {to}, greatest {greatest}");
        errors.add(format!("grade.{name}.spray_window_c"), found, "from no more than to, to no more than greatest_c");
    }
}
