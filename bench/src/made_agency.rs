//! An invented agency on a plane: depots, crews, holes in and between villages. One drives along straight lines made 1.3
//! times as long, at 50 km/h.

use std::f64::consts::TAU;

use model::programme::{CrewShift, DAY_S, DrivingTimes, ProgrammeProblem, ProgrammeSite, Supplies, Yard};
use model::quantity::{kilograms, litres};
use model::round::{Capacity, Demand, RestBreak, SecondOfDay};
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use rounds::Agency;

/// Side of the square that one depot looks after, metres.
const SIDE_M: f64 = 25_000.0;
const DETOUR: f64 = 1.3;
const SPEED_M_S: f64 = 50.0 / 3.6;
const VILLAGES_PER_DEPOT: usize = 12;
/// Share of the holes that lie in villages.
const IN_VILLAGES: f64 = 0.6;
const VILLAGE_RADIUS_M: f64 = 800.0;

pub struct MadeAgency {
    pub sites: Vec<ProgrammeSite>,
    pub yards: Vec<Yard>,
    pub shifts: Vec<CrewShift>,
    pub positions: Vec<[f64; 2]>,
}

#[derive(Debug, Clone, Copy)]
pub struct Size {
    pub holes: usize,
    pub depots: usize,
    pub crews: usize,
    pub days: u32,
    pub seed: u64,
}

impl MadeAgency {
    pub fn new(size: Size) -> Self {
        let random = &mut Pcg64Mcg::seed_from_u64(size.seed);
        let side = SIDE_M * (size.depots as f64).sqrt();
        let anywhere = |random: &mut Pcg64Mcg| [random.random_range(0.0..side), random.random_range(0.0..side)];
        let columns = (size.depots as f64).sqrt().ceil() as usize;
        let rows = size.depots.div_ceil(columns);
        let yards: Vec<[f64; 2]> = (0..size.depots)
            .map(|depot| {
                let mut along = |at: usize, of: usize| (at as f64 + random.random_range(0.25..0.75)) / of as f64 * side;
                [along(depot % columns, columns), along(depot / columns, rows)]
            })
            .collect();
        let villages: Vec<[f64; 2]> = (0..VILLAGES_PER_DEPOT * size.depots).map(|_| anywhere(random)).collect();
        let mut positions: Vec<[f64; 2]> = Vec::with_capacity(size.holes + size.depots);
        let mut sites = Vec::with_capacity(size.holes);
        for _ in 0..size.holes {
            let village = random.random::<f64>() < IN_VILLAGES;
            positions.push(if village {
                let [x, y] = villages[random.random_range(0..villages.len())];
                let (angle, out) = (random.random_range(0.0..TAU), random.random_range(0.0..VILLAGE_RADIUS_M));
                [x + out * angle.cos(), y + out * angle.sin()]
            } else {
                anywhere(random)
            });
            sites.push(site(size.days, random));
        }
        positions.extend(&yards);
        let shifts = (0..size.days).flat_map(|day| (0..size.crews).map(move |crew| shift(crew, day, size.depots)));
        Self { sites, yards: vec![yard(); size.depots], shifts: shifts.collect(), positions }
    }

    /// Driving times between chosen places.
    pub fn driving(&self, places: &[usize]) -> DrivingTimes {
        let count = places.len();
        let (mut seconds, mut metres) = (Vec::with_capacity(count * count), Vec::with_capacity(count * count));
        for &from in places {
            let [x, y] = self.positions[from];
            for &to in places {
                let [to_x, to_y] = self.positions[to];
                let way = DETOUR * (x - to_x).hypot(y - to_y);
                seconds.push((way / SPEED_M_S).ceil() as u32);
                metres.push(way as f32);
            }
        }
        DrivingTimes { among: None, places: count, seconds, metres }
    }

    /// What the search is asked.
    pub fn agency<'a>(&'a self, driving: &'a rounds::DrivingBetween<'a>) -> Agency<'a> {
        Agency { sites: &self.sites, yards: &self.yards, shifts: &self.shifts, positions: &self.positions, driving }
    }

    /// All of it with all driving times.
    pub fn problem(self) -> ProgrammeProblem {
        let places: Vec<usize> = (0..self.positions.len()).collect();
        let driving = vec![self.driving(&places)];
        ProgrammeProblem { sites: self.sites, yards: self.yards, shifts: self.shifts, driving }
    }
}

/// A hole or two: 20 to 60 minutes of work with its traffic control, worth from little to much.
fn site(days: u32, random: &mut Pcg64Mcg) -> ProgrammeSite {
    let base = random.random_range(60.0..500.0);
    let spoil = base * random.random_range(0.8..1.0);
    let left = 60.0 * random.random_range(0.0_f64..4.0).exp();
    // Every fifth lies where nobody may work while people drive to work.
    let barred = random.random::<f64>() < 0.2;
    let windows = (0..i64::from(days)).map(|day| (day * DAY_S + 9 * 3600, day * DAY_S + 16 * 3600));
    ProgrammeSite {
        service_s: vec![Some((random.random_range(1200.0..2400.0) + 2.4 * base) as u32)],
        demand: Demand {
            base_volume: litres(base),
            base_mass: kilograms(1.6 * base),
            cover_volume: litres(0.1 * base),
            cover_mass: kilograms(0.15 * base),
            binder_volume: litres(0.02 * base),
            binder_mass: kilograms(0.02 * base),
            water_volume: litres(0.05 * base),
            spoil_volume: litres(spoil),
            spoil_mass: kilograms(1.5 * spoil),
        },
        windows: if barred { windows.collect() } else { vec![(0, i64::from(days) * DAY_S)] },
        waiting: (0..days).map(|day| left * 0.02 * f64::from(day)).collect(),
        left,
        shifts: None,
    }
}

fn yard() -> Yard {
    Yard {
        name: String::new(),
        gives: Supplies { bins: true, tanks: true },
        takes_spoil: true,
        loading_s: 1200,
        tipping_s: 300,
        open: None,
    }
}

/// From seven to half past three with half an hour's rest.
fn shift(crew: usize, day: u32, depots: usize) -> CrewShift {
    let midnight = i64::from(day) * DAY_S;
    CrewShift {
        crew,
        day,
        start: crew % depots,
        end: crew % depots,
        from: midnight + 7 * 3600,
        to: midnight + 15 * 3600 + 1800,
        rest: Some(RestBreak { earliest: SecondOfDay::hm(11, 0), latest: SecondOfDay::hm(13, 0), length_s: 1800 }),
        capacity: Capacity {
            base_volume: litres(0.0),
            spoil_volume: litres(0.0),
            shared_volume: litres(2600.0),
            cover_volume: litres(400.0),
            binder_volume: litres(200.0),
            water_volume: litres(300.0),
            payload: kilograms(5200.0),
        },
        driving: 0,
        work_class: 0,
        calls: vec![crew % depots],
        aboard: None,
        price_per_hour: 180.0,
        price_per_km: 1.2,
    }
}
