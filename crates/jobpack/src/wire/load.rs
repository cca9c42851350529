//! The `demand` and `load` blocks: what the truck gives and takes.

use model::plan::{DeviceNeed, TripLoad};
use model::quantity::{InMass, InVolume};
use model::round::Demand;
use schemars::JsonSchema;
use serde::Serialize;

use super::figures::{SiteCountJson, round, site_count};
use super::zone::device_word;

/// What a site, or a trip, takes from the truck and gives to it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Demand")]
pub struct DemandJson {
    base_volume_m3: f64,
    base_mass_kg: f64,
    cover_volume_m3: f64,
    cover_mass_kg: f64,
    binder_volume_l: f64,
    binder_mass_kg: f64,
    water_volume_l: f64,
    spoil_volume_m3: f64,
    spoil_mass_kg: f64,
}

/// What to load for one trip.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Load")]
pub struct LoadJson {
    /// What is brought; all materials suffice together with the chance below.
    total: DemandJson,
    /// Chance that nothing runs out on the trip, 0 to 1.
    suffices: f64,
    /// The same of each material alone.
    suffices_by_material: ChancesJson,
    /// Where there is more of it if it runs out.
    nearest: Vec<NearestSupplyJson>,
    lines: Vec<LoadLineJson>,
    mass_max_kg: f64,
    /// Greatest volume of base and spoil together at any time on the trip.
    body_volume_max_m3: f64,
    signs: u32,
    cones: u32,
}

/// Chance of each material, 0 to 1.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Chances")]
struct ChancesJson {
    base: f64,
    water: f64,
    binder: f64,
    cover_stone: f64,
}

/// A depot or supply place.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "NearestSupply")]
struct NearestSupplyJson {
    what: &'static str,
    place: String,
    /// From the trip's site that is furthest from it.
    travel_s: u32,
}

/// One compartment's or tank's load.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "LoadLine")]
struct LoadLineJson {
    container: String,
    content: String,
    volume_m3: f64,
    mass_kg: f64,
    /// The same as the crew counts it.
    site_count: Option<SiteCountJson>,
    room_m3: f64,
}

/// Writes a demand.
pub fn demand(demand: &Demand) -> DemandJson {
    DemandJson {
        base_volume_m3: round(demand.base_volume.in_cubic_metres()),
        base_mass_kg: round(demand.base_mass.in_kilograms()),
        cover_volume_m3: round(demand.cover_volume.in_cubic_metres()),
        cover_mass_kg: round(demand.cover_mass.in_kilograms()),
        binder_volume_l: round(demand.binder_volume.in_litres()),
        binder_mass_kg: round(demand.binder_mass.in_kilograms()),
        water_volume_l: round(demand.water_volume.in_litres()),
        spoil_volume_m3: round(demand.spoil_volume.in_cubic_metres()),
        spoil_mass_kg: round(demand.spoil_mass.in_kilograms()),
    }
}

impl From<&TripLoad> for LoadJson {
    fn from(load: &TripLoad) -> Self {
        LoadJson {
            total: demand(&load.total),
            suffices: round(load.suffices),
            suffices_by_material: {
                let [base, water, binder, cover_stone] = load.suffices_by_material.map(round);
                ChancesJson { base, water, binder, cover_stone }
            },
            nearest: load
                .nearest
                .iter()
                .map(|near| NearestSupplyJson { what: near.what, place: near.place.clone(), travel_s: near.travel_s })
                .collect(),
            lines: load
                .lines
                .iter()
                .map(|line| LoadLineJson {
                    container: line.container.clone(),
                    content: line.content.clone(),
                    volume_m3: round(line.volume.in_cubic_metres()),
                    mass_kg: round(line.mass.in_kilograms()),
                    site_count: line.site_count.as_ref().map(site_count),
                    room_m3: round(line.room.in_cubic_metres()),
                })
                .collect(),
            mass_max_kg: round(load.mass_max.in_kilograms()),
            body_volume_max_m3: round(load.body_volume_max.in_cubic_metres()),
            signs: load.signs,
            cones: load.cones,
        }
    }
}

/// How many of one kind of device, or of one sign, stand on the roads at one time.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "DeviceNeed")]
pub struct DeviceNeedJson {
    kind: &'static str,
    /// Of a sign; empty with an empty legend for all signs together.
    designation: String,
    legend: String,
    most: u32,
    /// The first time at which that many are out.
    at: String,
    /// Zones that stand then.
    zones: u32,
}

impl From<&DeviceNeed> for DeviceNeedJson {
    fn from(need: &DeviceNeed) -> Self {
        DeviceNeedJson {
            kind: device_word(need.kind),
            designation: need.designation.clone(),
            legend: need.legend.clone(),
            most: need.most,
            at: need.at.to_string(),
            zones: need.zones,
        }
    }
}
