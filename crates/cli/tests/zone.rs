//! `lengthsman zone`: what can't be is refused with what would be right; the work lies where it is said.

mod common;

use common::{lengthsman, parts};
use serde_json::Value;

fn zone(arguments: &[&str]) -> (i32, String, String) {
    parts(&lengthsman(&[&["zone"], arguments].concat()))
}

fn json(arguments: &[&str]) -> Value {
    let (code, stdout, stderr) = zone(&[arguments, &["--json"]].concat());
    assert_eq!(code, 0, "{arguments:?}: {stderr}");
    serde_json::from_str(&stdout).unwrap()
}

#[test]
fn the_zone_is_drawn_to_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("zone.svg");
    let file = path.display().to_string();
    let (code, stdout, stderr) = zone(&["--speed", "50mph", "--svg", &file]);
    assert_eq!(code, 0, "{stderr}");
    let signs = stdout.lines().filter(|line| line.split_whitespace().nth(1) == Some("sign")).count();
    let svg = std::fs::read_to_string(&path).unwrap();
    assert!(svg.starts_with("<svg ") && svg.contains("<title>") && svg.contains(&format!("{signs} signs")), "{svg}");
    let (code, _, stderr) = zone(&["--speed", "50mph", "--svg", &folder.path().display().to_string()]);
    assert_eq!(code, 1);
    assert!(stderr.contains("give a file that can be written to"), "{stderr}");
}

#[test]
fn what_can_not_be_is_refused_with_exit_code_2() {
    let table: [(&[&str], &str); 19] = [
        (
            &["--speed", "400mph"],
            "--speed 400.0 mph (643.7 km/h): US MUTCD Part 6 is made for 5 to 75 mph (8 to 121 km/h)",
        ),
        (&["--speed", "1mph"], "is made for 5 to 75 mph"),
        (&["--speed", "50mph", "--lanes", "0"], "0 is not in 1..=8"),
        (&["--speed", "50mph", "--lanes", "9"], "9 is not in 1..=8"),
        (&["--speed", "50mph", "--width", "1.9m"], "--width 1.90 m: a road is 2 to 40 m wide"),
        (&["--speed", "50mph", "--width", "41m"], "--width 41.00 m"),
        (&["--speed", "50mph", "--width", "-6m"], "--width -6.00 m"),
        (&["--speed", "50mph", "--width", "6m", "--lanes", "8"], "lanes of 0.75 m"),
        (&["--speed", "50mph", "--shoulder", "0m", "--on-shoulder"], "--on-shoulder with a shoulder of 0.00 m"),
        (&["--speed", "50mph", "--shoulder", "-1m"], "--shoulder -1.00 m"),
        (&["--speed", "50mph", "--shoulder", "300m"], "--shoulder 300.00 m"),
        (&["--speed", "50mph", "--across", "3.1m"], "the seal ends 3.00 m from the centre line"),
        (&["--speed", "50mph", "--across", "1m", "--on-shoulder"], "cannot be used with"),
        (&["--speed", "50mph", "--work-length", "0m"], "--work-length 0.00 m: above zero and up to 402 m"),
        (&["--speed", "50mph", "--work-length", "9000m"], "--work-length 9000.00 m"),
        (&["--speed", "50mph", "--minutes", "1e300"], "a number above zero and up to a week"),
        (&["--speed", "50mph", "--minutes", "-5"], "--minutes -5"),
        (&["--speed", "50mph", "--minutes", "nan"], "--minutes NaN"),
        (&["--speed", "50mph", "--vehicles-per-day", "1e300"], "--vehicles-per-day 1"),
    ];
    for (arguments, words) in table {
        let (code, stdout, stderr) = zone(arguments);
        assert_eq!(code, 2, "{arguments:?}: {stdout}{stderr}");
        assert!(stderr.contains(words), "{arguments:?}: {stderr}");
        assert!(stdout.is_empty(), "{arguments:?} laid something out");
    }
    // Everything that is wrong is said at once.
    let (_, _, stderr) = zone(&["--speed", "400mph", "--width", "1m", "--minutes", "0"]);
    assert!(["--speed", "--width", "--minutes"].iter().all(|flag| stderr.contains(flag)), "{stderr}");
}

#[test]
fn limits_themselves_are_taken() {
    for arguments in [
        &["--speed", "75mph"][..],
        &["--speed", "120.7008km/h"],
        &["--speed", "5mph"],
        &["--speed", "50mph", "--width", "2m", "--lanes", "1"],
        &["--speed", "50mph", "--width", "40m", "--lanes", "8"],
        &["--speed", "50mph", "--work-length", "400m"],
    ] {
        assert_eq!(zone(arguments).0, 0, "{arguments:?}");
    }
}

#[test]
fn by_default_the_outer_lane_is_worked_in() {
    // 14 m in four lanes: the outer one is closed, 3.5 m of this direction stay open.
    let found = json(&["--speed", "50mph", "--lanes", "4", "--width", "14m"]);
    assert_eq!(found["layout"], "Lane closure on a road with several lanes in that direction");
    assert!((found["open_width_m"].as_f64().unwrap() - 3.5).abs() < 1e-9);
    assert_eq!((&found["passable"], &found["people_needed"]), (&Value::Bool(true), &Value::from(2)));
    let says = |found: &Value, legend: &str| found["devices"].as_array().unwrap().iter().any(|d| d["legend"] == legend);
    assert!(says(&found, "RIGHT LANE CLOSED AHEAD"));
    let found = json(&["--speed", "50mph", "--lanes", "4", "--width", "14m", "--across", "1.75m"]);
    assert!(says(&found, "LEFT LANE CLOSED AHEAD"));
    let found = json(&["--speed", "50mph", "--lanes", "2", "--one-way", "--width", "7.2m", "--across", "-1.8m"]);
    assert!(says(&found, "LEFT LANE CLOSED AHEAD"));
    let found = json(&["--speed", "50mph", "--lanes", "2", "--one-way", "--left-hand-traffic"]);
    assert!(says(&found, "LEFT LANE CLOSED AHEAD"));
}

