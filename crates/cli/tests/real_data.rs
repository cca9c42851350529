//! The main job on real roads and real holes, where the data are there.

mod common;

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use common::{lengthsman, parts, plan_json, real_data};
use exchange::rules::{RuleKind, load_rules};
use model::place::LonLat;
use model::quantity::InLength;
use model::road::{RoadClass, RoadNetwork, Setting};
use model::rules::roads::RoadDefaults;
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;

/// A small mountain country, as PBF.
#[test]
fn plans_a_day_on_an_open_map_extract_in_pbf() {
    plans_a_day_on_an_open_map_extract("osm/liechtenstein.osm.pbf", "Europe/Vaduz");
}

/// A rural district, as gzipped XML.
#[test]
fn plans_a_day_on_an_open_map_extract_in_xml() {
    plans_a_day_on_an_open_map_extract("osm/north-bayreuth.osm.gz", "Europe/Berlin");
}

/// Sixty holes scattered on the rural roads by a seeded rule.
fn plans_a_day_on_an_open_map_extract(file: &str, zone: &str) {
    let Some(data) = real_data() else { return };
    let roads = data.join(file);
    let network = read_network(&roads);
    let folder = tempfile::tempdir().unwrap();
    let mut random = Pcg64Mcg::seed_from_u64(7);
    let rural: Vec<usize> = (0..network.sections.len()).filter(|&index| is_rural(&network, index)).collect();
    assert!(rural.len() > 100, "{} rural sections", rural.len());
    let mut list = String::from("id,lon,lat,length_m,width_m,depth_mm\n");
    for number in 1..=60 {
        let section = &network.sections[rural[random.random_range(0..rural.len())]];
        let at = section.line[section.line.len() / 2];
        let (length, width, depth) =
            (random.random_range(0.3..1.6), random.random_range(0.2..1.0), random.random_range(40.0..280.0));
        writeln!(list, "R{number},{:.6},{:.6},{length:.2},{width:.2},{depth:.0}", at.lon, at.lat).unwrap();
    }
    let holes = folder.path().join("holes.csv");
    std::fs::write(&holes, list).unwrap();
    let depot = network.sections[rural[rural.len() / 2]].line[0];
    let district = district(folder.path(), "surface_treated_only = false", zone, depot, "open-map-defaults");
    let out = run(&district, &roads, &holes, "2026-05-12", folder.path());
    let plan = plan_json(&out);
    assert!(done(&plan) >= 3, "{} holes in the round", done(&plan));
}

fn is_rural(network: &RoadNetwork, index: usize) -> bool {
    let section = &network.sections[index];
    let class = matches!(section.class, RoadClass::Secondary | RoadClass::Tertiary | RoadClass::Unclassified);
    class && section.setting == Setting::Rural && section.length.in_metres() > 150.0
}

/// 7,500 holes filled in one season: places and days are real, sizes are drawn by a seeded rule since the list has none.
/// The streets are a shapefile in US survey feet; a table beside it says which are oil and stone.
#[test]
fn plans_a_day_on_a_city_with_thousands_of_holes() {
    let Some(data) = real_data() else { return };
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("city.toml"), CITY_ROAD_RULES.replace("RATINGS", "road_ratings.csv")).unwrap();
    let mut reader = csv::Reader::from_path(data.join("syracuse/potholes_filled_2016.csv")).unwrap();
    let mut random = Pcg64Mcg::seed_from_u64(2016);
    let mut list = String::from("id,lon,lat,length_m,width_m,depth_mm,date\n");
    let mut rows = 0;
    for record in reader.records() {
        let record = record.unwrap();
        rows += 1;
        let (length, width, depth) =
            (random.random_range(0.2..1.2), random.random_range(0.2..0.8), random.random_range(30.0..160.0));
        let day = record[5].split(' ').next().unwrap_or_default();
        writeln!(list, "S{rows},{},{},{length:.2},{width:.2},{depth:.0},{day}", &record[8], &record[7]).unwrap();
    }
    assert!(rows > 7000);
    let holes = folder.path().join("holes.csv");
    std::fs::write(&holes, list).unwrap();
    let depot = LonLat { lon: -76.15, lat: 43.05 };
    let district = district(folder.path(), "surface_treated_only = true", "America/New_York", depot, "city");
    let out = run(&district, &data.join("syracuse/streets.shp"), &holes, "2016-10-03", folder.path());
    let plan = plan_json(&out);
    assert!(done(&plan) >= 10, "{} holes in the round", done(&plan));
    let holes_on_oil_and_stone = plan["holes"].as_array().unwrap().len();
    assert!(holes_on_oil_and_stone > 500, "{holes_on_oil_and_stone} holes on surface-treated streets");
}

