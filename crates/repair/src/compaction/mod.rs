//! Which compactor, in which lanes, how long.
//!
//! [`ground`] splits the cut into parts that a machine can go over; [`choice`] takes the best machine that fits; [`pattern`]
//! lays its lanes from the corners towards the middle.

pub mod choice;
pub mod ground;
pub mod pattern;

use model::district::{Compactor, CompactorKind};
use model::quantity::{InLength, InVelocity, Length, Time, Velocity, kilometres_per_hour, metres, seconds};
use model::rules::repair::{CompactorPractice, CompactorRules};

pub use choice::{Choice, choose};
pub use ground::Ground;

use crate::layers::count_up;
use ground::Part;

/// One compactor with what it can do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Machine<'a> {
    /// Which kind.
    pub kind: CompactorKind,
    /// Width of drum, plate or foot.
    pub width: Length,
    /// Working speed.
    pub speed: Velocity,
    /// How it is worked.
    pub practice: &'a CompactorPractice,
}

impl<'a> Machine<'a> {
    /// The crew's compactor; what it does not say of it is as usual for its kind.
    pub fn new(compactor: &Compactor, catalogue: &'a CompactorRules) -> Self {
        let practice = catalogue.of(compactor.kind);
        Machine {
            kind: compactor.kind,
            width: compactor.width.unwrap_or_else(|| metres(practice.width_m.value)),
            speed: compactor.speed.unwrap_or_else(|| kilometres_per_hour(practice.speed_km_per_h.value)),
            practice,
        }
    }

    /// Passes of each kind in all, each layer.
    pub fn passes(&self) -> u32 {
        self.practice.static_passes.value + self.practice.vibrating_passes_most.value
    }

    /// Lanes over all parts of the ground, when its sides have grown by `side`.
    pub fn lanes(&self, parts: &[Part], side: f64) -> u32 {
        parts.iter().map(|part| self.lanes_of(part, side)).sum()
    }

    /// Time for one layer: the sum over the parts of `lanes * passes * (length / speed + turn)`.
    pub fn layer_time(&self, parts: &[Part], side: f64) -> Time {
        let turn = seconds(self.practice.turn_s.value);
        let times = parts.iter().map(|part| {
            let lanes = self.lanes_of(part, side);
            rolling_time(1, lanes, self.passes(), metres(part.length_m() * side), self.speed, turn)
        });
        times.fold(seconds(0.0), |sum, time| sum + time)
    }

    pub(crate) fn lanes_of(&self, part: &Part, side: f64) -> u32 {
        lanes_across(metres(part.width_m() * side), self.width, metres(self.practice.lane_overlap_m.value))
    }
}

/// Lanes of the machine across: `ceil((W - o) / (d - o))`, at least one.
///
/// An overlap of more than half the machine's width is taken as half: more would count every strip twice.
pub fn lanes_across(width: Length, machine_width: Length, overlap: Length) -> u32 {
    let machine = machine_width.in_metres();
    let overlap = overlap.in_metres().clamp(0.0, (machine / 2.0).max(0.0));
    count_up((width.in_metres() - overlap) / (machine - overlap))
}

/// Compacting time: `layers * lanes * passes * (length / speed + turn)`.
pub fn rolling_time(layers: u32, lanes: u32, passes: u32, length: Length, speed: Velocity, turn: Time) -> Time {
    let pass = seconds(length.in_metres() / speed.in_metres_per_second()) + turn;
    pass * f64::from(layers) * f64::from(lanes) * f64::from(passes)
}
