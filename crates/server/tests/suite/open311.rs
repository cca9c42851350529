//! Reports of the public by Open311, from posting to what reporters are told.

use axum::body::Body;
use axum::http::{Request, StatusCode};
use intake::open311::answers::{Created, RequestStatus, Service, ServiceDefinition, ServiceRequest, TokenNumber};
use intake::open311::refusal::Fault;
use intake::open311::wire::{Answer as _, Format, read};
use jiff::Timestamp;
use model::record::event::Event;
use model::record::happened::{Happened, HoleSize, Position};
use server::{ReportSettings, Settings};
use uuid::Uuid;

use crate::client::{Answer, Client, House, number};

/// Where the invented island lies.
const ISLAND: [f64; 4] = [-28.7, 47.1, -28.1, 47.5];

const REPORT: &str = "service_code=hole&lat=47.3125&long=-28.4123&first_name=Ada&last_name=Merrow&email=ada%40quillmere.example\
    &phone=%2B00+123&device_id=d-77&description=%3Cscript%3Ealert(1)%3C%2Fscript%3E+'%3B+DROP+TABLE+known%3B--\
    &attribute[size]=plate";

fn on_the_island(settings: &mut Settings) {
    settings.district = Some(ISLAND);
    settings.reports.per_minute = 10_000.try_into().unwrap();
    settings.reports.jurisdiction = Some("roads.quillmere.example".to_owned());
}

async fn post(house: &House, path: &str, body: impl Into<Body>) -> Answer {
    let request =
        Request::builder().method("POST").uri(path).header("content-type", "application/x-www-form-urlencoded");
    house.send(request.body(body.into()).unwrap()).await
}

async fn get(house: &House, path: &str) -> Answer {
    house.get(&Client::default(), path).await
}

/// Reports and gives the number.
async fn reported(house: &House, body: &str) -> Uuid {
    let answer = post(house, "/open311/v2/requests.json", body.to_owned()).await;
    assert_eq!(answer.status, StatusCode::CREATED, "{}", answer.text());
    let created: Vec<Created> = read(&answer.bytes, Format::Json).unwrap();
    created[0].service_request_id.as_ref().unwrap().parse().unwrap()
}

/// Asks for reports in both forms, which say the same.
async fn requests(house: &House, query: &str) -> Vec<ServiceRequest> {
    let json = get(house, &format!("/open311/v2/requests.json?{query}")).await;
    assert_eq!(json.status, StatusCode::OK, "{}", json.text());
    let xml = get(house, &format!("/open311/v2/requests.xml?{query}")).await;
    assert_eq!(xml.headers["content-type"], "text/xml; charset=utf-8");
    let told: Vec<ServiceRequest> = read(&json.bytes, Format::Json).unwrap();
    let in_xml: Vec<ServiceRequest> = read(&xml.bytes, Format::Xml).unwrap();
    assert_eq!(told, in_xml);
    told
}

/// The faults of a refusal in both forms, which say the same.
fn faults(answer: &Answer, format: Format, status: u16) -> Vec<Fault> {
    assert_eq!(answer.status.as_u16(), status, "{}", answer.text());
    assert_eq!(answer.headers["content-type"], format.content_type());
    let faults: Vec<Fault> = read(&answer.bytes, format).unwrap_or_else(|error| panic!("{error}: {}", answer.text()));
    assert_eq!(faults[0].code, status);
    assert!(Vec::<Fault>::ROOT == "errors" && faults.iter().all(|fault| !fault.description.is_empty()));
    faults
}

#[tokio::test]
async fn the_service_and_its_questions_in_both_forms() {
    let house = House::with(on_the_island).await;
    let json = get(&house, "/open311/v2/services.json?jurisdiction_id=roads.quillmere.example").await;
    let xml = get(&house, "/open311/v2/services.xml").await;
    let services: Vec<Service> = read(&json.bytes, Format::Json).unwrap();
    assert_eq!(services, read::<Vec<Service>>(&xml.bytes, Format::Xml).unwrap());
    assert_eq!((services[0].service_code.as_str(), services.len()), ("hole", 1));
    assert_eq!(json.headers["content-type"], "application/json; charset=utf-8");
    let json = get(&house, "/open311/v2/services/hole.json").await;
    let xml = get(&house, "/open311/v2/services/hole.xml").await;
    let questions: ServiceDefinition = read(&json.bytes, Format::Json).unwrap();
    assert_eq!(questions, read::<ServiceDefinition>(&xml.bytes, Format::Xml).unwrap());
    assert!(questions.attributes.iter().any(|question| question.code == "size"));
    let again = Request::builder().uri("/open311/v2/services/hole.json").header("if-none-match", &json.headers["etag"]);
    assert_eq!(house.send(again.body(Body::empty()).unwrap()).await.status, StatusCode::NOT_MODIFIED);
}

