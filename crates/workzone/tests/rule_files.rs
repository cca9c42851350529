//! The shipped rule files.

mod common;

use common::{rule_text, rules};
use model::figure::Standing;
use model::rules::traffic::TrafficRules;

#[test]
fn the_federal_set_has_no_faults() {
    assert_eq!(rules().faults(), Vec::<String>::new());
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
    let cases: [(&str, Spoil); 14] = [
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
        ("speed.unknown", |r| r.speed.unknown.value = 120.0),
        ("drives", |r| r.layouts.shoulder.drives.value = 1000.0),
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
    let mut found = Vec::new();
    sources(&toml::Value::Table(rule_text("us-mutcd").parse().unwrap()), &mut found);
    assert!(found.len() > 60, "{} sources", found.len());
    for text in found {
        assert_ne!(model::figure::Source::from(text.clone()).standing, Standing::Agency, "{text}");
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
