//! Reports of the public by Open311 `GeoReport` v2. What is read and written is `intake`'s; here is where it comes from and where
//! it goes.
//!
//! Everybody may ask and report, so much from each address. Errors are in the standard's form, those of the server itself
//! too ([`in_its_form`]).

use std::collections::{HashMap, HashSet};

use axum::body::{Bytes, to_bytes};
use axum::extract::{FromRequest as _, RawQuery, Request, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use intake::open311::answers::{RequestStatus, ServiceRequest};
use intake::open311::form::read_form;
use intake::open311::query::{Asked, REQUESTS_MAX, number, read_query};
use intake::open311::refusal::{Fault, Refusal};
use intake::open311::report::{NewNumbers, SOURCE, Taken, created, of_token, taken};
use intake::open311::status::request_of;
use intake::open311::wire::{Answer, Format, write};
use intake::sighting::{Match, Sighting, box_around, match_report};
use jiff::{SignedDuration, Timestamp};
use journal::chain::sha256;
use journal::contacts::Contact;
use journal::{Appended, JournalError, Query};
use model::record::event::{Event, SCHEMA_VERSION};
use model::record::happened::{Happened, Subject};
use model::record::known::{HoleState, Known, KnownHole};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use uuid::Uuid;

use crate::access::address;
use crate::answer;
use crate::body::InPath;
use crate::problem::Problem;
use crate::secrets::number_of;
use crate::state::Server;

/// What all paths of the standard begin with.
const BELOW: &str = "/open311/v2/";

/// Who tells what the public told, and on what device.
const ACTOR: &str = "public";
const DEVICE: &str = "open311";

/// Known holes around a new report that it is held against.
const AROUND_MAX: u32 = 1_000;

/// Pages of the record looked through for one answer. A list that is asked for by state may end before its time is over then.
const PAGES_MAX: usize = 20;

/// The number of a hole and the time of its first report are of one clock mostly; they may be this far apart.
const CLOCKS: SignedDuration = SignedDuration::from_hours(24);

/// Holes that are the same as each other are followed so far.
const SAME_MAX: usize = 32;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new()
        .routes(routes!(list, report))
        .routes(routes!(definition))
        .routes(routes!(one))
        .routes(routes!(token))
}

/// The services, or reports and what became of them.
#[utoipa::path(get, path = "/open311/v2/{resource}",
    params(
        ("resource" = String, Path, description = "`services.json`, `services.xml`, `requests.json` or `requests.xml`"),
        ("jurisdiction_id" = Option<String>, Query, description = "Which office is meant"),
        ("service_request_id" = Option<String>, Query, description = "Numbers of reports, parted by commas; goes before the others"),
        ("service_code" = Option<String>, Query, description = "Codes of services, parted by commas"),
        ("start_date" = Option<String>, Query, description = "Told from then on"),
        ("end_date" = Option<String>, Query, description = "Told until then, at most 90 days after `start_date`"),
        ("status" = Option<String>, Query, description = "`open`, `closed` or both"),
    ),
    responses((status = 200, description = "As the standard has it; the last told first, at most 1,000",
        content((Object = "application/json"), (Object = "text/xml")))),
    extensions(("x-roles" = json!(["public"]))))]
async fn list(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath(resource): InPath<String>,
    RawQuery(query): RawQuery,
) -> Result<Response, Problem> {
    let office = &server.reports.office;
    match Format::of_path(&resource) {
        Some(("services", format)) => Ok(shown(&headers, &vec![office.service.service()], format)),
        Some(("requests", format)) => match read_query(query.as_deref().unwrap_or_default(), office, server.now()) {
            Ok(asked) => Ok(shown(&headers, &server.requests_asked(&asked).await?, format)),
            Err(refusal) => Ok(refused(&refusal, format)),
        },
        _ => Ok(no_such_page(&resource)),
    }
}

