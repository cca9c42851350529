//! Every rule set, every layout, every speed and many widths, both driving sides and both directions: the laws of `laws.rs`
//! on a grid, so that no layout is missed by chance. The count is printed.

mod common;

use std::collections::BTreeMap;

use common::{SETS, input, set, two_lane};
use model::district::DrivingSide;
use model::place::{Side, Travel};
use model::quantity::{InLength, kilometres_per_hour, metres, minutes};
use model::road::{Flow, RoadSection};
use model::rules::traffic::TrafficRules;
use model::work_zone::{DeviceKind, Layout, WorkZone, ZonePartKind};
use workzone::{Stay, ZoneInput, lay_out};

/// What makes a place call for a layout.
#[derive(Debug, Clone, Copy)]
struct Place {
    flow: Flow,
    lanes: u32,
    /// Where the work begins across, as a part of the half width; it is 0.8 m wide.
    at: f64,
    shoulder_only: bool,
    stay: Stay,
    sight_m: Option<f64>,
    junction_m: Option<f64>,
}

fn places() -> Vec<Place> {
    let plain = Place {
        flow: Flow::Both,
        lanes: 2,
        at: 0.4,
        shoulder_only: false,
        stay: Stay::Stationary,
        sight_m: None,
        junction_m: None,
    };
    let several = Place { flow: Flow::Forward, ..plain };
    vec![
        plain,
        several,
        Place { lanes: 4, ..plain },
        Place { at: 1.0, shoulder_only: true, ..plain },
        Place { at: 0.9, shoulder_only: true, lanes: 1, ..plain },
        Place { sight_m: Some(450.0), ..plain },
        Place { sight_m: Some(3000.0), ..plain },
        Place { junction_m: Some(10.0), ..plain },
        Place { junction_m: Some(10.0), ..several },
        Place { stay: Stay::ShortDuration, sight_m: Some(3000.0), ..plain },
        Place { stay: Stay::ShortDuration, ..several },
        Place { stay: Stay::Mobile, sight_m: Some(3000.0), ..plain },
        Place { stay: Stay::Mobile, ..several },
    ]
}

fn zone(
    place: Place,
    kmh: f64,
    width_m: f64,
    travel: Travel,
    driving_side: DrivingSide,
    rules: &TrafficRules,
) -> WorkZone {
    let road = RoadSection {
        flow: match (place.flow, travel) {
            (Flow::Both, _) => Flow::Both,
            (_, Travel::Forward) => Flow::Forward,
            (_, Travel::Backward) => Flow::Backward,
        },
        lanes: place.lanes,
        speed: kilometres_per_hour(kmh),
        width: metres(width_m),
        vehicles_per_day: Some(120.0),
        ..two_lane(50.0)
    };
    let near = if (travel == Travel::Forward) == (driving_side == DrivingSide::Right) { 1.0 } else { -1.0 };
    let from = place.at * width_m / 2.0;
    let (a, b) = (near * from, near * (from + 0.8));
    let mut input = ZoneInput { travel, driving_side, shoulder_only: place.shoulder_only, ..input(&road) };
    input.side = if near > 0.0 { Side::Right } else { Side::Left };
    (input.work.from, input.work.to) = (metres(1000.0), metres(1001.0));
    (input.work.across_from, input.work.across_to) = (metres(a.min(b)), metres(a.max(b)));
    let vehicles = if place.stay == Stay::Stationary { 1 } else { 2 };
    (input.stay, input.vehicles, input.duration) = (place.stay, vehicles, minutes(5.0));
    (input.sight, input.junction_ahead) = (place.sight_m.map(metres), place.junction_m.map(metres));
    lay_out(&input, rules)
}

/// Distance across towards the side kept to.
fn outward(zone: &WorkZone, driving_side: DrivingSide, across: f64) -> f64 {
    let near = (zone.travel == Travel::Forward) == (driving_side == DrivingSide::Right);
    if near { across } else { -across }
}

