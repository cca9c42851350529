//! Shape of `rules/lasting/*.toml`: what is learnt from repairs that were made.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::{Sourced, not_believed};
use crate::learnt::Factored;

/// What is learnt from repairs, and by which limits.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LastingRules {
    /// Name of the rule set.
    pub name: String,
    /// What the rule set is for.
    pub about: String,
    /// Chance that a band covers the truth, 0 to 1.
    pub confidence: Sourced<f64>,
    /// Fewer failures than this are too few to tell.
    pub fewest_failures: Sourced<u64>,
    /// A difference that chance alone makes more often than this is not told as one, 0 to 1.
    pub significance: Sourced<f64>,
    /// A new hole on the same side of the road within this distance is the repair's failure, m.
    pub same_place_m: Sourced<f64>,
    /// Fills of one place within so many days are one repair.
    pub same_repair_days: Sourced<f64>,
    /// How many records the district's mean counts as against those of one crew or road.
    pub district_weight: Sourced<f64>,
    /// A part by which a learnt figure must differ from the plan's to be told as a reason.
    pub told_difference: Sourced<f64>,
    /// Days after opening at which a repair is looked at, rising.
    pub look_after_days: Sourced<Vec<u16>>,
    /// Days after which a worn repair is looked at again.
    pub worn_look_days: Sourced<u16>,
    /// Days before its day on which a look is made when a crew passes by.
    pub passing_by_days: Sourced<u16>,
    /// What is believed of what plans learn before there are records, and how far it may go.
    pub plan_factor: PlanFactorRules,
    /// How a crew stops for a look on its way.
    pub look_stop: LookStopRules,
    /// Interest for a year, as a part.
    pub discount_rate: Sourced<f64>,
    /// Years over which ways to go on are held against each other.
    pub horizon_years: Sourced<u16>,
    /// When patching no longer pays.
    pub stop_patching: StopRules,
}

/// What patching on is held against.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StopRules {
    /// Roads are looked at in stretches of about this length, m.
    pub stretch_m: Sourced<f64>,
    /// How many times as many new holes a surface has as a year before.
    pub yearly_growth: Sourced<f64>,
    /// How far that may be off: standard deviation of its logarithm.
    pub yearly_growth_sd: Sourced<f64>,
    /// How much wet and dry years differ: standard deviation of the logarithm of a year's holes.
    pub weather_sd: Sourced<f64>,
    /// Futures drawn for each stretch.
    pub futures: Sourced<u32>,
    /// Years that 37 % of repairs outlast, where too few failures are known to tell.
    pub life_years: Sourced<f64>,
    /// Shape of the law of repairs' lives, likewise.
    pub life_shape: Sourced<f64>,
    /// Ways to renew, by name.
    pub renewals: BTreeMap<String, RenewalRules>,
}

/// A way to renew a surface.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RenewalRules {
    /// Price of a square metre, in the district's currency.
    pub price_per_m2: Sourced<f64>,
    /// Part of new holes that is left afterwards, 0 to 1.
    pub rate_left: Sourced<f64>,
    /// Years that it is written off over.
    pub life_years: Sourced<f64>,
}

/// A short stop for a look, off the carriageway.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LookStopRules {
    /// How long the stop takes, minutes.
    pub minutes: Sourced<f64>,
    /// What a look that is due is worth, minutes of the crew: stop and way round together may take no more.
    pub worth_min: Sourced<f64>,
    /// The same of one that is not due yet.
    pub early_worth_min: Sourced<f64>,
    /// A shoulder narrower than this is no place to stop, m.
    pub shoulder_least_m: Sourced<f64>,
    /// Whether a shoulder counts that the map does not tell, by the default of its road's class.
    pub default_shoulder_counts: Sourced<bool>,
    /// Further from any road than this a repair is not found, m.
    pub road_within_m: Sourced<f64>,
}

/// Factors that plans learn.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the words are those of `Factored`
pub struct PlanFactorRules {
    pub growth: FactorRules,
    pub base: FactorRules,
    pub water: FactorRules,
    pub binder: FactorRules,
    pub cover_stone: FactorRules,
    pub time: FactorRules,
}

