//! How a figure is written.

use model::figure::Figure;
use model::quantity::InVolume;
use model::site_unit::SiteCount;
use schemars::JsonSchema;
use serde::Serialize;

/// A computed figure in the unit of its field's name.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Figure")]
pub struct FigureJson {
    /// The value for the hole as reported.
    value: f64,
    /// One in ten is below; null where nothing uncertain enters.
    p10: Option<f64>,
    /// Half are below.
    p50: Option<f64>,
    /// Nine in ten are below.
    p90: Option<f64>,
    /// The rule in symbols; what went in; where the rule is from.
    why: String,
}

/// A computed count.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Count")]
pub struct CountJson {
    /// The value for the hole as reported.
    value: u32,
    /// One in ten is below; null where nothing uncertain enters.
    p10: Option<u32>,
    /// Half are below.
    p50: Option<u32>,
    /// Nine in ten are below.
    p90: Option<u32>,
    /// The rule in symbols; what went in; where the rule is from.
    why: String,
}

/// A material as the crew counts it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "SiteCount")]
pub struct SiteCountJson {
    /// `base`, `water`, `binder`, `cover_stone` or `spoil`.
    good: &'static str,
    /// Name of one unit.
    unit: String,
    /// Name of several.
    plural: String,
    /// What one holds.
    unit_l: f64,
    /// How many, counted up.
    count: CountJson,
    /// As the sheets say it.
    words: String,
}

/// Writes a count in site units.
pub fn site_count(found: &SiteCount) -> SiteCountJson {
    SiteCountJson {
        good: found.good.word(),
        unit: found.name.clone(),
        plural: found.plural.clone(),
        unit_l: round(found.volume.in_litres()),
        count: count(&found.count),
        words: found.words(),
    }
}

/// Writes a figure in the unit that `unit` reads.
pub fn figure<Q: Copy>(figure: &Figure<Q>, unit: impl Fn(Q) -> f64) -> FigureJson {
    let number = |q: Q| round(unit(q));
    FigureJson {
        value: number(figure.value),
        p10: figure.spread.map(|s| number(s.p10)),
        p50: figure.spread.map(|s| number(s.p50)),
        p90: figure.spread.map(|s| number(s.p90)),
        why: figure.why.to_string(),
    }
}

/// Writes a count.
pub fn count(figure: &Figure<u32>) -> CountJson {
    CountJson {
        value: figure.value,
        p10: figure.spread.map(|s| s.p10),
        p50: figure.spread.map(|s| s.p50),
        p90: figure.spread.map(|s| s.p90),
        why: figure.why.to_string(),
    }
}

/// Nine significant digits: far more than anything here is known to, and the same on every machine.
pub fn round(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return if value.is_finite() { 0.0 } else { f64::NAN };
    }
    format!("{value:.8e}").parse().unwrap_or(value)
}

/// A degree of longitude or latitude to about a millimetre.
pub fn round_degrees(value: f64) -> f64 {
    (value * 1e8).round() / 1e8
}
