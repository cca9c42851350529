//! How many new holes a road gets: Poisson counts in proportion to the kilometre-days watched, by season and rain, and each road
//! drawn towards what roads like it have.

use argmin::core::{CostFunction, Error, Executor};
use argmin::solver::brent::BrentOpt;
use nalgebra::{DMatrix, DVector};
use serde::Serialize;
use statrs::distribution::{ContinuousCDF, Gamma};
use statrs::function::gamma::ln_gamma;

use crate::accelerated::INTERCEPT;
use crate::maximise::{LogLikelihood, top};
use crate::regression::{Coefficients, FitError, Standardised};

/// Logarithms between which the spread between roads is looked for. At the upper end roads differ by less than 2 % in a
/// hundred.
const LOG_SHAPE: (f64, f64) = (-4.0, 8.0);

/// New holes of one road in one span of time under the same conditions.
#[derive(Debug, Clone, PartialEq)]
pub struct HoleCount {
    /// Kilometres watched times days.
    pub km_days: f64,
    /// New holes seen.
    pub holes: u32,
    /// Conditions, in the order of the names: rain of the weeks before, season ...
    pub covariates: Vec<f64>,
}

/// Rate of new holes: `exp(b0 + x b)` for each kilometre and day.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ArrivalFit {
    /// The covariates' coefficients in their order, then the intercept.
    pub coefficients: Coefficients,
}

impl ArrivalFit {
    /// Fits by the greatest likelihood.
    ///
    /// # Errors
    /// What can't be fitted, see [`FitError`]; the failures of its words are holes here.
    pub fn of(names: &[String], counts: &[HoleCount]) -> Result<Self, FitError> {
        let wrong = |count: &HoleCount| !(count.km_days > 0.0 && count.km_days.is_finite());
        if let Some(row) = counts.iter().position(wrong) {
            return Err(FitError::Duration { row, duration: counts[row].km_days });
        }
        let holes: u64 = counts.iter().map(|count| u64::from(count.holes)).sum();
        let unknowns = names.len() + 1;
        if holes as usize <= unknowns {
            return Err(FitError::TooFew { failures: holes as usize, unknowns });
        }
        let rows: Vec<&[f64]> = counts.iter().map(|count| count.covariates.as_slice()).collect();
        let scaled = Standardised::new(names, &rows)?;
        let watched: f64 = counts.iter().map(|count| count.km_days).sum();
        let mut start = vec![0.0; unknowns];
        start[names.len()] = (holes as f64 / watched).ln();
        let top = top(&Likelihood { rows: &scaled.rows, counts }, start).ok_or(FitError::NoTop)?;
        let (at, covariance) = scaled.back(&top.at, &top.covariance, Some(names.len()));
        let mut names = names.to_vec();
        names.push(INTERCEPT.to_owned());
        Ok(ArrivalFit { coefficients: Coefficients::new(names, &at, &covariance, top.value) })
    }

    /// New holes expected on so many kilometre-days under such conditions.
    pub fn expected(&self, km_days: f64, covariates: &[f64]) -> f64 {
        let each = &self.coefficients.each;
        let width = each.len() - 1;
        let sum: f64 = each.iter().zip(covariates).take(width).map(|(b, x)| b.value * x).sum();
        km_days * (each[width].value + sum).exp()
    }
}

struct Likelihood<'l> {
    rows: &'l [Vec<f64>],
    counts: &'l [HoleCount],
}

impl Likelihood<'_> {
    fn each<'a>(&'a self, at: &'a [f64]) -> impl Iterator<Item = (&'a [f64], f64, f64)> {
        let width = at.len() - 1;
        self.rows.iter().zip(self.counts).map(move |(row, count)| {
            let log = count.km_days.ln() + at[width] + row.iter().zip(at).map(|(x, b)| x * b).sum::<f64>();
            (row.as_slice(), f64::from(count.holes), log)
        })
    }
}

