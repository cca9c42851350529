//! What a truck holds, in whole numbers.
//!
//! At a site the spoil comes on before the base goes off (it is cut out before it is filled), so the fullest moment there
//! has the base of this and all later sites up to the next load, and the spoil of this and all earlier ones since the last
//! tip. At every such moment
//!
//! ```text
//! max(0, base - base_only) + max(0, spoil - spoil_only) <= shared
//! mass of everything aboard <= payload
//! ```
//!
//! and cover stone, binder and water keep to their rooms. The first line is the same as three linear ones,
//! `base <= base_only + shared`, `spoil <= spoil_only + shared` and `base + spoil <= base_only + spoil_only + shared`, so
//! the truck has seven rooms, each with what is brought into it from bins, from tanks, and what is taken on.

use model::quantity::{InMass, InVolume, Mass, Volume};
use model::round::{Capacity, Demand};

/// The rooms, in the order of [`Load`] and [`Room`].
const ROOMS: [&str; 7] = [
    "room for base",
    "room for spoil",
    "room for base and spoil together",
    "room for cover stone",
    "room for binder",
    "room for water",
    "payload",
];

/// What one site takes and gives, by room, in whole microlitres and milligrams.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct Load {
    /// Base and cover stone.
    pub from_bins: [i64; ROOMS.len()],
    /// Binder and water.
    pub from_tanks: [i64; ROOMS.len()],
    /// Spoil.
    pub taken_on: [i64; ROOMS.len()],
}

/// The truck's rooms in the same order and units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Room(pub [i64; ROOMS.len()]);

impl Load {
    /// Rounds a demand to whole units. Water is carried at 1 kg per litre.
    ///
    /// `None`: some figure is negative or not a number.
    pub fn new(demand: &Demand) -> Option<Self> {
        let (base, spoil) = (volume(demand.base_volume)?, volume(demand.spoil_volume)?);
        let (cover, binder, water) =
            (volume(demand.cover_volume)?, volume(demand.binder_volume)?, volume(demand.water_volume)?);
        let dry = mass(demand.base_mass)?.saturating_add(mass(demand.cover_mass)?);
        // A microlitre of water weighs a milligram.
        let wet = mass(demand.binder_mass)?.saturating_add(water);
        Some(Load {
            from_bins: [base, 0, base, cover, 0, 0, dry],
            from_tanks: [0, 0, 0, 0, binder, water, wet],
            taken_on: [0, spoil, spoil, 0, 0, 0, mass(demand.spoil_mass)?],
        })
    }

    /// Most in each room while this one site is done.
    pub fn most(&self) -> [i64; ROOMS.len()] {
        std::array::from_fn(|room| {
            self.from_bins[room].saturating_add(self.from_tanks[room]).saturating_add(self.taken_on[room])
        })
    }
}

impl Room {
    /// A capacity that is negative or not a number counts as none.
    pub fn new(capacity: &Capacity) -> Self {
        let room = |v: Volume| volume(v).unwrap_or(0);
        let (base, spoil) = (room(capacity.base_volume), room(capacity.spoil_volume));
        let shared = room(capacity.shared_volume);
        let payload = mass(capacity.payload).unwrap_or(0);
        let (cover, binder, water) =
            (room(capacity.cover_volume), room(capacity.binder_volume), room(capacity.water_volume));
        let rooms = [base + shared, spoil + shared, base + spoil + shared, cover, binder, water, payload];
        Room(rooms.map(|room| room.min(tours::GREATEST)))
    }

    /// What the truck is short of for this one load; `None`: it fits.
    pub fn short_of(&self, load: &Load) -> Option<&'static str> {
        let most = load.most();
        (0..ROOMS.len()).find(|&room| most[room] > self.0[room]).map(|room| ROOMS[room])
    }
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
    (value >= 0.0).then(|| value.min(tours::GREATEST as f64).round() as i64)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2000))]

        /// Three rooms for base and spoil say the same as a movable partition.
        #[test]
        fn rooms_are_those_of_the_definition(
            [base_only, spoil_only, shared] in prop::array::uniform3(0_u32..30),
            [base, spoil] in prop::array::uniform2(0_u32..50),
        ) {
            let litres = |litres: u32| model::quantity::litres(f64::from(litres));
            let capacity = Capacity {
                base_volume: litres(base_only),
                spoil_volume: litres(spoil_only),
                shared_volume: litres(shared),
                ..Capacity::default()
            };
            let demand = Demand { base_volume: litres(base), spoil_volume: litres(spoil), ..Demand::default() };
            let defined = base.saturating_sub(base_only) + spoil.saturating_sub(spoil_only) <= shared;
            let load = Load::new(&demand).expect("sound");
            prop_assert_eq!(Room::new(&capacity).short_of(&load).is_none(), defined);
        }
    }
}
