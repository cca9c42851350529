//! The table for a hole that turns out deeper than surveyed.

use model::quantity::{InLength, Length, metres};
use model::repair::DeeperRow;
use model::rules::repair::RepairRules;

use crate::compaction::Choice;
use crate::input::RepairInput;
use crate::layers::{COUNT_SLACK, fill_volume, layer_count, layer_thickness};
use crate::moisture::{Drying, fill_mass};

/// The rows: the surveyed cut at depths in whole steps from the first deeper than surveyed, none deeper than a patch.
pub(crate) fn deeper_rows(input: &RepairInput, rules: &RepairRules, compactor: &Choice) -> Vec<DeeperRow> {
    let most = metres(rules.limits.patch_depth_m.value * (1.0 + COUNT_SLACK));
    deeper_depths(input.depth, metres(rules.fill.deeper_step_m.value), rules.fill.deeper_rows.value)
        .into_iter()
        .filter(|depth| *depth <= most)
        .map(|depth| deeper_row(input, depth, rules, compactor))
        .collect()
}

fn deeper_row(input: &RepairInput, depth: Length, rules: &RepairRules, compactor: &Choice) -> DeeperRow {
    let layer_count = layer_count(depth, compactor.in_cut.greatest_layer());
    let fill_volume = fill_volume(input.area, depth, metres(rules.fill.crown_m.value));
    let drying = Drying::of(input.weather, input.area * f64::from(layer_count), &rules.moisture.drying);
    let mass = fill_mass(fill_volume, input.base, drying, &rules.moisture);
    DeeperRow {
        depth,
        layer_count,
        layer_thickness: layer_thickness(depth, layer_count),
        fill_volume,
        loose_volume: mass.loose * input.factors.base,
        water_to_add: mass.water_to_add * input.factors.water,
    }
}

/// `rows` depths, each a multiple of `step` and one step deeper than the one before, from the first one deeper than
/// `depth`.
pub fn deeper_depths(depth: Length, step: Length, rows: u32) -> Vec<Length> {
    let first = (depth.in_metres() / step.in_metres() + COUNT_SLACK).floor() + 1.0;
    (0..rows).map(|row| metres((first + f64::from(row)) * step.in_metres())).collect()
}
