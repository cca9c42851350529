//! CSV as a stream: a window of the file is in memory, and grows only as far as the longest row.

use std::io::Read;

use exchange::quantity_text::LengthUnit;
use exchange::record::{Record, delimiter, next_record};
use exchange::text_file::BYTE_ORDER_MARK;
use model::problem::{Locator, Problem, ProblemSeverity};

use super::columns::{self, BulkField, ColumnUse};
use super::row::{Cell, Cells};
use super::{ROW_MAX, Reading, RowRead};

/// Read at a time, bytes.
const CHUNK: usize = 256 * 1024;

/// Columns a header may have.
const COLUMNS_MAX: usize = 4096;

pub fn read(from: impl Read, reading: &mut Reading) {
    let mut window = Window::new(from);
    if let Err(error) = window.fill() {
        return reading.unreadable(&error);
    }
    if window.bytes.starts_with(BYTE_ORDER_MARK) {
        window.at = BYTE_ORDER_MARK.len();
    }
    if matches!(window.bytes.get(..2), Some([0xFF, 0xFE] | [0xFE, 0xFF])) {
        let at = reading.at(1, 1);
        return reading.fatal("file.not_utf8", at, "the file is UTF-16", "save it as UTF-8");
    }
    window.delimiter = delimiter(&window.bytes[window.at..]);
    let header = match window.next() {
        Ok(Some(header)) => header,
        Ok(None) => return,
        Err(error) => return reading.unreadable(&error),
    };
    let Some(layout) = Layout::of(&header, &window, reading) else { return };
    loop {
        match window.next() {
            Ok(Some(record))
                if record.cells.iter().all(|cell| cell.bytes.trim_ascii().is_empty()) && record.bad_quote.is_none() => {
            }
            Ok(Some(record)) => {
                reading.bytes = window.passed + window.at as u64;
                let row = layout.row(&record, &window, reading);
                if reading.take(row).is_break() {
                    return;
                }
            }
            Ok(None) => {
                reading.bytes = window.passed + window.bytes.len() as u64;
                return;
            }
            Err(error) => return reading.unreadable(&error),
        }
    }
}

/// A part of the file.
struct Window<R> {
    from: R,
    bytes: Vec<u8>,
    /// Where the next record is looked for.
    at: usize,
    /// Bytes of the file before the window.
    passed: u64,
    /// Line that `counted` is on, from 1.
    line: usize,
    /// Up to here lines are counted: the begin of the last record.
    counted: usize,
    is_at_end: bool,
    delimiter: u8,
}

impl<R: Read> Window<R> {
    fn new(from: R) -> Self {
        Window { from, bytes: Vec::new(), at: 0, passed: 0, line: 1, counted: 0, is_at_end: false, delimiter: b',' }
    }

    /// The next record. It lies in the window until the next call; its places are relative to the window's begin.
    fn next(&mut self) -> std::io::Result<Option<Record>> {
        loop {
            let record = next_record(&self.bytes, self.at, self.delimiter);
            let is_too_long = self.bytes.len() - self.at > ROW_MAX;
            // A record that touches the window's end may go on behind it. An unclosed quote may be closed there.
            let is_whole =
                record.as_ref().is_some_and(|record| record.end < self.bytes.len() && record.bad_quote.is_none());
            match record {
                Some(record) if is_whole || is_too_long || self.is_at_end => {
                    self.count_lines(record.start);
                    self.at = record.end;
                    return Ok(Some(record));
                }
                None if self.is_at_end => return Ok(None),
                // Nothing but line ends; the last may be the first half of one.
                None => self.at = self.at.max(self.bytes.len().saturating_sub(1)),
                Some(_) => {}
            }
            self.fill()?;
        }
    }

    fn count_lines(&mut self, to: usize) {
        self.line += breaks(&self.bytes[self.counted..to]);
        self.counted = to;
    }

    /// Drops what is behind and reads on.
    fn fill(&mut self) -> std::io::Result<()> {
        self.count_lines(self.at);
        self.bytes.drain(..self.at);
        self.passed += self.at as u64;
        (self.at, self.counted) = (0, 0);
        let before = self.bytes.len();
        self.from.by_ref().take(CHUNK as u64).read_to_end(&mut self.bytes)?;
        self.is_at_end = self.bytes.len() == before;
        Ok(())
    }

    /// Line and column of a byte of a record that was just read, columns in characters.
    fn place(&self, record: &Record, byte: usize) -> (usize, usize) {
        let before = &self.bytes[record.start..byte.clamp(record.start, record.end)];
        let begin = before.iter().rposition(|byte| matches!(byte, b'\n' | b'\r')).map_or(0, |at| at + 1);
        let column = before[begin..].iter().filter(|byte| **byte & 0b1100_0000 != 0b1000_0000).count() + 1;
        (self.line + breaks(before), column)
    }
}

