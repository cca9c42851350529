//! What the web app is started from: its files, the district, the weather, tiles, cuts.

use std::sync::Arc;

use axum::body::Body;
use feeds::RoadTiles;
use model::road::RoadNetwork;
use serde_json::json;

use crate::client::{Client, House};

#[tokio::test]
async fn the_first_page_is_for_everybody_and_shadows_nothing() {
    let house = House::new().await;
    let nobody = Client::default();
    for method in ["GET", "HEAD"] {
        let page = house.send(nobody.request(method, "/").body(Body::empty()).unwrap()).await;
        assert_eq!(page.status, 200);
        assert_eq!(page.headers["content-type"], "text/html; charset=utf-8");
        assert_eq!(page.headers["cache-control"], "no-cache");
        assert!(page.headers.contains_key("etag") && page.headers.contains_key("content-security-policy"));
        assert_eq!(page.bytes.is_empty(), method == "HEAD");
    }
    for path in ["/no-such-page", "/api/no-such-page", "/assets/../Cargo.toml", "/assets/%2e%2e/Cargo.toml"] {
        house.get(&nobody, path).await.is_problem(404);
    }
    house.json(&nobody, "POST", "/", &json!({})).await.is_problem(404);
    assert_ne!(house.get(&nobody, "/ogc").await.headers["content-type"], "text/html; charset=utf-8");
}

#[tokio::test]
async fn answers_are_compressed_for_whoever_takes_it() {
    let house = House::new().await;
    let asked = Client::default().request("GET", "/api/openapi.json");
    let zipped = house.send(asked.header("accept-encoding", "gzip, br").body(Body::empty()).unwrap()).await;
    assert_eq!(zipped.headers["content-encoding"], "gzip");
    assert_eq!(zipped.headers["vary"], "accept-encoding");
    let plain = house.get(&Client::default(), "/api/openapi.json").await;
    assert!(!plain.headers.contains_key("content-encoding"));
    assert!(zipped.bytes.len() * 3 < plain.bytes.len());
}

#[tokio::test]
async fn a_district_without_a_file_is_one_of_which_little_is_known() {
    let house = House::new().await;
    let mara = house.set_up().await;
    house.get(&Client::default(), "/api/district").await.is_problem(401);
    let district = house.get(&mara, "/api/district").await.value();
    let expected = json!({"name": "a district", "units": "si", "driving_side": "right", "today": "2026-05-06", "bounds": null,
        "has_district_file": false, "crews": [], "depots": [], "binders": []});
    for (key, value) in expected.as_object().unwrap() {
        assert_eq!(&district[key], value, "{key}");
    }
    assert_eq!(house.get(&mara, "/api/weather").await.value(), json!({"days": []}));
    assert_eq!(house.get(&mara, "/api/tiles/roads/3/2/1").await.status, 204);
}

#[tokio::test]
async fn tiles_that_there_are_not_are_told_from_empty_ones() {
    let empty = Arc::new(RoadTiles::new(&RoadNetwork::default()));
    let house = House::with(|settings| settings.shown.tiles = Some(empty)).await;
    let mara = house.set_up().await;
    for path in ["0/0/0", "16/65535/65535"] {
        assert_eq!(house.get(&mara, &format!("/api/tiles/roads/{path}")).await.status, 204, "{path}");
    }
    for path in ["0/1/0", "1/0/2", "16/65536/0", "17/0/0", "255/0/0"] {
        house.get(&mara, &format!("/api/tiles/roads/{path}")).await.is_problem(404);
    }
    for path in ["256/0/0", "3/-1/0", "3/0/1.5", "3/0/a.mvt"] {
        house.get(&mara, &format!("/api/tiles/roads/{path}")).await.is_problem(400);
    }
}

#[tokio::test]
async fn a_cut_that_can_t_be_is_said() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let ring = json!([[0, 0], [1, 0], [1, 1]]);
    for (asked, status, words) in [
        (json!({"outline": ring, "depth_mm": 80}), 422, "3 points"),
        (json!({"outline": ring, "depth_mm": 80, "wetness": "damp", "near": {"lon": 7, "lat": 47}}), 422, "3 points"),
        (json!({"outline": [[0, 0], [1, 0]], "depth_mm": 80}), 422, "3 to 300"),
        (json!({"outline": [[0, 0], [1, 0], [1, 1000]], "depth_mm": 80}), 422, "within"),
        (json!({"outline": ring, "depth_mm": 0}), 422, "depth_mm"),
        (json!({"outline": ring}), 400, "depth_mm"),
        (json!({"outline": ring, "depth_mm": 80, "wetness": "soaked"}), 400, "soaked"),
        (json!({"outline": [[0, 0, 0]], "depth_mm": 80}), 400, ""),
    ] {
        let answer = house.json(&mara, "POST", "/api/cut", &asked).await;
        answer.is_problem(status);
        assert!(answer.text().contains(words), "{asked}: {}", answer.text());
    }
}
