//! The product-limit estimate of survival (E. L. Kaplan, P. Meier, "Nonparametric estimation from incomplete observations",
//! 1958; from memory) with Greenwood's variance and bands on the log-log scale.

use serde::Serialize;
use statrs::distribution::{ContinuousCDF, Normal};

use crate::life_table::LifeTable;

/// Two survivals nearer than this are the same: a half that rounding moved is still a half.
const SAME: f64 = 1e-12;

/// An estimated survival curve: a step at each duration at which a life ended, the first at 0.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SurvivalCurve {
    /// Lives.
    pub lives: u64,
    /// Those that failed.
    pub failures: u64,
    /// Chance that the band covers the survival at one time.
    pub confidence: f64,
    /// The steps, rising.
    pub points: Vec<CurvePoint>,
}

/// One step.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CurvePoint {
    /// Duration.
    pub time: f64,
    /// At risk just before.
    pub at_risk: u64,
    /// Failed then.
    pub failures: u64,
    /// Part that lasts longer.
    pub survival: f64,
    /// Standard error of the survival (Greenwood).
    pub error: f64,
    /// Lower end of the band.
    pub lower: f64,
    /// Upper end of the band.
    pub upper: f64,
}

/// Mean life within a window.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RestrictedMean {
    /// End of the window.
    pub until: f64,
    /// Area under the curve up to there.
    pub mean: f64,
    /// Its standard error.
    pub error: f64,
}

impl SurvivalCurve {
    /// Estimates the curve; `confidence` of its bands, e.g. 0.95.
    pub fn of(table: &LifeTable, confidence: f64) -> Self {
        let z = normal_quantile(f64::midpoint(1.0, confidence));
        let lives = table.lives();
        let mut points = Vec::with_capacity(table.steps().len() + 1);
        if table.steps().first().is_none_or(|first| first.time() > 0.0) {
            points.push(point(0.0, lives, 0, 1.0, 0.0, z));
        }
        let (mut at_risk, mut survival, mut hazard_variance) = (lives, 1.0, 0.0);
        for step in table.steps() {
            let (n, d) = (at_risk as f64, step.failures as f64);
            survival *= (n - d) / n;
            if step.failures > 0 {
                hazard_variance += d / (n * (n - d));
            }
            points.push(point(step.time(), at_risk, step.failures, survival, hazard_variance, z));
            at_risk -= step.failures + step.censored;
        }
        SurvivalCurve { lives, failures: table.failures(), confidence, points }
    }

    /// Part that lasts longer than so long.
    pub fn survival_at(&self, time: f64) -> f64 {
        self.point_at(time).map_or(1.0, |point| point.survival)
    }

    /// The step that holds at a time; `None` before 0.
    pub fn point_at(&self, time: f64) -> Option<&CurvePoint> {
        let after = self.points.partition_point(|point| point.time <= time);
        after.checked_sub(1).map(|at| &self.points[at])
    }

    /// Duration that a part `left` or less of the lives outlasts; `None` where the curve does not come down so far.
    pub fn quantile(&self, left: f64) -> Option<f64> {
        first(&self.points, |point| point.survival <= left + SAME)
    }

    /// Duration that half of the lives outlast.
    pub fn median(&self) -> Option<f64> {
        self.quantile(0.5)
    }

    /// Durations at which the band holds a half: from where its lower end comes down to it to where its upper end does
    /// (R. Brookmeyer, J. Crowley, 1982; from memory).
    pub fn median_band(&self) -> (Option<f64>, Option<f64>) {
        let to = |end: fn(&CurvePoint) -> f64| first(&self.points, |point| end(point) <= 0.5 + SAME);
        (to(|point| point.lower), to(|point| point.upper))
    }

    /// When the last life ended: beyond nothing is known.
    pub fn last_time(&self) -> f64 {
        self.points.last().map_or(0.0, |point| point.time)
    }

    /// Mean life within a window, cut at the last duration seen when that is shorter, with its error
    /// (J. P. Klein, M. L. Moeschberger, "Survival Analysis", section 4.5; from memory).
    pub fn restricted_mean(&self, until: f64) -> RestrictedMean {
        let until = until.min(self.last_time());
        let ends = self.points.iter().skip(1).map(|point| point.time).chain([until]);
        let areas: Vec<f64> = self
            .points
            .iter()
            .zip(ends)
            .map(|(point, end)| point.survival * (end.min(until) - point.time).max(0.0))
            .collect();
        let mean: f64 = areas.iter().sum();
        let (mut left, mut variance) = (mean, 0.0);
        for (point, area) in self.points.iter().zip(&areas) {
            // what lies to the right of the step, for the steps from left to right
            let right = left;
            left -= area;
            let (n, d) = (point.at_risk as f64, point.failures as f64);
            if point.failures > 0 && point.time < until && n > d {
                variance += right.powi(2) * d / (n * (n - d));
            }
        }
        RestrictedMean { until, mean, error: variance.sqrt() }
    }
}

/// Part of the lives' time in a window that they were whole, per cent: the area under straight lines between the times at
/// which percentages were counted, over the window's. Lives lost for other reasons than failing must not be in a percentage.
/// `None` for less than two times or times that do not rise.
pub fn area_rating(times: &[f64], percentages: &[f64]) -> Option<f64> {
    let (first, last) = (times.first()?, times.last()?);
    let rising = times.windows(2).all(|pair| pair[0] < pair[1]);
    if times.len() < 2 || times.len() != percentages.len() || !rising {
        return None;
    }
    let strips = times.windows(2).zip(percentages.windows(2));
    let area: f64 = strips.map(|(t, p)| (t[1] - t[0]) * f64::midpoint(p[0], p[1])).sum();
    Some(area / (last - first))
}

fn first(points: &[CurvePoint], holds: impl Fn(&CurvePoint) -> bool) -> Option<f64> {
    points.iter().find(|point| holds(point)).map(|point| point.time)
}

fn point(time: f64, at_risk: u64, failures: u64, survival: f64, hazard_variance: f64, z: f64) -> CurvePoint {
    let (error, lower, upper) = if survival <= 0.0 {
        (0.0, 0.0, 0.0)
    } else if survival >= 1.0 {
        (0.0, 1.0, 1.0)
    } else {
        let log = survival.ln();
        let reach = z * hazard_variance.sqrt() / -log;
        (survival * hazard_variance.sqrt(), (log * reach.exp()).exp(), (log * (-reach).exp()).exp())
    };
    CurvePoint { time, at_risk, failures, survival: survival.max(0.0), error, lower, upper }
}

pub(crate) fn normal_quantile(p: f64) -> f64 {
    Normal::standard().inverse_cdf(p.clamp(1e-12, 1.0 - 1e-12))
}
