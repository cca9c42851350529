//! The layout on the real road: bends, bridges, junctions, ends of the road, roads that join.

mod common;

use common::{input, rules};
use model::place::{LonLat, Travel};
use model::problem::Locator;
use model::quantity::{InLength, Length, feet, fraction, kilometres_per_hour, metres, miles_per_hour};
use model::road::{Flow, RawLine, RoadAttributes, RoadClass, RoadSection, SectionId, Setting, Surface};
use model::road_around::{RoadAround, RoadAxis, StructureKind};
use model::work_zone::{Device, DeviceKind, Layout, WorkZone, ZonePartKind};
use roads::{Network, TruckSpeeds, network_from_lines};
use workzone::{WorkExtent, ZoneInput, junction_ahead, lay_out, on_road, reach, side_reach};

/// A road through points of a table in metres around an invented place on the equator.
fn line(name: &str, table: &[(f64, f64)]) -> RawLine {
    const DEGREE: f64 = 110_574.0;
    RawLine {
        source_id: name.to_owned(),
        at: Locator::default(),
        points: table
            .iter()
            .map(|&(east, north)| LonLat { lon: -31.0 + east / 111_319.5, lat: north / DEGREE })
            .collect(),
        node_keys: None,
        attributes: RoadAttributes {
            class: RoadClass::Secondary,
            name: name.to_owned(),
            number: String::new(),
            speed: miles_per_hour(50.0),
            lanes: 2,
            width: feet(24.0),
            shoulder: feet(4.0),
            flow: Flow::Both,
            surface: Surface::SurfaceTreated,
            vehicles_per_day: Some(900.0),
            setting: Setting::Rural,
            structure: None,
            roundabout: false,
            truck: model::road::TruckAccess::default(),
            defaulted: Vec::new(),
        },
    }
}

fn network(lines: Vec<RawLine>) -> Network {
    let speeds = TruckSpeeds { factor: fraction(1.0), max: kilometres_per_hour(80.0) };
    Network::prepare(network_from_lines(lines).0, speeds).unwrap()
}

fn around(network: &Network) -> RoadAround {
    let (section, rules) = (network.section(SectionId(0)), rules());
    let reach = reach(section, &rules);
    network.around(SectionId(0), reach, reach, side_reach(section, &rules))
}

/// Work at a chainage of section 0; the zone as laid out, and on the road.
fn zones(network: &Network, at_m: f64) -> (WorkZone, WorkZone) {
    zones_of(network.section(SectionId(0)), &around(network), at_m)
}

fn zones_of(section: &RoadSection, around: &RoadAround, at_m: f64) -> (WorkZone, WorkZone) {
    let input = at(section, at_m);
    let laid_out = lay_out(&input, &rules());
    let placed = on_road(laid_out.clone(), &input, around, &rules());
    lawful(&laid_out, &placed);
    (laid_out, placed)
}

fn at(section: &RoadSection, at_m: f64) -> ZoneInput<'_> {
    let work =
        WorkExtent { from: metres(at_m), to: metres(at_m + 1.2), across_from: metres(1.4), across_to: metres(2.2) };
    ZoneInput { work, ..input(section) }
}

/// What must hold whatever the road is.
fn lawful(laid_out: &WorkZone, placed: &WorkZone) {
    assert!(placed.removing.iter().copied().eq((0..placed.devices.len()).rev()));
    for travel in [Travel::Forward, Travel::Backward] {
        let sign = if travel == Travel::Forward { 1.0 } else { -1.0 };
        let downstream = |device: &Device| sign * device.chainage.in_metres();
        // Upstream or where it was; signs past the work may be brought back before the road's end.
        for device in placed.devices.iter().filter(|d| d.approach == travel && !on_side_road(d)) {
            let was = laid_out
                .devices
                .iter()
                .filter(|d| (d.approach, d.kind, &d.legend) == (travel, device.kind, &device.legend))
                .map(downstream)
                .fold(f64::NEG_INFINITY, f64::max);
            let ends_work = downstream(device) > downstream_of_work(laid_out, sign);
            let road_ends = match device.kind {
                DeviceKind::Sign => false,
                DeviceKind::FlaggerStation => said(placed, "the road ends"),
                // A buffer cut to the road there is brings the taper nearer.
                DeviceKind::Cone | DeviceKind::ShieldVehicle => {
                    said(placed, "where the rule set has") || said(placed, "the end of the road")
                }
            };
            assert!(downstream(device) <= was + 1e-6 || ends_work || road_ends, "{} went downstream", device.legend);
        }
        let series = |zone: &WorkZone| -> Vec<f64> {
            let mut found: Vec<f64> = zone
                .devices
                .iter()
                .filter(|d| d.approach == travel && d.kind == DeviceKind::Sign && !on_side_road(d))
                .map(downstream)
                .collect();
            found.sort_by(f64::total_cmp);
            found
        };
        let (before, after) = (series(laid_out), series(placed));
        if before.len() == after.len() {
            for (a, b) in before.windows(2).zip(after.windows(2)) {
                let past_work = a[1] > downstream_of_work(laid_out, sign);
                assert!(past_work || b[1] - b[0] >= a[1] - a[0] - 1e-6, "a distance of the series shrank");
            }
        }
        // Before any flagger or cone goes out, the signs upstream of it stand.
        for (index, device) in placed.devices.iter().enumerate().filter(|(_, d)| d.kind != DeviceKind::Sign) {
            let late = placed.devices[index + 1..].iter().any(|later| {
                later.kind == DeviceKind::Sign
                    && later.approach == device.approach
                    && device.approach == travel
                    && downstream(later) < downstream(device)
            });
            assert!(!late, "{} before its warning", device.legend);
        }
    }
    assert!(placed.remarks.iter().all(|remark| !remark.contains("were not checked")), "{:?}", placed.remarks);
}

