//! What a plan takes from the record: factors that can be turned off again, and looks that keep nobody from a repair.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use exchange::rules::RuleKind;
use model::figure::Source;
use model::hole::HoleId;
use model::learnt::{Believed, FactorOf, Factored, Learnt, LearntFactor, LearntRoad, PlannedOtherwise, UseFactors};
use model::look::{LookReason, LooksWanted, WantedLook};
use model::place::LonLat;
use model::plan::{CrewDay, Plan, WorkPlan};
use model::quantity::{InTime, InVolume};
use model::round::{SecondOfDay, StopKind};
use model::rules::lasting::LastingRules;
use model::so_far::{AboardSoFar, CrewSoFar, SoFar};
use plan::{PlanInput, ProgrammeInput, plan_day, plan_programme};
use proptest::prelude::*;
use uuid::Uuid;

mod common;

use common::{DAY, input, rule_set};

fn two_days() -> ProgrammeInput {
    let mut input = input(|_| {});
    input.plan.district.planning.iterations = 200;
    ProgrammeInput { days: 2, ..input }
}

fn sound(work: &WorkPlan) {
    assert_eq!(check::programme_breaches(&work.problem, &work.programme), []);
    assert_eq!(check::look_breaches(work), []);
    for day in &work.rounds {
        assert_eq!(check::check(&day.plan), []);
    }
}

fn planned(change: impl FnOnce(&mut ProgrammeInput)) -> WorkPlan {
    let mut input = two_days();
    change(&mut input);
    let work = plan_programme(input, &mut |_, _| true).expect("there is a plan");
    sound(&work);
    work
}

fn factor(what: Factored, of: FactorOf, median: f64) -> LearntFactor {
    LearntFactor {
        what,
        of,
        records: 23,
        own: Some(median),
        prior: Believed { median: 1.0, p10: 0.9, p90: 1.1 },
        believed: Believed { median, p10: median - 0.05, p90: median + 0.05 },
        factor: median.clamp(0.5, 1.5),
        limits: (0.5, 1.5),
        source: Source::common_practice(),
        is_told: true,
        words: "the plan now loads more".to_owned(),
    }
}

fn learnt(factors: Vec<LearntFactor>) -> Learnt {
    Learnt { factors, ..Learnt::default() }
}

/// One crew's day.
fn day(learnt: Learnt) -> Plan {
    let mut input = input(|district| district.further_crews.clear());
    input.plan.district.planning.iterations = 200;
    input.plan.rules.learnt = learnt;
    let plan = plan_day(input.plan, &mut |_, _| true).expect("there is a plan");
    assert_eq!(check::check(&plan), []);
    plan
}

#[test]
fn factors_are_on_what_they_are_of_and_on_nothing_else() {
    let without = day(Learnt::default());
    let road_of = |site: usize| LearntRoad::of(without.network.section(without.sites[site].zone.section));
    let road = road_of(0);
    assert!(!road.name.is_empty());
    let kind =
        road_of(without.jobs.iter().find(|job| road_of(job.site).kind != road.kind).expect("another kind").site).kind;
    let nowhere = LearntRoad { name: "Nowhere".into(), ..road.clone() };
    let with = day(learnt(vec![
        factor(Factored::Base, FactorOf::District, 1.1),
        factor(Factored::Base, FactorOf::Road(road.clone()), 1.25),
        factor(Factored::Base, FactorOf::Kind(kind.expect("known")), 1.15),
        factor(Factored::Binder, FactorOf::Road(nowhere.clone()), 1.4),
        factor(Factored::Time, FactorOf::Crew("Nobody".into()), 1.4),
    ]));
    let told: Vec<&FactorOf> = with.learnt.factors.iter().map(|factor| &factor.of).collect();
    assert!(!told.contains(&&FactorOf::Road(nowhere)) && told.contains(&&FactorOf::Road(road.clone())));
    let (mut on_road, mut of_kind) = (0, 0);
    for (before, after) in without.jobs.iter().zip(&with.jobs) {
        assert_eq!(before.cut, after.cut);
        let own = road_of(before.site);
        let (is_there, is_of_kind) = (own == road, own.kind == kind);
        let expected = match (is_there, is_of_kind) {
            (true, _) => 1.25,
            (false, true) => 1.15,
            (false, false) => 1.1,
        };
        on_road += usize::from(is_there);
        of_kind += usize::from(is_of_kind);
        assert_eq!(after.factors, UseFactors { base: expected, ..UseFactors::NONE });
        let (before, after) = (&before.repair, &after.repair);
        let ratio = after.loose_volume.value.in_cubic_metres() / before.loose_volume.value.in_cubic_metres();
        assert!((ratio - expected).abs() < 1e-9, "{ratio} {expected}");
        assert_eq!(after.binder_volume_hot, before.binder_volume_hot);
        assert_eq!(after.duration, before.duration);
        assert!(after.fill_wet_mass.why.to_string().contains("times what the record teaches"));
        assert!(!before.fill_wet_mass.why.to_string().contains("times what the record teaches"));
    }
    assert!(on_road > 0 && of_kind > 0 && on_road + of_kind < without.jobs.len(), "{on_road} {of_kind}");
}

