//! Reports, questions and answers of Open311 on the invented island.

mod support;
#[path = "support/holes.rs"]
mod support_holes;

use std::fmt::Write as _;

use insta::{assert_json_snapshot, assert_snapshot};
use intake::open311::answers::{RequestStatus, Service, ServiceDefinition, ServiceRequest};
use intake::open311::form::{BODY_MAX, Posted, read_form};
use intake::open311::query::{Asked, number, read_query};
use intake::open311::refusal::Refusal;
use intake::open311::report::{NewNumbers, created, of_token, taken};
use intake::open311::status::request_of;
use intake::open311::wire::{Format, read, write};
use jiff::Timestamp;
use jiff::civil::date;
use proptest::prelude::*;
use support::office;

fn post(body: &str) -> Result<Posted, Refusal> {
    read_form(body.as_bytes(), &office(), &|key| key == Some("k1"))
}

const WHOLE: &str = "api_key=k1&jurisdiction_id=roads.quillmere.example&service_code=hole&lat=47.3125&long=-28.4123\
    &address_string=+Kiln+Lane,+by+the+gate&first_name=Ada&last_name=Merrow&email=ada%40quillmere.example&phone=%2B00+123\
    &description=Deep.%0D%0A%3Cscript%3Ealert(1)%3C%2Fscript%3E+%27%3B+DROP+TABLE+holes%3B--\
    &media_url=https%3A%2F%2Fpictures.example%2F7.jpg&attribute[size]=plate&attribute[across]=edge\
    &attribute[water]=standing&attribute[KERB]=broken&colour=grey";

#[test]
fn a_report_becomes_an_event_and_a_contact_apart() {
    let numbers = NewNumbers { hole: support_holes::number(1), contact: support_holes::number(2) };
    let posted = post(WHOLE).expect("a report");
    let taken = taken(&posted, numbers, date(2026, 11, 20));
    assert_json_snapshot!("report_as_event", taken.happened);
    assert_json_snapshot!("report_as_contact", taken.contact);
    let event = serde_json::to_string(&taken.happened).expect("JSON");
    for personal in ["Ada", "Merrow", "ada@", "+00 123"] {
        assert!(!event.contains(personal), "{personal} stands in the event");
        assert!(!format!("{posted:?} {:?}", taken.contact).contains(personal), "{personal} may get into a log");
    }
    let plain = post("api_key=k1&service_code=hole&lat=47.3125&long=-28.4123").expect("a report");
    assert_eq!(intake::open311::report::taken(&plain, numbers, date(2026, 11, 20)).contact, None);
}

#[test]
fn what_is_wrong_is_said_all_at_once() {
    let cases = [
        ("no key", "service_code=hole&lat=47.3&long=-28.4"),
        ("a wrong key", "api_key=k2&service_code=hole&lat=47.3&long=-28.4"),
        ("another office", "api_key=k1&jurisdiction_id=elsewhere.example&service_code=hole&lat=47.3&long=-28.4"),
        ("another service", "api_key=k1&service_code=lamp&lat=47.3&long=-28.4"),
        ("nothing", "api_key=k1"),
        ("an address alone", "api_key=k1&service_code=hole&address_string=Kiln+Lane"),
        ("half a place", "api_key=k1&service_code=hole&lat=47.3"),
        ("no numbers", "api_key=k1&service_code=hole&lat=north&long=NaN"),
        ("exchanged", "api_key=k1&service_code=hole&lat=-28.4&long=47.3"),
        ("nowhere", "api_key=k1&service_code=hole&lat=0&long=0.0"),
        ("metres", "api_key=k1&service_code=hole&lat=5238765&long=512345"),
        ("outside", "api_key=k1&service_code=hole&lat=48.3&long=-28.4"),
        ("twice", "api_key=k1&service_code=hole&lat=47.3&lat=47.4&long=-28.4"),
        ("an answer that is none", "api_key=k1&service_code=hole&lat=47.3&long=-28.4&attribute[size]=huge"),
        ("two answers", "api_key=k1&service_code=hole&lat=47.3&long=-28.4&attribute[size]=hand&attribute[size]=plate"),
        ("no such field", "api_key=k1&service_code=hole&lat=47.3&long=-28.4&attribute[size=hand"),
        (
            "much",
            "api_key=k1&service_code=hole&lat=47.3&long=-28.4&email=ada&media_url=javascript:alert(1)&first_name=A%00da\
             &phone=%1B[2J&last_name=%FF&description=%E2%80%AEabc&lat=47.4",
        ),
    ];
    let mut said = String::new();
    for (what, body) in cases {
        let refusal = post(body).expect_err(what);
        let _ = writeln!(said, "{what}: {} {}", refusal.status(), refusal.write(Format::Json));
    }
    assert_snapshot!("refused_reports", said);
    assert_snapshot!(
        "refused_as_xml",
        post("api_key=k1&lat=1%003&long=%3C2%3E").expect_err("two faults").write(Format::Xml)
    );
}

