//! What records have taught, as an agency's own rule file.

use model::rules::Sourced;
use model::rules::repair::{GrowthClassRules, GrowthRules};
use toml::{Table, Value};

/// The text of a rule file that takes everything but growth from the set `extends`.
pub fn growth_rule_file(rules: &GrowthRules, extends: &str, name: &str, about: &str) -> String {
    let mut growth = Table::new();
    growth.insert("depth_share".into(), sourced(&rules.depth_share));
    growth.insert("depth_share_weight".into(), sourced(&rules.depth_share_weight));
    growth.insert("default".into(), Value::Table(class_table(&rules.default)));
    if !rules.class.is_empty() {
        let classes = rules.class.iter().map(|(name, class)| (name.clone(), Value::Table(class_table(class))));
        growth.insert("class".into(), Value::Table(classes.collect()));
    }
    let mut file = Table::new();
    for (key, text) in [("extends", extends), ("name", name), ("about", about)] {
        file.insert(key.into(), Value::String(text.to_owned()));
    }
    file.insert("growth".into(), Value::Table(growth));
    toml::to_string(&file).expect("plain tables always serialize")
}

fn class_table(class: &GrowthClassRules) -> Table {
    let mut table = Table::new();
    if !class.roads.is_empty() {
        let roads = class.roads.iter().map(|road| Value::String(road.word().into())).collect();
        table.insert("roads".into(), Value::Array(roads));
    }
    for (key, value) in [
        ("median", &class.median),
        ("sigma", &class.sigma),
        ("mean_weight", &class.mean_weight),
        ("spread_weight", &class.spread_weight),
    ] {
        table.insert(key.into(), sourced(value));
    }
    table
}

fn sourced(value: &Sourced<f64>) -> Value {
    Value::Table(Table::from_iter([
        ("value".to_owned(), Value::Float(value.value)),
        ("source".to_owned(), Value::String(value.source.to_string())),
    ]))
}
