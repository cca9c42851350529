//! Formulas and tables against values outside this program. "READ" rows were seen in the source named; "DERIVED" rows were
//! computed from the stated formula by hand, so they test arithmetic, not the formula's truth.

mod common;

use common::{rules, set, two_lane};
use model::quantity::{hours, kilometres_per_hour, miles_per_hour, minutes};
use model::road::{RoadClass, Setting};
use serde::Deserialize;
use testkit::worked_examples;
use workzone::{TaperKind, cone_count, design_speed, duration_class, sign_series, stopping_distance, taper_length};

/// MUTCD 2009 Table 6C-4 as printed in California MUTCD Table 6H-4(CA), width 12 ft, rounded there to the nearest foot.
#[derive(Deserialize)]
struct Tapers {
    width_ft: f64,
    /// mph, L merging, L/2 shifting, L/3 shoulder.
    rows: Vec<[f64; 4]>,
}

fn published_tapers() -> Vec<Tapers> {
    worked_examples("work-zone", "taper")
}

const KINDS: [TaperKind; 3] = [TaperKind::Merging, TaperKind::Shifting, TaperKind::Shoulder];

#[test]
fn tapers_rounded_to_the_nearest_foot_are_the_published_table() {
    // Without rounding up, i.e. with a step too fine to matter; then to the nearest, as the table prints.
    let mut fine = rules();
    fine.taper.round_up.value = 1e-6;
    for Tapers { width_ft, rows } in published_tapers() {
        for [mph, merging, shifting, shoulder] in rows {
            for (kind, printed) in KINDS.into_iter().zip([merging, shifting, shoulder]) {
                let exact = taper_length(kind, width_ft, mph, &fine).value;
                // 62.5 and 122.5 are printed 63 and 123: half rounds up.
                assert_eq!((exact + 1e-5).round(), printed, "{kind:?} at {mph} mph: {exact}");
            }
        }
    }
}

#[test]
fn a_plan_rounds_tapers_up_and_so_is_never_short_of_the_published_table() {
    for Tapers { width_ft, rows } in published_tapers() {
        for [mph, merging, shifting, shoulder] in rows {
            for (kind, printed) in KINDS.into_iter().zip([merging, shifting, shoulder]) {
                let planned = taper_length(kind, width_ft, mph, &rules()).value;
                assert!(planned >= printed, "{kind:?} at {mph} mph: {planned} < {printed}");
                assert!(planned - printed <= 1.0, "{kind:?} at {mph} mph: {planned}, over a foot above {printed}");
            }
        }
    }
    // 25 mph, 12 ft: L/3 = 41.67, printed 42; 11 ft: L = 114.58, nearest 115; 10.5 ft at 20 mph: L/3 = 23.33, nearest 23,
    // planned 24 (DERIVED).
    assert_eq!(taper_length(TaperKind::Shoulder, 10.5, 20.0, &rules()).value, 24.0);
}

#[test]
fn tapers_for_other_widths() {
    // DERIVED: W 11, S 35 -> 224.58; W 10, S 45 -> 450; W 8, S 50 -> 400; W 11, S 55 -> 605 ft; rounded up.
    for (width, mph, exact) in [(11.0, 35.0, 224.58), (10.0, 45.0, 450.0), (8.0, 50.0, 400.0), (11.0, 55.0, 605.0)] {
        assert_eq!(taper_length(TaperKind::Merging, width, mph, &rules()).value, f64::ceil(exact));
    }
}

#[test]
fn a_speed_between_steps_goes_up_never_between() {
    let rules = rules();
    // Design choice: the taper table is silent between 40 and 45 mph (320 and 540 ft for 12 ft).
    for (mph, step) in [(40.0, 40.0), (40.1, 45.0), (42.5, 45.0), (44.9, 45.0), (45.0, 45.0), (1.0, 5.0), (1e-300, 5.0)]
    {
        assert_eq!(design_speed(miles_per_hour(mph), &rules), Some(step), "{mph} mph");
    }
    // By definition 80 km/h is 49.7 mph, 100 is 62.1, 50 is 31.1, 60 is 37.3.
    for (kmh, step) in [(80.0, 50.0), (100.0, 65.0), (50.0, 35.0), (60.0, 40.0)] {
        assert_eq!(design_speed(kilometres_per_hour(kmh), &rules), Some(step), "{kmh} km/h");
    }
    // The greatest speed is taken, through another unit too; what is faster is none of this set.
    for (mph, step) in [(71.0, 75.0), (75.0, 75.0), (120.7008 / 1.609_344, 75.0)] {
        assert_eq!(design_speed(miles_per_hour(mph), &rules), Some(step), "{mph} mph");
    }
    for bad in [0.0, -5.0, f64::NAN, 75.001, 400.0, f64::INFINITY] {
        assert_eq!(design_speed(miles_per_hour(bad), &rules), None);
    }
}