const CITY_ROAD_RULES: &str = r#"
name = "city"
extends = "open-map-defaults"
about = "Columns of one city's street file."

[columns]
id = { value = ["street_id"], source = "own data" }
speed_unit = { value = "mph", source = "own data" }

[join]
file = { value = "RATINGS", source = "own data" }
key = { value = "StreetID", source = "own data" }
surface = { value = "Flush_Oil", source = "own data" }
surface_words = { value = { O = "surface_treated" }, source = "own data" }
width = { value = "Width", source = "own data" }
width_unit = { value = "ft", source = "own data" }
width_unsaid = { value = ["NA", "0", ""], source = "own data" }
"#;

/// The demo's district moved to the real roads.
fn district(folder: &Path, surfaces: &str, zone: &str, depot: LonLat, road_rules: &str) -> PathBuf {
    let path = common::district_with(
        folder,
        &[
            ("growth_records = ", "# "),
            ("surface_treated_only = true", surfaces),
            ("time_zone = \"Etc/GMT+2\"", &format!("time_zone = \"{zone}\"")),
            ("lon = -28.4012", &format!("lon = {:.6}", depot.lon)),
            ("lat = 47.3005", &format!("lat = {:.6}", depot.lat)),
            ("roads = \"open-map-defaults\"", &format!("roads = \"{road_rules}\"")),
        ],
    );
    path.into()
}

fn read_network(path: &Path) -> RoadNetwork {
    let rules: RoadDefaults = load_rules(RuleKind::Roads, "open-map-defaults", None).unwrap();
    roads::network_from_lines(exchange::road_files::read_roads(path, &rules, &mut |_| {}).lines).0
}

/// Runs the plan and checks what must hold for any input: exit code, four files, no rule broken, nothing lost.
fn run(district: &Path, roads: &Path, holes: &Path, date: &str, folder: &Path) -> PathBuf {
    let out = folder.join("out");
    let text = |path: &Path| path.display().to_string();
    let arguments = [
        "plan",
        &text(district),
        "--roads",
        &text(roads),
        "--holes",
        &text(holes),
        "--date",
        date,
        "--out",
        &text(&out),
    ];
    let (code, stdout, stderr) = parts(&lengthsman(&arguments));
    println!("{stdout}\n{stderr}");
    assert!(code == 0 || code == 3, "exit code {code}");
    assert!(!stderr.contains("breaks a rule"), "the plan breaks a rule");
    for name in ["job-pack.pdf", "plan.json", "holes.geojson", "zones.geojson", "zones-feed.geojson", "load.csv"] {
        assert!(std::fs::metadata(out.join(name)).is_ok_and(|data| data.len() > 100), "{name} is missing");
    }
    out
}

fn done(plan: &serde_json::Value) -> usize {
    let left_out = plan["left_out"].as_array().unwrap().len();
    let refused_or_left: std::collections::BTreeSet<&str> =
        plan["left_out"].as_array().unwrap().iter().filter_map(|entry| entry["hole"].as_str()).collect();
    assert_eq!(refused_or_left.len(), left_out, "a hole is left out twice");
    plan["holes"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|hole| !refused_or_left.contains(hole["id"].as_str().unwrap()))
        .count()
}
