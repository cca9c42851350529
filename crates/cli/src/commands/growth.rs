//! `lengthsman growth`: what the crew's records say of how much holes grow when dug.

use std::fs::OpenOptions;
use std::io::Write as _;
use std::path::{Path, PathBuf};

use exchange::growth_records::{GrowthFile, growth_rule_file, read_growth_records};
use model::district::RuleSetNames;
use model::problem::Problem;
use repair::{ClassGrowth, Learnt};
use serde_json::{Value, json};

use super::plan::failed;
use crate::input;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{FigureTable, Table, figure_json, print_json};

#[derive(Debug, clap::Args)]
#[command(
    after_help = "A row is one hole: as surveyed (the cut marked out, to the depth surveyed) and as dug. Growth is the volume dug over the \
volume surveyed."
)]
pub(crate) struct Arguments {
    /// The records: CSV.
    records: PathBuf,
    /// District file whose rule sets give the prior; without it the program's own rules do.
    #[arg(long)]
    district: Option<PathBuf>,
    /// Print the working under each figure.
    #[arg(long)]
    why: bool,
    /// JSON.
    #[arg(long, conflicts_with = "why")]
    json: bool,
    /// Write what was learnt as a new rule file that extends the district's repair rules, to be named in the district
    /// file in place of the records.
    #[arg(long, value_name = "RULES.toml")]
    write: Option<PathBuf>,
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    match produce(arguments) {
        Ok(outcome) => outcome,
        Err(problems) => {
            report::print(&problems);
            Outcome::NothingProduced
        }
    }
}

fn produce(arguments: &Arguments) -> Result<Outcome, Vec<Problem>> {
    let district = match &arguments.district {
        Some(path) => exchange::district::read_district(path)?.0,
        None => exchange::district::default_district(),
    };
    let beside = arguments.district.as_deref().map(|path| path.parent().unwrap_or(Path::new("")));
    let (rules, _) = input::rules(&district.rule_sets, beside)?;
    let file = read_growth_records(&arguments.records, &rules.repair.growth, None);
    if file.records.is_empty() {
        return Err(file.problems);
    }
    let from = arguments.records.file_name().unwrap_or_default().to_string_lossy();
    let learnt = repair::learn(&rules.repair.growth, &file.records, &from);
    if let Some(path) = &arguments.write {
        write(path, &learnt, &district.rule_sets, &from)?;
    }
    if arguments.json {
        print_json(&as_json(&learnt, &file));
    } else {
        print(&learnt, &file, arguments.why);
    }
    report::print(&file.problems);
    Ok(if file.refused_rows > 0 { Outcome::SomeRefused } else { Outcome::AllUsed })
}

fn print(learnt: &Learnt, file: &GrowthFile, why: bool) {
    say!("{} records, {} rows refused", file.records.len(), file.refused_rows);
    say!("");
    let mut table = Table::default();
    table.row(["class", "records", "median g", "P10 to P90", "prior's part"].map(str::to_owned));
    for class in &learnt.classes {
        let (low, high) = class.growth.spread.map_or((0.0, 0.0), |spread| (spread.p10, spread.p90));
        table.row([
            class.name.clone(),
            class.records.to_string(),
            format!("{:.2}", class.growth.value),
            format!("{low:.2} to {high:.2}"),
            format!("{:.0} %", class.prior_share() * 100.0),
        ]);
    }
    table.print();
    say!("");
    say!(
        "share of growth in depth: {:.2}, from {} records with both depths",
        learnt.depth_share.value,
        learnt.depth_records
    );
    if why {
        say!("");
        let mut table = FigureTable::with_working(true);
        for class in &learnt.classes {
            table.figure(&format!("growth, class {}", class.name), &class.growth, |g| format!("{g:.2}"));
        }
        table.figure("share in depth", &learnt.depth_share, |share| format!("{share:.2}"));
        table.print();
    }
}

fn as_json(learnt: &Learnt, file: &GrowthFile) -> Value {
    let belief = |belief: &repair::belief::Belief| {
        json!({
            "median": belief.median(),
            "mean_weight": belief.mean_weight,
            "sigma": belief.sigma,
            "spread_weight": belief.spread_weight,
        })
    };
    let class = |class: &ClassGrowth| {
        json!({
            "class": class.name,
            "records": class.records,
            "growth": figure_json(&class.growth, |g| g),
            "prior": belief(&class.prior),
            "posterior": belief(&class.posterior),
            "prior_share": class.prior_share(),
        })
    };
    json!({
        "rows": file.rows,
        "refused_rows": file.refused_rows,
        "classes": learnt.classes.iter().map(class).collect::<Vec<_>>(),
        "depth_share": figure_json(&learnt.depth_share, |share| share),
        "depth_records": learnt.depth_records,
    })
}

/// Never over a file that is there: it may be the very rules that were learnt from.
fn write(path: &Path, learnt: &Learnt, sets: &RuleSetNames, from: &str) -> Result<(), Vec<Problem>> {
    let name = path.file_stem().unwrap_or_default().to_string_lossy();
    let about = format!("Growth on cutting as learnt from {from}; all else as in {}.", sets.repair);
    let text = growth_rule_file(&learnt.rules, &sets.repair, &name, &about);
    OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(path)
        .and_then(|mut file| file.write_all(text.as_bytes()))
        .map_err(|error| {
            vec![failed(path, "out.write", &error.to_string(), "give a new file in a folder that can be written to")]
        })
}
