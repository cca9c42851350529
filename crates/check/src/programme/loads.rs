//! What is on the truck, stop by stop.
//!
//! A load of bins is what the stops up to the next load of bins need, of tanks likewise. The spoil of a site comes aboard before
//! its base goes off: the hole is dug before it is filled.

use model::programme::{CrewStopKind, ProgrammeSite};
use model::quantity::{InMass, InVolume};
use model::round::Demand;

use super::Replay;
use crate::Breaches;

/// Volumes are compared in cubic metres; a millilitre is nothing.
const VOLUME_TOLERANCE_M3: f64 = 1e-6;
const MASS_TOLERANCE_KG: f64 = 1e-3;
const WATER_KG_PER_M3: f64 = 1000.0;

/// What is aboard: volumes in cubic metres, masses in kilograms.
#[derive(Debug, Clone, Copy, Default)]
struct Load {
    base: f64,
    cover: f64,
    bins_mass: f64,
    binder: f64,
    water: f64,
    tanks_mass: f64,
    spoil: f64,
    spoil_mass: f64,
}

pub(crate) fn check(round: &Replay, breaches: &mut Breaches) {
    let mut load = round.shift.aboard.map_or_else(Load::default, |aboard| {
        let mut load = Load::default();
        load.fill_bins(&[&aboard.supplies]);
        load.fill_tanks(&[&aboard.supplies]);
        load.spoil = aboard.spoil_volume.in_cubic_metres();
        load.spoil_mass = aboard.spoil_mass.in_kilograms();
        load
    });
    fits(round, &load, "at the begin", breaches);
    for (index, stop) in round.round.stops.iter().enumerate() {
        match stop.kind {
            CrewStopKind::Load(yard) => {
                let gives = round.problem.yards.get(yard).map(|yard| yard.gives).unwrap_or_default();
                if gives.bins {
                    load.fill_bins(&needed(round, index + 1, |gives| gives.bins));
                }
                if gives.tanks {
                    load.fill_tanks(&needed(round, index + 1, |gives| gives.tanks));
                }
                fits(round, &load, &format!("loaded at yard {yard}"), breaches);
            }
            CrewStopKind::Tip(_) => (load.spoil, load.spoil_mass) = (0.0, 0.0),
            CrewStopKind::Work(site) => {
                let Some(ProgrammeSite { demand, .. }) = round.problem.sites.get(site) else { continue };
                load.spoil += demand.spoil_volume.in_cubic_metres();
                load.spoil_mass += demand.spoil_mass.in_kilograms();
                fits(round, &load, &format!("dug at site {site}"), breaches);
                load.give(demand);
                suffices(round, &mut load, site, breaches);
            }
            CrewStopKind::Drive(_) | CrewStopKind::Wait | CrewStopKind::Rest => {}
        }
    }
    let left = load.spoil > VOLUME_TOLERANCE_M3 || load.spoil_mass > MASS_TOLERANCE_KG;
    breaches.require(!left, "programme.spoil_left", || format!("{}: {load:?} when it is over", round.name()));
}

/// Needs of the sites from that stop on up to the next load of the kind.
fn needed<'a>(round: &'a Replay, from: usize, kind: fn(model::programme::Supplies) -> bool) -> Vec<&'a Demand> {
    let yards = &round.problem.yards;
    let goes_on = |stop: &&model::programme::CrewStop| match stop.kind {
        CrewStopKind::Load(yard) => !yards.get(yard).is_some_and(|yard| kind(yard.gives)),
        _ => true,
    };
    let stops = round.round.stops[from..].iter().take_while(goes_on);
    let sites = stops.filter_map(|stop| if let CrewStopKind::Work(site) = stop.kind { Some(site) } else { None });
    sites.filter_map(|site| round.problem.sites.get(site)).map(|site| &site.demand).collect()
}

/// Whether the truck holds it.
fn fits(round: &Replay, load: &Load, when: &str, breaches: &mut Breaches) {
    let truck = &round.shift.capacity;
    let over_base = (load.base - truck.base_volume.in_cubic_metres()).max(0.0);
    let over_spoil = (load.spoil - truck.spoil_volume.in_cubic_metres()).max(0.0);
    let shared = truck.shared_volume.in_cubic_metres();
    breaches.require(over_base + over_spoil <= shared + VOLUME_TOLERANCE_M3, "programme.body", || {
        format!("{}: {when}: base {} m3, spoil {} m3", round.name(), load.base, load.spoil)
    });
    let rooms = [
        ("cover stone", load.cover, truck.cover_volume),
        ("binder", load.binder, truck.binder_volume),
        ("water", load.water, truck.water_volume),
    ];
    for (what, aboard, room) in rooms {
        let room = room.in_cubic_metres();
        breaches.require(aboard <= room + VOLUME_TOLERANCE_M3, "programme.room", || {
            format!("{}: {when}: {aboard} m3 of {what}, room for {room} m3", round.name())
        });
    }
    let (mass, payload) = (load.bins_mass + load.tanks_mass + load.spoil_mass, truck.payload.in_kilograms());
    breaches.require(mass <= payload + MASS_TOLERANCE_KG, "programme.payload", || {
        format!("{}: {when}: {mass} kg aboard of at most {payload} kg", round.name())
    });
}

/// Whether there was enough for the site just done; goes on with none of what was short.
fn suffices(round: &Replay, load: &mut Load, site: usize, breaches: &mut Breaches) {
    let stocks = [
        ("base", &mut load.base),
        ("cover stone", &mut load.cover),
        ("binder", &mut load.binder),
        ("water", &mut load.water),
    ];
    for (what, stock) in stocks {
        breaches.require(*stock >= -VOLUME_TOLERANCE_M3, "programme.runs_out", || {
            format!("{}: site {site} is {} m3 of {what} short", round.name(), -*stock)
        });
        *stock = stock.max(0.0);
    }
    load.bins_mass = load.bins_mass.max(0.0);
    load.tanks_mass = load.tanks_mass.max(0.0);
}

impl Load {
    fn fill_bins(&mut self, needs: &[&Demand]) {
        self.base = needs.iter().map(|need| need.base_volume.in_cubic_metres()).sum();
        self.cover = needs.iter().map(|need| need.cover_volume.in_cubic_metres()).sum();
        self.bins_mass = needs.iter().map(|need| (need.base_mass + need.cover_mass).in_kilograms()).sum();
    }

    fn fill_tanks(&mut self, needs: &[&Demand]) {
        self.binder = needs.iter().map(|need| need.binder_volume.in_cubic_metres()).sum();
        self.water = needs.iter().map(|need| need.water_volume.in_cubic_metres()).sum();
        let mass =
            |need: &&Demand| need.binder_mass.in_kilograms() + WATER_KG_PER_M3 * need.water_volume.in_cubic_metres();
        self.tanks_mass = needs.iter().map(mass).sum();
    }

    fn give(&mut self, need: &Demand) {
        let mut given = Load::default();
        given.fill_bins(&[need]);
        given.fill_tanks(&[need]);
        self.base -= given.base;
        self.cover -= given.cover;
        self.bins_mass -= given.bins_mass;
        self.binder -= given.binder;
        self.water -= given.water;
        self.tanks_mass -= given.tanks_mass;
    }
}
