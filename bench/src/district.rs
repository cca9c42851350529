//! `bench district --sites 200 --crews 4 --seconds 10 --seed 1 --json`: a made district's day planned in so many
//! seconds, by one search or by several at the same time, a thread each.

use model::programme::{Programme, ProgrammeProblem};
use rounds::SearchSettings;

use crate::made_agency::{MadeAgency, Size};
use crate::now;
use crate::usage::{cpu_seconds, rounded};

pub const USAGE: &str = "district [--sites 200] [--crews 4] [--days 1] [--seconds 10 | --cpu-seconds N | --iterations N] [--seed 1] [--search-seed 1] [--searches 1] [--json]";

#[derive(Clone, Copy)]
enum Effort {
    Seconds(f64),
    /// Of the processor, for machines that others use too.
    CpuSeconds(f64),
    Iterations(u32),
}

/// Runs the command; an error is a sentence for the reader.
pub fn run(arguments: impl Iterator<Item = String>) -> Result<(), String> {
    let mut size = Size { holes: 200, depots: 1, crews: 4, days: 1, seed: 1 };
    let (mut effort, mut json, mut seed, mut searches) = (Effort::Seconds(10.0), false, 1, 1);
    let given: Vec<String> = arguments.collect();
    let parsed = (|| {
        let mut given = given.iter();
        while let Some(name) = given.next() {
            if name == "--json" {
                json = true;
                continue;
            }
            let value = given.next()?;
            match name.as_str() {
                "--sites" => size.holes = value.parse().ok()?,
                "--crews" => size.crews = value.parse().ok()?,
                "--days" => size.days = value.parse().ok()?,
                "--seconds" => effort = Effort::Seconds(value.parse().ok()?),
                "--cpu-seconds" => effort = Effort::CpuSeconds(value.parse().ok()?),
                "--iterations" => effort = Effort::Iterations(value.parse().ok()?),
                "--seed" => size.seed = value.parse().ok()?,
                "--searches" => searches = value.parse().ok()?,
                "--search-seed" => seed = value.parse().ok()?,
                _ => return None,
            }
        }
        Some(())
    })();
    parsed.ok_or_else(|| format!("usage: bench {USAGE}"))?;
    let problem = MadeAgency::new(size).problem();
    let (start, cpu) = (now(), cpu_seconds());
    let (programme, iterations) = search(&problem, effort, seed, searches);
    let table = serde_json::json!({
        "sites": size.holes,
        "crews": size.crews,
        "seconds": rounded(start.elapsed().as_secs_f64()),
        "cpu_seconds": rounded(cpu_seconds() - cpu),
        "iterations": iterations,
        "cost": rounded(programme.cost.total()),
        "left": rounded(programme.cost.left),
        "time": rounded(programme.cost.time),
        "driving": rounded(programme.cost.driving),
        "done": size.holes - programme.left_out.len(),
    });
    if json {
        println!("{table}");
    } else {
        for (name, value) in table.as_object().into_iter().flatten() {
            println!("{name:<12} {value}");
        }
    }
    Ok(())
}

/// Steps by which the speed is measured.
const MEASURED: u32 = 2048;

/// The search cools over a number of steps: how many go into the time is found by trying some.
fn search(problem: &ProgrammeProblem, effort: Effort, seed: u64, searches: usize) -> (Programme, u32) {
    let (start, cpu) = (now(), cpu_seconds());
    let (of_processor, seconds) = match effort {
        Effort::Iterations(iterations) => {
            return (
                rounds::best_programme(problem, None, &SearchSettings { seed, iterations }, searches, &mut |_, _| true),
                iterations,
            );
        }
        Effort::Seconds(seconds) => (false, seconds),
        Effort::CpuSeconds(seconds) => (true, seconds),
    };
    let spent = || if of_processor { cpu_seconds() - cpu } else { start.elapsed().as_secs_f64() };
    rounds::best_programme(problem, None, &SearchSettings { seed, iterations: MEASURED }, searches, &mut |_, _| {
        spent() < seconds
    });
    let tried = spent().max(0.01);
    let iterations = (f64::from(MEASURED) * (seconds - tried).max(0.0) / tried) as u32;
    let mut done = 0;
    let programme =
        rounds::best_programme(problem, None, &SearchSettings { seed, iterations }, searches, &mut |steps, _| {
            done = steps;
            spent() < seconds
        });
    (programme, done)
}