/// Takes a report of a hole.
#[utoipa::path(post, path = "/open311/v2/{resource}",
    params(("resource" = String, Path, description = "`requests.json` or `requests.xml`")),
    request_body(content = String, content_type = "application/x-www-form-urlencoded",
        description = "`service_code`, `lat` and `long`; more in the handbook"),
    responses((status = 201, description = "Its number", content((Object = "application/json"), (Object = "text/xml")))),
    extensions(("x-roles" = json!(["public"]))))]
async fn report(
    State(server): State<Server>,
    InPath(resource): InPath<String>,
    request: Request,
) -> Result<Response, Problem> {
    let Some(("requests", format)) = Format::of_path(&resource) else { return Ok(no_such_page(&resource)) };
    let from = address(&request);
    if server.reports.from_address.check_key(&from).is_err() {
        return Err(Problem::too_often("too many reports from this address; wait a minute"));
    }
    let content_type = request.headers().get(header::CONTENT_TYPE).map(HeaderValue::as_bytes).unwrap_or_default();
    if !content_type.to_ascii_lowercase().starts_with(b"application/x-www-form-urlencoded") {
        let refusal = Refusal::bad("send Content-Type: application/x-www-form-urlencoded");
        return Ok(refused(&refusal, format));
    }
    let body = Bytes::from_request(request, &server).await.map_err(|rejection| match rejection.status() {
        StatusCode::PAYLOAD_TOO_LARGE => Problem::too_large("a report has at most 64 KiB"),
        _ => Problem::bad_request("the report broke off; send it again"),
    })?;
    let keys = &server.settings.reports.keys;
    let is_key =
        |key: Option<&str>| keys.is_empty() || key.is_some_and(|key| keys.contains(&crate::ReportSettings::key(key)));
    match read_form(&body, &server.reports.office, &is_key) {
        Ok(posted) => {
            let sent = Sent { from: &from, body: &body, at: server.now() };
            let today = server.reports.office.district.zone.to_datetime(sent.at).date();
            let hole = server.take_report(&sent, |numbers| taken(&posted, numbers, today)).await?;
            let body = write(&created(hole, &server.reports.office), format);
            Ok(with_type((StatusCode::CREATED, body).into_response(), format))
        }
        Err(refusal) => Ok(refused(&refusal, format)),
    }
}

/// What is asked of the reporter of a service.
#[utoipa::path(get, path = "/open311/v2/services/{code}",
    params(("code" = String, Path, description = "The service's code, with `.json` or `.xml`")),
    responses((status = 200, description = "The questions", content((Object = "application/json"), (Object = "text/xml")))),
    extensions(("x-roles" = json!(["public"]))))]
async fn definition(State(server): State<Server>, headers: HeaderMap, InPath(code): InPath<String>) -> Response {
    let service = &server.reports.office.service;
    match Format::of_path(&code) {
        Some((code, format)) if code == service.code => shown(&headers, &service.definition(), format),
        Some((_, format)) => refused(&Refusal::not_found("there is no such service; GET services lists them"), format),
        None => no_such_page(&code),
    }
}

/// A report and what became of it.
#[utoipa::path(get, path = "/open311/v2/requests/{id}",
    params(("id" = String, Path, description = "The report's number, with `.json` or `.xml`")),
    responses((status = 200, description = "A list of one", content((Object = "application/json"), (Object = "text/xml")))),
    extensions(("x-roles" = json!(["public"]))))]
async fn one(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath(id): InPath<String>,
) -> Result<Response, Problem> {
    let Some((id, format)) = Format::of_path(&id) else { return Ok(no_such_page(&id)) };
    let hole = match number(id) {
        Ok(hole) => hole,
        Err(refusal) => return Ok(refused(&refusal, format)),
    };
    let found = server.requests_asked(&Asked::Numbers(vec![hole])).await?;
    if found.is_empty() {
        let words = format!("service_request_id {hole} is not here");
        return Ok(refused(&Refusal::not_found(words), format));
    }
    Ok(shown(&headers, &found, format))
}

