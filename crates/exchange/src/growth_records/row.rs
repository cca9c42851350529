//! From the cells of one row to a record.

use std::collections::BTreeMap;

use jiff::civil::Date;
use model::growth::{DugSize, GrowthRecord};
use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{InLength, InVolume, Length, Volume, cubic_feet, cubic_metres, litres, us_gallons};
use model::rules::repair::GrowthRules;

use super::columns::{Field, Size};
use crate::limits;
use crate::quantity_text::{DecimalMark, LengthTextError, LengthUnit, number_and_unit, read_measured};

/// One row of the file.
pub struct Row {
    pub at: Locator,
    pub cells: BTreeMap<Field, Cell>,
    pub mark: DecimalMark,
}

/// One cell.
pub struct Cell {
    /// Trimmed.
    pub text: String,
    pub at: Locator,
    /// Unit that the header names.
    pub header_unit: Option<String>,
}

/// Units a volume may be written in, for messages.
const VOLUME_UNITS: &str = "m3, L, ft3, yd3, gal";
const LENGTH_UNITS: &str = crate::quantity_text::KNOWN_UNITS;

/// Reads one row: a record with warnings, or everything that is wrong with it.
pub fn read_row(
    row: &Row,
    rules: &GrowthRules,
    today: Option<Date>,
) -> Result<(GrowthRecord, Vec<Problem>), Vec<Problem>> {
    let hole = row.text(Field::Hole);
    let mut findings = Findings { subject: hole.clone(), problems: Vec::new() };
    if hole.is_empty() {
        findings.refuse("record.hole.missing", row.at_field(Field::Hole), "there is no hole's name".into(), "write it");
    }
    let surveyed = size(row, Field::Surveyed, &mut findings);
    let dug = size(row, Field::Dug, &mut findings);
    let date = date(row, today, &mut findings);
    let class = row.text(Field::Class);
    if rules.named(&class).is_none() {
        let known: Vec<&str> = rules.classes().map(|(name, _)| name).collect();
        let wrong =
            format!("`{class}` is neither a pavement class of the rules nor a class of road; it counts as default");
        let right = format!("one of {}, or a class of road such as tertiary", known.join(", "));
        findings.add(ProblemSeverity::Warning, "record.class.unknown", row.at_field(Field::Class), wrong, right);
    }
    if let (Some(surveyed), Some(dug)) = (&surveyed, &dug) {
        believed_growth(row, surveyed, dug, &mut findings);
    }
    let is_refused = findings.problems.iter().any(|problem| problem.severity >= ProblemSeverity::Refused);
    match (surveyed, dug) {
        (Some(surveyed), Some(dug)) if !is_refused => {
            let road = row.text(Field::Road);
            Ok((GrowthRecord { hole, road, class, surveyed, dug, date, from: row.at.clone() }, findings.problems))
        }
        _ => Err(findings.problems),
    }
}

impl Row {
    /// A cell that is not empty.
    fn cell(&self, field: Field) -> Option<&Cell> {
        self.cells.get(&field).filter(|cell| !cell.text.is_empty())
    }

    fn text(&self, field: Field) -> String {
        self.cell(field).map(|cell| cell.text.clone()).unwrap_or_default()
    }

    /// Where a field stands, or the row where it has none.
    fn at_field(&self, field: Field) -> &Locator {
        self.cells.get(&field).map_or(&self.at, |cell| &cell.at)
    }
}

/// What reading a row gathers.
struct Findings {
    subject: String,
    problems: Vec<Problem>,
}

impl Findings {
    fn refuse(&mut self, code: &'static str, at: &Locator, wrong: String, right: &str) {
        self.add(ProblemSeverity::Refused, code, at, wrong, right.into());
    }

    fn add(&mut self, severity: ProblemSeverity, code: &'static str, at: &Locator, wrong: String, right: String) {
        self.problems.push(Problem { code, severity, at: at.clone(), subject: self.subject.clone(), wrong, right });
    }
}