#[test]
fn what_is_too_long_is_refused_with_its_limit() {
    let base = "api_key=k1&service_code=hole&lat=47.3&long=-28.4";
    let said = |body: String| post(&body).expect_err("too long").faults()[0].description.clone();
    assert!(post(&format!("{base}&description={}", "d".repeat(4000))).is_ok());
    let words = "description is 4001 characters long; at most 4000 are taken";
    assert_eq!(said(format!("{base}&description={}", "d".repeat(4001))), words);
    assert!(said(format!("{base}&description={}", "d".repeat(BODY_MAX))).starts_with("the report has 655"));
    assert_eq!(said(format!("{base}{}", "&x=y".repeat(100))), "the report has more than 100 fields");
    assert!(said(format!("{base}&attribute[{}]=y", "c".repeat(101))).contains("at most 100"));
}

#[test]
fn those_who_told_of_one_hole_are_told_the_same() {
    let office = office();
    let due = |_| Some(date(2026, 12, 1));
    let answer = |n: u128| {
        let hole = support_holes::find(support_holes::number(n)).expect("a hole");
        request_of(&hole, &support_holes::find, &due, &office)
    };
    let said: Vec<String> = (1..=10)
        .map(answer)
        .map(|is| {
            format!(
                "{} {} {:?}: {}",
                &is.service_request_id[34..],
                is.status.word(),
                is.expected_datetime,
                is.status_notes.unwrap_or_default()
            )
        })
        .collect();
    assert_snapshot!("states_in_words", said.join("\n"));
    // 6 is the same as 4, and 7 as 6: mended with it.
    assert!([4, 6, 7].iter().all(|n| answer(*n).status == RequestStatus::Closed));
}

#[test]
fn answers() {
    let mut office = office();
    let due = |_| Some(date(2026, 12, 1));
    let requests = |office: &intake::open311::Office| -> Vec<ServiceRequest> {
        [1, 5, 6].iter().map(|n| request_of(&support_holes::all()[n - 1], &support_holes::find, &due, office)).collect()
    };
    let id = support_holes::number(1);
    for (format, name) in [(Format::Json, "json"), (Format::Xml, "xml")] {
        assert_snapshot!(format!("services_{name}"), write(&vec![office.service.service()], format));
        assert_snapshot!(format!("definition_{name}"), write(&office.service.definition(), format));
        assert_snapshot!(format!("requests_{name}"), write(&requests(&office), format));
        assert_snapshot!(format!("created_{name}"), write(&created(id, &office), format));
        assert_snapshot!(format!("token_{name}"), write(&of_token(id), format));
    }
    // A reporter's words may name people: everybody sees them only where the office says so.
    assert!(requests(&office).iter().all(|request| request.description.is_none()));
    office.shows_words = true;
    assert_eq!(requests(&office)[0].description.as_deref(), Some("Deep, near the <gate>"));
    assert!(write(&requests(&office), Format::Json).contains("near the \\u003cgate\\u003e"));
    assert!(write(&requests(&office), Format::Xml).contains("near the &lt;gate&gt;"));
}

