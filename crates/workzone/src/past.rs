//! What the choice of a layout wants to know of the road: how far one sees past the work, and where the next junction is.

use model::place::Travel;
use model::quantity::Length;
use model::road_around::RoadAround;
use model::rules::traffic::TrafficRules;

use crate::WorkExtent;
use crate::on_road::ground;
use crate::sight::{Look, SightRoad};
use crate::stopping::stopping_distance;
use crate::text::joined;

/// How far one sees along the road past the work, from the end that sees less, as far as the layouts care. `None` where
/// nobody knows: without heights a crest may hide anything. With heights it is the distance that is left if they err
/// against us.
pub fn sight_past(around: &RoadAround, work: &WorkExtent, rules: &TrafficRules) -> Option<Length> {
    let (units, sight, placing) = (rules.units, &rules.sight, &rules.placing);
    let road = SightRoad::of(&around.axis, units.length(sight.lateral_clear.value), ground(rules))?;
    let stopping = stopping_distance(rules.speed.greatest.value, rules).value;
    let look = Look {
        eye_height: units.length(sight.eye_height.value),
        eye_across: units.length(0.0),
        object_height: units.length(sight.object_height.value),
        object_across: units.length(0.0),
        most: units.length(2.0 * sight.beyond_stopping_distances.value * stopping),
        step: units.length(placing.sight_step.value),
        source: joined(&[&sight.eye_height.source, &sight.object_height.source]),
    };
    let ends = [(work.from, Travel::Forward), (work.to, Travel::Backward)];
    ends.into_iter()
        .map(|(eye, travel)| {
            let seen = road.ahead(eye, travel, &look);
            seen.profile_known.then(|| seen.distance.spread.map_or(seen.distance.value, |spread| spread.p10))
        })
        .reduce(|one, other| one.zip(other).map(|(one, other)| if other < one { other } else { one }))?
}

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
