//! One direction of traffic towards the work, in its own coordinate: metres downstream.

use model::district::DrivingSide;
use model::place::Travel;
use model::quantity::{InLength, Length, metres};
use model::road::{Flow, RoadClass};
use model::road_around::{AxisEnd, AxisPiece, SideRoad};
use model::work_zone::WorkZone;

use super::Road;
use crate::frame::two_way;
use crate::speed::design_speed;

/// Places nearer than this to each other are one, metres.
pub(crate) const SAME_PLACE_M: f64 = 0.01;

/// The traffic of one direction. Places are metres along its travel, zero at chainage zero.
#[derive(Debug, Clone)]
pub(crate) struct Approach {
    /// Its direction on the section.
    pub travel: Travel,
    /// Whether it is the traffic of the lane worked in.
    pub worked: bool,
    /// Upstream end of the work space, and the other.
    pub work: (f64, f64),
    /// Upstream end of the known road.
    pub axis_from: f64,
    /// Traffic may come along the road from here on: its upstream end, or where it becomes one-way the other way.
    pub road_from: f64,
    /// What ends the known road upstream, and whether the road is one-way the other way before that.
    pub road_end: AxisEnd,
    pub one_way_before: bool,
    /// Class of the road there.
    pub end_class: RoadClass,
    /// The other end of the known road.
    pub road_to: f64,
    pub road_to_end: AxisEnd,
    pub to_class: RoadClass,
    /// Speed of the section worked on in the rule set's unit, on a step.
    pub speed: f64,
    /// The road that the traffic comes along, from the section out against it: upstream end, downstream end, speed on a step.
    speeds: Vec<(f64, f64, f64)>,
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
        let rules = road.rules;
        let speed = design_speed(road.input.section.speed, rules).unwrap_or(rules.speed.unknown.value);
        let speeds = open
            .iter()
            .map(|piece| {
                // The section itself as it was given: its speed may differ from the map's.
                let own = piece.section == road.around.section;
                let given = if own { None } else { design_speed(piece.speed, rules) };
                (outer(piece, forward), outer(piece, !forward), given.unwrap_or(speed))
            })
            .collect();
        let keeps_right = road.input.driving_side == DrivingSide::Right;
        let near = if keeps_right == forward { 1.0 } else { -1.0 };
        let half = road.input.section.width.in_metres() / 2.0;
        let eye_across = if two_way(road.input.section) && half.is_finite() { near * half / 2.0 } else { 0.0 };
        let axis_from = outer(upstream, forward);
        Some(Approach {
            travel,
            worked: travel == zone.travel,
            work,
            axis_from,
            road_from: traffic_from.max(axis_from),
            road_end: ends.0,
            one_way_before: traffic_from > axis_from + SAME_PLACE_M,
            end_class: upstream.class,
            road_to: outer(downstream, !forward),
            road_to_end: ends.1,
            to_class: downstream.class,
            speed,
            speeds,
            eye_across,
            begins: work.0,
            along,
        })
    }

    /// The fastest that traffic comes to a place: the fastest road that ends nearer to it than a device must be seen from at
    /// that road's speed. `needed` is that distance in metres.
    pub fn speed_at(&self, here: f64, needed: impl Fn(f64) -> f64) -> f64 {
        let counts = |&(from, to, speed): &(f64, f64, f64)| from <= here && (to >= here || here - to < needed(speed));
        let fastest = self.speeds.iter().filter(|piece| counts(piece)).map(|(.., speed)| *speed).fold(0.0, f64::max);
        if fastest > 0.0 { fastest } else { self.speed }
    }

    /// With the place of its first device.
    pub fn beginning_at(self, begins: f64) -> Approach {
        Approach { begins, ..self }
    }

    /// The roads that traffic comes from where the known road ends upstream.
    pub fn arms<'a>(&self, road: &'a Road) -> Vec<&'a SideRoad> {
        let at_the_end = |side: &SideRoad| (self.downstream(side.at) - self.road_from).abs() < SAME_PLACE_M;
        road.around
            .side_roads
            .iter()
            .filter(|side| side.traffic_comes_out && !side.axis.pieces.is_empty() && at_the_end(side))
            .collect()
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

/// Whether nothing comes from beyond the end of a road: the map goes on there, or roads of that class end so.
pub(crate) fn ends_in_truth(end: AxisEnd, class: RoadClass, road: &Road) -> bool {
    end == AxisEnd::DeadEnd || end == AxisEnd::MapEdge && road.rules.placing.dead_end_classes.value.contains(&class)
}

fn lets(flow: Flow, travel: Travel) -> bool {
    matches!((flow, travel), (Flow::Both, _) | (Flow::Forward, Travel::Forward) | (Flow::Backward, Travel::Backward))
}
