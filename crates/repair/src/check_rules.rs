//! Rules an agency wrote that can't be worked with, or that nobody believes.

use model::district::CompactorKind;
use model::road::RoadClass;
use model::rules::repair::{CompactorPractice, GrowthRules, RepairRules, TimeRules};

use crate::input::{Errors, InputError};
use crate::seal;

/// A value with its field and the least and most that are believed (common practice, no source: wide enough for any
/// agency, narrow enough to catch a wrong unit or a slipped decimal point).
pub(crate) type Believed = (&'static str, f64, f64, f64);

/// Coldest and hottest that binder is ever sprayed or heated to, °C.
pub(crate) const CELSIUS: [f64; 2] = [0.0, 250.0];
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
    let tables = [fill(rules), growth_and_spoil(rules), times(&rules.time)];
    for (field, value, least, most) in tables.into_iter().flatten() {
        errors.believed(field, value, least, most);
    }
    let compactor = &rules.compactor;
    for kind in CompactorKind::ALL {
        check_practice(kind.key(), compactor.of(kind), &mut errors);
    }
    seal::check::rules(rules, &mut errors);
    growth(&rules.growth, &mut errors);
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
