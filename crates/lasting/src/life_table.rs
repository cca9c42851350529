//! Lives counted by their durations: all that the product-limit estimate and the log-rank test need of them.
//!
//! A table grows with the number of different durations, not of lives. Lives may come in pieces of any size; pieces are
//! sorted and merged, so that what is held beside the table is one piece.

use model::life::LifeRow;
use rayon::prelude::*;
use thiserror::Error;

/// Lives that are sorted at a time.
const PIECE: usize = 1 << 18;

/// How many lives ended at each duration.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct LifeTable {
    steps: Vec<Step>,
}

/// Lives that ended at one duration.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// The duration, as the bits of a number that is not negative: these sort as the numbers do.
    bits: u64,
    /// Failed then.
    pub failures: u64,
    /// Last seen whole then. They count as at risk at that very time.
    pub censored: u64,
}

impl Step {
    /// The duration.
    pub fn time(&self) -> f64 {
        f64::from_bits(self.bits)
    }
}

/// A life that can't be counted.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum LifeError {
    /// Its duration is negative or no number.
    #[error("life {row}: a duration of {duration}; it must be a number from 0 on")]
    Duration {
        /// Which, from 0.
        row: usize,
        /// What it says.
        duration: f64,
    },
    /// Its group is not among the names.
    #[error("life {row}: group {group} of {groups}")]
    Group {
        /// Which, from 0.
        row: usize,
        /// What it says, from 0.
        group: u32,
        /// How many there are.
        groups: usize,
    },
}

impl LifeTable {
    /// The table of lives: duration, and whether it failed.
    ///
    /// # Errors
    /// The first duration that is negative or no number.
    pub fn of(lives: impl IntoIterator<Item = (f64, bool)>) -> Result<Self, LifeError> {
        let key = |(row, (duration, failed)): (usize, (f64, bool))| key(duration, failed, row);
        let mut keys = lives.into_iter().enumerate().map(key).collect::<Result<Vec<u64>, LifeError>>()?;
        Ok(LifeTable::of_keys(&mut keys))
    }

    fn of_keys(keys: &mut [u64]) -> Self {
        keys.sort_unstable();
        let mut steps: Vec<Step> = Vec::new();
        for key in keys {
            let (bits, censored) = (*key >> 1, *key & 1);
            match steps.last_mut() {
                Some(last) if last.bits == bits => {
                    last.failures += 1 - censored;
                    last.censored += censored;
                }
                _ => steps.push(Step { bits, failures: 1 - censored, censored }),
            }
        }
        LifeTable { steps }
    }

    /// Different durations, rising.
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// How many lives.
    pub fn lives(&self) -> u64 {
        self.steps.iter().map(|step| step.failures + step.censored).sum()
    }

    /// How many failed.
    pub fn failures(&self) -> u64 {
        self.steps.iter().map(|step| step.failures).sum()
    }

    /// Both tables in one.
    #[must_use]
    pub fn merged(self, other: Self) -> Self {
        if self.steps.is_empty() {
            return other;
        }
        if other.steps.is_empty() {
            return self;
        }
        let mut steps = Vec::with_capacity(self.steps.len().max(other.steps.len()));
        let (mut ours, mut theirs) = (self.steps.into_iter().peekable(), other.steps.into_iter().peekable());
        loop {
            let next = match (ours.peek(), theirs.peek()) {
                (Some(a), Some(b)) if a.bits == b.bits => {
                    let (a, b) = (*a, *b);
                    ours.next();
                    theirs.next();
                    Some(Step { bits: a.bits, failures: a.failures + b.failures, censored: a.censored + b.censored })
                }
                (Some(a), Some(b)) if a.bits < b.bits => ours.next(),
                (Some(_), None) => ours.next(),
                (_, _) => theirs.next(),
            };
            match next {
                Some(step) => steps.push(step),
                None => return LifeTable { steps },
            }
        }
    }
}

/// One table for each of so many groups, on all cores that there are.
///
/// # Errors
/// The first life of a piece with a duration or a group that can't be.
pub fn tables_by_group(rows: &[LifeRow], groups: usize) -> Result<Vec<LifeTable>, LifeError> {
    let none = || vec![LifeTable::default(); groups];
    rows.par_chunks(PIECE)
        .enumerate()
        .try_fold(none, |tables, (piece, rows)| Ok(merge_all(tables, piece_tables(rows, piece * PIECE, groups)?)))
        .try_reduce(none, |a, b| Ok(merge_all(a, b)))
}

fn piece_tables(rows: &[LifeRow], first: usize, groups: usize) -> Result<Vec<LifeTable>, LifeError> {
    let mut keys: Vec<Vec<u64>> = vec![Vec::new(); groups];
    for (at, row) in rows.iter().enumerate() {
        let Some(of_group) = keys.get_mut(row.group as usize) else {
            return Err(LifeError::Group { row: first + at, group: row.group, groups });
        };
        of_group.push(key(row.duration, row.failed, first + at)?);
    }
    Ok(keys.iter_mut().map(|keys| LifeTable::of_keys(keys)).collect())
}

fn merge_all(a: Vec<LifeTable>, b: Vec<LifeTable>) -> Vec<LifeTable> {
    a.into_iter().zip(b).map(|(a, b)| a.merged(b)).collect()
}

/// Duration and end in one number that sorts by duration.
fn key(duration: f64, failed: bool, row: usize) -> Result<u64, LifeError> {
    if !(duration.is_finite() && duration >= 0.0) {
        return Err(LifeError::Duration { row, duration });
    }
    // minus zero is zero
    Ok((duration + 0.0).to_bits() << 1 | u64::from(!failed))
}
