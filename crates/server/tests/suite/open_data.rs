//! Feeds for other software, and the books.

use serde_json::{Value, json};

use crate::client::{Client, House, number, report};

/// A crew finds a hole, opens a zone, cuts it out and fills it with base from its truck.
async fn some_work(house: &House) -> Client {
    let engineer = house.set_up().await;
    let mut events: Vec<Value> = (1..=3).map(|count| report(count, "mara", "browser")).collect();
    let mut tell = |count: u64, happened: Value| {
        let mut event = report(count, "mara", "browser");
        event["happened"] = happened;
        events.push(event);
    };
    let (zone, repair, hole) = (number(50), number(60), number(1_000_001));
    tell(
        10,
        json!({"kind": "zone_opened", "zone": zone, "holes": [hole], "position": {"lon": 7.05, "lat": 47.05}, "road": "Fennow Road"}),
    );
    tell(
        11,
        json!({"kind": "hole_cut", "repair": repair, "holes": [hole], "zone": zone, "area_m2": 0.8, "depths_mm": [100.0]}),
    );
    tell(
        12,
        json!({"kind": "stock_moved", "from": {"at": "supplier", "name": "Quarry"}, "to": {"at": "depot", "name": "Fennow"},
               "item": {"what": "base", "which": "0/20"}, "amount": "2.5", "unit_price": "30"}),
    );
    tell(
        13,
        json!({"kind": "stock_moved", "from": {"at": "depot", "name": "Fennow"}, "to": {"at": "repair", "repair": repair},
               "item": {"what": "base", "which": "0/20"}, "amount": "0.5"}),
    );
    let taken = house.json(&engineer, "POST", "/api/events", &json!({"events": events})).await.value();
    assert!(taken["events"].as_array().unwrap().iter().all(|event| event["outcome"] == "recorded"), "{taken}");
    engineer
}

#[tokio::test]
async fn everybody_can_read_the_feeds_and_nobody_is_named_in_them() {
    let house = House::new().await;
    some_work(&house).await;
    let nobody = Client::default();
    for path in ["/ogc", "/ogc/", "/ogc/conformance", "/ogc/api", "/ogc/collections", "/ogc/collections/holes"] {
        let answer = house.get(&nobody, path).await;
        assert_eq!(answer.status, 200, "{path}: {}", answer.text());
    }
    let mut path = "/ogc/collections/holes/items?limit=2".to_owned();
    let mut seen = Vec::new();
    loop {
        let answer = house.get(&nobody, &path).await;
        assert_eq!(answer.headers["content-type"], "application/geo+json");
        assert!(answer.headers.contains_key("content-crs"));
        assert!(!answer.text().contains("mara") && !answer.text().contains("gate"), "{}", answer.text());
        let page = answer.value();
        assert_eq!(page["numberMatched"], 3);
        seen.extend(page["features"].as_array().unwrap().iter().map(|feature| feature["id"].clone()));
        let next = page["links"].as_array().unwrap().iter().find(|link| link["rel"] == "next").cloned();
        let Some(next) = next else { break };
        let address = next["href"].as_str().unwrap();
        path = address.strip_prefix("http://127.0.0.1:8080").unwrap().to_owned();
    }
    assert_eq!(seen.len(), 3);
    for (query, count) in [
        ("bbox=7,47,7.1,47.1", 3),
        ("bbox=8,47,8.1,47.1", 0),
        ("datetime=2026-05-06T11:00:00Z", 3),
        ("datetime=../2020-01-01", 0),
    ] {
        let page = house.get(&nobody, &format!("/ogc/collections/holes/items?{query}")).await.value();
        assert_eq!(page["numberReturned"], count, "{query}");
    }
    let repair = house.get(&nobody, &format!("/ogc/collections/repairs/items/{}", number(60))).await.value();
    assert_eq!(repair["geometry"]["coordinates"], json!([7.05, 47.05]), "a repair is where its hole is");
    for (path, status) in [
        ("/ogc/collections/holes/items?bbox=1,2", 400),
        ("/ogc/collections/holes/items?colour=red", 400),
        ("/ogc/collections/cars", 404),
        ("/ogc/collections/holes/items/1", 404),
        ("/ogc/../api/accounts", 404),
    ] {
        assert_eq!(house.get(&nobody, path).await.status, status, "{path}");
    }
    let feed = house.get(&nobody, "/wzdx").await.value();
    assert_eq!(feed["features"].as_array().unwrap().len(), 1, "{feed}");
    assert!(!feed.to_string().contains("mara"));
}

#[tokio::test]
async fn the_books_add_up_and_can_be_taken_away() {
    let house = House::new().await;
    let engineer = some_work(&house).await;
    let books = house.get(&engineer, "/api/books?from=2026-05-01&to=2026-05-31").await;
    assert_eq!(books.status, 200, "{}", books.text());
    let value = books.value();
    let depot = value["balances"].as_array().unwrap().iter().find(|balance| balance["place"]["at"] == "depot").unwrap();
    assert!(depot.to_string().contains("\"2.5") && depot.to_string().contains("\"2"), "{depot}");
    let csv = house.get(&engineer, "/api/books/balances.csv").await;
    assert!(csv.headers["content-type"].to_str().unwrap().starts_with("text/csv"));
    assert!(csv.text().contains("Fennow"), "{}", csv.text());
    let workbook = house.get(&engineer, "/api/books/books.xlsx").await;
    assert!(workbook.bytes.starts_with(b"PK"));
    let file = house.get(&engineer, "/api/exports/district.gpkg").await;
    assert!(file.bytes.starts_with(b"SQLite format 3"));
    house.get(&engineer, "/api/books/passwords.csv").await.is_problem(404);
    house.get(&engineer, "/api/books?from=2026-06-01&to=2026-05-01").await.is_problem(422);
    house.get(&engineer, "/api/books?from=yesterday").await.is_problem(400);
    house.get(&engineer, "/api/books?from=0001-01-01").await.is_problem(422);
    let mut bought = report(20, "mara", "browser");
    bought["happened"] = json!({"kind": "stock_moved", "from": {"at": "supplier", "name": "Quarry"},
        "to": {"at": "depot", "name": "Fennow"}, "item": {"what": "base", "which": "0/20"}, "amount": "1", "unit_price": "30"});
    house.json(&engineer, "POST", "/api/events", &json!({"events": [bought]})).await;
    let moves = async || {
        let books = house.get(&engineer, "/api/books?from=2026-05-01&to=2026-05-31").await.value();
        books["moves"].as_array().unwrap().len()
    };
    assert_eq!(moves().await, value["moves"].as_array().unwrap().len() + 1, "what happens later is in the next books");
    assert_eq!(moves().await, value["moves"].as_array().unwrap().len() + 1);
    let trail = house.get(&engineer, "/api/trail").await.text();
    assert!(trail.contains("books.xlsx"), "what was taken away is in the trail");
}
