//! Rule sets: laid over each other, found beside the district file, and every fault said with its place.

use std::collections::BTreeMap;
use std::path::Path;

use exchange::rules::{RuleKind, load_rules, shipped_rule_sets};
use model::figure::Standing;
use model::rules::Sourced;
use model::rules::planning::PlanningRules;
use proptest::prelude::*;
use serde::Deserialize;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(dead_code)] // read to see that they can be
struct Strict {
    name: String,
    about: String,
    margin_m: Sourced<f64>,
    speeds: Speeds,
}

#[derive(Debug, Deserialize)]
#[allow(dead_code)]
struct Speeds {
    slow_mph: Sourced<u32>,
    fast_mph: Sourced<u32>,
}

const BASE: &str = r#"
name = "base"
about = "everything"
margin_m = { value = 0.025, source = "published: a guide, table 3" }
[speeds]
slow_mph = { value = 25, source = "common practice, no source" }
fast_mph = { value = 55, source = "common practice, no source" }
"#;

fn folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in files {
        let path = folder.path().join(name);
        std::fs::create_dir_all(path.parent().expect("a parent")).expect("a folder");
        std::fs::write(path, text).expect("written");
    }
    folder
}

/// Problems without the folder's name, one a line.
fn faults(files: &[(&str, &str)], name: &str) -> String {
    let folder = folder(files);
    let problems = load_rules::<Strict>(RuleKind::Repair, name, Some(folder.path())).expect_err(name);
    let said: Vec<String> = problems.iter().map(|problem| format!("{problem}\n")).collect();
    said.concat().replace(&format!("{}/", folder.path().display()), "")
}

#[test]
fn single_values_are_overridden_and_lose_the_citation_they_replace() {
    let own = "extends = \"base\"\nname = \"own\"\nmargin_m = 0.03\n[speeds]\nslow_mph = { value = 20 }\nfast_mph.value = 60\nfast_mph.source = \"from memory: a code\"\n";
    let folder = folder(&[("base.toml", BASE), ("own.toml", own)]);
    let rules: Strict = load_rules(RuleKind::Repair, "own", Some(folder.path())).expect("rules");
    assert_eq!((rules.name.as_str(), rules.about.as_str()), ("own", "everything"));
    assert_eq!((rules.margin_m.value, rules.margin_m.source.standing), (0.03, Standing::Agency));
    assert!(rules.margin_m.source.cite.ends_with("own.toml"), "{}", rules.margin_m.source.cite);
    assert_eq!((rules.speeds.slow_mph.value, rules.speeds.slow_mph.source.standing), (20, Standing::Agency));
    assert_eq!((rules.speeds.fast_mph.value, rules.speeds.fast_mph.source.standing), (60, Standing::FromMemory));
    let base: Strict = load_rules(RuleKind::Repair, "base", Some(folder.path())).expect("rules");
    assert_eq!((base.margin_m.value, base.margin_m.source.standing), (0.025, Standing::Published));
}

#[test]
fn a_file_in_the_kind_s_folder_goes_first_and_may_extend_the_one_that_comes_with_the_program() {
    let name = "common-practice";
    let shipped: toml::Table = load_rules(RuleKind::MarkOut, name, None).expect("shipped rules");
    let own = "extends = \"common-practice\"\nmargin_m = 0.04\n";
    let folder = folder(&[("markout/common-practice.toml", own), ("common-practice.toml", "for another kind")]);
    let rules: toml::Table = load_rules(RuleKind::MarkOut, name, Some(folder.path())).expect("rules");
    assert_eq!(rules["margin_m"]["value"].as_float(), Some(0.04));
    assert_eq!(rules["merge_gap_m"], shipped["merge_gap_m"]);
}

#[test]
fn faults_are_said_with_place_and_remedy() {
    let cases: [(&str, &[(&str, &str)]); 12] = [
        ("no such rule set", &[]),
        ("not a name", &[]),
        (
            "circle of three",
            &[("own.toml", "extends = \"b\""), ("b.toml", "extends = \"c\""), ("c.toml", "\nextends = \"b\"")],
        ),
        ("circle of one", &[("own.toml", "extends = \"own\"")]),
        ("extends nothing known", &[("own.toml", "\n extends = \"commonpractice\"")]),
        ("extends a number", &[("own.toml", "extends = 3")]),
        ("unknown key", &[("base.toml", BASE), ("own.toml", "extends = \"base\"\nmargn_m = 0.03")]),
        ("unknown key below", &[("base.toml", BASE), ("own.toml", "extends = \"base\"\n[speeds]\nslo_mph = 3")]),
        ("wrong type", &[("base.toml", BASE), ("own.toml", "extends = \"base\"\n\nmargin_m = \"wide\"")]),
        ("wrong type below", &[("base.toml", BASE), ("own.toml", "extends = \"base\"\nspeeds.slow_mph.value = -1.5")]),
        ("key missing", &[("own.toml", "name = \"x\"\nabout = \"y\"\nmargin_m = { value = 1, source = \"z\" }")]),
        ("not TOML", &[("own.toml", "name = \"x\nabout")]),
    ];
    let told: Vec<String> = cases
        .iter()
        .map(|(what, files)| {
            let name = if *what == "not a name" { "../own" } else { "own" };
            format!("# {what}\n{}", faults(files, name))
        })
        .collect();
    insta::assert_snapshot!(told.join("\n"));
}

