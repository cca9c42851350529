//! The text of a VRPLIB file to keys and tables, each with its line.

use std::collections::BTreeMap;
use std::fmt::{self, Display};

/// What is wrong with a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadError {
    /// From 1; `None`: the file as a whole.
    pub line: Option<usize>,
    /// What was wrong and what would be right.
    pub what: String,
}

impl ReadError {
    pub fn at(line: usize, what: impl Into<String>) -> Self {
        Self { line: Some(line), what: what.into() }
    }

    pub fn whole(what: impl Into<String>) -> Self {
        Self { line: None, what: what.into() }
    }
}

impl Display for ReadError {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(to, "line {line}: {}", self.what),
            None => write!(to, "{}", self.what),
        }
    }
}

impl std::error::Error for ReadError {}

/// A number with the line it stands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Number {
    pub line: usize,
    pub value: f64,
}

impl Number {
    /// As a whole number within limits.
    pub fn whole(self, what: &str, least: i64, most: i64) -> Result<i64, ReadError> {
        if self.value.fract() != 0.0 || self.value < least as f64 || self.value > most as f64 {
            let Self { line, value } = self;
            return Err(ReadError::at(line, format!("{what} is {value}, not a whole number from {least} to {most}")));
        }
        Ok(self.value as i64)
    }
}

/// A file's keys and tables.
#[derive(Debug, Default)]
pub struct Fields {
    keys: BTreeMap<String, (usize, String)>,
    /// Rows by the index in front of each; the depot section has no index and is a row per entry.
    tables: BTreeMap<String, (usize, Vec<Vec<Number>>)>,
}

/// Keys that say nothing the solver needs.
const REMARKS: &[&str] = &["NAME", "COMMENT"];
/// Keys that are understood.
const KEYS: &[&str] = &[
    "TYPE",
    "DIMENSION",
    "VEHICLES",
    "CAPACITY",
    "EDGE_WEIGHT_TYPE",
    "SERVICE_TIME",
    "VEHICLES_MAX_DURATION",
    "VEHICLES_MAX_DISTANCE",
    "VEHICLES_FIXED_COST",
    "VEHICLES_UNIT_DISTANCE_COST",
    "VEHICLES_MAX_RELOADS",
];
/// Tables that are understood, `_SECTION` left away, with the least and most numbers a row has after its index.
const TABLES: &[(&str, usize, usize)] = &[
    ("NODE_COORD", 2, 2),
    ("DEMAND", 1, 1),
    ("BACKHAUL", 1, 1),
    ("SERVICE_TIME", 1, 1),
    ("TIME_WINDOW", 2, 2),
    ("RELEASE_TIME", 1, 1),
    ("PRIZE", 1, 1),
    ("CAPACITY", 1, 1),
    ("VEHICLES_DEPOT", 1, 1),
    ("VEHICLES_RELOAD_DEPOT", 1, 1000),
    ("VEHICLES_FIXED_COST", 1, 1),
    ("VEHICLES_UNIT_DISTANCE_COST", 1, 1),
    ("VEHICLES_MAX_DURATION", 1, 1),
    ("VEHICLES_MAX_DISTANCE", 1, 1),
    ("VEHICLES_MAX_RELOADS", 1, 1),
];
const DEPOTS: &str = "DEPOT";

impl Fields {
    pub fn parse(text: &str) -> Result<Self, ReadError> {
        let mut fields = Self::default();
        let mut table: Option<String> = None;
        for (index, content) in text.lines().enumerate() {
            let (line, content) = (index + 1, content.trim());
            if content.is_empty() {
                continue;
            }
            if content == "EOF" {
                break;
            }
            if let Some((key, value)) = content.split_once(':') {
                table = None;
                fields.key(line, key.trim(), value.trim())?;
            } else if let Some(name) = content.strip_suffix("_SECTION") {
                fields.open(line, name)?;
                table = Some(name.to_owned());
            } else if let Some(name) = &table {
                fields.row(line, name, content)?;
            } else {
                return Err(ReadError::at(line, format!("{content:?} is neither `KEY : value` nor a section's name")));
            }
        }
        Ok(fields)
    }

