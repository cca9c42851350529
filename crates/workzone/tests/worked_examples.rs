//! Three zones worked by hand from the rule file, sign by sign. DERIVED: they test the arithmetic, not the rules' truth.
//!
//! Each: a cut of 4 ft along, one truck (room 40 ft), margins 15 ft: work space 4 + 2*15 + 40 = 74 ft. Walking 2.5 mph =
//! 3.66667 ft/s, driving 20 mph = 29.33333 ft/s; out 90 s a sign, 8 s a cone, 60 s a flagger, 25 s a turn. The ways are
//! worked out in `crew_moves.rs`.

mod common;

use common::{input, one_way_two_lanes, rules, two_lane};
use model::place::{Side, Travel};
use model::quantity::{InLength, InTime, feet};
use model::road::Setting;
use model::work_zone::{DeviceKind, Layout, WorkZone, ZonePartKind};
use workzone::{DeviceCount, device_count, lay_out};

/// Signs of one approach: designation, legend, whole feet downstream of the upstream end of the work space, feet across.
fn signs(zone: &WorkZone, approach: Travel) -> Vec<(&str, &str, i64, i64)> {
    let mut found: Vec<_> = zone
        .devices
        .iter()
        .filter(|d| d.kind == DeviceKind::Sign && d.approach == approach)
        .map(|d| {
            let along = (d.chainage - zone.work_from).in_feet().round() as i64;
            (d.designation.as_str(), d.legend.as_str(), along, d.across.in_feet().round() as i64)
        })
        .collect();
    found.sort_by_key(|sign| (sign.2, sign.3));
    found
}

fn parts_ft(zone: &WorkZone) -> Vec<(ZonePartKind, f64)> {
    zone.parts.iter().map(|p| (p.kind, (p.length.value.in_feet() * 1e3).round() / 1e3)).collect()
}

/// Where the flaggers stand, whole feet downstream of the upstream end of the work space.
fn flaggers_ft(zone: &WorkZone) -> Vec<i64> {
    let stations = zone.devices.iter().filter(|d| d.kind == DeviceKind::FlaggerStation);
    let mut found: Vec<i64> = stations.map(|d| (d.chainage - zone.work_from).in_feet().round() as i64).collect();
    found.sort_unstable();
    found
}

#[test]
fn left_lane_of_two_at_65_mph() {
    // L = 12*65 = 780 ft, cones at 65 ft: 12 gaps, 13 cones; buffer 645 ft at 130: +5; work 74: +1; downstream 50 at 20: +3.
    // Taper head 1425 ft ahead; signs 500, 1000, 1500 ft ahead of it on both sides, 12 + 6 = 18 ft from the axis; the last
    // 500 ft past 74 + 50.
    let road = one_way_two_lanes(65.0);
    let mut input = input(&road);
    input.side = Side::Left;
    (input.work.across_from, input.work.across_to) = (feet(-7.5), feet(-4.5));
    let zone = lay_out(&input, &rules());
    assert_eq!(zone.layout, Layout::LaneClosureMultilane);
    assert_eq!(
        parts_ft(&zone),
        [
            (ZonePartKind::AdvanceWarning, 1500.0),
            (ZonePartKind::Taper, 780.0),
            (ZonePartKind::Buffer, 645.0),
            (ZonePartKind::WorkSpace, 74.0),
            (ZonePartKind::DownstreamTaper, 50.0),
        ]
    );
    assert_eq!(device_count(&zone), DeviceCount { signs: 7, cones: 22, flagger_stations: 0, shield_vehicles: 0 });
    assert_eq!(
        signs(&zone, Travel::Forward),
        [
            ("W20-1", "ROAD WORK AHEAD", -2925, -18),
            ("W20-1", "ROAD WORK AHEAD", -2925, 18),
            ("W20-5", "LEFT LANE CLOSED AHEAD", -2425, -18),
            ("W20-5", "LEFT LANE CLOSED AHEAD", -2425, 18),
            ("W4-2", "lane ends, LEFT (symbol)", -1925, -18),
            ("W4-2", "lane ends, LEFT (symbol)", -1925, 18),
            ("G20-2", "END ROAD WORK", 624, 18),
        ]
    );
    // The taper runs from the left edge to the lane line; 12 ft stay open.
    let cones: Vec<f64> = zone
        .devices
        .iter()
        .filter(|d| d.kind == DeviceKind::Cone)
        .map(|d| (d.across.in_feet() * 1e3).round() / 1e3)
        .collect();
    assert_eq!((cones[0], cones[12], cones[18], cones[21]), (-12.0, 0.0, 0.0, -12.0));
    assert!((zone.open_width.value.in_feet() - 12.0).abs() < 1e-9);
    // Signs 1000 ft on, 500 to the taper, 1549 walked, 500 to the end, 587 back to the work with two turns:
    // 7*90 + 22*8 + 1549/3.66667 + 2587/29.33333 + 2*25 = 806 + 422.45 + 88.19 + 50 s.
    assert!((zone.set_up.value.in_seconds() - 1366.65).abs() < 0.01, "{}", zone.set_up.value.in_seconds());
}

