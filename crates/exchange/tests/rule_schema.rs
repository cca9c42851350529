//! The schema of traffic rule files in the handbook: made from the code, obeyed by the files that come with the program.

use std::path::Path;

use serde_json::Value;

/// Spoils a file.
type Spoil = fn(&mut Value);

fn schema_file() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../handbook/traffic-rules.schema.json")
}

fn shipped(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../../rules/traffic/{name}.toml"));
    toml::from_str(&std::fs::read_to_string(path).expect("a shipped set")).expect("TOML that JSON can hold")
}

/// `LENGTHSMAN_WRITE_SCHEMA=1 cargo test -p exchange` writes the file anew.
#[test]
fn the_schema_in_the_handbook_is_the_one_the_code_writes() {
    let schema = exchange::rules::traffic_rules_schema();
    if std::env::var_os("LENGTHSMAN_WRITE_SCHEMA").is_some() {
        std::fs::write(schema_file(), &schema).expect("the handbook can be written");
    }
    let kept = std::fs::read_to_string(schema_file()).expect("handbook/traffic-rules.schema.json is kept");
    assert_eq!(kept, schema, "run with LENGTHSMAN_WRITE_SCHEMA=1");
}

#[test]
fn the_shipped_traffic_files_obey_it_and_spoilt_ones_do_not() {
    let schema: Value = serde_json::from_str(&exchange::rules::traffic_rules_schema()).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    for name in ["us-mutcd", "low-volume-metric", "agency-template", "agency-template-metric"] {
        let errors: Vec<String> =
            validator.iter_errors(&shipped(name)).map(|e| format!("{}: {e}", e.instance_path())).collect();
        assert!(errors.is_empty(), "{name}: {errors:#?}");
    }
    let mut bare = shipped("agency-template");
    bare["across"] = serde_json::json!({"open_width_min": 11});
    assert!(validator.is_valid(&bare), "a value may stand bare in a file that extends another");
    let cases: [(&str, &str, Spoil); 9] = [
        ("a rule is missing", "us-mutcd", |v| drop(v["speed"].as_object_mut().unwrap().remove("greatest"))),
        ("a value without source", "us-mutcd", |v| v["across"]["lane_width"] = 12.into()),
        ("a unit that is none", "us-mutcd", |v| v["units"]["distance"] = "yard".into()),
        ("an unknown key", "us-mutcd", |v| v["speed"]["stepp"] = 5.into()),
        ("a text for a number", "us-mutcd", |v| v["speed"]["step"]["value"] = "five".into()),
        ("a place that is none", "us-mutcd", |v| v["layouts"]["shoulder"]["signs"][0]["place"] = "fourth".into()),
        ("an unknown key below", "agency-template", |v| v["advance"]["urban"] = 5.into()),
        ("a text for a number below", "agency-template", |v| {
            v["advance"]["urban_low_speed_max"]["value"] = "30".into();
        }),
        ("nothing to extend", "agency-template", |v| drop(v.as_object_mut().unwrap().remove("extends"))),
    ];
    for (what, name, spoil) in cases {
        let mut file = shipped(name);
        spoil(&mut file);
        assert!(!validator.is_valid(&file), "{what} passes");
    }
}
