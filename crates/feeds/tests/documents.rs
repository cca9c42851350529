//! The documents themselves, and that pages hold each feature once.

mod common;

use common::server::document;
use common::{People, extent, features, now, service};
use feeds::{
    Collection, Crs, Document, Extent, FeatureQuery, Interval, Page, Refusal, hole_feature, page_of, read_request,
};
use model::record::happened::Position;
use proptest::prelude::*;
use serde_json::Value;

const ROOT: &str = "https://roads.example/ogc";

/// The document under an address below the root.
fn get(address: &str) -> Result<Document, Refusal> {
    let service = service(ROOT);
    let (path, query) = address.split_once('?').unwrap_or((address, ""));
    read_request(path, query, &service.crs).and_then(|request| document(&service, &request))
}

fn body(address: &str) -> Value {
    get(address).unwrap_or_else(|refusal| panic!("{address}: {refusal}")).body
}

/// Where a document's link of that relation leads, below the root.
fn link<'a>(document: &'a Value, rel: &str) -> Option<&'a str> {
    let links = document["links"].as_array()?;
    let href = links.iter().find(|link| link["rel"] == rel)?["href"].as_str()?;
    Some(href.strip_prefix(ROOT).expect("links stay in the service"))
}

#[test]
fn pages_of_the_service() {
    for (name, address) in [
        ("landing", "/"),
        ("conformance", "/conformance"),
        ("collections", "/collections"),
        ("collection", "/collections/roads"),
    ] {
        let document = get(address).unwrap();
        assert_eq!((document.media_type, document.content_crs), ("application/json", None));
        insta::assert_json_snapshot!(name, document.body);
    }
}

#[test]
fn a_page_of_each_collection() {
    for collection in Collection::ALL {
        let document = get(&format!("/collections/{}/items?limit=2", collection.id())).unwrap();
        assert_eq!(document.media_type, "application/geo+json");
        assert_eq!(document.content_crs.as_deref(), Some("<http://www.opengis.net/def/crs/OGC/1.3/CRS84>"));
        insta::assert_json_snapshot!(format!("items-{}", collection.id()), document.body);
    }
}

#[test]
fn one_feature_in_another_system() {
    let id = features(Collection::Holes, &People::default())[3].id.clone();
    let document =
        get(&format!("/collections/holes/items/{id}?crs=http://www.opengis.net/def/crs/EPSG/0/32744")).unwrap();
    assert_eq!(document.content_crs.as_deref(), Some("<http://www.opengis.net/def/crs/EPSG/0/32744>"));
    insta::assert_json_snapshot!(document.body);
    let refusal = get("/collections/holes/items/no-such").unwrap_err();
    assert_eq!(refusal.status(), 404);
    insta::assert_json_snapshot!("not-found", refusal.document().body);
    let refusal = get("/collections/holes/items?limit=x&a=1").unwrap_err();
    assert_eq!(refusal.document().media_type, "application/problem+json");
    insta::assert_json_snapshot!("bad-request", refusal.document().body);
}

/// OGC 17-069r4: every link of the service's documents leads somewhere, and `self` to the document itself.
#[test]
fn every_link_leads_somewhere() {
    let mut left = vec!["/".to_owned()];
    let mut seen = Vec::new();
    while let Some(address) = left.pop() {
        let document = body(&address);
        let links: Vec<&str> =
            document["links"].as_array().into_iter().flatten().filter_map(|link| link["href"].as_str()).collect();
        let nested = document["collections"]
            .as_array()
            .into_iter()
            .flatten()
            .flat_map(|each| each["links"].as_array().into_iter().flatten());
        let nested = nested.filter_map(|link| link["href"].as_str());
        for href in links.into_iter().chain(nested) {
            let below = href.strip_prefix(ROOT).unwrap().to_owned();
            let below = if below.is_empty() { "/".to_owned() } else { below };
            if !seen.contains(&below) && !left.contains(&below) {
                left.push(below);
            }
        }
        if let Some(own) = link(&document, "self") {
            assert_eq!(own.trim_start_matches('/'), address.trim_start_matches('/'));
        }
        seen.push(address);
    }
    assert!(seen.len() > 15, "{seen:?}");
}

/// Where the server has an API document of its own, and a GeoPackage, the links lead there.
#[test]
fn what_the_server_adds_is_linked() {
    let mut service = service(ROOT);
    service.api = Some("https://roads.example/openapi.json".to_owned());
    service.geopackage = Some("https://roads.example/district.gpkg".to_owned());
    let href = |document: &Value, rel: &str| {
        let links = document["links"].as_array().unwrap().clone();
        links.into_iter().find(|link| link["rel"] == rel).map(|link| link["href"].clone())
    };
    let api = href(&service.landing_page().body, "service-desc");
    assert_eq!(api, Some("https://roads.example/openapi.json".into()));
    for document in [service.collections(extent), service.collection(Collection::Holes, &Extent::default())] {
        assert_eq!(href(&document.body, "enclosure"), Some("https://roads.example/district.gpkg".into()));
    }
}

