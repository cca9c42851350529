//! Simulated annealing over ruin and recreate.
//!
//! A new round replaces the current one when `E_new < E - T ln U`, `U` uniform on (0, 1], from memory: Christiaens and
//! Vanden Berghe (2020). `T` falls exponentially from `T_0` to `T_f` over the steps. The paper's `T_0 = 100` and
//! `T_f = 1` are in its distance units; ours follow from the worths and the price of time.

use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;

use crate::SearchSettings;
use crate::instance::{DEPOT, Instance, NEVER};
use crate::recreate::{best_insertion, insert_absent, insert_at_scarcity_price, insert_whatever_it_costs};
use crate::ruin::remove_strings;
use crate::solution::Day;

/// Steps between two words to the caller.
const STEPS_PER_WORD: u32 = 128;

/// Share of steps that first put back sites whatever they cost and then drop, dearest first, what does not pay. Sites that
/// pay only together are found that way: each shares the drive of the others.
const GENEROUS_SHARE: f64 = 0.03;

/// Share of steps in which time is first reckoned at what it is worth in a full shift.
const SCARCE_SHARE: f64 = 0.5;

/// Searches and returns the best day found.
pub(crate) fn search(
    instance: &Instance,
    settings: &SearchSettings,
    progress: &mut dyn FnMut(u32, f64) -> bool,
) -> Day {
    let mut random = Pcg64Mcg::seed_from_u64(settings.seed);
    let mut current = Day::empty(instance);
    if instance.candidates.is_empty() {
        progress(settings.iterations, instance.points(&current));
        return current;
    }
    insert_absent(instance, &mut current, 0.0, &mut random);
    let energy = Energy::new(instance);
    let mut current_energy = energy.of(instance, &current);
    let (mut best, mut best_energy) = (current.clone(), current_energy);
    let (hot, cold) = energy.temperatures;
    let mut done = settings.iterations;
    for step in 0..settings.iterations {
        if step % STEPS_PER_WORD == 0 && !progress(step, instance.points(&best)) {
            done = step;
            break;
        }
        let temperature = hot * (cold / hot).powf(f64::from(step) / f64::from(settings.iterations));
        let mut next = current.clone();
        remove_strings(instance, &mut next, &mut random);
        // only where a detour is shorter than the direct way can fewer sites take longer
        if !next.is_in_time(instance) {
            continue;
        }
        if instance.points_per_second > 0.0 && random.random::<f64>() < GENEROUS_SHARE {
            insert_whatever_it_costs(instance, &mut next, &mut random);
            drop_what_does_not_pay(instance, &mut next);
        } else {
            if random.random::<f64>() < SCARCE_SHARE {
                insert_at_scarcity_price(instance, &mut next, &mut random);
            }
            insert_absent(instance, &mut next, temperature, &mut random);
        }
        let next_energy = energy.of(instance, &next);
        if next_energy < best_energy {
            best = next.clone();
            best_energy = next_energy;
        }
        let luck = random.random::<f64>().max(f64::MIN_POSITIVE);
        if next_energy < current_energy - temperature * luck.ln() {
            current = next;
            current_energy = next_energy;
        }
    }
    polish(instance, &mut best);
    progress(done, instance.points(&best));
    best
}

/// Takes out what does not pay and puts in what pays, until neither is left.
fn polish(instance: &Instance, day: &mut Day) {
    let mut points = instance.points(day);
    loop {
        drop_what_does_not_pay(instance, day);
        points = points.min(instance.points(day));
        let with = instance.candidates.iter().filter(|&&place| !day.has(place)).filter_map(|&place| {
            let insertion = best_insertion(instance, day, place, || false)?;
            let mut longer = day.clone();
            longer.insert(instance, place, &insertion);
            Some(longer)
        });
        let better = with.map(|other| (instance.points(&other), other)).min_by(|a, b| a.0.total_cmp(&b.0));
        match better {
            Some((other, better)) if other < points => (points, *day) = (other, better),
            _ => return,
        }
    }
}

/// Takes out single sites, the greatest gain first, as long as the objective falls.
fn drop_what_does_not_pay(instance: &Instance, day: &mut Day) {
    let mut points = instance.points(day);
    let mut shorter = day.clone();
    loop {
        let mut best: Option<Vec<u32>> = None;
        for at in (1..day.route().len()).filter(|&at| day.route()[at] != DEPOT) {
            let mut route = day.route().to_vec();
            route.remove(at);
            shorter.set_route(instance, &route);
            let other = instance.points(&shorter);
            if shorter.is_in_time(instance) && other < points {
                points = other;
                best = Some(route);
            }
        }
        match best {
            Some(route) => day.set_route(instance, &route),
            None => return,
        }
    }
}

/// What the annealing looks at: the objective, and a trifle for time and driving that decides between equals.
struct Energy {
    /// Points per second of the day's end, on top of its price.
    trifle_end: f64,
    /// Points per second of driving.
    trifle_driving: f64,
    /// `T_0` and `T_f`, points.
    temperatures: (f64, f64),
}

impl Energy {
    fn new(instance: &Instance) -> Self {
        let price = instance.points_per_second;
        let worths = || instance.candidates.iter().map(|&p| instance.worth[p as usize]).filter(|&w| w > 0.0);
        let mean_worth = worths().sum::<f64>() / worths().count().max(1) as f64;
        let least_worth = worths().fold(f64::INFINITY, f64::min);
        let trifle = if least_worth.is_finite() { 1e-3 * least_worth / instance.shift.max(1) as f64 } else { 0.0 };
        let hop = price * mean_hop(instance);
        // measured on random days of 60 sites; a factor of three either way changes little.
        // Both positive even where time or sites are for nothing
        let hot = (0.3 * hop + 0.3 * mean_worth).max(1e-9);
        let cold = (0.003 * hop + 0.01 * mean_worth).max(1e-12);
        Energy {
            trifle_end: trifle.min(1e-3),
            trifle_driving: trifle.min(price * 1e-2) * 0.1,
            temperatures: (hot, cold.min(hot)),
        }
    }

    fn of(&self, instance: &Instance, day: &Day) -> f64 {
        instance.points(day) + self.trifle_end * day.finish() as f64 + self.trifle_driving * day.driving() as f64
    }
}

/// Mean driving time, s, from a candidate to its nearer neighbours.
fn mean_hop(instance: &Instance) -> f64 {
    const NEARER: usize = 5;
    let hops = instance.candidates.iter().flat_map(|&place| {
        let near = instance.neighbours[place as usize].iter().take(NEARER);
        near.map(move |&other| instance.travel(place as usize, other as usize)).filter(|&seconds| seconds < NEVER)
    });
    let (sum, count) = hops.fold((0_i64, 0_i64), |(sum, count), seconds| (sum + seconds, count + 1));
    sum as f64 / count.max(1) as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::common::random_problem;

    /// What is left out then is left out for a reason.
    #[test]
    fn no_single_site_could_better_the_day() {
        for seed in 0..200 {
            let instance = Instance::new(&random_problem(seed, 12));
            let day = search(&instance, &SearchSettings { seed, iterations: 5 }, &mut |_, _| true);
            let points = instance.points(&day);
            for &place in &instance.candidates {
                let mut other = day.clone();
                if day.has(place) {
                    let route: Vec<u32> = day.route().iter().copied().filter(|&p| p != place).collect();
                    other.set_route(&instance, &route);
                } else if let Some(insertion) = best_insertion(&instance, &day, place, || false) {
                    other.insert(&instance, place, &insertion);
                }
                assert!(instance.points(&other) >= points - 1e-9, "seed {seed}, place {place}");
            }
        }
    }
}
