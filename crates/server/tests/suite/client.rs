//! A server on a record of its own, and clients of it.

use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};

use axum::Router;
use axum::body::Body;
use axum::http::{HeaderMap, Request, StatusCode};
use exchange::rules::{RuleKind, load_rules};
use http_body_util::BodyExt as _;
use jiff::Timestamp;
use journal::Journal;
use journal::store::Location;
use model::district::{Paper, UnitSystem};
use model::month_report::ReportSheet;
use serde_json::{Value, json};
use server::reporting::Reporting;
use server::{CutAsked, CutShown, EachKnown, PlanFile, Planner, Server, Settings, Weather, router};
use sqlx::{Connection as _, Executor as _};
use tempfile::TempDir;
use tower::ServiceExt as _;
use uuid::Uuid;

/// Plans one round of the first hole, after as many steps as the seed says; fails for thirty days, breaks down for thirty-one.
pub struct Echo;

impl Planner for Echo {
    fn reporting(&self) -> Result<Reporting<'_>, String> {
        let rules =
            load_rules(RuleKind::Lasting, "common-practice", None).map_err(|problems| format!("{problems:?}"))?;
        let print = |sheet: &ReportSheet, _| Ok(format!("%PDF {}", sheet.title).into_bytes());
        let (units, paper) = (UnitSystem::Si, Paper::A4);
        Ok(Reporting { roads: None, judge: None, rules, least_air_c: None, units, paper, print })
    }

    fn plan(
        &self,
        input: &str,
        record: &mut EachKnown,
        keep: &mut dyn FnMut(Vec<PlanFile>) -> Result<(), String>,
        progress: &mut dyn FnMut(f64, &str) -> bool,
    ) -> Result<String, String> {
        let value: Value = serde_json::from_str(input).map_err(|error| error.to_string())?;
        let asked = &value["asked"];
        record(&mut |_| {})?;
        match asked["days"].as_u64() {
            Some(30) => return Err("no roads".to_owned()),
            Some(31) => panic!("asked to"),
            _ => {}
        }
        let steps = asked["seed"].as_u64().unwrap_or(1);
        for step in 0..steps {
            if !progress(step as f64 / steps as f64, "searching") {
                return Err("nobody wants it any more".to_owned());
            }
            std::thread::sleep(std::time::Duration::from_millis(20));
        }
        let file = |name: &str, media_type: &str, content: String| PlanFile {
            round: number(1),
            name: name.to_owned(),
            media_type: media_type.to_owned(),
            content: content.into_bytes(),
        };
        keep(vec![
            file("plan.json", "application/json", asked.to_string()),
            file("zone-0.svg", "image/svg+xml", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>".to_owned()),
        ])?;
        let hole = value["holes"][0]["hole"].clone();
        let round = json!({
            "kind": "round_planned", "round": number(1), "date": asked["date"], "crew": "Crew A",
            "repairs": [{
                "repair": number(1 + steps), "holes": [hole], "area_m2": 0.5, "base_loose_m3": "0.1", "water_l": "4",
                "binder_l": "1", "cover_stone_m3": "0.01", "minutes": "50",
            }],
        });
        Ok(json!({"work_plan": {}, "rounds": if hole.is_null() { json!([]) } else { json!([round]) }}).to_string())
    }

    fn weather(&self) -> Result<Weather, String> {
        Ok(Weather::default())
    }

    fn cut(&self, asked: &CutAsked) -> Result<CutShown, String> {
        Err(format!("{} points", asked.outline.len()))
    }
}

pub struct House {
    pub server: Server,
    pub journal: Journal,
    router: Router,
    clock: Arc<AtomicI64>,
    pub folder: TempDir,
}

/// An answer.
pub struct Answer {
    pub status: StatusCode,
    pub headers: HeaderMap,
    pub bytes: Vec<u8>,
}

/// What a client sends with each request.
#[derive(Clone, Default)]
pub struct Client {
    pub cookie: String,
    pub token: String,
    /// Without the header that our own pages send.
    pub foreign: bool,
}

impl House {
    pub async fn new() -> Self {
        Self::with(|_| ()).await
    }

