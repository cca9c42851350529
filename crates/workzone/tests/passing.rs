//! Whether traffic can pass, and what the layout says it is where the usual name would be wrong.

mod common;

use common::{input, one_way_two_lanes, rules, two_lane};
use model::figure::Standing;
use model::place::Side;
use model::quantity::{InLength, feet, kilometres_per_hour, metres};
use model::road::{Flow, RoadSection};
use model::work_zone::{DeviceKind, Layout, WorkZone};
use workzone::lay_out;

fn remarked(zone: &WorkZone, words: &str) -> bool {
    zone.remarks.iter().any(|r| r.contains(words))
}

fn legends(zone: &WorkZone) -> Vec<&str> {
    zone.devices.iter().filter(|d| d.kind == DeviceKind::Sign).map(|d| d.legend.as_str()).collect()
}

fn at(road: &RoadSection, from_ft: f64, to_ft: f64, shoulder_only: bool) -> WorkZone {
    let mut input = input(road);
    (input.work.across_from, input.work.across_to) = (feet(from_ft), feet(to_ft));
    input.side = if from_ft + to_ft < 0.0 { Side::Left } else { Side::Right };
    input.shoulder_only = shoulder_only;
    lay_out(&input, &rules())
}

#[test]
fn shoulder_work_that_takes_too_much_of_the_lane_closes_it() {
    // DERIVED: 7 m road, lane 11.48 ft; work from 0.02 m inside the seal: cones 0.6 + 0.02 m in the lane leave 2.87 m.
    let mut road = two_lane(50.0);
    (road.speed, road.width) = (kilometres_per_hour(90.0), metres(7.0));
    let mut reaching = input(&road);
    reaching.shoulder_only = true;
    (reaching.work.across_from, reaching.work.across_to) = (metres(3.48), metres(4.3));
    let zone = lay_out(&reaching, &rules());
    assert_eq!((zone.layout, zone.flaggers.value), (Layout::LaneClosureTwoWay, 2));
    assert!(
        remarked(&zone, "leaves 2.87 m of the 3.05 m that must stay open: the lane is closed"),
        "{:?}",
        zone.remarks
    );
    assert!(!remarked(&zone, "close the lane instead"));
    // With several lanes one of them is closed.
    let mut wide = one_way_two_lanes(50.0);
    wide.width = metres(7.0);
    let zone = at(&wide, 11.4, 14.0, true);
    assert_eq!((zone.layout, zone.flaggers.value), (Layout::LaneClosureMultilane, 0));
    assert!(legends(&zone).contains(&"RIGHT LANE CLOSED AHEAD"));
}

#[test]
fn shoulder_work_that_leaves_the_lane_enough_stays_shoulder_work() {
    // DERIVED: lane 14 ft, work from 1 ft inside it, clearance 2 ft: 11 ft stay open.
    let mut road = two_lane(50.0);
    road.width = feet(28.0);
    let zone = at(&road, 13.0, 16.0, true);
    assert_eq!(zone.layout, Layout::ShoulderEncroachment);
    assert!(
        remarked(&zone, "cones take 0.91 m of the lane, 3.35 m of it stays open (3.05 m must)"),
        "{:?}",
        zone.remarks
    );
    // The limit itself is enough: 2 ft inside leave 10 ft; a hair more closes the lane. So does a rule set without that layout.
    assert_eq!(at(&road, 12.0, 16.0, true).layout, Layout::ShoulderEncroachment);
    assert_eq!(at(&road, 11.99, 16.0, true).layout, Layout::LaneClosureTwoWay);
    // Beside a narrow lane that the work does not touch, traffic passes as it does elsewhere.
    road.width = feet(18.0);
    let zone = at(&road, 9.0, 12.0, true);
    assert_eq!(zone.layout, Layout::Shoulder);
    assert!(zone.passable);
    road.lanes = 1;
    road.width = feet(9.0);
    assert!(at(&road, 4.5, 6.5, true).passable);
    // A one-lane road is one lane wide, not two: 16 ft less 4 ft is enough.
    road.width = feet(16.0);
    assert_eq!(at(&road, 6.0, 9.0, true).layout, Layout::ShoulderEncroachment);
}

