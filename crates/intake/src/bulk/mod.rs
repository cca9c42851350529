//! A city's export of reports, CSV or `GeoJSON`, read as a stream: no more than a part of it is in memory at a time.
//!
//! Columns are passed in or guessed from the header, and what was guessed is said ([`BulkRead::columns`]). A row that can't be used
//! is a [`Problem`] with its line and column; the others go on. Coordinates that look exchanged, stand at zero or are no degrees
//! are refused with the reason and never put right. A time without a zone is taken as the district's, and that is said once.

mod columns;
mod csv_rows;
mod geojson_rows;
mod row;
mod when;

use std::collections::BTreeMap;
use std::collections::HashSet;
use std::collections::hash_map::DefaultHasher;
use std::hash::{Hash, Hasher};
use std::io::Read;
use std::ops::ControlFlow;

use jiff::Timestamp;
use jiff::civil::Date;
use model::problem::{Locator, Problem, ProblemSeverity};
use model::record::happened::{Happened, HoleSize, Position};
use uuid::Uuid;

pub use columns::{BulkField, ColumnUse};
pub use when::SlashOrder;

use crate::place::District;
use row::{Cells, RowAndWarnings};

/// After so many rows the caller is told how far it is, and may stop.
const TICK_ROWS: u64 = 4096;

/// The longest row or feature, bytes; a longer one is refused. A stream of it can't be kept in memory.
const ROW_MAX: usize = 1024 * 1024;

/// How to read an export.
#[derive(Debug, Clone)]
pub struct BulkOptions {
    /// Its name in messages.
    pub file: String,
    /// Names of columns, where they are known; the others are guessed.
    pub columns: BTreeMap<BulkField, String>,
    /// The word for the source of rows that do not tell theirs, as in the matching rules: `public`, `address` ...
    pub source: String,
    /// How dates with slashes are written; without it they are not used.
    pub slashes: Option<SlashOrder>,
    /// Where it may be and its time.
    pub district: District,
    /// Today in the district.
    pub today: Date,
}

/// A row that can be used.
#[derive(Debug, Clone, PartialEq)]
pub struct BulkRow {
    /// Line it begins on, from 1.
    pub line: usize,
    /// Its number at the office, may be empty.
    pub reference: String,
    /// Where.
    pub position: Position,
    /// When it was told or done.
    pub at: Option<Timestamp>,
    /// That day, in the district's time.
    pub day: Option<Date>,
    /// In the reporter's words.
    pub note: String,
    /// Where, in words.
    pub address: String,
    /// The word for its source.
    pub source: String,
    /// How large the hole is, as far as told.
    pub size: Option<Box<HoleSize>>,
    /// Where the office has closed it: how.
    pub closed: Option<Box<RowClosed>>,
    /// Whether its status says that it is open; where there is none, nothing is said.
    pub is_told_open: bool,
}

/// How the reason of a closing begins.
pub const CLOSED_AT_OFFICE: &str = "closed at the office";

/// How an office closed a case.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowClosed {
    /// When.
    pub at: Option<Timestamp>,
    /// That day, in the district's time.
    pub day: Option<Date>,
    /// There was a hole, as far as the status says; else it came to nothing or another case stands for it.
    pub dealt_with: bool,
    /// The office's word for it; may be empty.
    pub status: String,
}

/// What is told while an export is read.
pub trait BulkSink {
    /// A row that can be used.
    fn row(&mut self, row: BulkRow);

    /// Something wrong.
    fn problem(&mut self, problem: Problem);

    /// How far it is; `Break` stops.
    fn progress(&mut self, progress: BulkProgress) -> ControlFlow<()>;
}

/// How far the reading is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct BulkProgress {
    /// Bytes read.
    pub bytes: u64,
    /// Rows read, refused ones too.
    pub rows: u64,
}

/// What an export held.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BulkRead {
    /// Which column was used for what.
    pub columns: Vec<ColumnUse>,
    /// Rows or features, blank ones not counted; those used and those refused.
    pub rows: u64,
    /// Rows that were refused.
    pub refused: u64,
    /// Rows with a time that named no zone.
    pub without_zone: u64,
    /// Rows with a size that named no unit; it was left out.
    pub without_unit: u64,
    /// Rows whose status is no word that is known; they were taken as open unless they have a time of closing.
    pub unknown_status: u64,
    /// Whether the caller stopped it before its end.
    pub is_stopped: bool,
}

