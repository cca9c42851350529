//! Which compactor, how many lanes across, how long.

use model::district::{Compactor, Plant};
use model::quantity::{InLength, InVelocity, Length, Time, seconds};
use model::rules::repair::{CompactorPractice, CompactorRules};

use crate::layers::count_up;

/// Kinds of compactor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CompactorKind {
    /// Vibratory roller.
    Roller,
    /// Plate compactor.
    Plate,
    /// Hand tamper.
    HandTamper,
}

/// The compactor taken for one cut, and why not a better one.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice<'a> {
    /// Which.
    pub kind: CompactorKind,
    /// The machine.
    pub machine: Compactor,
    /// How it is worked.
    pub practice: &'a CompactorPractice,
    /// In words, why this one.
    pub reason: String,
}

/// The best compactor aboard that fits between the cut's sides.
///
/// Below the surface a drum or plate wider than the cut rides on its edges and compacts nothing but the last layer; so
/// the roller is taken if it fits the surveyed width with the set clearance, else the plate, else the hand tamper.
/// The choice is made once, on the surveyed width: the crew brings what was planned even if the cut grows.
pub fn choose<'a>(plant: &Plant, cut_width: Length, rules: &'a CompactorRules) -> Choice<'a> {
    let fits =
        |machine: &Compactor| machine.width.in_metres() + rules.clearance_m.value <= cut_width.in_metres() + 1e-9;
    let candidates =
        [(CompactorKind::Roller, plant.roller, &rules.roller), (CompactorKind::Plate, plant.plate, &rules.plate)];
    let mut reasons = Vec::new();
    for (kind, machine, practice) in candidates {
        match machine {
            Some(machine) if fits(&machine) => {
                reasons.push(format!("{} fits between the sides", kind.words()));
                return Choice { kind, machine, practice, reason: reasons.join("; ") };
            }
            Some(machine) => reasons.push(format!(
                "{} of {:.2} m does not fit a cut of {:.2} m, it can finish the last layer only",
                kind.words(),
                machine.width.in_metres(),
                cut_width.in_metres(),
            )),
            None => reasons.push(format!("no {} aboard", kind.words())),
        }
    }
    reasons.push("a hand tamper fits every cut".to_owned());
    let (kind, machine) = (CompactorKind::HandTamper, plant.hand_tamper);
    Choice { kind, machine, practice: &rules.hand_tamper, reason: reasons.join("; ") }
}

/// Lanes of the machine across the cut: `ceil((W - o) / (d - o))`, at least one.
///
/// An overlap of more than half the machine's width is taken as half: more would count every strip twice.
pub fn lanes_across(cut_width: Length, machine_width: Length, overlap: Length) -> u32 {
    let machine = machine_width.in_metres();
    let overlap = overlap.in_metres().clamp(0.0, (machine / 2.0).max(0.0));
    count_up((cut_width.in_metres() - overlap) / (machine - overlap))
}

/// Compacting time: `layers * lanes * passes * (length / speed + turn)`.
pub fn rolling_time(layers: u32, lanes: u32, passes: u32, length: Length, machine: &Compactor, turn: Time) -> Time {
    let pass = seconds(length.in_metres() / machine.speed.in_metres_per_second()) + turn;
    pass * f64::from(layers) * f64::from(lanes) * f64::from(passes)
}

impl Choice<'_> {
    /// Passes of each kind in all, each layer.
    pub fn passes(&self) -> u32 {
        self.practice.static_passes.value + self.practice.vibrating_passes_most.value
    }
}

impl CompactorKind {
    /// The trade's name.
    pub fn words(self) -> &'static str {
        match self {
            CompactorKind::Roller => "roller",
            CompactorKind::Plate => "plate compactor",
            CompactorKind::HandTamper => "hand tamper",
        }
    }
}
