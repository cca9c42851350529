//! `lengthsman seal`: binder and cover stone of one seal, without a cut.

mod request;
mod shown;

use std::path::PathBuf;

use exchange::limits::believed;
use model::district::{Binder, CoverStone, District, Residue};
use model::figure::Source;
use model::problem::Problem;
use model::quantity::{
    InLength, InMassDensity, InRatio, kilograms, kilograms_per_cubic_metre, metres, millimetres, percent, square_metres,
};
use model::rules::Sourced;
use model::rules::repair::{RepairRules, SealMethod, VoidFactorByBand};
use repair::seal::least_dimension::{
    GaugedFraction, Measured, Sieve, StoneTestError, flakiness_index, measured, median_of_grading,
};
use repair::seal::{SealAreas, SealDesign, design};

use self::request::Request;
use super::given_over_rule;
use crate::input;
use crate::outcome::Outcome;
use crate::report;

#[derive(Debug, clap::Args)]
#[command(
    after_help = "Whatever is not given is taken from the district file, else from neutral defaults. Lengths carry \
their unit: 9.5mm, 3/8in. A file (--input) holds the same names with _ for -, e.g. median_size = \"9.5 mm\"; a flag goes \
before the file.\n\nExample: lengthsman seal --median-size 9.5mm --flakiness-percent 20 --grade CRS-2 --area-m2 1.08 --why"
)]
pub(crate) struct Arguments {
    /// TOML or JSON file with the values.
    #[arg(long)]
    input: Option<PathBuf>,
    /// District file with stone, binder and plant; without it neutral defaults are used.
    #[arg(long)]
    district: Option<PathBuf>,
    #[command(flatten)]
    request: Request,
    /// Print under each figure how it was worked out and what that rests on.
    #[arg(long)]
    why: bool,
    /// JSON with SI units in the field names.
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let found = work(arguments);
    match found {
        Ok(done) => {
            report::print(&done.refused);
            if arguments.json {
                shown::print_json(&done);
            } else {
                shown::print(&done, arguments.why);
            }
            if done.refused.is_empty() { Outcome::AllUsed } else { Outcome::SomeRefused }
        }
        Err(Stopped::Problems(problems)) => {
            report::print(&problems);
            Outcome::NothingProduced
        }
        Err(Stopped::Usage(wrongs)) => {
            for wrong in wrongs {
                eprintln!("{wrong}");
            }
            Outcome::WrongUsage
        }
    }
}

/// One seal worked out.
struct Done {
    design: SealDesign,
    /// The same by the other method, where its rules are complete.
    other: Option<SealDesign>,
    /// Whether an area was given.
    has_area: bool,
    /// What the laboratory's lists came to.
    tests: StoneTests,
    /// Rows of the lists that could not be used.
    refused: Vec<Problem>,
}

/// What the laboratory's lists came to.
#[derive(Default)]
struct StoneTests {
    measured: Option<Measured>,
    flakiness_percent: Option<f64>,
    median_mm: Option<f64>,
}

enum Stopped {
    Problems(Vec<Problem>),
    Usage(Vec<String>),
}

impl From<Vec<Problem>> for Stopped {
    fn from(problems: Vec<Problem>) -> Self {
        Stopped::Problems(problems)
    }
}

