//! What must hold of programmes whatever the problem: searching longer, giving more, asking why.

use model::plan::MoreOf;
use model::programme::{
    Aboard, CrewShift, DAY_S, DrivingTimes, Programme, ProgrammeProblem, ProgrammeSite, Supplies, Yard,
};
use model::quantity::{kilograms, litres};
use model::round::{Capacity, Demand, RestBreak, SecondOfDay};
use proptest::prelude::*;
use rand::seq::SliceRandom;
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use rounds::SearchSettings;

const HOUR: i64 = 3600;

/// Money below which two costs are the same: prices are whole parts of the dearest inside.
fn noise(cost: f64) -> f64 {
    1e-6 * (1.0 + cost.abs())
}

fn search(problem: &ProgrammeProblem, start: Option<&Programme>, seed: u64, iterations: u32) -> Programme {
    rounds::programme(problem, start, &SearchSettings { seed, iterations }, &mut |_, _| true)
}

fn cost(problem: &ProgrammeProblem, seed: u64) -> f64 {
    search(problem, None, seed, 600).cost.total()
}

/// A depot, a stockpile for the bins, a tank for binder and water, a tip, each of the last three open for a part of the
/// day; two crews on two days, one of which may be out already.
fn random_problem(seed: u64, sites: usize) -> ProgrammeProblem {
    let random = &mut Pcg64Mcg::seed_from_u64(seed);
    let gives = [(true, true, true), (true, false, false), (false, true, false), (false, false, true)];
    let yards: Vec<Yard> = gives.into_iter().enumerate().map(|(index, gives)| yard(random, index, gives)).collect();
    let shifts = (0..2).flat_map(|crew| (0..2).map(move |day| (crew, day))).collect::<Vec<(usize, u32)>>();
    let shifts = shifts.into_iter().map(|(crew, day)| shift(random, crew, day)).collect();
    let sites: Vec<ProgrammeSite> = (0..sites).map(|_| site(random)).collect();
    let places = sites.len() + yards.len();
    let points: Vec<(f64, f64)> =
        (0..places).map(|_| (random.random_range(0.0..15_000.0), random.random_range(0.0..15_000.0))).collect();
    ProgrammeProblem { sites, yards, shifts, driving: vec![driving(&points)] }
}

fn yard(random: &mut Pcg64Mcg, index: usize, (bins, tanks, takes_spoil): (bool, bool, bool)) -> Yard {
    let from = random.random_range(6 * 3600..10 * 3600);
    Yard {
        name: format!("Yard {index}"),
        gives: Supplies { bins, tanks },
        takes_spoil,
        loading_s: random.random_range(300..900),
        tipping_s: random.random_range(0..400),
        open: (index > 0).then(|| (from, from + random.random_range(3600..6 * 3600))),
    }
}

fn site(random: &mut Pcg64Mcg) -> ProgrammeSite {
    let base = f64::from(random.random_range(100..900));
    let windows = (0..2).map(|day| {
        let open = day * DAY_S + random.random_range(6 * HOUR..11 * HOUR);
        (open, open + random.random_range(2 * HOUR..6 * HOUR))
    });
    let windows = windows.collect();
    let risk = random.random_range(10.0..200.0);
    ProgrammeSite {
        service_s: vec![Some(random.random_range(900..5400))],
        demand: Demand {
            base_volume: litres(base),
            base_mass: kilograms(1.6 * base),
            cover_volume: litres(0.08 * base),
            cover_mass: kilograms(0.12 * base),
            binder_volume: litres(0.02 * base),
            binder_mass: kilograms(0.02 * base),
            water_volume: litres(0.03 * base),
            spoil_volume: litres(1.1 * base),
            spoil_mass: kilograms(1.9 * base),
        },
        windows,
        waiting: vec![0.0, risk],
        left: 3.0 * risk,
        shifts: None,
    }
}