impl LogLikelihood for Likelihood<'_> {
    fn terms(&self) -> usize {
        self.counts.len()
    }

    fn value(&self, at: &[f64]) -> f64 {
        self.each(at).map(|(_, holes, log)| holes * log - log.exp() - ln_gamma(holes + 1.0)).sum()
    }

    fn derivatives(&self, at: &[f64]) -> (DVector<f64>, DMatrix<f64>) {
        let width = at.len() - 1;
        let mut slope = DVector::zeros(at.len());
        let mut curvature = DMatrix::zeros(at.len(), at.len());
        for (row, holes, log) in self.each(at) {
            let x = |i: usize| if i < width { row[i] } else { 1.0 };
            for i in 0..=width {
                slope[i] += (holes - log.exp()) * x(i);
                for j in 0..=width {
                    curvature[(i, j)] -= log.exp() * x(i) * x(j);
                }
            }
        }
        (slope, curvature)
    }
}

/// Holes of a road, and how many roads like it would have had.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadCount {
    /// Its name.
    pub road: String,
    /// New holes seen.
    pub holes: u32,
    /// New holes expected of it by the conditions and kilometre-days alone, over 0.
    pub expected: f64,
}

/// What roads have of their own.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RoadFactors {
    /// Shape of the gamma law of roads' factors, mean 1: how many expected holes the other roads weigh against a road's own.
    /// Nothing where roads differ no more than by chance.
    pub shape: Option<f64>,
    /// Each road.
    pub roads: Vec<RoadFactor>,
}

/// A road against roads like it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RoadFactor {
    /// Its name.
    pub road: String,
    /// So many times as many holes as expected, drawn towards 1 by what the other roads weigh.
    pub factor: f64,
    /// One chance in ten that it is below.
    pub p10: f64,
    /// One chance in ten that it is above.
    pub p90: f64,
}

/// Empirical Bayes: roads' factors have a gamma law of mean 1 whose shape is likeliest (negative binomial counts).
pub fn road_factors(roads: &[RoadCount]) -> RoadFactors {
    let usable: Vec<&RoadCount> =
        roads.iter().filter(|road| road.expected > 0.0 && road.expected.is_finite()).collect();
    let shape = likeliest_shape(&usable);
    let factor = |road: &&RoadCount| {
        let Some(shape) = shape else {
            return RoadFactor { road: road.road.clone(), factor: 1.0, p10: 1.0, p90: 1.0 };
        };
        let (a, b) = (shape + f64::from(road.holes), shape + road.expected);
        let quantile = |p| Gamma::new(a, b).map_or(f64::NAN, |law| law.inverse_cdf(p));
        RoadFactor { road: road.road.clone(), factor: a / b, p10: quantile(0.1), p90: quantile(0.9) }
    };
    RoadFactors { shape, roads: usable.iter().map(factor).collect() }
}

struct Spread<'s>(&'s [&'s RoadCount]);

impl CostFunction for Spread<'_> {
    type Param = f64;
    type Output = f64;

    /// Minus the log likelihood of negative binomial counts, without what the shape does not change.
    fn cost(&self, log_shape: &f64) -> Result<f64, Error> {
        let a = log_shape.exp();
        let of = |road: &&RoadCount| {
            let (y, e) = (f64::from(road.holes), road.expected);
            ln_gamma(a + y) - ln_gamma(a) + a * (a / (a + e)).ln() - y * (a + e).ln()
        };
        Ok(-self.0.iter().map(of).sum::<f64>())
    }
}

fn likeliest_shape(roads: &[&RoadCount]) -> Option<f64> {
    if roads.len() < 2 {
        return None;
    }
    let (low, high) = LOG_SHAPE;
    let run = Executor::new(Spread(roads), BrentOpt::new(low, high))
        .configure(|state| state.max_iters(200))
        .timer(false)
        .ctrlc(false)
        .run()
        .ok()?;
    run.state.best_param.filter(|log| *log < high - 0.1).map(f64::exp)
}
