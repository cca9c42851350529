//! Which layout a place calls for.

use model::figure::{Source, Standing};
use model::road::{Flow, RoadSection};
use model::rules::traffic::LayoutRule;
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

/// Name and source of the layout: the rule set's, but where the road or the closure is not what that name says, a name
/// that says what it is and a source that says what it was made after.
pub fn layout_name(section: &RoadSection, layout: Layout, all_lanes: bool, rule: &LayoutRule) -> (String, Source) {
    let name = match (layout, section.flow == Flow::Both, section.lanes) {
        (Layout::LaneClosureMultilane, ..) if all_lanes => "All lanes of this direction closed",
        (Layout::LaneClosureTwoWay, ..) if all_lanes => "The whole road closed",
        (Layout::LaneClosureTwoWay, true, 1) => "Lane closure on a one-lane road with traffic both ways, flaggers",
        (Layout::LaneClosureTwoWay, true, 3..) => "Lane closure on a two-way road with a middle lane, flaggers",
        (Layout::LaneClosureTwoWay, false, _) => "Lane closure on a one-lane one-way road, flagger",
        _ => return (rule.name.clone(), rule.source.clone()),
    };
    let cite = format!("common practice, no source (made after: {}, {})", rule.name, rule.source);
    (name.into(), Source { standing: Standing::CommonPractice, cite })
}
