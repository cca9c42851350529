//! Exports of offices: CSV and `GeoJSON`, well and badly written.

#[path = "support/gathered.rs"]
mod gathered;
mod support;

use std::fmt::Write as _;
use std::fs;

use gathered::{Gathered, options, read, read_with};
use insta::assert_snapshot;
use intake::bulk::{BulkField, BulkRead, SlashOrder, read_bulk};
use jiff::tz::TimeZone;
use proptest::prelude::*;
use serde_json::json;
use support::shared_data;

/// All that was read and said.
fn shown((read, gathered): &(BulkRead, Gathered)) -> String {
    let mut text = String::new();
    for used in &read.columns {
        let how = if used.is_guessed { "guessed" } else { "named" };
        let _ = writeln!(text, "{:?} from `{}`, {how}; also {:?}", used.field, used.name, used.others);
    }
    let BulkRead { rows, refused, without_zone, is_stopped, .. } = read;
    let _ = writeln!(text, "{rows} rows, {refused} refused, {without_zone} without zone, stopped: {is_stopped}");
    for row in &gathered.rows {
        let at = row.at.map(|at| at.to_string()).unwrap_or_default();
        let day = row.day.map(|day| day.to_string()).unwrap_or_default();
        let (lon, lat) = (row.position.lon, row.position.lat);
        let _ = writeln!(
            text,
            "{}: {} {lon} {lat} [{at}] [{day}] {} | {} | {:?}",
            row.line, row.reference, row.source, row.address, row.note
        );
    }
    for problem in &gathered.problems {
        let _ = writeln!(text, "{:?} {problem}", problem.severity);
    }
    text
}

const TABLE: &str = "\u{FEFF}Case ID,Opened,Long,Lat,Location,Details,Channel,Closed
1,2026-11-01 08:00,-28.41,47.31,\" 12, Kiln Lane \",\"deep
and wet\",Address,
2,2026-11-01T08:00:00+02:00,-28.42,47.32,,,,
3,2026-11-02,47.33,-28.43,exchanged,,,
4,,0,0,nowhere,,,
5,,512345.6,5238765.4,metres,,,
6,,-28.41,48.31,elsewhere,,,
7,,\u{2212}28.41,47.31,,a minus sign of print,,
8,tomorrow,-28.41,47.31,,,,
9,2026-12-24,-28.41,47.31,,,,
10,11/02/2026,-28.41,47.31,,,,
1,,-28.41,47.31,again,,,
11,,west,47.31,,,,
12,,-28.41,,,,,
13,,-28.41,47.31
14,,-28.41,47.31,,\"not closed,,
15,,-28.41,47.31,,bell \u{7},,

,,,,,,,
16,2026-11-03 09:00,-28.41,47.31,,,,
";

#[test]
fn a_table_is_read_row_by_row_and_every_fault_is_said() {
    assert_snapshot!("table", shown(&read(TABLE.as_bytes())));
}

#[test]
fn what_is_named_and_how_dates_are_written() {
    let mut options = options();
    options.columns.insert(BulkField::Lon, "East".into());
    options.columns.insert(BulkField::Lat, "north".into());
    options.slashes = Some(SlashOrder::MonthFirst);
    let table = "Long;North;East;Date\n7;47,31;-28,41;11/02/2026 01:30:00 PM\n";
    assert_snapshot!("named", shown(&read_with(table.as_bytes(), &options, 5)));
    options.columns.insert(BulkField::Note, "Words".into());
    assert_snapshot!("named_but_missing", shown(&read_with(table.as_bytes(), &options, 5)));
}

