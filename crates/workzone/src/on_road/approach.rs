//! One direction of traffic towards the work, in its own coordinate: metres downstream.

use model::district::DrivingSide;
use model::place::Travel;
use model::quantity::{InLength, Length, Velocity, metres};
use model::road::{Flow, RoadClass};
use model::road_around::{AxisEnd, AxisPiece};
use model::work_zone::WorkZone;

use super::Road;
use crate::frame::two_way;
use crate::speed::design_speed;

/// The traffic of one direction. Places are metres along its travel, zero at chainage zero.
#[derive(Debug, Clone)]
pub(crate) struct Approach {
    /// Its direction on the section.
    pub travel: Travel,
    /// Whether it is the traffic of the lane worked in.
    pub worked: bool,
    /// Upstream end of the work space, and the other.
    pub work: (f64, f64),
    /// Upstream end of the known road, and what ends it.
    pub road_from: f64,
    pub road_end: AxisEnd,
    /// Class of the road there.
    pub end_class: RoadClass,
    /// Traffic may come from here on, not from further upstream: the road is one-way there.
    pub traffic_from: f64,
    /// The other end of the known road.
    pub road_to: f64,
    pub road_to_end: AxisEnd,
    /// Speed in the rule set's unit, on a step: the fastest on the way to the work.
    pub speed: f64,
    /// Eye of a driver across, metres.
    pub eye_across: f64,
    /// Where its first device stands.
    pub begins: f64,
    along: f64,
}

impl Approach {
    /// `None` where no device is for this traffic.
    pub fn of(zone: &WorkZone, travel: Travel, road: &Road) -> Option<Approach> {
        zone.devices.iter().find(|device| device.approach == travel)?;
        let axis = &road.around.axis;
        let (first, last) = (axis.pieces.first()?, axis.pieces.last()?);
        let forward = travel == Travel::Forward;
        let along = if forward { 1.0 } else { -1.0 };
        let (upstream, downstream) = if forward { (first, last) } else { (last, first) };
        let ends = if forward { (axis.begins, axis.ends) } else { (axis.ends, axis.begins) };
        let outer = |piece: &AxisPiece, at_from: bool| along * if at_from { piece.from } else { piece.to }.in_metres();
        let work = {
            let (a, b) = (along * zone.work_from.in_metres(), along * zone.work_to.in_metres());
            (a.min(b), a.max(b))
        };
        // From the section out against the traffic, as far as each piece lets it come.
        let own = axis.pieces.iter().position(|piece| piece.section == road.around.section)?;
        let outward: Vec<&AxisPiece> =
            if forward { axis.pieces[..=own].iter().rev().collect() } else { axis.pieces[own..].iter().collect() };
        let open: Vec<&AxisPiece> = outward
            .iter()
            .enumerate()
            .take_while(|(i, piece)| *i == 0 || lets(piece.flow, travel))
            .map(|(_, p)| *p)
            .collect();
        let traffic_from = open.last().map(|piece| outer(piece, forward))?;
        let fastest = open.iter().map(|piece| piece.speed).fold(road.input.section.speed, faster);
        let rules = road.rules;
        let speed = design_speed(fastest, rules)
            .or_else(|| design_speed(road.input.section.speed, rules))
            .unwrap_or(rules.speed.unknown.value);
        let keeps_right = road.input.driving_side == DrivingSide::Right;
        let near = if keeps_right == forward { 1.0 } else { -1.0 };
        let half = road.input.section.width.in_metres() / 2.0;
        let eye_across = if two_way(road.input.section) && half.is_finite() { near * half / 2.0 } else { 0.0 };
        Some(Approach {
            travel,
            worked: travel == zone.travel,
            work,
            road_from: outer(upstream, forward),
            road_end: ends.0,
            end_class: upstream.class,
            traffic_from,
            road_to: outer(downstream, !forward),
            road_to_end: ends.1,
            speed,
            eye_across,
            begins: work.0,
            along,
        })
    }

    /// With the place of its first device.
    pub fn beginning_at(self, begins: f64) -> Approach {
        Approach { begins, ..self }
    }

    /// Metres downstream of a chainage.
    pub fn downstream(&self, chainage: Length) -> f64 {
        self.along * chainage.in_metres()
    }

    /// The chainage so many metres downstream.
    pub fn chainage(&self, downstream: f64) -> Length {
        metres(self.along * downstream)
    }

    /// Which traffic it is, in words.
    pub fn words(&self) -> &'static str {
        if self.worked { "for the traffic of the lane worked in" } else { "for the traffic against it" }
    }
}

fn lets(flow: Flow, travel: Travel) -> bool {
    matches!((flow, travel), (Flow::Both, _) | (Flow::Forward, Travel::Forward) | (Flow::Backward, Travel::Backward))
}

/// The faster of two; one that is not a number does not count.
fn faster(one: Velocity, other: Velocity) -> Velocity {
    if other > one || one.value.is_nan() { other } else { one }
}
