//! A CSV table with known columns, each number with the unit its header names.

use std::collections::BTreeMap;

use model::problem::{Locator, Problem, ProblemSeverity};

use crate::limits;
use crate::measure::Measure;
use crate::quantity_text::{DecimalMark, LengthTextError, LengthUnit, read_measured};
use crate::record::{Record, delimiter, next_record, rows};
use crate::suggest;
use crate::text_file::{BYTE_ORDER_MARK, Lines, not_utf8};

/// A column that a table may have.
#[derive(Debug)]
pub struct Column {
    /// Name in messages, and the first by which it is found.
    pub names: &'static [&'static str],
    /// What its numbers are.
    pub measure: Measure,
    /// Table and name of its limit in `limits.toml`.
    pub limit: (&'static str, &'static str),
}

/// A table while it is read.
pub struct Table<'t> {
    pub lines: Lines<'t>,
    bytes: &'t [u8],
    columns: &'static [Column],
    /// For each cell of a row its column.
    layout: Vec<Option<Placed>>,
    delimiter: u8,
    from: usize,
    /// The header's place.
    pub header: Locator,
}

#[derive(Clone, Copy)]
struct Placed {
    column: usize,
    into: Option<fn(f64) -> f64>,
    length: Option<LengthUnit>,
}

/// One row.
pub struct Row {
    pub at: Locator,
    cells: BTreeMap<usize, (String, Locator, Placed)>,
    columns: &'static [Column],
    mark: DecimalMark,
}

impl<'t> Table<'t> {
    /// Reads the header. Unused columns are a warning.
    pub fn open(
        file: &str,
        bytes: &'t [u8],
        columns: &'static [Column],
        problems: &mut Vec<Problem>,
    ) -> Option<Table<'t>> {
        let lines = Lines::new(file, bytes);
        let begins = if bytes.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len() } else { 0 };
        if matches!(bytes.get(..2), Some([0xFF, 0xFE] | [0xFE, 0xFF])) {
            problems.push(not_utf8(&lines, 0));
            return None;
        }
        let delimiter = delimiter(&bytes[begins..]);
        let Some(header) = next_record(bytes, begins, delimiter) else {
            let at = lines.whole();
            problems.push(fatal("table.empty", at, "the file is empty", "give a CSV file with a header line"));
            return None;
        };
        let at = lines.locate(header.start);
        if let Some(quote) = header.bad_quote {
            let at = lines.locate(quote);
            problems.push(fatal("table.quote", at, "a quote in the header is not closed", "close it"));
            return None;
        }
        let before = problems.len();
        let layout = layout(&header, columns, &lines, problems);
        if problems[before..].iter().any(|problem| problem.severity == ProblemSeverity::Fatal) {
            return None;
        }
        Some(Table { lines, bytes, columns, layout, delimiter, from: header.end, header: at })
    }

    /// Whether it has a column of that name.
    pub fn has(&self, name: &str) -> bool {
        let is_it = |placed: &Placed| self.columns[placed.column].names[0] == name;
        self.layout.iter().flatten().any(is_it)
    }

    /// The problem of a column that is needed.
    pub fn missing(&self, name: &str, right: &str) -> Problem {
        let wrong = format!("there is no column for `{name}`");
        Problem { subject: name.into(), ..fatal("table.column.missing", self.header.clone(), &wrong, right) }
    }

    /// The next row that is not blank, or what is wrong with it.
    pub fn next_row(&mut self) -> Option<Result<Row, Vec<Problem>>> {
        let record = rows(self.bytes, self.from, self.delimiter).next()?;
        self.from = record.end;
        Some(self.row(&record))
    }

    fn row(&self, record: &Record) -> Result<Row, Vec<Problem>> {
        let at = self.lines.locate(record.start);
        if let Some(quote) = record.bad_quote {
            let at = self.lines.locate(quote);
            let wrong = "a quote is opened here that is not closed where the cell ends";
            return Err(vec![refused("table.quote", at, wrong.into(), "close it".into())]);
        }
        let surplus = record.cells.iter().skip(self.layout.len()).any(|cell| !cell.bytes.trim_ascii().is_empty());
        if record.cells.len() < self.layout.len() || surplus {
            let wrong = format!("{} fields where the header has {}", record.cells.len(), self.layout.len());
            let right = "write every field; leave one empty where nothing is known".into();
            return Err(vec![refused("table.row.field_count", at, wrong, right)]);
        }
        let mut cells = BTreeMap::new();
        for (cell, placed) in record.cells.iter().zip(&self.layout) {
            let Some(placed) = placed else { continue };
            let here = self.lines.locate(cell.start);
            let Ok(text) = std::str::from_utf8(&cell.bytes) else {
                let problem = refused("table.row.not_utf8", here, "not UTF-8 text".into(), "save it as UTF-8".into());
                return Err(vec![problem]);
            };
            // Printed in a message they could steer a terminal.
            if let Some(character) = text.chars().find(|c| c.is_control() && !matches!(c, '\n' | '\r' | '\t')) {
                let wrong = format!("a control character, U+{:04X}, is in this field", u32::from(character));
                return Err(vec![refused("table.row.control_character", here, wrong, "delete it".into())]);
            }
            if !text.trim().is_empty() {
                cells.insert(placed.column, (text.trim().to_owned(), here, *placed));
            }
        }
        let mark = if self.delimiter == b',' { DecimalMark::Point } else { DecimalMark::CommaOrPoint };
        Ok(Row { at, cells, columns: self.columns, mark })
    }
}

