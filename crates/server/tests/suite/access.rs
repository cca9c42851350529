//! Who gets in, and to what.

use axum::body::Body;
use axum::http::StatusCode;
use serde_json::{Value, json};

use crate::client::{Client, House, number};

/// Every route of the document, for every role: let in exactly where the document says so.
#[tokio::test]
async fn every_route_is_for_whom_the_document_says() {
    let house = House::new().await;
    let engineer = house.set_up().await;
    let document = house.get(&Client::default(), "/api/openapi.json").await.value();
    let mut people = vec![("engineer", engineer.clone())];
    for role in ["crew", "planner", "storekeeper", "auditor"] {
        people.push((role, house.person(&engineer, &format!("a {role}"), role).await));
    }
    let mut looked_at = 0;
    for (path, operations) in document["paths"].as_object().unwrap() {
        // these would end the session that is used here
        if matches!(path.as_str(), "/api/sign-out" | "/api/devices/this") {
            continue;
        }
        for (method, operation) in operations.as_object().unwrap() {
            let words: Vec<&str> = operation["x-roles"]
                .as_array()
                .unwrap_or_else(|| panic!("{method} {path} says nobody may use it"))
                .iter()
                .map(|word| word.as_str().unwrap())
                .collect();
            let path = path
                .replace("{what}", "holes")
                .replace("{id}", &number(1).to_string())
                .replace("{job}", &number(1).to_string())
                .replace("{account}", &number(1).to_string())
                .replace("{file}", "moves.csv")
                .replace("{sha256}", &"0".repeat(64));
            let method = method.to_uppercase();
            let ask = async |client: &Client| {
                let body = if method == "GET" || method == "HEAD" { Body::empty() } else { Body::from("{}") };
                let request = client.request(&method, &path).header("content-type", "application/json").body(body);
                house.send(request.unwrap()).await.status
            };
            let nobody = ask(&Client::default()).await;
            assert_eq!(
                nobody != StatusCode::UNAUTHORIZED,
                words == ["public"] || path == "/api/sign-in",
                "{method} {path}"
            );
            for (role, client) in &people {
                let status = ask(client).await;
                let may = words == ["public"] || words == ["anyone"] || words.contains(role);
                let kept_out = status == StatusCode::FORBIDDEN && words != ["public"];
                assert_eq!(may, !kept_out, "{method} {path} as {role}: {status}");
                assert!(!status.is_server_error(), "{method} {path} as {role}: {status}");
                looked_at += 1;
            }
        }
    }
    assert!(looked_at > 100, "{looked_at}");
    let trail = house.get(&engineer, "/api/trail").await.value();
    let refused = trail["entries"].as_array().unwrap().iter().filter(|entry| entry["allowed"] == false).count();
    assert!(refused > 20, "each refusal is in the trail: {refused}");
    assert!(house.journal.follow_audit().await.unwrap().is_ok());
}

#[tokio::test]
async fn the_first_link_works_once_and_sessions_end() {
    let house = House::new().await;
    let first = house.server.set_up_link().await.unwrap().unwrap();
    let second = house.server.set_up_link().await.unwrap().unwrap();
    let with =
        |link: &str| json!({"token": link.rsplit_once('=').unwrap().1, "name": "mara", "password": "a long password"});
    let nobody = Client::default();
    house.json(&nobody, "POST", "/api/set-up", &with(&first)).await.is_problem(403);
    let mut short = with(&second);
    short["password"] = json!("short");
    house.json(&nobody, "POST", "/api/set-up", &short).await.is_problem(422);
    assert_eq!(house.json(&nobody, "POST", "/api/set-up", &with(&second)).await.status, 201);
    house.json(&nobody, "POST", "/api/set-up", &with(&second)).await.is_problem(403);
    assert_eq!(house.server.set_up_link().await.unwrap(), None);

    house
        .json(&nobody, "POST", "/api/sign-in", &json!({"name": "mara", "password": "not this one"}))
        .await
        .is_problem(401);
    house
        .json(&nobody, "POST", "/api/sign-in", &json!({"name": "nobody", "password": "not this one"}))
        .await
        .is_problem(401);
    let mara = house.sign_in("mara", "a long password").await;
    assert_eq!(house.get(&mara, "/api/me").await.value()["role"], "engineer");
    house.wait_minutes(12 * 60 + 1);
    house.get(&mara, "/api/me").await.is_problem(401);
    let mara = house.sign_in("mara", "a long password").await;
    assert_eq!(house.json(&mara, "POST", "/api/sign-out", &Value::Null).await.status, 204);
    house.get(&mara, "/api/me").await.is_problem(401);
}

