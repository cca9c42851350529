//! Small road networks for tests, drawn on a flat table of metres around an invented place.
#![allow(dead_code)] // each test file uses its part

use std::sync::LazyLock;

use model::place::{FramePoint, LonLat, RoadPosition, Side, Travel};
use model::problem::Locator;
use model::quantity::{fraction, kilometres_per_hour, metres};
use model::road::{Flow, RawLine, RoadAttributes, RoadClass, RoadNetwork, SectionId, Setting, Surface, TruckAccess};
use roads::{Frame, Network, TruckSpeeds, network_from_lines};

pub const ORIGIN: LonLat = LonLat { lon: 21.3, lat: -14.2 };

/// A frame at the origin that looks north.
static TABLE: LazyLock<Frame> = LazyLock::new(|| {
    let north = vec![ORIGIN, LonLat { lat: ORIGIN.lat + 0.001, ..ORIGIN }];
    let line = RawLine { points: north, ..raw("north", &[], Flow::Both, 50.0) };
    prepare(network_from_lines(vec![line]).0).frame_at(SectionId(0), metres(0.0))
});

/// The place so many metres east and north of the origin.
pub fn place(east: f64, north: f64) -> LonLat {
    TABLE.to_lon_lat(FramePoint { along_m: north, across_m: east })
}

/// The other way round.
pub fn on_table(place: LonLat) -> (f64, f64) {
    let point = TABLE.to_frame(place);
    (point.across_m, point.along_m)
}

/// A line through points of the table, without keys.
pub fn raw(source_id: &str, table: &[(f64, f64)], flow: Flow, kmh: f64) -> RawLine {
    RawLine {
        source_id: source_id.to_owned(),
        at: Locator { file: "table".into(), line: 0, column: 0 },
        points: table.iter().map(|&(east, north)| place(east, north)).collect(),
        node_keys: None,
        attributes: RoadAttributes {
            class: RoadClass::Tertiary,
            name: source_id.to_owned(),
            number: String::new(),
            speed: kilometres_per_hour(kmh),
            lanes: 2,
            width: metres(6.5),
            shoulder: metres(1.0),
            flow,
            surface: Surface::SurfaceTreated,
            vehicles_per_day: None,
            setting: Setting::Rural,
            structure: None,
            roundabout: false,
            truck: TruckAccess::default(),
            defaulted: Vec::new(),
        },
    }
}

/// The same with keys.
pub fn keyed(source_id: &str, table: &[(u64, f64, f64)]) -> RawLine {
    let points: Vec<(f64, f64)> = table.iter().map(|&(_, e, n)| (e, n)).collect();
    RawLine { node_keys: Some(table.iter().map(|row| row.0).collect()), ..raw(source_id, &points, Flow::Both, 50.0) }
}

/// A network of lines for a truck that drives at the speed limit.
pub fn network(lines: Vec<RawLine>) -> Network {
    let (roads, problems) = network_from_lines(lines);
    assert!(problems.is_empty(), "{problems:?}");
    prepare(roads)
}

pub fn prepare(roads: RoadNetwork) -> Network {
    Network::prepare(roads, TruckSpeeds { factor: fraction(1.0), max: kilometres_per_hour(200.0) }).unwrap()
}

/// A position on the road, in a direction of travel.
pub fn at(section: u32, chainage_m: f64, travel: Travel) -> RoadPosition {
    RoadPosition {
        section: SectionId(section),
        chainage: metres(chainage_m),
        across: metres(0.0),
        side: Side::Right,
        travel,
        distance: metres(0.0),
        azimuth_deg: 0.0,
    }
}
