//! Which column of the records holds what, and the cells of a row by their columns.

use std::collections::BTreeMap;

use model::problem::{Locator, Problem, ProblemSeverity};

use super::{Cell, Record, Row, fatal};
use crate::quantity_text::DecimalMark;
use crate::record::RawCell;
use crate::suggest;
use crate::text_file::{Lines, not_utf8};

/// What a column says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Field {
    Hole,
    Road,
    Class,
    Date,
    Surveyed(Size),
    Dug(Size),
}

/// Which size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)] // the words are the definition
pub enum Size {
    Length,
    Width,
    Depth,
    Volume,
}

impl Size {
    pub const ALL: [Size; 4] = [Size::Length, Size::Width, Size::Depth, Size::Volume];

    pub fn word(self) -> &'static str {
        match self {
            Size::Length => "length",
            Size::Width => "width",
            Size::Depth => "depth",
            Size::Volume => "volume",
        }
    }
}

impl Field {
    /// The name it is asked for by.
    pub fn word(self) -> String {
        match self {
            Field::Hole => "hole".into(),
            Field::Road => "road".into(),
            Field::Class => "class".into(),
            Field::Date => "date".into(),
            Field::Surveyed(size) => format!("surveyed_{}", size.word()),
            Field::Dug(size) => format!("dug_{}", size.word()),
        }
    }

    /// The field of a name; case does not matter, nor whether words are parted by `_` or a space.
    fn named(name: &str) -> Option<Field> {
        let name = name.trim().to_lowercase().replace(' ', "_");
        let sized = |prefix: &str| {
            let size = name.strip_prefix(prefix)?;
            Size::ALL.into_iter().find(|known| known.word() == size)
        };
        Some(match name.as_str() {
            "hole" | "id" | "hole_id" => Field::Hole,
            "road" | "section" => Field::Road,
            "class" | "pavement_class" | "road_class" => Field::Class,
            "date" | "date_dug" => Field::Date,
            _ => match (sized("surveyed_"), sized("dug_").or_else(|| sized("actual_"))) {
                (Some(size), _) => Field::Surveyed(size),
                (None, size) => Field::Dug(size?),
            },
        })
    }
}

/// A column: what it says, and the unit its header names.
#[derive(Debug, Clone, PartialEq)]
struct Column {
    field: Field,
    unit: Option<String>,
}

impl Column {
    /// `dug_depth`, `dug_depth_mm`, `dug depth (mm)`, `dug_depth [mm]`.
    fn of(header: &str) -> Option<Column> {
        if let Some(field) = Field::named(header) {
            return Some(Column { field, unit: None });
        }
        let header = header.trim();
        let bracketed = header.strip_suffix([')', ']']).and_then(|text| text.rsplit_once(['(', '[']));
        let (name, unit) = bracketed.or_else(|| header.rsplit_once(['_', ' ']))?;
        let field = Field::named(name).filter(|field| matches!(field, Field::Surveyed(_) | Field::Dug(_)))?;
        Some(Column { field, unit: Some(unit.trim().to_owned()) })
    }
}

/// Which cell of a row holds what.
pub struct Layout(Vec<Option<Column>>);

impl Layout {
    /// The header's columns, and a warning for those that nothing is read from.
    pub fn new(header: &Record, lines: &Lines) -> Result<(Self, Option<Problem>), Vec<Problem>> {
        let at = lines.locate(header.start);
        if let Some(quote) = header.bad_quote {
            let wrong = "a quote is opened in the header that is not closed where the name ends".into();
            return Err(vec![fatal("record.row.quote", lines.locate(quote), wrong, "close it")]);
        }
        let names: Vec<String> =
            header.cells.iter().map(|cell| String::from_utf8_lossy(&cell.bytes).trim().to_owned()).collect();
        let columns: Vec<Option<Column>> = names.iter().map(|name| Column::of(name)).collect();
        let mut problems = Vec::new();
        for (index, column) in columns.iter().enumerate() {
            let Some(column) = column else { continue };
            if columns[..index].iter().flatten().any(|before| before.field == column.field) {
                let wrong = format!("this is the second column for `{}`", column.field.word());
                let here = lines.locate(header.cells[index].start);
                problems.push(fatal("record.column.twice", here, wrong, "keep one of them"));
            }
        }
        problems.extend(missing(&columns, &names, &at));
        if !problems.is_empty() {
            return Err(problems);
        }
        let unused: Vec<&str> = names
            .iter()
            .zip(&columns)
            .filter(|(name, column)| column.is_none() && !name.is_empty())
            .map(|(name, _)| name.as_str())
            .collect();
        let warning = (!unused.is_empty()).then(|| Problem {
            severity: ProblemSeverity::Warning,
            ..fatal("record.column.unused", at, format!("nothing is read from: {}", unused.join(", ")), "leave them")
        });
        Ok((Layout(columns), warning))
    }

