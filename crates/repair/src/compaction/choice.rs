//! The compactors taken for one cut.

use model::district::{Compactor, CompactorKind, Plant};
use model::quantity::{InLength, Length, metres};
use model::rules::repair::CompactorRules;

use super::{Ground, Machine};
use crate::layers::layer_count;

/// The compactors taken for one cut, and why not better ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice<'a> {
    /// Works inside the cut: every layer, or every layer but the last.
    pub in_cut: Machine<'a>,
    /// Finishes the last layer from above, where one does that better than the one inside.
    pub last: Option<Machine<'a>>,
    /// In words, why these.
    pub reason: String,
}

/// The best compactors aboard for a cut of that depth.
///
/// Inside the cut: of those that fit between its sides the one that compacts the thickest layer, for that gives the fewest
/// layers; of equals the quickest, then the first in the list. A hand tamper is always aboard and fits every cut.
///
/// The last of several layers may be finished from above by a drum that does not fit inside, if the machine inside is no
/// drum and the one above compacts layers as thick. With one layer only, the machine inside does it all: there is nothing
/// firm yet for a drum that rides on the sides.
///
/// The choice is made once, for the cut as surveyed: the crew brings what was planned even if the cut grows.
pub fn choose<'a>(plant: &Plant, ground: &Ground, depth: Length, catalogue: &'a CompactorRules) -> Choice<'a> {
    let hand_tamper = Compactor { kind: CompactorKind::HandTamper, width: None, speed: None };
    let owned = plant.compactors.iter().any(|compactor| compactor.kind == CompactorKind::HandTamper);
    let always = (!owned).then_some(&hand_tamper);
    let aboard: Vec<Machine> =
        plant.compactors.iter().chain(always).map(|compactor| Machine::new(compactor, catalogue)).collect();
    let time = |machine: &Machine<'a>| machine.layer_time(&machine.parts(ground), 1.0);
    // `min_by` keeps the first of equals.
    let in_cut = aboard
        .iter()
        .filter(|machine| machine.fits(ground))
        .min_by(|a, b| {
            let thickest = b.greatest_layer().partial_cmp(&a.greatest_layer());
            let quickest = time(a).partial_cmp(&time(b));
            let equal = std::cmp::Ordering::Equal;
            thickest.unwrap_or(equal).then(quickest.unwrap_or(equal))
        })
        .copied()
        .unwrap_or_else(|| Machine::new(&hand_tamper, catalogue));
    let last = aboard
        .iter()
        .filter(|machine| !machine.fits(ground) && machine.practice.finishes_last_layer.value)
        .filter(|machine| machine.greatest_layer() >= in_cut.greatest_layer())
        .min_by(|a, b| time(a).partial_cmp(&time(b)).unwrap_or(std::cmp::Ordering::Equal))
        .filter(|_| !in_cut.practice.finishes_last_layer.value && layer_count(depth, in_cut.greatest_layer()) > 1)
        .copied();
    Choice { in_cut, last, reason: reason(&in_cut, last.as_ref(), &aboard, ground) }
}

/// Why not a stronger one, and why this one.
fn reason(in_cut: &Machine, last: Option<&Machine>, aboard: &[Machine], ground: &Ground) -> String {
    let stronger = aboard
        .iter()
        .filter(|machine| !machine.fits(ground) && machine.greatest_layer() >= in_cut.greatest_layer())
        .map(|machine| machine.why_not(ground));
    let mut words: Vec<String> = stronger.collect();
    words.push(match in_cut.kind {
        CompactorKind::HandTamper => "a hand tamper fits every cut".to_owned(),
        kind => format!("{} fits between the sides", kind.words()),
    });
    if let Some(last) = last {
        words.push(format!("{} finishes the last layer from above", last.kind.words()));
    }
    words.join("; ")
}

impl Choice<'_> {
    /// The trade's names, and which layers each has where there are two.
    pub fn words(&self) -> String {
        match self.last {
            Some(last) => format!("{}, last layer {}", self.in_cut.kind.words(), last.kind.words()),
            None => self.in_cut.kind.words().to_owned(),
        }
    }
}

impl Machine<'_> {
    /// Greatest compacted thickness of one layer.
    pub fn greatest_layer(&self) -> Length {
        metres(self.practice.greatest_layer_m.value)
    }

    /// Width that it needs between the sides.
    pub(crate) fn room_across(&self) -> Length {
        self.width + metres(self.practice.clearance_m.value)
    }

    /// Whether it may and can work inside the cut. A hand tamper always can.
    pub fn fits(&self, ground: &Ground) -> bool {
        let has_room = || ground.has_room(self.room_across(), metres(self.practice.room_along_m.value));
        self.kind == CompactorKind::HandTamper || (self.practice.works_in_cut.value && has_room())
    }

    fn why_not(&self, ground: &Ground) -> String {
        let name = self.kind.words();
        let clear = ground.clear_width();
        if !self.practice.works_in_cut.value {
            format!("{name} does not work inside a cut")
        } else if self.room_across() > clear {
            format!(
                "{name} of {:.2} m does not fit a cut of {:.2} m clear width",
                self.width.in_metres(),
                clear.in_metres()
            )
        } else {
            format!("{name} does not fit a cut shorter than {:.1} m", self.practice.room_along_m.value)
        }
    }
}
