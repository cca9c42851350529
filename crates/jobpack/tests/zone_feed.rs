//! The work-zone feed and the map of the zones.

mod fixture;
mod wzdx;

use std::collections::BTreeSet;

use fixture::{Recipe, Road, make, plan};
use jiff::Timestamp;
use model::district::DrivingSide;
use model::place::Travel;
use model::plan::Plan;
use model::quantity::metres;
use model::work_zone::{DeviceKind, Layout, RoadSpot};
use serde_json::Value;

fn feed(plan: &Plan) -> Value {
    serde_json::from_str(&jobpack::work_zone_feed(plan, None).expect("a known time zone")).expect("valid JSON")
}

fn zones(plan: &Plan) -> Value {
    serde_json::from_str(&jobpack::zones_geojson(plan)).expect("valid JSON")
}

fn features(file: &Value) -> &Vec<Value> {
    file["features"].as_array().expect("a list")
}

fn recipes() -> Vec<Recipe> {
    let mut recipes =
        vec![Recipe { zones: vec![], ..Recipe::default() }, Recipe { zones: vec![12], ..Recipe::default() }];
    for driving_side in [DrivingSide::Right, DrivingSide::Left] {
        for road in [Road::TwoLanes, Road::OneLane, Road::AllClosed, Road::FourLanes, Road::Shoulder] {
            recipes.push(Recipe { driving_side, road, ..Recipe::default() });
        }
    }
    recipes
}

/// published: `WZDx` 4.2, schemas/4.2 (JSON Schema draft-07).
#[test]
fn the_feed_obeys_the_published_schema() {
    let Some(folder) = wzdx::folder() else { return };
    for recipe in recipes() {
        let faults = wzdx::faults(&folder, &feed(&make(&recipe)));
        assert!(faults.is_empty(), "{recipe:?}: {faults:#?}");
    }
    // The schema does find what is wrong.
    for (pointer, wrong) in [
        ("/features/0/properties/core_details/direction", "up the hill"),
        ("/features/0/properties/start_date", "tomorrow at nine"),
        ("/features/0/properties/vehicle_impact", "some"),
        ("/features/0/geometry/type", "Point"),
        ("/feed_info/version", "four"),
        ("/feed_info/update_date", "2026-11-26"),
    ] {
        let mut broken = feed(&plan());
        *broken.pointer_mut(pointer).expect("there") = wrong.into();
        assert!(!wzdx::faults(&folder, &broken).is_empty(), "{pointer}");
    }
}

/// published: `WZDx` 4.2, the example feeds; they show that the schema is read as it is meant.
#[test]
fn the_standards_own_examples_obey_it_too() {
    let Some(folder) = wzdx::folder() else { return };
    let mut count = 0;
    for entry in std::fs::read_dir(folder.join("examples")).expect("a folder").flatten() {
        let faults = wzdx::faults(&folder, &wzdx::read(&entry.path()));
        assert!(faults.is_empty(), "{:?}: {faults:#?}", entry.path());
        count += 1;
    }
    assert_eq!(count, 9);
}

#[test]
fn the_feed_of_the_small_plan() {
    insta::assert_json_snapshot!(feed(&plan()));
}

/// The fixture's day is 2026-11-26, two hours behind universal time; its first zone is worked from 07:31 to 09:02:48.
#[test]
fn times_are_the_timetables_in_universal_time() {
    let feed = feed(&plan());
    let first = &features(&feed)[0]["properties"];
    assert_eq!(first["start_date"], "2026-11-26T09:31:00Z");
    assert_eq!(first["end_date"], "2026-11-26T11:02:48Z");
    assert_eq!(feed["feed_info"]["update_date"], "2026-11-26T02:00:00Z");
    let said: Timestamp = "2026-11-25T18:20:07.4Z".parse().expect("a time");
    let text = jobpack::work_zone_feed(&plan(), Some(said)).expect("a known zone");
    let feed: Value = serde_json::from_str(&text).expect("valid JSON");
    assert_eq!(feed["feed_info"]["update_date"], "2026-11-25T18:20:07Z");
    assert_eq!(features(&feed)[0]["properties"]["core_details"]["update_date"], "2026-11-25T18:20:07Z");
}

