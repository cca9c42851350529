//! Sieve analysis: readings to percent passing, grading modulus, and how the sample lies in each grading.

mod check;
mod passing;
mod sieves;

use model::figure::{Figure, Why};
use model::problem::Problem;
use model::quantity::{InLength, InRatio};
use model::rules::gradation::GradationRules;
use model::rules::soil::SievingRules;
use model::soil::{SieveAnalysis, SieveSample};

pub use sieves::{FoundSieve, find_sieve};

use passing::Passed;

/// Works out a sieve analysis and holds it against every grading of the families given, the nearest first.
///
/// # Errors
/// Everything that makes the sample impossible to work out. Otherwise the problems beside the analysis are warnings and
/// sieves left out.
pub fn sieve_analysis(
    sample: &SieveSample,
    families: &[GradationRules],
    rules: &SievingRules,
) -> Result<(SieveAnalysis, Vec<Problem>), Vec<Problem>> {
    let mut problems = Vec::new();
    let Passed { points, loss } = passing::passed(sample, rules, &mut problems)?;
    let mut checks: Vec<_> = families.iter().flat_map(|family| check::against_family(&points, family, rules)).collect();
    // Fitting ones first, then by how far they miss; a stable sort keeps the rule sets' order among equals.
    checks.sort_by(|a, b| {
        (a.fit.rank(), a.miss.in_fraction())
            .partial_cmp(&(b.fit.rank(), b.miss.in_fraction()))
            .unwrap_or(std::cmp::Ordering::Equal)
    });
    let analysis = SieveAnalysis { modulus: modulus(&points, rules), loss, checks, points };
    Ok((analysis, problems))
}

/// Grading modulus `GM = (300 - P1 - P2 - P3) / 100`, per cent passing its three sieves.
fn modulus(points: &[model::soil::PassingPoint], rules: &SievingRules) -> Result<Figure<f64>, String> {
    let names = &rules.modulus_sieves.value;
    let mut why = Why::new("GM = (300 - P1 - P2 - P3) / 100", rules.modulus_sieves.source.clone());
    let mut sum = 0.0;
    for name in names {
        let opening = sieves::opening_of(name, rules).ok_or_else(|| format!("no sieve is named {name}"))?;
        let percent = passing::at_sieve(points, opening)
            .ok_or_else(|| format!("the {name} sieve was not used; it takes {}", names.join(", ")))?
            .in_percent();
        why = why.with(name.as_str(), format!("{percent:.1} %"));
        sum += percent;
    }
    Ok(Figure::exact((300.0 - sum) / 100.0, why))
}

/// Opening of a designation, millimetres.
pub(crate) fn opening_of_sieve(name: &str, rules: &SievingRules) -> Option<f64> {
    sieves::opening_of(name, rules).map(InLength::in_millimetres)
}
