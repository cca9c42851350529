//! Lists of lives.

use exchange::lives::{LifeColumns, ReadLives, read_lives_bytes};
use model::problem::Problem;
use proptest::prelude::*;

fn read(text: &str) -> Result<ReadLives, Vec<Problem>> {
    read_lives_bytes("lives.csv", text.as_bytes(), LifeColumns::default())
}

fn said(problems: &[Problem]) -> Vec<String> {
    problems.iter().map(ToString::to_string).collect()
}

#[test]
fn rows_become_lives() {
    let read = read("repair,Duration,event,group\n1,12.5,1,plate\n2,30,no,\"roller, two\"\n3,0,TRUE,plate\n").unwrap();
    assert!(read.problems.is_empty());
    assert_eq!(read.lives.groups, ["plate", "roller, two"]);
    let rows: Vec<(f64, bool, u32)> = read.lives.rows.iter().map(|row| (row.duration, row.failed, row.group)).collect();
    assert_eq!(rows, [(12.5, true, 0), (30.0, false, 1), (0.0, true, 0)]);
}

#[test]
fn columns_by_other_names_and_one_group() {
    let columns = LifeColumns { duration: "days", event: "broke", group: "group" };
    let read = read_lives_bytes("x", b"days;broke\n3;1\n4;0\n", columns).unwrap();
    assert_eq!((read.lives.groups, read.lives.rows.len()), (vec!["all".to_owned()], 2));
}

#[test]
fn what_is_wrong_is_said_and_the_rest_goes_on() {
    let read = read("duration,event,group\n5,1,a\n-1,1,a\nx,0,a\n4,maybe,b\n3,1\n7,0,\"b\n8,0,b\n").unwrap();
    assert_eq!(read.lives.rows.len(), 2);
    insta::assert_snapshot!(said(&read.problems).join("\n"), @r"
    lives.csv:3:1: a duration of `-1`; write a number from 0 on, without unit [lives.duration.wrong]
    lives.csv:4:1: a duration of `x`; write a number from 0 on, without unit [lives.duration.wrong]
    lives.csv:5:3: `maybe` does not say whether it failed; 1 if it failed then, 0 if it was whole [lives.event.wrong]
    lives.csv:6:1: 2 fields where the header has 3; write every field [lives.row.field_count]
    lives.csv:7:5: a quote is opened here that is not closed where the cell ends; close it [lives.row.quote]
    ");
}

#[test]
fn files_that_cannot_be_used() {
    for (name, text, code) in [
        ("empty", "", "lives.list.empty"),
        ("header only", "duration,event\n", "lives.list.empty"),
        ("no durations", "duratoin,event\n3,1\n", "lives.column.missing"),
    ] {
        let problems = read(text).unwrap_err();
        assert_eq!(problems[0].code, code, "{name}");
    }
    let columns = LifeColumns { group: "crew", ..LifeColumns::default() };
    let problems = read_lives_bytes("x", b"duration,event\n3,1\n", columns).unwrap_err();
    assert_eq!(problems[0].code, "lives.column.missing");
}

#[test]
fn numbers_of_repairs_are_no_groups() {
    let rows: Vec<String> = (0..1010).map(|row| format!("1,1,r{row}")).collect();
    let read = read(&format!("duration,event,group\n{}\n", rows.join("\n"))).unwrap();
    assert_eq!((read.lives.rows.len(), read.problems.len()), (1000, 10));
}

proptest! {
    #[test]
    fn every_row_is_used_or_told(cells in proptest::collection::vec(("[0-9a-z.\\-]{0,4}", "[01x]", "[abc]"), 1..20)) {
        let rows: Vec<String> = cells.iter().map(|(d, e, g)| format!("{d},{e},{g}")).collect();
        let (used, told) = match read(&format!("duration,event,group\n{}\n", rows.join("\n"))) {
            Ok(read) => (read.lives.rows.len(), read.problems.len()),
            Err(problems) => (0, problems.len() - 1),
        };
        prop_assert_eq!(used + told, cells.len());
    }
}
