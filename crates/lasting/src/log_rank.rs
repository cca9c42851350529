//! The log-rank test: whether lives of several groups differ (N. Mantel, 1966; R. Peto, J. Peto, 1972; from memory), also within
//! strata, whose own differences then do not count.

use nalgebra::{DMatrix, DVector};
use serde::Serialize;
use statrs::distribution::{ChiSquared, ContinuousCDF};

use crate::life_table::LifeTable;

/// What is smaller than this part of the largest does not tell groups apart.
const RANK_TOLERANCE: f64 = 1e-10;

/// Outcome of a test.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LogRank {
    /// The statistic.
    pub chi2: f64,
    /// Degrees of freedom: groups that can be told apart, less one.
    pub df: usize,
    /// Chance of such a difference or a greater one if there is none.
    pub p: f64,
}

/// Tests one table for each group. `None` where nothing can be compared: fewer than two groups at risk while any failed.
pub fn log_rank(groups: &[LifeTable]) -> Option<LogRank> {
    stratified_log_rank(&[groups.to_vec()])
}

/// Tests groups within strata: of each stratum one table for each group, in the same order.
pub fn stratified_log_rank(strata: &[Vec<LifeTable>]) -> Option<LogRank> {
    let groups = strata.iter().map(Vec::len).max().filter(|groups| *groups > 1)?;
    let mut difference = DVector::zeros(groups);
    let mut covariance = DMatrix::zeros(groups, groups);
    for stratum in strata {
        add_stratum(stratum, &mut difference, &mut covariance);
    }
    // The rows of the covariance add up to nothing, and a group that is never at risk has none: only as many directions
    // count as it has rank.
    let eigen = covariance.symmetric_eigen();
    let largest = eigen.eigenvalues.max();
    let mut chi2 = 0.0;
    let mut df = 0;
    for (value, vector) in eigen.eigenvalues.iter().zip(eigen.eigenvectors.column_iter()) {
        if *value > RANK_TOLERANCE * largest && largest > 0.0 {
            chi2 += vector.dot(&difference).powi(2) / value;
            df += 1;
        }
    }
    let p = ChiSquared::new(df as f64).ok()?.sf(chi2);
    (df > 0).then_some(LogRank { chi2, df, p })
}

/// Failures seen less expected of each group, and the hypergeometric covariance, time by time.
fn add_stratum(tables: &[LifeTable], difference: &mut DVector<f64>, covariance: &mut DMatrix<f64>) {
    let mut at_risk: Vec<u64> = tables.iter().map(LifeTable::lives).collect();
    let mut next = vec![0; tables.len()];
    let mut failed = vec![0; tables.len()];
    let here = |next: &[usize]| {
        let times = tables.iter().zip(next).filter_map(|(table, at)| Some(table.steps().get(*at)?.time()));
        times.reduce(f64::min)
    };
    while let Some(time) = here(&next) {
        let all: u64 = at_risk.iter().sum();
        let mut left = vec![0; tables.len()];
        for (group, table) in tables.iter().enumerate() {
            failed[group] = 0;
            if let Some(step) = table.steps().get(next[group]).filter(|step| step.time() <= time) {
                next[group] += 1;
                failed[group] = step.failures;
                left[group] = step.failures + step.censored;
            }
        }
        let (n, d) = (all as f64, failed.iter().sum::<u64>() as f64);
        if d > 0.0 {
            let spread = if all > 1 { d * (n - d) / (n - 1.0) } else { 0.0 };
            for i in 0..tables.len() {
                let share = at_risk[i] as f64 / n;
                difference[i] += failed[i] as f64 - d * share;
                covariance[(i, i)] += spread * share;
                for j in 0..tables.len() {
                    covariance[(i, j)] -= spread * share * at_risk[j] as f64 / n;
                }
            }
        }
        for (risk, left) in at_risk.iter_mut().zip(left) {
            *risk -= left;
        }
    }
}

/// Holm's correction of several comparisons (S. Holm, "A simple sequentially rejective multiple test procedure", 1979; from
/// memory): each chance made greater, so that any one of them under a limit is wrong only as seldom as the limit says. In the
/// order given.
pub fn holm(chances: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..chances.len()).collect();
    order.sort_by(|a, b| chances[*a].total_cmp(&chances[*b]));
    let mut corrected = vec![1.0; chances.len()];
    let mut before: f64 = 0.0;
    for (rank, index) in order.into_iter().enumerate() {
        before = before.max(chances[index] * (chances.len() - rank) as f64).min(1.0);
        corrected[index] = before;
    }
    corrected
}
