//! Lives from Parquet: three of its columns, read batch by batch, so that what is held beside the lives stays small.

use std::borrow::Cow;
use std::panic::{AssertUnwindSafe, catch_unwind};

use model::life::LifeRow;
use model::problem::{Locator, Problem};
use parquet::basic::LogicalType;
use parquet::column::reader::{ColumnReader, ColumnReaderImpl};
use parquet::data_type::{ByteArray, DataType};
use parquet::errors::ParquetError;
use parquet::file::reader::{ChunkReader, FileReader, SerializedFileReader};
use parquet::schema::types::SchemaDescriptor;

use super::group_names::{GroupFault, GroupNames};
use super::{
    DURATION_RIGHT, EVENT_RIGHT, GROUP_RIGHT, LifeColumns, Places, ReadLives, believable, fatal, number, refused,
    too_many, yes_or_no,
};

/// How such a file begins.
pub const MAGIC: [u8; 4] = *b"PAR1";

/// Rows read at a time.
const BATCH: usize = 1 << 16;

/// Reads the columns of that names. A row's number stands where a line does, the first row being 1.
pub fn read<R: ChunkReader + 'static>(file: &str, from: R, columns: LifeColumns) -> Result<ReadLives, Vec<Problem>> {
    // the library checks most of what it reads, but not all
    catch_unwind(AssertUnwindSafe(|| read_whole(file, from, columns)))
        .unwrap_or_else(|_| Err(vec![damaged(file, "it does not hold what it says".to_owned())]))
}

fn read_whole<R: ChunkReader + 'static>(file: &str, from: R, columns: LifeColumns) -> Result<ReadLives, Vec<Problem>> {
    let broken = |error: ParquetError| vec![damaged(file, error.to_string())];
    let reader = SerializedFileReader::new(from).map_err(broken)?;
    let schema = reader.metadata().file_metadata().schema_descr();
    let names: Vec<String> = schema.columns().iter().map(|column| column.path().string()).collect();
    let places = Places::of(&names, columns, &at(file, 0))?;
    usable(file, schema, &places)?;
    let mut read = ReadLives::default();
    let mut groups = GroupNames::default();
    let mut row = 0;
    for part in 0..reader.num_row_groups() {
        let part = reader.get_row_group(part).map_err(broken)?;
        let open = |place: usize| {
            let levels = schema.column(place).max_def_level();
            part.get_column_reader(place).map(|reader| Column { reader, levels }).map_err(broken)
        };
        let (mut durations, mut events) = (open(places.duration)?, open(places.event)?);
        let mut names = places.group.map(open).transpose()?;
        loop {
            let duration = durations.next().map_err(broken)?;
            let event = events.next().map_err(broken)?;
            let name = names.as_mut().map(Column::next).transpose().map_err(broken)?;
            if duration.len() != event.len() || name.as_ref().is_some_and(|name| name.len() != event.len()) {
                return Err(vec![damaged(file, "its columns are not of one length".to_owned())]);
            }
            if duration.is_empty() {
                break;
            }
            for (index, (duration, event)) in duration.iter().zip(&event).enumerate() {
                row += 1;
                let name = name.as_ref().map(|names| &names[index]);
                match life(duration, event, name, &mut groups, || at(file, row)) {
                    Ok(life) => read.lives.rows.push(life),
                    Err(problem) => read.problems.push(*problem),
                }
            }
        }
    }
    read.lives.groups = groups.names;
    read.unless_empty(at(file, 0))
}

/// Lists are no cells, and a date or a decimal is no number of days.
fn usable(file: &str, schema: &SchemaDescriptor, places: &Places) -> Result<(), Vec<Problem>> {
    let mut problems = Vec::new();
    for place in [Some(places.duration), Some(places.event), places.group].into_iter().flatten() {
        let column = schema.column(place);
        let no_cells = match column.logical_type_ref() {
            _ if column.max_rep_level() > 0 => Some("lists"),
            Some(LogicalType::Decimal(_)) => Some("decimals"),
            Some(LogicalType::Date | LogicalType::Time(_) | LogicalType::Timestamp(_)) => Some("times"),
            _ => None,
        };
        problems.extend(no_cells.map(|what| {
            let wrong = format!("the column `{}` holds {what}", column.path().string());
            let right = "write durations as plain numbers, whether it failed as truth values, groups as words";
            fatal("lives.column.kind", at(file, 0), wrong, right.to_owned())
        }));
    }
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

enum Cell {
    Nothing,
    Number(f64),
    Truth(bool),
    Text(ByteArray),
}

impl Cell {
    fn bytes(&self) -> Cow<'_, [u8]> {
        match self {
            Cell::Nothing => Cow::Borrowed(b""),
            Cell::Number(number) => Cow::Owned(number.to_string().into_bytes()),
            Cell::Truth(truth) => Cow::Borrowed(if *truth { b"true" } else { b"false" }),
            Cell::Text(text) => Cow::Borrowed(text.data().trim_ascii()),
        }
    }

    fn words(&self) -> String {
        String::from_utf8_lossy(&self.bytes()).into_owned()
    }
}

