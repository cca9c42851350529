//! An invented district's record, and a service of it on this machine.
#![allow(dead_code)] // each test takes what it needs

pub mod gdal;
pub mod server;

use feeds::{Collection, Crs, Extent, Feature, Service, hole_feature, repair_feature, road_features, zone_feature};
use jiff::Timestamp;
use jiff::civil::date;
use model::hole::{LanePosition, Wetness};
use model::moisture::HandFeel;
use model::place::LonLat;
use model::quantity::{kilometres_per_hour, metres};
use model::record::conditions::{Drainage, SealingWeather};
use model::record::happened::{Found, PlannedRepair, Position};
use model::record::known::{
    HoleState, KnownHole, KnownInspection, KnownLayer, KnownPhoto, KnownRepair, KnownReport, KnownSignature, KnownZone,
    RepairState,
};
use model::record::stretch::{Heading, LaneKind, LaneStatus, TrafficImpact, ZoneKind, ZoneLane, ZoneStretch};
use model::record::told::{Teller, Told, ToldOtherwise};
use model::road::{Flow, NodeId, RoadClass, RoadNetwork, RoadSection, SectionId, Setting, Surface, TruckAccess};
use rust_decimal::Decimal;
use uuid::Uuid;

/// What people are called and what they wrote: nothing of it may be read outside.
#[derive(Debug)]
pub struct People {
    /// Account of a person.
    pub actor: String,
    /// Name of a device.
    pub device: String,
    /// Anything in somebody's own words.
    pub words: String,
    /// SHA-256 of a photo.
    pub photo: String,
}

impl Default for People {
    fn default() -> Self {
        People {
            actor: "person.of.the.crew".to_owned(),
            device: "telephone-of-a-person".to_owned(),
            words: "in front of a person's house".to_owned(),
            photo: "photo-of-a-person".to_owned(),
        }
    }
}

/// A moment of the invented year, by its hours from a fixed one.
pub fn hour(hours: i64) -> Timestamp {
    let begin: Timestamp = "2026-06-01T06:00:00Z".parse().unwrap();
    begin.checked_add(jiff::SignedDuration::from_hours(hours)).unwrap()
}

/// When the feeds of the tests are written.
pub fn now() -> Timestamp {
    hour(200)
}

pub fn number(kind: u8, index: u64) -> Uuid {
    Uuid::from_u64_pair(0x0190_0000_0000_7000 + u64::from(kind), 0x8000_0000_0000_0000 + index)
}

pub fn teller(people: &People, at: Timestamp) -> Teller {
    Teller { event: number(9, 1), actor: people.actor.clone(), device: people.device.clone(), at }
}

#[allow(clippy::unnecessary_wraps)] // as the fields want it
pub fn told<T>(people: &People, value: T) -> Option<Told<T>> {
    Some(Told { value, by: teller(people, hour(1)), otherwise: Vec::new() })
}

#[allow(clippy::unnecessary_wraps)] // as the fields want it
pub fn told_otherwise<T>(people: &People, value: T, other: T) -> Option<Told<T>> {
    let otherwise = vec![ToldOtherwise { value: other, by: teller(people, hour(0)) }];
    Some(Told { value, by: teller(people, hour(1)), otherwise })
}

/// Where the holes lie, in the open ocean: along a road that climbs to the north-east.
pub fn place(index: u64) -> Position {
    Position { lon: 81.5 + 0.001 * index as f64, lat: -18.2 + 0.0005 * index as f64 }
}

pub fn hole(people: &People, index: u64) -> KnownHole {
    let states = [HoleState::Reported, HoleState::Planned, HoleState::Begun, HoleState::Mended, HoleState::Dismissed];
    let state = states[index as usize % states.len()];
    let wetness = Wetness::ALL[index as usize % Wetness::ALL.len()];
    let report = |hours: i64| KnownReport {
        by: teller(people, hour(hours)),
        note: people.words.clone(),
        source: people.words.clone(),
        reference: people.words.clone(),
        contact: Some(number(8, index)),
    };
    KnownHole {
        hole: number(1, index),
        state,
        position: told(people, place(index)),
        length_mm: told(people, 400.0 + index as f64),
        width_mm: told(people, 300.0),
        depth_mm: if index.is_multiple_of(7) { told_otherwise(people, 55.0, 80.0) } else { told(people, 55.0) },
        lane_position: told(people, LanePosition::WheelPath),
        wetness: told(people, wetness),
        seen: index.is_multiple_of(2).then(|| date(2026, 6, 1 + (index % 20) as i8)),
        reports: vec![report(index.cast_signed()), report(index.cast_signed() + 3)],
        same_as: None,
        merged: Vec::new(),
        dismissed: if state == HoleState::Dismissed { told(people, people.words.clone()) } else { None },
        dealt_with: false,
        resurfaced: None,
        repairs: vec![number(2, index / 2)],
        photos: vec![photo(people, index)],
        last_told: hour(index.cast_signed() + 10),
    }
}

