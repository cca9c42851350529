//! Places: on the globe, along a road, and in the flat frame beside a hole.

use crate::quantity::Length;
use crate::road::SectionId;

/// A place on the globe, WGS 84 degrees. Not a planar point: distances need [geodesics](https://en.wikipedia.org/wiki/Geodesic).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LonLat {
    /// Degrees east.
    pub lon: f64,
    /// Degrees north.
    pub lat: f64,
}

/// A point in the road frame of one section: flat, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FramePoint {
    /// Metres along the section from its start (chainage).
    pub along_m: f64,
    /// Metres across from the centre line, **positive to the right** when looking along increasing chainage.
    pub across_m: f64,
}

/// Which way traffic or a truck moves along a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Travel {
    /// With increasing chainage.
    Forward,
    /// Against increasing chainage.
    Backward,
}

/// Which side of the centre line, looking along increasing chainage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// Left of increasing chainage.
    Left,
    /// Right of increasing chainage.
    Right,
}

/// A directed position on the road network.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoadPosition {
    /// The section.
    pub section: SectionId,
    /// Distance along the section from its start to the foot of the perpendicular.
    pub chainage: Length,
    /// Distance across, positive to the right of increasing chainage, **as located** (a reported position is seldom
    /// better than a few metres).
    pub across: Length,
    /// Side of the centre line the work is taken to be on.
    pub side: Side,
    /// The direction of the traffic in the lane where the work is.
    pub travel: Travel,
    /// How far the reported place is from the centre line.
    pub distance: Length,
    /// Azimuth of increasing chainage here, degrees clockwise from north.
    pub azimuth_deg: f64,
}

impl Travel {
    /// The other way.
    #[must_use]
    pub fn opposite(self) -> Self {
        match self {
            Travel::Forward => Travel::Backward,
            Travel::Backward => Travel::Forward,
        }
    }
}
