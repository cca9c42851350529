//! From the cells of one row to a report.

use std::borrow::Cow;

use exchange::quantity_text::{DecimalMark, KNOWN_UNITS, LengthUnit, read_measured};
use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::InLength as _;
use model::record::happened::{HoleSize, Position};

use super::when::{self, WhenFault};
use super::{BulkField, BulkOptions, BulkRow, RowClosed, columns};
use crate::place::believed;
use crate::text::{TextFault, one_line, quoted, several_lines};

/// The longest text of a field, characters: common practice, no source.
const REFERENCE_MAX: usize = 200;
const NOTE_MAX: usize = 4000;
const ADDRESS_MAX: usize = 500;
const SOURCE_MAX: usize = 60;
const STATUS_MAX: usize = 60;

/// The largest sizes that are believed of a hole, millimetres: as of events.
const SIDE_MAX_MM: f64 = 50_000.0;
const DEPTH_MAX_MM: f64 = 3_000.0;

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
    /// Unit of the column, where it is a size and its name tells one.
    pub unit: Option<LengthUnit>,
}

/// What many rows have in common, so that it is told once for all of them.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct OfMany {
    /// A time named no zone.
    pub without_zone: bool,
    /// A size named no unit.
    pub without_unit: bool,
    /// A status is no word that is known.
    pub unknown_status: Option<String>,
}

/// What was read of a row.
pub struct RowAndWarnings {
    /// It.
    pub row: BulkRow,
    /// What could not be used of it.
    pub warnings: Vec<Problem>,
    /// What is told once for all rows.
    pub of_many: OfMany,
}

/// A row, or everything that is wrong with it.
pub fn read(cells: &Cells, options: &BulkOptions) -> Result<RowAndWarnings, Vec<Problem>> {
    let mut row = Row { cells, options, subject: String::new(), problems: Vec::new(), of_many: OfMany::default() };
    let reference = row.text(BulkField::Reference, REFERENCE_MAX, one_line);
    row.subject.clone_from(&reference);
    let note = row.text(BulkField::Note, NOTE_MAX, several_lines);
    let address = row.text(BulkField::Address, ADDRESS_MAX, one_line);
    let source = row.text(BulkField::Source, SOURCE_MAX, one_line).to_lowercase();
    let position = row.position();
    let when = row.when(BulkField::Time);
    let size = row.size();
    let closed = row.closed(when);
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
                size: (size != HoleSize::default()).then(|| Box::new(size)),
                is_told_open: closed.is_none() && row.is_told_open(),
                closed: closed.map(Box::new),
            };
            Ok(RowAndWarnings { row: read, warnings: row.problems, of_many: row.of_many })
        }
        _ => Err(row.problems),
    }
}

struct Row<'r> {
    cells: &'r Cells<'r>,
    options: &'r BulkOptions,
    subject: String,
    problems: Vec<Problem>,
    of_many: OfMany,
}

/// Words of a status, small letters and digits only. Common practice of such exports, no source.
const OPEN_WORDS: [&str; 15] = [
    "open",
    "opened",
    "new",
    "reported",
    "received",
    "submitted",
    "registered",
    "acknowledged",
    "assigned",
    "inprogress",
    "pending",
    "scheduled",
    "reopened",
    "onhold",
    "active",
];

/// Of what was dealt with.
const DEALT_WITH_WORDS: [&str; 10] =
    ["closed", "complete", "completed", "done", "resolved", "fixed", "repaired", "filled", "finished", "archived"];

