//! Where the next junction is, which decides whether the work lies in its approach.

use model::place::Travel;
use model::quantity::Length;
use model::road_around::RoadAround;
use model::rules::traffic::TrafficRules;

use crate::WorkExtent;

/// From the downstream end of the work to the junction ahead of its traffic; only roads that get a sign of their own count,
/// and where the road ends at a junction or a roundabout. `None` where none is within the road looked at.
pub fn junction_ahead(around: &RoadAround, work: &WorkExtent, travel: Travel, rules: &TrafficRules) -> Option<Length> {
    let counts = &rules.placing.side_road_classes.value;
    let joins = around.side_roads.iter().filter(|side| counts.contains(&side.class)).map(|side| side.at);
    let rings = around.axis.junctions.iter().filter(|junction| junction.roundabout).map(|junction| junction.chainage);
    joins
        .chain(rings)
        .map(|at| if travel == Travel::Forward { at - work.to } else { work.from - at })
        .filter(|ahead| ahead.value >= 0.0)
        .min_by(|a, b| a.value.total_cmp(&b.value))
}
