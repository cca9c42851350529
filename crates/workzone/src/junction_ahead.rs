//! Where the next junction is, which decides whether the work lies in its approach.

use model::place::Travel;
use model::quantity::Length;
use model::road_around::{RoadAround, SideRoad};
use model::rules::traffic::TrafficRules;

use crate::WorkExtent;

/// Whether traffic comes out of a road that joins which the rule set counts and that is longer than the mouth of its junction.
pub(crate) fn joins(side: &SideRoad, rules: &TrafficRules) -> bool {
    let placing = &rules.placing;
    let long_enough = |end: Length| end >= rules.units.length(placing.junction_clear.value);
    side.traffic_comes_out
        && placing.side_road_classes.value.contains(&side.class)
        && side.axis.pieces.last().is_some_and(|piece| long_enough(piece.to))
}

/// From the downstream end of the work to the junction ahead of its traffic; only roads that get a sign of their own count,
/// and where the road ends at a junction or a roundabout. `None` where none is within the road looked at.
pub fn junction_ahead(around: &RoadAround, work: &WorkExtent, travel: Travel, rules: &TrafficRules) -> Option<Length> {
    let counts = |side: &&SideRoad| rules.placing.side_road_classes.value.contains(&side.class);
    let joins = around.side_roads.iter().filter(counts).map(|side| side.at);
    let rings = around.axis.junctions.iter().filter(|junction| junction.roundabout).map(|junction| junction.chainage);
    joins
        .chain(rings)
        .map(|at| if travel == Travel::Forward { at - work.to } else { work.from - at })
        .filter(|ahead| ahead.value >= 0.0)
        .min_by(|a, b| a.value.total_cmp(&b.value))
}
