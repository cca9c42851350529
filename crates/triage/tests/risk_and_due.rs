//! Risk points and due days with the shipped example settings, and laws that hold for any hole.

mod common;

use common::{TODAY, astm, judge, ltpp, round_hole};
use jiff::civil::date;
use model::figure::Standing;
use model::hole::{LanePosition, Wetness};
use model::quantity::{kilometres_per_hour, metres, miles_per_hour, millimetres, square_metres};
use model::road::RoadClass;
use model::triage::Severity;
use proptest::prelude::*;
use triage::{TriageInput, check_rules};

#[test]
fn risk_is_the_product_of_the_files_factors() {
    // Medium 15; 60 mm deep 1.2; wheel path 1.5; 80 km/h 1.5; 1,500 vehicles 1.7; wet 1.4; seen 31 days ago 1.3.
    let mut hole = round_hole(60.0, 300.0);
    hole.lane_position = Some(LanePosition::WheelPath);
    hole.speed = kilometres_per_hour(80.0);
    hole.vehicles_per_day = Some(1500.0);
    hole.wetness = Some(Wetness::Wet);
    hole.seen = Some(date(2026, 5, 15));
    let risk = judge(&hole, &astm(), TODAY).risk;
    assert!((risk.value - 15.0 * 1.2 * 1.5 * 1.5 * 1.7 * 1.4 * 1.3).abs() < 1e-9, "{}", risk.value);
    assert_eq!(
        risk.why.to_string(),
        "R = f_severity * f_depth * f_position * f_speed * f_traffic * f_wetness * f_age; a ranking aid only; \
         f_severity = 15 (medium), f_depth = 1.2 (60 mm), f_position = 1.5 (in a wheel path), f_speed = 1.5 (80 km/h), \
         f_traffic = 1.7 (1500 vehicles a day), f_wetness = 1.4 (wet), f_age = 1.3 (seen 31 days ago) \
         [agency setting, example]"
    );
    // Nothing known: not rated 2; 1; unknown place 1.2; 50 km/h 1.2; 200 assumed 1.2; unknown 1.1; 1.
    let risk = judge(&round_hole(10.0, 300.0), &astm(), TODAY).risk;
    assert!((risk.value - 2.0 * 1.2 * 1.2 * 1.2 * 1.1).abs() < 1e-9);
    assert!(risk.why.to_string().contains("200 vehicles a day, assumed for class unclassified"), "{}", risk.why);
}

#[test]
fn each_factor_is_the_files() {
    let why = |hole: &TriageInput| judge(hole, &astm(), TODAY).risk.why.to_string();
    let plain = round_hole(60.0, 300.0);
    let positions = [
        (LanePosition::Lane, "1 (in the lane)"),
        (LanePosition::WheelPath, "1.5 (in a wheel path)"),
        (LanePosition::Edge, "1.3 (at the edge of the seal)"),
        (LanePosition::Shoulder, "0.6 (on the shoulder)"),
        (LanePosition::Centre, "1 (on the centre line)"),
    ];
    let mut rules = astm();
    rules.risk.position.value.centre = 1.1; // told apart from the lane
    for (position, expected) in positions {
        let hole = TriageInput { lane_position: Some(position), ..plain.clone() };
        assert!(why(&hole).contains(&format!("f_position = {expected}")), "{position:?}");
        let changed = judge(&hole, &rules, TODAY).risk.value / judge(&hole, &astm(), TODAY).risk.value;
        assert!((changed - if position == LanePosition::Centre { 1.1 } else { 1.0 }).abs() < 1e-12);
    }
    let wetness = [
        (Some(Wetness::Dry), "1 (dry)"),
        (Some(Wetness::Damp), "1.1 (damp)"),
        (Some(Wetness::Wet), "1.4 (wet)"),
        (Some(Wetness::Seepage), "1.5 (seepage)"),
        (Some(Wetness::Pumping), "1.6 (pumping)"),
        (None, "1.1 (wet or dry unknown)"),
    ];
    for (wetness, expected) in wetness {
        assert!(why(&TriageInput { wetness, ..plain.clone() }).contains(&format!("f_wetness = {expected}")));
    }
    let severities = [
        (12.0, 300.0, "2 (not rated)"),
        (25.0, 300.0, "5 (low)"),
        (26.0, 300.0, "15 (medium)"),
        (60.0, 600.0, "45 (high)"),
    ];
    for (depth, diameter, expected) in severities {
        assert!(why(&round_hole(depth, diameter)).contains(&format!("f_severity = {expected}")));
    }
    for (depth, expected) in
        [(49.0, "1 (49"), (50.0, "1.2 (50"), (100.0, "1.5 (100"), (149.0, "1.5 (149"), (150.0, "2 (150")]
    {
        assert!(why(&round_hole(depth, 300.0)).contains(&format!("f_depth = {expected}")));
    }
}