#[test]
fn units_other_than_those_of_the_extended_set_are_refused() {
    let read = |text: &str| {
        let folder = folder(&[("own.toml", text)]);
        let read = load_rules::<model::rules::traffic::TrafficRules>(RuleKind::Traffic, "own", Some(folder.path()));
        let said = |problem: &model::problem::Problem| {
            format!("{problem}").replace(&format!("{}/", folder.path().display()), "")
        };
        read.map_err(|problems| problems.iter().map(said).collect::<Vec<_>>())
    };
    let refused =
        read("extends = \"us-mutcd\"\nname = \"own\"\n[units]\ndistance = \"m\"\n\n  speed = \"km/h\"\n").unwrap_err();
    insta::assert_snapshot!(refused.join("\n"));
    // The same units said again are no contradiction, and neither is silence.
    for units in ["", "[units]\nspeed = \"mph\"\n"] {
        let rules = read(&format!("extends = \"us-mutcd\"\nname = \"own\"\n{units}")).expect("readable");
        assert_eq!(rules.units.speed, model::rules::traffic::SpeedUnit::MilePerHour);
    }
    // A unit that is none is told by its name, where it stands.
    let refused = read("extends = \"us-mutcd\"\n[units]\ndistance = \"yard\"\n").unwrap_err();
    assert!(refused[0].starts_with("own.toml:3:12: units.distance"), "{refused:?}");
}

#[test]
fn every_rule_set_that_comes_with_the_program_is_toml_with_name_and_about() {
    let mut count = 0;
    for kind in RuleKind::ALL {
        for name in shipped_rule_sets(kind) {
            let table: toml::Table = load_rules(kind, &name, None).unwrap_or_else(|problems| panic!("{problems:?}"));
            assert!(table.contains_key("name") && table.contains_key("about"), "{} {name}", kind.folder());
            count += 1;
        }
    }
    assert!(count > 0, "the library is not empty");
}

#[test]
fn every_rule_set_that_comes_with_the_program_has_the_shape_of_its_kind() {
    fn check<T: serde::de::DeserializeOwned>(kind: RuleKind) {
        for name in shipped_rule_sets(kind) {
            if let Err(problems) = load_rules::<T>(kind, &name, None) {
                panic!("{problems:#?}");
            }
        }
    }
    check::<model::rules::repair::RepairRules>(RuleKind::Repair);
    check::<model::rules::markout::MarkOutRules>(RuleKind::MarkOut);
    check::<model::rules::traffic::TrafficRules>(RuleKind::Traffic);
    check::<model::rules::severity::SeverityRules>(RuleKind::Severity);
    check::<model::rules::roads::RoadDefaults>(RuleKind::Roads);
    check::<PlanningRules>(RuleKind::Planning);
    check::<model::rules::soil::SoilRules>(RuleKind::Soil);
    check::<model::rules::gradation::GradationRules>(RuleKind::Gradation);
}

/// Each value of the weather rules that nobody believes is named.
#[test]
fn weather_rules_nobody_believes_are_faults() {
    type Change = fn(&mut model::rules::planning::WeatherRules);
    let shipped: PlanningRules =
        load_rules(RuleKind::Planning, "common-practice", None).expect("comes with the program");
    assert_eq!(shipped.faults(), Vec::<String>::new());
    let cases: [(Change, &str); 5] = [
        (|rules| rules.rain_mm_per_h_max.value = -0.1, "weather.rain_mm_per_h_max is -0.1"),
        (|rules| rules.rain_chance_percent_max.value = 101.0, "weather.rain_chance_percent_max is 101"),
        (|rules| rules.air_temperature_c_min.value = 50.0, "weather.air_temperature_c_min is 50"),
        (|rules| rules.dry_hours_before.value = f64::NAN, "weather.dry_hours_before is NaN"),
        (|rules| rules.dry_hours_after.value = f64::INFINITY, "weather.dry_hours_after is inf"),
    ];
    for (change, expected) in cases {
        let mut rules = shipped.clone();
        change(&mut rules.weather);
        let faults = rules.faults();
        assert!(faults.len() == 1 && faults[0].starts_with(expected), "{faults:?}");
    }
}

#[test]
fn rules_in_a_circle_of_folders_do_not_hang() {
    // An own file that extends its own name means the one that comes with the program; where there is none, that is said.
    let folder = folder(&[("own.toml", "extends = \"own\"")]);
    assert!(load_rules::<toml::Table>(RuleKind::Roads, "own", Some(folder.path())).is_err());
    assert!(load_rules::<toml::Table>(RuleKind::Roads, "own", Some(Path::new("nowhere"))).is_err());
}

proptest! {
    #[test]
    fn any_text_gives_an_answer(text in "(extends = \"base\"\n)?[-\\[\\]{}=\"0-9a-z_.\n ]{0,120}") {
        let folder = folder(&[("base.toml", BASE), ("own.toml", &text)]);
        let _ = load_rules::<Strict>(RuleKind::Repair, "own", Some(folder.path()));
        let _ = load_rules::<BTreeMap<String, toml::Value>>(RuleKind::Repair, "own", Some(folder.path()));
    }
}
