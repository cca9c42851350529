//! Several crews of one district, and the places where their trucks may call during a shift.

use jiff::civil::Time as ClockTime;
use serde::Deserialize;

use crate::district::{Crew, Depot, DevicesOwned, District, Plant, Shift, Truck};
use crate::place::LonLat;
use crate::quantity::Time;

/// A crew beside the district's own. What it has not of its own is as the district's.
#[derive(Debug, Clone, PartialEq)]
pub struct FurtherCrew {
    /// The crew; no two of a district bear one name.
    pub crew: Crew,
    /// Where it starts and ends: the district's depot or one of its further ones.
    pub depot: Option<Depot>,
    /// Working time.
    pub shift: Option<Shift>,
    /// The truck.
    pub truck: Option<Truck>,
    /// Plant.
    pub plant: Option<Plant>,
    /// Traffic devices.
    pub devices_owned: Option<DevicesOwned>,
}

/// A place where a truck may call during a shift: a stockpile, a tip, a water point.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplyPlace {
    /// Name; no depot and no other supply place of the district bears it.
    pub name: String,
    /// Where.
    pub position: LonLat,
    /// What is loaded there, each once; empty at a tip.
    pub gives: Vec<SuppliedGood>,
    /// Whether spoil may be tipped there.
    pub takes_spoil: bool,
    /// Time of one call, whatever is loaded and tipped.
    pub handling: Time,
    /// Opens then; `None`: from midnight.
    pub open_from: Option<ClockTime>,
    /// Closes then; `None`: at midnight.
    pub open_to: Option<ClockTime>,
}

/// What a supply place may give.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum SuppliedGood {
    Base,
    CoverStone,
    Binder,
    Water,
}

/// What an agency counts work and risk at, in money, so that one can be held against the other.
#[derive(Debug, Clone, PartialEq)]
pub struct Prices {
    /// Currency, by its code of three letters (ISO 4217); `XTS`, the standard's code for tests, where no price is the
    /// agency's own.
    pub currency: String,
    /// One hour of the whole crew with its truck and plant.
    pub crew_hour: f64,
    /// One kilometre driven by the truck.
    pub truck_km: f64,
    /// One point of risk left on the road for one day.
    pub point_day: f64,
}

impl District {
    /// How many crews the district has.
    pub fn crew_count(&self) -> usize {
        1 + self.further_crews.len()
    }

    /// The district as one of its crews sees it: its depot, crew, shift, truck, plant and devices, and no further crews
    /// or depots. Crew 0 is the district's own, crew k the further crew k - 1; beyond the last, the district's own.
    #[must_use]
    pub fn of_crew(&self, index: usize) -> District {
        let alone = District { further_crews: Vec::new(), further_depots: Vec::new(), ..self.clone() };
        let Some(own) = index.checked_sub(1).and_then(|further| self.further_crews.get(further)) else { return alone };
        let own = own.clone();
        District {
            crew: own.crew,
            depot: own.depot.unwrap_or(alone.depot),
            shift: own.shift.unwrap_or(alone.shift),
            truck: own.truck.unwrap_or(alone.truck),
            plant: own.plant.unwrap_or(alone.plant),
            devices_owned: own.devices_owned.unwrap_or(alone.devices_owned),
            ..alone
        }
    }
}
