//! What no program of ours would send: every route answers it with a status below 500, and a refusal in the standard's form.

use axum::body::Body;
use serde_json::{Value, json};

use crate::client::{House, number};

/// Values that are wrong almost anywhere.
fn nasty() -> Vec<Value> {
    vec![
        Value::Null,
        json!(true),
        json!(-1),
        json!(1e308),
        json!(u64::MAX),
        json!(""),
        json!("'; DROP TABLE event; --"),
        json!("<script>alert(1)</script>"),
        json!("../../etc/passwd"),
        json!("a\u{0}b\u{202e}c"),
        json!("x".repeat(20_000)),
        json!([[[[[]]]]]),
        json!({"$ref": "#"}),
    ]
}

#[tokio::test]
async fn junk_is_refused_and_breaks_nothing() {
    junk(House::new().await).await;
}

/// The other store takes other texts and numbers for faults.
#[tokio::test]
async fn junk_is_refused_and_breaks_nothing_on_postgresql() {
    let Some(house) = House::on_server().await else { return };
    junk(house).await;
}

async fn junk(house: House) {
    let engineer = house.set_up().await;
    let document = house.get(&engineer, "/api/openapi.json").await.value();
    let mut sent = 0;
    for (path, operations) in document["paths"].as_object().unwrap() {
        // would end the session, or never ends
        if matches!(path.as_str(), "/api/sign-out" | "/api/devices/this") || path.ends_with("/progress") {
            continue;
        }
        for (method, operation) in operations.as_object().unwrap() {
            let method = method.to_uppercase();
            for path in addresses(path, operation) {
                for body in bodies(&document, operation) {
                    let request = engineer
                        .request(&method, &path)
                        .header("content-type", "application/json")
                        .body(Body::from(body.clone()));
                    // what is no address at all never gets to a server
                    let Ok(request) = request else { continue };
                    let answer = house.send(request).await;
                    let status = answer.status;
                    assert!(!status.is_server_error(), "{method} {path} {body}: {status} {}", answer.text());
                    let of_ours = path.starts_with("/api") && method != "HEAD" && !answer.bytes.is_empty();
                    if status.is_client_error() && of_ours {
                        answer.is_problem(status.as_u16());
                    }
                    sent += 1;
                }
            }
        }
    }
    assert!(sent > 500, "{sent}");
    assert_eq!(house.journal.head().await.unwrap().0, 0, "nothing of it is in the record");
    assert!(house.journal.follow_audit().await.unwrap().is_ok());
}

/// Addresses of a route: with numbers of nothing, with what can't be, and with each of its queries wrong.
fn addresses(path: &str, operation: &Value) -> Vec<String> {
    let filled = |with: &str| {
        let mut text = path.replace("{what}", "holes");
        while let (Some(from), Some(to)) = (text.find('{'), text.find('}')) {
            text.replace_range(from..=to, with);
        }
        text
    };
    let id = number(7).to_string();
    let mut all = vec![filled(&id), filled("%00"), filled("..%2f..%2fetc"), filled("%ff%fe"), filled(&"9".repeat(300))];
    for parameter in operation["parameters"].as_array().into_iter().flatten() {
        if parameter["in"] == "query" {
            let name = parameter["name"].as_str().unwrap();
            for value in ["", "-1", "99999999999999999999", "NaN", "%27%3B--", "%00", "%ff", "2026-13-45"] {
                all.push(format!("{}?{name}={value}", filled(&id)));
            }
        }
    }
    all
}

/// Bodies of a route: none of JSON, and each field of its shape wrong in turn.
fn bodies(document: &Value, operation: &Value) -> Vec<String> {
    let schema = &operation["requestBody"]["content"]["application/json"]["schema"];
    if schema.is_null() {
        return vec![String::new()];
    }
    let named = schema["$ref"].as_str().and_then(|reference| reference.rsplit('/').next());
    let shape = named.map_or(schema, |name| &document["components"]["schemas"][name]);
    let mut all: Vec<String> =
        ["", "{", "[]", "null", "\u{feff}{}", "{\"a\":1,\"a\":2}"].iter().map(|text| (*text).to_owned()).collect();
    let fields: Vec<&String> = shape["properties"].as_object().into_iter().flat_map(|fields| fields.keys()).collect();
    for field in &fields {
        for value in nasty() {
            let mut body = json!({});
            for other in &fields {
                body[other.as_str()] = json!("x");
            }
            body[field.as_str()] = value;
            all.push(body.to_string());
        }
    }
    all
}
