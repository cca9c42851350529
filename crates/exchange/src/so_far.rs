//! How far the crews are in the course of a day: a TOML file with units in the key names, as the district file has them.
//!
//! A crew whose table can't be used whole is refused whole, since half of what it says would be planned wrong; the others go
//! on. The handbook page `so-far-file.md` lists every key.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use jiff::civil::Time as ClockTime;
use model::hole::HoleId;
use model::place::LonLat;
use model::problem::Problem;
use model::problem::ProblemSeverity::{Refused, Warning};
use model::quantity::{Time, Volume};
use model::round::SecondOfDay;
use model::so_far::{AboardSoFar, CrewSoFar, HalfDone, SoFar};

use crate::district::checks;
use crate::district::section::Absent::{IsNothing, IsWrong};
use crate::district::section::{Document, Section};
use crate::district::unit::{BIN_VOLUME, DURATION, TANK_VOLUME, Unit};
use crate::suggest;
use crate::text_file::{Lines, as_text, parse_toml, read_bytes};

/// What a file of how far the crews are held.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SoFarFile {
    /// The day so far, of the crews that can be used; `None` where the file can't be read or does not tell the time.
    pub so_far: Option<SoFar>,
    /// Everything that was wrong, in the order of the file.
    pub problems: Vec<Problem>,
    /// How many crews stand in the file.
    pub crews: usize,
    /// How many of them can't be used.
    pub refused_crews: usize,
}

/// Reads how far the crews are; `crews` are the names of the district's. Never fails: a file that can't be used at all
/// gives a fatal problem.
pub fn read_so_far(path: &Path, crews: &[&str]) -> SoFarFile {
    match read_bytes(path) {
        Ok(bytes) => read_so_far_bytes(&path.display().to_string(), &bytes, crews),
        Err(problem) => SoFarFile { problems: vec![*problem], ..SoFarFile::default() },
    }
}

/// Reads the same from memory; `file` is its name for messages.
pub fn read_so_far_bytes(file: &str, bytes: &[u8], crews: &[&str]) -> SoFarFile {
    let unusable = |problems| SoFarFile { problems, ..SoFarFile::default() };
    let text = match as_text(file, bytes) {
        Ok(text) => text.strip_prefix('\u{feff}').unwrap_or(text),
        Err(problem) => return unusable(vec![*problem]),
    };
    let table = match parse_toml(file, text) {
        Ok(table) => table,
        Err(problems) => return unusable(problems),
    };
    let document = Document::new(Lines::new(file, text.as_bytes()), "the file of how far the crews are");
    let read = whole(&document, Section::outermost(&document, &table, vec![], None), crews);
    SoFarFile { problems: document.into_problems(), ..read }
}

fn whole(document: &Document, mut file: Section, crews: &[&str]) -> SoFarFile {
    let time = file.clock("time", IsWrong);
    let sections = file.sections("crews");
    if sections.is_empty() {
        let right = "write a table headed [[crews]] for each crew that is out".into();
        file.report(Warning, "so_far.crews.none", "crews", "no crew is out".into(), right);
    }
    let count = sections.len();
    let mut above = Above::default();
    let read: Vec<CrewSoFar> =
        sections.into_iter().filter_map(|section| crew(document, section, crews, &mut above)).collect();
    file.finish();
    let refused_crews = count - read.len();
    let so_far = time.map(|time| SoFar { time: second_of_day(time), crews: read });
    SoFarFile { so_far, problems: Vec::new(), crews: count, refused_crews }
}

fn second_of_day(time: ClockTime) -> SecondOfDay {
    let [hour, minute, second] = [time.hour(), time.minute(), time.second()].map(|part| u32::from(part.unsigned_abs()));
    SecondOfDay(3600 * hour + 60 * minute + second)
}

/// What is taken by what stands above in the file.
#[derive(Default)]
struct Above {
    crews: BTreeSet<String>,
    /// Each hole with what is said of it.
    holes: BTreeMap<String, String>,
}

/// A text with the byte where it stands.
type Placed = (String, usize);

fn crew<'d>(document: &Document, section: Section<'d>, crews: &[&str], above: &mut Above) -> Option<CrewSoFar> {
    let mut section: Section<'d> = section.limited_as("so_far");
    let refused_above = document.refused();
    let name = section.text("name", IsWrong);
    if let Some(name) = &name {
        is_known_once(&section, name, crews, &above.crews);
        above.crews.insert(name.clone());
    }
    checks::swapped_coordinates(&section);
    let lon = section.number("lon", IsWrong);
    let lat = section.number("lat", IsWrong);
    let rested = section.flag("rested", IsWrong);
    let done = section.text_list("done");
    let half_done: Vec<_> = section.sections("half_done").into_iter().map(half_done).collect();
    let next = section.text_list("next");
    let aboard = section.optional_section("aboard").map_or_else(AboardSoFar::default, aboard);
    section.finish();
    if document.refused() > refused_above {
        return None;
    }
    let name = name?;
    // A hole named again is one entry less, no more: the crew is where it is all the same.
    let mut once = |(hole, place): Placed, how: &str| {
        if let Some(before) = above.holes.get(&hole) {
            let wrong = format!("hole `{hole}` is {how} here and {before} above");
            let what = [format!("crew `{name}`"), wrong, "keep the one that is true; the first is used".into()];
            document.report(Refused, "so_far.hole.twice", place, what);
            return None;
        }
        above.holes.insert(hole.clone(), format!("{how} by `{name}`"));
        Some(HoleId(hole))
    };
    let done = done?.into_iter().filter_map(|hole| once(hole, "done")).collect();
    let half_done = half_done
        .into_iter()
        .flatten()
        .filter_map(|(hole, left)| Some(HalfDone { hole: once(hole, "half done")?, left }))
        .collect();
    let next = next?.into_iter().filter_map(|hole| once(hole, "next")).collect();
    let position = LonLat { lon: lon?, lat: lat? };
    Some(CrewSoFar { position, rested: rested?, aboard, done, half_done, next, crew: name })
}

/// The crew must be the district's and stand in the file once.
fn is_known_once(section: &Section, name: &str, crews: &[&str], above: &BTreeSet<String>) {
    if !crews.contains(&name) {
        let wrong = format!("the district has no crew `{name}`");
        section.report(Refused, "so_far.crew.unknown", "name", wrong, suggest::hint(name, crews));
    } else if above.contains(name) {
        let wrong = format!("crew `{name}` stands above in the file already");
        section.report(Refused, "so_far.crew.twice", "name", wrong, "write one table for each crew".into());
    }
}

fn half_done(mut section: Section) -> Option<(Placed, Time)> {
    let hole = section.placed_text("hole");
    let left = section.quantity("left", DURATION, IsWrong);
    section.finish();
    Some((hole?, left?))
}

/// What is not written is not on the truck.
fn aboard(mut section: Section) -> AboardSoFar {
    let mut amount = |key: &str, units: &[Unit<Volume>]| section.quantity(key, units, IsNothing).unwrap_or_default();
    let aboard = AboardSoFar {
        base: amount("base", BIN_VOLUME),
        cover_stone: amount("cover_stone", BIN_VOLUME),
        binder: amount("binder", TANK_VOLUME),
        water: amount("water", TANK_VOLUME),
        spoil: amount("spoil", BIN_VOLUME),
    };
    section.finish();
    aboard
}
