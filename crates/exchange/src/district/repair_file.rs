//! One repair as a file: the hole, its road, and whatever differs from the district. TOML, or JSON of the same shape.

use std::path::Path;

use model::district::District;
use model::place::FramePoint;
use model::problem::{Problem, ProblemSeverity};
use model::quantity::{Length, Volume};
use model::rules::repair::OldSurface;
use toml::Spanned;
use toml::de::DeTable;

use super::section::Absent::IsNothing;
use super::section::{Document, Section};
use super::unit::{HOLE_LENGTH, HOLE_VOLUME};
use super::{DEFAULTS, DistrictFiles, fields};
use crate::limits;
use crate::text_file::{Lines, as_text, json_as_toml, parse_toml, parse_toml_of, read_bytes};

/// The classes of an old seal.
const OLD_SURFACES: [(&str, OldSurface); 5] = [
    ("flushed", OldSurface::Flushed),
    ("smooth", OldSurface::Smooth),
    ("slightly_porous", OldSurface::SlightlyPorous),
    ("slightly_pocked", OldSurface::SlightlyPocked),
    ("badly_pocked", OldSurface::BadlyPocked),
];

/// What is known of one repair.
#[derive(Debug, Clone, PartialEq)]
pub struct RepairFile {
    /// The hole.
    pub hole: HoleGiven,
    /// Vehicles a day, both ways.
    pub vehicles_per_day: Option<f64>,
    /// The old seal under the overlap, by its class.
    pub old_surface: Option<OldSurface>,
    /// The same by its texture, litres per square metre of residual binder.
    pub old_texture_l_per_m2: Option<f64>,
    /// The district with everything that was laid over it.
    pub district: District,
    /// How to read the files it names.
    pub files: DistrictFiles,
    /// Warnings: used, but to be looked at.
    pub problems: Vec<Problem>,
}

/// One hole, or a cut already marked out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HoleGiven {
    /// Length.
    pub length: Option<Length>,
    /// Width.
    pub width: Option<Length>,
    /// Depth.
    pub depth: Option<Length>,
    /// Outline in metres along and across, in place of length and width.
    pub outline: Option<Vec<FramePoint>>,
    /// Volume that is open already.
    pub open_volume: Option<Volume>,
    /// Length and width, or outline, are those of the cut: nothing is added around it.
    pub as_cut: bool,
}

/// One text laid over the district, and what it is called in messages.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RepairLayer {
    /// Name for messages: a path, or the flag it came from.
    pub name: String,
    /// TOML, or JSON where the name ends in `.json`.
    pub text: String,
}

impl RepairLayer {
    /// Reads a layer from disk.
    ///
    /// # Errors
    /// The file can't be read, or is not UTF-8.
    pub fn read(path: &Path) -> Result<Self, Vec<Problem>> {
        let name = path.display().to_string();
        let bytes = read_bytes(path).map_err(|problem| vec![*problem])?;
        let text = as_text(&name, &bytes).map_err(|problem| vec![*problem])?;
        let text = text.strip_prefix('\u{feff}').unwrap_or(text).to_owned();
        Ok(RepairLayer { name, text })
    }
}

/// One repair from texts laid over the district, each over those before it; without a district file over neutral
/// defaults.
///
/// # Errors
/// Every problem of the district and of the first layer that can't be used. Unknown keys are problems.
pub fn read_repair(district: Option<&Path>, layers: &[RepairLayer]) -> Result<RepairFile, Vec<Problem>> {
    let below = match district {
        Some(path) => {
            super::read_district_file(path)?;
            RepairLayer::read(path)?
        }
        None => RepairLayer { name: "default.toml".into(), text: DEFAULTS.into() },
    };
    let defaults = parse_toml("default.toml", DEFAULTS)?;
    let nothing = [RepairLayer { name: String::new(), text: String::new() }];
    let layers = if layers.is_empty() { &nothing } else { layers };
    let bodies: Vec<String> = std::iter::once(&below).chain(layers).map(body).collect::<Result<_, _>>()?;
    let tables = bodies.iter().zip(std::iter::once(&below).chain(layers));
    let tables: Vec<Spanned<DeTable>> =
        tables.map(|(body, layer)| parse_toml_of(&layer.name, body, &layer.text)).collect::<Result<_, _>>()?;
    let mut read = Err(Vec::new());
    for (index, layer) in layers.iter().enumerate() {
        let under = tables[..=index].iter().rev().map(Spanned::get_ref).collect();
        let document = Document::new(Lines::new(&layer.name, layer.text.as_bytes()), "the repair file");
        let found = file(Section::outermost(&document, &tables[index + 1], under, Some(defaults.get_ref())));
        let problems = document.into_problems();
        let is_unusable = problems.iter().any(|problem| problem.severity >= ProblemSeverity::Refused);
        read = match found {
            Some(found) if !is_unusable => Ok(RepairFile { problems, ..found }),
            _ => return Err(problems),
        };
    }
    read
}

