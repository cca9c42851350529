//! What may be given for one seal, by flags or in a file.

use std::path::{Path, PathBuf};
use std::str::FromStr;

use exchange::number_list::{NumberColumn, read_number_list};
use exchange::quantity_text::read_length;
use model::district::BinderKind;
use model::problem::Problem;
use model::quantity::{InLength, Length, millimetres};
use model::rules::repair::{BaseCondition, OldSurface, SealMethod};
use serde::Deserialize;

use crate::commands::word;

/// What may be given for one seal; the rest is the district's.
#[derive(Debug, Clone, Default, clap::Args, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub(super) struct Request {
    /// mcleod or austroads.
    #[arg(long, value_parser = word::<SealMethod>)]
    pub method: Option<SealMethod>,
    /// Basic voids factor Vf for this traffic, L/m2 per mm, read off the charts of the Austroads guide.
    #[arg(long, allow_hyphen_values = true)]
    pub void_factor: Option<f64>,
    /// Vehicles a day, both ways.
    #[arg(long, allow_hyphen_values = true)]
    pub vehicles_per_day: Option<f64>,
    /// Old seal under the overlap: flushed, smooth, `slightly_porous`, `slightly_pocked` or `badly_pocked`.
    #[arg(long, value_parser = word::<OldSurface>)]
    pub old_surface: Option<OldSurface>,
    /// Fresh base: primed, tight, medium or open.
    #[arg(long, value_parser = word::<BaseCondition>)]
    pub base_condition: Option<BaseCondition>,
    /// Fresh base to seal, square metres.
    #[arg(long, allow_hyphen_values = true)]
    pub area_m2: Option<f64>,
    /// Old seal under the overlap, square metres.
    #[arg(long, allow_hyphen_values = true)]
    pub overlap_m2: Option<f64>,
    /// Nominal size of the cover stone.
    #[arg(long, allow_hyphen_values = true)]
    pub nominal_size: Option<LengthText>,
    /// Median size.
    #[arg(long, allow_hyphen_values = true)]
    pub median_size: Option<LengthText>,
    /// Flakiness index.
    #[arg(long, allow_hyphen_values = true)]
    pub flakiness_percent: Option<f64>,
    /// Average least dimension, as measured.
    #[arg(long, allow_hyphen_values = true)]
    pub least_dimension: Option<LengthText>,
    /// CSV of particles measured one by one: column `least_dimension_mm`.
    #[arg(long)]
    pub least_dimensions: Option<PathBuf>,
    /// CSV of the flakiness test, a row for each sieve fraction: columns `tested_g`, `passing_g`.
    #[arg(long)]
    pub slotted_gauge: Option<PathBuf>,
    /// CSV of a grading: columns `opening_mm`, `passing_percent`.
    #[arg(long)]
    pub grading: Option<PathBuf>,
    /// Loose density of the stone.
    #[arg(long, allow_hyphen_values = true)]
    pub loose_density_kg_per_m3: Option<f64>,
    /// Density of the stone's particles.
    #[arg(long, allow_hyphen_values = true)]
    pub particle_density_kg_per_m3: Option<f64>,
    /// Grade of the binder, e.g. CRS-2.
    #[arg(long)]
    pub grade: Option<String>,
    /// cutback or emulsion, where the grade is not one of the rules.
    #[arg(long, value_parser = word::<BinderKind>)]
    pub kind: Option<BinderKind>,
    /// Residue of the binder, of the volume.
    #[arg(long, conflicts_with = "residue_by_mass_percent", allow_hyphen_values = true)]
    pub residue_percent: Option<f64>,
    /// Residue of the binder, of the mass.
    #[arg(long, allow_hyphen_values = true)]
    pub residue_by_mass_percent: Option<f64>,
    /// Spraying temperature.
    #[arg(long, allow_hyphen_values = true)]
    pub spray_temperature_c: Option<f64>,
    /// Density of the binder at 15 °C.
    #[arg(long, allow_hyphen_values = true)]
    pub binder_density_kg_per_m3: Option<f64>,
    /// Temperature of the road's surface, as measured.
    #[arg(long, allow_hyphen_values = true)]
    pub surface_temperature_c: Option<f64>,
}