/// In Berlin clocks are put back at three on 2026-10-25: noon is two hours of universal time after ten, not one.
#[test]
fn summer_time_is_the_districts() {
    let mut plan = plan();
    plan.district.time_zone = "Europe/Berlin".into();
    for (day, start) in [((2026, 10, 24), "2026-10-24T05:31:00Z"), ((2026, 10, 25), "2026-10-25T06:31:00Z")] {
        plan.date = jiff::civil::date(day.0, day.1, day.2);
        assert_eq!(features(&feed(&plan))[0]["properties"]["start_date"], start);
    }
    plan.district.time_zone = "Atlantis/Harbour".into();
    let error = jobpack::work_zone_feed(&plan, None).expect_err("no such zone");
    assert!(error.to_string().contains("Atlantis/Harbour"), "{error}");
}

#[test]
fn what_drivers_meet_is_said_by_layout() {
    use DrivingSide::{Left, Right};
    let lanes = |event: &Value| -> Vec<String> {
        let lane = |l: &Value| {
            format!("{} {} {}", l["order"], l["type"].as_str().unwrap_or("?"), l["status"].as_str().unwrap_or("?"))
        };
        event["lanes"].as_array().map(|lanes| lanes.iter().map(lane).collect()).unwrap_or_default()
    };
    for (road, driving_side, events) in [
        (
            Road::TwoLanes,
            Right,
            vec![("flagging", vec!["1 general closed"]), ("flagging", vec!["1 general alternating-flow"])],
        ),
        (Road::FourLanes, Right, vec![("some-lanes-closed-merge-left", vec!["1 general open", "2 general closed"])]),
        (Road::FourLanes, Left, vec![("some-lanes-closed-merge-right", vec!["1 general closed", "2 general open"])]),
        (Road::Shoulder, Right, vec![("all-lanes-open", vec!["1 general open", "2 shoulder closed"])]),
        (Road::Shoulder, Left, vec![("all-lanes-open", vec!["1 shoulder closed", "2 general open"])]),
    ] {
        let feed = feed(&make(&Recipe { zones: vec![1], road, driving_side, ..Recipe::default() }));
        let found: Vec<(String, Vec<String>)> = features(&feed)
            .iter()
            .map(|f| (f["properties"]["vehicle_impact"].as_str().unwrap_or("?").to_owned(), lanes(&f["properties"])))
            .collect();
        let wanted: Vec<(String, Vec<String>)> =
            events.iter().map(|(i, l)| ((*i).to_owned(), l.iter().map(|l| (*l).to_owned()).collect())).collect();
        assert_eq!(found, wanted, "{road:?} {driving_side:?}");
    }
    let mut unmanned = plan();
    unmanned.sites[0].zone.flaggers.value = 0;
    assert_eq!(features(&feed(&unmanned))[0]["properties"]["vehicle_impact"], "alternating-one-way");
}

/// Every layout: what kind of zone it is, whom it hinders, and the schema.
#[test]
fn every_layout_is_known_to_the_feed() {
    let folder = wzdx::folder();
    for layout in Layout::ALL {
        let several = layout.of_several_lanes();
        let road = if several { Road::FourLanes } else { Road::TwoLanes };
        let mut plan = make(&Recipe { zones: vec![1], road, ..Recipe::default() });
        let zone = &mut plan.sites[0].zone;
        zone.layout = layout;
        let manned = layout.flagger_each_end() || layout == Layout::LaneClosureOneFlagger;
        zone.flaggers.value = if manned { 2 } else { 0 };
        if layout.mobile() {
            zone.devices.retain(|device| device.kind != DeviceKind::Cone);
        }
        let feed = feed(&plan);
        let said = |event: usize, key: &str| features(&feed)[event]["properties"][key].as_str().unwrap().to_owned();
        assert_eq!(features(&feed).len(), if layout.takes_turns() { 2 } else { 1 }, "{layout:?}");
        let kind = if layout.mobile() { "planned-moving-area" } else { "static" };
        let impact = match () {
            () if layout.on_shoulder() => "all-lanes-open",
            () if several => "some-lanes-closed-merge-left",
            () if manned => "flagging",
            () => "alternating-one-way",
        };
        for event in 0..features(&feed).len() {
            assert_eq!(said(event, "work_zone_type"), kind, "{layout:?}");
            assert_eq!(said(event, "vehicle_impact"), impact, "{layout:?}");
        }
        let method = if layout.mobile() { "other" } else { "channel-device-method" };
        assert_eq!(said(0, "location_method"), method, "{layout:?}");
        if let Some(folder) = &folder {
            let faults = wzdx::faults(folder, &feed);
            assert!(faults.is_empty(), "{layout:?}: {faults:#?}");
        }
    }
}

