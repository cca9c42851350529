//! The attribute table of a shapefile, row by row.

use std::fs::File;
use std::io::{BufReader, Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};

use model::problem::Locator;
use shapefile::dbase::encoding::{DynEncoding, UnicodeLossy};
use shapefile::dbase::{FieldIterator, FieldValue, ReadableRecord, Reader, ReaderBuilder};

use super::findings::{Findings, guarded};

/// The cells of one row that hold something, with their column names.
pub(super) type Cells = Vec<(String, String)>;

/// A table that is read along with the shapes.
pub(super) struct Table {
    reader: Reader<BufReader<File>>,
    file: String,
    next: usize,
    /// Which rows are marked as deleted; the library skips them, the shapes do not.
    deleted: Vec<bool>,
    broken: bool,
    rows_missing: usize,
}

impl Table {
    /// Opens the `.dbf` beside the `.shp`; `None` (reported) where there is none that can be read.
    pub(super) fn beside(shp: &Path, findings: &mut Findings) -> Option<Self> {
        let path = ["dbf", "DBF"].iter().map(|ending| shp.with_extension(ending)).find(|path| path.exists());
        let Some(path) = path else {
            let at = findings.at(0, 0);
            let wrong = "there is no .dbf beside it, so nothing is known of the roads but where they lie".to_owned();
            findings.warn("road.dbf.missing", at, "", wrong, "the .dbf beside the .shp; class defaults are used");
            return None;
        };
        match guarded(|| Table::open(&path, shp)).and_then(|inner| inner) {
            Ok(table) => Some(table),
            Err(error) => {
                let wrong = format!("the table can't be read: {error}");
                let right = "an undamaged .dbf; class defaults are used";
                findings.refuse("road.dbf.broken", place(&path.display().to_string()), "", wrong, right);
                None
            }
        }
    }

    fn open(path: &Path, shp: &Path) -> Result<Self, String> {
        let text = |error: shapefile::dbase::Error| error.to_string();
        let file = File::open(path).map_err(|error| error.to_string())?;
        let deleted = deleted_rows(&file).map_err(|error| error.to_string())?;
        let source = BufReader::new(file);
        let reader = match encoding_beside(shp) {
            Some(encoding) => ReaderBuilder::new().with_encoding(encoding).build(source).map_err(text)?,
            None => match Reader::new(source) {
                Ok(reader) => reader,
                // A code page the library does not know: names may be garbled, numbers are not.
                Err(_) => ReaderBuilder::new()
                    .with_encoding(UnicodeLossy)
                    .build(BufReader::new(File::open(path).map_err(|error| error.to_string())?))
                    .map_err(text)?,
            },
        };
        Ok(Table { reader, file: path.display().to_string(), next: 0, deleted, broken: false, rows_missing: 0 })
    }

    /// The row of the next shape; `None` where it is missing or marked as deleted.
    pub(super) fn next_row(&mut self, findings: &mut Findings) -> Option<Cells> {
        let index = self.next;
        self.next += 1;
        if self.broken || index >= self.deleted.len() {
            self.rows_missing += 1;
            return None;
        }
        if self.deleted[index] {
            self.rows_missing += 1;
            return None;
        }
        let row = guarded(|| {
            self.reader.seek(index).map_err(|error| error.to_string())?;
            self.reader.iter_records_as::<LooseRow>().next().transpose().map_err(|error| error.to_string())
        });
        match row {
            Ok(Ok(Some(row))) => {
                for error in &row.unreadable {
                    let subject = format!("record {}", index + 1);
                    let wrong = format!("a cell can't be read: {error}");
                    findings.warn("road.dbf.cell", place(&self.file), &subject, wrong, "a cell of the column's type");
                }
                Some(row.cells)
            }
            Ok(Ok(None)) => {
                self.rows_missing += 1;
                None
            }
            Ok(Err(error)) | Err(error) => {
                self.broken = true;
                self.rows_missing += 1;
                let wrong = format!("the table breaks off at row {}: {error}", index + 1);
                let right = "a whole, undamaged .dbf; class defaults are used from here on";
                findings.refuse("road.dbf.broken", place(&self.file), "", wrong, right);
                None
            }
        }
    }