#[test]
fn the_one_lane_two_way_taper_is_50_to_100_ft_whatever_is_chosen() {
    // READ: MUTCD 2009 6C.08 in a third-party copy. A longer one is wrong.
    let mut rules = rules();
    for chosen in [-1.0, 0.0, 10.0, 50.0, 77.0, 100.0, 101.0, 600.0, f64::INFINITY, f64::NAN] {
        rules.taper.one_lane.value = chosen;
        for mph in [20.0, 45.0, 75.0, 120.0] {
            let length = taper_length(TaperKind::OneLaneTwoWay, 12.0, mph, &rules).value;
            assert!((50.0..=100.0).contains(&length), "{chosen} -> {length}");
        }
    }
}

#[test]
fn cone_counts_with_both_ends() {
    // DERIVED from n = ceil(L / s) + 1.
    #[derive(Deserialize)]
    struct Cones {
        rows: Vec<[f64; 3]>,
    }
    for Cones { rows } in worked_examples("work-zone", "cones") {
        for [length, spacing, count] in rows {
            assert_eq!(f64::from(cone_count(length, spacing)), count, "{length} ft at {spacing} ft");
        }
    }
    assert_eq!(cone_count(1.0, 20.0), 2);
    for (length, spacing) in [(0.0, 20.0), (-3.0, 20.0), (100.0, 0.0), (f64::NAN, 20.0), (100.0, f64::NAN)] {
        assert_eq!(cone_count(length, spacing), 1, "{length} ft at {spacing} ft");
    }
}

#[test]
fn advance_distances_by_road_type() {
    #[derive(Deserialize)]
    struct AdvanceSigns {
        setting: String,
        distances_ft: [f64; 3],
    }
    // READ: MUTCD 2009 Table 6C-1 in California MUTCD copies (docs 183153 p. 11, 25985 p. 9); cumulative DERIVED.
    let rules = rules();
    for AdvanceSigns { setting, distances_ft } in worked_examples("work-zone", "advance_signs") {
        let (setting, mph) = match setting.as_str() {
            "urban, 25 mph" => (Setting::Urban, 25.0),
            "urban, 45 mph" => (Setting::Urban, 45.0),
            "rural, 55 mph" => (Setting::Rural, 55.0),
            other => panic!("{other}"),
        };
        let mut road = two_lane(mph);
        (road.class, road.setting) = (RoadClass::Secondary, setting);
        let series = sign_series(&road, mph, &rules);
        assert_eq!([series.first.value, series.second.value, series.third.value], distances_ft);
    }
    let rows = [
        (RoadClass::Secondary, Setting::Urban, 30.0, [350.0, 700.0, 1050.0]),
        (RoadClass::Secondary, Setting::Rural, 25.0, [500.0, 1000.0, 1500.0]),
        (RoadClass::Motorway, Setting::Rural, 65.0, [1000.0, 2500.0, 5140.0]),
        (RoadClass::Motorway, Setting::Urban, 25.0, [1000.0, 2500.0, 5140.0]),
    ];
    for (class, setting, mph, expected) in rows {
        let mut road = two_lane(mph);
        (road.class, road.setting) = (class, setting);
        let series = sign_series(&road, mph, &rules);
        assert_eq!([series.first.value, series.second.value, series.third.value], expected, "{class:?} {setting:?}");
    }
}

#[test]
fn the_stopping_table_is_the_formula_rounded_up_to_5_ft() {
    // Formula READ: TxDOT Roadway Design Manual 4.11.1, SSD = 1.47 V t + 1.075 V²/a, t = 2.5 s, a = 11.2 ft/s². The table
    // itself is from memory (MUTCD 2009 Table 6C-2), so each row is held against the formula written out here.
    #[derive(Deserialize)]
    struct Stopping {
        rows: Vec<[f64; 2]>,
    }
    let rules = rules();
    for Stopping { rows } in worked_examples("work-zone", "stopping") {
        let shipped: Vec<[f64; 2]> = rules.stopping.table.value.iter().map(|row| [row.speed, row.distance]).collect();
        assert_eq!(shipped, rows);
    }
    for row in &rules.stopping.table.value {
        let computed = 1.47 * row.speed * 2.5 + 1.075 * row.speed * row.speed / 11.2;
        assert_eq!((computed / 5.0).ceil() * 5.0, row.distance, "{} mph: {computed}", row.speed);
        assert_eq!(stopping_distance(row.speed, &rules).value, row.distance);
    }
    // Between rows: the next up. Above the table: the formula, DERIVED 1.47*80*2.5 + 1.075*6400/11.2 = 908.29 -> 910.
    assert_eq!(stopping_distance(15.0, &rules).value, 115.0);
    assert_eq!(stopping_distance(80.0, &rules).value, 910.0);
}

