//! Road sections as features.

use model::quantity::{InLength, InVelocity};
use model::road::{Flow, RoadNetwork, RoadSection, Setting};
use serde_json::{Map, Value, json};

use crate::feature::{Feature, Geometry};
use crate::tiles::surface_word;

/// The sections of a network as features, one after the other. Their numbers are those of the sections, from 0.
pub fn road_features(network: &RoadNetwork) -> impl Iterator<Item = Feature> + '_ {
    network.sections.iter().map(road_feature)
}

fn road_feature(section: &RoadSection) -> Feature {
    let flow = match section.flow {
        Flow::Both => "both",
        Flow::Forward => "forward",
        Flow::Backward => "backward",
    };
    let surface = surface_word(section.surface);
    let setting = match section.setting {
        Setting::Rural => "rural",
        Setting::Urban => "urban",
    };
    let text = |text: &str| if text.is_empty() { Value::Null } else { text.into() };
    let all = [
        ("name", text(&section.name)),
        ("number", text(&section.number)),
        ("class", section.class.word().into()),
        ("source_id", text(&section.source_id)),
        ("surface", surface.into()),
        ("length_m", rounded(section.length.in_metres())),
        ("speed_km_h", rounded(section.speed.in_kilometres_per_hour())),
        ("lanes", section.lanes.into()),
        ("width_m", rounded(section.width.in_metres())),
        ("shoulder_m", rounded(section.shoulder.in_metres())),
        ("flow", flow.into()),
        ("vehicles_per_day", section.vehicles_per_day.map_or(Value::Null, rounded)),
        ("setting", setting.into()),
        ("defaulted", defaulted(&section.defaulted)),
    ];
    let properties: Map<String, Value> =
        all.into_iter().filter(|(_, value)| !value.is_null()).map(|(name, value)| (name.to_owned(), value)).collect();
    let geometry = (section.line.len() >= 2).then(|| Geometry::Line(section.line.clone()));
    Feature { id: section.id.0.to_string(), geometry, time: None, properties }
}

/// The names that these attributes have here.
fn defaulted(names: &[&'static str]) -> Value {
    let own = |name: &'static str| match name {
        "speed" => "speed_km_h",
        "width" => "width_m",
        "shoulder" => "shoulder_m",
        same => same,
    };
    let names: Vec<&str> = names.iter().map(|name| own(name)).collect();
    if names.is_empty() { Value::Null } else { json!(names) }
}

/// To the third place behind the point, without the noise of conversions; `null` for what is no number.
fn rounded(value: f64) -> Value {
    json!((value * 1000.0).round() / 1000.0)
}
