//! The commands for tests of the base, on the demo's invented sheets.

mod common;

use common::{demo, lengthsman, parts};
use serde_json::Value;

fn json(arguments: &[&str]) -> Value {
    let (_, out, error) = parts(&lengthsman(&[arguments, &["--json"]].concat()));
    serde_json::from_str(&out).unwrap_or_else(|wrong| panic!("{wrong}: {out}{error}"))
}

fn number(value: &Value, pointer: &str) -> f64 {
    value.pointer(pointer).and_then(Value::as_f64).unwrap_or_else(|| panic!("{pointer} in {value:#}"))
}

#[test]
fn a_compaction_test_gives_its_peak_and_refuses_what_cannot_be() {
    let folder = tempfile::tempdir().expect("a folder");
    let plot = folder.path().join("plot.svg");
    let file = demo("proctor.csv");
    let arguments = ["proctor", &file, "--plot", plot.to_str().expect("a path")];
    let (code, out, error) = parts(&lengthsman(&arguments));
    assert_eq!(code, 3, "{error}");
    assert!(out.contains("Curve: cubic") && out.contains("maximum dry density") && out.contains("left out"), "{out}");
    assert!(error.contains("proctor.point.above_zero_air_voids"), "{error}");
    let svg = std::fs::read_to_string(&plot).expect("the plot is written");
    for words in ["MDD ", "OMC ", "S 100 %", "S 90 %", "S 80 %", "left out", "dry density, kg/m³", "Gs 2.70"] {
        assert!(svg.contains(words), "{words}");
    }
    // The same sheet, the same bytes.
    let again = folder.path().join("again.svg");
    lengthsman(&["proctor", &file, "--plot", again.to_str().expect("a path")]);
    assert_eq!(std::fs::read_to_string(again).expect("written"), svg);
    let found = json(&["proctor", &file, "--degree", "parabola"]);
    assert_eq!(found["fit"]["curve"], "parabola");
    let density = number(&found, "/fit/maximum_dry_density_kg_per_m3/value");
    assert!((2120.0..2160.0).contains(&density), "{density}");
    assert!(number(&found, "/fit/maximum_dry_density_kg_per_m3/p10") < density);
    assert!(
        number(&found, "/fit/optimum_moisture_percent/p90") > number(&found, "/fit/optimum_moisture_percent/value")
    );
    assert_eq!(found["specimens"].as_array().map(Vec::len), Some(7));
}

#[test]
fn a_peak_that_was_not_reached_is_no_result() {
    let folder = tempfile::tempdir().expect("a folder");
    let sheet = folder.path().join("dry.csv");
    std::fs::write(&sheet, "moisture (%),dry density (kg/m3)\n3,1950\n4,2010\n5,2060\n6,2100\n").expect("written");
    let (code, out, _) = parts(&lengthsman(&["proctor", sheet.to_str().expect("a path")]));
    assert_eq!(code, 1);
    assert!(out.contains("No peak:") && out.contains("wetter than the wettest"), "{out}");
    let (code, _, error) = parts(&lengthsman(&["proctor", "nowhere.csv"]));
    assert_eq!(code, 1);
    assert!(error.contains("file.unreadable"));
    let (code, _, error) = parts(&lengthsman(&["proctor", "x.csv", "--specific-gravity", "27"]));
    assert_eq!(code, 2);
    assert!(error.contains("a number from 2 to 4 is believed"), "{error}");
}

