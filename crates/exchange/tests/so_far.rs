//! How far the crews are: what is read, every fault with its place, and the handbook's example.

use exchange::so_far::{SoFarFile, read_so_far_bytes};
use model::hole::HoleId;
use model::place::LonLat;
use model::quantity::{InTime, InVolume};
use model::round::SecondOfDay;
use proptest::prelude::*;

const CREWS: [&str; 3] = ["Crew Fulmar", "Crew Dunlin", "Crew Plover"];

const TWO_CREWS: &str = r#"time = 12:10:05

[[crews]]
name = "Crew Fulmar"
lon = -28.3411
lat = 47.3302
rested = true
done = ["H-1", "H-2"]
next = ["H-7", "H-9"]
[[crews.half_done]]
hole = "H-5"
left_min = 25
[crews.aboard]
base_m3 = 1.2
cover_stone_l = 90
binder_l = 40
water_m3 = 0.06
spoil_l = 300

[[crews]]
name = "Crew Dunlin"
lon = -28.3
lat = 47.31
rested = false
"#;

fn read(text: &str) -> SoFarFile {
    read_so_far_bytes("noon.toml", text.as_bytes(), &CREWS)
}

/// The handbook page's example: its lines set in by four.
fn handbook_example() -> String {
    let page = std::fs::read_to_string(testkit::in_repository("handbook/so-far-file.md")).expect("the page");
    let lines = page.lines().filter_map(|line| line.strip_prefix("    ").or((line.is_empty()).then_some("")));
    lines.collect::<Vec<_>>().join("\n")
}

fn ids(holes: &[HoleId]) -> Vec<&str> {
    holes.iter().map(|hole| hole.0.as_str()).collect()
}

#[test]
fn every_key_is_read_in_its_unit() {
    let file = read(TWO_CREWS);
    assert_eq!((file.problems, file.crews, file.refused_crews), (vec![], 2, 0));
    let so_far = file.so_far.expect("the day so far");
    assert_eq!(so_far.time, SecondOfDay(12 * 3600 + 10 * 60 + 5));
    let [fulmar, dunlin] = &so_far.crews[..] else { panic!("two crews: {so_far:?}") };
    assert_eq!(fulmar.crew, "Crew Fulmar");
    assert_eq!(fulmar.position, LonLat { lon: -28.3411, lat: 47.3302 });
    assert!(fulmar.rested && !dunlin.rested);
    assert_eq!((ids(&fulmar.done), ids(&fulmar.next)), (vec!["H-1", "H-2"], vec!["H-7", "H-9"]));
    assert_eq!(fulmar.half_done.len(), 1);
    assert_eq!((fulmar.half_done[0].hole.0.as_str(), fulmar.half_done[0].left.in_minutes()), ("H-5", 25.0));
    let aboard = &fulmar.aboard;
    let litres = [aboard.base, aboard.cover_stone, aboard.binder, aboard.water, aboard.spoil].map(InVolume::in_litres);
    for (got, expected) in litres.into_iter().zip([1200.0, 90.0, 40.0, 60.0, 300.0]) {
        assert!((got - expected).abs() < 1e-9, "{litres:?}");
    }
    // What is not written is nothing.
    assert_eq!(dunlin.aboard, model::so_far::AboardSoFar::default());
    assert!(dunlin.done.is_empty() && dunlin.half_done.is_empty() && dunlin.next.is_empty());
}

#[test]
fn the_handbooks_example_is_read() {
    let file = read(&handbook_example());
    assert_eq!(file.problems, []);
    let so_far = file.so_far.expect("the day so far");
    assert_eq!(so_far.crews.iter().map(|crew| crew.crew.as_str()).collect::<Vec<_>>(), ["Crew Fulmar", "Crew Dunlin"]);
    assert!(so_far.crews.iter().any(|crew| !crew.half_done.is_empty()));
}

/// What is said with one text replaced, and which crews are used all the same.
fn faults(from: &str, to: &str) -> String {
    assert!(TWO_CREWS.contains(from), "there is no `{from}`");
    let file = read(&TWO_CREWS.replacen(from, to, 1));
    assert!(!file.problems.is_empty(), "nothing is said of `{to}`");
    let used = file.so_far.map_or("nothing".into(), |so_far| {
        let crews = so_far.crews.iter().map(|crew| crew.crew.clone()).collect::<Vec<_>>();
        assert_eq!(crews.len() + file.refused_crews, file.crews);
        crews.join(", ")
    });
    let told: Vec<String> = file.problems.iter().map(|problem| format!("{problem}\n")).collect();
    format!("{}used: {used}\n", told.concat())
}

