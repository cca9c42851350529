//! Shape of `rules/repair/*.toml`: how a cut is filled, compacted and sealed.
//!
//! The unit of each value is in its name. `name`, `about` and `extends` at the head of a file belong to the loader.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::Sourced;
use crate::district::BinderKind;

/// One set of repair practice.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RepairRules {
    /// The finished shape and the table for a deeper hole.
    pub fill: FillRules,
    /// Up to what size a repair is a patch.
    pub limits: LimitRules,
    /// Moisture and density of the placed base.
    pub moisture: MoistureRules,
    /// What each compactor can do.
    pub compactor: CompactorRules,
    /// Binder and cover stone rates.
    pub seal: SealRules,
    /// Volume of binder at spraying temperature.
    pub binder_volume: BinderVolumeRules,
    /// Spraying window and flash point by grade; the key is the grade's designation.
    pub grade: BTreeMap<String, GradeRules>,
    /// What comes out of the cut.
    pub spoil: SpoilRules,
    /// How much more is dug out than was surveyed.
    pub growth: GrowthRules,
    /// Task times of the crew.
    pub time: TimeRules,
    /// Words of the cautions.
    pub caution: CautionRules,
}

/// The finished shape and the table for a deeper hole.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FillRules {
    /// Height of the finished crown in the middle, metres.
    pub crown_m: Sourced<f64>,
    /// Step of depths in the table for a deeper hole, metres: every row is one step deeper than the one before.
    pub deeper_step_m: Sourced<f64>,
    /// Most rows of that table; it ends at `limits.patch_depth_m`.
    pub deeper_rows: Sourced<u32>,
}

/// Up to what size a repair is a patch; beyond either an engineer decides.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LimitRules {
    /// Greatest area of a cut, square metres.
    pub patch_area_m2: Sourced<f64>,
    /// Greatest depth of a cut, metres.
    pub patch_depth_m: Sourced<f64>,
}

/// Moisture and density of the placed base.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MoistureRules {
    /// Dry density reached, as a fraction of the maximum dry density.
    pub degree_of_compaction: Sourced<f64>,
    /// Water added over the computed amount, because some dries off before rolling; fraction of the water to add.
    pub drying_allowance: Sourced<f64>,
}

/// What each compactor can do.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompactorRules {
    /// Free play that drum or plate needs between the cut's sides, metres.
    pub clearance_m: Sourced<f64>,
    /// Vibratory roller.
    pub roller: CompactorPractice,
    /// Plate compactor.
    pub plate: CompactorPractice,
    /// Hand tamper.
    pub hand_tamper: CompactorPractice,
}

/// How one kind of compactor is worked.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompactorPractice {
    /// Greatest compacted thickness of one layer, metres.
    pub greatest_layer_m: Sourced<f64>,
    /// Passes without vibration, each layer.
    pub static_passes: Sourced<u32>,
    /// Least passes with vibration, each layer.
    pub vibrating_passes_least: Sourced<u32>,
    /// Most passes with vibration, each layer; the plan counts on these.
    pub vibrating_passes_most: Sourced<u32>,
    /// Overlap of neighbouring lanes, metres.
    pub lane_overlap_m: Sourced<f64>,
    /// Time to turn or reverse at the end of each pass, seconds.
    pub turn_s: Sourced<f64>,
}

/// Binder and cover stone rates, one stone thick.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SealRules {
    /// Overlap onto the sound pavement on each side, metres.
    pub overlap_m: Sourced<f64>,
    /// Greatest nominal size of cover stone, metres.
    pub greatest_stone_m: Sourced<f64>,
    /// Median size as a fraction of the nominal size, where neither median nor least dimension was measured.
    pub median_of_nominal: Sourced<f64>,
    /// `a` and `b` of the average least dimension `H = M / (a + b * FI)`, flakiness index FI in per cent.
    pub least_dimension: Sourced<[f64; 2]>,
    /// `k` of the stone rate `C = (1 - k * V) * H * G * E` and of the binder rate `B = (k * H * T * V + ...) / R`.
    pub void_share: Sourced<f64>,
    /// Factor for stone lost to traffic and uneven spreading, `E`.
    pub waste_factor: Sourced<f64>,
    /// Binder the stone itself takes up, litres per square metre of residual binder, `A`.
    pub absorption_l_per_m2: Sourced<f64>,
    /// Correction for the old seal under the overlap, litres per square metre of residual binder, `S`.
    pub old_seal_correction_l_per_m2: Sourced<f64>,
    /// What soaks into the fresh granular base, litres per square metre of residual binder.
    pub soak_l_per_m2: Sourced<f64>,
    /// Share of the voids to fill, by traffic, `T`. The first row that holds the count is taken.
    pub traffic_factors: Sourced<Vec<TrafficFactor>>,
    /// Traffic taken where the count is not known, vehicles a day.
    pub unknown_traffic_vehicles_per_day: Sourced<f64>,
}

