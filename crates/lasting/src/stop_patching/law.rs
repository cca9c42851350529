//! How long repairs live, made ready to be drawn and counted quickly.

/// Entries of the table that lives are drawn from.
const QUANTILES: usize = 1024;

/// Steps of a year in which repairs made again are counted.
const STEPS_A_YEAR: usize = 32;

/// A law of repairs' lives: Weibull, with a table of it.
#[derive(Debug, Clone, PartialEq)]
pub struct PatchLaw {
    /// Years that 37 % outlast; infinite: they never fail.
    pub scale_years: f64,
    /// Shape; over 1 they wear out.
    pub shape: f64,
    quantiles: Vec<f64>,
}

impl PatchLaw {
    /// The law; `None` unless 37 % outlast a hundredth of a year at least, and the shape is from 0.2 to 20.
    pub fn weibull(scale_years: f64, shape: f64) -> Option<Self> {
        let fits = scale_years >= 0.01 && (0.2..=20.0).contains(&shape);
        let quantile = |at: usize| {
            let p = at as f64 / QUANTILES as f64;
            // the middle of the last step stands for its end, which is infinite
            let p = if at == QUANTILES { 1.0 - 0.25 / QUANTILES as f64 } else { p };
            if at == 0 { 0.0 } else { scale_years * (-(-p).ln_1p()).powf(1.0 / shape) }
        };
        fits.then(|| PatchLaw { scale_years, shape, quantiles: (0..=QUANTILES).map(quantile).collect() })
    }

    /// The life that a chance from 0 to 1 stands for, years; in proportion between the table's entries.
    pub fn life(&self, chance: f64) -> f64 {
        if self.scale_years.is_infinite() {
            return f64::INFINITY;
        }
        let at = chance * QUANTILES as f64;
        let below = (at as usize).min(QUANTILES - 1);
        let (low, high) = (self.quantiles[below], self.quantiles[below + 1]);
        low + (at - below as f64) * (high - low)
    }

    /// Part that has failed after so many years.
    pub fn failed_by(&self, years: f64) -> f64 {
        1.0 - (-(years / self.scale_years).powf(self.shape)).exp()
    }

    /// How often a hole of a year, at any time in it, is expected to be mended again in the same year, the next, and so on.
    pub fn mended_again(&self, years: usize) -> Vec<f64> {
        let steps = years * STEPS_A_YEAR;
        let at = |step: f64| self.failed_by(step / STEPS_A_YEAR as f64);
        // expected repairs again until each step, by the renewal equation with the middle rule (M. Xie, 1989; from memory)
        let mut again = vec![0.0; steps + 1];
        let halves: Vec<f64> = (0..=2 * steps).map(|half| at(half as f64 / 2.0)).collect();
        for i in 1..=steps {
            let mut sum = halves[2 * i] - halves[1] * again[i - 1];
            for j in 1..i {
                sum += (again[j] - again[j - 1]) * halves[2 * (i - j) + 1];
            }
            again[i] = sum / (1.0 - halves[1]);
        }
        // a hole at any time of its year: the mean over its times
        let until = |year: usize| {
            let from = year.saturating_sub(1) * STEPS_A_YEAR;
            let to = year * STEPS_A_YEAR;
            let inner: f64 = again[from..=to].iter().sum::<f64>() - f64::midpoint(again[from], again[to]);
            if year == 0 { 0.0 } else { inner / STEPS_A_YEAR as f64 }
        };
        (0..years).map(|year| until(year + 1) - until(year)).collect()
    }
}
