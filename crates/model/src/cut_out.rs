//! The cut: where to saw or pick, so that the repair has straight sides in sound pavement.

use crate::figure::Figure;
use crate::hole::HoleId;
use crate::place::FramePoint;
use crate::quantity::{Area, Length};

/// One hole's outline in the road frame of its section, as `markout` takes it.
#[derive(Debug, Clone, PartialEq)]
pub struct FrameOutline {
    /// Which hole.
    pub hole: HoleId,
    /// Open ring, at least three points.
    pub ring: Vec<FramePoint>,
}

/// The cut for one hole, or for several that lie close together.
#[derive(Debug, Clone, PartialEq)]
pub struct CutOut {
    /// The holes inside, in input order.
    pub holes: Vec<HoleId>,
    /// Corners in order (open ring), road frame of the section: 4, 6 or 8, each a right angle.
    pub corners: Vec<FramePoint>,
    /// Outlines of the holes inside, for the drawing.
    pub outlines: Vec<FrameOutline>,
    /// Longer side of the cut, or of the rectangle around it in the cut's own direction where it has notches.
    pub length: Length,
    /// Shorter side of the same.
    pub width: Length,
    /// Width of the narrowest part: the width itself, or that of an arm. A compactor must fit in there.
    pub narrowest: Length,
    /// Angle of the longer side against the road, degrees, in (-90, 90], positive turning right.
    pub angle_deg: f64,
    /// Area inside the cut.
    pub area: Figure<Area>,
    /// Length to saw or pick (sides that lie on the pavement's edge are not cut).
    pub perimeter: Figure<Length>,
    /// Area of the cut that is not hole.
    pub wasted: Figure<Area>,
    /// Furthest distance from a point of the cut's edge to the hole.
    pub farthest: Length,
    /// What could not be kept, in words, e.g. that a corner is further than the far limit.
    pub remarks: Vec<String>,
}
