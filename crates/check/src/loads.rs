//! The truck holds what it must, at every moment of every trip.

use model::district::{Cargo, Liquid};
use model::plan::Plan;
use model::quantity::{InMass, InVolume};
use model::round::Demand;

use crate::Breaches;

/// Volumes are compared in cubic metres; a millilitre is nothing.
const VOLUME_TOLERANCE_M3: f64 = 1e-6;
const MASS_TOLERANCE_KG: f64 = 1e-3;

pub(crate) fn check(plan: &Plan, breaches: &mut Breaches) {
    breaches.require(plan.loads.len() == plan.round.trips.len(), "load.trips", || {
        format!("{} loads for {} trips", plan.loads.len(), plan.round.trips.len())
    });
    for (trip, sites) in plan.round.trips.iter().enumerate() {
        // Where yards give or take only a part, a trip does not begin with an empty truck: the programme's own check
        // follows each good.
        if plan.problem.yards.is_empty() {
            replay(plan, trip, sites, breaches);
        }
        lines(plan, trip, breaches);
    }
}

/// Drives the trip again with scales on the truck.
fn replay(plan: &Plan, trip: usize, sites: &[usize], breaches: &mut Breaches) {
    let room = Room::of(plan);
    let demands: Vec<&Demand> =
        sites.iter().filter_map(|&site| plan.problem.sites.get(site)).map(|site| &site.demand).collect();
    let sum = |part: &dyn Fn(&Demand) -> f64| demands.iter().map(|d| part(d)).sum::<f64>();
    let mut base = sum(&|d| d.base_volume.in_cubic_metres());
    let mut spoil = 0.0;
    let mut mass = sum(&|d| {
        (d.base_mass + d.cover_mass + d.binder_mass).in_kilograms() + 1000.0 * d.water_volume.in_cubic_metres()
    });
    for (step, demand) in std::iter::once(&Demand::default()).chain(demands.iter().copied()).enumerate() {
        // The spoil comes aboard before the hole is filled: that moment is the fullest.
        spoil += demand.spoil_volume.in_cubic_metres();
        mass += demand.spoil_mass.in_kilograms();
        let shared = (base - room.base_only).max(0.0) + (spoil - room.spoil_only).max(0.0);
        breaches.require(shared <= room.shared + VOLUME_TOLERANCE_M3, "load.body", || {
            format!("trip {trip} at stop {step}: base {base} m3 and spoil {spoil} m3 do not fit")
        });
        breaches.require(
            mass <= plan.district.truck.payload.in_kilograms() + MASS_TOLERANCE_KG,
            "load.payload",
            || format!("trip {trip} at stop {step}: {mass} kg aboard"),
        );
        let stated = plan.loads.get(trip).map_or(0.0, |load| load.mass_max.in_kilograms());
        breaches.require(mass <= stated + MASS_TOLERANCE_KG, "load.mass_max", || {
            format!("trip {trip} at stop {step}: {mass} kg aboard, at most {stated} kg stated")
        });
        base -= demand.base_volume.in_cubic_metres();
        mass -= (demand.base_mass + demand.cover_mass + demand.binder_mass).in_kilograms()
            + 1000.0 * demand.water_volume.in_cubic_metres();
    }
    let within = [
        (sum(&|d| d.cover_volume.in_cubic_metres()), room.cover, "cover stone"),
        (sum(&|d| d.binder_volume.in_cubic_metres()), room.binder, "binder"),
        (sum(&|d| d.water_volume.in_cubic_metres()), room.water, "water"),
    ];
    for (needed, there, what) in within {
        breaches.require(needed <= there + VOLUME_TOLERANCE_M3, "load.room", || {
            format!("trip {trip}: {needed} m3 of {what}, room for {there} m3")
        });
    }
}

/// What is loaded fits its container and adds up to what the sites need.
fn lines(plan: &Plan, trip: usize, breaches: &mut Breaches) {
    let Some(load) = plan.loads.get(trip) else { return };
    for line in &load.lines {
        breaches.require(
            line.volume.in_cubic_metres() <= line.room.in_cubic_metres() + VOLUME_TOLERANCE_M3,
            "load.container",
            || format!("trip {trip}: {} holds {:?} of {:?}", line.container, line.volume, line.room),
        );
    }
    let loaded: f64 = load.lines.iter().map(|l| l.volume.in_cubic_metres()).sum();
    let needed =
        (load.total.base_volume + load.total.cover_volume + load.total.binder_volume + load.total.water_volume)
            .in_cubic_metres();
    breaches.require(loaded + VOLUME_TOLERANCE_M3 >= needed, "load.enough", || {
        format!("trip {trip}: {loaded} m3 loaded in all, {needed} m3 needed")
    });
}

struct Room {
    base_only: f64,
    spoil_only: f64,
    shared: f64,
    cover: f64,
    binder: f64,
    water: f64,
}

impl Room {
    fn of(plan: &Plan) -> Self {
        let truck = &plan.district.truck;
        let bins = |wanted: &dyn Fn(&[Cargo]) -> bool| {
            truck.compartments.iter().filter(|c| wanted(&c.holds)).map(|c| c.volume.in_cubic_metres()).sum::<f64>()
        };
        let tanks = |wanted: Liquid| {
            truck.tanks.iter().filter(|t| t.holds == wanted).map(|t| t.volume.in_cubic_metres()).sum::<f64>()
        };
        let has = |holds: &[Cargo], cargo: Cargo| holds.contains(&cargo);
        Room {
            base_only: bins(&|h| has(h, Cargo::Base) && !has(h, Cargo::Spoil)),
            spoil_only: bins(&|h| has(h, Cargo::Spoil) && !has(h, Cargo::Base)),
            shared: bins(&|h| has(h, Cargo::Base) && has(h, Cargo::Spoil)),
            cover: bins(&|h| has(h, Cargo::CoverStone)),
            binder: tanks(Liquid::Binder),
            water: tanks(Liquid::Water),
        }
    }
}
