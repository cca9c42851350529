//! The server as a person starts it: the first link, reports, a plan of the invented district, feeds that GDAL reads, backups, the
//! end.

use std::fs;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::{Value, json};
use tempfile::TempDir;

const PROGRAM: &str = env!("CARGO_BIN_EXE_lengthsman");

/// A running server; ended with the test.
struct Serving {
    process: Child,
    address: String,
    link: Option<String>,
    cookie: String,
}

impl Serving {
    fn start(data: &Path) -> Self {
        let mut process = Command::new(PROGRAM)
            .args(["serve", "--listen", "127.0.0.1:0", "--data"])
            .arg(data)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut link = None;
        let mut lines = BufReader::new(process.stdout.take().unwrap()).lines();
        let address = loop {
            let line = lines.next().expect("it says where it listens").unwrap();
            if let Some((_, token)) = line.split_once("#set-up=") {
                link = Some(token.to_owned());
            }
            if let Some(address) = line.strip_prefix("listening at ") {
                break address.to_owned();
            }
        };
        Self { process, address, link, cookie: String::new() }
    }

    /// Sends a request; gives status, head and body.
    fn send(&self, method: &str, path: &str, body: &str) -> (u16, String, String) {
        let mut stream = TcpStream::connect(&self.address).unwrap();
        stream.set_read_timeout(Some(Duration::from_mins(1))).unwrap();
        let request = format!(
            "{method} {path} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\nX-Lengthsman: 1\r\nCookie: {}\r\n\
             Content-Type: application/json\r\nContent-Length: {}\r\n\r\n{body}",
            self.address,
            self.cookie,
            body.len()
        );
        stream.write_all(request.as_bytes()).unwrap();
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).unwrap();
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let (head, body) = text.split_once("\r\n\r\n").unwrap();
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        (status, head.to_owned(), whole(head, body))
    }

    fn json(&self, method: &str, path: &str, body: &Value) -> Value {
        let (status, _, text) = self.send(method, path, &body.to_string());
        assert!(status < 300, "{method} {path}: {status} {text}");
        serde_json::from_str(&text).unwrap_or(Value::Null)
    }

    fn sign_in(&mut self) {
        let credentials = json!({"name": "mara", "password": "a long password"});
        let (status, head, text) = self.send("POST", "/api/sign-in", &credentials.to_string());
        assert_eq!(status, 200, "{text}");
        let cookie = head.lines().find_map(|line| line.strip_prefix("set-cookie: ")).unwrap();
        cookie.split(';').next().unwrap().clone_into(&mut self.cookie);
    }

    /// Asks it to end, as a system does.
    fn end(mut self) {
        let asked = Command::new("kill").arg(self.process.id().to_string()).status().unwrap();
        assert!(asked.success());
        assert!(self.process.wait().unwrap().success(), "it ends of itself");
    }
}

impl Drop for Serving {
    fn drop(&mut self) {
        let _ = self.process.kill();
    }
}

/// A body that may have come in chunks.
fn whole(head: &str, body: &str) -> String {
    if !head.to_lowercase().contains("transfer-encoding: chunked") {
        return body.to_owned();
    }
    let (mut rest, mut text) = (body, String::new());
    while let Some((length, after)) = rest.split_once("\r\n") {
        let length = usize::from_str_radix(length, 16).unwrap();
        if length == 0 {
            break;
        }
        text.push_str(&after[..length]);
        rest = &after[length + 2..];
    }
    text
}

fn number(count: u64) -> String {
    format!("0196a3f0-0000-7000-8000-{count:012x}")
}

fn ran(arguments: &[&str]) -> (bool, String) {
    let output = Command::new(PROGRAM).args(arguments).output().unwrap();
    (
        output.status.success(),
        format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr)),
    )
}

/// The invented district's files in a new folder.
fn data() -> TempDir {
    let folder = TempDir::new().unwrap();
    for entry in fs::read_dir(testkit::in_repository("demo")).unwrap() {
        let path = entry.unwrap().path();
        if path.is_file() {
            fs::copy(&path, folder.path().join(path.file_name().unwrap())).unwrap();
        }
    }
    folder
}

#[test]
fn from_the_first_link_to_a_plan_the_feeds_and_a_backup() {
    let folder = data();
    let mut serving = Serving::start(folder.path());
    let token = serving.link.clone().expect("the first start prints a link");
    serving.json("POST", "/api/set-up", &json!({"token": token, "name": "mara", "password": "a long password"}));
    serving.sign_in();

    // some of the invented district's holes
    let list = fs::read_to_string(testkit::in_repository("demo/holes.csv")).unwrap();
    let mut reader = csv::Reader::from_reader(list.as_bytes());
    let header = reader.headers().unwrap().clone();
    let column = |name: &str| header.iter().position(|own| own == name).unwrap_or_else(|| panic!("{name}: {header:?}"));
    let (lon, lat) = (column("lon"), column("lat"));
    let (length, width, depth) = (column("length"), column("width"), column("depth"));
    let events: Vec<Value> = reader
        .records()
        .filter_map(Result::ok)
        .filter_map(|row| {
            let value = |index: usize| row.get(index)?.trim().parse::<f64>().ok();
            let size = |index: usize| in_millimetres(row.get(index)?);
            Some((value(lon)?, value(lat)?, size(length)?, size(width)?, size(depth)?))
        })
        .take(12)
        .zip(1..)
        .map(|((lon, lat, length, width, depth), count)| {
            json!({
                "id": number(count), "schema": 1, "actor": "mara", "device": "browser", "device_time": "2026-06-08T15:00:00Z",
                "happened": {
                    "kind": "hole_reported", "hole": number(1000 + count), "position": {"lon": lon, "lat": lat},
                    "size": {"length_mm": length, "width_mm": width, "depth_mm": depth}, "source": "patrol",
                },
            })
        })
        .collect();
    assert!(events.len() >= 8, "{}", events.len());
    let taken = serving.json("POST", "/api/events", &json!({"events": events}));
    assert!(taken["events"].as_array().unwrap().iter().all(|event| event["outcome"] == "recorded"), "{taken}");

    let job = serving.json("POST", "/api/plans", &json!({"date": "2026-06-09"}));
    let path = format!("/api/plans/{}", job["job"].as_str().unwrap());
    let done = loop {
        let job = serving.json("GET", &path, &Value::Null);
        if job["state"] != "waiting" && job["state"] != "working" {
            break job;
        }
        std::thread::sleep(Duration::from_millis(200));
    };
    assert_eq!(done["state"], "done", "{}", done["words"]);
    assert!(!done["plan"]["rounds"].as_array().unwrap().is_empty());
    let rounds = serving.json("POST", &format!("{path}/rounds"), &Value::Null);
    assert!(!rounds.as_array().unwrap().is_empty());
    let round = serving.json("GET", "/api/known/rounds?state=2026-06-09", &Value::Null);
    let repairs = round["known"][0]["known"]["repairs"]["value"].as_array().unwrap();
    assert!(!repairs.is_empty(), "{round}");
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
    let mut again = Serving::start(other.path());
    assert_eq!(again.link, None, "the accounts are there");
    again.sign_in();
    let holes = again.json("GET", "/api/known/holes", &Value::Null);
    assert_eq!(holes["matched"], events.len());
    again.end();
}

/// Of `1.25 m` and `130 mm`; `None`: written in another way.
fn in_millimetres(text: &str) -> Option<f64> {
    let (number, unit) = text.trim().split_once(' ')?;
    let factor = match unit {
        "m" => 1000.0,
        "mm" => 1.0,
        _ => return None,
    };
    Some(number.parse::<f64>().ok()? * factor)
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