fn photo(people: &People, index: u64) -> KnownPhoto {
    KnownPhoto {
        photo: people.photo.clone(),
        by: teller(people, hour(1)),
        position: Some(place(index)),
        note: people.words.clone(),
    }
}

fn signature(people: &People) -> KnownSignature {
    KnownSignature { by: teller(people, hour(1)), role: people.words.clone(), note: people.words.clone() }
}

/// Mends the holes `2 index` and `2 index + 1`.
pub fn repair(people: &People, index: u64) -> KnownRepair {
    let planned = PlannedRepair {
        repair: number(2, index),
        holes: vec![number(1, 2 * index), number(1, 2 * index + 1)],
        road: "Alder Ridge Road".to_owned(),
        area_m2: 1.5,
        base_loose_m3: Decimal::new(12, 2),
        water_l: Decimal::new(115, 1),
        binder_l: Decimal::new(31, 1),
        cover_stone_m3: Decimal::new(2, 2),
        minutes: Decimal::new(45, 0),
        road_kind: None,
        basis: None,
    };
    let layer = |layer| KnownLayer {
        layer,
        thickness_mm: told(people, 70.0),
        base_loose_m3: told(people, Decimal::new(11, 2)),
        base: None,
        water_l: told(people, Decimal::new(54, 1)),
        moisture: told(people, HandFeel::KeepsShape),
        passes_still: told(people, 2),
        passes_vibrating: told(people, 6),
    };
    let begun = !index.is_multiple_of(4);
    let failed = index % 4 == 3;
    let state = match (begun, failed) {
        (false, _) => RepairState::Planned,
        (true, false) => RepairState::Open,
        (true, true) => RepairState::Failed,
    };
    let when = |hours: i64| begun.then(|| teller(people, hour(index.cast_signed() + hours)));
    KnownRepair {
        repair: number(2, index),
        state,
        holes: planned.holes.clone(),
        position: Some(place(2 * index)),
        zone: told(people, number(3, index / 3)),
        round: told(people, number(4, 1)),
        planned: told(people, planned),
        area_m2: told_otherwise(people, 1.62, 1.26),
        depths_mm: told(people, vec![60.0, 80.0, 70.0]),
        bottom_firm: told(people, true),
        sides_upright: told(people, true),
        wetness: told(people, Wetness::Damp),
        drainage: told(people, Drainage::DitchBlocked),
        layers: vec![layer(1), layer(2)],
        binder_l: told(people, Decimal::new(33, 1)),
        binder: told(people, "rapid-setting emulsion".to_owned()),
        cover_stone_m3: told(people, Decimal::new(25, 3)),
        sealed_area_m2: told(people, 1.9),
        crown_mm: told(people, 4.0),
        dry: told(people, true),
        weather: told(people, SealingWeather::Damp),
        air_temperature_c: told(people, 14.5),
        cut: when(20),
        sealed: when(21),
        opened: when(22),
        inspections: vec![KnownInspection {
            by: teller(people, hour(90)),
            found: Found::Worn,
            note: people.words.clone(),
        }],
        failed: failed.then(|| teller(people, hour(index.cast_signed() + 100))),
        failed_how: people.words.clone(),
        failed_hole: None,
        labour_min: Decimal::new(90, 0),
        plant_min: Decimal::new(45, 0),
        photos: vec![photo(people, index), photo(people, index)],
        signatures: vec![signature(people)],
        last_told: hour(index.cast_signed() + 100),
    }
}

/// Both directions of a road, through three places.
pub fn both_ways() -> Vec<ZoneStretch> {
    let stretch = |indices: [u64; 3], impact, lanes: &[LaneStatus]| ZoneStretch {
        line: indices.map(place).to_vec(),
        heading: Heading::Unknown,
        impact,
        kind: ZoneKind::Static,
        lanes: lanes
            .iter()
            .zip(1..)
            .map(|(&status, order)| ZoneLane { order, kind: LaneKind::General, status })
            .collect(),
    };
    vec![
        stretch([0, 1, 2], TrafficImpact::Flagging, &[LaneStatus::Closed]),
        ZoneStretch {
            heading: Heading::Southbound,
            ..stretch([2, 1, 0], TrafficImpact::Flagging, &[LaneStatus::AlternatingFlow])
        },
    ]
}