#[test]
fn a_sieve_analysis_is_held_against_gradings() {
    let folder = tempfile::tempdir().expect("a folder");
    let plot = folder.path().join("plot.svg");
    let file = demo("sieves.csv");
    let (code, out, error) =
        parts(&lengthsman(&["grading", &file, "--grading", "im209-11", "--plot", plot.to_str().expect("a path")]));
    assert_eq!(code, 0, "{error}");
    assert!(out.contains("M147-C    fits"), "{out}");
    assert!(out.contains("4.0 points too many: too fine here"), "{out}");
    assert!(out.contains("published: Iowa DOT IM 209 appendix D, gradation 11 (column fit assumed)"), "{out}");
    let svg = std::fs::read_to_string(&plot).expect("the plot is written");
    for words in ["IM209-11: misses", "+4.0", "No. 200 · 0.075 mm", "passing, %"] {
        assert!(svg.contains(words), "{words}");
    }
    let found = json(&["grading", &file]);
    assert!((number(&found, "/sieves/0/passing_percent/value") - 100.0).abs() < 1e-9);
    // (5500 - 310) / 5500.
    assert!((number(&found, "/sieves/1/passing_percent/value") - 94.363636).abs() < 1e-5);
    assert_eq!(found["gradings"][0]["fit"], "fits");
    let (code, _, error) = parts(&lengthsman(&["grading", &file, "--grading", "M147-Z"]));
    assert_eq!(code, 2);
    assert!(error.contains("M147-A, M147-B"), "{error}");
}

#[test]
fn an_agencys_own_gradings_and_rules_are_taken() {
    let folder = tempfile::tempdir().expect("a folder");
    let own = folder.path().join("own.toml");
    let text = "name = \"own\"\nabout = \"own\"\n[grading.County]\nabout = \"County base\"\n[grading.County.limits]\n\
                source = \"County manual\"\nvalue = [{ sieve = \"No. 4\", least_percent = 40.0, most_percent = 60.0 }]\n";
    std::fs::write(&own, text).expect("written");
    let (code, out, error) =
        parts(&lengthsman(&["grading", &demo("sieves.csv"), "--gradings", own.to_str().expect("a path")]));
    assert_eq!(code, 0, "{error}");
    assert!(out.contains("County base fits (County manual)"), "{out}");
    std::fs::write(&own, text.replace("No. 4", "No. 11")).expect("written");
    let (code, _, error) =
        parts(&lengthsman(&["grading", &demo("sieves.csv"), "--gradings", own.to_str().expect("a path")]));
    assert_eq!(code, 1);
    assert!(error.contains("rules.value") && error.contains("No. 11"), "{error}");
}

const FIELD: [&str; 17] = [
    "field-density",
    "--sand-before",
    "7500g",
    "--sand-after",
    "3350g",
    "--sand-in-cone",
    "1550g",
    "--sand-density",
    "1.45g/cm3",
    "--soil",
    "3870g",
    "--moisture",
    "6.2%",
    "--maximum",
    "2150kg/m3",
    "--required",
    "95%",
];

/// Derived values of the handbook's page.
#[test]
fn field_density_is_held_against_the_degree_asked_for() {
    let found = json(&FIELD);
    assert!((number(&found, "/degree_of_compaction_percent/value") - 94.52).abs() < 0.006);
    assert_eq!(found["passes"], false);
    let (code, out, _) = parts(&lengthsman(&FIELD));
    assert_eq!(code, 0);
    assert!(out.contains("Against 95.0 % asked for: fails, within the reading errors"), "{out}");
    let none_left: Vec<&str> = FIELD.iter().map(|word| if *word == "3350g" { "6000g" } else { word }).collect();
    let (code, _, error) = parts(&lengthsman(&none_left));
    assert_eq!(code, 2);
    assert!(error.contains("sand are left for the hole"), "{error}");
}

/// A slip of the unit must not pass a layer.
#[test]
fn readings_that_nobody_believes_give_no_verdict() {
    for (from, to, words) in [
        ("7500g", "-7500g", "sand before is -7.5"),
        ("7500g", "1e300kg", "sand before: "),
        ("1.45g/cm3", "1450g/cm3", "sand density: 1450000 is out of range; between 1000 and 2000"),
        ("3870g", "3870kg", "soil from the hole: 3870 is out of range"),
        ("3870g", "38700g", "dry density found: 20322.68"),
        ("6.2%", "620%", "moisture: 620 is out of range"),
        ("2150kg/m3", "2.15kg/m3", "maximum dry density: 2.15 is out of range"),
        ("95%", "0.95%", "degree asked for: 0.95 is out of range; between 50 and 110 percent"),
    ] {
        let changed: Vec<&str> = FIELD.iter().map(|word| if *word == from { to } else { word }).collect();
        let (code, out, error) = parts(&lengthsman(&changed));
        assert!(code == 2 && out.is_empty() && error.contains(words), "{to}: {code} {out}{error}");
    }
    let (code, _, error) = parts(&lengthsman(&[&FIELD[..], &["--district", "nowhere.toml"]].concat()));
    assert!(code == 1 && error.contains("file.unreadable"), "{error}");
}

