//! What the events say of repairs, zones and rounds, as far as the books need it.

use std::collections::{BTreeMap, HashMap};

use jiff::Timestamp;
use jiff::civil::Date;
use model::record::happened::{Happened, PlannedRepair, Subject};
use model::record::in_force::InForce;
use rust_decimal::Decimal;
use uuid::Uuid;

use crate::amount;

/// What is known of repairs, zones and rounds from events that stand after corrections.
#[derive(Debug, Default)]
pub struct Facts<'a> {
    /// Repairs, planned or begun.
    pub repairs: BTreeMap<Uuid, Repair<'a>>,
    /// Zones.
    pub zones: BTreeMap<Uuid, Zone<'a>>,
    /// Rounds.
    pub rounds: BTreeMap<Uuid, Round<'a>>,
    hole_repairs: HashMap<Uuid, Vec<Uuid>>,
}

/// A repair.
#[derive(Debug, Default)]
pub struct Repair<'a> {
    /// As planned last, and in which round.
    pub planned: Option<(Uuid, &'a PlannedRepair)>,
    /// Area cut, square metres.
    pub area_m2: Option<Decimal>,
    /// Zone it was cut in.
    pub zone: Option<Uuid>,
    /// When a stage of it was told last.
    pub last_stage: Option<Timestamp>,
    /// Whether it needs no more material: it is sealed, or traffic runs over it.
    pub done: bool,
    /// Minutes of the truck with its plant booked on it.
    pub plant_min: Option<Decimal>,
    /// Crews that had it, each with the place in the list of events from which on.
    crews: Vec<(usize, &'a str)>,
    /// A crew that booked time on it.
    booked_by: Option<&'a str>,
}

/// A zone.
#[derive(Debug, Default)]
pub struct Zone<'a> {
    /// Name of its road.
    pub road: Option<&'a str>,
    /// Round it belongs to.
    pub round: Option<Uuid>,
    /// When it was opened, and the event.
    pub opened: Option<(Timestamp, Uuid)>,
    /// When it was closed, and the event.
    pub closed: Option<(Timestamp, Uuid)>,
    /// Devices put out.
    pub devices_out: Option<u32>,
    /// Devices taken in.
    pub devices_in: Option<u32>,
    /// Repairs cut in it.
    pub repairs: Vec<Uuid>,
}

/// A crew's round as planned last.
#[derive(Debug)]
pub struct Round<'a> {
    /// Its day.
    pub date: Date,
    /// The crew.
    pub crew: &'a str,
    /// Its repairs, in order.
    pub repairs: &'a [PlannedRepair],
}

impl<'a> Facts<'a> {
    /// Gathers what the events say; they are in the order in which they happened.
    pub fn of(events: &[InForce<'a>]) -> Self {
        let mut facts = Facts::default();
        for stands in events {
            facts.take_zone_or_round(stands);
        }
        for (index, stands) in events.iter().enumerate() {
            facts.take_repair(index, stands);
        }
        facts
    }

    /// The road of a repair; empty where nobody said.
    pub fn road_of(&self, repair: Uuid) -> &'a str {
        let Some(repair) = self.repairs.get(&repair) else { return "" };
        let planned = repair.planned.map(|(_, planned)| planned.road.as_str()).filter(|road| !road.is_empty());
        let of_zone = || repair.zone.and_then(|zone| self.zones.get(&zone)).and_then(|zone| zone.road);
        planned.or_else(of_zone).unwrap_or("")
    }

