//! Same-hole matching: the handbook's worked examples, and what the grouping says.

use jiff::civil::{Date, date};
use model::district::UnitSystem;
use model::hole::{HoleId, LanePosition};
use model::quantity::{InLength, metres, millimetres};
use model::road::SectionId;
use model::rules::matching::MatchingRules;
use serde::Deserialize;
use testkit::worked_examples;
use triage::same_hole::{self, Closeness, Leading, Report, same_holes};

fn rules() -> MatchingRules {
    let path = testkit::in_repository("rules/matching/common-practice.toml");
    toml::from_str(&std::fs::read_to_string(path).expect("the rule file")).expect("its shape")
}

fn pair(a: &Report, b: &Report, rules: &MatchingRules) -> Result<Closeness, String> {
    same_hole::pair(a, b, rules, UnitSystem::Si)
}

fn leading(members: &[usize], reports: &[Report], rules: &MatchingRules) -> Leading {
    same_hole::leading(members, reports, rules, UnitSystem::Si)
}

/// Half a metre square, 100 mm deep, at 100 m, in the right lane, on day 0.
fn report(id: &str, source: &str) -> Report {
    Report {
        id: HoleId(id.into()),
        section: SectionId(0),
        chainage: metres(100.0),
        across: metres(1.5),
        lane_position: None,
        length: metres(0.5),
        width: metres(0.5),
        depth: millimetres(100.0),
        seen: Some(day(0)),
        source: source.into(),
    }
}

fn day(number: i64) -> Date {
    date(2026, 1, 1).saturating_add(jiff::Span::new().days(number))
}

#[derive(Deserialize)]
struct Pair {
    sources: [String; 2],
    along_m: f64,
    across_m: f64,
    days: i64,
    sizes_m: [f64; 2],
    words: Option<String>,
    apart: Option<String>,
}

#[test]
fn pairs() {
    for case in worked_examples::<Pair>("same-hole", "pair") {
        let [length, other_length] = case.sizes_m.map(metres);
        let one = Report { length, width: length, ..report("A", &case.sources[0]) };
        let other = Report {
            chainage: one.chainage + metres(case.along_m),
            across: one.across + metres(case.across_m),
            seen: Some(day(case.days)),
            length: other_length,
            width: other_length,
            ..report("B", &case.sources[1])
        };
        let found = pair(&one, &other, &rules());
        assert_eq!(found.clone().ok().map(|close| close.words), case.words, "{found:?}");
        assert_eq!(found.err(), case.apart);
    }
}

#[derive(Deserialize)]
struct Groups {
    names: Vec<String>,
    sources: Vec<String>,
    chainages_m: Vec<f64>,
    days: Vec<i64>,
    holes: Vec<Vec<String>>,
    leaders: Vec<String>,
    first_days: Vec<i64>,
}

#[test]
fn holes() {
    for case in worked_examples::<Groups>("same-hole", "holes") {
        let reports: Vec<Report> = (0..case.names.len())
            .map(|index| Report {
                chainage: metres(case.chainages_m[index]),
                seen: Some(day(case.days[index])),
                ..report(&case.names[index], &case.sources[index])
            })
            .collect();
        let groups = same_holes(&reports, &rules());
        let name = |&member: &usize| reports[member].id.0.clone();
        let named: Vec<Vec<String>> = groups.iter().map(|members| members.iter().map(name).collect()).collect();
        assert_eq!(named, case.holes);
        let led: Vec<_> = groups.iter().map(|members| leading(members, &reports, &rules())).collect();
        assert_eq!(led.iter().map(|hole| name(&hole.leader)).collect::<Vec<_>>(), case.leaders);
        let first: Vec<_> = led.iter().map(|hole| hole.first_seen).collect();
        assert_eq!(first, case.first_days.iter().map(|&number| Some(day(number))).collect::<Vec<_>>());
    }
}

#[test]
fn a_place_in_the_lane_may_tell_apart() {
    let at = |id, place| Report { lane_position: Some(place), ..report(id, "public") };
    let (edge, centre, lane) =
        (at("A", LanePosition::Edge), at("B", LanePosition::Centre), at("C", LanePosition::Lane));
    assert_eq!(
        pair(&edge, &centre, &rules()).err().as_deref(),
        Some("one at the edge of the seal, one on the centre line")
    );
    assert!(pair(&centre, &edge, &rules()).is_err());
    assert!(pair(&edge, &lane, &rules()).is_ok());
}

#[test]
fn across_the_centre_line_only_as_far_as_the_places_may_be_off() {
    // Public and patrol: sqrt(36 + 1.44) = 6.1 m; patrol and survey: sqrt(1.44 + 1) = 1.6 m.
    let right = report("A", "patrol");
    let left = |source| Report { across: metres(-1.5), seen: Some(day(1)), ..report("B", source) };
    let close = pair(&right, &left("public"), &rules()).expect("one hole");
    assert_eq!(close.words, "0.0 m along, 3.0 m across, within the 6.1 m that the places may be off, 1 day apart");
    assert_eq!(
        pair(&right, &left("survey"), &rules()).err().as_deref(),
        Some("3.0 m across, more than the 1.6 m that both places may be off")
    );
}

#[test]
fn other_sections_and_unlisted_words() {
    let one = report("A", "gossip");
    let other = Report { seen: Some(day(3)), ..report("B", "hearsay") };
    assert_eq!(
        pair(&one, &other, &rules()).err().as_deref(),
        Some("both from gossip, which lists each hole once"),
        "words that are not listed count as one unknown source"
    );
    let elsewhere = Report { section: SectionId(1), ..report("B", "public") };
    assert_eq!(pair(&one, &elsewhere, &rules()).err().as_deref(), Some("on another stretch of road"));
    let undated = Report { seen: None, ..report("B", "public") };
    assert_eq!(pair(&one, &undated, &rules()).expect("one hole").words, "0.0 m along, same side, day not told");
}

