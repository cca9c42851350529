//! Every rule set, speed, lane width, driving side at two hundred places of real roads: no rule broken, no panic.

mod common;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use common::input;
use model::district::DrivingSide;
use model::place::{Side, Travel};
use model::quantity::{InLength, Length, fraction, kilometres_per_hour, metres};
use model::road::{Flow, RoadSection};
use model::road_around::RoadAround;
use model::rules::roads::RoadDefaults;
use model::rules::traffic::TrafficRules;
use model::work_zone::{Device, DeviceKind, WorkZone, ZonePartKind};
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

/// Lane widths, metres.
const LANES_M: [f64; 4] = [2.5, 3.0, 3.25, 3.65];

/// The whole cross: sets, speeds, lane widths, driving sides and places.
#[test]
fn no_place_breaks_a_rule() {
    let Some(data) = shared_data() else { return };
    let sets = common::SETS.map(common::set);
    let mut found = Found::default();
    let mut as_mapped = Found::default();
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
                        LANES_M.into_iter().flat_map(|lane| [(lane, DrivingSide::Right), (lane, DrivingSide::Left)])
                    {
                        let section = RoadSection {
                            speed: kilometres_per_hour(f64::from(km_h)),
                            width: metres(lane_m * f64::from(section.lanes)),
                            ..section.clone()
                        };
                        one(&section, &around, driving_side, number % 3 == 0, rules, &mut found);
                    }
                }
                one(section, &around, DrivingSide::Right, number % 3 == 0, rules, &mut as_mapped);
            }
        }
    }
    println!("The whole cross: {found}\nAt the speed and width on the map: {as_mapped}");
    assert_eq!((found.zones, as_mapped.zones), (PLACES * 2 * 10 * LANES_M.len() * 2, PLACES * 2));
    for words in SAID.into_iter().chain(["A flagger of its own", "roundabout"]) {
        assert!(found.said.get(words).is_some_and(|times| *times > 0), "never said: {words}");
    }
}

/// What a zone may say that is counted.
const SAID: [&str; 8] = [
    "moved",
    "left out",
    "stands on",
    "Roads that join",
    "NOT PLACED",
    "NOT SOLVED",
    "Not signed",
    "where the rule set has",
];

/// What the zones of a sweep say.
#[derive(Default)]
struct Found {
    zones: usize,
    /// Zones that say it at least once.
    said: BTreeMap<&'static str, usize>,
    /// Findings that are not solved, by device and reason.
    open: BTreeMap<String, usize>,
    /// Zones with something open.
    with_open: usize,
    flaggers: BTreeMap<usize, usize>,
}

impl Found {
    fn add(&mut self, zone: &WorkZone) {
        self.zones += 1;
        for words in SAID.into_iter().chain(["A flagger of its own", "roundabout"]) {
            *self.said.entry(words).or_default() += usize::from(zone.remarks.iter().any(|r| r.contains(words)));
        }
        let stations = zone.devices.iter().filter(|d| d.kind == DeviceKind::FlaggerStation).count();
        *self.flaggers.entry(stations).or_default() += 1;
        if let Some(why) = &zone.not_laid_out {
            *self.open.entry(format!("refused: {}", why.split(" lies ").next().unwrap())).or_default() += 1;
        }
        let mut open = zone.remarks.iter().filter(|remark| remark.contains("NOT ")).peekable();
        self.with_open += usize::from(open.peek().is_some());
        for remark in open {
            let device = ["Flagger", "A cone", "The shield vehicle"].into_iter().find(|d| remark.starts_with(d));
            let device = device.unwrap_or(if remark.contains("END ") { "End sign" } else { "Sign" });
            let kind = &remark[remark.find("NOT ").unwrap()..][..10];
            let reasons = [
                "a bend",
                "a crest",
                "to a junction",
                "bridge",
                "tunnel",
                "the map's edge",
                "that was looked at",
                "beyond the known road",
            ];
            let reasons: Vec<&str> = reasons.into_iter().filter(|reason| remark.contains(reason)).collect();
            *self.open.entry(format!("{device}, {kind}: {}", reasons.join(", "))).or_default() += 1;
        }
    }
}

