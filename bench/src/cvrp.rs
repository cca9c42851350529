//! `bench cvrp FILE.vrp --seconds 30 --seed 1 --json`: a routing problem solved for so many seconds, on one thread.

use std::path::PathBuf;
use std::time::Duration;

use tours::{Iterations, Options, Plan, Problem, Progress, Stop};

use crate::now;
use crate::vrplib;

/// How long to go on.
#[derive(Debug, Clone, Copy)]
enum Effort {
    Seconds(f64),
    /// Of the processor, for machines that others use too.
    CpuSeconds(f64),
    Iterations(u64),
}

struct Request {
    file: PathBuf,
    effort: Effort,
    options: Options,
    json: bool,
    routes: bool,
}

const USAGE: &str =
    "usage: bench cvrp FILE.vrp [--seconds N | --cpu-seconds N | --iterations N] [--seed N] [--json] [--routes]";

/// Runs the command; an error is a sentence for the reader.
pub fn run(arguments: impl Iterator<Item = String>) -> Result<(), String> {
    let request = Request::parse(arguments)?;
    let at_file = |what: String| format!("{}: {what}", request.file.display());
    let text = std::fs::read_to_string(&request.file).map_err(|error| at_file(error.to_string()))?;
    let instance = vrplib::read(&text).map_err(|error| at_file(error.to_string()))?;
    let start = now();
    let mut iterations = 0;
    let plan = match request.effort {
        Effort::Iterations(count) => tours::solve(&instance.problem, None, &request.options, &mut Iterations(count)),
        Effort::Seconds(seconds) | Effort::CpuSeconds(seconds) => {
            let of_processor = matches!(request.effort, Effort::CpuSeconds(_));
            let elapsed = || if of_processor { cpu_seconds() } else { start.elapsed().as_secs_f64() };
            let mut spent = 0.0;
            tours::solve(&instance.problem, None, &request.options, &mut |progress: &Progress| {
                iterations = progress.iterations;
                if progress.iterations.is_multiple_of(256) {
                    spent = elapsed() / seconds;
                }
                spent
            })
        }
    };
    let plan = plan.map_err(|error| at_file(error.to_string()))?;
    let took = start.elapsed();
    if plan.missing > 0 {
        return Err(at_file(format!("no plan found that makes all visits; {} are left", plan.missing)));
    }
    if request.routes {
        print_routes(&instance.problem, &plan);
    }
    let cost = published(plan.cost, instance.cost_scale);
    let routes = plan.routes.len();
    if request.json {
        println!("{{\"cost\":{cost},\"routes\":{routes},\"seconds\":{:.3}}}", took.as_secs_f64());
    } else {
        println!("cost {cost}, {routes} routes, {:.1} s, {iterations} iterations", took.as_secs_f64());
    }
    Ok(())
}

/// Time this process has had the processor. Where the system does not say, endless, so that the search ends at once.
fn cpu_seconds() -> f64 {
    let said = std::fs::read_to_string("/proc/self/schedstat").unwrap_or_default();
    let nanoseconds = said.split(' ').next().and_then(|first| first.parse::<f64>().ok());
    nanoseconds.map_or(f64::INFINITY, |nanoseconds| nanoseconds / 1e9)
}

impl Request {
    fn parse(mut arguments: impl Iterator<Item = String>) -> Result<Self, String> {
        let mut file = None;
        let mut request = Self {
            file: PathBuf::new(),
            effort: Effort::Seconds(30.0),
            options: Options::default(),
            json: false,
            routes: false,
        };
        while let Some(argument) = arguments.next() {
            let mut value = || arguments.next().ok_or_else(|| format!("{argument} needs a value\n{USAGE}"));
            let wrong = |text: &str| format!("{argument}: {text:?} is not a number it can be\n{USAGE}");
            match argument.as_str() {
                "--json" => request.json = true,
                "--routes" => request.routes = true,
                "--seconds" | "--cpu-seconds" => {
                    let text = value()?;
                    let seconds = text.parse::<f64>().ok().and_then(|it| Duration::try_from_secs_f64(it).ok());
                    let seconds = seconds.filter(|it| !it.is_zero()).ok_or_else(|| wrong(&text))?;
                    let seconds = seconds.as_secs_f64();
                    let wall = argument == "--seconds";
                    request.effort = if wall { Effort::Seconds(seconds) } else { Effort::CpuSeconds(seconds) };
                }
                "--iterations" => {
                    let text = value()?;
                    request.effort = Effort::Iterations(text.parse().map_err(|_| wrong(&text))?);
                }
                "--seed" => {
                    let text = value()?;
                    request.options.seed = text.parse().map_err(|_| wrong(&text))?;
                }
                other if other.starts_with('-') => return Err(format!("{other} is not known\n{USAGE}")),
                other => {
                    if file.replace(PathBuf::from(other)).is_some() {
                        return Err(format!("one file at a time\n{USAGE}"));
                    }
                }
            }
        }
        request.file = file.ok_or_else(|| format!("which file?\n{USAGE}"))?;
        Ok(request)
    }
}

/// In the unit of the set's published costs, without a needless point.
fn published(cost: i64, scale: i64) -> String {
    if scale == 1 { cost.to_string() } else { (cost as f64 / scale as f64).to_string() }
}

/// As solution files of the format have them: one line per vehicle, visits by place.
fn print_routes(problem: &Problem, plan: &Plan) {
    for (index, route) in plan.routes.iter().enumerate() {
        let stops = route.stops.iter().map(|stop| match *stop {
            Stop::Visit(visit) => problem.visits[visit].place.to_string(),
            Stop::Reload(depot) => problem.depots[depot].place.to_string(),
        });
        println!("Route #{} ({}): {}", index + 1, route.vehicle, stops.collect::<Vec<_>>().join(" "));
    }
}
