//! `lengthsman lasting`: which repairs last, from the record or from a list of lives.

mod together;

use std::path::PathBuf;

use exchange::lives::{LifeColumns, read_lives};
use exchange::rules::{RuleKind, load_rules};
use jiff::civil::Date;
use lasting::groups::{GroupCurves, WhatLasts, what_lasts};
use lasting::patch_lives::{Property, patch_lives, rows_by, rows_by_traffic};
use lasting::plot::curves_svg;
use model::life::LifeRows;
use model::problem::{Locator, Problem, ProblemSeverity};
use model::rules::lasting::LastingRules;
use server::reporting::{end_of, study};

use self::together::Together;
use super::record::{RecordFlags, now, run as run_record};
use super::road_places::RecordDistrict;
use super::soil_rules::write_plot;
use crate::outcome::Outcome;
use crate::progress::Progress;
use crate::report;
use crate::show::{Table, print_json};

/// The rule set that says when few are too few.
pub(super) const RULES: &str = "common-practice";

#[derive(Debug, clap::Args)]
#[command(
    after_help = "Of a record: the life of each repair from when traffic ran over it until it failed, by the words of whoever looked or by a new hole \
at its place (handbook, methods/patch-lives.md). Of a list: a row is one repair, how long it lasted so far, and whether it had failed then (1) or \
was lost from sight or still held (0). Curves are by the product-limit method (Kaplan and Meier 1958) with log-log bands; groups are \
compared by the log-rank test, every two of more than two with Holm's correction."
)]
pub(crate) struct Arguments {
    /// Folder of the record: its database and the district file.
    #[arg(long, value_name = "DIR", required_unless_present = "lives", conflicts_with = "lives")]
    data: Option<PathBuf>,
    /// Database of the record in place of the file in the folder: a URL that begins with `postgres:`.
    #[arg(long, value_name = "URL", requires = "data")]
    store: Option<String>,
    /// What the record's repairs are grouped by.
    #[arg(long, value_name = "WHAT", default_value = "crew", value_parser = property, conflicts_with = "lives", help = by_help())]
    by: Property,
    /// Properties held together: what goes with short lives where the others are alike. Words as for `--by`, between commas.
    #[arg(long, value_name = "WHAT,WHAT", value_delimiter = ',', value_parser = property, conflicts_with = "lives")]
    factors: Vec<Property>,
    /// Compare groups within those of another property too, so that its own differences do not count.
    #[arg(long, value_name = "WHAT", value_parser = property, conflicts_with = "lives")]
    within: Option<Property>,
    /// Count the vehicles that ran over each repair in place of days, where the roads tell traffic.
    #[arg(long, conflicts_with = "lives")]
    by_traffic: bool,
    /// The study's last day; without it, now.
    #[arg(long, value_name = "DAY", value_parser = crate::input::day, conflicts_with = "lives")]
    until: Option<Date>,
    /// The lives, in place of a record: CSV or Parquet.
    #[arg(long, value_name = "FILE")]
    lives: Option<PathBuf>,
    /// Column of durations.
    #[arg(long, default_value = "duration", requires = "lives")]
    duration: String,
    /// Column that says whether it had failed.
    #[arg(long, default_value = "event", requires = "lives")]
    event: String,
    /// Column of groups to be compared.
    #[arg(long, default_value = "group", requires = "lives")]
    group: String,
    /// What durations of a list are counted in, for the words and the plot.
    #[arg(long, default_value = "days", requires = "lives")]
    unit: String,
    /// Write the plot of the curves.
    #[arg(long, value_name = "PLOT.svg")]
    svg: Option<PathBuf>,
    /// JSON.
    #[arg(long)]
    json: bool,
}

/// A property by its word.
fn property(word: &str) -> Result<Property, String> {
    Property::of(word).ok_or_else(|| format!("known words: {}", property_words()))
}

fn property_words() -> String {
    Property::ALL.map(Property::word).join(", ")
}

fn by_help() -> String {
    format!("What the record's repairs are grouped by: {}", property_words())
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let Some(data) = &arguments.data else {
        return of_list(arguments).unwrap_or_else(|problems| {
            report::print(&problems);
            Outcome::NothingProduced
        });
    };
    let record = RecordFlags { data: data.clone(), store: arguments.store.clone() };
    run_record(Box::pin(of_record(arguments, &record)))
}

fn of_list(arguments: &Arguments) -> Result<Outcome, Vec<Problem>> {
    let Arguments { duration, event, group, unit, .. } = arguments;
    let file = arguments.lives.clone().unwrap_or_default();
    let read = read_lives(&file, LifeColumns { duration, event, group })?;
    let rules: LastingRules = load_rules(RuleKind::Lasting, RULES, None)?;
    let lasts = what_lasts(&read.lives, unit, &rules).map_err(|error| vec![unusable(&file, error.to_string())])?;
    show(arguments, &lasts, unit, None).map_err(|problem| vec![*problem])?;
    report::print(&read.problems);
    Ok(if read.problems.is_empty() { Outcome::AllUsed } else { Outcome::SomeRefused })
}

