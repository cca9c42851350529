//! How much more is dug out than was surveyed.
//!
//! `V_cut = V_surveyed * g`, `g` log-normal. Every quantity of a repair rises or stays with `g`, so its quantile is the
//! quantity at the quantile of `g`.

use model::rules::repair::GrowthRules;
use statrs::distribution::{ContinuousCDF, Normal};

/// Probability of the quantiles shown.
pub const SHOWN: [f64; 3] = [0.10, 0.50, 0.90];

/// Furthest into the tails a quantile is taken.
const TAIL: f64 = 1e-6;

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

impl Growth {
    /// As surveyed.
    pub const NONE: Growth = Growth { volume: 1.0, depth: 1.0, area: 1.0 };

    /// Growth that is not exceeded with probability `p`.
    pub fn at(p: f64, rules: &GrowthRules) -> Self {
        let g = rules.median.value * (rules.sigma.value * normal_quantile(p)).exp();
        let share = rules.depth_share.value;
        Growth { volume: g, depth: g.powf(share), area: g.powf(1.0 - share) }
    }

    /// Growth of lengths in the plan: the root of the area's.
    pub fn side(&self) -> f64 {
        self.area.sqrt()
    }
}

/// Quantile of the standard normal distribution. `p` is kept off 0 and 1; a `p` that is not a number counts as the
/// upper end, the cautious side for a load.
pub fn normal_quantile(p: f64) -> f64 {
    let p = if p.is_nan() { 1.0 } else { p };
    Normal::standard().inverse_cdf(p.clamp(TAIL, 1.0 - TAIL))
}
