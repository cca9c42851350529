//! Proportional hazards (D. R. Cox, "Regression models and life tables", 1972) with Efron's way with equal durations (B. Efron,
//! 1977); both from memory.

use nalgebra::{DMatrix, DVector};
use serde::Serialize;

use crate::maximise::{LogLikelihood, top};
use crate::regression::{Coefficients, CovariateLives, FitError, Standardised, check};

/// A fit. A coefficient of 0.7 means twice the chance to fail at any time for each unit of its covariate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ProportionalFit {
    /// One for each covariate; the log likelihood is the partial one.
    pub coefficients: Coefficients,
}

impl ProportionalFit {
    /// Fits by the greatest partial likelihood.
    ///
    /// # Errors
    /// What can't be fitted, see [`FitError`].
    pub fn of(lives: &CovariateLives) -> Result<Self, FitError> {
        check(lives, lives.names.len(), true)?;
        let rows: Vec<&[f64]> = lives.lives.iter().map(|life| life.covariates.as_slice()).collect();
        let scaled = Standardised::new(&lives.names, &rows)?;
        // the longest first: whoever is at risk then only grows
        let mut order: Vec<usize> = (0..lives.lives.len()).collect();
        order.sort_by(|a, b| lives.lives[*b].duration.total_cmp(&lives.lives[*a].duration));
        let ends = lives.lives.iter().map(|life| (life.duration, life.failed)).collect();
        let likelihood = Likelihood { rows: &scaled.rows, ends, order };
        let top = top(&likelihood, vec![0.0; lives.names.len()]).ok_or(FitError::NoTop)?;
        let (at, covariance) = scaled.back(&top.at, &top.covariance, None);
        Ok(ProportionalFit { coefficients: Coefficients::new(lives.names.clone(), &at, &covariance, top.value) })
    }
}

struct Likelihood<'l> {
    rows: &'l [Vec<f64>],
    ends: Vec<(f64, bool)>,
    order: Vec<usize>,
}

/// Weights, weighted covariates and their squares, summed over lives.
#[derive(Clone)]
struct Sums {
    weight: f64,
    first: DVector<f64>,
    second: DMatrix<f64>,
}

impl Sums {
    fn none(width: usize) -> Self {
        Sums { weight: 0.0, first: DVector::zeros(width), second: DMatrix::zeros(width, width) }
    }

    fn add(&mut self, row: &[f64], weight: f64) {
        self.weight += weight;
        for (i, x) in row.iter().enumerate() {
            self.first[i] += weight * x;
            for (j, y) in row.iter().enumerate() {
                self.second[(i, j)] += weight * x * y;
            }
        }
    }
}

impl Likelihood<'_> {
    /// Goes through the durations from the longest, with those at risk then and those that failed then.
    fn each_time(&self, at: &[f64], mut seen: impl FnMut(&Sums, &Sums, &[usize])) {
        let mut at_risk = Sums::none(at.len());
        for same in self.order.chunk_by(|a, b| self.ends[*a].0 == self.ends[*b].0) {
            let mut failed = Sums::none(at.len());
            let mut which = Vec::new();
            for life in same {
                let row = &self.rows[*life];
                let weight = score(row, at).exp();
                at_risk.add(row, weight);
                if self.ends[*life].1 {
                    failed.add(row, weight);
                    which.push(*life);
                }
            }
            if !which.is_empty() {
                seen(&at_risk, &failed, &which);
            }
        }
    }
}

impl LogLikelihood for Likelihood<'_> {
    fn terms(&self) -> usize {
        self.rows.len()
    }

    fn value(&self, at: &[f64]) -> f64 {
        let mut value = 0.0;
        self.each_time(at, |at_risk, failed, which| {
            for (k, life) in which.iter().enumerate() {
                let part = k as f64 / which.len() as f64;
                value += score(&self.rows[*life], at) - (at_risk.weight - part * failed.weight).ln();
            }
        });
        value
    }

    fn derivatives(&self, at: &[f64]) -> (DVector<f64>, DMatrix<f64>) {
        let mut slope = DVector::zeros(at.len());
        let mut curvature = DMatrix::zeros(at.len(), at.len());
        self.each_time(at, |at_risk, failed, which| {
            for (k, life) in which.iter().enumerate() {
                let part = k as f64 / which.len() as f64;
                let weight = at_risk.weight - part * failed.weight;
                let mean = (&at_risk.first - &failed.first * part) / weight;
                slope += DVector::from_column_slice(&self.rows[*life]) - &mean;
                curvature -= (&at_risk.second - &failed.second * part) / weight - &mean * mean.transpose();
            }
        });
        (slope, curvature)
    }
}

fn score(row: &[f64], at: &[f64]) -> f64 {
    row.iter().zip(at).map(|(x, b)| x * b).sum()
}
