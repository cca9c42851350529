//! Work plans of the invented district with crews that differ.

use std::path::PathBuf;

use exchange::holes::{HoleOptions, read_holes};
use exchange::road_files::read_roads;
use exchange::rules::{RuleKind, load_rules};
use jiff::civil::{Date, date};
use model::district::{Compactor, CompactorKind, District};
use model::plan::WorkPlan;
use model::quantity::metres;
use plan::{HeightLookup, PlanInput, ProgrammeInput, Rules, plan_programme};
use serde::de::DeserializeOwned;

const DAY: Date = date(2026, 6, 9);

fn demo(file: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../demo").join(file)
}

fn rule_set<T: DeserializeOwned>(kind: RuleKind, name: &str) -> T {
    load_rules(kind, name, None).expect("a rule set of ours")
}

/// The demonstration's week with its two crews, changed.
fn input(change: impl FnOnce(&mut District)) -> ProgrammeInput {
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
    };
    ProgrammeInput { plan, days: 1, forecast: None, so_far: None }
}

fn planned(change: impl FnOnce(&mut District)) -> WorkPlan {
    let mut input = input(change);
    input.plan.district.planning.iterations = 600;
    let work = plan_programme(input, &mut |_, _| true).expect("there is a plan");
    assert_eq!(check::programme_breaches(&work.problem, &work.programme), []);
    work
}

/// Plant that no repair can be worked out for: a plate of no width.
fn break_plant_of_the_second_crew(district: &mut District) {
    let plate = Compactor { kind: CompactorKind::VibratingPlate, width: Some(metres(0.0)), speed: None };
    let plant = district.further_crews[0].plant.as_mut().expect("the second crew has plant of its own");
    plant.compactors = vec![plate];
}

/// Sites that each crew may do, by the problem, and does.
fn sites_of(work: &WorkPlan, crew: usize) -> (usize, usize) {
    let class = work.problem.shifts.iter().find(|shift| shift.crew == crew).expect("it has a shift").work_class;
    let may = work.problem.sites.iter().filter(|site| site.service_s[class].is_some()).count();
    let rounds = work.programme.rounds.iter().filter(|round| work.problem.shifts[round.shift].crew == crew);
    (may, rounds.flat_map(model::programme::CrewRound::sites).count())
}

#[test]
fn cuts_that_a_crew_s_plant_can_t_do_are_not_for_that_crew() {
    let whole = planned(|_| {});
    let (may, does) = sites_of(&whole, 1);
    assert!(may > 5 && does > 0, "with its plant the second crew has work: {may} {does}");
    let broken = planned(break_plant_of_the_second_crew);
    assert_eq!(sites_of(&broken, 1), (0, 0));
    let (may, does) = sites_of(&broken, 0);
    assert!(may > 5 && does > 0, "the first crew goes on: {may} {does}");
}

#[test]
fn what_no_crew_can_do_says_what_stands_in_the_way_of_each() {
    let work = planned(|district| {
        district.crew.people = 1;
        break_plant_of_the_second_crew(district);
    });
    assert_eq!((sites_of(&work, 0).1, sites_of(&work, 1)), (0, (0, 0)));
    let both = work.left_out.iter().filter(|left| {
        left.words.contains("Crew Fulmar: ")
            && left.words.contains("Crew Petrel: the repair can't be worked out for this crew's plant")
    });
    assert!(both.count() > 5, "{:?}", work.left_out.iter().map(|left| &left.words).collect::<Vec<_>>());
    // What is the engineer's stays so.
    let engineer = work.left_out.iter().filter(|left| left.words.contains("engineer"));
    assert!(engineer.clone().all(|left| !left.words.contains("Crew")), "{:?}", engineer.collect::<Vec<_>>());
}
