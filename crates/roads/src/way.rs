//! The line driven between two places, for the map, and where the truck turns round on it.

use model::place::{LonLat, Travel};
use model::quantity::metres;
use model::road::SectionId;
use model::round::{TurnRound, Way};

use crate::access::{AccessPlace, Leg, Trip};
use crate::cost::milliseconds;
use crate::network::Network;
use crate::turns::Driven;

impl Network {
    /// The fastest way from one place to another, the same that [`Network::matrix`] counts; `None` where no road leads
    /// there. The way from a place to itself has one point.
    pub fn way(&self, from: &AccessPlace, to: &AccessPlace) -> Option<Way> {
        if from == to {
            let here = self.point_at(from.position.section, from.position.chainage).0;
            return Some(Way { line: vec![here], ..Way::default() });
        }
        let (exits, entries) = (self.exits(from), self.entries(to));
        let states = |legs: &[Leg]| legs.iter().map(|leg| leg.state).collect::<Vec<u32>>();
        let flat = self.routing.costs(&states(&exits), &states(&entries));
        let between = |exit: usize, entry: usize| flat[exit * entries.len() + entry];
        let (cost, trip) = self.fastest((from, &exits), (to, &entries), &between)?;
        let travel_s = milliseconds(cost).div_ceil(1000);
        match trip {
            Trip::Direct(leg) => {
                let (line, distance) = (self.line_of(&leg), metres(leg.metres()));
                Some(Way { line, travel_s, distance, turns_round: Vec::new() })
            }
            Trip::Through(exit, entry) => self.through(&exit, &entry, travel_s),
        }
    }

    fn through(&self, exit: &Leg, entry: &Leg, travel_s: u32) -> Option<Way> {
        let sections = self.routing.sections_between(exit.state, entry.state)?;
        let mut line = self.line_of(exit);
        for (section, travel) in &sections {
            let geometry = &self.geometries[section.0 as usize];
            let (start, end) =
                if *travel == Travel::Forward { (0.0, geometry.length()) } else { (geometry.length(), 0.0) };
            line.extend(geometry.slice(start, end));
        }
        line.extend(self.line_of(entry));
        line.dedup();
        let distance = metres(exit.metres() + self.metres_of(&sections) + entry.metres());
        let mut driven = vec![(exit.section, exit.travel)];
        driven.extend(sections);
        driven.push((entry.section, entry.travel));
        Some(Way { line, travel_s, distance, turns_round: self.turns_round(&driven) })
    }

    /// The nodes at which the truck goes back along the section it came on.
    fn turns_round(&self, driven: &[(SectionId, Travel)]) -> Vec<TurnRound> {
        let back = |pair: &&[(SectionId, Travel)]| pair[0].0 == pair[1].0 && pair[0].1 != pair[1].1;
        let at = |pair: &[(SectionId, Travel)]| {
            let node = model::road::NodeId(Driven::new(pair[0].0, pair[0].1).head(&self.roads));
            let place: LonLat = self.roads.nodes[node.0 as usize];
            TurnRound { node, place }
        };
        driven.windows(2).filter(back).map(at).collect()
    }

    fn line_of(&self, leg: &Leg) -> Vec<LonLat> {
        let mut line = self.geometries[leg.section.0 as usize].slice(leg.from, leg.to);
        line.dedup();
        line
    }
}