fn shift(random: &mut Pcg64Mcg, crew: usize, day: u32) -> CrewShift {
    let from = i64::from(day) * DAY_S + 7 * HOUR;
    let earliest = random.random_range(10 * 3600..12 * 3600);
    let is_out = crew == 0 && day == 0 && random.random_bool(0.5);
    let supplies = Demand {
        base_volume: litres(200.0),
        base_mass: kilograms(320.0),
        cover_volume: litres(16.0),
        cover_mass: kilograms(24.0),
        binder_volume: litres(8.0),
        binder_mass: kilograms(8.0),
        water_volume: litres(12.0),
        ..Demand::default()
    };
    CrewShift {
        crew,
        day,
        start: 0,
        end: 0,
        from,
        to: from + random.random_range(5 * HOUR..9 * HOUR),
        rest: Some(RestBreak {
            earliest: SecondOfDay(earliest),
            latest: SecondOfDay(earliest + 5400),
            length_s: random.random_range(900..2700),
        }),
        capacity: Capacity {
            base_volume: litres(500.0),
            spoil_volume: litres(500.0),
            shared_volume: litres(800.0),
            cover_volume: litres(120.0),
            binder_volume: litres(40.0),
            water_volume: litres(60.0),
            payload: kilograms(3500.0),
        },
        driving: 0,
        work_class: 0,
        calls: vec![0, 1, 2, 3],
        aboard: is_out.then(|| Aboard { supplies, spoil_volume: litres(150.0), spoil_mass: kilograms(260.0) }),
        price_per_hour: random.random_range(5.0..60.0),
        price_per_km: random.random_range(0.0..2.0),
    }
}

