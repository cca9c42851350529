//! What is expected of a section, without draws.

use super::{PatchLaw, Renewal, SectionCase, StopSettings, discounts, worth_left};

/// Expected repairs and costs of each year.
#[derive(Debug, Clone, PartialEq)]
pub struct ExpectedPath {
    /// New holes.
    pub new_holes: Vec<f64>,
    /// Repairs: new holes, and those mended again.
    pub repairs: Vec<f64>,
    /// Cost up to and with each year, at today's worth; money of the first year is not discounted.
    pub cost_until: Vec<f64>,
}

/// Expected repairs and costs of patching a section on, or of patching it after it was renewed at the begin: then the rate of
/// holes is the part that is left of it, and the renewal itself is not in the cost.
pub fn expected_path(
    section: &SectionCase,
    law: &PatchLaw,
    settings: &StopSettings,
    renewal: Option<&Renewal>,
) -> ExpectedPath {
    path(section, &law.mended_again(settings.years), settings, renewal)
}

pub(super) fn path(
    section: &SectionCase,
    again: &[f64],
    settings: &StopSettings,
    renewal: Option<&Renewal>,
) -> ExpectedPath {
    let left = renewal.map_or(1.0, |renewal| renewal.rate_left);
    let new_hole = |year: usize| {
        let age = year as f64;
        // the mean over growths that are not known exactly
        let growth = (age * section.yearly_growth + (age * section.yearly_growth_sd).powi(2) / 2.0).exp();
        left * section.holes_per_year * growth
    };
    let new_holes: Vec<f64> = (0..settings.years).map(new_hole).collect();
    let repairs: Vec<f64> = (0..settings.years)
        .map(|year| new_holes[year] + (0..=year).map(|made| new_holes[made] * again[year - made]).sum::<f64>())
        .collect();
    let cost_until = repairs.iter().enumerate().scan(0.0, |sum, (year, repairs)| {
        *sum += repairs * section.repair_cost * discounts(settings, year);
        Some(*sum)
    });
    ExpectedPath { cost_until: cost_until.collect(), new_holes, repairs }
}

/// The year in which renewing is expected to cost least, and what it then costs; no year where patching on costs less.
pub(super) fn best_year(
    on: &ExpectedPath,
    after: &ExpectedPath,
    renewal: &Renewal,
    settings: &StopSettings,
) -> (Option<usize>, f64) {
    let until = |path: &ExpectedPath, years: usize| if years == 0 { 0.0 } else { path.cost_until[years - 1] };
    let renewed_after = |years: usize| {
        let then = discounts(settings, years) * (renewal.cost + until(after, settings.years - years));
        until(on, years) + then - worth_left(renewal, years, settings)
    };
    let never = (None, until(on, settings.years));
    (0..settings.years)
        .map(|years| (Some(years + 1), renewed_after(years)))
        .fold(never, |best, next| if next.1 < best.1 { next } else { best })
}
