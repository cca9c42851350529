//! Programmes of any kind of problem keep all rules: the search against `check`, which shares no code with it.

use model::programme::{
    Aboard, CrewShift, DAY_S, DrivingTimes, Programme, ProgrammeProblem, ProgrammeSite, Supplies, Yard,
};
use model::quantity::{kilograms, litres};
use model::round::{Capacity, Demand, RestBreak, SecondOfDay};
use proptest::prelude::*;
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use rounds::SearchSettings;

const HOUR: i64 = 3600;

fn search(problem: &ProgrammeProblem, start: Option<&Programme>, seed: u64, iterations: u32) -> Programme {
    rounds::programme(problem, start, &SearchSettings { seed, iterations }, &mut |_, _| true)
}

/// Yards that give and take this or that with their own hours, trucks already out, rests, several classes of trucks and work.
fn random_problem(seed: u64, sites: usize) -> ProgrammeProblem {
    let random = &mut Pcg64Mcg::seed_from_u64(seed);
    let yards = random.random_range(2..5);
    let points: Vec<(f64, f64)> =
        (0..sites + yards).map(|_| (random.random_range(0.0..20_000.0), random.random_range(0.0..20_000.0))).collect();
    let days = random.random_range(1..3);
    let crews = random.random_range(1..4);
    let shifts = (0..crews).flat_map(|crew| (0..days).map(move |day| (crew, day)));
    let shifts: Vec<(usize, u32)> = shifts.collect();
    ProgrammeProblem {
        sites: (0..sites).map(|_| site(random, i64::from(days), shifts.len())).collect(),
        yards: (0..yards).map(|index| yard(random, index)).collect(),
        shifts: shifts.into_iter().map(|(crew, day)| shift(random, crew, day, yards)).collect(),
        driving: vec![driving(random, &points, 15.0), driving(random, &points, 10.0)],
    }
}

/// The first yard is a depot; others are any of depot, stockpile, tank, tip and place where nothing is.
fn yard(random: &mut Pcg64Mcg, index: usize) -> Yard {
    let depot = index == 0;
    let open = random.random_range(6 * 3600..9 * 3600);
    Yard {
        name: format!("Yard {index}"),
        gives: Supplies { bins: depot || random.random_bool(0.6), tanks: depot || random.random_bool(0.4) },
        takes_spoil: depot || random.random_bool(0.5),
        loading_s: random.random_range(0..1200),
        tipping_s: random.random_range(0..600),
        open: (!depot && random.random_bool(0.5)).then(|| (open, open + random.random_range(0..6 * 3600))),
    }
}

fn site(random: &mut Pcg64Mcg, days: i64, shifts: usize) -> ProgrammeSite {
    let service = random.random_range(600..4000);
    let (base, spoil) = (f64::from(random.random_range(0..1000)), f64::from(random.random_range(0..1200)));
    let mut windows = Vec::new();
    for day in 0..days {
        let mut at = day * DAY_S + random.random_range(6 * HOUR..11 * HOUR);
        for _ in 0..random.random_range(0..3) {
            let close = at + random.random_range(HOUR..8 * HOUR);
            windows.push((at, close));
            at = close + random.random_range(1..HOUR);
        }
    }
    let risk = random.random_range(1.0..60.0);
    ProgrammeSite {
        service_s: vec![Some(service), random.random_bool(0.7).then_some(service + 900)],
        demand: Demand {
            base_volume: litres(base),
            base_mass: kilograms(1.6 * base),
            cover_volume: litres(0.1 * base),
            cover_mass: kilograms(0.15 * base),
            binder_volume: litres(f64::from(random.random_range(0..30))),
            binder_mass: kilograms(f64::from(random.random_range(0..30))),
            water_volume: litres(f64::from(random.random_range(0..50))),
            spoil_volume: litres(spoil),
            spoil_mass: kilograms(1.7 * spoil),
        },
        windows,
        waiting: (0..days).map(|day| (day + 1) as f64 * risk).collect(),
        left: 10.0 * risk,
        shifts: random.random_bool(0.2).then(|| (0..shifts).filter(|_| random.random_bool(0.5)).collect()),
    }
}

