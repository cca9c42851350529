//! Shape of `rules/repair/*.toml`: how a cut is filled, compacted and sealed.
//!
//! The unit of each value is in its name. `name`, `about` and `extends` at the head of a file belong to the loader.

mod binder;
mod caution;
mod compactor;
mod growth;
mod moisture;
mod opening;
mod seal;
mod time;

use std::collections::BTreeMap;

use serde::Deserialize;

pub use binder::{BinderVolumeRules, GradeRules};
pub use caution::CautionRules;
pub use compactor::{CompactorPractice, CompactorRules, WorkedIn};
pub use growth::{GrowthClassRules, GrowthRules};
pub use moisture::{DryingRules, Evaporation, FeelRules, MoistureRules};
pub use opening::{OpenAfter, OpeningPractice, OpeningRules};
pub use seal::{
    AustroadsRules, BaseCondition, CorrectionBySurface, FreshBaseRules, McLeodRules, OldSurface, SealMethod, SealRules,
    SoakByCondition, TrafficFactor, VoidFactorByBand,
};
pub use time::TimeRules;

use super::Sourced;
use crate::hole::Wetness;

/// One set of repair practice.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RepairRules {
    /// The finished shape and the table for a deeper hole.
    pub fill: FillRules,
    /// What is still a patch.
    pub limits: LimitRules,
    /// Moisture and density of the placed base.
    pub moisture: MoistureRules,
    /// What each compactor can do.
    pub compactor: CompactorRules,
    /// Binder and cover stone rates.
    pub seal: SealRules,
    /// Volume of binder at spraying temperature.
    pub binder_volume: BinderVolumeRules,
    /// Opening a fresh seal to traffic.
    pub opening: OpeningRules,
    /// Residue, spraying window and flash point by grade; the key is the grade's designation.
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
    /// Least thickness of a layer, in diameters of its largest stone.
    pub least_layer_stones: Sourced<f64>,
    /// Step of depths in the table for a deeper hole, metres: every row is one step deeper than the one before.
    pub deeper_step_m: Sourced<f64>,
    /// Most rows of that table; it ends at `limits.patch_depth_m`.
    pub deeper_rows: Sourced<u32>,
}

/// What is still a patch; beyond any of these an engineer decides.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LimitRules {
    /// Greatest area of a cut, square metres.
    pub patch_area_m2: Sourced<f64>,
    /// Greatest depth of a cut, metres.
    pub patch_depth_m: Sourced<f64>,
    /// Greatest share of a lane that cuts may take, 0 to 1.
    pub cut_share: Sourced<f64>,
    /// Length of lane over which that share is taken, metres.
    pub cut_share_stretch_m: Sourced<f64>,
    /// States of the base that no patch mends.
    pub not_patch_wetness: Sourced<Vec<Wetness>>,
    /// Earlier repairs at one place, at most.
    pub repairs_max: Sourced<u32>,
    /// Repairs longer ago do not count, days.
    pub repairs_within_days: Sourced<u32>,
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