#[test]
fn growth_moves_the_spread_and_not_the_survey() {
    let without = day(Learnt::default());
    let with = day(learnt(vec![factor(Factored::Growth, FactorOf::District, 1.2)]));
    for (before, after) in without.jobs.iter().zip(&with.jobs) {
        let (before, after) = (&before.repair.spoil_volume, &after.repair.spoil_volume);
        assert_eq!(before.value, after.value);
        let [before, after] = [before, after].map(|figure| figure.spread.expect("a spread").p50.in_cubic_metres());
        assert!((after / before - 1.2).abs() < 1e-6, "{after} {before}");
    }
}

#[test]
fn a_crew_s_own_pace_is_its_own() {
    let crew = |work: &WorkPlan, index: usize| work.district.of_crew(index).crew.name;
    let without = planned(|_| {});
    let second = crew(&without, 1);
    let slow = factor(Factored::Time, FactorOf::Crew(second.clone()), 1.3);
    let with = planned(|input| input.plan.rules.learnt = learnt(vec![slow]));
    let mut jobs = [0, 0];
    for day in &with.rounds {
        let expected = if day.plan.district.crew.name == second { 1.3 } else { 1.0 };
        jobs[day.crew] += day.plan.jobs.len();
        for job in &day.plan.jobs {
            assert!((job.factors.time - expected).abs() < 1e-12, "{}", job.factors.time);
        }
    }
    assert!(jobs.iter().all(|&jobs| jobs > 0), "both crews have work: {jobs:?}");
}

#[test]
fn a_plan_without_what_was_learnt_is_the_plan_of_before() {
    let before = planned(|_| {});
    let taught = planned(|input| {
        input.plan.rules.learnt = learnt(vec![factor(Factored::Growth, FactorOf::District, 1.4)]);
    });
    assert_ne!(taught.programme, before.programme, "it matters");
    let off = planned(|input| input.plan.rules.learnt = Learnt::default());
    assert_eq!(off, before);
}

#[test]
fn a_limit_that_holds_a_factor_back_is_warned_of() {
    let taught = day(learnt(vec![factor(Factored::Water, FactorOf::District, 1.8)]));
    let warned: Vec<_> = taught.problems.iter().filter(|problem| problem.code == "learnt.limit").collect();
    assert_eq!(warned.len(), 1);
    assert!(warned[0].wrong.contains("say 1.80") && warned[0].wrong.contains("takes 1.50"), "{}", warned[0].wrong);
}

