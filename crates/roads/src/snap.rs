//! From a reported place to a position on a road.

use model::district::DrivingSide;
use model::hole::LanePosition;
use model::place::{LonLat, RoadPosition, Side, Travel};
use model::quantity::{InLength, Length, metres};
use model::road::{Flow, RoadSection, SectionId};
use thiserror::Error;

use crate::geodesic::is_on_globe;
use crate::geometry::Foot;
use crate::network::Network;

/// A place no further off than this, metres, is on the centre line: the sides of arithmetic's last digits mean nothing.
const ON_CENTRE_LINE_M: f64 = 1e-3;

/// A road near a place.
#[derive(Debug, Clone, PartialEq)]
pub struct NearRoad {
    /// Which.
    pub section: SectionId,
    /// What a crew calls it.
    pub label: String,
    /// How far it is.
    pub distance: Length,
}

/// Why a place was not found on a road.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum SnapRefusal {
    /// No road near enough.
    #[error("the nearest road, {}, is {:.0} m away; at most {:.0} m are allowed",
        nearest.label, nearest.distance.in_metres(), limit.in_metres())]
    TooFar {
        /// The nearest road the crew works on.
        nearest: NearRoad,
        /// As given.
        limit: Length,
    },
    /// There is a road near enough, but not one this crew works on.
    #[error("the nearest road, {}, {:.0} m away, is not one this crew works on", nearest.label, nearest.distance.in_metres())]
    NotAccepted {
        /// The nearest road of all.
        nearest: NearRoad,
        /// The nearest the crew works on, further than the limit; `None` if there is none at all.
        nearest_accepted: Option<NearRoad>,
    },
    /// The network has no roads.
    #[error("there are no roads")]
    NoRoads,
    /// Not a place on the globe, or the limit is not a number.
    #[error("longitude {lon}, latitude {lat} is not a place on the globe")]
    NotAPlace {
        /// As given.
        lon: f64,
        /// As given.
        lat: f64,
    },
}

impl SnapRefusal {
    /// The nearest road of any kind that is known.
    pub fn nearest(&self) -> Option<&NearRoad> {
        match self {
            SnapRefusal::TooFar { nearest, .. } | SnapRefusal::NotAccepted { nearest, .. } => Some(nearest),
            SnapRefusal::NoRoads | SnapRefusal::NotAPlace { .. } => None,
        }
    }
}

impl Network {
    /// The position on the nearest accepted road within the limit; of roads equally near (a place at a junction) the
    /// one with the lowest number.
    ///
    /// The side of the road follows from which side of the centre line the place was reported on, and the direction of
    /// travel from the side and from where traffic drives; on a one-way road traffic has one direction on both sides.
    /// A place on the centre line, by report or to the millimetre, is taken to the lane of increasing chainage, since where it
    /// was located says nothing about the lane.
    pub fn snap(
        &self,
        place: LonLat,
        lane_position: Option<LanePosition>,
        limit: Length,
        driving_side: DrivingSide,
        accept: &dyn Fn(&RoadSection) -> bool,
    ) -> Result<RoadPosition, SnapRefusal> {
        if !is_on_globe(place) {
            return Err(SnapRefusal::NotAPlace { lon: place.lon, lat: place.lat });
        }
        let limit_m = limit.in_metres();
        let accepted = |id: SectionId| accept(self.section(id));
        match self.index.nearest(&self.geometries, place, limit_m, &accepted) {
            Some((section, foot)) => Ok(self.position(section, foot, lane_position, driving_side)),
            None => Err(self.refusal(place, limit, &accepted)),
        }
    }

    /// [`Network::snap`] for many places.
    pub fn snap_all(
        &self,
        places: &[(LonLat, Option<LanePosition>)],
        limit: Length,
        driving_side: DrivingSide,
        accept: &dyn Fn(&RoadSection) -> bool,
    ) -> Vec<Result<RoadPosition, SnapRefusal>> {
        places.iter().map(|(place, lane)| self.snap(*place, *lane, limit, driving_side, accept)).collect()
    }

    fn position(
        &self,
        section: SectionId,
        foot: Foot,
        lane_position: Option<LanePosition>,
        driving_side: DrivingSide,
    ) -> RoadPosition {
        let forward_side = match driving_side {
            DrivingSide::Right => Side::Right,
            DrivingSide::Left => Side::Left,
        };
        let side = if foot.distance < ON_CENTRE_LINE_M || lane_position == Some(LanePosition::Centre) {
            forward_side
        } else if foot.across > 0.0 {
            Side::Right
        } else {
            Side::Left
        };
        let travel = match self.section(section).flow {
            Flow::Forward => Travel::Forward,
            Flow::Both if side == forward_side => Travel::Forward,
            Flow::Both | Flow::Backward => Travel::Backward,
        };
        RoadPosition {
            section,
            chainage: metres(foot.chainage),
            across: metres(foot.across),
            side,
            travel,
            distance: metres(foot.distance),
            azimuth_deg: foot.azimuth,
        }
    }

    fn refusal(&self, place: LonLat, limit: Length, accepted: &dyn Fn(SectionId) -> bool) -> SnapRefusal {
        let near = |accept: &dyn Fn(SectionId) -> bool| -> Option<NearRoad> {
            self.index.nearest(&self.geometries, place, f64::INFINITY, accept).map(|(section, foot)| NearRoad {
                section,
                label: self.section(section).label(),
                distance: metres(foot.distance),
            })
        };
        let nearest_accepted = near(accepted);
        match (near(&|_| true), nearest_accepted) {
            (None, _) => SnapRefusal::NoRoads,
            (Some(nearest), nearest_accepted) if nearest.distance <= limit => {
                SnapRefusal::NotAccepted { nearest, nearest_accepted }
            }
            (Some(_), Some(nearest)) => SnapRefusal::TooFar { nearest, limit },
            (Some(nearest), None) => SnapRefusal::NotAccepted { nearest, nearest_accepted: None },
        }
    }
}