/// One row of the traffic factors.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TrafficFactor {
    /// Upper limit in vehicles a day; none in the last row.
    pub limit: Option<f64>,
    /// Whether a count exactly on the limit still belongs to this row.
    #[serde(default)]
    pub limit_included: bool,
    /// Share of the voids to fill.
    pub factor: f64,
}

/// Volume of binder at spraying temperature.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BinderVolumeRules {
    /// Temperature at which product is measured and sold, degrees Celsius.
    pub base_c: Sourced<f64>,
    /// Cutback at least this dense (kg/m3 at 15 °C) follows `cutback_dense`, lighter follows `cutback_light`.
    pub dense_from_kg_per_m3: Sourced<f64>,
    /// `[c0, c1, c2]` of the factor `c0 + c1 * T + c2 * T^2` (T in °C) from hot to base volume.
    pub cutback_dense: Sourced<[f64; 3]>,
    /// The same for lighter product.
    pub cutback_light: Sourced<[f64; 3]>,
    /// `k` of the emulsion's factor `1 - k * (T - base)`, per °C.
    pub emulsion_per_c: Sourced<f64>,
}

/// Spraying window and flash point of one grade.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GradeRules {
    /// Cutback or emulsion.
    pub kind: BinderKind,
    /// Spraying temperature from and to, degrees Celsius.
    pub spray_window_c: Sourced<[f64; 2]>,
    /// Greatest temperature allowed at all, degrees Celsius.
    pub greatest_c: Sourced<f64>,
    /// Least flash point the grade must have, degrees Celsius; none where the standard states none.
    pub least_flash_c: Option<Sourced<f64>>,
}

/// What comes out of the cut.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpoilRules {
    /// Density in place, moist, kilograms per cubic metre.
    pub bank_density_kg_per_m3: Sourced<f64>,
    /// Loose volume over volume in place.
    pub bulking: Sourced<f64>,
}

/// How much more is dug out than was surveyed: `V_cut = V_surveyed * g`, `g` log-normal.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GrowthRules {
    /// Median of `g`.
    pub median: Sourced<f64>,
    /// Standard deviation of `ln g`.
    pub sigma: Sourced<f64>,
    /// Share of the growth that goes into depth: depth grows by `g^share`, area by `g^(1 - share)`.
    pub depth_share: Sourced<f64>,
    /// Correlation of `ln g` between two holes of one road.
    pub same_road_correlation: Sourced<f64>,
}

/// Task times of the crew, traffic control not included.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TimeRules {
    /// Mark out: clean and look first.
    pub mark_out_s: Sourced<f64>,
    /// Mark out: each metre of line.
    pub mark_out_s_per_m: Sourced<f64>,
    /// Cut out: setting up.
    pub cut_out_s: Sourced<f64>,
    /// Cut out: sawing or picking each metre of edge.
    pub cut_out_s_per_m: Sourced<f64>,
    /// Cut out: digging and loading each cubic metre in place.
    pub cut_out_s_per_m3: Sourced<f64>,
    /// Cut out: trimming each square metre of bottom.
    pub cut_out_s_per_m2: Sourced<f64>,
    /// Fill: placing each loose cubic metre.
    pub fill_s_per_m3: Sourced<f64>,
    /// Fill: levelling and judging the moisture of each layer.
    pub fill_s_per_layer: Sourced<f64>,
    /// Compact: bringing the machine in and checking each layer; the rolling itself is computed.
    pub compact_s_per_layer: Sourced<f64>,
    /// Seal: sweeping the surface, readying the sprayer.
    pub seal_s: Sourced<f64>,
    /// Seal: binder, stone and bedding each square metre.
    pub seal_s_per_m2: Sourced<f64>,
    /// Clean up: counting back tools and material.
    pub clean_up_s: Sourced<f64>,
    /// Clean up: sweeping each square metre sealed.
    pub clean_up_s_per_m2: Sourced<f64>,
}

/// Words of the cautions. Each shows and defers to local codes and licensed practice; none decides.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CautionRules {
    /// Larger or deeper than a patch.
    pub no_patch: Sourced<String>,
    /// Live traffic; always.
    pub traffic: Sourced<String>,
    /// Buried services; always, before digging.
    pub buried_services: Sourced<String>,
    /// Silica dust; always.
    pub dust: Sourced<String>,
    /// Vibration, noise and moving plant; always.
    pub vibration: Sourced<String>,
    /// Manual handling; always.
    pub manual_handling: Sourced<String>,
    /// Hot binder burns; always.
    pub hot_binder: Sourced<String>,
    /// Drains; always.
    pub drains: Sourced<String>,
    /// Working in heat; always.
    pub heat: Sourced<String>,
    /// Weather for sealing; always.
    pub weather: Sourced<String>,
    /// Cutback fire.
    pub cutback_fire: Sourced<String>,
    /// Cutback vapour.
    pub cutback_vapour: Sourced<String>,
    /// Emulsion.
    pub emulsion: Sourced<String>,
    /// Filling and carrying a pouring pot.
    pub pouring_pot: Sourced<String>,
}
