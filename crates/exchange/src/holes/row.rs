//! From the cells of one row to a hole.

use std::collections::BTreeMap;

use jiff::civil::Date;
use model::hole::{Hole, HoleId, Shape};
use model::place::LonLat;
use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::Length;

use super::columns::HoleField;
use super::size::{Dimension, SizeFault};
use super::{outline, place, words};
use crate::quantity_text::{DecimalMark, LengthTextError, LengthUnit, read_measured};

/// One row of a list, or one feature.
pub struct Row {
    pub at: Locator,
    pub cells: BTreeMap<HoleField, Cell>,
    /// Place or shape, where it does not come from cells.
    pub shape: Option<Placed>,
    pub mark: DecimalMark,
}

/// One cell.
pub struct Cell {
    /// Trimmed.
    pub text: String,
    pub at: Locator,
    /// Unit that the header names.
    pub header_unit: Option<LengthUnit>,
}

/// A geometry as the file gives it, not yet checked.
pub enum Placed {
    Point(LonLat),
    Ring(Vec<LonLat>),
}

/// What reading a row gathers.
pub struct Findings {
    pub subject: String,
    pub problems: Vec<Problem>,
}

/// Reads one row: a hole with warnings, or everything that is wrong with it.
pub fn read_row(row: &Row, depot: Option<LonLat>, today: Date) -> Result<(Hole, Vec<Problem>), Vec<Problem>> {
    no_control_characters(row)?;
    let id = row.cell(HoleField::Id).map(|cell| cell.text.clone());
    let mut findings = Findings { subject: id.clone().unwrap_or_default(), problems: Vec::new() };
    if id.is_none() {
        findings.refuse("hole.id.missing", &row.at_field(HoleField::Id), "there is no id", "give every hole an id");
    }
    let shape = shape(row, depot, &mut findings);
    let depth = size(row, Dimension::Depth, &mut findings);
    let seen = row.cell(HoleField::Date).and_then(|cell| words::date(cell, today, &mut findings));
    let lane_position = row.cell(HoleField::Position).and_then(|cell| words::lane_position(cell, &mut findings));
    let wetness = row.cell(HoleField::Wet).and_then(|cell| words::wetness(cell, &mut findings));
    let source = row.cell(HoleField::Source).map(|cell| cell.text.to_lowercase()).unwrap_or_default();
    let repairs = row.cell(HoleField::Repairs).and_then(|cell| words::repairs(cell, today, &mut findings));
    let note = row.cell(HoleField::Note).map(|cell| cell.text.clone()).unwrap_or_default();
    let is_refused = findings.problems.iter().any(|problem| problem.severity >= ProblemSeverity::Refused);
    match (id, shape, depth) {
        (Some(id), Some((position, shape)), Some(depth)) if !is_refused => {
            let from = row.at.clone();
            let id = HoleId(id);
            let hole = Hole { id, position, shape, depth, seen, note, lane_position, wetness, source, repairs, from };
            Ok((hole, findings.problems))
        }
        _ => Err(findings.problems),
    }
}

/// Control characters have no place in a hole list, and printed in a message they could steer a terminal.
fn no_control_characters(row: &Row) -> Result<(), Vec<Problem>> {
    let steers = |c: char| c.is_control() && !matches!(c, '\n' | '\r' | '\t');
    let mut findings = Findings { subject: String::new(), problems: Vec::new() };
    for cell in row.cells.values() {
        if let Some(character) = cell.text.chars().find(|c| steers(*c)) {
            let wrong = format!("a control character, U+{:04X}, is in this field", u32::from(character));
            findings.refuse("hole.row.control_character", &cell.at, wrong, "delete it");
        }
    }
    if findings.problems.is_empty() { Ok(()) } else { Err(findings.problems) }
}

impl Row {
    /// A cell that is not empty.
    pub fn cell(&self, field: HoleField) -> Option<&Cell> {
        self.cells.get(&field).filter(|cell| !cell.text.is_empty())
    }

    /// Where a field stands, or the row where it has none.
    pub fn at_field(&self, field: HoleField) -> Locator {
        self.cells.get(&field).map_or(&self.at, |cell| &cell.at).clone()
    }
}

impl Findings {
    pub fn refuse(&mut self, code: &'static str, at: &Locator, wrong: impl Into<String>, right: impl Into<String>) {
        self.add(ProblemSeverity::Refused, code, at, wrong.into(), right.into());
    }

    pub fn warn(&mut self, code: &'static str, at: &Locator, wrong: impl Into<String>, right: impl Into<String>) {
        self.add(ProblemSeverity::Warning, code, at, wrong.into(), right.into());
    }

    fn add(&mut self, severity: ProblemSeverity, code: &'static str, at: &Locator, wrong: String, right: String) {
        self.problems.push(Problem { code, severity, at: at.clone(), subject: self.subject.clone(), wrong, right });
    }
}

/// Position and shape; an outline wins over length and width, and gives the position where the row has none.
fn shape(row: &Row, depot: Option<LonLat>, findings: &mut Findings) -> Option<(LonLat, Shape)> {
    let ring = match (&row.shape, row.cell(HoleField::Outline)) {
        (Some(Placed::Ring(ring)), _) => Some((ring.clone(), row.at.clone())),
        (_, Some(cell)) => Some((outline::read(cell, findings)?, cell.at.clone())),
        _ => None,
    };
    if let Some((ring, at)) = ring {
        let (ring, centre) = outline::checked(ring, &at, depot, findings)?;
        let has_place = row.cell(HoleField::Lon).is_some() || row.cell(HoleField::Lat).is_some();
        let position = if has_place { place::from_cells(row, depot, findings)? } else { centre };
        return Some((position, Shape::Outline(ring)));
    }
    let position = match &row.shape {
        Some(Placed::Point(point)) => place::checked(*point, &row.at, depot, findings),
        _ => place::from_cells(row, depot, findings),
    };
    let length = size(row, Dimension::Length, findings);
    let width = size(row, Dimension::Width, findings);
    Some((position?, Shape::Size { length: length?, width: width? }))
}

/// One size with its unit: the cell's own, the header's, or the unit column's, in that order.
fn size(row: &Row, dimension: Dimension, findings: &mut Findings) -> Option<Length> {
    let at = row.at_field(dimension.field());
    let Some(cell) = row.cell(dimension.field()) else {
        let fault = SizeFault::Text(LengthTextError::Empty);
        findings.problems.push(fault.problem(dimension, "", at, &findings.subject));
        return None;
    };
    let read = read_measured(&cell.text, row.mark).map_err(SizeFault::Text).and_then(|measured| {
        let unit = match (measured.unit, cell.header_unit) {
            (Some(own), Some(header)) if own != header => return Err(SizeFault::UnitConflict { own, header }),
            (Some(unit), _) | (None, Some(unit)) => unit,
            (None, None) => unit_of_row(row)?,
        };
        dimension.checked(unit.length(measured.number))
    });
    match read {
        Ok(length) => Some(length),
        Err(fault) => {
            let at = if fault.is_of_unit_column() { row.at_field(HoleField::Unit) } else { at };
            findings.problems.push(fault.problem(dimension, &cell.text, at, &findings.subject));
            None
        }
    }
}

/// The unit column's unit.
fn unit_of_row(row: &Row) -> Result<LengthUnit, SizeFault> {
    let cell = row.cell(HoleField::Unit).ok_or(SizeFault::Text(LengthTextError::NoUnit))?;
    LengthUnit::from_word(&cell.text).ok_or_else(|| SizeFault::UnitOfRow(cell.text.clone()))
}
