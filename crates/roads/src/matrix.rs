//! Driving times and distances between many places.

use model::place::Travel;
use model::road::SectionId;

use crate::access::{AccessPlace, Leg, Trip};
use crate::cost::milliseconds;
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
    /// Metres of that same way, to a few millimetres in a district; [`UNREACHABLE_METRES`] where there is none.
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
    /// fastest way through the network (of equally fast ones the shortest), and into the other's section in that one's
    /// direction of travel. The truck turns round at nodes only, and not where a restriction forbids it.
    pub fn matrix(&self, places: &[AccessPlace]) -> Matrix {
        let exits = Ends::new(places.iter().map(|place| self.exits(place)));
        let entries = Ends::new(places.iter().map(|place| self.entries(place)));
        let flat = self.routing.costs(&exits.states, &entries.states);
        let mut matrix = Matrix::default();
        for (row, from) in places.iter().enumerate() {
            let (mut times, mut lengths) = (Vec::with_capacity(places.len()), Vec::with_capacity(places.len()));
            for (column, to) in places.iter().enumerate() {
                if row == column {
                    times.push(0);
                    lengths.push(0.0);
                    continue;
                }
                let between = |exit: usize, entry: usize| {
                    flat[exits.index[row][exit] * entries.states.len() + entries.index[column][entry]]
                };
                let found = self.fastest((from, &exits.legs[row]), (to, &entries.legs[column]), &between);
                let (ms, metres) = found.map_or((UNREACHABLE_MS, UNREACHABLE_METRES), |(cost, trip)| {
                    let metres = match trip {
                        Trip::Direct(leg) => leg.metres(),
                        Trip::Through(..) => self.routing.scale().metres(cost),
                    };
                    (milliseconds(cost), metres)
                });
                times.push(ms);
                lengths.push(metres);
            }
            matrix.travel_ms.push(times);
            matrix.metres.push(lengths);
        }
        matrix
    }

    pub(crate) fn metres_of(&self, sections: &[(SectionId, Travel)]) -> f64 {
        sections.iter().map(|(section, _)| self.geometries[section.0 as usize].length()).sum()
    }
}

/// The exits or entries of all places, and the different states they lead to or come from.
struct Ends {
    legs: Vec<Vec<Leg>>,
    /// Rising, none twice.
    states: Vec<u32>,
    /// For each leg where its state is among them.
    index: Vec<Vec<usize>>,
}

impl Ends {
    fn new(legs: impl Iterator<Item = Vec<Leg>>) -> Self {
        let legs: Vec<Vec<Leg>> = legs.collect();
        let mut states: Vec<u32> = legs.iter().flatten().map(|leg| leg.state).collect();
        states.sort_unstable();
        states.dedup();
        let place = |leg: &Leg| states.partition_point(|state| *state < leg.state);
        let index = legs.iter().map(|legs| legs.iter().map(place).collect()).collect();
        Ends { legs, states, index }
    }
}