/// Line ends: `\n`, `\r\n` or a lone `\r`.
fn breaks(bytes: &[u8]) -> usize {
    let lone = |index: usize| bytes.get(index + 1) != Some(&b'\n');
    bytes.iter().enumerate().filter(|(index, byte)| **byte == b'\n' || (**byte == b'\r' && lone(*index))).count()
}

/// Which cell of a row holds what.
struct Layout {
    fields: Vec<(usize, BulkField, Option<LengthUnit>)>,
    count: usize,
    has_decimal_comma: bool,
}

impl Layout {
    fn of(header: &Record, window: &Window<impl Read>, reading: &mut Reading) -> Option<Layout> {
        let (line, column) = window.place(header, header.bad_quote.unwrap_or(header.start));
        let at = reading.at(line, column);
        if header.bad_quote.is_some() {
            reading.fatal("intake.row.quote", at, "a quote in the header is not closed", "close it");
            return None;
        }
        if header.cells.len() > COLUMNS_MAX {
            let wrong = format!("the header has {} columns", header.cells.len());
            reading.fatal("intake.column.many", at, wrong, format!("at most {COLUMNS_MAX}"));
            return None;
        }
        let names: Vec<String> =
            header.cells.iter().map(|cell| String::from_utf8_lossy(&cell.bytes).trim().to_owned()).collect();
        let (found, missing) = columns::find(&names, &reading.options.columns);
        let has = |field: BulkField| found.iter().any(|(_, used)| used.field == field);
        let shown = names.iter().take(20).map(|name| crate::text::quoted(name, 40)).collect::<Vec<_>>().join(", ");
        for field in missing {
            let name = crate::text::quoted(&reading.options.columns[&field], 40);
            let wrong = format!("there is no column {name} for the {}; there are {shown}", field.word());
            reading.fatal("intake.column.missing", at.clone(), wrong, "the name of a column of this file");
        }
        for field in [BulkField::Lon, BulkField::Lat] {
            if !has(field) && !reading.options.columns.contains_key(&field) {
                let wrong = format!("no column was found for the {}; there are {shown}", field.word());
                let right = format!("name it; it is found by itself by the names {}", field.names().join(", "));
                reading.fatal("intake.column.missing", at.clone(), wrong, right);
            }
        }
        if reading.is_over {
            return None;
        }
        let field = |(index, used): &(usize, ColumnUse)| (*index, used.field, columns::unit_of(used.field, &used.name));
        let fields = found.iter().map(field).collect();
        reading.read.columns = found.into_iter().map(|(_, used)| used).collect();
        Some(Layout { fields, count: header.cells.len(), has_decimal_comma: window.delimiter != b',' })
    }

    fn row(&self, record: &Record, window: &Window<impl Read>, reading: &mut Reading) -> RowRead {
        let place_of = |byte: usize| window.place(record, byte);
        let refused =
            |code, byte, wrong: String, right: &str| Err(vec![refused(code, place_of(byte), wrong, right, reading)]);
        if let Some(quote) = record.bad_quote {
            let wrong = "a quote is opened here that is not closed where the cell ends";
            let right =
                "close it, and write a quote inside a quoted cell twice; the lines below were read on their own";
            return refused("intake.row.quote", quote, wrong.into(), right);
        }
        if record.end - record.start > ROW_MAX {
            let wrong = format!("the row is longer than {ROW_MAX} bytes");
            return refused("intake.row.too_long", record.start, wrong, "a row of one report");
        }
        let surplus = record.cells.iter().skip(self.count).any(|cell| !cell.bytes.trim_ascii().is_empty());
        if record.cells.len() < self.count || surplus {
            let wrong = format!("{} fields where the header has {}", record.cells.len(), self.count);
            let right = "write every field, and put a text with a delimiter in it in quotes";
            return refused("intake.row.field_count", record.start, wrong, right);
        }
        let mut cells = Vec::with_capacity(self.fields.len());
        for &(index, field, unit) in &self.fields {
            let cell = &record.cells[index];
            let Ok(text) = std::str::from_utf8(&cell.bytes) else {
                let wrong = format!("the {} is not UTF-8 text", field.word());
                return refused("intake.text.not_utf8", cell.start, wrong, "save the file as UTF-8");
            };
            cells.push(Cell { field, text: text.into(), byte: cell.start, unit });
        }
        let has_decimal_comma = self.has_decimal_comma;
        let cells =
            Cells { begin: record.start, place_of: &place_of, of_fields: cells, place: None, has_decimal_comma };
        reading.read(&cells)
    }
}

fn refused(
    code: &'static str,
    (line, column): (usize, usize),
    wrong: String,
    right: &str,
    reading: &Reading,
) -> Problem {
    let at: Locator = reading.at(line, column);
    Problem { code, severity: ProblemSeverity::Refused, at, subject: String::new(), wrong, right: right.into() }
}
