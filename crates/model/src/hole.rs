//! A hole as somebody reported or surveyed it.

use jiff::civil::Date;

use crate::place::LonLat;
use crate::problem::Locator;
use crate::quantity::Length;

/// The hole's own identifier, as given in the list.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct HoleId(pub String);

/// A hole in the seal, as surveyed.
#[derive(Debug, Clone, PartialEq)]
pub struct Hole {
    /// Identifier, unique in the list.
    pub id: HoleId,
    /// Where it is.
    pub position: LonLat,
    /// Its shape seen from above.
    pub shape: Shape,
    /// Greatest depth.
    pub depth: Length,
    /// Day it was seen, where given.
    pub seen: Option<Date>,
    /// Free text of the reporter, may be empty.
    pub note: String,
    /// Where across the road, where given.
    pub lane_position: Option<LanePosition>,
    /// Water standing in it or the base wet, where said.
    pub wet: Option<bool>,
    /// Where in the input it came from.
    pub from: Locator,
}

/// Shape seen from above.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Greatest length (taken along the road) and greatest width (across).
    Size {
        /// Along the road.
        length: Length,
        /// Across the road.
        width: Length,
    },
    /// Outline on the globe, open ring (first point not repeated), at least three points.
    Outline(Vec<LonLat>),
}

/// Where across the road a hole lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LanePosition {
    /// Somewhere in the lane.
    Lane,
    /// In a wheel path.
    WheelPath,
    /// At the edge of the seal.
    Edge,
    /// On the shoulder.
    Shoulder,
    /// On the centre line.
    Centre,
}
