//! Each way in which input can be wrong: a clear report, the good rest planned, nothing lost.

mod common;

use std::path::{Path, PathBuf};

use common::{demo, district_with, lengthsman, parts, plan_json};

const HEADER: &str = "id,lon,lat,length,width,depth";
/// A hole of the demo's list that lies on a road.
const GOOD: &str = "G1,-28.343897,47.362184,1.25 m,0.70 m,130 mm";

/// Plans a list in the demo's district; gives exit code, standard error and the output folder.
struct Run {
    code: i32,
    stderr: String,
    out: PathBuf,
    _folder: tempfile::TempDir,
}

fn plan(list: &[u8], changes: &[(&str, &str)], date: &str, roads: Option<&Path>) -> Run {
    let folder = tempfile::tempdir().unwrap();
    let holes = folder.path().join("holes.csv");
    std::fs::write(&holes, list).unwrap();
    let few_rounds = ("load_confidence_percent = 90", "load_confidence_percent = 90\niterations = 500");
    let district = district_with(folder.path(), &[&[few_rounds], changes].concat());
    let out = folder.path().join("out");
    let (holes, out_text) = (holes.display().to_string(), out.display().to_string());
    let mut arguments = vec!["plan", &district, "--holes", &holes, "--date", date, "--out", &out_text];
    let roads = roads.map(|path| path.display().to_string());
    if let Some(roads) = &roads {
        arguments.extend(["--roads", roads]);
    }
    let (code, _, stderr) = parts(&lengthsman(&arguments));
    assert!(!stderr.contains("panicked"), "{stderr}");
    assert!(!stderr.contains("breaks a rule"), "{stderr}");
    Run { code, stderr, out, _folder: folder }
}

fn assert_says(run: &Run, words: &[&str]) {
    // The report wraps lines; compare without the frame and the breaks.
    let flat: String = run.stderr.replace('│', " ").split_whitespace().collect::<Vec<_>>().join(" ");
    for word in words {
        assert!(flat.contains(word), "the report does not say `{word}`:\n{}", run.stderr);
    }
}

/// One bad row beside a good one: the bad one is reported with its line, the good one planned, exit code 3.
#[test]
fn a_bad_row_is_reported_and_the_good_rest_planned() {
    let table: [(&str, &[&str]); 10] = [
        (
            "B1,-28.40,47.30,1 m,1 m,9 hands",
            &["holes.csv:3", "`hands` is not a known unit", "known: mm, cm, m, in, ft"],
        ),
        ("B1,-28.40,47.30,-1 m,1 m,90 mm", &["holes.csv:3", "not above zero"]),
        ("B1,-28.40,47.30,0 m,1 m,90 mm", &["holes.csv:3", "not above zero"]),
        ("B1,-28.40,47.30,NaN m,1 m,90 mm", &["holes.csv:3", "length"]),
        ("B1,-28.40,47.30,1 m,1 m,3 m", &["holes.csv:3", "depth 3.00 m is absurd"]),
        ("B1,47.30,-28.40,1 m,1 m,90 mm", &["holes.csv:3", "swapped"]),
        ("B1,-28.343897,47.367000,1 m,1 m,90 mm", &["holes.csv:3", "the nearest road", "at most 25 m"]),
        ("G1,-28.343807,47.361993,1 m,1 m,90 mm", &["holes.csv:3", "another hole with this id"]),
        ("B1,-28.40,47.30,1 m,1 m", &["holes.csv:3"]),
        ("B1,-28.40,47.30,1,1,90", &["holes.csv:3", "no unit"]),
    ];
    for (bad, words) in table {
        let run = plan(format!("{HEADER}\n{GOOD}\n{bad}\n").as_bytes(), &[], "2026-06-09", None);
        assert_eq!(run.code, 3, "{bad}: {}", run.stderr);
        assert_says(&run, words);
        let file = plan_json(&run.out);
        assert_eq!(file["holes"].as_array().unwrap().len(), 1, "{bad}: the good hole is planned");
        assert_eq!(file["round"]["trips"].as_array().unwrap().len(), 1, "{bad}");
        let refused = file["problems"].as_array().unwrap();
        assert!(refused.iter().any(|problem| problem["line"] == 3), "{bad}: the refused row stands in plan.json");
    }
}

#[test]
fn a_row_that_is_not_utf_8_is_refused_alone() {
    let list = [HEADER.as_bytes(), b"\n", GOOD.as_bytes(), b"\nB\xff,-28.40,47.30,1 m,1 m,90 mm\n"].concat();
    let run = plan(&list, &[], "2026-06-09", None);
    assert_eq!(run.code, 3, "{}", run.stderr);
    assert_says(&run, &["holes.csv:3", "UTF-8"]);
    assert_eq!(plan_json(&run.out)["holes"].as_array().unwrap().len(), 1);
}

#[test]
fn a_list_of_no_use_produces_nothing() {
    let table: [(&str, &[&str]); 3] = [
        ("", &["holes.csv", "empty"]),
        ("id,lon,lat,length,width\nB1,-28.40,47.30,1 m,1 m\n", &["holes.csv:1", "depth"]),
        ("id,lon,lat,length,width,depth\n", &["holes.csv"]),
    ];
    for (list, words) in table {
        let run = plan(list.as_bytes(), &[], "2026-06-09", None);
        assert_eq!(run.code, 1, "{list:?}: {}", run.stderr);
        assert_says(&run, words);
        assert!(!run.out.exists(), "{list:?}: nothing is written");
    }
}

