//! Records of holes surveyed and dug: what is read, what is refused and where, and that nothing is lost.

use exchange::growth_records::{GrowthFile, growth_rule_file, read_growth_bytes, read_growth_records};
use exchange::rules::{RuleKind, load_rules};
use jiff::civil::date;
use model::problem::ProblemSeverity;
use model::quantity::{InLength, InVolume};
use model::rules::repair::{GrowthRules, RepairRules};
use proptest::prelude::*;

fn rules() -> GrowthRules {
    let rules: RepairRules = load_rules(RuleKind::Repair, "common-practice", None).unwrap();
    rules.growth
}

fn read(text: &str) -> GrowthFile {
    read_growth_bytes("r.csv", text.as_bytes(), &rules(), Some(date(2026, 6, 9)))
}

/// Code, line and column of every problem.
fn said(file: &GrowthFile) -> Vec<(&'static str, usize, usize)> {
    file.problems.iter().map(|problem| (problem.code, problem.at.line, problem.at.column)).collect()
}

#[test]
fn sides_with_their_units_give_volume_and_depth() {
    let file = read(
        "hole,road,class,date,surveyed_length,surveyed_width,surveyed_depth (mm),dug_length_m,dug width [cm],actual_depth\n\
         A1,Fennow Road,tertiary,2026-05-12,1.25 m,0.80 m,150,1.3,90,18 cm\n",
    );
    assert_eq!((file.rows, file.refused_rows, said(&file)), (1, 0, vec![]));
    let record = &file.records[0];
    assert_eq!((record.hole.as_str(), record.road.as_str(), record.class.as_str()), ("A1", "Fennow Road", "tertiary"));
    assert_eq!(record.date, Some(date(2026, 5, 12)));
    assert_eq!(record.from.line, 2);
    // 1.25 * 0.80 * 0.150 = 0.150 and 1.3 * 0.9 * 0.18 = 0.2106 m3.
    assert!((record.surveyed.volume.in_cubic_metres() - 0.150).abs() < 1e-12);
    assert!((record.dug.volume.in_cubic_metres() - 0.2106).abs() < 1e-12);
    assert!((record.surveyed.depth.unwrap().in_metres() - 0.150).abs() < 1e-12);
    assert!((record.dug.depth.unwrap().in_metres() - 0.18).abs() < 1e-12);
}

#[test]
fn volumes_win_over_sides_and_have_units_of_their_own() {
    let file = read(
        "id;surveyed_volume;dug_volume_l;dug_depth\nA;0,15 m3;180;\nB;5.297 ft3;180 L;0,2 m\nC;0.2 yd3;0150;\nD;40 gal;200;\n",
    );
    assert_eq!((file.rows, file.refused_rows, said(&file)), (4, 0, vec![]));
    let litres = |i: usize| file.records[i].surveyed.volume.in_litres();
    // 1 ft3 = 28.316847 L, 1 yd3 = 764.554858 L, 1 US gal = 3.785412 L, by definition.
    for (index, expected) in [(0, 150.0), (1, 149.994337), (2, 152.910972), (3, 151.416471)] {
        assert!((litres(index) - expected).abs() < 1e-4, "{index}: {}", litres(index));
    }
    assert!((file.records[0].dug.volume.in_litres() - 180.0).abs() < 1e-9);
    assert_eq!(file.records[0].dug.depth, None);
    assert!(file.records[1].dug.depth.is_some() && file.records[1].surveyed.depth.is_none());
}

#[test]
fn every_bad_row_is_refused_with_its_place_and_the_rest_goes_on() {
    let file = read(
        "hole,class,date,surveyed_volume,dug_volume,dug_depth\n\
         A,,2026-05-01,0.2 m3,0.3 m3,\n\
         ,,,0.2 m3,0.3 m3,\n\
         A,,2026-05-01,0.2 m3,0.3 m3,\n\
         A,,2026-05-02,0.2 m3,0.3 m3,\n\
         B,,,0.2,0.3 m3,\n\
         C,,,0.2 hands,0.3 m3,\n\
         D,,,much,0.3 m3,\n\
         E,,,0.2 m3,NaN m3,\n\
         F,,,0.2 m3,-0.3 m3,\n\
         G,,,0.2 m3,,\n\
         H,,,0.2 m3,2.1 m3,\n\
         I,,,0.2 m3,0.3 m3,3 m\n\
         J,,2026-06-10,0.2 m3,0.3 m3,\n\
         K,,2026-06-09,0.2 m3,0.3 m3,\n\
         L,gravelly,last week,0.2 m3,0.3 m3,\n\
         M,,\n\
         N,,,\"0.2 m3,0.3 m3,\n\
         O,,,1,2 m3,0.3\n\
         P,,,1e999 m3,0.3 m3,\n\
         Q,\u{7},,0.2 m3,0.3 m3,\n\
         R,,,2 m3,0.2 m3,\n\
         S,,,0.2 m3,2.0 m3,\n",
    );
    assert_eq!(
        said(&file),
        [
            ("record.hole.missing", 3, 1),
            ("record.hole.repeated", 4, 1),
            ("record.unit.missing", 6, 5),
            ("record.unit.unknown", 7, 5),
            ("record.size.unreadable", 8, 5),
            ("record.size.unreadable", 9, 12),
            ("record.size.absurd", 10, 12),
            ("record.size.missing", 11, 1),
            ("record.growth.absurd", 12, 1),
            ("record.size.absurd", 13, 19),
            ("record.date.future", 14, 4),
            ("record.date.unreadable", 16, 12),
            ("record.class.unknown", 16, 3),
            ("record.row.field_count", 17, 1),
            ("record.row.quote", 18, 5),
            ("record.unit.missing", 19, 5),
            ("record.unit.missing", 19, 12),
            ("record.size.unreadable", 20, 5),
            ("record.row.control_character", 21, 3),
        ]
        .map(|(code, line, column)| (code, line, column))
    );
    let names: Vec<&str> = file.records.iter().map(|record| record.hole.as_str()).collect();
    assert_eq!(names, ["A", "A", "K", "L", "R", "S"]);
    assert_eq!(file.rows, file.records.len() + file.refused_rows);
    assert_eq!(file.rows, 22);
    assert!(file.problems.iter().all(|problem| !problem.wrong.is_empty() && !problem.right.is_empty()));
    assert!(file.problems.iter().filter(|p| p.severity == ProblemSeverity::Warning).count() == 2);
}

