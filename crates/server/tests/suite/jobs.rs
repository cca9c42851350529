//! Plans asked for, worked on, followed, stopped; and a worker that dies.

use serde_json::{Value, json};
use server::background;
use tokio::sync::watch;

use crate::client::{Client, House, number, report};

#[tokio::test]
async fn a_plan_is_worked_on_and_followed_and_faults_are_told() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let (stop, stopped) = watch::channel(false);
    let worker = tokio::spawn(background::work(house.server.clone(), stopped));
    let asked = house.json(&mara, "POST", "/api/plans", &json!({"date": "2026-05-07", "seed": 3})).await;
    assert_eq!(asked.status, 202);
    let path = asked.headers["location"].to_str().unwrap().to_owned();
    let followed = house.get(&mara, &format!("{path}/progress")).await;
    assert_eq!(followed.headers["content-type"], "text/event-stream");
    assert!(followed.text().contains("event: progress") && followed.text().contains("\"done\""), "{}", followed.text());
    let job = house.ended(&mara, &path).await;
    assert_eq!(job["state"], "done");
    assert_eq!(job["plan"]["rounds"], json!([]));

    for (days, words) in [(30, "no roads"), (31, "broke down")] {
        let asked = house.json(&mara, "POST", "/api/plans", &json!({"date": "2026-05-07", "days": days})).await;
        let job = house.ended(&mara, asked.headers["location"].to_str().unwrap()).await;
        assert_eq!(job["state"], "failed");
        assert!(job["words"].as_str().unwrap().contains(words), "{job}");
    }
    let long = house.json(&mara, "POST", "/api/plans", &json!({"date": "2026-05-07", "seed": 10_000})).await;
    let path = long.headers["location"].to_str().unwrap().to_owned();
    tokio::time::sleep(std::time::Duration::from_millis(700)).await;
    assert_eq!(house.json(&mara, "DELETE", &path, &Value::Null).await.status, 204);
    house.json(&mara, "DELETE", &path, &Value::Null).await.is_problem(409);
    assert_eq!(house.ended(&mara, &path).await["state"], "stopped");
    assert_eq!(house.get(&mara, "/api/plans").await.value().as_array().unwrap().len(), 4);
    for (asked, status) in [
        (json!([]), 400),
        (json!({"date": "2026-02-30"}), 400),
        (json!({"date": "2026-05-07", "days": 32}), 422),
        (json!({"date": "0001-05-07"}), 422),
        (json!({"date": "2026-05-07", "iterations": 1e9}), 400),
        (json!({"date": "2026-05-07", "changes": [{"holes": []}]}), 422),
        (json!({"date": "2026-05-07", "changes": [{"holes": [number(1)], "out": true, "crew": "Crew A"}]}), 422),
        (json!({"date": "2026-05-07", "changes": [{"holes": [number(1)], "day": "2026-05-07"}]}), 400),
    ] {
        house.json(&mara, "POST", "/api/plans", &asked).await.is_problem(status);
    }
    stop.send(true).unwrap();
    worker.await.unwrap();
}

