//! `lengthsman renewals`: under a budget, which stretches of road to renew, and what more money would buy.

use std::path::PathBuf;

use clap::ValueEnum;
use jiff::civil::Date;
use lasting::stop_patching::{BudgetPoint, BudgetSite, Frontier, frontier};
use model::month_report::{BudgetCorner, MonthReport, StopLine};
use monthly::{Matters, budget_svg, choice, sites};
use serde_json::{Value, json};

use super::month_report::{month, read};
use super::record::{RecordFlags, now, run as run_record};
use super::soil_rules::write_plot;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{Table, print_json};

/// Rows of the curve that are printed.
const CURVE_ROWS: usize = 11;

#[derive(Debug, clap::Args)]
#[command(
    after_help = "Each stretch is patched on or renewed now, in the way that is chosen for it; prices and lives of renewals are the agency's, in \
lasting/common-practice.toml beside the district file (handbook, methods/stop-patching.md). The best set is that of an integer programme. The model \
does not know what lies under the surface: whether a road is patched on or renewed is the road engineer's decision."
)]
pub(crate) struct Arguments {
    #[command(flatten)]
    record: RecordFlags,
    /// Money for renewals, in the district's currency; without it, what more and more money buys.
    #[arg(long, value_name = "AMOUNT", value_parser = money, allow_negative_numbers = true)]
    budget: Option<f64>,
    /// What is to be left as little as possible over the years.
    #[arg(long, value_enum, default_value_t = Aim::Holes)]
    least: Aim,
    /// The month whose report it is worked out from, e.g. 2026-06; without it, this month.
    #[arg(long, value_name = "YEAR-MONTH", value_parser = month)]
    month: Option<Date>,
    /// Write the plot of money against holes to come.
    #[arg(long, value_name = "PLOT.svg")]
    svg: Option<PathBuf>,
    /// JSON.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Aim {
    /// Holes to come, new ones and failed repairs.
    Holes,
    /// All costs at today's worth.
    Cost,
}

fn money(text: &str) -> Result<f64, String> {
    let amount = text.parse::<f64>().ok().filter(|amount| amount.is_finite() && *amount >= 0.0);
    amount.ok_or_else(|| "write an amount of money from 0 on, without the currency, e.g. 50000".to_owned())
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    run_record(async {
        let (read, _) = Box::pin(read(&arguments.record, arguments.month, now())).await?;
        show(arguments, &read.report())
    })
}

/// A set of renewals, and how good it is.
struct Chosen {
    set: BudgetPoint,
    /// No set leaves less.
    bound: f64,
    is_best: bool,
}

fn chosen(sites: &[BudgetSite], curve: &Frontier, budget: f64) -> Result<Chosen, String> {
    let bound = curve.bound(budget);
    #[cfg(feature = "best-set")]
    {
        let set = lasting::stop_patching::best_set(sites, budget).map_err(|error| error.to_string())?;
        Ok(Chosen { set, bound, is_best: true })
    }
    #[cfg(not(feature = "best-set"))]
    {
        let _ = sites;
        Ok(Chosen { set: curve.set(budget), bound, is_best: false })
    }
}

fn show(arguments: &Arguments, report: &MonthReport) -> Result<(), String> {
    let stop = &report.stop;
    if !stop.nothing.is_empty() {
        return Err(stop.nothing.clone());
    }
    if let Some(path) = &arguments.svg {
        let across = format!("money for renewals, thousand {}", report.currency);
        let plot = budget_svg(&stop.budget, &across, &format!("holes to come in {} years", stop.years));
        write_plot(path, &plot).map_err(|problem| {
            report::print(&[*problem]);
            "the plot is not written".to_owned()
        })?;
    }
    let sites = sites(&stop.choices, if arguments.least == Aim::Holes { Matters::Holes } else { Matters::Cost });
    let curve = frontier(&sites);
    let chosen = arguments.budget.map(|budget| chosen(&sites, &curve, budget)).transpose()?;
    if arguments.json {
        print_json(&as_json(report, arguments.least, chosen.as_ref()));
        return Ok(());
    }
    match &chosen {
        Some(chosen) => print_set(report, arguments.least, chosen),
        None => print_curve(report),
    }
    say!(
        "Prices, lives and growth are those of the rules: put your own there. The model does not know what lies under the surface. The road \
         engineer decides."
    );
    Ok(())
}

