//! Sets of spans of a day: ascending, apart, none empty.

use model::round::SecondOfDay;

/// From and to.
pub type Span = (SecondOfDay, SecondOfDay);

/// Spans in any order as a set.
pub fn joined(spans: impl IntoIterator<Item = Span>) -> Vec<Span> {
    let mut spans: Vec<Span> = spans.into_iter().filter(|(from, to)| from < to).collect();
    spans.sort_unstable();
    let mut joined: Vec<Span> = Vec::new();
    for (from, to) in spans {
        match joined.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            _ => joined.push((from, to)),
        }
    }
    joined
}

/// What of one set is not in the other.
pub fn less(spans: &[Span], taken: &[Span]) -> Vec<Span> {
    let mut left = Vec::new();
    for (begin, end) in spans.iter().copied() {
        let mut from = begin;
        for (taken_from, taken_to) in taken.iter().copied().filter(|span| span.1 > begin && span.0 < end) {
            if taken_from > from {
                left.push((from, taken_from));
            }
            from = from.max(taken_to);
        }
        if from < end {
            left.push((from, end));
        }
    }
    left
}
