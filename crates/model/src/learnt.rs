//! What plans take over from the record: factors on growth, materials and time, each with why it is as it is.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::figure::Source;
use crate::road::RoadSection;
use crate::road_kind::RoadKind;

/// What a factor is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Factored {
    /// How much more is dug than was surveyed; by road and kind of road.
    Growth,
    /// Base used for what was dug; by road and kind of road.
    Base,
    /// Water used for what was dug; by road and kind of road.
    Water,
    /// Binder used for what was cut; by road and kind of road.
    Binder,
    /// Cover stone used for what was cut; by road and kind of road.
    CoverStone,
    /// Minutes at what was dug; by crew.
    Time,
}

/// Whose records a factor is of.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)] // the words are the definition
pub enum FactorOf {
    District,
    Kind(RoadKind),
    Road(LearntRoad),
    Crew(String),
}

/// A road as factors are learnt of it: by its name, each part of another kind by itself.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct LearntRoad {
    /// Name; empty: the road has none, and no factor of its own.
    pub name: String,
    /// Its kind, where that is told.
    pub kind: Option<RoadKind>,
}

/// A median with one in ten below and one in ten above.
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(missing_docs)] // the words are the definition
pub struct Believed {
    pub median: f64,
    pub p10: f64,
    pub p90: f64,
}

/// A factor that the record teaches.
#[derive(Debug, Clone, PartialEq)]
pub struct LearntFactor {
    /// On what.
    pub what: Factored,
    /// Whose.
    pub of: FactorOf,
    /// Repairs of its own that it was learnt from.
    pub records: usize,
    /// Median of their ratios.
    pub own: Option<f64>,
    /// What is believed of the factor without its own records: of the district by the rules, of a crew or kind of road by
    /// what all the others teach, of a road by what the others of its kind do.
    pub prior: Believed,
    /// What is believed after them.
    pub believed: Believed,
    /// What the plan multiplies by: the median, within the limits.
    pub factor: f64,
    /// The rule's limits.
    pub limits: (f64, f64),
    /// Where the limits are from.
    pub source: Source,
    /// Whether it differs enough to be told to the crew.
    pub is_told: bool,
    /// What the plan does otherwise because of it, and why.
    pub words: String,
}

/// What rules, settings and program make of the same few holes, all together. Plans whose yardsticks agree expect the same of a
/// repair; where they differ, what was learnt under one is in the other's figures already, or not at all.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Yardstick {
    /// Volume dug over volume surveyed, the medians multiplied.
    pub growth: f64,
    /// Base, loose cubic metres.
    pub base_loose_m3: f64,
    /// Water, litres.
    pub water_l: f64,
    /// Binder, litres.
    pub binder_l: f64,
    /// Cover stone, loose cubic metres.
    pub cover_stone_m3: f64,
    /// Minutes.
    pub minutes: f64,
}

/// Repairs that teach nothing of one thing, since other rules or settings held when they were planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)] // the words are the definition
pub struct PlannedOtherwise {
    pub what: Factored,
    pub records: usize,
}

/// All that the record teaches; nothing: plans go by survey and rules alone.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Learnt {
    /// Records that do not count.
    pub planned_otherwise: Vec<PlannedOtherwise>,
    /// The factors; at most one on each thing for the district, each kind of road, each road and each crew.
    pub factors: Vec<LearntFactor>,
}

/// The factors that one repair is worked out with; all 1 as surveyed and by the rules.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the words are the definition
pub struct UseFactors {
    pub growth: f64,
    pub base: f64,
    pub water: f64,
    pub binder: f64,
    pub cover_stone: f64,
    pub time: f64,
}

impl Factored {
    /// All of them.
    pub const ALL: [Factored; 6] =
        [Factored::Growth, Factored::Base, Factored::Water, Factored::Binder, Factored::CoverStone, Factored::Time];