fn shift(random: &mut Pcg64Mcg, crew: usize, day: u32, yards: usize) -> CrewShift {
    let from = i64::from(day) * DAY_S + 7 * HOUR + random.random_range(0..HOUR);
    let room = random.random_range(1000.0..4000.0);
    let earliest = random.random_range(6 * 3600..12 * 3600);
    let out = random.random_bool(0.3);
    let aboard = out.then(|| Aboard {
        supplies: Demand {
            base_volume: litres(0.2 * room),
            base_mass: kilograms(0.32 * room),
            cover_volume: litres(0.05 * room),
            cover_mass: kilograms(0.08 * room),
            binder_volume: litres(0.01 * room),
            binder_mass: kilograms(0.01 * room),
            water_volume: litres(0.02 * room),
            ..Demand::default()
        },
        spoil_volume: litres(0.1 * room),
        spoil_mass: kilograms(0.17 * room),
    });
    CrewShift {
        crew,
        day,
        start: if out { random.random_range(0..yards) } else { 0 },
        end: 0,
        from,
        to: from + random.random_range(3 * HOUR..10 * HOUR),
        rest: random.random_bool(0.6).then(|| RestBreak {
            earliest: SecondOfDay(earliest),
            latest: SecondOfDay(earliest + random.random_range(0..2 * 3600)),
            length_s: random.random_range(0..2700),
        }),
        capacity: Capacity {
            base_volume: litres(0.25 * room),
            spoil_volume: litres(0.2 * room),
            shared_volume: litres(0.55 * room),
            cover_volume: litres(0.1 * room),
            binder_volume: litres(0.03 * room),
            water_volume: litres(0.05 * room),
            payload: kilograms(1.7 * room),
        },
        driving: random.random_range(0..2),
        work_class: random.random_range(0..2),
        calls: (0..yards).filter(|_| random.random_bool(0.6)).collect(),
        aboard,
        price_per_hour: random.random_range(0.0..100.0),
        price_per_km: random.random_range(0.0..2.0),
    }
}

/// Straight ways, some of them closed.
fn driving(random: &mut Pcg64Mcg, points: &[(f64, f64)], metres_per_second: f64) -> DrivingTimes {
    let mut times = DrivingTimes { among: None, places: points.len(), ..DrivingTimes::default() };
    for a in points {
        for b in points {
            let metres = (a.0 - b.0).hypot(a.1 - b.1);
            let open = a == b || random.random_bool(0.95);
            times.seconds.push(if open { (metres / metres_per_second).ceil() as u32 } else { u32::MAX });
            times.metres.push(metres as f32);
        }
    }
    times
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn every_programme_keeps_all_rules(seed in any::<u64>(), sites in 0_usize..14) {
        let problem = random_problem(seed, sites);
        let programme = search(&problem, None, seed, 300);
        prop_assert_eq!(check::programme_breaches(&problem, &programme), []);
    }
}

/// A quarry takes no spoil and closes a minute after the truck has come: it loads before the crew rests, though the day ends no
/// sooner for it.
#[test]
fn the_crew_loads_before_the_yard_closes() {
    let places = 4;
    let minutes = |clock: u32| i64::from(60 * clock);
    let way = |at: usize| if at / places == at % places { 0 } else { 600 };
    let yard = Yard {
        gives: Supplies { bins: true, tanks: true },
        takes_spoil: true,
        loading_s: 600,
        tipping_s: 300,
        ..Yard::default()
    };
    let open = Some((SecondOfDay::hm(7, 0).0, SecondOfDay::hm(8, 31).0));
    let mut random = Pcg64Mcg::seed_from_u64(1);
    let site = ProgrammeSite {
        service_s: vec![Some(3600)],
        demand: Demand { base_volume: litres(1000.0), ..Demand::default() },
        windows: vec![(0, DAY_S)],
        left: 1000.0,
        ..ProgrammeSite::default()
    };
    let problem = ProgrammeProblem {
        sites: vec![site.clone(), site],
        yards: vec![yard.clone(), Yard { takes_spoil: false, open, ..yard }],
        shifts: vec![CrewShift {
            from: minutes(7 * 60),
            to: minutes(15 * 60),
            rest: Some(RestBreak { earliest: SecondOfDay::hm(8, 30), latest: SecondOfDay::hm(8, 45), length_s: 1800 }),
            capacity: Capacity { base_volume: litres(1000.0), ..Capacity::default() },
            driving: 0,
            work_class: 0,
            calls: vec![1],
            aboard: None,
            ..shift(&mut random, 0, 0, 2)
        }],
        driving: vec![DrivingTimes {
            among: None,
            places,
            seconds: (0..places * places).map(way).collect(),
            metres: vec![0.0; places * places],
        }],
    };
    let programme = search(&problem, None, 1, 1000);
    assert_eq!(check::programme_breaches(&problem, &programme), []);
    assert_eq!(programme.left_out, []);
}
