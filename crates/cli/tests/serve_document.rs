//! The server held against its own `OpenAPI` document by a general-purpose tester (schemathesis): no answer says that the program
//! broke, and every answer has the shape that the document tells.

mod serving;

use std::fs;
use std::process::Command;

use serde_json::{Value, json};
use serving::Serving;
use tempfile::TempDir;

/// Environment variable with the tester's program; the test command sets it.
const TESTER: &str = "LENGTHSMAN_TEST_SCHEMATHESIS";

/// Requests of each operation, so that all take less than a minute.
const REQUESTS: &str = "12";

/// Which answers are held against what. Whether a request had to be refused is said by our own tests: what the document can't
/// tell (a date that is none, a number of another thing) is refused too.
const CHECKS: &str = "not_a_server_error,status_code_conformance,content_type_conformance,response_schema_conformance";

#[test]
fn every_answer_is_as_the_document_says() {
    let Some(tester) = std::env::var_os(TESTER) else {
        eprintln!("skipped: {TESTER} is not set");
        return;
    };
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("server.toml"), "[limits]\nrequests_per_second = 100000\nimport_megabytes = 1\n")
        .unwrap();
    let mut serving = Serving::start(folder.path(), &[]);
    serving.set_up();
    let me = serving.json("GET", "/api/me", &Value::Null);
    let offer = serving.json("POST", "/api/enrolments", &json!({"account": me["account"]}));
    let token = offer["link"].as_str().unwrap().rsplit_once('=').unwrap().1;
    let device = serving.json("POST", "/api/devices", &json!({"token": token, "name": "tester"}));
    let report = json!({"events": [{
        "id": "0196a3f0-0000-7000-8000-000000000001", "schema": 1, "actor": "mara", "device": "browser",
        "device_time": "2026-06-08T15:00:00Z",
        "happened": {
            "kind": "hole_reported", "hole": "0196a3f0-0000-7000-8000-000000000002", "position": {"lon": 81.5, "lat": -18.2},
        },
    }]});
    assert_eq!(serving.json("POST", "/api/events", &report)["events"][0]["outcome"], "recorded");
    let output = Command::new(tester)
        .current_dir(folder.path())
        .args(["run", "--seed", "1", "--phases", "examples,coverage,fuzzing", "--max-examples", REQUESTS])
        .args([
            "--checks",
            CHECKS,
            "--generation-database",
            "none",
            "--no-shrink",
            "--continue-on-failure",
            "--no-color",
        ])
        .args(["--suppress-health-check", "all", "--warnings", "off", "--request-timeout", "20"])
        // it would end what it signs in with
        .args([
            "--exclude-path",
            "/api/devices/this",
            "--exclude-path",
            "/api/sign-out",
            "--exclude-path",
            "/api/devices/{id}",
        ])
        .args(["--exclude-path", "/api/accounts/{account}"])
        .args(["--header", &format!("Authorization: Bearer {}", device["token"].as_str().unwrap())])
        .arg(format!("http://{}/api/openapi.json", serving.address))
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(serving.json("GET", "/api/me", &Value::Null)["name"], "mara", "it still serves");
    serving.end();
}
