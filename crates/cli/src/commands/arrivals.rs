//! `lengthsman arrivals`: how many new holes each road gets, and when in the year.

use std::collections::{BTreeMap, HashSet};

use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use lasting::from_record::RoadPlaces;
use lasting::hole_rates::{HoleRates, RoadMonth, hole_rates};
use lasting::patch_lives::{LifeEnd, patch_lives};
use server::reporting::{Studied, end_of, study};

use super::record::{RecordFlags, now, run as run_record};
use super::road_places::RecordDistrict;
use crate::outcome::Outcome;
use crate::progress::Progress;
use crate::report;
use crate::show::{Table, print_json};

/// Roads that are printed; `--json` has all.
const SHOWN: usize = 25;

#[derive(Debug, clap::Args)]
#[command(
    after_help = "Counts are in proportion to kilometres and days; a road with few of them is drawn towards the others (handbook, \
methods/hole-arrival.md). Holes that are a repair's failure are not new ones. The record tells of no rain, so none is in it."
)]
pub(crate) struct Arguments {
    #[command(flatten)]
    record: RecordFlags,
    /// The last day that counts; without it, today.
    #[arg(long, value_name = "DAY", value_parser = crate::input::day)]
    until: Option<Date>,
    /// JSON.
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    run_record(async {
        let mut progress = Progress::new();
        let journal = arguments.record.open().await?;
        let told = |problems: Vec<model::problem::Problem>| {
            report::print(&problems);
            "the district can't be read".to_owned()
        };
        let district = RecordDistrict::of_folder(&arguments.record.data, &mut progress).map_err(told)?;
        let reporting = district.reporting(&arguments.record.data).map_err(told)?;
        let Some(roads) = reporting.roads else {
            return Err("no roads are known: the district file names none".to_owned());
        };
        progress.at("reading the record", 0.0);
        let at = arguments.until.map_or_else(now, |day| end_of(day, &district.zone).min(now()));
        let studied = study(&journal, &reporting, &district.zone, at, None).await.map_err(|error| error.to_string())?;
        let until = district.zone.to_datetime(at).date();
        let until = arguments.until.map_or(until, |day| day.min(until));
        let months = months(&studied, roads, &district.zone, until);
        progress.done();
        let rates = hole_rates(&months, reporting.rules.confidence.value)
            .map_err(|error| format!("rates can't be told: {error}"))?;
        if arguments.json {
            print_json(&serde_json::to_value(&rates).unwrap_or_default());
        } else {
            print(&rates);
        }
        Ok(())
    })
}

/// Every road in every month from the first hole on.
fn months(studied: &Studied, roads: &dyn RoadPlaces, zone: &TimeZone, until: Date) -> Vec<RoadMonth> {
    let mut km: BTreeMap<String, f64> = BTreeMap::new();
    for section in roads.all() {
        *km.entry(section.name).or_default() += section.length_m / 1000.0;
    }
    let mut again: HashSet<_> = studied.study.repairs.iter().filter_map(|repair| repair.failed_hole).collect();
    again.extend(patch_lives(&studied.study).iter().filter_map(|life| match life.end {
        LifeEnd::NewHole { hole, .. } => Some(hole),
        _ => None,
    }));
    let is_new = |hole: &&lasting::from_record::ToldHole| hole.counts() && !again.contains(&hole.hole);
    let told = studied.holes.iter().filter(is_new).filter_map(|hole| {
        let day = zone.to_datetime(hole.told?).date();
        (day <= until).then_some((hole.road.as_str(), day))
    });
    let told: Vec<(&str, Date)> = told.collect();
    let Some(first) = told.iter().map(|(_, day)| *day).min() else { return Vec::new() };
    let mut counts: BTreeMap<(&str, Date), u32> = BTreeMap::new();
    for (road, day) in &told {
        *counts.entry((road, day.first_of_month())).or_default() += 1;
    }
    let mut rows = Vec::new();
    let mut month = first.first_of_month();
    while month <= until {
        let (from, to) = (month.max(first), month.last_of_month().min(until));
        let days = f64::from(from.until(to).map_or(0, |span| span.get_days()) + 1);
        rows.extend(km.iter().map(|(road, km)| RoadMonth {
            road: road.clone(),
            km: *km,
            days,
            month: month.month(),
            holes: counts.get(&(road.as_str(), month)).copied().unwrap_or_default(),
        }));
        let Ok(next) = month.checked_add(1.month()) else { break };
        month = next;
    }
    rows
}

fn print(rates: &HoleRates) {
    say!(
        "{} new holes in {:.0} kilometre-years: {:.2} for each kilometre and year.",
        rates.holes,
        rates.km_years,
        rates.per_km_year
    );
    if let Some(least) = rates.least_season {
        for season in &rates.seasons {
            let [times, low, high] = season.times;
            say!("{}: {times:.2} times as many a day ({low:.2} to {high:.2}) as {least}.", season.season);
        }
    } else {
        say!("Seasons can't be told apart yet.");
    }
    let mut table = Table::default();
    table.row(["road", "km", "new holes", "a kilometre and year"].map(str::to_owned));
    for road in rates.roads.iter().take(SHOWN) {
        let [rate, low, high] = road.per_km_year;
        table.row([
            road.road.clone(),
            format!("{:.1}", road.km),
            road.holes.to_string(),
            format!("{rate:.2} ({low:.2} to {high:.2})"),
        ]);
    }
    table.print();
    if rates.roads.len() > SHOWN {
        say!("{} more roads with fewer; `--json` has all.", rates.roads.len() - SHOWN);
    }
}
