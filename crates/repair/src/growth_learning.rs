//! The crew's own records moved into the rules: what comes out are rules of the same shape, so nothing downstream needs to
//! know whether a figure rests on a prior or on records.

use model::figure::{Figure, Source, Spread, Why};
use model::growth::GrowthRecord;
use model::quantity::{InLength, InVolume};
use model::rules::Sourced;
use model::rules::repair::{GrowthClassRules, GrowthRules};

use belief::Belief;

use crate::growth::{SHOWN, belief_of};

/// Rules that hold what the records say, and the belief of each class before and after.
#[derive(Debug, Clone, PartialEq)]
pub struct Learnt {
    /// The rules to plan by.
    pub rules: GrowthRules,
    /// Each class, the default first.
    pub classes: Vec<ClassGrowth>,
    /// Share of the growth that goes into depth.
    pub depth_share: Figure<f64>,
    /// Records that told of the share: those with both depths.
    pub depth_records: usize,
}

/// What is believed of one pavement class.
#[derive(Debug, Clone, PartialEq)]
pub struct ClassGrowth {
    /// Its name.
    pub name: String,
    /// Records of it.
    pub records: usize,
    /// Before the records.
    pub prior: Belief,
    /// After them.
    pub posterior: Belief,
    /// Volume dug over volume surveyed of the next hole: median, and P10 to P90.
    pub growth: Figure<f64>,
}

impl ClassGrowth {
    /// How much of the median the prior still makes up, 0 to 1.
    pub fn prior_share(&self) -> f64 {
        self.prior.mean_weight / self.posterior.mean_weight
    }
}

/// Moves the rules by the records; `from` names them, e.g. `records.csv`. A record whose class means nothing to the rules
/// counts for the default class.
pub fn learn(rules: &GrowthRules, records: &[GrowthRecord], from: &str) -> Learnt {
    let mut learnt = rules.clone();
    let mut classes = Vec::new();
    for (name, class) in rules.classes() {
        let of_class = |record: &&GrowthRecord| rules.named(&record.class).unwrap_or(GrowthRules::DEFAULT) == name;
        let logs: Vec<f64> = records.iter().filter(of_class).map(log_growth).collect();
        let (prior, posterior) = (belief_of(class), belief_of(class).after(&logs));
        let moved = moved(class, &posterior, logs.len(), from);
        let growth = figure(&prior, &moved, &logs);
        classes.push(ClassGrowth { name: name.to_owned(), records: logs.len(), prior, posterior, growth });
        match learnt.class.get_mut(name) {
            Some(slot) => *slot = moved,
            None => learnt.default = moved,
        }
    }
    let (depth_share, depth_records) = depth_share(rules, records, from);
    if depth_records > 0 {
        let source = depth_share.why.source.clone();
        learnt.depth_share = Sourced { value: depth_share.value, source: source.clone() };
        learnt.depth_share_weight = Sourced { value: rules.depth_share_weight.value + depth_records as f64, source };
    }
    Learnt { rules: learnt, classes, depth_share, depth_records }
}

/// `ln g` of a record.
fn log_growth(record: &GrowthRecord) -> f64 {
    (record.dug.volume.in_cubic_metres() / record.surveyed.volume.in_cubic_metres()).ln()
}

/// The class's rules with the belief after `count` records.
fn moved(class: &GrowthClassRules, posterior: &Belief, count: usize, from: &str) -> GrowthClassRules {
    if count == 0 {
        return class.clone();
    }
    let sourced = |value: f64, before: &Source| Sourced { value, source: after_records(before, count, from) };
    GrowthClassRules {
        roads: class.roads.clone(),
        median: sourced(posterior.mean.exp(), &class.median.source),
        sigma: sourced(posterior.sigma, &class.sigma.source),
        mean_weight: sourced(posterior.mean_weight, &class.mean_weight.source),
        spread_weight: sourced(posterior.spread_weight, &class.spread_weight.source),
    }
}

fn after_records(before: &Source, count: usize, from: &str) -> Source {
    let records = if count == 1 { "record" } else { "records" };
    Source::agency(format!("{count} {records} of {from}, added to: {before}"))
}

fn figure(prior: &Belief, moved: &GrowthClassRules, logs: &[f64]) -> Figure<f64> {
    let posterior = belief_of(moved);
    let mean_of_records = logs.iter().sum::<f64>() / logs.len().max(1) as f64;
    let records = if logs.is_empty() { "none".into() } else { format!("{:.3}", mean_of_records.exp()) };
    let why = Why::new(
        "g_p = exp(m + s * sqrt(1 + 1/k) * t_v(p)); m = (k0 m0 + n mean(ln g)) / (k0 + n), k = k0 + n, v = v0 + n",
        moved.median.source.clone(),
    )
    .with("exp(m0)", format!("{:.3}", prior.mean.exp()))
    .with("k0", prior.mean_weight)
    .with("s0", format!("{:.3}", prior.sigma))
    .with("v0", prior.spread_weight)
    .with("n", logs.len())
    .with("exp(mean(ln g))", records)
    .with("exp(m)", format!("{:.3}", posterior.mean.exp()))
    .with("s", format!("{:.3}", posterior.sigma));
    let [p10, p50, p90] = SHOWN.map(|p| posterior.quantile(p).exp());
    Figure::spread(p50, Spread { p10, p50, p90 }, why)
}

/// Least squares through the origin of the depth's `ln` on `ln g`, the rule's share standing for as many records as its
/// weight says, each of the size that the prior of the default class expects.
fn depth_share(rules: &GrowthRules, records: &[GrowthRecord], from: &str) -> (Figure<f64>, usize) {
    let pairs: Vec<(f64, f64)> =
        records.iter().filter_map(|record| Some((log_growth(record), log_deepening(record)?))).collect();
    let prior = belief_of(&rules.default);
    let expected_square = prior.mean.powi(2) + prior.sigma.powi(2);
    let weight = rules.depth_share_weight.value * expected_square;
    let (share, before) = (rules.depth_share.value, &rules.depth_share.source);
    let products: f64 = pairs.iter().map(|(volume, depth)| volume * depth).sum();
    let squares: f64 = pairs.iter().map(|(volume, _)| volume.powi(2)).sum();
    let total = weight + squares;
    let learnt = if total > 0.0 { ((weight * share + products) / total).clamp(0.0, 1.0) } else { share };
    let source = if pairs.is_empty() { before.clone() } else { after_records(before, pairs.len(), from) };
    let why = Why::new("s = (w q s0 + sum(ln g * ln d)) / (w q + sum((ln g)^2)), from 0 to 1", source)
        .with("s0", share)
        .with("w", rules.depth_share_weight.value)
        .with("q", format!("{expected_square:.4}"))
        .with("records", pairs.len());
    (Figure::exact(if pairs.is_empty() { share } else { learnt }, why), pairs.len())
}

/// `ln` of depth dug over depth surveyed, where both were measured.
fn log_deepening(record: &GrowthRecord) -> Option<f64> {
    Some((record.dug.depth?.in_metres() / record.surveyed.depth?.in_metres()).ln())
}
