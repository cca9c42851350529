//! Small problems: one depot that gives and takes everything, two crews with trucks that differ, two days.

use model::programme::{CrewShift, DAY_S, DrivingTimes, ProgrammeProblem, ProgrammeSite, Supplies, Yard};
use model::quantity::{kilograms, litres};
use model::round::{Capacity, Demand};
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;

const HOUR: i64 = 3600;

/// A random problem in which trucks, windows, shifts and prices all bind now and then. `calls`: the trucks may load again.
pub fn random(seed: u64, sites: usize, calls: bool) -> ProgrammeProblem {
    let mut random = Pcg64Mcg::seed_from_u64(seed);
    let mut points: Vec<(f64, f64)> =
        (0..sites).map(|_| (random.random_range(0.0..24_000.0), random.random_range(0.0..24_000.0))).collect();
    points.push((12_000.0, 12_000.0));
    let depot = Yard {
        name: "Depot".into(),
        gives: Supplies { bins: true, tanks: true },
        takes_spoil: true,
        loading_s: 900,
        tipping_s: 300,
        open: None,
    };
    let days = [0, 1].into_iter();
    ProgrammeProblem {
        sites: (0..sites).map(|_| site(&mut random)).collect(),
        yards: vec![depot],
        shifts: days.flat_map(|day| [shift(0, day, calls), shift(1, day, calls)]).collect(),
        // the second crew's truck is the slower one
        driving: vec![driving(&points, 15.0), driving(&points, 12.0)],
    }
}

fn site(random: &mut Pcg64Mcg) -> ProgrammeSite {
    let service = random.random_range(20..100) * 60;
    let windows = (0..2).flat_map(|day| {
        let midnight = day * DAY_S;
        match random.random_range(0..4) {
            // dry only in the morning, only late, not in the rush hours, or always
            0 => vec![(midnight + 7 * HOUR, midnight + 11 * HOUR)],
            1 => vec![(midnight + 11 * HOUR, midnight + 15 * HOUR)],
            2 => vec![(midnight + 6 * HOUR, midnight + 8 * HOUR), (midnight + 9 * HOUR, midnight + 18 * HOUR)],
            _ => vec![(midnight + 6 * HOUR, midnight + 18 * HOUR)],
        }
    });
    let windows = windows.collect();
    let risk = random.random_range(10.0..80.0);
    let base = f64::from(random.random_range(200..900));
    let spoil = f64::from(random.random_range(200..1000));
    ProgrammeSite {
        // the second crew has the smaller roller, and none for some sites
        service_s: vec![Some(service), random.random_bool(0.8).then_some(service * 5 / 4)],
        demand: Demand {
            base_volume: litres(base),
            base_mass: kilograms(1.6 * base),
            cover_volume: litres(0.1 * base),
            cover_mass: kilograms(0.15 * base),
            binder_volume: litres(0.02 * base),
            binder_mass: kilograms(0.02 * base),
            water_volume: litres(0.05 * base),
            spoil_volume: litres(spoil),
            spoil_mass: kilograms(1.7 * spoil),
        },
        windows,
        waiting: vec![0.5 * risk, 1.5 * risk],
        left: 6.0 * risk,
        // some roads are known to the second crew's first day and the first crew's second day only
        shifts: random.random_bool(0.15).then(|| vec![1, 2]),
    }
}

fn shift(crew: usize, day: u32, calls: bool) -> CrewShift {
    let midnight = i64::from(day) * DAY_S;
    let room = [3000.0, 2000.0][crew];
    CrewShift {
        crew,
        day,
        start: 0,
        end: 0,
        from: midnight + 7 * HOUR,
        to: midnight + 14 * HOUR,
        rest: None,
        capacity: Capacity {
            base_volume: litres(0.2 * room),
            spoil_volume: litres(0.1 * room),
            shared_volume: litres(0.7 * room),
            cover_volume: litres(0.1 * room),
            binder_volume: litres(0.03 * room),
            water_volume: litres(0.06 * room),
            payload: kilograms(1.8 * room),
        },
        driving: crew,
        work_class: crew,
        calls: if calls { vec![0] } else { vec![] },
        aboard: None,
        price_per_hour: [90.0, 60.0][crew],
        price_per_km: [1.2, 0.8][crew],
    }
}

/// Straight ways, driven at that speed; rounding up keeps a detour from being shorter.
pub fn driving(points: &[(f64, f64)], metres_per_second: f64) -> DrivingTimes {
    let pairs = points.iter().flat_map(|a| points.iter().map(move |b| (a.0 - b.0).hypot(a.1 - b.1).ceil()));
    let metres: Vec<f64> = pairs.collect();
    DrivingTimes {
        among: None,
        places: points.len(),
        seconds: metres.iter().map(|metres| (metres / metres_per_second).ceil() as u32).collect(),
        metres: metres.iter().map(|&metres| metres as f32).collect(),
    }
}

/// A site of a worked example.
#[derive(Debug, serde::Deserialize)]
pub struct Simple {
    /// Along a straight road from the depot.
    at_km: f64,
    work_min: u32,
    /// Money if it is mended today, tomorrow.
    waiting: Vec<f64>,
    left: f64,
}

/// One crew, today and tomorrow from 07:00; 1 km takes a minute, an hour costs 60, a kilometre 1; loading takes 15 minutes,
/// tipping 5.
pub fn simple(sites: &[Simple], shift_min: i64) -> ProgrammeProblem {
    let mut problem = random(0, sites.len(), false);
    let mut points: Vec<(f64, f64)> = sites.iter().map(|site| (1000.0 * site.at_km, 0.0)).collect();
    points.push((0.0, 0.0));
    problem.driving = vec![driving(&points, 1000.0 / 60.0)];
    problem.shifts.retain(|shift| shift.crew == 0);
    for shift in &mut problem.shifts {
        shift.to = shift.from + 60 * shift_min;
        (shift.price_per_hour, shift.price_per_km) = (60.0, 1.0);
    }
    let site = |site: &Simple| ProgrammeSite {
        service_s: vec![Some(60 * site.work_min)],
        windows: vec![(0, DAY_S - 1), (DAY_S, 2 * DAY_S - 1)],
        waiting: site.waiting.clone(),
        left: site.left,
        ..ProgrammeSite::default()
    };
    problem.sites = sites.iter().map(site).collect();
    problem
}
