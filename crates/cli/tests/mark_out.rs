//! `lengthsman mark-out`: the drawing, the rules of a district, lanes and their wheel paths.

mod common;

use std::path::Path;

use common::{district_with, lengthsman, parts};
use serde_json::Value;

/// A metre along the road, 0.65 m to 1.90 m right of the centre line.
const HOLE: &str = "0 0.65; 1 0.65; 1 1.9; 0 1.9";
/// Ten metres on.
const SECOND: &str = "10 -1; 10.6 -1; 10.6 -1.5; 10 -1.5";

fn mark_out(arguments: &[&str]) -> (i32, String, String) {
    parts(&lengthsman(&[&["mark-out"], arguments].concat()))
}

fn json(arguments: &[&str]) -> Value {
    let (code, stdout, stderr) = mark_out(&[&["--outline", HOLE, "--json"], arguments].concat());
    assert_eq!(code, 0, "{arguments:?}: {stderr}");
    serde_json::from_str(&stdout).expect("JSON")
}

/// Least distance across of a corner of the first cut, millimetres.
fn nearest_mm(cuts: &Value) -> f64 {
    let corners = cuts[0]["corners_m"].as_array().expect("corners");
    let across = corners.iter().map(|corner| corner[1].as_f64().expect("metres"));
    (across.fold(f64::INFINITY, f64::min) * 1000.0).round()
}

/// The demo's district with mark-out rules of its own beside it.
fn district_marking_out(folder: &Path, rules: &str) -> String {
    std::fs::create_dir_all(folder.join("markout")).expect("a temporary folder");
    let text = format!("extends = \"common-practice\"\nname = \"common-practice\"\nabout = \"Ours.\"\n{rules}");
    std::fs::write(folder.join("markout/common-practice.toml"), text).expect("a temporary folder");
    district_with(folder, &[])
}

#[test]
fn each_cut_is_drawn_into_a_file_of_its_own() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name);
    let svg = path("cut.svg").display().to_string();
    let (code, _, stderr) =
        mark_out(&["--outline", HOLE, "--outline", SECOND, "--pavement-width", "4.2m", "--svg", &svg]);
    assert_eq!(code, 0, "{stderr}");
    let read = |name: &str| std::fs::read_to_string(path(name)).expect(name);
    // 25 mm all round: 1.05 x 1.30 m and 0.65 x 0.55 m.
    let table = [("cut.svg", "1.05 m", "1.30 m", "outline 1"), ("cut-2.svg", "0.65 m", "0.55 m", "outline 2")];
    for (name, length, width, hole) in table {
        let svg = read(name);
        for words in [length, width, hole, "along the road, increasing chainage"] {
            assert!(svg.contains(words), "{name}: {words}");
        }
    }
    // The seal ends 0.175 m beside the first cut.
    assert!(read("cut.svg").contains("edge of the seal"));
    assert!(!path("cut-3.svg").exists());
}

#[test]
fn without_an_ending_the_number_stands_last_and_without_a_width_there_is_no_edge() {
    let folder = tempfile::tempdir().unwrap();
    let svg = folder.path().join("cut").display().to_string();
    let (code, _, stderr) = mark_out(&["--outline", HOLE, "--outline", SECOND, "--svg", &svg]);
    assert_eq!(code, 0, "{stderr}");
    let second = std::fs::read_to_string(folder.path().join("cut-2")).expect("the second drawing");
    assert!(second.contains("outline 2") && !second.contains("centre line") && !second.contains("edge of the seal"));
}

#[test]
fn a_place_that_can_not_be_written_to_is_said() {
    let (code, stdout, stderr) = mark_out(&["--outline", HOLE, "--svg", "nowhere/at/all.svg"]);
    assert_eq!(code, 1, "{stdout}");
    assert!(stderr.contains("nowhere/at/all.svg") && stderr.contains("give a file that can be written to"), "{stderr}");
}

#[test]
fn the_rules_and_units_are_the_districts() {
    let folder = tempfile::tempdir().unwrap();
    let margin = "margin_m = { value = 0.1, source = \"ours\" }\n";
    let district = district_marking_out(folder.path(), margin);
    assert_eq!(nearest_mm(&json(&[])), 625.0);
    assert_eq!(nearest_mm(&json(&["--district", &district])), 550.0);
    let text = std::fs::read_to_string(&district).unwrap().replace("units = \"si\"", "units = \"us_customary\"");
    std::fs::write(&district, text).unwrap();
    let svg = folder.path().join("cut.svg").display().to_string();
    let (code, _, stderr) = mark_out(&["--outline", HOLE, "--district", &district, "--svg", &svg]);
    assert_eq!(code, 0, "{stderr}");
    let drawn = std::fs::read_to_string(svg).unwrap();
    // 1.2 x 1.45 m.
    assert!(drawn.contains("3 ft 11¼ in") && drawn.contains("4 ft 9 in"), "{drawn}");
    let (code, stdout, stderr) = mark_out(&["--outline", HOLE, "--district", "nowhere.toml"]);
    assert!(code == 1 && stdout.is_empty() && stderr.contains("nowhere.toml"), "{stderr}");
}

/// Wheel paths 0.6 m wide, 0.9 m to each side of a lane's middle. Of two lanes on 6.4 m: from 0.4 to 1.0 m, so the edge at
/// 0.625 m goes to 0.4 m. Of one lane: from 0.6 to 1.2 m, so it goes to 0.6 m.
#[test]
fn lanes_say_where_the_wheel_paths_are() {
    let folder = tempfile::tempdir().unwrap();
    let keep_clear = "[wheel_path]\nkeep_clear = { value = true, source = \"ours\" }\n";
    let district = district_marking_out(folder.path(), keep_clear);
    let road = ["--pavement-width", "6.4m", "--district", &district];
    assert_eq!(nearest_mm(&json(&road)), 400.0, "two lanes where not said");
    assert_eq!(nearest_mm(&json(&[&road[..], &["--lanes", "2"]].concat())), 400.0);
    assert_eq!(nearest_mm(&json(&[&road[..], &["--lanes", "1"]].concat())), 600.0);
    // The shipped rules don't look at wheel paths.
    assert_eq!(nearest_mm(&json(&["--pavement-width", "6.4m", "--lanes", "1"])), 625.0);
}

#[test]
fn lanes_that_can_not_be_are_refused() {
    for (arguments, words) in [
        (&["--lanes", "2"][..], "--pavement-width"),
        (&["--pavement-width", "6.4m", "--lanes", "0"], "0 is not in 1..=20"),
        (&["--pavement-width", "6.4m", "--lanes", "21"], "21 is not in 1..=20"),
    ] {
        let (code, stdout, stderr) = mark_out(&[&["--outline", HOLE], arguments].concat());
        assert!(code == 2 && stdout.is_empty() && stderr.contains(words), "{arguments:?}: {stderr}");
    }
}