/// Reads an export, told by its first character: `GeoJSON` begins with `{`, all else is CSV.
pub fn read_bulk(mut from: impl Read, options: &BulkOptions, sink: &mut dyn BulkSink) -> BulkRead {
    let mut head = Vec::new();
    let mut reading = Reading::new(options, sink);
    // Blanks before the brace are few where a program wrote it.
    if let Err(error) = from.by_ref().take(1024).read_to_end(&mut head) {
        reading.unreadable(&error);
        return reading.end();
    }
    let text = head.strip_prefix(exchange::text_file::BYTE_ORDER_MARK).unwrap_or(&head);
    let is_geojson = text.trim_ascii_start().first() == Some(&b'{');
    let whole = head.as_slice().chain(from);
    if is_geojson {
        geojson_rows::read(whole, &mut reading);
    } else {
        csv_rows::read(whole, &mut reading);
    }
    reading.end()
}

impl BulkRow {
    /// As an event of the record.
    pub fn happened(&self, hole: Uuid) -> Happened {
        let address = (!self.address.is_empty()).then(|| format!("At: {}", self.address));
        let note = Some(self.note.clone()).filter(|note| !note.is_empty());
        Happened::HoleReported {
            hole,
            position: self.position,
            size: self.size.as_deref().copied().unwrap_or_default(),
            seen: self.day,
            note: note.into_iter().chain(address).collect::<Vec<_>>().join("\n"),
            source: self.source.clone(),
            reference: self.reference.clone(),
            contact: None,
        }
    }

    /// That the office has closed it, as an event of the record.
    pub fn closing(&self, hole: Uuid) -> Option<Happened> {
        let closed = self.closed.as_ref()?;
        let why = if closed.status.is_empty() {
            CLOSED_AT_OFFICE.to_owned()
        } else {
            format!("{CLOSED_AT_OFFICE}: {}", closed.status)
        };
        Some(Happened::HoleDismissed { hole, why, dealt_with: closed.dealt_with })
    }
}

/// A row with its warnings, or everything that is wrong with it.
type RowRead = Result<(BulkRow, Vec<Problem>), Vec<Problem>>;

/// The reading of one export.
struct Reading<'r> {
    options: &'r BulkOptions,
    sink: &'r mut dyn BulkSink,
    read: BulkRead,
    bytes: u64,
    /// Hashes of the references that have been.
    references: HashSet<u64>,
    first_without_zone: Option<Locator>,
    first_without_unit: Option<Locator>,
    first_unknown_status: Option<(Locator, String)>,
    /// Whether a problem was fatal.
    is_over: bool,
}

impl<'r> Reading<'r> {
    fn new(options: &'r BulkOptions, sink: &'r mut dyn BulkSink) -> Self {
        Reading {
            options,
            sink,
            read: BulkRead::default(),
            bytes: 0,
            references: HashSet::new(),
            first_without_zone: None,
            first_without_unit: None,
            first_unknown_status: None,
            is_over: false,
        }
    }

    /// Reads a row; what many have in common is kept for the end.
    fn read(&mut self, cells: &Cells) -> RowRead {
        let RowAndWarnings { row, warnings, of_many } = row::read(cells, self.options)?;
        let at = |reading: &Self| reading.at(row.line, 0);
        if of_many.without_zone {
            self.read.without_zone += 1;
            self.first_without_zone = self.first_without_zone.take().or_else(|| Some(at(self)));
        }
        if of_many.without_unit {
            self.read.without_unit += 1;
            self.first_without_unit = self.first_without_unit.take().or_else(|| Some(at(self)));
        }
        if let Some(word) = of_many.unknown_status {
            self.read.unknown_status += 1;
            self.first_unknown_status = self.first_unknown_status.take().or_else(|| Some((at(self), word)));
        }
        Ok((row, warnings))
    }

