//! Hole lists: what is read, and what is said of every kind of bad input.

use std::collections::{BTreeMap, BTreeSet};

use exchange::holes::{
    Dimension, HoleColumns, HoleField, HoleFile, HoleOptions, read_hole_bytes, read_holes, read_size,
};
use jiff::civil::{Date, date};
use model::hole::{EarlierRepairs, LanePosition, Shape, Wetness};
use model::place::LonLat;
use model::problem::{Locator, ProblemSeverity};
use model::quantity::InLength;
use proptest::prelude::*;

const TODAY: Date = date(2026, 11, 25);
const HEADER: &str = "id,lon,lat,length (m),width (m),depth (mm),date,note,position,wet\n";

fn read(text: impl AsRef<[u8]>) -> HoleFile {
    let depot = Some(LonLat { lon: -28.4, lat: 47.3 });
    let file = read_hole_bytes("holes.csv", text.as_ref(), &HoleOptions { depot, ..HoleOptions::default() }, TODAY);
    assert_eq!(file.rows, file.holes.len() + file.refused_rows, "nothing lost");
    file
}

/// Holes and problems, one a line.
fn told(text: impl AsRef<[u8]>) -> String {
    let file = read(text);
    let ids: Vec<&str> = file.holes.iter().map(|hole| hole.id.0.as_str()).collect();
    let problems: Vec<String> =
        file.problems.iter().map(|problem| format!("{:?} {problem}\n", problem.severity)).collect();
    format!("rows {}, holes [{}]\n{}", file.rows, ids.join(" "), problems.concat())
}

#[test]
fn a_plain_list_reads() {
    let file = read(format!(
        "{HEADER}H1,-28.41,47.31,1.2,0.8,220,2026-11-20,by the gate,wheel path,wet\nH2,-28.42,47.32,1,0.5,90,,,,\n"
    ));
    assert_eq!(file.problems, []);
    let hole = &file.holes[0];
    assert_eq!(hole.position, LonLat { lon: -28.41, lat: 47.31 });
    let Shape::Size { length, width } = &hole.shape else { panic!("a size") };
    assert!((length.in_metres() - 1.2).abs() < 1e-12 && (width.in_metres() - 0.8).abs() < 1e-12);
    assert!((hole.depth.in_millimetres() - 220.0).abs() < 1e-9);
    assert_eq!(hole.seen, Some(date(2026, 11, 20)));
    assert_eq!(
        (hole.note.as_str(), hole.lane_position, hole.wetness),
        ("by the gate", Some(LanePosition::WheelPath), Some(Wetness::Wet))
    );
    assert_eq!(hole.from, Locator { file: "holes.csv".into(), line: 2, column: 1 });
    let bare = &file.holes[1];
    assert_eq!((bare.seen, bare.lane_position, bare.wetness, bare.note.as_str()), (None, None, None, ""));
}

/// The same hole in every unit and way of saying it, by definition of the inch (25.4 mm).
#[test]
fn units_stand_in_header_column_or_cell() {
    for (header, row) in [
        ("length_m,width_cm,depth_mm", "1.27,50.8,203.2"),
        ("length (m),width [cm],depth in", "1.27,50.8,8"),
        ("length,width,depth,unit", "50,20,8,in"),
        ("length,width,depth", "1.27 m,20 in,\"8\"\"\""),
        ("length,width,depth", "4'2,1.6666666666666667 ft,203.2mm"),
        ("length,width,depth_mm,units", "50,20,203.2,inches"),
    ] {
        let file = read(format!("id,lon,lat,{header}\nH1,-28.4,47.3,{row}\n"));
        assert_eq!(file.problems, [], "{header}");
        let Shape::Size { length, width } = &file.holes[0].shape else { panic!("a size") };
        let sizes = [length, width, &file.holes[0].depth].map(|size| size.in_metres());
        for (size, expected) in sizes.iter().zip([1.27, 0.508, 0.2032]) {
            assert!((size - expected).abs() < 1e-12, "{header}: {sizes:?}");
        }
    }
}