fn downstream_of_work(zone: &WorkZone, sign: f64) -> f64 {
    (sign * zone.work_from.in_metres()).max(sign * zone.work_to.in_metres())
}

fn on_side_road(device: &Device) -> bool {
    device.spot.as_ref().is_some_and(|spot| spot.side_road.is_some())
}

/// The devices of one kind for one approach, upstream first.
fn of(zone: &WorkZone, travel: Travel, kind: DeviceKind) -> Vec<&Device> {
    let mut found: Vec<&Device> = zone.devices.iter().filter(|d| d.approach == travel && d.kind == kind).collect();
    found.sort_by(|a, b| a.chainage.value.total_cmp(&b.chainage.value));
    if travel == Travel::Backward {
        found.reverse();
    }
    found
}

fn signs(zone: &WorkZone, travel: Travel) -> Vec<&Device> {
    of(zone, travel, DeviceKind::Sign)
}

fn moved(device: &Device) -> f64 {
    device.spot.as_ref().unwrap().moved.in_metres()
}

fn said(zone: &WorkZone, words: &str) -> bool {
    zone.remarks.iter().any(|remark| remark.contains(words))
}

const STRAIGHT: [(f64, f64); 2] = [(0.0, 0.0), (4000.0, 0.0)];

#[test]
fn on_a_straight_road_everything_stands_where_the_rule_puts_it() {
    let network = network(vec![line("main", &STRAIGHT)]);
    let (laid_out, placed) = zones(&network, 2000.0);
    assert_eq!(laid_out.devices.len(), placed.devices.len());
    for (before, after) in laid_out.devices.iter().zip(&placed.devices) {
        assert!((before.chainage - after.chainage).abs() < metres(1e-6) && before.across == after.across);
        assert!((before.spacing - after.spacing).abs() < metres(1e-6), "{}", after.legend);
        let spot = after.spot.as_ref().unwrap();
        assert!((spot.chainage - after.chainage).abs() < metres(1e-6) && spot.section == SectionId(0));
        assert_eq!((spot.moved, &spot.side_road), (metres(0.0), &None));
        let (there, _) = network.point_at(SectionId(0), after.chainage);
        let off = roads::distance(there, spot.place).in_metres();
        assert!((off - after.across.in_metres().abs()).abs() < 0.05, "{}: {off} m", after.legend);
        // Increasing chainage looks east here: the right is south.
        assert_eq!(spot.place.lat < 0.0, after.across > metres(0.0));
    }
    assert!(!said(&placed, "moved") && !said(&placed, "join") && said(&placed, "crests not"));
    assert_eq!((laid_out.set_up, laid_out.take_in), (placed.set_up, placed.take_in));
}

#[test]
fn on_other_sections_of_the_road_a_spot_has_their_chainage() {
    let lines = vec![
        line("main", &[(0.0, 0.0), (300.0, 0.0)]),
        line("main", &[(2000.0, 0.0), (300.0, 0.0)]),
        line("main", &[(-2000.0, 0.0), (0.0, 0.0)]),
    ];
    let (_, placed) = zones(&network(lines), 150.0);
    for device in &placed.devices {
        let spot = device.spot.as_ref().unwrap();
        let chainage = device.chainage.in_metres();
        let (section, own) = if chainage < 0.0 {
            (2, 2000.0 + chainage)
        } else if chainage <= 300.0 {
            (0, chainage)
        } else {
            (1, 2000.0 - chainage)
        };
        assert_eq!(spot.section, SectionId(section));
        assert!((spot.chainage.in_metres() - own).abs() < 0.2, "{chainage}: {spot:?}");
    }
    assert!(!said(&placed, "The section is shorter"));
}

