//! The published JSON schema of the open standard `WZDx` 4.2 (CC0), where the data folder with it is there.
#![allow(dead_code)] // each test takes what it needs

use std::path::{Path, PathBuf};

use serde_json::{Value, json};

/// The standard's folder, with `schemas` and `examples`; `None`, with a word, where it is not there.
pub fn folder() -> Option<PathBuf> {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).ancestors().map(|folder| folder.join("shared/data/wzdx"));
    let found = beside.into_iter().find(|path| path.is_dir());
    if found.is_none() {
        eprintln!("skipped: the schema of WZDx 4.2 is not in shared/data/wzdx");
    }
    found
}

/// What is wrong with a feed by the schema; formats (dates, addresses) are looked at too.
pub fn faults(folder: &Path, feed: &Value) -> Vec<String> {
    let mut registry = jsonschema::Registry::new();
    for name in ["BoundingBox", "Direction", "FeedInfo", "RoadEventFeature"] {
        let schema = read(&folder.join("schemas").join(format!("{name}.json")));
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
    let schema = read(&folder.join("schemas/WorkZoneFeed.json"));
    let validator = jsonschema::options()
        .with_registry(&registry)
        .should_validate_formats(true)
        .build(&schema)
        .expect("the standard's schema");
    validator.iter_errors(feed).map(|fault| format!("{}: {fault}", fault.instance_path())).collect()
}

/// A JSON file.
pub fn read(path: &Path) -> Value {
    let text = std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}