#[tokio::test]
async fn cookies_of_other_sites_pages_do_nothing() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let new = json!({"name": "ole", "role": "crew"});
    let foreign = Client { foreign: true, ..mara.clone() };
    house.json(&foreign, "POST", "/api/accounts", &new).await.is_problem(403);
    let request = mara.request("POST", "/api/accounts").header("content-type", "application/json");
    let request = request.header("sec-fetch-site", "cross-site").body(Body::from(new.to_string())).unwrap();
    house.send(request).await.is_problem(403);
    assert_eq!(house.get(&foreign, "/api/me").await.status, 200, "reading changes nothing");
    assert_eq!(house.json(&mara, "POST", "/api/accounts", &new).await.status, 201);
    house.json(&mara, "POST", "/api/accounts", &new).await.is_problem(409);
    for name in ["", "<script>", &"a".repeat(61)] {
        house.json(&mara, "POST", "/api/accounts", &json!({"name": name, "role": "crew"})).await.is_problem(422);
    }
    house.json(&mara, "POST", "/api/accounts", &json!({"name": "x", "role": "king"})).await.is_problem(422);
}

#[tokio::test]
async fn codes_work_once_closed_accounts_lock_out_and_no_one_lifts_themselves() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let ole = house.person(&mara, "ole", "crew").await;
    let phone = house.phone(&ole, "phone 1").await;
    assert_eq!(house.get(&phone, "/api/me").await.value()["device"], "phone 1");
    let account = house.get(&ole, "/api/me").await.value()["account"].clone();
    let mine = house.get(&mara, "/api/me").await.value()["account"].clone();
    house.json(&ole, "POST", "/api/enrolments", &json!({"account": mine})).await.is_problem(403);
    let offer = house.json(&mara, "POST", "/api/enrolments", &json!({"account": account})).await.value();
    assert!(offer["picture"].as_str().unwrap().contains("<svg"));
    let scanned = json!({"token": offer["link"].as_str().unwrap().rsplit_once('=').unwrap().1, "name": "phone 2"});
    assert_eq!(house.json(&Client::default(), "POST", "/api/devices", &scanned).await.status, 201);
    house.json(&Client::default(), "POST", "/api/devices", &scanned).await.is_problem(403);
    let late = house.json(&mara, "POST", "/api/enrolments", &json!({"account": account})).await.value();
    house.wait_minutes(11);
    let scanned = json!({"token": late["link"].as_str().unwrap().rsplit_once('=').unwrap().1, "name": "phone 3"});
    house.json(&Client::default(), "POST", "/api/devices", &scanned).await.is_problem(403);

    let path = format!("/api/accounts/{}", account.as_str().unwrap());
    house.json(&ole, "PATCH", &path, &json!({"role": "engineer"})).await.is_problem(403);
    let own = format!("/api/accounts/{}", mine.as_str().unwrap());
    house.json(&mara, "PATCH", &own, &json!({"closed": true})).await.is_problem(409);
    assert_eq!(house.json(&mara, "PATCH", &path, &json!({"closed": true})).await.value()["closed"], true);
    house.get(&phone, "/api/me").await.is_problem(401);
    house.get(&ole, "/api/me").await.is_problem(401);
    let credentials = json!({"name": "ole", "password": "another password"});
    house.json(&Client::default(), "POST", "/api/sign-in", &credentials).await.is_problem(401);
}

