//! The shape of a traffic rule file as a JSON schema: for editors that know TOML, and for whoever writes such a file by
//! program.
//!
//! It is made from the shape that the files are read into. A file that extends another needs none of its rules, and may
//! write a value bare, without its source.

use model::rules::traffic::TrafficRules;
use schemars::generate::SchemaSettings;
use serde_json::{Map, Value, json};

/// The JSON schema (draft 2020-12) of a traffic rule file, ready to be kept as a file.
pub fn traffic_rules_schema() -> String {
    let whole = SchemaSettings::draft2020_12().into_generator().into_root_schema_for::<TrafficRules>().to_value();
    let Value::Object(mut whole) = whole else { return String::new() };
    let mut definitions = match whole.remove("$defs") {
        Some(Value::Object(definitions)) => definitions,
        _ => Map::new(),
    };
    for key in ["$schema", "title"] {
        whole.remove(key);
    }
    let whole = Value::Object(whole);
    let mut overriding = part(&whole);
    if let Some(Value::Object(properties)) = overriding.get_mut("properties") {
        let extends = json!({"type": "string", "description": "Name of the set that everything else is taken from."});
        properties.insert("extends".into(), extends);
    }
    let parts: Vec<(String, Value)> =
        definitions.iter().map(|(name, schema)| (format!("{name}{PART}"), part(schema))).collect();
    definitions.extend(parts);
    definitions.insert("WholeSet".into(), whole);
    definitions.insert("OverridingFile".into(), overriding);
    let schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Traffic rule file",
        "if": {"required": ["extends"]},
        "then": {"$ref": "#/$defs/OverridingFile"},
        "else": {"$ref": "#/$defs/WholeSet"},
        "$defs": definitions,
    });
    format!("{schema:#}\n")
}

/// Ending of the name of a shape of which a file may give a part.
const PART: &str = "Part";

/// A shape of which a file may give a part: nothing is required, and a value with its source may stand bare.
fn part(schema: &Value) -> Value {
    match schema {
        Value::Object(fields) => {
            let kept = fields.iter().filter(|(key, _)| *key != "required");
            let all: Map<String, Value> = kept
                .map(|(key, value)| match value {
                    Value::String(name) if key == "$ref" => (key.clone(), format!("{name}{PART}").into()),
                    // A list is replaced whole: what stands in it is complete.
                    _ if key == "items" => (key.clone(), value.clone()),
                    _ => (key.clone(), part(value)),
                })
                .collect();
            match fields.get("properties").and_then(|properties| properties.get("value")) {
                Some(value) if fields["properties"].get("source").is_some() => {
                    json!({"anyOf": [part(value), Value::Object(all)]})
                }
                _ => Value::Object(all),
            }
        }
        Value::Array(items) => Value::Array(items.iter().map(part).collect()),
        other => other.clone(),
    }
}
