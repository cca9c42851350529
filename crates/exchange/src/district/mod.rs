//! The district file: TOML with units in the key names, read into `model::district::District`.
//!
//! All problems are found at once, each with line and column. The handbook page `district-file.md` lists every key.

pub(crate) mod checks;
mod crews;
mod fields;
mod repair_file;
pub(crate) mod section;
pub(crate) mod unit;

use std::path::Path;

use model::district::District;
use model::learnt::Factored;
use model::problem::{Problem, ProblemSeverity};

use crate::holes::HoleColumns;
use crate::text_file::{Lines, as_text, parse_toml, read_bytes};
pub use repair_file::{HoleGiven, RepairFile, RepairLayer, read_outline, read_repair};
use section::{Document, Section};

/// What a district file says.
#[derive(Debug, Clone, PartialEq)]
pub struct DistrictFile {
    /// The district itself.
    pub district: District,
    /// How to read the files it names.
    pub files: DistrictFiles,
    /// Warnings: used, but to be looked at.
    pub problems: Vec<Problem>,
}

/// How to read the files that go with a district.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct DistrictFiles {
    /// Column names of the hole list where they are not the documented ones.
    pub hole_columns: HoleColumns,
    /// Records of holes surveyed and dug, relative to the district file.
    pub growth_records: Option<String>,
    /// Folder of height tiles, relative to the district file.
    pub heights_folder: Option<String>,
    /// Folder in which the roads are kept made ready, relative to the district file.
    pub roads_cache_folder: Option<String>,
    /// What plans take over from a record.
    pub record: RecordUse,
}

/// What plans take over from a record that they are given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordUse {
    /// Factors that they do without.
    pub learnt_off: Vec<Factored>,
    /// Whether looks at repairs are put on the way.
    pub looks: bool,
}

impl Default for RecordUse {
    fn default() -> Self {
        RecordUse { learnt_off: Vec::new(), looks: true }
    }
}

/// Reads a district file.
///
/// # Errors
/// Every problem found, if any of them means that the district can't be used. Otherwise the problems beside the
/// district are warnings.
pub fn read_district(path: &Path) -> Result<(District, Vec<Problem>), Vec<Problem>> {
    read_district_file(path).map(|file| (file.district, file.problems))
}

/// Reads a district file along with what it says about the files that go with it.
///
/// # Errors
/// As [`read_district`].
pub fn read_district_file(path: &Path) -> Result<DistrictFile, Vec<Problem>> {
    let file = path.display().to_string();
    let bytes = read_bytes(path).map_err(|problem| vec![*problem])?;
    let text = as_text(&file, &bytes).map_err(|problem| vec![*problem])?;
    read_district_text(&file, text)
}

/// Reads the text of a district file; `file` is its name for messages.
///
/// # Errors
/// As [`read_district`].
pub fn read_district_text(file: &str, text: &str) -> Result<DistrictFile, Vec<Problem>> {
    let defaults = parse_toml("default.toml", DEFAULTS)?;
    read_with(file, text, Some(defaults.get_ref()))
}

/// The district that one hole is worked out for when there is no district file: invented, neutral defaults, each named
/// as one.
pub fn default_district() -> District {
    read_with("default.toml", DEFAULTS, None).expect("the embedded defaults are read by the tests").district
}

const DEFAULTS: &str = include_str!("default.toml");

fn read_with(file: &str, text: &str, defaults: Option<&toml::de::DeTable>) -> Result<DistrictFile, Vec<Problem>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let table = parse_toml(file, text)?;
    let document = Document::new(Lines::new(file, text.as_bytes()), "the district file");
    let read = fields::district(Section::outermost(&document, &table, vec![], defaults));
    let problems = document.into_problems();
    let is_unusable = problems.iter().any(|problem| problem.severity >= ProblemSeverity::Refused);
    match read {
        Some((district, files)) if !is_unusable => Ok(DistrictFile { district, files, problems }),
        _ => Err(problems),
    }
}