impl Row {
    /// What a cell says, with its place and the unit of length in its header; `None` where it is empty.
    pub fn text(&self, name: &str) -> Option<(&str, &Locator, Option<LengthUnit>)> {
        let (text, at, placed) = self.cells.get(&self.index(name)?)?;
        Some((text, at, placed.length))
    }

    /// A number in SI units (temperatures in degrees Celsius, rain in millimetres), within its limits; `None` where the cell is empty.
    pub fn number(&self, name: &str) -> Option<Result<f64, Box<Problem>>> {
        let index = self.index(name)?;
        let (text, at, placed) = self.cells.get(&index)?;
        Some(self.read(text, at, *placed, &self.columns[index]))
    }

    /// The decimal mark of the file.
    pub fn mark(&self) -> DecimalMark {
        self.mark
    }

    fn index(&self, name: &str) -> Option<usize> {
        self.columns.iter().position(|column| column.names[0] == name)
    }

    fn read(&self, text: &str, at: &Locator, placed: Placed, column: &Column) -> Result<f64, Box<Problem>> {
        let name = column.names[0];
        let unreadable = |why: String| {
            let problem = refused(
                "table.number.unreadable",
                at.clone(),
                why,
                "write a plain number; the unit is the header's".into(),
            );
            Box::new(Problem { subject: name.into(), ..problem })
        };
        let measured = read_measured(text, self.mark).map_err(|error| match error {
            LengthTextError::UnknownUnit(unit) => unreadable(format!("`{text}`: `{unit}` stands behind the number")),
            error => unreadable(format!("`{text}`: {error}")),
        })?;
        if measured.unit.is_some() {
            return Err(unreadable(format!("`{text}` has a unit of its own")));
        }
        let number = placed.into.map_or(measured.number, |into| into(measured.number));
        let limit = limits::of(column.limit.0, column.limit.1);
        debug_assert!(limit.is_some(), "limits.toml lacks {:?}", column.limit);
        // Limits of shares are in per cent, all others in SI, in degrees Celsius, or in millimetres of rain.
        let in_limit = if column.measure == Measure::Share { 100.0 * number } else { number };
        match limit.filter(|limit| !limit.holds(in_limit)) {
            None => Ok(number),
            Some(limit) => {
                let wrong = format!("{name} {text} is out of range");
                let right = format!("{} ({})", limit.words(), limit.source);
                let problem = refused("table.number.out_of_range", at.clone(), wrong, right);
                Err(Box::new(Problem { subject: name.into(), ..problem }))
            }
        }
    }
}