/// Size as surveyed or as dug. A volume written wins over length, width and depth.
fn size(row: &Row, side: fn(Size) -> Field, findings: &mut Findings) -> Option<DugSize> {
    let before = findings.problems.len();
    let depth = length(row, side(Size::Depth), Size::Depth, findings);
    if row.cell(side(Size::Volume)).is_some() {
        let volume = volume(row, side(Size::Volume), findings)?;
        return (findings.problems.len() == before).then_some(DugSize { volume, depth });
    }
    let [length, width] = [Size::Length, Size::Width].map(|size| length(row, side(size), size, findings));
    if findings.problems.len() > before {
        return None;
    }
    let absent = [(Size::Length, length), (Size::Width, width), (Size::Depth, depth)];
    let absent: Vec<String> =
        absent.iter().filter(|(_, value)| value.is_none()).map(|(size, _)| side(*size).word()).collect();
    if !absent.is_empty() {
        let wrong = format!("there is no {}, and no {}", absent.join(", "), side(Size::Volume).word());
        let right = "write the volume, or length, width and depth, each with its unit";
        findings.refuse("record.size.missing", &row.at, wrong, right);
        return None;
    }
    Some(DugSize { volume: length? * width? * depth?, depth })
}

/// A length with the limits of a hole's; `None` where there is none, or something is wrong with it.
fn length(row: &Row, field: Field, size: Size, findings: &mut Findings) -> Option<Length> {
    let cell = row.cell(field)?;
    let measured = read_measured(&cell.text, row.mark)
        .map_err(|error| text_fault(&error, cell, field, LENGTH_UNITS, findings))
        .ok()?;
    let header = match cell.header_unit.as_deref() {
        Some(word) => Some(LengthUnit::from_word(word).or_else(|| {
            unknown_unit(word, cell, field, LENGTH_UNITS, findings);
            None
        })?),
        None => None,
    };
    let unit = one_unit(measured.unit, header, cell, field, LENGTH_UNITS, findings)?;
    let length = unit.length(measured.number);
    in_limits(length.in_metres(), ("hole", size.word()), cell, field, findings).then_some(length)
}

/// A volume with the limits of a cut's.
fn volume(row: &Row, field: Field, findings: &mut Findings) -> Option<Volume> {
    let cell = row.cell(field)?;
    let (number, own) = number_and_unit(&cell.text, row.mark)
        .map_err(|error| text_fault(&error, cell, field, VOLUME_UNITS, findings))
        .ok()?;
    let mut unit = |word: &str| {
        let unit = volume_unit(word);
        if unit.is_none() {
            unknown_unit(word, cell, field, VOLUME_UNITS, findings);
        }
        unit
    };
    let own = if own.is_empty() { None } else { Some(unit(&own)?) };
    let header = match cell.header_unit.as_deref() {
        Some(word) => Some(unit(word)?),
        None => None,
    };
    let unit = one_unit(own, header, cell, field, VOLUME_UNITS, findings)?;
    let volume = unit.volume(number);
    in_limits(volume.in_cubic_metres(), ("record", "volume"), cell, field, findings).then_some(volume)
}

/// Units a volume may be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum VolumeUnit {
    CubicMetre,
    Litre,
    CubicFoot,
    CubicYard,
    UsGallon,
}

impl VolumeUnit {
    fn volume(self, number: f64) -> Volume {
        match self {
            VolumeUnit::CubicMetre => cubic_metres(number),
            VolumeUnit::Litre => litres(number),
            VolumeUnit::CubicFoot => cubic_feet(number),
            VolumeUnit::CubicYard => cubic_feet(27.0 * number),
            VolumeUnit::UsGallon => us_gallons(number),
        }
    }
}

fn volume_unit(word: &str) -> Option<VolumeUnit> {
    Some(match word.trim().to_lowercase().as_str() {
        "m3" | "m³" | "cubic metres" | "cubic meters" => VolumeUnit::CubicMetre,
        "l" | "litre" | "litres" | "liter" | "liters" => VolumeUnit::Litre,
        "ft3" | "ft³" | "cubic feet" => VolumeUnit::CubicFoot,
        "yd3" | "yd³" | "cubic yards" => VolumeUnit::CubicYard,
        "gal" | "us_gal" | "gallon" | "gallons" => VolumeUnit::UsGallon,
        _ => return None,
    })
}

