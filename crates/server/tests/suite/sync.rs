//! Events from phones, and what is known from them.

use axum::body::Body;
use serde_json::{Value, json};

use crate::client::{Client, House, number, report};

async fn send(house: &House, client: &Client, events: &[Value]) -> Value {
    let answer = house.json(client, "POST", "/api/events", &json!({"events": events})).await;
    assert_eq!(answer.status, 200, "{}", answer.text());
    answer.value()
}

#[tokio::test]
async fn each_event_has_its_answer_and_the_good_rest_goes_on() {
    let house = House::new().await;
    let engineer = house.set_up().await;
    let crew = house.person(&engineer, "ole", "crew").await;
    let phone = house.phone(&crew, "phone 1").await;
    let good = report(1, "ole", "phone 1");
    let mut planned = report(2, "ole", "phone 1");
    planned["happened"] = json!({"kind": "hole_dismissed", "hole": number(5), "why": "a manhole"});
    let other_actor = report(3, "mara", "phone 1");
    let other_device = report(4, "ole", "phone 2");
    let mut future = report(5, "ole", "phone 1");
    future["device_time"] = json!("2027-01-01T00:00:00Z");
    let mut unknown = report(6, "ole", "phone 1");
    unknown["happened"]["depht_mm"] = json!(3);
    let mut far = report(7, "ole", "phone 1");
    far["happened"]["position"] = json!({"lon": 187.0, "lat": 47.0});
    let sent = [
        good.clone(),
        planned,
        other_actor,
        other_device,
        future,
        unknown,
        json!("?"),
        far,
        report(8, "ole", "phone 1"),
    ];
    let taken = send(&house, &phone, &sent).await;
    let outcomes: Vec<&str> =
        taken["events"].as_array().unwrap().iter().map(|event| event["outcome"].as_str().unwrap()).collect();
    let refused = "refused";
    assert_eq!(
        outcomes,
        ["recorded", refused, refused, refused, refused, refused, refused, refused, "recorded"],
        "{taken}"
    );
    let why = |index: usize| taken["events"][index]["why"].as_str().unwrap();
    assert!(why(1).contains("not for the role crew"), "{}", why(1));
    assert!(why(2).contains("`ole`"), "{}", why(2));
    assert!(why(4).contains("clock_ahead_ms"), "{}", why(4));
    assert!(why(5).contains("depht_mm"), "{}", why(5));
    assert!(why(7).contains("lon is 187"), "{}", why(7));
    assert_eq!(taken["now"], "2026-05-06T12:00:00Z");

    let again = send(&house, &phone, std::slice::from_ref(&good)).await;
    assert_eq!(again["events"][0], json!({"outcome": "known", "position": 1}));
    let mut other = good;
    other["happened"]["note"] = json!("something else");
    let refused = send(&house, &phone, &[other]).await;
    assert_eq!(refused["events"][0]["outcome"], "refused");
    assert_eq!(house.journal.head().await.unwrap().0, 2, "nothing was stored half");
}

