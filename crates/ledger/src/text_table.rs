//! Tables as CSV.

use std::borrow::Cow;

use csv::{Terminator, WriterBuilder};

use crate::Books;
use crate::table::{Cell, Table};

/// What a spreadsheet takes for the beginning of a formula, in the plain and in the full-width form, and white space that it
/// overlooks before one (OWASP, "CSV Injection", from memory).
const RUNS: [char; 11] = ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];

/// A table as CSV (RFC 4180): a line of headings, lines ended by CR LF, quoted where it must be.
pub fn csv(books: &Books, table: Table) -> String {
    let mut writer = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
    // writing to memory does not fail, and all rows have as many cells as there are headings
    let _ = writer.write_record(table.headings());
    for row in table.rows(books) {
        let _ = writer.write_record(row.iter().map(|cell| text(cell).into_owned()));
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

fn text<'a>(cell: &'a Cell<'_>) -> Cow<'a, str> {
    match cell {
        Cell::Empty => Cow::Borrowed(""),
        Cell::Text(text) => harmless(text),
        Cell::Number(number, _) => Cow::Owned(number.normalize().to_string()),
        Cell::Day(day) => Cow::Owned(day.to_string()),
        Cell::Moment(at) => Cow::Owned(at.to_string()),
    }
}

/// Text that a spreadsheet does not run.
fn harmless(text: &str) -> Cow<'_, str> {
    if text.starts_with(RUNS) { Cow::Owned(format!("'{text}")) } else { Cow::Borrowed(text) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_that_a_spreadsheet_would_run_is_harmless() {
        let cases = [
            ("=1+1", "'=1+1"),
            ("+1", "'+1"),
            ("-1", "'-1"),
            ("@SUM(A1)", "'@SUM(A1)"),
            ("\t=1", "'\t=1"),
            ("＝1", "'＝1"),
            ("Crew = Fulmar", "Crew = Fulmar"),
            ("", ""),
        ];
        for (told, expected) in cases {
            assert_eq!(harmless(told), expected, "{told:?}");
        }
        assert_eq!(text(&Cell::Number((-5).into(), crate::table::Shown::Whole)), "-5", "a number is no text");
    }
}