/// Both directions of one zone: the same stretch in opposite order, each naming the other.
#[test]
fn two_directions_are_two_events_that_know_each_other() {
    let feed = feed(&make(&Recipe { zones: vec![1], ..Recipe::default() }));
    let [own, other] = &features(&feed)[..] else { panic!("two events") };
    assert_eq!(own["properties"]["core_details"]["related_road_events"][0]["id"], other["id"]);
    assert_eq!(other["properties"]["core_details"]["related_road_events"][0]["id"], own["id"]);
    let line = |event: &Value| event["geometry"]["coordinates"].as_array().expect("a line").clone();
    let reversed: Vec<Value> = line(other).into_iter().rev().collect();
    assert_eq!(line(own), reversed);
    assert_ne!(own["properties"]["core_details"]["direction"], other["properties"]["core_details"]["direction"]);
}

#[test]
fn identifiers_last_while_the_zone_is_the_same() {
    let ids = |plan: &Plan| -> Vec<String> {
        features(&feed(plan)).iter().map(|f| f["id"].as_str().expect("a name").to_owned()).collect()
    };
    let before = plan();
    let mut later = plan();
    later.round.timetable.iter_mut().for_each(|stop| stop.to.0 += 60);
    later.sites[0].zone.holes.reverse();
    assert_eq!(ids(&before), ids(&later));
    let mut tomorrow = plan();
    tomorrow.date = before.date.tomorrow().expect("a day");
    let mut elsewhere = plan();
    elsewhere.district.name = "Another Reach".into();
    let all: Vec<String> = [&before, &tomorrow, &elsewhere].into_iter().flat_map(ids).collect();
    assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), all.len(), "{all:?}");
}

/// The closure reaches from the first cone to the last; where cones stand beyond the section, the line goes to them.
#[test]
fn the_line_goes_from_the_first_cone_to_the_last() {
    let mut plan = make(&Recipe { zones: vec![1], ..Recipe::default() });
    let before = features(&feed(&plan))[0]["geometry"]["coordinates"].as_array().expect("a line").clone();
    let zone = &mut plan.sites[0].zone;
    let index = zone.devices.iter().position(|d| d.kind == DeviceKind::Cone).expect("a cone");
    let place = plan.network.nodes[0];
    zone.devices[index].chainage = metres(-20.0);
    let section = zone.section;
    let spot = RoadSpot { section, chainage: metres(5.0), place, side_road: None, moved: metres(0.0) };
    zone.devices[index].spot = Some(spot);
    let after = features(&feed(&plan))[0]["geometry"]["coordinates"].as_array().expect("a line").clone();
    let on_globe = |v: &Value| (v[0].as_f64().expect("degrees"), v[1].as_f64().expect("degrees"));
    let (lon, lat) = on_globe(&after[0]);
    assert!((lon - place.lon).abs() < 1e-8 && (lat - place.lat).abs() < 1e-8);
    assert_eq!(after.last(), before.last());
    // Then the section's own start.
    let start = plan.network.section(section).line[0];
    let (lon, lat) = on_globe(&after[1]);
    assert!((lon - start.lon).abs() < 1e-8 && (lat - start.lat).abs() < 1e-8);
}

