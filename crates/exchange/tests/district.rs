//! The district file: the demo and the defaults read, and every fault is said with its place.

use std::path::Path;

use exchange::district::{default_district, read_district, read_district_text};
use model::district::{Cargo, CompactorKind, Liquid};
use model::quantity::{InLength, InMass, InVelocity};
use proptest::prelude::*;

const GOOD: &str = include_str!("../../../demo/district.toml");

/// The problems of the demo district with one text replaced, one a line.
fn faults(from: &str, to: &str) -> String {
    assert!(GOOD.contains(from), "the demo district lacks `{from}`");
    let told = read(&GOOD.replacen(from, to, 1));
    assert!(!told.is_empty(), "nothing is said of `{to}`");
    told
}

fn read(text: &str) -> String {
    let (problems, mark) = match read_district_text("district.toml", text) {
        Ok(file) => (file.problems, "used: "),
        Err(problems) => (problems, ""),
    };
    let lines: Vec<String> = problems.iter().map(|problem| format!("{mark}{problem}\n")).collect();
    lines.concat()
}

#[test]
fn the_demo_district_reads_without_a_word() {
    let path = testkit::in_repository("demo/district.toml");
    let (district, problems) = read_district(&path).expect("the demo district");
    assert_eq!(problems, []);
    assert_eq!(district.truck.payload.in_kilograms(), 5000.0);
    let [roller, plate] = district.plant.compactors[..] else { panic!("two compactors") };
    assert_eq!((roller.kind, plate.kind), (CompactorKind::PedestrianRoller, CompactorKind::VibratingPlate));
    assert!((roller.width.expect("a width").in_millimetres() - 650.0).abs() < 1e-9);
    assert!((roller.speed.expect("a speed").in_metres_per_second() * 60.0 - 25.0).abs() < 1e-9);
    assert_eq!(plate.speed, None);
    assert!((district.base.largest_stone.expect("a size").in_millimetres() - 20.0).abs() < 1e-9);
    assert_eq!(district.truck.compartments[0].holds, [Cargo::Base, Cargo::Spoil]);
    assert_eq!(district.truck.tanks[1].holds, Liquid::Water);
    assert_eq!(district.shift.start.to_string(), "07:00:00");
    assert_eq!(district.barred_hours.len(), 2);
}

#[test]
fn the_default_district_names_its_things_as_defaults() {
    let district = default_district();
    let truck = &district.truck;
    // Not the binder's grade: the rules know grades by name.
    let names = [&district.depot.name, &district.crew.name, &truck.name, &district.base.name];
    assert!(names.iter().all(|name| name.ends_with("(default)")));
}

#[test]
fn what_is_left_out_takes_its_default() {
    let text = GOOD.split("[planning]").next().expect("text before planning").replace("flakiness_percent = 18\n", "");
    let file = read_district_text("district.toml", &text).expect("a district without planning");
    let defaults = default_district();
    assert_eq!(file.district.planning, defaults.planning);
    assert_eq!(file.district.cover_stone.flakiness, defaults.cover_stone.flakiness);
}

#[test]
fn the_same_quantity_in_another_unit_is_the_same() {
    let pounds = GOOD.replace("payload_kg = 5000", "payload_lb = 11023.113109243878");
    let file = read_district_text("district.toml", &pounds).expect("a payload in pounds");
    assert!((file.district.truck.payload.in_kilograms() - 5000.0).abs() < 1e-3, "1 lb = 0.45359237 kg by definition");
}

#[test]
fn a_byte_order_mark_and_clock_texts_are_fine() {
    let text = format!("\u{feff}{}", GOOD.replace("start = 07:00:00", "start = \"07:00\""));
    assert_eq!(read(&text), "");
}

#[test]
fn files_beside_the_district_are_named() {
    let text = format!("{GOOD}\n[hole_columns]\ndepth = \"How deep (mm)\"\n");
    let file = read_district_text("district.toml", &text).expect("a district with columns");
    assert_eq!(file.files.hole_columns.names.len(), 1);
}

