//! Lists of numbers from a laboratory, and values of one calculation as a file.

use std::io::Write as _;
use std::path::Path;

use exchange::input_file::read_input_file;
use exchange::number_list::{NumberColumn, NumberList, read_number_list};
use model::problem::Problem;
use serde::Deserialize;

const COLUMNS: [NumberColumn; 2] = [
    NumberColumn { name: "opening", units: &[("mm", 1.0), ("in", 25.4)] },
    NumberColumn { name: "passing", units: &[("percent", 1.0)] },
];

fn file(name: &str, text: &[u8]) -> (tempfile::TempDir, std::path::PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join(name);
    std::fs::File::create(&path).and_then(|mut file| file.write_all(text)).expect("a file");
    (folder, path)
}

fn list(text: &str) -> Result<NumberList<2>, Vec<Problem>> {
    let (_folder, path) = file("list.csv", text.as_bytes());
    read_number_list(&path, COLUMNS)
}

fn said(problems: &[Problem]) -> Vec<(&str, usize, usize)> {
    problems.iter().map(|problem| (problem.code, problem.at.line, problem.at.column)).collect()
}

#[test]
fn columns_are_found_by_name_and_unit_in_any_order() {
    let found = list("sieve,Passing_percent, opening_IN \nfine,30,0.25\n\ncoarse,\"70\",0.5\n").unwrap();
    assert_eq!(found.rows, [[6.35, 30.0], [12.7, 70.0]]);
    assert_eq!(found.problems, []);
    assert_eq!(list("\u{feff}opening_mm;passing_percent\n8;30\n").unwrap().rows, [[8.0, 30.0]]);
}

#[test]
fn a_row_that_is_no_numbers_is_refused_with_its_place_and_the_rest_goes_on() {
    let found = list("opening_mm,passing_percent\n8,30\n10,half\n12.5\nnan,1\n1e999,1\n16,\"90\n20,100\n").unwrap();
    assert_eq!(found.rows, [[8.0, 30.0], [20.0, 100.0]]);
    let code = "file.number.unreadable";
    assert_eq!(said(&found.problems), [(code, 3, 4), (code, 4, 1), (code, 5, 1), (code, 6, 1), (code, 7, 4)]);
    assert!(found.problems[0].wrong.contains("`half` is not a number"));
}

#[test]
fn a_list_that_can_not_be_used_is_said() {
    for text in ["", "opening,passing\n8,30\n"] {
        let problems = list(text).unwrap_err();
        assert_eq!(said(&problems), [("file.column.missing", 1, 1), ("file.column.missing", 1, 1)], "{text:?}");
        assert!(problems[0].right.contains("`opening_mm` or `opening_in`"));
    }
    let problems = list("opening_mm,passing_percent\nx,y\n").unwrap_err();
    assert_eq!(said(&problems), [("file.number.unreadable", 2, 1), ("file.list.empty", 1, 1)]);
    assert_eq!(said(&read_number_list(Path::new("nowhere.csv"), COLUMNS).unwrap_err()), [("file.unreadable", 0, 0)]);
    let (_folder, path) = file("list.csv", b"opening_mm,passing_percent\n8,\xFF\n");
    assert_eq!(said(&read_number_list(&path, COLUMNS).unwrap_err()), [("file.not_utf8", 2, 3)]);
}

#[derive(Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
struct Values {
    area_m2: f64,
    grade: String,
}

#[test]
fn values_are_read_from_toml_and_json() {
    for (name, text) in [
        ("seal.toml", "area_m2 = 1.5\ngrade = \"CRS-2\"\n"),
        ("seal.json", "{ \"area_m2\": 1.5, \"grade\": \"CRS-2\" }"),
        ("seal.JSON", "{ \"area_m2\": 1.5, \"grade\": \"CRS-2\" }"),
    ] {
        let (_folder, path) = file(name, text.as_bytes());
        assert_eq!(read_input_file::<Values>(&path).unwrap(), Values { area_m2: 1.5, grade: "CRS-2".into() });
    }
}

#[test]
fn a_wrong_name_or_value_is_said_with_its_place() {
    for (name, text, line, column, word) in [
        ("seal.toml", "area_m2 = 1.5\ngrad = \"CRS-2\"\n", 2, 1, "unknown field `grad`"),
        ("seal.toml", "area_m2 = \"one\"\ngrade = \"CRS-2\"\n", 1, 11, "invalid type"),
        ("seal.json", "{ \"area_m2\": 1.5,\n \"grad\": \"CRS-2\" }", 2, 7, "unknown field `grad`"),
        ("seal.json", "{ \"area_m2\": 1.5", 1, 16, "EOF"),
    ] {
        let (_folder, path) = file(name, text.as_bytes());
        let problem = read_input_file::<Values>(&path).unwrap_err();
        assert_eq!(said(&[*problem.clone()]), [("file.input.wrong", line, column)], "{text}");
        assert!(problem.wrong.contains(word), "{}", problem.wrong);
    }
}