/// One factor: actual over planned.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FactorRules {
    /// Median before any record.
    pub median: Sourced<f64>,
    /// How many records that median counts as.
    pub mean_weight: Sourced<f64>,
    /// Standard deviation of its logarithm between repairs.
    pub sigma: Sourced<f64>,
    /// How many records that deviation counts as.
    pub spread_weight: Sourced<f64>,
    /// No plan multiplies by less.
    pub least: Sourced<f64>,
    /// No plan multiplies by more.
    pub most: Sourced<f64>,
}

impl PlanFactorRules {
    /// Of one kind.
    pub fn of(&self, what: Factored) -> &FactorRules {
        match what {
            Factored::Growth => &self.growth,
            Factored::Base => &self.base,
            Factored::Water => &self.water,
            Factored::Binder => &self.binder,
            Factored::CoverStone => &self.cover_stone,
            Factored::Time => &self.time,
        }
    }

    fn faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        for what in Factored::ALL {
            let rules = self.of(what);
            let of_one = not_believed([
                ("median", rules.median.value, 0.1, 10.0),
                ("mean_weight", rules.mean_weight.value, 0.01, 10_000.0),
                ("sigma", rules.sigma.value, 0.001, 3.0),
                ("spread_weight", rules.spread_weight.value, 0.1, 10_000.0),
                ("least", rules.least.value, 0.1, 1.0),
                ("most", rules.most.value, 1.0, 10.0),
            ]);
            faults.extend(of_one.into_iter().map(|fault| format!("plan_factor.{}.{fault}", what.word())));
        }
        faults
    }
}

impl LastingRules {
    /// Values that can't be worked with, in words. Empty when the set can be used.
    pub fn faults(&self) -> Vec<String> {
        let mut faults = not_believed([
            ("confidence", self.confidence.value, 0.5, 0.999),
            ("significance", self.significance.value, 0.0001, 0.5),
            ("same_place_m", self.same_place_m.value, 0.1, 1000.0),
            ("same_repair_days", self.same_repair_days.value, 0.0, 60.0),
            ("district_weight", self.district_weight.value, 0.01, 10_000.0),
            ("told_difference", self.told_difference.value, 0.0, 1.0),
            ("discount_rate", self.discount_rate.value, 0.0, 0.5),
            ("look_stop.minutes", self.look_stop.minutes.value, 0.5, 60.0),
            ("look_stop.worth_min", self.look_stop.worth_min.value, 0.0, 240.0),
            ("look_stop.early_worth_min", self.look_stop.early_worth_min.value, 0.0, 240.0),
            ("look_stop.shoulder_least_m", self.look_stop.shoulder_least_m.value, 0.0, 10.0),
            ("look_stop.road_within_m", self.look_stop.road_within_m.value, 1.0, 200.0),
            ("horizon_years", f64::from(self.horizon_years.value), 1.0, 100.0),
        ]);
        let stop = &self.stop_patching;
        faults.extend(not_believed([
            ("stop_patching.stretch_m", stop.stretch_m.value, 20.0, 20_000.0),
            ("stop_patching.yearly_growth", stop.yearly_growth.value, 0.5, 2.0),
            ("stop_patching.yearly_growth_sd", stop.yearly_growth_sd.value, 0.0, 0.5),
            ("stop_patching.weather_sd", stop.weather_sd.value, 0.0, 1.5),
            ("stop_patching.futures", f64::from(stop.futures.value), 10.0, 100_000.0),
            ("stop_patching.life_years", stop.life_years.value, 0.05, 100.0),
            ("stop_patching.life_shape", stop.life_shape.value, 0.2, 20.0),
        ]));
        for renewal in stop.renewals.values() {
            faults.extend(not_believed([
                ("stop_patching.renewals.price_per_m2", renewal.price_per_m2.value, 0.0, 1e9),
                ("stop_patching.renewals.rate_left", renewal.rate_left.value, 0.0, 1.0),
                ("stop_patching.renewals.life_years", renewal.life_years.value, 0.5, 200.0),
            ]));
        }
        let looks = &self.look_after_days.value;
        if !looks.windows(2).all(|pair| pair[0] < pair[1]) {
            faults.push("look_after_days: must rise".into());
        }
        faults.extend(self.plan_factor.faults());
        faults
    }
}