#[test]
fn units_of_cell_and_header_must_agree() {
    let file = read("hole,surveyed_volume_m3,dug_volume_cups,dug_depth_mm\nA,0.2 L,3,\n");
    assert_eq!(said(&file), [("record.unit.conflict", 2, 3), ("record.unit.unknown", 2, 9)]);
    let file = read("hole,surveyed_volume_m3,dug_volume_m3,dug_depth_mm\nA,0.2 m3,0.3,18 cm\n");
    assert_eq!(said(&file), [("record.unit.conflict", 2, 14)]);
    let file = read(
        "hole,surveyed_length,surveyed_width,surveyed_depth,dug_volume\nA,1 m,2 m,,0.3 m3\nB,1 m,2 hands,1 m,1 m3\n",
    );
    assert_eq!(said(&file), [("record.size.missing", 2, 1), ("record.unit.unknown", 3, 7)]);
    assert!(file.problems[0].wrong.contains("no surveyed_depth, and no surveyed_volume"), "{}", file.problems[0].wrong);
}

#[test]
fn a_file_of_no_use_is_said() {
    for (text, code) in [
        ("", "record.file.empty"),
        ("hole,surveyed_volume,dug_volume\n", "record.file.header_only"),
        ("hole,dug_volume\nA,1 m3\n", "record.column.missing"),
        ("surveyed_volume,dug_volume\n1 m3,1 m3\n", "record.column.missing"),
        ("hole,surveyed_volume,dug_length,dug_width\nA,1 m3,1 m,1 m\n", "record.column.missing"),
        ("hole,surveyed_volume,dug_volume,actual volume (m3)\nA,1 m3,1 m3,1\n", "record.column.twice"),
        ("hole,\"surveyed_volume,dug_volume\nA,1 m3,1 m3\n", "record.row.quote"),
        ("\u{feff}", "record.file.empty"),
    ] {
        let file = read(text);
        assert_eq!((file.records.len(), file.problems.len(), file.problems[0].code), (0, 1, code), "{text:?}");
        assert_eq!(file.problems[0].severity, ProblemSeverity::Fatal);
    }
    let file = read_growth_bytes("r.csv", b"\xFF\xFEh\0", &rules(), None);
    assert_eq!(file.problems[0].code, "file.not_utf8");
    let file = read_growth_records(std::path::Path::new("no/such/file.csv"), &rules(), None);
    assert_eq!(file.problems[0].code, "file.unreadable");
    let file = read("hole,surveyed_volume,dug_volume,weather\nA,1 m3,1 m3,wet\n");
    assert_eq!((file.records.len(), said(&file)), (1, vec![("record.column.unused", 1, 1)]));
    // Without a day no date is too late.
    let text = b"hole,date,surveyed_volume,dug_volume\nA,2099-01-01,1 m3,1 m3\n";
    assert_eq!(read_growth_bytes("r.csv", text, &rules(), None).records.len(), 1);
    let file = read_growth_bytes("r.csv", b"hole,surveyed_volume,dug_volume\n\xE9,1 m3,1 m3\n", &rules(), None);
    assert_eq!(said(&file), [("record.row.not_utf8", 2, 1)]);
}

/// What is written reads back as the same rules.
#[test]
fn a_rule_file_written_is_read_back() {
    let mut rules = rules();
    rules.default.median.value = 1.2435;
    rules.default.median.source =
        model::figure::Source::agency("4 records of r.csv, added to: common practice, no source");
    let thin = model::rules::repair::GrowthClassRules {
        roads: vec![model::road::RoadClass::Tertiary],
        ..rules.default.clone()
    };
    rules.class.insert("thin base".into(), thin);
    let folder = tempfile::tempdir().unwrap();
    let text = growth_rule_file(&rules, "common-practice", "learnt", "Growth as learnt.");
    std::fs::write(folder.path().join("learnt.toml"), &text).unwrap();
    let read: RepairRules = load_rules(RuleKind::Repair, "learnt", Some(folder.path())).unwrap();
    assert_eq!(read.growth, rules, "{text}");
}

proptest! {
    #[test]
    fn any_bytes_give_an_answer(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        let file = read_growth_bytes("r.csv", &bytes, &rules(), None);
        prop_assert_eq!(file.rows, file.records.len() + file.refused_rows);
    }

    #[test]
    fn rows_near_right_give_believed_sizes_or_a_reason(cells in "[-+0-9.,eNa ]{0,8}( m3| L| ft3|)", dug in "[0-9.]{1,4} m3") {
        let file = read(&format!("hole;surveyed_volume;dug_volume\nA;{cells};{dug}\n"));
        prop_assert_eq!(1, file.records.len() + file.refused_rows);
        prop_assert_eq!(file.records.is_empty(), file.problems.iter().any(|p| p.severity == ProblemSeverity::Refused));
        for record in &file.records {
            let times = record.dug.volume.in_cubic_metres() / record.surveyed.volume.in_cubic_metres();
            prop_assert!((0.0999..10.001).contains(&times));
        }
    }
}
