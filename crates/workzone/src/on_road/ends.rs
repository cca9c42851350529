//! Where the road ends on each side of the work, for the closure that must fit in between.

use model::quantity::{InLength, Length, metres};
use model::road::RoadClass;
use model::road_around::AxisEnd;
use model::work_zone::{DeviceKind, Layout, WorkZone};

use super::Road;
use super::approach::{Approach, SAME_PLACE_M, ends_in_truth};
use crate::fit::{Ending, Ends};
use crate::joins;

/// The zone with a closure that fits onto the road there is; as it was where it fits already. Without devices where it
/// can't be laid out.
pub(crate) fn fitted(zone: WorkZone, road: &Road) -> WorkZone {
    let zone = held_where_roads_join(zone, road);
    let Some(approach) = Approach::of(&zone, zone.travel, road) else { return zone };
    // Where a flagger's place lies past the junction that ends the road, one on this side of it does for all that turn in,
    // if the closure leaves room for those who wait.
    let room = road.rules.units.length(road.rules.junctions.approach_within.value).in_metres();
    let stations = || zone.devices.iter().filter(|d| d.kind == DeviceKind::FlaggerStation);
    let past_the_end =
        stations().map(|d| approach.downstream(d.chainage)).any(|at| at < approach.axis_from || at > approach.road_to);
    if zone.layout.flagger_each_end() && past_the_end {
        let roomy = between(zone.clone(), &approach, room, road);
        if roomy.not_laid_out.is_none() {
            return roomy;
        }
    }
    between(zone, &approach, 0.0, road)
}

/// The zone between the ends of its road, so far from junctions at least, metres.
fn between(zone: WorkZone, approach: &Approach, keep_m: f64, road: &Road) -> WorkZone {
    let units = road.rules.units;
    let ending = |at: f64, end: AxisEnd, class: RoadClass| -> Option<Ending> {
        let mouth = units.distance_of(metres(mouth(approach.chainage(at), road).in_metres().max(keep_m)));
        let at = units.distance_of(metres(at));
        let (what, keep, traffic) = match end {
            AxisEnd::Junction => ("a junction", mouth, true),
            AxisEnd::Roundabout => ("a roundabout", mouth, true),
            AxisEnd::Loop => ("the junction where the road comes back to itself", mouth, true),
            _ if ends_in_truth(end, class, road) => ("the end of the road", 0.0, false),
            _ => return None,
        };
        Some(Ending { at, keep, what, traffic })
    };
    let ends = Ends {
        upstream: ending(approach.axis_from, approach.road_end, approach.end_class),
        downstream: ending(approach.road_to, approach.road_to_end, approach.to_class),
    };
    let least = ends.upstream.map_or(f64::NEG_INFINITY, |end| end.at + end.keep);
    let most = ends.downstream.map_or(f64::INFINITY, |end| end.at - end.keep);
    let at = |chainage: Length| units.distance_of(metres(approach.downstream(chainage)));
    let closed = zone.devices.iter().filter(|d| matches!(d.kind, DeviceKind::Cone | DeviceKind::ShieldVehicle));
    let mut reaches = closed.map(|device| at(device.chainage)).chain([at(zone.work_from), at(zone.work_to)]);
    if reaches.all(|here| here >= least - SAME_PLACE_M && here <= most + SAME_PLACE_M) {
        return zone;
    }
    let layout = zone.layout;
    crate::lay_out_again(zone, layout, road.input, &ends, road.rules)
}

/// Half the width of the widest road at a junction, the road itself counted.
fn mouth(at: Length, road: &Road) -> Length {
    let widths = road.around.side_roads.iter().filter(|side| (side.at - at).abs() < metres(SAME_PLACE_M));
    let widths = widths.filter_map(|side| side.axis.pieces.first()).map(|piece| piece.width.in_metres());
    metres(widths.chain([road.input.section.width.in_metres()]).filter(|w| w.is_finite()).fold(0.0, f64::max) / 2.0)
}

/// Where a road joins inside the closure, drivers do not see each other through it, nor one flagger all of them.
fn held_where_roads_join(zone: WorkZone, road: &Road) -> WorkZone {
    if !matches!(zone.layout, Layout::LaneClosureOneFlagger | Layout::LaneClosureSelfRegulating) {
        return zone;
    }
    let cones = || zone.devices.iter().filter(|d| d.kind == DeviceKind::Cone).map(|d| d.chainage);
    let from = cones().fold(zone.work_from, Length::min);
    let to = cones().fold(zone.work_to, Length::max);
    let inside = road.around.side_roads.iter().find(|side| side.at >= from && side.at <= to && joins(side, road.rules));
    let Some(side) = inside else { return zone };
    let reason = format!("A flagger at each end, since {} joins inside the closure.", side.name);
    crate::lay_out_as(Layout::LaneClosureTwoWay, reason, zone, road.input, road.rules)
}