#[test]
fn traffic_passes_where_the_least_width_stays_open() {
    let mut road = two_lane(40.0);
    for (width, passes) in [(24.0, true), (17.0, true), (16.9, false), (14.0, false)] {
        road.width = feet(width);
        // 5 ft of work against the edge and 2 ft clearance.
        let zone = at(&road, width / 2.0 - 5.0, width / 2.0, false);
        assert_eq!(zone.passable, passes, "{width} ft");
        assert_eq!(remarked(&zone, "traffic can't pass"), !passes, "{width} ft");
    }
    assert_eq!(at(&two_lane(40.0), 4.5, 7.5, false).people_needed, 4);
    assert_eq!(at(&one_way_two_lanes(40.0), 4.5, 7.5, false).people_needed, 2);
}

#[test]
fn a_one_lane_road_is_called_one() {
    let rules = rules();
    let mut road = two_lane(30.0);
    (road.lanes, road.width) = (1, feet(18.0));
    let zone = at(&road, 4.0, 7.0, false);
    assert_eq!(zone.layout_name, "Lane closure on a one-lane road with traffic both ways, flaggers");
    assert_eq!(zone.layout_source.standing, Standing::CommonPractice);
    assert!(remarked(&zone, "One-lane road with traffic both ways"));
    assert!(zone.passable);
    // A hole left of the axis is closed from the left edge: 3 ft to the edge, 3 of work, 2 of clearance; 10 ft stay open.
    let zone = at(&road, -7.0, -4.0, false);
    let cones: Vec<f64> =
        zone.devices.iter().filter(|d| d.kind == DeviceKind::Cone).map(|d| d.across.in_feet()).collect();
    assert!((cones[0] + 9.0).abs() < 1e-6 && cones.iter().all(|across| *across <= -0.999_999), "{cones:?}");
    assert!(zone.passable);
    road.flow = Flow::Forward;
    assert_eq!(at(&road, 4.0, 7.0, false).layout_name, "Lane closure on a one-lane one-way road, flagger");
    // Two lanes keep the rule set's own name and source; three have a middle lane.
    let zone = at(&two_lane(30.0), 4.0, 7.0, false);
    let own = rules.layouts.lane_closure_two_way;
    assert_eq!((zone.layout_name, zone.layout_source), (own.name, own.source));
    let mut three = two_lane(30.0);
    three.lanes = 3;
    assert!(at(&three, 4.0, 7.0, false).layout_name.contains("middle lane"));
}

#[test]
fn a_closure_of_everything_names_no_side() {
    let road = one_way_two_lanes(50.0);
    let zone = at(&road, -3.0, 3.0, false);
    assert_eq!(zone.layout_name, "All lanes of this direction closed");
    assert!(!zone.passable);
    assert!(legends(&zone).iter().all(|l| !l.contains("RIGHT") && !l.contains("LEFT")), "{:?}", legends(&zone));
    assert!(legends(&zone).iter().any(|l| l.contains("authorised person chooses the sign")));
    let zone = at(&two_lane(50.0), -10.0, 10.0, false);
    assert_eq!(zone.layout_name, "The whole road closed");
    assert!(!zone.passable);
}

#[test]
fn the_side_the_work_is_nearer_to_is_closed_where_both_need_as_many_lanes() {
    let mut road = one_way_two_lanes(50.0);
    (road.lanes, road.width) = (3, feet(36.0));
    for (from, to, word) in [(-2.5, 0.5, "LEFT"), (-0.5, 2.5, "RIGHT")] {
        let zone = at(&road, from, to, false);
        assert!(legends(&zone).contains(&format!("{word} LANE CLOSED AHEAD").as_str()), "{from} to {to}");
    }
}

#[test]
fn work_over_the_centre_line_of_several_lanes_is_said() {
    let mut road = two_lane(50.0);
    (road.lanes, road.width) = (4, feet(48.0));
    assert!(remarked(&at(&road, -1.0, 3.0, false), "reaches 0.30 m over the centre line"));
    assert!(!remarked(&at(&road, 1.0, 3.0, false), "over the centre line"));
    // And on a road with two lanes, work wholly on the other side.
    assert!(remarked(&at(&two_lane(50.0), -8.0, -5.0, false), "other side of the centre line"));
}

#[test]
fn what_is_open_and_what_must_be_read_differently() {
    let mut road = two_lane(40.0);
    road.width = feet(16.81);
    // 4.81 ft of work and 2 of clearance leave 10 ft; one hundredth more of a foot leaves 9.99 ft.
    assert!(at(&road, 3.595, 8.405, false).passable);
    let zone = at(&road, 3.585, 8.405, false);
    assert!(remarked(&zone, "Only 3.045 m stays open of the 3.048 m that must"), "{:?}", zone.remarks);
    road.width = feet(16.62);
    assert!(remarked(&at(&road, 3.5, 8.31, false), "Only 2.99 m stays open of the 3.05 m that must"));
}
