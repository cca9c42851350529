//! The table for a hole that turns out deeper than surveyed.

use model::quantity::{InLength, Length, metres};
use model::repair::DeeperRow;
use model::rules::repair::RepairRules;

use crate::compaction::Choice;
use crate::input::RepairInput;
use crate::layers::{COUNT_SLACK, fill_volume, layer_count, layer_thickness};
use crate::moisture::fill_mass;

/// The rows: the surveyed cut at depths in whole steps, from the first deeper than surveyed to about twice that depth.
pub(crate) fn deeper_rows(input: &RepairInput, rules: &RepairRules, compactor: &Choice) -> Vec<DeeperRow> {
    deeper_depths(input.depth, metres(rules.fill.deeper_step_m.value), rules.fill.deeper_rows.value)
        .into_iter()
        .map(|depth| deeper_row(input, depth, rules, compactor))
        .collect()
}

fn deeper_row(input: &RepairInput, depth: Length, rules: &RepairRules, compactor: &Choice) -> DeeperRow {
    let layer_count = layer_count(depth, metres(compactor.practice.greatest_layer_m.value));
    let fill_volume = fill_volume(input.area, depth, metres(rules.fill.crown_m.value));
    let mass = fill_mass(fill_volume, input.base, &rules.moisture);
    DeeperRow {
        depth,
        layer_count,
        layer_thickness: layer_thickness(depth, layer_count),
        fill_volume,
        loose_volume: mass.loose,
        water_to_add: mass.water_to_add,
    }
}

/// `rows` depths, each a multiple of `step`, evenly from the first one deeper than `depth` to about twice `depth`.
pub fn deeper_depths(depth: Length, step: Length, rows: u32) -> Vec<Length> {
    let depth_in_steps = depth.in_metres() / step.in_metres();
    let first = (depth_in_steps + COUNT_SLACK).floor() + 1.0;
    let gaps = f64::from(rows.saturating_sub(1).max(1));
    let stride = ((2.0 * depth_in_steps - first) / gaps).round().max(1.0);
    (0..rows).map(|row| metres((first + f64::from(row) * stride) * step.in_metres())).collect()
}