/// Of what is over without having been a hole, or one that another case stands for.
const CAME_TO_NOTHING_WORDS: [&str; 6] = ["duplicate", "invalid", "cancelled", "canceled", "rejected", "noaction"];

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

    /// A size that can't be used is left out; the hole is there without it.
    fn size(&mut self) -> HoleSize {
        HoleSize {
            length_mm: self.length(BulkField::Length, SIDE_MAX_MM),
            width_mm: self.length(BulkField::Width, SIDE_MAX_MM),
            depth_mm: self.length(BulkField::Depth, DEPTH_MAX_MM),
            ..HoleSize::default()
        }
    }

    fn length(&mut self, field: BulkField, most_mm: f64) -> Option<f64> {
        let unit = self.cells.of_fields.iter().find(|cell| cell.field == field)?.unit;
        let (text, at) = self.cell(field)?;
        let mark = if self.cells.has_decimal_comma { DecimalMark::CommaOrPoint } else { DecimalMark::Point };
        let right = format!("a length with its unit ({KNOWN_UNITS}), in the value or at the end of the column's name");
        let measured = match read_measured(text, mark) {
            Ok(measured) => measured,
            Err(error) => {
                let wrong = format!("the {} is not used: {error}", field.word());
                self.say(ProblemSeverity::Warning, "intake.size.unreadable", at, wrong, right);
                return None;
            }
        };
        let Some(unit) = measured.unit.or(unit) else {
            self.of_many.without_unit = true;
            return None;
        };
        let length_mm = unit.length(measured.number).in_millimetres();
        // what an office writes where nothing is known
        if length_mm == 0.0 {
            return None;
        }
        if !(0.0..=most_mm).contains(&length_mm) {
            let wrong = format!("the {} of {} is not used", field.word(), quoted(text, 40));
            let right = format!("more than nothing, at most {} m", most_mm / 1000.0);
            self.say(ProblemSeverity::Warning, "intake.size.range", at, wrong, right);
            return None;
        }
        Some(length_mm)
    }

    fn is_told_open(&self) -> bool {
        let status = self.cell(BulkField::Status);
        status.is_some_and(|(text, _)| OPEN_WORDS.contains(&columns::plain(text).as_str()))
    }

    /// Whether the office has closed it: by its status, and where there is none by the time of closing.
    fn closed(&mut self, told: Option<when::When>) -> Option<RowClosed> {
        let status = self.cell(BulkField::Status).map(|(text, _)| text);
        let mut came_to_nothing = false;
        let is_closed = status.and_then(|text| {
            let word = columns::plain(text);
            came_to_nothing = CAME_TO_NOTHING_WORDS.contains(&word.as_str());
            if came_to_nothing || DEALT_WITH_WORDS.contains(&word.as_str()) {
                return Some(true);
            }
            if !OPEN_WORDS.contains(&word.as_str()) {
                self.of_many.unknown_status = Some(quoted(text, 40));
                return None;
            }
            Some(false)
        });
        let when = if is_closed == Some(false) { None } else { self.when(BulkField::Closed) };
        if !is_closed.unwrap_or(when.is_some()) {
            return None;
        }
        let is_before = |when: &when::When| {
            told.is_some_and(|told| when.day < told.day || (when.at < told.at && when.at.is_some()))
        };
        let when = when.filter(|when| {
            let (text, at) = self.cell(BulkField::Closed).unwrap_or(("", self.cells.begin));
            if is_before(when) {
                let wrong = format!("it was closed at {}, before it was told, which is not used", quoted(text, 40));
                self.say(ProblemSeverity::Warning, "intake.closed.before", at, wrong, "a time after it was told");
            }
            !is_before(when)
        });
        Some(RowClosed {
            at: when.and_then(|when| when.at),
            day: when.map(|when| when.day),
            dealt_with: !came_to_nothing,
            status: status.map(|text| one_line(text, STATUS_MAX).unwrap_or_default()).unwrap_or_default(),
        })
    }

    /// A time that can't be used is left out; the hole is there without it.
    fn when(&mut self, field: BulkField) -> Option<when::When> {
        let (text, at) = self.cell(field)?;
        let shown = || quoted(text, 40);
        match when::read(text, &self.options.district.zone, self.options.slashes) {
            Ok(when) if when.day > self.options.today => {
                let (wrong, right) =
                    (format!("time {} is in the future and is not used", shown()), "a time that has been");
                self.say(ProblemSeverity::Warning, "intake.time.future", at, wrong, right);
                None
            }
            Ok(when) => {
                self.of_many.without_zone |= !when.has_zone;
                Some(when)
            }
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
