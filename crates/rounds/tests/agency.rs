//! Laws of whole agencies: nothing twice, nothing forgotten, the price is that of the parts, threads don't matter, borders
//! only help.

use std::collections::BTreeSet;

use model::programme::{
    CrewRound, CrewShift, CrewStopKind, DAY_S, DrivingTimes, Programme, ProgrammeProblem, ProgrammeSite, Supplies, Yard,
};
use model::quantity::{InLength, kilograms, litres};
use model::round::{Capacity, Demand, LeftOutReason, RestBreak, SecondOfDay};
use proptest::prelude::*;
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use rounds::{Agency, AgencySettings, AgencyStage, SearchSettings, agency, agency_again, areas_of};
use testkit::worked_examples;

/// Places on a plane, driven along straight lines at 10 m/s.
struct Made {
    sites: Vec<ProgrammeSite>,
    yards: Vec<Yard>,
    shifts: Vec<CrewShift>,
    positions: Vec<[f64; 2]>,
}

impl Made {
    fn new(seed: u64, sites: usize, depots: usize, crews: usize, days: u32) -> Self {
        let random = &mut Pcg64Mcg::seed_from_u64(seed);
        let mut positions: Vec<[f64; 2]> =
            (0..sites).map(|_| [random.random_range(0.0..30_000.0), random.random_range(0.0..15_000.0)]).collect();
        positions.extend((0..depots).map(|depot| [30_000.0 * (depot as f64 + 0.5) / depots as f64, 7_500.0]));
        let shifts = (0..days).flat_map(|day| (0..crews).map(move |crew| shift(crew, day, crew % depots)));
        let mut sites: Vec<ProgrammeSite> = (0..sites).map(|_| site(days, random)).collect();
        let shifts: Vec<CrewShift> = shifts.collect();
        for site in &mut sites {
            if random.random::<f64>() < 0.1 {
                site.shifts = Some((0..shifts.len()).filter(|_| random.random::<f64>() < 0.5).collect());
            }
        }
        Self { sites, yards: vec![yard(); depots], shifts, positions }
    }

    fn driving(&self, places: &[usize]) -> DrivingTimes {
        let way = |from: usize, to: usize| {
            let ([x, y], [to_x, to_y]) = (self.positions[from], self.positions[to]);
            (x - to_x).hypot(y - to_y)
        };
        let ways = || places.iter().flat_map(|&from| places.iter().map(move |&to| way(from, to)));
        DrivingTimes {
            among: None,
            places: places.len(),
            seconds: ways().map(|way| (way / 10.0).ceil() as u32).collect(),
            metres: ways().map(|way| way as f32).collect(),
        }
    }

    fn plan(&self, settings: &AgencySettings) -> Programme {
        let driving = |_: usize, places: &[usize]| self.driving(places);
        agency(&self.agency(&driving), settings, &mut |_| true)
    }

    fn agency<'a>(&'a self, driving: &'a rounds::DrivingBetween<'a>) -> Agency<'a> {
        let (sites, yards, shifts, positions) = (&self.sites, &self.yards, &self.shifts, &self.positions);
        Agency { sites, yards, shifts, positions, driving }
    }

    /// All of it as one problem.
    fn whole(&self) -> ProgrammeProblem {
        let places: Vec<usize> = (0..self.positions.len()).collect();
        ProgrammeProblem {
            sites: self.sites.clone(),
            yards: self.yards.clone(),
            shifts: self.shifts.clone(),
            driving: vec![self.driving(&places)],
        }
    }
}

fn site(days: u32, random: &mut Pcg64Mcg) -> ProgrammeSite {
    let base = random.random_range(50.0..1200.0);
    let left = 10.0 * random.random_range(0.0_f64..5.0).exp();
    ProgrammeSite {
        service_s: vec![(random.random::<f64>() < 0.97).then(|| random.random_range(600..5400))],
        demand: Demand { base_volume: litres(base), base_mass: kilograms(1.6 * base), ..Demand::default() },
        windows: vec![(0, i64::from(days) * DAY_S)],
        waiting: (0..days).map(|day| left * 0.05 * f64::from(day)).collect(),
        left,
        shifts: None,
    }
}

fn yard() -> Yard {
    let gives = Supplies { bins: true, tanks: true };
    Yard { name: String::new(), gives, takes_spoil: true, loading_s: 900, tipping_s: 300, open: None }
}

