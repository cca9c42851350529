//! The demonstration's week, to be planned.

use std::path::PathBuf;

use exchange::holes::{HoleOptions, read_holes};
use exchange::road_files::read_roads;
use exchange::rules::{RuleKind, load_rules};
use jiff::civil::{Date, date};
use model::district::District;
use model::learnt::Learnt;
use plan::{HeightLookup, PlanInput, ProgrammeInput, Rules};
use serde::de::DeserializeOwned;

pub const DAY: Date = date(2026, 6, 9);

pub fn demo(file: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../demo").join(file)
}

pub fn rule_set<T: DeserializeOwned>(kind: RuleKind, name: &str) -> T {
    load_rules(kind, name, None).expect("a rule set of ours")
}

/// The demonstration's week with its two crews, changed.
pub fn input(change: impl FnOnce(&mut District)) -> ProgrammeInput {
    let mut district = exchange::district::read_district_file(&demo("week.toml")).expect("a sound file").district;
    change(&mut district);
    let defaults = rule_set(RuleKind::Roads, &district.rule_sets.roads);
    let roads = read_roads(&demo("roads.geojson"), &defaults, &mut |_| {});
    let (network, _) = roads::network_with_restrictions(roads.lines, &roads.restrictions);
    let rules = Rules {
        mark_out: rule_set(RuleKind::MarkOut, "common-practice"),
        repair: rule_set(RuleKind::Repair, &district.rule_sets.repair),
        traffic: rule_set(RuleKind::Traffic, &district.rule_sets.traffic),
        matching: rule_set(RuleKind::Matching, "common-practice"),
        severity: rule_set(RuleKind::Severity, &district.rule_sets.severity),
        planning: rule_set(RuleKind::Planning, "common-practice"),
        learnt: Learnt::default(),
    };
    let holes = read_holes(&demo("holes.csv"), &HoleOptions::default(), DAY).holes;
    let plan = PlanInput {
        district,
        network,
        heights: HeightLookup::default(),
        holes,
        problems: Vec::new(),
        rules,
        road_attribution: None,
        date: DAY,
        seed: 1,
        looks: None,
    };
    ProgrammeInput { plan, days: 1, forecast: None, so_far: None, pins: Vec::new() }
}