async fn of_record(arguments: &Arguments, record: &RecordFlags) -> Result<(), String> {
    let told = |problems: Vec<Problem>| {
        report::print(&problems);
        "the district can't be read".to_owned()
    };
    let mut progress = Progress::new();
    let journal = record.open().await?;
    let district = RecordDistrict::of_folder(&record.data, &mut progress).map_err(told)?;
    let reporting = district.reporting(&record.data).map_err(told)?;
    progress.at("reading the record", 0.0);
    let at = arguments.until.map_or_else(now, |day| end_of(day, &district.zone).min(now()));
    let studied = study(&journal, &reporting, &district.zone, at, None).await.map_err(|error| error.to_string())?;
    progress.done();
    let of_record = patch_lives(&studied.study);
    let (lives, without_traffic): (LifeRows, usize) = if arguments.by_traffic {
        rows_by_traffic(&of_record, arguments.by)
    } else {
        (rows_by(&of_record, arguments.by), 0)
    };
    let unit = if arguments.by_traffic { "thousand vehicles" } else { "days" };
    let lasts = what_lasts(&lives, unit, &reporting.rules).map_err(|error| error.to_string())?;
    let more = Together::of(arguments, &of_record, &reporting.rules)?;
    show(arguments, &lasts, unit, Some(&more)).map_err(|problem| {
        report::print(&[*problem]);
        "the plot is not written".to_owned()
    })?;
    if !arguments.json {
        more.print(&reporting.rules);
        if without_traffic > 0 {
            say!("{without_traffic} more are on roads of which the traffic is not known: they are left out.");
        }
        if lives.rows.is_empty() {
            say!("The record has no repair yet that traffic ran over.");
        }
        if studied.not_opened > 0 {
            say!("{} more were cut out and neither sealed nor opened: they have no life yet.", studied.not_opened);
        }
        if studied.resurfaced_nowhere > 0 {
            say!(
                "{} new surfaces lie on no road that is known: the lives of repairs under them are not cut short.",
                studied.resurfaced_nowhere
            );
        }
        if lives.groups.iter().map(String::as_str).eq(["not known"]) {
            say!("The record tells of no repair what it is grouped by ({}).", arguments.by.word());
        }
    }
    Ok(())
}

fn show(arguments: &Arguments, lasts: &WhatLasts, unit: &str, more: Option<&Together>) -> Result<(), Box<Problem>> {
    if let Some(path) = &arguments.svg {
        write_plot(path, &curves_svg(&lasts.curves.groups, unit))?;
    }
    if arguments.json {
        let mut json = serde_json::to_value(lasts).unwrap_or_default();
        if let (Some(all), Some(more)) = (json.as_object_mut(), more) {
            all.insert("unit".into(), unit.into());
            all.extend(more.json());
        }
        print_json(&json);
        return Ok(());
    }
    print_table(&lasts.curves);
    for mean in &lasts.restricted_means {
        let (name, restricted) = (&mean.name, &mean.restricted);
        say!(
            "{name}: mean life within {:.0} {unit}: {:.1} ± {:.1}",
            restricted.until,
            restricted.mean,
            restricted.error
        );
    }
    for sentence in &lasts.words {
        say!("{sentence}");
    }
    for pair in &lasts.pairs {
        let [one, other] = &pair.groups;
        say!("{one} against {other}: p = {:.4}, for all pairs together {:.4}", pair.log_rank.p, pair.p_corrected);
    }
    Ok(())
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
            group.median.map_or_else(|| "–".to_owned(), short),
            short(last(&group.times)),
            format!("{:.1} %", 100.0 * last(&group.survival)),
            format!("{:.1} to {:.1} %", 100.0 * last(&group.lower), 100.0 * last(&group.upper)),
        ]);
    }
    table.print();
    if let Some(test) = &curves.log_rank {
        say!("log-rank test: chi-square {:.4}, degrees of freedom {}, p = {:.3e}", test.chi2, test.df, test.p);
    }
}

/// To the tenth, which is finer than anybody looks.
fn short(number: f64) -> String {
    ((number * 10.0).round() / 10.0).to_string()
}

fn unusable(file: &std::path::Path, wrong: String) -> Problem {
    Problem {
        code: "lives.duration.wrong",
        severity: ProblemSeverity::Fatal,
        at: Locator { file: file.display().to_string(), line: 0, column: 0 },
        subject: String::new(),
        wrong,
        right: "give durations of zero or more".into(),
    }
}