/// The number that belongs to a token: each report has its number at once, which is its token as well.
#[utoipa::path(get, path = "/open311/v2/tokens/{token}",
    params(("token" = String, Path, description = "The token, with `.json` or `.xml`")),
    responses((status = 200, description = "Its number", content((Object = "application/json"), (Object = "text/xml")))),
    extensions(("x-roles" = json!(["public"]))))]
async fn token(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath(token): InPath<String>,
) -> Result<Response, Problem> {
    let Some((token, format)) = Format::of_path(&token) else { return Ok(no_such_page(&token)) };
    let hole = Uuid::try_parse(token).ok();
    let known = match hole {
        Some(hole) => server.journal.known(Subject::Hole(hole)).await?,
        None => None,
    };
    match (hole, known) {
        (Some(hole), Some(_)) => Ok(shown(&headers, &of_token(hole), format)),
        _ => Ok(refused(&Refusal::not_found("there is no such token"), format)),
    }
}

/// A report as it was sent.
struct Sent<'s> {
    from: &'s str,
    body: &'s [u8],
    at: Timestamp,
}

/// What numbers of a report are for; each has other ones.
#[derive(Clone, Copy)]
enum For {
    Hole,
    Contact,
    Told,
    Merged,
}

impl Sent<'_> {
    /// A number that the same report from the same address in the same minute has again: who sends twice reports once. A secret
    /// goes into it, so that nobody finds out the address by trying all.
    fn number(&self, secret: &[u8; 32], what: For, minutes_ago: i64) -> Uuid {
        let minute = self.at.as_second().div_euclid(60) - minutes_ago;
        let mut bytes = secret.to_vec();
        bytes.push(what as u8);
        bytes.extend(minute.to_be_bytes());
        bytes.extend((self.from.len() as u64).to_be_bytes());
        bytes.extend(self.from.as_bytes());
        bytes.extend(self.body);
        let digest = sha256(&bytes);
        let mut random = [0; 10];
        random.copy_from_slice(&digest[..10]);
        number_of(Timestamp::from_second(minute * 60).unwrap_or(self.at), random)
    }
}

impl Server {
    /// Puts a report into the record, with the hole that it is the same as, and gives its number. Sent twice it is taken once.
    async fn take_report(&self, sent: &Sent<'_>, taken: impl Fn(NewNumbers) -> Taken) -> Result<Uuid, JournalError> {
        let number = |what, minutes_ago| sent.number(&self.reports.secret, what, minutes_ago);
        let hole = number(For::Hole, 0);
        // two who tell of one hole at the same time: the second one finds the first
        let _alone = self.reports.one_at_a_time.lock().await;
        let before = [hole, number(For::Hole, 1)].map(Subject::Hole);
        if let Some(before) = self.journal.known_of(&before).await?.first() {
            return Ok(before.subject.id());
        }
        let Taken { happened, contact } = taken(NewNumbers { hole, contact: number(For::Contact, 0) });
        if let Some(contact) = contact {
            let until = sent.at.checked_add(self.settings.keep_contacts).unwrap_or(Timestamp::MAX);
            let kept = Contact { name: contact.name, email: contact.email, phone: contact.phone };
            // first the contact: should the event not get into the record, it is forgotten in time
            self.journal.keep_contact(contact.contact, &kept, sent.at, until).await?;
        }
        let same = self.same_as(&happened, sent.at).await?;
        let merged = same.map(|(into, why)| Happened::HolesMerged { into, merged: vec![hole], why });
        let event = |what, happened| Event {
            id: number(what, 0),
            schema: SCHEMA_VERSION,
            actor: ACTOR.to_owned(),
            device: DEVICE.to_owned(),
            device_time: sent.at,
            clock_ahead_ms: 0,
            happened,
        };
        let events = std::iter::once(event(For::Told, happened)).chain(merged.map(|merged| event(For::Merged, merged)));
        let appended = self.journal.append(events.collect(), sent.at).await?;
        let recorded = appended.iter().filter(|answer| matches!(answer, Appended::Recorded { .. })).count();
        self.metrics.events.inc_by(recorded as u64);
        Ok(hole)
    }

