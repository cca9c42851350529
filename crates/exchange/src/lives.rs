//! Lists of lives: how long each repair lasted, whether it failed then, and of which group it is. CSV, or Parquet.

mod group_names;
mod of_parquet;

use std::fs::File;
use std::io::Read;
use std::path::Path;

use model::life::{LifeRow, LifeRows};
use model::problem::{Locator, Problem, ProblemSeverity};

use self::group_names::{GROUPS_MAX, GroupFault, GroupNames};
use crate::record::{RawCell, Record, delimiter, next_record, rows};
use crate::suggest;
use crate::text_file::{BYTE_ORDER_MARK, Lines, not_utf8, read_bytes};

/// Longer is a wrong unit, whatever the unit.
const DURATION_MAX: f64 = 1e12;

/// Names of the columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LifeColumns<'c> {
    /// How long.
    pub duration: &'c str,
    /// Whether it failed: 1 or 0, true or false, yes or no.
    pub event: &'c str,
    /// Group; a file without such a column is one group, unless it was asked for by a name of its own.
    pub group: &'c str,
}

impl Default for LifeColumns<'_> {
    fn default() -> Self {
        LifeColumns { duration: "duration", event: "event", group: "group" }
    }
}

/// What a file says.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ReadLives {
    /// The lives of rows that can be used, groups in the order in which they first stand.
    pub lives: LifeRows,
    /// Rows that can't, and why.
    pub problems: Vec<Problem>,
}

/// Reads a list of lives.
///
/// # Errors
/// A file that can't be read, a column that is missing, no row that can be used.
pub fn read_lives(path: &Path, columns: LifeColumns) -> Result<ReadLives, Vec<Problem>> {
    let name = path.display().to_string();
    if let Some(file) = if_parquet(path) {
        return of_parquet::read(&name, file, columns);
    }
    let bytes = read_bytes(path).map_err(|problem| vec![*problem])?;
    read_lives_bytes(&name, &bytes, columns)
}

/// The file, where its first bytes are those of Parquet: it is read piece by piece.
fn if_parquet(path: &Path) -> Option<File> {
    let mut file = File::open(path).ok()?;
    let mut begin = [0; 4];
    file.read_exact(&mut begin).ok()?;
    (begin == of_parquet::MAGIC).then_some(file)
}

/// The same from what the file holds.
///
/// # Errors
/// As [`read_lives`].
pub fn read_lives_bytes(file: &str, bytes: &[u8], columns: LifeColumns) -> Result<ReadLives, Vec<Problem>> {
    if bytes.starts_with(&of_parquet::MAGIC) {
        return of_parquet::read(file, bytes::Bytes::copy_from_slice(bytes), columns);
    }
    let lines = Lines::new(file, bytes);
    if matches!(bytes.get(..2), Some([0xFF, 0xFE] | [0xFE, 0xFF])) {
        return Err(vec![not_utf8(&lines, 0)]);
    }
    let begins = if bytes.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len() } else { 0 };
    let delimiter = delimiter(&bytes[begins..]);
    let Some(header) = next_record(bytes, begins, delimiter) else {
        let right = "give a CSV file with a header line";
        return Err(vec![fatal("lives.list.empty", lines.whole(), "the file is empty".into(), right.into())]);
    };
    if let Some(quote) = header.bad_quote {
        let wrong = "a quote in the header is not closed".into();
        return Err(vec![fatal("lives.row.quote", lines.locate(quote), wrong, "close it".into())]);
    }
    let names: Vec<String> =
        header.cells.iter().map(|cell| String::from_utf8_lossy(&cell.bytes).trim().to_owned()).collect();
    let places = Places::of(&names, columns, &lines.locate(header.start))?;
    let mut read = ReadLives::default();
    let mut groups = GroupNames::default();
    for record in rows(bytes, header.end, delimiter) {
        match places.row(&record, &lines, &mut groups) {
            Ok(row) => read.lives.rows.push(row),
            Err(problem) => read.problems.push(*problem),
        }
    }
    read.lives.groups = groups.names;
    read.unless_empty(lines.whole())
}

impl ReadLives {
    fn unless_empty(mut self, whole: Locator) -> Result<Self, Vec<Problem>> {
        if self.lives.rows.is_empty() {
            let wrong = "there is no row that can be used".into();
            let right = "write one row for each repair below the header".into();
            self.problems.push(fatal("lives.list.empty", whole, wrong, right));
            return Err(self.problems);
        }
        Ok(self)
    }
}

