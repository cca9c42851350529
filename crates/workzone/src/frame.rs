//! The frame of the traffic in the lane worked in: along its travel, and across from the centre line towards the
//! side it keeps to, in the rule set's unit. One computation serves both directions and both driving sides; this is where it is mirrored.

use model::district::DrivingSide;
use model::place::{Side, Travel};
use model::quantity::{Length, metres};
use model::road::{Flow, RoadSection};
use model::rules::traffic::Units;

use crate::ZoneInput;

/// Signs that map the traffic's frame to the section's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// +1 where traffic meets increasing chainage, -1 where decreasing.
    along: f64,
    /// +1 where the side traffic keeps to has positive `across`, else -1.
    near: f64,
    /// Units of the rule set.
    units: Units,
}

/// The box around the work in the traffic's frame, in the rule set's unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extent {
    /// Upstream end.
    pub upstream: f64,
    /// Downstream end.
    pub downstream: f64,
    /// Edge away from the side kept to.
    pub inner: f64,
    /// Edge towards the side kept to.
    pub outer: f64,
}

impl Frame {
    /// The frame for a direction of travel and a driving side, in a rule set's units.
    pub fn of(travel: Travel, driving_side: DrivingSide, units: Units) -> Self {
        let along = if travel == Travel::Forward { 1.0 } else { -1.0 };
        let near = if driving_side == DrivingSide::Right { along } else { -along };
        Frame { along, near, units }
    }

    /// Chainage of a point `offset` downstream of `origin`.
    pub fn chainage(&self, origin: f64, offset: f64) -> Length {
        self.units.length(self.along * (origin + offset))
    }

    /// The two chainages of a stretch, the smaller first.
    pub fn chainages(&self, origin: f64, from: f64, to: f64) -> (Length, Length) {
        let (a, b) = (self.chainage(origin, from), self.chainage(origin, to));
        if a <= b { (a, b) } else { (b, a) }
    }

    /// Two chainages along the traffic's travel, the upstream one first.
    pub fn along(&self, from: Length, to: Length) -> (f64, f64) {
        let along = [from, to].map(|at| self.along * self.units.distance_of(at));
        (along[0].min(along[1]), along[0].max(along[1]))
    }

    /// Distance across in the section's frame.
    pub fn across(&self, towards_side_kept_to: f64) -> Length {
        self.units.length(self.near * towards_side_kept_to)
    }

    /// Word for the side of a closure as its drivers see it; `near` is the side they keep to.
    pub fn side_word(&self, near: bool) -> &'static str {
        // On its own axis the traffic sees the side it keeps to on the right exactly where both signs agree.
        if (self.along == self.near) == near { "RIGHT" } else { "LEFT" }
    }

    /// The side of the centre line traffic keeps to, in the section's frame.
    fn near_side(self) -> Side {
        if self.near > 0.0 { Side::Right } else { Side::Left }
    }

    /// The work in the traffic's frame.
    fn extent(self, from: f64, to: f64, across_from: f64, across_to: f64) -> Extent {
        let (a, b) = (self.along * from, self.along * to);
        let (c, d) = (self.near * across_from, self.near * across_to);
        Extent { upstream: a.min(b), downstream: a.max(b), inner: c.min(d), outer: c.max(d) }
    }
}

/// Rounding of positions may put a cut this far over a section's end without anybody needing to hear of it.
const OVERHANG_SAID_M: f64 = 0.3;

/// Whether traffic of both directions uses the section.
pub fn two_way(section: &RoadSection) -> bool {
    section.flow == Flow::Both
}

/// The direction traffic has: the one given, or the only one allowed on a one-way road.
pub fn legal_travel(input: &ZoneInput, remarks: &mut Vec<String>) -> Travel {
    let only = match input.section.flow {
        Flow::Both => input.travel,
        Flow::Forward => Travel::Forward,
        Flow::Backward => Travel::Backward,
    };
    if only != input.travel {
        remarks.push("The direction given is against the one-way road; laid out for the traffic it allows.".into());
    }
    only
}

/// The work's box with everything unusable replaced: not a number becomes the section's middle or the lane, order is put
/// right, work beyond the section's ends is cut off there. Says what it changed.
pub fn usable_extent(input: &ZoneInput, units: Units, remarks: &mut Vec<String>) -> Extent {
    let frame = Frame::of(legal_travel(input, &mut Vec::new()), input.driving_side, units);
    let section_length = usable(units.distance_of(input.section.length), 0.0).max(0.0);
    let work = &input.work;
    let mut along = [work.from, work.to].map(|along| units.distance_of(along));
    if along.iter().any(|v| !v.is_finite()) {
        remarks.push("The chainage of the work is not a number; laid out at the middle of the section.".into());
        along = [section_length / 2.0; 2];
    }
    let kept = along.map(|v| v.clamp(0.0, section_length));
    let overhang_said = units.distance_of(metres(OVERHANG_SAID_M));
    if along.iter().zip(kept).any(|(given, kept)| (given - kept).abs() > overhang_said) {
        remarks.push("Work reaches beyond the section's ends; only the part on this section is laid out.".into());
    }
    let across = [work.across_from, work.across_to].map(|across| units.distance_of(across));
    let unusable = across.iter().any(|v| !v.is_finite());
    if two_way(input.section) && input.side != frame.near_side() {
        remarks.push(
            "The side given is not the side this direction of traffic keeps to; laid out for the direction given: check it."
                .into(),
        );
    }
    let mut extent = frame.extent(kept[0], kept[1], across[0], across[1]);
    if unusable {
        remarks.push("The place of the work across the road is not a number; taken as the whole side.".into());
        let half = usable(units.distance_of(input.section.width), 0.0).max(0.0) / 2.0;
        let near = two_way(input.section) || input.side == frame.near_side();
        (extent.inner, extent.outer) = if near { (0.0, half) } else { (-half, 0.0) };
    }
    extent
}

/// The value, or another where it is not a finite number.
pub fn usable(value: f64, otherwise: f64) -> f64 {
    if value.is_finite() { value } else { otherwise }
}
