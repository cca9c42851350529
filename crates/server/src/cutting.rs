//! A hole that is marked out on the spot: what is asked, and what comes of it.

use std::collections::BTreeMap;

use model::hole::Wetness;
use model::record::happened::Position;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// A hole as it was measured.
#[derive(Debug, Clone, PartialEq, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct CutAsked {
    /// Its outline, metres: along the road, across it to the right; three points or more.
    pub outline: Vec<[f64; 2]>,
    /// Its depth.
    pub depth_mm: f64,
    /// How wet it is: `dry`, `damp`, `wet`, `seepage` or `pumping`.
    #[serde(default)]
    #[schema(value_type = Option<String>)]
    pub wetness: Option<Wetness>,
    /// Where it is, so that the road's traffic counts: `{"lon", "lat"}`.
    #[serde(default)]
    #[schema(value_type = Option<Object>)]
    pub near: Option<Position>,
}

/// The cut and its repair.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CutShown {
    /// Of the cut, in the outline's frame.
    pub corners: Vec<[f64; 2]>,
    /// Area of the cut.
    pub cut_area_m2: CutFigure,
    /// Edge to saw or pick.
    pub perimeter_m: CutFigure,
    /// Area of the hole.
    pub hole_area_m2: CutFigure,
    /// Sound road that is cut out with it.
    pub wasted_m2: CutFigure,
    /// From the bottom up.
    pub layers: Vec<CutLayer>,
    /// Base to load, loose.
    pub base_loose_m3: CutFigure,
    /// Water to add.
    pub water_l: CutFigure,
    /// Binder, hot.
    pub binder_l: CutFigure,
    /// Cover stone, loose.
    pub cover_stone_m3: CutFigure,
    /// Spoil, loose.
    pub spoil_m3: CutFigure,
    /// Without traffic control.
    pub duration_min: CutFigure,
    /// Of each figure, how it was worked out.
    pub why: BTreeMap<&'static str, String>,
    /// Whether it is a patch by the agency's limits; otherwise it is the engineer's.
    pub is_patch: bool,
    /// Why it is none, and what could not be kept.
    pub remarks: Vec<String>,
    /// That go with materials and plant.
    pub cautions: Vec<String>,
    /// Plan of the cut, section, order of compacting: one drawing.
    pub svg: String,
}

/// A figure with its spread: one in ten is below `p10`, half below `p50`, nine in ten below `p90`.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CutFigure {
    /// For the hole as measured.
    pub value: f64,
    /// Nothing where nothing uncertain enters.
    pub p10: Option<f64>,
    /// Likewise.
    pub p50: Option<f64>,
    /// Likewise.
    pub p90: Option<f64>,
    /// The rule in symbols; what went in; where the rule is from.
    pub why: String,
}

/// A layer of base.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CutLayer {
    /// From the bottom, from 1.
    pub number: u32,
    /// Compacted.
    pub thickness_mm: f64,
    /// Placed loose.
    pub loose_thickness_mm: f64,
    /// Placed loose.
    pub loose_volume_m3: f64,
}
