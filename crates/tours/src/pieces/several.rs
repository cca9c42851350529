//! Time of a stretch whose nodes have several windows or may be followed by a rest: a few spans, one for each sensible
//! choice of windows.

use super::span::{Algebra, Span};
use crate::problem::{Rest, Window};

/// Most spans that are kept. When there are more, those that end latest are forgotten: a timetable may then be missed,
/// but none that breaks a window is ever taken.
const MOST: usize = 8;

#[derive(Debug, Clone, Copy)]
pub(crate) struct Several {
    spans: [Choice; MOST],
    count: u8,
}

#[derive(Debug, Clone, Copy)]
struct Choice {
    span: Span,
    rested: bool,
}

impl Choice {
    /// Can it stand in for the other whenever that begins?
    #[inline]
    fn covers(&self, other: &Self) -> bool {
        self.rested == other.rested
            && self.span.late >= other.span.late
            && self.span.earliest_end() <= other.span.earliest_end()
            && self.span.duration <= other.span.duration
    }
}

impl Several {
    const NONE: Self = Self { spans: [Choice { span: Span::NEUTRAL, rested: false }; MOST], count: 0 };

    #[inline]
    fn choices(&self) -> &[Choice] {
        &self.spans[..usize::from(self.count)]
    }

    fn push(&mut self, choice: Choice) {
        if !choice.span.is_possible() || self.choices().iter().any(|kept| kept.covers(&choice)) {
            return;
        }
        let mut kept = 0;
        for index in 0..usize::from(self.count) {
            if !choice.covers(&self.spans[index]) {
                self.spans[kept] = self.spans[index];
                kept += 1;
            }
        }
        // Ordered by earliest end, so the last is the one to forget.
        let end = choice.span.earliest_end();
        let at = self.spans[..kept].partition_point(|other| other.span.earliest_end() <= end);
        if at < MOST {
            let last = kept.min(MOST - 1);
            self.spans.copy_within(at..last, at + 1);
            self.spans[at] = choice;
            kept = last + 1;
        }
        self.count = kept as u8;
    }
}

impl Algebra for Several {
    const NEUTRAL: Self = Self { spans: Self::NONE.spans, count: 1 };

    const NEVER: Self = Self::NONE;

    fn end(begin: Window, length: i64, rest: Option<Rest>) -> Self {
        let end = Span::window(begin, length);
        let mut several = Self::NONE;
        several.push(Choice { span: end, rested: false });
        if let Some(rest) = rest {
            several.push(Choice { span: Span::window(rest.begin, rest.length).joined(0, &end), rested: true });
        }
        several
    }

    fn service(windows: &[Window], length: i64, rest: Option<Rest>) -> Self {
        let mut several = Self::NONE;
        let always = [Window::ALWAYS];
        for &window in if windows.is_empty() { &always } else { windows } {
            let span = Span::window(window, length);
            several.push(Choice { span, rested: false });
            if let Some(rest) = rest {
                several.push(Choice { span: span.joined(0, &Span::window(rest.begin, rest.length)), rested: true });
            }
        }
        several
    }

    fn then(&self, way: i64, other: &Self) -> Self {
        let mut several = Self::NONE;
        for left in self.choices() {
            for right in other.choices() {
                if !(left.rested && right.rested) {
                    let rested = left.rested || right.rested;
                    several.push(Choice { span: left.span.joined(way, &right.span), rested });
                }
            }
        }
        several
    }

    #[inline]
    fn can_be(&self) -> bool {
        self.count > 0
    }

    #[inline]
    fn may_precede(&self, between: i64, other: &Self) -> bool {
        let early = self.choices().first().map(|choice| choice.span.earliest_end() + between);
        early.is_some_and(|early| other.choices().iter().any(|choice| early <= choice.span.late))
    }

    #[inline]
    fn least_time(&self) -> i64 {
        self.choices().iter().map(|choice| choice.span.duration).min().unwrap_or(0)
    }

    fn duration(&self, rest: Option<Rest>) -> Option<i64> {
        let early = |choice: &&Choice| rest.is_none_or(|rest| choice.span.earliest_end() <= rest.begin.close);
        let good = self.choices().iter().filter(|choice| choice.rested || early(choice));
        good.map(|choice| choice.span.duration).min()
    }
}
