//! Several days of two crews of the invented district, with a forecast, and the rest of a day from noon on.

mod common;

use std::collections::BTreeSet;
use std::path::Path;

use common::{demo, lengthsman, parts};
use serde_json::Value;

fn plan(out: &Path, more: &[&str]) -> (i32, String, String) {
    let (district, holes, out) = (demo("week.toml"), demo("holes.csv"), out.display().to_string());
    let mut arguments = vec!["plan", &district, "--holes", &holes, "--date", "2026-06-09", "--out", &out];
    arguments.extend(more);
    parts(&lengthsman(&arguments))
}

fn read(folder: &Path) -> Value {
    serde_json::from_str(&std::fs::read_to_string(folder.join("work-plan.json")).unwrap()).unwrap()
}

fn list<'a>(value: &'a Value, key: &str) -> &'a Vec<Value> {
    value[key].as_array().unwrap_or_else(|| panic!("{key} is a list"))
}

/// Stops of a round at which work is done.
fn works(round: &Value) -> impl Iterator<Item = &Value> {
    list(round, "stops").iter().filter(|stop| stop["kind"] == "work")
}

fn texts(value: &Value, key: &str) -> Vec<String> {
    list(value, key).iter().map(|text| text.as_str().unwrap().to_owned()).collect()
}

#[test]
fn two_crews_share_the_holes_of_two_days_and_keep_out_of_the_rain() {
    let folder = tempfile::tempdir().unwrap();
    let forecast = demo("forecast.csv");
    let (code, stdout, stderr) = plan(folder.path(), &["--days", "2", "--forecast", &forecast]);
    assert_eq!(code, 3, "the list has bad rows on purpose: {stderr}");
    assert!(!stderr.contains("breaks a rule"), "{stderr}");
    let work = read(folder.path());
    let rounds = list(&work, "rounds");
    let crews: BTreeSet<&str> = rounds.iter().map(|round| round["crew"].as_str().unwrap()).collect();
    let dates: BTreeSet<&str> = rounds.iter().map(|round| round["date"].as_str().unwrap()).collect();
    assert_eq!((crews.len(), dates.len()), (2, 2), "{stdout}");
    // Every hole once, in one round.
    let mended: Vec<String> =
        rounds.iter().flat_map(|round| list(round, "stops")).flat_map(|stop| texts(stop, "holes")).collect();
    assert_eq!(mended.iter().collect::<BTreeSet<_>>().len(), mended.len());
    let in_round = list(&work, "fates").iter().filter(|fate| fate["fate"] == "in_round").count();
    assert_eq!(in_round, mended.len());
    // The price of risk: a point costs 25 a day, until the day of the mend or over both days.
    let risk = |site: &Value, days: usize| {
        25.0 * list(site, "worth").iter().take(days).map(|worth| worth.as_f64().unwrap()).sum::<f64>()
    };
    let (mut until_mended, mut left) = (0.0, 0.0);
    for site in list(&work, "sites") {
        match site["date"].as_str() {
            Some("2026-06-09") => {}
            Some(_) => until_mended += risk(site, 1),
            None => left += risk(site, 2),
        }
    }
    for (part, sum) in [("risk_until_mended", until_mended), ("risk_left", left)] {
        let said = work["cost"][part].as_f64().unwrap();
        assert!((said - sum).abs() <= 1e-6 * sum.max(1.0), "{part}: {said}, by hand {sum}");
    }
    // A pack of one round does not say that nothing is left out.
    let pack = std::fs::read_dir(folder.path()).unwrap().find_map(|entry| {
        let file = entry.unwrap().path().join("plan.json");
        file.is_file().then(|| std::fs::read_to_string(file).unwrap())
    });
    let pack: Value = serde_json::from_str(&pack.expect("there is a round")).unwrap();
    assert_eq!(pack["of_work_plan"], true);
    // On the second day it rains from noon, and work ends two hours before.
    for stop in rounds.iter().filter(|round| round["date"] == "2026-06-10").flat_map(works) {
        assert!(stop["to"].as_str().unwrap() <= "12:00:00", "{stop}");
    }
    // Each round has a job pack of its own, and loads hold as asked.
    for round in rounds {
        assert!(round["suffices"].as_f64().unwrap() >= 0.9, "{round}");
        the_timetable_holds_together(round);
    }
    let packs = std::fs::read_dir(folder.path())
        .unwrap()
        .filter(|entry| entry.as_ref().is_ok_and(|entry| entry.path().join("job-pack.pdf").is_file()));
    assert_eq!(packs.count(), rounds.len());
    for site in list(&work, "sites") {
        assert!(!site["why"].as_str().unwrap().is_empty(), "{site}");
    }
}

