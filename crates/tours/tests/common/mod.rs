//! Made-up problems and what judges their plans.
#![allow(dead_code, reason = "each test file uses its part")]

pub mod brute_force;
pub mod checker;

use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use tours::{Aboard, Depot, Matrix, Problem, Profile, Rest, Vehicle, Visit, Window};

/// A problem with places in the plane; each feature is on or off by chance.
pub fn random_problem(seed: u64, visits: usize) -> Problem {
    let mut random = Pcg64Mcg::seed_from_u64(seed);
    let random = &mut random;
    let depots = 1 + usize::from(random.random::<bool>());
    let places = visits + depots;
    let points: Vec<(f64, f64)> =
        (0..places).map(|_| (random.random_range(0.0..60.0), random.random_range(0.0..60.0))).collect();
    let crooked = random.random_range(0..4) == 0;
    let mut way = |from: usize, to: usize| {
        let apart = (points[from].0 - points[to].0).hypot(points[from].1 - points[to].1);
        if from == to {
            0
        } else if crooked && random.random_range(0..12) == 0 {
            Matrix::NO_WAY
        } else if crooked {
            (apart * random.random_range(1.0..2.0)) as i32
        } else {
            apart as i32
        }
    };
    let distance = Matrix::from_fn(places, &mut way).expect("in range");
    let random = &mut Pcg64Mcg::seed_from_u64(seed ^ 0x5eed);
    let times = Matrix::from_fn(places, |from, to| match distance.get(from, to) {
        Matrix::NO_WAY => Matrix::NO_WAY,
        length => length * 3 / 2,
    });
    let duration = random.random::<bool>().then(|| times.expect("in range"));
    let on: [bool; 12] = std::array::from_fn(|_| random.random_range(0..3) == 0);
    let [windows, several, pickups, loads, prizes, kinds, reloads, releases, ranks, rest, limits, prices] = on;
    let dimensions = if loads { 2 } else { 1 };
    let more: [bool; 6] = std::array::from_fn(|_| random.random_range(0..4) == 0);
    let [ends_within, charges, on_time, stock, aboard, pickup_first] = more;
    let amounts = |random: &mut Pcg64Mcg| (0..dimensions).map(|_| random.random_range(1..8)).collect::<Vec<i64>>();
    let kind_count = if kinds { 2 } else { 1 };
    let visit = |place: usize, random: &mut Pcg64Mcg| {
        let mut visit = Visit::at(place);
        let back = pickups && random.random_range(0..3) == 0;
        if back {
            visit.pickup = amounts(random);
            visit.rank = u8::from(ranks);
        } else {
            visit.delivery = amounts(random);
        }
        visit.service = (0..kind_count).map(|_| random.random_range(0..15)).collect();
        if windows || several {
            let open = random.random_range(0..250);
            visit.windows.push(Window { open, close: open + random.random_range(10..120) });
            if several {
                let open = visit.windows[0].close + random.random_range(1..60);
                visit.windows.push(Window { open, close: open + random.random_range(10..80) });
            }
        }
        visit.ends_within = ends_within;
        if charges {
            visit.charge = (0..kind_count).map(|_| random.random_range(0..40)).collect();
        }
        if stock {
            if pickups {
                visit.pickup = amounts(random);
            }
            visit.second_delivery = amounts(random);
        }
        if releases {
            visit.release = random.random_range(0..150);
        }
        if prizes && random.random::<bool>() {
            visit.prize = Some(random.random_range(5..120));
        }
        if kinds && random.random_range(0..4) == 0 {
            visit.vehicles = Some(vec![random.random_range(0..2)]);
        }
        visit
    };
    let visits: Vec<Visit> = (depots..places).map(|place| visit(place, random)).collect();
    let vehicles = (0..kind_count).map(|kind| {
        let mut vehicle = Vehicle::new(1 + visits.len() / 3);
        vehicle.start = random.random_range(0..depots);
        vehicle.end = random.random_range(0..depots);
        vehicle.capacity = (0..dimensions).map(|_| random.random_range(12..25)).collect();
        vehicle.service_class = kind;
        vehicle.charge_class = kind;
        vehicle.begins_on_time = on_time;
        if charges {
            vehicle.loading_time = random.random_range(0..20);
            vehicle.unloading_time = random.random_range(0..20);
        }
        if aboard {
            let most = vehicle.capacity.iter().map(|&most| most / 3);
            vehicle.aboard = Some(Aboard {
                delivery: most.clone().collect(),
                second_delivery: if stock { most.clone().collect() } else { Vec::new() },
                pickup: most.collect(),
            });
        }
        vehicle.distance_cost = random.random_range(1..4);
        if prices {
            vehicle.fixed_cost = random.random_range(0..60);
            vehicle.time_cost = random.random_range(0..3);
        }
        if windows || several || rest || releases || prices {
            vehicle.shift = Window { open: random.random_range(0..40), close: random.random_range(350..600) };
        }
        if limits {
            vehicle.greatest_duration = Some(random.random_range(150..400));
            vehicle.greatest_distance = Some(random.random_range(100..300));
        }
        if reloads {
            vehicle.reloads = (0..depots).collect();
            vehicle.greatest_reloads = random.random_range(1..4);
        }
        if rest {
            let open = random.random_range(60..150);
            let begin = Window { open, close: open + random.random_range(30..90) };
            vehicle.rest = Some(Rest { begin, length: random.random_range(5..30) });
        }
        vehicle
    });
    let vehicles = vehicles.collect();
    let depot = |place: usize| Depot {
        reload_time: if reloads { 7 } else { 0 },
        window: if reloads && limits { Window { open: 20, close: 300 } } else { Window::ALWAYS },
        ..Depot::at(place)
    };
    let mut depots: Vec<Depot> = (0..depots).map(depot).collect();
    if stock {
        for depot in &mut depots {
            depot.gives = [random.random(), random.random()];
            depot.takes = random.random();
        }
    }
    Problem {
        profiles: vec![Profile { distance, duration }],
        depots,
        visits,
        vehicles,
        starts_with_rank_zero: ranks,
        pickup_first,
    }
}
