//! Time of a stretch: how long it takes, and when it may begin.

use crate::problem::{GREATEST, Rest, Window};

/// How times of stretches are put together: [`Span`] where each node has one window, `Several` where there are more.
pub(crate) trait Algebra: Copy {
    /// Takes no time and may begin at any.
    const NEUTRAL: Self;

    /// Can't be done.
    const NEVER: Self;

    /// Service within one of the windows, then perhaps the rest.
    fn service(windows: &[Window], length: i64, rest: Option<Rest>) -> Self;

    /// What is done at the end of a shift, begun within the window, the rest perhaps before it.
    fn end(begin: Window, length: i64, rest: Option<Rest>) -> Self;

    /// `self`, the way, `other`.
    fn then(&self, way: i64, other: &Self) -> Self;

    /// Can it be done at all?
    fn can_be(&self) -> bool;

    /// Can `other` follow when at least so much time lies between?
    fn may_precede(&self, between: i64, other: &Self) -> bool;

    /// Least time from begin to end, whether it can be done or not.
    fn least_time(&self) -> i64;

    /// Least time from begin to end; `None`: it can't be done. `rest`: one is needed unless the end comes before it.
    fn duration(&self, rest: Option<Rest>) -> Option<i64>;
}

/// A stretch with one window: what T. Vidal, T. G. Crainic, M. Gendreau, C. Prins, "A hybrid genetic algorithm with
/// adaptive diversity management for a large class of vehicle routing problems with time-windows", Computers & Operations
/// Research 40 (1), 2013, keep of a stretch, from memory, without time warp: what comes too late is impossible.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Span {
    /// Least time from begin to end.
    pub(crate) duration: i64,
    /// Earliest begin with this duration; one that begins earlier waits longer.
    pub(crate) early: i64,
    /// Latest begin; before `early`: impossible.
    pub(crate) late: i64,
}

/// Before all times.
const LONG_AGO: i64 = -4 * GREATEST;
/// After all times.
const EVENTUALLY: i64 = 4 * GREATEST;

impl Span {
    const IMPOSSIBLE: Self = Self { duration: 0, early: 0, late: -1 };

    #[inline]
    pub(crate) fn is_possible(&self) -> bool {
        self.early <= self.late
    }

    #[inline]
    pub(crate) fn window(window: Window, length: i64) -> Self {
        Self { duration: length, early: window.open, late: window.close }
    }

    /// Earliest end.
    #[inline]
    pub(crate) fn earliest_end(&self) -> i64 {
        self.early + self.duration
    }

    #[inline]
    pub(crate) fn joined(&self, way: i64, other: &Self) -> Self {
        let ahead = self.duration + way;
        if !self.is_possible() || !other.is_possible() || self.early + ahead > other.late {
            return Self::IMPOSSIBLE;
        }
        let wait = (other.early - ahead - self.late).max(0);
        Self {
            duration: ahead + wait + other.duration,
            early: (other.early - ahead).max(self.early) - wait,
            late: (other.late - ahead).min(self.late),
        }
    }
}

impl Algebra for Span {
    const NEUTRAL: Self = Self { duration: 0, early: LONG_AGO, late: EVENTUALLY };

    const NEVER: Self = Self::IMPOSSIBLE;

    #[inline]
    fn end(begin: Window, length: i64, _rest: Option<Rest>) -> Self {
        Self::window(begin, length)
    }

    #[inline]
    fn service(windows: &[Window], length: i64, _rest: Option<Rest>) -> Self {
        Self::window(windows.first().copied().unwrap_or(Window::ALWAYS), length)
    }

    #[inline]
    fn then(&self, way: i64, other: &Self) -> Self {
        self.joined(way, other)
    }

    #[inline]
    fn can_be(&self) -> bool {
        self.is_possible()
    }

    #[inline]
    fn may_precede(&self, between: i64, other: &Self) -> bool {
        self.earliest_end() + between <= other.late
    }

    #[inline]
    fn least_time(&self) -> i64 {
        self.duration
    }

    #[inline]
    fn duration(&self, _rest: Option<Rest>) -> Option<i64> {
        self.is_possible().then_some(self.duration)
    }
}