#[test]
fn repairs_that_do_not_count_are_told_once() {
    let left = |what, records| PlannedOtherwise { what, records };
    let planned_otherwise = vec![left(Factored::Growth, 3), left(Factored::Time, 12)];
    let told = |learnt: Learnt| {
        let with = |problem: &&model::problem::Problem| problem.code == "learnt.planned_otherwise";
        day(learnt).problems.iter().filter(with).map(|problem| problem.wrong.clone()).collect::<Vec<_>>()
    };
    let [wrong] = &told(Learnt { planned_otherwise, ..Learnt::default() })[..] else { panic!("one warning") };
    assert!(wrong.contains("do not count: 3 for growth, 12 for time;"), "{wrong}");
    assert!(told(Learnt::default()).is_empty());
}

/// The plan of two days without looks, which all others are held against.
fn without_looks() -> &'static WorkPlan {
    static PLAN: OnceLock<WorkPlan> = OnceLock::new();
    PLAN.get_or_init(|| planned(|_| {}))
}

fn looks(places: Vec<(LonLat, bool)>) -> LooksWanted {
    let mut rules: LastingRules = rule_set(RuleKind::Lasting, "common-practice");
    // the demonstration's roads have narrow shoulders
    rules.look_stop.shoulder_least_m.value = 0.5;
    let look = |(number, (place, is_due)): (u128, (LonLat, bool))| WantedLook {
        repair: Uuid::from_u128(number),
        place,
        is_due,
        opened: Some(jiff::civil::date(2026, 5, 10)),
        area: None,
        why: LookReason::AfterOpening { days: 30 },
    };
    LooksWanted { looks: (1..).zip(places).map(look).collect(), rules: rules.look_stop }
}

/// A place beside a road: of the section, the vertex and how far off.
fn beside(work: &WorkPlan, (section, vertex, off): (usize, usize, f64)) -> LonLat {
    let sections = &work.rounds[0].plan.network.sections;
    let line = &sections[section % sections.len()].line;
    let place = line[vertex % line.len()];
    LonLat { lon: place.lon, lat: place.lat + off / 111_195.0 }
}

fn works(plan: &Plan) -> Vec<StopKind> {
    plan.round.timetable.iter().map(|stop| stop.kind).filter(|kind| matches!(kind, StopKind::Work(_))).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, ..ProptestConfig::default() })]

    /// With looks on, every repair is still made, by the same crew on the same day in the same order and within its hours; that
    /// they are whole the checker says.
    #[test]
    fn looks_keep_nobody_from_a_repair(
        places in prop::collection::vec(((any::<usize>(), any::<usize>(), -40.0_f64..40.0), any::<bool>()), 0..60),
    ) {
        let before = without_looks();
        let wanted = places.iter().map(|&(place, is_due)| (beside(before, place), is_due)).collect();
        let looks = looks(wanted);
        let (count, most_s) = (looks.looks.len(), looks.rules.worth_min.value * 60.0);
        let with = planned(|input| input.plan.looks = Some(looks));
        prop_assert_eq!(&with.programme, &before.programme);
        prop_assert_eq!(&with.fates, &before.fates);
        let made: usize = with.rounds.iter().map(|day| day.plan.looks.len()).sum();
        prop_assert_eq!(made + with.looks_left.len(), count);
        for (day, other) in with.rounds.iter().zip(&before.rounds) {
            prop_assert_eq!(works(&day.plan), works(&other.plan));
            prop_assert_eq!(&day.plan.loads, &other.plan.loads);
            for look in &day.plan.looks {
                prop_assert!(f64::from(look.detour_s) + look.stop.in_seconds() <= most_s);
            }
        }
    }
}