#[test]
fn faults_are_said_with_place_and_remedy() {
    let cases = [
        ("no time", "time = 12:10:05\n", ""),
        ("a time beyond the day", "12:10:05", "\"24:10\""),
        ("a time that TOML does not know", "12:10:05", "25:10:05"),
        ("a date", "12:10:05", "2026-06-09"),
        ("a key misspelt above the crews", "time = 12:10:05", "time = 12:10:05\nforman = 1"),
        ("the crews misspelt", "[[crews]]\nname = \"Crew Dunlin\"", "[[crew]]\nname = \"Crew Dunlin\""),
        ("a crew that the district has not", "\"Crew Dunlin\"", "\"Crew Dunlim\""),
        ("a crew twice", "\"Crew Dunlin\"", "\"Crew Fulmar\""),
        ("no name", "name = \"Crew Dunlin\"\n", ""),
        ("no place", "lat = 47.3302\n", ""),
        ("a place off the earth", "lat = 47.3302", "lat = 99"),
        ("swapped", "lon = -28.3411\nlat = 47.3302", "lon = 47.3302\nlat = -128.3411"),
        ("rested in words", "rested = true", "rested = \"yes\""),
        ("rested not said", "rested = true\n", ""),
        ("a key misspelt", "done = [", "dome = ["),
        ("one hole without a list", "done = [\"H-1\", \"H-2\"]", "done = \"H-1\""),
        ("a hole by a number", "\"H-2\"", "2"),
        ("a hole without a name", "\"H-2\"", "\" \""),
        ("a hole done twice", "\"H-2\"", "\"H-1\""),
        ("a hole done and next", "\"H-9\"", "\"H-2\""),
        ("a hole done and half done", "hole = \"H-5\"", "hole = \"H-1\""),
        ("a hole of another crew", "rested = false", "rested = false\nnext = [\"H-3\", \"H-5\"]"),
        ("a begun hole without a name", "hole = \"H-5\"\n", ""),
        ("a begun hole without the rest of the work", "left_min = 25\n", ""),
        ("work left below zero", "left_min = 25", "left_min = -25"),
        ("an amount below zero", "base_m3 = 1.2", "base_m3 = -1.2"),
        ("an amount beyond belief", "binder_l = 40", "binder_m3 = 40"),
        ("an amount twice", "base_m3 = 1.2", "base_m3 = 1.2\nbase_l = 1200"),
        ("an amount in no unit", "water_m3 = 0.06", "water = 60"),
        ("not finite", "spoil_l = 300", "spoil_l = inf"),
        ("no table", "[crews.aboard]\nbase_m3 = 1.2\n", "aboard = 7\n"),
        ("not TOML", "rested = false", "rested = no"),
    ];
    let told: Vec<String> = cases.iter().map(|(name, from, to)| format!("# {name}\n{}", faults(from, to))).collect();
    insta::assert_snapshot!(told.join("\n"));
}

#[test]
fn files_of_no_use_say_why() {
    let empty = read("time = 06:00:00");
    assert_eq!(empty.problems.iter().map(|problem| problem.code).collect::<Vec<_>>(), ["so_far.crews.none"]);
    assert_eq!(empty.so_far.map(|so_far| so_far.crews.len()), Some(0));
    let bytes = read_so_far_bytes("noon.toml", b"time = 12:00:00\n# \xFF", &CREWS);
    assert_eq!((bytes.so_far, bytes.problems.len()), (None, 1));
    assert_eq!((bytes.problems[0].at.line, bytes.problems[0].at.column), (2, 3));
    let missing = exchange::so_far::read_so_far(std::path::Path::new("there/is/none.toml"), &CREWS);
    assert_eq!((missing.so_far, missing.problems.len()), (None, 1));
}

/// What must hold of anything read.
fn holds(file: &SoFarFile) {
    assert!(file.problems.iter().all(|problem| !problem.wrong.is_empty() && !problem.right.is_empty()));
    let Some(so_far) = &file.so_far else {
        assert!(!file.problems.is_empty());
        return;
    };
    assert!(so_far.time.0 < 86_400);
    assert_eq!(so_far.crews.len() + file.refused_crews, file.crews);
    let mut names: Vec<&str> = so_far.crews.iter().map(|crew| crew.crew.as_str()).collect();
    assert!(names.iter().all(|name| CREWS.contains(name)));
    names.sort_unstable();
    assert!(names.windows(2).all(|pair| pair[0] != pair[1]));
    let begun =
        |crew: &model::so_far::CrewSoFar| crew.half_done.iter().map(|half| half.hole.clone()).collect::<Vec<_>>();
    let mut holes: Vec<HoleId> =
        so_far.crews.iter().flat_map(|crew| [crew.done.clone(), begun(crew), crew.next.clone()].concat()).collect();
    let all = holes.len();
    holes.sort();
    holes.dedup();
    assert_eq!(holes.len(), all, "each hole once");
    for crew in &so_far.crews {
        let aboard = &crew.aboard;
        let amounts = [aboard.base, aboard.cover_stone, aboard.binder, aboard.water, aboard.spoil];
        assert!(amounts.into_iter().all(|amount| (0.0..=30_001.0).contains(&amount.in_litres())));
        assert!(crew.half_done.iter().all(|half| half.left.in_seconds() >= 0.0));
    }
}

proptest! {
    #[test]
    fn any_bytes_give_an_answer(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
        holds(&read_so_far_bytes("noon.toml", &bytes, &CREWS));
    }

    #[test]
    fn a_damaged_file_gives_an_answer(at in 0..450_usize, length in 0..40_usize, with in "[-\\[\\]{}=\"0-9a-z.\n]{0,8}") {
        let characters: Vec<char> = TWO_CREWS.chars().collect();
        let at = at.min(characters.len());
        let end = (at + length).min(characters.len());
        let text: String = characters[..at].iter().copied().chain(with.chars()).chain(characters[end..].iter().copied()).collect();
        holds(&read(&text));
    }
}
