//! Which layout a place calls for.

use model::road::{Flow, RoadSection};
use model::work_zone::Layout;

/// The layout for work on a road: shoulder work keeps the lanes open; with at least two lanes in that direction one is
/// closed; otherwise traffic takes turns.
pub fn choose_layout(section: &RoadSection, shoulder_only: bool) -> Layout {
    if shoulder_only {
        Layout::Shoulder
    } else if lanes_in_direction(section) >= 2 {
        Layout::LaneClosureMultilane
    } else {
        Layout::LaneClosureTwoWay
    }
}

/// Lanes for traffic of one direction, at least one. The odd lane of a two-way road belongs to nobody.
pub fn lanes_in_direction(section: &RoadSection) -> u32 {
    match section.flow {
        Flow::Both => (section.lanes / 2).max(1),
        Flow::Forward | Flow::Backward => section.lanes.max(1),
    }
}
