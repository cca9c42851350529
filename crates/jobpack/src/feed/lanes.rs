//! What becomes of each lane, and what that means for drivers, in the standard's words.

use model::district::DrivingSide;
use model::place::Travel;
use model::plan::Plan;
use model::record::stretch::{LaneKind, LaneStatus, TrafficImpact, ZoneLane};
use model::road::{Flow, RoadSection};
use model::work_zone::{Layout, WorkZone};

use crate::drawing::Closure;

/// Lanes for the traffic of one direction, from its left; none where it is not known which lanes are whose.
pub fn lanes(plan: &Plan, site: usize, travel: Travel) -> Vec<ZoneLane> {
    let zone = &plan.sites[site].zone;
    let road = plan.network.section(zone.section);
    let Some(count) = count(road) else { return Vec::new() };
    let driving = plan.district.driving_side;
    let half = road.width.value / 2.0;
    // Metres across, positive to the right of the traffic in the worked lane.
    let own = match (road.flow, driving) {
        (Flow::Both, DrivingSide::Right) => (0.0, half),
        (Flow::Both, DrivingSide::Left) => (-half, 0.0),
        _ => (-half, half),
    };
    let closed = Closure::at(plan, site).closed;
    let worked = travel == zone.travel;
    let mut statuses: Vec<(LaneKind, LaneStatus)> = (0..count)
        .map(|lane| {
            let middle = own.0 + (own.1 - own.0) * (lane as f64 + 0.5) / count as f64;
            let shut = !zone.layout.on_shoulder() && closed.0 < middle && middle < closed.1;
            let status = match (worked, shut) {
                (true, true) => LaneStatus::Closed,
                (true, false) => LaneStatus::Open,
                (false, _) => LaneStatus::AlternatingFlow,
            };
            (LaneKind::General, status)
        })
        .collect();
    if zone.layout.on_shoulder() && road.shoulder.value > 0.0 {
        let shoulder = (LaneKind::Shoulder, LaneStatus::Closed);
        // The closed shoulder is on the side that the closed strip reaches out to.
        if closed.1 > half { statuses.push(shoulder) } else { statuses.insert(0, shoulder) }
    }
    statuses.into_iter().zip(1..).map(|((kind, status), order)| ZoneLane { order, kind, status }).collect()
}

/// What the zone does to the traffic of one direction.
pub fn impact(zone: &WorkZone, lanes: &[ZoneLane]) -> TrafficImpact {
    match zone.layout {
        Layout::Shoulder | Layout::ShoulderEncroachment => TrafficImpact::AllLanesOpen,
        Layout::LaneClosureTwoWay | Layout::LaneClosureOneFlagger | Layout::JunctionApproachTwoWay
            if zone.flaggers.value > 0 =>
        {
            TrafficImpact::Flagging
        }
        Layout::LaneClosureTwoWay
        | Layout::LaneClosureOneFlagger
        | Layout::JunctionApproachTwoWay
        | Layout::LaneClosureSelfRegulating
        | Layout::ShortDurationTwoWay
        | Layout::MobileTwoWay => TrafficImpact::AlternatingOneWay,
        Layout::LaneClosureMultilane
        | Layout::JunctionApproachMultilane
        | Layout::ShortDurationMultilane
        | Layout::MobileMultilane => merging(lanes),
    }
}

/// Where traffic goes that leaves a closed lane.
fn merging(lanes: &[ZoneLane]) -> TrafficImpact {
    let closed = |lane: Option<&ZoneLane>| lane.is_some_and(|l| l.status == LaneStatus::Closed);
    match (closed(lanes.first()), closed(lanes.last())) {
        (true, true) => TrafficImpact::AllLanesClosed,
        (true, false) => TrafficImpact::SomeLanesClosedMergeRight,
        (false, true) => TrafficImpact::SomeLanesClosedMergeLeft,
        (false, false) => TrafficImpact::SomeLanesClosed,
    }
}

/// Lanes of one direction. Of an odd count on a two-way road nobody knows whose the middle one is.
fn count(road: &RoadSection) -> Option<usize> {
    let lanes = road.lanes as usize;
    match road.flow {
        Flow::Both if lanes <= 2 => Some(1),
        Flow::Both => lanes.is_multiple_of(2).then_some(lanes / 2),
        Flow::Forward | Flow::Backward => Some(lanes.max(1)),
    }
}
