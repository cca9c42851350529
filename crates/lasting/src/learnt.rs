//! What plans learn from what was used: the ratio of actual to planned, for the district and for each crew or road, drawn towards the
//! district's while its own records are few.
//!
//! Nothing is changed for good: a plan multiplies by the factor, and leaves it out when it is told to.

use std::collections::BTreeMap;

use belief::{Belief, Records};
use model::record::known::KnownRepair;
use model::road_kind::RoadKind;
use model::rules::lasting::LastingRules;
use rust_decimal::prelude::ToPrimitive;

/// What is planned and then measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
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
    /// Kind of road, where it counts for one.
    pub kind: Option<RoadKind>,
    /// Crew or road that it counts for.
    pub of: String,
    /// As planned.
    pub planned: f64,
    /// As it was.
    pub actual: f64,
}

/// What the district and each crew or road teach.
#[derive(Debug, Clone, PartialEq)]
pub struct LearntFactors {
    /// All records together.
    pub district: LearntFactor,
    /// Each kind of road.
    pub kinds: Vec<(RoadKind, LearntFactor)>,
    /// Each crew or road, by name; a road within its kind.
    pub each: Vec<(Option<RoadKind>, String, LearntFactor)>,
}

/// A factor on plans.
#[derive(Debug, Clone, PartialEq)]
pub struct LearntFactor {
    /// Records of its own.
    pub records: usize,
    /// Median of actual over planned in its own records.
    pub own: Option<f64>,
    /// What is believed without them.
    pub begin: Belief,
    /// What is believed with them; its median is what to multiply plans by.
    pub belief: Belief,
}

impl Planned {
    /// All of them.
    pub const ALL: [Planned; 6] =
        [Planned::Area, Planned::Base, Planned::Water, Planned::Binder, Planned::CoverStone, Planned::Time];

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
        usable.then(|| PlannedActual { kind: None, of: counts_for.to_owned(), planned, actual })
    }
}

/// Logarithms of each road or crew, by its name.
type ByName<'r> = BTreeMap<&'r str, Vec<f64>>;

/// Learns from records; `prior` is what is believed before any, of the district. What a kind of road or a crew begins with is
/// what all the others teach, and a road begins with what its kind teaches without it: nobody's records count twice.
pub fn learn_factors(prior: Belief, records: &[PlannedActual], rules: &LastingRules) -> LearntFactors {
    let log = |record: &PlannedActual| (record.actual / record.planned).ln();
    // Who is of a kind stands together; everybody else stands alone, beside the kinds.
    let mut groups: BTreeMap<(Option<RoadKind>, &str), ByName> = BTreeMap::new();
    for record in records.iter().filter(|record| log(record).is_finite()) {
        let alone = if record.kind.is_some() { "" } else { &record.of };
        groups.entry((record.kind, alone)).or_default().entry(&record.of).or_default().push(log(record));
    }
    let of_each = |members: &ByName| members.values().map(|logs| Records::of(logs)).collect::<Vec<_>>();
    let together = |members: &ByName| of_each(members).into_iter().fold(Records::default(), Records::and);
    let summed: Vec<Records> = groups.values().map(together).collect();
    let (mut kinds, mut each) = (Vec::new(), Vec::new());
    for (((kind, _), members), others) in groups.iter().zip(Records::of_others(&summed)) {
        let begin = weighed(prior.after_records(others), rules);
        if let Some(kind) = kind {
            let logs: Vec<f64> = members.values().flatten().copied().collect();
            kinds.push((*kind, factor(begin, &logs)));
        }
        for ((&name, logs), others) in members.iter().zip(Records::of_others(&of_each(members))) {
            // alone there are no others, and it begins as its group does
            let own = factor(weighed(begin.after_records(others), rules), logs);
            each.push((*kind, name.to_owned(), own));
        }
    }
    let all: Vec<f64> = groups.values().flat_map(BTreeMap::values).flatten().copied().collect();
    LearntFactors { district: factor(prior, &all), kinds, each }
}

/// What is believed of the others, as it counts for one of them: as `district_weight` records, where they are more.
fn weighed(others: Belief, rules: &LastingRules) -> Belief {
    Belief { mean_weight: others.mean_weight.min(rules.district_weight.value), ..others }
}

fn factor(begin: Belief, logs: &[f64]) -> LearntFactor {
    let mut sorted = logs.to_vec();
    sorted.sort_by(f64::total_cmp);
    let half = sorted.len() / 2;
    let own = match sorted.len() {
        0 => None,
        n if n % 2 == 1 => Some(sorted[half].exp()),
        _ => Some(f64::midpoint(sorted[half - 1], sorted[half]).exp()),
    };
    LearntFactor { records: logs.len(), own, begin, belief: begin.after(logs) }
}
