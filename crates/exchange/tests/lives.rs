//! Lists of lives.

use std::sync::Arc;

use exchange::lives::{LifeColumns, ReadLives, read_lives, read_lives_bytes};
use model::problem::Problem;
use parquet::basic::{Compression, GzipLevel, Repetition, Type as Physical};
use parquet::data_type::{BoolType, ByteArray, ByteArrayType, DoubleType};
use parquet::file::properties::WriterProperties;
use parquet::file::writer::SerializedFileWriter;
use parquet::schema::types::Type;
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

/// Rows as Parquet, two to a part, by the writer of the library; `None`: the cell is empty.
fn parquet(rows: &[(Option<f64>, Option<bool>, Option<&str>)], pressed: Compression) -> Vec<u8> {
    let optional = |name: &str, physical: Physical| {
        Arc::new(Type::primitive_type_builder(name, physical).with_repetition(Repetition::OPTIONAL).build().unwrap())
    };
    let fields = vec![
        optional("group", Physical::BYTE_ARRAY),
        optional("days", Physical::DOUBLE),
        optional("event", Physical::BOOLEAN),
    ];
    let schema = Arc::new(Type::group_type_builder("lives").with_fields(fields).build().unwrap());
    let properties = Arc::new(WriterProperties::builder().set_compression(pressed).build());
    let mut writer = SerializedFileWriter::new(Vec::new(), schema, properties).unwrap();
    for part in rows.chunks(2) {
        let mut group = writer.next_row_group().unwrap();
        let levels =
            |is_there: &dyn Fn(usize) -> bool| (0..part.len()).map(|row| i16::from(is_there(row))).collect::<Vec<_>>();
        let mut column = group.next_column().unwrap().unwrap();
        let texts: Vec<ByteArray> = part.iter().filter_map(|row| row.2.map(ByteArray::from)).collect();
        column.typed::<ByteArrayType>().write_batch(&texts, Some(&levels(&|row| part[row].2.is_some())), None).unwrap();
        column.close().unwrap();
        let mut column = group.next_column().unwrap().unwrap();
        let days: Vec<f64> = part.iter().filter_map(|row| row.0).collect();
        column.typed::<DoubleType>().write_batch(&days, Some(&levels(&|row| part[row].0.is_some())), None).unwrap();
        column.close().unwrap();
        let mut column = group.next_column().unwrap().unwrap();
        let events: Vec<bool> = part.iter().filter_map(|row| row.1).collect();
        column.typed::<BoolType>().write_batch(&events, Some(&levels(&|row| part[row].1.is_some())), None).unwrap();
        column.close().unwrap();
        group.close().unwrap();
    }
    writer.into_inner().unwrap()
}

const PARQUET: LifeColumns = LifeColumns { duration: "days", event: "event", group: "group" };

#[test]
fn parquet_says_what_a_list_says() {
    let rows = [
        (Some(12.5), Some(true), Some("plate")),
        (Some(30.0), Some(false), Some("roller, two")),
        (None, Some(true), Some("plate")),
        (Some(-2.0), Some(true), None),
        (Some(7.0), None, Some("plate")),
        (Some(0.0), Some(true), None),
    ];
    let list = b"group;days;event\nplate;12.5;1\n\"roller, two\";30;0\nplate;;1\n;-2;1\nplate;7;\n;0;1\n";
    let of_list = read_lives_bytes("lives.csv", list, PARQUET).unwrap();
    for pressed in [Compression::UNCOMPRESSED, Compression::SNAPPY, Compression::GZIP(GzipLevel::default())] {
        let bytes = parquet(&rows, pressed);
        let read = read_lives_bytes("lives.parquet", &bytes, PARQUET).unwrap();
        assert_eq!(read.lives, of_list.lives, "{pressed:?}");
        assert_eq!(
            said(&read.problems),
            [
                "lives.parquet:3: a duration of ``; write a number from 0 on, without unit [lives.duration.wrong]",
                "lives.parquet:4: a duration of `-2`; write a number from 0 on, without unit [lives.duration.wrong]",
                "lives.parquet:5: `` does not say whether it failed; 1 if it failed then, 0 if it was whole [lives.event.wrong]",
            ]
        );
        let file = tempfile::NamedTempFile::new().unwrap();
        std::fs::write(file.path(), &bytes).unwrap();
        assert_eq!(read_lives(file.path(), PARQUET).unwrap().lives, of_list.lives, "from the file");
    }
    let missing =
        read_lives_bytes("x", &parquet(&rows, Compression::UNCOMPRESSED), LifeColumns::default()).unwrap_err();
    assert_eq!((missing[0].code, missing[0].subject.as_str()), ("lives.column.missing", "duration"));
}

/// pyarrow writes as other programs do: dictionaries, Snappy, its own kinds of numbers.
#[test]
fn parquet_of_another_program() {
    let file = tempfile::NamedTempFile::new().unwrap();
    let script = "import sys, datetime, pyarrow as a, pyarrow.parquet as p\n\
        n = 200000\n\
        t = a.table({'days': a.array([i % 900 for i in range(n)], a.int32()), 'event': a.array([i % 3 == 0 for i in range(n)]),\n\
        'group': a.array([['plate', 'roller'][i % 2] for i in range(n)]).dictionary_encode(),\n\
        'at': a.array([datetime.datetime(2026, 6, 1)] * n)})\n\
        p.write_table(t, sys.argv[1], row_group_size=70000)";
    let made = std::process::Command::new("python3").args(["-c", script]).arg(file.path()).output();
    if !made.is_ok_and(|output| output.status.success()) {
        println!("skipped: Python has no pyarrow, so no other program writes a Parquet file");
        return;
    }
    let read = read_lives(file.path(), PARQUET).unwrap();
    assert!(read.problems.is_empty());
    assert_eq!((read.lives.rows.len(), read.lives.groups), (200_000, vec!["plate".to_owned(), "roller".to_owned()]));
    assert!(
        read.lives
            .rows
            .iter()
            .zip(0_u32..)
            .all(|(row, at)| { (row.duration, row.failed, row.group) == (f64::from(at % 900), at % 3 == 0, at % 2) })
    );
    let times = LifeColumns { duration: "at", ..PARQUET };
    assert_eq!(read_lives(file.path(), times).unwrap_err()[0].code, "lives.column.kind");
}

proptest! {
    #[test]
    fn damaged_parquet_is_told_and_nothing_panics(
        hits in proptest::collection::vec((0.0..1.0_f64, any::<u8>()), 1..4), cut in 0.0..1.2_f64,
    ) {
        let mut bytes = parquet(&[(Some(3.0), Some(true), Some("a")); 5], Compression::SNAPPY);
        let length = bytes.len();
        for (at, byte) in hits {
            bytes[4 + ((length - 4) as f64 * at) as usize] = byte;
        }
        bytes.truncate((length as f64 * cut) as usize);
        match read_lives_bytes("x", &bytes, PARQUET) {
            Ok(read) => prop_assert!(read.lives.rows.iter().all(|row| row.duration >= 0.0 && (row.group as usize) < read.lives.groups.len())),
            Err(problems) => prop_assert!(!problems.is_empty()),
        }
    }
}
