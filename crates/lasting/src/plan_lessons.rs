//! What the next plan takes over from repairs that were planned and then measured: factors on growth, materials and time.
//!
//! Growth is what was dug over what was surveyed, against what the rules expect. Of materials and time only that part is
//! learnt which the greater hole does not explain, so that nothing counts twice: base, water and minutes against what
//! was dug, binder and cover stone against what was cut. What a plan had learnt already is taken out of it first. A repair
//! teaches only what the rules and settings still expect as they did when it was planned: once they are changed, the lesson
//! is in them.

use std::collections::BTreeMap;

use belief::Belief;
use jiff::Timestamp;
use model::figure::Source;
use model::learnt::{Believed, FactorOf, Factored, Learnt, LearntFactor, LearntRoad, PlannedOtherwise, Yardstick};
use model::record::happened::PlannedBasis;
use model::record::known::{KnownRepair, KnownRound};
use model::rules::lasting::{FactorRules, LastingRules};
use uuid::Uuid;

use crate::learnt::{self, LearntFactors, Planned, PlannedActual, learn_factors};

/// What repairs of the record teach, taken up one by one: the record itself need not be in memory.
#[derive(Debug, Clone)]
pub struct Lessons {
    today: Vec<(String, Yardstick)>,
    crews: BTreeMap<Uuid, String>,
    ratios: BTreeMap<Factored, Vec<PlannedActual>>,
    planned_otherwise: BTreeMap<Factored, usize>,
}

impl Lessons {
    /// For plans by rules and settings whose yardsticks these are, by crew; the first counts for crews that are no more.
    pub fn new(today: Vec<(String, Yardstick)>) -> Self {
        Lessons { today, crews: BTreeMap::new(), ratios: BTreeMap::new(), planned_otherwise: BTreeMap::new() }
    }

    /// Takes up whose round it is. Rounds come before repairs.
    pub fn take_round(&mut self, round: &KnownRound) {
        if let Some(crew) = &round.crew {
            self.crews.insert(round.round, crew.value.clone());
        }
    }

    /// Takes up a repair that was cut before that time; others teach nothing yet.
    pub fn take_repair(&mut self, repair: &KnownRepair, before: Timestamp) {
        let is_before = repair.cut.as_ref().is_some_and(|cut| cut.at < before);
        let (Some(planned), true) = (&repair.planned, is_before) else { return };
        let Some(basis) = planned.value.basis else { return };
        let crew = repair.round.as_ref().and_then(|round| self.crews.get(&round.value));
        let of_crew = self.today.iter().find(|(name, _)| Some(name) == crew);
        let today = of_crew.or(self.today.first()).map(|(_, yardstick)| yardstick);
        let expects = |what| today.zip(basis.yardstick.as_ref()).is_some_and(|(today, then)| today.agrees(then, what));
        for what in Factored::ALL {
            let (kind, of) = match what {
                Factored::Time => (None, crew.cloned().unwrap_or_default()),
                _ => (planned.value.road_kind, planned.value.road.clone()),
            };
            let ratio =
                ratio(what, repair, &basis).map(|(planned, actual)| PlannedActual { kind, of, planned, actual });
            match ratio {
                Some(ratio) if expects(what) => self.ratios.entry(what).or_default().push(ratio),
                Some(_) => *self.planned_otherwise.entry(what).or_default() += 1,
                None => {}
            }
        }
    }

    /// Repairs that teach of each.
    pub fn records(&self, what: Factored) -> usize {
        self.ratios.get(&what).map_or(0, Vec::len)
    }

    /// What plans take over, without what is turned off.
    pub fn learnt(&self, rules: &LastingRules, off: &[Factored]) -> Learnt {
        let taught = self.ratios.iter().filter(|(what, _)| !off.contains(what));
        let factors = taught.flat_map(|(&what, ratios)| factors(what, ratios, rules));
        let otherwise = self.planned_otherwise.iter().filter(|(what, _)| !off.contains(what));
        Learnt {
            factors: factors.collect(),
            planned_otherwise: otherwise.map(|(&what, &records)| PlannedOtherwise { what, records }).collect(),
        }
    }
}

/// Planned, by the rules and for what was dug, and actual.
fn ratio(what: Factored, repair: &KnownRepair, basis: &PlannedBasis) -> Option<(f64, f64)> {
    let area = Planned::Area.of(repair, "")?;
    let wider = area.actual / area.planned;
    let depths = &repair.depths_mm.as_ref()?.value;
    let depth = depths.iter().sum::<f64>() / depths.len() as f64;
    let larger = wider * depth / basis.depth_mm;
    let of_use = |planned: Planned, with_growth: f64| {
        let taken = planned.of(repair, "")?;
        Some((taken.planned * with_growth / basis.factors.of(what), taken.actual))
    };
    let (planned, actual) = match what {
        Factored::Growth => (basis.growth, larger),
        Factored::Base => of_use(Planned::Base, larger)?,
        Factored::Water => of_use(Planned::Water, larger)?,
        Factored::Binder => of_use(Planned::Binder, wider)?,
        Factored::CoverStone => of_use(Planned::CoverStone, wider)?,
        Factored::Time => of_use(Planned::Time, larger.powf(basis.minutes_power))?,
    };
    let usable = planned > 0.0 && actual > 0.0 && (actual / planned).ln().is_finite();
    usable.then_some((planned, actual))
}