/// Devices send what they like: no place on the globe is no geometry, what is no number is not known.
#[test]
fn what_is_none_is_left_out() {
    let people = People::default();
    let mut known = common::hole(&people, 1);
    known.position = common::told(&people, Position { lon: 81.5, lat: 918.2 });
    known.depth_mm = common::told(&people, f64::NAN);
    known.length_mm = common::told(&people, f64::INFINITY);
    let feature = hole_feature(&known);
    assert_eq!(feature.geometry, None);
    assert!(!feature.properties.contains_key("depth_mm") && !feature.properties.contains_key("length_mm"));
    let query = |text: &str| FeatureQuery::read(Collection::Holes, text, &[Crs::Crs84]).unwrap();
    assert!(feature.answers(&query("")) && !feature.answers(&query("bbox=-180,-90,180,90")));
}

#[test]
fn the_api_definition_names_what_is_read() {
    let document = get("/api").unwrap();
    assert_eq!(document.media_type, "application/vnd.oai.openapi+json;version=3.0");
    for collection in Collection::ALL {
        let path = format!("/collections/{}/items", collection.id());
        let get_items = &document.body["paths"][&path]["get"];
        let names: Vec<&str> =
            get_items["parameters"].as_array().unwrap().iter().filter_map(|p| p["name"].as_str()).collect();
        let refusal = FeatureQuery::read(collection, "no-such=1", &[Crs::Crs84]).unwrap_err().to_string();
        for name in &names {
            assert!(refusal.contains(name), "{name} is named but not read: {refusal}");
        }
        let known = refusal.rsplit_once("known here are ").unwrap().1.split(", ").count();
        assert_eq!(known, names.len(), "{refusal}");
    }
}

/// Features carry the properties that are described, of the kind that is described, and no other.
#[test]
fn properties_are_those_described() {
    use feeds::PropertyKind::{Boolean, Date, DateTime, Integer, Number, Text, TextList};
    for collection in Collection::ALL {
        let mut met: Vec<&str> = Vec::new();
        for feature in features(collection, &People::default()) {
            for (name, value) in &feature.properties {
                let property = collection.properties().iter().find(|property| property.name == name);
                let property = property.unwrap_or_else(|| panic!("{}: {name} is not described", collection.id()));
                let right = match property.kind {
                    Text => value.is_string(),
                    TextList => value.as_array().is_some_and(|all| all.iter().all(Value::is_string)),
                    Number => value.is_number(),
                    Integer => value.is_u64(),
                    Boolean => value.is_boolean(),
                    Date => value.as_str().is_some_and(|text| text.parse::<jiff::civil::Date>().is_ok()),
                    DateTime => value.as_str().is_some_and(|text| text.parse::<jiff::Timestamp>().is_ok()),
                };
                assert!(right, "{}: {name} is {value}", collection.id());
                met.push(property.name);
            }
        }
        let missed: Vec<&str> =
            collection.properties().iter().map(|p| p.name).filter(|name| !met.contains(name)).collect();
        // Nothing of the invented district is the same as something else, and no road has a number.
        let expected: &[&str] = match collection {
            Collection::Holes => &["same_as", "merged"],
            Collection::Roads => &["number"],
            Collection::Repairs | Collection::Zones => &[],
        };
        assert_eq!(missed, expected, "{}", collection.id());
    }
}

#[test]
fn what_was_told_differently_is_named() {
    let of = |collection, index: usize| {
        features(collection, &People::default())[index].properties.get("told_differently").cloned()
    };
    assert_eq!(of(Collection::Holes, 7), Some(serde_json::json!(["depth_mm"])));
    assert_eq!(of(Collection::Holes, 8), None);
    assert_eq!(of(Collection::Repairs, 1), Some(serde_json::json!(["area_m2"])));
    assert_eq!(of(Collection::Zones, 7), Some(serde_json::json!(["geometry"])));
}

