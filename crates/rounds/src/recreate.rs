//! Recreate: sites go back where they cost least, by greedy insertion with blinks.

use rand::{Rng, RngExt};
use rand_pcg::Pcg64Mcg;

use crate::instance::Instance;
use crate::solution::{Day, Insertion};

/// Chance that a place for an insertion is overlooked; 1 % (from memory: Christiaens and Vanden Berghe 2020) of 2^32.
const BLINK: u32 = 42_949_673;

/// Greatest price of scarce time, in mean worths per second of the day.
const SCARCITY: f64 = 1.5;

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
/// pay by themselves: a neighbour that shares the way may follow.
pub(crate) fn insert_absent(instance: &Instance, day: &mut Day, temperature: f64, random: &mut Pcg64Mcg) {
    insert_if(instance, day, random, |place, insertion, random| {
        let cost = instance.points_per_second * insertion.end as f64;
        let allowance = -temperature * random.random::<f64>().max(f64::MIN_POSITIVE).ln();
        cost < instance.worth[place] + allowance
    });
}

/// Puts back a random share of the sites, whatever they cost.
pub(crate) fn insert_whatever_it_costs(instance: &Instance, day: &mut Day, random: &mut Pcg64Mcg) {
    let share = random.random::<f64>();
    insert_if(instance, day, random, |_, _, random| random.random::<f64>() < share);
}

/// Puts back the sites that are worth their time when an hour costs more than its price: in a full shift it costs the
/// worth of what could be done in it. The price is drawn up to [`SCARCITY`] times the day's mean worth per second.
pub(crate) fn insert_at_scarcity_price(instance: &Instance, day: &mut Day, random: &mut Pcg64Mcg) {
    if day.finish() == 0 {
        return;
    }
    let served: f64 = day.route().iter().map(|&place| instance.worth[place as usize]).sum();
    let price = random.random_range(0.0..=SCARCITY) * served / day.finish() as f64;
    let price = price.max(instance.points_per_second);
    insert_if(instance, day, random, |place, insertion, _| {
        let seconds = insertion.end.max(instance.service[place] + insertion.driving);
        price * (seconds as f64) < instance.worth[place]
    });
}

/// Tries every absent site in a random order at its cheapest place.
fn insert_if(
    instance: &Instance,
    day: &mut Day,
    random: &mut Pcg64Mcg,
    mut wanted: impl FnMut(usize, &Insertion, &mut Pcg64Mcg) -> bool,
) {
    for place in absent_in_order(instance, day, random) {
        let insertion = best_insertion(instance, day, place, || random.next_u32() < BLINK);
        if let Some(insertion) = insertion.filter(|insertion| wanted(place as usize, insertion, random)) {
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
