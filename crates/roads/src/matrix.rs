//! Driving times and distances between many places.

use std::collections::{BTreeMap, BTreeSet};

use cch::PathQuery;
use model::place::Travel;
use model::road::SectionId;

use crate::access::{AccessPlace, Trip};
use crate::network::Network;

/// Stands in [`Matrix::travel_ms`] where no road leads there.
pub const UNREACHABLE_MS: u32 = u32::MAX;
/// Stands in [`Matrix::metres`] where no road leads there.
pub const UNREACHABLE_METRES: f64 = f64::MAX;

/// Driving between places: row from, column to. The diagonal is 0.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Matrix {
    /// Milliseconds of the fastest way; [`UNREACHABLE_MS`] where there is none.
    pub travel_ms: Vec<Vec<u32>>,
    /// Metres of that same way; [`UNREACHABLE_METRES`] where there is none.
    pub metres: Vec<Vec<f64>>,
}

impl Matrix {
    /// The times in seconds, rounded up, `u32::MAX` where no road leads there. Rounding up keeps what holds for the
    /// milliseconds: no way is slower than one with a halt between.
    pub fn travel_s(&self) -> Vec<Vec<u32>> {
        let seconds = |&ms: &u32| if ms == UNREACHABLE_MS { u32::MAX } else { ms.div_ceil(1000) };
        self.travel_ms.iter().map(|row| row.iter().map(seconds).collect()).collect()
    }
}

impl Network {
    /// Driving between directed places: from a place on in its direction of travel to the end of its section, the
    /// fastest way through the network, and into the other's section in that one's direction of travel. The truck
    /// turns round at nodes only.
    pub fn matrix(&self, places: &[AccessPlace]) -> Matrix {
        let nodes = |legs: &dyn Fn(&AccessPlace) -> Vec<u32>| -> Vec<u32> {
            places.iter().flat_map(legs).collect::<BTreeSet<u32>>().into_iter().collect()
        };
        let sources = nodes(&|place| self.exits(place).iter().map(|leg| leg.node).collect());
        let targets = nodes(&|place| self.entries(place).iter().map(|leg| leg.node).collect());
        let flat = self.routing.node_matrix(&sources, &targets);
        let node_ms = |source: u32, target: u32| -> Option<u32> {
            let row = sources.binary_search(&source).ok()?;
            let column = targets.binary_search(&target).ok()?;
            flat[row * targets.len() + column]
        };

        let view = self.routing.view();
        let mut query = PathQuery::new(&view);
        let mut between: BTreeMap<(u32, u32), f64> = BTreeMap::new();
        let mut matrix = Matrix::default();
        for (row, from) in places.iter().enumerate() {
            let (mut times, mut lengths) = (Vec::with_capacity(places.len()), Vec::with_capacity(places.len()));
            for (column, to) in places.iter().enumerate() {
                let (ms, metres) = if row == column {
                    (0, 0.0)
                } else {
                    self.fastest(from, to, &node_ms).map_or((UNREACHABLE_MS, UNREACHABLE_METRES), |(ms, trip)| {
                        let metres = match trip {
                            Trip::Direct(leg) => leg.metres(),
                            Trip::Through(exit, entry) => {
                                let pair = (exit.node, entry.node);
                                let middle = *between
                                    .entry(pair)
                                    .or_insert_with(|| self.metres_between(&mut query, pair.0, pair.1));
                                exit.metres() + middle + entry.metres()
                            }
                        };
                        (ms, metres)
                    })
                };
                times.push(ms);
                lengths.push(metres);
            }
            matrix.travel_ms.push(times);
            matrix.metres.push(lengths);
        }
        matrix
    }

    fn metres_between(&self, query: &mut PathQuery<'_>, source: u32, target: u32) -> f64 {
        let sections = self.routing.sections_between(query, source, target).unwrap_or_default();
        self.metres_of(&sections)
    }

    pub(crate) fn metres_of(&self, sections: &[(SectionId, Travel)]) -> f64 {
        sections.iter().map(|(section, _)| self.geometries[section.0 as usize].length()).sum()
    }
}
