//! Lives of several groups side by side: their curves, whether they differ, and both in words.

use model::life::LifeRows;
pub use model::life::{GroupCurve, Verdict};
use model::rules::lasting::LastingRules;
use serde::Serialize;

use crate::life_table::{LifeError, LifeTable, tables_by_group};
use crate::log_rank::{LogRank, holm, log_rank};
use crate::product_limit::{RestrictedMean, SurvivalCurve};

/// Curves of groups and the test between them, as other programs read it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupCurves {
    /// In the order of the names given.
    pub groups: Vec<GroupCurve>,
    /// Whether they differ; nothing where there is nothing to compare.
    pub log_rank: Option<LogRank>,
}

/// Two groups compared.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Comparison {
    /// Names of the two.
    pub groups: [String; 2],
    /// The test of these two alone.
    pub log_rank: LogRank,
    /// Its chance with Holm's correction for all comparisons made.
    pub p_corrected: f64,
}

/// Mean life of a group within a window.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupMean {
    /// The group.
    pub name: String,
    /// The mean.
    #[serde(flatten)]
    pub restricted: RestrictedMean,
}

/// All that lives in groups say: curves, mean lives, tests of every two groups, and words.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WhatLasts {
    /// Curves and the test of all groups.
    #[serde(flatten)]
    pub curves: GroupCurves,
    /// Mean life of each group within one window for all: as long as the group that was watched least, of those that have enough
    /// failures to tell something; of all groups where none has.
    pub restricted_means: Vec<GroupMean>,
    /// Every two groups with enough failures, where there are more than two groups.
    pub pairs: Vec<Comparison>,
    /// Whether the groups differ.
    pub verdict: Verdict,
    /// All of it in sentences.
    pub words: Vec<String>,
}

/// Works all of it out; `unit` of durations, e.g. `days`.
///
/// # Errors
/// A life whose duration or group can't be.
pub fn what_lasts(lives: &LifeRows, unit: &str, rules: &LastingRules) -> Result<WhatLasts, LifeError> {
    let tables = tables_by_group(&lives.rows, lives.groups.len())?;
    let curves = curves_of_tables(&lives.groups, &tables, rules);
    let of_tables: Vec<SurvivalCurve> =
        tables.iter().map(|table| SurvivalCurve::of(table, rules.confidence.value)).collect();
    let least = |enough: bool| {
        let watched = of_tables.iter().filter(|curve| curve.lives > 0 && (!enough || is_enough(curve.failures, rules)));
        watched.map(SurvivalCurve::last_time).reduce(f64::min)
    };
    let until = least(true).or_else(|| least(false)).unwrap_or_default();
    let mean = |(name, curve): (&String, &SurvivalCurve)| {
        (curve.lives > 0).then(|| GroupMean { name: name.clone(), restricted: curve.restricted_mean(until) })
    };
    let restricted_means = lives.groups.iter().zip(&of_tables).filter_map(mean).collect();
    let pairs = compare_pairs(lives, rules)?;
    let verdict = verdict(&curves, &pairs, rules);
    let words = in_words(&curves, &verdict, unit);
    let pairs = if lives.groups.len() > 2 { pairs } else { Vec::new() };
    Ok(WhatLasts { curves, restricted_means, pairs, verdict, words })
}

/// Estimates the curve of every group, with bands of the rules' confidence, and tests between them.
///
/// # Errors
/// A life whose duration or group can't be.
pub fn group_curves(lives: &LifeRows, rules: &LastingRules) -> Result<GroupCurves, LifeError> {
    let tables = tables_by_group(&lives.rows, lives.groups.len())?;
    Ok(curves_of_tables(&lives.groups, &tables, rules))
}

/// The same from lives that are already counted, one table for each name.
pub fn curves_of_tables(names: &[String], tables: &[LifeTable], rules: &LastingRules) -> GroupCurves {
    let groups = names.iter().zip(tables).map(|(name, table)| {
        let curve = SurvivalCurve::of(table, rules.confidence.value);
        let each = |of: fn(&crate::product_limit::CurvePoint) -> f64| curve.points.iter().map(of).collect();
        GroupCurve {
            name: name.clone(),
            n: curve.lives,
            failures: curve.failures,
            too_few: !is_enough(curve.failures, rules),
            times: each(|point| point.time),
            survival: each(|point| point.survival),
            lower: each(|point| point.lower),
            upper: each(|point| point.upper),
            median: curve.median(),
            at_risk: curve.points.iter().map(|point| point.at_risk).collect(),
        }
    });
    GroupCurves { groups: groups.collect(), log_rank: log_rank(tables) }
}