    fn key(&mut self, line: usize, key: &str, value: &str) -> Result<(), ReadError> {
        if REMARKS.contains(&key) {
            return Ok(());
        }
        if !KEYS.contains(&key) {
            return Err(ReadError::at(line, format!("the key {key:?} is not known; known are {}", KEYS.join(", "))));
        }
        match self.keys.insert(key.to_owned(), (line, value.to_owned())) {
            None => Ok(()),
            Some((first, _)) => Err(ReadError::at(line, format!("{key} stands already in line {first}"))),
        }
    }

    fn open(&mut self, line: usize, name: &str) -> Result<(), ReadError> {
        if name != DEPOTS && !TABLES.iter().any(|&(known, ..)| known == name) {
            return Err(ReadError::at(line, format!("the section {name}_SECTION is not known")));
        }
        match self.tables.insert(name.to_owned(), (line, Vec::new())) {
            None => Ok(()),
            Some((first, _)) => Err(ReadError::at(line, format!("{name}_SECTION stands already in line {first}"))),
        }
    }

    fn row(&mut self, line: usize, name: &str, content: &str) -> Result<(), ReadError> {
        let number = |word: &str| match word.parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(Number { line, value }),
            _ => Err(ReadError::at(line, format!("{word:?} in {name}_SECTION is not a number"))),
        };
        let numbers = content.split_whitespace().map(number).collect::<Result<Vec<_>, _>>()?;
        let rows = &mut self.tables.get_mut(name).expect("opened before its rows").1;
        if name == DEPOTS {
            rows.extend(numbers.into_iter().filter(|number| number.value != -1.0).map(|number| vec![number]));
            return Ok(());
        }
        let &(_, least, most) = TABLES.iter().find(|&&(known, ..)| known == name).expect("only known ones are opened");
        let index = numbers[0].whole("the row's index", 1, i64::MAX)?;
        if index as usize != rows.len() + 1 {
            return Err(ReadError::at(line, format!("row {index} of {name}_SECTION where {} is due", rows.len() + 1)));
        }
        let count = numbers.len() - 1;
        if count < least || count > most {
            return Err(ReadError::at(line, format!("{count} numbers after the index in {name}_SECTION, not {least}")));
        }
        rows.push(numbers[1..].to_vec());
        Ok(())
    }

    /// A key's text.
    pub fn text(&self, key: &str) -> Option<(usize, &str)> {
        self.keys.get(key).map(|(line, value)| (*line, value.as_str()))
    }

    /// A key's number.
    pub fn number(&self, key: &str) -> Result<Option<Number>, ReadError> {
        let Some((line, text)) = self.text(key) else { return Ok(None) };
        match text.parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(Some(Number { line, value })),
            _ => Err(ReadError::at(line, format!("{key} is {text:?}, not a number"))),
        }
    }

    /// A table with as many rows as it must have.
    pub fn table(&self, name: &str, rows: usize) -> Result<Option<&[Vec<Number>]>, ReadError> {
        let Some((line, table)) = self.tables.get(name) else { return Ok(None) };
        if table.len() == rows {
            Ok(Some(table))
        } else {
            Err(ReadError::at(*line, format!("{name}_SECTION has {} rows, not {rows}", table.len())))
        }
    }

    /// The table's only column, or the key of the same name for all rows.
    pub fn column(&self, name: &str, rows: usize) -> Result<Option<Vec<Number>>, ReadError> {
        if let Some(table) = self.table(name, rows)? {
            return Ok(Some(table.iter().map(|row| row[0]).collect()));
        }
        Ok(self.number(name)?.map(|number| vec![number; rows]))
    }

    /// The depot section's entries.
    pub fn depots(&self) -> Result<Vec<Number>, ReadError> {
        let (_, rows) = self.tables.get(DEPOTS).ok_or_else(|| ReadError::whole("there is no DEPOT_SECTION"))?;
        Ok(rows.iter().map(|row| row[0]).collect())
    }
}
