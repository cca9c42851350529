//! What the tests of the command share: running it, a district to write, the real data where they are.

#![allow(dead_code, reason = "each test file uses its part")]

use std::path::{Path, PathBuf};

use assert_cmd::Command;
use serde_json::Value;

/// The command.
pub fn lengthsman(arguments: &[&str]) -> std::process::Output {
    Command::cargo_bin("lengthsman")
        .expect("the command is built with its tests")
        .args(arguments)
        .output()
        .expect("it starts")
}

/// Exit code, standard output, standard error.
pub fn parts(output: &std::process::Output) -> (i32, String, String) {
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    (output.status.code().unwrap_or(-1), text(&output.stdout), text(&output.stderr))
}

/// The repository's demo folder.
pub fn demo(file: &str) -> String {
    testkit::in_repository("demo").join(file).display().to_string()
}

/// The demo's district file with some text replaced, in a folder of its own beside the demo's roads and records.
pub fn district_with(folder: &Path, changes: &[(&str, &str)]) -> String {
    let mut text = std::fs::read_to_string(demo("district.toml")).expect("the demo is there");
    text = text.replace("\"roads.geojson\"", &format!("{:?}", demo("roads.geojson")));
    text = text.replace("\"records.csv\"", &format!("{:?}", demo("records.csv")));
    for (from, to) in changes {
        assert!(text.contains(from), "the demo's district file has no `{from}`");
        text = text.replace(from, to);
    }
    let path = folder.join("district.toml");
    std::fs::write(&path, text).expect("a temporary folder can be written to");
    path.display().to_string()
}

/// Folder of the real data; `None` with a message where it is not.
pub fn real_data() -> Option<PathBuf> {
    let given = std::env::var_os("LENGTHSMAN_SHARED_DATA").map(PathBuf::from);
    let own = testkit::crate_folder();
    let beside = own.ancestors().map(|folder| folder.join("shared/data"));
    let found = given.into_iter().chain(beside).find(|folder| folder.is_dir());
    if found.is_none() {
        eprintln!("skipped: the real data are not here (set LENGTHSMAN_SHARED_DATA to their folder)");
    }
    found
}

/// `plan.json` of a folder.
pub fn plan_json(folder: &Path) -> Value {
    let text = std::fs::read_to_string(folder.join("plan.json")).expect("plan.json is written");
    serde_json::from_str(&text).expect("plan.json is JSON")
}
