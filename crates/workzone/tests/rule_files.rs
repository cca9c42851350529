//! The shipped rule files.

mod common;

use common::{SETS, rule_text, rules, set};
use model::figure::Standing;
use model::rules::traffic::{SignPlace, TrafficRules};
use model::work_zone::Layout;

#[test]
fn no_shipped_set_has_faults() {
    for name in SETS {
        assert_eq!(set(name).faults(), Vec::<String>::new(), "{name}");
    }
}

#[test]
fn faults_name_the_field() {
    let mut bad = rules();
    bad.spacing.short_taper.value = 0.0;
    bad.advance.rural.value.b = f64::NAN;
    bad.taper.one_lane_min.value = 200.0;
    bad.stopping.table.value.swap(0, 1);
    let faults = bad.faults().join("\n");
    for field in ["spacing.short_taper", "advance.rural.b", "taper.one_lane_min", "stopping.table"] {
        assert!(faults.contains(field), "{field} not in:\n{faults}");
    }
}

#[test]
fn what_nobody_believes_is_a_fault() {
    type Spoil = fn(&mut TrafficRules);
    let cases: [(&str, Spoil); 26] = [
        ("advance.rural.a", |r| r.advance.rural.value.a = 10_001.0),
        ("advance.end_of_work", |r| r.advance.end_of_work.value = 1e6),
        ("taper.low_speed_divisor", |r| r.taper.low_speed_divisor.value = 6000.0),
        ("taper.shoulder_divisor", |r| r.taper.shoulder_divisor.value = 300.0),
        ("stopping.formula.deceleration", |r| r.stopping.formula.value.deceleration = 112.0),
        ("stopping.table row 12 distance", |r| r.stopping.table.value[11].distance = 82_000.0),
        ("spacing.tangent_per_speed", |r| r.spacing.tangent_per_speed.value = 20.0),
        ("across.open_width_min", |r| r.across.open_width_min.value = 100.0),
        ("work_space.share_gap", |r| r.work_space.share_gap.value = 1e5),
        ("flagging.workers_min", |r| r.flagging.workers_min.value = 0),
        ("flagging.two_way_flaggers", |r| r.flagging.two_way_flaggers.value = u32::MAX),
        ("effort.sign_out_s", |r| r.effort.sign_out_s.value = 9e4),
        ("speed.unknown", |r| r.speed.unknown.value = 80.0),
        ("effort.turn_s", |r| r.effort.turn_s.value = 4000.0),
        ("queue.busier_direction_share", |r| r.queue.busier_direction_share.value = 0.4),
        ("queue.through_speed", |r| r.queue.through_speed.value = 0.0),
        ("sight.eye_height", |r| r.sight.eye_height.value = 35.0),
        ("sight.beyond_stopping_distances", |r| r.sight.beyond_stopping_distances.value = 0.0),
        ("junctions.approach_within", |r| r.junctions.approach_within.value = f64::NAN),
        ("flagging.without_cones_speed_max", |r| r.flagging.without_cones_speed_max.value = 201.0),
        ("advance.first_least_stopping_distances", |r| r.advance.first_least_stopping_distances.value = -0.1),
        ("advance.between_least_s", |r| r.advance.between_least_s.value = 61.0),
        ("advance.urban_high", |r| r.advance.urban_high.value.c = 99.0),
        ("taper.low_speed_divisor", |r| r.taper.low_speed_divisor.value = 39.0),
        ("stopping.table row 7 distance is 304 after 360", |r| {
            r.stopping.table.value[5].distance = 360.0;
            r.stopping.table.value[6].distance = 304.0;
        }),
        ("stopping.table row 2 speed is 20 after 20", |r| r.stopping.table.value[1].speed = 20.0),
    ];
    for (field, spoil) in cases {
        let mut bad = rules();
        spoil(&mut bad);
        let faults = bad.faults();
        assert!(faults.len() == 1 && faults[0].contains(field), "{field}: {faults:?}");
    }
}