#[test]
fn urban_two_lane_road_at_30_mph() {
    // Above 25 mph, so high speed: 350 ft each. Taper 100 ft at 20: 6 cones; buffer 200 at 60: +4; work 74 at 60: +2;
    // downstream 50 at 20: +3. Flagger max(200, 100 + 200) = 300 ft ahead; the other max(200, 50) = 200 ft past 74.
    let mut road = two_lane(30.0);
    road.setting = Setting::Urban;
    let zone = lay_out(&input(&road), &rules());
    assert_eq!(zone.layout, Layout::LaneClosureTwoWay);
    assert_eq!(
        parts_ft(&zone),
        [
            (ZonePartKind::AdvanceWarning, 1050.0),
            (ZonePartKind::Taper, 100.0),
            (ZonePartKind::Buffer, 200.0),
            (ZonePartKind::WorkSpace, 74.0),
            (ZonePartKind::DownstreamTaper, 50.0),
        ]
    );
    assert_eq!(device_count(&zone), DeviceCount { signs: 8, cones: 15, flagger_stations: 2, shield_vehicles: 0 });
    assert_eq!(flaggers_ft(&zone), [-300, 274]);
    assert_eq!(
        signs(&zone, Travel::Forward),
        [
            ("W20-1", "ROAD WORK AHEAD", -1350, 18),
            ("W20-4", "ONE LANE ROAD AHEAD", -1000, 18),
            ("W20-7", "flagger ahead (symbol)", -650, 18),
            ("G20-2", "END ROAD WORK", 774, 18),
        ]
    );
    assert_eq!(
        signs(&zone, Travel::Backward),
        [
            ("G20-2", "END ROAD WORK", -800, -18),
            ("W20-7", "flagger ahead (symbol)", 624, -18),
            ("W20-4", "ONE LANE ROAD AHEAD", 974, -18),
            ("W20-1", "ROAD WORK AHEAD", 1324, -18),
        ]
    );
    // 8*90 + 15*8 + 2*60 + 424/3.66667 + 8107/29.33333 + 7*25 = 960 + 115.64 + 276.38 + 175 s;
    // in: 480 + 120 + 60 + 115.64 + 276.38 + 13*25.
    assert!((zone.set_up.value.in_seconds() - 1527.01).abs() < 0.01, "{}", zone.set_up.value.in_seconds());
    assert!((zone.take_in.value.in_seconds() - 1377.01).abs() < 0.01, "{}", zone.take_in.value.in_seconds());
}

#[test]
fn shoulder_at_50_mph() {
    // Shoulder 10 ft: L/3 = 10*50/3 = 166.67, up to 167 ft, at 50: 4 gaps, 5 cones; buffer 425 at 100: +5; work: +1.
    // Taper head 592 ft ahead; signs 500 and 1000 ft ahead of it; the last 500 ft past 74.
    let mut road = two_lane(50.0);
    road.shoulder = feet(10.0);
    let mut input = input(&road);
    input.shoulder_only = true;
    (input.work.across_from, input.work.across_to) = (feet(14.0), feet(17.0));
    let zone = lay_out(&input, &rules());
    assert_eq!(zone.layout, Layout::Shoulder);
    assert_eq!(
        parts_ft(&zone),
        [
            (ZonePartKind::AdvanceWarning, 1000.0),
            (ZonePartKind::Taper, 167.0),
            (ZonePartKind::Buffer, 425.0),
            (ZonePartKind::WorkSpace, 74.0),
        ]
    );
    assert_eq!(device_count(&zone), DeviceCount { signs: 3, cones: 11, flagger_stations: 0, shield_vehicles: 0 });
    assert_eq!(
        signs(&zone, Travel::Forward),
        [
            ("W20-1", "ROAD WORK AHEAD", -1592, 18),
            ("W21-5", "SHOULDER WORK", -1092, 18),
            ("G20-2", "END ROAD WORK", 574, 18),
        ]
    );
    assert!(signs(&zone, Travel::Backward).is_empty());
    // 3*90 + 11*8 + 666/3.66667 + (1000 + 500 + 537)/29.33333 + 2*25 = 358 + 181.64 + 69.44 + 50 s.
    assert!((zone.set_up.value.in_seconds() - 659.08).abs() < 0.01, "{}", zone.set_up.value.in_seconds());
}
