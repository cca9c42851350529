//! Least dimension of the cover stone: measured on particles, or from median size and flakiness; both of these from
//! their own tests.

use model::district::CoverStone;
use model::figure::{Figure, Source, Why};
use model::quantity::{InLength, InMass, InRatio, Length, Mass, Ratio, metres, millimetres, percent};
use model::rules::repair::SealRules;

use crate::show;

/// Average least dimension: as measured, else from the median size and the flakiness index; the median, where it was
/// not measured, from the nominal size.
pub fn least_dimension(stone: &CoverStone, rules: &SealRules) -> Figure<Length> {
    if let Some(measured) = stone.average_least_dimension {
        return Figure::exact(measured, Why::new("H as measured", Source::agency("as given for the stone")));
    }
    let [a, b] = rules.least_dimension.value;
    let (median, origin) = median_size(stone, rules);
    let height = least_dimension_of(median, stone.flakiness.in_percent(), rules.least_dimension.value);
    let why = Why::new(format!("H = M / ({a} + {b} * FI)"), rules.least_dimension.source.clone())
        .with("M", format!("{} ({origin})", show::mm(median)))
        .with("FI", show::percent(stone.flakiness));
    Figure::exact(height, why)
}

/// Median size, and where it is from: as measured, else a set fraction of the nominal size.
fn median_size(stone: &CoverStone, rules: &SealRules) -> (Length, &'static str) {
    match stone.median_size {
        Some(median) => (median, "measured"),
        None => (stone.nominal_size * rules.median_of_nominal.value, "a set part of the nominal size"),
    }
}

/// `H = M / (a + b * FI)`, FI in per cent.
pub fn least_dimension_of(median: Length, flakiness_percent: f64, [a, b]: [f64; 2]) -> Length {
    median / (a + b * flakiness_percent)
}

/// Why a test of the stone can't be worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[allow(missing_docs)] // the messages are the definition
pub enum StoneTestError {
    #[error("there are too few particles; measure two at least, about 200 for a figure to rely on")]
    TooFewParticles,
    #[error("a size, mass or share is not a number over zero")]
    NotPositive,
    #[error("more passes the slotted gauge than was tested")]
    MorePassesThanTested,
    #[error("the grading does not reach half passing; give a sieve below and one above it")]
    HalfNotReached,
    #[error("the grading falls: a coarser sieve can't pass less, nor any more than 100 %")]
    GradingFalls,
}

/// Average least dimension of particles measured one by one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// Mean, to 0.1 mm.
    pub mean: Length,
    /// Standard error of the mean: standard deviation over the root of the count; not rounded.
    pub standard_error: Length,
    /// Particles.
    pub count: usize,
}

/// The mean least dimension of particles, to 0.1 mm (from memory: TRL Overseas Road Note 3, appendix, about 200
/// particles).
///
/// # Errors
/// Fewer than two particles, or one that is not over zero.
pub fn measured(particles: &[Length]) -> Result<Measured, StoneTestError> {
    if particles.len() < 2 {
        return Err(StoneTestError::TooFewParticles);
    }
    if !particles.iter().all(|particle| is_over_zero(particle.in_metres())) {
        return Err(StoneTestError::NotPositive);
    }
    let count = particles.len() as f64;
    let sizes = || particles.iter().map(|particle| particle.in_millimetres());
    let mean = sizes().sum::<f64>() / count;
    let variance = sizes().map(|size| (size - mean).powi(2)).sum::<f64>() / (count - 1.0);
    Ok(Measured {
        mean: millimetres((mean * 10.0 + 1e-9).round() / 10.0),
        standard_error: millimetres((variance / count).sqrt()),
        count: particles.len(),
    })
}

/// One sieve fraction at the slotted gauge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GaugedFraction {
    /// All particles tested.
    pub tested: Mass,
    /// Those that pass the slot.
    pub passing: Mass,
}

/// Flakiness index: mass passing the slotted gauge over mass tested, fractions pooled by mass (from memory: Tex-224-F and
/// its like).
///
/// # Errors
/// Nothing tested, a mass that is no number, or more passing than tested.
pub fn flakiness_index(fractions: &[GaugedFraction]) -> Result<Ratio, StoneTestError> {
    let (mut tested, mut passing) = (0.0, 0.0);
    for fraction in fractions {
        let (all, flaky) = (fraction.tested.in_kilograms(), fraction.passing.in_kilograms());
        if !is_over_zero(all) || !flaky.is_finite() || flaky < 0.0 {
            return Err(StoneTestError::NotPositive);
        }
        if flaky > all {
            return Err(StoneTestError::MorePassesThanTested);
        }
        tested += all;
        passing += flaky;
    }
    if tested > 0.0 { Ok(percent(100.0 * passing / tested)) } else { Err(StoneTestError::NotPositive) }
}

/// One sieve of a grading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sieve {
    /// Opening.
    pub opening: Length,
    /// Share of the mass that passes.
    pub passing: Ratio,
}

/// Median size: where half the mass passes, straight between two sieves on the semi-logarithmic plot of a grading.
///
/// # Errors
/// A sieve that is no size, a grading that falls or does not reach a half.
pub fn median_of_grading(sieves: &[Sieve]) -> Result<Length, StoneTestError> {
    let mut points: Vec<(f64, f64)> =
        sieves.iter().map(|sieve| (sieve.opening.in_metres(), sieve.passing.in_percent())).collect();
    if !points.iter().all(|&(opening, passing)| is_over_zero(opening) && passing.is_finite() && passing >= 0.0) {
        return Err(StoneTestError::NotPositive);
    }
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    let falls = points.windows(2).any(|pair| pair[1].1 < pair[0].1 || pair[1].0 == pair[0].0);
    if falls || points.iter().any(|&(_, passing)| passing > 100.0) {
        return Err(StoneTestError::GradingFalls);
    }
    let above =
        points.iter().position(|&(_, passing)| passing >= HALF_PERCENT).ok_or(StoneTestError::HalfNotReached)?;
    let (coarse, most) = points[above];
    if most == HALF_PERCENT {
        return Ok(metres(coarse));
    }
    let (fine, least) = points[above.checked_sub(1).ok_or(StoneTestError::HalfNotReached)?];
    let share = (HALF_PERCENT - least) / (most - least);
    Ok(metres(fine * (coarse / fine).powf(share)))
}

/// Half of the mass, by definition of the median.
const HALF_PERCENT: f64 = 50.0;

fn is_over_zero(value: f64) -> bool {
    value.is_finite() && value > 0.0
}