#[test]
fn every_value_has_a_standing_of_its_own() {
    // A mistyped prefix would read as the agency's own word; the federal set has none of those.
    fn sources(value: &toml::Value, found: &mut Vec<String>) {
        match value {
            toml::Value::Table(table) => {
                if table.contains_key("value") {
                    assert!(table.contains_key("source"), "value without source: {table:?}");
                }
                for (key, inner) in table {
                    if let ("source", toml::Value::String(text)) = (key.as_str(), inner) {
                        found.push(text.clone());
                    } else {
                        sources(inner, found);
                    }
                }
            }
            toml::Value::Array(rows) => rows.iter().for_each(|row| sources(row, found)),
            _ => {}
        }
    }
    for name in SETS {
        let mut found = Vec::new();
        sources(&toml::Value::Table(rule_text(name).parse().unwrap()), &mut found);
        assert!(found.len() > 120, "{} sources", found.len());
        for text in found {
            let standing = model::figure::Source::from(text.clone()).standing;
            assert_ne!(standing, Standing::Agency, "{text}");
            // Nothing of the metric set was read in a document.
            assert!(name == "us-mutcd" || standing != Standing::Published, "{name}: {text}");
        }
    }
}

#[test]
fn an_unknown_name_is_refused_with_its_place() {
    let text = rule_text("us-mutcd").replace("step =", "stepp =");
    let error = toml::from_str::<TrafficRules>(&text).unwrap_err();
    assert!(error.to_string().contains("stepp") && error.span().is_some(), "{error}");
}

#[test]
fn the_template_overrides_one_value_and_only_known_names() {
    let template: toml::Table = rule_text("agency-template").parse().unwrap();
    assert_eq!(template["extends"].as_str(), Some("us-mutcd"));
    let mut merged: toml::Table = rule_text("us-mutcd").parse().unwrap();
    merge(&mut merged, &template);
    merged.remove("extends");
    let agency: TrafficRules = merged.try_into().expect("the template fits the set it extends");
    assert_eq!(agency.faults(), Vec::<String>::new());
    assert_eq!(agency.advance.urban_low_speed_max.value, 30.0);
    assert_eq!(agency.advance.urban_low_speed_max.source.standing, Standing::Agency);
    let mut back = agency.clone();
    back.advance.urban_low_speed_max = rules().advance.urban_low_speed_max;
    (back.name, back.about) = (rules().name, rules().about);
    assert_eq!(back, rules());
}

#[test]
fn the_metric_template_overrides_single_values() {
    let template: toml::Table = rule_text("agency-template-metric").parse().unwrap();
    assert_eq!(template["extends"].as_str(), Some("low-volume-metric"));
    let mut merged: toml::Table = rule_text("low-volume-metric").parse().unwrap();
    merge(&mut merged, &template);
    merged.remove("extends");
    let agency: TrafficRules = merged.try_into().expect("the template fits the set it extends");
    assert_eq!(agency.faults(), Vec::<String>::new());
    assert_eq!(agency.across.open_width_min.value, 3.2);
    assert_eq!((agency.layouts.mobile_two_way.allowed.value, agency.layouts.shoulder.signs.len()), (false, 1));
    let base = set("low-volume-metric");
    let mut back = agency.clone();
    back.across.open_width_min = base.across.open_width_min.clone();
    back.layouts.mobile_two_way.allowed = base.layouts.mobile_two_way.allowed.clone();
    back.layouts.shoulder.signs = base.layouts.shoulder.signs.clone();
    (back.name, back.about) = (base.name.clone(), base.about.clone());
    assert_eq!(back, base);
}

#[test]
fn every_layout_has_its_own_rule_under_its_key() {
    for name in SETS {
        let table: toml::Table = rule_text(name).parse().unwrap();
        let layouts = table["layouts"].as_table().unwrap();
        assert_eq!(layouts.len(), Layout::ALL.len());
        let rules = set(name);
        for layout in Layout::ALL {
            assert_eq!(layouts[layout.key()]["name"].as_str(), Some(rules.layouts.of(layout).name.as_str()));
            // A layout without cones has nothing that needs them, and says so with a vehicle.
            let rule = rules.layouts.of(layout);
            let on_vehicle = rule.signs.iter().any(|sign| sign.place == SignPlace::Vehicle);
            assert_eq!(rule.cones.value, !on_vehicle, "{layout:?}");
            assert!(rule.cones.value || !(rule.buffer.value || rule.downstream_taper.value), "{layout:?}");
        }
    }
}

/// Tables merge, everything else is replaced: what the reader of rule files does.
fn merge(into: &mut toml::Table, from: &toml::Table) {
    for (key, value) in from {
        match (into.get_mut(key), value) {
            (Some(toml::Value::Table(old)), toml::Value::Table(new)) => merge(old, new),
            _ => {
                into.insert(key.clone(), value.clone());
            }
        }
    }
}