    /// Says how many shapes had no row.
    pub(super) fn finish(self, findings: &mut Findings) {
        if self.rows_missing > 0 {
            let wrong = format!("{} of {} shapes have no row in the table", self.rows_missing, self.next);
            findings.warn(
                "road.dbf.rows",
                place(&self.file),
                "",
                wrong,
                "one row for each shape; class defaults are used",
            );
        }
    }
}

fn place(file: &str) -> Locator {
    Locator { file: file.to_owned(), line: 0, column: 0 }
}

/// A row read column by column, so that one bad cell does not cost the others.
struct LooseRow {
    cells: Cells,
    unreadable: Vec<String>,
}

impl ReadableRecord for LooseRow {
    fn read_using<S: Read + Seek, M: Read + Seek>(
        fields: &mut FieldIterator<'_, S, M>,
    ) -> Result<Self, shapefile::dbase::FieldError> {
        let mut row = LooseRow { cells: Vec::new(), unreadable: Vec::new() };
        for field in fields {
            match field {
                Ok(named) => {
                    if let Some(text) = text_of(&named.value) {
                        row.cells.push((named.name.to_owned(), text));
                    }
                }
                Err(error) => row.unreadable.push(error.to_string()),
            }
        }
        Ok(row)
    }
}

fn text_of(value: &FieldValue) -> Option<String> {
    let yes_no = |yes: bool| if yes { "yes" } else { "no" }.to_owned();
    match value {
        FieldValue::Character(text) => text.clone(),
        FieldValue::Memo(text) => Some(text.clone()),
        FieldValue::Numeric(number) => number.filter(|number| number.is_finite()).map(|number| number.to_string()),
        FieldValue::Float(number) => number.filter(|number| number.is_finite()).map(|number| number.to_string()),
        FieldValue::Double(number) | FieldValue::Currency(number) => {
            Some(*number).filter(|number| number.is_finite()).map(|number| number.to_string())
        }
        FieldValue::Integer(number) => Some(number.to_string()),
        FieldValue::Logical(yes) => yes.map(yes_no),
        FieldValue::Date(_) | FieldValue::DateTime(_) => None,
    }
}

/// Reads the mark in front of each row (dBASE III: `*` is deleted).
fn deleted_rows(file: &File) -> std::io::Result<Vec<bool>> {
    let size = file.metadata()?.len();
    let mut source = BufReader::new(file);
    let mut header = [0; 12];
    source.read_exact(&mut header)?;
    let rows = u64::from(u32::from_le_bytes([header[4], header[5], header[6], header[7]]));
    let first = u64::from(u16::from_le_bytes([header[8], header[9]]));
    let length = u64::from(u16::from_le_bytes([header[10], header[11]]));
    let there = if length == 0 { 0 } else { size.saturating_sub(first).div_ceil(length).min(rows) };
    let mut deleted = Vec::new();
    source.seek(SeekFrom::Start(first))?;
    for _ in 0..there {
        let mut mark = [0];
        if source.read_exact(&mut mark).is_err() {
            break;
        }
        deleted.push(mark[0] == b'*');
        source.seek_relative(length.cast_signed() - 1)?;
    }
    source.seek(SeekFrom::Start(0))?;
    Ok(deleted)
}

/// The encoding that a `.cpg` beside the shapefile names.
fn encoding_beside(shp: &Path) -> Option<DynEncoding> {
    let paths: [PathBuf; 2] = [shp.with_extension("cpg"), shp.with_extension("CPG")];
    let label = paths.iter().find_map(|path| std::fs::read_to_string(path).ok())?;
    DynEncoding::from_name(label.trim())
}
