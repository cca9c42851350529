//! From a programme's problem through the routing engine and back.

use model::programme::{
    CrewRound, CrewShift, CrewStop, CrewStopKind, Programme, ProgrammeCost, ProgrammeProblem, ProgrammeSite,
};
use model::quantity::metres;
use tours::{Options, Plan, Progress, Stop};

use crate::timetable::{self, Step};
use crate::translate::{Translated, price};
use crate::{SearchSettings, reasons, workers};

/// Between the seeds of searches that run at the same time: far from those that a caller counts up.
const SEEDS_APART: u64 = 1 << 32;

/// Progress is told every so many steps.
const TELL_EVERY: u64 = 128;

pub(crate) fn search(
    problem: &ProgrammeProblem,
    start: Option<&Programme>,
    settings: &SearchSettings,
    progress: &mut dyn FnMut(u32, f64) -> bool,
) -> Programme {
    search_at(problem, start, settings, None, progress)
}

/// The cheapest of several searches, the first of equal ones.
pub(crate) fn best_of(
    problem: &ProgrammeProblem,
    start: Option<&Programme>,
    settings: &SearchSettings,
    searches: usize,
    progress: &mut dyn FnMut(u32, f64) -> bool,
) -> Programme {
    let work = |index: usize, tell: workers::Tell<'_>| {
        let seed = settings.seed.wrapping_add(index as u64 * SEEDS_APART);
        search(problem, start, &SearchSettings { seed, ..*settings }, tell)
    };
    let mut told = vec![(0, f64::INFINITY); searches];
    let found = workers::run(searches, searches, &work, &mut |index, steps, cost| {
        told[index] = (steps, cost);
        let done = told.iter().map(|&(steps, _)| u64::from(steps)).sum::<u64>() / searches as u64;
        progress(
            u32::try_from(done).unwrap_or(u32::MAX),
            told.iter().map(|&(_, cost)| cost).fold(f64::INFINITY, f64::min),
        )
    });
    let best = found.into_iter().min_by(|one, other| one.cost.total().total_cmp(&other.cost.total()));
    best.unwrap_or_else(|| describe(problem, Vec::new()))
}

/// As [`search`], from a temperature at the begin other than the engine's own.
pub(crate) fn search_at(
    problem: &ProgrammeProblem,
    start: Option<&Programme>,
    settings: &SearchSettings,
    temperature: Option<f64>,
    progress: &mut dyn FnMut(u32, f64) -> bool,
) -> Programme {
    if problem.shifts.is_empty() || problem.yards.is_empty() || problem.driving.is_empty() {
        return describe(problem, Vec::new());
    }
    let translated = Translated::new(problem);
    if translated.sites.is_empty() {
        return describe(problem, Vec::new());
    }
    let start = start.map(|programme| to_plan(problem, &translated, programme));
    let mut options = Options { seed: settings.seed, ..Options::default() };
    options.start_temperature = temperature.unwrap_or(options.start_temperature);
    let iterations = u64::from(settings.iterations);
    let unit = 1.0 / translated.scale;
    let whole = |iterations: u64| u32::try_from(iterations).unwrap_or(u32::MAX);
    let mut done = 0;
    let mut stopped = false;
    let mut budget = |now: &Progress| {
        done = now.iterations;
        if done % TELL_EVERY == 0 && done < iterations {
            stopped |= !progress(whole(done), translated.outside + now.cost as f64 * unit);
        }
        if stopped || iterations == 0 { 1.0 } else { now.iterations as f64 / iterations as f64 }
    };
    let plan = tours::solve(&translated.problem, start.as_ref(), &options, &mut budget);
    // What `Translated` makes is in range whatever the programme holds.
    let plan = plan.unwrap_or_else(|error| unreachable!("{error}"));
    let programme = describe(problem, rounds(problem, &translated, &plan));
    progress(whole(done), programme.cost.total());
    programme
}

