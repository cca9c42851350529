//! What lasts, and the month's report, from the invented district's record of two years.

mod common;

use std::fs;
use std::path::Path;
use std::process::Command;

use common::{lengthsman, parts};
use journal::Journal;
use journal::store::Location;
use model::record::event::Event;
use serde_json::Value;
use tempfile::TempDir;

/// A data folder with the invented district and its record.
fn record() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::copy(testkit::in_repository("demo/week.toml"), folder.path().join("district.toml")).unwrap();
    for file in ["roads.geojson", "records.csv"] {
        fs::copy(testkit::in_repository("demo").join(file), folder.path().join(file)).unwrap();
    }
    let events: Vec<Event> =
        testkit::invented_record().into_iter().map(|event| serde_json::from_value(event).unwrap()).collect();
    let work = async {
        let journal = Journal::open(&Location::in_folder(folder.path())).await.unwrap();
        for batch in events.chunks(2_000) {
            journal.append(batch.to_vec(), "2026-07-01T00:00:00Z".parse().unwrap()).await.unwrap();
        }
        journal.close().await;
    };
    tokio::runtime::Runtime::new().unwrap().block_on(work);
    folder
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

#[test]
fn what_lasts_is_read_from_the_record() {
    let folder = record();
    let data = text(folder.path());
    let plot = folder.path().join("curves.svg");
    let by = |property: &str| {
        let asked =
            ["lasting", "--data", data, "--until", "2026-06-30", "--by", property, "--json", "--svg", text(&plot)];
        let (code, stdout, stderr) = parts(&lengthsman(&asked));
        assert_eq!(code, 0, "{stderr}");
        serde_json::from_str::<Value>(&stdout).unwrap()
    };
    let lives = |found: &Value| {
        found["groups"].as_array().unwrap().iter().map(|group| group["n"].as_u64().unwrap()).sum::<u64>()
    };
    let (crews, wetness, classes) = (by("crew"), by("wetness"), by("road-class"));
    assert!(lives(&crews) > 300 && lives(&crews) == lives(&wetness) && lives(&crews) == lives(&classes));
    let named = |found: &Value| {
        let groups = found["groups"].as_array().unwrap();
        groups.iter().map(|group| group["name"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(named(&crews), ["Crew Fulmar", "Crew Petrel"]);
    assert_eq!(named(&wetness), ["dry", "wet"]);
    // the record was made so that repairs in wet places hold less long
    let mean = |at: usize| wetness["restricted_means"][at]["mean"].as_f64().unwrap();
    assert!(mean(0) > 1.05 * mean(1), "{} {}", mean(0), mean(1));
    assert!(wetness["log_rank"]["p"].as_f64().unwrap() < 0.2, "{}", wetness["log_rank"]);
    assert!(wetness["pairs"].as_array().unwrap().is_empty(), "two groups are one pair");
    assert!(classes["pairs"].as_array().unwrap().len() > 1);
    assert!(fs::read_to_string(&plot).unwrap().starts_with("<svg"));

    for (property, groups) in [
        (
            "drainage",
            &["ditch blocked", "ditch works", "kerb and gully", "no drainage", "verge higher than the road"][..],
        ),
        ("material", &["crushed rock 0/20, Gannet pit", "river gravel 0/32, Skua bank"]),
        ("weather", &["dew, fog or drizzle", "dry weather", "frost by night", "not known", "rain within a day"]),
        ("temperature", &["10 to 20 °C", "20 to 30 °C", "not known", "under 10 °C"]),
    ] {
        let found = by(property);
        assert_eq!((named(&found), lives(&found)), (groups.iter().map(|&g| g.to_owned()).collect(), lives(&crews)));
    }
    let (code, _, stderr) = parts(&lengthsman(&["lasting", "--data", data, "--by", "colour"]));
    assert_eq!(code, 2);
    assert!(stderr.contains("known words: crew, material"), "{stderr}");
    let empty = tempfile::tempdir().unwrap();
    let (code, _, stderr) = parts(&lengthsman(&["lasting", "--data", text(empty.path())]));
    assert_eq!(code, 1);
    assert!(stderr.contains("is not there"), "{stderr}");
    let (code, _, stderr) = parts(&lengthsman(&["lasting"]));
    assert_eq!(code, 2, "{stderr}");
}

#[test]
fn properties_are_held_together() {
    let folder = record();
    let data = text(folder.path());
    let asked = ["lasting", "--data", data, "--until", "2026-06-30", "--by", "crew", "--within", "road-class"];
    let more = [&asked[..], &["--factors", "crew,wetness"]].concat();
    let (code, stdout, stderr) = parts(&lengthsman(&more));
    assert_eq!(code, 0, "{stderr}");
    for wanted in [
        "within road-class: chi-square",
        "fails so often",
        "wetness is held against",
        "what is not told may be behind it",
    ] {
        assert!(stdout.contains(wanted), "{wanted}\n{stdout}");
    }
    let (_, stdout, _) = parts(&lengthsman(&[&more[..], &["--json"]].concat()));
    let found: Value = serde_json::from_str(&stdout).unwrap();
    let effects = found["effects"]["each"].as_array().unwrap();
    assert_eq!(
        effects.iter().map(|effect| effect["property"].as_str().unwrap()).collect::<Vec<_>>(),
        ["crew", "wetness"]
    );
    let failing =
        |at: usize| effects[at]["failing"].as_array().unwrap().iter().map(|x| x.as_f64().unwrap()).collect::<Vec<_>>();
    assert!(failing(1)[1] < failing(1)[0] && failing(1)[0] < failing(1)[2]);
    let (code, stdout, _) =
        parts(&lengthsman(&["lasting", "--data", data, "--until", "2026-06-30", "--by-traffic", "--json"]));
    let found: Value = serde_json::from_str(&stdout).unwrap();
    assert_eq!((code, found["unit"].as_str()), (0, Some("thousand vehicles")));
}

#[test]
fn new_holes_are_told_by_road_and_season() {
    let folder = record();
    let asked = ["arrivals", "--data", text(folder.path()), "--until", "2026-06-30"];
    let (code, stdout, stderr) = parts(&lengthsman(&[&asked[..], &["--json"]].concat()));
    assert_eq!(code, 0, "{stderr}");
    let rates: Value = serde_json::from_str(&stdout).unwrap();
    let roads = rates["roads"].as_array().unwrap();
    let holes = roads.iter().map(|road| road["holes"].as_u64().unwrap()).sum::<u64>();
    assert!(holes > 100 && holes == rates["holes"].as_u64().unwrap(), "{holes}");
    assert_eq!(rates["seasons"].as_array().unwrap().len(), 3, "three seasons against the fourth");
    let (code, stdout, _) = parts(&lengthsman(&asked));
    assert!(
        code == 0 && stdout.contains("for each kilometre and year") && stdout.contains("times as many a day"),
        "{stdout}"
    );
    let empty = tempfile::tempdir().unwrap();
    let (code, _, stderr) = parts(&lengthsman(&["arrivals", "--data", text(empty.path())]));
    assert!(code == 1 && stderr.contains("is not there"), "{stderr}");
}

#[test]
fn money_for_renewals_goes_where_it_spares_most() {
    let folder = record();
    let data = text(folder.path());
    let plot = folder.path().join("curve.svg");
    let of = |more: &[&str]| {
        let asked = [&["renewals", "--data", data, "--month", "2026-06", "--json"], more].concat();
        let (code, stdout, stderr) = parts(&lengthsman(&asked));
        assert_eq!(code, 0, "{stderr}");
        serde_json::from_str::<Value>(&stdout).unwrap()
    };
    let curve = of(&["--svg", text(&plot)]);
    assert!(fs::read_to_string(&plot).unwrap().contains("<polyline"));
    let corners = curve["curve"].as_array().unwrap();
    let holes = |corner: &Value| corner["holes"].as_f64().unwrap();
    assert!(corners.len() > 3 && corners.windows(2).all(|pair| holes(&pair[0]) > holes(&pair[1])));
    let middle = &corners[corners.len() / 2];
    let budget = middle["budget"].as_f64().unwrap();
    let set = of(&["--budget", &format!("{}", budget + 0.01)]);
    let renewed = set["set"]["renewed"].as_array().unwrap();
    assert_eq!(renewed.len() as u64, middle["stretches"].as_u64().unwrap(), "a corner of the curve is the best set");
    assert!((holes(&set["set"]) - holes(middle)).abs() < 1e-6 * holes(middle));
    let prices: f64 = renewed.iter().map(|stretch| stretch["price"].as_f64().unwrap()).sum();
    assert!((prices - set["set"]["spent"].as_f64().unwrap()).abs() < 1e-6 && prices <= budget + 0.01);
    let cost = of(&["--budget", &format!("{budget}"), "--least", "cost"]);
    assert!(cost["set"]["cost"].as_f64().unwrap() <= set["set"]["cost"].as_f64().unwrap() + 1e-6);
    let (code, stdout, _) =
        parts(&lengthsman(&["renewals", "--data", data, "--month", "2026-06", "--budget", "60000"]));
    assert!(
        code == 0 && stdout.contains("No other set leaves fewer holes") && stdout.contains("The road engineer decides"),
        "{stdout}"
    );
    let (code, _, stderr) = parts(&lengthsman(&["renewals", "--data", data, "--budget", "-1"]));
    assert!(code == 2 && stderr.contains("without the currency"), "{stderr}");
}

#[test]
fn a_month_is_reported_on_paper_as_a_page_and_in_tables() {
    let folder = record();
    let (out, tables) = (folder.path().join("report"), folder.path().join("tables"));
    let asked = [
        "report",
        "--data",
        text(folder.path()),
        "--month",
        "2026-06",
        "--out",
        text(&out),
        "--tables",
        text(&tables),
        "--json",
    ];
    let (code, stdout, stderr) = parts(&lengthsman(&asked));
    assert_eq!(code, 0, "{stderr}");
    let report: Value = serde_json::from_str(&stdout).unwrap();
    assert_eq!((report["until"].as_str(), report["goes_on"].as_bool()), (Some("2026-06-30"), Some(false)));
    assert_eq!(report["stop"]["first"].as_array().unwrap().len(), 10);
    let page = fs::read_to_string(out.join("2026-06.html")).unwrap();
    let repairs = report["done"]["repairs"].as_u64().unwrap();
    assert!(page.contains(&format!("<dd>{repairs}</dd>")) && page.contains("The road engineer decides."));
    assert!(fs::read(out.join("2026-06.pdf")).unwrap().starts_with(b"%PDF"));
    for table in ["lives", "arrivals", "costs", "stop_patching", "columns"] {
        assert!(fs::read_to_string(tables.join(format!("{table}.csv"))).unwrap().lines().count() > 3, "{table}");
    }
    // the month's own table, read as a list of lives, says what the record says
    let of_table = |file: &str| {
        let file = tables.join(file);
        let asked =
            ["lasting", "--lives", text(&file), "--duration", "days", "--event", "failed", "--group", "crew", "--json"];
        let (code, stdout, stderr) = parts(&lengthsman(&asked));
        assert_eq!(code, 0, "{stderr}");
        crews_of(&stdout)
    };
    let asked = ["lasting", "--data", text(folder.path()), "--until", "2026-06-30", "--by", "crew", "--json"];
    let of_record = crews_of(&parts(&lengthsman(&asked)).1);
    assert!(of_record.len() == 2 && of_table("lives.parquet") == of_record && of_table("lives.csv") == of_record);
    let lives = fs::read_to_string(tables.join("lives.csv")).unwrap();
    let under = lives.lines().filter(|line| line.contains(",false,resurfaced,")).count();
    assert!((5..50).contains(&under), "{under} repairs lie where two roads got a new surface");
    assert!(lives.contains("sealed too cold"));
    match Command::new("pdftotext").arg("-layout").arg(out.join("2026-06.pdf")).arg("-").output() {
        Err(_) => eprintln!("skipped: pdftotext is not here (Debian: poppler-utils)"),
        Ok(output) => {
            let printed = String::from_utf8_lossy(&output.stdout);
            for heading in [
                "What was done",
                "What it cost",
                "Stock",
                "Risk that is left",
                "What lasts",
                "Where patching nears its end",
            ] {
                assert!(printed.contains(heading), "{heading}\n{printed}");
            }
        }
    }
    let (code, _, stderr) =
        parts(&lengthsman(&["report", "--data", text(folder.path()), "--month", "2026-6", "--json"]));
    assert_eq!(code, 2);
    assert!(stderr.contains("write year and month"), "{stderr}");
}

/// Each group's name, repairs and failures, by name.
fn crews_of(json: &str) -> Vec<(String, u64, u64)> {
    let found: Value = serde_json::from_str(json).unwrap();
    let of = |group: &Value| {
        let count = |what: &str| group[what].as_u64().unwrap();
        (group["name"].as_str().unwrap().to_owned(), count("n"), count("failures"))
    };
    let mut groups: Vec<_> = found["groups"].as_array().unwrap().iter().map(of).collect();
    groups.sort();
    groups
}
