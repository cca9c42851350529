//! CSV files and workbooks, read back with other libraries.

mod common;

use std::collections::HashMap;
use std::io::{Cursor, Read};

use calamine::{Data, DataType, Reader, Xlsx};
use common::*;
use ledger::{Books, ReorderRule, Settings, Table};
use model::record::happened::{Happened, Subject};
use model::record::stock::{StockItem, StockKind, StockPlace};
use rust_decimal::prelude::ToPrimitive;

/// A day with everything in it, and with names that somebody made to be run.
fn a_day() -> Books {
    let mut story = Story::default();
    let evil =
        StockPlace::Supplier { name: "=HYPERLINK(\"http://example.org\",\"Tar, \"\"Co\"\"\")\r\nof Osk".to_owned() };
    story.tell("2031-05-30T08:00", bought(depot(), base(), "10", "30"));
    let (to, item, unit_price) =
        (depot(), StockItem { what: StockKind::Binder, which: "+CRS-2".to_owned() }, Some(decimal("2.1")));
    let moved_in = Happened::StockMoved { from: evil, to, item, amount: decimal("200"), unit_price, lot: None };
    story.tell("2031-06-01T08:00", moved_in);
    story.tell("2031-06-01T08:30", bought_lot(depot(), binder(), "100", "2.05", "B-7", Some("2031-06-20")));
    story.tell("2031-06-02T06:00", moved(depot(), truck(), base(), "2"));
    story.tell("2031-06-02T06:01", moved(depot(), truck(), binder(), "30"));
    story.tell("2031-06-02T06:02", bought(truck(), common::item(StockKind::Cone, ""), "40", "9.5"));
    let repairs = vec![planned(50, "@Kiln Lane", "0.4", "3", "30"), planned(51, "-Lane, \"Old\"", "0.2", "2", "15")];
    story.tell("2031-06-02T06:10", round(1, "2031-06-02", "Crew Fulmar", repairs));
    story.tell("2031-06-02T08:00", cut(50, None, 1.5));
    story.tell("2031-06-02T08:10", layer(50, 1, Some("0.512345"), None));
    story.tell("2031-06-02T08:30", sealed(50, Some("3.5"), "CRS-2", None));
    story.tell("2031-06-02T11:00", booked(Subject::Repair(id(50)), "90", "40"));
    story.tell("2031-06-02T16:20", counted(depot(), base(), "7.9"));
    story.tell(
        "2031-06-03T07:00",
        round(2, "2031-07-02", "Crew Fulmar", vec![planned(52, "Heron Road", "9", "60", "15")]),
    );
    let rule = ReorderRule {
        depot: "Osk Yard".to_owned(),
        item: base(),
        lead_time_days: 5,
        safety_stock: 2.into(),
        order_unit: Some(5.into()),
        source: "the yard's own".to_owned(),
    };
    story.books(&Settings { reorder_rules: vec![rule], ..june() })
}

#[test]
fn csv_files_stay_as_they_are() {
    let books = a_day();
    let all: Vec<String> =
        Table::ALL.iter().map(|table| format!("== {}.csv\n{}", table.name(), books.csv(*table))).collect();
    insta::assert_snapshot!(all.join("\n").replace('\r', "<CR>"));
}

/// Every file is a rectangle by RFC 4180 (read with the `csv` crate), and no cell of text is one that a spreadsheet runs.
#[test]
fn csv_files_are_read_back() {
    let books = a_day();
    for table in Table::ALL {
        let text = books.csv(table);
        assert!(text.ends_with("\r\n"), "{}", table.name());
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let headings: Vec<String> = reader.headers().unwrap().iter().map(str::to_owned).collect();
        let rows: Vec<csv::StringRecord> = reader.records().map(|row| row.expect("a rectangle")).collect();
        assert!(!rows.is_empty(), "{}", table.name());
        for row in &rows {
            for (heading, cell) in headings.iter().zip(row) {
                let is_number = cell.parse::<rust_decimal::Decimal>().is_ok();
                assert!(is_number || !cell.starts_with(['=', '+', '-', '@', '\t', '\r']), "{heading}: {cell}");
            }
        }
    }
    let moves = books.csv(Table::Moves);
    let first = csv::Reader::from_reader(moves.as_bytes()).records().next().unwrap().unwrap();
    assert_eq!(&first[4], "'=HYPERLINK(\"http://example.org\",\"Tar, \"\"Co\"\"\")\r\nof Osk");
}

fn sheets(bytes: Vec<u8>) -> HashMap<String, Vec<Vec<Data>>> {
    let mut workbook: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).expect("a workbook");
    let sheets = workbook.worksheets().into_iter();
    sheets.map(|(name, range)| (name, range.rows().map(<[Data]>::to_vec).collect())).collect()
}

