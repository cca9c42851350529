//! Least cost by trying every order of every set of sites in every shift, with and without loading again before each: what
//! the model is held against.

use model::programme::{CrewShift, ProgrammeProblem};
use model::quantity::{InMass, InVolume, Volume};
use model::round::{Capacity, Demand};

/// Least cost, money. One yard that gives and takes everything at any time, without rests.
pub fn least_cost(problem: &ProgrammeProblem) -> f64 {
    let sets = 1_usize << problem.sites.len();
    // of the shifts so far, by the set of sites they do
    let mut least = vec![f64::INFINITY; sets];
    least[0] = problem.sites.iter().map(|site| site.left).sum();
    for index in 0..problem.shifts.len() {
        let mut alone = vec![f64::INFINITY; sets];
        alone[0] = 0.0;
        extend(problem, index, &mut Vec::new(), &mut alone);
        for set in (0..sets).rev() {
            // every part of the set may be this shift's
            let mut part = set;
            while part > 0 {
                least[set] = least[set].min(least[set & !part] + alone[part]);
                part = (part - 1) & set;
            }
        }
    }
    least.into_iter().fold(f64::INFINITY, f64::min)
}

/// A site, and whether the truck loads again before it.
type Step = (usize, bool);

/// Goes on from these steps to every other site.
fn extend(problem: &ProgrammeProblem, index: usize, steps: &mut Vec<Step>, alone: &mut [f64]) {
    let shift = &problem.shifts[index];
    for site in 0..problem.sites.len() {
        let barred = problem.sites[site].shifts.as_ref().is_some_and(|shifts| !shifts.contains(&index));
        if barred || steps.iter().any(|(known, _)| *known == site) {
            continue;
        }
        for again in [false, true] {
            if again && (steps.is_empty() || shift.calls.is_empty()) {
                continue;
            }
            steps.push((site, again));
            if let Some(cost) = cost(problem, shift, steps) {
                let set = steps.iter().fold(0, |set, (site, _)| set | 1 << site);
                alone[set] = f64::min(alone[set], cost);
                // what can't be kept can't be kept with more sites
                extend(problem, index, steps, alone);
            }
            steps.pop();
        }
    }
}

/// Money for the round and its sites less what leaving them out costs; `None`: it can't be kept.
fn cost(problem: &ProgrammeProblem, shift: &CrewShift, steps: &[Step]) -> Option<f64> {
    let mut trips = steps.chunk_by(|_, (_, again)| !again);
    if !trips.all(|trip| fits(problem, &shift.capacity, trip)) {
        return None;
    }
    let (depot, yard) = (problem.sites.len(), &problem.yards[0]);
    let driving = &problem.driving[shift.driving];
    let (load, tip) = (i64::from(yard.loading_s), i64::from(yard.tipping_s));
    let mut now = shift.from + load;
    let (mut here, mut metres, mut saved) = (depot, 0.0, 0.0);
    for &(index, again) in steps {
        let site = &problem.sites[index];
        if again {
            now += i64::from(driving.seconds(here, depot)?) + tip + load;
            metres += driving.metres(here, depot);
            here = depot;
        }
        now += i64::from(driving.seconds(here, index)?);
        metres += driving.metres(here, index);
        here = index;
        let service = i64::from(site.service_s[shift.work_class]?);
        let ends = site.windows.iter().filter(|w| now.max(w.0) + service <= w.1).map(|w| now.max(w.0) + service);
        now = ends.min()?;
        saved += site.left - site.waiting[shift.day as usize];
    }
    now += i64::from(driving.seconds(here, depot)?) + tip;
    metres += driving.metres(here, depot);
    let time = (now - shift.from) as f64 / 3600.0 * shift.price_per_hour;
    (now <= shift.to).then_some(time + metres / 1000.0 * shift.price_per_km - saved)
}

/// Whether the truck holds one load's supplies and spoil at each of its sites.
fn fits(problem: &ProgrammeProblem, truck: &Capacity, trip: &[Step]) -> bool {
    let demands: Vec<&Demand> = trip.iter().map(|(site, _)| &problem.sites[*site].demand).collect();
    let over = |all: f64, own: Volume| (all - own.in_litres()).max(0.0);
    let moment = |at: usize| {
        let (gone, now_on) = (&demands[at..], &demands[..=at]);
        let base: f64 = gone.iter().map(|d| d.base_volume.in_litres()).sum();
        let supplies = gone
            .iter()
            .map(|d| (d.base_mass + d.cover_mass + d.binder_mass).in_kilograms() + d.water_volume.in_litres());
        let spoil: f64 = now_on.iter().map(|d| d.spoil_volume.in_litres()).sum();
        let mass = supplies.sum::<f64>() + now_on.iter().map(|d| d.spoil_mass.in_kilograms()).sum::<f64>();
        let shared = over(base, truck.base_volume) + over(spoil, truck.spoil_volume);
        shared <= truck.shared_volume.in_litres() + 1e-6 && mass <= truck.payload.in_kilograms() + 1e-6
    };
    let room = |of: fn(&Demand) -> Volume, room: Volume| {
        demands.iter().map(|d| of(d).in_litres()).sum::<f64>() <= room.in_litres() + 1e-6
    };
    (0..trip.len()).all(moment)
        && room(|d| d.cover_volume, truck.cover_volume)
        && room(|d| d.binder_volume, truck.binder_volume)
        && room(|d| d.water_volume, truck.water_volume)
}