fn shift(crew: usize, day: u32, yard: usize) -> CrewShift {
    let midnight = i64::from(day) * DAY_S;
    CrewShift {
        crew,
        day,
        start: yard,
        end: yard,
        from: midnight + 7 * 3600,
        to: midnight + 15 * 3600,
        rest: Some(RestBreak { earliest: SecondOfDay::hm(11, 0), latest: SecondOfDay::hm(13, 0), length_s: 1800 }),
        capacity: Capacity { shared_volume: litres(1000.0), payload: kilograms(4000.0), ..Capacity::default() },
        driving: 0,
        work_class: 0,
        calls: vec![yard],
        aboard: None,
        price_per_hour: 150.0,
        price_per_km: 1.0,
    }
}

const QUICK: AgencySettings =
    AgencySettings { seed: 3, steps_per_site: 4, looked_at: 1.0, border_passes: 1, threads: 1 };

/// By the words of the model alone.
fn check(made: &Made, programme: &Programme) {
    let whole = made.whole();
    let mut seen = BTreeSet::new();
    let mut used = BTreeSet::new();
    let (mut waiting, mut left, mut time, mut driving) = (0.0, 0.0, 0.0, 0.0);
    for round in &programme.rounds {
        assert!(used.insert(round.shift), "shift {} twice", round.shift);
        let shift = &made.shifts[round.shift];
        let mut now = shift.from;
        let mut here = made.sites.len() + shift.start;
        for stop in &round.stops {
            assert_eq!(stop.from, now, "a gap in the timetable");
            now = stop.to;
            match stop.kind {
                CrewStopKind::Drive(to) => {
                    let seconds = whole.driving[0].seconds(here, to).map(i64::from);
                    assert_eq!(Some(stop.to - stop.from), seconds, "from {here} to {to}");
                    driving += shift.price_per_km * whole.driving[0].metres(here, to) / 1000.0;
                    here = to;
                }
                CrewStopKind::Work(site) => {
                    assert!(seen.insert(site), "site {site} twice");
                    assert_eq!(here, site);
                    assert_eq!(Some(stop.to - stop.from), made.sites[site].service_s[0].map(i64::from));
                    assert!(made.sites[site].shifts.as_ref().is_none_or(|some| some.contains(&round.shift)));
                    waiting += made.sites[site].waiting[shift.day as usize];
                }
                CrewStopKind::Load(yard) | CrewStopKind::Tip(yard) => assert_eq!(here, made.sites.len() + yard),
                CrewStopKind::Wait | CrewStopKind::Rest => {}
            }
        }
        assert!(now <= shift.to && here == made.sites.len() + shift.end, "back by the end of the shift");
        time += shift.price_per_hour * (now - shift.from) as f64 / 3600.0;
    }
    for &(site, _) in &programme.left_out {
        assert!(seen.insert(site), "site {site} both done and left out");
        left += made.sites[site].left;
    }
    assert_eq!(seen.len(), made.sites.len(), "each site is done or left out");
    assert!(programme.left_out.is_sorted_by_key(|&(site, _)| site));
    let cost = programme.cost;
    for (ours, theirs) in [(waiting, cost.waiting), (left, cost.left), (time, cost.time), (driving, cost.driving)] {
        assert!((ours - theirs).abs() < 1e-3 * ours.max(1.0), "{ours} {theirs}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn each_site_once_and_the_price_of_the_parts(
        seed in any::<u64>(), sites in 0_usize..60, depots in 1_usize..5, crews in 0_usize..9, days in 1_u32..3,
    ) {
        let made = Made::new(seed, sites, depots, crews, days);
        check(&made, &made.plan(&QUICK));
    }

    #[test]
    fn threads_do_not_matter(seed in any::<u64>(), sites in 1_usize..80) {
        let made = Made::new(seed, sites, 4, 6, 2);
        let one = made.plan(&QUICK);
        let three = made.plan(&AgencySettings { threads: 3, ..QUICK });
        prop_assert_eq!(one, three);
    }

    #[test]
    fn borders_only_help(seed in any::<u64>(), sites in 20_usize..80) {
        let made = Made::new(seed, sites, 3, 5, 1);
        let total = |border_passes| made.plan(&AgencySettings { border_passes, ..QUICK }).cost.total();
        let (alone, once, twice) = (total(0), total(1), total(2));
        prop_assert!(once <= alone + 1e-6 && twice <= once + 1e-6, "{} {} {}", alone, once, twice);
    }

    /// One depot whose crews look at everything is one problem.
    #[test]
    fn a_single_area_is_the_programme(seed in any::<u64>(), sites in 1_usize..40) {
        let made = Made::new(seed, sites, 1, 2, 1);
        let settings = AgencySettings { looked_at: 1e9, ..QUICK };
        let mut steps = 0;
        let driving = |_: usize, places: &[usize]| made.driving(places);
        let ours = agency(&made.agency(&driving), &settings, &mut |told| {
            steps = told.of;
            true
        });
        let search = SearchSettings { seed: 0, iterations: u32::try_from(steps).unwrap() };
        let whole = rounds::programme(&made.whole(), None, &search, &mut |_, _| true);
        let reasons = |programme: &Programme| programme.left_out.iter().filter(|(_, why)| *why == LeftOutReason::NoCrew).count();
        prop_assert_eq!(reasons(&ours), reasons(&whole));
        // Other random numbers: near, not the same.
        prop_assert!(ours.cost.total() <= 1.3 * whole.cost.total() + 1e-6);
    }
}

#[test]
fn many_crews_of_one_depot_are_divided_and_all_have_work() {
    let made = Made::new(8, 200, 1, 14, 1);
    let programme = made.plan(&QUICK);
    check(&made, &programme);
    assert!(programme.rounds.len() >= 12, "{} rounds", programme.rounds.len());
}

/// Forty sites of an hour within 3 km of a depot of one crew, and one beside a depot of three, 12 km further on.
#[test]
fn a_crowded_area_gives_work_to_an_idle_one() {
    let random = &mut Pcg64Mcg::seed_from_u64(5);
    let mut made = Made::new(5, 41, 2, 4, 1);
    for site in &mut made.sites {
        *site = ProgrammeSite { service_s: vec![Some(3600)], shifts: None, ..site.clone() };
        site.demand = Demand::default();
        (site.left, site.waiting) = (random.random_range(600.0..900.0), vec![0.0]);
    }
    for position in &mut made.positions[..40] {
        *position = [random.random_range(-1500.0..1500.0), random.random_range(-2500.0..2500.0)];
    }
    made.positions[40..].copy_from_slice(&[[12_500.0, 0.0], [0.0, 0.0], [12_000.0, 0.0]]);
    made.shifts = [0, 1, 1, 1].into_iter().enumerate().map(|(crew, yard)| shift(crew, 0, yard)).collect();
    let plan = |border_passes, threads| made.plan(&AgencySettings { border_passes, threads, ..QUICK });
    let (alone, helped) = (plan(0, 1), plan(1, 1));
    check(&made, &helped);
    assert_eq!(helped, plan(1, 3));
    let done = |programme: &Programme| made.sites.len() - programme.left_out.len();
    // The crowded area alone looks at no more than its crew has hours for, eight.
    assert!(done(&alone) <= 9, "{}", done(&alone));
    assert!(done(&helped) >= 20, "{}", done(&helped));
    assert!(helped.cost.total() < alone.cost.total());
    let by_idle = helped.rounds.iter().filter(|round| made.shifts[round.shift].start == 1);
    let by_idle = by_idle.flat_map(CrewRound::sites).filter(|&site| site < 40).count();
    assert!(by_idle >= 12, "{by_idle} by crews of the idle depot");
}

/// Where sites turn out to need more, only the areas whose trucks no longer hold it change, and all holds again.
#[test]
fn taken_up_again_with_greater_needs_it_holds() {
    let mut made = Made::new(21, 150, 3, 6, 2);
    let before = made.plan(&QUICK);
    let first = before.rounds.iter().find(|round| round.sites().count() > 2).expect("a long round");
    let home = made.shifts[first.shift].start;
    for site in first.sites() {
        made.sites[site].demand.base_volume = litres(900.0);
    }
    let driving = |_: usize, places: &[usize]| made.driving(places);
    let of = made.agency(&driving);
    let after = agency_again(&of, &before, &QUICK, &mut |_| true);
    check(&made, &after);
    assert_eq!(check::programme_breaches(&made.whole(), &after), []);
    assert_ne!(check::programme_breaches(&made.whole(), &before), [], "or the test says nothing");
    let elsewhere = |programme: &Programme| {
        let rounds = programme.rounds.iter().filter(|round| made.shifts[round.shift].start != home);
        rounds.cloned().collect::<Vec<CrewRound>>()
    };
    assert!(elsewhere(&before).len() > 2);
    assert_eq!(elsewhere(&before), elsewhere(&after));
    // What each area has come to.
    let areas = areas_of(&of, &QUICK, &after);
    let shifts: BTreeSet<usize> = areas.iter().flat_map(|area| area.shifts.iter().copied()).collect();
    assert_eq!(shifts.len(), made.shifts.len());
    for round in &after.rounds {
        let area = areas.iter().find(|area| area.shifts.contains(&round.shift)).expect("each shift has an area");
        assert!(round.sites().all(|site| area.sites.contains(&site)));
    }
}

#[test]
fn whoever_stops_it_has_a_plan_of_every_area() {
    let made = Made::new(11, 120, 3, 6, 2);
    let driving = |_: usize, places: &[usize]| made.driving(places);
    let settings = AgencySettings { steps_per_site: 100_000, ..QUICK };
    let mut told = 0;
    let programme = agency(&made.agency(&driving), &settings, &mut |progress| {
        assert_eq!(progress.stage, AgencyStage::Areas);
        assert!(progress.steps <= progress.of && progress.cost.is_finite());
        told += 1;
        false
    });
    assert!(told <= 12, "it went on, telling {told} times");
    check(&made, &programme);
    let depots: BTreeSet<usize> = programme.rounds.iter().map(|round| made.shifts[round.shift].start).collect();
    assert_eq!(depots.len(), 3);
}

#[test]
fn each_site_passed_over_has_its_reason() {
    let mut made = Made::new(2, 60, 1, 1, 1);
    for site in &mut made.sites {
        *site = ProgrammeSite { service_s: vec![Some(3600)], left: 500.0, shifts: None, ..site.clone() };
        site.demand = Demand::default();
    }
    made.sites[0].service_s = vec![None];
    made.sites[1].demand.base_volume = litres(5000.0);
    made.sites[2].service_s = vec![Some(9 * 3600)];
    made.sites[3].windows = vec![(0, 1800)];
    made.sites[4].left = 20.0;
    made.sites[5].shifts = Some(vec![]);
    let programme = made.plan(&QUICK);
    check(&made, &programme);
    let why = |site: usize| programme.left_out.iter().find(|(it, _)| *it == site).map(|(_, why)| *why);
    assert_eq!(why(0), Some(LeftOutReason::NoCrew));
    assert!(matches!(why(1), Some(LeftOutReason::ExceedsTruck(_))));
    assert!(matches!(why(2), Some(LeftOutReason::ExceedsShift | LeftOutReason::NoWindow)), "{:?}", why(2));
    assert_eq!(why(3), Some(LeftOutReason::NoWindow));
    assert_eq!(why(4), Some(LeftOutReason::NotWorthTheTime));
    assert_eq!(why(5), Some(LeftOutReason::NoCrew));
    let less_urgent = programme.left_out.iter().filter(|(_, why)| *why == LeftOutReason::LessUrgent).count();
    assert!(less_urgent > 30, "{less_urgent}");
}

/// A line of the handbook's worked example.
#[derive(serde::Deserialize)]
struct Line {
    #[serde(rename = "check")]
    _check: String,
    depots_at: Vec<f64>,
    crews: Vec<usize>,
    sites_at: Vec<f64>,
    done_from: Vec<usize>,
}

#[test]
fn the_handbook_s_example() {
    for line in worked_examples::<Line>("agency", "line") {
        let mut made = Made::new(1, line.sites_at.len(), line.depots_at.len(), 0, 1);
        for site in &mut made.sites {
            *site = ProgrammeSite { service_s: vec![Some(600)], left: 1000.0, shifts: None, ..site.clone() };
            site.demand = Demand::default();
        }
        let along = line.sites_at.iter().chain(&line.depots_at);
        made.positions = along.map(|&at| [1000.0 * at, 0.0]).collect();
        let yards = line.crews.iter().enumerate().flat_map(|(yard, &count)| vec![yard; count]);
        made.shifts = yards.enumerate().map(|(crew, yard)| shift(crew, 0, yard)).collect();
        let programme = made.plan(&AgencySettings { border_passes: 0, ..QUICK });
        let mut from = vec![usize::MAX; line.sites_at.len()];
        for round in &programme.rounds {
            round.sites().for_each(|site| from[site] = made.shifts[round.shift].start);
        }
        assert_eq!(from, line.done_from, "sites at {:?}", line.sites_at);
        let km: f64 = programme.rounds.iter().map(|round: &CrewRound| round.driving.in_metres() / 1000.0).sum();
        assert!(km > 0.0);
    }
}