    /// The known hole that a report is of, if any, and why.
    async fn same_as(&self, happened: &Happened, now: Timestamp) -> Result<Option<(Uuid, String)>, JournalError> {
        let Happened::HoleReported { hole, position, size, .. } = happened else { return Ok(None) };
        let settings = &self.settings.reports;
        let zone = &self.reports.office.district.zone;
        let new = Sighting {
            hole: *hole,
            same_as: None,
            position: *position,
            on_road: None,
            size: *size,
            seen: Some(zone.to_datetime(now).date()),
            source: SOURCE.to_owned(),
        };
        let mut query = Query::all("hole", AROUND_MAX);
        query.within = Some(box_around(*position, &settings.matching));
        query.states = ["reported", "planned", "begun", "same_as_other"].map(str::to_owned).to_vec();
        let near = holes(self.journal.page(&query).await?.rows);
        let others = self.leading(&near).await?;
        let all = near.iter().chain(others.values().filter(|other| near.iter().all(|hole| hole.hole != other.hole)));
        let candidates: Vec<Sighting> = all
            .filter_map(|hole| {
                let mut sighting = Sighting::of(hole, None, zone)?;
                // of a chain the one that stays counts
                for _ in 0..SAME_MAX {
                    let next = sighting.same_as.and_then(|other| others.get(&other)).and_then(same);
                    let Some(next) = next else { break };
                    sighting.same_as = Some(next);
                }
                Some(sighting)
            })
            .collect();
        Ok(match match_report(&new, &candidates, &settings.matching, settings.units) {
            Match::SameAs { hole, why } => Some((hole, why)),
            Match::New => None,
        })
    }

    /// Reports that are asked for, and what became of them.
    async fn requests_asked(&self, asked: &Asked) -> Result<Vec<ServiceRequest>, JournalError> {
        let office = &self.reports.office;
        let (from, until, status) = match asked {
            Asked::Numbers(numbers) => {
                let mut seen = HashSet::new();
                let numbers: Vec<Subject> = numbers
                    .iter()
                    .filter(|number| seen.insert(**number))
                    .map(|number| Subject::Hole(*number))
                    .collect();
                return self.shown_requests(&holes(self.journal.known_of(&numbers).await?)).await;
            }
            Asked::Told { from, until, status } => (*from, *until, *status),
        };
        let mut query = Query::all("hole", REQUESTS_MAX as u32);
        query.backwards = true;
        let first = number_of(from.checked_sub(CLOCKS).unwrap_or(from), [0; 10]);
        let last = number_of(until.checked_add(CLOCKS).unwrap_or(until), [0xff; 10]);
        query.numbers = Some([Subject::Hole(first), Subject::Hole(last)]);
        // a hole that is the same as another may be in either state
        let states: &[&str] = match status {
            None => &[],
            Some(RequestStatus::Open) => &["reported", "planned", "begun", "same_as_other"],
            Some(RequestStatus::Closed) => &["mended", "dismissed", "same_as_other"],
        };
        query.states = states.iter().map(|state| (*state).to_owned()).collect();
        let mut found = Vec::new();
        for _ in 0..PAGES_MAX {
            let page = self.journal.page(&query).await?;
            query.after = page.rows.last().map(|row| row.subject);
            let told: Vec<KnownHole> = holes(page.rows)
                .into_iter()
                .filter(|hole| {
                    let told = hole.reports.first().map_or(hole.last_told, |report| report.by.at);
                    (from..=until).contains(&told)
                })
                .collect();
            let requests = self.shown_requests(&told).await?;
            found.extend(requests.into_iter().filter(|request| status.is_none_or(|status| request.status == status)));
            if found.len() >= REQUESTS_MAX || !page.more {
                break;
            }
        }
        found.truncate(REQUESTS_MAX);
        tracing::debug!(requests = found.len(), service = office.service.code, "reports asked for");
        Ok(found)
    }