/// What is left of holes and cost by a set.
fn left(report: &MonthReport, set: &BudgetPoint) -> (f64, f64) {
    let taken = report.stop.choices.iter().zip(&set.taken).map(|(stretch, taken)| choice(stretch, *taken));
    taken.fold((0.0, 0.0), |(holes, cost), choice| (holes + choice.holes, cost + choice.cost))
}

fn print_set(report: &MonthReport, aim: Aim, chosen: &Chosen) {
    let (stop, set) = (&report.stop, &chosen.set);
    let mut table = Table::default();
    table.row(["road", "m along", "renewed by", "price", "holes to come", "patched on"].map(str::to_owned));
    let mut renewed = 0;
    for ((line, stretch), taken) in stop.all.iter().zip(&stop.choices).zip(&set.taken) {
        let choice = choice(stretch, *taken);
        if *taken == 0 {
            continue;
        }
        renewed += 1;
        table.row([
            line.road.clone(),
            along(line),
            choice.name.clone(),
            format!("{:.0}", choice.price),
            format!("{:.1}", choice.holes),
            format!("{:.1}", stretch.patch_on.holes),
        ]);
    }
    if renewed > 0 {
        table.print();
    }
    let (holes, cost) = left(report, set);
    let (BudgetCorner { holes: holes_on, cost: cost_on, .. }, currency) = (none(report), &report.currency);
    say!("{renewed} of {} stretches renewed for {:.0} of {:.0} {currency}.", stop.stretches, set.spent, set.budget);
    say!(
        "Over {} years: {holes:.0} holes to come where {holes_on:.0} would with patching on; all costs at today's worth {cost:.0} where {cost_on:.0}.",
        stop.years
    );
    let (unit, of) = if aim == Aim::Holes { ("holes", holes) } else { (currency.as_str(), cost) };
    if chosen.is_best {
        say!("No other set leaves fewer {unit} for that money.");
    } else {
        say!("No set for that money leaves fewer than {:.0} {unit}; this one leaves {of:.0}.", chosen.bound);
    }
}

/// Nothing renewed.
fn none(report: &MonthReport) -> BudgetCorner {
    report.stop.budget.first().copied().unwrap_or(BudgetCorner { budget: 0.0, stretches: 0, holes: 0.0, cost: 0.0 })
}

fn print_curve(report: &MonthReport) {
    let corners = &report.stop.budget;
    let last = corners.len().saturating_sub(1);
    let rows = corners.len().min(CURVE_ROWS);
    let mut table = Table::default();
    let money = format!("money, {}", report.currency);
    table.row(["stretches renewed", &money, "holes to come", "all costs, today's worth"].map(str::to_owned));
    for row in 0..rows {
        let corner = &corners[if rows > 1 { row * last / (rows - 1) } else { 0 }];
        table.row([
            corner.stretches.to_string(),
            format!("{:.0}", corner.budget),
            format!("{:.0}", corner.holes),
            format!("{:.0}", corner.cost),
        ]);
    }
    table.print();
    say!(
        "{} stretches with new holes, over {} years; money goes first where it spares most holes. With `--budget` the best set for that money.",
        report.stop.stretches,
        report.stop.years
    );
}

fn along(line: &StopLine) -> String {
    format!("{:.0}–{:.0} of {}", line.from_m, line.to_m, line.section)
}

fn as_json(report: &MonthReport, aim: Aim, chosen: Option<&Chosen>) -> Value {
    let stop = &report.stop;
    let set = chosen.map(|chosen| {
        let (holes, cost) = left(report, &chosen.set);
        let renewed = stop.all.iter().zip(&stop.choices).zip(&chosen.set.taken).filter(|(_, taken)| **taken > 0);
        let renewed = renewed.map(|((line, stretch), taken)| {
            let choice = choice(stretch, *taken);
            json!({
                "road": line.road, "section": line.section, "from_m": line.from_m, "to_m": line.to_m,
                "renewal": choice.name, "price": choice.price,
                "holes": choice.holes, "holes_patched_on": stretch.patch_on.holes,
                "cost": choice.cost, "cost_patched_on": stretch.patch_on.cost,
            })
        });
        json!({
            "budget": chosen.set.budget, "spent": chosen.set.spent, "least": if aim == Aim::Holes { "holes" } else { "cost" },
            "holes": holes, "cost": cost, "bound": chosen.bound, "is_best": chosen.is_best,
            "renewed": renewed.collect::<Vec<_>>(),
        })
    });
    json!({
        "years": stop.years, "currency": report.currency, "stretches": stop.stretches, "curve": stop.budget, "set": set,
        "decision": "the road engineer's",
    })
}
