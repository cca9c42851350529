//! The feed of zones that stand on the road, against the published schema of the open standard `WZDx` 4.2.

mod common;
// Reads the same schema.
#[path = "../../jobpack/tests/wzdx/mod.rs"]
mod wzdx;

use common::{People, both_ways, hour, now, number, zone};
use feeds::{FeedPublisher, OpenZone, open_zone_feed};
use model::record::happened::Position;
use model::record::known::KnownZone;
use model::record::stretch::ZoneStretch;
use serde_json::{Value, json};

fn publisher() -> FeedPublisher {
    FeedPublisher { name: "Alder Ridge road district".to_owned(), road_attribution: Some("Invented roads".to_owned()) }
}

fn feed(stretches: &[ZoneStretch]) -> (Value, Vec<uuid::Uuid>) {
    let people = People::default();
    let with_stretches = |index| KnownZone {
        stretches: if stretches.is_empty() { None } else { common::told(&people, stretches.to_vec()) },
        ..zone(&people, index)
    };
    let zones: Vec<KnownZone> = (0..8).map(with_stretches).collect();
    let open: Vec<OpenZone<'_>> = zones.iter().map(|zone| OpenZone { zone, expected_end: hour(30) }).collect();
    open_zone_feed(&open, &publisher(), now())
}

#[test]
fn only_zones_that_stand_are_told_of() {
    let (feed, without_place) = feed(&[]);
    let ids: Vec<&str> = feed["features"].as_array().unwrap().iter().filter_map(|event| event["id"].as_str()).collect();
    let expected = [1, 3, 7].map(|index| number(3, index).to_string());
    assert_eq!(ids, expected, "2, 4 and 6 are closed");
    assert_eq!(without_place, [number(3, 5)]);
}

#[test]
fn each_direction_is_an_event_and_they_name_each_other() {
    let (feed, without_place) = feed(&both_ways());
    let events = feed["features"].as_array().unwrap();
    assert_eq!((events.len(), without_place.len()), (8, 0));
    let core = |event: usize| &events[event]["properties"]["core_details"];
    assert_eq!(
        (&core(0)["direction"], &core(1)["direction"]),
        (&json!("eastbound"), &json!("southbound")),
        "by the line; as told"
    );
    assert_eq!(core(0)["related_road_events"], json!([{"type": "related-work-zone", "id": events[1]["id"]}]));
    assert_eq!(core(1)["related_road_events"], json!([{"type": "related-work-zone", "id": events[0]["id"]}]));
    let lanes = |event: usize| &events[event]["properties"]["lanes"];
    assert_eq!(lanes(1), &json!([{"order": 1, "type": "general", "status": "alternating-flow"}]));
    insta::assert_json_snapshot!(events[0]);
}

#[test]
fn a_place_that_is_none_is_said_to_be_missing() {
    let mut zone = zone(&People::default(), 1);
    zone.position = common::told(&People::default(), Position { lon: f64::NAN, lat: 0.0 });
    let mut broken = both_ways();
    broken[0].line[1].lat = f64::NAN;
    broken[1].line.truncate(1);
    zone.stretches = common::told(&People::default(), broken);
    let open = OpenZone { zone: &zone, expected_end: hour(30) };
    let (feed, without_place) = open_zone_feed(&[open], &publisher(), now());
    assert_eq!((feed["features"].as_array().unwrap().len(), without_place), (0, vec![zone.zone]));
}

#[test]
fn a_zone_that_stands_longer_than_expected_is_not_over() {
    let (feed, _) = feed(&[]);
    assert_eq!(feed["features"][0]["properties"]["end_date"], now().to_string());
    assert_eq!(feed["features"][0]["properties"]["start_date"], hour(20).to_string());
}

#[test]
fn the_standards_schema_finds_nothing() {
    let Some(folder) = wzdx::folder() else { return };
    for stretches in [Vec::new(), both_ways()] {
        let (feed, _) = feed(&stretches);
        assert_eq!(wzdx::faults(&folder, &feed), Vec::<String>::new());
        let mut wrong = feed.clone();
        wrong["features"][0]["properties"]["vehicle_impact"] = "none that it knows".into();
        assert!(!wzdx::faults(&folder, &wrong).is_empty(), "the schema does find what is wrong");
    }
    let (empty, _) = open_zone_feed(&[], &publisher(), now());
    assert_eq!(wzdx::faults(&folder, &empty), Vec::<String>::new());
}
