//! Signs on the roads that join between the first sign and the end of the work.

use model::place::Travel;
use model::quantity::{InLength, Length, metres};
use model::road::RoadSection;
use model::road_around::{AxisEnd, SideRoad};
use model::work_zone::{Device, DeviceKind, Layout, WorkZone};

use super::Road;
use super::approach::{Approach, SAME_PLACE_M};
use super::said::Said;
use super::series::{Settled, side_words, stand_on_side_road};
use crate::advance::sign_series;
use crate::order::Step;
use crate::speed::design_speed;
use crate::text::distance_words;

/// A sign on each road that traffic may come out of into the zone; `approaches` in the order in which a road that joins for
/// several of them counts.
pub(crate) fn signs(zone: &WorkZone, approaches: &[Approach], road: &Road, said: &mut Said) -> Vec<Settled> {
    let mut settled = Vec::new();
    for side in road.around.side_roads.iter().filter(|side| side.traffic_comes_out) {
        let Some(approach) =
            approaches.iter().find(|approach| joins_before_the_work(side, zone.layout, approach, road))
        else {
            continue;
        };
        let placing = &road.rules.placing;
        if !placing.side_road_classes.value.contains(&side.class) {
            said.joins_unsigned(side);
            continue;
        }
        let end = side.axis.pieces.last().map_or(metres(0.0), |piece| piece.to);
        if end < road.rules.units.length(placing.junction_clear.value) {
            said.joins_unsigned(side);
            continue;
        }
        settled.extend(on_side_road(zone, side, approach, road, said));
    }
    settled
}

/// Whether its traffic, having joined, passes the work without having met the first sign of that approach. Where the road
/// ends at a junction the signs of the series stand on the arms already.
fn joins_before_the_work(side: &SideRoad, layout: Layout, approach: &Approach, road: &Road) -> bool {
    let at = approach.downstream(side.at);
    let has_series = !approach.one_way_before
        && matches!(approach.road_end, AxisEnd::Junction | AxisEnd::Roundabout | AxisEnd::Loop)
        && approach.begins <= approach.road_from + SAME_PLACE_M
        && approach.arms(road).iter().any(|arm| std::ptr::eq(*arm, side));
    // In the approach of a junction the roads that cross it are signed too.
    let past =
        if layout == Layout::JunctionApproachMultilane { road.rules.junctions.approach_within.value } else { 0.0 };
    let past = approach.work.1 + road.rules.units.length(past).in_metres();
    !has_series && at >= approach.begins - SAME_PLACE_M && at <= past
}

fn on_side_road(zone: &WorkZone, side: &SideRoad, approach: &Approach, road: &Road, said: &mut Said) -> Vec<Settled> {
    let (rules, units) = (road.rules, road.rules.units);
    let section = RoadSection { class: side.class, speed: side.speed, ..road.input.section.clone() };
    let speed = design_speed(side.speed, rules).unwrap_or(approach.speed);
    let series = sign_series(&section, speed, rules);
    // The furthest first: its traffic meets it first.
    let mut rows: Vec<_> = rules
        .junctions
        .other_approaches
        .iter()
        .filter_map(|sign| series.at(sign.place).map(|ahead| (sign, ahead)))
        .collect();
    rows.sort_by(|(_, a), (_, b)| b.value.total_cmp(&a.value));
    let mut settled = Vec::new();
    for (sign, ahead) in rows {
        let why = ahead.why.clone().with("restriction", "the junction").with("road that joins", &side.name);
        let mut device = Device {
            kind: DeviceKind::Sign,
            designation: sign.designation.clone(),
            legend: sign.legend.clone(),
            approach: approach.travel,
            chainage: side.at,
            across: metres(0.0),
            spacing: metres(0.0),
            why,
            spot: None,
        };
        stand_on_side_road(&mut device, side, units.length(ahead.value), road);
        let stands = device.spot.as_ref().and_then(|spot| spot.side_road.as_ref()).map_or(side.at, |(_, at)| *at);
        said.joins(
            side,
            &device,
            &distance_words(units.distance_of(stands).round(), units),
            &chainage_words(side.at, zone),
        );
        settled.push(Settled { device, step: Step::Joining, downstream: approach.downstream(side.at), moved: 0.0 });
    }
    settled
}

/// Where a road joins, told from the work.
fn chainage_words(at: Length, zone: &WorkZone) -> String {
    let ahead = if zone.travel == Travel::Forward { zone.work_from - at } else { at - zone.work_to };
    if ahead.value > 0.0 {
        format!("{:.0} m before the work", ahead.value)
    } else {
        let past = if zone.travel == Travel::Forward { at - zone.work_to } else { zone.work_from - at };
        if past.value > 0.0 { format!("{:.0} m past the work", past.value) } else { "beside the work".into() }
    }
}

/// A road that joins, in words: its name and side.
pub(crate) fn in_words(side: &SideRoad) -> String {
    format!("{} ({})", side.name, side_words(side.side))
}