#[tokio::test]
async fn what_is_refused_is_kept_with_the_reason_for_those_who_look_after_it() {
    let house = House::new().await;
    let engineer = house.set_up().await;
    let crew = house.person(&engineer, "ole", "crew").await;
    let auditor = house.person(&engineer, "ida", "auditor").await;
    let phone = house.phone(&crew, "phone 1").await;
    let mut unknown = report(6, "ole", "phone 1");
    unknown["happened"]["depht_mm"] = json!(3);
    let strange = json!({"kind": "\u{0}<b>", "deep": [1, {"0": "'; DROP TABLE refused; --"}]});
    let mut future = report(5, "ole", "phone 1");
    future["device_time"] = json!("2027-01-01T00:00:00Z");
    let all = [unknown.clone(), strange.clone(), future, report(1, "ole", "phone 1")];
    send(&house, &phone, &all).await;
    // once more, an hour later
    house.wait_minutes(60);
    send(&house, &phone, &all).await;
    let mut other = report(1, "ole", "phone 1");
    other["happened"]["note"] = json!("something else");
    send(&house, &phone, &[other.clone()]).await;

    let mut kept = Vec::new();
    let mut path = "/api/refused?limit=1".to_owned();
    loop {
        let page = house.get(&auditor, &path).await.value();
        kept.extend(page["events"].as_array().unwrap().clone());
        let Some(next) = page["next_after"].as_str() else { break };
        path = format!("/api/refused?limit=1&after={next}");
    }
    assert_eq!(kept.len(), 4, "each once: {kept:?}");
    let of = |sent: &Value| {
        kept.iter().find(|one| one["sent"] == *sent).unwrap_or_else(|| panic!("{sent} is not in {kept:?}"))
    };
    assert!(of(&unknown)["why"].as_str().unwrap().contains("depht_mm"));
    assert_eq!((&of(&strange)["actor"], &of(&strange)["device"]), (&json!("ole"), &json!("phone 1")));
    let twice = kept.iter().find(|one| one["sent"]["happened"]["note"] == "something else").unwrap();
    assert!(twice["why"].as_str().unwrap().contains("another event of that id"));
    assert_eq!((&of(&unknown)["at"], &twice["at"]), (&json!("2026-05-06T12:00:00Z"), &json!("2026-05-06T13:00:00Z")));
    for after in ["x", "2026-05-06T12:00:00Z_", "_00", "2026-05-06T12:00:00Z_é"] {
        let path = format!("/api/refused?after={}", after.replace('é', "%C3%A9"));
        house.get(&auditor, &path).await.is_problem(400);
    }
}

