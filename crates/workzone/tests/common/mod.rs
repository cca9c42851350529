//! Rules and roads for the tests.
#![allow(dead_code)] // each test file uses some of it

use model::district::DrivingSide;
use model::place::{LonLat, Side, Travel};
use model::quantity::{feet, hours, metres, miles_per_hour};
use model::road::{Flow, NodeId, RoadClass, RoadSection, SectionId, Setting, Surface, TruckAccess};
use model::rules::traffic::TrafficRules;
use workzone::{Stay, WorkExtent, ZoneInput};

/// The federal rule set as shipped.
pub fn rules() -> TrafficRules {
    set("us-mutcd")
}

/// A rule set as shipped.
pub fn set(name: &str) -> TrafficRules {
    toml::from_str(&rule_text(name)).expect("the shipped rule set reads")
}

/// The shipped sets that stand for themselves.
pub const SETS: [&str; 2] = ["us-mutcd", "low-volume-metric"];

/// Text of a shipped rule file.
pub fn rule_text(name: &str) -> String {
    let path = testkit::in_repository(&format!("rules/traffic/{name}.toml"));
    std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

/// A rural two-lane two-way road, 2 km, 24 ft wide.
pub fn two_lane(mph: f64) -> RoadSection {
    RoadSection {
        id: SectionId(7),
        source_id: "w7".into(),
        from: NodeId(0),
        to: NodeId(1),
        line: vec![LonLat { lon: -30.0, lat: 40.0 }, LonLat { lon: -30.0, lat: 40.018 }],
        length: metres(2000.0),
        class: RoadClass::Secondary,
        name: "Saltmarsh Road".into(),
        number: String::new(),
        speed: miles_per_hour(mph),
        lanes: 2,
        width: feet(24.0),
        shoulder: feet(4.0),
        flow: Flow::Both,
        surface: Surface::SurfaceTreated,
        vehicles_per_day: Some(900.0),
        setting: Setting::Rural,
        structure: None,
        roundabout: false,
        truck: TruckAccess::default(),
        defaulted: Vec::new(),
    }
}

/// A one-way road with two 12 ft lanes.
pub fn one_way_two_lanes(mph: f64) -> RoadSection {
    RoadSection { flow: Flow::Forward, ..two_lane(mph) }
}

/// A 4 ft by 3 ft cut in the middle of the right lane at 1000 m, four people, one truck, three hours by day.
pub fn input(section: &RoadSection) -> ZoneInput<'_> {
    ZoneInput {
        section,
        travel: Travel::Forward,
        side: Side::Right,
        driving_side: DrivingSide::Right,
        work: WorkExtent {
            from: metres(1000.0),
            to: metres(1000.0) + feet(4.0),
            across_from: feet(4.5),
            across_to: feet(7.5),
        },
        duration: hours(3.0),
        night: false,
        shoulder_only: false,
        stay: Stay::Stationary,
        sight: None,
        junction_ahead: None,
        holes: &[],
        people: 5,
        vehicles: 1,
    }
}