fn work(arguments: &Arguments) -> Result<Done, Stopped> {
    let (district, rules) = input::setting_or_defaults(arguments.district.as_deref())?;
    let mut request = arguments.request.clone();
    if let Some(path) = &arguments.input {
        let file: Request = exchange::input_file::read_input_file(path).map_err(|problem| vec![*problem])?;
        let folder = path.parent().map(PathBuf::from).unwrap_or_default();
        request = request.over(file.beside(&folder));
    }
    let mut rules = rules.repair;
    override_rules(&request, &mut rules);
    let mut refused = Vec::new();
    let mut stone = district.cover_stone.clone();
    let tests = stone_tests(&request, &mut stone, &mut refused)?;
    let binder = binder(&request, &district, &rules);
    let wrongs = not_believed(&request, &stone, &binder);
    if !wrongs.is_empty() {
        return Err(Stopped::Usage(wrongs));
    }
    let of = |method: SealMethod| -> Result<SealDesign, Vec<String>> {
        let mut rules = rules.clone();
        rules.seal.method.value = method;
        let said = |errors: Vec<repair::InputError>| errors.iter().map(ToString::to_string).collect::<Vec<_>>();
        let mut wrongs = repair::check_rules(&rules).map_err(said);
        if let Err(wrongs) = &mut wrongs {
            // One factor given stands for every traffic band.
            wrongs.dedup();
        }
        wrongs?;
        let areas = SealAreas {
            base: square_metres(request.area_m2.unwrap_or(0.0)),
            overlap: square_metres(request.overlap_m2.unwrap_or(0.0)),
        };
        let surface = request.surface_temperature_c;
        design(&stone, &binder, &district.plant, areas, request.vehicles_per_day, surface, &rules).map_err(said)
    };
    let method = rules.seal.method.value;
    let other = match method {
        SealMethod::McLeod => SealMethod::Austroads,
        SealMethod::Austroads => SealMethod::McLeod,
    };
    Ok(Done {
        design: of(method).map_err(Stopped::Usage)?,
        other: of(other).ok(),
        has_area: request.area_m2.is_some() || request.overlap_m2.is_some(),
        tests,
        refused,
    })
}

/// What a slip of the pen or of the unit must have made, by the limits that the district file is held against: a residue of
/// 0.65 per cent would ask for a hundred times the binder.
fn not_believed(request: &Request, stone: &CoverStone, binder: &Binder) -> Vec<String> {
    let (by_volume, by_mass) = match binder.residue {
        Some(Residue::ByVolume(residue)) => (Some(residue.in_percent()), None),
        Some(Residue::ByMass(residue)) => (None, Some(residue.in_percent())),
        None => (None, None),
    };
    let millimetres = |size: Option<model::quantity::Length>| size.map(InLength::in_millimetres);
    let density = |density: model::quantity::MassDensity| Some(density.in_kilograms_per_cubic_metre());
    let values = [
        ("cover_stone", "nominal_size", "nominal size", millimetres(Some(stone.nominal_size))),
        ("cover_stone", "median_size", "median size", millimetres(stone.median_size)),
        ("cover_stone", "average_least_dimension", "least dimension", millimetres(stone.average_least_dimension)),
        ("cover_stone", "flakiness", "flakiness index", Some(stone.flakiness.in_percent())),
        ("cover_stone", "loose_density", "loose density of the stone", density(stone.loose_density)),
        ("cover_stone", "particle_density", "density of the stone's particles", density(stone.particle_density)),
        ("binder", "residue", "residue of the binder", by_volume),
        ("binder", "residue_by_mass", "residue of the binder by mass", by_mass),
        ("binder", "spray_temperature", "spraying temperature", Some(binder.spray_temperature_c)),
        ("binder", "density", "density of the binder", density(binder.density)),
        ("seal", "area", "area of fresh base", request.area_m2),
        ("seal", "area", "area of old seal", request.overlap_m2),
        ("road", "vehicles_per_day", "vehicles a day", request.vehicles_per_day),
    ];
    let wrong = |(table, name, what, value): (&str, &str, &str, Option<f64>)| believed(table, name, what, value?).err();
    values.into_iter().filter_map(wrong).collect()
}

/// What the request says in place of the agency's rules.
fn override_rules(request: &Request, rules: &mut RepairRules) {
    given_over_rule(request.method, &mut rules.seal.method);
    given_over_rule(request.old_surface, &mut rules.seal.old_surface);
    given_over_rule(request.base_condition, &mut rules.seal.fresh_base.condition);
    if let Some(factor) = request.void_factor {
        let value = VoidFactorByBand { very_low: factor, low: factor, medium: factor, high: factor };
        rules.seal.austroads.void_factor = Some(Sourced { value, source: Source::agency("as given") });
    }
}

