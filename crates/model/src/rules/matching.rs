//! Shape of `rules/matching/*.toml`: which reports are of the same hole.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::Sourced;
use crate::hole::LanePosition;

/// Which reports are of the same hole.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MatchingRules {
    /// Name of the rule set.
    pub name: String,
    /// One sentence on what the rule set is for.
    pub about: String,
    /// Reports further apart in time are of two holes, days.
    pub window_days: Sourced<u16>,
    /// A hole may have grown this many times across between two reports.
    pub growth_ratio: Sourced<f64>,
    /// Pairs of places across the road that no one hole is in.
    pub positions_apart: Sourced<Vec<[LanePosition; 2]>>,
    /// Fills of one crew at one stop: which holes make one site.
    pub one_stop: OneStop,
    /// A place that so many rows or more of one export stand at, to the last digit, is where its office puts what it can't
    /// find; nothing is told of where the holes are.
    pub fallback_rows: Sourced<u32>,
    /// What holds for a report that does not say where it comes from, or in a word that is not listed.
    pub unknown_source: Sourced<SourceRules>,
    /// By the word for the source, in small letters.
    pub source: BTreeMap<String, Sourced<SourceRules>>,
}

/// Which fills make one site.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OneStop {
    /// No two fills of a site are further apart, m.
    pub within_m: Sourced<f64>,
    /// Each is filled at most so long after the one before, minutes.
    pub within_min: Sourced<f64>,
}

/// How far the reports of one source can be relied on.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SourceRules {
    /// The place given is nearly always within this distance along the road, m.
    pub along_m: f64,
    /// ... and within this distance across it, m.
    pub across_m: f64,
    /// The size given is nearly always within this factor of the true one.
    pub size_factor: f64,
    /// Whether sizes are measured; the latest of these wins over any estimate.
    pub measures: bool,
    /// When two reports of this source are of two holes for certain.
    pub told_apart: ToldApart,
}

/// When two reports of one source are of two holes for certain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ToldApart {
    /// Never: many people report, none knows of the other.
    Never,
    /// Those of one day: the same eyes saw both.
    SameDay,
    /// Always: the list is one survey.
    Always,
}

impl MatchingRules {
    /// What holds for a source by its word.
    pub fn of(&self, word: &str) -> &SourceRules {
        self.source.get(word).map_or(&self.unknown_source.value, |rules| &rules.value)
    }

    /// Values that can't be worked with, in words. Empty when the set can be used.
    pub fn faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        let mut expect = |key: String, holds: bool, wrong: &str| {
            if !holds {
                faults.push(format!("{key}: {wrong}"));
            }
        };
        let ratio = self.growth_ratio.value;
        expect("growth_ratio".into(), ratio.is_finite() && ratio >= 1.0, "must be a finite number, one or more");
        let stop = &self.one_stop;
        let believed = |value: f64, most: f64| value > 0.0 && value <= most;
        expect(
            "one_stop.within_m".into(),
            believed(stop.within_m.value, 1000.0),
            "must be above zero and at most 1000",
        );
        expect(
            "one_stop.within_min".into(),
            believed(stop.within_min.value, 600.0),
            "must be above zero and at most 600",
        );
        expect("fallback_rows".into(), self.fallback_rows.value >= 2, "must be 2 or more");
        let sources = self.source.iter().map(|(word, rules)| (format!("source.{word}"), &rules.value));
        for (key, rules) in sources.chain([("unknown_source".to_owned(), &self.unknown_source.value)]) {
            let places = [rules.along_m, rules.across_m].into_iter().all(|m| m.is_finite() && m > 0.0 && m <= 1000.0);
            expect(key.clone(), places, "along_m and across_m must be above zero and at most 1000");
            let factor = rules.size_factor;
            expect(key, factor.is_finite() && factor >= 1.0, "size_factor must be a finite number, one or more");
        }
        for word in self.source.keys() {
            expect(format!("source.{word}"), *word == word.to_lowercase(), "write the word in small letters");
        }
        faults
    }
}
