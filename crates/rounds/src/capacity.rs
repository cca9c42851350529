//! What a truck holds in the course of a trip.
//!
//! A trip leaves the depot with exactly what its sites need. At a site the spoil comes on before the base goes off (it is
//! cut out before it is filled), so the fullest moment there has the base of this and all later sites and the spoil of
//! this and all earlier ones aboard. At every such moment
//!
//! ```text
//! max(0, base - base_only) + max(0, spoil - spoil_only) <= shared
//! mass of everything aboard <= payload
//! ```
//!
//! and the totals of cover stone, binder and water keep to their rooms. The first line is the same as three linear ones,
//! `base <= base_only + shared`, `spoil <= spoil_only + shared` and `base + spoil <= base_only + spoil_only + shared`; the
//! first two are tightest for the trip's totals, and the third and the mass need only a peak before and a peak after the
//! point of an insertion. So an insertion is checked in constant time.

use model::quantity::{InMass, InVolume, Mass, Volume};
use model::round::{Capacity, Demand};

/// More than any truck, in microlitres or milligrams (a thousand million litres or kilograms); stands for "no limit" and
/// keeps sums far from overflow.
const PLENTY: i64 = 1_000_000_000_000_000;

/// What one site takes and gives, in whole microlitres and milligrams.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct Load {
    pub base: i64,
    pub cover: i64,
    pub binder: i64,
    pub water: i64,
    pub spoil: i64,
    /// Mass of base, cover stone, binder and water together.
    pub supply_mass: i64,
    pub spoil_mass: i64,
}

/// The truck's limits in the same units.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Room {
    base: i64,
    spoil: i64,
    /// Base and spoil together.
    body: i64,
    cover: i64,
    binder: i64,
    water: i64,
    payload: i64,
}

/// The load at one stop of a trip, and the peaks up to it and from it on. All zero at the depot.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Aboard {
    /// Base of this and the later sites.
    base_left: i64,
    /// Supplies' mass of this and the later sites.
    supply_mass_left: i64,
    /// Spoil of this and the earlier sites.
    spoil_on: i64,
    /// Its mass.
    spoil_mass_on: i64,
    peak_volume_to: i64,
    peak_volume_from: i64,
    peak_mass_to: i64,
    peak_mass_from: i64,
}

impl Load {
    /// Rounds a demand to whole units. Water is carried at 1 kg per litre.
    ///
    /// `None`: some figure is negative or not a number.
    pub fn new(demand: &Demand) -> Option<Self> {
        Some(Load {
            base: volume(demand.base_volume)?,
            cover: volume(demand.cover_volume)?,
            binder: volume(demand.binder_volume)?,
            water: volume(demand.water_volume)?,
            spoil: volume(demand.spoil_volume)?,
            // a microlitre of water weighs a milligram
            supply_mass: (mass(demand.base_mass)? + mass(demand.cover_mass)? + mass(demand.binder_mass)?)
                .saturating_add(volume(demand.water_volume)?),
            spoil_mass: mass(demand.spoil_mass)?,
        })
    }

    fn add(&mut self, other: &Load) {
        self.base += other.base;
        self.cover += other.cover;
        self.binder += other.binder;
        self.water += other.water;
        self.spoil += other.spoil;
        self.supply_mass += other.supply_mass;
        self.spoil_mass += other.spoil_mass;
    }
}

impl Room {
    /// A capacity that is negative or not a number counts as none.
    pub fn new(capacity: &Capacity) -> Self {
        let room = |v: Volume| volume(v).unwrap_or(0);
        let shared = room(capacity.shared_volume);
        Room {
            base: room(capacity.base_volume) + shared,
            spoil: room(capacity.spoil_volume) + shared,
            body: room(capacity.base_volume) + room(capacity.spoil_volume) + shared,
            cover: room(capacity.cover_volume),
            binder: room(capacity.binder_volume),
            water: room(capacity.water_volume),
            payload: mass(capacity.payload).unwrap_or(0),
        }
    }