pub fn zone(people: &People, index: u64) -> KnownZone {
    let closed = index.is_multiple_of(2);
    KnownZone {
        zone: number(3, index),
        round: told(people, number(4, 1)),
        holes: vec![number(1, 6 * index)],
        position: match index {
            5 => None,
            7 => told_otherwise(people, place(42), place(43)),
            _ => told(people, place(6 * index)),
        },
        road: told(people, "Alder Ridge Road".to_owned()),
        layout: told(people, "Lane closure on a two-lane road with flaggers".to_owned()),
        devices_out: told(people, 24),
        stretches: if index == 3 { told(people, both_ways()) } else { None },
        devices_in: if closed { told(people, 23) } else { None },
        opened: Some(teller(people, hour(19 + index.cast_signed()))),
        closed: closed.then(|| teller(people, hour(23 + index.cast_signed()))),
        photos: Vec::new(),
        signatures: vec![signature(people)],
        last_told: hour(23 + index.cast_signed()),
    }
}

/// Sections end to end beside the holes.
pub fn network(sections: u32) -> RoadNetwork {
    let node = |index: u32| LonLat { lon: 81.5 + 0.01 * f64::from(index), lat: -18.2 + 0.005 * f64::from(index) };
    let section = |index: u32| {
        let (from, to) = (node(index), node(index + 1));
        let middle = LonLat { lon: f64::midpoint(from.lon, to.lon), lat: from.lat + 0.002 };
        RoadSection {
            id: SectionId(index),
            source_id: format!("way-{}", index / 2),
            from: NodeId(index),
            to: NodeId(index + 1),
            line: vec![from, middle, to],
            length: metres(1210.123456),
            class: if index.is_multiple_of(3) { RoadClass::Tertiary } else { RoadClass::Residential },
            name: if index.is_multiple_of(5) { String::new() } else { "Alder Ridge Road".to_owned() },
            number: String::new(),
            speed: kilometres_per_hour(80.0),
            lanes: 2,
            width: metres(6.4),
            shoulder: metres(0.5),
            flow: Flow::Both,
            surface: Surface::SurfaceTreated,
            vehicles_per_day: index.is_multiple_of(2).then_some(350.0),
            setting: Setting::Rural,
            structure: None,
            roundabout: false,
            truck: TruckAccess::default(),
            defaulted: vec!["width", "lanes"],
        }
    };
    RoadNetwork {
        nodes: (0..=sections).map(node).collect(),
        sections: (0..sections).map(section).collect(),
        restrictions: Vec::new(),
        contraction_order: Vec::new(),
    }
}

/// Holes, repairs, zones and sections of the invented district.
pub const COUNTS: [(Collection, usize); 4] =
    [(Collection::Holes, 130), (Collection::Repairs, 65), (Collection::Zones, 8), (Collection::Roads, 120)];

/// All features of a collection.
pub fn features(collection: Collection, people: &People) -> Vec<Feature> {
    let count = COUNTS.iter().find(|(own, _)| *own == collection).map_or(0, |(_, count)| *count as u64);
    let numbers = 0..count;
    match collection {
        Collection::Holes => numbers.map(|index| hole_feature(&hole(people, index))).collect(),
        Collection::Repairs => numbers.map(|index| repair_feature(&repair(people, index))).collect(),
        Collection::Zones => numbers.map(|index| zone_feature(&zone(people, index))).collect(),
        Collection::Roads => road_features(&network(count as u32)).collect(),
    }
}

pub fn extent(collection: Collection) -> Extent {
    Extent::of(&features(collection, &People::default()))
}

/// The service, as it says it is reached.
pub fn service(root: &str) -> Service {
    Service {
        root: root.to_owned(),
        title: "Alder Ridge road district".to_owned(),
        about: "What is known of the district's roads, holes and repairs.".to_owned(),
        crs: Crs::offered(Some(LonLat { lon: 81.5, lat: -18.2 })),
        api: None,
        geopackage: None,
        road_attribution: Some("Invented roads, free of rights".to_owned()),
    }
}