/// The files are there by the plan's job and by the round; others are not.
async fn files_of_the_round(house: &House, mara: &Client, path: &str) {
    let round = number(1);
    for base in [format!("{path}/rounds/{round}/files"), format!("/api/rounds/{round}/files")] {
        let listed = house.get(mara, &base).await.value();
        let names: Vec<&str> = listed.as_array().unwrap().iter().map(|file| file["name"].as_str().unwrap()).collect();
        assert_eq!(names, ["plan.json", "zone-0.svg"]);
        let drawing = house.get(mara, &format!("{base}/zone-0.svg")).await;
        assert_eq!(
            (drawing.status.as_u16(), &drawing.headers["content-type"]),
            (200, &"image/svg+xml".parse().unwrap())
        );
        assert_eq!(listed[1]["bytes"], drawing.bytes.len());
        assert_eq!(listed[1]["sha256"], journal::chain::hexadecimal(&journal::chain::sha256(&drawing.bytes)));
        let known =
            mara.request("GET", &format!("{base}/zone-0.svg")).header("if-none-match", &drawing.headers["etag"]);
        let again = house.send(known.body(axum::body::Body::empty()).unwrap()).await;
        assert_eq!((again.status.as_u16(), again.bytes.len()), (304, 0));
        house.get(mara, &format!("{base}/cut-0.svg")).await.is_problem(404);
    }
    house.get(mara, &format!("{path}/rounds/{}/files", number(9))).await.is_problem(404);
    house.get(mara, &format!("/api/plans/{}/rounds/{round}/files", number(9))).await.is_problem(404);
    house.get(mara, &format!("/api/rounds/{}/files", number(9))).await.is_problem(404);
    // those of a plan that nobody took go, the others stay
    let journal = &house.journal;
    let other = journal::plan_files::PlanFile { round, name: "x".into(), media_type: "x/y".into(), content: vec![1] };
    journal.keep_plan_files(number(9), vec![other], house.server.now()).await.unwrap();
    let later = house.server.now().checked_add(jiff::SignedDuration::from_hours(1)).unwrap();
    assert_eq!(journal.forget_plan_files(later).await.unwrap(), 1);
    assert_eq!(house.get(mara, &format!("/api/rounds/{round}/files")).await.status, 200);
}

#[tokio::test]
async fn a_plan_becomes_the_crews_round_once() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let sent = json!({"events": [report(1, "mara", "browser")]});
    assert_eq!(house.json(&mara, "POST", "/api/events", &sent).await.status, 200);
    let (stop, stopped) = watch::channel(false);
    let asked = house.json(&mara, "POST", "/api/plans", &json!({"date": "2026-05-07"})).await;
    let path = asked.headers["location"].to_str().unwrap().to_owned();
    house.json(&mara, "POST", &format!("{path}/rounds"), &Value::Null).await.is_problem(409);
    let worker = tokio::spawn(background::work(house.server.clone(), stopped));
    assert_eq!(house.ended(&mara, &path).await["state"], "done");
    for _ in 0..2 {
        let rounds = house.json(&mara, "POST", &format!("{path}/rounds"), &Value::Null).await;
        assert_eq!(rounds.value(), json!([number(1)]), "{}", rounds.text());
    }
    assert_eq!(house.journal.head().await.unwrap().0, 2);
    files_of_the_round(&house, &mara, &path).await;
    let of_day = house.get(&mara, "/api/known/rounds?state=2026-05-07").await.value();
    assert_eq!(of_day["matched"], 1);
    let hole = house.get(&mara, &format!("/api/known/holes/{}", number(1_000_001))).await.value();
    assert_eq!(hole["known"]["state"], "planned");
    stop.send(true).unwrap();
    worker.await.unwrap();
}

#[tokio::test]
async fn of_plans_of_one_round_the_one_taken_last_counts_in_the_record_and_in_the_files() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let sent = json!({"events": [report(1, "mara", "browser")]});
    assert_eq!(house.json(&mara, "POST", "/api/events", &sent).await.status, 200);
    let (stop, stopped) = watch::channel(false);
    let worker = tokio::spawn(background::work(house.server.clone(), stopped));
    let mut plans = Vec::new();
    for date in ["2026-05-07", "2026-05-08", "2026-05-09"] {
        let asked = house.json(&mara, "POST", "/api/plans", &json!({"date": date})).await;
        let path = asked.headers["location"].to_str().unwrap().to_owned();
        assert_eq!(house.ended(&mara, &path).await["state"], "done");
        plans.push((date, path));
        house.wait_minutes(1);
    }
    let [first, second, late] = plans.as_slice() else { unreachable!() };
    let known = format!("/api/known/rounds/{}", number(1));
    let mut events = 1;
    // each twice, the first again after the second
    for ((date, path), is_new) in
        [(first, true), (first, false), (second, true), (second, false), (first, true), (first, false)]
    {
        let taken = house.json(&mara, "POST", &format!("{path}/rounds"), &Value::Null).await;
        assert_eq!(taken.value(), json!([number(1)]), "{}", taken.text());
        events += u64::from(is_new);
        assert_eq!(house.journal.head().await.unwrap().0, events, "{date}");
        assert_eq!(house.get(&mara, &known).await.value()["known"]["date"]["value"], *date);
        let listed = house.get(&mara, &format!("/api/rounds/{}/files", number(1))).await;
        assert_eq!(listed.value(), house.get(&mara, &format!("{path}/rounds/{}/files", number(1))).await.value());
        assert_eq!(
            house.journal.plan_of_round(number(1)).await.unwrap().unwrap().to_string(),
            path.rsplit_once('/').unwrap().1
        );
        house.wait_minutes(1);
    }
    // what nobody took for a week has no files any more
    house.wait_minutes(8 * 24 * 60);
    let mara = house.sign_in("mara", "a long password").await;
    house.json(&mara, "POST", &format!("{}/rounds", late.1), &Value::Null).await.is_problem(409);
    assert_eq!(house.json(&mara, "POST", &format!("{}/rounds", first.1), &Value::Null).await.status, 200);
    stop.send(true).unwrap();
    worker.await.unwrap();
}