#[test]
fn sizes_need_a_unit_and_what_is_closed_says_when() {
    let table = "id,lon,lat,opened,Length,depth_cm,Width (in),Status,Date Closed\n\
        1,-28.41,47.31,2026-11-01,600 mm,9,20,Open,\n\
        2,-28.41,47.31,2026-11-01,1.2 m,0,,CLOSED,2026-11-03T10:00:00Z\n\
        3,-28.41,47.31,2026-11-01,600,12.5,2 ft,In Progress,2026-11-03\n\
        4,-28.41,47.31,2026-11-01,60 m,-3,x,,2026-11-04\n\
        5,-28.41,47.31,2026-11-05,,400,,No Action,2026-11-04\n\
        6,-28.41,47.31,2026-11-01,700,,,Referred,\n\
        7,-28.41,47.31,,,,,duplicate,tomorrow\n";
    let (read, gathered) = read(table.as_bytes());
    let told: Vec<String> = gathered
        .rows
        .iter()
        .map(|row| {
            let size = row.size.as_deref().copied().unwrap_or_default();
            let closed = row.closed.as_ref().map(|closed| {
                (closed.at.map(|at| at.to_string()), closed.day.map(|day| day.to_string()), closed.status.as_str())
            });
            format!("{} {:?} {:?} {:?} {closed:?}", row.reference, size.length_mm, size.width_mm, size.depth_mm)
        })
        .collect();
    // lengths by hand: an inch is 25.4 mm, a foot 304.8 mm
    assert_eq!(
        told,
        [
            "1 Some(600.0) Some(508.0) Some(90.0) None",
            r#"2 Some(1200.0) None None Some((Some("2026-11-03T10:00:00Z"), Some("2026-11-03"), "CLOSED"))"#,
            "3 None Some(609.6) Some(125.0) None",
            r#"4 None None None Some((None, Some("2026-11-04"), ""))"#,
            r#"5 None None None Some((None, None, "No Action"))"#,
            "6 None None None None",
            r#"7 None None None Some((None, None, "duplicate"))"#,
        ]
    );
    let codes: Vec<(usize, &str)> = gathered.problems.iter().map(|problem| (problem.at.line, problem.code)).collect();
    assert_eq!(
        codes,
        [
            (5, "intake.size.range"),
            (5, "intake.size.unreadable"),
            (5, "intake.size.range"),
            (6, "intake.size.range"),
            (6, "intake.closed.before"),
            (8, "intake.time.unreadable"),
            (4, "intake.size.no_unit"),
            (7, "intake.status.unknown"),
        ],
        "{:?}",
        gathered.problems
    );
    assert_eq!((read.refused, read.without_unit, read.unknown_status), (0, 2, 1));
    let feature = json!({"type": "FeatureCollection", "features": [{
        "type": "Feature", "geometry": {"type": "Point", "coordinates": [-28.41, 47.31]},
        "properties": {"id": 1, "depth_mm": 80, "status": "fixed", "closed": "2026-11-03"},
    }]});
    let (_, gathered) = self::read(feature.to_string().as_bytes());
    assert_eq!(gathered.rows[0].size.as_ref().unwrap().depth_mm, Some(80.0));
    assert_eq!(gathered.rows[0].closed.as_ref().unwrap().status, "fixed");
}

#[test]
fn files_of_no_use_say_why() {
    let mut said = String::new();
    for bytes in [
        &b""[..],
        b"\n\n",
        b"a,b\n1,2\n",
        b"lon,lat\n",
        b"lon,\"lat\n1,2\n",
        b"\xFF\xFEl\0o\0n\0",
        b"{}",
        b"{\"type\":\"Topology\"}",
        b"{\"features\":[",
        b"{\"features\":7}",
        b"{\"type\":\"FeatureCollection\",\"features\":[]} x",
        b"{\"crs\":{\"type\":\"name\",\"properties\":{\"name\":\"EPSG:25829\"}},\"features\":[{}]}",
    ] {
        let _ = writeln!(said, "{}:\n{}", String::from_utf8_lossy(bytes).escape_debug(), shown(&read(bytes)));
    }
    assert_snapshot!("of_no_use", said);
}

fn point(id: u32, lon: f64, lat: f64) -> serde_json::Value {
    json!({
        "type": "Feature", "geometry": { "type": "Point", "coordinates": [lon, lat] },
        "properties": { "id": id, "created": "2026-11-01T08:00:00Z", "details": "deep", "other": [1, 2] },
    })
}

