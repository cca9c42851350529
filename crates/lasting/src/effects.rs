//! Several properties at once: what goes with short lives where the others are alike. By how many times repairs fail more often
//! (proportional hazards), and by how many times they live longer (Weibull).

use std::collections::{BTreeMap, BTreeSet};

use model::rules::lasting::LastingRules;
use serde::Serialize;

use crate::accelerated::{AcceleratedFit, LifeFamily};
use crate::interval_censored::{IntervalCurve, SeenBetween};
use crate::life_table::{LifeTable, tables_by_group};
use crate::log_rank::{LogRank, holm, stratified_log_rank};
use crate::patch_lives::{LifeEnd, PatchLife, Property, rows_by};
use crate::proportional::ProportionalFit;
use crate::regression::{Coefficient, CovariateLife, CovariateLives, FitError};

/// Name of the groups of a property that have too few failures each, put together.
const OTHERS: &str = "others";

/// Ages at which the estimate between looks is told, days.
pub const AGES_DAYS: [f64; 4] = [90.0, 180.0, 365.0, 730.0];

/// How far the estimate between looks may be from its top.
const GAP: f64 = 1e-6;

/// What several properties go with, held together.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Effects {
    /// Lives that count.
    pub lives: usize,
    /// Of these failed.
    pub failures: usize,
    /// Lives that ended on the very day on which they began: they tell no rate.
    pub left_out: usize,
    /// What each property's groups are held against: its group with most lives.
    pub against: Vec<Against>,
    /// Each other group of each property.
    pub each: Vec<Effect>,
}

/// What the groups of a property are held against.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Against {
    /// The property, in the word that it is asked for by.
    pub property: &'static str,
    /// The group.
    pub group: String,
    /// Groups with too few failures, which count as this one.
    pub with: Vec<String>,
}

/// A group held against its property's largest, where all other properties are alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Effect {
    /// The property.
    pub property: &'static str,
    /// The group; `others`: several with too few failures each.
    pub group: String,
    /// Its lives.
    pub lives: usize,
    /// Its failures.
    pub failures: usize,
    /// How many times as often repairs fail; with the ends of its interval.
    pub failing: [f64; 3],
    /// How many times as long repairs live; with the ends of its interval.
    pub living: [f64; 3],
    /// Chance of such a difference in failing, or a greater one, if there is none.
    pub p: f64,
    /// The same with Holm's correction for all effects.
    pub p_corrected: f64,
}

/// Groups of one property compared within the groups of another, whose own differences then do not count.
pub fn log_rank_within(lives: &[PatchLife], by: Property, within: Property) -> Option<LogRank> {
    let (of, strata) = (rows_by(lives, by), rows_by(lives, within));
    let each = (0..strata.groups.len() as u32).filter_map(|stratum| {
        let rows: Vec<_> =
            of.rows.iter().zip(&strata.rows).filter(|(_, own)| own.group == stratum).map(|(row, _)| *row).collect();
        tables_by_group(&rows, of.groups.len()).ok()
    });
    stratified_log_rank(&each.collect::<Vec<Vec<LifeTable>>>())
}

/// Works the effects of properties out.
///
/// # Errors
/// What can't be fitted: too few failures for so many groups, or properties that follow from each other.
pub fn effects(lives: &[PatchLife], by: &[Property], rules: &LastingRules) -> Result<Effects, FitError> {
    let counted: Vec<&PatchLife> = lives.iter().filter(|life| life.days() > 0.0).collect();
    let of_each: Vec<Grouping> = by.iter().map(|property| Grouping::of(&counted, *property, rules)).collect();
    let columns: Vec<(&Grouping, &str)> =
        of_each.iter().flat_map(|of| of.groups().into_iter().map(move |group| (of, group))).collect();
    let rows = counted.iter().enumerate().map(|(row, life)| CovariateLife {
        duration: life.days(),
        failed: life.end.failed(),
        covariates: columns.iter().map(|(of, group)| f64::from(u8::from(of.has(row, group)))).collect(),
    });
    let names = columns.iter().map(|(of, group)| format!("{}: {group}", of.against.property)).collect();
    let known = CovariateLives { names, lives: rows.collect() };
    let failing = ProportionalFit::of(&known)?.coefficients;
    let living = AcceleratedFit::of(LifeFamily::Weibull, &known)?.coefficients;
    let corrected = holm(&failing.each.iter().map(Coefficient::p).collect::<Vec<f64>>());
    let times = |of: &Coefficient| {
        let (low, high) = of.interval(rules.confidence.value);
        [of.value, low, high].map(f64::exp)
    };
    let each = columns.iter().enumerate().map(|(at, (of, group))| {
        let members: Vec<&PatchLife> =
            (0..counted.len()).filter(|row| of.has(*row, group)).map(|row| counted[row]).collect();
        Effect {
            property: of.against.property,
            group: (*group).to_owned(),
            lives: members.len(),
            failures: members.iter().filter(|life| life.end.failed()).count(),
            failing: times(&failing.each[at]),
            living: times(&living.each[at]),
            p: failing.each[at].p(),
            p_corrected: corrected[at],
        }
    });
    let each = each.collect();
    let failures = counted.iter().filter(|life| life.end.failed()).count();
    let left_out = lives.len() - counted.len();
    let lives = counted.len();
    Ok(Effects { lives, failures, left_out, against: of_each.into_iter().map(|of| of.against).collect(), each })
}

