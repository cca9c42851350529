//! How much more is dug out than was surveyed.
//!
//! `V_cut = V_surveyed * g`. What is believed of `g` is a [`Belief`]. Every quantity of a repair rises or stays with `g`,
//! so its quantile is the quantity at the quantile of `g`; all but the water in weather that dries a stock too wet.

use belief::Belief;
use model::rules::repair::{GrowthClassRules, GrowthRules};

use crate::input::RepairInput;

/// Probability of the quantiles shown.
pub const SHOWN: [f64; 3] = [0.10, 0.50, 0.90];

/// What the cut grew by against the survey; all 1 as surveyed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Growth {
    /// Volume: `g`.
    pub volume: f64,
    /// Depth: `g^share`.
    pub depth: f64,
    /// Area: `g^(1 - share)`.
    pub area: f64,
}

/// The belief that the rules state of one class.
pub fn belief_of(rules: &GrowthClassRules) -> Belief {
    Belief {
        mean: rules.median.value.ln(),
        mean_weight: rules.mean_weight.value,
        sigma: rules.sigma.value,
        spread_weight: rules.spread_weight.value,
    }
}

impl Growth {
    /// As surveyed.
    pub const NONE: Growth = Growth { volume: 1.0, depth: 1.0, area: 1.0 };

    /// A growth of the volume; `depth_share` of it goes into depth.
    pub fn of_volume(g: f64, depth_share: f64) -> Self {
        Growth { volume: g, depth: g.powf(depth_share), area: g.powf(1.0 - depth_share) }
    }

    /// Growth of the input's hole that is not exceeded with probability `p`.
    pub fn at(p: f64, input: &RepairInput, rules: &GrowthRules) -> Self {
        let (_, class) = rules.of_road(input.road_class);
        let log = belief_of(class).quantile(p) + input.factors.growth.ln();
        Growth::of_volume(log.exp(), rules.depth_share.value)
    }

    /// Growth of lengths in the plan: the root of the area's.
    pub fn side(&self) -> f64 {
        self.area.sqrt()
    }
}