#[test]
fn features_are_read_one_by_one() {
    let line = json!({ "type": "Feature", "id": "L1\u{7}", "geometry": { "type": "LineString", "coordinates": [[0, 1], [2, 3]] }, "properties": null });
    let bare = json!({ "type": "Feature", "id": 77, "geometry": { "type": "Point", "coordinates": [-28.41, 47.31] }, "properties": null });
    let none = json!({ "type": "Feature", "geometry": null, "properties": {} });
    let features = [
        point(1, -28.41, 47.31),
        point(2, 47.31, -28.41),
        json!({ "type": "Feature" }),
        json!(7),
        line,
        bare,
        none,
        point(1, -28.4, 47.3),
    ];
    let features: Vec<String> = features.iter().map(|feature| format!("  {feature}")).collect();
    let mut text =
        format!("{{ \"type\": \"FeatureCollection\", \"name\": {{}},\n\"features\": [\n{}\n", features.join(",\n"));
    text += "], \"more\": [1] }";
    assert_snapshot!("features", shown(&read_with(text.as_bytes(), &options(), 7)));
    let cut = text.replace("LineString", "Line\u{1}String");
    let (read, gathered) = read(cut.as_bytes());
    assert_eq!((read.rows, gathered.problems.last().map(|problem| problem.code)), (4, Some("intake.geojson.syntax")));
}

#[test]
fn it_tells_how_far_it_is_and_can_be_stopped() {
    let mut table = "lon,lat\n".to_owned();
    let mut list = "{\"features\":[".to_owned();
    for index in 0..10_000 {
        let lat = 47.2 + f64::from(index) / 100_000.0;
        let _ = writeln!(table, "-28.4,{lat}");
        let _ = write!(list, "{}{}", if index == 0 { "" } else { "," }, point(index, -28.4, lat));
    }
    list += "]}";
    for text in [table, list] {
        let (whole, gathered) = read(text.as_bytes());
        assert_eq!((whole.rows, whole.refused, gathered.rows.len()), (10_000, 0, 10_000));
        let rows: Vec<u64> = gathered.told.iter().map(|told| told.rows).collect();
        assert_eq!(rows, [4096, 8192, 10_000]);
        assert_eq!(gathered.told[2].bytes, text.len() as u64);
        let mut stopping = Gathered { stop_at: Some(1), ..Gathered::default() };
        let read = read_bulk(text.as_bytes(), &options(), &mut stopping);
        assert!(read.is_stopped && stopping.problems.is_empty());
        assert_eq!((read.rows, stopping.rows.len()), (4096, 4096));
    }
}

#[test]
fn a_row_that_never_ends_is_refused_and_memory_stays_small() {
    let mut table = b"lon,lat,note\n-28.4,47.3,fine\n-28.4,47.3,\"".to_vec();
    table.extend(std::iter::repeat_n(b'x', 3 * 1024 * 1024));
    table.extend(b"\n-28.4,47.3,fine\n");
    let (read, gathered) = read(&table);
    assert_eq!(gathered.rows.iter().map(|row| row.line).collect::<Vec<_>>(), [2, 4]);
    assert!(read.refused >= 1 && gathered.problems.iter().all(|problem| problem.at.line == 3));
    let list = format!("{{\"features\":[{},\"{}\"]}}", point(1, -28.4, 47.3), "x".repeat(3 * 1024 * 1024));
    let (read, gathered) = gathered::read(list.as_bytes());
    assert_eq!((read.rows, gathered.problems[0].code), (1, "intake.geojson.feature.too_long"));
}

