//! `lengthsman seal`: flags, file, laboratory lists; and what a district may leave out of its binder.

mod common;

use common::{district_with, lengthsman, parts};
use serde_json::Value;

const WORKED: [&str; 20] = [
    "--median-size",
    "9.5mm",
    "--flakiness-percent",
    "20",
    "--loose-density-kg-per-m3",
    "1450",
    "--particle-density-kg-per-m3",
    "2650",
    "--grade",
    "CRS-2",
    "--residue-percent",
    "67",
    "--spray-temperature-c",
    "60",
    "--vehicles-per-day",
    "300",
    "--area-m2",
    "1.08",
    "--overlap-m2",
    "0.3616",
];

fn seal(arguments: &[&str]) -> (i32, String, String) {
    parts(&lengthsman(&[&["seal"], arguments].concat()))
}

fn json(arguments: &[&str]) -> Value {
    let (code, out, error) = seal(&[arguments, &["--json"]].concat());
    assert_eq!(code, 0, "{error}");
    serde_json::from_str(&out).unwrap()
}

fn value(json: &Value, key: &str) -> f64 {
    json[key]["value"].as_f64().unwrap_or_else(|| panic!("no {key} in {json:#}"))
}

/// The seal that `crates/repair/tests/all/worked_repair.rs` works out by hand.
#[test]
fn flags_give_the_seal_worked_out_by_hand() {
    let found = json(&WORKED);
    assert_eq!(found["method"], "McLeod");
    for (key, expected) in [
        ("least_dimension_mm", 6.93732),
        ("binder_on_base_l_per_m2", 1.854370),
        ("binder_on_old_seal_l_per_m2", 1.615564),
        ("binder_volume_l", 2.586908),
        ("binder_volume_hot_l", 2.640376),
        ("cover_mass_kg", 22.7870),
    ] {
        let found = value(&found, key);
        assert!((found - expected).abs() < 1e-5 * expected, "{key}: {found}");
    }
    assert_eq!(found["opening"]["open_after_min"]["value"], 60.0);
    assert!(found.get("comparison").is_none(), "the other method's charts are not there");
}

#[test]
fn the_table_says_method_working_and_cautions() {
    let (code, out, _) = seal(&[&WORKED[..], &["--why", "--void-factor", "0.21"]].concat());
    assert_eq!(code, 0);
    for words in [
        "Rates by the method of McLeod",
        "For comparison, by the method of Austroads",
        "binder on the base",
        "1.85 L/m2",
        "none: drawn from the tank",
        "Minnesota Seal Coat Handbook",
        "open after",
        "Hot binder burns",
    ] {
        assert!(out.contains(words), "{words} in {out}");
    }
    // Without an area there are rates, no quantities.
    let (_, out, _) = seal(&[]);
    assert!(out.contains("cover stone") && !out.contains("Quantities"), "{out}");
}

#[test]
fn the_method_of_austroads_needs_its_voids_factor() {
    let (code, out, error) = seal(&["--method", "austroads"]);
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(error.contains("seal.austroads.void_factor is not entered") && error.contains("AGPT04K"), "{error}");
    let found = json(&[&WORKED[..], &["--method", "austroads", "--void-factor", "0.21"]].concat());
    assert_eq!(found["method"], "Austroads");
    assert_eq!(value(&found, "residual_on_base_l_per_m2"), 1.8);
    assert_eq!(found["comparison"]["method"], "McLeod");
    let (code, _, error) = seal(&["--method", "guess"]);
    assert_eq!(code, 2);
    assert!(error.contains("`mcleod`") && error.contains("`austroads`"), "{error}");
}

#[test]
fn a_file_holds_what_the_flags_say_and_a_flag_goes_before_it() {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path.display().to_string()
    };
    write("particles.csv", "least_dimension_mm\n5.4\n6.1\n7.2\n6.6\n5.9\n");
    let toml = write("seal.toml", "grade = \"MC-250\"\nleast_dimensions = \"particles.csv\"\nvehicles_per_day = 50\n");
    let found = json(&["--input", &toml]);
    assert_eq!(found["measured"]["particles"], 5);
    assert_eq!(found["measured"]["mean_mm"].as_f64().map(|mean| (mean * 1e6).round() / 1e6), Some(6.2));
    assert!((value(&found, "least_dimension_mm") - 6.2).abs() < 1e-9);
    // MC-250 is a cutback whose least residue, 67 % by volume, is taken.
    assert!((value(&found, "residue_by_volume") - 0.67).abs() < 1e-12);
    assert!(found["cautions"].to_string().contains("Fire:"));
    let busier = json(&["--input", &toml, "--vehicles-per-day", "3000", "--residue-percent", "80"]);
    assert!(value(&busier, "residual_on_base_l_per_m2") < value(&found, "residual_on_base_l_per_m2"));
    assert!((value(&busier, "residue_by_volume") - 0.8).abs() < 1e-12);
    let same = write(
        "seal.json",
        "{ \"grade\": \"MC-250\", \"least_dimensions\": \"particles.csv\", \"vehicles_per_day\": 50 }",
    );
    assert_eq!(json(&["--input", &same]), found);
    let (code, _, error) = seal(&["--input", &write("bad.toml", "grad = \"MC-250\"\n")]);
    assert_eq!(code, 1);
    assert!(error.contains("unknown field `grad`") && error.contains("file.input.wrong"), "{error}");
}