/// Finds each header's column and unit.
fn layout(
    header: &Record,
    columns: &'static [Column],
    lines: &Lines,
    problems: &mut Vec<Problem>,
) -> Vec<Option<Placed>> {
    let mut layout: Vec<Option<Placed>> = Vec::new();
    let mut unused = Vec::new();
    for cell in &header.cells {
        let at = lines.locate(cell.start);
        let title = String::from_utf8_lossy(&cell.bytes).trim().to_owned();
        let found = placed(&title, columns);
        if let Ok(Some(found)) = &found
            && layout.iter().flatten().any(|other| other.column == found.column)
        {
            let wrong = format!("`{title}` is the second column for `{}`", columns[found.column].names[0]);
            problems.push(fatal("table.column.twice", at, &wrong, "keep one of them"));
            layout.push(None);
            continue;
        }
        layout.push(found.unwrap_or_else(|(code, wrong, right)| {
            problems.push(Problem { subject: title.clone(), ..fatal(code, at, &wrong, &right) });
            None
        }));
        if layout.last().is_some_and(Option::is_none) && !title.is_empty() {
            unused.push(title);
        }
    }
    let is_sound = problems.iter().all(|problem| problem.severity != ProblemSeverity::Fatal);
    if is_sound && !unused.is_empty() {
        let known: Vec<&str> = columns.iter().map(|column| column.names[0]).collect();
        problems.push(Problem {
            severity: ProblemSeverity::Warning,
            ..fatal(
                "table.column.unused",
                lines.locate(header.start),
                &format!("nothing is read from: {}", unused.join(", ")),
                &suggest::hint(&unused[0], &known),
            )
        });
    }
    layout
}

/// The column and unit of a header; `None`: nothing known.
fn placed(title: &str, columns: &'static [Column]) -> Result<Option<Placed>, (&'static str, String, String)> {
    let plain = title.to_lowercase().replace(['_', '-'], " ");
    let plain = plain.split_whitespace().collect::<Vec<_>>().join(" ");
    let of_name = |name: &str| columns.iter().position(|column| column.names.contains(&name.trim()));
    let bracketed = plain.strip_suffix([')', ']']).and_then(|text| text.rsplit_once(['(', '[']));
    let (column, unit) = match bracketed {
        Some((name, unit)) => (of_name(name), Some(unit.trim().to_owned())),
        None => (of_name(&plain), None),
    };
    // `moisture %`, `wet density kg per m3`
    let trailing = || {
        let named = |column: &Column| column.names.iter().find_map(|name| plain.strip_prefix(name)).map(str::to_owned);
        columns.iter().enumerate().find_map(|(index, column)| {
            let unit = named(column)?.strip_prefix(' ')?.replace(" per ", "_per_");
            Some((index, unit))
        })
    };
    let (column, unit) = match column {
        Some(column) => (column, unit),
        None => match trailing() {
            Some((column, unit)) => (column, Some(unit)),
            None => return Ok(None),
        },
    };
    let measure = columns[column].measure;
    let right = || format!("name it in the header, e.g. `{} ({})`", columns[column].names[0], measure.first());
    match (measure, unit) {
        // `from station` is another thing than `from`.
        (Measure::Time, Some(_)) => Ok(None),
        (Measure::Time | Measure::Mark, None) => Ok(Some(Placed { column, into: None, length: None })),
        (Measure::Mark, Some(unit)) => match LengthUnit::from_word(&unit) {
            Some(length) => Ok(Some(Placed { column, into: None, length: Some(length) })),
            None => Err(("table.unit.unknown", format!("`{unit}` is not a known unit"), measure.known())),
        },
        (_, None) => Err(("table.unit.missing", format!("`{title}` names no unit, and none is guessed"), right())),
        (_, Some(unit)) => {
            let unknown = || {
                let known = format!("known: {}", measure.known());
                ("table.unit.unknown", format!("`{unit}` is not a known unit here"), known)
            };
            let into = measure.unit(&unit).ok_or_else(unknown)?;
            Ok(Some(Placed { column, into: Some(into), length: None }))
        }
    }
}

/// Nothing can be done with the file.
pub fn fatal(code: &'static str, at: Locator, wrong: &str, right: &str) -> Problem {
    Problem { severity: ProblemSeverity::Fatal, ..refused(code, at, wrong.into(), right.into()) }
}

/// This row is left out.
pub fn refused(code: &'static str, at: Locator, wrong: String, right: String) -> Problem {
    Problem { code, severity: ProblemSeverity::Refused, at, subject: String::new(), wrong, right }
}