#[tokio::test]
async fn a_lost_phone_is_ended_by_its_owner_or_an_engineer_alone() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let ole = house.person(&mara, "ole", "crew").await;
    let ida = house.person(&mara, "ida", "planner").await;
    let (lost, kept) = (house.phone(&ole, "phone 1").await, house.phone(&ole, "phone 2").await);
    let tablet = house.phone(&ida, "tablet").await;
    let listed = async |client: &Client| {
        let list = house.get(client, "/api/devices").await.value();
        let one = |device: &Value| {
            let text = |name: &str| device[name].as_str().unwrap().to_owned();
            (text("account_name"), text("name"), device["is_this"] == true, text("device"))
        };
        list.as_array().unwrap().iter().map(one).collect::<Vec<_>>()
    };
    let names = |list: &[(String, String, bool, String)]| {
        list.iter().map(|(_, name, is_this, _)| format!("{name} {is_this}")).collect::<Vec<_>>()
    };
    let all = listed(&mara).await;
    assert_eq!(names(&all), ["phone 1 false", "phone 2 false", "tablet false"]);
    assert_eq!(all[2].0, "ida");
    assert_eq!(names(&listed(&kept).await), ["phone 1 false", "phone 2 true"]);
    let end = async |client: &Client, device: &str| {
        house.json(client, "DELETE", &format!("/api/devices/{device}"), &Value::Null).await
    };
    end(&ida, &all[0].3).await.is_problem(404);
    assert_eq!(house.get(&lost, "/api/me").await.status, 200);
    assert_eq!(end(&ole, &all[0].3).await.status, 204);
    house.get(&lost, "/api/me").await.is_problem(401);
    assert_eq!(house.get(&kept, "/api/me").await.status, 200, "the others go on");
    end(&ole, &all[0].3).await.is_problem(404);
    assert_eq!(end(&mara, &all[2].3).await.status, 204);
    house.get(&tablet, "/api/me").await.is_problem(401);
    assert_eq!(names(&listed(&mara).await), ["phone 2 false"]);
    let text = house.get(&mara, "/api/trail").await.text();
    assert!(text.contains(r#""what":"forget_device","to":"phone 1","allowed":true"#), "{text}");
}

#[tokio::test]
async fn too_many_tries_are_slowed_down() {
    let house = House::with(|settings| settings.tries_per_minute = 3.try_into().unwrap()).await;
    let credentials = json!({"name": "mara", "password": "not this one"});
    for _ in 0..3 {
        house.json(&Client::default(), "POST", "/api/sign-in", &credentials).await.is_problem(401);
    }
    house.json(&Client::default(), "POST", "/api/sign-in", &credentials).await.is_problem(429);
}

#[tokio::test]
async fn answers_carry_the_headers_that_keep_others_out() {
    let house = House::new().await;
    let answer = house.get(&Client::default(), "/healthz").await;
    assert_eq!(answer.text(), "alive\n");
    for header in ["content-security-policy", "x-content-type-options", "referrer-policy", "strict-transport-security"]
    {
        assert!(answer.headers.contains_key(header), "{header}");
    }
    assert_eq!(house.get(&Client::default(), "/readyz").await.status, 200);
    house.get(&Client::default(), "/metrics").await.is_problem(401);
    house.get(&Client::default(), "/../../etc/passwd").await.is_problem(404);
    house.get(&Client::default(), "/api/nothing").await.is_problem(404);
    house.json(&Client::default(), "PUT", "/healthz", &Value::Null).await.is_problem(405);
    let mara = house.set_up().await;
    let text = house.get(&mara, "/metrics").await.text();
    assert!(text.contains("lengthsman_request_seconds_count") && !text.contains("mara"), "{text}");
}
