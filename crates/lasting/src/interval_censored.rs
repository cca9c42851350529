//! Failures known only to lie between two looks: the estimate of greatest likelihood (B. W. Turnbull, "The empirical distribution
//! function with arbitrarily grouped, censored and truncated data", 1976; from memory) by self-consistency.

use serde::Serialize;
use thiserror::Error;

/// Rounds of self-consistency at most.
const ROUNDS: usize = 200_000;

/// Rounds between two looks at whether the top is reached.
const LOOK: usize = 50;

/// Less mass than this is none.
const NO_MASS: f64 = 1e-9;

/// When a repair failed: after the last look at which it held, at the latest at the look at which it had failed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeenBetween {
    /// It still held then.
    pub after: f64,
    /// It had failed then; infinite where it never was seen failed. The same as `after`: it failed at that very time.
    pub until: f64,
}

/// Part of the lives that ended in an interval; where in it nothing can tell.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct IntervalMass {
    /// After this, or at it where both ends are the same.
    pub after: f64,
    /// Until this, it included; infinite for those that outlast every look.
    pub until: f64,
    /// Part of all lives.
    pub mass: f64,
}

/// The estimate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct IntervalCurve {
    /// Lives.
    pub lives: usize,
    /// Those seen failed.
    pub failures: usize,
    /// Intervals with mass, rising.
    pub intervals: Vec<IntervalMass>,
    /// Log likelihood.
    pub log_likelihood: f64,
    /// How far the conditions of the greatest likelihood are from met: 0 is exactly; see [`IntervalCurve::is_top`].
    pub gap: f64,
    /// Rounds taken.
    pub rounds: usize,
}

/// What can't be estimated.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum IntervalError {
    /// No lives.
    #[error("no lives")]
    None,
    /// An interval that can't be.
    #[error("life {row}: from {after} to {until}; the first must be a number from 0 on, the second not before it")]
    Interval {
        /// Which life, from 0.
        row: usize,
        /// What it says.
        after: f64,
        /// What it says.
        until: f64,
    },
}

/// An end of an interval. At one place an exact failure begins before intervals end there, and these end before others begin.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
struct End {
    at: f64,
    order: u8,
}

impl SeenBetween {
    fn is_exact(self) -> bool {
        self.after == self.until
    }

    fn begin(self) -> End {
        End { at: self.after, order: if self.is_exact() { 0 } else { 2 } }
    }

    fn end(self) -> End {
        End { at: self.until, order: 1 }
    }
}

impl IntervalCurve {
    /// Estimates; `gap` is how near the top is enough, e.g. 1e-6.
    ///
    /// # Errors
    /// No lives, or an interval that can't be.
    pub fn of(lives: &[SeenBetween], gap: f64) -> Result<Self, IntervalError> {
        let possible = |life: &SeenBetween| life.after.is_finite() && life.after >= 0.0 && life.until >= life.after;
        if let Some(row) = lives.iter().position(|life| !possible(life)) {
            return Err(IntervalError::Interval { row, after: lives[row].after, until: lives[row].until });
        }
        if lives.is_empty() {
            return Err(IntervalError::None);
        }
        let innermost = innermost(lives);
        let covered: Vec<(usize, usize)> = lives.iter().map(|life| covered(*life, &innermost)).collect();
        let mut masses = vec![1.0 / innermost.len() as f64; innermost.len()];
        let (mut rounds, mut reached) = (0, f64::INFINITY);
        while rounds < ROUNDS && reached > gap {
            for _ in 0..LOOK {
                let pull = pull(&covered, &masses);
                for (mass, pull) in masses.iter_mut().zip(pull) {
                    *mass *= pull;
                }
            }
            rounds += LOOK;
            reached = distance(&pull(&covered, &masses), &masses);
        }
        let log_likelihood = covered.iter().map(|(from, to)| masses[*from..*to].iter().sum::<f64>().ln()).sum();
        let intervals = innermost
            .into_iter()
            .zip(masses)
            .filter(|(_, mass)| *mass > NO_MASS)
            .map(|(interval, mass)| IntervalMass { after: interval.after, until: interval.until, mass })
            .collect();
        let failures = lives.iter().filter(|life| life.until.is_finite()).count();
        Ok(IntervalCurve { lives: lives.len(), failures, intervals, log_likelihood, gap: reached, rounds })
    }

    /// Whether no other curve is more likely, to within `gap` of the conditions of Kuhn and Tucker.
    pub fn is_top(&self, gap: f64) -> bool {
        self.gap <= gap
    }

    /// Least and greatest part that may last longer than so long: the two differ inside an interval with mass.
    pub fn survival_at(&self, time: f64) -> (f64, f64) {
        let least: f64 = self.intervals.iter().filter(|interval| interval.begins_after(time)).map(|i| i.mass).sum();
        let most: f64 = self.intervals.iter().filter(|interval| interval.until > time).map(|i| i.mass).sum();
        (least.min(1.0), most.min(1.0))
    }
}

impl IntervalMass {
    fn begins_after(&self, time: f64) -> bool {
        if self.after == self.until { self.after > time } else { self.after >= time }
    }
}

/// The intervals that mass can lie in: from a begin to the end next to it.
fn innermost(lives: &[SeenBetween]) -> Vec<SeenBetween> {
    let mut ends: Vec<(End, bool)> =
        lives.iter().flat_map(|life| [(life.begin(), true), (life.end(), false)]).collect();
    ends.sort_by(|a, b| a.0.at.total_cmp(&b.0.at).then(a.0.order.cmp(&b.0.order)));
    ends.windows(2)
        .filter(|pair| pair[0].1 && !pair[1].1)
        .map(|pair| SeenBetween { after: pair[0].0.at, until: pair[1].0.at })
        .collect()
}

/// Which of the innermost intervals a life's covers: from, and up to without.
fn covered(life: SeenBetween, innermost: &[SeenBetween]) -> (usize, usize) {
    let before = |a: End, b: End| a.partial_cmp(&b).is_some_and(std::cmp::Ordering::is_lt);
    let from = innermost.partition_point(|inner| before(inner.begin(), life.begin()));
    let to = innermost.partition_point(|inner| !before(life.end(), inner.end()));
    (from, to)
}

/// For each interval the mean over lives of what it takes of a life's chance, over its mass: 1 at the top, less where no mass
/// should be. Sums from the left make it quick.
fn pull(covered: &[(usize, usize)], masses: &[f64]) -> Vec<f64> {
    let mut sums = Vec::with_capacity(masses.len() + 1);
    sums.push(0.0);
    for mass in masses {
        sums.push(sums[sums.len() - 1] + mass);
    }
    let mut changes = vec![0.0; masses.len() + 1];
    for (from, to) in covered {
        let share = 1.0 / ((sums[*to] - sums[*from]).max(f64::MIN_POSITIVE) * covered.len() as f64);
        changes[*from] += share;
        changes[*to] -= share;
    }
    let running = changes.iter().scan(0.0, |sum, change| {
        *sum += change;
        Some(*sum)
    });
    running.take(masses.len()).collect()
}

fn distance(pull: &[f64], masses: &[f64]) -> f64 {
    let of = |(pull, mass): (&f64, &f64)| if *mass > NO_MASS { (pull - 1.0).abs() } else { (pull - 1.0).max(0.0) };
    pull.iter().zip(masses).map(of).fold(0.0, f64::max)
}
