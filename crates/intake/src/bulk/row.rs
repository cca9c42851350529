//! From the cells of one row to a report.

use std::borrow::Cow;

use model::problem::{Locator, Problem, ProblemSeverity};
use model::record::happened::Position;

use super::when::{self, WhenFault};
use super::{BulkField, BulkOptions, BulkRow};
use crate::place::believed;
use crate::text::{TextFault, one_line, quoted, several_lines};

/// The longest text of a field, characters: common practice, no source.
const REFERENCE_MAX: usize = 200;
const NOTE_MAX: usize = 4000;
const ADDRESS_MAX: usize = 500;
const SOURCE_MAX: usize = 60;

/// The cells of a row that are used.
pub struct Cells<'c> {
    /// Byte it begins at.
    pub begin: usize,
    /// Line and column of a byte.
    pub place_of: &'c dyn Fn(usize) -> (usize, usize),
    pub of_fields: Vec<Cell<'c>>,
    /// The place, where it does not come from cells.
    pub place: Option<Position>,
    /// Whether a comma may part decimals.
    pub has_decimal_comma: bool,
}

/// One cell.
pub struct Cell<'c> {
    pub field: BulkField,
    pub text: Cow<'c, str>,
    /// Byte it begins at.
    pub byte: usize,
}

/// A row with warnings and whether its time named no zone, or everything that is wrong with it.
pub fn read(cells: &Cells, options: &BulkOptions) -> Result<(BulkRow, Vec<Problem>, bool), Vec<Problem>> {
    let mut row = Row { cells, options, subject: String::new(), problems: Vec::new() };
    let reference = row.text(BulkField::Reference, REFERENCE_MAX, one_line);
    row.subject.clone_from(&reference);
    let note = row.text(BulkField::Note, NOTE_MAX, several_lines);
    let address = row.text(BulkField::Address, ADDRESS_MAX, one_line);
    let source = row.text(BulkField::Source, SOURCE_MAX, one_line).to_lowercase();
    let position = row.position();
    let when = row.when();
    let is_refused = row.problems.iter().any(|problem| problem.severity >= ProblemSeverity::Refused);
    match position {
        Some(position) if !is_refused => {
            let read = BulkRow {
                line: (cells.place_of)(cells.begin).0,
                reference,
                position,
                at: when.and_then(|when| when.at),
                day: when.map(|when| when.day),
                note,
                address,
                source: if source.is_empty() { options.source.clone() } else { source },
            };
            Ok((read, row.problems, when.is_some_and(|when| !when.has_zone)))
        }
        _ => Err(row.problems),
    }
}

struct Row<'r> {
    cells: &'r Cells<'r>,
    options: &'r BulkOptions,
    subject: String,
    problems: Vec<Problem>,
}

impl<'r> Row<'r> {
    /// Text and first byte of a cell that says something.
    fn cell(&self, field: BulkField) -> Option<(&'r str, usize)> {
        let cell = self.cells.of_fields.iter().find(|cell| cell.field == field && !cell.text.trim().is_empty())?;
        Some((cell.text.trim(), cell.byte))
    }

    fn text(&mut self, field: BulkField, most: usize, take: fn(&str, usize) -> Result<String, TextFault>) -> String {
        let Some((text, at)) = self.cell(field) else { return String::new() };
        match take(text, most) {
            Ok(text) => text,
            Err(fault) => {
                let code = match fault {
                    TextFault::TooLong { .. } => "intake.text.too_long",
                    TextFault::Control { .. } => "intake.text.control_character",
                    TextFault::NotUtf8 => "intake.text.not_utf8",
                };
                let right = format!("a text of at most {most} characters without control characters");
                self.say(ProblemSeverity::Refused, code, at, format!("the {} {fault}", field.word()), right);
                String::new()
            }
        }
    }

    fn position(&mut self) -> Option<Position> {
        let (place, at) = if let Some(place) = self.cells.place {
            (place, self.cells.begin)
        } else {
            let (lon, lat) = (self.degrees(BulkField::Lon), self.degrees(BulkField::Lat));
            let at = self.cell(BulkField::Lon).map_or(self.cells.begin, |(_, at)| at);
            (Position { lon: lon?, lat: lat? }, at)
        };
        believed(place, self.options.district.bounds.as_ref())
            .map_err(|fault| {
                let (wrong, right) = fault.words(place);
                self.say(ProblemSeverity::Refused, fault.code(), at, wrong, right);
            })
            .ok()
    }

    fn degrees(&mut self, field: BulkField) -> Option<f64> {
        let right = "decimal degrees (WGS 84), e.g. -28.41230";
        let Some((text, at)) = self.cell(field) else {
            let at = self.cells.begin;
            self.say(
                ProblemSeverity::Refused,
                "intake.position.missing",
                at,
                format!("there is no {}", field.word()),
                right,
            );
            return None;
        };
        let plain = text.parse().ok();
        let read = plain.or_else(|| {
            let text = text.replace('\u{2212}', "-");
            if self.cells.has_decimal_comma { text.replacen(',', ".", 1) } else { text }.parse().ok()
        });
        let finite = read.filter(|number: &f64| number.is_finite());
        if finite.is_none() {
            let wrong = format!("the {} {} is not a finite number", field.word(), quoted(text, 40));
            self.say(ProblemSeverity::Refused, "intake.position.not_a_number", at, wrong, right);
        }
        finite
    }

    /// A time that can't be used is left out; the hole is there without it.
    fn when(&mut self) -> Option<when::When> {
        let (text, at) = self.cell(BulkField::Time)?;
        let shown = || quoted(text, 40);
        match when::read(text, &self.options.district.zone, self.options.slashes) {
            Ok(when) if when.day > self.options.today => {
                let (wrong, right) =
                    (format!("time {} is in the future and is not used", shown()), "a time that has been");
                self.say(ProblemSeverity::Warning, "intake.time.future", at, wrong, right);
                None
            }
            Ok(when) => Some(when),
            Err(WhenFault::Slashes) => {
                let wrong = format!("time {} may have the day or the month first and is not used", shown());
                self.say(ProblemSeverity::Warning, "intake.time.order", at, wrong, "say which of them comes first");
                None
            }
            Err(WhenFault::Unreadable) => {
                let wrong = format!("time {} can't be read and is not used", shown());
                let right = "2026-11-20T08:00:00-05:00, 2026-11-20 08:00 or 2026-11-20";
                self.say(ProblemSeverity::Warning, "intake.time.unreadable", at, wrong, right);
                None
            }
        }
    }

    fn say(
        &mut self,
        severity: ProblemSeverity,
        code: &'static str,
        byte: usize,
        wrong: impl Into<String>,
        right: impl Into<String>,
    ) {
        let (line, column) = (self.cells.place_of)(byte);
        let at = Locator { file: self.options.file.clone(), line, column };
        let (wrong, right) = (wrong.into(), right.into());
        self.problems.push(Problem { code, severity, at, subject: self.subject.clone(), wrong, right });
    }
}