#[test]
fn a_factor_from_another_source_says_so() {
    let mut rules = astm();
    rules.risk.wetness.source = "from memory: a guide".to_owned().into();
    let why = judge(&round_hole(60.0, 300.0), &rules, TODAY).risk.why.to_string();
    assert!(why.contains("f_wetness = 1.1 (wet or dry unknown) [from memory: a guide]"), "{why}");
}

#[test]
fn due_days_by_the_shipped_example() {
    // Group by class or speed, days by severity; from 15 June 2026. Example settings of the file, no outside source.
    let (none, low, medium, high) = ((10.0, 300.0), (20.0, 300.0), (40.0, 300.0), (60.0, 600.0));
    let table = [
        (RoadClass::Primary, 50.0, high, date(2026, 6, 17)),
        (RoadClass::Primary, 50.0, medium, date(2026, 6, 22)),
        (RoadClass::Primary, 50.0, low, date(2026, 7, 13)),
        (RoadClass::Primary, 50.0, none, date(2026, 9, 13)),
        (RoadClass::Tertiary, 50.0, high, date(2026, 6, 19)),
        (RoadClass::Tertiary, 89.0, medium, date(2026, 6, 29)),
        (RoadClass::Tertiary, 90.0, medium, date(2026, 6, 22)),
        (RoadClass::Unclassified, 59.0, high, date(2026, 6, 22)),
        (RoadClass::Unclassified, 60.0, high, date(2026, 6, 19)),
        (RoadClass::Unclassified, 50.0, medium, date(2026, 7, 13)),
        (RoadClass::Unclassified, 50.0, low, date(2026, 9, 7)),
        (RoadClass::Unclassified, 50.0, none, date(2026, 12, 12)),
        (RoadClass::Track, 20.0, none, date(2026, 12, 12)),
    ];
    for (class, speed, (depth, diameter), expected) in table {
        let hole = TriageInput { class, speed: kilometres_per_hour(speed), ..round_hole(depth, diameter) };
        let judged = judge(&hole, &astm(), TODAY);
        assert_eq!(judged.due, Some(expected), "{class:?} {speed} km/h {depth} mm");
        // Shown for what it is.
        assert_eq!(judged.due_why.source.standing, Standing::Agency);
        assert!(judged.due_why.to_string().contains("example"));
    }
}

#[test]
fn due_days_count_from_the_day_seen() {
    let due = |seen| {
        let hole = TriageInput { seen, class: RoadClass::Primary, ..round_hole(60.0, 600.0) };
        let judged = judge(&hole, &astm(), TODAY);
        (judged.due, judged.due_why.to_string())
    };
    // High on a main road: two days. Seen five days ago: overdue.
    let (day, why) = due(Some(date(2026, 6, 10)));
    assert_eq!(day, Some(date(2026, 6, 12)));
    assert!(why.contains("from = 2026-06-10 (seen)") && why.contains("days = 2"), "{why}");
    let (day, why) = due(None);
    assert_eq!(day, Some(date(2026, 6, 17)));
    assert!(why.contains("day seen unknown"), "{why}");
    // A day yet to come does not give more time.
    let (day, why) = due(Some(date(2027, 1, 1)));
    assert_eq!(day, Some(date(2026, 6, 17)));
    assert!(why.contains("yet to come"), "{why}");
}

