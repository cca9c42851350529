//! Rules an agency wrote that can't be worked with.

use model::rules::Sourced;
use model::rules::repair::{CompactorPractice, GradeRules, RepairRules};

use crate::input::{Errors, InputError};

/// Most rows a table for a deeper hole may have: it must stay on the sheet.
const MOST_ROWS: u32 = 20;

/// Everything about the rules that makes a repair impossible to work out. A value may come from an agency's own file,
/// where a number can be anything, not-a-number included.
pub fn check_rules(rules: &RepairRules) -> Result<(), Vec<InputError>> {
    let mut errors = Errors::default();
    check_fill(rules, &mut errors);
    check_seal(rules, &mut errors);
    check_times(rules, &mut errors);
    for grade in rules.grade.values() {
        check_grade(grade, &mut errors);
    }
    errors.into_result()
}

fn check_fill(rules: &RepairRules, errors: &mut Errors) {
    errors.not_negative("fill.crown_m", rules.fill.crown_m.value);
    errors.positive("fill.deeper_step_m", rules.fill.deeper_step_m.value);
    let rows = rules.fill.deeper_rows.value;
    if rows > MOST_ROWS {
        errors.add("fill.deeper_rows", rows.to_string(), "at most 20 rows fit");
    }
    errors.positive("moisture.degree_of_compaction", rules.moisture.degree_of_compaction.value);
    errors.not_negative("moisture.drying_allowance", rules.moisture.drying_allowance.value);
    errors.not_negative("compactor.clearance_m", rules.compactor.clearance_m.value);
    for practice in [&rules.compactor.roller, &rules.compactor.plate, &rules.compactor.hand_tamper] {
        check_practice(practice, errors);
    }
    errors.positive("spoil.bank_density_kg_per_m3", rules.spoil.bank_density_kg_per_m3.value);
    errors.positive("spoil.bulking", rules.spoil.bulking.value);
    errors.positive("growth.median", rules.growth.median.value);
    errors.not_negative("growth.sigma", rules.growth.sigma.value);
    errors.fraction("growth.depth_share", rules.growth.depth_share.value);
    errors.fraction("growth.same_road_correlation", rules.growth.same_road_correlation.value);
}

fn check_practice(practice: &CompactorPractice, errors: &mut Errors) {
    errors.positive("greatest_layer_m of a compactor", practice.greatest_layer_m.value);
    errors.not_negative("lane_overlap_m of a compactor", practice.lane_overlap_m.value);
    errors.not_negative("turn_s of a compactor", practice.turn_s.value);
    let (least, most) = (practice.vibrating_passes_least.value, practice.vibrating_passes_most.value);
    if least > most {
        errors.add("vibrating_passes_least of a compactor", least.to_string(), "no more than vibrating_passes_most");
    }
}

fn check_seal(rules: &RepairRules, errors: &mut Errors) {
    let seal = &rules.seal;
    errors.not_negative("seal.overlap_m", seal.overlap_m.value);
    errors.positive("seal.greatest_stone_m", seal.greatest_stone_m.value);
    errors.positive("seal.median_of_nominal", seal.median_of_nominal.value);
    errors.positive("seal.least_dimension", seal.least_dimension.value[0]);
    errors.not_negative("seal.least_dimension", seal.least_dimension.value[1]);
    errors.fraction("seal.void_share", seal.void_share.value);
    errors.positive("seal.waste_factor", seal.waste_factor.value);
    errors.not_negative("seal.absorption_l_per_m2", seal.absorption_l_per_m2.value);
    // A flushed old seal takes less than none; what its rate comes to is kept from falling below zero.
    errors.finite("seal.old_seal_correction_l_per_m2", seal.old_seal_correction_l_per_m2.value);
    errors.not_negative("seal.soak_l_per_m2", seal.soak_l_per_m2.value);
    errors.not_negative("seal.unknown_traffic_vehicles_per_day", seal.unknown_traffic_vehicles_per_day.value);
    let rows = &seal.traffic_factors.value;
    for row in rows {
        errors.fraction("factor of seal.traffic_factors", row.factor);
    }
    let limits: Vec<f64> = rows.iter().map(|row| row.limit.unwrap_or(f64::INFINITY)).collect();
    if limits.last() != Some(&f64::INFINITY) || !limits.is_sorted_by(|a, b| a < b) {
        errors.add("limits of seal.traffic_factors", format!("{limits:?}"), "rising limits, none in the last row");
    }
    let volume = &rules.binder_volume;
    errors.finite("binder_volume.base_c", volume.base_c.value);
    errors.positive("binder_volume.dense_from_kg_per_m3", volume.dense_from_kg_per_m3.value);
    for formula in [&volume.cutback_dense, &volume.cutback_light] {
        for coefficient in formula.value {
            errors.finite("coefficient of a binder_volume formula", coefficient);
        }
    }
    errors.not_negative("binder_volume.emulsion_per_c", volume.emulsion_per_c.value);
}

fn check_grade(grade: &GradeRules, errors: &mut Errors) {
    let [from, to] = grade.spray_window_c.value;
    let greatest = grade.greatest_c.value;
    errors.finite("spray_window_c of a grade", from);
    errors.finite("greatest_c of a grade", greatest);
    errors.finite("least_flash_c of a grade", grade.least_flash_c.as_ref().map_or(0.0, |flash| flash.value));
    if !(from <= to && to <= greatest) {
        let found = format!("{from} to {to}, greatest {greatest}");
        errors.add("spray_window_c of a grade", found, "from no more than to, to no more than greatest_c");
    }
}

fn check_times(rules: &RepairRules, errors: &mut Errors) {
    let time = &rules.time;
    let all: [(&'static str, &Sourced<f64>); 13] = [
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
    ];
    for (name, value) in all {
        errors.not_negative(name, value.value);
    }
}