fn now() -> Timestamp {
    "2026-11-20T12:00:00Z".parse().expect("a moment")
}

fn ask(query: &str) -> Result<Asked, Refusal> {
    read_query(query, &office(), now())
}

#[test]
fn the_time_that_is_asked_for() {
    let told = |query: &str| match ask(query) {
        Ok(Asked::Told { from, until, status }) => format!("{from} {until} {status:?}"),
        other => panic!("{query}: {other:?}"),
    };
    let cases = [
        ("", "2026-08-22T12:00:00Z 2026-11-20T12:00:00Z None"),
        ("start_date=2026-11-01T00:00:00Z", "2026-11-01T00:00:00Z 2027-01-30T00:00:00Z None"),
        ("end_date=2026-11-01T00:00:00Z", "2026-08-03T00:00:00Z 2026-11-01T00:00:00Z None"),
        // The island's clock is an hour behind in winter: its day begins at one o'clock UTC.
        ("start_date=2026-11-01&end_date=2026-11-02", "2026-11-01T01:00:00Z 2026-11-03T00:59:59.999Z None"),
        // A plus sign that nobody escaped.
        ("start_date=2026-11-01T02:00:00+02:00&status=open", "2026-11-01T00:00:00Z 2027-01-30T00:00:00Z Some(Open)"),
        ("status=open,closed&service_code=hole", "2026-08-22T12:00:00Z 2026-11-20T12:00:00Z None"),
        ("status=closed&colour=grey&start_date=", "2026-08-22T12:00:00Z 2026-11-20T12:00:00Z Some(Closed)"),
    ];
    for (query, expected) in cases {
        assert_eq!(told(query), expected, "{query}");
    }
    let asked = ask("start_date=2026-11-01T00:00:00Z&end_date=2026-11-02T00:00:00Z&status=open").expect("a query");
    let id = support_holes::number(1);
    let at = |text: &str| text.parse::<Timestamp>().expect("a moment");
    assert!(asked.holds(id, at("2026-11-01T00:00:00Z"), RequestStatus::Open));
    assert!(!asked.holds(id, at("2026-11-01T00:00:00Z"), RequestStatus::Closed));
    assert!(!asked.holds(id, at("2026-11-02T00:00:01Z"), RequestStatus::Open));
}

#[test]
fn numbers_go_before_everything_else() {
    let (one, other) = (support_holes::number(1), support_holes::number(2));
    let asked = ask(&format!("service_request_id={one},%20{other}&status=burnt&start_date=soon")).expect("a query");
    assert_eq!(asked, Asked::Numbers(vec![one, other]));
    assert!(asked.holds(other, Timestamp::MIN, RequestStatus::Closed));
    assert_eq!(number(&one.to_string()), Ok(one));
    assert_eq!(number("638344").expect_err("no number of ours").status(), 404);
}

#[test]
fn questions_that_are_refused() {
    let queries = [
        "start_date=2026-01-01T00:00:00Z&end_date=2026-06-01T00:00:00Z",
        "start_date=2026-06-01T00:00:00Z&end_date=2026-01-01T00:00:00Z",
        "start_date=soon&end_date=2026-02-30&status=burnt,open",
        "status=open&status=closed",
        "service_request_id=638344",
        "service_code=hole,lamp",
        "jurisdiction_id=elsewhere.example",
        "status=%00",
    ];
    let said: Vec<String> = queries
        .iter()
        .map(|query| {
            let refusal = ask(query).expect_err(query);
            format!("{query}: {} {}", refusal.status(), refusal.write(Format::Json))
        })
        .collect();
    assert_snapshot!("refused_questions", said.join("\n"));
}

