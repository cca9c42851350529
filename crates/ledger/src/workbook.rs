//! Tables as a workbook (XLSX).

use std::collections::HashMap;

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use rust_decimal::prelude::ToPrimitive;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, FormatAlign, Workbook, Worksheet, XlsxError};
use thiserror::Error;

use crate::Books;
use crate::table::{Cell, Cells, Shown, Table};

/// Rows of a sheet below its headings; a last row says how many more there are. The format itself ends at 1,048,576 rows, and
/// spreadsheets grow slow and large before: CSV files hold any number.
pub const SHEET_ROWS: usize = 100_000;

/// The longest text of a cell in the format, characters.
const CELL_CHARACTERS: usize = 32_767;

/// Widths of columns, characters: at least the headings, at most what a screen holds.
const WIDEST: usize = 60;

/// Rows whose length is looked at for the widths.
const ROWS_LOOKED_AT: usize = 1_000;

/// A workbook could not be written.
#[derive(Debug, Error)]
#[error("the workbook can't be written: {0}")]
pub struct WorkbookError(#[from] XlsxError);

/// All tables as a workbook.
pub fn workbook(books: &Books) -> Result<Vec<u8>, WorkbookError> {
    let mut workbook = Workbook::new();
    let mut properties = DocProperties::new().set_title(format!("Books {} to {}", books.period.from, books.period.to));
    // the books' last day, not the clock: the same books give the same bytes
    if let Some(day) = day(books.period.to).or_else(|| day(Date::constant(2000, 1, 1))) {
        properties = properties.set_creation_datetime(&day);
    }
    workbook.set_properties(&properties);
    let formats = Formats::new(books.money_decimals);
    for table in Table::ALL {
        let sheet = workbook.add_worksheet().set_name(table.name())?;
        write_sheet(sheet, table, table.rows(books), &formats)?;
    }
    Ok(workbook.save_to_buffer()?)
}

struct Formats {
    heading: Format,
    day: Format,
    moment: Format,
    numbers: HashMap<Shown, Format>,
}

impl Formats {
    fn new(money_decimals: u32) -> Self {
        let decimals =
            |count: usize| if count == 0 { "#,##0".to_owned() } else { format!("#,##0.{}", "0".repeat(count)) };
        let all = [
            (Shown::Whole, 0),
            (Shown::Amount, 3),
            (Shown::Money, money_decimals.min(6) as usize),
            (Shown::Price, 4),
            (Shown::Ratio, 2),
        ];
        Self {
            heading: Format::new().set_bold().set_align(FormatAlign::Top),
            day: Format::new().set_num_format("yyyy-mm-dd"),
            moment: Format::new().set_num_format("yyyy-mm-dd hh:mm:ss"),
            numbers: all.map(|(shown, count)| (shown, Format::new().set_num_format(decimals(count)))).into(),
        }
    }
}

fn write_sheet<'a>(
    sheet: &mut Worksheet,
    table: Table,
    mut rows: impl Iterator<Item = Cells<'a>>,
    formats: &Formats,
) -> Result<(), XlsxError> {
    let headings = table.headings();
    let mut widths: Vec<usize> = headings.iter().map(|heading| heading.len()).collect();
    for (column, heading) in (0_u16..).zip(&headings) {
        sheet.write_string_with_format(0, column, *heading, &formats.heading)?;
    }
    let mut last_row = 0;
    for (row, cells) in (1_u32..).zip(rows.by_ref().take(SHEET_ROWS)) {
        for ((column, cell), width) in (0_u16..).zip(&cells).zip(&mut widths) {
            write_cell(sheet, row, column, cell, formats)?;
            if row as usize <= ROWS_LOOKED_AT {
                *width = (*width).max(characters(cell));
            }
        }
        last_row = row;
    }
    let more = rows.count();
    if more > 0 {
        last_row += 1;
        let words = format!("{more} more rows are in the CSV file \"{}\"", table.name());
        sheet.write_string_with_format(last_row, 0, words, &formats.heading)?;
    }
    for (column, width) in (0_u16..).zip(&widths) {
        sheet.set_column_width(column, (*width).min(WIDEST) as f64 + 2.0)?;
    }
    sheet.set_freeze_panes(1, 0)?;
    let last_column = u16::try_from(headings.len()).unwrap_or(u16::MAX).saturating_sub(1);
    sheet.autofilter(0, 0, last_row, last_column)?;
    sheet.set_landscape();
    sheet.set_print_fit_to_pages(1, 0);
    sheet.set_repeat_rows(0, 0)?;
    Ok(())
}

fn write_cell(
    sheet: &mut Worksheet,
    row: u32,
    column: u16,
    cell: &Cell<'_>,
    formats: &Formats,
) -> Result<(), XlsxError> {
    let fallback = match cell {
        Cell::Empty => return Ok(()),
        Cell::Text(text) => text.chars().take(CELL_CHARACTERS).collect(),
        Cell::Number(number, shown) => {
            if let (Some(value), Some(format)) = (number.to_f64(), formats.numbers.get(shown)) {
                sheet.write_number_with_format(row, column, value, format)?;
                return Ok(());
            }
            number.to_string()
        }
        Cell::Day(of) => {
            if let Some(date) = day(*of) {
                sheet.write_datetime_with_format(row, column, &date, &formats.day)?;
                return Ok(());
            }
            of.to_string()
        }
        Cell::Moment(at) => {
            if let Some(date) = moment(*at) {
                sheet.write_datetime_with_format(row, column, &date, &formats.moment)?;
                return Ok(());
            }
            at.to_string()
        }
    };
    // always a string, never a formula
    sheet.write_string(row, column, fallback)?;
    Ok(())
}

fn characters(cell: &Cell<'_>) -> usize {
    match cell {
        Cell::Empty => 0,
        Cell::Text(text) => text.chars().count(),
        Cell::Number(number, _) => number.trunc().to_string().len() + 6,
        Cell::Day(_) => 10,
        Cell::Moment(_) => 19,
    }
}

/// A day, where the format has it: from 1900 on.
fn day(day: Date) -> Option<ExcelDateTime> {
    let year = u16::try_from(day.year()).ok().filter(|year| *year >= 1900)?;
    ExcelDateTime::from_ymd(year, day.month().unsigned_abs(), day.day().unsigned_abs()).ok()
}

fn moment(at: Timestamp) -> Option<ExcelDateTime> {
    let local = TimeZone::UTC.to_datetime(at);
    let time = local.time();
    let [hour, minute, second] = [time.hour(), time.minute(), time.second()].map(i8::unsigned_abs);
    day(local.date())?.and_hms(hour.into(), minute, second).ok()
}
