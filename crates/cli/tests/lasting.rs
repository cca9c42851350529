//! What lasts, at the command.

mod common;

use std::fs;

use common::{lengthsman, parts};
use serde_json::Value;

/// At risk 20, 18, 14, 9 with failures 1, 2, 1, 3: survival by Kaplan and Meier (1958), worked by hand.
const AT_RISK_AND_FAILED: [(usize, usize); 4] = [(20, 1), (18, 2), (14, 1), (9, 3)];
const SURVIVAL: [f64; 5] = [1.0, 0.95, 0.844_444_444, 0.784_126_984, 0.522_751_323];

fn lives(group: &str) -> String {
    let mut rows = String::new();
    for (at, (risk, failed)) in AT_RISK_AND_FAILED.into_iter().enumerate() {
        let next = AT_RISK_AND_FAILED.get(at + 1).map_or(0, |(risk, _)| *risk);
        rows += &format!("{},1,{group}\n", at + 1).repeat(failed);
        rows += &format!("{},0,{group}\n", at + 1).repeat(risk - failed - next);
    }
    rows
}

#[test]
fn curves_are_as_worked_by_hand_and_alike_groups_don_t_differ() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("lives.csv");
    fs::write(&file, format!("duration,event,group\n{}{}", lives("plate"), lives("roller"))).unwrap();
    let plot = folder.path().join("curves.svg");
    let (file, plot) = (file.to_str().unwrap(), plot.to_str().unwrap());
    let (code, stdout, stderr) = parts(&lengthsman(&["lasting", "--lives", file, "--svg", plot, "--json"]));
    assert_eq!(code, 0, "{stderr}");
    let found: Value = serde_json::from_str(&stdout).unwrap();
    for (group, name) in found["groups"].as_array().unwrap().iter().zip(["plate", "roller"]) {
        assert_eq!(
            (group["name"].as_str(), group["n"].as_u64(), group["failures"].as_u64()),
            (Some(name), Some(20), Some(7))
        );
        assert_eq!(group["times"], serde_json::json!([0.0, 1.0, 2.0, 3.0, 4.0]));
        for (is, worked) in group["survival"].as_array().unwrap().iter().zip(SURVIVAL) {
            assert!((is.as_f64().unwrap() - worked).abs() < 1e-8, "{is} {worked}");
        }
        assert_eq!(group["median"], Value::Null);
    }
    assert!(found["log_rank"]["chi2"].as_f64().unwrap().abs() < 1e-12);
    assert_eq!(found["log_rank"]["df"], 1);
    let drawn = fs::read_to_string(plot).unwrap();
    assert!(drawn.starts_with("<svg") && drawn.contains("roller"));
}

#[test]
fn columns_have_names_of_their_own_and_bad_rows_are_told() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("lives.csv");
    fs::write(&file, "held,gone,crew\n12,yes,A\nminus,no,A\n30,0,B\n").unwrap();
    let file = file.to_str().unwrap();
    let named = ["lasting", "--lives", file, "--duration", "held", "--event", "gone", "--group", "crew"];
    let (code, stdout, stderr) = parts(&lengthsman(&named));
    assert_eq!(code, 3, "{stderr}");
    assert!(stdout.contains("too few to tell"), "{stdout}");
    assert!(stderr.contains("lives.csv:3:1") && stderr.contains("lives.duration.wrong"), "{stderr}");
    let (code, _, stderr) = parts(&lengthsman(&["lasting", "--lives", file]));
    assert_eq!(code, 1);
    assert!(stderr.contains("lives.column.missing"), "{stderr}");
}