#[test]
fn a_flagger_behind_a_bend_moves_upstream_and_takes_the_series_along() {
    // A sharp bend 20 m upstream of where the flagger for the traffic from the west falls.
    let probe = network(vec![line("main", &STRAIGHT)]);
    let station = of(&zones(&probe, 2000.0).0, Travel::Forward, DeviceKind::FlaggerStation)[0].chainage.in_metres();
    let corner = station - 20.0;
    let bent = network(vec![line("main", &[(0.0, 0.0), (corner, 0.0), (corner, 4000.0 - corner)])]);
    let (laid_out, placed) = zones(&bent, 2000.0);
    let flagger = of(&placed, Travel::Forward, DeviceKind::FlaggerStation)[0];
    assert!(moved(flagger) > 0.0 && flagger.chainage.in_metres() <= corner + 5.0, "{}", flagger.chainage.in_metres());
    assert!(flagger.why.to_string().contains("hidden by a bend"), "{}", flagger.why);
    assert!(
        said(&placed, "Flagger, for the traffic of the lane worked in: moved") && said(&placed, "hidden by a bend")
    );
    for (before, after) in signs(&laid_out, Travel::Forward).iter().zip(signs(&placed, Travel::Forward)).take(3) {
        assert!((before.chainage - after.chainage - (metres(station) - flagger.chainage)).abs() < metres(0.01));
        assert!(after.why.to_string().contains("moved upstream"));
    }
    // Whoever comes the other way sees everything.
    assert!(signs(&placed, Travel::Backward).iter().all(|sign| moved(sign) == 0.0));
    // The flaggers are further apart, and do not see each other.
    assert!(placed.control.between_ends > laid_out.control.between_ends);
}

#[test]
fn a_first_sign_behind_a_bend_moves_alone() {
    let probe = network(vec![line("main", &STRAIGHT)]);
    let first = signs(&zones(&probe, 2500.0).0, Travel::Forward)[0].chainage.in_metres();
    let corner = first - 20.0;
    let bent = network(vec![line("main", &[(0.0, 0.0), (corner, 0.0), (corner, 4000.0 - corner)])]);
    let (laid_out, placed) = zones(&bent, 2500.0);
    let (before, after) = (signs(&laid_out, Travel::Forward), signs(&placed, Travel::Forward));
    assert!(moved(after[0]) > 10.0 && moved(after[0]) < 40.0, "{}", moved(after[0]));
    for index in 1..before.len() {
        assert_eq!(after[index].chainage.in_metres().round(), before[index].chainage.in_metres().round());
    }
    assert!(said(&placed, "ROAD WORK AHEAD, for the traffic of the lane worked in: moved"));
}

#[test]
fn a_sign_moves_past_a_bridge_or_is_reported() {
    let probe = network(vec![line("main", &STRAIGHT)]);
    let second = signs(&zones(&probe, 2000.0).0, Travel::Forward)[1].chainage.in_metres();
    // A bridge from 60 m upstream to 20 m downstream of it.
    let cut = |kind: Option<StructureKind>, before: f64| {
        let mut bridge = line("main", &[(second - before, 0.0), (second + 20.0, 0.0)]);
        bridge.attributes.structure = kind;
        network(vec![
            line("main", &[(second + 20.0, 0.0), (4000.0, 0.0)]),
            bridge,
            line("main", &[(0.0, 0.0), (second - before, 0.0)]),
        ])
    };
    let at_m = 2000.0 - second - 20.0;
    let (laid_out, placed) = zones(&cut(Some(StructureKind::Bridge), 60.0), at_m);
    let (before, after) = (signs(&laid_out, Travel::Forward), signs(&placed, Travel::Forward));
    assert!((60.0..63.1).contains(&moved(after[1])), "{}", moved(after[1]));
    assert!((moved(after[0]) - moved(after[1])).abs() < 1e-6, "the sign upstream keeps its distance");
    assert_eq!(after[2].chainage, before[2].chainage);
    assert!(after[1].why.to_string().contains("on a bridge") && said(&placed, "on a bridge"));
    // Longer than a sign may be moved.
    let (laid_out, placed) = zones(&cut(Some(StructureKind::Tunnel), 400.0), at_m);
    assert!(said(&placed, "NOT SOLVED: no place within 660 ft (201.2 m) upstream is free (in a tunnel)"));
    assert_eq!(signs(&placed, Travel::Forward)[1].chainage, signs(&laid_out, Travel::Forward)[1].chainage);
    // Where the rules do not let it past, it is reported.
    let mut strict = rules();
    strict.placing.past_structures.value = false;
    let bridged = cut(Some(StructureKind::Bridge), 60.0);
    let input = at(bridged.section(SectionId(0)), at_m);
    let placed = on_road(lay_out(&input, &strict), &input, &around(&bridged), &strict);
    assert!(said(&placed, "upstream is free (on a bridge)"));
}

