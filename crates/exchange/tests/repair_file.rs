//! One repair as a file: TOML and JSON, layers over each other, every fault with its place.

use exchange::district::{RepairLayer, default_district, read_repair};
use model::district::{CompactorKind, Residue};
use model::quantity::{InLength, InRatio, InVolume};
use model::rules::repair::OldSurface;
use proptest::prelude::*;

const TOML: &str = "[hole]\nlength_m = 1.2\nwidth_cm = 90\ndepth_mm = 220\nopen_volume_l = 60\n[road]\n\
vehicles_per_day = 300\nold_surface = \"smooth\"\nold_texture_l_per_m2 = 0.3\n\
[base]\nstock_moisture_percent = 5\n[[plant.compactors]]\nkind = \"heavy_plate\"\n";

const JSON: &str = r#"{
  "hole": { "length_m": 1.2, "width_cm": 90,
    "depth_mm": 220, "open_volume_l": 60 },
  "road": { "vehicles_per_day": 300, "old_surface": "smooth", "old_texture_l_per_m2": 0.3 },
  "base": { "stock_moisture_percent": 5 },
  "plant": { "compactors": [ { "kind": "heavy_plate" } ] }
}"#;

fn layer(name: &str, text: &str) -> RepairLayer {
    RepairLayer { name: name.into(), text: text.into() }
}

fn faults(name: &str, text: &str) -> String {
    let problems = read_repair(None, &[layer(name, text)]).expect_err("faulty");
    let lines: Vec<String> = problems.iter().map(|problem| format!("{problem}\n")).collect();
    lines.concat()
}

#[test]
fn toml_and_json_say_the_same() {
    let read = |name, text| read_repair(None, &[layer(name, text)]).expect("a repair");
    let file = read("r.toml", TOML);
    assert_eq!(file, read("r.json", JSON));
    assert_eq!(file.hole.length.map(InLength::in_metres), Some(1.2));
    assert_eq!(file.hole.width.map(|width| width.in_millimetres().round()), Some(900.0));
    assert_eq!(file.hole.depth.map(|depth| depth.in_millimetres().round()), Some(220.0));
    assert_eq!(file.hole.open_volume.map(|volume| volume.in_litres().round()), Some(60.0));
    assert!(!file.hole.as_cut && file.hole.outline.is_none());
    assert_eq!(file.vehicles_per_day, Some(300.0));
    assert_eq!((file.old_surface, file.old_texture_l_per_m2), (Some(OldSurface::Smooth), Some(0.3)));
    let kinds: Vec<CompactorKind> = file.district.plant.compactors.iter().map(|machine| machine.kind).collect();
    assert_eq!(kinds, [CompactorKind::HeavyPlate]);
}

#[test]
fn what_is_not_written_comes_from_below() {
    let file = read_repair(None, &[layer("r.toml", TOML)]).expect("a repair");
    let mut expected = default_district();
    expected.base.stock_moisture = file.district.base.stock_moisture;
    expected.plant.compactors = file.district.plant.compactors.clone();
    assert_eq!(file.district, expected);
    assert!((file.district.base.stock_moisture.in_percent() - 5.0).abs() < 1e-9);

    // A later layer lies over an earlier one, in whatever unit.
    let set = layer("--set", "base.stock_moisture_fraction = 0.06\nhole.depth_cm = 18");
    let file = read_repair(None, &[layer("r.toml", TOML), set]).expect("a repair");
    assert!((file.district.base.stock_moisture.in_percent() - 6.0).abs() < 1e-9);
    assert_eq!(file.hole.depth.map(|depth| depth.in_millimetres().round()), Some(180.0));
    assert_eq!(file.hole.length.map(InLength::in_metres), Some(1.2));

    let demo = testkit::in_repository("demo/district.toml");
    let file = read_repair(Some(&demo), &[layer("r.toml", TOML)]).expect("a repair");
    assert!(file.district.base.name.contains("Gannet"));
    assert!((file.district.base.stock_moisture.in_percent() - 5.0).abs() < 1e-9);
    assert_eq!(file.district.barred_hours.len(), 2);
    // What is said of the residue replaces what the district says, though it is said in another way.
    let by_mass = layer("--set", "binder.residue_by_mass_percent = 60");
    let file = read_repair(Some(&demo), &[by_mass]).expect("a repair");
    assert!(
        matches!(file.district.binder.residue, Some(Residue::ByMass(share)) if (share.in_percent() - 60.0).abs() < 1e-9)
    );
    // No layer at all is the district itself.
    let bare = read_repair(Some(&demo), &[]).expect("a district");
    assert_eq!(bare.district, exchange::district::read_district(&demo).expect("the demo").0);
}

#[test]
fn faults_are_said_with_line_and_column() {
    let cases = [
        ("unknown key", "r.toml", "[hole]\ndept_mm = 220"),
        ("unknown table", "r.toml", "[holes]\ndepth_mm = 220"),
        ("unknown unit", "r.toml", "[hole]\ndepth_yd = 1"),
        ("out of range", "r.toml", "[hole]\ndepth_m = 220"),
        ("not a number", "r.toml", "[hole]\ndepth_mm = \"220\""),
        ("not finite", "r.toml", "[road]\nvehicles_per_day = nan"),
        ("no such surface", "r.toml", "[road]\nold_surface = \"rough\""),
        ("too much texture", "r.toml", "[road]\nold_texture_l_per_m2 = 2.1"),
        ("twice", "r.toml", "[hole]\ndepth_mm = 220\ndepth_cm = 22"),
        ("outline", "r.toml", "[hole]\noutline_m = \"0 0; 1 x; 1 1\""),
        ("two points", "r.toml", "[hole]\noutline_m = \"0 0; 1 1\""),
        ("district value", "r.toml", "[base]\nloose_density_kg_per_m3 = 16"),
        ("not TOML", "r.toml", "[hole\ndepth_mm = 1"),
        ("not JSON", "r.json", "{ \"hole\": }"),
        ("JSON key", "r.json", "{\n  \"hole\": { \"depth_mm\": 220,\n            \"lenght_m\": 1 } }"),
        ("JSON nothing", "r.json", "{\n  \"hole\": { \"depth_mm\": null } }"),
    ];
    let told: Vec<String> =
        cases.iter().map(|(what, name, text)| format!("# {what}\n{}", faults(name, text))).collect();
    insta::assert_snapshot!(told.join("\n"));
}

proptest! {
    #[test]
    fn any_text_gives_an_answer(text in ".*", json in any::<bool>()) {
        let _ = read_repair(None, &[layer(if json { "r.json" } else { "r.toml" }, &text)]);
    }

    #[test]
    fn a_damaged_json_gives_an_answer(at in 0..300_usize, length in 0..20_usize, with in "[-{}:,\\[\\]\"0-9a-z\\\\\n]{0,6}") {
        let characters: Vec<char> = JSON.chars().collect();
        let at = at.min(characters.len());
        let end = (at + length).min(characters.len());
        let text: String = characters[..at].iter().copied().chain(with.chars()).chain(characters[end..].iter().copied()).collect();
        if let Err(problems) = read_repair(None, &[layer("r.json", &text)]) {
            prop_assert!(!problems.is_empty());
        }
    }
}
