//! What lasts, and the report of a month, over HTTP.

use serde_json::json;

use crate::client::{House, number};

#[tokio::test]
async fn what_lasts_is_told_by_group() {
    let house = House::new().await;
    let engineer = house.set_up().await;
    let mut events = Vec::new();
    let mut tell = |happened: serde_json::Value, at: &str| {
        let id = number(1000 + events.len() as u64);
        events.push(
            json!({"id": id, "schema": 1, "actor": "mara", "device": "browser", "device_time": at, "happened": happened}),
        );
    };
    for (at, crew) in ["Crew A", "Crew B"].into_iter().enumerate() {
        let (round, hole, repair) = (number(10 + at as u64), number(20 + at as u64), number(30 + at as u64));
        let place = json!({"lon": 10.0, "lat": 50.0});
        tell(json!({"kind": "hole_reported", "hole": hole, "position": place}), "2026-05-01T08:00:00Z");
        let planned = json!({"repair": repair, "holes": [hole], "area_m2": 0.5, "base_loose_m3": "0.1", "water_l": "4",
            "binder_l": "1", "cover_stone_m3": "0.01", "minutes": "50"});
        tell(
            json!({"kind": "round_planned", "round": round, "date": "2026-05-02", "crew": crew, "repairs": [planned]}),
            "2026-05-01T09:00:00Z",
        );
        tell(json!({"kind": "hole_cut", "repair": repair, "holes": [hole], "area_m2": 0.6}), "2026-05-02T09:00:00Z");
        tell(json!({"kind": "opened_to_traffic", "repair": repair}), "2026-05-02T10:00:00Z");
    }
    tell(json!({"kind": "failed", "repair": number(31)}), "2026-05-04T10:00:00Z");
    let sent = house.json(&engineer, "POST", "/api/events", &json!({"events": events})).await.value();
    let outcomes = sent["events"].as_array().unwrap();
    assert!(outcomes.iter().all(|event| event["outcome"] == "recorded"), "{sent}");

    let lasts = house.get(&engineer, "/api/lasting").await.value();
    assert_eq!(lasts["by"], "crew");
    let groups: Vec<_> = lasts["groups"]
        .as_array()
        .unwrap()
        .iter()
        .map(|group| (&group["name"], &group["n"], &group["failures"]))
        .collect();
    assert_eq!(groups, [(&json!("Crew A"), &json!(1), &json!(0)), (&json!("Crew B"), &json!(1), &json!(1))]);
    assert_eq!(lasts["verdict"], json!({"kind": "too_few", "groups": ["Crew A", "Crew B"]}));
    assert_eq!(lasts["groups"][0]["too_few"], true);
    assert_eq!(lasts["words"][1], "Crew B: 1 repair, 1 failure: too few to tell.");
    assert_eq!(lasts["restricted_means"][1]["mean"], 2.0);
    let earlier = house.get(&engineer, "/api/lasting?by=rules&until=2026-05-03").await.value();
    assert_eq!((&earlier["groups"][0]["n"], &earlier["groups"][0]["failures"]), (&json!(2), &json!(0)));
    house.get(&engineer, "/api/lasting?by=colour").await.is_problem(422);
    let within = house.get(&engineer, "/api/lasting?by=crew&within=wetness").await.value();
    assert_eq!((&within["within"]["log_rank"]["df"], &lasts["within"]), (&json!(1), &json!(null)));
    assert_eq!(within["between_looks"], json!([]), "no failure was found at a look");
    // one failure in two lives: said, not fitted
    house.get(&engineer, "/api/lasting?factors=crew,wetness").await.is_problem(422);
    house.get(&engineer, "/api/lasting?factors=colour").await.is_problem(422);

    let report = house.get(&engineer, "/api/reports/2026-05").await.value();
    assert_eq!(
        (&report["done"]["repairs"], &report["goes_on"], &report["until"]),
        (&json!(2), &json!(true), &json!("2026-05-06"))
    );
    let (one, other, lasting) = tokio::join!(
        house.get(&engineer, "/api/reports/2026-04"),
        house.get(&engineer, "/api/reports/2026-04"),
        house.get(&engineer, "/api/lasting?by=road"),
    );
    assert_eq!((one.value(), lasting.status.as_u16()), (other.value(), 200), "asked at once");
    let page = house.get(&engineer, "/api/reports/2026-05.html").await;
    assert!(page.text().starts_with("<!DOCTYPE html>") && page.text().contains("May 2026"), "{}", page.text());
    let spanish = house.get(&engineer, "/api/reports/2026-05.html?language=es").await.text();
    assert!(spanish.contains("<html lang=\"es\" dir=\"ltr\">") && spanish.contains("Mayo de 2026"), "{spanish}");
    house.get(&engineer, "/api/reports/2026-05.html?language=xx").await.is_problem(422);
    let paper = house.get(&engineer, "/api/reports/2026-05.pdf").await;
    assert_eq!(
        (paper.headers["content-type"].to_str().unwrap(), paper.text().as_str()),
        ("application/pdf", "%PDF May 2026")
    );
    house.get(&engineer, "/api/reports/2026-06").await.is_problem(422);
    for name in ["2026-13", "2026-05.doc", "may", "2026-5"] {
        house.get(&engineer, &format!("/api/reports/{name}")).await.is_problem(404);
    }
}