#[test]
fn a_look_beside_a_stop_is_made_and_one_far_away_is_not() {
    let before = without_looks();
    let plan = &before.rounds[0].plan;
    let near = plan.sites[plan.round.trips[0][0]].place;
    let far = LonLat { lon: near.lon + 1.0, lat: near.lat };
    let with = planned(|input| input.plan.looks = Some(looks(vec![(near, true), (far, true)])));
    let made: Vec<Uuid> = with.rounds.iter().flat_map(|day| &day.plan.looks).map(|look| look.repair).collect();
    assert_eq!(made, [Uuid::from_u128(1)]);
    assert_eq!(with.looks_left.len(), 1);
    assert!(with.looks_left[0].words.starts_with("not on the roads"), "{}", with.looks_left[0].words);
    assert_eq!(with.first_day, DAY);

    let rules = |change: fn(&mut WorkPlan)| {
        let mut work = with.clone();
        change(&mut work);
        let breaches = check::look_breaches(&work);
        breaches.iter().map(|breach| breach.rule).collect::<BTreeSet<_>>()
    };
    let left_too = |work: &mut WorkPlan| work.looks_left.push(work.looks_left[0].clone());
    assert_eq!(rules(left_too), BTreeSet::from(["looks.twice"]));
    let mends_less = |work: &mut WorkPlan| {
        let table = &mut work.rounds[0].plan.round.timetable;
        table.retain(|stop| !matches!(stop.kind, StopKind::Work(_)));
    };
    assert_eq!(rules(mends_less), BTreeSet::from(["looks.work"]));
    let closed = |work: &mut WorkPlan| work.problem.sites.iter_mut().for_each(|site| site.windows.clear());
    assert_eq!(rules(closed), BTreeSet::from(["looks.window"]));
    let longer_days = |work: &mut WorkPlan| {
        // the day with the look would be over just after the shift, the one without it just before
        let looking = work.rounds.iter_mut().find(|day| !day.plan.looks.is_empty()).expect("a look");
        let last = looking.plan.round.timetable.last().expect("stops").to;
        looking.plan.back_p90 = Some(SecondOfDay(16 * 3600 + 60));
        looking.plan.district.shift.end = jiff::civil::time(16, 0, 0, 0);
        assert!(last.0 < 16 * 3600, "{last}");
    };
    assert_eq!(rules(longer_days), BTreeSet::from(["looks.late"]));

    let of_look = |change: &dyn Fn(&mut model::road::RoadSection), counts: bool| {
        let work = planned(|input| {
            input.plan.network.sections.iter_mut().for_each(change);
            let mut looks = looks(vec![(near, true)]);
            looks.rules.default_shoulder_counts.value = counts;
            input.plan.looks = Some(looks);
        });
        work.looks_left.first().map(|left| left.words.clone()).unwrap_or_default()
    };
    let unknown = |section: &mut model::road::RoadSection| section.defaulted.push("shoulder");
    let words = of_look(&unknown, false);
    assert!(words.starts_with("the map does not tell the shoulder"), "{words}");
    assert_eq!((of_look(&unknown, true), of_look(&|_| {}, false)), (String::new(), String::new()));

    let narrow = planned(|input| {
        let mut looks = looks(vec![(near, true)]);
        looks.rules.shoulder_least_m.value = 9.0;
        input.plan.looks = Some(looks);
    });
    assert!(narrow.rounds.iter().all(|day| day.plan.looks.is_empty()));
    assert!(narrow.looks_left[0].words.starts_with("no shoulder of 9.0 m"), "{}", narrow.looks_left[0].words);
}