/// Read with `calamine`: the same cells as in the CSV files, with numbers as numbers, days as days and text as text.
#[test]
fn the_workbook_says_what_the_files_say() {
    let books = a_day();
    let bytes = books.workbook().expect("written");
    let sheets = sheets(bytes.clone());
    assert_eq!(sheets.len(), Table::ALL.len());
    let (mut numbers, mut days, mut texts) = (0, 0, 0);
    for table in Table::ALL {
        let text = books.csv(table);
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
        let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
        let sheet = &sheets[table.name()];
        assert_eq!(sheet.len(), rows.len(), "{}", table.name());
        for (cells, row) in sheet.iter().zip(&rows) {
            for (cell, told) in cells.iter().zip(row) {
                let place = format!("{}: {told:?} against {cell:?}", table.name());
                match cell {
                    Data::Empty => assert!(told.is_empty(), "{place}"),
                    Data::Float(number) => {
                        let told: rust_decimal::Decimal = told.parse().expect(&place);
                        assert_eq!(Some(*number), told.to_f64(), "{place}");
                        numbers += 1;
                    }
                    Data::DateTime(_) => {
                        let (year, month, day, ..) = cell.get_datetime().unwrap().to_ymd_hms_milli();
                        assert!(told.starts_with(&format!("{year:04}-{month:02}-{day:02}")), "{place}");
                        days += 1;
                    }
                    Data::String(text) => {
                        let as_in_csv = told.strip_prefix('\'').unwrap_or(told).replace("\r\n", "\n");
                        assert_eq!(text.replace("\r\n", "\n").replace("_x000D_\n", "\n"), as_in_csv, "{place}");
                        texts += 1;
                    }
                    other => panic!("{place}: {other:?}"),
                }
            }
        }
    }
    assert!(numbers > 200 && days > 20 && texts > 200, "{numbers} {days} {texts}");
    let mut workbook: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
    for table in Table::ALL {
        assert!(workbook.worksheet_formula(table.name()).unwrap().is_empty(), "no formulas");
    }
}

fn part(bytes: &[u8], name: &str) -> String {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).expect("an archive");
    let mut text = String::new();
    archive.by_name(name).expect(name).read_to_string(&mut text).expect("text");
    text
}

/// No clock gets into a workbook; its first row stays, its columns are as wide as they need.
#[test]
fn the_workbook_has_no_clock_and_is_laid_out() {
    let bytes = a_day().workbook().unwrap();
    assert!(part(&bytes, "docProps/core.xml").contains(">2031-06-30T00:00:00Z</dcterms:created>"));
    let mut archive = zip::ZipArchive::new(Cursor::new(&bytes)).unwrap();
    for index in 0..archive.len() {
        let file = archive.by_index(index).unwrap();
        let modified = file.last_modified().map(|at| at.year());
        assert!(modified.is_none_or(|year| year == 1980), "{}: {modified:?}", file.name());
    }
    let balances = part(&bytes, "xl/worksheets/sheet1.xml");
    assert!(balances.contains("<pane ySplit=\"1\" topLeftCell=\"A2\"") && balances.contains("state=\"frozen\""));
    assert!(balances.contains("<col min=\"1\" max=\"1\"") && balances.contains("customWidth=\"1\""));
}

/// Days that the format does not have, and text that is too long for a cell, are no error.
#[test]
fn a_workbook_of_the_far_past_is_written() {
    let mut story = Story::default();
    let supplier = StockPlace::Supplier { name: "x".repeat(40_000) };
    story.tell("0031-06-02T06:00", moved(supplier, depot(), base(), "1"));
    let period = ledger::Period { from: day("0031-06-01"), to: day("0031-06-30") };
    let books = story.books(&Settings { period, ..june() });
    let sheet = &sheets(books.workbook().expect("written"))["moves"];
    assert_eq!(sheet[1][0], Data::String("0031-06-02".to_owned()));
    assert_eq!(sheet[1][4].as_string().map(|name| name.len()), Some(32_767));
}

/// Beyond what a sheet holds, the sheet says how many rows are left out.
#[test]
fn a_long_sheet_says_what_is_left_out() {
    let mut books = a_day();
    let a_move = books.moves[0].clone();
    books.moves.resize(ledger::SHEET_ROWS + 3, a_move);
    let sheet = &sheets(books.workbook().expect("written"))["moves"];
    assert_eq!(sheet.len(), ledger::SHEET_ROWS + 2, "with headings");
    assert_eq!(sheet[ledger::SHEET_ROWS + 1][0], Data::String("3 more rows are in the CSV file \"moves\"".to_owned()));
    assert_eq!(books.csv(Table::Totals).lines().count(), books.totals.len() * 2 + 1);
}

/// What the books are as JSON is what their schema says.
#[test]
fn json_is_by_its_schema() {
    let schema = serde_json::to_value(schemars::schema_for!(Books)).expect("a schema");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    let json = serde_json::to_value(a_day()).expect("written");
    let wrong: Vec<String> =
        validator.iter_errors(&json).map(|error| format!("{}: {error}", error.instance_path())).collect();
    assert!(wrong.is_empty(), "{wrong:?}");
    assert_eq!(json["balances"][0]["amount"]["closed"], "7.9", "exact: a string");
    assert_eq!(json["moves"][0]["to"]["at"], "depot");
}
