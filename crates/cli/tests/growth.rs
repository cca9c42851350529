//! What records teach, at the command.

mod common;

use std::path::Path;

use common::{demo, district_with, lengthsman, parts};
use serde_json::Value;

fn json(arguments: &[&str]) -> Value {
    let (code, stdout, stderr) = parts(&lengthsman(arguments));
    assert_eq!(code, 0, "{stderr}");
    serde_json::from_str(&stdout).expect("JSON")
}

/// One repair in a district: what is to be loaded in the worst of ten cases.
fn loose_p90(district: &str) -> f64 {
    let sizes = ["repair", "--length", "1.2m", "--width", "0.8m", "--depth", "220mm", "--json", "--district"];
    json(&[&sizes[..], &[district]].concat())["loose_volume_m3"]["p90"].as_f64().expect("a number")
}

#[test]
fn the_demos_records_are_all_used_and_move_the_prior() {
    let found = json(&["growth", &demo("records.csv"), "--district", &demo("district.toml"), "--json"]);
    assert_eq!((found["rows"].as_u64(), found["refused_rows"].as_u64()), (Some(40), Some(0)));
    let class = &found["classes"][0];
    assert_eq!((class["class"].as_str(), class["records"].as_u64()), (Some("default"), Some(40)));
    // 5 records' worth of prior among 45.
    assert!((class["prior_share"].as_f64().unwrap() - 5.0 / 45.0).abs() < 1e-12);
    assert!(class["growth"]["why"].as_str().unwrap().contains("40 records of records.csv, added to"));
    // The records were invented around 1.25 and a share of two thirds.
    let median = class["growth"]["value"].as_f64().unwrap();
    assert!((1.15..1.35).contains(&median), "{median}");
    assert_eq!(class["posterior"]["mean_weight"].as_f64(), Some(45.0));
    let share = found["depth_share"]["value"].as_f64().unwrap();
    assert!((0.6..0.72).contains(&share), "{share}");
    let (code, stdout, _) = parts(&lengthsman(&["growth", &demo("records.csv"), "--why"]));
    assert_eq!(code, 0);
    for said in ["40 records, 0 rows refused", "prior's part", "11 %", "share of growth in depth", "k = k0 + n"] {
        assert!(stdout.contains(said), "{said}: {stdout}");
    }
}

#[test]
fn a_district_with_records_takes_less_or_more_and_the_rule_file_written_gives_the_same() {
    let folder = tempfile::tempdir().unwrap();
    let with_records = district_with(folder.path(), &[]);
    let learnt = loose_p90(&with_records);
    let rule_file = folder.path().join("learnt.toml");
    let write =
        ["growth", &demo("records.csv"), "--district", &with_records, "--write", &rule_file.display().to_string()]
            .map(str::to_owned);
    let write: Vec<&str> = write.iter().map(String::as_str).collect();
    assert_eq!(parts(&lengthsman(&write)).0, 0);
    // Never over a file that is there.
    let (code, _, stderr) = parts(&lengthsman(&write));
    assert_eq!(code, 1);
    assert!(stderr.contains("out.write"), "{stderr}");
    let in_place = [("growth_records = ", "# "), ("repair = \"common-practice\"", "repair = \"learnt\"")];
    let from_rules = loose_p90(&district_with(folder.path(), &in_place));
    assert!((from_rules - learnt).abs() < 1e-9, "{from_rules} {learnt}");
    let prior = loose_p90(&district_with(folder.path(), &[("growth_records = ", "# ")]));
    assert!((prior - learnt).abs() > 1e-3, "{prior} {learnt}");
}

#[test]
fn bad_rows_are_refused_and_the_rest_is_used() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("r.csv");
    let run = |text: &str, path: &Path| {
        std::fs::write(path, text).unwrap();
        parts(&lengthsman(&["growth", &path.display().to_string()]))
    };
    let (code, stdout, stderr) = run("hole,surveyed_volume,dug_volume\nA,0.2 m3,0.3 m3\nB,0.2 m3,0.3\n", &path);
    assert_eq!(code, 3, "{stderr}");
    assert!(
        stdout.contains("1 records, 1 rows refused") && stderr.contains("record.unit.missing"),
        "{stdout} {stderr}"
    );
    let (code, stdout, stderr) = run("hole,surveyed_volume,dug_volume\nB,0.2 m3,0.3\n", &path);
    assert_eq!((code, stdout.as_str()), (1, ""));
    assert!(stderr.contains("record.unit.missing"), "{stderr}");
    // A district whose records can't be used can't be planned for.
    let district = district_with(folder.path(), &[(&format!("{:?}", demo("records.csv")), "\"none.csv\"")]);
    let (code, _, stderr) = parts(&lengthsman(&["check", &district]));
    assert_eq!(code, 1);
    assert!(stderr.contains("file.unreadable") && stderr.contains("none.csv"), "{stderr}");
}

/// Trips and roads are the day's parts; a sum is less spread than its parts added quantile by quantile; what is loaded
/// suffices as often as asked.
#[test]
fn the_days_totals_agree_with_its_jobs() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out").display().to_string();
    let arguments =
        ["plan", &demo("district.toml"), "--holes", &demo("holes.csv"), "--date", "2026-06-09", "--out", &out];
    let (code, _, stderr) = parts(&lengthsman(&arguments));
    assert_eq!(code, 3, "{stderr}");
    let plan = common::plan_json(Path::new(&out));
    let number = |value: &Value| value.as_f64().expect("a number");
    let base = |totals: &Value, key: &str| number(&totals["base_volume_m3"][key]);
    let (day, totals) = (&plan["totals"]["day"], &plan["totals"]);
    let trips: f64 = totals["trips"].as_array().unwrap().iter().map(|trip| base(trip, "value")).sum();
    let roads: f64 = totals["roads"].as_array().unwrap().iter().map(|road| base(&road["totals"], "value")).sum();
    let sites = plan["round"]["trips"].as_array().unwrap().iter().flat_map(|trip| trip.as_array().unwrap());
    let jobs: Vec<&Value> = sites
        .flat_map(|site| plan["sites"][site.as_u64().unwrap() as usize]["jobs"].as_array().unwrap())
        .map(|job| &plan["jobs"][job.as_u64().unwrap() as usize]["repair"]["loose_volume_m3"])
        .collect();
    let of_jobs = |key: &str| jobs.iter().map(|figure| number(&figure[key])).sum::<f64>();
    assert_eq!(day["cuts"].as_u64(), Some(jobs.len() as u64));
    for sum in [trips, roads, of_jobs("value")] {
        assert!((sum - base(day, "value")).abs() < 1e-6, "{sum}");
    }
    assert!(base(day, "p90") < of_jobs("p90") && base(day, "p10") > of_jobs("p10"));
    for (load, trip) in plan["loads"].as_array().unwrap().iter().zip(totals["trips"].as_array().unwrap()) {
        let loaded = number(&load["total"]["base_volume_m3"]);
        assert!(loaded >= base(trip, "p90") && loaded <= of_jobs("p90"), "{loaded}");
        assert!((0.9..0.905).contains(&number(&load["suffices"])), "{}", load["suffices"]);
    }
}