#[test]
fn looks_leave_nine_days_of_ten_within_the_shift() {
    let few = |change: &dyn Fn(&mut PlanInput)| {
        let mut input = input(|district| district.further_crews.clear());
        input.plan.district.planning.iterations = 200;
        input.plan.holes.truncate(6);
        change(&mut input.plan);
        let plan = plan_day(input.plan, &mut |_, _| true).expect("there is a plan");
        assert_eq!(check::check(&plan), []);
        plan
    };
    // a shift that ends when the crew is back in nine days of ten, to the minute
    let easy = few(&|_| {});
    let back = easy.back_p90.expect("it is known").0.div_ceil(60);
    let (hour, minute) = ((back / 60) as i8, (back % 60) as i8);
    let end = jiff::civil::time(hour, minute, 0, 0);
    let tight = few(&|input| input.district.shift.end = end);
    assert_eq!(tight.round.trips, easy.round.trips);
    assert!(tight.back_p90.expect("it is known").0 <= back * 60);
    let places: Vec<(LonLat, bool)> = easy.sites.iter().map(|site| (site.place, true)).collect();
    let made = |end: Option<jiff::civil::Time>| {
        let plan = few(&|input| {
            input.district.shift.end = end.unwrap_or(input.district.shift.end);
            input.looks = Some(looks(places.clone()));
        });
        (plan.looks.len(), plan.back_p90.expect("it is known").0)
    };
    assert!(made(None).0 > 0, "with time to spare looks are made");
    let (count, back_with) = made(Some(end));
    assert!(back_with <= back * 60, "{count} looks, back {back_with} s, the shift ends {} s", back * 60);
}

/// A day whose morning is over: the crews have had their break and stand at the first of the two sites that are left to them.
fn after_the_break(wanted: Option<LooksWanted>) -> WorkPlan {
    planned(|input| {
        let crew = |day: &CrewDay| {
            let plan = &day.plan;
            let holes = |sites: &[usize]| -> Vec<HoleId> {
                let jobs = sites.iter().flat_map(|&site| &plan.sites[site].jobs);
                let holes = jobs.flat_map(|&job| &plan.jobs[job].holes);
                holes.map(|&hole| plan.holes[hole].hole.id.clone()).collect()
            };
            let sites: Vec<usize> = plan.round.trips.concat();
            let (done, next) = sites.split_at(sites.len().saturating_sub(2));
            CrewSoFar {
                crew: plan.district.crew.name.clone(),
                position: plan.sites[next[0]].place,
                rested: true,
                aboard: AboardSoFar::default(),
                done: holes(done),
                half_done: Vec::new(),
                next: holes(next),
            }
        };
        let first_day = without_looks().rounds.iter().filter(|day| day.plan.date == DAY);
        let crews = first_day.filter(|day| day.plan.round.trips.iter().any(|trip| !trip.is_empty())).map(crew);
        input.so_far = Some(SoFar { time: SecondOfDay::hm(12, 30), crews: crews.collect() });
        input.days = 1;
        input.plan.looks = wanted;
    })
}

#[test]
fn after_the_break_looks_are_made_too() {
    let without = after_the_break(None);
    let rest = without.district.shift.rest.as_ref().expect("the district has a break");
    let latest = SecondOfDay::hm(rest.latest.hour().unsigned_abs().into(), rest.latest.minute().unsigned_abs().into());
    let places = without.rounds.iter().flat_map(|day| &day.plan.sites).map(|site| (site.place, true)).collect();
    let with = after_the_break(Some(looks(places)));
    let mut made = 0;
    for (day, before) in with.rounds.iter().zip(&without.rounds) {
        assert_eq!(works(&day.plan), works(&before.plan));
        assert!(day.plan.district.shift.rest.is_none() && day.plan.problem.rest.is_none(), "it had its break");
        let goes_on = before.plan.round.timetable.last().expect("stops").to > latest;
        made += if goes_on { day.plan.looks.len() } else { 0 };
    }
    assert!(made > 0, "looks are made on rounds that go on past the time for a break: {}", with.rounds.len());
}

#[test]
fn one_crew_s_day_has_looks_too() {
    let without = day(Learnt::default());
    let mut wanted = input(|district| district.further_crews.clear());
    wanted.plan.district.planning.iterations = 200;
    let places = without.sites.iter().map(|site| (site.place, true)).collect();
    wanted.plan.looks = Some(looks(places));
    let with = plan_day(wanted.plan, &mut |_, _| true).expect("there is a plan");
    assert_eq!(check::check(&with), []);
    assert_eq!(works(&with), works(&without));
    assert!(!with.looks.is_empty());
    assert_eq!(with.looks.len() + with.looks_left.len(), without.sites.len());
}