    /// What the truck is short of for this one load; `None`: it fits.
    pub fn short_of(&self, load: &Load) -> Option<&'static str> {
        [
            (load.base > self.base, "room for base"),
            (load.spoil > self.spoil, "room for spoil"),
            (load.base + load.spoil > self.body, "room for base and spoil together"),
            (load.cover > self.cover, "room for cover stone"),
            (load.binder > self.binder, "room for binder"),
            (load.water > self.water, "room for water"),
            (load.supply_mass + load.spoil_mass > self.payload, "payload"),
        ]
        .into_iter()
        .find_map(|(short, what)| short.then_some(what))
    }

    /// Whether a trip of that total, with `before` the stop ahead of the insertion and `after` the one behind it, can take
    /// `load` in between.
    pub fn takes(&self, total: &Load, before: &Aboard, after: &Aboard, load: &Load) -> bool {
        total.base + load.base <= self.base
            && total.spoil + load.spoil <= self.spoil
            && total.cover + load.cover <= self.cover
            && total.binder + load.binder <= self.binder
            && total.water + load.water <= self.water
            && before.peak_volume_to + load.base <= self.body
            && after.peak_volume_from + load.spoil <= self.body
            && after.base_left + load.base + before.spoil_on + load.spoil <= self.body
            && before.peak_mass_to + load.supply_mass <= self.payload
            && after.peak_mass_from + load.spoil_mass <= self.payload
            && after.supply_mass_left + load.supply_mass + before.spoil_mass_on + load.spoil_mass <= self.payload
    }

    /// Whether one trip can serve the loads in this order.
    pub fn fits<'a>(&self, loads: impl Iterator<Item = &'a Load> + Clone) -> bool {
        let mut total = Load::default();
        loads.clone().for_each(|load| total.add(load));
        let (mut volume, mut mass) = (total.base, total.supply_mass);
        let peaks_hold = loads.into_iter().all(|load| {
            volume += load.spoil;
            mass += load.spoil_mass;
            let holds = volume <= self.body && mass <= self.payload;
            volume -= load.base;
            mass -= load.supply_mass;
            holds
        });
        peaks_hold
            && total.base <= self.base
            && total.spoil <= self.spoil
            && total.cover <= self.cover
            && total.binder <= self.binder
            && total.water <= self.water
    }

    /// Share of the scarcest room that a load fills.
    pub fn share(&self, load: &Load) -> f64 {
        let part = |load: i64, room: i64| if load == 0 { 0.0 } else { load as f64 / room.max(1) as f64 };
        [
            part(load.base, self.base),
            part(load.spoil, self.spoil),
            part(load.cover, self.cover),
            part(load.binder, self.binder),
            part(load.water, self.water),
            part(load.supply_mass.max(load.spoil_mass), self.payload),
        ]
        .into_iter()
        .fold(0.0, f64::max)
    }
}

/// Fills `aboard` for the sites of one trip (same length as `loads`) and returns the trip's total.
pub(crate) fn follow_trip(loads: &[Load], aboard: &mut [Aboard]) -> Load {
    let mut total = Load::default();
    let mut left = Aboard::default();
    for (load, stop) in loads.iter().zip(aboard.iter_mut()).rev() {
        left.base_left += load.base;
        left.supply_mass_left += load.supply_mass;
        *stop = left;
        total.add(load);
    }
    let (mut spoil, mut spoil_mass, mut peak_volume, mut peak_mass) = (0, 0, 0, 0);
    for (load, stop) in loads.iter().zip(aboard.iter_mut()) {
        spoil += load.spoil;
        spoil_mass += load.spoil_mass;
        stop.spoil_on = spoil;
        stop.spoil_mass_on = spoil_mass;
        peak_volume = peak_volume.max(stop.base_left + spoil);
        peak_mass = peak_mass.max(stop.supply_mass_left + spoil_mass);
        stop.peak_volume_to = peak_volume;
        stop.peak_mass_to = peak_mass;
    }
    let (mut peak_volume, mut peak_mass) = (0, 0);
    for stop in aboard.iter_mut().rev() {
        peak_volume = peak_volume.max(stop.base_left + stop.spoil_on);
        peak_mass = peak_mass.max(stop.supply_mass_left + stop.spoil_mass_on);
        stop.peak_volume_from = peak_volume;
        stop.peak_mass_from = peak_mass;
    }
    total
}

