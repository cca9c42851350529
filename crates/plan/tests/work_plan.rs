//! Work plans of the invented district with crews that differ.

use std::collections::BTreeSet;

use jiff::civil::Date;
use model::crews::FurtherCrew;
use model::district::{Compactor, CompactorKind, Crew, Depot, District};
use model::hole::{Hole, HoleId, Shape};
use model::pin::{Pin, PinnedTo};
use model::place::LonLat;
use model::plan::WorkPlan;
use model::quantity::metres;
use model::round::LeftOutReason;
use plan::{ProgrammeInput, Step, plan_programme};
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;

mod common;

use common::{DAY, input};

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
fn what_the_first_crew_s_plant_can_t_do_is_for_the_other_crew() {
    let whole = planned(|_| {});
    let broken = planned(|district| {
        // The second crew has what the first one had.
        let plant = district.further_crews[0].plant.get_or_insert_with(|| district.plant.clone());
        std::mem::swap(plant, &mut district.plant);
        break_plant_of_the_second_crew(district);
        let plant = district.further_crews[0].plant.as_mut().expect("the second crew has plant of its own");
        std::mem::swap(plant, &mut district.plant);
    });
    assert_eq!(sites_of(&broken, 0), (0, 0));
    let (may, does) = sites_of(&broken, 1);
    assert!(may > 5 && does > 0, "the second crew goes on: {may} {does}");
    assert_eq!(broken.sites.len(), whole.sites.len(), "nothing is refused that a crew has the plant for");
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

/// The same with what is asked for holes.
fn pinned(days: u32, pins: Vec<Pin>) -> WorkPlan {
    let mut input = ProgrammeInput { days, pins, ..input(|_| {}) };
    input.plan.district.planning.iterations = 600;
    let work = plan_programme(input, &mut |_, _| true).expect("there is a plan");
    assert_eq!(check::programme_breaches(&work.problem, &work.programme), []);
    assert_eq!(check::pin_breaches(&work), []);
    work
}

/// Where a hole is mended: the day and the crew.
fn mended(work: &WorkPlan, hole: &HoleId) -> Option<(Date, String)> {
    let day = work.rounds.iter().find(|day| day.plan.holes.iter().any(|known| known.hole.id == *hole))?;
    Some((day.plan.date, day.plan.district.crew.name.clone()))
}

fn to_round(hole: &HoleId, date: Option<Date>, crew: Option<&str>) -> Pin {
    Pin { holes: vec![hole.clone()], to: PinnedTo::Round { date, crew: crew.map(str::to_owned) } }
}

#[test]
fn what_is_asked_for_holes_is_done() {
    let free = pinned(2, Vec::new());
    let rounds = &free.rounds;
    let in_round = |index: usize| &rounds[index].plan.holes[0].hole.id;
    let (first, second) = (in_round(0), in_round(1));
    let next_day = DAY.tomorrow().unwrap();
    let left = free.left_out.iter().find(|left| left.reason == Some(LeftOutReason::LessUrgent)).expect("some are left");
    let other_crew =
        mended(&free, second).map(|(_, crew)| if crew == "Crew Petrel" { "Crew Fulmar" } else { "Crew Petrel" });
    let work = pinned(
        2,
        vec![
            to_round(first, Some(next_day), None),
            to_round(second, None, other_crew),
            to_round(&left.hole, None, None),
        ],
    );
    assert_eq!(work.pins_refused, []);
    assert_eq!(mended(&work, first).unwrap().0, next_day);
    assert_eq!(mended(&work, second).unwrap().1, other_crew.unwrap());
    assert!(mended(&work, &left.hole).is_some());
    assert!(work.programme.cost.total() >= free.programme.cost.total(), "what was asked is not what is cheapest");

    let out = pinned(2, vec![Pin { holes: vec![first.clone()], to: PinnedTo::Out }]);
    assert_eq!(mended(&out, first), None);
    let entry = out.left_out.iter().find(|left| left.hole == *first).expect("it is told");
    assert_eq!((entry.reason, entry.words.as_str()), (Some(LeftOutReason::AsAsked), "left out as asked"));
}

#[test]
fn what_can_t_be_as_asked_says_why() {
    let free = pinned(1, Vec::new());
    let hole = &free.rounds[0].plan.holes[0].hole.id;
    let engineers =
        free.left_out.iter().find(|left| left.reason == Some(LeftOutReason::NotAPatch)).expect("there is one");
    let unknown = HoleId("no such hole".into());
    let cases = [
        (to_round(hole, Some(DAY.yesterday().unwrap()), None), "none of the days"),
        (to_round(hole, None, Some("Crew Nobody")), "Crew Fulmar, Crew Petrel"),
        (to_round(&unknown, None, None), "no such hole waits"),
        (to_round(&engineers.hole, None, None), "engineer"),
    ];
    for (pin, words) in cases {
        let work = pinned(1, vec![pin]);
        assert_eq!(work.pins_refused.len(), 1, "{words}: {:?}", work.pins_refused);
        assert!(work.pins_refused[0].words.contains(words), "{words}: {:?}", work.pins_refused);
    }
    let both = pinned(1, vec![Pin { holes: vec![hole.clone()], to: PinnedTo::Out }, to_round(hole, None, None)]);
    assert!(both.pins_refused[0].words.contains("asked for its work zone before"), "{:?}", both.pins_refused);
}

#[test]
fn the_checker_finds_what_is_not_as_asked() {
    let free = pinned(1, Vec::new());
    let day = &free.rounds[0].plan;
    let (hole, crew) = (&day.holes[0].hole.id, day.district.crew.name.as_str());
    let left = &free.left_out[0].hole;
    for (pin, rule) in [
        (Pin { holes: vec![hole.clone()], to: PinnedTo::Out }, "pins.out"),
        (to_round(hole, Some(DAY.tomorrow().unwrap()), Some(crew)), "pins.date"),
        (to_round(hole, Some(DAY), Some("Crew Nobody")), "pins.crew"),
        (to_round(left, None, None), "pins.lost"),
    ] {
        let work = WorkPlan { pins: vec![pin], ..free.clone() };
        let found: Vec<&str> = check::pin_breaches(&work).iter().map(|breach| breach.rule).collect();
        assert_eq!(found, [rule]);
    }
}

const HOLES: usize = 900;

/// Holes anywhere on the demonstration's roads, whatever their surface; three depots of two crews each.
fn agency() -> ProgrammeInput {
    let mut input = input(|_| {});
    let random = &mut Pcg64Mcg::seed_from_u64(11);
    let plan = &mut input.plan;
    let sections = &plan.network.sections;
    let pieces: Vec<[LonLat; 2]> =
        sections.iter().flat_map(|section| section.line.windows(2).map(|pair| [pair[0], pair[1]])).collect();
    let mut anywhere = || {
        let ([from, to], share) = (pieces[random.random_range(0..pieces.len())], random.random::<f64>());
        LonLat { lon: from.lon + share * (to.lon - from.lon), lat: from.lat + share * (to.lat - from.lat) }
    };
    let some = plan.holes.iter().filter(|hole| matches!(hole.shape, Shape::Size { .. })).cloned().collect::<Vec<_>>();
    plan.holes = (0..HOLES)
        .map(|number| Hole {
            id: HoleId(format!("R{number:03}")),
            position: anywhere(),
            ..some[number % some.len()].clone()
        })
        .collect();
    let district = &mut plan.district;
    let yards = district.supply_places.iter().map(|place| (place.name.clone(), place.position));
    let depots: Vec<Depot> = yards.map(|(name, position)| Depot { name: format!("{name} depot"), position }).collect();
    district.further_depots.clone_from(&depots);
    district.supply_places.clear();
    district.planning.surface_treated_only = false;
    let like = district.further_crews[0].clone();
    district.further_crews = (1..6_usize)
        .map(|crew| FurtherCrew {
            crew: Crew { name: format!("Crew {crew}"), ..district.crew.clone() },
            depot: (crew % 3).checked_sub(1).map(|depot| depots[depot].clone()),
            truck: like.truck.clone().filter(|_| crew == 5),
            shift: None,
            plant: None,
            devices_owned: None,
        })
        .collect();
    plan.rules.planning.sites_searched_whole_max.value = 60;
    plan.district.planning.iterations = 600;
    input
}

#[test]
fn an_agency_is_planned_by_areas_and_holds() {
    let mut steps = Vec::new();
    let mut told = 0.0;
    let work = plan_programme(agency(), &mut |step, done| {
        assert!((0.0..=1.0).contains(&done), "{step:?}: {done}");
        if step == Step::Search {
            told = f64::max(told, done);
        }
        steps.push(step);
        true
    })
    .expect("there is a plan");
    assert!(told > 0.6, "{told}");
    assert_eq!(check::programme_breaches(&work.problem, &work.programme), []);
    assert!(work.problem.sites.len() > 250, "{}", work.problem.sites.len());
    // The ways of each area are known, none of the whole.
    assert!(work.problem.driving.len() >= 3);
    assert!(
        work.problem.driving.iter().all(|driving| driving.among.is_some() && driving.places < work.problem.sites.len())
    );
    let shifts = work.programme.rounds.iter().map(|round| &work.problem.shifts[round.shift]);
    let depots: BTreeSet<usize> = shifts.clone().map(|shift| shift.start).collect();
    let crews: BTreeSet<usize> = shifts.map(|shift| shift.crew).collect();
    assert_eq!((depots.len(), crews.len()), (3, 6));
    for day in &work.rounds {
        assert_eq!(check::check(&day.plan), []);
        assert!(day.plan.suffices.is_none_or(|chance| chance >= 0.9), "{:?}", day.plan.suffices);
    }
    // Every report has one fate, and every site a word.
    let reports: BTreeSet<&HoleId> = work.fates.iter().map(|report| &report.report).collect();
    assert!(
        reports.len() == work.fates.len() && reports.len() > HOLES / 2,
        "{} of {}",
        reports.len(),
        work.fates.len()
    );
    let explained = plan::explain(&work, Some(100), 1, &mut |_| true);
    assert!(explained.sites.iter().all(|site| !site.words.is_empty()));
    assert!(explained.more.is_empty());
    // The same again is the same.
    let again = plan_programme(agency(), &mut |_, _| true).expect("there is a plan");
    assert_eq!(work.programme, again.programme);
}