#[test]
fn a_road_file_that_breaks_off_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let roads = folder.path().join("roads.osm.pbf");
    // A PBF blob header that announces more than there is.
    std::fs::write(&roads, b"\x00\x00\x00\x0e\x0a\x09OSMHeader\x18\x7f\x08\x01").unwrap();
    let run = plan(format!("{HEADER}\n{GOOD}\n").as_bytes(), &[], "2026-06-09", Some(&roads));
    assert_eq!(run.code, 1, "{}", run.stderr);
    assert_says(&run, &["roads.osm.pbf"]);
}

#[test]
fn a_district_file_that_is_wrong_is_said_with_line_and_column() {
    let table: [(&str, &str, &[&str]); 3] = [
        ("payload_kg = 5000", "payload_kg = \"much\"", &["district.toml:", "payload_kg"]),
        ("time_zone = \"Etc/GMT+2\"", "time_zone = \"Nowhere/Here\"", &["district.toml:13:13", "Nowhere/Here"]),
        ("people = 5", "peeple = 5", &["district.toml:", "peeple", "people"]),
    ];
    for (from, to, words) in table {
        let run = plan(format!("{HEADER}\n{GOOD}\n").as_bytes(), &[(from, to)], "2026-06-09", None);
        assert_eq!(run.code, 1, "{to}: {}", run.stderr);
        assert_says(&run, words);
    }
}

#[test]
fn rule_sets_that_extend_each_other_in_a_circle_are_said() {
    let folder = tempfile::tempdir().unwrap();
    for (name, other) in [("mine", "theirs"), ("theirs", "mine")] {
        let text = format!("name = \"{name}\"\nabout = \"a circle\"\nextends = \"{other}\"\n");
        std::fs::write(folder.path().join(format!("{name}.toml")), text).unwrap();
    }
    let district = district_with(folder.path(), &[("traffic = \"us-mutcd\"", "traffic = \"mine\"")]);
    let (code, _, stderr) = parts(&lengthsman(&["check", &district]));
    assert_eq!(code, 1, "{stderr}");
    assert!(stderr.contains("mine") && stderr.contains("theirs"), "{stderr}");
    assert!(!stderr.contains("overflow"), "{stderr}");
}

/// What the district can't do is said hole by hole; the job pack still comes out, and says so.
#[test]
fn a_day_on_which_nothing_can_be_done_says_why() {
    let small_truck = [("volume_m3 = 3.2", "volume_m3 = 0.1")];
    let short_shift = [
        ("end = 16:00:00", "end = 07:50:00"),
        ("[shift.rest]\nearliest = 11:30:00\nlatest = 13:30:00\nlength_min = 30\n", ""),
    ];
    let table: [(&[(&str, &str)], &str); 2] = [(&small_truck, "more than the truck holds"), (&short_shift, "shift")];
    for (changes, words) in table {
        let run = plan(format!("{HEADER}\n{GOOD}\n").as_bytes(), changes, "2026-06-09", None);
        assert_eq!(run.code, 1, "{}", run.stderr);
        let file = plan_json(&run.out);
        let left_out = file["left_out"].as_array().unwrap();
        assert_eq!(left_out.len(), 1, "{left_out:?}");
        assert_eq!(left_out[0]["hole"], "G1");
        assert!(left_out[0]["words"].as_str().unwrap().contains(words), "{left_out:?}");
        assert!(run.out.join("job-pack.pdf").exists());
    }
}

/// Two roads at 78 degrees north, in December.
#[test]
fn a_date_without_daylight_leaves_everything_out_and_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let roads = folder.path().join("roads.geojson");
    let line = r#"{"type":"Feature","properties":{"id":"N1","class":"tertiary","surface":"chipseal"},
        "geometry":{"type":"LineString","coordinates":[[-28.40,78.30],[-28.38,78.30],[-28.36,78.31]]}}"#;
    std::fs::write(&roads, format!(r#"{{"type":"FeatureCollection","features":[{line}]}}"#)).unwrap();
    let list = format!("{HEADER}\nG1,-28.38,78.299986,1.25 m,0.70 m,130 mm\n");
    let run = plan(list.as_bytes(), &[("lat = 47.3005", "lat = 78.3000")], "2026-12-20", Some(&roads));
    assert_eq!(run.code, 1, "{}", run.stderr);
    let file = plan_json(&run.out);
    assert!(file["left_out"][0]["words"].as_str().unwrap().contains("no daylight"), "{}", file["left_out"]);
    let run = plan(list.as_bytes(), &[("lat = 47.3005", "lat = 78.3000")], "2026-06-20", Some(&roads));
    assert_eq!(run.code, 0, "in June the same hole is planned: {}", run.stderr);
}

#[test]
fn wrong_usage_has_its_own_exit_code() {
    let table: [&[&str]; 4] = [
        &["plan"],
        &["repair", "--length", "1.2", "--width", "1 m", "--depth", "100 mm"],
        &["repair", "--length", "-1 m", "--width", "1 m", "--depth", "100 mm"],
        &["plan", "x.toml", "--holes", "y.csv", "--date", "tomorrow", "--out", "z"],
    ];
    for arguments in table {
        let (code, _, stderr) = parts(&lengthsman(arguments));
        assert_eq!(code, 2, "{arguments:?}: {stderr}");
        assert!(!stderr.is_empty());
    }
    let (code, _, stderr) = parts(&lengthsman(&["check", &demo("no-such-file.toml")]));
    assert_eq!(code, 1, "{stderr}");
}