#[test]
fn laboratory_lists_go_before_the_districts_sizes() {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path.display().to_string()
    };
    let gauge = write("gauge.csv", "sieve,tested_g,passing_g\n10,200,60\n8,186,54\n6,238,72\n");
    let grading = write("sieves.csv", "opening_mm,passing_percent\n4,5\n8,30\nten,1\n12.5,70\n");
    let (code, out, error) = seal(&["--slotted-gauge", &gauge, "--grading", &grading]);
    assert_eq!(code, 3, "one row is refused: {error}");
    assert!(error.contains("`ten` is not a number"), "{error}");
    assert!(out.contains("flakiness index 29.8 %") && out.contains("median size 10.00 mm"), "{out}");
    // 10 / (1.139285 + 0.011506 * 29.8077)
    assert!(out.contains("6.75 mm"), "{out}");
    let gauge = write("gauge.csv", "tested_g,passing_g\n200,260\n");
    let (code, _, error) = seal(&["--slotted-gauge", &gauge]);
    assert_eq!(code, 2);
    assert!(error.contains("more passes the slotted gauge than was tested"), "{error}");
}

#[test]
fn what_can_not_be_worked_with_is_said() {
    for (arguments, words) in [
        (["--area-m2", "nan"], "area of fresh base: NaN is out of range"),
        (["--area-m2", "-1"], "area of fresh base: -1 is out of range"),
        (["--median-size", "0mm"], "median size: 0 is out of range; between 1 and 40 mm"),
        (["--median-size", "9.5m"], "median size: 9500 is out of range"),
        (["--loose-density-kg-per-m3", "1.45"], "loose density of the stone: 1.45 is out of range"),
        (["--binder-density-kg-per-m3", "1.01"], "density of the binder: 1.01 is out of range"),
        (["--flakiness-percent", "101"], "flakiness index: 101 is out of range"),
        (["--median-size", "9.5"], "unit"),
        (["--vehicles-per-day", "inf"], "vehicles a day: inf is out of range"),
        (["--spray-temperature-c", "-5"], "spraying temperature"),
        // A share in place of per cent would ask for a hundred times the binder.
        (["--residue-percent", "0.65"], "residue of the binder: 0.65 is out of range; between 30 and 100 percent"),
        (["--residue-by-mass-percent", "0.65"], "residue of the binder by mass: 0.65 is out of range"),
        (["--grade", "house mix"], "no least residue is known for the grade `house mix`"),
        (["--void-factor", "21"], "seal.austroads.void_factor is 21"),
    ] {
        let (code, _, error) = seal(&arguments);
        assert_eq!(code, 2, "{arguments:?}: {error}");
        assert!(error.contains(words), "{words}: {error}");
        // Once, though a factor given counts for four bands.
        assert_eq!(error.matches(words).count(), 1, "{error}");
    }
}

/// The rule file that the handbook's page shows is one that works.
#[test]
fn the_rule_file_of_the_page_chooses_the_method_of_austroads() {
    let page = testkit::methods_folder().join("seal-austroads.md");
    let page = std::fs::read_to_string(page).unwrap();
    let rules = page.split("```toml\n").nth(1).and_then(|rest| rest.split("```").next()).unwrap();
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("our-practice.toml"), rules).unwrap();
    let district = district_with(folder.path(), &[("repair = \"common-practice\"", "repair = \"our-practice\"")]);
    let found = json(&["--district", &district]);
    assert_eq!(found["method"], "Austroads");
    assert!(found["binder_on_base_l_per_m2"]["why"].as_str().unwrap().contains("read for our 10 mm stone"));
    // Without the charts the rule set is refused, with what to write.
    let without = rules.split("# The numbers here").next().unwrap();
    std::fs::write(folder.path().join("our-practice.toml"), without).unwrap();
    let (code, _, error) = seal(&["--district", &district]);
    assert_eq!(code, 1);
    assert!(error.contains("rules.value") && error.contains("very_low"), "{error}");
}

#[test]
fn a_district_may_leave_the_residue_to_its_grade() {
    let folder = tempfile::tempdir().unwrap();
    let residue = "residue_percent = 65\n";
    let district = district_with(folder.path(), &[(residue, "")]);
    // 65 % by mass at 1010 kg/m3, residual binder at 1020 kg/m3.
    assert!((value(&json(&["--district", &district]), "residue_by_volume") - 0.643627).abs() < 1e-6);
    let district = district_with(folder.path(), &[(residue, "residue_by_mass_percent = 68\n")]);
    assert!((value(&json(&["--district", &district]), "residue_by_volume") - 0.68 * 1010.0 / 1020.0).abs() < 1e-9);
    let both = "residue_percent = 65\nresidue_by_mass_percent = 66\n";
    let district = district_with(folder.path(), &[(residue, both)]);
    let (code, _, error) = seal(&["--district", &district]);
    assert_eq!(code, 1);
    assert!(error.contains("district.quantity.twice"), "{error}");
    let district = district_with(folder.path(), &[(residue, ""), ("\"CRS-2\"", "\"house mix\"")]);
    let (code, _, error) = seal(&["--district", &district]);
    assert_eq!(code, 1);
    assert!(error.contains("district.binder.residue_unknown") && error.contains("residue_by_mass_percent"), "{error}");
    // Pots of the district.
    let pots = "applicator = \"pouring_pot\"\n\n[[plant.containers]]\nname = \"pot\"\nvolume_l = 8\n";
    let district = district_with(folder.path(), &[("applicator = \"sprayer\"\n", pots)]);
    let found = json(&["--district", &district, "--area-m2", "6"]);
    assert_eq!(found["binder_containers"]["counts"][0]["name"], "pot");
    assert_eq!(found["binder_containers"]["counts"][0]["count"], 2);
}
