//! Lists of numbers from a laboratory: CSV with a header whose columns end in their unit.

use std::path::Path;

use model::problem::{Problem, ProblemSeverity};

use crate::record::{RawCell, Record, delimiter, next_record, rows};
use crate::text_file::{BYTE_ORDER_MARK, Lines, as_text, read_bytes};

/// A column: its name without the unit, and the units known with how many of the first each is.
#[derive(Debug, Clone, Copy)]
pub struct NumberColumn<'n> {
    /// E.g. `opening`; the header says `opening_mm`.
    pub name: &'n str,
    /// E.g. `[("mm", 1.0), ("in", 25.4)]`.
    pub units: &'n [(&'n str, f64)],
}

/// What a list says.
#[derive(Debug, Clone, PartialEq)]
pub struct NumberList<const N: usize> {
    /// Rows in the order of the file, each number in the first unit of its column.
    pub rows: Vec<[f64; N]>,
    /// Rows that can't be used.
    pub problems: Vec<Problem>,
}

/// Reads a list of numbers. Columns that nobody asked for are passed over.
///
/// # Errors
/// A file that can't be read, a column that is missing, no row that can be used.
pub fn read_number_list<const N: usize>(
    path: &Path,
    columns: [NumberColumn; N],
) -> Result<NumberList<N>, Vec<Problem>> {
    let file = path.display().to_string();
    let bytes = read_bytes(path).map_err(|problem| vec![*problem])?;
    as_text(&file, &bytes).map_err(|problem| vec![*problem])?;
    let lines = Lines::new(file, &bytes);
    let begins = if bytes.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len() } else { 0 };
    let delimiter = delimiter(&bytes[begins..]);
    let header = next_record(&bytes, begins, delimiter);
    let places = places(header.as_ref(), &columns, &lines)?;
    let mut list = NumberList { rows: Vec::new(), problems: Vec::new() };
    for record in rows(&bytes, header.map_or(bytes.len(), |header| header.end), delimiter) {
        match row(&record, &places, &columns, &lines) {
            Ok(numbers) => list.rows.push(numbers),
            Err(problem) => list.problems.push(*problem),
        }
    }
    if list.rows.is_empty() {
        let right = "write one row for each measurement below the header";
        list.problems.push(fatal(&lines, 0, "file.list.empty", "there is no row that can be used", right));
        return Err(list.problems);
    }
    Ok(list)
}

/// Which cell holds each column, and what its number is multiplied by.
type Place = (usize, f64);

fn places<const N: usize>(
    header: Option<&Record>,
    columns: &[NumberColumn; N],
    lines: &Lines,
) -> Result<[Place; N], Vec<Problem>> {
    let cells = header.map_or(&[] as &[RawCell], |header| &header.cells);
    let names: Vec<String> =
        cells.iter().map(|cell| String::from_utf8_lossy(&cell.bytes).trim().to_lowercase()).collect();
    let mut found = [(0, 1.0); N];
    let mut problems = Vec::new();
    for (column, place) in columns.iter().zip(&mut found) {
        let headed = column.units.iter().find_map(|(unit, factor)| {
            let at = names.iter().position(|name| *name == format!("{}_{unit}", column.name))?;
            Some((at, *factor))
        });
        if let Some(headed) = headed {
            *place = headed;
            continue;
        }
        let known: Vec<String> = column.units.iter().map(|(unit, _)| format!("`{}_{unit}`", column.name)).collect();
        let wrong = format!("there is no column {}", column.name);
        problems.push(fatal(lines, 0, "file.column.missing", &wrong, &format!("head it {}", known.join(" or "))));
    }
    if problems.is_empty() { Ok(found) } else { Err(problems) }
}

fn row<const N: usize>(
    record: &Record,
    places: &[Place; N],
    columns: &[NumberColumn; N],
    lines: &Lines,
) -> Result<[f64; N], Box<Problem>> {
    let refused = |offset: usize, subject: &str, wrong: String, right: &str| {
        let (code, severity) = ("file.number.unreadable", ProblemSeverity::Refused);
        let (at, subject, right) = (lines.locate(offset), subject.to_owned(), right.to_owned());
        Box::new(Problem { code, severity, at, subject, wrong, right })
    };
    if let Some(quote) = record.bad_quote {
        let wrong = "a quote is not closed, or closed in the middle of a cell".to_owned();
        return Err(refused(quote, "", wrong, "numbers need no quotes"));
    }
    let mut numbers = [0.0; N];
    for ((number, (at, factor)), column) in numbers.iter_mut().zip(places).zip(columns) {
        let cell = record.cells.get(*at);
        let text = cell.map_or_else(String::new, |cell| String::from_utf8_lossy(&cell.bytes).trim().to_owned());
        let read = text.parse::<f64>().ok().filter(|number| number.is_finite()).ok_or_else(|| {
            let offset = cell.map_or(record.start, |cell| cell.start);
            let right = "write a number with digits and, if need be, a decimal point";
            refused(offset, column.name, format!("`{text}` is not a number"), right)
        })?;
        *number = read * factor;
    }
    Ok(numbers)
}

fn fatal(lines: &Lines, offset: usize, code: &'static str, wrong: &str, right: &str) -> Problem {
    Problem {
        code,
        severity: ProblemSeverity::Fatal,
        at: lines.locate(offset),
        subject: String::new(),
        wrong: wrong.to_owned(),
        right: right.to_owned(),
    }
}