fn check(zone: &WorkZone, driving_side: DrivingSide, width_m: f64, two_way: bool, rules: &TrafficRules) {
    let said = || format!("{:?}, {driving_side:?}, {width_m} m: {}", zone.layout, zone.layout_reason);
    assert_eq!(zone.removing, (0..zone.devices.len()).rev().collect::<Vec<_>>(), "{}", said());
    let inner = if zone.layout.of_several_lanes() && two_way { 0.0 } else { -width_m / 2.0 };
    let open = zone.open_width.value.in_metres();
    let in_lane = || {
        let these = zone.devices.iter().filter(|d| matches!(d.kind, DeviceKind::Cone | DeviceKind::ShieldVehicle));
        these.map(|d| outward(zone, driving_side, d.across.in_metres()))
    };
    let clear = in_lane().all(|a| a >= inner + open - 1e-6) || in_lane().all(|a| a <= width_m / 2.0 - open + 1e-6);
    assert!(clear, "{}", said());
    let taper =
        zone.parts.iter().find(|p| p.kind == ZonePartKind::Taper).map(|p| rules.units.distance_of(p.length.value));
    if let Some(taper) = taper.filter(|_| zone.layout.takes_turns()) {
        let (least, most) = (rules.taper.one_lane_min.value, rules.taper.one_lane_max.value);
        assert!((least - 1e-9..=most + 1e-9).contains(&taper), "{taper}: {}", said());
    }
    assert!(zone.devices.iter().all(|d| d.chainage.is_finite() && d.across.is_finite() && d.spacing.is_finite()));
}

fn mirrored(zone: &WorkZone, other: &WorkZone) {
    let swap = |s: &str| s.replace("LEFT", "*").replace("RIGHT", "LEFT").replace('*', "RIGHT");
    assert_eq!(zone.devices.len(), other.devices.len());
    for (a, b) in zone.devices.iter().zip(&other.devices) {
        assert_eq!((a.kind, a.approach, swap(&a.legend)), (b.kind, b.approach, b.legend.clone()));
        assert!((a.chainage - b.chainage).in_metres().abs() < 1e-6);
        assert!((a.across + b.across).in_metres().abs() < 1e-6, "{:?}: {a:?} {b:?}", zone.layout);
    }
}

#[test]
fn every_layout_holds_at_every_speed_and_width_on_both_sides() {
    let mut found: BTreeMap<(&str, &str), u32> = BTreeMap::new();
    for name in SETS {
        let rules = set(name);
        for place in places() {
            for width_m in [5.0, 6.1, 6.6, 7.2, 8.4, 14.0] {
                let mut before: [Option<WorkZone>; 2] = [None, None];
                // 20 to 110 km/h.
                for step in 0..=18 {
                    let kmh = 20.0 + 5.0 * f64::from(step);
                    for (travel, before) in [Travel::Forward, Travel::Backward].into_iter().zip(&mut before) {
                        let [right, left] = [DrivingSide::Right, DrivingSide::Left].map(|driving_side| {
                            let zone = zone(place, kmh, width_m, travel, driving_side, &rules);
                            check(&zone, driving_side, width_m, place.flow == Flow::Both, &rules);
                            *found.entry((name, zone.layout.key())).or_default() += 1;
                            zone
                        });
                        mirrored(&right, &left);
                        if let Some(slow) = before.as_ref().filter(|slow| slow.layout == right.layout) {
                            for (a, b) in slow.parts.iter().zip(&right.parts) {
                                assert!(
                                    a.length.value <= b.length.value + metres(1e-9),
                                    "{name} {kmh} km/h: {a:?} {b:?}"
                                );
                            }
                        }
                        *before = Some(right);
                    }
                }
            }
        }
    }
    let all: u32 = found.values().sum();
    println!("{all} zones: {found:#?}");
    for name in SETS {
        for layout in Layout::ALL {
            assert!(found.contains_key(&(name, layout.key())), "{name} never laid out {layout:?}");
        }
    }
}
