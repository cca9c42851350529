//! The `repair` block.

use model::place::FramePoint;
use model::quantity::{InArea, InLength, InMass, InTime, InVelocity, InVolume};
use model::repair::{CompactionPattern, Layer, Opening, Repair};
use schemars::JsonSchema;
use serde::Serialize;

use super::figures::{CountJson, FigureJson, SiteCountJson, count, figure, round, site_count};

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
    /// The layers as surveyed, from the bottom up.
    layers: Vec<LayerJson>,
    /// How the last layer stands above the road.
    crown: CrownJson,
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
    /// Whole containers of hot binder.
    binder_containers: ContainersJson,
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
    /// The materials as the crew counts them, where the district has units for them.
    site_counts: Vec<SiteCountJson>,
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
    /// In which order the machine goes over each layer; a second one where another finishes the last layer.
    patterns: Vec<PatternJson>,
    /// Stages at the hole, in order.
    stages: Vec<StageJson>,
    /// Sum of the stages.
    duration_s: FigureJson,
    /// What changes if the hole turns out deeper.
    deeper: Vec<DeeperJson>,
    /// What could not be kept.
    remarks: Vec<String>,
    /// Opening the fresh seal to traffic; times from the last stone.
    opening: OpeningJson,
    /// Cautions that go with the materials and the plant.
    cautions: Vec<String>,
}

/// One layer of base.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Layer")]
struct LayerJson {
    /// Place from the bottom, from 1.
    number: u32,
    /// What compacts it.
    compactor: String,
    /// Compacted, without the crown.
    thickness_m: f64,
    /// Placed loose, without the crown.
    loose_thickness_m: f64,
    /// Compacted; of the last layer with its crown.
    volume_m3: f64,
    /// Placed loose; of the last layer with its crown.
    loose_volume_m3: f64,
    static_passes: u32,
    vibrating_passes: u32,
    lanes: u32,
    time_s: f64,
    why: String,
}

/// Heights of the last layer above the road.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Crown")]
#[expect(clippy::struct_field_names, reason = "all are lengths, and the unit ends every name")]
struct CrownJson {
    /// Compacted, in the middle.
    middle_m: FigureJson,
    /// Compacted, on the mean over the cut.
    mean_m: FigureJson,
    /// Placed loose, along the sides.
    loose_at_sides_m: FigureJson,
    /// Placed loose, in the middle.
    loose_in_middle_m: FigureJson,
}

/// The order in which a machine goes over one layer.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Pattern")]
struct PatternJson {
    compactor: String,
    /// Width of drum, plate or foot.
    width_m: f64,
    /// Lanes or runs of blows in order, along the middle of drum, plate or foot.
    strokes: Vec<StrokeJson>,
}

/// One lane or run of blows: along the section, across it (positive to the right of increasing chainage).
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Stroke")]
struct StrokeJson {
    from_m: [f64; 2],
    to_m: [f64; 2],
}

/// Whole containers of hot binder.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Containers")]
struct ContainersJson {
    /// How many of which; empty when binder is drawn from the tank.
    counts: Vec<ContainerCountJson>,
    /// Hot binder over what is needed.
    left_over_l: f64,
    /// The rule in symbols; what went in; where the rule is from.
    why: String,
}

/// Containers of one size.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ContainerCount")]
struct ContainerCountJson {
    name: String,
    /// What each is filled to.
    volume_l: f64,
    count: u32,
}

/// Opening a fresh seal to traffic.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Opening")]
struct OpeningJson {
    /// First traffic not before.
    open_after_s: FigureJson,
    /// The same by temperature of the surface, coldest first.
    by_temperature: Vec<OpenAfterJson>,
    /// Greatest speed at first.
    speed_km_per_h: FigureJson,
    /// How long that speed holds.
    slow_for_s: FigureJson,
    /// Loose stone is swept off.
    sweep_after_s: FigureJson,
    /// And again.
    sweep_again_after_s: FigureJson,
}