/// The stone as given: sizes as flags, or from the laboratory's lists, which go before the district's.
fn stone_tests(request: &Request, stone: &mut CoverStone, refused: &mut Vec<Problem>) -> Result<StoneTests, Stopped> {
    let mut tests = StoneTests::default();
    let wrong = |path: &PathBuf| {
        let path = path.display().to_string();
        move |error: StoneTestError| Stopped::Usage(vec![format!("{path}: {error}")])
    };
    if let Some(path) = &request.least_dimensions {
        let list = request::least_dimensions(path, refused)?;
        let found = measured(&list).map_err(wrong(path))?;
        stone.average_least_dimension = Some(found.mean);
        tests.measured = Some(found);
    }
    if let Some(path) = &request.slotted_gauge {
        let rows = request::slotted_gauge(path, refused)?;
        let fractions = rows.map(|[tested, passing]| GaugedFraction {
            tested: kilograms(tested / 1000.0),
            passing: kilograms(passing / 1000.0),
        });
        stone.flakiness = flakiness_index(&fractions.collect::<Vec<_>>()).map_err(wrong(path))?;
        stone.average_least_dimension = tests.measured.map(|found| found.mean);
        tests.flakiness_percent = Some(stone.flakiness.in_percent());
    }
    if let Some(path) = &request.grading {
        let rows = request::grading(path, refused)?;
        let sieves = rows.map(|[opening, passing]| Sieve { opening: millimetres(opening), passing: percent(passing) });
        let median = median_of_grading(&sieves.collect::<Vec<_>>()).map_err(wrong(path))?;
        stone.median_size = Some(median);
        stone.average_least_dimension = tests.measured.map(|found| found.mean);
        tests.median_mm = Some(median.in_millimetres());
    }
    apply_stone(request, stone, tests.measured);
    Ok(tests)
}

/// Sizes and densities given one by one. A median or a flakiness that is given is meant to be used: the district's own
/// least dimension does not go before it.
fn apply_stone(request: &Request, stone: &mut CoverStone, measured: Option<Measured>) {
    if request.median_size.is_some() || request.flakiness_percent.is_some() {
        stone.average_least_dimension = measured.map(|found| found.mean);
    }
    if let Some(size) = request.nominal_size {
        stone.nominal_size = metres(size.0);
    }
    if let Some(size) = request.median_size {
        stone.median_size = Some(metres(size.0));
    }
    if let Some(flakiness) = request.flakiness_percent {
        stone.flakiness = percent(flakiness);
    }
    if let Some(size) = request.least_dimension {
        stone.average_least_dimension = Some(metres(size.0));
    }
    if let Some(density) = request.loose_density_kg_per_m3 {
        stone.loose_density = kilograms_per_cubic_metre(density);
    }
    if let Some(density) = request.particle_density_kg_per_m3 {
        stone.particle_density = kilograms_per_cubic_metre(density);
    }
}

/// The binder as given. Another grade than the district's brings its own kind and its least residue.
fn binder(request: &Request, district: &District, rules: &RepairRules) -> Binder {
    let mut binder = district.binder.clone();
    if let Some(grade) = &request.grade {
        binder.grade.clone_from(grade);
        binder.residue = None;
        binder.kind = repair::grade_kind(grade, rules).unwrap_or(binder.kind);
    }
    binder.kind = request.kind.unwrap_or(binder.kind);
    if let Some(residue) = request.residue_percent {
        binder.residue = Some(Residue::ByVolume(percent(residue)));
    }
    if let Some(residue) = request.residue_by_mass_percent {
        binder.residue = Some(Residue::ByMass(percent(residue)));
    }
    if let Some(celsius) = request.spray_temperature_c {
        binder.spray_temperature_c = celsius;
    }
    if let Some(density) = request.binder_density_kg_per_m3 {
        binder.density = kilograms_per_cubic_metre(density);
    }
    binder
}