    /// Holes in the standard's form.
    async fn shown_requests(&self, holes: &[KnownHole]) -> Result<Vec<ServiceRequest>, JournalError> {
        let others = self.leading(holes).await?;
        let find = |id| others.get(&id).cloned();
        // no day is promised
        Ok(holes.iter().map(|hole| request_of(hole, &find, &|_| None, &self.reports.office)).collect())
    }

    /// The holes that others are the same as, and those that these are the same as.
    async fn leading(&self, holes_here: &[KnownHole]) -> Result<HashMap<Uuid, KnownHole>, JournalError> {
        let mut found = HashMap::new();
        let mut wanted: Vec<Uuid> = holes_here.iter().filter_map(same).collect();
        for _ in 0..SAME_MAX {
            wanted.retain(|hole| !found.contains_key(hole));
            wanted.sort_unstable();
            wanted.dedup();
            if wanted.is_empty() {
                break;
            }
            let subjects: Vec<Subject> = wanted.iter().map(|hole| Subject::Hole(*hole)).collect();
            let others = holes(self.journal.known_of(&subjects).await?);
            wanted = others.iter().filter_map(same).collect();
            found.extend(others.into_iter().map(|hole| (hole.hole, hole)));
        }
        Ok(found)
    }
}

/// The hole that another is the same as.
fn same(hole: &KnownHole) -> Option<Uuid> {
    hole.same_as.as_ref().filter(|_| hole.state == HoleState::SameAsOther).map(|told| told.value)
}

fn holes(rows: Vec<journal::Row>) -> Vec<KnownHole> {
    rows.into_iter()
        .filter_map(|row| match row.known {
            Known::Hole(hole) => Some(hole),
            _ => None,
        })
        .collect()
}

/// An answer that may be kept until it changes.
fn shown(headers: &HeaderMap, value: &impl Answer, format: Format) -> Response {
    answer::kept(headers, format.content_type(), write(value, format).into_bytes())
}

fn refused(refusal: &Refusal, format: Format) -> Response {
    let status = StatusCode::from_u16(refusal.status()).unwrap_or(StatusCode::BAD_REQUEST);
    with_type((status, refusal.write(format)).into_response(), format)
}

fn no_such_page(segment: &str) -> Response {
    let words = "there is no such page; services, requests and tokens end with .json or .xml";
    refused(&Refusal::not_found(words), format_of(segment))
}

/// The format that a path asks for, as well as that can be told.
fn format_of(path: &str) -> Format {
    Format::of_path(path).map_or(Format::Json, |(_, format)| format)
}

fn with_type(mut response: Response, format: Format) -> Response {
    response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static(format.content_type()));
    response
}

/// Brings problems below the standard's paths into the standard's form, wherever in the server they come from.
pub(super) async fn in_its_form(request: Request, next: Next) -> Response {
    let path = request.uri().path();
    let format = path.starts_with(BELOW).then(|| format_of(path));
    let response = next.run(request).await;
    let is_problem =
        response.headers().get(header::CONTENT_TYPE).is_some_and(|kind| kind == "application/problem+json");
    let Some(format) = format.filter(|_| is_problem) else { return response };
    let (parts, body) = response.into_parts();
    let told = to_bytes(body, 64 * 1024).await.unwrap_or_default();
    let problem: serde_json::Value = serde_json::from_slice(&told).unwrap_or_default();
    let description = problem["detail"].as_str().unwrap_or("something went wrong").to_owned();
    let refusal = Refusal::from(Fault { code: parts.status.as_u16(), description });
    let mut response = refused(&refusal, format);
    for (name, value) in
        parts.headers.iter().filter(|(name, _)| *name != header::CONTENT_TYPE && *name != header::CONTENT_LENGTH)
    {
        response.headers_mut().insert(name, value.clone());
    }
    response
}
