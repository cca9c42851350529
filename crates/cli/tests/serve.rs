//! The server as a person starts it: the first link, reports, a plan of the invented district, feeds that GDAL reads, backups, the
//! end.

mod serving;

use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};
use serving::{PROGRAM, Serving, data, ended, number, reports_of_demo};
use tempfile::TempDir;

fn ran(arguments: &[&str]) -> (bool, String) {
    let output = Command::new(PROGRAM).args(arguments).output().unwrap();
    (
        output.status.success(),
        format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr)),
    )
}

#[test]
fn from_the_first_link_to_a_plan_the_feeds_and_a_backup() {
    let folder = data();
    let mut serving = Serving::start(folder.path(), &[]);
    serving.set_up();

    let events = reports_of_demo(12);
    assert!(events.len() >= 8, "{}", events.len());
    let taken = serving.json("POST", "/api/events", &json!({"events": events}));
    assert!(taken["events"].as_array().unwrap().iter().all(|event| event["outcome"] == "recorded"), "{taken}");

    let job = serving.json("POST", "/api/plans", &json!({"date": "2026-06-09"}));
    let path = format!("/api/plans/{}", job["job"].as_str().unwrap());
    let done = ended(&serving, &path);
    assert_eq!(done["state"], "done", "{}", done["words"]);
    assert!(!done["plan"]["rounds"].as_array().unwrap().is_empty());
    let rounds = serving.json("POST", &format!("{path}/rounds"), &Value::Null);
    assert!(!rounds.as_array().unwrap().is_empty());
    let round = serving.json("GET", "/api/known/rounds?state=2026-06-09", &Value::Null);
    let repairs = round["known"][0]["known"]["repairs"]["value"].as_array().unwrap();
    assert!(!repairs.is_empty(), "{round}");
    let zone = &round["known"][0]["known"]["planned_zones"][0];
    let line = zone["stretches"][0]["line"].as_array().unwrap();
    assert!(line.len() >= 2 && line[0]["lon"].as_f64().unwrap() != 0.0, "{zone}");
    assert!(zone["stretches"][0]["heading"] != "unknown" && zone["stretches"][0]["impact"] != "unknown", "{zone}");
    // the crew tells it on when the signs stand, and the feed has it
    let opened = json!({"events": [{
        "id": number(500), "schema": 1, "actor": "mara", "device": "browser", "device_time": "2026-06-08T15:10:00Z",
        "happened": {
            "kind": "zone_opened", "zone": number(501), "holes": zone["holes"], "position": line[0], "road": zone["road"],
            "layout": zone["layout"], "stretches": zone["stretches"],
        },
    }]});
    let taken = serving.json("POST", "/api/events", &opened);
    assert_eq!(taken["events"][0]["outcome"], "recorded", "{taken}");
    let feed = serving.json("GET", "/wzdx", &Value::Null);
    let event = &feed["features"][0];
    assert_eq!(event["geometry"]["type"], "LineString", "{feed}");
    assert_eq!(event["geometry"]["coordinates"].as_array().unwrap().len(), line.len());
    assert_eq!(event["properties"]["vehicle_impact"], zone["stretches"][0]["impact"]);
    let features = serving.json("GET", "/ogc/collections/zones/items", &Value::Null);
    assert_eq!(features["features"][0]["geometry"]["type"], "LineString");
    assert!(repairs.iter().all(|repair| repair["binder_l"].as_str().unwrap().parse::<f64>().unwrap() > 0.0));

    read_by_gdal(&serving.address, events.len());

    // a backup while it runs, a second server on the same folder, the trail
    let file = folder.path().join("backup.zip");
    let (data_folder, file) = (folder.path().to_str().unwrap(), file.to_str().unwrap());
    let (fine, said) = ran(&["backup", "--data", data_folder, "--to", file]);
    assert!(fine && said.contains("last digest"), "{said}");
    let (fine, said) = ran(&["serve", "--data", data_folder, "--listen", "127.0.0.1:0"]);
    assert!(!fine && said.contains("another program serves"), "{said}");
    let (fine, said) = ran(&["audit", "verify", "--data", data_folder]);
    assert!(fine && said.contains("what happened: whole"), "{said}");
    serving.end();

    let other = TempDir::new().unwrap();
    let (fine, said) = ran(&["restore", file, "--verify-only", "--data", "unused"]);
    assert!(fine, "{said}");
    let (fine, said) = ran(&["restore", file, "--data", other.path().to_str().unwrap()]);
    assert!(fine, "{said}");
    let mut again = Serving::start(other.path(), &[]);
    assert_eq!(again.link, None, "the accounts are there");
    again.sign_in();
    let holes = again.json("GET", "/api/known/holes", &Value::Null);
    assert_eq!(holes["matched"], events.len());
    again.end();
}

/// GDAL's own reader of OGC API - Features sees what was told.
fn read_by_gdal(address: &str, holes: usize) {
    let service = format!("OAPIF:http://{address}/ogc");
    let Ok(output) = Command::new("ogrinfo").args(["-so", &service, "holes"]).output() else {
        assert!(std::env::var_os("CI").is_none(), "ogrinfo (Debian's gdal-bin) is not installed");
        eprintln!("skipped: ogrinfo is not installed");
        return;
    };
    let text = String::from_utf8_lossy(&output.stdout);
    assert!(text.contains(&format!("Feature Count: {holes}")), "{text}{}", String::from_utf8_lossy(&output.stderr));
    let roads = Command::new("ogrinfo").args(["-so", &service, "roads"]).output().unwrap();
    let text = String::from_utf8_lossy(&roads.stdout);
    assert!(text.contains("Geometry: Line String") && !text.contains("Feature Count: 0"), "{text}");
}

#[test]
fn what_can_t_be_is_said() {
    let folder = TempDir::new().unwrap();
    let empty = folder.path().join("nothing");
    let empty = empty.to_str().unwrap();
    let (fine, said) = ran(&["backup", "--data", empty, "--to", "x.zip"]);
    assert!(!fine && said.contains("is not there"), "{said}");
    let (fine, said) = ran(&["audit", "verify", "--data", empty]);
    assert!(!fine && said.contains("is not there"), "{said}");
    assert!(!Path::new(empty).exists(), "nothing was made");
    let file = folder.path().join("no-backup.zip");
    fs::write(&file, "no backup").unwrap();
    let (fine, said) = ran(&["restore", file.to_str().unwrap(), "--data", empty]);
    assert!(!fine && said.contains("no complete backup"), "{said}");
    let (fine, said) = ran(&["worker", "--data", empty]);
    assert!(!fine && said.contains("--store"), "{said}");
    let (fine, said) = ran(&["serve", "--data", empty, "--listen", "192.0.2.1:80"]);
    assert!(!fine && said.contains("can't listen"), "{said}");
    fs::create_dir_all(empty).unwrap();
    fs::write(Path::new(empty).join("district.toml"), "name = 3").unwrap();
    let (fine, said) = ran(&["serve", "--data", empty, "--listen", "127.0.0.1:0"]);
    assert!(!fine && said.contains("the district can't be read"), "{said}");
}
