//! What was planned on the server and then measured is in the next plan, and out of it again when that is asked for.

mod serving;

use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};
use serving::{PROGRAM, Serving, data, ended, number, reports_of_demo};

/// The agency lets its crews stop on narrow shoulders: those of the invented district are.
const OWN_RULES: &str = "name = \"common-practice\"\nabout = \"Our shoulders.\"\nextends = \"common-practice\"\n\n\
                         [look_stop]\nshoulder_least_m = { value = 0.5, source = \"invented agency\" }\n";

fn planned(folder: &Path, out: &str, more: &[&str]) -> (String, Value) {
    let out = folder.join(out);
    let output = Command::new(PROGRAM)
        .arg("plan")
        .arg(folder.join("district.toml"))
        .arg("--holes")
        .arg(folder.join("holes.csv"))
        .args(["--date", "2026-07-15", "--out"])
        .arg(&out)
        .args(more)
        .output()
        .unwrap();
    let said = format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert!(matches!(output.status.code(), Some(0 | 3)), "{said}");
    assert!(!said.contains("breaks a rule"), "{said}");
    (said, serde_json::from_slice(&fs::read(out.join("plan.json")).unwrap()).unwrap())
}

/// A repair as planned, made with half as much base again, and half the time.
fn made(repair: &Value, crew: &Value, next: &mut u64) -> Vec<Value> {
    let of = |key: &str| repair[key].as_str().unwrap().parse::<f64>().unwrap();
    let basis = &repair["basis"];
    let (growth, power) = (basis["growth"].as_f64().unwrap(), basis["minutes_power"].as_f64().unwrap());
    let depth = basis["depth_mm"].as_f64().unwrap() * growth;
    let text = |number: f64| format!("{number:.4}");
    let id = &repair["repair"];
    [
        json!({"kind": "hole_cut", "repair": id, "holes": repair["holes"], "area_m2": repair["area_m2"], "depths_mm": [depth]}),
        json!({"kind": "layer_placed", "repair": id, "layer": 1, "base_loose_m3": text(of("base_loose_m3") * growth * 1.5)}),
        json!({"kind": "sealed", "repair": id, "binder_l": repair["binder_l"], "cover_stone_m3": repair["cover_stone_m3"]}),
        json!({"kind": "opened_to_traffic", "repair": id}),
        json!({"kind": "time_booked", "on": {"repair": id}, "crew": crew, "labour_min": "100",
            "plant_min": text(of("minutes") * growth.powf(power) / 2.0)}),
    ]
    .into_iter()
    .map(|happened| {
        *next += 1;
        json!({"id": number(*next), "schema": 1, "actor": "mara", "device": "browser", "device_time": "2026-06-08T16:00:00Z",
            "happened": happened})
    })
    .collect()
}