impl Request {
    /// These values, and where there are none those below.
    pub fn over(self, below: Request) -> Request {
        // The two say the same thing: a flag of either kind goes before both of the file.
        let has_residue = self.residue_percent.is_some() || self.residue_by_mass_percent.is_some();
        let residue = |own: Option<f64>, below: Option<f64>| if has_residue { own } else { below };
        Request {
            method: self.method.or(below.method),
            void_factor: self.void_factor.or(below.void_factor),
            vehicles_per_day: self.vehicles_per_day.or(below.vehicles_per_day),
            old_surface: self.old_surface.or(below.old_surface),
            base_condition: self.base_condition.or(below.base_condition),
            area_m2: self.area_m2.or(below.area_m2),
            overlap_m2: self.overlap_m2.or(below.overlap_m2),
            nominal_size: self.nominal_size.or(below.nominal_size),
            median_size: self.median_size.or(below.median_size),
            flakiness_percent: self.flakiness_percent.or(below.flakiness_percent),
            least_dimension: self.least_dimension.or(below.least_dimension),
            least_dimensions: self.least_dimensions.or(below.least_dimensions),
            slotted_gauge: self.slotted_gauge.or(below.slotted_gauge),
            grading: self.grading.or(below.grading),
            loose_density_kg_per_m3: self.loose_density_kg_per_m3.or(below.loose_density_kg_per_m3),
            particle_density_kg_per_m3: self.particle_density_kg_per_m3.or(below.particle_density_kg_per_m3),
            grade: self.grade.or(below.grade),
            kind: self.kind.or(below.kind),
            residue_percent: residue(self.residue_percent, below.residue_percent),
            residue_by_mass_percent: residue(self.residue_by_mass_percent, below.residue_by_mass_percent),
            spray_temperature_c: self.spray_temperature_c.or(below.spray_temperature_c),
            binder_density_kg_per_m3: self.binder_density_kg_per_m3.or(below.binder_density_kg_per_m3),
            surface_temperature_c: self.surface_temperature_c.or(below.surface_temperature_c),
        }
    }

    /// Files named in a file are relative to it.
    pub fn beside(mut self, folder: &Path) -> Request {
        for path in [&mut self.least_dimensions, &mut self.slotted_gauge, &mut self.grading].into_iter().flatten() {
            *path = folder.join(&*path);
        }
        self
    }
}

/// A length as text with its unit, in metres.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(try_from = "String")]
pub(super) struct LengthText(pub f64);

impl FromStr for LengthText {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        read_length(text).map(|length| LengthText(length.in_metres())).map_err(|error| error.to_string())
    }
}

impl TryFrom<String> for LengthText {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        text.parse()
    }
}

const SIZE: &[(&str, f64)] = &[("mm", 1.0), ("in", 25.4)];
const MASS: &[(&str, f64)] = &[("g", 1.0), ("kg", 1000.0)];
const SHARE: &[(&str, f64)] = &[("percent", 1.0)];

/// Particles measured one by one.
pub(super) fn least_dimensions(path: &Path, refused: &mut Vec<Problem>) -> Result<Vec<Length>, Vec<Problem>> {
    let list = read_number_list(path, [NumberColumn { name: "least_dimension", units: SIZE }])?;
    refused.extend(list.problems);
    Ok(list.rows.into_iter().map(|[size]| millimetres(size)).collect())
}

/// Masses tested and passing in grams.
pub(super) fn slotted_gauge(
    path: &Path,
    refused: &mut Vec<Problem>,
) -> Result<impl Iterator<Item = [f64; 2]>, Vec<Problem>> {
    pairs(path, [NumberColumn { name: "tested", units: MASS }, NumberColumn { name: "passing", units: MASS }], refused)
}

/// Openings in millimetres and shares passing in per cent.
pub(super) fn grading(path: &Path, refused: &mut Vec<Problem>) -> Result<impl Iterator<Item = [f64; 2]>, Vec<Problem>> {
    pairs(
        path,
        [NumberColumn { name: "opening", units: SIZE }, NumberColumn { name: "passing", units: SHARE }],
        refused,
    )
}

fn pairs(
    path: &Path,
    columns: [NumberColumn; 2],
    refused: &mut Vec<Problem>,
) -> Result<impl Iterator<Item = [f64; 2]> + use<>, Vec<Problem>> {
    let list = read_number_list(path, columns)?;
    refused.extend(list.problems);
    Ok(list.rows.into_iter())
}
