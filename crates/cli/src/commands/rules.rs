//! `lengthsman rules`: the rule sets that come with the program; `rules check`: an agency's own file, before the day it is
//! needed.

use std::path::PathBuf;

use exchange::rules::{CheckedRules, Override, RuleFile, RuleKind, load_rules, shipped_rule_sets};
use model::problem::Problem;
use model::rules::gradation::GradationRules;
use model::rules::lasting::LastingRules;
use model::rules::markout::MarkOutRules;
use model::rules::matching::MatchingRules;
use model::rules::planning::PlanningRules;
use model::rules::repair::RepairRules;
use model::rules::roads::RoadDefaults;
use model::rules::severity::SeverityRules;
use model::rules::soil::SoilRules;
use model::rules::traffic::TrafficRules;
use serde::de::DeserializeOwned;

use crate::outcome::Outcome;
use crate::report;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    action: Option<Action>,
}

#[derive(Debug, clap::Subcommand)]
enum Action {
    /// Check an agency's own rule file: everything that is wrong, and what it changes of the set it extends.
    Check(Check),
}

#[derive(Debug, clap::Args)]
struct Check {
    /// The rule file.
    file: PathBuf,
    /// Kind of rules; without it that of the folder, of the set it extends, or of its tables.
    #[arg(long, value_parser = kind)]
    kind: Option<RuleKind>,
}

fn kind(word: &str) -> Result<RuleKind, String> {
    let known = || RuleKind::ALL.map(RuleKind::folder).join(", ");
    RuleKind::ALL.into_iter().find(|kind| kind.folder() == word).ok_or_else(|| format!("known kinds: {}", known()))
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    match &arguments.action {
        Some(Action::Check(arguments)) => check(arguments),
        None => {
            for kind in RuleKind::ALL {
                say!("{}: {}", kind.folder(), shipped_rule_sets(kind).join(", "));
            }
            Outcome::AllUsed
        }
    }
}

fn check(arguments: &Check) -> Outcome {
    let file = match RuleFile::open(&arguments.file, arguments.kind) {
        Ok(file) => file,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let problems = problems(&file);
    report::print(&problems);
    let files = file.files();
    let extends =
        files.get(1).map_or_else(String::new, |_| format!(", extends {}", files[1..].join(", which extends ")));
    say!("{}: {} rules{extends}", files[0], file.kind().folder());
    let changes = file.overrides();
    for change in &changes {
        print_change(change);
    }
    if files.len() > 1 {
        say!("{} changed; the rest is as in {}", counted(changes.len(), "value"), files[1]);
    }
    if problems.is_empty() {
        say!("it can be used");
        Outcome::AllUsed
    } else {
        say!("{}: it can't be used", counted(problems.len(), "problem"));
        Outcome::NothingProduced
    }
}

fn print_change(change: &Override) {
    let Override { at, path, value, source, replaced, replaced_source, of } = change;
    let given = |source: &Option<String>| source.clone().unwrap_or_else(|| "no source given".into());
    say!("  {at}: {path} = {value} [{}]", given(source));
    say!("    in place of {replaced} [{}; {of}]", given(replaced_source));
}

fn counted(count: usize, word: &str) -> String {
    format!("{count} {word}{}", if count == 1 { "" } else { "s" })
}

/// Everything that is wrong with a file, in the order of its lines.
fn problems(file: &RuleFile) -> Vec<Problem> {
    let mut problems = match file.kind() {
        RuleKind::Repair => look(file, |rules: &RepairRules| words(repair::check_rules(rules))),
        RuleKind::MarkOut => look(file, MarkOutRules::faults),
        RuleKind::Traffic => look(file, TrafficRules::faults),
        RuleKind::Severity => look(file, |rules: &SeverityRules| words(triage::check_rules(rules))),
        RuleKind::Roads => look(file, |_: &RoadDefaults| Vec::new()),
        RuleKind::Planning => look(file, |_: &PlanningRules| Vec::new()),
        RuleKind::Soil => look(file, soil::check_soil_rules),
        RuleKind::Gradation => look(file, gradation_faults),
        RuleKind::Matching => look(file, MatchingRules::faults),
        RuleKind::Lasting => look(file, LastingRules::faults),
    };
    problems.sort_by_key(|problem| (problem.at.file != file.files()[0], problem.at.line, problem.at.column));
    problems
}

/// Shape first, then the values.
fn look<T: DeserializeOwned>(file: &RuleFile, faults: impl Fn(&T) -> Vec<String>) -> Vec<Problem> {
    let CheckedRules { rules, mut problems } = file.read::<T>();
    problems.extend(rules.iter().flat_map(faults).map(|words| file.fault(&words)));
    problems
}

/// Gradings are held against the sieves that come with the program.
fn gradation_faults(family: &GradationRules) -> Vec<String> {
    let soil = load_rules::<SoilRules>(RuleKind::Soil, "common-practice", None);
    soil.map_or_else(
        |problems| problems.iter().map(ToString::to_string).collect(),
        |soil| soil::check_gradation_rules(family, &soil.sieving),
    )
}

fn words<E: ToString>(checked: Result<(), Vec<E>>) -> Vec<String> {
    checked.err().unwrap_or_default().iter().map(ToString::to_string).collect()
}
