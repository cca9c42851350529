//! How a place on a road is reached and left, and which of the ways between two places is fastest.

use model::place::{RoadPosition, Travel};
use model::quantity::InLength;
use model::road::SectionId;

use crate::cost::{Cost, UNREACHABLE};
use crate::network::Network;
use crate::routing::allows;

/// A place the truck drives to and from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AccessPlace {
    /// Where it is. The truck arrives and leaves in its `travel`, with the traffic.
    pub position: RoadPosition,
    /// The truck may arrive and leave in either direction (a depot), as far as traffic is allowed that way.
    pub both_ways: bool,
}

/// The part of a section between a place and one of its ends, driven with traffic.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Leg {
    pub section: SectionId,
    /// Metres of chainage at which it begins and ends, in driving order.
    pub from: f64,
    pub to: f64,
    pub travel: Travel,
    /// The state it leads to or comes from; none on a direct way.
    pub state: u32,
    pub cost: Cost,
}

/// The fastest way between two places, its middle part still to be unpacked.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Trip {
    /// Along the one section both are on.
    Direct(Leg),
    /// Out to a node, through the network, in from a node.
    Through(Leg, Leg),
}

impl AccessPlace {
    /// A site: reached and left in the direction of its traffic.
    pub fn site(position: RoadPosition) -> Self {
        AccessPlace { position, both_ways: false }
    }

    /// A depot: reached and left in any direction allowed.
    pub fn depot(position: RoadPosition) -> Self {
        AccessPlace { position, both_ways: true }
    }
}

impl Leg {
    pub fn metres(&self) -> f64 {
        (self.to - self.from).abs()
    }
}

impl Network {
    /// Ways from the place to the states they lead to.
    pub(crate) fn exits(&self, place: &AccessPlace) -> Vec<Leg> {
        self.travels(place)
            .map(|travel| {
                let state = self.routing.state_after(place.position.section, travel, &self.roads);
                self.leg(place, travel, true, state)
            })
            .collect()
    }

    /// Ways to the place from the states it is reached from.
    pub(crate) fn entries(&self, place: &AccessPlace) -> Vec<Leg> {
        self.travels(place)
            .flat_map(|travel| {
                let states = self.routing.states_before(place.position.section, travel, &self.roads);
                states.into_iter().map(move |state| self.leg(place, travel, false, state))
            })
            .collect()
    }

    /// The cheapest way, given the costs between the state that an exit leads to and that an entry comes from; of equally
    /// cheap ones a direct one, then the first.
    pub(crate) fn fastest(
        &self,
        (from, exits): (&AccessPlace, &[Leg]),
        (to, entries): (&AccessPlace, &[Leg]),
        between: &dyn Fn(usize, usize) -> Cost,
    ) -> Option<(Cost, Trip)> {
        let mut best = self.direct_way(from, to).map(|leg| (leg.cost, Trip::Direct(leg)));
        for (row, exit) in exits.iter().enumerate() {
            for (column, entry) in entries.iter().enumerate() {
                let cost = exit.cost + between(row, column) + entry.cost;
                if cost < best.map_or(UNREACHABLE, |(known, _)| known) {
                    best = Some((cost, Trip::Through(*exit, *entry)));
                }
            }
        }
        best
    }

    /// Straight on along the section that both places are on.
    pub(crate) fn direct_way(&self, from: &AccessPlace, to: &AccessPlace) -> Option<Leg> {
        if from.position.section != to.position.section {
            return None;
        }
        self.travels(from).find_map(|travel| self.direct(from, to, travel))
    }

    fn travels(&self, place: &AccessPlace) -> impl Iterator<Item = Travel> + use<> {
        let (place, flow) = (*place, self.section(place.position.section).flow);
        let barred = self.barred(place.position.section).is_some();
        [Travel::Forward, Travel::Backward].into_iter().filter(move |travel| {
            !barred && (place.both_ways || *travel == place.position.travel) && allows(flow, *travel)
        })
    }

    fn leg(&self, place: &AccessPlace, travel: Travel, exit: bool, state: u32) -> Leg {
        let section = self.section(place.position.section);
        let at_end = (travel == Travel::Forward) == exit;
        let end = if at_end { self.geometries[section.id.0 as usize].length() } else { 0.0 };
        let here = self.chainage_m(place);
        let (from, to) = if exit { (here, end) } else { (end, here) };
        Leg { section: section.id, from, to, travel, state, cost: self.part(section.id, to - from) }
    }

    fn direct(&self, from: &AccessPlace, to: &AccessPlace, travel: Travel) -> Option<Leg> {
        let section = from.position.section;
        if section != to.position.section || self.travels(to).all(|other| other != travel) {
            return None;
        }
        let (start, end) = (self.chainage_m(from), self.chainage_m(to));
        let ahead = if travel == Travel::Forward { end >= start } else { end <= start };
        let cost = self.part(section, end - start);
        ahead.then_some(Leg { section, from: start, to: end, travel, state: 0, cost })
    }

    /// Chainage within the section; one that is not a number counts as its start.
    fn chainage_m(&self, place: &AccessPlace) -> f64 {
        let length = self.geometries[place.position.section.0 as usize].length();
        place.position.chainage.in_metres().max(0.0).min(length)
    }

    fn part(&self, section: SectionId, metres: f64) -> Cost {
        let whole = self.geometries[section.0 as usize].length();
        self.routing.part(section, metres.abs(), whole)
    }
}
