//! What the truck holds, and what to load for each trip.

use model::district::{Cargo, District, Liquid, Truck};
use model::figure::{Figure, Source, Why};
use model::plan::{LoadLine, PlannedSite, TripLoad};
use model::quantity::{InVolume, Mass, Volume, cubic_metres, kilograms};
use model::round::{Capacity, Demand, RoundProblem};
use model::site_unit::{SiteGood, SiteUnit};
use model::work_zone::DeviceKind;

use crate::totals::WantedLoad;

/// One litre of water is one kilogram (definition, near enough at any working temperature).
const WATER_KG_PER_M3: f64 = 1000.0;

/// Room summed over compartments and tanks by what they may hold.
pub(crate) fn capacity(truck: &Truck) -> Capacity {
    let bins = |wanted: &dyn Fn(&[Cargo]) -> bool| -> Volume {
        truck.compartments.iter().filter(|c| wanted(&c.holds)).map(|c| c.volume).sum()
    };
    let tanks = |wanted: Liquid| -> Volume { truck.tanks.iter().filter(|t| t.holds == wanted).map(|t| t.volume).sum() };
    let base = |holds: &[Cargo]| holds.contains(&Cargo::Base);
    let spoil = |holds: &[Cargo]| holds.contains(&Cargo::Spoil);
    Capacity {
        base_volume: bins(&|h| base(h) && !spoil(h)),
        spoil_volume: bins(&|h| spoil(h) && !base(h)),
        shared_volume: bins(&|h| base(h) && spoil(h)),
        cover_volume: bins(&|h| h.contains(&Cargo::CoverStone)),
        binder_volume: tanks(Liquid::Binder),
        water_volume: tanks(Liquid::Water),
        payload: truck.payload,
    }
}

/// What to load for each trip of the round; `wanted` is what to bring for each, and the chance that it suffices.
pub(crate) fn trip_loads(
    trips: &[Vec<usize>],
    wanted: &[WantedLoad],
    problem: &RoundProblem,
    sites: &[PlannedSite],
    district: &District,
) -> Vec<TripLoad> {
    trips.iter().zip(wanted).map(|(trip, wanted)| trip_load(trip, wanted, problem, sites, district)).collect()
}

fn trip_load(
    trip: &[usize],
    &WantedLoad { load: total, suffices, by_material }: &WantedLoad,
    problem: &RoundProblem,
    sites: &[PlannedSite],
    district: &District,
) -> TripLoad {
    let demands: Vec<Demand> = trip.iter().map(|&site| problem.sites[site].demand).collect();
    // The truck must hold what every site wants for itself.
    let all_large = demands.iter().fold(Demand::default(), |sum, demand| add(&sum, demand));
    let most = |kind: DeviceKind| {
        let count = |site: &usize| sites[*site].zone.devices.iter().filter(|d| d.kind == kind).count() as u32;
        trip.iter().map(count).max().unwrap_or(0)
    };
    TripLoad {
        lines: lines(&total, &district.truck, &district.site_units),
        mass_max: mass_max(&all_large, &demands),
        body_volume_max: body_volume_max(&all_large, &demands),
        signs: most(DeviceKind::Sign),
        cones: most(DeviceKind::Cone),
        total,
        suffices,
        suffices_by_material: by_material,
        nearest: Vec::new(),
    }
}

/// Fills compartments that hold one thing first, then those with a partition.
fn lines(total: &Demand, truck: &Truck, units: &[SiteUnit]) -> Vec<LoadLine> {
    let mut base = Portion::new(total.base_volume, total.base_mass);
    let mut cover = Portion::new(total.cover_volume, total.cover_mass);
    let mut binder = Portion::new(total.binder_volume, total.binder_mass);
    let mut water = Portion::new(total.water_volume, water_mass(total.water_volume));
    let mut lines: Vec<(usize, LoadLine)> = Vec::new();
    let mut bins: Vec<(usize, &model::district::Compartment)> = truck.compartments.iter().enumerate().collect();
    bins.sort_by_key(|(_, bin)| bin.holds.len());
    for (index, bin) in bins {
        let (content, good, (volume, mass)) = if bin.holds.contains(&Cargo::CoverStone) {
            ("cover stone", SiteGood::CoverStone, cover.take(bin.volume))
        } else if bin.holds.contains(&Cargo::Base) {
            let content = if bin.holds.contains(&Cargo::Spoil) { "base, spoil behind the partition" } else { "base" };
            (content, SiteGood::Base, base.take(bin.volume))
        } else {
            ("spoil, empty at the start", SiteGood::Spoil, (cubic_metres(0.0), kilograms(0.0)))
        };
        lines.push((index, line(&bin.name, content, volume, mass, bin.volume, good, units)));
    }
    for (index, tank) in truck.tanks.iter().enumerate() {
        let (content, good, (volume, mass)) = match tank.holds {
            Liquid::Binder => ("binder", SiteGood::Binder, binder.take(tank.volume)),
            Liquid::Water => ("water", SiteGood::Water, water.take(tank.volume)),
        };
        let line = line(&tank.name, content, volume, mass, tank.volume, good, units);
        lines.push((truck.compartments.len() + index, line));
    }
    // As the district file lists them.
    lines.sort_by_key(|(index, _)| *index);
    lines.into_iter().map(|(_, line)| line).collect()
}