#[test]
fn every_bad_file_is_refused_with_its_reason() {
    let cases: [(&str, &[u8]); 12] = [
        ("empty", b""),
        ("blank", b" \r\n\n"),
        ("byte order mark only", b"\xEF\xBB\xBF"),
        ("header only", b"id,lon,lat,length_m,width_m,depth_mm\n\n"),
        ("missing columns", b"id,lon,latitud,length_m,width_m\nH1,1,2,3,4\n"),
        ("unknown unit in the header", b"id,lon,lat,length (m),width (m),depth (furlong)\nH1,-28.4,47.3,1,1,1\n"),
        ("two depths", b"id,lon,lat,length_m,width_m,depth_mm,depth_in\nH1,-28.4,47.3,1,1,100,4\n"),
        ("open quote in the header", b"id,\"lon,lat\nH1,1,2\n"),
        ("UTF-16", b"\xFF\xFEi\0d\0"),
        ("truncated GeoJSON", b"{\"type\":\"FeatureCollection\",\n\"features\":[{\"type\":\"Fea"),
        ("not GeoJSON", b"[1, 2, 3]"),
        ("projected GeoJSON", b"{\"type\":\"FeatureCollection\",\"crs\":{\"type\":\"name\",\"properties\":{\"name\":\"EPSG:3857\"}},\"features\":[]}"),
    ];
    let all: Vec<String> = cases
        .iter()
        .map(|(name, bytes)| {
            assert!(read(bytes).holes.is_empty(), "{name}");
            assert!(read(bytes).problems.iter().any(|problem| problem.severity == ProblemSeverity::Fatal), "{name}");
            format!("# {name}\n{}", told(bytes))
        })
        .collect();
    insta::assert_snapshot!(all.join("\n"));
}

/// Every bad row stands between two good ones, which must both be read.
#[test]
fn every_bad_row_is_refused_with_its_place_and_the_rest_goes_on() {
    let cases: [(&str, &[u8]); 28] = [
        ("unit of the cell unknown", b"B,-28.4,47.3,1,1,3 furlongs,,,,"),
        ("unit contradicts the header", b"B,-28.4,47.3,1,1,8 in,,,,"),
        ("negative", b"B,-28.4,47.3,-1,1,100,,,,"),
        ("zero", b"B,-28.4,47.3,1,0,100,,,,"),
        ("not a number", b"B,-28.4,47.3,1,1,NaN,,,,"),
        ("infinite", b"B,-28.4,47.3,inf,1,100,,,,"),
        ("too big to hold", b"B,-28.4,47.3,1e999,1,100,,,,"),
        ("three metres deep", b"B,-28.4,47.3,1,1,3000,,,,"),
        ("a kilometre long", b"B,-28.4,47.3,1000,1,100,,,,"),
        ("words", b"B,-28.4,47.3,1,1,deep,,,,"),
        ("missing size", b"B,-28.4,47.3,1,,100,,,,"),
        ("everything wrong at once", b",x,,0,-1,,,,,"),
        ("swapped, out of range", b"B,47.3,-128.4,1,1,100,,,,"),
        ("swapped, told by the depot", b"B,47.3,-28.4,1,1,100,,,,"),
        ("no such place", b"B,-281.4,-473,1,1,100,,,,"),
        ("longitude infinite", b"B,inf,47.3,1,1,100,,,,"),
        ("same row again", b"A,-28.4,47.3,1,1,100,,,,"),
        ("id taken", b"A,-28.4,47.3,1,1,150,,,,"),
        ("no id", b",-28.4,47.3,1,1,100,,,,"),
        ("Latin-1 note", b"B,-28.4,47.3,1,1,100,,bei der Br\xFCcke,,"),
        ("Latin-1 note in quotes", b"B,-28.4,47.3,1,1,100,,\"\"\"H\xF6lle\"\"\",,"),
        ("too few fields", b"B,-28.4,47.3,1,1"),
        ("too many fields", b"B,-28.4,47.3,1,1,100,,a,b,c,d,e"),
        ("quote never closed", b"B,-28.4,47.3,1,1,100,,\"deep,,"),
        ("decimal comma among commas", b"B,-28.4,47.3,\"1,2\",1,100,,,,"),
        ("longitude with comma", b"B,\"-28,4\",47.3,1,1,100,,,,"),
        ("feet on feet", b"B,-28.4,47.3,1'1'1',1,100,,,,"),
        ("control characters", b"B\x1B[2J,-28.4,47.3,1\0,1,100,,,,"),
    ];
    let all: Vec<String> = cases
        .iter()
        .map(|(name, row)| {
            let bytes =
                [HEADER.as_bytes(), b"A,-28.4,47.3,1,1,100,,,,\n", row, b"\nZ,-28.4,47.3,1,1,100,,,,\n"].concat();
            let file = read(&bytes);
            let ids: Vec<&str> = file.holes.iter().map(|hole| hole.id.0.as_str()).collect();
            assert_eq!((ids, file.rows, file.refused_rows), (vec!["A", "Z"], 3, 1), "{name}");
            format!("# {name}\n{}", told(&bytes))
        })
        .collect();
    insta::assert_snapshot!(all.join("\n"));
}

