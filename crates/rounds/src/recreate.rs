//! Recreate: sites go back where they cost least, by greedy insertion with blinks.

use rand::{Rng, RngExt};
use rand_pcg::Pcg64Mcg;

use crate::instance::Instance;
use crate::solution::{Day, Insertion};

/// Chance that a place for an insertion is overlooked, as `beta` in the paper's section 5.2; of 2^32.
const BLINK: u32 = 42_949_673;

/// Orders in which sites are put back, each with its weight.
const ORDERS: [(Order, u32); 8] = [
    (Order::Random, 4),
    (Order::Bulk, 2),
    (Order::Far, 2),
    (Order::Close, 1),
    (Order::Worth, 2),
    (Order::WorthPerHour, 4),
    (Order::ShortWindow, 2),
    (Order::EarlyClosing, 2),
];

#[derive(Debug, Clone, Copy)]
enum Order {
    Random,
    Bulk,
    Far,
    Close,
    Worth,
    WorthPerHour,
    ShortWindow,
    EarlyClosing,
}

/// Puts back every absent site whose worth pays for the time it takes. `temperature` (points) lets some in that do not
/// pay by themselves: a neighbour that shares the way may follow. At an infinite temperature a random share of the sites
/// goes in whatever it costs.
pub(crate) fn insert_absent(instance: &Instance, day: &mut Day, temperature: f64, random: &mut Pcg64Mcg) {
    let share = if temperature.is_finite() { 1.0 } else { random.random::<f64>() };
    for place in absent_in_order(instance, day, random) {
        if share < 1.0 && random.random::<f64>() > share {
            continue;
        }
        let Some(insertion) = best_insertion(instance, day, place, || random.next_u32() < BLINK) else { continue };
        let cost = instance.points_per_second * insertion.end as f64;
        let allowance = -temperature * random.random::<f64>().max(f64::MIN_POSITIVE).ln();
        if cost < instance.worth[place as usize] + allowance {
            day.insert(instance, place, &insertion);
        }
    }
}

/// The cheapest place for a site; `overlook` makes the search skip a place.
pub(crate) fn best_insertion(
    instance: &Instance,
    day: &Day,
    place: u32,
    mut overlook: impl FnMut() -> bool,
) -> Option<Insertion> {
    let mut best: Option<Insertion> = None;
    for gap in 0..day.gaps() {
        if overlook() {
            continue;
        }
        let bound = best.map_or(i64::MAX, |b| b.rank());
        best = day.try_gap(instance, gap, place, bound).or(best);
    }
    best
}

fn absent_in_order(instance: &Instance, day: &Day, random: &mut Pcg64Mcg) -> Vec<u32> {
    let mut absent: Vec<(f64, u32)> =
        instance.candidates.iter().filter(|&&place| !day.has(place)).map(|&place| (0.0, place)).collect();
    let order = pick_order(random);
    for (key, place) in &mut absent {
        let at = *place as usize;
        *key = match order {
            Order::Random => random.random::<f64>(),
            Order::Bulk => -instance.room.share(&instance.load[at]),
            Order::Far => -(instance.travel(0, at) as f64),
            Order::Close => instance.travel(0, at) as f64,
            Order::Worth => -instance.worth[at],
            Order::WorthPerHour => -instance.worth[at] / (instance.service[at] + 1) as f64,
            Order::ShortWindow => instance.window_extent(at).2 as f64,
            Order::EarlyClosing => instance.window_extent(at).1 as f64,
        };
    }
    absent.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    absent.into_iter().map(|(_, place)| place).collect()
}

fn pick_order(random: &mut Pcg64Mcg) -> Order {
    let mut left = random.random_range(0..ORDERS.iter().map(|(_, weight)| weight).sum::<u32>());
    for (order, weight) in ORDERS {
        if left < weight {
            return order;
        }
        left -= weight;
    }
    Order::Random
}
