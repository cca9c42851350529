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

impl FramePoint {
    /// Middle of the box around points, along and across the road; of no points the frame's origin.
    pub fn middle(points: &[FramePoint]) -> FramePoint {
        let fold = |get: fn(&FramePoint) -> f64| {
            let low = points.iter().map(get).fold(f64::INFINITY, f64::min);
            let high = points.iter().map(get).fold(f64::NEG_INFINITY, f64::max);
            if low.is_finite() && high.is_finite() { f64::midpoint(low, high) } else { 0.0 }
        };
        FramePoint { along_m: fold(|p| p.along_m), across_m: fold(|p| p.across_m) }
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Of a notched cut neither the mean of the corners nor the middle of the first and the third.
    #[test]
    fn the_middle_is_that_of_the_box_around() {
        let corners = [(10.0, 1.0), (14.0, 1.0), (14.0, 2.0), (11.0, 2.0), (11.0, 5.0), (10.0, 5.0)];
        let corners = corners.map(|(along_m, across_m)| FramePoint { along_m, across_m });
        assert_eq!(FramePoint::middle(&corners), FramePoint { along_m: 12.0, across_m: 3.0 });
        assert_eq!(FramePoint::middle(&[]), FramePoint { along_m: 0.0, across_m: 0.0 });
    }
}
