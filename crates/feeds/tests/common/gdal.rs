//! Programs of GDAL, and whether they read what was written.

use std::process::Command;

use feeds::{Feature, Geometry};
use serde_json::{Value, json};

/// Output of a program of GDAL; `None`, with a word, where it is not installed.
pub fn gdal(program: &str, arguments: &[&str]) -> Option<String> {
    let Ok(output) = Command::new(program).args(arguments).env("GDAL_HTTP_TIMEOUT", "20").output() else {
        println!("skipped: no {program} here (Debian: gdal-bin)");
        return None;
    };
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let errors = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.success() && !errors.contains("ERROR"), "{program} {arguments:?}: {text}{errors}");
    Some(text)
}

/// Every feature that GDAL read, as `GeoJSON`, is the one written: number, place, properties.
pub fn same_features(read: &[Value], written: &[Feature]) {
    assert_eq!(read.len(), written.len());
    for (read, written) in read.iter().zip(written) {
        assert_eq!(read["properties"]["id"].as_str().or(read["id"].as_str()), Some(written.id.as_str()));
        let coordinates = |geometry: &Geometry| match geometry {
            Geometry::Point(place) => json!([place.lon, place.lat]),
            Geometry::Line(places) => places.iter().map(|place| json!([place.lon, place.lat])).collect(),
        };
        let own = written.geometry.as_ref().map_or(Value::Null, coordinates);
        close(read.pointer("/geometry/coordinates").unwrap_or(&Value::Null), &own);
        for (name, value) in &written.properties {
            same(&read["properties"][name], value, name);
        }
    }
}

fn close(read: &Value, served: &Value) {
    match (read, served) {
        (Value::Array(read), Value::Array(served)) => {
            assert_eq!(read.len(), served.len());
            read.iter().zip(served).for_each(|(read, served)| close(read, served));
        }
        (Value::Number(_), Value::Number(_)) => {
            let (read, served) = (read.as_f64().unwrap(), served.as_f64().unwrap());
            assert!((read - served).abs() < 1e-10, "{read} is not {served}");
        }
        _ => assert_eq!(read, served),
    }
}

/// GDAL writes days and moments its own way and numbers as it likes.
fn same(read: &Value, served: &Value, name: &str) {
    match (read, served) {
        (Value::Number(read), Value::Number(served)) => assert_eq!(read.as_f64(), served.as_f64(), "{name}"),
        (Value::String(read), Value::String(served)) if read != served => {
            let plain =
                |text: &str| text.replace(['/', '-', ' ', 'T'], "").trim_end_matches(['Z', '0', '+']).to_owned();
            assert_eq!(plain(read), plain(served), "{name}");
        }
        // A GeoPackage has no lists.
        (Value::String(read), Value::Array(served)) => {
            let texts: Vec<&str> = served.iter().filter_map(Value::as_str).collect();
            assert_eq!(read, &texts.join(", "), "{name}");
        }
        _ => assert_eq!(read, served, "{name}"),
    }
}