/// Every two groups that have enough failures, compared, with Holm's correction.
///
/// # Errors
/// A life whose duration or group can't be.
pub fn compare_pairs(lives: &LifeRows, rules: &LastingRules) -> Result<Vec<Comparison>, LifeError> {
    let tables = tables_by_group(&lives.rows, lives.groups.len())?;
    let enough: Vec<usize> = (0..tables.len()).filter(|at| is_enough(tables[*at].failures(), rules)).collect();
    let pairs = enough.iter().enumerate().flat_map(|(rank, a)| enough[rank + 1..].iter().map(move |b| (*a, *b)));
    let tested: Vec<(usize, usize, LogRank)> =
        pairs.filter_map(|(a, b)| Some((a, b, log_rank(&[tables[a].clone(), tables[b].clone()])?))).collect();
    let corrected = holm(&tested.iter().map(|(_, _, test)| test.p).collect::<Vec<f64>>());
    let named = |(a, b, log_rank): (usize, usize, LogRank), p_corrected| Comparison {
        groups: [lives.groups[a].clone(), lives.groups[b].clone()],
        log_rank,
        p_corrected,
    };
    Ok(tested.into_iter().zip(corrected).map(|(tested, p)| named(tested, p)).collect())
}

/// What the comparison comes to; `pairs` as [`compare_pairs`] makes them.
pub fn verdict(curves: &GroupCurves, pairs: &[Comparison], rules: &LastingRules) -> Verdict {
    let with_lives: Vec<&GroupCurve> = curves.groups.iter().filter(|group| group.n > 0).collect();
    let (few, enough): (Vec<&GroupCurve>, _) = with_lives.into_iter().partition(|group| group.too_few);
    match curves.log_rank {
        _ if few.len() + enough.len() < 2 => Verdict::OneGroup,
        Some(test) if enough.len() >= 2 && test.p <= rules.significance.value => {
            let differ = pairs.iter().filter(|pair| pair.p_corrected <= rules.significance.value);
            Verdict::Differ { p: test.p, pairs: differ.map(|pair| pair.groups.clone()).collect() }
        }
        Some(test) if enough.len() >= 2 => Verdict::NoDifference { p: test.p },
        _ => Verdict::TooFew { groups: few.into_iter().map(|group| group.name.clone()).collect() },
    }
}

/// What the curves say, one sentence for each group and one for the test. `unit` of durations, e.g. `days`.
pub fn in_words(curves: &GroupCurves, verdict: &Verdict, unit: &str) -> Vec<String> {
    let mut words: Vec<String> = curves.groups.iter().map(|group| group_in_words(group, unit)).collect();
    words.extend(match verdict {
        Verdict::OneGroup => None,
        Verdict::TooFew { .. } => Some("Whether the groups differ: too few to tell.".to_owned()),
        Verdict::Differ { p, .. } => {
            Some(format!("The groups differ: chance alone would part them so far in {} of 100 cases.", per_cent(*p)))
        }
        Verdict::NoDifference { p } => Some(format!(
            "No difference is shown: chance alone would part the groups so far in {} of 100 cases. That is no proof that \
             they are alike.",
            per_cent(*p)
        )),
    });
    words
}

fn group_in_words(group: &GroupCurve, unit: &str) -> String {
    let count = format!("{}: {}, {}", group.name, counted(group.n, "repair"), counted(group.failures, "failure"));
    if group.too_few {
        return format!("{count}: too few to tell.");
    }
    let last = group.times.last().copied().unwrap_or_default();
    let left = group.survival.last().copied().unwrap_or_default();
    if let Some(median) = group.median {
        return format!("{count}; half of them outlast {} {unit}.", short(median));
    }
    format!("{count}; more than half outlast all that was seen ({:.0} % at {} {unit}).", 100.0 * left, short(last))
}

/// Whole numbers as they are, large ones without what nobody reads.
fn short(number: f64) -> String {
    let places = usize::from(number.abs() < 100.0 && number.fract() != 0.0);
    format!("{number:.places$}")
}

fn is_enough(failures: u64, rules: &LastingRules) -> bool {
    failures >= rules.fewest_failures.value
}

fn per_cent(p: f64) -> String {
    let p = 100.0 * p;
    if p < 0.1 { "less than 0.1".into() } else { format!("{p:.1}") }
}

fn counted(count: u64, word: &str) -> String {
    format!("{count} {word}{}", if count == 1 { "" } else { "s" })
}