/// The straight road with a side road at a place.
fn with_side(at_m: f64, flow: Flow, class: RoadClass) -> Network {
    let mut side = line("mole", &[(at_m, 0.0), (at_m, -700.0)]);
    side.attributes.flow = flow;
    side.attributes.class = class;
    side.attributes.speed = miles_per_hour(30.0);
    network(vec![
        line("main", &[(at_m, 0.0), (at_m + 4000.0, 0.0)]),
        line("main", &[(at_m - 4000.0, 0.0), (at_m, 0.0)]),
        side,
    ])
}

#[test]
fn a_road_that_joins_before_the_work_gets_its_own_sign() {
    let (laid_out, placed) = zones(&with_side(0.0, Flow::Both, RoadClass::Tertiary), 250.0);
    let joining: Vec<&Device> = placed.devices.iter().filter(|d| on_side_road(d)).collect();
    let [sign] = joining[..] else { panic!("{joining:?}") };
    assert_eq!((sign.designation.as_str(), sign.legend.as_str()), ("W20-1", "ROAD WORK AHEAD"));
    let spot = sign.spot.as_ref().unwrap();
    // Rural: A is 500 ft.
    assert_eq!(spot.side_road, Some(("mole".to_owned(), feet(500.0))));
    assert_eq!((sign.chainage, sign.approach, spot.section), (metres(0.0), Travel::Forward, SectionId(2)));
    // It drives north to the junction and keeps right: the sign stands east of the line.
    assert!(spot.place.lon > -31.0 && sign.across < metres(0.0));
    // It goes out before any flagger and cone.
    let place = placed.devices.iter().position(on_side_road).unwrap();
    assert!(placed.devices[..place].iter().all(|d| d.kind == DeviceKind::Sign));
    assert!(placed.devices[place + 1..].iter().all(|d| d.kind != DeviceKind::Sign || !d.legend.contains("AHEAD")));
    assert!(said(&placed, "W20-1 ROAD WORK AHEAD on mole (right), 500 ft (152.4 m) from its junction"));
    assert!(placed.set_up.value > laid_out.set_up.value);
}

#[test]
fn a_road_that_nothing_comes_out_of_gets_none() {
    let side_signs =
        |network: &Network, at_m: f64| zones(network, at_m).1.devices.iter().filter(|d| on_side_road(d)).count();
    // Drawn away from the junction: forward leads out only.
    assert_eq!(side_signs(&with_side(0.0, Flow::Forward, RoadClass::Tertiary), 250.0), 0);
    assert_eq!(side_signs(&with_side(0.0, Flow::Backward, RoadClass::Tertiary), 250.0), 1);
    // Upstream of the first sign.
    assert_eq!(side_signs(&with_side(0.0, Flow::Both, RoadClass::Tertiary), 1500.0), 0);
    let (_, track) = zones(&with_side(0.0, Flow::Both, RoadClass::Track), 250.0);
    assert!(
        !track.devices.iter().any(on_side_road)
            && said(&track, "Not signed, look whether traffic comes out of them: mole (right)")
    );
}

#[test]
fn no_sign_stands_in_the_mouth_of_a_junction() {
    let probe = network(vec![line("main", &STRAIGHT)]);
    let nearest = signs(&zones(&probe, 2000.0).0, Travel::Forward)[2].chainage.in_metres();
    let (_, placed) = zones(&with_side(0.0, Flow::Both, RoadClass::Tertiary), 2000.0 - nearest + 5.0);
    let sign = signs(&placed, Travel::Forward).into_iter().filter(|d| !on_side_road(d)).nth(2).unwrap();
    assert!(sign.chainage <= -feet(50.0) && sign.chainage > -feet(61.0), "{}", sign.chainage.in_metres());
    assert!(said(&placed, "nearer than 50 ft (15.2 m) to a junction"));
}