#[tokio::test]
async fn a_day_planned_anew_keeps_the_repairs_that_were_begun() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let (stop, stopped) = watch::channel(false);
    let worker = tokio::spawn(background::work(house.server.clone(), stopped));
    let tell = async |event: Value| {
        let answer = house.json(&mara, "POST", "/api/events", &json!({"events": [event]})).await;
        assert_eq!(answer.value()["events"][0]["outcome"], "recorded", "{}", answer.text());
    };
    let plan = async |seed: u64| {
        let asked = house.json(&mara, "POST", "/api/plans", &json!({"date": "2026-05-07", "seed": seed})).await;
        let path = asked.headers["location"].to_str().unwrap().to_owned();
        assert_eq!(house.ended(&mara, &path).await["state"], "done");
        house.wait_minutes(1);
        path
    };
    let take = async |path: &str| {
        assert_eq!(house.json(&mara, "POST", &format!("{path}/rounds"), &Value::Null).await.status, 200);
        house.wait_minutes(1);
        let round = house.get(&mara, &format!("/api/known/rounds/{}", number(1))).await.value();
        let repairs = round["known"]["repairs"]["value"].as_array().unwrap().clone();
        repairs.iter().map(|repair| repair["repair"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    tell(report(1, "mara", "browser")).await;
    // two plans of the same hole, one after the other: nothing is begun, so the later one counts alone
    let (first, other) = (plan(1).await, plan(2).await);
    assert_eq!(take(&first).await, [number(2).to_string()]);
    assert_eq!(take(&other).await, [number(3).to_string()]);
    let mut cut = report(2, "mara", "browser");
    cut["happened"] = json!({"kind": "hole_cut", "repair": number(3), "holes": [number(1_000_001)], "area_m2": 0.4});
    tell(cut).await;
    tell(report(3, "mara", "browser")).await;
    let of_the_rest = plan(4).await;
    assert_eq!(take(&of_the_rest).await, [number(3).to_string(), number(5).to_string()]);
    let begun = house.get(&mara, &format!("/api/known/repairs/{}", number(3))).await.value();
    assert_eq!(begun["known"]["planned"]["value"]["area_m2"], 0.5, "{begun}");
    // made before it was begun: its repair of the same hole gives way, what it lacks waits again
    assert_eq!(take(&first).await, [number(3).to_string()]);
    stop.send(true).unwrap();
    worker.await.unwrap();
}

#[tokio::test]
async fn a_worker_that_dies_costs_only_time() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let asked = house.json(&mara, "POST", "/api/plans", &json!({"date": "2026-05-07"})).await;
    let path = asked.headers["location"].to_str().unwrap().to_owned();
    // taken by somebody who is never heard of again
    let hold = jiff::SignedDuration::from_secs(30);
    house.journal.take_job(house.server.now(), hold).await.unwrap().unwrap();
    assert_eq!(house.get(&mara, &path).await.value()["state"], "working");
    house.wait_minutes(1);
    let (stop, stopped) = watch::channel(false);
    let worker = tokio::spawn(background::work(house.server.clone(), stopped));
    assert_eq!(house.ended(&mara, &path).await["state"], "done");
    stop.send(true).unwrap();
    worker.await.unwrap();
}
