//! Workers in processes of their own beside one `PostgreSQL`: one that is killed costs time and nothing else.

mod serving;

use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::{Value, json};
use serving::{PROGRAM, Serving, data, ended, reports_of_demo};
use sqlx::{AssertSqlSafe, Connection as _, Executor as _};

/// Environment variable with the URL of a `PostgreSQL` in which tests may make databases; the test command sets it.
const SERVER: &str = "LENGTHSMAN_TEST_POSTGRES";

/// A new database's URL; `None` where no server is given.
fn database() -> Option<String> {
    let Ok(url) = std::env::var(SERVER) else {
        eprintln!("skipped: {SERVER} is not set");
        return None;
    };
    let name = format!("test_workers_{}", std::process::id());
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    runtime.block_on(async {
        let mut connection = sqlx::PgConnection::connect(&url).await.unwrap();
        connection.execute(AssertSqlSafe(format!("DROP DATABASE IF EXISTS {name} WITH (FORCE)"))).await.unwrap();
        connection.execute(AssertSqlSafe(format!("CREATE DATABASE {name}"))).await.unwrap();
    });
    let (before, options) = url.split_once('?').map_or((url.as_str(), ""), |(before, options)| (before, options));
    let (server, _) = before.rsplit_once('/').unwrap();
    Some(format!("{server}/{name}?{options}"))
}

/// A worker; ended with the test.
struct Worker(Child);

impl Worker {
    fn start(data: &std::path::Path, store: &str) -> Self {
        let mut command = Command::new(PROGRAM);
        command.arg("worker").arg("--data").arg(data).args(["--store", store]);
        Self(command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap())
    }

    /// As a machine that loses its power: the system's signal that nothing can answer to.
    fn kill(mut self) {
        self.0.kill().unwrap();
        assert!(!self.0.wait().unwrap().success());
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

#[test]
fn a_worker_killed_in_the_middle_of_a_plan_costs_only_time() {
    let Some(store) = database() else { return };
    let folder = data();
    let mut serving = Serving::start(folder.path(), &["--store", &store, "--workers", "0"]);
    serving.set_up();
    let events = reports_of_demo(40);
    let taken = serving.json("POST", "/api/events", &json!({"events": events}));
    assert!(taken["events"].as_array().unwrap().iter().all(|event| event["outcome"] == "recorded"), "{taken}");
    let ask = || {
        let job = serving.json("POST", "/api/plans", &json!({"date": "2026-06-09", "days": 3, "seed": 7}));
        format!("/api/plans/{}", job["job"].as_str().unwrap())
    };
    let path = ask();
    let first = Worker::start(folder.path(), &store);
    loop {
        let job = serving.json("GET", &path, &Value::Null);
        assert!(
            job["state"] == "waiting" || job["state"] == "working",
            "it was not done before the worker was killed: {job}"
        );
        if job["state"] == "working" {
            break;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    first.kill();
    let second = Worker::start(folder.path(), &store);
    std::thread::sleep(Duration::from_secs(2));
    assert_eq!(serving.json("GET", &path, &Value::Null)["state"], "working", "nobody else takes it while it is held");
    let done = ended(&serving, &path);
    assert_eq!(done["state"], "done", "{}", done["words"]);
    assert!(!done["plan"]["rounds"].as_array().unwrap().is_empty());
    // with nothing in its way it comes to the same
    let again = ended(&serving, &ask());
    assert_eq!(again["plan"], done["plan"]);
    // a worker that is asked to end does so of itself
    let asked = Command::new("kill").arg(second.0.id().to_string()).status().unwrap();
    assert!(asked.success());
    let mut second = second;
    assert!(second.0.wait().unwrap().success());
    serving.end();
}