#[test]
fn times_of_holes_repairs_and_zones() {
    let time = |collection, index: usize| features(collection, &People::default())[index].time;
    let hour = |hours| Some(common::hour(hours));
    // Reported in the first hour, still there; mended: over when that was told.
    assert_eq!(time(Collection::Holes, 1), Some(Interval { from: hour(1), to: None }));
    assert_eq!(time(Collection::Holes, 3), Some(Interval { from: hour(3), to: hour(13) }));
    // Seen on a day: from its midnight in universal time.
    assert_eq!(time(Collection::Holes, 0), Some(Interval { from: hour(-6), to: None }));
    assert_eq!(time(Collection::Repairs, 0), None, "planned only");
    assert_eq!(time(Collection::Repairs, 3), Some(Interval { from: hour(23), to: hour(103) }));
    assert_eq!(time(Collection::Zones, 2), Some(Interval { from: hour(21), to: hour(25) }));
    assert_eq!(time(Collection::Zones, 1), Some(Interval { from: hour(20), to: None }));
    let asked = |text: &str| body(&format!("/collections/zones/items?datetime={text}"))["numberMatched"].clone();
    assert_eq!(asked("2026-06-02T02:00:00Z"), 2, "the zones that stood at hour 20");
    assert_eq!(asked("../2026-06-01T06:00:00Z"), 0);
    assert_eq!(body("/collections/roads/items?datetime=2026-06-02")["numberMatched"], 0, "roads have no time");
}

#[test]
fn the_extent_of_a_collection() {
    let Extent { bounds, time } = extent(Collection::Zones);
    let bounds = bounds.unwrap();
    assert_eq!((bounds.west, bounds.south), (81.5, -18.2));
    assert_eq!(time, Some(Interval { from: Some(common::hour(19)), to: None }));
    assert_eq!(Extent::of([]), Extent::default());
    assert!(service(ROOT).collection(Collection::Zones, &Extent::default()).body.get("extent").is_none());
}

/// Holes come and go between pages: what was there all the time is on exactly one page.
#[test]
fn a_page_goes_on_where_the_last_one_ended() {
    let all = features(Collection::Holes, &People::default());
    let query = |cursor: &str| {
        FeatureQuery::read(Collection::Holes, &format!("limit=10&cursor={cursor}"), &[Crs::Crs84]).unwrap()
    };
    let first = page_of(&all, &query(""));
    let mut later = all.clone();
    later.drain(5..10);
    let second = page_of(&later, &query(first.next.as_deref().unwrap()));
    assert_eq!(second.features[0].id, all[10].id);
    assert_eq!(page_of([], &query("")), Page { matched: Some(0), ..Page::default() });
}

#[test]
fn numbers_of_sections_are_in_the_order_of_numbers() {
    let page = body("/collections/roads/items?limit=12");
    let ids: Vec<&str> = page["features"].as_array().unwrap().iter().filter_map(|f| f["id"].as_str()).collect();
    assert_eq!(ids, ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11"]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Following `next` gives every feature that matches, once, in order; following `prev` gives the same pages backwards.
    #[test]
    fn pages_hold_each_feature_once(
        limit in 1..140_usize,
        collection in prop_oneof![Just(Collection::Holes), Just(Collection::Repairs), Just(Collection::Zones), Just(Collection::Roads)],
        rest in prop_oneof![
            Just(""), Just("&bbox=81.52,-18.195,81.56,-18.17"), Just("&datetime=2026-06-03/.."),
            Just("&crs=http%3A%2F%2Fwww.opengis.net%2Fdef%2Fcrs%2FEPSG%2F0%2F3857&bbox=-18.195%2C81.52%2C-18.17%2C81.56&bbox-crs=http%3A%2F%2Fwww.opengis.net%2Fdef%2Fcrs%2FEPSG%2F0%2F4326"),
        ],
    ) {
        let start = format!("/collections/{}/items?limit={limit}{rest}", collection.id());
        let matching: Vec<Value> = {
            let all = body(&format!("/collections/{}/items?limit=10000{rest}", collection.id()));
            prop_assert_eq!(&all["numberMatched"], &all["numberReturned"]);
            all["features"].as_array().unwrap().clone()
        };
        let mut pages = vec![body(&start)];
        while let Some(next) = link(pages.last().unwrap(), "next") {
            pages.push(body(next));
            prop_assert!(pages.len() <= matching.len() + 1);
        }
        let together: Vec<Value> = pages.iter().flat_map(|page| page["features"].as_array().unwrap().clone()).collect();
        prop_assert_eq!(&together, &matching);
        for page in &pages {
            prop_assert_eq!(page["numberMatched"].as_u64(), Some(matching.len() as u64));
            prop_assert!(page["numberReturned"].as_u64().unwrap() <= limit as u64);
            prop_assert_eq!(&page["timeStamp"], &Value::from(now().to_string()));
        }
        let mut backwards = pages.clone();
        while let Some(page) = backwards.pop() {
            match (link(&page, "prev"), backwards.last()) {
                (Some(before), Some(page_before)) => prop_assert_eq!(&body(before)["features"], &page_before["features"]),
                (None, None) => {}
                (before, _) => prop_assert!(false, "the page before is {before:?}"),
            }
        }
    }
}
