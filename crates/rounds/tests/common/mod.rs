//! What the tests share: a checker that knows nothing of the search, and random problems.
#![allow(dead_code)]

pub mod brute_force;
pub mod checker;

use model::quantity::{kilograms, litres};
use model::round::{Capacity, Demand, RestBreak, RoundProblem, RoundSolution, SecondOfDay, Site};
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use rounds::SearchSettings;

/// Searches without listening to progress.
pub fn solve(problem: &RoundProblem, seed: u64, iterations: u32) -> RoundSolution {
    rounds::solve(problem, &SearchSettings { seed, iterations }, &mut |_, _| true)
}

/// A site without demand, open all day.
pub fn plain_site(service_s: u32, worth: f64) -> Site {
    Site { service_s, demand: Demand::default(), windows: vec![(SecondOfDay(0), SecondOfDay(86_400))], worth }
}

/// Base in litres, spoil in litres, at 2 kg per litre.
pub fn dig(base: f64, spoil: f64) -> Demand {
    Demand {
        base_volume: litres(base),
        base_mass: kilograms(2.0 * base),
        spoil_volume: litres(spoil),
        spoil_mass: kilograms(2.0 * spoil),
        ..Demand::default()
    }
}

/// A truck that no test load fills.
pub fn huge_truck() -> Capacity {
    let room = litres(1e9);
    Capacity {
        base_volume: room,
        spoil_volume: room,
        shared_volume: room,
        cover_volume: room,
        binder_volume: room,
        water_volume: room,
        payload: kilograms(1e9),
    }
}

/// Sites at whole coordinates (metres, depot first), driven at 10 m/s along straight lines, shift 07:00 to 15:00.
pub fn problem_at(points: &[(f64, f64)], sites: Vec<Site>) -> RoundProblem {
    let distance = |a: &(f64, f64), b: &(f64, f64)| (a.0 - b.0).hypot(a.1 - b.1);
    let travel_m: Vec<Vec<f64>> = points.iter().map(|a| points.iter().map(|b| distance(a, b)).collect()).collect();
    let travel_s = travel_m.iter().map(|row| row.iter().map(|m| (m / 10.0).ceil() as u32).collect()).collect();
    RoundProblem {
        sites,
        yards: Vec::new(),
        start: 0,
        travel_s,
        travel_m,
        shift_start: SecondOfDay::hm(7, 0),
        shift_end: SecondOfDay::hm(15, 0),
        rest: None,
        loading_s: 600,
        tipping_s: 300,
        capacity: huge_truck(),
        points_per_hour: 10.0,
    }
}

/// A random problem in which truck, windows, rest, shift and worths all bind now and then.
pub fn random_problem(seed: u64, sites: usize) -> RoundProblem {
    let mut random = Pcg64Mcg::seed_from_u64(seed);
    let points: Vec<(f64, f64)> =
        (0..=sites).map(|_| (random.random_range(0.0..20_000.0), random.random_range(0.0..20_000.0))).collect();
    let mut list = Vec::new();
    for _ in 0..sites {
        let mut site = plain_site(random.random_range(600..5400), random.random_range(1.0..30.0));
        site.windows = random_windows(&mut random);
        site.demand = random_demand(&mut random);
        list.push(site);
    }
    let mut problem = problem_at(&points, list);
    let shift = random.random_range(3 * 3600..10 * 3600);
    problem.shift_end = SecondOfDay(problem.shift_start.0 + shift);
    problem.loading_s = random.random_range(0..1200);
    problem.tipping_s = random.random_range(0..900);
    problem.capacity = random_truck(&mut random);
    problem.points_per_hour = [0.0, 2.0, 10.0][random.random_range(0..3)];
    if random.random_bool(0.6) {
        let earliest = problem.shift_start.0 + random.random_range(3600..4 * 3600);
        problem.rest = Some(RestBreak {
            earliest: SecondOfDay(earliest),
            latest: SecondOfDay(earliest + random.random_range(0..2 * 3600)),
            length_s: random.random_range(600..3600),
        });
    }
    problem
}

fn random_windows(random: &mut Pcg64Mcg) -> Vec<(SecondOfDay, SecondOfDay)> {
    if random.random_bool(0.4) {
        return vec![(SecondOfDay(0), SecondOfDay(86_400))];
    }
    let mut at = random.random_range(6 * 3600..10 * 3600);
    (0..random.random_range(1..4))
        .map(|_| {
            let from = at;
            let to = from + random.random_range(1800..3 * 3600);
            at = to + random.random_range(0..3600);
            (SecondOfDay(from), SecondOfDay(to))
        })
        .collect()
}

fn random_demand(random: &mut Pcg64Mcg) -> Demand {
    let mut demand = dig(f64::from(random.random_range(0..1200)), f64::from(random.random_range(0..1500)));
    demand.cover_volume = litres(f64::from(random.random_range(0..100)));
    demand.cover_mass = kilograms(1.5 * f64::from(random.random_range(0..100)));
    demand.binder_volume = litres(f64::from(random.random_range(0..40)));
    demand.binder_mass = demand.binder_volume / litres(1.0) * kilograms(1.0);
    demand.water_volume = litres(f64::from(random.random_range(0..60)));
    demand
}

fn random_truck(random: &mut Pcg64Mcg) -> Capacity {
    if random.random_bool(0.3) {
        return huge_truck();
    }
    let mut up_to = |most: u32| litres(f64::from(random.random_range(most / 4..most)));
    Capacity {
        base_volume: up_to(3000),
        spoil_volume: up_to(3000),
        shared_volume: up_to(3000),
        cover_volume: up_to(600),
        binder_volume: up_to(240),
        water_volume: up_to(400),
        payload: kilograms(f64::from(random.random_range(3000..12_000))),
    }
}