/// Stops follow each other from the depot to the depot, the way is driven through where they are, and what is loaded is told.
fn the_timetable_holds_together(round: &Value) {
    let stops = list(round, "stops");
    let (first, last) = (stops.first().unwrap(), stops.last().unwrap());
    assert_eq!((&first["from"], &last["to"]), (&round["begins"], &round["ends"]));
    assert_eq!((&first["at"], &first["place"]), (&last["at"], &last["place"]), "out of the depot and back");
    assert!(stops.windows(2).all(|pair| pair[0]["to"] == pair[1]["from"]), "{round}");
    for stop in stops {
        let holes = list(stop, "holes");
        assert_eq!(stop["kind"] == "work", !holes.is_empty(), "{stop}");
        assert!(stop["place"].is_array(), "{stop}");
    }
    // The line passes each place that is driven to: within some 30 m, since a site may lie beside its road's axis.
    let line = list(round, "line");
    for stop in stops.iter().filter(|stop| stop["kind"] == "drive") {
        let degrees = |value: &Value, index: usize| value[index].as_f64().unwrap();
        let off = |point: &Value| {
            let (east, north) =
                (degrees(point, 0) - degrees(&stop["place"], 0), degrees(point, 1) - degrees(&stop["place"], 1));
            111_320.0 * (east * 0.678).hypot(north)
        };
        let nearest = line.iter().map(off).fold(f64::INFINITY, f64::min);
        assert!(nearest < 30.0 || stop["site"].is_null() && nearest < 500.0, "{nearest} m from the line: {stop}");
    }
    let loads = list(round, "load");
    for content in ["base", "cover_stone", "binder", "water"] {
        let of = loads.iter().filter(|load| load["content"] == content);
        assert!(of.map(|load| load["amount"].as_f64().unwrap()).sum::<f64>() > 0.0, "{content}: {loads:?}");
    }
}

#[test]
fn from_noon_on_the_rest_of_the_day_keeps_to_the_order() {
    let folder = tempfile::tempdir().unwrap();
    plan(&folder.path().join("morning"), &[]);
    let morning = read(&folder.path().join("morning"));
    let fulmar = list(&morning, "rounds").iter().find(|round| round["crew"] == "Crew Fulmar").expect("goes out");
    let stops: Vec<Vec<String>> = works(fulmar).map(|stop| texts(stop, "holes")).collect();
    assert!(stops.len() >= 2, "the morning has two stops at least: {fulmar}");
    let quoted = |holes: &[String]| holes.iter().map(|hole| format!("{hole:?}")).collect::<Vec<_>>().join(", ");
    let so_far = format!(
        "time = 12:10:00\n[[crews]]\nname = \"Crew Fulmar\"\nlon = -28.4012\nlat = 47.3005\nrested = true\n\
         done = [{}]\nnext = [{}]\n[crews.aboard]\nbase_m3 = 1.2\ncover_stone_l = 150\nbinder_l = 80\nwater_l = 200\n",
        quoted(&stops[0]),
        quoted(&stops[1..].concat()),
    );
    let file = folder.path().join("noon.toml");
    std::fs::write(&file, so_far).unwrap();
    let noon = file.display().to_string();
    let (_, stdout, stderr) = plan(&folder.path().join("noon"), &["--so-far", &noon]);
    assert!(!stderr.contains("breaks a rule"), "{stderr}");
    assert!(stdout.contains("mended before"), "{stdout}");
    let work = read(&folder.path().join("noon"));
    let mended: BTreeSet<String> = list(&work, "rounds")
        .iter()
        .flat_map(|round| list(round, "stops"))
        .flat_map(|stop| texts(stop, "holes"))
        .collect();
    assert!(stops[0].iter().all(|hole| !mended.contains(hole)), "what is mended stays out");
    for round in list(&work, "rounds") {
        assert!(round["begins"].as_str().unwrap() >= "12:10:00", "{round}");
    }
    // What was next is still done, or it is told why not.
    let told: BTreeSet<String> = list(&work, "changes").iter().flat_map(|change| texts(change, "holes")).collect();
    for hole in stops[1..].concat() {
        assert!(mended.contains(&hole) || told.contains(&hole), "{hole}: {stdout}");
    }
}