/// Whole microlitres.
fn volume(volume: Volume) -> Option<i64> {
    whole(volume.in_litres() * 1e6)
}

/// Whole milligrams.
fn mass(mass: Mass) -> Option<i64> {
    whole(mass.in_kilograms() * 1e6)
}

fn whole(value: f64) -> Option<i64> {
    (value >= 0.0).then(|| (value.min(PLENTY as f64)).round() as i64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    prop_compose! {
        fn any_load()(v in prop::array::uniform7(0_i64..12)) -> Load {
            let [base, cover, binder, water, spoil, supply_mass, spoil_mass] = v;
            Load { base, cover, binder, water, spoil, supply_mass, spoil_mass }
        }
    }

    prop_compose! {
        fn any_room()(v in prop::array::uniform7(0_i64..60)) -> (Room, [i64; 3]) {
            let [base_only, spoil_only, shared, cover, binder, water, payload] = v;
            // narrow for base and spoil, wider for the rest, so that each limit binds now and then
            let (base_only, spoil_only, shared) = (base_only / 3, spoil_only / 3, shared / 2);
            let (base, spoil, body) = (base_only + shared, spoil_only + shared, base_only + spoil_only + shared);
            let (cover, binder, water, payload) = (cover * 3, binder * 3, water * 3, payload * 3);
            let room = Room { base, spoil, body, cover, binder, water, payload };
            (room, [base_only, spoil_only, shared])
        }
    }

    /// The definition, moment by moment.
    fn holds_throughout(room: &Room, [base_only, spoil_only, shared]: [i64; 3], loads: &[Load]) -> bool {
        let sum = |of: fn(&Load) -> i64, loads: &[Load]| loads.iter().map(of).sum::<i64>();
        let moment = |left: &[Load], dug: &[Load]| {
            let over_base = (sum(|l| l.base, left) - base_only).max(0);
            let over_spoil = (sum(|l| l.spoil, dug) - spoil_only).max(0);
            over_base + over_spoil <= shared
                && sum(|l| l.supply_mass, left) + sum(|l| l.spoil_mass, dug) <= room.payload
        };
        sum(|l| l.cover, loads) <= room.cover
            && sum(|l| l.binder, loads) <= room.binder
            && sum(|l| l.water, loads) <= room.water
            && (0..loads.len()).all(|at| moment(&loads[at..], &loads[..=at]) && moment(&loads[at + 1..], &loads[..=at]))
            && moment(loads, &[])
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 4000, max_global_rejects: 40_000, ..ProptestConfig::default() })]

        #[test]
        fn a_trip_is_judged_as_defined(loads in prop::collection::vec(any_load(), 0..5), (room, rooms) in any_room()) {
            prop_assert_eq!(room.fits(loads.iter()), holds_throughout(&room, rooms, &loads));
            if let [load] = loads[..] {
                prop_assert_eq!(room.short_of(&load).is_none(), room.fits(loads.iter()));
            }
        }

        #[test]
        fn an_insertion_is_judged_like_the_whole_trip(
            loads in prop::collection::vec(any_load(), 0..5),
            new in any_load(),
            at in 0_usize..5,
            (room, rooms) in any_room(),
        ) {
            let at = at.min(loads.len());
            // an insertion is only ever asked for where trip and site fit by themselves
            prop_assume!(holds_throughout(&room, rooms, &loads) && room.short_of(&new).is_none());
            // the depot, the trip, the depot
            let mut aboard = vec![Aboard::default(); loads.len() + 2];
            let total = follow_trip(&loads, &mut aboard[1..=loads.len()]);
            let mut longer = loads.clone();
            longer.insert(at, new);
            let takes = room.takes(&total, &aboard[at], &aboard[at + 1], &new);
            prop_assert_eq!(takes, holds_throughout(&room, rooms, &longer));
        }
    }
}
