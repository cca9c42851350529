//! Hole lists as CSV: header, delimiter, cells with their places.

use std::collections::BTreeMap;

use model::problem::{Problem, ProblemSeverity};

use super::columns::{self, Column, HoleField};
use super::row::{Cell, Row, read_row};
use super::{HoleOptions, List};
use crate::quantity_text::DecimalMark;
use crate::record::{Record, delimiter, next_record, rows};
use crate::text_file::{Lines, not_utf8};

/// Reads the list in `bytes` from `begins` on.
pub fn read(bytes: &[u8], begins: usize, lines: &Lines, list: &mut List) {
    let delimiter = delimiter(&bytes[begins..]);
    let Some(header) = next_record(bytes, begins, delimiter) else { return };
    let layout = match Layout::new(&header, delimiter, list.options, lines) {
        Ok((layout, warning)) => {
            list.problems.extend(warning);
            layout
        }
        Err(problems) => return list.problems.extend(problems),
    };
    for record in rows(bytes, header.end, delimiter) {
        let row = layout.row(&record, lines);
        let read = row.and_then(|row| read_row(&row, list.options.depot, list.today));
        list.take(read);
    }
    if list.rows == 0 {
        list.problems.push(Problem {
            code: "hole.file.header_only",
            severity: ProblemSeverity::Fatal,
            at: lines.locate(header.start),
            subject: String::new(),
            wrong: "there are no rows below the header".into(),
            right: "write one row for each hole".into(),
        });
    }
}

/// Which cell of a row holds what.
struct Layout {
    columns: Vec<Option<Column>>,
    delimiter: u8,
}

impl Layout {
    fn new(
        header: &Record,
        delimiter: u8,
        options: &HoleOptions,
        lines: &Lines,
    ) -> Result<(Self, Option<Problem>), Vec<Problem>> {
        let at = lines.locate(header.start);
        if let Some(quote) = header.bad_quote {
            let wrong = "a quote is opened in the header that is not closed where the name ends".into();
            let problem = refused("hole.row.quote", lines.locate(quote), header, wrong, "close it");
            return Err(vec![Problem { severity: ProblemSeverity::Fatal, ..problem }]);
        }
        let mut problems = Vec::new();
        let mut columns = Vec::new();
        let (mut names, mut unused, mut found): (Vec<String>, Vec<String>, Vec<HoleField>) = Default::default();
        for cell in &header.cells {
            let here = lines.locate(cell.start);
            let name = String::from_utf8_lossy(&cell.bytes).trim().to_owned();
            let column = columns::column(&name, &options.columns).unwrap_or_else(|unit| {
                problems.push(columns::unknown_unit(&name, &unit, ProblemSeverity::Fatal, here.clone()));
                None
            });
            match column {
                Some(column) if found.contains(&column.field) => {
                    problems.push(columns::twice(&name, column.field, ProblemSeverity::Fatal, here));
                }
                Some(column) => found.push(column.field),
                None if name.is_empty() => {}
                None => unused.push(name.clone()),
            }
            names.push(name);
            columns.push(column);
        }
        // A column whose unit is not known is there, only not understood.
        if problems.is_empty() {
            problems = columns::missing(&found, &names, &options.columns, &at);
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        Ok((Layout { columns, delimiter }, columns::unused(&unused, at)))
    }

    /// Places a record's cells.
    fn row(&self, record: &Record, lines: &Lines) -> Result<Row, Vec<Problem>> {
        let at = lines.locate(record.start);
        if let Some(quote) = record.bad_quote {
            let wrong = "a quote is opened here that is not closed where the cell ends";
            let right =
                "close it, and write a quote inside a quoted cell twice; the lines below were read on their own";
            return Err(vec![refused("hole.row.quote", lines.locate(quote), record, wrong.into(), right)]);
        }
        let mut cells = BTreeMap::new();
        let mut problems = Vec::new();
        let surplus = record.cells.iter().skip(self.columns.len()).any(|cell| !cell.bytes.trim_ascii().is_empty());
        if record.cells.len() < self.columns.len() || surplus {
            let wrong = format!("{} fields where the header has {}", record.cells.len(), self.columns.len());
            let right = "write every field, and put a text with a delimiter in it in quotes";
            return Err(vec![refused("hole.row.field_count", at, record, wrong, right)]);
        }
        for (cell, column) in record.cells.iter().zip(&self.columns) {
            let text = match std::str::from_utf8(&cell.bytes) {
                Ok(text) => text.trim().to_owned(),
                Err(error) => {
                    let offset = bad_byte(cell.start, &cell.bytes, error.valid_up_to(), lines);
                    let problem = Problem { severity: ProblemSeverity::Refused, ..not_utf8(lines, offset) };
                    problems.push(Problem { code: "hole.row.not_utf8", subject: subject(record), ..problem });
                    continue;
                }
            };
            if let Some(column) = column {
                cells.insert(column.field, Cell { text, at: lines.locate(cell.start), header_unit: column.unit });
            }
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        // Where the comma does not part cells it may part decimals.
        let mark = if self.delimiter == b',' { DecimalMark::Point } else { DecimalMark::CommaOrPoint };
        Ok(Row { at, cells, shape: None, mark })
    }
}

/// Where the `index`-th byte of an unquoted cell stands in the file: quotes before it count.
fn bad_byte(start: usize, cell: &[u8], index: usize, lines: &Lines) -> usize {
    let is_quoted = lines.byte(start) == Some(b'"');
    let inner_quotes = cell[..index].split(|byte| *byte == b'"').count() - 1;
    start + index + if is_quoted { 1 + inner_quotes } else { 0 }
}

/// The first cell, which is most often the id, to find the row by.
fn subject(record: &Record) -> String {
    let first = record.cells.first().map(|cell| String::from_utf8_lossy(&cell.bytes).trim().to_owned());
    first.filter(|text| text.chars().count() <= 40).unwrap_or_default()
}

fn refused(code: &'static str, at: model::problem::Locator, record: &Record, wrong: String, right: &str) -> Problem {
    Problem { code, severity: ProblemSeverity::Refused, at, subject: subject(record), wrong, right: right.into() }
}
