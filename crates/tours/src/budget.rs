//! How long the search may go on. The engine reads no clock: a caller with one answers from it.

/// How far the search is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// Iterations done.
    pub iterations: u64,
    /// Least cost so far.
    pub cost: i64,
    /// Visits of that plan that must be made and are not.
    pub missing: usize,
}

/// Says how much of the allowed effort is spent.
pub trait Budget {
    /// Share spent, from 0; at 1 or more the search ends with the best plan so far. It is asked before each iteration, and
    /// must answer quickly; a caller with a clock reads it every some hundred iterations.
    fn spent(&mut self, progress: &Progress) -> f64;
}

/// A fixed number of iterations: the same problem, seed and number give the same plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Iterations(pub u64);

impl Budget for Iterations {
    fn spent(&mut self, progress: &Progress) -> f64 {
        if self.0 == 0 { 1.0 } else { progress.iterations as f64 / self.0 as f64 }
    }
}

impl<F: FnMut(&Progress) -> f64> Budget for F {
    fn spent(&mut self, progress: &Progress) -> f64 {
        self(progress)
    }
}
