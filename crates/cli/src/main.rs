//! The `lengthsman` command: reads files, calls the stages, writes files and says what happened. No arithmetic of the
//! trade.
//!
//! Results go to standard output, talk goes to standard error. Exit codes: 0 everything given was used; 1 nothing was
//! produced; 2 wrong usage; 3 produced, but some input was refused.

#[macro_use]
mod show;

mod commands;
mod from_record;
mod input;
mod outcome;
mod progress;
mod report;

use std::process::ExitCode;

use clap::{Parser, Subcommand};

#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// From a list of holes in surface-treated roads to the crew's job pack.
#[derive(Debug, Parser)]
#[command(name = "lengthsman", version, about, max_term_width = 110)]
#[command(
    after_help = "Exit codes: 0 all input used, 1 nothing produced, 2 wrong usage, 3 produced but some input was refused."
)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Plan one day of one crew and write its job pack.
    Plan(commands::plan::Arguments),
    /// Work out one repair: layers, base, water, passes, binder, cover stone, spoil, time.
    Repair(commands::repair::Arguments),
    /// Show what records of holes surveyed and dug say of how much holes grow when dug.
    Growth(commands::growth::Arguments),
    /// Which repairs last: curves of groups, and whether they differ, from the record or a list of lives.
    Lasting(commands::lasting::Arguments),
    /// Report a district's month from its record: done, cost, stock, risk left, what lasts, where patching nears its end.
    Report(commands::month_report::Arguments),
    /// Say how many new holes each road gets, and when in the year.
    Arrivals(commands::arrivals::Arguments),
    /// Say which stretches of road to renew with a budget, and what more money would buy.
    Renewals(commands::renewals::Arguments),
    /// Design one seal: binder and cover stone rates, product, hot litres, containers, opening to traffic.
    Seal(Box<commands::seal::Arguments>),
    /// Validate a district file and the rule sets it names.
    Check(commands::check::Arguments),
    /// List the rule sets that come with the program, or check an agency's own file (`rules check`).
    Rules(commands::rules::Arguments),
    /// Find each hole of a list on the roads: section, chainage, side, distance.
    Snap(commands::HoleListFlags),
    /// Say which reports of a list are of the same hole, and why.
    SameHole(commands::HoleListFlags),
    /// Judge one hole: severity, risk, due day.
    Judge(commands::judge::Arguments),
    /// Lay the cut around one hole.
    MarkOut(commands::mark_out::Arguments),
    /// Lay out the traffic control for work on one road.
    Zone(commands::zone::Arguments),
    /// Work out a compaction test (Proctor): maximum dry density, optimum moisture.
    Proctor(commands::proctor::Arguments),
    /// Hold a sieve analysis against gradings.
    Grading(commands::grading::Arguments),
    /// Work out density in place by sand replacement, and whether it is enough.
    FieldDensity(commands::field_density::Arguments),
    /// Work out the water for one batch of base.
    Water(commands::water::Arguments),
    /// Choose and order sites given as JSON: the search alone.
    Round(commands::round::Arguments),
    /// Serve the record of a district to office and phones.
    Serve(commands::serve::ServeArguments),
    /// Work on the plans and imports of a record that several machines share.
    Worker(commands::serve::WorkerArguments),
    /// Put a city's export of reports into a record.
    Import(commands::import::ImportArguments),
    /// Write a backup of a record, while it is in use.
    Backup(commands::record::BackupArguments),
    /// Fill a new record from a backup.
    Restore(commands::record::RestoreArguments),
    /// Look after the trail of what happened: `audit verify`.
    Audit(commands::record::AuditArguments),
}

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let outcome = match arguments.command {
        Command::Plan(arguments) => commands::plan::run(&arguments),
        Command::Repair(arguments) => commands::repair::run(&arguments),
        Command::Growth(arguments) => commands::growth::run(&arguments),
        Command::Lasting(arguments) => commands::lasting::run(&arguments),
        Command::Report(arguments) => commands::month_report::run(&arguments),
        Command::Arrivals(arguments) => commands::arrivals::run(&arguments),
        Command::Renewals(arguments) => commands::renewals::run(&arguments),
        Command::Seal(arguments) => commands::seal::run(&arguments),
        Command::Check(arguments) => commands::check::run(&arguments),
        Command::Rules(arguments) => commands::rules::run(&arguments),
        Command::Snap(arguments) => commands::snap::run(&arguments),
        Command::SameHole(arguments) => commands::same_hole::run(&arguments),
        Command::Judge(arguments) => commands::judge::run(&arguments),
        Command::MarkOut(arguments) => commands::mark_out::run(&arguments),
        Command::Zone(arguments) => commands::zone::run(&arguments),
        Command::Proctor(arguments) => commands::proctor::run(&arguments),
        Command::Grading(arguments) => commands::grading::run(&arguments),
        Command::FieldDensity(arguments) => commands::field_density::run(&arguments),
        Command::Water(arguments) => commands::water::run(&arguments),
        Command::Round(arguments) => commands::round::run(&arguments),
        Command::Serve(arguments) => commands::serve::serve(&arguments),
        Command::Worker(arguments) => commands::serve::worker(&arguments),
        Command::Import(arguments) => commands::import::run(&arguments),
        Command::Backup(arguments) => commands::record::backup(&arguments),
        Command::Restore(arguments) => commands::record::restore(&arguments),
        Command::Audit(arguments) => commands::record::audit(&arguments),
    };
    outcome.into()
}
