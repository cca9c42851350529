//! The feed of zones that stand on the road, against the published schema of the open standard WZDx 4.2.

mod common;

use std::path::{Path, PathBuf};

use common::{People, hour, now, number, place, zone};
use feeds::{FeedPublisher, OpenZone, open_zone_feed};
use model::place::LonLat;
use model::record::known::KnownZone;
use serde_json::{Value, json};

fn publisher() -> FeedPublisher {
    FeedPublisher { name: "Alder Ridge road district".to_owned(), road_attribution: Some("Invented roads".to_owned()) }
}

fn zones() -> Vec<KnownZone> {
    (0..8).map(|index| zone(&People::default(), index)).collect()
}

fn feed(stretches: &[Vec<LonLat>]) -> (Value, Vec<uuid::Uuid>) {
    let zones = zones();
    let open: Vec<OpenZone<'_>> =
        zones.iter().map(|zone| OpenZone { zone, expected_end: hour(30), stretches }).collect();
    open_zone_feed(&open, &publisher(), now())
}

fn both_ways() -> Vec<Vec<LonLat>> {
    let line =
        |indices: [u64; 3]| indices.map(|index| LonLat { lon: place(index).lon, lat: place(index).lat }).to_vec();
    vec![line([0, 1, 2]), line([2, 1, 0])]
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
    assert_eq!((&core(0)["direction"], &core(1)["direction"]), (&json!("eastbound"), &json!("westbound")));
    assert_eq!(core(0)["related_road_events"], json!([{"type": "related-work-zone", "id": events[1]["id"]}]));
    assert_eq!(core(1)["related_road_events"], json!([{"type": "related-work-zone", "id": events[0]["id"]}]));
    insta::assert_json_snapshot!(events[0]);
}

#[test]
fn a_zone_that_stands_longer_than_expected_is_not_over() {
    let (feed, _) = feed(&[]);
    assert_eq!(feed["features"][0]["properties"]["end_date"], now().to_string());
    assert_eq!(feed["features"][0]["properties"]["start_date"], hour(20).to_string());
}

#[test]
fn the_standards_schema_finds_nothing() {
    let Some(folder) = folder() else { return };
    for stretches in [Vec::new(), both_ways()] {
        let (feed, _) = feed(&stretches);
        assert_eq!(faults(&folder, &feed), Vec::<String>::new());
        let mut wrong = feed.clone();
        wrong["features"][0]["properties"]["vehicle_impact"] = "none that it knows".into();
        assert!(!faults(&folder, &wrong).is_empty(), "the schema does find what is wrong");
    }
    let (empty, _) = open_zone_feed(&[], &publisher(), now());
    assert_eq!(faults(&folder, &empty), Vec::<String>::new());
}

/// The standard's folder; `None`, with a word, where it is not there.
fn folder() -> Option<PathBuf> {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).ancestors().map(|folder| folder.join("shared/data/wzdx"));
    let found = beside.into_iter().find(|path| path.is_dir());
    if found.is_none() {
        println!("skipped: the schema of WZDx 4.2 is not in shared/data/wzdx");
    }
    found
}

/// What is wrong with a feed by the schema; formats (dates, addresses) are looked at too.
fn faults(folder: &Path, feed: &Value) -> Vec<String> {
    let read = |name: &str| -> Value {
        let text =
            std::fs::read_to_string(folder.join(format!("schemas/{name}.json"))).expect("a schema of the standard");
        serde_json::from_str(&text).expect("a schema is JSON")
    };
    let mut registry = jsonschema::Registry::new();
    for name in ["BoundingBox", "Direction", "FeedInfo", "RoadEventFeature"] {
        let schema = read(name);
        let uri = schema["$id"].as_str().expect("a schema says its name").to_owned();
        registry = registry.add(uri, schema).expect("a schema of the standard");
    }
    // What the standard's schema refers to at geojson.org, by RFC 7946, sections 3.1.3 and 3.1.4.
    for (kind, least) in [("LineString", 2), ("MultiPoint", 0)] {
        let position = json!({"type": "array", "minItems": 2, "items": {"type": "number"}});
        let schema = json!({
            "$schema": "http://json-schema.org/draft-07/schema#",
            "type": "object",
            "required": ["type", "coordinates"],
            "properties": {
                "type": {"enum": [kind]},
                "coordinates": {"type": "array", "minItems": least, "items": position},
            },
        });
        registry = registry.add(format!("https://geojson.org/schema/{kind}.json"), schema).expect("a plain schema");
    }
    let registry = registry.prepare().expect("the schemas fit together");
    let schema = read("WorkZoneFeed");
    let options = jsonschema::options().with_registry(&registry).should_validate_formats(true);
    let validator = options.build(&schema).expect("the standard's schema");
    validator.iter_errors(feed).map(|fault| format!("{}: {fault}", fault.instance_path())).collect()
}