/// The unit of the cell or of its header; both may name it if they name the same.
fn one_unit<U: PartialEq>(
    own: Option<U>,
    header: Option<U>,
    cell: &Cell,
    field: Field,
    known: &str,
    findings: &mut Findings,
) -> Option<U> {
    match (own, header) {
        (Some(own), Some(header)) if own != header => {
            let wrong = format!("{} `{}` has another unit than its header", field.word(), cell.text);
            findings.refuse("record.unit.conflict", &cell.at, wrong, "let both say the same");
            None
        }
        (None, None) => {
            let wrong = format!("{} `{}` has no unit, and none is guessed", field.word(), cell.text);
            findings.refuse(
                "record.unit.missing",
                &cell.at,
                wrong,
                &format!("write it here or in the header: {known}"),
            );
            None
        }
        (own, header) => own.or(header),
    }
}

fn unknown_unit(word: &str, cell: &Cell, field: Field, known: &str, findings: &mut Findings) {
    let wrong = format!("{}: `{word}` is not a known unit", field.word());
    findings.refuse("record.unit.unknown", &cell.at, wrong, &format!("known: {known}"));
}

fn text_fault(error: &LengthTextError, cell: &Cell, field: Field, known: &str, findings: &mut Findings) {
    if let LengthTextError::UnknownUnit(word) = error {
        return unknown_unit(word, cell, field, known, findings);
    }
    let wrong = match error {
        LengthTextError::NotFinite => format!("{} `{}` is not a finite number", field.word(), cell.text),
        LengthTextError::Comma(_) => {
            format!("{} `{}` has a comma, which may mean decimals or thousands", field.word(), cell.text)
        }
        _ => format!("{} `{}` is not a number", field.word(), cell.text),
    };
    findings.refuse(
        "record.size.unreadable",
        &cell.at,
        wrong,
        &format!("write a number and a unit ({known}), decimals with a point"),
    );
}

/// Whether a size is one that a cut can have.
fn in_limits(value: f64, (table, name): (&str, &str), cell: &Cell, field: Field, findings: &mut Findings) -> bool {
    let Some(limit) = limits::of(table, name).filter(|limit| !limit.holds(value)) else { return true };
    let wrong = format!("{} `{}` is absurd", field.word(), cell.text);
    findings.refuse("record.size.absurd", &cell.at, wrong, &format!("{} ({})", limit.words(), limit.source));
    false
}

/// A slip of the pen or of a unit shows most in what the hole grew by.
fn believed_growth(row: &Row, surveyed: &DugSize, dug: &DugSize, findings: &mut Findings) {
    let times = dug.volume.in_cubic_metres() / surveyed.volume.in_cubic_metres();
    if let Some(limit) = limits::of("record", "growth").filter(|limit| !limit.holds(times)) {
        let wrong = format!("{times:.3} times the surveyed volume was dug");
        findings.refuse("record.growth.absurd", &row.at, wrong, &format!("{} ({})", limit.words(), limit.source));
    }
}

/// The day it was dug.
fn date(row: &Row, today: Option<Date>, findings: &mut Findings) -> Option<Date> {
    let cell = row.cell(Field::Date)?;
    let day = cell.text.split(['T', 't', ' ']).next().unwrap_or_default();
    let is_iso = day.len() == 10 && day.as_bytes()[4] == b'-' && day.as_bytes()[7] == b'-';
    let Some(date) = day.parse::<Date>().ok().filter(|_| is_iso) else {
        let wrong = format!("date `{}` can't be read and is not used", cell.text);
        let right = "write year-month-day, e.g. 2026-11-20".into();
        findings.add(ProblemSeverity::Warning, "record.date.unreadable", &cell.at, wrong, right);
        return None;
    };
    if let Some(today) = today.filter(|today| date > *today) {
        let wrong = format!("date {date} is in the future");
        findings.refuse("record.date.future", &cell.at, wrong, &format!("the day it was dug, {today} or before"));
    }
    Some(date)
}