/// Every fault in one table: what was changed, and what is said of it.
#[test]
fn faults_are_said_with_place_and_remedy() {
    let cases = [
        ("misspelt key", "payload_kg = 5000", "paylod_kg = 5000"),
        ("unknown table", "[devices_owned]", "[device_owned]"),
        ("table missing", "[crew]\nname = \"Crew Fulmar\"\npeople = 5\n", ""),
        ("same thing twice", "payload_kg = 5000", "payload_kg = 5000\npayload_t = 5"),
        ("wrong type", "people = 5", "people = \"five\""),
        ("table is a number", "[binder]", "[binder_]\nx = 1\n[bin]\n[binder__]"),
        ("time zone", "time_zone = \"Etc/GMT+2\"", "time_zone = \"Mars/Base\""),
        ("shift backwards", "end = 16:00:00", "end = 06:00:00"),
        ("shift of no length", "end = 16:00:00", "end = 07:00:00"),
        ("break outside the shift", "latest = 13:30:00", "latest = 15:45:00"),
        ("time unreadable", "start = 07:00:00", "start = \"7 am\""),
        ("negative payload", "payload_kg = 5000", "payload_kg = -5000"),
        ("infinite payload", "payload_kg = 5000", "payload_kg = inf"),
        ("not a number", "payload_kg = 5000", "payload_kg = nan"),
        ("density", "maximum_dry_density_kg_per_m3 = 2150", "maximum_dry_density_kg_per_m3 = 215"),
        ("loose heavier", "loose_density_kg_per_m3 = 1600", "loose_density_kg_per_m3 = 2200"),
        ("optimum moisture", "optimum_moisture_percent = 6.5", "optimum_moisture_fraction = 6.5"),
        ("flakiness", "flakiness_percent = 18", "flakiness_percent = 118"),
        ("residue", "residue_percent = 65", "residue_percent = 0.65"),
        ("spray temperature", "spray_temperature_c = 65", "spray_temperature_c = 650"),
        ("swapped depot", "lon = -28.4012\nlat = 47.3005", "lon = 47.3005\nlat = -128.4012"),
        ("unknown cargo", "[\"cover_stone\"]", "[\"coverstone\"]"),
        ("mixed cargo", "holds = [\"cover_stone\"]", "holds = [\"cover_stone\", \"spoil\"]"),
        ("no room for base and spoil", "[\"base\", \"spoil\"]", "[\"cover_stone\"]"),
        ("no tank for water", "holds = \"water\"", "holds = \"binder\""),
        ("language", "language = \"en\"", "language = \"xx\""),
        ("applicator", "\"sprayer\"", "\"bucket\""),
        ("compactor kind", "kind = \"vibrating_plate\"", "kind = \"plate\""),
        ("compactor width", "width_mm = 500", "width_mm = 5000"),
        ("a compactor by an old key", "[[plant.compactors]]\nkind = \"vibrating_plate\"", "[plant.plate]"),
        ("largest stone", "largest_stone_mm = 20", "largest_stone_mm = 2000"),
        ("load confidence", "load_confidence_percent = 90", "load_confidence_percent = 100"),
        ("road class", "classes = [\"primary\"]", "classes = [\"primry\"]"),
        ("median above nominal", "median_size_mm = 8.2", "median_size_mm = 12"),
        ("hole column", "[devices_owned]", "[hole_columns]\ndeep = \"d\"\n[devices_owned]"),
    ];
    let told: Vec<String> = cases.iter().map(|(name, from, to)| format!("# {name}\n{}", faults(from, to))).collect();
    insta::assert_snapshot!(told.join("\n"));
}

#[test]
fn syntax_errors_and_a_missing_file_are_said() {
    insta::assert_snapshot!(read("name = \n[depot\nlon = 1"));
    let problems = read_district(Path::new("nowhere/district.toml")).expect_err("no such file");
    assert_eq!(problems[0].code, "file.unreadable");
}

#[test]
fn text_that_is_not_utf8_is_said_with_its_place() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("district.toml");
    std::fs::write(&path, b"name = \"a\"\ndepot = \"Caf\xE9\"\n").expect("written");
    let problems = read_district(&path).expect_err("not UTF-8");
    assert_eq!((problems[0].code, problems[0].at.line, problems[0].at.column), ("file.not_utf8", 2, 13));
}

#[test]
fn all_problems_are_found_at_once() {
    let text = GOOD
        .replace("people = 5", "people = 0")
        .replace("payload_kg = 5000", "payload_kg = 0")
        .replace("cones = 60", "cons = 60");
    let problems = read_district_text("d", &text).expect_err("three faults");
    let codes: Vec<_> = problems.iter().map(|problem| problem.code).collect();
    assert_eq!(
        codes,
        [
            "district.number.out_of_range",
            "district.number.out_of_range",
            "district.key.missing",
            "district.key.unknown"
        ],
        "in the order of the file, a misspelt key counting as missing and unknown"
    );
}

proptest! {
    #[test]
    fn any_text_gives_an_answer(text in ".*") {
        let _ = read_district_text("d", &text);
    }

    /// The demo with a piece cut out, doubled or overwritten: near enough to a district to reach every corner.
    #[test]
    fn a_damaged_district_gives_an_answer(at in 0..8000_usize, length in 0..400_usize, with in "[-\\[\\]{}=\"0-9a-z.\n]{0,8}") {
        let characters: Vec<char> = GOOD.chars().collect();
        let at = at.min(characters.len());
        let end = (at + length).min(characters.len());
        let text: String = characters[..at].iter().copied().chain(with.chars()).chain(characters[end..].iter().copied()).collect();
        if let Err(problems) = read_district_text("d", &text) {
            prop_assert!(!problems.is_empty());
        }
    }
}
