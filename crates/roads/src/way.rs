//! The line driven between two places, for the map.

use cch::PathQuery;
use model::place::{LonLat, Travel};
use model::quantity::metres;
use model::round::Way;

use crate::access::{AccessPlace, Leg, Trip};
use crate::network::Network;

impl Network {
    /// The fastest way from one place to another, the same that [`Network::matrix`] counts; `None` where no road leads
    /// there. The way from a place to itself has one point.
    pub fn way(&self, from: &AccessPlace, to: &AccessPlace) -> Option<Way> {
        if from == to {
            let here = self.point_at(from.position.section, from.position.chainage).0;
            return Some(Way { line: vec![here], travel_s: 0, distance: metres(0.0) });
        }
        let sources: Vec<u32> = self.exits(from).iter().map(|leg| leg.node).collect();
        let targets: Vec<u32> = self.entries(to).iter().map(|leg| leg.node).collect();
        let flat = self.routing.node_matrix(&sources, &targets);
        let node_ms = |source: u32, target: u32| -> Option<u32> {
            let row = sources.iter().position(|node| *node == source)?;
            let column = targets.iter().position(|node| *node == target)?;
            flat[row * targets.len() + column]
        };
        let (ms, trip) = self.fastest(from, to, &node_ms)?;
        let (line, length) = match trip {
            Trip::Direct(leg) => (self.line_of(&leg), leg.metres()),
            Trip::Through(exit, entry) => self.through(&exit, &entry)?,
        };
        Some(Way { line, travel_s: ms.div_ceil(1000), distance: metres(length) })
    }

    fn through(&self, exit: &Leg, entry: &Leg) -> Option<(Vec<LonLat>, f64)> {
        let view = self.routing.view();
        let sections = self.routing.sections_between(&mut PathQuery::new(&view), exit.node, entry.node)?;
        let mut line = self.line_of(exit);
        for (section, travel) in &sections {
            let geometry = &self.geometries[section.0 as usize];
            let (start, end) =
                if *travel == Travel::Forward { (0.0, geometry.length()) } else { (geometry.length(), 0.0) };
            line.extend(geometry.slice(start, end));
        }
        line.extend(self.line_of(entry));
        line.dedup();
        Some((line, exit.metres() + self.metres_of(&sections) + entry.metres()))
    }

    fn line_of(&self, leg: &Leg) -> Vec<LonLat> {
        let mut line = self.geometries[leg.section.0 as usize].slice(leg.from, leg.to);
        line.dedup();
        line
    }
}