/// The groups of one property.
struct Grouping {
    against: Against,
    /// Of each life the group that it counts for; nothing: the one that the others are held against.
    of_lives: Vec<Option<String>>,
}

impl Grouping {
    /// Groups with too few failures are put together; where even together they are too few, they count as the group that all are
    /// held against.
    fn of(lives: &[&PatchLife], property: Property, rules: &LastingRules) -> Self {
        let names: Vec<String> = lives.iter().map(|life| life.conditions.group(property)).collect();
        let mut counts: BTreeMap<&str, (usize, u64)> = BTreeMap::new();
        for (name, life) in names.iter().zip(lives) {
            let count = counts.entry(name).or_default();
            *count = (count.0 + 1, count.1 + u64::from(life.end.failed()));
        }
        let most = counts.iter().max_by_key(|(_, (lives, _))| *lives).map_or("", |(group, _)| group);
        let enough = |failures: u64| failures >= rules.fewest_failures.value;
        let few: BTreeMap<&str, u64> = counts
            .iter()
            .filter(|(group, (_, failures))| **group != most && !enough(*failures))
            .map(|(group, (_, failures))| (*group, *failures))
            .collect();
        let are_others = enough(few.values().sum());
        let counts_for = |name: &String| match name.as_str() {
            name if name == most => None,
            name if few.contains_key(name) => are_others.then(|| OTHERS.to_owned()),
            name => Some(name.to_owned()),
        };
        let with = if are_others { Vec::new() } else { few.keys().map(|group| (*group).to_owned()).collect() };
        Grouping {
            against: Against { property: property.word(), group: most.to_owned(), with },
            of_lives: names.iter().map(counts_for).collect(),
        }
    }

    fn groups(&self) -> BTreeSet<&str> {
        self.of_lives.iter().flatten().map(String::as_str).collect()
    }

    fn has(&self, row: usize, group: &str) -> bool {
        self.of_lives[row].as_deref() == Some(group)
    }
}

impl Effects {
    /// In sentences: what is clear, and what can't be told.
    pub fn words(&self, rules: &LastingRules) -> Vec<String> {
        let clear = |effect: &&Effect| effect.p_corrected <= rules.significance.value;
        let mut words: Vec<String> = self
            .each
            .iter()
            .filter(clear)
            .map(|effect| {
                let [times, low, high] = effect.failing;
                let against = self.against.iter().find(|against| against.property == effect.property);
                format!(
                    "{}, {}: fails {times:.2} times as often ({low:.2} to {high:.2}) as {}, everything else here alike.",
                    effect.property,
                    effect.group,
                    against.map_or("the others", |against| &against.group)
                )
            })
            .collect();
        if words.is_empty() {
            words.push("Nothing is clear once the properties are held together and chance is allowed for.".to_owned());
        }
        words
            .push("It shows what goes together among what is told here; what is not told may be behind it.".to_owned());
        words
    }
}

/// Lives of which failures are only known to lie between two looks.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BetweenLooks {
    /// The group.
    pub name: String,
    /// Lives.
    pub lives: usize,
    /// Those that failed.
    pub failures: usize,
    /// Age in days, and the least and the greatest part that may last longer.
    pub lasting: Vec<[f64; 3]>,
}

/// The estimate that does not take the day of a look for that of a failure, by group, at some ages; nothing where no failure was
/// found at a look, since the curves then say the same.
pub fn between_looks(lives: &[PatchLife], by: Property, ages_days: &[f64]) -> Vec<BetweenLooks> {
    if !lives.iter().any(|life| matches!(life.end, LifeEnd::FoundFailed { .. })) {
        return Vec::new();
    }
    let mut groups: BTreeMap<String, Vec<SeenBetween>> = BTreeMap::new();
    for life in lives {
        groups.entry(life.conditions.group(by)).or_default().push(life.seen_between());
    }
    let of = |(name, seen): (String, Vec<SeenBetween>)| {
        let curve = IntervalCurve::of(&seen, GAP).ok()?;
        let at = |age: &f64| {
            let (least, most) = curve.survival_at(*age);
            [*age, least, most]
        };
        let (lives, failures) = (curve.lives, curve.failures);
        Some(BetweenLooks { name, lives, failures, lasting: ages_days.iter().map(at).collect() })
    };
    groups.into_iter().filter_map(of).collect()
}
