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
    let number_of_round = rounds[0].as_str().unwrap().to_owned();
    the_crew_s_day_in_files(&serving, &done, &number_of_round);
    as_asked(&serving, &done);
    what_the_web_app_asks_for(&serving);
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
    let files = again.json("GET", &format!("/api/rounds/{number_of_round}/files"), &Value::Null);
    assert!(!files.as_array().unwrap().is_empty(), "what the crew goes by is in the backup");
    again.end();
}

/// Plan, job pack, numbers and drawings of the first round, that fit each other.
fn the_crew_s_day_in_files(serving: &Serving, done: &Value, round: &str) {
    let base = format!("/api/rounds/{round}/files");
    let files = serving.json("GET", &base, &Value::Null);
    let names: Vec<&str> = files.as_array().unwrap().iter().map(|file| file["name"].as_str().unwrap()).collect();
    let plan = serving.json("GET", &format!("{base}/plan.json"), &Value::Null);
    let numbers = serving.json("GET", &format!("{base}/numbers.json"), &Value::Null);
    assert_eq!(numbers["round"], round);
    assert_eq!(done["plan"]["work_plan"]["rounds"][0]["round"], round);
    let told = &done["plan"]["rounds"][0];
    for (number, told) in numbers["repairs"].as_array().unwrap().iter().zip(told["repairs"].as_array().unwrap()) {
        assert_eq!((&number["repair"], &number["holes"]), (&told["repair"], &told["holes"]));
        let job = &plan["jobs"][number["job"].as_u64().unwrap() as usize];
        assert_eq!(job["holes"].as_array().unwrap().len(), number["holes"].as_array().unwrap().len());
    }
    for zone in numbers["zones"].as_array().unwrap() {
        for drawing in ["zone", "place"] {
            assert!(names.contains(&format!("{drawing}-{}.svg", zone["site"]).as_str()), "{names:?}");
        }
    }
    for name in names {
        let (status, head, text) = serving.send("GET", &format!("{base}/{name}"), "");
        assert_eq!(status, 200);
        if Path::new(name).extension().is_some_and(|kind| kind == "svg") {
            assert!(
                head.contains("content-type: image/svg+xml") && text.contains("viewBox=") && text.contains("<text")
            );
            let outside = ["<script", "href=", "url(", "@import", "<image", "javascript:"];
            assert!(outside.iter().all(|word| !text.contains(word)), "{name} has nothing from outside");
        }
    }
}

/// The first site goes to the next day, the second stays out, and what can't be is said.
fn as_asked(serving: &Serving, before: &Value) {
    let round = &before["plan"]["work_plan"]["rounds"][0];
    let works = round["stops"].as_array().unwrap().iter().filter(|stop| stop["kind"] == "work");
    let works: Vec<&Value> = works.map(|stop| &stop["holes"]).collect();
    let changes = json!([
        {"holes": works[0], "date": "2026-06-10"},
        {"holes": works[1], "out": true},
        {"holes": [number(7)], "crew": round["crew"]},
    ]);
    let asked = json!({"date": "2026-06-09", "days": 2, "changes": changes});
    let job = serving.json("POST", "/api/plans", &asked);
    let done = ended(serving, &format!("/api/plans/{}", job["job"].as_str().unwrap()));
    assert_eq!(done["plan"]["changes"], changes, "{}", done["words"]);
    let plan = &done["plan"]["work_plan"];
    let mended_on = |holes: &Value| {
        let visits = |round: &&Value| round["stops"].as_array().unwrap().iter().any(|stop| &stop["holes"] == holes);
        plan["rounds"].as_array().unwrap().iter().find(visits).map(|round| round["date"].clone())
    };
    assert_eq!(
        (mended_on(works[0]), mended_on(works[1])),
        (Some(json!("2026-06-10")), None),
        "{}",
        done["plan"]["refused"]
    );
    let left = plan["left_out"].as_array().unwrap().iter().find(|left| &left["holes"] == works[1]).expect("told");
    assert_eq!((&left["reason"], &left["why"]), (&json!("as_asked"), &json!("left out as asked")));
    let refused = done["plan"]["refused"].to_string();
    assert!(refused.contains(&number(7)) && refused.contains("no such hole waits"), "{refused}");
}

/// District, weather, a tile and a cut of the invented district.
fn what_the_web_app_asks_for(serving: &Serving) {
    let district = serving.json("GET", "/api/district", &Value::Null);
    assert_eq!(district["has_district_file"], true);
    assert!(!district["crews"].as_array().unwrap().is_empty() && !district["binders"].as_array().unwrap().is_empty());
    let [west, south, ..] = [0, 1].map(|index| district["bounds"][index].as_f64().unwrap());
    assert!(west < south && district["depots"][0]["kind"] == "depot", "{district}");

    let weather = serving.json("GET", "/api/weather", &Value::Null);
    let hours = weather["days"].as_array().unwrap().iter().flat_map(|day| day["hours"].as_array().unwrap());
    let (fine, bad): (Vec<&Value>, Vec<&Value>) = hours.partition(|hour| hour["workable"] == true);
    assert!(!fine.is_empty() && !bad.is_empty(), "{weather}");
    assert!(fine.iter().all(|hour| hour["why"] == "") && bad.iter().all(|hour| hour["why"] != ""), "{weather}");

    let (status, head, _) = serving.send("GET", "/api/tiles/roads/0/0/0", "");
    assert!(status == 200 && head.contains("application/vnd.mapbox-vector-tile") && head.contains("etag"), "{head}");

    // a metre by half a metre, straight along the road: nothing but the margin is cut out with it
    let asked = json!({"outline": [[0, 0], [1, 0], [1, 0.5], [0, 0.5]], "depth_mm": 100, "wetness": "dry"});
    let cut = serving.json("POST", "/api/cut", &asked);
    let value = |key: &str| cut[key]["value"].as_f64().unwrap();
    assert!((value("hole_area_m2") - 0.5).abs() < 1e-3, "{cut}");
    assert!((value("cut_area_m2") - value("wasted_m2") - 0.5).abs() < 1e-3, "{cut}");
    let layers = cut["layers"].as_array().unwrap();
    let thickness: f64 = layers.iter().map(|layer| layer["thickness_mm"].as_f64().unwrap()).sum();
    assert!((thickness - 100.0).abs() < 0.1, "the layers fill the hole: {cut}");
    let loose: f64 = layers.iter().map(|layer| layer["loose_volume_m3"].as_f64().unwrap()).sum();
    assert!((loose - value("base_loose_m3")).abs() < 1e-3, "{cut}");
    assert!(cut["svg"].as_str().unwrap().starts_with("<svg") && cut["is_patch"] == true, "{cut}");
    let wet = json!({"outline": [[0, 0], [1, 0], [1, 0.5], [0, 0.5]], "depth_mm": 100, "wetness": "pumping"});
    let wet = serving.json("POST", "/api/cut", &wet);
    assert!(wet["is_patch"] == false && !wet["remarks"].as_array().unwrap().is_empty(), "{wet}");
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