#[test]
fn measured_repairs_teach_the_next_plan_and_are_looked_at_again() {
    let folder = data();
    fs::create_dir_all(folder.path().join("lasting")).unwrap();
    fs::write(folder.path().join("lasting/common-practice.toml"), OWN_RULES).unwrap();
    let mut serving = Serving::start(folder.path(), &[]);
    serving.set_up();
    serving.json("POST", "/api/events", &json!({"events": reports_of_demo(12)}));
    let plan = |serving: &Serving, asked: Value| {
        let job = serving.json("POST", "/api/plans", &asked);
        let path = format!("/api/plans/{}", job["job"].as_str().unwrap());
        let done = ended(serving, &path);
        assert_eq!(done["state"], "done", "{}", done["words"]);
        (path, done)
    };
    let (path, first) = plan(&serving, json!({"date": "2026-06-09"}));
    assert_eq!(first["plan"]["work_plan"]["learnt"], json!([]), "nothing was measured yet");
    serving.json("POST", &format!("{path}/rounds"), &Value::Null);
    let known = serving.json("GET", "/api/known/rounds?state=2026-06-09", &Value::Null);
    let mut next = 5000;
    let mut repairs = 0;
    let mut events = Vec::new();
    for round in known["known"].as_array().unwrap() {
        for repair in round["known"]["repairs"]["value"].as_array().unwrap() {
            events.extend(made(repair, &round["known"]["crew"]["value"], &mut next));
            repairs += 1;
        }
    }
    assert!(repairs >= 3, "{repairs}");
    let taken = serving.json("POST", "/api/events", &json!({"events": events}));
    assert!(taken["events"].as_array().unwrap().iter().all(|event| event["outcome"] == "recorded"), "{taken}");

    // on the command line, beside the server
    let record = folder.path().to_str().unwrap();
    let (said, taught) = planned(folder.path(), "taught", &["--record", record]);
    assert!(said.contains("from the record      the plan now loads"), "{said}");
    assert!(said.contains("looks on the way     "), "{said}");
    let factor = |what: &str, of: &str| {
        let all = taught["learnt"].as_array().unwrap();
        all.iter().find(|factor| factor["what"] == what && factor["of"] == of).cloned().unwrap_or(Value::Null)
    };
    let base = factor("base", "road");
    assert!(base["factor"].as_f64().unwrap() > 1.1 && base["records"].as_u64().unwrap() > 0, "{base}");
    assert!(base["words"].as_str().unwrap().contains("times what was planned"), "{base}");
    let kind = factor("base", "kind");
    assert!(
        kind["records"].as_u64() >= base["records"].as_u64() && kind["words"].as_str().unwrap().contains(" roads"),
        "{kind}"
    );
    assert!(base["kind"].as_str().is_some_and(|word| word.contains("_shoulder")), "{base}");
    assert!(factor("time", "crew")["factor"].as_f64().unwrap() < 0.95, "{}", taught["learnt"]);
    assert!((factor("growth", "district")["factor"].as_f64().unwrap() - 1.0).abs() < 0.01, "{}", taught["learnt"]);
    let stops = taught["round"]["timetable"].as_array().unwrap();
    let looks = stops.iter().filter(|stop| stop["kind"] == "look").count();
    assert!(looks > 0 && looks == taught["looks"].as_array().unwrap().len(), "{}", taught["looks_left"]);

    let english = taught["learnt"].as_array().unwrap().iter().filter(|factor| factor["told"] == true);
    let english: Vec<&str> = english.map(|factor| factor["words"].as_str().unwrap()).collect();
    assert!(
        !english.is_empty() && english.iter().all(|words| said.contains(words)),
        "the catalogue says the same: {said}"
    );
    let (french, in_french) = planned(folder.path(), "french", &["--record", record, "--language", "fr"]);
    assert!(french.contains("le plan charge désormais") && !french.contains("the plan now"), "{french}");
    assert_eq!(in_french["learnt"], taught["learnt"]);

    // off again: the plan of before, to the letter
    let (_, without) = planned(folder.path(), "without", &[]);
    let off = ["--record", record, "--without-learnt", "--without-looks"];
    assert_eq!(planned(folder.path(), "off", &off).1, without);
    let (_, some) =
        planned(folder.path(), "some", &["--record", record, "--without-learnt=base,time", "--without-looks"]);
    let kinds: Vec<&Value> = some["learnt"].as_array().unwrap().iter().map(|factor| &factor["what"]).collect();
    assert!(!kinds.is_empty() && !kinds.iter().any(|what| **what == "base" || **what == "time"), "{kinds:?}");

    // the district took the lesson over: what was planned before teaches nothing of the base any more
    let district = folder.path().join("district.toml");
    let text = fs::read_to_string(&district).unwrap();
    let changed = text.replacen("loose_density_kg_per_m3 = 1600", "loose_density_kg_per_m3 = 1500", 1);
    assert_ne!(changed, text);
    fs::write(&district, changed).unwrap();
    let (said, anew) = planned(folder.path(), "anew", &["--record", record]);
    assert!(said.contains("learnt.planned_otherwise") && said.contains("for base"), "{said}");
    let kinds: Vec<&Value> = anew["learnt"].as_array().unwrap().iter().map(|factor| &factor["what"]).collect();
    assert!(kinds.iter().any(|what| **what == "growth") && !kinds.iter().any(|what| **what == "base"), "{kinds:?}");
    fs::write(&district, text).unwrap();

    let output = Command::new(PROGRAM)
        .args(["plan", "district.toml", "--holes", "holes.csv", "--date", "2026-07-15", "--out", "nothing"])
        .args(["--record", "no-such-folder"])
        .current_dir(folder.path())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.code() == Some(1) && said.contains("record.read"), "{said}");

    // on the server
    serving.json("POST", "/api/events", &json!({"events": again()}));
    let (_, second) = plan(&serving, json!({"date": "2026-07-15"}));
    let work_plan = &second["plan"]["work_plan"];
    assert!(!work_plan["learnt"].as_array().unwrap().is_empty(), "{work_plan}");
    let (_, off) = plan(&serving, json!({"date": "2026-07-15", "without_learnt": ["all"], "without_looks": true}));
    assert_eq!(off["plan"]["work_plan"]["learnt"], json!([]));
    let (status, _, text) =
        serving.send("POST", "/api/plans", &json!({"date": "2026-07-15", "without_learnt": ["luck"]}).to_string());
    assert!(status == 422 && text.contains("cover_stone"), "{status} {text}");
}

/// New holes where the first were.
fn again() -> Vec<Value> {
    let mut events = reports_of_demo(12);
    for (count, event) in (9000..).zip(&mut events) {
        event["id"] = json!(number(count));
        event["happened"]["hole"] = json!(number(count + 500));
    }
    events
}