#[tokio::test]
async fn a_report_is_an_event_its_reporter_apart_and_in_no_answer() {
    let house = House::with(on_the_island).await;
    let hole = reported(&house, REPORT).await;
    let events = house.journal.events_after(0, 10).await.unwrap();
    assert_eq!(events.len(), 1);
    let Happened::HoleReported { hole: of, source, note, contact, size, .. } = &events[0].event.happened else {
        panic!("{events:?}")
    };
    assert_eq!((*of, source.as_str(), size.length_mm), (hole, "public", Some(300.0)));
    assert_eq!((events[0].event.actor.as_str(), events[0].event.device.as_str()), ("public", "open311"));
    assert!(note.contains("<script>") && note.contains("DROP TABLE"), "words are kept as they are: {note}");
    let now = "2026-05-06T12:00:00Z".parse().unwrap();
    let kept = house.journal.contact(contact.unwrap(), now).await.unwrap().unwrap();
    assert_eq!((kept.name.as_str(), kept.email.as_str()), ("Ada Merrow", "ada@quillmere.example"));
    let half_a_year: Timestamp = "2026-11-03T12:00:00Z".parse().unwrap();
    assert_eq!(house.journal.contact(contact.unwrap(), half_a_year).await.unwrap(), None);

    let stored = serde_json::to_string(&events).unwrap();
    let mut said = stored;
    for path in [
        "requests.json".to_owned(),
        format!("requests/{hole}.json"),
        format!("requests/{hole}.xml"),
        format!("tokens/{hole}.xml"),
    ] {
        let answer = get(&house, &format!("/open311/v2/{path}")).await;
        assert_eq!(answer.status, StatusCode::OK, "{path}: {}", answer.text());
        assert!(!answer.text().contains("alert") && !answer.text().contains("DROP"), "{path}: {}", answer.text());
        said.push_str(&answer.text());
    }
    for personal in ["Merrow", "ada@", "+00 123", "d-77"] {
        assert!(!said.contains(personal), "{personal} stands in the record or an answer");
    }
    let one = get(&house, &format!("/open311/v2/requests/{hole}.json")).await;
    let told: Vec<ServiceRequest> = read(&one.bytes, Format::Json).unwrap();
    assert_eq!((told[0].status, told[0].lat, told[0].long), (RequestStatus::Open, Some(47.3125), Some(-28.4123)));
    assert_eq!(told[0].requested_datetime, "2026-05-06T12:00:00+00:00");
    let token = get(&house, &format!("/open311/v2/tokens/{hole}.json")).await;
    let token: Vec<TokenNumber> = read(&token.bytes, Format::Json).unwrap();
    assert_eq!(token[0].service_request_id, Some(hole.to_string()));
}

#[tokio::test]
async fn words_are_shown_only_where_the_office_wants_it_and_are_never_a_page() {
    let house = House::with(|settings| {
        on_the_island(settings);
        settings.reports.shows_words = true;
    })
    .await;
    let hole = reported(&house, REPORT).await;
    for path in ["json", "xml"] {
        let answer = get(&house, &format!("/open311/v2/requests/{hole}.{path}")).await;
        assert!(answer.text().contains("alert(1)") && !answer.text().contains("<script"), "{}", answer.text());
        assert_eq!(answer.headers["x-content-type-options"], "nosniff");
    }
}