#[test]
fn no_time_set_is_no_due_day() {
    let mut rules = astm();
    for group in &mut rules.due.groups.value {
        group.not_rated_days = None;
    }
    assert_eq!(check_rules(&rules), Ok(()));
    let judged = judge(&round_hole(10.0, 300.0), &rules, TODAY);
    assert_eq!(judged.due, None);
    assert!(judged.due_why.to_string().contains("days = none set"));
}

#[test]
fn rules_that_make_no_sense_are_named() {
    type Change = fn(&mut model::rules::severity::SeverityRules);
    let changes: [(&str, Change); 26] = [
        ("rating.least_depth_m", |r| r.rating.least_depth_m.value = f64::NAN),
        ("rating.depth_bands", |r| r.rating.depth_bands.value.swap(0, 1)),
        ("rating.depth_bands", |r| r.rating.depth_bands.value.clear()),
        ("rating.diameter_bands", |r| r.rating.diameter_bands.value[3].area_per_hole_m2 = Some(0.0)),
        ("rating.table", |r| r.rating.table.value.truncate(2)),
        ("rating.table", |r| r.rating.table.value[2][3] = Severity::Low),
        ("rating.table", |r| r.rating.table.value.iter_mut().for_each(|row| row[0] = Severity::High)),
        ("rating.table", |r| r.rating.table.value[2] = vec![Severity::Low; 4]),
        ("rating.diameter_bands", |r| r.rating.diameter_bands.value[3].up_to_m = Some(5.0)),
        ("risk.severity", |r| r.risk.severity.value.high = 1.0),
        ("risk.depth_m", |r| r.risk.depth_m.value[0].from = 0.01),
        ("risk.speed_km_h", |r| r.risk.speed_km_h.value[2].factor = 0.5),
        ("risk.position", |r| r.risk.position.value.edge = 0.0),
        ("risk.vehicles_assumed", |r| {
            r.risk.vehicles_assumed.value.remove(&RoadClass::Track);
        }),
        ("risk.wetness", |r| r.risk.wetness.value.wet = 0.9),
        ("risk.wetness", |r| r.risk.wetness.value.pumping = 1.0),
        ("rating.least_plan_dimension_m", |r| r.rating.least_plan_dimension_m.value = -0.1),
        ("worsening.depth_m_per_month", |r| r.worsening.depth_m_per_month.value = f64::NAN),
        ("worsening.area_share_per_month", |r| r.worsening.area_share_per_month.value = -0.1),
        ("worsening.greatest_depth_m", |r| r.worsening.greatest_depth_m.value = f64::INFINITY),
        ("worsening.horizon_days", |r| r.worsening.horizon_days.value = 3651),
        ("worsening.vehicles_per_day", |r| r.worsening.vehicles_per_day.value[1].factor = 0.5),
        ("worsening.wetness", |r| r.worsening.wetness.value.damp = 0.1),
        ("due.groups", |r| r.due.groups.value.truncate(2)),
        ("due.groups", |r| r.due.groups.value[2].high_days = Some(100)),
        ("due.groups", |r| r.due.groups.value[1].high_days = Some(1)),
    ];
    for (rule, change) in changes {
        let mut rules = astm();
        change(&mut rules);
        let errors = check_rules(&rules).expect_err(rule);
        assert!(errors.iter().any(|error| error.rule == rule), "{rule}: {errors:?}");
        // Even then judging gives an answer.
        let _ = judge(&round_hole(60.0, 900.0), &rules, TODAY);
    }
}

#[test]
fn limits_hold_in_customary_units() {
    // 55 mph is 88.5 km/h, below the step at 90; 56 mph is 90.1 km/h.
    let hole = |mph| TriageInput { speed: miles_per_hour(mph), ..round_hole(60.0, 300.0) };
    let factor = |mph| judge(&hole(mph), &astm(), TODAY).risk.why.to_string();
    assert!(factor(55.0).contains("f_speed = 1.5") && factor(56.0).contains("f_speed = 1.8"));
}

