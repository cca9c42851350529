//! A sample against the gradings of a family.

use model::figure::{Figure, Why};
use model::quantity::{InRatio, Length, Ratio, fraction, percent};
use model::rules::Sourced;
use model::rules::gradation::{FinesRule, GradationRules, Grading, PassingLimits};
use model::rules::soil::SievingRules;
use model::soil::{FinesVerdict, Fit, GradingCheck, PassingPoint, SieveVerdict, Standing};

use super::passing::{at_sieve, between};
use super::sieves::opening_of;

/// A share outside its limits by no more than rounding is inside.
const ROUNDING: f64 = 1e-9;

/// Every grading of a family, in the order of their names.
pub fn against_family(points: &[PassingPoint], family: &GradationRules, rules: &SievingRules) -> Vec<GradingCheck> {
    let fines = family.fines.as_ref();
    family.grading.iter().map(|(name, grading)| against(points, name, grading, fines, rules)).collect()
}

fn against(
    points: &[PassingPoint],
    name: &str,
    grading: &Grading,
    fines: Option<&Sourced<FinesRule>>,
    rules: &SievingRules,
) -> GradingCheck {
    let sieves: Vec<SieveVerdict> = grading
        .limits
        .value
        .iter()
        .filter_map(|limits| Some(verdict(points, limits, opening_of(&limits.sieve, rules)?)))
        .collect();
    let fines = fines.map(|rule| fines_verdict(points, rule, rules));
    GradingCheck {
        grading: name.to_owned(),
        about: grading.about.clone(),
        source: grading.limits.source.clone(),
        fit: fit(&sieves, fines.as_ref()),
        miss: fraction(sieves.iter().map(miss).sum()),
        sieves,
        fines,
    }
}

fn verdict(points: &[PassingPoint], limits: &PassingLimits, opening: Length) -> SieveVerdict {
    let (least, most) = (percent(limits.least_percent), percent(limits.most_percent));
    let known = at_sieve(points, opening);
    SieveVerdict {
        sieve: limits.sieve.clone(),
        opening,
        least,
        most,
        passing: known.or_else(|| between(points, opening)),
        standing: known.map_or(Standing::NotTested, |passing| standing(passing, least, most)),
    }
}

fn standing(passing: Ratio, least: Ratio, most: Ratio) -> Standing {
    if passing.in_fraction() < least.in_fraction() - ROUNDING {
        Standing::Below(least - passing)
    } else if passing.in_fraction() > most.in_fraction() + ROUNDING {
        Standing::Above(passing - most)
    } else {
        Standing::Inside
    }
}

fn miss(verdict: &SieveVerdict) -> f64 {
    match verdict.standing {
        Standing::Below(by) | Standing::Above(by) => by.in_fraction(),
        Standing::Inside | Standing::NotTested => 0.0,
    }
}

fn fines_verdict(points: &[PassingPoint], rule: &Sourced<FinesRule>, rules: &SievingRules) -> FinesVerdict {
    let FinesRule { fine_sieve, of_sieve, most_share } = &rule.value;
    let passing = |name: &str| at_sieve(points, opening_of(name, rules)?).map(InRatio::in_fraction);
    let share = passing(fine_sieve).zip(passing(of_sieve)).map(|(fine, of)| {
        let why = Why::new("passing the fine sieve over passing the other", rule.source.clone())
            .with(fine_sieve.as_str(), format!("{:.1} %", 100.0 * fine))
            .with(of_sieve.as_str(), format!("{:.1} %", 100.0 * of));
        // Nothing passes the coarser, so no fines either.
        Figure::exact(if of > 0.0 { fine / of } else { 0.0 }, why)
    });
    FinesVerdict {
        is_kept: share.as_ref().map(|share| share.value <= most_share + ROUNDING),
        share,
        most: *most_share,
        sieves: [fine_sieve.clone(), of_sieve.clone()],
    }
}

fn fit(sieves: &[SieveVerdict], fines: Option<&FinesVerdict>) -> Fit {
    let is_outside = |verdict: &SieveVerdict| matches!(verdict.standing, Standing::Below(_) | Standing::Above(_));
    let kept = fines.map_or(Some(true), |fines| fines.is_kept);
    if sieves.iter().any(is_outside) || kept == Some(false) {
        Fit::Misses
    } else if sieves.iter().any(|verdict| verdict.standing == Standing::NotTested) || kept.is_none() {
        Fit::NotDecided
    } else {
        Fit::Fits
    }
}