#[test]
fn where_the_road_ends_at_a_t_the_series_stands_on_both_arms() {
    let stem = |at_m: f64| {
        let lines = vec![
            line("stem", &[(0.0, 0.0), (3000.0, 0.0)]),
            line("quay", &[(0.0, 0.0), (0.0, 2000.0)]),
            line("quay", &[(0.0, 0.0), (0.0, -2000.0)]),
        ];
        zones(&network(lines), at_m)
    };
    let (laid_out, placed) = stem(400.0);
    let fell_on: Vec<f64> = signs(&laid_out, Travel::Forward).iter().map(|d| d.chainage.in_metres()).collect();
    let beyond = fell_on.iter().filter(|d| **d < 0.0).count();
    assert_eq!(beyond, 2, "{fell_on:?}");
    let arms: Vec<&Device> = placed.devices.iter().filter(|d| on_side_road(d)).collect();
    assert_eq!(arms.len(), 4);
    for device in &arms {
        let (name, distance) = device.spot.as_ref().unwrap().side_road.clone().unwrap();
        assert_eq!((name.as_str(), device.chainage), ("quay", metres(0.0)));
        let expected = fell_on.iter().any(|d| (distance.in_metres() + d).abs() < 0.01);
        assert!(expected, "{} at {} m of {fell_on:?}", device.legend, distance.in_metres());
    }
    // Furthest first, and the two arms one after the other at the same distance.
    assert_eq!(
        arms.iter().map(|d| d.legend.as_str()).collect::<Vec<_>>(),
        ["ROAD WORK AHEAD", "ROAD WORK AHEAD", "ONE LANE ROAD AHEAD", "ONE LANE ROAD AHEAD"]
    );
    assert!(said(&placed, "stands on each of quay, quay"));
    assert!(!said(&placed, "Roads that join"), "the arms have the series");
}

#[test]
fn past_a_dead_end_signs_are_left_out_but_not_at_the_edge_of_the_map() {
    let dead_end = |class: RoadClass, map_goes_on: bool| {
        let mut road = line("main", &STRAIGHT);
        road.attributes.class = class;
        let beyond = line("beyond", &[(-500.0, -100.0), (-500.0, 100.0)]);
        zones(&network(if map_goes_on { vec![road, beyond] } else { vec![road] }), 350.0)
    };
    for (class, map_goes_on) in [(RoadClass::Secondary, true), (RoadClass::Residential, false)] {
        assert!(said(&dead_end(class, map_goes_on).1, "left out: the road ends before it"), "{class:?}");
    }
    let (laid_out, placed) = dead_end(RoadClass::Unclassified, true);
    let before: Vec<&str> = signs(&laid_out, Travel::Forward)
        .iter()
        .filter(|d| d.chainage < metres(0.0))
        .map(|d| d.legend.as_str())
        .collect();
    assert_eq!(before, ["ROAD WORK AHEAD", "ONE LANE ROAD AHEAD"]);
    let legends: Vec<&str> = signs(&placed, Travel::Forward).iter().map(|d| d.legend.as_str()).collect();
    assert_eq!(legends, ["flagger ahead (symbol)", "END ROAD WORK"]);
    assert!(said(&placed, "ROAD WORK AHEAD, for the traffic of the lane worked in: left out: the road ends before it"));
    // END ROAD WORK for those who leave stands past the dead end as well.
    assert!(placed.devices.len() < laid_out.devices.len());

    let (laid_out, placed) = dead_end(RoadClass::Unclassified, false);
    assert!(said(
        &placed,
        "NOT PLACED on the map: the road ends on the map before it, and the map shows nothing beyond"
    ));
    let kept = signs(&placed, Travel::Forward);
    assert_eq!(kept.len(), signs(&laid_out, Travel::Forward).len());
    assert!(kept[0].spot.is_none() && kept[3].spot.is_some());
}

