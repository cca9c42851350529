//! A sieve analysis, one sieve a row; rows `pan`, `washed` and `total` give the rest of the sample.

use std::path::Path;

use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{InLength, Length, fraction, kilograms, millimetres};
use model::soil::{SieveMark, SieveReading, SieveSample};

use crate::limits;
use crate::measure::Measure;
use crate::quantity_text::{DecimalMark, LengthUnit, read_measured};
use crate::table::{Column, Row, Table, fatal, refused};
use crate::text_file::read_bytes;

const SIEVE: &str = "sieve";
const RETAINED: &str = "retained";
const PASSING: &str = "passing";

static COLUMNS: [Column; 3] = [
    Column { names: &[SIEVE, "sieve size", "size", "opening"], measure: Measure::Mark, limit: ("sieving", "opening") },
    Column {
        names: &[RETAINED, "mass retained", "mass", "retained mass"],
        measure: Measure::Mass,
        limit: ("sieving", "mass"),
    },
    Column { names: &[PASSING, "percent passing"], measure: Measure::Share, limit: ("sieving", "passing") },
];

/// What a file of a sieve analysis held.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SieveFile {
    /// The sample.
    pub sample: SieveSample,
    /// Everything that was wrong, in the order of the file.
    pub problems: Vec<Problem>,
    /// Rows below the header, blank ones not counted.
    pub rows: usize,
    /// Rows that gave nothing.
    pub refused_rows: usize,
}

/// Reads a sieve analysis. Never fails: a file that can't be used at all gives a fatal problem.
pub fn read_sieves(path: &Path) -> SieveFile {
    match read_bytes(path) {
        Ok(bytes) => read_sieve_bytes(&path.display().to_string(), &bytes),
        Err(problem) => SieveFile { problems: vec![*problem], ..SieveFile::default() },
    }
}

/// Reads a sieve analysis from memory; `file` is its name for messages.
pub fn read_sieve_bytes(file: &str, bytes: &[u8]) -> SieveFile {
    let mut found = SieveFile::default();
    let Some(mut table) = Table::open(file, bytes, &COLUMNS, &mut found.problems) else { return found };
    if !table.has(SIEVE) {
        found.problems.push(table.missing(SIEVE, "name it `sieve`, or e.g. `sieve (mm)`"));
    }
    if table.has(RETAINED) == table.has(PASSING) {
        let right = "give either `retained (g)` or `passing (%)`";
        found.problems.push(table.missing("retained or passing", right));
    }
    if found.problems.iter().any(|problem| problem.severity == ProblemSeverity::Fatal) {
        return found;
    }
    while let Some(row) = table.next_row() {
        found.rows += 1;
        if let Err(problems) = row.and_then(|row| take(&row, &mut found.sample).map_err(|problem| vec![*problem])) {
            found.refused_rows += 1;
            found.problems.extend(problems);
        }
    }
    // A mass that is not counted shifts every share below it, and most often the whole.
    if found.refused_rows > 0 && table.has(RETAINED) {
        let wrong = "a row of masses can't be used, so no share is known";
        found.problems.push(fatal(
            "sieves.sample.unusable",
            table.header.clone(),
            wrong,
            "mend the row that is refused here",
        ));
    }
    if found.rows == 0 {
        let right = "write one row for each sieve";
        found.problems.push(fatal("table.empty", table.header, "there are no rows below the header", right));
    }
    found
}

/// What the first cell of a row names.
enum Named {
    Sieve(SieveMark),
    Pan,
    Washed,
    Total,
}

fn take(row: &Row, sample: &mut SieveSample) -> Result<(), Box<Problem>> {
    let lacks = |what: &str| {
        let wrong = format!("there is no {what}");
        Box::new(refused("sieves.row.incomplete", row.at.clone(), wrong, "write it, or delete the row".into()))
    };
    let (text, at, unit) = row.text(SIEVE).ok_or_else(|| lacks("sieve"))?;
    let named = named(text, at, unit, row.mark())?;
    let retained = row.number(RETAINED).transpose()?;
    let passing = row.number(PASSING).transpose()?;
    let mass = || retained.map(kilograms).ok_or_else(|| lacks("mass"));
    let slot = match named {
        Named::Sieve(mark) => {
            let reading = match (retained, passing) {
                (Some(mass), _) => SieveReading::Retained(kilograms(mass)),
                (None, Some(share)) => SieveReading::Passing(fraction(share)),
                (None, None) => return Err(lacks("reading")),
            };
            sample.sieves.push((mark, reading, row.at.clone()));
            return Ok(());
        }
        Named::Pan => &mut sample.pan,
        Named::Washed => &mut sample.washed,
        Named::Total => &mut sample.total,
    };
    if slot.is_some() {
        let wrong = format!("`{text}` stands here a second time");
        return Err(Box::new(refused("sieves.row.twice", at.clone(), wrong, "keep one of them".into())));
    }
    *slot = Some(mass()?);
    Ok(())
}

/// `No. 200`, `#200`, `75 µm`, `4.75 mm`, `3/8 in`, `pan`, `washed`, `total`.
fn named(text: &str, at: &Locator, unit: Option<LengthUnit>, mark: DecimalMark) -> Result<Named, Box<Problem>> {
    let plain = text.to_lowercase();
    match plain.as_str() {
        "pan" => return Ok(Named::Pan),
        "washed" | "wash" => return Ok(Named::Washed),
        "total" | "whole" => return Ok(Named::Total),
        _ => {}
    }
    let refuse = |wrong: String| {
        let right = "write e.g. `No. 200`, `4.75 mm`, `75 µm`, `3/8 in`, or pan, washed, total".into();
        Box::new(refused("sieves.sieve.unreadable", at.clone(), wrong, right))
    };
    let number = ["no.", "no", "#", "№"].iter().find_map(|head| plain.strip_prefix(head));
    if let Some(number) = number {
        let number = number.trim().parse().map_err(|_| refuse(format!("`{text}` is no sieve number")))?;
        return Ok(Named::Sieve(SieveMark::Number(number)));
    }
    let opening = opening(&plain, unit, mark).map_err(|why| refuse(format!("`{text}`: {why}")))?;
    let limit = limits::of("sieving", "opening");
    if let Some(limit) = limit.filter(|limit| !limit.holds(opening.in_millimetres())) {
        let right = format!("{} ({})", limit.words(), limit.source);
        let wrong = format!("no sieve has an opening of {text}");
        return Err(Box::new(refused("table.number.out_of_range", at.clone(), wrong, right)));
    }
    Ok(Named::Sieve(SieveMark::Opening(opening)))
}

fn opening(text: &str, unit: Option<LengthUnit>, mark: DecimalMark) -> Result<Length, String> {
    let micro = ["microns", "micron", "µm", "μm", "um"].iter().find_map(|tail| text.strip_suffix(tail));
    let measured = read_measured(micro.unwrap_or(text), mark).map_err(|error| error.to_string())?;
    match (micro, measured.unit, unit) {
        (Some(_), Some(_), _) => Err("two units".into()),
        (Some(_), None, _) => Ok(millimetres(measured.number / 1000.0)),
        (None, Some(unit), _) | (None, None, Some(unit)) => Ok(unit.length(measured.number)),
        (None, None, None) => Err("a number alone may be millimetres or a sieve number".into()),
    }
}
