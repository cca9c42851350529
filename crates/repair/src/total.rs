//! Spread of a sum over several holes.
//!
//! Holes on one road grow together (same base, same age), so errors do not cancel as they would if holes were
//! independent. The sum of log-normals is taken as log-normal with the sum's own mean and variance (L. F. Fenton, "The
//! sum of log-normal probability distributions in scatter transmission systems", IRE Transactions on Communications
//! Systems 8, 1960; from memory).

use std::collections::BTreeMap;

use model::figure::Spread;

use crate::growth::{SHOWN, normal_quantile};

/// One hole's quantity as a log-normal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part<Road> {
    /// The road (or section) it lies on.
    pub road: Road,
    /// Median, in whatever unit the sum is to have.
    pub median: f64,
    /// Standard deviation of its logarithm.
    pub sigma: f64,
}

impl<Road> Part<Road> {
    /// From the quantiles of a figure: the median as it is, the width from P10 to P90.
    pub fn from_spread(road: Road, spread: &Spread<f64>) -> Self {
        let width = normal_quantile(SHOWN[2]) - normal_quantile(SHOWN[0]);
        let sigma = if spread.p10 > 0.0 { (spread.p90 / spread.p10).ln() / width } else { 0.0 };
        Part { road, median: spread.p50, sigma: sigma.max(0.0) }
    }
}

/// P10, P50 and P90 of the sum; correlation `same_road` between the logarithms of two holes of one road, none between
/// roads. Parts with a median of zero or less add nothing.
pub fn total_spread<Road: Ord>(parts: &[Part<Road>], same_road: f64) -> Spread<f64> {
    let sum = moments(parts, same_road);
    let [p10, p50, p90] = SHOWN.map(|p| sum.quantile(p));
    Spread { p10, p50, p90 }
}

/// What the sum does not exceed with probability `p`.
pub fn total_at<Road: Ord>(parts: &[Part<Road>], same_road: f64, p: f64) -> f64 {
    moments(parts, same_road).quantile(p)
}

/// Mean and variance of the sum.
struct Moments {
    mean: f64,
    variance: f64,
}

impl Moments {
    fn quantile(&self, p: f64) -> f64 {
        if self.mean <= 0.0 {
            return 0.0;
        }
        let sigma_squared = (self.variance / self.mean.powi(2)).ln_1p();
        (self.mean.ln() - sigma_squared / 2.0 + sigma_squared.sqrt() * normal_quantile(p)).exp()
    }
}

fn moments<Road: Ord>(parts: &[Part<Road>], same_road: f64) -> Moments {
    let mut roads: BTreeMap<&Road, Vec<(f64, f64)>> = BTreeMap::new();
    for part in parts.iter().filter(|part| part.median > 0.0) {
        let mean = part.median * (part.sigma.powi(2) / 2.0).exp();
        roads.entry(&part.road).or_default().push((mean, part.sigma));
    }
    let mut sum = Moments { mean: 0.0, variance: 0.0 };
    for holes in roads.values() {
        for (i, (mean, sigma)) in holes.iter().enumerate() {
            sum.mean += mean;
            sum.variance += mean.powi(2) * sigma.powi(2).exp_m1();
            for (other_mean, other_sigma) in &holes[..i] {
                sum.variance += 2.0 * mean * other_mean * (same_road * sigma * other_sigma).exp_m1();
            }
        }
    }
    sum
}
