//! Every rule set, speed, lane width, driving side at two hundred places of real roads: no rule broken, no panic.

mod common;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use common::input;
use model::district::DrivingSide;
use model::place::{Side, Travel};
use model::quantity::{InLength, fraction, kilometres_per_hour, metres};
use model::road::{Flow, RoadSection};
use model::road_around::RoadAround;
use model::rules::roads::RoadDefaults;
use model::rules::traffic::TrafficRules;
use model::work_zone::{Device, DeviceKind, WorkZone};
use roads::{Network, TruckSpeeds};
use workzone::{WorkExtent, ZoneInput, junction_ahead, lay_out, on_road};

const PLACES: usize = 200;

/// Third-party data beside the project, if present.
fn shared_data() -> Option<PathBuf> {
    let start = Path::new(env!("CARGO_MANIFEST_DIR"));
    let found = start.ancestors().map(|folder| folder.join("shared/data")).find(|path| path.is_dir());
    if found.is_none() {
        println!("skipped: no shared/data beside the project");
    }
    found
}

fn network(path: &Path) -> Network {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rules/roads/open-map-defaults.toml");
    let rules: RoadDefaults = toml::from_str(&std::fs::read_to_string(rules).unwrap()).unwrap();
    let lines = exchange::road_files::read_roads(path, &rules, &mut |_| {}).lines;
    let speeds = TruckSpeeds { factor: fraction(1.0), max: kilometres_per_hour(80.0) };
    Network::prepare(roads::network_from_lines(lines).0, speeds).unwrap()
}

#[test]
fn no_place_breaks_a_rule() {
    let Some(data) = shared_data() else { return };
    let sets: Vec<TrafficRules> =
        ["us-mutcd", "low-volume-metric"].map(|name| toml::from_str(&common::rule_text(name)).unwrap()).into();
    let mut count = 0;
    let mut said = BTreeMap::new();
    for file in ["osm/liechtenstein.osm.pbf", "osm/north-bayreuth.osm.gz"] {
        let network = network(&data.join(file));
        let heights = exchange::heights::read_heights(
            &data.join("heights"),
            network.roads().sections.iter().flat_map(|section| section.line.iter().copied()),
        );
        let all = &network.roads().sections;
        let places: Vec<&RoadSection> =
            all.iter().step_by((all.len() / (PLACES / 2)).max(1)).take(PLACES / 2).collect();
        assert_eq!(places.len(), PLACES / 2);
        for (number, section) in places.into_iter().enumerate() {
            for rules in &sets {
                let mut around = network.around(section.id, metres(4000.0), metres(4000.0), metres(1800.0));
                if number % 2 == 0 {
                    roads::set_heights(&mut around, metres(20.0), &|place| heights.at(place));
                }
                for km_h in (20..=110).step_by(10) {
                    for (lane_m, driving_side) in
                        [(2.5, DrivingSide::Right), (3.0, DrivingSide::Left), (3.65, DrivingSide::Right)]
                    {
                        let section = RoadSection {
                            speed: kilometres_per_hour(f64::from(km_h)),
                            width: metres(lane_m * f64::from(section.lanes)),
                            ..section.clone()
                        };
                        one(&section, &around, driving_side, number % 3 == 0, rules, &mut said);
                        count += 1;
                    }
                }
            }
        }
    }
    println!("{count} zones; {said:?}");
    assert_eq!(count, PLACES * 2 * 10 * 3);
    for words in ["moved", "left out", "stands on", "Roads that join", "NOT PLACED"] {
        assert!(said.get(words).is_some_and(|times| *times > 0), "never said: {words}");
    }
}

