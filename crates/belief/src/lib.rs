//! What is believed of a ratio, such as dug over surveyed or used over planned, and how records move it.
//!
//! Its logarithm is normal with unknown mean and variance; the belief about the two is normal-inverse-gamma, which stays of
//! that kind when records come in (K. P. Murphy, "Conjugate Bayesian analysis of the Gaussian distribution", 2007; from
//! memory).

use serde::Serialize;
use statrs::distribution::{ContinuousCDF, StudentsT};

/// Records summed up: all of them that a belief needs. The default is none.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Records {
    /// How many.
    pub count: usize,
    /// Mean of their logarithms; 0 of none.
    pub mean: f64,
    /// Sum of the squares of what they differ from it.
    pub scatter: f64,
}

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
        self.after_records(Records::of(logs))
    }

    /// The same of records that are summed up.
    #[must_use]
    pub fn after_records(self, records: Records) -> Self {
        if records.count == 0 {
            return self;
        }
        let count = records.count as f64;
        let mean_weight = self.mean_weight + count;
        let spread_weight = self.spread_weight + count;
        let shift = (records.mean - self.mean).powi(2) * self.mean_weight * count / mean_weight;
        Belief {
            mean: (self.mean_weight * self.mean + count * records.mean) / mean_weight,
            mean_weight,
            sigma: ((self.spread_weight * self.sigma.powi(2) + records.scatter + shift) / spread_weight).sqrt(),
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

impl Records {
    /// Sums up logarithms.
    pub fn of(logs: &[f64]) -> Self {
        if logs.is_empty() {
            return Records::default();
        }
        let mean = logs.iter().sum::<f64>() / logs.len() as f64;
        Records { count: logs.len(), mean, scatter: logs.iter().map(|x| (x - mean).powi(2)).sum() }
    }

    /// These and others (T. F. Chan, G. H. Golub, R. J. `LeVeque`, "Updating formulae and a pairwise algorithm for computing
    /// sample variances", 1979; from memory).
    #[must_use]
    pub fn and(self, others: Records) -> Self {
        if self.count == 0 || others.count == 0 {
            return if self.count == 0 { others } else { self };
        }
        let count = self.count + others.count;
        let part = others.count as f64 / count as f64;
        let apart = others.mean - self.mean;
        Records {
            count,
            mean: self.mean + apart * part,
            scatter: self.scatter + others.scatter + apart.powi(2) * self.count as f64 * part,
        }
    }

    /// For each of some groups, the records of all the others. Nothing is taken away again, so that no figures cancel.
    pub fn of_others(groups: &[Records]) -> Vec<Records> {
        let mut others = Vec::with_capacity(groups.len());
        let mut before = Records::default();
        for &group in groups {
            others.push(before);
            before = before.and(group);
        }
        let mut behind = Records::default();
        for (others, &group) in others.iter_mut().zip(groups).rev() {
            *others = others.and(behind);
            behind = group.and(behind);
        }
        others
    }
}

/// Quantile of Student's t; not a number where the degrees of freedom are not over zero, which `check_rules` refuses.
pub fn student_quantile(p: f64, freedom: f64) -> f64 {
    let p = if p.is_nan() { 1.0 } else { p }.clamp(TAIL, 1.0 - TAIL);
    // The library's inverse is asked for the upper half only: both halves then mirror each other exactly.
    let upper = StudentsT::new(0.0, 1.0, freedom).map_or(f64::NAN, |t| t.inverse_cdf(p.max(1.0 - p)));
    if p < 0.5 { -upper } else { upper }
}