    /// Takes in what was read of a row; `Break` where nothing more is to be read.
    fn take(&mut self, row: RowRead) -> ControlFlow<()> {
        self.read.rows += 1;
        let row = row.and_then(|(row, warnings)| match self.repeated(&row) {
            Some(problem) => Err(vec![problem]),
            None => Ok((row, warnings)),
        });
        match row {
            Ok((row, warnings)) => {
                for problem in warnings {
                    self.sink.problem(problem);
                }
                self.sink.row(row);
            }
            Err(problems) => {
                self.read.refused += 1;
                for problem in problems {
                    self.sink.problem(problem);
                }
            }
        }
        if self.read.rows.is_multiple_of(TICK_ROWS) {
            let progress = BulkProgress { bytes: self.bytes, rows: self.read.rows };
            if self.sink.progress(progress).is_break() {
                self.read.is_stopped = true;
                return ControlFlow::Break(());
            }
        }
        ControlFlow::Continue(())
    }

    /// A reference that has been before. Of a million the odds that two share a hash are one in forty million.
    fn repeated(&mut self, row: &BulkRow) -> Option<Problem> {
        if row.reference.is_empty() {
            return None;
        }
        let mut hasher = DefaultHasher::new();
        row.reference.hash(&mut hasher);
        (!self.references.insert(hasher.finish())).then(|| Problem {
            code: "intake.reference.twice",
            severity: ProblemSeverity::Refused,
            at: self.at(row.line, 0),
            subject: row.reference.clone(),
            wrong: "a row above has the same number".into(),
            right: "one row for each number".into(),
        })
    }

    fn at(&self, line: usize, column: usize) -> Locator {
        Locator { file: self.options.file.clone(), line, column }
    }

    fn fatal(&mut self, code: &'static str, at: Locator, wrong: impl Into<String>, right: impl Into<String>) {
        self.is_over = true;
        let (wrong, right) = (wrong.into(), right.into());
        let severity = ProblemSeverity::Fatal;
        self.sink.problem(Problem { code, severity, at, subject: String::new(), wrong, right });
    }

    fn unreadable(&mut self, error: &std::io::Error) {
        let at = self.at(0, 0);
        self.fatal("file.unreadable", at, format!("the file can't be read: {error}"), "give a file that may be read");
    }

    /// Says what is to be said once.
    fn tell_of_sizes_and_status(&mut self) {
        let rows = |count: u64| {
            if count == 1 { "this row".to_owned() } else { format!("{count} rows, here the first of them,") }
        };
        let mut warnings = Vec::new();
        if let Some(at) = self.first_without_unit.take() {
            let wrong = format!("a size of {} has no unit and was left out", rows(self.read.without_unit));
            let right = "a unit with the value (300 mm), or at the end of the column's name (depth_mm)";
            warnings.push(("intake.size.no_unit", at, wrong, right.to_owned()));
        }
        if let Some((at, word)) = self.first_unknown_status.take() {
            let rows = rows(self.read.unknown_status);
            let wrong = format!(
                "the status {word} of {rows} is not known and says nothing; without a time of closing it is open"
            );
            warnings.push(("intake.status.unknown", at, wrong, "a word such as open or closed".to_owned()));
        }
        for (code, at, wrong, right) in warnings {
            let severity = ProblemSeverity::Warning;
            self.sink.problem(Problem { code, severity, at, subject: String::new(), wrong, right });
        }
    }

    fn end(mut self) -> BulkRead {
        if let Some(at) = self.first_without_zone.take() {
            let zone = &self.options.district.zone;
            let name = zone.iana_name().map_or_else(|| "the district's".to_owned(), str::to_owned);
            let words = match self.read.without_zone {
                1 => "this time names no zone and was taken".to_owned(),
                count => format!("{count} times name no zone, here the first of them, and were taken"),
            };
            self.sink.problem(Problem {
                code: "intake.time.no_zone",
                severity: ProblemSeverity::Warning,
                at,
                subject: String::new(),
                wrong: format!("{words} as {name} time"),
                right: "write times with their zone, e.g. 2026-11-20T08:00:00-05:00".into(),
            });
        }
        self.tell_of_sizes_and_status();
        if self.read.rows == 0 && !self.is_over && !self.read.is_stopped {
            let at = self.at(0, 0);
            self.fatal("intake.file.empty", at, "there are no rows", "one row or feature for each report");
        }
        if !self.read.is_stopped {
            let progress = BulkProgress { bytes: self.bytes, rows: self.read.rows };
            // The end is told; there is nothing left to stop.
            let _ = self.sink.progress(progress);
        }
        self.read
    }
}
