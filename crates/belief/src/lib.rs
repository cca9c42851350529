//! What is believed of a ratio, such as dug over surveyed or used over planned, and how records move it.
//!
//! Its logarithm is normal with unknown mean and variance; the belief about the two is normal-inverse-gamma, which stays of
//! that kind when records come in (K. P. Murphy, "Conjugate Bayesian analysis of the Gaussian distribution", 2007; from
//! memory).

use serde::Serialize;
use statrs::distribution::{ContinuousCDF, StudentsT};

/// Furthest into the tails a quantile is taken.
const TAIL: f64 = 1e-6;

/// A belief about mean and variance of the logarithm. In the usual letters: `mu`, `kappa`, and `alpha`, `beta` as
/// `spread_weight = 2 alpha`, `sigma^2 = beta / alpha`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Belief {
    /// Mean of the logarithm.
    pub mean: f64,
    /// How many records that mean counts as.
    pub mean_weight: f64,
    /// Standard deviation of the logarithm between records.
    pub sigma: f64,
    /// How many records that deviation counts as.
    pub spread_weight: f64,
}

impl Belief {
    /// The belief after records; each is one logarithm. Their order does not matter, nor whether they come at once.
    #[must_use]
    pub fn after(self, logs: &[f64]) -> Self {
        if logs.is_empty() {
            return self;
        }
        let count = logs.len() as f64;
        let record_mean = logs.iter().sum::<f64>() / count;
        let scatter: f64 = logs.iter().map(|x| (x - record_mean).powi(2)).sum();
        let mean_weight = self.mean_weight + count;
        let spread_weight = self.spread_weight + count;
        let shift = (record_mean - self.mean).powi(2) * self.mean_weight * count / mean_weight;
        Belief {
            mean: (self.mean_weight * self.mean + count * record_mean) / mean_weight,
            mean_weight,
            sigma: ((self.spread_weight * self.sigma.powi(2) + scatter + shift) / spread_weight).sqrt(),
            spread_weight,
        }
    }

    /// Median of the ratio.
    pub fn median(&self) -> f64 {
        self.mean.exp()
    }

    /// Scale of the next logarithm: sigma, and the doubt about the mean.
    pub fn scale(&self) -> f64 {
        self.sigma * (1.0 + 1.0 / self.mean_weight).sqrt()
    }

    /// What the next logarithm does not exceed with probability `p`: Student's t with `spread_weight` degrees of
    /// freedom. `p` is kept off 0 and 1; a `p` that is not a number counts as the upper end, the cautious side for a
    /// load.
    pub fn quantile(&self, p: f64) -> f64 {
        self.mean + self.scale() * student_quantile(p, self.spread_weight)
    }

    /// What the mean of the logarithm does not exceed with probability `p`: how well it is known, not how far single
    /// records stray. `p` as in [`Belief::quantile`].
    pub fn mean_quantile(&self, p: f64) -> f64 {
        self.mean + self.sigma / self.mean_weight.sqrt() * student_quantile(p, self.spread_weight)
    }
}

/// Quantile of Student's t; not a number where the degrees of freedom are not over zero, which `check_rules` refuses.
pub fn student_quantile(p: f64, freedom: f64) -> f64 {
    let p = if p.is_nan() { 1.0 } else { p }.clamp(TAIL, 1.0 - TAIL);
    // The library's inverse is asked for the upper half only: both halves then mirror each other exactly.
    let upper = StudentsT::new(0.0, 1.0, freedom).map_or(f64::NAN, |t| t.inverse_cdf(p.max(1.0 - p)));
    if p < 0.5 { -upper } else { upper }
}
