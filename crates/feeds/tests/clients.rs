//! A client that knows nothing of this program, GDAL's reader of OGC API - Features, connects over HTTP and reads what was served.

mod common;

use common::gdal::{gdal, same_features};
use common::server::Server;
use common::{COUNTS, People, features};
use feeds::{Collection, LonLatBox};
use serde_json::Value;

/// A collection as GDAL read it, in GeoJSON.
fn read(server: &Server, collection: Collection, options: &[&str]) -> Option<Vec<Value>> {
    let source = format!("OAPIF:{}", server.root);
    let mut arguments =
        vec!["-f", "GeoJSON", "/vsistdout/", source.as_str(), collection.id(), "-lco", "COORDINATE_PRECISION=12"];
    arguments.extend(options);
    let text = gdal("ogr2ogr", &arguments)?;
    let read: Value = serde_json::from_str(&text).unwrap_or_else(|error| panic!("{error}: {text}"));
    Some(read["features"].as_array().expect("a list of features").clone())
}

#[test]
fn it_lists_the_collections() {
    let server = Server::start();
    let Some(text) = gdal("ogrinfo", &["-ro", &format!("OAPIF:{}", server.root)]) else { return };
    for collection in Collection::ALL {
        assert!(text.contains(collection.title()) && text.contains(collection.id()), "{text}");
    }
}

#[test]
fn it_reads_every_feature_over_several_pages() {
    let server = Server::start();
    for (collection, count) in COUNTS {
        let Some(read) = read(&server, collection, &["-oo", "PAGE_SIZE=50"]) else { return };
        let served = features(collection, &People::default());
        assert_eq!((read.len(), served.len()), (count, count), "{}", collection.id());
        same_features(&read, &served);
    }
    let pages = server.asked().iter().filter(|asked| asked.contains("cursor=")).count();
    assert!(pages >= 5, "holes and roads have three pages, repairs two: {:?}", server.asked());
}

#[test]
fn it_counts_without_reading() {
    let server = Server::start();
    for (collection, count) in COUNTS {
        let source = format!("OAPIF:{}", server.root);
        let Some(text) = gdal("ogrinfo", &["-ro", "-so", &source, collection.id()]) else { return };
        assert!(text.contains(&format!("Feature Count: {count}")), "{text}");
        // where the first page has several kinds GDAL says so
        let kind = match collection {
            Collection::Roads => "Line String",
            Collection::Zones => "Unknown (any)",
            Collection::Holes | Collection::Repairs => "Point",
        };
        assert!(text.contains(&format!("Geometry: {kind}")), "{text}");
    }
}

#[test]
fn it_asks_for_a_box() {
    let server = Server::start();
    let (west, south, east, north) = (81.52, -18.195, 81.56, -18.17);
    let bounds = LonLatBox { west, south, east, north };
    for collection in Collection::ALL {
        let within: Vec<String> = features(collection, &People::default())
            .into_iter()
            .filter(|feature| feature.geometry.as_ref().is_some_and(|geometry| bounds.touches(geometry)))
            .map(|feature| feature.id)
            .collect();
        let corners = [west, south, east, north].map(|degrees| degrees.to_string());
        let mut options = vec!["-spat"];
        options.extend(corners.iter().map(String::as_str));
        let Some(read) = read(&server, collection, &options) else { return };
        let ids: Vec<&str> =
            read.iter().filter_map(|read| read["properties"]["id"].as_str().or(read["id"].as_str())).collect();
        assert!(!within.is_empty());
        assert_eq!(ids, within, "{}", collection.id());
    }
    assert!(server.asked().iter().any(|asked| asked.contains("bbox=")), "{:?}", server.asked());
}

#[test]
fn it_asks_for_values_of_properties() {
    let server = Server::start();
    let Some(read) = read(&server, Collection::Holes, &["-where", "wetness = 'pumping'"]) else { return };
    assert_eq!(read.len(), 26);
    assert!(read.iter().all(|read| read["properties"]["wetness"] == "pumping"));
    assert!(server.asked().iter().any(|asked| asked.contains("wetness=pumping")), "{:?}", server.asked());
}