/// What most readers of JSON do not take does not keep the others of its batch back, and is shown so that it can be read.
#[tokio::test]
async fn what_is_hardly_json_is_refused_alone() {
    let house = House::new().await;
    let engineer = house.set_up().await;
    let crew = house.person(&engineer, "ole", "crew").await;
    let phone = house.phone(&crew, "phone 1").await;
    let deep = format!("{}{}", "[".repeat(10_000), "]".repeat(10_000));
    let odd = [deep.as_str(), r#"{"half":"\ud800"}"#, "1e999", r#"{"id":1,"id":2}"#];
    let good = report(1, "ole", "phone 1").to_string();
    let body = format!(r#"{{"events":[{},{good}]}}"#, odd.join(","));
    let request = phone.request("POST", "/api/events").header("content-type", "application/json");
    let answer = house.send(request.body(Body::from(body)).unwrap()).await.value();
    let outcomes: Vec<&Value> = answer["events"].as_array().unwrap().iter().map(|event| &event["outcome"]).collect();
    assert_eq!(outcomes, ["refused", "refused", "refused", "refused", "recorded"]);
    let kept = house.get(&engineer, "/api/refused").await.value();
    let mut kept: Vec<&Value> = kept["events"].as_array().unwrap().iter().map(|event| &event["sent"]).collect();
    kept.sort_by_key(ToString::to_string);
    assert_eq!(kept, [&json!("1e999"), &json!(deep), &json!(r#"{"half":"\ud800"}"#), &json!({"id": 2})]);
}

#[tokio::test]
async fn what_two_phones_told_differently_is_kept_and_shown() {
    let house = House::new().await;
    let engineer = house.set_up().await;
    let crew = house.person(&engineer, "ole", "crew").await;
    let phones = [house.phone(&crew, "phone 1").await, house.phone(&crew, "phone 2").await];
    let hole = number(1_000_001);
    send(&house, &phones[0], &[report(1, "ole", "phone 1")]).await;
    // measured later, came first
    for (index, phone, at, depth) in [(1, 1, "11:30", 140.0), (2, 0, "11:20", 110.0)] {
        let mut measured = report(10 + index, "ole", &format!("phone {}", phone + 1));
        measured["device_time"] = json!(format!("2026-05-06T{at}:00Z"));
        measured["happened"] = json!({"kind": "hole_measured", "hole": hole, "size": {"depth_mm": depth}});
        send(&house, &phones[phone], &[measured]).await;
    }
    let answer = house.get(&crew, &format!("/api/known/holes/{hole}")).await;
    let depth = &answer.value()["known"]["depth_mm"];
    assert_eq!(depth["value"], 140.0);
    assert_eq!(depth["by"]["device"], "phone 2");
    assert_eq!(depth["otherwise"][0]["value"], 110.0);

    let tag = answer.headers["etag"].clone();
    let request = crew.request("GET", &format!("/api/known/holes/{hole}")).header("if-none-match", tag.clone());
    let same = house.send(request.body(Body::empty()).unwrap()).await;
    assert_eq!(same.status, 304);
    assert!(same.bytes.is_empty());
    assert_eq!(same.headers["etag"], tag);

    let events = house.get(&engineer, &format!("/api/known/holes/{hole}/events")).await.value();
    assert_eq!(events.as_array().unwrap().len(), 3);
}

#[tokio::test]
async fn pages_follow_each_other_and_faulty_queries_are_problems() {
    let house = House::new().await;
    let engineer = house.set_up().await;
    let events: Vec<Value> = (0..25).map(|count| report(count, "mara", "browser")).collect();
    send(&house, &engineer, &events).await;
    let mut path = "/api/known/holes?limit=10".to_owned();
    let mut seen = 0;
    loop {
        let page = house.get(&engineer, &path).await.value();
        assert_eq!(page["matched"], 25);
        seen += page["known"].as_array().unwrap().len();
        let Some(after) = page["next_after"].as_str() else { break };
        path = format!("/api/known/holes?limit=10&after={after}");
    }
    assert_eq!(seen, 25);
    let in_box = house.get(&engineer, "/api/known/holes?bbox=7,47,7.1,47.1&state=reported").await.value();
    assert_eq!(in_box["matched"], 25);
    assert_eq!(house.get(&engineer, "/api/known/holes?bbox=8,47,8.1,47.1").await.value()["matched"], 0);
    // all of a batch changed with its last event
    assert_eq!(house.get(&engineer, "/api/known/holes?changed_after=24").await.value()["matched"], 25);
    assert_eq!(house.get(&engineer, "/api/known/holes?changed_after=25").await.value()["matched"], 0);
    for query in [
        "bbox=1,2,3",
        "bbox=1,2,3,x",
        "bbox=7,48,8,47",
        "limit=many",
        "after=5",
        "told_from=yesterday",
        "bbox=NaN,0,1,1",
    ] {
        house.get(&engineer, &format!("/api/known/holes?{query}")).await.is_problem(400);
    }
    house.get(&engineer, "/api/known/cars").await.is_problem(404);
    house.get(&engineer, "/api/known/holes/1").await.is_problem(400);
    house.get(&engineer, &format!("/api/known/holes/{}", number(3))).await.is_problem(404);
    let record = house.get(&engineer, "/api/events?limit=20").await.value();
    assert_eq!(record["next_after"], 20);
    assert_eq!(house.get(&engineer, "/api/events?after=20&limit=20").await.value()["next_after"], Value::Null);
}

#[tokio::test]
async fn what_was_taken_back_is_told_to_those_who_ask_for_changes() {
    let house = House::new().await;
    let engineer = house.set_up().await;
    let reports: Vec<Value> = (0..2).map(|count| report(count, "mara", "browser")).collect();
    send(&house, &engineer, &reports).await;
    let first = house.get(&engineer, "/api/known/holes?changed_after=0").await.value();
    assert_eq!((first["matched"].as_u64(), first.get("gone")), (Some(2), None));
    let mut taken_back = report(7, "mara", "browser");
    taken_back["happened"] = json!({"kind": "corrected", "event": reports[1]["id"], "why": "the same hole twice"});
    send(&house, &engineer, &[taken_back]).await;
    let hole = &reports[1]["happened"]["hole"];
    let page = house.get(&engineer, "/api/known/holes?changed_after=2").await.value();
    assert_eq!((page["matched"].as_u64(), &page["gone"]), (Some(0), &json!([hole])), "{page}");
    for (what, after) in [("holes", 3), ("repairs", 0), ("rounds", 2)] {
        let page = house.get(&engineer, &format!("/api/known/{what}?changed_after={after}")).await.value();
        assert_eq!(page.get("gone"), None, "{page}");
    }
}

/// Who plans tells that a road got a new surface; a hole under it is closed, until that is put right.
#[tokio::test]
async fn a_resurfaced_stretch_is_known_and_closes_the_holes_it_names() {
    let house = House::new().await;
    let engineer = house.set_up().await;
    let planner = house.person(&engineer, "ada", "planner").await;
    let crew = house.person(&engineer, "ole", "crew").await;
    let phone = house.phone(&crew, "phone 1").await;
    let (hole, resurfacing) = (number(1_000_001), number(9_000_001));
    send(&house, &phone, &[report(1, "ole", "phone 1")]).await;
    let told = json!({"kind": "road_resurfaced", "resurfacing": resurfacing, "date": "2026-05-06",
        "from": {"lon": 7.0, "lat": 47.0}, "to": {"lon": 7.01, "lat": 47.0}, "road": "Fennow Road", "side": "left",
        "work": "reseal", "holes": [hole]});
    let event = |count: u64, by: &str, device: &str, happened: &Value| {
        let mut event = report(count, by, device);
        event["happened"] = happened.clone();
        event
    };
    let taken = send(&house, &phone, &[event(2, "ole", "phone 1", &told)]).await;
    assert!(taken["events"][0]["why"].as_str().unwrap().contains("not for the role crew"), "{taken}");
    let changed = |name: &str, value: Value| {
        let mut changed = told.clone();
        changed[name] = value;
        changed
    };
    for (wrong, said) in [
        (changed("date", json!("2026-05-08")), "not one to come"),
        (changed("to", told["from"].clone()), "the same place"),
        (changed("to", json!({"lon": 7.9, "lat": 47.0})), "in pieces"),
        (changed("work", json!("painted")), "painted"),
        (changed("side", json!("north")), "north"),
    ] {
        let taken = send(&house, &planner, &[event(3, "ada", "browser", &wrong)]).await;
        assert!(taken["events"][0]["why"].as_str().unwrap().contains(said), "{said}: {taken}");
    }
    let first = event(4, "ada", "browser", &told);
    let taken = send(&house, &planner, std::slice::from_ref(&first)).await;
    assert_eq!(taken["events"][0]["outcome"], "recorded", "{taken}");

    let state = async || {
        let known = house.get(&planner, &format!("/api/known/holes/{hole}")).await.value();
        known["known"]["state"].as_str().unwrap().to_owned()
    };
    assert_eq!(state().await, "resurfaced");
    let page = house.get(&crew, "/api/known/resurfacings?bbox=6.9,46.9,7.1,47.1&state=2026-05-06").await.value();
    assert_eq!(page["matched"], 1, "{page}");
    let known = &page["known"][0]["known"];
    assert_eq!((&known["what"], &known["work"]["value"]), (&json!("resurfacing"), &json!("reseal")), "{known}");
    assert_eq!((&known["side"]["value"], &known["holes"]), (&json!("left"), &json!([hole])), "{known}");

    // it was not that hole's place
    let instead = changed("holes", json!([]));
    let put_right =
        json!({"kind": "corrected", "event": first["id"], "instead": instead, "why": "the hole lies beyond"});
    send(&house, &planner, &[event(5, "ada", "browser", &put_right)]).await;
    assert_eq!(state().await, "reported");
    let taken_back = json!({"kind": "corrected", "event": first["id"], "why": "another road"});
    send(&house, &planner, &[event(6, "ada", "browser", &taken_back)]).await;
    let page = house.get(&planner, "/api/known/resurfacings?changed_after=1").await.value();
    assert_eq!((page["matched"].as_u64(), &page["gone"]), (Some(0), &json!([resurfacing])), "{page}");
}

#[tokio::test]
async fn bodies_that_can_t_be_read_are_problems() {
    let house = House::new().await;
    let engineer = house.set_up().await;
    let post = |body: Vec<u8>, media_type: &'static str| {
        house.send(
            engineer.request("POST", "/api/events").header("content-type", media_type).body(Body::from(body)).unwrap(),
        )
    };
    post(b"{\"events\": [".to_vec(), "application/json").await.is_problem(400);
    post(b"{}".to_vec(), "application/json").await.is_problem(400);
    post(vec![0xff, 0xfe, 0x00], "application/json").await.is_problem(400);
    post(b"{\"events\": []}".to_vec(), "text/plain").await.is_problem(415);
    post(vec![b' '; 5_000_000], "application/json").await.is_problem(413);
    let many = json!({"events": vec![json!(1); 2_001]}).to_string();
    post(many.into_bytes(), "application/json").await.is_problem(413);
    assert_eq!(house.journal.head().await.unwrap().0, 0);
}