fn any_hole() -> impl Strategy<Value = TriageInput> {
    let position = prop_oneof![
        Just(None),
        Just(Some(LanePosition::Lane)),
        Just(Some(LanePosition::WheelPath)),
        Just(Some(LanePosition::Edge)),
        Just(Some(LanePosition::Shoulder)),
        Just(Some(LanePosition::Centre)),
    ];
    let class = (0usize..9).prop_map(|index| RoadClass::ALL[index]);
    let traffic = prop::option::of(0.0f64..20000.0);
    // Depth and area often near the tables' limits.
    let depth = prop_oneof![0.0f64..0.4, 0.012f64..0.014, 0.024f64..0.026, 0.049f64..0.051];
    let area = prop_oneof![0.0f64..4.0, 0.0078f64..0.0079, 0.0313f64..0.0316, 0.158f64..0.16, 0.44f64..0.443];
    (depth, area, position, prop::option::of(0usize..5), 5.0f64..130.0, class, traffic, prop::option::of(0i64..400))
        .prop_map(|(depth, area, lane_position, wet, speed, class, vehicles_per_day, days)| TriageInput {
            least_plan_dimension: metres((area / 1.3_f64).sqrt()),
            depth: metres(depth),
            area: square_metres(area),
            lane_position,
            wetness: wet.map(|index| Wetness::ALL[index]),
            speed: kilometres_per_hour(speed),
            class,
            vehicles_per_day,
            seen: days.map(|days| TODAY.saturating_sub(jiff::Span::new().days(days))),
            sized: days.map(|days| TODAY.saturating_sub(jiff::Span::new().days(days))),
        })
}

proptest! {
    /// Deeper, larger, faster, wetter, busier or older is never less severe, less risky or due later.
    #[test]
    fn worse_is_never_milder(hole in any_hole(), more in 0.0f64..0.5, which in 0usize..6, system in any::<bool>()) {
        let rules = if system { astm() } else { ltpp() };
        let mut worse = hole.clone();
        match which {
            0 => worse.depth += metres(more * 0.2),
            1 => {
                worse.area += square_metres(more);
                worse.least_plan_dimension += metres(more * 0.1);
            }
            2 => worse.speed += kilometres_per_hour(more * 80.0),
            3 => worse.wetness = Some(hole.wetness.map_or(Wetness::Wet, |wetness| wetness.max(Wetness::Wet))),
            4 => worse.vehicles_per_day = hole.vehicles_per_day.map(|v| v + more * 4000.0),
            _ => worse.seen = Some(hole.seen.unwrap_or(TODAY).saturating_sub(jiff::Span::new().days((more * 200.0) as i64))),
        }
        let (mild, bad) = (judge(&hole, &rules, TODAY), judge(&worse, &rules, TODAY));
        prop_assert!(bad.severity >= mild.severity);
        prop_assert!(bad.risk.value >= mild.risk.value);
        prop_assert!(bad.due <= mild.due);
        // Left alone nothing gets better.
        prop_assert!(mild.outlook.risk.value >= mild.risk.value - 1e-9);
        prop_assert!(mild.outlook.severity >= mild.severity);
        prop_assert!(mild.outlook.depth.value >= hole.depth && mild.outlook.area.value >= hole.area);
        if let Some((severity, day)) = mild.outlook.worse {
            prop_assert!(Some(severity) > mild.severity && day > TODAY);
        }
    }

    #[test]
    fn a_hole_that_is_not_rated_has_the_longest_time(hole in any_hole()) {
        let unrated = TriageInput { depth: millimetres(5.0), ..hole.clone() };
        let judged = judge(&unrated, &astm(), TODAY);
        prop_assert_eq!(judged.severity, None);
        prop_assert!(judged.due >= judge(&hole, &astm(), TODAY).due);
    }

    #[test]
    fn nothing_makes_it_panic(depth in any::<f64>(), area in any::<f64>(), speed in any::<f64>(), traffic in any::<f64>()) {
        let hole = TriageInput {
            depth: metres(depth),
            area: square_metres(area),
            speed: kilometres_per_hour(speed),
            vehicles_per_day: Some(traffic),
            ..round_hole(0.0, 0.0)
        };
        prop_assert!(judge(&hole, &astm(), TODAY).risk.value.is_finite());
        prop_assert!(judge(&hole, &astm(), jiff::civil::Date::MAX).due.is_some());
    }
}
