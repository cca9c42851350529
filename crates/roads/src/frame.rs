//! The flat frame beside a hole: metres along and across, to and from places on the globe.

use model::place::{FramePoint, LonLat, RoadPosition};
use model::quantity::{InLength, Length};
use model::road::SectionId;

use crate::geodesic::{direct, inverse, normal_azimuth, turn};
use crate::network::Network;

/// A flat frame that touches the road at one chainage. Along is the road's direction there, across is square to it,
/// positive to the right; the frame stays straight where the road bends, so that shapes keep their size and corners.
///
/// Holes that may share a cut belong in one frame. Within 50 m of the origin it is true to well below 1 mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    origin: LonLat,
    /// Degrees clockwise from north.
    azimuth: f64,
    chainage_m: f64,
}

impl Network {
    /// The frame at a chainage of a section.
    pub fn frame_at(&self, section: SectionId, chainage: Length) -> Frame {
        let (origin, azimuth) = self.point_at(section, chainage);
        Frame { origin, azimuth, chainage_m: chainage.in_metres() }
    }

    /// The frame where a place was found on the road.
    pub fn frame_of(&self, position: &RoadPosition) -> Frame {
        Frame { azimuth: position.azimuth_deg, ..self.frame_at(position.section, position.chainage) }
    }
}

impl Frame {
    /// A place in the frame.
    pub fn to_frame(&self, place: LonLat) -> FramePoint {
        let way = inverse(self.origin, place);
        let (sin, cos) = turn(self.azimuth, way.azimuth_from).to_radians().sin_cos();
        FramePoint { along_m: self.chainage_m + way.metres * cos, across_m: way.metres * sin }
    }

    /// A point of the frame on the globe.
    pub fn to_lon_lat(&self, point: FramePoint) -> LonLat {
        let along = point.along_m - self.chainage_m;
        let azimuth = self.azimuth + point.across_m.atan2(along).to_degrees();
        direct(self.origin, azimuth, along.hypot(point.across_m)).0
    }

    /// The place where the frame touches the road.
    pub fn origin(&self) -> LonLat {
        self.origin
    }

    /// Azimuth of "along", degrees clockwise from north in [0, 360).
    pub fn azimuth_deg(&self) -> f64 {
        normal_azimuth(self.azimuth)
    }
}