fn line(
    container: &str,
    content: &str,
    volume: Volume,
    mass: Mass,
    room: Volume,
    good: SiteGood,
    units: &[SiteUnit],
) -> LoadLine {
    let why = Why::new("loaded at the depot", Source::definition());
    let site_count = repair::site_count(good, &Figure::exact(volume, why), units);
    LoadLine { container: container.to_owned(), content: content.to_owned(), good, volume, mass, site_count, room }
}

/// What is still to be put somewhere.
struct Portion {
    volume: Volume,
    mass_per_volume: model::quantity::MassDensity,
}

impl Portion {
    fn new(volume: Volume, mass: Mass) -> Self {
        let some = volume.in_cubic_metres() > 0.0;
        Portion { volume, mass_per_volume: mass / if some { volume } else { cubic_metres(1.0) } }
    }

    fn take(&mut self, room: Volume) -> (Volume, Mass) {
        let taken = if self.volume < room { self.volume } else { room };
        self.volume -= taken;
        (taken, taken * self.mass_per_volume)
    }
}

/// Greatest mass aboard at any moment: leaving the depot, or at a stop with the spoil dug and nothing placed yet.
fn mass_max(total: &Demand, demands: &[Demand]) -> Mass {
    let mut aboard = total.base_mass + total.cover_mass + total.binder_mass + water_mass(total.water_volume);
    let mut most = aboard;
    for demand in demands {
        aboard += demand.spoil_mass;
        most = most.max(aboard);
        aboard -= demand.base_mass + demand.cover_mass + demand.binder_mass + water_mass(demand.water_volume);
    }
    most
}

/// Greatest volume of base and spoil together, with the spoil of a stop aboard before its base is placed.
fn body_volume_max(total: &Demand, demands: &[Demand]) -> Volume {
    let mut aboard = total.base_volume;
    let mut most = aboard;
    for demand in demands {
        aboard += demand.spoil_volume;
        most = most.max(aboard);
        aboard -= demand.base_volume;
    }
    most
}

pub(crate) fn add(a: &Demand, b: &Demand) -> Demand {
    Demand {
        base_volume: a.base_volume + b.base_volume,
        base_mass: a.base_mass + b.base_mass,
        cover_volume: a.cover_volume + b.cover_volume,
        cover_mass: a.cover_mass + b.cover_mass,
        binder_volume: a.binder_volume + b.binder_volume,
        binder_mass: a.binder_mass + b.binder_mass,
        water_volume: a.water_volume + b.water_volume,
        spoil_volume: a.spoil_volume + b.spoil_volume,
        spoil_mass: a.spoil_mass + b.spoil_mass,
    }
}

/// What of a load lies in bins, from one demand, and what is in tanks, from another.
pub(crate) fn of_bins_and_tanks(bins: &Demand, tanks: &Demand) -> Demand {
    Demand {
        binder_volume: tanks.binder_volume,
        binder_mass: tanks.binder_mass,
        water_volume: tanks.water_volume,
        ..*bins
    }
}

pub(crate) fn least(a: &Demand, b: &Demand) -> Demand {
    Demand {
        base_volume: a.base_volume.min(b.base_volume),
        base_mass: a.base_mass.min(b.base_mass),
        cover_volume: a.cover_volume.min(b.cover_volume),
        cover_mass: a.cover_mass.min(b.cover_mass),
        binder_volume: a.binder_volume.min(b.binder_volume),
        binder_mass: a.binder_mass.min(b.binder_mass),
        water_volume: a.water_volume.min(b.water_volume),
        spoil_volume: a.spoil_volume.min(b.spoil_volume),
        spoil_mass: a.spoil_mass.min(b.spoil_mass),
    }
}

fn water_mass(volume: Volume) -> Mass {
    kilograms(volume.in_cubic_metres() * WATER_KG_PER_M3)
}