    /// The word for flags and files.
    pub fn word(self) -> &'static str {
        match self {
            Factored::Growth => "growth",
            Factored::Base => "base",
            Factored::Water => "water",
            Factored::Binder => "binder",
            Factored::CoverStone => "cover_stone",
            Factored::Time => "time",
        }
    }

    /// Those that a word means: one by its name, or `all`. `None`: the word means nothing here.
    pub fn named(word: &str) -> Option<Vec<Factored>> {
        if word == "all" {
            return Some(Factored::ALL.to_vec());
        }
        let found = Factored::ALL.into_iter().find(|what| what.word() == word);
        found.map(|what| vec![what])
    }
}

impl LearntRoad {
    /// That of a section.
    pub fn of(section: &RoadSection) -> Self {
        LearntRoad { name: section.name.clone(), kind: Some(RoadKind::of(section)) }
    }
}

impl Yardstick {
    /// Figures that differ by less than this part are the same, worked out on another machine.
    const SAME: f64 = 1e-6;

    /// The one for that.
    pub fn of(&self, what: Factored) -> f64 {
        match what {
            Factored::Growth => self.growth,
            Factored::Base => self.base_loose_m3,
            Factored::Water => self.water_l,
            Factored::Binder => self.binder_l,
            Factored::CoverStone => self.cover_stone_m3,
            Factored::Time => self.minutes,
        }
    }

    /// Whether both expect the same of that.
    pub fn agrees(&self, other: &Yardstick, what: Factored) -> bool {
        let (one, other) = (self.of(what), other.of(what));
        (one - other).abs() <= Self::SAME * one.abs().max(other.abs())
    }
}

impl LearntFactor {
    /// Whether the limits keep it from being what is believed.
    pub fn is_limited(&self) -> bool {
        self.believed.median < self.limits.0 || self.believed.median > self.limits.1
    }
}

impl Learnt {
    /// The factor that counts for a repair on that road by that crew: the road's or crew's own, else that of the kind of
    /// road, else the district's.
    pub fn counting(&self, what: Factored, road: &LearntRoad, crew: &str) -> Option<&LearntFactor> {
        let of = |wanted: &FactorOf| self.factors.iter().find(|factor| factor.what == what && factor.of == *wanted);
        let own = if what == Factored::Time {
            of(&FactorOf::Crew(crew.to_owned()))
        } else {
            let kind = road.kind.and_then(|kind| of(&FactorOf::Kind(kind)));
            of(&FactorOf::Road(road.clone())).or(kind)
        };
        own.or_else(|| of(&FactorOf::District))
    }

    /// All factors for a repair on that road by that crew.
    pub fn factors(&self, road: &LearntRoad, crew: &str) -> UseFactors {
        let of = |what| self.counting(what, road, crew).map_or(1.0, |learnt| learnt.factor);
        UseFactors {
            growth: of(Factored::Growth),
            base: of(Factored::Base),
            water: of(Factored::Water),
            binder: of(Factored::Binder),
            cover_stone: of(Factored::CoverStone),
            time: of(Factored::Time),
        }
    }

    /// The part of it that counts for these roads and crews.
    #[must_use]
    pub fn counting_for(&self, roads: &[LearntRoad], crews: &[&str]) -> Learnt {
        let nowhere = LearntRoad::default();
        let counts = |factor: &&LearntFactor| {
            let of = |road: &LearntRoad, crew: &str| {
                self.counting(factor.what, road, crew).is_some_and(|own| own == *factor)
            };
            match factor.what {
                Factored::Time => crews.iter().any(|crew| of(&nowhere, crew)),
                _ => roads.iter().any(|road| of(road, "")),
            }
        };
        Learnt { factors: self.factors.iter().filter(counts).cloned().collect(), ..self.clone() }
    }
}

impl UseFactors {
    /// As surveyed and by the rules.
    pub const NONE: UseFactors =
        UseFactors { growth: 1.0, base: 1.0, water: 1.0, binder: 1.0, cover_stone: 1.0, time: 1.0 };

    /// The one on that.
    pub fn of(&self, what: Factored) -> f64 {
        match what {
            Factored::Growth => self.growth,
            Factored::Base => self.base,
            Factored::Water => self.water,
            Factored::Binder => self.binder,
            Factored::CoverStone => self.cover_stone,
            Factored::Time => self.time,
        }
    }
}

impl Default for UseFactors {
    fn default() -> Self {
        UseFactors::NONE
    }
}
