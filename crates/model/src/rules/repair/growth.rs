//! How much more is dug out than was surveyed: what is believed of it, class by class.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::road::RoadClass;
use crate::rules::Sourced;

/// How much more is dug out than was surveyed: `V_cut = V_surveyed * g`. `ln g` is normal; its mean and variance are not
/// known, only believed, and the crew's own records move that belief.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GrowthRules {
    /// Share of the growth that goes into depth: depth grows by `g^share`, area by `g^(1 - share)`.
    pub depth_share: Sourced<f64>,
    /// How many records that share counts as.
    pub depth_share_weight: Sourced<f64>,
    /// Correlation of `ln g` between two holes of one road.
    pub same_road_correlation: Sourced<f64>,
    /// Draws from which the quantiles of a sum over several holes are read.
    pub draws: Sourced<u32>,
    /// What is believed where no class below is meant.
    pub default: GrowthClassRules,
    /// Pavement classes learnt apart; the key is the class's name in the records.
    #[serde(default)]
    pub class: BTreeMap<String, GrowthClassRules>,
}

/// What is believed of `ln g` in one pavement class: a normal-inverse-gamma distribution, in words that can be guessed.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GrowthClassRules {
    /// Classes of road that are of this pavement class; of no meaning for the default.
    #[serde(default)]
    pub roads: Vec<RoadClass>,
    /// Median of `g`.
    pub median: Sourced<f64>,
    /// Standard deviation of `ln g` between holes.
    pub sigma: Sourced<f64>,
    /// How many records the median counts as.
    pub mean_weight: Sourced<f64>,
    /// How many records sigma counts as.
    pub spread_weight: Sourced<f64>,
}

impl GrowthRules {
    /// Name of the class that stands for all the others.
    pub const DEFAULT: &'static str = "default";

    /// The pavement class of a road; the default where the road's class is not known or not listed.
    pub fn of_road(&self, road: Option<RoadClass>) -> (&str, &GrowthClassRules) {
        let listed = self.class.iter().find(|(_, class)| road.is_some_and(|road| class.roads.contains(&road)));
        listed.map_or((Self::DEFAULT, &self.default), |(name, class)| (name.as_str(), class))
    }

    /// Name of the pavement class that a record's word means: a class by its name, or that of a class of road. `None`:
    /// the word means nothing here.
    pub fn named(&self, word: &str) -> Option<&str> {
        let word = word.trim().to_lowercase();
        if word.is_empty() || word == Self::DEFAULT {
            return Some(Self::DEFAULT);
        }
        let own = self.class.keys().find(|name| name.to_lowercase() == word).map(String::as_str);
        let road = || RoadClass::ALL.into_iter().find(|class| class.word() == word);
        own.or_else(|| road().map(|road| self.of_road(Some(road)).0))
    }

    /// Every class with its name, the default first.
    pub fn classes(&self) -> impl Iterator<Item = (&str, &GrowthClassRules)> {
        std::iter::once((Self::DEFAULT, &self.default))
            .chain(self.class.iter().map(|(name, class)| (name.as_str(), class)))
    }
}
