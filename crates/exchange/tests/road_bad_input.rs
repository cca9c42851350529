//! Broken road files: a clear report, what comes before the break is kept, and nothing panics.

mod road_support;

use std::path::Path;

use model::problem::ProblemSeverity;
use proptest::prelude::*;
use road_support::{
    DEGREES_PRJ, GEOJSON, blob, codes, gzip, header_block, node_block, pbf_of, raw_way_block, read, read_bytes,
    refused, the_problem, way_block, ways, write_shapefile, xml_of,
};

#[test]
fn files_that_are_nothing_are_fatal() {
    for (name, bytes, code) in [
        ("empty.osm.pbf", &b""[..], "road.file.empty"),
        ("roads.zip", b"PK\x03\x04rest", "road.file.unknown_format"),
        ("roads.osm.bz2", b"BZh91AY", "road.file.unknown_format"),
        ("roads.dbf", b"\x03abc", "road.file.unknown_format"),
        ("notes.txt", b"potholes everywhere", "road.file.unknown_format"),
    ] {
        let file = read_bytes(name, bytes);
        let problem = the_problem(&file, code);
        assert_eq!(problem.severity, ProblemSeverity::Fatal, "{name}");
        assert!(problem.at.file.ends_with(name) && !problem.right.is_empty());
        assert!(file.lines.is_empty());
    }
    let file = read(Path::new("/nowhere/roads.osm"));
    assert_eq!(the_problem(&file, "road.file.unreadable").severity, ProblemSeverity::Fatal);
}

#[test]
fn a_truncated_pbf_says_the_byte_and_keeps_the_blocks_before() {
    let two = ways();
    let mut bytes = header_block(&["OsmSchema-V0.6", "DenseNodes"], true);
    bytes.extend(blob("OSMData", &node_block(), true));
    bytes.extend(blob("OSMData", &way_block(&two[..1]), true));
    let whole = bytes.len();
    bytes.extend(blob("OSMData", &way_block(&two[1..]), true));
    for cut in [whole + 1, whole + 3, whole + 10, whole + 30, bytes.len() - 1] {
        let file = read_bytes("roads.osm.pbf", &bytes[..cut]);
        assert_eq!(file.lines.len(), 1, "cut at {cut}");
        let problem = the_problem(&file, "road.pbf.broken");
        assert!(problem.wrong.contains(&format!("byte {whole}")), "{problem}");
        assert_eq!(problem.severity, ProblemSeverity::Refused);
    }
    assert!(read_bytes("roads.osm.pbf", &bytes[..whole]).problems.is_empty(), "a cut between blocks can't be seen");
}

#[test]
fn one_broken_pbf_block_costs_only_itself() {
    let all = ways();
    let mut bytes = header_block(&["OsmSchema-V0.6", "DenseNodes"], true);
    let broken_at = bytes.len();
    bytes.extend(blob("OSMData", &[0x12, 0xFF, 0xFF, 0xFF], false));
    bytes.extend(blob("OSMData", &node_block(), true));
    bytes.extend(blob("OSMData", &way_block(&all), true));
    let file = read_bytes("roads.osm.pbf", &bytes);
    assert_eq!(file.lines.len(), 2);
    assert!(the_problem(&file, "road.pbf.broken").wrong.contains(&format!("byte {broken_at}")));
}

#[test]
fn a_pbf_with_history_is_refused() {
    let mut bytes = header_block(&["OsmSchema-V0.6", "DenseNodes", "HistoricalInformation"], true);
    bytes.extend(blob("OSMData", &node_block(), true));
    bytes.extend(blob("OSMData", &way_block(&ways()), true));
    let file = read_bytes("roads.osm.pbf", &bytes);
    assert!(file.lines.is_empty());
    assert!(the_problem(&file, "road.pbf.feature").wrong.contains("HistoricalInformation"));
}