/// What is not needed to mend a hole does not keep it from being mended.
#[test]
fn doubtful_words_are_said_and_the_hole_is_used() {
    let rows = [
        ("date unreadable", "B,-28.4,47.3,1,1,100,20/11/2026,,,"),
        ("no such day", "B,-28.4,47.3,1,1,100,2026-02-30,,,"),
        ("date in the future", "B,-28.4,47.3,1,1,100,2026-11-26,,,"),
        ("position unknown", "B,-28.4,47.3,1,1,100,,,wheelpaht,"),
        ("wetness unknown", "B,-28.4,47.3,1,1,100,,,,soggy"),
    ];
    let all: Vec<String> =
        rows.iter().map(|(name, row)| format!("# {name}\n{}", told(format!("{HEADER}{row}\n")))).collect();
    insta::assert_snapshot!(all.join("\n"));
}

#[test]
fn source_wetness_and_earlier_repairs() {
    let read = |wet: &str, source: &str, repairs: &str| {
        let text = format!(
            "id,lon,lat,length_m,width_m,depth_mm,base,reported_by,repairs\nA,-28.4,47.3,1,1,100,{wet},{source},{repairs}\n"
        );
        let mut file = read(text);
        let codes: Vec<&str> = file.problems.iter().map(|problem| problem.code).collect();
        let hole = file.holes.remove(0);
        (hole.wetness, hole.source, hole.repairs, codes)
    };
    for (word, wetness) in [
        ("dry", Wetness::Dry),
        ("Damp", Wetness::Damp),
        ("moist", Wetness::Damp),
        ("WET", Wetness::Wet),
        ("yes", Wetness::Wet),
        ("no", Wetness::Dry),
        ("seepage", Wetness::Seepage),
        ("seeping", Wetness::Seepage),
        ("pumping", Wetness::Pumping),
    ] {
        assert_eq!(read(word, "Patrol", ""), (Some(wetness), "patrol".into(), None, vec![]), "{word}");
    }
    let days = EarlierRepairs::Days(vec![date(2025, 11, 4), date(2026, 3, 18)]);
    for (text, repairs) in [
        ("3", EarlierRepairs::Count(3)),
        ("100", EarlierRepairs::Count(100)),
        ("2026-03-18; 2025-11-04", days.clone()),
        ("2026-03-18 2025-11-04;2026-03-18", days),
        ("2026-11-25", EarlierRepairs::Days(vec![date(2026, 11, 25)])),
    ] {
        assert_eq!(read("", "", text), (None, String::new(), Some(repairs), vec![]), "{text}");
    }
    for text in ["101", "-1", "twice", "2026-11-26", "2026-3-18", ";"] {
        assert_eq!(read("", "", text).3, ["hole.repairs.unreadable"], "{text}");
    }
}