#[test]
fn xml_that_is_refused() {
    let deep = format!("<services>{}", "<a>".repeat(40));
    let cases = [
        "",
        "services",
        "<services>",
        "<services></service>",
        "<requests/>",
        "<!DOCTYPE a [<!ENTITY b \"c\">]><services/>",
        "<services><service><service_code>&b;</service_code></service></services>",
        "<services><service><service_code>1</service_code>\n<service_code>2</service_code></service></services>",
        "<services><service><service_code>1</service_code></service></services>",
        &deep,
    ];
    let said: Vec<String> = cases
        .iter()
        .map(|text| read::<Vec<Service>>(text.as_bytes(), Format::Xml).expect_err(text).to_string())
        .collect();
    assert_snapshot!("refused_xml", said.join("\n"));
    assert!(read::<Vec<Service>>(b"<services>\xFF</services>", Format::Xml).is_err());
}

proptest! {
    #[test]
    fn any_form_is_taken_or_refused_with_words(body in prop::collection::vec(any::<u8>(), 0..300)) {
        if let Err(refusal) = read_form(&body, &office(), &|_| true) {
            prop_assert!(refusal.faults().iter().all(|fault| !fault.description.is_empty()));
        }
    }

    /// Fields of the standard with any text: what is taken holds no character that steers, and is in the district.
    #[test]
    fn any_text_is_kept_or_refused(
        description in any::<String>(), phone in "\\PC{0,60}", lat in any::<f64>(), answer in "[a-z]{0,6}",
    ) {
        let mut body = form_urlencoded::Serializer::new(String::new());
        body.append_pair("service_code", "hole").append_pair("long", "-28.4").append_pair("description", &description);
        body.append_pair("lat", &lat.to_string()).append_pair("phone", &phone).append_pair("attribute[size]", &answer);
        if let Ok(posted) = read_form(body.finish().as_bytes(), &office(), &|_| true) {
            prop_assert!(posted.description.chars().all(|c| c == '\n' || c == '\t' || !c.is_control()));
            prop_assert_eq!(posted.description.trim(), description.trim().replace("\r\n", "\n").replace('\r', "\n"));
            prop_assert!((47.1..=47.5).contains(&posted.position.lat));
        }
    }

    #[test]
    fn any_question_is_answered_or_refused(query in "\\PC{0,80}", start in "\\PC{0,30}") {
        let _ = ask(&query);
        if let Ok(Asked::Told { from, until, .. }) = ask(&format!("start_date={start}")) {
            prop_assert!(from <= until && until.duration_since(from).as_hours() <= 90 * 24);
        }
    }

    /// What is written is read again, whatever texts are in it; XML keeps no blanks around a text.
    #[test]
    fn what_is_written_can_be_read(name in "\\PC{1,40}", notes in any::<String>()) {
        let office = office();
        let mut service = office.service.service();
        service.service_name = format!("[{name}]");
        service.description = Some(format!("[{notes}]"));
        let services = vec![service];
        let json: Vec<Service> = read(write(&services, Format::Json).as_bytes(), Format::Json).expect("our JSON");
        prop_assert_eq!(&json, &services);
        prop_assert!(!write(&services, Format::Json).contains('<'));
        let xml: Vec<Service> = read(write(&services, Format::Xml).as_bytes(), Format::Xml).expect("our XML");
        prop_assert_eq!(&xml[0].service_name, &services[0].service_name);
        let is_plain = |c: char| c >= ' ' && c != '\u{FFFE}' && c != '\u{FFFF}';
        if notes.chars().all(is_plain) {
            prop_assert_eq!(&xml, &services);
        }
    }

    #[test]
    fn any_bytes_are_an_answer_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..200), markup in "[<>a-z/&;! \"]{0,80}") {
        for bytes in [bytes.as_slice(), markup.as_bytes()] {
            for format in [Format::Json, Format::Xml] {
                let _ = read::<Vec<Service>>(bytes, format);
                let _ = read::<ServiceDefinition>(bytes, format);
            }
        }
    }
}