/// The row's mass is part of every share below it.
#[test]
fn a_mass_that_cannot_be_read_leaves_no_grading() {
    let folder = tempfile::tempdir().expect("a folder");
    let sheet = folder.path().join("sieves.csv");
    let text = std::fs::read_to_string(demo("sieves.csv")).expect("the demo is there");
    std::fs::write(&sheet, text.replace("No. 10,1030", "No. 10,103O")).expect("written");
    let (code, out, error) = parts(&lengthsman(&["grading", sheet.to_str().expect("a path")]));
    assert!(code == 1 && out.is_empty(), "{out}");
    assert!(error.contains("sieves.csv:7:8") && error.contains("sieves.sample.unusable"), "{error}");
}

/// Derived values: a tonne at 3 % to 7 % takes 38.835 kg, and not 40.
#[test]
fn water_for_a_batch() {
    let found = json(&["water", "--moist-mass", "1000kg", "--moisture", "3%", "--optimum", "7%"]);
    // The shipped allowance of 10 %.
    assert!((number(&found, "/water_to_add_kg/value") - 1.1 * 38.834951).abs() < 1e-5);
    let weather = ["--air-temperature", "25C", "--wind", "10km/h", "--humidity", "50%", "--minutes-open", "60"];
    let told = [&["water", "--moist-mass", "1000kg", "--moisture", "7%", "--optimum", "7%"], &weather[..]].concat();
    let found = json(&told);
    let lost = number(&found, "/drying_loss_kg/value");
    assert!(lost > 0.0 && (number(&found, "/water_to_add_kg/value") - lost).abs() < 1e-9);
    let by_hand = json(&["water", "--loose-volume", "60L", "--hand", "falls-apart"]);
    assert!(number(&by_hand, "/water_to_add_kg/p10") < number(&by_hand, "/water_to_add_kg/p90"));
    for (wrong, code) in [
        (vec!["water", "--moist-mass", "96kg"], 2),
        (vec!["water", "--moisture", "4%"], 2),
        (vec!["water", "--moist-mass", "-96kg", "--moisture", "4%"], 2),
        (vec!["water", "--moist-mass", "96", "--moisture", "4%"], 2),
        (vec!["water", "--moist-mass", "96kg", "--moisture", "4%", "--air-temperature", "25C"], 2),
        (vec!["water", "--moist-mass", "96kg", "--moisture", "400%"], 2),
        (vec!["water", "--moist-mass", "96kg", "--moisture", "41%"], 2),
        (vec!["water", "--moist-mass", "96kg", "--moisture", "4%", "--optimum", "1%"], 2),
        (vec!["water", "--moist-mass", "1e300kg", "--moisture", "4%"], 2),
        (vec!["water", "--loose-volume", "1e9L", "--moisture", "4%"], 2),
    ] {
        assert_eq!(parts(&lengthsman(&wrong)).0, code, "{wrong:?}");
    }
}

#[test]
fn the_weather_changes_the_water_of_a_repair_and_nothing_else() {
    let hole = ["repair", "--length", "1.2m", "--width", "0.8m", "--depth", "220mm"];
    let plain = json(&hole);
    let told = json(&[&hole[..], &["--air-temperature", "35C", "--wind", "30km/h", "--humidity", "20%"]].concat());
    assert_ne!(plain["water_to_add_kg"], told["water_to_add_kg"], "{plain:#}");
    assert_eq!(plain["fill_dry_mass_kg"], told["fill_dry_mass_kg"]);
    let (code, _, error) = parts(&lengthsman(&[&hole[..], &["--air-temperature", "99C", "--wind", "3km/h"]].concat()));
    assert_eq!(code, 2);
    assert!(error.contains("air temperature"), "{error}");
}
