//! What of the record the repairs are worked out with.

use model::learnt::{Believed, FactorOf, Factored, LearntFactor, UseFactors};
use model::road_kind::RoadKind;
use schemars::JsonSchema;
use serde::Serialize;

use super::figures::round;

/// A factor that repairs measured before teach the plan.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "LearntFactor")]
pub struct LearntJson {
    /// `growth`, `base`, `water`, `binder`, `cover_stone` or `time`.
    what: &'static str,
    /// `district`, `kind`, `road` or `crew`.
    of: &'static str,
    /// Name of the road or crew.
    name: Option<String>,
    /// Kind of road, of that and of a road: `tertiary_without_shoulder`.
    kind: Option<String>,
    /// Repairs of its own that it was learnt from.
    records: usize,
    /// Median of actual over planned in these.
    own: Option<f64>,
    /// Believed without them: by the rules, or by what the others teach.
    prior: BelievedJson,
    /// Believed after them.
    believed: BelievedJson,
    /// What the plan multiplies by: the median believed, within the limits.
    factor: f64,
    /// Least and most that the rules let it be.
    limits: [f64; 2],
    /// Where the limits are from.
    limits_source: String,
    /// Whether it differs enough from 1 to be told to the crew.
    told: bool,
    /// What the plan does otherwise because of it, and why.
    words: String,
}

/// Of the factor itself: how well it is known, not how far the next repair may stray.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Believed")]
struct BelievedJson {
    median: f64,
    p10: f64,
    p90: f64,
}

/// What a repair's figures were multiplied by; all 1 where the record teaches nothing.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Factors")]
pub struct FactorsJson {
    growth: f64,
    base: f64,
    water: f64,
    binder: f64,
    cover_stone: f64,
    time: f64,
}

impl From<&LearntFactor> for LearntJson {
    fn from(learnt: &LearntFactor) -> Self {
        let (of, name, kind) = match &learnt.of {
            FactorOf::District => ("district", None, None),
            FactorOf::Kind(kind) => ("kind", None, Some(*kind)),
            FactorOf::Road(road) => ("road", Some(road.name.clone()), road.kind),
            FactorOf::Crew(crew) => ("crew", Some(crew.clone()), None),
        };
        LearntJson {
            what: learnt.what.word(),
            of,
            name,
            kind: kind.map(RoadKind::word),
            records: learnt.records,
            own: learnt.own.map(round),
            prior: believed(&learnt.prior),
            believed: believed(&learnt.believed),
            factor: round(learnt.factor),
            limits: [round(learnt.limits.0), round(learnt.limits.1)],
            limits_source: learnt.source.to_string(),
            told: learnt.is_told,
            words: learnt.words.clone(),
        }
    }
}

fn believed(believed: &Believed) -> BelievedJson {
    BelievedJson { median: round(believed.median), p10: round(believed.p10), p90: round(believed.p90) }
}

impl From<&UseFactors> for FactorsJson {
    fn from(factors: &UseFactors) -> Self {
        let of = |what| round(factors.of(what));
        FactorsJson {
            growth: of(Factored::Growth),
            base: of(Factored::Base),
            water: of(Factored::Water),
            binder: of(Factored::Binder),
            cover_stone: of(Factored::CoverStone),
            time: of(Factored::Time),
        }
    }
}