/// Which cells hold what.
struct Places {
    duration: usize,
    event: usize,
    group: Option<usize>,
    width: usize,
}

impl Places {
    fn of(names: &[String], columns: LifeColumns, at: &Locator) -> Result<Places, Vec<Problem>> {
        let find = |asked: &str| names.iter().position(|name| name.eq_ignore_ascii_case(asked.trim()));
        let missing = |asked: &str| {
            let known: Vec<&str> = names.iter().map(String::as_str).collect();
            let wrong = format!("there is no column `{asked}`");
            let problem = fatal("lives.column.missing", at.clone(), wrong, suggest::hint(asked, &known));
            Problem { subject: asked.to_owned(), ..problem }
        };
        let mut problems = Vec::new();
        let mut need = |asked: &str| {
            find(asked).unwrap_or_else(|| {
                problems.push(missing(asked));
                0
            })
        };
        let (duration, event) = (need(columns.duration), need(columns.event));
        let group = find(columns.group);
        if group.is_none() && columns.group != LifeColumns::default().group {
            problems.push(missing(columns.group));
        }
        let places = Places { duration, event, group, width: names.len() };
        if problems.is_empty() { Ok(places) } else { Err(problems) }
    }

    fn row(&self, record: &Record, lines: &Lines, groups: &mut GroupNames) -> Result<LifeRow, Box<Problem>> {
        let refused = |code, at: usize, wrong: String, right: &str| refused(code, lines.locate(at), wrong, right);
        if let Some(quote) = record.bad_quote {
            let wrong = "a quote is opened here that is not closed where the cell ends".into();
            return Err(refused("lives.row.quote", quote, wrong, "close it"));
        }
        if record.cells.len() != self.width {
            let wrong = format!("{} fields where the header has {}", record.cells.len(), self.width);
            return Err(refused("lives.row.field_count", record.start, wrong, "write every field"));
        }
        let cell = |at: usize| &record.cells[at];
        let said = |cell: &RawCell| String::from_utf8_lossy(&cell.bytes).trim().to_owned();
        let duration_cell = cell(self.duration);
        let Some(duration) = number(&duration_cell.bytes).and_then(believable) else {
            let wrong = format!("a duration of `{}`", said(duration_cell));
            return Err(refused("lives.duration.wrong", duration_cell.start, wrong, DURATION_RIGHT));
        };
        let Some(failed) = yes_or_no(&cell(self.event).bytes) else {
            let wrong = format!("`{}` does not say whether it failed", said(cell(self.event)));
            return Err(refused("lives.event.wrong", cell(self.event).start, wrong, EVENT_RIGHT));
        };
        let name: &[u8] = self.group.map_or(b"all", |at| cell(at).bytes.trim_ascii());
        let group = groups.number(name).map_err(|fault| {
            let at = self.group.map_or(record.start, |at| cell(at).start);
            match fault {
                GroupFault::NotUtf8 => Box::new(not_utf8(lines, at)),
                GroupFault::TooMany(text) => refused("lives.group.too_many", at, too_many(&text), GROUP_RIGHT),
            }
        })?;
        Ok(LifeRow { duration, group, failed })
    }
}

const DURATION_RIGHT: &str = "write a number from 0 on, without unit";
const EVENT_RIGHT: &str = "1 if it failed then, 0 if it was whole";
const GROUP_RIGHT: &str = "name a column that holds few different words";

fn too_many(text: &str) -> String {
    format!("`{text}` is one group more than {GROUPS_MAX}")
}

fn number(bytes: &[u8]) -> Option<f64> {
    std::str::from_utf8(bytes).ok().and_then(|text| text.trim().parse().ok())
}

fn believable(duration: f64) -> Option<f64> {
    (0.0..=DURATION_MAX).contains(&duration).then_some(duration)
}

fn yes_or_no(bytes: &[u8]) -> Option<bool> {
    match bytes.trim_ascii().to_ascii_lowercase().as_slice() {
        b"1" | b"1.0" | b"true" | b"yes" => Some(true),
        b"0" | b"0.0" | b"false" | b"no" => Some(false),
        _ => None,
    }
}

fn fatal(code: &'static str, at: Locator, wrong: String, right: String) -> Problem {
    Problem { code, severity: ProblemSeverity::Fatal, at, subject: String::new(), wrong, right }
}

fn refused(code: &'static str, at: Locator, wrong: String, right: &str) -> Box<Problem> {
    Box::new(Problem { severity: ProblemSeverity::Refused, ..fatal(code, at, wrong, right.into()) })
}
