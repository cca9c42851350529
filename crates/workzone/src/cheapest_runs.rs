//! The cheapest way to part a row into runs of neighbours, by dynamic programming.

use std::ops::Range;

/// Price and number of runs of the best way up to some place, and where its last run begins.
#[derive(Clone, Copy)]
struct Best {
    price: u64,
    runs: usize,
    from: usize,
}

/// Parts `0..count` into runs so that the sum of their prices is least; of equal sums the one with the fewest runs, of
/// those the one whose last run begins first (and so on from the back).
///
/// `longest` says where the longest run from a start on ends. `price` is asked once for each run up to that; `None` rules
/// the run out. A run of one is never ruled out: without a price it counts as free.
pub fn cheapest_runs(
    count: usize,
    longest: impl Fn(usize) -> usize,
    mut price: impl FnMut(Range<usize>) -> Option<u64>,
) -> Vec<Range<usize>> {
    let mut best: Vec<Option<Best>> = vec![None; count + 1];
    best[0] = Some(Best { price: 0, runs: 0, from: 0 });
    for start in 0..count {
        // A run of one is always allowed, so every place is reached.
        let Some(so_far) = best[start] else { continue };
        let last = longest(start).clamp(start + 1, count);
        for (end, known) in best.iter_mut().enumerate().take(last + 1).skip(start + 1) {
            let one = (end == start + 1).then_some(0);
            let Some(added) = price(start..end).or(one) else { continue };
            let with = Best { price: so_far.price.saturating_add(added), runs: so_far.runs + 1, from: start };
            if known.is_none_or(|known| (with.price, with.runs) < (known.price, known.runs)) {
                *known = Some(with);
            }
        }
    }
    let mut runs = Vec::new();
    let mut end = count;
    while let Some(Best { from, .. }) = best[end].filter(|_| end > 0) {
        runs.push(from..end);
        end = from;
    }
    runs.reverse();
    runs
}
