//! The `repair` block.

use model::quantity::{InArea, InLength, InMass, InTime, InVolume};
use model::repair::Repair;
use schemars::JsonSchema;
use serde::Serialize;

use super::figures::{CountJson, FigureJson, count, figure, round};

/// What one repair needs.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Repair")]
pub struct RepairBlock {
    /// Depth of the dug hole below the surface.
    depth_m: FigureJson,
    /// Area of the cut.
    cut_area_m2: FigureJson,
    /// Layers of base.
    layer_count: CountJson,
    /// Compacted thickness of one layer.
    layer_thickness_m: FigureJson,
    /// Thickness of one layer placed loose.
    loose_layer_thickness_m: FigureJson,
    /// Compacted base, crown included.
    fill_volume_m3: FigureJson,
    /// Dry mass of that base.
    fill_dry_mass_kg: FigureJson,
    /// Mass as it comes from the stock.
    fill_wet_mass_kg: FigureJson,
    /// Water to add to reach the optimum.
    water_to_add_kg: FigureJson,
    /// Water to dry out first.
    water_to_dry_kg: FigureJson,
    /// Loose base to load.
    loose_volume_m3: FigureJson,
    /// Area of the new seal.
    seal_area_m2: FigureJson,
    /// Binder rate, product.
    binder_rate_l_per_m2: FigureJson,
    /// Binder product at 15 °C.
    binder_volume_l: FigureJson,
    /// Binder product at spraying temperature.
    binder_volume_hot_l: FigureJson,
    /// Cover stone rate.
    cover_rate_kg_per_m2: FigureJson,
    /// Cover stone.
    cover_mass_kg: FigureJson,
    /// Cover stone, loose.
    cover_volume_m3: FigureJson,
    /// Loose spoil.
    spoil_volume_m3: FigureJson,
    /// Mass of the spoil.
    spoil_mass_kg: FigureJson,
    /// The compactor taken, and why, in words.
    compactor: String,
    /// Passes without vibration, each layer.
    static_passes: CountJson,
    /// Passes with vibration, each layer.
    vibrating_passes: CountJson,
    /// Lanes of drum, plate or foot across the cut.
    lanes_across: CountJson,
    /// Compacting time, all layers.
    rolling_time_s: FigureJson,
    /// Stages at the hole, in order.
    stages: Vec<StageJson>,
    /// Sum of the stages.
    duration_s: FigureJson,
    /// What changes if the hole turns out deeper.
    deeper: Vec<DeeperJson>,
    /// Cautions that go with the materials and the plant.
    cautions: Vec<String>,
}

/// Time of one stage.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Stage")]
struct StageJson {
    /// Name of the stage.
    stage: &'static str,
    /// How long.
    time_s: FigureJson,
}

/// One row for a hole that turns out deeper.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Deeper")]
struct DeeperJson {
    depth_m: f64,
    layer_count: u32,
    layer_thickness_m: f64,
    fill_volume_m3: f64,
    loose_volume_m3: f64,
    water_to_add_kg: f64,
}

impl From<&Repair> for RepairBlock {
    fn from(repair: &Repair) -> Self {
        RepairBlock {
            depth_m: figure(&repair.depth, InLength::in_metres),
            cut_area_m2: figure(&repair.cut_area, InArea::in_square_metres),
            layer_count: count(&repair.layer_count),
            layer_thickness_m: figure(&repair.layer_thickness, InLength::in_metres),
            loose_layer_thickness_m: figure(&repair.loose_layer_thickness, InLength::in_metres),
            fill_volume_m3: figure(&repair.fill_volume, InVolume::in_cubic_metres),
            fill_dry_mass_kg: figure(&repair.fill_dry_mass, InMass::in_kilograms),
            fill_wet_mass_kg: figure(&repair.fill_wet_mass, InMass::in_kilograms),
            water_to_add_kg: figure(&repair.water_to_add, InMass::in_kilograms),
            water_to_dry_kg: figure(&repair.water_to_dry, InMass::in_kilograms),
            loose_volume_m3: figure(&repair.loose_volume, InVolume::in_cubic_metres),
            seal_area_m2: figure(&repair.seal_area, InArea::in_square_metres),
            binder_rate_l_per_m2: figure(&repair.binder_rate, |r| r.0),
            binder_volume_l: figure(&repair.binder_volume, InVolume::in_litres),
            binder_volume_hot_l: figure(&repair.binder_volume_hot, InVolume::in_litres),
            cover_rate_kg_per_m2: figure(&repair.cover_rate, |r| r.0),
            cover_mass_kg: figure(&repair.cover_mass, InMass::in_kilograms),
            cover_volume_m3: figure(&repair.cover_volume, InVolume::in_cubic_metres),
            spoil_volume_m3: figure(&repair.spoil_volume, InVolume::in_cubic_metres),
            spoil_mass_kg: figure(&repair.spoil_mass, InMass::in_kilograms),
            compactor: repair.compactor.clone(),
            static_passes: count(&repair.static_passes),
            vibrating_passes: count(&repair.vibrating_passes),
            lanes_across: count(&repair.lanes_across),
            rolling_time_s: figure(&repair.rolling_time, InTime::in_seconds),
            stages: repair
                .stages
                .iter()
                .map(|s| StageJson { stage: s.stage.words(), time_s: figure(&s.time, InTime::in_seconds) })
                .collect(),
            duration_s: figure(&repair.duration, InTime::in_seconds),
            deeper: repair
                .deeper
                .iter()
                .map(|row| DeeperJson {
                    depth_m: round(row.depth.in_metres()),
                    layer_count: row.layer_count,
                    layer_thickness_m: round(row.layer_thickness.in_metres()),
                    fill_volume_m3: round(row.fill_volume.in_cubic_metres()),
                    loose_volume_m3: round(row.loose_volume.in_cubic_metres()),
                    water_to_add_kg: round(row.water_to_add.in_kilograms()),
                })
                .collect(),
            cautions: repair.cautions.clone(),
        }
    }
}