/// Rounds with their timetables.
fn rounds(problem: &ProgrammeProblem, translated: &Translated, plan: &Plan) -> Vec<CrewRound> {
    plan.routes
        .iter()
        .filter_map(|route| {
            let step = |stop: &Stop| match *stop {
                Stop::Visit(visit) => Step::Site(translated.sites[visit]),
                Stop::Reload(depot) => Step::Call(translated.yard(depot)),
            };
            let steps: Vec<Step> = route.stops.iter().map(step).collect();
            let stops = timetable::write(problem, &problem.shifts[route.vehicle], &steps)?;
            Some(round(problem, route.vehicle, stops))
        })
        .collect()
}

pub(crate) fn round(problem: &ProgrammeProblem, shift: usize, stops: Vec<CrewStop>) -> CrewRound {
    let driving = &problem.driving[problem.shifts[shift].driving];
    let mut here = problem.sites.len() + problem.shifts[shift].start;
    let (mut driving_s, mut driving_m) = (0, 0.0);
    for stop in &stops {
        if let CrewStopKind::Drive(to) = stop.kind {
            driving_s += stop.to - stop.from;
            driving_m += driving.metres(here, to);
            here = to;
        }
    }
    CrewRound { shift, stops, driving_s, driving: metres(driving_m) }
}

/// With reasons and price. Rounds come by day, then crew.
pub(crate) fn describe(problem: &ProgrammeProblem, mut rounds: Vec<CrewRound>) -> Programme {
    rounds.sort_by_key(|round| (problem.shifts[round.shift].day, problem.shifts[round.shift].crew, round.shift));
    let mut programme = Programme { rounds, left_out: Vec::new(), cost: ProgrammeCost::default() };
    programme.left_out = reasons::of_left_out(problem, &programme);
    programme.cost = cost(problem, &programme);
    programme
}

/// The price of a programme, from its rounds and what it leaves out.
pub fn cost(problem: &ProgrammeProblem, programme: &Programme) -> ProgrammeCost {
    cost_of(&problem.sites, &problem.shifts, programme)
}

pub(crate) fn cost_of(sites: &[ProgrammeSite], shifts: &[CrewShift], programme: &Programme) -> ProgrammeCost {
    let mut cost = ProgrammeCost::default();
    for round in &programme.rounds {
        let shift = &shifts[round.shift];
        let end = round.stops.last().map_or(shift.from, |stop| stop.to);
        cost.time += price(shift.price_per_hour) * (end - shift.from) as f64 / 3600.0;
        cost.driving += price(shift.price_per_km) * model::quantity::InLength::in_metres(round.driving) / 1000.0;
        for site in round.sites() {
            cost.waiting += sites[site].waiting.get(shift.day as usize).copied().map_or(0.0, price);
        }
    }
    cost.left = programme.left_out.iter().map(|&(site, _)| price(sites[site].left)).sum();
    cost
}

/// The engine's plan of a programme.
fn to_plan(problem: &ProgrammeProblem, translated: &Translated, programme: &Programme) -> Plan {
    let mut visit_of = vec![None; problem.sites.len()];
    for (visit, &site) in translated.sites.iter().enumerate() {
        visit_of[site] = Some(visit);
    }
    let routes = programme.rounds.iter().map(|round| {
        let mut stops: Vec<Stop> = Vec::new();
        let day = problem.shifts[round.shift].day as usize;
        for (index, stop) in round.stops.iter().enumerate() {
            match stop.kind {
                CrewStopKind::Work(site) => stops.extend(visit_of[site].map(Stop::Visit)),
                // The first load and the last tip belong to the shift.
                CrewStopKind::Load(yard) | CrewStopKind::Tip(yard) if index > 0 && index + 1 < round.stops.len() => {
                    let call = Stop::Reload(day * problem.yards.len() + yard);
                    if stops.last() != Some(&call) {
                        stops.push(call);
                    }
                }
                _ => {}
            }
        }
        tours::Route { vehicle: round.shift, stops }
    });
    Plan { routes: routes.collect(), ..Plan::default() }
}