#[test]
fn no_unit_anywhere_is_never_guessed() {
    insta::assert_snapshot!(told(
        "id,lon,lat,length,width,depth,unit,reporter\nB,-28.4,47.3,1 m,80 cm,100,,x\nC,-28.4,47.3,1,1,1,ells,y\n"
    ));
}

#[test]
fn quoted_newlines_keep_the_line_numbers() {
    let file = read(format!(
        "{HEADER}A,-28.4,47.3,1,1,100,,\"two\r\nlines\",lane,\r\n\r\nB,-28.4,47.3,1,1,-5,,\"a\n\nb\",,\nC,-28.4,47.3,1,1,-5,,,,\n"
    ));
    assert_eq!(file.holes[0].note, "two\r\nlines");
    let places: Vec<_> = file.problems.iter().map(|problem| (problem.at.line, problem.at.column)).collect();
    assert_eq!(places, [(5, 18), (8, 18)]);
}

#[test]
fn byte_order_mark_separators_and_decimal_commas_are_understood() {
    let texts = [
        "\u{feff}id,lon,lat,length_m,width_m,depth_mm\nH,-28.4,47.3,1.25,0.5,90.5\n",
        "id;lon;lat;length_m;width_m;depth_mm\nH;-28,4;47,3;1,25;0,5;90,5\n",
        "id\tlon\tlat\tlength_m\twidth_m\tdepth_mm\nH\t-28.4\t47.3\t1.25\t0.5\t90.5\n",
        "\r\nid,lon,lat,length_m,width_m,depth_mm\rH,-28.4,47.3,1.25,0.5,90.5,,\r,,,,,\r",
    ];
    for text in texts {
        let file = read(text);
        assert_eq!(file.problems, [], "{text}");
        let Shape::Size { length, .. } = &file.holes[0].shape else { panic!("a size") };
        assert_eq!((file.holes[0].position.lon, length.in_metres()), (-28.4, 1.25), "{text}");
    }
}

#[test]
fn own_column_names_are_obeyed() {
    let names = BTreeMap::from([(HoleField::Id, "Nr".to_owned()), (HoleField::Depth, "Tiefe".to_owned())]);
    let options = HoleOptions { columns: HoleColumns { names }, depot: None };
    let text = b"nr,lon,lat,length_m,width_m,Tiefe (cm),depth\n7,-28.4,47.3,1,1,9,x\n";
    let file = read_hole_bytes("f", text, &options, TODAY);
    assert!((file.holes[0].depth.in_metres() - 0.09).abs() < 1e-12);
    assert_eq!(file.problems[0].code, "hole.column.unused");
}

#[test]
fn outlines_read_and_bad_ones_are_refused() {
    let row = |outline: &str| format!("id,depth_mm,outline\nH,100,\"{outline}\"\n");
    let square = "-28.40000 47.30000; -28.39998 47.30000; -28.39998 47.30001; -28.40000 47.30001";
    let polygon = "POLYGON ((-28.40000 47.30000, -28.39998 47.30000, -28.39998 47.30001, -28.40000 47.30001, -28.40000 47.30000))";
    for text in [square, polygon, &polygon.to_lowercase()] {
        let file = read(row(text));
        assert_eq!(file.problems, [], "{text}");
        let hole = &file.holes[0];
        assert!(matches!(&hole.shape, Shape::Outline(ring) if ring.len() == 4), "closing point not repeated");
        assert!(
            (hole.position.lon + 28.39999).abs() < 1e-9 && (hole.position.lat - 47.300005).abs() < 1e-9,
            "{:?}",
            hole.position
        );
    }
    let bad = [
        "",
        "here",
        "-28.4 47.3; -28.4 47.3",
        "-28.4 47.3; -28.40001 47.3; -28.40002 47.3",
        "-28.4 47.3; -28.4 47.4; -28.3 47.4",
        "47.3 -128.4; 47.30001 -128.4; 47.3 -128.40001",
        "POLYGON ((-28.4 47.3, -28.40001 47.3)",
        "POLYGON EMPTY",
        "-28.4 nan; 1 2; 3 4",
    ];
    let all: Vec<String> = bad.iter().map(|outline| format!("# {outline}\n{}", told(row(outline)))).collect();
    insta::assert_snapshot!(all.join("\n"));
}

