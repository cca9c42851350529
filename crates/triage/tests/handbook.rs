//! Worked examples of the handbook's pages, read from the pages themselves.

mod common;

use common::{TODAY, astm, judge, ltpp, round_hole};
use jiff::civil::Date;
use model::hole::{LanePosition, Wetness};
use model::quantity::{InArea, InLength, kilometres_per_hour, millimetres, square_metres};
use model::rules::severity::DayCount;
use model::triage::Severity;
use serde::Deserialize;
use testkit::worked_examples;
use triage::TriageInput;

#[derive(Deserialize)]
struct Round {
    depth_mm: f64,
    diameter_mm: f64,
    severity: String,
}

#[derive(Deserialize)]
struct CountsAs {
    depth_mm: f64,
    area_m2: f64,
    severity: String,
    holes: f64,
}

#[derive(Deserialize)]
struct Sized {
    depth_mm: f64,
    length_mm: f64,
    width_mm: f64,
    severity: String,
}

#[test]
fn severity_by_astm_d6433() {
    for case in worked_examples::<Round>("severity", "astm") {
        let judged = judge(&round_hole(case.depth_mm, case.diameter_mm), &astm(), TODAY);
        assert_eq!(Severity::word(judged.severity), case.severity, "{} mm, {} mm", case.depth_mm, case.diameter_mm);
        assert_eq!(judged.system, "ASTM D6433");
        assert_eq!(judged.counts_as.map(|count| count.value), judged.severity.map(|_| 1.0));
    }
    for case in worked_examples::<CountsAs>("severity", "counts_as") {
        let hole = TriageInput { area: square_metres(case.area_m2), ..round_hole(case.depth_mm, 700.0) };
        let judged = judge(&hole, &astm(), TODAY);
        assert_eq!(Severity::word(judged.severity), case.severity, "{} m2", case.area_m2);
        assert_eq!(judged.counts_as.expect("rated").value, case.holes, "{} m2", case.area_m2);
    }
}

#[test]
fn severity_by_the_ltpp_manual() {
    for case in worked_examples::<Sized>("severity", "ltpp") {
        let hole = TriageInput {
            area: millimetres(case.length_mm) * millimetres(case.width_mm),
            least_plan_dimension: millimetres(case.length_mm.min(case.width_mm)),
            ..round_hole(case.depth_mm, 0.0)
        };
        let judged = judge(&hole, &ltpp(), TODAY);
        assert_eq!(Severity::word(judged.severity), case.severity, "{} mm, {} mm", case.depth_mm, case.width_mm);
        assert_eq!(judged.system, "LTPP");
    }
}

#[derive(Deserialize)]
struct Risk {
    depth_mm: f64,
    diameter_mm: f64,
    position: String,
    speed_km_h: f64,
    vehicles_per_day: f64,
    wetness: String,
    seen: String,
    today: String,
    points: f64,
    sentence: String,
}

#[derive(Deserialize)]
struct DueDay {
    depth_mm: f64,
    diameter_mm: f64,
    speed_km_h: f64,
    counted_in: DayCount,
    from: String,
    due: String,
}

#[derive(Deserialize)]
struct Outlook {
    depth_mm: f64,
    area_m2: f64,
    wetness: String,
    vehicles_per_day: f64,
    days: i64,
    depth_then_mm: f64,
    area_then_m2: f64,
}

#[derive(Deserialize)]
struct Sentence {
    depth_mm: f64,
    diameter_mm: f64,
    position: String,
    speed_km_h: f64,
    wetness: String,
    seen: String,
    today: String,
    words: String,
}

#[test]
fn risk_points_and_their_sentence() {
    for case in worked_examples::<Risk>("risk-and-due", "risk") {
        let hole = TriageInput {
            lane_position: Some(position(&case.position)),
            speed: kilometres_per_hour(case.speed_km_h),
            vehicles_per_day: Some(case.vehicles_per_day),
            wetness: Some(wetness(&case.wetness)),
            seen: Some(day(&case.seen)),
            ..round_hole(case.depth_mm, case.diameter_mm)
        };
        let judged = judge(&hole, &astm(), day(&case.today));
        assert!((judged.risk.value - case.points).abs() < 1e-6, "{}", judged.risk.value);
        assert_eq!(judged.risk_sentence, case.sentence);
    }
}

#[test]
fn due_days_in_calendar_and_in_working_days() {
    for case in worked_examples::<DueDay>("risk-and-due", "due") {
        let mut rules = astm();
        rules.due.counted_in.value = case.counted_in;
        let hole = TriageInput {
            speed: kilometres_per_hour(case.speed_km_h),
            seen: Some(day(&case.from)),
            ..round_hole(case.depth_mm, case.diameter_mm)
        };
        assert_eq!(judge(&hole, &rules, TODAY).due, Some(day(&case.due)), "{:?}", case.counted_in);
    }
}

#[test]
fn what_a_hole_may_come_to() {
    for case in worked_examples::<Outlook>("risk-and-due", "outlook") {
        // Due in as many days as are looked at.
        let mut rules = astm();
        let seen = TODAY.saturating_sub(jiff::Span::new().days(case.days));
        for group in &mut rules.due.groups.value {
            let days = u16::try_from(case.days).expect("few");
            (group.high_days, group.medium_days) = (Some(days), Some(days));
        }
        let hole = TriageInput {
            area: square_metres(case.area_m2),
            wetness: Some(wetness(&case.wetness)),
            vehicles_per_day: Some(case.vehicles_per_day),
            seen: Some(seen),
            sized: Some(seen),
            ..round_hole(case.depth_mm, 400.0)
        };
        let outlook = judge(&hole, &rules, TODAY).outlook;
        assert_eq!(outlook.day, TODAY);
        assert!((outlook.depth.value.in_millimetres() - case.depth_then_mm).abs() < 1e-6, "{:?}", outlook.depth);
        assert!((outlook.area.value.in_square_metres() - case.area_then_m2).abs() < 1e-6, "{:?}", outlook.area);
    }
}

#[test]
fn the_judgement_is_read_aloud() {
    for case in worked_examples::<Sentence>("risk-and-due", "sentence") {
        let hole = TriageInput {
            lane_position: Some(position(&case.position)),
            speed: kilometres_per_hour(case.speed_km_h),
            wetness: Some(wetness(&case.wetness)),
            seen: Some(day(&case.seen)),
            ..round_hole(case.depth_mm, case.diameter_mm)
        };
        assert_eq!(judge(&hole, &astm(), day(&case.today)).sentence, case.words);
    }
}

fn day(text: &str) -> Date {
    text.parse().expect("a day")
}

fn wetness(word: &str) -> Wetness {
    Wetness::ALL.into_iter().find(|wetness| wetness.word() == word).expect("a wetness")
}

fn position(words: &str) -> LanePosition {
    match words {
        "wheel path" => LanePosition::WheelPath,
        other => panic!("{other}"),
    }
}