fn one(
    section: &RoadSection,
    around: &RoadAround,
    driving_side: DrivingSide,
    against: bool,
    rules: &TrafficRules,
    said: &mut BTreeMap<&'static str, usize>,
) {
    let middle = section.length.in_metres() / 2.0;
    let travel = match section.flow {
        Flow::Both if against => Travel::Backward,
        Flow::Backward => Travel::Backward,
        _ => Travel::Forward,
    };
    let right = (travel == Travel::Forward) == (driving_side == DrivingSide::Right);
    let (side, sign) = if right { (Side::Right, 1.0) } else { (Side::Left, -1.0) };
    let (a, b) = (sign * 0.8, sign * 1.6);
    let work = WorkExtent {
        from: metres((middle - 0.6).max(0.0)),
        to: metres(middle + 0.6).min(section.length),
        across_from: metres(f64::min(a, b)),
        across_to: metres(f64::max(a, b)),
    };
    let input = ZoneInput {
        travel,
        side,
        driving_side,
        work,
        junction_ahead: junction_ahead(around, &work, travel, rules),
        ..input(section)
    };
    let laid_out = lay_out(&input, rules);
    let zone = on_road(laid_out.clone(), &input, around, rules);
    for words in ["moved", "left out", "stands on", "Roads that join", "NOT PLACED", "NOT SOLVED", "Not signed"] {
        *said.entry(words).or_default() += usize::from(zone.remarks.iter().any(|remark| remark.contains(words)));
    }
    holds(&laid_out, &zone, section, around);
}

/// What must hold of any zone on any road.
fn holds(laid_out: &WorkZone, zone: &WorkZone, section: &RoadSection, around: &RoadAround) {
    assert!(zone.removing.iter().copied().eq((0..zone.devices.len()).rev()));
    let unsolved = zone.remarks.iter().any(|remark| remark.contains("NOT SOLVED"));
    for (index, device) in zone.devices.iter().enumerate() {
        assert!(device.chainage.value.is_finite() && device.across.value.is_finite() && device.spacing.value >= -1e-9);
        // Signs and flaggers stand off the seal.
        if matches!(device.kind, DeviceKind::Sign | DeviceKind::FlaggerStation) && !device.designation.is_empty() {
            let piece = around.axis.pieces.iter().find(|p| p.from <= device.chainage && device.chainage <= p.to);
            let own = piece.is_none_or(|piece| piece.section == around.section);
            let half = if own { section.width } else { piece.unwrap().width } / 2.0;
            let on_back = device.legend.contains("on its back");
            let stays = device.spot.as_ref().is_none_or(|spot| spot.side_road.is_some()) || on_back;
            assert!(stays || device.across.abs() >= half, "{} in the road", device.legend);
        }
        // A sign that was moved stands on no bridge.
        let on_structure =
            around.axis.structures.iter().any(|on| on.from <= device.chainage && device.chainage <= on.to);
        let moved = device.spot.as_ref().is_some_and(|spot| spot.moved > metres(0.0));
        assert!(!(on_structure && moved && !on_side_road(device)) || unsolved, "{} moved onto a bridge", device.legend);
        // Before a flagger or a cone goes out, the signs that its traffic meets first stand.
        if device.kind != DeviceKind::Sign {
            let late = zone.devices[index + 1..].iter().find(|later| {
                later.kind == DeviceKind::Sign && later.approach == device.approach && upstream(later, device)
            });
            assert!(late.is_none(), "{} before {:?}", device.legend, late.map(|d| &d.legend));
        }
    }
    for before in laid_out.devices.iter().filter(|d| d.kind == DeviceKind::FlaggerStation) {
        let after: Vec<&Device> = zone
            .devices
            .iter()
            .filter(|d| d.kind == DeviceKind::FlaggerStation && d.approach == before.approach)
            .collect();
        assert!(!after.is_empty(), "a flagger is gone");
        assert!(after.iter().all(|after| !upstream(before, after)), "a flagger went downstream");
    }
}

fn on_side_road(device: &Device) -> bool {
    device.spot.as_ref().is_some_and(|spot| spot.side_road.is_some())
}

/// Whether `a` is met before `b` by the traffic of `b`.
fn upstream(a: &Device, b: &Device) -> bool {
    let ahead = (b.chainage - a.chainage).in_metres();
    if b.approach == Travel::Forward { ahead > 1e-6 } else { ahead < -1e-6 }
}