    pub async fn with(change: impl FnOnce(&mut Settings)) -> Self {
        let folder = TempDir::new().unwrap();
        let location = Location::in_folder(folder.path());
        Self::on(&location, folder, change).await
    }

    /// On a new database of the `PostgreSQL` for tests; `None` where there is none.
    pub async fn on_server() -> Option<Self> {
        const SERVER: &str = "LENGTHSMAN_TEST_POSTGRES";
        let Ok(url) = std::env::var(SERVER) else {
            eprintln!("skipped on PostgreSQL: {SERVER} is not set");
            return None;
        };
        let name = format!("test_server_{}", std::process::id());
        let mut connection = sqlx::PgConnection::connect(&url).await.unwrap();
        connection.execute(sqlx::AssertSqlSafe(format!("DROP DATABASE IF EXISTS {name} WITH (FORCE)"))).await.unwrap();
        connection.execute(sqlx::AssertSqlSafe(format!("CREATE DATABASE {name}"))).await.unwrap();
        let (before, options) = url.split_once('?').map_or((url.as_str(), ""), |(before, options)| (before, options));
        let (server, _) = before.rsplit_once('/').unwrap();
        let location = Location::Server(format!("{server}/{name}?{options}"));
        Some(Self::on(&location, TempDir::new().unwrap(), |_| ()).await)
    }

    async fn on(location: &Location, folder: TempDir, change: impl FnOnce(&mut Settings)) -> Self {
        let journal = Journal::open(location).await.unwrap();
        let mut settings = Settings {
            photos: folder.path().join("photos"),
            secure_cookies: false,
            tries_per_minute: 1000.try_into().unwrap(),
            requests_per_second: 10_000.try_into().unwrap(),
            ..Settings::default()
        };
        change(&mut settings);
        let begin: Timestamp = "2026-05-06T12:00:00Z".parse().unwrap();
        let clock = Arc::new(AtomicI64::new(begin.as_microsecond()));
        let shown = Arc::clone(&clock);
        let now = move || Timestamp::from_microsecond(shown.load(Ordering::Relaxed)).unwrap();
        let server = Server::new(journal.clone(), settings, Arc::new(Echo), Arc::new(now));
        Self { router: router(server.clone()), server, journal, clock, folder }
    }

    /// Lets time pass.
    pub fn wait_minutes(&self, minutes: i64) {
        self.clock.fetch_add(minutes * 60_000_000, Ordering::Relaxed);
    }

    pub async fn send(&self, request: Request<Body>) -> Answer {
        let response = self.router.clone().oneshot(request).await.unwrap();
        let (parts, body) = response.into_parts();
        let bytes = body.collect().await.unwrap().to_bytes().to_vec();
        Answer { status: parts.status, headers: parts.headers, bytes }
    }

    /// A job once it is over.
    pub async fn ended(&self, client: &Client, path: &str) -> Value {
        // busy machines take their time
        for _ in 0..2_400 {
            let job = self.get(client, path).await.value();
            if !matches!(job["state"].as_str(), Some("waiting" | "working")) {
                return job;
            }
            tokio::time::sleep(std::time::Duration::from_millis(25)).await;
        }
        panic!("it does not end");
    }

    pub async fn get(&self, client: &Client, path: &str) -> Answer {
        self.send(client.request("GET", path).body(Body::empty()).unwrap()).await
    }

    pub async fn json(&self, client: &Client, method: &str, path: &str, body: &Value) -> Answer {
        let request =
            client.request(method, path).header("content-type", "application/json").body(Body::from(body.to_string()));
        self.send(request.unwrap()).await
    }

    /// The first start: an engineer named `mara` with a password.
    pub async fn set_up(&self) -> Client {
        let link = self.server.set_up_link().await.unwrap().unwrap();
        let token = link.rsplit_once('=').unwrap().1;
        let first = json!({"token": token, "name": "mara", "password": "a long password"});
        let made = self.json(&Client::default(), "POST", "/api/set-up", &first).await;
        assert_eq!(made.status, StatusCode::CREATED, "{}", made.text());
        self.sign_in("mara", "a long password").await
    }