#[test]
fn work_beyond_the_centre_line_is_laid_out_for_the_traffic_there() {
    let cone = |across: &str, more: &[&str]| {
        let found = json(&[&["--speed", "50mph", "--width", "7m", "--across", across], more].concat());
        let devices = found["devices"].as_array().unwrap().clone();
        let cone = devices.iter().find(|d| d["kind"] == "cone").unwrap().clone();
        (cone["approach"].as_str().unwrap().to_owned(), (cone["across_m"].as_f64().unwrap() * 1e6).round() / 1e6)
    };
    assert_eq!(cone("1.75m", &[]), ("forward".into(), 3.5));
    assert_eq!(cone("-1.75m", &[]), ("backward".into(), -3.5));
    assert_eq!(cone("1.75m", &["--left-hand-traffic"]), ("forward".into(), -3.5));
    assert_eq!(cone("-1.75m", &["--left-hand-traffic"]), ("backward".into(), 3.5));
}

#[test]
fn parts_are_named_in_words_and_sources_once() {
    let (code, stdout, _) = zone(&["--speed", "50mph", "--on-shoulder", "--shoulder", "2.4m", "--minutes", "30"]);
    assert_eq!(code, 0);
    for words in ["advance warning: ", "taper: ", "work space: ", "at the place (set-up "] {
        assert!(stdout.contains(words), "no `{words}` in:\n{stdout}");
    }
    for words in ["AdvanceWarning", "WorkSpace", "published: published", "-0.0"] {
        assert!(!stdout.contains(words), "`{words}` in:\n{stdout}");
    }
}

#[test]
fn the_class_counts_the_whole_time_at_the_place() {
    // Set-up and take-in together take about 47 min on a two-lane road at 50 mph.
    let class = |minutes: &str| json(&["--speed", "50mph", "--minutes", minutes])["duration_class"].clone();
    assert_eq!(class("5"), "short duration");
    assert_eq!(class("45"), "short-term stationary");
}

/// The demo's roads, from the root of the repository.
fn on_demo(road: &[&str]) -> (i32, String, String) {
    let district = testkit::in_repository("demo/district.toml").display().to_string();
    zone(&[&["--district", &district, "--road"], road].concat())
}

#[test]
fn a_stretch_of_the_map_is_laid_out_on_it() {
    let folder = tempfile::tempdir().unwrap();
    let svg = folder.path().join("zone.svg");
    let file = svg.display().to_string();
    let (code, stdout, stderr) = on_demo(&["q1", "--from", "3000m", "--to", "3002m", "--side", "left", "--svg", &file]);
    assert_eq!(code, 0, "{stderr}");
    assert!(stdout.contains("the road begins at") && stdout.contains("90 km/h, 2 lanes, 7.0 m sealed"), "{stdout}");
    assert!(stdout.contains("Placed along the road on the map"), "{stdout}");
    assert!(std::fs::read_to_string(&svg).unwrap().starts_with("<svg "));
    let (_, stdout, _) = on_demo(&["M01", "--from", "3000m", "--to", "3002m", "--side", "left", "--json"]);
    let found: Value = serde_json::from_str(&stdout).unwrap();
    let devices = found["devices"].as_array().unwrap();
    assert!(!devices.is_empty() && devices.iter().all(|device| device["lat"].is_f64()), "{stdout}");
    // The traffic of the left lane comes against the road's direction, where traffic keeps to the right.
    let cone = devices.iter().find(|device| device["kind"] == "cone").unwrap();
    assert_eq!(cone["approach"], "backward");
    // What is said of the road goes before the map.
    let (_, slow, _) = on_demo(&["Q1", "--from", "3000m", "--to", "3002m", "--side", "left", "--speed", "50km/h"]);
    assert!(slow.contains("S = 35 mph (56 km/h)"), "{slow}");
}

#[test]
fn a_road_or_stretch_that_is_not_there_is_refused() {
    let table: [(&[&str], &str); 6] = [
        (
            &["Nowhere Lane", "--from", "1m", "--to", "2m", "--side", "left"],
            "no road has that identifier, name or number",
        ),
        (&["M01", "--from", "9000m", "--to", "9002m", "--side", "left"], "the road goes from 0 to 6400 m"),
        (&["M01", "--from", "100m", "--to", "900m", "--side", "left"], "the road's sections meet at"),
        (&["Q1", "--from", "100m", "--to", "100m", "--side", "left"], "--from to --to: 0.00 m: above zero"),
        (&["Q1", "--from", "100m", "--side", "left"], "--to"),
        (&["Q1", "--from", "1m", "--to", "2m", "--side", "left", "--lanes", "2"], "cannot be used with"),
    ];
    for (arguments, words) in table {
        let (code, stdout, stderr) = on_demo(arguments);
        assert_eq!(code, 2, "{arguments:?}: {stderr}");
        assert!(stderr.contains(words), "{arguments:?}: {stderr}");
        assert!(stdout.is_empty(), "{arguments:?}: {stdout}");
    }
}
