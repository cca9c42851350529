//! Records of holes surveyed and dug: CSV, one row for each hole. A bad row is refused with its place and what would be
//! right; the rest goes on, and nothing is lost: rows = records + refused rows.

mod columns;
mod row;
mod rule_file;

use std::collections::BTreeMap;
use std::path::Path;

use jiff::civil::Date;
use model::growth::GrowthRecord;
use model::problem::{Locator, Problem, ProblemSeverity};
use model::rules::repair::GrowthRules;

use crate::quantity_text::DecimalMark;
use crate::record::{Record, delimiter, next_record, rows};
use crate::text_file::{BYTE_ORDER_MARK, Lines, not_utf8, read_bytes};
use columns::Layout;
use row::{Cell, Row, read_row};
pub use rule_file::growth_rule_file;

/// What a file of records held.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct GrowthFile {
    /// The usable records in the order of the file.
    pub records: Vec<GrowthRecord>,
    /// Everything that was wrong, in the order of the file.
    pub problems: Vec<Problem>,
    /// Rows in the file, the header and blank lines not counted; 0 where the file is of no use at all.
    pub rows: usize,
    /// Rows that gave no record.
    pub refused_rows: usize,
}

/// Reads records. `rules` say which pavement classes there are; a record dated after `today` is refused, with no `today`
/// none is.
///
/// Never fails: a file that can't be used at all gives no records and a fatal problem.
pub fn read_growth_records(path: &Path, rules: &GrowthRules, today: Option<Date>) -> GrowthFile {
    match read_bytes(path) {
        Ok(bytes) => read_growth_bytes(&path.display().to_string(), &bytes, rules, today),
        Err(problem) => GrowthFile { problems: vec![*problem], ..GrowthFile::default() },
    }
}

/// Reads records from memory; `file` is its name for messages.
pub fn read_growth_bytes(file: &str, bytes: &[u8], rules: &GrowthRules, today: Option<Date>) -> GrowthFile {
    let lines = Lines::new(file, bytes);
    let mut read = GrowthFile::default();
    let begins = if bytes.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len() } else { 0 };
    let delimiter = delimiter(&bytes[begins..]);
    if matches!(bytes.get(..2), Some([0xFF, 0xFE] | [0xFE, 0xFF])) {
        read.problems.push(not_utf8(&lines, 0));
        return read;
    }
    let Some(header) = next_record(bytes, begins, delimiter) else {
        let wrong = "the file is empty".into();
        read.problems.push(fatal("record.file.empty", lines.whole(), wrong, "give a CSV file with a header line"));
        return read;
    };
    let layout = match Layout::new(&header, &lines) {
        Ok((layout, warning)) => {
            read.problems.extend(warning);
            layout
        }
        Err(problems) => return GrowthFile { problems, ..read },
    };
    // Where the comma does not part cells it may part decimals.
    let mark = if delimiter == b',' { DecimalMark::Point } else { DecimalMark::CommaOrPoint };
    let mut lines_of: BTreeMap<(String, Option<Date>), usize> = BTreeMap::new();
    for record in rows(bytes, header.end, delimiter) {
        read.rows += 1;
        let row = layout.row(&record, &lines, mark);
        match row.and_then(|row| read_row(&row, rules, today)).and_then(|found| not_yet_read(found, &mut lines_of)) {
            Ok((found, warnings)) => {
                read.records.push(found);
                read.problems.extend(warnings);
            }
            Err(problems) => {
                read.refused_rows += 1;
                read.problems.extend(problems);
            }
        }
    }
    if read.rows == 0 {
        let wrong = "there are no rows below the header".into();
        let at = lines.locate(header.start);
        read.problems.push(fatal("record.file.header_only", at, wrong, "write one row for each hole dug"));
    }
    read
}

type Found = (GrowthRecord, Vec<Problem>);

/// One hole dug on one day is one record: twice would count it twice.
fn not_yet_read(
    (record, warnings): Found,
    lines_of: &mut BTreeMap<(String, Option<Date>), usize>,
) -> Result<Found, Vec<Problem>> {
    let key = (record.hole.clone(), record.date);
    if let Some(line) = lines_of.get(&key) {
        return Err(vec![Problem {
            code: "record.hole.repeated",
            severity: ProblemSeverity::Refused,
            at: record.from,
            subject: record.hole,
            wrong: format!("this hole stands in line {line} already, dug on the same day"),
            right: "leave it out, or write the day if it was dug again".into(),
        }]);
    }
    lines_of.insert(key, record.from.line);
    Ok((record, warnings))
}

fn fatal(code: &'static str, at: Locator, wrong: String, right: &str) -> Problem {
    Problem { code, severity: ProblemSeverity::Fatal, at, subject: String::new(), wrong, right: right.into() }
}