    pub async fn sign_in(&self, name: &str, password: &str) -> Client {
        let credentials = json!({"name": name, "password": password});
        let answer = self.json(&Client::default(), "POST", "/api/sign-in", &credentials).await;
        assert_eq!(answer.status, StatusCode::OK, "{}", answer.text());
        let cookie = answer.headers["set-cookie"].to_str().unwrap().split(';').next().unwrap().to_owned();
        Client { cookie, ..Client::default() }
    }

    /// Somebody of that role, signed in.
    pub async fn person(&self, engineer: &Client, name: &str, role: &str) -> Client {
        let new = json!({"name": name, "role": role, "crew": "Crew A"});
        let made = self.json(engineer, "POST", "/api/accounts", &new).await;
        assert_eq!(made.status, StatusCode::CREATED, "{}", made.text());
        let link = made.value()["link"].as_str().unwrap().to_owned();
        let token = link.rsplit_once('=').unwrap().1;
        let set = json!({"token": token, "password": "another password"});
        let answer = self.json(&Client::default(), "POST", "/api/password", &set).await;
        assert_eq!(answer.status, StatusCode::NO_CONTENT, "{}", answer.text());
        self.sign_in(name, "another password").await
    }

    /// A phone of the client's own account.
    pub async fn phone(&self, client: &Client, name: &str) -> Client {
        let me = self.get(client, "/api/me").await.value();
        let offer = self.json(client, "POST", "/api/enrolments", &json!({"account": me["account"]})).await;
        assert_eq!(offer.status, StatusCode::CREATED, "{}", offer.text());
        let link = offer.value()["link"].as_str().unwrap().to_owned();
        let scanned = json!({"token": link.rsplit_once('=').unwrap().1, "name": name});
        let known = self.json(&Client::default(), "POST", "/api/devices", &scanned).await;
        assert_eq!(known.status, StatusCode::CREATED, "{}", known.text());
        Client { token: known.value()["token"].as_str().unwrap().to_owned(), ..Client::default() }
    }
}

impl Client {
    pub fn request(&self, method: &str, path: &str) -> axum::http::request::Builder {
        let mut request = Request::builder().method(method).uri(path);
        if !self.cookie.is_empty() {
            request = request.header("cookie", &self.cookie);
        }
        if !self.token.is_empty() {
            request = request.header("authorization", format!("Bearer {}", self.token));
        }
        if !self.foreign {
            request = request.header("x-lengthsman", "1");
        }
        request
    }
}

impl Answer {
    pub fn value(&self) -> Value {
        serde_json::from_slice(&self.bytes).unwrap_or_else(|error| panic!("{error}: {}", self.text()))
    }

    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.bytes).into_owned()
    }

    /// That it is a problem in the standard's form.
    pub fn is_problem(&self, status: u16) {
        assert_eq!(self.status.as_u16(), status, "{}", self.text());
        assert_eq!(self.headers["content-type"], "application/problem+json");
        let value = self.value();
        assert_eq!(value["status"], status);
        assert!(value["type"].as_str().unwrap().starts_with("urn:lengthsman:problem:"));
        assert!(!value["title"].as_str().unwrap().is_empty() && !value["detail"].as_str().unwrap().is_empty());
    }
}

/// A number of version 7 that the count determines.
pub fn number(count: u64) -> Uuid {
    let mut bytes = [0; 10];
    bytes[2..].copy_from_slice(&count.to_be_bytes());
    uuid::Builder::from_unix_timestamp_millis(1_778_000_000_000 + count, &bytes).into_uuid()
}

/// A report of a hole.
pub fn report(count: u64, actor: &str, device: &str) -> Value {
    json!({
        "id": number(count), "schema": 1, "actor": actor, "device": device, "device_time": "2026-05-06T11:00:00Z",
        "happened": {
            "kind": "hole_reported", "hole": number(count + 1_000_000), "position": {"lon": 7.05, "lat": 47.05},
            "size": {"length_mm": 600.0, "width_mm": 400.0, "depth_mm": 90.0}, "note": "by the <b>gate</b>'; DROP TABLE event; --",
        },
    })
}
