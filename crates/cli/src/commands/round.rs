//! `lengthsman round`: the search alone, on sites given as JSON.

use std::path::PathBuf;

use model::quantity::{cubic_metres, kilograms};
use model::round::{Capacity, Demand, RestBreak, RoundProblem, RoundSolution, SecondOfDay, Site, StopKind};
use rounds::SearchSettings;
use serde::Deserialize;
use serde_json::json;

use crate::outcome::Outcome;
use crate::show::print_json;

#[derive(Debug, clap::Args)]
#[command(after_help = "The file's fields are described in the handbook, page `round-file.md`.")]
pub(crate) struct Arguments {
    /// The problem as JSON.
    problem: PathBuf,
    /// Seed of the search.
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Rounds of the search.
    #[arg(long, default_value_t = 50_000)]
    iterations: u32,
}

/// The problem as it stands in the file. Times in seconds after midnight, row 0 and column 0 of `travel_s` the depot.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct ProblemFile {
    shift_start_s: u32,
    shift_end_s: u32,
    #[serde(default)]
    loading_s: u32,
    #[serde(default)]
    tipping_s: u32,
    points_per_hour: f64,
    #[serde(default)]
    rest: Option<RestFile>,
    capacity: QuantitiesFile,
    payload_kg: f64,
    sites: Vec<SiteFile>,
    travel_s: Vec<Vec<u32>>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(clippy::struct_field_names, reason = "fields of a file carry their unit")]
struct RestFile {
    earliest_s: u32,
    latest_s: u32,
    length_s: u32,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct SiteFile {
    service_s: u32,
    worth: f64,
    /// Without any: the whole shift.
    #[serde(default)]
    windows_s: Vec<(u32, u32)>,
    #[serde(default)]
    needs: QuantitiesFile,
    #[serde(default)]
    base_kg: f64,
    #[serde(default)]
    cover_kg: f64,
    #[serde(default)]
    binder_kg: f64,
    #[serde(default)]
    spoil_kg: f64,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
#[expect(clippy::struct_field_names, reason = "fields of a file carry their unit")]
struct QuantitiesFile {
    base_m3: f64,
    cover_m3: f64,
    binder_m3: f64,
    water_m3: f64,
    spoil_m3: f64,
    /// Room only: base and spoil behind a movable partition.
    shared_m3: f64,
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let file = arguments.problem.display();
    let text = match std::fs::read_to_string(&arguments.problem) {
        Ok(text) => text,
        Err(error) => {
            eprintln!("{file}: {error}");
            return Outcome::NothingProduced;
        }
    };
    let read: ProblemFile = match serde_json::from_str(&text) {
        Ok(read) => read,
        Err(error) => {
            eprintln!("{file}:{}:{}: {error}", error.line(), error.column());
            return Outcome::NothingProduced;
        }
    };
    let size = read.sites.len() + 1;
    if read.travel_s.len() != size || read.travel_s.iter().any(|row| row.len() != size) {
        eprintln!("{file}: travel_s must have {size} rows of {size} numbers: the depot, then each site");
        return Outcome::NothingProduced;
    }
    let problem = problem(read);
    let settings = SearchSettings { seed: arguments.seed, iterations: arguments.iterations };
    let solution = rounds::solve(&problem, &settings, &mut |_, _| true);
    print_json(&solution_json(&solution));
    if solution.trips.iter().all(Vec::is_empty) { Outcome::NothingProduced } else { Outcome::AllUsed }
}

fn problem(read: ProblemFile) -> RoundProblem {
    let whole_shift = (SecondOfDay(read.shift_start_s), SecondOfDay(read.shift_end_s));
    RoundProblem {
        yards: Vec::new(),
        start: 0,
        sites: read.sites.into_iter().map(|file| site(&file, whole_shift)).collect(),
        travel_m: read.travel_s.iter().map(|row| row.iter().map(|_| 0.0).collect()).collect(),
        travel_s: read.travel_s,
        shift_start: whole_shift.0,
        shift_end: whole_shift.1,
        rest: read.rest.map(|rest| RestBreak {
            earliest: SecondOfDay(rest.earliest_s),
            latest: SecondOfDay(rest.latest_s),
            length_s: rest.length_s,
        }),
        loading_s: read.loading_s,
        tipping_s: read.tipping_s,
        capacity: Capacity {
            base_volume: cubic_metres(read.capacity.base_m3),
            spoil_volume: cubic_metres(read.capacity.spoil_m3),
            shared_volume: cubic_metres(read.capacity.shared_m3),
            cover_volume: cubic_metres(read.capacity.cover_m3),
            binder_volume: cubic_metres(read.capacity.binder_m3),
            water_volume: cubic_metres(read.capacity.water_m3),
            payload: kilograms(read.payload_kg),
        },
        points_per_hour: read.points_per_hour,
    }
}

fn site(file: &SiteFile, whole_shift: (SecondOfDay, SecondOfDay)) -> Site {
    let windows = file.windows_s.iter().map(|&(from, to)| (SecondOfDay(from), SecondOfDay(to)));
    Site {
        service_s: file.service_s,
        worth: file.worth,
        windows: if file.windows_s.is_empty() { vec![whole_shift] } else { windows.collect() },
        demand: Demand {
            base_volume: cubic_metres(file.needs.base_m3),
            base_mass: kilograms(file.base_kg),
            cover_volume: cubic_metres(file.needs.cover_m3),
            cover_mass: kilograms(file.cover_kg),
            binder_volume: cubic_metres(file.needs.binder_m3),
            binder_mass: kilograms(file.binder_kg),
            water_volume: cubic_metres(file.needs.water_m3),
            spoil_volume: cubic_metres(file.needs.spoil_m3),
            spoil_mass: kilograms(file.spoil_kg),
        },
    }
}

fn solution_json(solution: &RoundSolution) -> serde_json::Value {
    json!({
        "objective_points": solution.objective,
        "driving_s": solution.driving_s,
        "trips": solution.trips,
        "timetable": solution.timetable.iter().map(|stop| json!({
            "what": stop_words(stop.kind),
            "from_s": stop.from.0,
            "to_s": stop.to.0,
        })).collect::<Vec<_>>(),
        "left_out": solution.left_out.iter().map(|(site, reason)| json!({
            "site": site,
            "reason": format!("{reason:?}"),
        })).collect::<Vec<_>>(),
    })
}

fn stop_words(kind: StopKind) -> String {
    match kind {
        StopKind::Load(trip) => format!("load for trip {trip}"),
        StopKind::Drive(0) => "drive to the depot".into(),
        StopKind::Drive(place) => format!("drive to site {}", place - 1),
        StopKind::Wait => "wait".into(),
        StopKind::Work(site) => format!("work at site {site}"),
        StopKind::Rest => "rest".into(),
        StopKind::Tip(trip) => format!("tip after trip {trip}"),
        StopKind::Look(look) => format!("look {look}"),
    }
}
