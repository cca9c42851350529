//! Against the standard's own examples and schemas (open311 `GeoReport` v2), where they are there.

mod support;

use std::fs;
use std::path::Path;

use intake::open311::answers::{Created, Service, ServiceDefinition, ServiceRequest, TokenNumber};
use intake::open311::form::read_form;
use intake::open311::refusal::{Fault, Refusal};
use intake::open311::report::created;
use intake::open311::status::request_of;
use intake::open311::wire::{Answer, Format, read, write};
use jsonschema::Validator;
use serde_json::{Value, json};
use support::{office, shared_data};
use uuid::Uuid;

fn example(folder: &Path, name: &str) -> Vec<u8> {
    fs::read(folder.join("open311/spec_examples").join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// Read, written and read again in both forms, it is the same.
fn returns<A: Answer + PartialEq + std::fmt::Debug>(folder: &Path, name: &str) -> A {
    let format = Format::of_path(name).expect("a name of one of the forms").1;
    let first: A = read(&example(folder, name), format).unwrap_or_else(|fault| panic!("{name}: {fault}"));
    for form in [Format::Json, Format::Xml] {
        let written = write(&first, form);
        let again: A = read(written.as_bytes(), form).unwrap_or_else(|fault| panic!("{name}: {fault} in {written}"));
        // Blanks around a text do not count in XML.
        if form == format {
            assert_eq!(again, first, "{name} {form:?}");
        }
        assert_eq!(write(&again, form), written, "{name} {form:?}");
    }
    first
}

#[test]
fn the_examples_are_read_and_written_back() {
    let Some(data) = shared_data() else { return };
    let services: Vec<Service> = returns(&data, "service_list.xml");
    assert_eq!(services.iter().map(|service| service.service_code.as_str()).collect::<Vec<_>>(), ["001", "002", "003"]);
    assert_eq!(services[2].group.as_deref(), Some("street"));
    let in_xml: ServiceDefinition = returns(&data, "service_definition.xml");
    let in_json: ServiceDefinition = returns(&data, "service_definition.json");
    assert_eq!(in_xml, in_json);
    assert_eq!(in_xml.attributes[0].values[1].name, "Chrysler");
    let requests: Vec<ServiceRequest> = returns(&data, "service_requests.xml");
    assert_eq!(requests.len(), 2);
    assert_eq!((requests[1].lat, requests[1].long), (Some(37.762221815), Some(-122.4651145)));
    assert_eq!(requests[0].description, None);
    let one: Vec<ServiceRequest> = returns(&data, "service_request.xml");
    assert_eq!(one[0], requests[0]);
    let in_xml: Vec<Created> = returns(&data, "service_request_post.xml");
    let in_json: Vec<Created> = returns(&data, "service_request_post.json");
    assert_eq!(in_xml, in_json);
    let in_xml: Vec<TokenNumber> = returns(&data, "request_from_token.xml");
    let in_json: Vec<TokenNumber> = returns(&data, "request_from_token.json");
    assert_eq!(in_xml, in_json);
    let in_xml: Vec<Fault> = returns(&data, "errors.xml");
    let in_json: Vec<Fault> = returns(&data, "errors.json");
    assert_eq!(in_xml, in_json);
    assert_eq!(in_xml[0].code, 403);
}

/// The standard's JSON with numbers that begin with 0 is not JSON.
#[test]
fn the_examples_that_are_no_json_are_refused_with_place_and_remedy() {
    let Some(data) = shared_data() else { return };
    for (name, line) in [("service_list", 3), ("service_request", 7), ("service_requests", 7)] {
        let bytes = example(&data, &format!("{name}.as-published.json"));
        let fault = if name == "service_list" {
            read::<Vec<Service>>(&bytes, Format::Json).err()
        } else {
            read::<Vec<ServiceRequest>>(&bytes, Format::Json).err()
        };
        let fault = fault.expect("it is no JSON");
        assert_eq!((fault.line, fault.wrong.as_str()), (line, "invalid number"), "{name}");
        assert!(fault.column > 0 && fault.right.contains("\"001\""), "{name}: {fault}");
    }
}

#[test]
fn real_answers_are_read() {
    let Some(data) = shared_data() else { return };
    let bytes = fs::read(data.join("open311/real_requests_pothole.json")).expect("the file");
    let requests: Vec<ServiceRequest> = read(&bytes, Format::Json).expect("real answers");
    let told: Vec<Value> = serde_json::from_slice(&bytes).expect("JSON");
    assert_eq!(requests.len(), told.len());
    for (request, told) in requests.iter().zip(&told) {
        assert_eq!(request.service_request_id, told["service_request_id"]);
        assert_eq!(request.lat, told["lat"].as_f64());
        assert_eq!(request.status.word(), told["status"]);
    }
}

/// The example of the standard, with a code and a place that are ours.
#[test]
fn the_example_of_a_report_is_taken() {
    let Some(data) = shared_data() else { return };
    let body = String::from_utf8(example(&data, "post_request_body.txt")).expect("text");
    let mut office = office();
    office.jurisdiction = Some("city.gov".into());
    office.service.code = "001".into();
    office.district.bounds = None;
    let posted = read_form(body.trim().as_bytes(), &office, &|key| key == Some("xyz")).expect("a report");
    assert_eq!((posted.position.lat, posted.position.lon), (37.76524078, -122.4212043));
    assert_eq!((posted.name.as_str(), posted.email.as_str()), ("john smith", "smit333@sfgov.edu"));
    assert_eq!((posted.account.as_str(), posted.device.as_str()), ("123456", "tt222111"));
    assert_eq!(posted.description, "A large sinkhole is destroying the street");
    assert_eq!(posted.media_url, "http://farm3.static.flickr.com/2002/2212426634_5ed477a060.jpg");
    assert_eq!(
        posted.other_answers,
        [("WHISPAWN".to_owned(), "123456".to_owned()), ("WHISDORN".to_owned(), "COISL001".to_owned())]
    );
    assert_eq!(read_form(body.trim().as_bytes(), &office, &|_| false), Err(Refusal::key()));
}

/// The schema of that name; what it refers to is put into it.
fn schema(data: &Path, name: &str) -> Validator {
    let read = |name: &str| -> Value {
        let bytes = fs::read(data.join("open311/schema").join(name)).expect("the schema");
        serde_json::from_slice(&bytes).expect("JSON")
    };
    let mut whole = read(name);
    if let Some(inner) = whole.pointer("/items/$ref").and_then(Value::as_str).map(str::to_owned) {
        whole["items"] = read(&inner);
    }
    jsonschema::options().should_validate_formats(true).build(&whole).expect("a sound schema")
}

fn holds<A: Answer>(schema: &Validator, answer: &A) {
    let value: Value = serde_json::from_str(&write(answer, Format::Json)).expect("our JSON");
    let wrong: Vec<String> =
        schema.iter_errors(&value).map(|error| format!("{}: {error}", error.instance_path())).collect();
    assert!(wrong.is_empty(), "{wrong:?} in {value}");
}

#[test]
fn our_answers_hold_to_the_schemas() {
    let Some(data) = shared_data() else { return };
    let office = office();
    holds(&schema(&data, "services.json"), &vec![office.service.service()]);
    holds(&schema(&data, "service-definition.json"), &office.service.definition());
    let requests: Vec<ServiceRequest> = support_holes::all()
        .iter()
        .map(|hole| request_of(hole, &support_holes::find, &|_| Some(jiff::civil::date(2026, 12, 1)), &office))
        .collect();
    assert!(requests.len() > 4);
    let schema = schema(&data, "requests.json");
    holds(&schema, &requests);
    // A schema that takes anything would tell nothing.
    assert!(!schema.is_valid(&json!([{ "service_request_id": 1, "status": "open" }])));
    assert!(created(Uuid::nil(), &office)[0].service_request_id.is_some());
}

#[path = "support/holes.rs"]
mod support_holes;