#[test]
fn past_a_roundabout_the_series_stands_on_its_legs() {
    let ring: Vec<(f64, f64)> = (0..=12)
        .map(|i| f64::from(i % 12) * 30.0)
        .map(f64::to_radians)
        .map(|a| (-20.0 + 20.0 * a.cos(), 20.0 * a.sin()))
        .collect();
    let mut roundabout = line("ring", &ring);
    (roundabout.attributes.flow, roundabout.attributes.roundabout) = (Flow::Forward, true);
    let lines = vec![
        line("main", &STRAIGHT),
        roundabout,
        line("west", &[ring[6], (-3000.0, 0.0)]),
        line("north", &[ring[3], (-20.0, 1000.0)]),
    ];
    let roundabout = network(lines);
    let (_, placed) = zones(&roundabout, 500.0);
    let legs = |legend: &str| -> Vec<String> {
        let on_legs = placed.devices.iter().filter(|d| d.legend == legend && d.approach == Travel::Forward);
        on_legs.filter_map(|d| d.spot.as_ref()?.side_road.as_ref()).map(|(name, _)| name.clone()).collect()
    };
    assert_eq!(legs("ROAD WORK AHEAD"), ["west", "north"]);
    assert!(said(&placed, "from the roundabout where the road ends") && !said(&placed, "NOT PLACED"));
    // On the ring itself nothing is laid out.
    let ring_work = at(roundabout.section(SectionId(1)), 20.0);
    let refused = lay_out(&ring_work, &rules());
    assert!(refused.devices.is_empty() && refused.not_laid_out.unwrap().contains("lies on a roundabout"));
}

/// A road that ends at a T with a quay, 3 km long.
fn stem(at_m: f64) -> (WorkZone, WorkZone) {
    let lines = vec![
        line("stem", &[(0.0, 0.0), (3000.0, 0.0)]),
        line("north quay", &[(0.0, 0.0), (0.0, 2000.0)]),
        line("south quay", &[(0.0, 0.0), (0.0, -2000.0)]),
    ];
    zones(&network(lines), at_m)
}

fn stations(zone: &WorkZone) -> Vec<&Device> {
    zone.devices.iter().filter(|d| d.kind == DeviceKind::FlaggerStation).collect()
}

fn buffer_m(zone: &WorkZone) -> f64 {
    let buffer = zone.parts.iter().find(|part| part.kind == ZonePartKind::Buffer);
    buffer.map_or(0.0, |part| part.length.value.in_metres())
}

#[test]
fn before_a_t_one_flagger_stands_where_there_is_room_to_wait() {
    // The rule puts him 525 ft before the work space: 160 m; the work space begins 16.8 m before the cut.
    for at_m in [170.0, 120.0] {
        let (laid_out, placed) = stem(at_m);
        let flagger = of(&placed, Travel::Forward, DeviceKind::FlaggerStation)[0];
        let own = of(&laid_out, Travel::Forward, DeviceKind::FlaggerStation)[0];
        assert!(own.chainage < metres(0.0), "the rule puts him past the junction");
        assert!((flagger.chainage - feet(150.0)).abs() < metres(0.01), "{:?}", flagger.chainage);
        assert!(said(&placed, "all that comes turns in there, and has room to wait"));
        assert!(buffer_m(&placed) < buffer_m(&laid_out) && said(&placed, "where the rule set has"));
        // No cone upstream of him, the taper at least the least.
        assert!(placed.devices.iter().all(|d| d.kind != DeviceKind::Cone || d.chainage >= flagger.chainage));
        assert_eq!((placed.flaggers.value, placed.people_needed), (2, 4));
    }
}

#[test]
fn nearer_to_a_t_a_flagger_stands_on_each_road_or_nothing_is_laid_out() {
    let (_, placed) = stem(60.0);
    let on_arms: Vec<&str> = stations(&placed)
        .iter()
        .filter_map(|d| d.spot.as_ref()?.side_road.as_ref())
        .map(|(name, _)| name.as_str())
        .collect();
    assert_eq!(on_arms, ["north quay", "south quay"]);
    assert_eq!((placed.flaggers.value, placed.people_needed), (3, 5));
    assert!(
        said(&placed, "too near for those who wait") || said(&placed, "who does not go to the work is let through")
    );
    let (_, refused) = stem(12.0);
    let why = refused.not_laid_out.as_ref().unwrap();
    assert!(why.starts_with("A junction lies") && why.contains("50 ft (15.2 m)"), "{why}");
    assert!(refused.devices.is_empty() && refused.remarks.contains(why));
}