/// The text as TOML, every byte where it stood.
fn body(layer: &RepairLayer) -> Result<String, Vec<Problem>> {
    let is_json = Path::new(&layer.name).extension().is_some_and(|extension| extension.eq_ignore_ascii_case("json"));
    if is_json {
        json_as_toml(&layer.name, &layer.text).map_err(|problem| vec![*problem])
    } else {
        Ok(layer.text.clone())
    }
}

fn file(mut file: Section) -> Option<RepairFile> {
    let hole = hole(file.section("hole"));
    let mut road = file.section("road");
    let vehicles_per_day = road.number("vehicles_per_day", IsNothing);
    let old_surface = road.word("old_surface", &OLD_SURFACES, IsNothing);
    let old_texture_l_per_m2 = road.number("old_texture_l_per_m2", IsNothing);
    road.finish();
    let (district, files) = fields::district(file)?;
    let problems = Vec::new();
    Some(RepairFile { hole, vehicles_per_day, old_surface, old_texture_l_per_m2, district, files, problems })
}

fn hole(mut section: Section) -> HoleGiven {
    let length = section.quantity("length", HOLE_LENGTH, IsNothing);
    let width = section.quantity("width", HOLE_LENGTH, IsNothing);
    let depth = section.quantity("depth", HOLE_LENGTH, IsNothing);
    let open_volume = section.quantity("open_volume", HOLE_VOLUME, IsNothing);
    let as_cut = section.flag("as_cut", IsNothing).unwrap_or(false);
    let outline = match section.text("outline_m", IsNothing).map(|text| read_outline(&text)) {
        Some(Ok(ring)) => Some(ring),
        Some(Err(wrong)) => {
            let right = "write `along across; along across; ...` in metres, three points or more".into();
            section.report(ProblemSeverity::Refused, "district.outline.unreadable", "outline_m", wrong, right);
            None
        }
        None => None,
    };
    section.finish();
    HoleGiven { length, width, depth, outline, open_volume, as_cut }
}

/// Reads an outline: `along across; along across; ...` in metres.
///
/// # Errors
/// What is wrong with it, in words.
pub fn read_outline(text: &str) -> Result<Vec<FramePoint>, String> {
    let number = |word: &str| {
        let number = word.parse::<f64>().ok().filter(|number| number.abs() <= 1000.0);
        number.ok_or_else(|| format!("`{word}` is not a number of metres near the road"))
    };
    let ring = text
        .split(';')
        .map(str::trim)
        .filter(|point| !point.is_empty())
        .map(|point| match point.split_whitespace().collect::<Vec<_>>()[..] {
            [along, across] => Ok(FramePoint { along_m: number(along)?, across_m: number(across)? }),
            _ => Err(format!("`{point}` is not a pair of numbers")),
        })
        .collect::<Result<Vec<_>, String>>()?;
    if ring.len() < 3 {
        return Err(format!("the outline has {} points", ring.len()));
    }
    for place in [|point: &FramePoint| point.along_m, |point: &FramePoint| point.across_m] {
        let places = || ring.iter().map(place);
        let reach = places().fold(f64::NEG_INFINITY, f64::max) - places().fold(f64::INFINITY, f64::min);
        // Turned against the road, either way may be its length.
        if let Some(limit) = limits::of("hole", "length").filter(|limit| reach > limit.greatest()) {
            return Err(format!("the outline reaches over {reach:.0} m; {} ({})", limit.words(), limit.source));
        }
    }
    Ok(ring)
}