#[test]
fn the_latest_measure_leads_and_a_later_larger_guess_is_said() {
    let reports = [
        Report { seen: Some(day(1)), length: metres(0.4), ..report("A", "patrol") },
        Report { seen: Some(day(8)), length: metres(0.6), ..report("B", "survey") },
        Report { seen: Some(day(20)), length: metres(1.4), width: metres(1.0), ..report("C", "public") },
        Report { seen: Some(day(5)), length: metres(1.4), width: metres(1.0), ..report("D", "public") },
    ];
    let groups = same_holes(&reports, &rules());
    assert_eq!(groups, [vec![0, 1, 2, 3]]);
    let led = leading(&groups[0], &reports, &rules());
    assert_eq!((led.leader, led.sized, led.first_seen, led.largest_told), (1, Some(day(8)), Some(day(1)), None));
    let words: Vec<&str> = led.others.iter().map(|(_, words)| words.as_str()).collect();
    assert_eq!(
        words,
        [
            "0.0 m along, same side, 7 days apart",
            "0.0 m along, same side, 3 days apart",
            "0.0 m along, same side, 12 days apart; tells of a larger hole, 1.40 × 1.00 m, 100 mm deep: look before loading",
        ]
    );
}

#[test]
fn where_nobody_measured_the_largest_of_each_told_counts() {
    let reports = [
        Report { length: metres(0.4), width: metres(0.9), ..report("P", "public") },
        Report { length: metres(0.6), depth: millimetres(150.0), seen: Some(day(4)), ..report("Q", "public") },
    ];
    let led = leading(&[0, 1], &reports, &rules());
    assert_eq!(led.leader, 1, "of equals the later");
    assert_eq!(led.sized, Some(day(4)));
    let told = led.largest_told.expect("estimates").map(|size| (size.in_millimetres()).round());
    assert_eq!(told, [600.0, 900.0, 150.0]);
    let alone = leading(&[0], &reports, &rules());
    assert_eq!((alone.largest_told, alone.sized, alone.others.len()), (None, Some(day(0)), 0));
}

#[test]
fn close_reports_of_two_holes_say_what_tells_them_apart() {
    let reports = [
        report("A", "patrol"),
        Report { chainage: metres(101.0), ..report("B", "patrol") },
        Report { chainage: metres(180.0), ..report("C", "patrol") },
    ];
    let groups = same_holes(&reports, &rules());
    let apart = same_hole::told_apart(&reports, &groups, &rules(), UnitSystem::Si);
    assert_eq!(apart, [(0, 1, "1.0 m along, same side; both seen by patrol on one day".to_owned())]);
}

#[test]
fn rules_that_make_no_sense_are_named() {
    assert_eq!(rules().faults(), Vec::<String>::new());
    let mut wrong = rules();
    wrong.growth_ratio.value = 0.9;
    wrong.unknown_source.value.along_m = f64::NAN;
    let patrol = wrong.source.get_mut("patrol").expect("listed");
    patrol.value.size_factor = 0.5;
    let crew = wrong.source.remove("crew").expect("listed");
    wrong.source.insert("Crew".into(), crew);
    let faults = wrong.faults().join("\n");
    for key in ["growth_ratio", "unknown_source", "source.patrol", "source.Crew"] {
        assert!(faults.contains(key), "{key}: {faults}");
    }
}

#[test]
fn customary_units() {
    let one = report("A", "patrol");
    let other = Report { chainage: metres(103.048), length: metres(2.0), width: metres(2.0), ..report("B", "patrol") };
    let words = |one: &Report, other: &Report| match same_hole::pair(one, other, &rules(), UnitSystem::UsCustomary) {
        Ok(close) => close.words,
        Err(apart) => apart,
    };
    // 3.048 m is 10 ft; 0.5 m is 19.7 in; 100 mm is 3.9 in; patrol and public: 12.65 m are 41.5 ft.
    assert_eq!(
        words(&one, &Report { seen: Some(day(2)), length: metres(0.5), width: metres(0.5), ..other.clone() }),
        "10.0 ft along, same side, 2 days apart"
    );
    assert_eq!(
        words(&one, &Report { seen: Some(day(2)), ..other }),
        "sizes differ more than 2.2 times: 20 × 20 in, 3.9 in deep, and 79 × 79 in, 3.9 in deep"
    );
    assert_eq!(
        words(&one, &Report { chainage: metres(120.0), ..report("P", "public") }),
        "65.6 ft along, more than the 41.5 ft that both places may be off"
    );
}

#[test]
fn where_no_road_is_known_the_distance_alone_counts() {
    let (one, other) = (report("A", "public"), report("B", "public"));
    let found = |metres_apart: f64| same_hole::pair_apart(&one, &other, metres(metres_apart), &rules(), UnitSystem::Si);
    assert_eq!(found(8.4).map(|close| close.words), Ok("8.4 m apart, same day".to_owned()));
    // The less of 12 m and 6 m, each times the square root of two.
    let words = "8.6 m apart, more than the 8.5 m that both places may be off in any direction";
    assert_eq!(found(8.6), Err(words.to_owned()));
    assert_eq!(same_hole::farthest_apart(&rules()).in_metres(), 6.0_f64.hypot(6.0));
}
