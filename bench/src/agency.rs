//! `bench agency --holes N`: a made agency planned; seconds, memory, cost. `bench agency --curve FOLDER` plans 100 to 100,000
//! holes, each in a process of its own, and draws what that takes.

use std::fmt::Write as _;
use std::path::PathBuf;
use std::process::Command;

use rounds::{AgencyProgress, AgencySettings};
use serde_json::Value;

use crate::curve::{Curve, draw};
use crate::made_agency::{MadeAgency, Size};
use crate::now;
use crate::usage::{cpu_seconds, peak_memory_mb, rounded};

pub const USAGE: &str = "agency [--holes 10000] [--depots 20] [--crews 60] [--days 5] [--threads 2] [--steps-per-site 8] \
    [--looked-at 1] [--border-passes 1] [--seconds N] [--seed 1] [--json] [--curve FOLDER]";

struct Request {
    size: Size,
    settings: AgencySettings,
    /// Ends the search.
    seconds: f64,
    json: bool,
    curve: Option<PathBuf>,
}

/// Runs the command; an error is a sentence for the reader.
pub fn run(arguments: impl Iterator<Item = String>) -> Result<(), String> {
    let given: Vec<String> = arguments.collect();
    let request = parse(&given).ok_or_else(|| format!("usage: bench {USAGE}"))?;
    if let Some(folder) = &request.curve {
        return curve(folder, &given);
    }
    let measured = measure(&request);
    if request.json {
        println!("{measured}");
    } else {
        for (name, value) in measured.as_object().into_iter().flatten() {
            println!("{name:<16} {value}");
        }
    }
    Ok(())
}

fn parse(given: &[String]) -> Option<Request> {
    let mut request = Request {
        size: Size { holes: 10_000, depots: 20, crews: 60, days: 5, seed: 1 },
        settings: AgencySettings { threads: 2, ..AgencySettings::default() },
        seconds: f64::INFINITY,
        json: false,
        curve: None,
    };
    let mut given = given.iter();
    while let Some(name) = given.next() {
        if name == "--json" {
            request.json = true;
            continue;
        }
        let value = given.next()?;
        match name.as_str() {
            "--holes" => request.size.holes = value.parse().ok()?,
            "--depots" => request.size.depots = value.parse().ok().filter(|&depots| depots > 0)?,
            "--crews" => request.size.crews = value.parse().ok()?,
            "--days" => request.size.days = value.parse().ok()?,
            "--threads" => request.settings.threads = value.parse().ok()?,
            "--steps-per-site" => request.settings.steps_per_site = value.parse().ok()?,
            "--looked-at" => request.settings.looked_at = value.parse().ok()?,
            "--border-passes" => request.settings.border_passes = value.parse().ok()?,
            "--seconds" => request.seconds = value.parse().ok()?,
            "--seed" => {
                request.size.seed = value.parse().ok()?;
                request.settings.seed = request.size.seed;
            }
            "--curve" => request.curve = Some(value.into()),
            _ => return None,
        }
    }
    Some(request)
}

fn measure(request: &Request) -> Value {
    let made = MadeAgency::new(request.size);
    let driving = |_: usize, places: &[usize]| made.driving(places);
    let (start, cpu) = (now(), cpu_seconds());
    let mut alone = f64::NAN;
    let programme = rounds::agency(&made.agency(&driving), &request.settings, &mut |progress: &AgencyProgress| {
        if progress.stage == rounds::AgencyStage::Areas {
            alone = progress.cost;
        }
        start.elapsed().as_secs_f64() < request.seconds
    });
    let driven: f64 = programme.rounds.iter().map(|round| model::quantity::InLength::in_metres(round.driving)).sum();
    let cost = programme.cost;
    serde_json::json!({
        "holes": request.size.holes,
        "depots": request.size.depots,
        "crews": request.size.crews,
        "days": request.size.days,
        "threads": request.settings.threads,
        "seconds": rounded(start.elapsed().as_secs_f64()),
        "cpu_seconds": rounded(cpu_seconds() - cpu),
        "peak_memory_mb": rounded(peak_memory_mb()),
        "cost": rounded(cost.total()),
        "cost_areas_alone": rounded(alone),
        "waiting": rounded(cost.waiting),
        "left": rounded(cost.left),
        "time": rounded(cost.time),
        "driving": rounded(cost.driving),
        "rounds": programme.rounds.len(),
        "done": request.size.holes - programme.left_out.len(),
        "driven_km": rounded(driven / 1000.0),
    })
}

const CURVE: [usize; 7] = [100, 300, 1_000, 3_000, 10_000, 30_000, 100_000];

fn curve(folder: &std::path::Path, given: &[String]) -> Result<(), String> {
    let program = std::env::current_exe().map_err(|error| error.to_string())?;
    let mut table =
        String::from("| holes | s | processor s | most memory, MB | done | cost |\n|---|---|---|---|---|---|\n");
    let (mut seconds, mut memory) = (Vec::new(), Vec::new());
    for holes in CURVE {
        let kept = given.chunks(2).filter(|pair| pair[0] != "--curve").flatten();
        let output = Command::new(&program)
            .arg("agency")
            .args(kept)
            .args(["--holes", &holes.to_string(), "--json"])
            .output()
            .map_err(|error| error.to_string())?;
        let measured: Value = serde_json::from_slice(&output.stdout).map_err(|error| error.to_string())?;
        let figure = |name: &str| measured[name].as_f64().unwrap_or(f64::NAN);
        let _ = writeln!(
            table,
            "| {holes} | {:.1} | {:.1} | {:.0} | {} | {:.0} |",
            figure("seconds"),
            figure("cpu_seconds"),
            figure("peak_memory_mb"),
            figure("done"),
            figure("cost")
        );
        seconds.push((holes as f64, figure("cpu_seconds")));
        memory.push((holes as f64, figure("peak_memory_mb")));
    }
    let curves = [
        Curve { name: "processor time, s", bar: None, points: seconds },
        Curve { name: "most memory, MB", bar: Some(("2 GB", 2000.0)), points: memory },
    ];
    std::fs::create_dir_all(folder).map_err(|error| error.to_string())?;
    let save = |name: &str, text: &str| {
        std::fs::write(folder.join(name), text).map_err(|error| format!("{}: {error}", folder.join(name).display()))
    };
    save("agency-curve.md", &table)?;
    save("agency-curve.svg", &draw("holes", &curves))?;
    print!("{table}");
    Ok(())
}