#[test]
fn on_a_dead_end_the_flagger_stands_at_its_end_or_nobody_comes() {
    let close = |at_m: f64| {
        let beyond = line("beyond", &[(-500.0, -100.0), (-500.0, 100.0)]);
        zones(&network(vec![line("main", &STRAIGHT), beyond]), at_m)
    };
    let (_, placed) = close(100.0);
    let flagger = of(&placed, Travel::Forward, DeviceKind::FlaggerStation)[0];
    assert_eq!(flagger.chainage, metres(0.0));
    assert!(said(&placed, "only those come who start there"));
    // Whoever starts there passes no first sign.
    assert!(said(&placed, "ROAD WORK AHEAD, for the traffic of the lane worked in: left out"));
    let (_, placed) = close(5.0);
    assert!(of(&placed, Travel::Forward, DeviceKind::FlaggerStation).is_empty());
    assert_eq!((placed.flaggers.value, placed.people_needed), (1, 3));
    assert!(placed.control.reason.contains("nothing comes from there"));
}

#[test]
fn each_road_that_joins_between_the_flaggers_has_one_of_its_own() {
    let (laid_out, placed) = zones(&with_side(0.0, Flow::Both, RoadClass::Tertiary), 60.0);
    let joining: Vec<&Device> = stations(&placed).into_iter().filter(|d| on_side_road(d)).collect();
    let [flagger] = joining[..] else { panic!("{joining:?}") };
    assert_eq!(flagger.spot.as_ref().unwrap().side_road, Some(("mole".to_owned(), feet(50.0))));
    assert_eq!((placed.flaggers.value, placed.people_needed), (3, laid_out.people_needed + 1));
    assert!(said(&placed, "A flagger of its own on each road that joins between the flaggers at the ends"));
    assert!(placed.control.reason.starts_with("3 flaggers, 1 of them"));
    // His sign stands before he does.
    let place = |found: &dyn Fn(&Device) -> bool| placed.devices.iter().position(found).unwrap();
    let sign = place(&|d| on_side_road(d) && d.kind == DeviceKind::Sign);
    assert!(sign < place(&|d| on_side_road(d) && d.kind == DeviceKind::FlaggerStation));
    // Too few people, said for the number it takes now.
    let crew: Vec<&String> = placed.remarks.iter().filter(|r| r.starts_with("The crew has")).collect();
    assert_eq!(crew.len(), usize::from(placed.people_needed > 5));
    // A road that only leads out, and one outside of the flaggers, need none.
    for (flow, at_m) in [(Flow::Forward, 60.0), (Flow::Both, 400.0)] {
        let (_, placed) = zones(&with_side(0.0, flow, RoadClass::Tertiary), at_m);
        assert_eq!(placed.flaggers.value, 2);
    }
}

/// Work whose lane ends at a junction 20 m ahead; the road goes straight on over it, and a side road joins.
#[test]
fn in_the_approach_of_a_junction_nobody_is_stopped_in_it() {
    let cross = with_side(0.0, Flow::Both, RoadClass::Tertiary);
    // Section 1 ends at the junction: work in it, traffic towards it.
    let section = cross.section(SectionId(1));
    let rules = rules();
    let reach = reach(section, &rules);
    let around = cross.around(SectionId(1), reach, reach, side_reach(section, &rules));
    let length = section.length.in_metres();
    let mut input = at(section, length - 20.0);
    input.junction_ahead = junction_ahead(&around, &input.work, Travel::Forward, &rules);
    let placed = on_road(lay_out(&input, &rules), &input, &around, &rules);
    assert_eq!(placed.layout, Layout::JunctionApproachTwoWay);
    let opposing = of(&placed, Travel::Backward, DeviceKind::FlaggerStation)[0];
    // Before the junction as his traffic meets it: past it from the work.
    assert!(opposing.chainage >= section.length + feet(50.0) - metres(1e-6), "{:?}", opposing.chainage);
    let legs = stations(&placed).into_iter().filter(|d| on_side_road(d)).count();
    assert_eq!((legs, placed.flaggers.value), (1, 3));
    assert!(placed.devices.iter().any(|d| on_side_road(d) && d.kind == DeviceKind::Sign));
    assert!(!said(&placed, "Each other road at the junction needs its own signs"));
}

#[test]
fn one_flagger_is_not_enough_where_a_road_joins_inside_the_closure() {
    let joined = with_side(0.0, Flow::Both, RoadClass::Tertiary);
    let section = RoadSection { vehicles_per_day: Some(100.0), ..joined.section(SectionId(0)).clone() };
    let around = around(&joined);
    for (at_m, expected) in [(40.0, Layout::LaneClosureTwoWay), (1500.0, Layout::LaneClosureOneFlagger)] {
        let input = ZoneInput { sight: Some(metres(400.0)), ..at(&section, at_m) };
        let laid_out = lay_out(&input, &rules());
        assert_eq!(laid_out.layout, Layout::LaneClosureOneFlagger, "{}", laid_out.layout_reason);
        let placed = on_road(laid_out, &input, &around, &rules());
        assert_eq!(placed.layout, expected);
        if expected == Layout::LaneClosureTwoWay {
            assert_eq!(placed.layout_reason, "A flagger at each end, since mole joins inside the closure.");
            assert_eq!(placed.flaggers.value, 3);
        }
    }
}