#[test]
fn names_that_are_not_utf8_are_used_with_a_warning() {
    let tags = vec![(b"highway".to_vec(), b"track".to_vec()), (b"name".to_vec(), b"M\xF6wenweg".to_vec())];
    let mut bytes = header_block(&["OsmSchema-V0.6"], true);
    bytes.extend(blob("OSMData", &node_block(), true));
    bytes.extend(blob("OSMData", &raw_way_block(&[(7, vec![11, 12], tags)]), true));
    let pbf = read_bytes("roads.osm.pbf", &bytes);

    let text = xml_of(&ways());
    let (before, after) = text.split_once("Möwenweg").unwrap();
    let latin = [before.as_bytes(), b"M\xF6wenweg", after.as_bytes()].concat();
    let xml = read_bytes("roads.osm", &latin);
    for file in [pbf, xml] {
        assert_eq!(codes(&file.problems), ["road.text.not_utf8"]);
        assert_eq!(file.problems[0].severity, ProblemSeverity::Warning);
        assert_eq!(file.lines.last().unwrap().attributes.name, "M\u{FFFD}wenweg");
    }
}

#[test]
fn xml_cut_off_in_the_middle_says_the_line() {
    let text = xml_of(&ways());
    let cut = text.find("<way id=\"102\">").unwrap() + 20;
    let line = text[..cut].lines().count();
    let file = read_bytes("roads.osm", &text.as_bytes()[..cut]);
    assert_eq!(file.lines.len(), 1);
    let problem = the_problem(&file, "road.xml.broken");
    assert!((line - 1..=line).contains(&problem.at.line) && problem.at.column > 0, "{problem}, cut in line {line}");

    let between = text.find("<way id=\"102\">").unwrap();
    let file = read_bytes("roads.osm", &text.as_bytes()[..between]);
    assert_eq!((file.lines.len(), the_problem(&file, "road.xml.broken").at.line), (1, 20), "a cut between two ways");

    let packed = gzip(text.as_bytes());
    let file = read_bytes("roads.osm.gz", &packed[..packed.len() - 30]);
    assert_eq!(the_problem(&file, "road.xml.broken").severity, ProblemSeverity::Refused);

    let file = read_bytes("roads.xml", b"<gpx><wpt/></gpx>");
    assert!(the_problem(&file, "road.xml.root").wrong.contains("gpx"));
}

#[test]
fn a_truncated_shapefile_keeps_the_records_before() {
    let folder = tempfile::tempdir().unwrap();
    let shp = folder.path().join("roads.shp");
    let lines: Vec<_> = (0..3).map(|i| vec![(-30.0, f64::from(i)), (-29.0, f64::from(i))]).collect();
    write_shapefile(&shp, &lines, Some(DEGREES_PRJ));
    let whole = std::fs::read(&shp).unwrap();
    std::fs::write(&shp, &whole[..whole.len() - 5]).unwrap();
    let file = read(&shp);
    assert_eq!(file.lines.len(), 2);
    let problem = the_problem(&file, "road.shp.broken");
    assert!(problem.wrong.contains("record 3") && problem.wrong.contains("the file has fewer"), "{problem}");

    // The count of parts of the first line, 36 bytes into its content: more than any machine holds.
    let mut damaged = whole.clone();
    damaged[108 + 36..108 + 40].copy_from_slice(&u32::MAX.to_le_bytes());
    std::fs::write(&shp, &damaged).unwrap();
    let file = read(&shp);
    assert_eq!(file.lines.len(), lines.len() - 1);
    assert!(the_problem(&file, "road.shp.record").wrong.contains("4294967295 parts and 2 points"));
    // Where its only part begins.
    damaged = whole.clone();
    damaged[108 + 44..108 + 48].copy_from_slice(&u32::MAX.to_le_bytes());
    std::fs::write(&shp, &damaged).unwrap();
    assert!(the_problem(&read(&shp), "road.shp.record").wrong.contains("begin at [4294967295, 2]"));
    std::fs::write(&shp, &whole).unwrap();
    let table = std::fs::read(shp.with_extension("dbf")).unwrap();
    std::fs::write(shp.with_extension("dbf"), &table[..table.len() - 100]).unwrap();
    let file = read(&shp);
    assert_eq!(file.lines.len(), 3, "the lines are there, their attributes are not");
    assert!(file.lines[2].attributes.defaulted.contains(&"class"));
    assert_eq!(file.lines[0].attributes.name, "Quay 1");
    assert!(codes(&file.problems).iter().all(|code| code.starts_with("road.dbf.")) && !file.problems.is_empty());

    // A row marked as deleted does not shift the rows after it.
    let mut marked = table.clone();
    let first = usize::from(u16::from_le_bytes([table[8], table[9]]));
    marked[first] = b'*';
    std::fs::write(shp.with_extension("dbf"), &marked).unwrap();
    let file = read(&shp);
    let names: Vec<&str> = file.lines.iter().map(|line| line.attributes.name.as_str()).collect();
    assert_eq!(names, ["", "Quay 2", "Quay 3"]);
}

