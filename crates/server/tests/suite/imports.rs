//! Exports sent over HTTP: worked on as jobs, followed, stopped.

use std::fmt::Write as _;

use axum::body::Body;
use serde_json::{Value, json};
use server::background;
use tokio::sync::watch;

use crate::client::{Answer, Client, House};

const EXPORT: &str = "case id,opened,lon,lat,depth_mm,status\n\
    a-1,2026-03-01 10:00,-28.4000,47.30000,80,Closed\n\
    a-2,2026-03-03 10:00,-28.4000,47.40003,120,Open\n\
    a-3,2026-03-02 10:00,47.3,-28.4,,\n";

async fn send(house: &House, client: &Client, query: &str, media_type: &str, bytes: Vec<u8>) -> Answer {
    let request = client.request("POST", &format!("/api/imports{query}")).header("content-type", media_type);
    house.send(request.body(Body::from(bytes)).unwrap()).await
}

async fn house() -> House {
    House::with(|settings| {
        settings.district = Some([-28.7, 47.1, -28.1, 47.5]);
        settings.uploads.import_bytes = 3_000_000;
    })
    .await
}

#[tokio::test]
async fn an_export_is_put_into_the_record_and_every_fault_told() {
    let house = house().await;
    let mara = house.set_up().await;
    let ida = house.person(&mara, "ida", "planner").await;
    let (stop, stopped) = watch::channel(false);
    let worker = tokio::spawn(background::work(house.server.clone(), stopped));
    let sent = send(&house, &ida, "?source=office", "text/csv; charset=utf-8", EXPORT.into()).await;
    assert_eq!(sent.status, 202, "{}", sent.text());
    let path = sent.headers["location"].to_str().unwrap().to_owned();
    let followed = house.get(&ida, &format!("{path}/progress")).await.text();
    assert!(followed.contains("event: progress") && followed.contains("\"done\""), "{followed}");
    let job = house.ended(&ida, &path).await;
    let came = &job["import"];
    assert_eq!(
        (&came["rows"], &came["added"], &came["closed"], &came["refused"]),
        (&json!(3), &json!(2), &json!(1), &json!(1))
    );
    let problem = came["problems"].as_array().unwrap().iter().find(|problem| problem["is_refused"] == true).unwrap();
    assert_eq!((&problem["code"], &problem["line"]), (&json!("intake.position.exchanged"), &json!(4)));
    assert!(
        came["columns"].as_array().unwrap().iter().any(|used| used["name"] == "depth_mm" && used["is_guessed"] == true)
    );
    let holes = house.get(&ida, "/api/known/holes").await.value();
    assert_eq!(holes["matched"], 2);
    let report = &holes["known"][0]["known"]["reports"][0];
    assert_eq!((&report["by"]["actor"], &report["source"]), (&json!("ida"), &json!("office")));
    // again, with columns by name, as GeoJSON, as nothing
    let again =
        send(&house, &ida, "", "text/csv", EXPORT.into()).await.headers["location"].to_str().unwrap().to_owned();
    assert_eq!(
        house.ended(&ida, &again).await["import"]["added"],
        2,
        "of another source, told of the same holes again"
    );
    let named = "what,e,n\nb-1,-28.4,47.2\n";
    let named =
        send(&house, &ida, "?columns=number:what,longitude:e,latitude:n&slashes=day_first", "text/csv", named.into())
            .await;
    assert_eq!(house.ended(&ida, named.headers["location"].to_str().unwrap()).await["import"]["added"], 1);
    let features = json!({"type": "FeatureCollection", "features": [
        {"type": "Feature", "geometry": {"type": "Point", "coordinates": [-28.5, 47.2]}, "properties": {}},
    ]});
    let features = send(&house, &ida, "", "application/geo+json", features.to_string().into()).await;
    assert_eq!(house.ended(&ida, features.headers["location"].to_str().unwrap()).await["import"]["added"], 1);
    for nothing in ["", "a,b\n1,2\n", "{\"type\":"] {
        let sent = send(&house, &ida, "", "text/csv", nothing.into()).await;
        let job = house.ended(&ida, sent.headers["location"].to_str().unwrap()).await;
        assert_eq!(job["state"], "failed", "{job}");
        assert!(!job["words"].as_str().unwrap().is_empty());
    }
    assert_eq!(house.get(&ida, "/api/imports").await.value().as_array().unwrap().len(), 7);
    assert_eq!(house.get(&ida, "/api/plans").await.value(), json!([]));
    house.get(&ida, &path.replace("imports", "plans")).await.is_problem(404);
    let kept = house.journal.upload(path.rsplit_once('/').unwrap().1.parse().unwrap(), 0).await.unwrap();
    assert_eq!(kept, None, "thrown away when it is over");
    stop.send(true).unwrap();
    worker.await.unwrap();
}

#[tokio::test]
async fn what_can_t_be_imported_is_refused_and_a_long_import_can_be_stopped() {
    let house = house().await;
    let mara = house.set_up().await;
    let large = send(&house, &mara, "", "text/csv", vec![b'x'; 3_000_001]).await;
    large.is_problem(413);
    for (query, media_type, status) in [
        ("", "text/html", 415),
        ("?slashes=maybe", "text/csv", 400),
        ("?columns=depht:x", "text/csv", 400),
        ("?columns=depth", "text/csv", 400),
        ("?source=%00", "text/csv", 400),
        ("?source=", "text/csv", 400),
    ] {
        send(&house, &mara, query, media_type, EXPORT.into()).await.is_problem(status);
    }
    assert_eq!(house.get(&mara, "/api/imports").await.value(), json!([]), "nothing waits");
    // as many rows as make several parts
    let mut export = "case id,opened,lon,lat\n".to_owned();
    for row in 0..40_000 {
        let (lon, lat) = (-28.6 + 0.000_5 * f64::from(row % 900), 47.15 + 0.005 * f64::from(row / 900));
        let _ = writeln!(export, "{row},2026-03-01T10:00:00Z,{lon:.5},{lat:.5}");
    }
    assert!(export.len() > 1_500_000);
    let sent = send(&house, &mara, "", "text/csv", export.into_bytes()).await;
    let path = sent.headers["location"].to_str().unwrap().to_owned();
    let (stop, stopped) = watch::channel(false);
    let worker = tokio::spawn(background::work(house.server.clone(), stopped));
    loop {
        let job = house.get(&mara, &path).await.value();
        assert!(matches!(job["state"].as_str(), Some("waiting" | "working")), "it goes on for some seconds: {job}");
        if job["state"] == "working" {
            break;
        }
        tokio::time::sleep(std::time::Duration::from_millis(20)).await;
    }
    assert_eq!(house.json(&mara, "DELETE", &path, &Value::Null).await.status, 204);
    house.json(&mara, "DELETE", &path, &Value::Null).await.is_problem(409);
    // the worker is free again, and what it came to stays
    let next = send(&house, &mara, "", "text/csv", EXPORT.into()).await;
    let next = house.ended(&mara, next.headers["location"].to_str().unwrap()).await;
    assert_eq!(next["import"]["rows"], 3);
    assert_eq!(house.ended(&mara, &path).await["state"], "stopped");
    stop.send(true).unwrap();
    worker.await.unwrap();
}
