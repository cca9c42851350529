//! `lengthsman grading`: a sieve analysis against gradings.

use std::path::PathBuf;

use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{InLength, InRatio};
use model::soil::{FinesVerdict, GradingCheck, SieveAnalysis, SieveVerdict, Standing};
use serde_json::json;
use soil::sieve_analysis;

use super::soil_rules::{families, soil_rules, write_plot};
use crate::outcome::Outcome;
use crate::report;
use crate::show::{Table, figure_json, print_json};

#[derive(Debug, clap::Args)]
#[command(after_help = "The sheet is a CSV file, one sieve a row: `sieve` (No. 200, 4.75 mm, 75 µm, 3/8 in) and \
`retained (g)` or `passing (%)`. Rows named pan, washed and total give the rest of the sample.")]
pub(crate) struct Arguments {
    /// The sheet of the sieve analysis.
    sieves: PathBuf,
    /// Grading to hold it against, e.g. M147-C; without it the nearest of all.
    #[arg(long)]
    grading: Option<String>,
    /// The agency's own file of gradings.
    #[arg(long)]
    gradings: Option<PathBuf>,
    /// Write the plot to this SVG file.
    #[arg(long)]
    plot: Option<PathBuf>,
    /// District file whose folder may hold the agency's own `soil` rules.
    #[arg(long)]
    district: Option<PathBuf>,
    /// Print how each share was worked out.
    #[arg(long)]
    why: bool,
    /// JSON with SI units in the field names.
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let rules = soil_rules(arguments.district.as_deref());
    let read = rules.and_then(|rules| Ok((families(arguments.gradings.as_deref(), &rules)?, rules)));
    let (families, rules) = match read {
        Ok(found) => found,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let file = exchange::soil_files::read_sieves(&arguments.sieves);
    let mut problems = file.problems;
    if problems.iter().any(|problem| problem.severity == ProblemSeverity::Fatal) {
        report::print(&problems);
        return Outcome::NothingProduced;
    }
    let analysis = match sieve_analysis(&file.sample, &families, &rules.sieving) {
        Ok((analysis, found)) => {
            problems.extend(found);
            analysis
        }
        Err(mut found) => {
            for problem in found.iter_mut().filter(|problem| problem.at == Locator::default()) {
                problem.at.file = arguments.sieves.display().to_string();
            }
            problems.extend(found);
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let named = |name: &String| analysis.checks.iter().find(|check| check.grading.eq_ignore_ascii_case(name));
    let check = arguments.grading.as_ref().map_or(analysis.checks.first(), named);
    if let (Some(name), None) = (&arguments.grading, check) {
        let mut known: Vec<&str> = analysis.checks.iter().map(|check| check.grading.as_str()).collect();
        known.sort_unstable();
        eprintln!("--grading {name}: no such grading; known: {}", known.join(", "));
        return Outcome::WrongUsage;
    }
    if arguments.json {
        print_json(&analysis_json(&analysis, &problems));
    } else {
        print(&analysis, check, arguments.why);
    }
    if let Some(path) = &arguments.plot
        && let Err(problem) = write_plot(path, &jobpack::grading_plot_svg(&analysis, check))
    {
        problems.push(*problem);
    }
    report::print(&problems);
    let is_clean = problems.iter().all(|problem| problem.severity == ProblemSeverity::Warning);
    if is_clean { Outcome::AllUsed } else { Outcome::SomeRefused }
}

fn print(analysis: &SieveAnalysis, check: Option<&GradingCheck>, why: bool) {
    let mut points = Table::default();
    points.row(["sieve", "opening", "passing", if why { "how worked out" } else { "" }].map(str::to_owned));
    for point in &analysis.points {
        let working = if why { point.passing.why.to_string() } else { String::new() };
        let opening = format!("{} mm", point.opening.in_millimetres());
        points.row([point.sieve.clone(), opening, format!("{:.1} %", point.passing.value.in_percent()), working]);
    }
    points.print();
    if let Some(loss) = &analysis.loss {
        say!("\nLost in sieving: {:.2} %{}", loss.value.in_percent(), working(&loss.why, why));
    }
    match &analysis.modulus {
        Ok(modulus) => say!("\nGrading modulus: {:.2}{}", modulus.value, working(&modulus.why, why)),
        Err(reason) => say!("\nGrading modulus: none, {reason}."),
    }
    say!("\nAgainst all gradings, the nearest first:");
    let mut all = Table::default();
    for check in &analysis.checks {
        let miss = check.miss.in_percent();
        let miss = if miss > 0.0 { format!("{miss:.1} points outside") } else { String::new() };
        let fines = check.fines.as_ref().filter(|fines| fines.is_kept == Some(false));
        let fines = fines.map_or_else(String::new, |_| "too many fines".to_owned());
        all.row([check.grading.clone(), check.fit.words().to_owned(), miss, fines]);
    }
    all.print();
    if let Some(check) = check {
        print_check(check);
    }
}

fn working(why: &model::figure::Why, shown: bool) -> String {
    if shown { format!("  {why}") } else { String::new() }
}

fn print_check(check: &GradingCheck) {
    say!("\n{} {} ({})", check.about, check.fit.words(), check.source);
    let mut table = Table::default();
    table.row(["sieve", "limits", "passing", ""].map(str::to_owned));
    for sieve in &check.sieves {
        let limits = format!("{:.0} to {:.0} %", sieve.least.in_percent(), sieve.most.in_percent());
        let passing = sieve.passing.map_or_else(|| "–".to_owned(), |share| format!("{:.1} %", share.in_percent()));
        table.row([sieve.sieve.clone(), limits, passing, standing_words(sieve)]);
    }
    table.print();
    if let Some(fines) = &check.fines {
        say!("{}", fines_words(fines));
    }
}

fn standing_words(verdict: &SieveVerdict) -> String {
    match verdict.standing {
        Standing::Inside => "inside".into(),
        Standing::Below(by) => format!("{:.1} points too few: too coarse here", by.in_percent()),
        Standing::Above(by) => format!("{:.1} points too many: too fine here", by.in_percent()),
        Standing::NotTested if verdict.passing.is_some() => "not sieved, read off between its neighbours".into(),
        Standing::NotTested => "not sieved".into(),
    }
}

fn fines_words(fines: &FinesVerdict) -> String {
    let [fine, of] = &fines.sieves;
    let rule = format!("fines: passing {fine} at most {:.2} of passing {of}", fines.most);
    match (&fines.share, fines.is_kept) {
        (Some(share), Some(true)) => format!("{rule}; {:.2}, kept", share.value),
        (Some(share), _) => format!("{rule}; {:.2}, too many fines", share.value),
        (None, _) => format!("{rule}; not known, one of the two was not sieved"),
    }
}

fn analysis_json(analysis: &SieveAnalysis, problems: &[Problem]) -> serde_json::Value {
    let sieve_json = |verdict: &SieveVerdict| {
        let (standing, outside) = match verdict.standing {
            Standing::Inside => ("inside", 0.0),
            Standing::Below(by) => ("below", -by.in_percent()),
            Standing::Above(by) => ("above", by.in_percent()),
            Standing::NotTested => ("not tested", 0.0),
        };
        json!({
            "sieve": verdict.sieve,
            "opening_mm": verdict.opening.in_millimetres(),
            "least_percent": verdict.least.in_percent(),
            "most_percent": verdict.most.in_percent(),
            "passing_percent": verdict.passing.map(InRatio::in_percent),
            "standing": standing,
            "outside_points": outside,
        })
    };
    json!({
        "sieves": analysis.points.iter().map(|point| json!({
            "sieve": point.sieve,
            "opening_mm": point.opening.in_millimetres(),
            "passing_percent": figure_json(&point.passing, InRatio::in_percent),
        })).collect::<Vec<_>>(),
        "loss_percent": analysis.loss.as_ref().map(|loss| figure_json(loss, InRatio::in_percent)),
        "grading_modulus": analysis.modulus.as_ref().ok().map(|modulus| figure_json(modulus, |value| value)),
        "gradings": analysis.checks.iter().map(|check| json!({
            "grading": check.grading,
            "about": check.about,
            "source": check.source.to_string(),
            "fit": check.fit.words(),
            "outside_points": check.miss.in_percent(),
            "sieves": check.sieves.iter().map(sieve_json).collect::<Vec<_>>(),
            "fines": check.fines.as_ref().map(|fines| json!({
                "sieves": fines.sieves,
                "share": fines.share.as_ref().map(|share| figure_json(share, |value| value)),
                "most": fines.most,
                "kept": fines.is_kept,
            })),
        })).collect::<Vec<_>>(),
        "problems": problems.iter().map(ToString::to_string).collect::<Vec<_>>(),
    })
}