/// The real list, where it is there: every row is used, and all times lack a zone.
#[test]
fn a_citys_list_is_read_whole() {
    let Some(data) = shared_data() else { return };
    let bytes = fs::read(data.join("syracuse/potholes_filled_2016.csv")).expect("the list");
    let mut options = options();
    options.district.bounds = None;
    options.district.zone = TimeZone::get("America/New_York").expect("a known zone");
    let (read, gathered) = read_with(&bytes, &options, 1000);
    // Counted with Python's csv module.
    assert_eq!((read.rows, read.refused, read.without_zone), (7392, 0, 7392));
    let used: Vec<(BulkField, &str)> = read.columns.iter().map(|used| (used.field, used.name.as_str())).collect();
    let expected = [
        (BulkField::Lon, "Longitude"),
        (BulkField::Lat, "Latitude"),
        (BulkField::Time, "TimeFilled"),
        (BulkField::Address, "Location"),
    ];
    assert_eq!(used, expected);
    assert_eq!(gathered.problems.iter().map(|problem| problem.code).collect::<Vec<_>>(), ["intake.time.no_zone"]);
    assert_eq!(gathered.rows[0].at.map(|at| at.to_string()).as_deref(), Some("2016-04-12T11:54:00Z"));
    // Exchanged columns are noticed in every row, and nothing is put right.
    options.district.bounds = Some(intake::place::Bounds { west: -77.0, south: 42.0, east: -75.0, north: 44.0 });
    options.columns.insert(BulkField::Lon, "Latitude".into());
    options.columns.insert(BulkField::Lat, "Longitude".into());
    let (read, gathered) = read_with(&bytes, &options, 1000);
    assert_eq!((read.rows, read.refused, gathered.rows.len()), (7392, 7392, 0));
    assert!(gathered.problems.iter().all(|problem| problem.code == "intake.position.exchanged"));
}

fn any_table() -> impl Strategy<Value = String> {
    let cell = prop::sample::select(vec![
        "-28.4",
        "47.3",
        "0",
        "",
        "\"",
        "\"a,b\"",
        "\"a\nb\"",
        "é",
        "2026-11-01",
        "\r\n",
        "\n",
        ",",
        ";",
        "nan",
        "x\"y",
        "\u{0}",
    ]);
    prop::collection::vec(cell, 0..60).prop_map(|cells| format!("lon,lat,date,note\n{}", cells.join(",")))
}

proptest! {
    #[test]
    fn any_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..300), brace in any::<bool>()) {
        let bytes = if brace { [b"{", bytes.as_slice()].concat() } else { bytes };
        let (read, gathered) = read(&bytes);
        prop_assert_eq!(read.rows, read.refused + gathered.rows.len() as u64);
        prop_assert!(gathered.problems.iter().all(|problem| !problem.wrong.is_empty() && !problem.right.is_empty()));
    }

    /// However the bytes come in, the same is read; every row has a fate.
    #[test]
    fn pieces_do_not_matter(table in any_table(), step in 1usize..40) {
        let (whole, all) = read(table.as_bytes());
        let (pieces, other) = read_with(table.as_bytes(), &options(), step);
        prop_assert_eq!(&whole, &pieces);
        prop_assert_eq!(&all.rows, &other.rows);
        prop_assert_eq!(&all.problems, &other.problems);
        prop_assert_eq!(whole.rows, whole.refused + all.rows.len() as u64);
        let lines = table.lines().count() + table.matches('\r').count();
        prop_assert!(all.problems.iter().all(|problem| problem.at.line <= lines + 1));
        // Against the line of the text itself.
        for row in &all.rows {
            let line = table.split('\n').nth(row.line - 1).unwrap_or_default();
            prop_assert!(line.contains("-28.4") || table.contains('\r'), "line {} of {:?}", row.line, table);
        }
    }

    #[test]
    fn any_features_are_read_or_refused(
        parts in prop::collection::vec("[\\[\\]{}:,\"a-z0-9.\\\\ -]{0,12}", 0..8), good in any::<bool>(),
    ) {
        let middle = if good { point(1, -28.4, 47.3).to_string() + "," } else { String::new() };
        let (read, gathered) = read(format!("{{\"features\":[{middle}{}]}}", parts.concat()).as_bytes());
        prop_assert_eq!(read.rows, read.refused + gathered.rows.len() as u64);
        prop_assert!(!good || gathered.rows.len() == 1 || read.rows == 0);
    }
}
