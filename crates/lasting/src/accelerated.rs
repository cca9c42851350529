//! Accelerated failure time: covariates stretch or shorten lives (J. D. Kalbfleisch, R. L. Prentice, "The Statistical Analysis of
//! Failure Time Data", chapter 3; from memory). `ln T = b0 + x b + s e`, `e` by the family.

use nalgebra::{DMatrix, DVector};
use serde::Serialize;
use statrs::distribution::{ContinuousCDF, Normal};

use crate::maximise::{LogLikelihood, top};
use crate::regression::{Coefficients, CovariateLives, FitError, Standardised, check};

/// Above this a normal tail is taken by its series: the library's loses its last digits.
const FAR: f64 = 20.0;

/// How lives spread about what the covariates say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LifeFamily {
    /// `S(t) = exp(-(t / scale)^shape)`.
    Weibull,
    /// `ln T` normal.
    LogNormal,
}

/// A fitted law of lives.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AcceleratedFit {
    /// The family.
    pub family: LifeFamily,
    /// The covariates' coefficients in their order, then [`INTERCEPT`], then [`LOG_SHAPE`]. One of 0.1 makes lives 1.105 times as
    /// long for each unit of its covariate.
    pub coefficients: Coefficients,
}

/// Name of the coefficient without covariate: `ln` of the scale (Weibull) or of the median (log-normal).
pub const INTERCEPT: &str = "intercept";

/// Name of `ln(1/s)`: for Weibull lives `ln` of the shape.
pub const LOG_SHAPE: &str = "log_shape";

impl AcceleratedFit {
    /// Fits by the greatest likelihood.
    ///
    /// # Errors
    /// What can't be fitted, see [`FitError`].
    pub fn of(family: LifeFamily, lives: &CovariateLives) -> Result<Self, FitError> {
        let width = lives.names.len();
        check(lives, width + 2, false)?;
        let rows: Vec<&[f64]> = lives.lives.iter().map(|life| life.covariates.as_slice()).collect();
        let scaled = Standardised::new(&lives.names, &rows)?;
        let ends: Vec<(f64, bool)> = lives.lives.iter().map(|life| (life.duration.ln(), life.failed)).collect();
        let mean = ends.iter().map(|(log, _)| log).sum::<f64>() / ends.len() as f64;
        let mut start = vec![0.0; width + 2];
        start[width] = mean;
        let likelihood = Likelihood { family, rows: &scaled.rows, ends: &ends };
        let top = top(&likelihood, start).ok_or(FitError::NoTop)?;
        let (at, covariance) = scaled.back(&top.at, &top.covariance, Some(width));
        let mut names = lives.names.clone();
        names.extend([INTERCEPT.to_owned(), LOG_SHAPE.to_owned()]);
        Ok(AcceleratedFit { family, coefficients: Coefficients::new(names, &at, &covariance, top.value) })
    }

    /// Part of lives with these covariates that last longer than so long.
    pub fn survival(&self, covariates: &[f64], time: f64) -> f64 {
        if time <= 0.0 {
            return 1.0;
        }
        let (location, shape) = self.law(covariates);
        log_survival(self.family, (time.ln() - location) * shape).0.exp()
    }

    /// Duration that a part `left` of such lives outlasts.
    pub fn quantile(&self, covariates: &[f64], left: f64) -> f64 {
        let (location, shape) = self.law(covariates);
        let deviate = match self.family {
            LifeFamily::Weibull => (-left.ln()).ln(),
            LifeFamily::LogNormal => Normal::standard().inverse_cdf(1.0 - left),
        };
        (location + deviate / shape).exp()
    }

    /// `b0 + x b` and `1/s`.
    pub fn law(&self, covariates: &[f64]) -> (f64, f64) {
        let each = &self.coefficients.each;
        let width = each.len() - 2;
        let sum: f64 = each.iter().zip(covariates).take(width).map(|(b, x)| b.value * x).sum();
        (each[width].value + sum, each[width + 1].value.exp())
    }
}

struct Likelihood<'l> {
    family: LifeFamily,
    rows: &'l [Vec<f64>],
    /// `ln` of the duration, and whether it failed.
    ends: &'l [(f64, bool)],
}

impl Likelihood<'_> {
    /// For each life: covariates, standardised deviate, failed, `ln t`.
    fn deviates<'a>(&'a self, at: &'a [f64]) -> impl Iterator<Item = (&'a [f64], f64, bool, f64)> {
        let width = at.len() - 2;
        let shape = at[width + 1].exp();
        self.rows.iter().zip(self.ends).map(move |(row, (log, failed))| {
            let location = at[width] + row.iter().zip(at).map(|(x, b)| x * b).sum::<f64>();
            (row.as_slice(), (log - location) * shape, *failed, *log)
        })
    }
}

impl LogLikelihood for Likelihood<'_> {
    fn terms(&self) -> usize {
        self.rows.len()
    }

    fn value(&self, at: &[f64]) -> f64 {
        let log_shape = at[at.len() - 1];
        let term = |(_, z, failed, log)| {
            if failed { log_density(self.family, z).0 + log_shape - log } else { log_survival(self.family, z).0 }
        };
        self.deviates(at).map(term).sum()
    }

    fn derivatives(&self, at: &[f64]) -> (DVector<f64>, DMatrix<f64>) {
        let (unknowns, width) = (at.len(), at.len() - 2);
        let shape = at[width + 1].exp();
        let mut slope = DVector::zeros(unknowns);
        let mut curvature = DMatrix::zeros(unknowns, unknowns);
        for (row, z, failed, _) in self.deviates(at) {
            let (_, first, second) = if failed { log_density(self.family, z) } else { log_survival(self.family, z) };
            // z = (ln t - x b) e^a: dz/db = -x e^a, dz/da = z
            let moves = |i: usize| match i {
                i if i < width => -row[i] * shape,
                i if i == width => -shape,
                _ => z,
            };
            for i in 0..unknowns {
                slope[i] += first * moves(i);
                for j in 0..unknowns {
                    curvature[(i, j)] += second * moves(i) * moves(j);
                }
                // d²z/db da = dz/db, d²z/da² = z
                curvature[(i, width + 1)] += first * moves(i);
                if i <= width {
                    curvature[(width + 1, i)] += first * moves(i);
                }
            }
            slope[width + 1] += f64::from(failed);
        }
        (slope, curvature)
    }
}

/// Logarithm of the density of the standard deviate, its first and second derivative.
fn log_density(family: LifeFamily, z: f64) -> (f64, f64, f64) {
    match family {
        LifeFamily::Weibull => (z - z.exp(), 1.0 - z.exp(), -z.exp()),
        LifeFamily::LogNormal => (-0.5 * (z * z + std::f64::consts::TAU.ln()), -z, -1.0),
    }
}

/// Logarithm of the part of standard deviates above, its first and second derivative.
fn log_survival(family: LifeFamily, z: f64) -> (f64, f64, f64) {
    match family {
        LifeFamily::Weibull => (-z.exp(), -z.exp(), -z.exp()),
        LifeFamily::LogNormal => {
            let log_density = log_density(family, z).0;
            let (log_upper, hazard) = if z > FAR {
                // Mills' ratio by its series: 1/z - 1/z³ + 3/z⁵ - 15/z⁷
                let ratio = (1.0 - z.powi(-2) + 3.0 * z.powi(-4) - 15.0 * z.powi(-6)) / z;
                (log_density + ratio.ln(), 1.0 / ratio)
            } else {
                let upper = Normal::standard().sf(z);
                (upper.ln(), log_density.exp() / upper)
            };
            (log_upper, -hazard, -hazard * (hazard - z))
        }
    }
}
