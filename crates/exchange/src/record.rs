//! One record of a comma-separated file (RFC 4180) with the place of every cell.
//!
//! Reads like the `csv` crate does (the tests compare), and besides tells where each cell stands and refuses a record
//! whose quotes are wrong: one unclosed quote would otherwise swallow the rows after it.

/// A record.
#[derive(Debug, PartialEq, Eq)]
pub struct Record {
    /// First byte.
    pub start: usize,
    /// First byte after the record and its line end.
    pub end: usize,
    /// Its cells, unquoted.
    pub cells: Vec<RawCell>,
    /// Byte of a quote that is not closed, or is closed in the middle of a cell. The record then ends with its line.
    pub bad_quote: Option<usize>,
}

/// A cell.
#[derive(Debug, PartialEq, Eq)]
pub struct RawCell {
    /// First byte, the quote included.
    pub start: usize,
    /// What it says.
    pub bytes: Vec<u8>,
}

/// The record at or after `from`, blank lines skipped; `None` at the end.
pub fn next_record(bytes: &[u8], from: usize, delimiter: u8) -> Option<Record> {
    let start = from + bytes.get(from..)?.iter().position(|byte| !is_line_end(*byte))?;
    let mut record = Record { start, end: start, cells: Vec::new(), bad_quote: None };
    let mut at = start;
    loop {
        let cell =
            if bytes.get(at) == Some(&b'"') { quoted(bytes, at, delimiter) } else { Some(bare(bytes, at, delimiter)) };
        let Some((cell, after)) = cell else {
            record.bad_quote = Some(at);
            record.end = after_line(bytes, start);
            return Some(record);
        };
        record.cells.push(cell);
        match bytes.get(after) {
            Some(byte) if *byte == delimiter => at = after + 1,
            _ => {
                record.end = after_line(bytes, after);
                return Some(record);
            }
        }
    }
}

/// The rows at and after `from`: records that say something, blank ones passed over.
pub fn rows(bytes: &[u8], from: usize, delimiter: u8) -> impl Iterator<Item = Record> {
    let mut from = from;
    std::iter::from_fn(move || {
        let record = next_record(bytes, from, delimiter)?;
        from = record.end;
        Some(record)
    })
    .filter(|record| record.bad_quote.is_some() || record.cells.iter().any(|cell| !cell.bytes.trim_ascii().is_empty()))
}

/// The delimiter of a file: the one of comma, semicolon and tab that its first line has most of, outside quotes.
pub fn delimiter(bytes: &[u8]) -> u8 {
    let start = bytes.iter().position(|byte| !is_line_end(*byte)).unwrap_or(bytes.len());
    let mut counts = [(b',', 0), (b';', 0), (b'\t', 0)];
    let mut in_quotes = false;
    for byte in bytes[start..].iter().take_while(|byte| !is_line_end(**byte)) {
        in_quotes ^= *byte == b'"';
        if let Some((_, count)) = counts.iter_mut().find(|(mark, _)| mark == byte && !in_quotes) {
            *count += 1;
        }
    }
    // Of equals the first, the comma before the others.
    counts.into_iter().rev().max_by_key(|(_, count)| *count).map_or(b',', |(mark, _)| mark)
}

fn quoted(bytes: &[u8], start: usize, delimiter: u8) -> Option<(RawCell, usize)> {
    let mut text = Vec::new();
    let mut at = start + 1;
    loop {
        match (bytes.get(at)?, bytes.get(at + 1)) {
            (b'"', Some(b'"')) => {
                text.push(b'"');
                at += 2;
            }
            (b'"', None) => break,
            (b'"', Some(next)) if *next == delimiter || is_line_end(*next) => break,
            (b'"', Some(_)) => return None,
            (byte, _) => {
                text.push(*byte);
                at += 1;
            }
        }
    }
    Some((RawCell { start, bytes: text }, at + 1))
}

fn bare(bytes: &[u8], start: usize, delimiter: u8) -> (RawCell, usize) {
    let ends = |byte: &u8| *byte == delimiter || is_line_end(*byte);
    let rest = bytes.get(start..).unwrap_or_default();
    let end = start + rest.iter().position(ends).unwrap_or(rest.len());
    (RawCell { start, bytes: bytes[start..end].to_vec() }, end)
}

/// First byte after the line that `at` is in.
fn after_line(bytes: &[u8], at: usize) -> usize {
    let Some(end) = bytes.get(at..).and_then(|rest| rest.iter().position(|byte| is_line_end(*byte))) else {
        return bytes.len();
    };
    let end = at + end;
    end + if bytes[end..].starts_with(b"\r\n") { 2 } else { 1 }
}

fn is_line_end(byte: u8) -> bool {
    byte == b'\n' || byte == b'\r'
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn all(bytes: &[u8], delimiter: u8) -> Vec<Record> {
        let mut records = Vec::new();
        let mut from = 0;
        while let Some(record) = next_record(bytes, from, delimiter) {
            from = record.end;
            records.push(record);
        }
        records
    }

    #[test]
    fn a_quote_that_is_not_closed_costs_only_its_own_line() {
        let records = all(b"a,b\n1,\"open\n2,x\n3,\"y\"\n", b',');
        assert_eq!(records.len(), 4);
        assert_eq!(records[1].bad_quote, Some(6));
        assert_eq!(records[2].cells[1].bytes, b"x");
        assert_eq!(records[3].cells[1].bytes, b"y");
    }

    #[test]
    fn the_delimiter_is_the_most_frequent_in_the_header() {
        assert_eq!(delimiter(b"id;lon;lat\n1,2;3;4"), b';');
        assert_eq!(delimiter(b"id\tlon\tlat,long\n"), b'\t');
        assert_eq!(delimiter(b"\"a;b;c\",d\n"), b',');
        assert_eq!(delimiter(b"id"), b',');
    }

    proptest! {
        /// Against the `csv` crate on well-formed input.
        #[test]
        fn reads_like_the_csv_crate(
            rows in prop::collection::vec(prop::collection::vec("[a-z ,\"\n;\r]{0,5}", 2..4), 1..6),
            delimiter in prop::sample::select(vec![b',', b';', b'\t']),
        ) {
            let mut writer = csv::WriterBuilder::new().delimiter(delimiter).flexible(true).from_writer(Vec::new());
            for row in &rows {
                writer.write_record(row).unwrap();
            }
            let bytes = writer.into_inner().unwrap();
            let ours: Vec<Vec<Vec<u8>>> = all(&bytes, delimiter)
                .into_iter()
                .map(|record| record.cells.into_iter().map(|cell| cell.bytes).collect())
                .collect();
            let mut reader = csv::ReaderBuilder::new()
                .delimiter(delimiter).flexible(true).has_headers(false).from_reader(bytes.as_slice());
            let theirs: Vec<Vec<Vec<u8>>> =
                reader.byte_records().map(|record| record.unwrap().iter().map(<[u8]>::to_vec).collect()).collect();
            prop_assert_eq!(ours, theirs);
        }

        #[test]
        fn every_byte_is_in_a_record_or_a_blank_line(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
            let mut from = 0;
            while let Some(record) = next_record(&bytes, from, b',') {
                prop_assert!(record.start < record.end);
                prop_assert!(bytes[from..record.start].iter().all(|byte| is_line_end(*byte)));
                from = record.end;
            }
            prop_assert!(bytes[from..].iter().all(|byte| is_line_end(*byte)));
        }
    }
}
