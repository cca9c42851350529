//! Nothing that says who told something, or that anybody wrote in words of his own, is read outside.

mod common;

use common::{People, features, hole, hour, now, number, repair, service, zone};
use feeds::{
    Collection, Crs, FeatureQuery, FeedPublisher, Layer, OpenZone, hole_feature, open_zone_feed, page_of,
    repair_feature, write_geopackage, zone_feature,
};
use proptest::prelude::*;
use serde_json::Value;

/// What must not be read: the people's own texts, and the numbers under which more is kept of them.
fn secrets(people: &People, index: u64) -> Vec<String> {
    let People { actor, device, words, photo } = people;
    let numbers = [number(8, index), number(9, 1)].map(|number| number.to_string());
    [actor.clone(), device.clone(), words.clone(), photo.clone()].into_iter().chain(numbers).collect()
}

/// Texts that are not found in a document by chance.
fn people() -> impl Strategy<Value = People> {
    let text = "[a-z]{6}[ @.'<\"é-][A-Z]{8}";
    (text, text, text, "[0-9a-f]{64}").prop_map(|(actor, device, words, photo)| People { actor, device, words, photo })
}

proptest! {
    #[test]
    fn features_and_the_feed_of_zones_tell_nothing_of_people(people in people(), index in 0..200_u64) {
        let zone = zone(&people, index);
        let hidden = secrets(&people, index);
        let features = [hole_feature(&hole(&people, index)), repair_feature(&repair(&people, index)), zone_feature(&zone)];
        let mut texts: Vec<String> = Vec::new();
        for (feature, collection) in features.into_iter().zip(Collection::ALL) {
            let query = FeatureQuery::read(collection, "", &[Crs::Crs84]).unwrap();
            let page = page_of([&feature], &query);
            let service = service("https://roads.example/ogc");
            collect(&service.items(collection, &query, &page, now()).body, &mut texts);
            collect(&service.item(collection, &feature.id, Crs::Crs84, Some(&feature)).unwrap().body, &mut texts);
        }
        let open = OpenZone { zone: &zone, expected_end: hour(30) };
        let publisher = FeedPublisher { name: "Alder Ridge road district".to_owned(), road_attribution: None };
        collect(&open_zone_feed(&[open], &publisher, now()).0, &mut texts);
        for hidden in &hidden {
            prop_assert!(!texts.iter().any(|text| text.contains(hidden.as_str())), "{hidden} is read");
        }
        // They are in what is known.
        let known = serde_json::to_value(repair(&people, index)).unwrap();
        let mut inside = Vec::new();
        collect(&known, &mut inside);
        prop_assert!(inside.contains(&people.actor) && inside.contains(&people.words) && inside.contains(&people.photo));
    }
}

#[tokio::test]
async fn the_geopackage_tells_nothing_of_people() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("district.gpkg");
    let people = People::default();
    let all = Collection::ALL.map(|each| (each, features(each, &people)));
    let layers: Vec<Layer<'_>> =
        all.iter().map(|(collection, features)| Layer { collection: *collection, features }).collect();
    write_geopackage(&path, &layers, now()).await.unwrap();
    let bytes = std::fs::read(&path).unwrap();
    let holds = |text: &str| bytes.windows(text.len()).any(|window| window == text.as_bytes());
    assert!(holds("Alder Ridge Road"), "what is written is found");
    for hidden in secrets(&people, 0) {
        assert!(!holds(&hidden), "{hidden} is in the file");
    }
}

/// Every text of a document, keys too.
fn collect(value: &Value, texts: &mut Vec<String>) {
    match value {
        Value::String(text) => texts.push(text.clone()),
        Value::Array(all) => all.iter().for_each(|value| collect(value, texts)),
        Value::Object(all) => {
            for (key, value) in all {
                texts.push(key.clone());
                collect(value, texts);
            }
        }
        _ => {}
    }
}