    /// The crew that had a repair at an event: the last that was said to have it by then, else the first that was said to have it
    /// later, else one that booked time on it.
    pub fn crew_at(&self, repair: Uuid, index: usize) -> Option<&'a str> {
        let repair = self.repairs.get(&repair)?;
        let by_then = repair.crews.iter().rev().find(|(from, _)| *from <= index);
        by_then.or(repair.crews.first()).map(|(_, crew)| *crew).or(repair.booked_by)
    }

    /// The crew that had a repair last.
    pub fn crew_of(&self, repair: Uuid) -> Option<&'a str> {
        self.crew_at(repair, usize::MAX)
    }

    /// Repairs that something is about, of those that were begun: for a round the repairs of the round, for a zone those cut in
    /// it, for a hole those that mend it.
    pub fn repairs_begun(&self, of: Subject) -> Vec<Uuid> {
        let mut repairs: Vec<Uuid> = match of {
            Subject::Repair(repair) => return vec![repair],
            Subject::Zone(zone) => self.zones.get(&zone).map(|zone| zone.repairs.clone()).unwrap_or_default(),
            Subject::Round(round) => {
                let round = self.rounds.get(&round);
                round.map(|round| round.repairs.iter().map(|planned| planned.repair).collect()).unwrap_or_default()
            }
            // it is done by others
            Subject::Resurfacing(_) => Vec::new(),
            Subject::Hole(hole) => self.hole_repairs.get(&hole).cloned().unwrap_or_default(),
        };
        repairs.retain(|repair| self.repairs.get(repair).is_some_and(|repair| repair.last_stage.is_some()));
        repairs.sort_unstable();
        repairs.dedup();
        repairs
    }

    fn take_zone_or_round(&mut self, stands: &InForce<'a>) {
        let at = (stands.event.happened_at(), stands.event.id);
        match stands.happened {
            Happened::RoundPlanned { round, date, crew, repairs, .. } => {
                self.rounds.insert(*round, Round { date: *date, crew, repairs });
            }
            Happened::ZoneOpened { zone, round, road, devices_out, .. } => {
                let zone = self.zones.entry(*zone).or_default();
                // opened again, it has to be closed again
                (zone.opened, zone.closed, zone.devices_in) = (Some(at), None, None);
                zone.round = round.or(zone.round);
                zone.road = if road.is_empty() { zone.road } else { Some(road) };
                zone.devices_out = devices_out.or(zone.devices_out);
            }
            Happened::ZoneClosed { zone, devices_in } => {
                let zone = self.zones.entry(*zone).or_default();
                zone.closed = Some(at);
                zone.devices_in = devices_in.or(zone.devices_in);
            }
            _ => {}
        }
    }

    fn take_repair(&mut self, index: usize, stands: &InForce<'a>) {
        let at = stands.event.happened_at();
        match stands.happened {
            Happened::RoundPlanned { round, crew, repairs, .. } => {
                for planned in repairs {
                    for hole in &planned.holes {
                        self.hole_repairs.entry(*hole).or_default().push(planned.repair);
                    }
                    let repair = self.repairs.entry(planned.repair).or_default();
                    repair.planned = Some((*round, planned));
                    repair.had_by(index, crew);
                }
            }
            Happened::HoleCut { repair: number, holes, zone, area_m2, .. } => {
                for hole in holes {
                    self.hole_repairs.entry(*hole).or_default().push(*number);
                }
                let round = zone.and_then(|zone| self.zones.get(&zone)).and_then(|zone| zone.round);
                let crew = round.and_then(|round| self.rounds.get(&round)).map(|round| round.crew);
                if let Some(zone) = zone {
                    self.zones.entry(*zone).or_default().repairs.push(*number);
                }
                let repair = self.repairs.entry(*number).or_default();
                repair.last_stage = Some(at);
                repair.zone = zone.or(repair.zone);
                repair.area_m2 = area_m2.and_then(amount::area).or(repair.area_m2);
                if let Some(crew) = crew {
                    repair.had_by(index, crew);
                }
            }
            Happened::LayerPlaced { repair, .. } => {
                self.repairs.entry(*repair).or_default().last_stage = Some(at);
            }
            Happened::Sealed { repair, .. } | Happened::OpenedToTraffic { repair } => {
                let repair = self.repairs.entry(*repair).or_default();
                repair.last_stage = Some(at);
                repair.done = true;
            }
            Happened::TimeBooked { on: Subject::Repair(repair), crew, plant_min, .. } => {
                let repair = self.repairs.entry(*repair).or_default();
                if let Ok(minutes) = amount::counted(*plant_min) {
                    *repair.plant_min.get_or_insert_default() += minutes;
                }
                if !crew.is_empty() {
                    repair.booked_by = Some(crew);
                }
            }
            _ => {}
        }
    }
}

impl<'a> Repair<'a> {
    fn had_by(&mut self, index: usize, crew: &'a str) {
        if !crew.is_empty() && self.crews.last().is_none_or(|(_, last)| *last != crew) {
            self.crews.push((index, crew));
        }
    }
}