/// A small valid file of each format.
fn small_files() -> Vec<(&'static str, Vec<u8>)> {
    vec![
        ("roads.osm.pbf", pbf_of(&ways(), true)),
        ("roads.osm.pbf", pbf_of(&ways(), false)),
        ("roads.osm", xml_of(&ways()).into_bytes()),
        ("roads.osm.gz", gzip(xml_of(&ways()).as_bytes())),
        ("roads.geojson", GEOJSON.as_bytes().to_vec()),
    ]
}

/// Damage: bytes flipped at places given as a part of the length, then cut at such a place.
fn damaged(bytes: &[u8], flips: &[(f64, u8)], cut: f64) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    for (place, mask) in flips {
        let index = ((bytes.len() as f64 * place) as usize).min(bytes.len() - 1);
        bytes[index] ^= mask;
    }
    bytes.truncate((bytes.len() as f64 * cut).ceil() as usize);
    bytes
}

fn damage() -> impl Strategy<Value = (Vec<(f64, u8)>, f64)> {
    let flips = prop::collection::vec((0.0..1.0, 1_u8..), 0..4);
    (flips, prop_oneof![3 => Just(1.0), 1 => 0.0..1.0])
}

/// Laws that hold for whatever comes out of whatever file.
fn lawful(file: &exchange::road_files::RoadFile) {
    for line in &file.lines {
        assert!(line.points.len() >= 2);
        assert!(line.points.iter().all(|p| p.lon.abs() <= 180.0 && p.lat.abs() <= 90.0));
        assert!(line.node_keys.as_ref().is_none_or(|keys| keys.len() == line.points.len()));
        let a = &line.attributes;
        assert!(a.lanes >= 1 && a.speed.value > 0.0 && a.width.value > 0.0 && a.shoulder.value >= 0.0);
        assert!(a.speed.is_finite() && a.width.is_finite() && a.shoulder.is_finite());
    }
    assert!(!file.lines.is_empty() || !file.problems.is_empty() || !file.left_out.is_empty());
    assert!(file.problems.iter().all(|p| !p.wrong.is_empty() && !p.right.is_empty() && !p.at.file.is_empty()));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn damaged_files_never_panic(which in 0_usize..5, (flips, cut) in damage()) {
        let (name, bytes) = &small_files()[which];
        lawful(&read_bytes(name, &damaged(bytes, &flips, cut)));
    }

    #[test]
    fn a_cut_file_is_reported(which in 0_usize..5, cut in 0.0..0.98) {
        let (name, bytes) = &small_files()[which];
        let file = read_bytes(name, &damaged(bytes, &[], cut));
        // A cut between two blocks of a PBF can't be seen from the file; only roads are missing then.
        let between_blocks = *name == "roads.osm.pbf" && file.lines.is_empty();
        prop_assert!(refused(&file) || between_blocks, "{:?}", file.problems);
    }

    #[test]
    fn damaged_shapefiles_never_panic(which in 0_usize..3, (flips, cut) in damage()) {
        let folder = tempfile::tempdir().unwrap();
        let shp = folder.path().join("roads.shp");
        write_shapefile(&shp, &[vec![(-30.0, 10.0), (-29.9, 10.0)], vec![(-29.9, 10.0), (-29.9, 10.1)]], Some(DEGREES_PRJ));
        let part = shp.with_extension(["shp", "dbf", "prj"][which]);
        let bytes = std::fs::read(&part).unwrap();
        std::fs::write(&part, damaged(&bytes, &flips, cut)).unwrap();
        lawful(&read(&shp));
    }
}