fn factors(what: Factored, ratios: &[PlannedActual], rules: &LastingRules) -> Vec<LearntFactor> {
    let of_kind = rules.plan_factor.of(what);
    let prior = Belief {
        mean: of_kind.median.value.ln(),
        mean_weight: of_kind.mean_weight.value,
        sigma: of_kind.sigma.value,
        spread_weight: of_kind.spread_weight.value,
    };
    let LearntFactors { district, kinds, each } = learn_factors(prior, ratios, rules);
    let whole = factor(what, FactorOf::District, &district, of_kind, rules);
    let kinds = kinds.iter().map(|(kind, own)| factor(what, FactorOf::Kind(*kind), own, of_kind, rules));
    // a road without a name is no road of its own
    let named = each.iter().filter(|(_, name, _)| !name.is_empty());
    let own = named.map(|(kind, name, own)| {
        let of = match what {
            Factored::Time => FactorOf::Crew(name.clone()),
            _ => FactorOf::Road(LearntRoad { name: name.clone(), kind: *kind }),
        };
        factor(what, of, own, of_kind, rules)
    });
    std::iter::once(whole).chain(kinds).chain(own).collect()
}

fn factor(
    what: Factored,
    of: FactorOf,
    learnt: &learnt::LearntFactor,
    of_kind: &FactorRules,
    rules: &LastingRules,
) -> LearntFactor {
    let believed = believed(&learnt.belief);
    let limits = (of_kind.least.value, of_kind.most.value);
    let factor = believed.median.clamp(limits.0, limits.1);
    let mut made = LearntFactor {
        what,
        of,
        records: learnt.records,
        own: learnt.own,
        prior: self::believed(&learnt.begin),
        believed,
        factor,
        limits,
        source: limit_source(of_kind, believed.median),
        is_told: (factor - 1.0).abs() >= rules.told_difference.value,
        words: String::new(),
    };
    made.words = words(&made);
    made
}

fn limit_source(of_kind: &FactorRules, median: f64) -> Source {
    if median < 1.0 { of_kind.least.source.clone() } else { of_kind.most.source.clone() }
}

/// The mean's own quantiles: how well the factor is known, not how far the next repair may stray.
fn believed(belief: &Belief) -> Believed {
    let [p10, p90] = [0.1, 0.9].map(|p| belief.mean_quantile(p).exp());
    Believed { median: belief.median(), p10, p90 }
}

/// `the plan now loads 14 % more base on Fennow Road, because 23 repairs there took 1.22 times what was planned; weighed with
/// the others 1.14 (1.06 to 1.22)`.
fn words(learnt: &LearntFactor) -> String {
    let part = learnt.factor - 1.0;
    let more = if part < 0.0 { "less" } else { "more" };
    let percent = format!("{:.0} % {more}", 100.0 * part.abs());
    let does = match learnt.what {
        Factored::Growth => format!("expects {percent} to be dug"),
        Factored::Base => format!("loads {percent} base"),
        Factored::Water => format!("loads {percent} water"),
        Factored::Binder => format!("loads {percent} binder"),
        Factored::CoverStone => format!("loads {percent} cover stone"),
        Factored::Time => format!("allows {percent} time"),
    };
    let (place, there, with) = match &learnt.of {
        FactorOf::District => (String::new(), " of the district", "the rules"),
        FactorOf::Kind(kind) => (format!(" on {}", kind.words()), " there", "the others"),
        FactorOf::Road(road) => (format!(" on {}", road.name), " there", "the others"),
        FactorOf::Crew(crew) => (format!(" for {crew}"), " of theirs", "the others"),
    };
    let repairs = if learnt.records == 1 { "1 repair" } else { &format!("{} repairs", learnt.records) };
    let Believed { median, p10, p90 } = learnt.believed;
    let own = learnt.own.unwrap_or(median);
    let took = match learnt.what {
        Factored::Growth => format!("turned out {own:.2} times what the rules expect"),
        Factored::Time => format!("took {own:.2} times the time planned"),
        _ => format!("took {own:.2} times what was planned"),
    };
    let kept = if learnt.is_limited() {
        format!("; kept within {:.2} to {:.2}", learnt.limits.0, learnt.limits.1)
    } else {
        String::new()
    };
    format!(
        "the plan now {does}{place}, because {repairs}{there} {took}; weighed with {with} {median:.2} ({p10:.2} to {p90:.2}){kept}"
    )
}
