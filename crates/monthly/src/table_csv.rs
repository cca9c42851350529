//! Tables as CSV.

use std::borrow::Cow;

use csv::{Terminator, WriterBuilder};

use crate::tables::{MonthCell, MonthTable};

/// What a spreadsheet takes for the beginning of a formula (OWASP, "CSV Injection", from memory).
const RUNS: [char; 7] = ['=', '+', '-', '@', '\t', '\r', '\n'];

impl MonthTable {
    /// As CSV (RFC 4180), UTF-8, numbers in full; text that a spreadsheet would run has an apostrophe before it.
    pub fn csv(&self) -> String {
        let mut writer = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
        // writing to memory does not fail, and all rows have as many cells as there are columns
        let _ = writer.write_record(self.columns.iter().map(|column| column.name));
        for row in &self.rows {
            let _ = writer.write_record(row.iter().map(|cell| in_csv(cell).into_owned()));
        }
        String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
    }
}

fn in_csv(cell: &MonthCell) -> Cow<'_, str> {
    match cell {
        MonthCell::Nothing => Cow::Borrowed(""),
        MonthCell::Text(text) if text.starts_with(RUNS) => Cow::Owned(format!("'{text}")),
        MonthCell::Text(text) => Cow::Borrowed(text),
        MonthCell::Number(number) => Cow::Owned(number.to_string()),
        MonthCell::Whole(whole) => Cow::Owned(whole.to_string()),
        MonthCell::YesNo(yes) => Cow::Owned(yes.to_string()),
    }
}