impl std::fmt::Display for Found {
    fn fmt(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
        writeln!(f, "{} zones, {} with something open", self.zones, self.with_open)?;
        writeln!(f, "  flaggers: {:?}", self.flaggers)?;
        writeln!(f, "  said: {:?}", self.said)?;
        let mut open: Vec<_> = self.open.iter().collect();
        open.sort_by_key(|(_, times)| std::cmp::Reverse(**times));
        open.iter().try_for_each(|(what, times)| writeln!(f, "  {times:>6} {what}"))
    }
}

fn one(
    section: &RoadSection,
    around: &RoadAround,
    driving_side: DrivingSide,
    against: bool,
    rules: &TrafficRules,
    found: &mut Found,
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
    found.add(&zone);
    holds(&laid_out, &zone, section, around, rules);
}

/// What must hold of any zone on any road.
fn holds(laid_out: &WorkZone, zone: &WorkZone, section: &RoadSection, around: &RoadAround, rules: &TrafficRules) {
    if let Some(why) = &zone.not_laid_out {
        assert!(zone.devices.is_empty() && zone.remarks.contains(why));
        return;
    }
    assert!(zone.removing.iter().copied().eq((0..zone.devices.len()).rev()));
    let unsolved = zone.remarks.iter().any(|remark| remark.contains("NOT SOLVED"));
    for (index, device) in zone.devices.iter().enumerate() {
        assert!(device.chainage.value.is_finite() && device.across.value.is_finite());
        assert!(device.spacing.value >= -1e-9, "{device:?}");
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
        if device.kind != DeviceKind::Sign && !on_side_road(device) {
            let late = zone.devices[index + 1..].iter().find(|later| {
                later.kind == DeviceKind::Sign && later.approach == device.approach && upstream(later, device)
            });
            assert!(late.is_none(), "{} before {:?}", device.legend, late.map(|d| &d.legend));
        }
    }
    // No taper shorter than the least.
    let taper = zone.parts.iter().find(|part| part.kind == ZonePartKind::Taper);
    if let Some(taper) = taper.filter(|_| zone.layout.takes_turns()) {
        assert!(rules.units.distance_of(taper.length.value) >= rules.taper.one_lane_min.value - 1e-6);
    }
    let stations = || zone.devices.iter().filter(|d| d.kind == DeviceKind::FlaggerStation);
    assert_eq!(stations().count(), zone.flaggers.value as usize);
    // Each road that counts and joins between the flaggers has one of its own.
    if zone.layout.flagger_each_end() {
        let on_axis = || stations().filter(|d| !on_side_road(d) && d.spot.is_some()).map(|d| d.chainage);
        let between = (on_axis().fold(zone.work_from, Length::min), on_axis().fold(zone.work_to, Length::max));
        for side in around.side_roads.iter().filter(|side| side.at > between.0 && side.at < between.1) {
            let counts = side.traffic_comes_out
                && rules.placing.side_road_classes.value.contains(&side.class)
                && rules.junctions.flagger_classes.value.contains(&side.class);
            let end = side.axis.pieces.last().map_or(metres(0.0), |piece| piece.to);
            let long = end >= rules.units.length(rules.placing.junction_clear.value);
            let held = stations().any(|d| on_side_road(d) && (d.chainage - side.at).abs() < metres(0.02));
            assert!(held || !counts || !long, "nobody holds {}", side.name);
        }
    }
    // Signs past the work stand on no bridge and in no junction.
    for end in zone.devices.iter().filter(|d| d.legend.to_uppercase().starts_with("END ") && d.spot.is_some()) {
        let clear = rules.units.length(rules.placing.junction_clear.value);
        let free = around.axis.structures.iter().all(|on| end.chainage < on.from || end.chainage > on.to)
            && around.axis.junctions.iter().all(|at| (at.chainage - end.chainage).abs() >= clear - metres(1e-6));
        assert!(free, "{} at {:?}", end.legend, end.chainage);
    }
    let road_ends = ["the road ends", "the closure reaches the end"];
    let said = |words: &str| zone.remarks.iter().any(|remark| remark.contains(words));
    for before in laid_out.devices.iter().filter(|d| d.kind == DeviceKind::FlaggerStation) {
        let after: Vec<&Device> = zone
            .devices
            .iter()
            .filter(|d| d.kind == DeviceKind::FlaggerStation && d.approach == before.approach)
            .collect();
        assert!(!after.is_empty() || said(road_ends[1]), "a flagger is gone");
        let downstream = after.iter().any(|after| !on_side_road(after) && upstream(before, after));
        assert!(!downstream || said(road_ends[0]), "a flagger went downstream");
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
