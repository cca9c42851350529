//! Specimens of a compaction test, one a row.

use std::path::Path;

use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{cubic_metres, fraction, kilograms, kilograms_per_cubic_metre};
use model::soil::{CompactionReading, DensityReading};

use crate::measure::Measure;
use crate::table::{Column, Row, Table, fatal, refused};
use crate::text_file::read_bytes;

const MOISTURE: &str = "moisture";
const DRY: &str = "dry density";
const WET: &str = "wet density";
const FULL: &str = "mould full";
const EMPTY: &str = "mould empty";
const VOLUME: &str = "mould volume";

static COLUMNS: [Column; 6] = [
    Column {
        names: &[MOISTURE, "water content", "moisture content", "w"],
        measure: Measure::Share,
        limit: ("specimen", "moisture"),
    },
    Column { names: &[DRY], measure: Measure::Density, limit: ("specimen", "density") },
    Column {
        names: &[WET, "moist density", "bulk density"],
        measure: Measure::Density,
        limit: ("specimen", "density"),
    },
    Column {
        names: &[FULL, "mold full", "mould and soil", "mold and soil", "wet mass", "wet soil"],
        measure: Measure::Mass,
        limit: ("specimen", "mould"),
    },
    Column { names: &[EMPTY, "mold empty", "mould", "mold"], measure: Measure::Mass, limit: ("specimen", "mould") },
    Column { names: &[VOLUME, "mold volume", "volume"], measure: Measure::Volume, limit: ("specimen", "volume") },
];

/// What a file of specimens held.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SpecimenFile {
    /// The usable specimens in the order of the file.
    pub readings: Vec<CompactionReading>,
    /// Everything that was wrong, in the order of the file.
    pub problems: Vec<Problem>,
    /// Rows below the header, blank ones not counted.
    pub rows: usize,
    /// Rows that gave no specimen.
    pub refused_rows: usize,
}

/// Reads a file of specimens. Never fails: one that can't be used at all gives a fatal problem.
pub fn read_specimens(path: &Path) -> SpecimenFile {
    match read_bytes(path) {
        Ok(bytes) => read_specimen_bytes(&path.display().to_string(), &bytes),
        Err(problem) => SpecimenFile { problems: vec![*problem], ..SpecimenFile::default() },
    }
}

/// Reads specimens from memory; `file` is its name for messages.
pub fn read_specimen_bytes(file: &str, bytes: &[u8]) -> SpecimenFile {
    let mut found = SpecimenFile::default();
    let Some(mut table) = Table::open(file, bytes, &COLUMNS, &mut found.problems) else { return found };
    let ways = [table.has(FULL) && table.has(VOLUME), table.has(WET), table.has(DRY)];
    if !table.has(MOISTURE) {
        found.problems.push(table.missing(MOISTURE, "name it e.g. `moisture (%)`"));
    }
    if !ways.contains(&true) {
        let right = "give `wet density (kg/m3)`, or `dry density (kg/m3)`, or `mould full (g)`, `mould empty (g)` and \
                     `mould volume (cm3)`";
        found.problems.push(table.missing("density", right));
    }
    if found.problems.iter().any(|problem| problem.severity == ProblemSeverity::Fatal) {
        return found;
    }
    if ways.iter().filter(|way| **way).count() > 1 {
        found.problems.push(Problem {
            severity: ProblemSeverity::Warning,
            ..fatal(
                "proctor.density.several",
                table.header.clone(),
                "the density is given in more than one way",
                "the weighed mould goes before the wet density, the wet before the dry",
            )
        });
    }
    while let Some(row) = table.next_row() {
        found.rows += 1;
        match row.and_then(|row| reading(&row)) {
            Ok(reading) => found.readings.push(reading),
            Err(problems) => {
                found.refused_rows += 1;
                found.problems.extend(problems);
            }
        }
    }
    if found.rows == 0 {
        let right = "write one row for each specimen";
        found.problems.push(fatal("table.empty", table.header, "there are no rows below the header", right));
    }
    found
}

fn reading(row: &Row) -> Result<CompactionReading, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut number = |name: &str| match row.number(name) {
        Some(Ok(number)) => Some(number),
        Some(Err(problem)) => {
            problems.push(*problem);
            None
        }
        None => None,
    };
    let moisture = number(MOISTURE);
    let (full, empty, volume) = (number(FULL), number(EMPTY), number(VOLUME));
    let (wet, dry) = (number(WET), number(DRY));
    let density = match (full, volume, wet, dry) {
        (Some(full), Some(volume), _, _) => Some(DensityReading::Mould {
            full: kilograms(full),
            // Without a column for it the specimen was weighed by itself.
            empty: kilograms(empty.unwrap_or(0.0)),
            volume: cubic_metres(volume),
        }),
        (_, _, Some(wet), _) => Some(DensityReading::Wet(kilograms_per_cubic_metre(wet))),
        (_, _, _, Some(dry)) => Some(DensityReading::Dry(kilograms_per_cubic_metre(dry))),
        _ => None,
    };
    match (moisture, density) {
        (Some(moisture), Some(density)) if problems.is_empty() => {
            Ok(CompactionReading { moisture: fraction(moisture), density, from: row.at.clone() })
        }
        (moisture, density) => {
            if problems.is_empty() {
                problems.extend(moisture.is_none().then(|| lacks(&row.at, "moisture")));
                problems.extend(density.is_none().then(|| lacks(&row.at, "density")));
            }
            Err(problems)
        }
    }
}

fn lacks(at: &Locator, what: &str) -> Problem {
    refused("proctor.point.incomplete", at.clone(), format!("there is no {what}"), "write it, or delete the row".into())
}