/// The distance by hand: 0.00003 degrees of latitude are 3.3 m, 0.01 are 1.1 km.
#[tokio::test]
async fn who_told_of_one_hole_is_told_the_same() {
    let house = House::with(on_the_island).await;
    let first = reported(&house, "service_code=hole&lat=47.3125&long=-28.4123").await;
    house.wait_minutes(60);
    let second = reported(&house, "service_code=hole&lat=47.31253&long=-28.4123&phone=1").await;
    let third = reported(&house, "service_code=hole&lat=47.31247&long=-28.4123&phone=2").await;
    let other = reported(&house, "service_code=hole&lat=47.3225&long=-28.4123").await;
    let merges: Vec<(Uuid, Vec<Uuid>)> = house
        .journal
        .events_after(0, 100)
        .await
        .unwrap()
        .into_iter()
        .filter_map(|recorded| match recorded.event.happened {
            Happened::HolesMerged { into, merged, why } => {
                assert!(why.contains("apart"), "{why}");
                Some((into, merged))
            }
            _ => None,
        })
        .collect();
    assert_eq!(merges, [(first, vec![second]), (first, vec![third])]);
    let numbers = format!("service_request_id={first},{second},{third},{other},{first}");
    let told = requests(&house, &numbers).await;
    assert_eq!(told.len(), 4);
    assert!(told.iter().all(|request| request.status == RequestStatus::Open));

    let happened =
        Happened::HoleDismissed { hole: first, why: "a manhole of the waterworks".into(), dealt_with: false };
    append(&house, 1, "2026-05-06T14:00:00Z", happened).await;
    let closed = requests(&house, "status=closed").await;
    let mut numbers: Vec<Uuid> = closed.iter().map(|request| request.service_request_id.parse().unwrap()).collect();
    numbers.sort_unstable();
    let mut expected = vec![first, second, third];
    expected.sort_unstable();
    assert_eq!(numbers, expected, "{closed:?}");
    assert!(
        closed.iter().all(|request| request.status_notes.as_ref().unwrap().contains("a manhole of the waterworks"))
    );
    let open = requests(&house, "status=open").await;
    assert_eq!(open.len(), 1);
    assert_eq!(open[0].service_request_id, other.to_string());
    let fourth = reported(&house, "service_code=hole&lat=47.3125&long=-28.4123&phone=4").await;
    assert_eq!(requests(&house, &format!("service_request_id={fourth}")).await[0].status, RequestStatus::Open);
}

#[tokio::test]
async fn a_report_sent_twice_is_taken_once() {
    let house = House::with(on_the_island).await;
    let first = reported(&house, REPORT).await;
    assert_eq!(reported(&house, REPORT).await, first);
    house.wait_minutes(1);
    assert_eq!(reported(&house, REPORT).await, first, "a minute later, by the clock's minutes");
    assert_eq!(house.journal.events_after(0, 10).await.unwrap().len(), 1);
    house.wait_minutes(2);
    let later = reported(&house, REPORT).await;
    assert_ne!(later, first);
    assert_eq!(house.journal.events_after(0, 10).await.unwrap().len(), 3, "told again, and the same hole");
    let (one, two) = tokio::join!(
        post(&house, "/open311/v2/requests.json", "service_code=hole&lat=47.2&long=-28.5"),
        post(&house, "/open311/v2/requests.json", "service_code=hole&lat=47.2&long=-28.5"),
    );
    assert_eq!(one.text(), two.text());
    assert_eq!(house.journal.events_after(0, 10).await.unwrap().len(), 4);
}

#[tokio::test]
async fn what_is_wrong_is_said_in_the_standards_form_and_nothing_is_kept() {
    let house = House::with(|settings| {
        on_the_island(settings);
        settings.reports.keys = vec![ReportSettings::key("k1")];
    })
    .await;
    let cases = [
        ("", 403, "api_key"),
        ("api_key=k2&service_code=hole&lat=47.3&long=-28.4", 403, "api_key"),
        ("api_key=k1&service_code=lamp&lat=47.3&long=-28.4", 404, "service_code"),
        ("api_key=k1&jurisdiction_id=elsewhere&service_code=hole&lat=47.3&long=-28.4", 404, "jurisdiction_id"),
        ("api_key=k1&service_code=hole", 400, "lat and long are missing"),
        ("api_key=k1&service_code=hole&lat=48.3&long=-28.4", 400, "outside of the district"),
        ("api_key=k1&service_code=hole&lat=-28.4&long=47.3", 400, "exchanged"),
        ("api_key=k1&service_code=hole&lat=1%00&long=%FF", 400, "lat"),
    ];
    for (body, status, words) in cases {
        for (path, format) in [("requests.json", Format::Json), ("requests.xml", Format::Xml)] {
            let answer = post(&house, &format!("/open311/v2/{path}"), body).await;
            let faults = faults(&answer, format, status);
            assert!(faults[0].description.contains(words), "{body}: {faults:?}");
        }
    }
    let nobody = Client::default();
    let missing = number(7);
    for (path, format, status) in [
        (format!("requests/{missing}.json"), Format::Json, 404),
        ("requests/seven.xml".to_owned(), Format::Xml, 404),
        (format!("tokens/{missing}.xml"), Format::Xml, 404),
        ("tokens/'%3B--.json".to_owned(), Format::Json, 404),
        ("services/lamp.xml".to_owned(), Format::Xml, 404),
        ("services".to_owned(), Format::Json, 404),
        ("..%2F..%2Fetc%2Fpasswd".to_owned(), Format::Json, 404),
        ("%FF.json".to_owned(), Format::Json, 400),
        ("no/such/page.xml".to_owned(), Format::Xml, 404),
        ("requests.json?start_date=soon&status=maybe".to_owned(), Format::Json, 400),
        ("requests.xml?start_date=2026-01-01&end_date=2026-05-01".to_owned(), Format::Xml, 400),
        ("requests.json?service_request_id=seven".to_owned(), Format::Json, 404),
    ] {
        let answer = house.get(&nobody, &format!("/open311/v2/{path}")).await;
        faults(&answer, format, status);
    }
    let with_json = house.json(&nobody, "POST", "/open311/v2/requests.json", &serde_json::json!({"lat": 47.3})).await;
    assert!(faults(&with_json, Format::Json, 400)[0].description.contains("x-www-form-urlencoded"));
    let huge = post(&house, "/open311/v2/requests.xml", "x".repeat(65 * 1024)).await;
    faults(&huge, Format::Xml, 413);
    let deleted = house.send(nobody.request("DELETE", "/open311/v2/requests.xml").body(Body::empty()).unwrap()).await;
    faults(&deleted, Format::Xml, 405);
    assert!(deleted.headers.contains_key("allow"));
    let posted = post(&house, "/open311/v2/services.json", "").await;
    faults(&posted, Format::Json, 404);
    assert_eq!(house.journal.head().await.unwrap().0, 0);
    reported(&house, "api_key=k1&service_code=hole&lat=47.3&long=-28.4").await;
}

