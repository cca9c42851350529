//! A polynomial through points by least squares, with the covariance of its constants.

use nalgebra::{DMatrix, DVector};

/// Constants whose columns of the design are this near to dependent can't be told apart.
const RANK_TOLERANCE: f64 = 1e-9;

/// A fitted polynomial in `x = (t - centre) / scale`, which keeps the sums well conditioned.
#[derive(Debug, Clone, PartialEq)]
pub struct Polynomial {
    centre: f64,
    scale: f64,
    /// Rising powers of `x`.
    constants: DVector<f64>,
    /// `(X' X)^-1`.
    unscaled_covariance: DMatrix<f64>,
    residual_squares: f64,
    points: usize,
}

/// A maximum of a fitted polynomial.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Peak {
    /// Where.
    pub at: f64,
    /// How high.
    pub value: f64,
    /// Standard error of `at`; `None` where the polynomial goes through every point by force.
    pub at_error: Option<f64>,
    /// Standard error of `value`.
    pub value_error: Option<f64>,
}

impl Polynomial {
    /// Fits a polynomial of second or third degree. `None` where the points don't fix it: too few at different places.
    pub fn fit(points: &[(f64, f64)], degree: usize) -> Option<Self> {
        let count = degree + 1;
        let low = points.iter().map(|p| p.0).fold(f64::INFINITY, f64::min);
        let high = points.iter().map(|p| p.0).fold(f64::NEG_INFINITY, f64::max);
        let scale = (high - low) / 2.0;
        if points.len() < count || !scale.is_finite() || scale <= 0.0 {
            return None;
        }
        let centre = f64::midpoint(low, high);
        let design = DMatrix::from_fn(points.len(), count, |row, power| {
            ((points[row].0 - centre) / scale).powi(i32::try_from(power).unwrap_or(0))
        });
        let values = DVector::from_iterator(points.len(), points.iter().map(|p| p.1));
        let svd = design.clone().svd(true, true);
        let tolerance = RANK_TOLERANCE * svd.singular_values.max();
        if svd.rank(tolerance) < count {
            return None;
        }
        let constants = svd.solve(&values, tolerance).ok()?;
        let residuals = &values - &design * &constants;
        let turned = svd.v_t.as_ref()?;
        let unscaled_covariance = DMatrix::from_fn(count, count, |i, j| {
            let term = |k: usize| turned[(k, i)] * turned[(k, j)] / svd.singular_values[k].powi(2);
            (0..count).map(term).sum()
        });
        let residual_squares = residuals.norm_squared();
        let fitted =
            Polynomial { centre, scale, constants, unscaled_covariance, residual_squares, points: points.len() };
        fitted.constants.iter().all(|c| c.is_finite()).then_some(fitted)
    }

    /// Points more than constants.
    pub fn degrees_of_freedom(&self) -> usize {
        self.points - self.constants.len()
    }

    /// Standard deviation of the points about the curve; `None` where it goes through all of them by force.
    pub fn scatter(&self) -> Option<f64> {
        let spare = self.degrees_of_freedom();
        (spare > 0).then(|| (self.residual_squares / spare as f64).sqrt())
    }

    /// Height at a place.
    pub fn at(&self, place: f64) -> f64 {
        let x = (place - self.centre) / self.scale;
        self.constants.iter().rev().fold(0.0, |sum, constant| sum * x + constant)
    }

    /// Constants of `a + b t + c t^2 + ...`, rising powers of the place itself.
    pub fn plain_constants(&self) -> Vec<f64> {
        let count = self.constants.len();
        let mut plain = vec![0.0; count];
        // (t - centre)^k / scale^k written out by the binomial theorem.
        for (power, constant) in self.constants.iter().enumerate() {
            let mut binomial = 1.0;
            for (lower, slot) in plain.iter_mut().enumerate().take(power + 1) {
                let rest = i32::try_from(power - lower).unwrap_or(0);
                let over = i32::try_from(power).unwrap_or(0);
                *slot += constant * binomial * (-self.centre).powi(rest) / self.scale.powi(over);
                binomial *= (power - lower) as f64 / (lower + 1) as f64;
            }
        }
        plain
    }

    /// The place where it is highest locally; `None` where it has no such place.
    pub fn peak(&self) -> Option<Peak> {
        let c = |power: usize| self.constants.get(power).copied().unwrap_or(0.0);
        let (slope, bend, twist) = (c(1), c(2), c(3));
        // f' = slope + 2 bend x + 3 twist x^2 = 0, of the two roots the one with f'' = -2 root < 0.
        let root = (bend * bend - 3.0 * slope * twist).sqrt();
        // Written so that nothing cancels; with twist = 0 the vertex of a parabola.
        let x = if bend <= 0.0 { slope / (root - bend) } else { (-bend - root) / (3.0 * twist) };
        let curvature = 2.0 * bend + 6.0 * twist * x;
        if !x.is_finite() || curvature.partial_cmp(&0.0) != Some(std::cmp::Ordering::Less) {
            return None;
        }
        let count = self.constants.len();
        let power = |exponent: usize| x.powi(i32::try_from(exponent).unwrap_or(0));
        // Delta method. The height's gradient is that of the polynomial itself, since its slope is zero there; the
        // place moves by minus the slope's gradient over the curvature.
        let of_value = DVector::from_fn(count, |k, _| power(k));
        let of_place =
            DVector::from_fn(count, |k, _| if k == 0 { 0.0 } else { -(k as f64) * power(k - 1) / curvature });
        let error = |gradient: &DVector<f64>| {
            let variance = (gradient.transpose() * &self.unscaled_covariance * gradient)[(0, 0)];
            self.scatter().map(|scatter| scatter * variance.max(0.0).sqrt())
        };
        Some(Peak {
            at: self.centre + self.scale * x,
            value: self.at(self.centre + self.scale * x),
            at_error: error(&of_place).map(|error| error * self.scale),
            value_error: error(&of_value),
        })
    }
}
