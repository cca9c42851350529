//! What plans learn from what was used: the ratio of actual to planned, for the district and for each crew or road, drawn towards the
//! district's while its own records are few.
//!
//! Nothing is changed for good: a plan multiplies by the factor, and leaves it out when it is told to.

use std::collections::BTreeMap;

use belief::Belief;
use model::record::known::KnownRepair;
use model::rules::lasting::LastingRules;
use rust_decimal::prelude::ToPrimitive;
use serde::Serialize;

/// What is planned and then measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum Planned {
    Area,
    Base,
    Water,
    Binder,
    CoverStone,
    Time,
}

/// One repair: planned and actual, in the same unit, both over 0.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedActual {
    /// Crew or road that it counts for.
    pub of: String,
    /// As planned.
    pub planned: f64,
    /// As it was.
    pub actual: f64,
}

/// What the district and each crew or road teach.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LearntFactors {
    /// Of what.
    pub what: Planned,
    /// All records together.
    pub district: LearntFactor,
    /// Each crew or road, by name.
    pub each: Vec<LearntFactor>,
}

/// A factor on plans.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LearntFactor {
    /// Crew, road, or the district.
    pub name: String,
    /// Records of its own.
    pub records: usize,
    /// Median of actual over planned in its own records.
    pub own: Option<f64>,
    /// What to multiply plans by: median of the belief.
    pub factor: f64,
    /// The next repair's ratio: one in ten is below.
    pub p10: f64,
    /// One in ten is above.
    pub p90: f64,
    /// What is believed now.
    pub belief: Belief,
    /// What the plan does otherwise because of it, and why; nothing where it hardly differs.
    pub why: Option<String>,
}

/// Name of the factor of all records.
pub const DISTRICT: &str = "the district";

impl Planned {
    /// All of them.
    pub const ALL: [Planned; 6] =
        [Planned::Area, Planned::Base, Planned::Water, Planned::Binder, Planned::CoverStone, Planned::Time];

    /// What a plan does with it, and the word for it.
    fn words(self) -> (&'static str, &'static str) {
        match self {
            Planned::Area => ("expects", "area"),
            Planned::Base => ("loads", "base"),
            Planned::Water => ("loads", "water"),
            Planned::Binder => ("loads", "binder"),
            Planned::CoverStone => ("loads", "cover stone"),
            Planned::Time => ("allows", "time"),
        }
    }

    /// Planned and actual of a repair, where both are known. Time is that of the truck and its plant.
    pub fn of(self, repair: &KnownRepair, counts_for: &str) -> Option<PlannedActual> {
        let planned = &repair.planned.as_ref()?.value;
        let number = |value: rust_decimal::Decimal| value.to_f64();
        let layers = |of: fn(&model::record::known::KnownLayer) -> Option<rust_decimal::Decimal>| {
            // a layer of which it was not told makes the sum too small
            let told: Option<Vec<_>> = repair.layers.iter().map(of).collect();
            number(told.filter(|told| !told.is_empty())?.into_iter().sum())
        };
        let (planned, actual) = match self {
            Planned::Area => (planned.area_m2, repair.area_m2.as_ref()?.value),
            Planned::Base => {
                (number(planned.base_loose_m3)?, layers(|layer| layer.base_loose_m3.as_ref().map(|told| told.value))?)
            }
            Planned::Water => {
                (number(planned.water_l)?, layers(|layer| layer.water_l.as_ref().map(|told| told.value))?)
            }
            Planned::Binder => (number(planned.binder_l)?, number(repair.binder_l.as_ref()?.value)?),
            Planned::CoverStone => (number(planned.cover_stone_m3)?, number(repair.cover_stone_m3.as_ref()?.value)?),
            Planned::Time => (number(planned.minutes)?, number(repair.plant_min)?),
        };
        let usable = planned > 0.0 && actual > 0.0 && planned.is_finite() && actual.is_finite();
        usable.then(|| PlannedActual { of: counts_for.to_owned(), planned, actual })
    }
}

/// Learns from records; `prior` is what is believed before any, of the district. A crew's or road's own belief begins at the
/// district's, whose mean then counts as `district_weight` records.
pub fn learn_factors(what: Planned, prior: Belief, records: &[PlannedActual], rules: &LastingRules) -> LearntFactors {
    let mut by_name: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    let log = |record: &PlannedActual| (record.actual / record.planned).ln();
    for record in records.iter().filter(|record| log(record).is_finite()) {
        by_name.entry(&record.of).or_default().push(log(record));
    }
    let all: Vec<f64> = by_name.values().flatten().copied().collect();
    let district = factor(DISTRICT, prior.after(&all), &all);
    let begin = Belief { mean_weight: rules.district_weight.value, ..district.belief };
    let each = by_name.into_iter().map(|(name, logs)| {
        let mut learnt = factor(name, begin.after(&logs), &logs);
        learnt.why = why(what, &learnt, &district, rules);
        learnt
    });
    let each = each.collect();
    let why = why(what, &district, &district, rules);
    LearntFactors { what, each, district: LearntFactor { why, ..district } }
}

fn factor(name: &str, belief: Belief, logs: &[f64]) -> LearntFactor {
    let mut sorted = logs.to_vec();
    sorted.sort_by(f64::total_cmp);
    let half = sorted.len() / 2;
    let own = match sorted.len() {
        0 => None,
        n if n % 2 == 1 => Some(sorted[half].exp()),
        _ => Some(f64::midpoint(sorted[half - 1], sorted[half]).exp()),
    };
    let [p10, p90] = [0.1, 0.9].map(|p| belief.quantile(p).exp());
    LearntFactor {
        name: name.to_owned(),
        records: logs.len(),
        own,
        factor: belief.median(),
        p10,
        p90,
        belief,
        why: None,
    }
}

fn why(what: Planned, learnt: &LearntFactor, district: &LearntFactor, rules: &LastingRules) -> Option<String> {
    let part = learnt.factor - 1.0;
    let own = learnt.own?;
    if part.abs() < rules.told_difference.value {
        return None;
    }
    let (does, word) = what.words();
    let more = if part > 0.0 { "more" } else { "less" };
    let repairs = format!("{} repair{}", learnt.records, if learnt.records == 1 { "" } else { "s" });
    let rest = if learnt.name == DISTRICT {
        String::new()
    } else {
        format!("; all {} of the district took {:.2} times", district.records, district.own.unwrap_or(1.0))
    };
    Some(format!(
        "{}: the plan {does} {:.0} % {more} {word}, because {repairs} took {own:.2} times what was planned{rest}.",
        learnt.name,
        100.0 * part.abs()
    ))
}
