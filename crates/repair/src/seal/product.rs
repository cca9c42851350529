//! From residual binder to the product that is sprayed: grade and residue.

use model::district::{Binder, BinderKind, Residue};
use model::figure::{Figure, Source, Why};
use model::quantity::{InMassDensity, InRatio, Ratio, fraction, percent};
use model::rules::repair::{GradeRules, RepairRules};

use crate::input::InputError;
use crate::show;

/// Residual part of the product by volume at 15 °C: the district's own, else the least that the grade must have.
///
/// A residue by mass becomes one by volume as `R_v = R_m * rho / rho_r`: product and residue are sold and spread by volume.
/// For a binder that does not pass [`check`] the lowest of all grades is taken: rather too much binder than too little.
pub fn residue(binder: &Binder, rules: &RepairRules) -> Figure<Ratio> {
    if let Some(own) = binder.residue {
        let source = Source::agency("as given for the binder");
        return by_volume(own, binder, rules, "as given", source);
    }
    let grade = grade(&binder.grade, rules).map(|(_, grade)| grade);
    let least = grade.and_then(|grade| least_residue(grade).zip(grade.least_residue_percent.as_ref()));
    if let Some((least, sourced)) = least {
        return by_volume(least, binder, rules, "the least of the grade", sourced.source.clone());
    }
    let all = rules.grade.values().filter_map(least_residue);
    let lowest = all.map(|residue| volume_share(residue, binder, rules)).fold(1.0, f64::min);
    let why = Why::new("R_v said by neither district nor grade: the lowest of all grades", Source::definition());
    Figure::exact(fraction(lowest), why.with("grade", &binder.grade))
}

/// A binder whose residue is nowhere said can't be worked with.
///
/// # Errors
/// Says what to enter.
pub fn check(binder: &Binder, rules: &RepairRules) -> Result<(), InputError> {
    let is_known =
        binder.residue.is_some() || grade(&binder.grade, rules).and_then(|(_, g)| least_residue(g)).is_some();
    if is_known {
        return Ok(());
    }
    Err(InputError {
        what: "residue of the binder".into(),
        found: format!("not given, and no least residue is known for the grade `{}`", binder.grade),
        right: "write residue_percent (of the volume) or residue_by_mass_percent under [binder], from the data sheet"
            .into(),
    })
}

/// Residue below the grade's least, in the way the grade's own standard measures it: found, least, source.
pub(crate) fn below_least(binder: &Binder, grade: &GradeRules, rules: &RepairRules) -> Option<String> {
    let (own, least) = (binder.residue?, grade.least_residue_percent.as_ref()?);
    let share = volume_share(own, binder, rules);
    let (found, basis) = match grade.kind {
        BinderKind::Cutback => (share, "volume"),
        BinderKind::Emulsion => (share / density_ratio(binder, rules), "mass"),
    };
    let found = 100.0 * found;
    // A hair, so that the least itself, taken from mass to volume and back, is not below it.
    (found < least.value - 1e-6).then(|| {
        format!(
            "{}: residue {found:.1} % by {basis} is below the least of the grade, {} % ({}); have the load tested or \
             refuse it.",
            binder.grade, least.value, least.source
        )
    })
}

/// The grade's designation and rules; capitals do not matter (`CRS-2H` is `CRS-2h`), nor words after the designation
/// (`CRS-2 polymer` is taken as `CRS-2`, which is said). Only whole words count: `CRS-2X` is not `CRS-2`.
pub(crate) fn grade<'a>(name: &str, rules: &'a RepairRules) -> Option<(&'a str, &'a GradeRules)> {
    let named = |name: &str| rules.grade.iter().find(|(key, _)| key.eq_ignore_ascii_case(name));
    let first_word = || name.split(|c: char| c.is_whitespace() || ",;(".contains(c)).find(|word| !word.is_empty());
    named(name.trim()).or_else(|| named(first_word()?)).map(|(key, grade)| (key.as_str(), grade))
}

/// Cutback or emulsion, by the rules; `None` for a grade they do not know.
pub fn grade_kind(name: &str, rules: &RepairRules) -> Option<BinderKind> {
    grade(name, rules).map(|(_, grade)| grade.kind)
}

/// The grade's least residue, of the volume or the mass as its standard measures it.
fn least_residue(grade: &GradeRules) -> Option<Residue> {
    let least = percent(grade.least_residue_percent.as_ref()?.value);
    Some(match grade.kind {
        BinderKind::Cutback => Residue::ByVolume(least),
        BinderKind::Emulsion => Residue::ByMass(least),
    })
}

fn by_volume(residue: Residue, binder: &Binder, rules: &RepairRules, origin: &str, source: Source) -> Figure<Ratio> {
    let share = volume_share(residue, binder, rules);
    let why = match residue {
        Residue::ByVolume(ratio) => {
            Why::new("R_v as given", source).with("R_v", format!("{} by volume, {origin}", show::percent(ratio)))
        }
        Residue::ByMass(ratio) => Why::new("R_v = R_m * rho / rho_r", source)
            .with("R_m", format!("{} by mass, {origin}", show::percent(ratio)))
            .with("rho", show::density(binder.density))
            .with("rho_r", format!("{:.0} kg/m3", rules.binder_volume.residue_density_kg_per_m3.value)),
    };
    Figure::exact(fraction(share), why)
}

/// Residual part by volume, at most all of it.
pub fn volume_share(residue: Residue, binder: &Binder, rules: &RepairRules) -> f64 {
    match residue {
        Residue::ByVolume(ratio) => ratio.in_fraction(),
        Residue::ByMass(ratio) => (ratio.in_fraction() * density_ratio(binder, rules)).min(1.0),
    }
}

/// Density of the product over that of its residue.
fn density_ratio(binder: &Binder, rules: &RepairRules) -> f64 {
    binder.density.in_kilograms_per_cubic_metre() / rules.binder_volume.residue_density_kg_per_m3.value
}
