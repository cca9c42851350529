//! `lengthsman lasting`: which repairs last, from a list of lives.

use std::path::PathBuf;

use exchange::lives::{LifeColumns, read_lives};
use exchange::rules::{RuleKind, load_rules};
use lasting::groups::{GroupCurves, compare_pairs, group_curves, in_words};
use lasting::plot::curves_svg;
use model::problem::{Locator, Problem, ProblemSeverity};
use model::rules::lasting::LastingRules;

use super::soil_rules::write_plot;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{Table, print_json};

/// The rule set that says when few are too few.
const RULES: &str = "common-practice";

/// Confidence of the bands.
const CONFIDENCE: f64 = 0.95;

#[derive(Debug, clap::Args)]
#[command(
    after_help = "A row is one repair: how long it lasted so far, and whether it had failed then (1) or was lost from sight or still held (0). \
Curves are by the product-limit method (Kaplan and Meier 1958) with log-log bands of 95 %; groups are compared by the log-rank test."
)]
pub(crate) struct Arguments {
    /// The lives: CSV.
    #[arg(long, value_name = "FILE.csv")]
    lives: PathBuf,
    /// Column of durations.
    #[arg(long, default_value = "duration")]
    duration: String,
    /// Column that says whether it had failed.
    #[arg(long, default_value = "event")]
    event: String,
    /// Column of groups to be compared.
    #[arg(long, default_value = "group")]
    group: String,
    /// What durations are counted in, for the words and the plot.
    #[arg(long, default_value = "days")]
    unit: String,
    /// Write the plot of the curves.
    #[arg(long, value_name = "PLOT.svg")]
    svg: Option<PathBuf>,
    /// JSON.
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    produce(arguments).unwrap_or_else(|problems| {
        report::print(&problems);
        Outcome::NothingProduced
    })
}

fn produce(arguments: &Arguments) -> Result<Outcome, Vec<Problem>> {
    let Arguments { duration, event, group, unit, .. } = arguments;
    let read = read_lives(&arguments.lives, LifeColumns { duration, event, group })?;
    let rules: LastingRules = load_rules(RuleKind::Lasting, RULES, None)?;
    let impossible = |error: lasting::life_table::LifeError| vec![unusable(arguments, error.to_string())];
    let curves = group_curves(&read.lives, CONFIDENCE).map_err(impossible)?;
    if let Some(path) = &arguments.svg {
        write_plot(path, &curves_svg(&curves, unit)).map_err(|problem| vec![*problem])?;
    }
    if arguments.json {
        print_json(&serde_json::to_value(&curves).unwrap_or_default());
    } else {
        print_table(&curves);
        for sentence in in_words(&curves, unit, &rules) {
            say!("{sentence}");
        }
        if curves.groups.len() > 2 {
            for pair in compare_pairs(&read.lives, &rules).map_err(impossible)? {
                let [one, other] = pair.groups;
                say!(
                    "{one} against {other}: p = {:.4}, for all pairs together {:.4}",
                    pair.log_rank.p,
                    pair.p_corrected
                );
            }
        }
    }
    report::print(&read.problems);
    Ok(if read.problems.is_empty() { Outcome::AllUsed } else { Outcome::SomeRefused })
}

fn print_table(curves: &GroupCurves) {
    let mut table = Table::default();
    table.row(
        ["group", "repairs", "failed", "half outlast", "last seen", "still holding", "95 % band"].map(str::to_owned),
    );
    for group in &curves.groups {
        let last = |list: &[f64]| list.last().copied().unwrap_or(f64::NAN);
        table.row([
            group.name.clone(),
            group.n.to_string(),
            group.failures.to_string(),
            group.median.map_or_else(|| "–".to_owned(), |median| median.to_string()),
            last(&group.times).to_string(),
            format!("{:.1} %", 100.0 * last(&group.survival)),
            format!("{:.1} to {:.1} %", 100.0 * last(&group.lower), 100.0 * last(&group.upper)),
        ]);
    }
    table.print();
    if let Some(test) = &curves.log_rank {
        say!("log-rank test: chi-square {:.4}, degrees of freedom {}, p = {:.3e}", test.chi2, test.df, test.p);
    }
}

fn unusable(arguments: &Arguments, wrong: String) -> Problem {
    Problem {
        code: "lives.duration.wrong",
        severity: ProblemSeverity::Fatal,
        at: Locator { file: arguments.lives.display().to_string(), line: 0, column: 0 },
        subject: String::new(),
        wrong,
        right: "give durations of zero or more".into(),
    }
}