#[test]
fn geojson_points_and_polygons_read_and_bad_features_are_refused() {
    let text = r#"{"type": "FeatureCollection", "features": [
{"type": "Feature", "geometry": {"type": "Point", "coordinates": [-28.4, 47.3, 12]},
 "properties": {"id": "P1", "length_m": 1.2, "width_m": 0.8, "depth": "220 mm", "wet": true, "position": "edge", "by": "x"}},
{"type": "Feature", "id": 7, "geometry": {"type": "Polygon", "coordinates": [[[-28.4, 47.3], [-28.39999, 47.3], [-28.39999, 47.30001], [-28.4, 47.3]]]},
 "properties": {"depth_mm": 90}},
{"type": "Feature", "geometry": {"type": "LineString", "coordinates": [[-28.4, 47.3], [-28.5, 47.3]]}, "properties": {"id": "L", "depth_mm": 90}},
{"type": "Feature", "geometry": null, "properties": {"id": "N", "depth_mm": 90}},
{"type": "Feature", "geometry": {"type": "Point", "coordinates": [-28.4, 47.3]}, "properties": {"id": "D", "length_m": 1, "width_m": 1, "depth_mm": 3000}},
{"type": "Feature", "geometry": {"type": "Point", "coordinates": [-28.4]}, "properties": {"id": "S", "length_m": 1, "width_m": 1, "depth_mm": 30}},
{"type": "Feature", "geometry": {"type": "Point", "coordinates": [-28.4, 47.3]}, "properties": {"id": "E", "length_m": 1, "width_m": 1, "depth_mm": 1e999}},
{"type": "Feature", "geometry": {"type": "Point", "coordinates": [-28.4, 47.3]}, "properties": {"id": "U", "length_m": 1, "width_m": 1, "depth_ells": 1}},
"no feature",
{"type": "Feature", "geometry": {"type": "Point", "coordinates": [-28.4, 47.3]}, "properties": {"id": "P1", "length_m": 1, "width_m": 1, "depth_mm": 100}}
]}"#;
    let file = read(text);
    assert_eq!((file.rows, file.holes.len()), (10, 2));
    assert_eq!((file.holes[0].wetness, file.holes[0].lane_position), (Some(Wetness::Wet), Some(LanePosition::Edge)));
    assert_eq!(file.holes[1].id.0, "7");
    insta::assert_snapshot!(told(text));
}

#[test]
fn sizes_of_the_command_line_obey_the_same_limits() {
    let at = Locator { file: "--depth".into(), line: 0, column: 0 };
    assert!(read_size(Dimension::Depth, "220mm", &at).is_ok_and(|depth| (depth.in_metres() - 0.22).abs() < 1e-12));
    let said: Vec<String> = ["3m", "0 mm", "220", "nan m", "1,2 m", "x", ""]
        .iter()
        .map(|text| read_size(Dimension::Depth, text, &at).expect_err(text).to_string())
        .collect();
    insta::assert_snapshot!(said.join("\n"));
}

/// The demo's list is bad on purpose from H901 on; what can be seen without the roads is refused.
#[test]
fn the_demo_list_gives_its_good_holes() {
    let path = testkit::in_repository("demo/holes.csv");
    let depot = exchange::district::read_district(&path.with_file_name("district.toml")).expect("the demo").0.depot;
    let options = HoleOptions { depot: Some(depot.position), ..HoleOptions::default() };
    let file = read_holes(&path, &options, TODAY);
    assert_eq!(file.rows, file.holes.len() + file.refused_rows);
    assert!(file.holes.len() >= 50, "{} holes", file.holes.len());
    let codes: BTreeSet<&str> = file.problems.iter().map(|problem| problem.code).collect();
    for code in
        ["hole.depth.absurd", "hole.position.swapped", "hole.unit.unknown", "hole.unit.missing", "hole.id.taken"]
    {
        assert!(codes.contains(code), "{code} in {codes:?}");
    }
}

