//! Road tiles, read again by GDAL's own reader of Mapbox Vector Tiles.

mod common;

use common::gdal::gdal;
use common::network;
use feeds::{DEEPEST_TILES, RoadTiles};
use model::place::LonLat;
use serde_json::Value;

/// The tile of the web Mercator square that a place lies in (OGC 17-083r4).
fn tile_at(place: LonLat, zoom: u8) -> (u32, u32) {
    let across = 2_f64.powi(i32::from(zoom));
    let latitude = place.lat.to_radians();
    let row = (1.0 - latitude.tan().asinh() / std::f64::consts::PI) / 2.0;
    (((place.lon + 180.0) / 360.0 * across) as u32, (row * across) as u32)
}

/// Metres between two places that are near each other.
fn metres(one: LonLat, other: LonLat) -> f64 {
    let east = (one.lon - other.lon) * one.lat.to_radians().cos();
    111_320.0 * east.hypot(one.lat - other.lat)
}

/// Metres from a place to a line of the network.
fn off_line(place: LonLat, line: &[LonLat]) -> f64 {
    let steps = |pair: &[LonLat]| {
        let (from, to) = (pair[0], pair[1]);
        (0..=1000).map(move |step| {
            let share = f64::from(step) / 1000.0;
            LonLat { lon: from.lon + share * (to.lon - from.lon), lat: from.lat + share * (to.lat - from.lat) }
        })
    };
    line.windows(2).flat_map(steps).map(|at| metres(place, at)).fold(f64::INFINITY, f64::min)
}

#[test]
fn what_gdal_reads_lies_on_the_roads() {
    let network = network(40);
    let tiles = RoadTiles::new(&network);
    let folder = tempfile::tempdir().expect("a folder");
    let mut read = 0;
    for section in network.sections.iter().step_by(7) {
        for zoom in [13, DEEPEST_TILES] {
            let (column, row) = tile_at(section.line[0], zoom);
            let made = tiles.tile(zoom, column, row).expect("a road begins there");
            assert_eq!(tiles.tile(zoom, column, row).as_ref(), Some(&made), "the same each time");
            let file = folder.path().join(format!("{zoom}-{column}-{row}.mvt"));
            std::fs::write(&file, &made).expect("it can be written");
            let options = [format!("X={column}"), format!("Y={row}"), format!("Z={zoom}")];
            let mut arguments = vec!["-f", "GeoJSON", "-t_srs", "EPSG:4326", "/vsistdout/"];
            let name = file.display().to_string();
            arguments.push(&name);
            for option in &options {
                arguments.extend(["-oo", option]);
            }
            let Some(text) = gdal("ogr2ogr", &arguments) else { return };
            let text: Value = serde_json::from_str(&text).expect("GeoJSON");
            let features = text["features"].as_array().expect("features");
            let is_own = |feature: &&Value| {
                let properties = &feature["properties"];
                properties["section"] == section.source_id.as_str() && properties["class"] == section.class.word()
            };
            assert!(features.iter().any(|feature| is_own(&feature)), "{} is in its own tile", section.source_id);
            // A unit of the tile on the ground, and the bends left out.
            let unit = 40_075_016.7 / 2_f64.powi(i32::from(zoom)) / 4096.0;
            for feature in features {
                let id = feature["properties"]["section"].as_str().expect("a section");
                // several sections come from one line of the road file
                let lines = || network.sections.iter().filter(|section| section.source_id == id);
                for point in points(&feature["geometry"]["coordinates"]) {
                    let off = lines().map(|section| off_line(point, &section.line)).fold(f64::INFINITY, f64::min);
                    assert!(off <= 6.0 * unit + 0.5, "{id}: {off} m at zoom {zoom}");
                    read += 1;
                }
            }
        }
    }
    assert!(read > 20, "{read}");
}

/// Points of a line or of several.
fn points(coordinates: &Value) -> Vec<LonLat> {
    let all = coordinates.as_array().expect("a list");
    if let (Some(lon), Some(lat)) = (all[0].as_f64(), all.get(1).and_then(Value::as_f64)) {
        return vec![LonLat { lon, lat }];
    }
    all.iter().flat_map(points).collect()
}

#[test]
fn there_is_nothing_beyond_the_square_and_where_no_road_is() {
    let tiles = RoadTiles::new(&network(3));
    for (zoom, column, row) in [(17, 0, 0), (3, 8, 0), (3, 0, 8), (16, 0, 0), (255, 0, 0)] {
        assert_eq!(tiles.tile(zoom, column, row), None, "{zoom} {column} {row}");
    }
}
