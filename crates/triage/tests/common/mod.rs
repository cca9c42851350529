//! What the tests share: the shipped rules and a plain hole.
#![allow(dead_code)] // each test file uses its own part

use jiff::civil::{Date, date};
use model::district::UnitSystem;
use model::quantity::{kilometres_per_hour, millimetres, square_metres};
use model::road::RoadClass;
use model::rules::severity::SeverityRules;
use model::triage::Judgement;
use triage::TriageInput;

pub const TODAY: Date = date(2026, 6, 15);

pub fn astm() -> SeverityRules {
    toml::from_str(&text("astm-d6433")).expect("the file has its shape")
}

/// The file laid over the one it extends, as the loader does: tables merge, everything else replaces.
pub fn ltpp() -> SeverityRules {
    let mut over: toml::Table = text("ltpp").parse().expect("TOML");
    let base = over.remove("extends").expect("extends another");
    let mut joined: toml::Table = text(base.as_str().expect("a name")).parse().expect("TOML");
    lay_over(&mut joined, over);
    joined.try_into().expect("the joined file has its shape")
}

fn text(name: &str) -> String {
    let path = testkit::in_repository(&format!("rules/severity/{name}.toml"));
    std::fs::read_to_string(path).expect("rule file")
}

fn lay_over(base: &mut toml::Table, over: toml::Table) {
    for (key, value) in over {
        match (base.get_mut(&key), value) {
            (Some(toml::Value::Table(below)), toml::Value::Table(above)) => lay_over(below, above),
            (_, value) => {
                base.insert(key, value);
            }
        }
    }
}

/// Judges with SI sentences.
pub fn judge(input: &TriageInput, rules: &SeverityRules, today: Date) -> Judgement {
    triage::judge(input, rules, today, UnitSystem::Si)
}

/// A round hole on a quiet country road, nothing else known of it.
pub fn round_hole(depth_mm: f64, diameter_mm: f64) -> TriageInput {
    TriageInput {
        depth: millimetres(depth_mm),
        least_plan_dimension: millimetres(diameter_mm),
        area: square_metres(std::f64::consts::PI / 4.0 * (diameter_mm / 1000.0).powi(2)),
        lane_position: None,
        wetness: None,
        speed: kilometres_per_hour(50.0),
        class: RoadClass::Unclassified,
        vehicles_per_day: None,
        seen: None,
        sized: None,
    }
}