fn driving(points: &[(f64, f64)]) -> DrivingTimes {
    let ways = points.iter().flat_map(|a| points.iter().map(|b| (a.0 - b.0).hypot(a.1 - b.1)));
    let metres: Vec<f64> = ways.collect();
    DrivingTimes {
        among: None,
        places: points.len(),
        seconds: metres.iter().map(|metres| (metres / 12.0).ceil() as u32).collect(),
        metres: metres.into_iter().map(|metres| metres as f32).collect(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    /// The same search gives the same, and one that goes on from what was found is never worse.
    #[test]
    fn searching_on_is_never_worse(seed in any::<u64>(), sites in 1_usize..10) {
        let problem = random_problem(seed, sites);
        let short = search(&problem, None, seed, 100);
        prop_assert_eq!(&short, &search(&problem, None, seed, 100));
        let mut now = short;
        for iterations in [0, 100, 400] {
            let longer = search(&problem, Some(&now), seed, iterations);
            let (before, after) = (now.cost.total(), longer.cost.total());
            prop_assert!(after <= before + noise(before), "{after} after {iterations} more, {before} before");
            now = longer;
        }
    }

    /// Of several searches at the same time none is cheaper than what comes out, and it does not depend on which ends first.
    #[test]
    fn the_best_of_several_searches_is_no_dearer_than_the_first(seed in any::<u64>(), sites in 4_usize..12) {
        let problem = random_problem(seed, sites);
        let settings = SearchSettings { seed, iterations: 60 };
        let best = |searches: usize| rounds::best_programme(&problem, None, &settings, searches, &mut |_, _| true);
        let (alone, three) = (best(1), best(3));
        prop_assert_eq!(&alone, &search(&problem, None, seed, 60));
        prop_assert!(three.cost.total() <= alone.cost.total());
        prop_assert_eq!(&three, &best(3));
    }

    /// One more crew can stay at home, so that it brings nothing at worst.
    #[test]
    fn one_more_crew_brings_nothing_at_worst(seed in any::<u64>(), sites in 1_usize..8) {
        let problem = random_problem(seed, sites);
        let programme = search(&problem, None, seed, 200);
        let settings = SearchSettings { seed, iterations: 200 };
        let brings = rounds::what_more_brings(&problem, &programme, &settings, &mut |_, _| true);
        let asked: Vec<MoreOf> = brings.iter().map(|marginal| marginal.more).collect();
        prop_assert_eq!(asked, [MoreOf::Crew(0), MoreOf::Crew(1), MoreOf::Hour, MoreOf::CubicMetre]);
        for marginal in brings {
            prop_assert!(marginal.saves >= -noise(programme.cost.total()), "{marginal:?}");
        }
    }
}

/// Costs of problems as they are and changed, summed: the change may not make it dearer by more than the search's own
/// scatter.
fn summed(change: impl Fn(&mut ProgrammeProblem, u64)) -> (f64, f64) {
    let mut sums = (0.0, 0.0);
    for seed in 0..12 {
        let problem = random_problem(seed, 8);
        let mut changed = problem.clone();
        change(&mut changed, seed);
        sums.0 += cost(&problem, seed);
        sums.1 += cost(&changed, seed);
    }
    sums
}

#[test]
fn more_crews_wider_windows_larger_trucks_cost_no_more() {
    let one_more_crew = summed(|problem, _| {
        let like = problem.shifts.iter().filter(|shift| shift.crew == 1).cloned().collect::<Vec<_>>();
        problem.shifts.extend(like.into_iter().map(|shift| CrewShift { crew: 2, ..shift }));
    });
    let wider = summed(|problem, _| {
        for window in problem.sites.iter_mut().flat_map(|site| &mut site.windows) {
            *window = (window.0 - HOUR, window.1 + HOUR);
        }
    });
    let larger = summed(|problem, _| {
        for shift in &mut problem.shifts {
            shift.capacity.shared_volume += litres(700.0);
            shift.capacity.payload += kilograms(1500.0);
        }
    });
    for (what, (before, after)) in [("a crew", one_more_crew), ("windows", wider), ("trucks", larger)] {
        assert!(after <= 1.02 * before, "{what}: {after} after, {before} before");
        assert!(after < before, "{what}: it binds in some of them, or the test can't fail");
    }
}

#[test]
fn the_order_of_the_sites_is_nothing() {
    let (before, after) = summed(|problem, seed| {
        let mut order: Vec<usize> = (0..problem.sites.len()).collect();
        order.shuffle(&mut Pcg64Mcg::seed_from_u64(seed));
        let places: Vec<usize> = order.iter().copied().chain(order.len()..problem.driving[0].places).collect();
        let old = problem.driving[0].clone();
        let cells = places.iter().flat_map(|from| places.iter().map(move |to| (*from, *to)));
        let cells: Vec<usize> = cells.map(|(from, to)| from * old.places + to).collect();
        problem.driving[0].seconds = cells.iter().map(|&cell| old.seconds[cell]).collect();
        problem.driving[0].metres = cells.iter().map(|&cell| old.metres[cell]).collect();
        problem.sites = order.iter().map(|&site| problem.sites[site].clone()).collect();
    });
    assert!((after - before).abs() <= 0.02 * before, "{after} shuffled, {before} before");
}

/// Where the search has settled, no single site done otherwise saves anything, but for a few cases in which it has missed it.
#[test]
fn alternatives_hardly_ever_promise_a_saving() {
    let problems = 20;
    let mut promised = Vec::new();
    let mut offered = 0;
    for seed in 0..problems {
        let problem = random_problem(seed, 6);
        let programme = search(&problem, None, seed, 5000);
        for site in 0..problem.sites.len() {
            let alternatives = rounds::alternatives(&problem, &programme, site);
            assert!(alternatives.is_sorted_by(|a, b| a.costs_more <= b.costs_more));
            offered += alternatives.len();
            let saving = alternatives.first().filter(|first| first.costs_more < -noise(programme.cost.total()));
            promised.extend(saving.map(|saving| (seed, site, *saving)));
        }
    }
    let mut cases: Vec<u64> = promised.iter().map(|(seed, ..)| *seed).collect();
    cases.dedup();
    assert!(offered > 50, "there are alternatives to look at: {offered}");
    assert!(cases.len() as u64 * 10 <= problems, "{} of {problems}: {promised:?}", cases.len());
}
