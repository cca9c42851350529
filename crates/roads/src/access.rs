//! How a place on a road is reached and left, and which of the ways between two places is fastest.

use model::place::{RoadPosition, Travel};
use model::quantity::InLength;
use model::road::SectionId;

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
    /// The node it leads to or comes from.
    pub node: u32,
    pub ms: u32,
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
    /// Ways from the place to the nodes it leads to.
    pub(crate) fn exits(&self, place: &AccessPlace) -> Vec<Leg> {
        self.travels(place).map(|travel| self.leg(place, travel, true)).collect()
    }

    /// Ways to the place from the nodes it is reached from.
    pub(crate) fn entries(&self, place: &AccessPlace) -> Vec<Leg> {
        self.travels(place).map(|travel| self.leg(place, travel, false)).collect()
    }

    /// The fastest way, given the milliseconds between nodes; of equally fast ones a direct one, then the first.
    pub(crate) fn fastest(
        &self,
        from: &AccessPlace,
        to: &AccessPlace,
        node_ms: &dyn Fn(u32, u32) -> Option<u32>,
    ) -> Option<(u32, Trip)> {
        let direct = self.travels(from).filter_map(|travel| self.direct(from, to, travel));
        let mut best = direct.map(|leg| (leg.ms, Trip::Direct(leg))).next();
        let entries = self.entries(to);
        for exit in self.exits(from) {
            for entry in &entries {
                let Some(between) = node_ms(exit.node, entry.node) else { continue };
                let ms = exit.ms.saturating_add(between).saturating_add(entry.ms);
                if best.is_none_or(|(known, _)| ms < known) {
                    best = Some((ms, Trip::Through(exit, *entry)));
                }
            }
        }
        best
    }

    fn travels(&self, place: &AccessPlace) -> impl Iterator<Item = Travel> + use<> {
        let (place, flow) = (*place, self.section(place.position.section).flow);
        [Travel::Forward, Travel::Backward]
            .into_iter()
            .filter(move |travel| (place.both_ways || *travel == place.position.travel) && allows(flow, *travel))
    }

    fn leg(&self, place: &AccessPlace, travel: Travel, exit: bool) -> Leg {
        let section = self.section(place.position.section);
        let at_end = (travel == Travel::Forward) == exit;
        let end = if at_end { self.geometries[section.id.0 as usize].length() } else { 0.0 };
        let node = if at_end { section.to.0 } else { section.from.0 };
        let here = self.chainage_m(place);
        let (from, to) = if exit { (here, end) } else { (end, here) };
        Leg { section: section.id, from, to, node, ms: self.part_ms(section.id, to - from) }
    }

    fn direct(&self, from: &AccessPlace, to: &AccessPlace, travel: Travel) -> Option<Leg> {
        let section = from.position.section;
        if section != to.position.section || self.travels(to).all(|other| other != travel) {
            return None;
        }
        let (start, end) = (self.chainage_m(from), self.chainage_m(to));
        let ahead = if travel == Travel::Forward { end >= start } else { end <= start };
        ahead.then(|| Leg { section, from: start, to: end, node: 0, ms: self.part_ms(section, end - start) })
    }

    /// Chainage within the section; one that is not a number counts as its start.
    fn chainage_m(&self, place: &AccessPlace) -> f64 {
        let length = self.geometries[place.position.section.0 as usize].length();
        place.position.chainage.in_metres().max(0.0).min(length)
    }

    fn part_ms(&self, section: SectionId, metres: f64) -> u32 {
        let whole = self.geometries[section.0 as usize].length();
        (f64::from(self.routing.section_ms(section)) * metres.abs() / whole).round() as u32
    }
}
