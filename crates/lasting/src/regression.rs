//! What the regressions share: lives with covariates, and what is found.

use nalgebra::{DMatrix, DVector};
use serde::Serialize;
use statrs::distribution::{ContinuousCDF, Normal};
use thiserror::Error;

use crate::product_limit::normal_quantile;

/// Lives with covariates.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CovariateLives {
    /// Names of the covariates.
    pub names: Vec<String>,
    /// The lives.
    pub lives: Vec<CovariateLife>,
}

/// One life with its covariates. A property with several values (materials, crews) is one covariate for each value but one,
/// 1 where it holds and 0 where not.
#[derive(Debug, Clone, PartialEq)]
pub struct CovariateLife {
    /// From begin to end.
    pub duration: f64,
    /// Whether it failed then.
    pub failed: bool,
    /// In the order of the names.
    pub covariates: Vec<f64>,
}

/// Why nothing can be fitted.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum FitError {
    /// A life does not have one number for each name, or one that is none.
    #[error("life {row}: its covariates are not {expected} numbers")]
    Covariates {
        /// Which life, from 0.
        row: usize,
        /// How many there should be.
        expected: usize,
    },
    /// A duration that can't be.
    #[error("life {row}: a duration of {duration}; it must be over 0 here")]
    Duration {
        /// Which life, from 0.
        row: usize,
        /// What it says.
        duration: f64,
    },
    /// A covariate that is the same for all lives says nothing.
    #[error("`{name}` is the same in all lives: leave it out")]
    Constant {
        /// Its name.
        name: String,
    },
    /// Too little has failed.
    #[error("{failures} failures for {unknowns} unknowns: too few to tell")]
    TooFew {
        /// How many failed.
        failures: usize,
        /// How many numbers are asked for.
        unknowns: usize,
    },
    /// No top of the likelihood.
    #[error(
        "no best fit: a covariate parts failures from the rest wholly, or follows from others; leave covariates out or put \
         groups together"
    )]
    NoTop,
}

/// Coefficients found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Coefficients {
    /// One for each name.
    pub each: Vec<Coefficient>,
    /// Log likelihood.
    pub log_likelihood: f64,
    /// Covariance of the coefficients, row by row.
    pub covariance: Vec<Vec<f64>>,
}

/// One coefficient.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Coefficient {
    /// Of what.
    pub name: String,
    /// Its value.
    pub value: f64,
    /// Its standard error.
    pub error: f64,
}

impl Coefficient {
    /// Chance of a value so far from 0 if it is 0 (Wald).
    pub fn p(&self) -> f64 {
        2.0 * Normal::standard().sf((self.value / self.error).abs())
    }

    /// Ends of the interval that covers the true value with this confidence.
    pub fn interval(&self, confidence: f64) -> (f64, f64) {
        let reach = normal_quantile(f64::midpoint(1.0, confidence)) * self.error;
        (self.value - reach, self.value + reach)
    }
}

impl Coefficients {
    pub(crate) fn new(names: Vec<String>, at: &DVector<f64>, covariance: &DMatrix<f64>, log_likelihood: f64) -> Self {
        let each = names.into_iter().enumerate().map(|(i, name)| Coefficient {
            name,
            value: at[i],
            error: covariance[(i, i)].sqrt(),
        });
        let covariance = covariance.row_iter().map(|row| row.iter().copied().collect()).collect();
        Coefficients { each: each.collect(), log_likelihood, covariance }
    }

    /// The one of that name.
    pub fn of(&self, name: &str) -> Option<&Coefficient> {
        self.each.iter().find(|coefficient| coefficient.name == name)
    }
}

/// Covariates moved to mean 0 and scaled to deviation 1, which lets the optimiser go straight.
pub(crate) struct Standardised {
    pub rows: Vec<Vec<f64>>,
    means: Vec<f64>,
    deviations: Vec<f64>,
}

impl Standardised {
    pub fn new(names: &[String], rows: &[&[f64]]) -> Result<Self, FitError> {
        let wrong = |row: &&[f64]| row.len() != names.len() || row.iter().any(|number| !number.is_finite());
        if let Some(row) = rows.iter().position(wrong) {
            return Err(FitError::Covariates { row, expected: names.len() });
        }
        let count = rows.len() as f64;
        let column = |at: usize| rows.iter().map(move |row| row[at]);
        let means: Vec<f64> = (0..names.len()).map(|at| column(at).sum::<f64>() / count).collect();
        let deviation = |at: usize| (column(at).map(|x| (x - means[at]).powi(2)).sum::<f64>() / count).sqrt();
        let deviations: Vec<f64> = (0..names.len()).map(deviation).collect();
        let constant = |at: &usize| deviations[*at] <= 1e-12 * means[*at].abs().max(1e-300);
        if let Some(at) = (0..names.len()).find(constant) {
            return Err(FitError::Constant { name: names[at].clone() });
        }
        let scaled = |row: &&[f64]| row.iter().enumerate().map(|(at, x)| (x - means[at]) / deviations[at]).collect();
        Ok(Standardised { rows: rows.iter().map(scaled).collect(), means, deviations })
    }

    /// Covariates of one more row, scaled the same way.
    pub fn width(&self) -> usize {
        self.means.len()
    }

    /// Coefficients of the covariates as they were. The first `width` unknowns are the covariates'; `intercept` is the place
    /// of the unknown that the means go into.
    pub fn back(
        &self,
        at: &DVector<f64>,
        covariance: &DMatrix<f64>,
        intercept: Option<usize>,
    ) -> (DVector<f64>, DMatrix<f64>) {
        let mut turn = DMatrix::identity(at.len(), at.len());
        for i in 0..self.width() {
            turn[(i, i)] = 1.0 / self.deviations[i];
            if let Some(intercept) = intercept {
                turn[(intercept, i)] = -self.means[i] / self.deviations[i];
            }
        }
        (&turn * at, &turn * covariance * turn.transpose())
    }
}

/// Checks what both regressions of lives ask for.
pub(crate) fn check(lives: &CovariateLives, unknowns: usize, zero_allowed: bool) -> Result<(), FitError> {
    let bad = |life: &CovariateLife| {
        let possible = if zero_allowed { life.duration >= 0.0 } else { life.duration > 0.0 };
        !(life.duration.is_finite() && possible)
    };
    if let Some(row) = lives.lives.iter().position(bad) {
        return Err(FitError::Duration { row, duration: lives.lives[row].duration });
    }
    let failures = lives.lives.iter().filter(|life| life.failed).count();
    if failures <= unknowns { Err(FitError::TooFew { failures, unknowns }) } else { Ok(()) }
}