#[test]
fn a_file_that_is_not_there_is_said() {
    let file = read_holes(std::path::Path::new("nowhere/holes.csv"), &HoleOptions::default(), TODAY);
    assert_eq!((file.rows, file.problems[0].code), (0, "file.unreadable"));
}

/// Cells good and bad, glued to rows at random.
fn row() -> impl Strategy<Value = String> {
    let cell = prop::sample::select(vec![
        "",
        "1",
        "-28.4",
        "47.3",
        "1.2",
        "0",
        "-3",
        "NaN",
        "inf",
        "3000",
        "8 in",
        "x",
        "a\"b",
        "\"a,b\"",
        "2026-11-20",
        "wet",
        "lane",
        "é",
        "1e999",
        "\"1,2\"",
    ]);
    let good = (0..30_u32).prop_map(|id| format!("H{id},-28.4,47.3,1.2,0.8,220,,,,"));
    prop_oneof![good, prop::collection::vec(cell, 1..13).prop_map(|cells| cells.join(","))]
}

proptest! {
    /// One line is one row here; each refused row has its own line among the refusals, and no other line has.
    #[test]
    fn nothing_is_lost(rows in prop::collection::vec(row(), 1..20)) {
        let text = format!("{HEADER}{}\n", rows.join("\n"));
        let file = read(&text);
        let blank = rows.iter().filter(|row| row.chars().all(|c| c == ',')).count();
        prop_assert_eq!(file.rows, rows.len() - blank);
        prop_assert_eq!(file.rows, file.holes.len() + file.refused_rows);
        let refused: BTreeSet<usize> = file
            .problems
            .iter()
            .filter(|problem| problem.severity == ProblemSeverity::Refused)
            .map(|problem| problem.at.line)
            .collect();
        prop_assert_eq!(refused.len(), file.refused_rows);
        let used: BTreeSet<usize> = file.holes.iter().map(|hole| hole.from.line).collect();
        prop_assert_eq!(used.len(), file.holes.len());
        prop_assert!(used.is_disjoint(&refused));
        let ids: BTreeSet<&str> = file.holes.iter().map(|hole| hole.id.0.as_str()).collect();
        prop_assert_eq!(ids.len(), file.holes.len(), "ids are unique");
    }

    #[test]
    fn any_bytes_give_an_answer(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        read(&bytes);
    }

    #[test]
    fn any_bytes_below_a_header_give_an_answer(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        read([HEADER.as_bytes(), &bytes].concat());
    }

    #[test]
    fn anything_like_geojson_gives_an_answer(middle in "[-{}\\[\\]\":,a-z0-9. ]{0,120}") {
        read(format!("{{\"type\":\"FeatureCollection\",\"features\":[{middle}]}}"));
        read(format!("{{{middle}"));
    }

    #[test]
    fn any_outline_gives_an_answer(outline in "(POLYGON ?)?[-() 0-9.;nae]{0,60}") {
        read(format!("id,depth_mm,outline\nH,100,\"{outline}\"\n"));
    }

    /// What a hole is read as does not depend on the unit it was written in.
    #[test]
    fn units_do_not_change_the_hole(depth in 5.0..900.0_f64) {
        let metres = |text: String| read(text).holes[0].depth.in_metres();
        let millimetres = metres(format!("id,lon,lat,length_m,width_m,depth_mm\nH,-28.4,47.3,1,1,{depth}\n"));
        let inches = metres(format!("id,lon,lat,length_m,width_m,depth\nH,-28.4,47.3,1,1,{} in\n", depth / 25.4));
        prop_assert!((millimetres - inches).abs() < 1e-12);
    }
}