    /// Places a record's cells.
    pub fn row(&self, record: &Record, lines: &Lines, mark: DecimalMark) -> Result<Row, Vec<Problem>> {
        let at = lines.locate(record.start);
        let refused = |code, at: Locator, wrong: String, right: &str| {
            let problem = fatal(code, at, wrong, right);
            vec![Problem { severity: ProblemSeverity::Refused, subject: subject(record), ..problem }]
        };
        if let Some(quote) = record.bad_quote {
            let wrong = "a quote is opened here that is not closed where the cell ends".into();
            return Err(refused("record.row.quote", lines.locate(quote), wrong, "close it"));
        }
        let surplus = record.cells.iter().skip(self.0.len()).any(|cell| !cell.bytes.trim_ascii().is_empty());
        if record.cells.len() < self.0.len() || surplus {
            let wrong = format!("{} fields where the header has {}", record.cells.len(), self.0.len());
            let right = "write every field, and put a text with a delimiter in it in quotes";
            return Err(refused("record.row.field_count", at, wrong, right));
        }
        let mut cells = BTreeMap::new();
        for (cell, column) in record.cells.iter().zip(&self.0) {
            let text = text(cell, lines).map_err(|problem| vec![Problem { subject: subject(record), ..*problem }])?;
            if let Some(Column { field, unit }) = column {
                cells.insert(*field, Cell { text, at: lines.locate(cell.start), header_unit: unit.clone() });
            }
        }
        Ok(Row { at, cells, mark })
    }
}

fn text(cell: &RawCell, lines: &Lines) -> Result<String, Box<Problem>> {
    let text = std::str::from_utf8(&cell.bytes).map_err(|_| {
        let problem = not_utf8(lines, cell.start);
        Box::new(Problem { code: "record.row.not_utf8", severity: ProblemSeverity::Refused, ..problem })
    })?;
    // Printed in a message they could steer a terminal.
    if let Some(character) = text.chars().find(|c| c.is_control() && !matches!(c, '\n' | '\r' | '\t')) {
        let wrong = format!("a control character, U+{:04X}, is in this field", u32::from(character));
        let problem = fatal("record.row.control_character", lines.locate(cell.start), wrong, "delete it");
        return Err(Box::new(Problem { severity: ProblemSeverity::Refused, ..problem }));
    }
    Ok(text.trim().to_owned())
}

/// The hole's name, and of survey and digging either the volume or all three sides.
fn missing(columns: &[Option<Column>], names: &[String], at: &Locator) -> Vec<Problem> {
    let has = |field: Field| columns.iter().flatten().any(|column| column.field == field);
    let sized = |side: fn(Size) -> Field| {
        has(side(Size::Volume)) || [Size::Length, Size::Width, Size::Depth].into_iter().all(|size| has(side(size)))
    };
    let mut absent = Vec::new();
    if !has(Field::Hole) {
        absent.push((Field::Hole, "hole, id, hole_id".to_owned()));
    }
    for side in [Field::Surveyed as fn(Size) -> Field, Field::Dug] {
        if !sized(side) {
            let word = |size: Size| side(size).word();
            let sides = [Size::Length, Size::Width, Size::Depth].map(word).join(", ");
            absent.push((side(Size::Volume), format!("{}, or {sides}", word(Size::Volume))));
        }
    }
    let problem = |(field, right): (Field, String)| {
        let near = suggest::nearest(&field.word(), names.iter().map(String::as_str));
        let near = near.map(|header| format!("; is it `{header}`?")).unwrap_or_default();
        let wrong = format!("there is no column for `{}`", field.word());
        fatal("record.column.missing", at.clone(), wrong, &format!("name columns: {right}{near}"))
    };
    absent.into_iter().map(problem).collect()
}

/// The first cell, which is most often the hole, to find the row by.
fn subject(record: &Record) -> String {
    let first = record.cells.first().map(|cell| String::from_utf8_lossy(&cell.bytes).trim().to_owned());
    first.filter(|text| text.chars().count() <= 40 && !text.chars().any(char::is_control)).unwrap_or_default()
}