#[test]
fn the_sign_past_the_work_stands_on_no_bridge() {
    let probe = network(vec![line("main", &STRAIGHT)]);
    let end = signs(&zones(&probe, 2000.0).0, Travel::Forward)[3].chainage.in_metres();
    for (from, to, expected) in [(end - 10.0, end + 30.0, end + 30.0), (end - 10.0, 4000.0, end - 10.0)] {
        let mut bridge = line("main", &[(from, 0.0), (to, 0.0)]);
        bridge.attributes.structure = Some(StructureKind::Bridge);
        let mut lines = vec![line("main", &[(0.0, 0.0), (from, 0.0)]), bridge];
        if to < 4000.0 {
            lines.push(line("main", &[(to, 0.0), (4000.0, 0.0)]));
        }
        let (_, placed) = zones(&network(lines), 2000.0);
        let sign = *signs(&placed, Travel::Forward).last().unwrap();
        assert_eq!(sign.legend, "END ROAD WORK");
        assert!((sign.chainage.in_metres() - expected).abs() < 3.2, "{:?} for {expected}", sign.chainage);
        assert_eq!(said(&placed, "brought back towards the work"), expected < end);
    }
}

#[test]
fn where_no_place_is_seen_from_far_enough_the_best_is_taken_and_said() {
    // A square corner every 60 m, all the way up.
    let probe = network(vec![line("main", &STRAIGHT)]);
    let station = of(&zones(&probe, 2000.0).0, Travel::Forward, DeviceKind::FlaggerStation)[0].chainage.in_metres();
    let mut table = vec![(0.0, 0.0)];
    for corner in 0..30 {
        let (east, north) = *table.last().unwrap();
        table.push(if corner % 2 == 0 { (east + 60.0, north) } else { (east, north + 60.0) });
    }
    let (east, north) = *table.last().unwrap();
    let left = 4000.0 - 1800.0;
    table.push((east + left, north));
    let winding = network(vec![line("main", &table)]);
    let at_m = 1700.0 + 2000.0 - station;
    let (laid_out, placed) = zones(&winding, at_m);
    let flagger = of(&placed, Travel::Forward, DeviceKind::FlaggerStation)[0];
    assert!(moved(flagger) >= 0.0 && moved(flagger) <= 201.2);
    assert!(flagger.chainage <= of(&laid_out, Travel::Forward, DeviceKind::FlaggerStation)[0].chainage);
    let remark = placed.remarks.iter().find(|r| r.contains("NOT SOLVED") && r.starts_with("Flagger")).unwrap();
    assert!(remark.contains("no place within 660 ft (201.2 m) upstream is seen from as far as it must be"), "{remark}");
    assert!(remark.contains("of 425 ft (129.5 m): enough up to"), "{remark}");
}

#[test]
fn where_one_way_traffic_cannot_come_from_no_sign_stands() {
    let mut away = line("main", &[(0.0, 0.0), (-3000.0, 0.0)]);
    away.attributes.flow = Flow::Forward;
    let (_, placed) = zones(&network(vec![line("main", &STRAIGHT), away]), 500.0);
    assert!(said(&placed, "left out: the road is one-way there and no traffic comes from it"));
}

#[test]
fn an_axis_without_a_line_changes_nothing() {
    let network = network(vec![line("main", &STRAIGHT)]);
    let input = at(network.section(SectionId(0)), 2000.0);
    let laid_out = lay_out(&input, &rules());
    let nothing = RoadAround { axis: RoadAxis::default(), ..around(&network) };
    assert_eq!(on_road(laid_out.clone(), &input, &nothing, &rules()), laid_out);
}

/// A zone longer than the road, on every short road.
#[test]
fn a_zone_longer_than_the_road_is_handled() {
    for length in [5.0, 40.0, 200.0, 700.0] {
        let network = network(vec![line("stub", &[(0.0, 0.0), (length, 0.0)])]);
        let (_, placed) = zones(&network, length / 2.0);
        assert!(said(&placed, "NOT PLACED") || said(&placed, "left out") || placed.not_laid_out.is_some());
        assert!(!placed.remarks.is_empty() && Length::abs(placed.work_from) >= metres(0.0));
    }
}