#[test]
fn every_device_is_on_the_map_in_placing_order() {
    let mut plan = plan();
    plan.road_attribution = Some("© invented mapmakers".into());
    // Those before the section, whose place is not known, are kept, without a geometry.
    let before_it = plan.sites[0].zone.devices.iter().filter(|d| d.chainage.value < 0.0).count();
    assert!(before_it > 0);
    let file = zones(&plan);
    assert_eq!(file["attribution"], "© invented mapmakers");
    let devices: usize = plan.sites.iter().map(|s| s.zone.devices.len()).sum();
    assert_eq!(features(&file).len(), devices + plan.sites.len());
    let first: Vec<&Value> = features(&file).iter().filter(|f| f["properties"]["stop"] == 1).collect();
    assert_eq!(first[0]["properties"]["kind"], "work_space");
    assert_eq!(first[0]["geometry"]["type"], "LineString");
    for (index, device) in plan.sites[0].zone.devices.iter().enumerate() {
        let found = first[index + 1];
        assert_eq!(found["properties"]["placing"], index + 1);
        assert_eq!(found["properties"]["removing"], plan.sites[0].zone.devices.len() - index);
        assert_eq!(found["properties"]["legend"], device.legend);
        assert_eq!(found["geometry"].is_null(), device.chainage.value < 0.0, "{found}");
    }
}

/// On whatever road it stands, beside which side of its own traffic is told in one way.
#[test]
fn a_device_is_beside_the_traffic_it_is_for() {
    let mut plan = make(&Recipe { zones: vec![1], ..Recipe::default() });
    let zone = &mut plan.sites[0].zone;
    let side_road = Some(("Mole Road".to_owned(), metres(40.0)));
    let spot = RoadSpot {
        section: zone.section,
        chainage: metres(5.0),
        place: plan.network.nodes[0],
        side_road,
        moved: metres(0.0),
    };
    let table = [(Travel::Forward, None, 4.5), (Travel::Backward, None, -4.5), (Travel::Forward, Some(spot), -4.5)];
    for (device, (approach, spot, across)) in zone.devices.iter_mut().zip(table) {
        (device.approach, device.spot, device.across) = (approach, spot, metres(across));
    }
    let file = zones(&plan);
    let said = |index: usize, key: &str| features(&file)[index + 1]["properties"][key].clone();
    assert!((0..3).all(|index| said(index, "right_of_traffic_m") == 4.5));
    assert_eq!([0, 1, 2].map(|index| said(index, "across_m")), [4.5.into(), (-4.5).into(), Value::Null]);
}

/// library: geographiclib 2.0 (`PyPI`), direct and inverse problem on WGS 84, `tests/reference/along_the_line.py`.
#[test]
fn places_on_the_line_agree_with_a_geodesic_library() {
    let text = include_str!("reference/along_the_line.json");
    let cases: Vec<Value> =
        serde_json::from_str::<Value>(text).expect("JSON")["cases"].as_array().expect("cases").clone();
    assert!(cases.len() >= 20);
    let mut plan = make(&Recipe { zones: vec![1], ..Recipe::default() });
    for case in cases {
        let number = |key: &str| case[key].as_f64().expect("a number");
        let zone = &mut plan.sites[0].zone;
        let section = &mut plan.network.sections[zone.section.0 as usize];
        let points = case["line"].as_array().expect("a line");
        section.line = points
            .iter()
            .map(|p| model::place::LonLat { lon: p[0].as_f64().expect("lon"), lat: p[1].as_f64().expect("lat") })
            .collect();
        zone.devices[0].chainage = metres(number("chainage_m"));
        zone.devices[0].across = metres(number("across_m"));
        let file = zones(&plan);
        let at = &features(&file)[1]["geometry"]["coordinates"];
        let (dlon, dlat) = (at[0].as_f64().expect("lon") - number("lon"), at[1].as_f64().expect("lat") - number("lat"));
        // A centimetre and the rounding of the file.
        let metres_off = (dlat * 111_000.0).hypot(dlon * 111_000.0 * number("lat").to_radians().cos());
        assert!(metres_off < 0.01, "{case}: {metres_off} m off");
    }
}