#[tokio::test]
async fn one_address_reports_so_often() {
    let house = House::with(|settings| {
        on_the_island(settings);
        settings.reports.per_minute = 3.try_into().unwrap();
    })
    .await;
    for count in 0..3 {
        reported(&house, &format!("service_code=hole&lat=47.3&long=-28.4{count}")).await;
    }
    let answer = post(&house, "/open311/v2/requests.xml", "service_code=hole&lat=47.3&long=-28.45").await;
    assert!(faults(&answer, Format::Xml, 429)[0].description.contains("wait a minute"));
    assert_eq!(get(&house, "/open311/v2/requests.json").await.status, StatusCode::OK, "reading goes on");
}

#[tokio::test]
async fn a_list_has_a_thousand_at_most_the_last_first_and_only_those_of_its_time() {
    let house = House::with(on_the_island).await;
    let end: Timestamp = "2026-05-06T11:00:00Z".parse().unwrap();
    let told = |count: u64| {
        let at = end.checked_sub(jiff::SignedDuration::from_mins(count.cast_signed())).unwrap();
        let id = |more: u64| {
            let mut bytes = [0; 10];
            bytes[2..].copy_from_slice(&(count + more).to_be_bytes());
            uuid::Builder::from_unix_timestamp_millis(at.as_millisecond().cast_unsigned(), &bytes).into_uuid()
        };
        let position = Position { lon: -28.6 + 0.0004 * count as f64, lat: 47.2 };
        let happened = Happened::HoleReported {
            hole: id(0),
            position,
            size: HoleSize::default(),
            seen: None,
            note: String::new(),
            source: String::new(),
            reference: String::new(),
            contact: None,
        };
        event_of(id(1 << 40), at, happened)
    };
    house.journal.append((0..1005).map(told).collect(), end).await.unwrap();
    let all = requests(&house, "").await;
    assert_eq!(all.len(), 1000);
    assert_eq!(all[0].requested_datetime, "2026-05-06T11:00:00+00:00");
    assert!(all.windows(2).all(|pair| pair[0].requested_datetime > pair[1].requested_datetime));
    let rest = requests(&house, "end_date=2026-05-05T18:20:00Z").await;
    assert_eq!(rest.len(), 5, "minutes 1,000 to 1,004 before 11 o'clock");
    let hour = requests(&house, "start_date=2026-05-06T10:00:00Z&end_date=2026-05-06T10:29:59Z").await;
    assert_eq!(hour.len(), 30);
    assert!(requests(&house, "start_date=2026-05-07").await.is_empty());
    assert!(requests(&house, "status=closed").await.is_empty());
}

async fn append(house: &House, count: u64, at: &str, happened: Happened) {
    let at = at.parse().unwrap();
    house.journal.append(vec![event_of(number(count), at, happened)], at).await.unwrap();
}

fn event_of(id: Uuid, at: Timestamp, happened: Happened) -> Event {
    let (actor, device) = ("mara".to_owned(), "desk".to_owned());
    Event { id, schema: 1, actor, device, device_time: at, clock_ahead_ms: 0, happened }
}