/// Speed, computed to a tenth, design value.
#[derive(Deserialize)]
struct Computed {
    rows: Vec<[f64; 3]>,
}

/// The formula alone, not rounded, and the set as it is shipped.
fn computed_and_design(name: &str, rows: &[[f64; 3]]) {
    let shipped = set(name);
    let mut formula = shipped.clone();
    formula.stopping.table.value.clear();
    formula.stopping.formula.value.round_up = 1e-6;
    for &[speed, computed, design] in rows {
        let exact = stopping_distance(speed, &formula).value;
        assert!((exact - computed).abs() < 0.051, "{name} at {speed}: {exact}");
        let step = shipped.stopping.formula.value.round_up;
        assert_eq!((exact / step).ceil() * step, design, "{name} at {speed}");
        if let Some(row) = shipped.stopping.table.value.iter().find(|row| row.speed == speed) {
            assert_eq!(row.distance, design, "{name} at {speed}");
            assert_eq!(stopping_distance(speed, &shipped).value, design);
        }
    }
}

#[test]
fn the_formulas_give_the_computed_and_the_design_values_of_both_tables() {
    for Computed { rows } in worked_examples("work-zone", "stopping_computed") {
        computed_and_design("us-mutcd", &rows);
    }
    for Computed { rows } in worked_examples("work-zone", "stopping_metric") {
        computed_and_design("low-volume-metric", &rows);
        let shipped: Vec<f64> = set("low-volume-metric").stopping.table.value.iter().map(|row| row.speed).collect();
        assert_eq!(shipped, rows.iter().map(|row| row[0]).collect::<Vec<_>>());
    }
}

#[test]
fn metric_tapers_by_their_own_formula() {
    #[derive(Deserialize)]
    struct Tapers {
        rows: Vec<[f64; 3]>,
    }
    let metric = set("low-volume-metric");
    let mut fine = metric.clone();
    fine.taper.round_up.value = 1e-6;
    for Tapers { rows } in worked_examples("work-zone", "taper_metric") {
        for [width, kmh, length] in rows {
            let exact = taper_length(TaperKind::Merging, width, kmh, &fine).value;
            assert!((exact - length).abs() < 0.0051, "{width} m at {kmh} km/h: {exact}");
            assert_eq!(taper_length(TaperKind::Merging, width, kmh, &metric).value, (length - 0.01).ceil());
        }
    }
}

#[test]
fn metric_signs_stand_a_stopping_distance_ahead_and_five_seconds_apart_at_least() {
    #[derive(Deserialize)]
    struct Advance {
        rows: std::collections::BTreeMap<String, [f64; 3]>,
        at_speed: Vec<(String, f64, f64, f64)>,
    }
    let metric = set("low-volume-metric");
    for Advance { rows, at_speed } in worked_examples("work-zone", "advance_metric") {
        let advance = &metric.advance;
        for (kind, row) in rows {
            let shipped = match kind.as_str() {
                "urban_low" => advance.urban_low.value,
                "urban_high" => advance.urban_high.value,
                "rural" => advance.rural.value,
                "expressway" => advance.expressway.value,
                other => panic!("{other}"),
            };
            assert_eq!([shipped.a, shipped.b, shipped.c], row, "{kind}");
        }
        for (setting, kmh, first, second) in at_speed {
            let mut road = two_lane(50.0);
            road.setting = if setting == "urban" { Setting::Urban } else { Setting::Rural };
            let series = sign_series(&road, kmh, &metric);
            assert_eq!((series.first.value, series.second.value), (first, second), "{setting} {kmh} km/h");
        }
    }
    // The source of the least is named only where it counts.
    let far = sign_series(&two_lane(50.0), 110.0, &metric).first.why.source.to_string();
    let near = sign_series(&two_lane(50.0), 80.0, &metric).first.why.source.to_string();
    assert!(far.contains("can still stop") && !near.contains("can still stop"), "{far}\n{near}");
}

#[test]
fn duration_classes_at_their_boundaries() {
    // From memory: MUTCD 2009 6G.02. One daylight period is 12 h in the rule set (common practice, no source).
    let rules = rules();
    let rows = [
        (minutes(60.0), false, "short duration"),
        (minutes(60.0), true, "short duration"),
        (minutes(61.0), false, "short-term stationary"),
        (minutes(61.0), true, "intermediate-term stationary"),
        (hours(12.0), false, "short-term stationary"),
        (hours(12.1), false, "intermediate-term stationary"),
        (hours(72.0), false, "intermediate-term stationary"),
        (hours(72.0), true, "intermediate-term stationary"),
        (hours(72.1), false, "long-term stationary"),
        (hours(f64::NAN), false, "long-term stationary"),
    ];
    for (time, night, name) in rows {
        assert_eq!(duration_class(time, night, &rules).name, name, "{time:?}, night {night}");
    }
}