fn life(
    duration: &Cell,
    event: &Cell,
    name: Option<&Cell>,
    groups: &mut GroupNames,
    at: impl Fn() -> Locator,
) -> Result<LifeRow, Box<Problem>> {
    let days = match duration {
        Cell::Number(days) => Some(*days),
        Cell::Text(text) => number(text.data()),
        Cell::Truth(_) | Cell::Nothing => None,
    };
    let Some(days) = days.and_then(believable) else {
        let wrong = format!("a duration of `{}`", duration.words());
        return Err(refused("lives.duration.wrong", at(), wrong, DURATION_RIGHT));
    };
    let failed = if let Cell::Truth(failed) = event { Some(*failed) } else { yes_or_no(&event.bytes()) };
    let Some(failed) = failed else {
        let wrong = format!("`{}` does not say whether it failed", event.words());
        return Err(refused("lives.event.wrong", at(), wrong, EVENT_RIGHT));
    };
    let name = name.map_or(Cow::Borrowed(&b"all"[..]), Cell::bytes);
    let group = groups.number(&name).map_err(|fault| match fault {
        GroupFault::NotUtf8 => refused("text.not_utf8", at(), "the group is no text".to_owned(), "write it as UTF-8"),
        GroupFault::TooMany(text) => refused("lives.group.too_many", at(), too_many(&text), GROUP_RIGHT),
    })?;
    Ok(LifeRow { duration: days, group, failed })
}

/// A column of one part of the file.
struct Column {
    reader: ColumnReader,
    /// How deep its cells lie where they hold something.
    levels: i16,
}

impl Column {
    /// The next cells, at most [`BATCH`]; none at the end.
    fn next(&mut self) -> Result<Vec<Cell>, ParquetError> {
        let levels = self.levels;
        match &mut self.reader {
            ColumnReader::BoolColumnReader(reader) => cells(reader, levels, Cell::Truth),
            ColumnReader::Int32ColumnReader(reader) => cells(reader, levels, |whole| Cell::Number(f64::from(whole))),
            ColumnReader::Int64ColumnReader(reader) => cells(reader, levels, |whole| Cell::Number(whole as f64)),
            ColumnReader::FloatColumnReader(reader) => cells(reader, levels, |number| Cell::Number(f64::from(number))),
            ColumnReader::DoubleColumnReader(reader) => cells(reader, levels, Cell::Number),
            ColumnReader::ByteArrayColumnReader(reader) => cells(reader, levels, Cell::Text),
            ColumnReader::Int96ColumnReader(_) | ColumnReader::FixedLenByteArrayColumnReader(_) => {
                Err(ParquetError::General("a column of a kind that is neither number, truth nor text".to_owned()))
            }
        }
    }
}

fn cells<T: DataType>(
    reader: &mut ColumnReaderImpl<T>,
    levels: i16,
    cell: impl Fn(T::T) -> Cell,
) -> Result<Vec<Cell>, ParquetError> {
    let (mut held, mut values) = (Vec::new(), Vec::new());
    let (rows, _, _) = reader.read_records(BATCH, Some(&mut held), None, &mut values)?;
    if levels == 0 {
        return Ok(values.into_iter().map(cell).collect());
    }
    let mut values = values.into_iter();
    let of = |level: &i16| if *level == levels { values.next().map_or(Cell::Nothing, &cell) } else { Cell::Nothing };
    Ok(held.iter().take(rows).map(of).collect())
}

fn damaged(file: &str, wrong: String) -> Problem {
    fatal(
        "lives.parquet.damaged",
        at(file, 0),
        wrong,
        "write the file anew: Parquet, pressed by Snappy or gzip or not at all".into(),
    )
}

fn at(file: &str, row: usize) -> Locator {
    Locator { file: file.to_owned(), line: row, column: 0 }
}
