//! A server as a person starts it, for tests.

#![allow(dead_code, reason = "each test file uses its part")]

use std::fs;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::{Value, json};
use tempfile::TempDir;

/// The program that these tests run.
pub const PROGRAM: &str = env!("CARGO_BIN_EXE_lengthsman");

/// A running server; ended with the test.
pub struct Serving {
    process: Child,
    pub address: String,
    /// What is behind the `=` of the first start's link.
    pub link: Option<String>,
    cookie: String,
}

impl Serving {
    pub fn start(data: &Path, flags: &[&str]) -> Self {
        let mut process = Command::new(PROGRAM)
            .args(["serve", "--listen", "127.0.0.1:0", "--data"])
            .arg(data)
            .args(flags)
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
    pub fn send(&self, method: &str, path: &str, body: &str) -> (u16, String, String) {
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

    pub fn json(&self, method: &str, path: &str, body: &Value) -> Value {
        let (status, _, text) = self.send(method, path, &body.to_string());
        assert!(status < 300, "{method} {path}: {status} {text}");
        serde_json::from_str(&text).unwrap_or(Value::Null)
    }

    /// The first account, an engineer's, signed in.
    pub fn set_up(&mut self) {
        let token = self.link.clone().expect("the first start prints a link");
        self.json("POST", "/api/set-up", &json!({"token": token, "name": "mara", "password": "a long password"}));
        self.sign_in();
    }

    pub fn sign_in(&mut self) {
        let credentials = json!({"name": "mara", "password": "a long password"});
        let (status, head, text) = self.send("POST", "/api/sign-in", &credentials.to_string());
        assert_eq!(status, 200, "{text}");
        let cookie = head.lines().find_map(|line| line.strip_prefix("set-cookie: ")).unwrap();
        cookie.split(';').next().unwrap().clone_into(&mut self.cookie);
    }

    /// Asks it to end, as a system does.
    pub fn end(mut self) {
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

/// The invented district's files in a new folder.
pub fn data() -> TempDir {
    let folder = TempDir::new().unwrap();
    for entry in fs::read_dir(testkit::in_repository("demo")).unwrap() {
        let path = entry.unwrap().path();
        if path.is_file() {
            fs::copy(&path, folder.path().join(path.file_name().unwrap())).unwrap();
        }
    }
    folder
}

/// Waits until a job is over, and gives it.
pub fn ended(serving: &Serving, path: &str) -> Value {
    loop {
        let job = serving.json("GET", path, &Value::Null);
        if job["state"] != "waiting" && job["state"] != "working" {
            return job;
        }
        std::thread::sleep(Duration::from_millis(200));
    }
}

/// A number of version 7.
pub fn number(count: u64) -> String {
    format!("0196a3f0-0000-7000-8000-{count:012x}")
}

/// Some of the invented district's holes, as the first account reports them.
pub fn reports_of_demo(most: usize) -> Vec<Value> {
    let list = fs::read_to_string(testkit::in_repository("demo/holes.csv")).unwrap();
    let mut reader = csv::Reader::from_reader(list.as_bytes());
    let header = reader.headers().unwrap().clone();
    let column = |name: &str| header.iter().position(|own| own == name).unwrap_or_else(|| panic!("{name}: {header:?}"));
    let (lon, lat) = (column("lon"), column("lat"));
    let (length, width, depth) = (column("length"), column("width"), column("depth"));
    reader
        .records()
        .filter_map(Result::ok)
        .filter_map(|row| {
            let value = |index: usize| row.get(index)?.trim().parse::<f64>().ok();
            let size = |index: usize| in_millimetres(row.get(index)?);
            Some((value(lon)?, value(lat)?, size(length)?, size(width)?, size(depth)?))
        })
        .take(most)
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
        .collect()
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