/// Waiting time on a surface at least this warm.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "OpenAfter")]
struct OpenAfterJson {
    surface_c: f64,
    open_after_s: f64,
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
            layers: repair.layers.iter().map(LayerJson::from).collect(),
            crown: CrownJson {
                middle_m: figure(&repair.crown.middle, InLength::in_metres),
                mean_m: figure(&repair.crown.mean, InLength::in_metres),
                loose_at_sides_m: figure(&repair.crown.loose_at_sides, InLength::in_metres),
                loose_in_middle_m: figure(&repair.crown.loose_in_middle, InLength::in_metres),
            },
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
            binder_containers: ContainersJson {
                counts: (repair.binder_containers.value.counts.iter())
                    .map(|count| ContainerCountJson {
                        name: count.name.clone(),
                        volume_l: round(count.volume.in_litres()),
                        count: count.count,
                    })
                    .collect(),
                left_over_l: round(repair.binder_containers.value.left_over.in_litres()),
                why: repair.binder_containers.why.to_string(),
            },
            cover_rate_kg_per_m2: figure(&repair.cover_rate, |r| r.0),
            cover_mass_kg: figure(&repair.cover_mass, InMass::in_kilograms),
            cover_volume_m3: figure(&repair.cover_volume, InVolume::in_cubic_metres),
            spoil_volume_m3: figure(&repair.spoil_volume, InVolume::in_cubic_metres),
            spoil_mass_kg: figure(&repair.spoil_mass, InMass::in_kilograms),
            site_counts: repair.site_counts.iter().map(site_count).collect(),
            compactor: repair.compactor.clone(),
            static_passes: count(&repair.static_passes),
            vibrating_passes: count(&repair.vibrating_passes),
            lanes_across: count(&repair.lanes_across),
            rolling_time_s: figure(&repair.rolling_time, InTime::in_seconds),
            patterns: repair.patterns.iter().map(PatternJson::from).collect(),
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
            remarks: repair.remarks.clone(),
            opening: OpeningJson::from(&repair.opening),
            cautions: repair.cautions.clone(),
        }
    }
}

impl From<&Layer> for LayerJson {
    fn from(layer: &Layer) -> Self {
        LayerJson {
            number: layer.number,
            compactor: layer.compactor.clone(),
            thickness_m: round(layer.thickness.in_metres()),
            loose_thickness_m: round(layer.loose_thickness.in_metres()),
            volume_m3: round(layer.volume.in_cubic_metres()),
            loose_volume_m3: round(layer.loose_volume.in_cubic_metres()),
            static_passes: layer.static_passes,
            vibrating_passes: layer.vibrating_passes,
            lanes: layer.lanes,
            time_s: round(layer.time.in_seconds()),
            why: layer.why.to_string(),
        }
    }
}

impl From<&CompactionPattern> for PatternJson {
    fn from(pattern: &CompactionPattern) -> Self {
        let point = |at: FramePoint| [round(at.along_m), round(at.across_m)];
        PatternJson {
            compactor: pattern.compactor.clone(),
            width_m: round(pattern.width.in_metres()),
            strokes: pattern.strokes.iter().map(|s| StrokeJson { from_m: point(s.from), to_m: point(s.to) }).collect(),
        }
    }
}

impl From<&Opening> for OpeningJson {
    fn from(opening: &Opening) -> Self {
        OpeningJson {
            open_after_s: figure(&opening.open_after, InTime::in_seconds),
            by_temperature: (opening.by_temperature.iter())
                .map(|&(surface_c, time)| OpenAfterJson { surface_c, open_after_s: round(time.in_seconds()) })
                .collect(),
            speed_km_per_h: figure(&opening.speed, InVelocity::in_kilometres_per_hour),
            slow_for_s: figure(&opening.slow_for, InTime::in_seconds),
            sweep_after_s: figure(&opening.sweep_after, InTime::in_seconds),
            sweep_again_after_s: figure(&opening.sweep_again_after, InTime::in_seconds),
        }
    }
}
