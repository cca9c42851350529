//! Lists of holes: CSV or GeoJSON, told by content. A bad row is refused with its place and what would be right; the
//! rest goes on, and nothing is lost: rows = holes + refused rows.

mod columns;
mod csv_list;
mod geojson_list;
mod outline;
mod place;
mod row;
mod size;
mod words;

use std::collections::BTreeMap;
use std::path::Path;

use jiff::civil::Date;
use model::hole::Hole;
use model::place::LonLat;
use model::problem::{Problem, ProblemSeverity};

use crate::text_file::{BYTE_ORDER_MARK, Lines, not_utf8, read_bytes};
pub use columns::{HoleColumns, HoleField};
pub use size::{Dimension, read_size};

/// How to read a hole list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HoleOptions {
    /// Column names where they are not the documented ones.
    pub columns: HoleColumns,
    /// The district's depot, to tell swapped coordinates by; `None` leaves that to the range of latitude.
    pub depot: Option<LonLat>,
}

/// What a hole list held.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HoleFile {
    /// The usable holes in the order of the file.
    pub holes: Vec<Hole>,
    /// Everything that was wrong, in the order of the file.
    pub problems: Vec<Problem>,
    /// Rows (or features) in the file, the header and blank lines not counted; 0 where the file is of no use at all.
    pub rows: usize,
    /// Rows that gave no hole.
    pub refused_rows: usize,
}

/// Reads a hole list. `today` is the day against which a date lies in the future.
///
/// Never fails: a file that can't be used at all gives no holes and a fatal problem.
pub fn read_holes(path: &Path, options: &HoleOptions, today: Date) -> HoleFile {
    match read_bytes(path) {
        Ok(bytes) => read_hole_bytes(&path.display().to_string(), &bytes, options, today),
        Err(problem) => HoleFile { problems: vec![*problem], ..HoleFile::default() },
    }
}

/// Reads a hole list from memory; `file` is its name for messages.
pub fn read_hole_bytes(file: &str, bytes: &[u8], options: &HoleOptions, today: Date) -> HoleFile {
    let lines = Lines::new(file, bytes);
    let mut list = List::new(options, today);
    let begins = if bytes.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len() } else { 0 };
    if matches!(bytes.get(..2), Some([0xFF, 0xFE] | [0xFE, 0xFF])) {
        list.problems.push(not_utf8(&lines, 0));
    } else {
        match bytes[begins..].iter().find(|byte| !byte.is_ascii_whitespace()) {
            None => list.problems.push(empty(&lines)),
            Some(b'{' | b'[') => geojson_list::read(bytes, begins, &lines, &mut list),
            Some(_) => csv_list::read(bytes, begins, &lines, &mut list),
        }
    }
    list.finish()
}

/// A hole list while it is read.
struct List<'o> {
    options: &'o HoleOptions,
    today: Date,
    holes: Vec<Hole>,
    problems: Vec<Problem>,
    rows: usize,
    refused_rows: usize,
    /// Index of each hole by its id.
    by_id: BTreeMap<String, usize>,
}

impl<'o> List<'o> {
    fn new(options: &'o HoleOptions, today: Date) -> Self {
        List { options, today, holes: vec![], problems: vec![], rows: 0, refused_rows: 0, by_id: BTreeMap::new() }
    }

    /// Takes one row's hole, unless it is in the list already; or its problems.
    fn take(&mut self, read: Result<(Hole, Vec<Problem>), Vec<Problem>>) {
        self.rows += 1;
        match read.and_then(|(hole, warnings)| self.not_yet_listed(hole).map(|hole| (hole, warnings))) {
            Ok((hole, warnings)) => {
                self.by_id.insert(hole.id.0.clone(), self.holes.len());
                self.holes.push(hole);
                self.problems.extend(warnings);
            }
            Err(problems) => {
                self.refused_rows += 1;
                self.problems.extend(problems);
            }
        }
    }

    fn not_yet_listed(&self, hole: Hole) -> Result<Hole, Vec<Problem>> {
        let Some(first) = self.by_id.get(&hole.id.0).map(|index| &self.holes[*index]) else { return Ok(hole) };
        let is_same = Hole { from: first.from.clone(), ..hole.clone() } == *first;
        let (code, wrong, right) = if is_same {
            ("hole.id.repeated", "the same row stands", "leave it out; the first is used")
        } else {
            ("hole.id.taken", "another hole with this id but different values stands", "give this one an id of its own")
        };
        Err(vec![Problem {
            code,
            severity: ProblemSeverity::Refused,
            at: hole.from.clone(),
            subject: hole.id.0,
            wrong: format!("{wrong} in line {}", first.from.line),
            right: right.into(),
        }])
    }

    fn finish(self) -> HoleFile {
        HoleFile { holes: self.holes, problems: self.problems, rows: self.rows, refused_rows: self.refused_rows }
    }
}

fn empty(lines: &Lines) -> Problem {
    Problem {
        code: "hole.file.empty",
        severity: ProblemSeverity::Fatal,
        at: lines.whole(),
        subject: String::new(),
        wrong: "the file is empty".into(),
        right: "give a CSV file with a header line, or GeoJSON".into(),
    }
}
