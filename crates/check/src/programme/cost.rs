//! The price, part by part, from what is done.

use model::programme::{CrewStopKind, Programme, ProgrammeProblem};

use super::Replay;
use crate::Breaches;

/// Sums may differ by the order of adding.
const RELATIVE_TOLERANCE: f64 = 1e-6;

pub(crate) fn check(problem: &ProgrammeProblem, programme: &Programme, breaches: &mut Breaches) {
    let (mut waiting, mut time, mut driving) = (0.0, 0.0, 0.0);
    for round in &programme.rounds {
        let Some(shift) = problem.shifts.get(round.shift) else { continue };
        for site in round.sites().filter_map(|site| problem.sites.get(site)) {
            waiting += site.waiting.get(shift.day as usize).copied().unwrap_or(0.0);
        }
        let end = round.stops.last().map_or(shift.from, |stop| stop.to);
        time += (end - shift.from) as f64 / 3600.0 * shift.price_per_hour;
        let ways = problem.driving.get(shift.driving);
        let replay = Replay::new(problem, shift, round);
        let places = problem.sites.len() + problem.yards.len();
        let metres = replay.stops().map(|(from, stop)| match (stop.kind, ways) {
            (CrewStopKind::Drive(to), Some(ways)) if from < places && to < places => ways.metres(from, to),
            _ => 0.0,
        });
        driving += metres.sum::<f64>() / 1000.0 * shift.price_per_km;
    }
    let left: f64 = programme.left_out.iter().filter_map(|(site, _)| problem.sites.get(*site)).map(|s| s.left).sum();
    let parts = [
        ("programme.waiting", programme.cost.waiting, waiting),
        ("programme.left", programme.cost.left, left),
        ("programme.time", programme.cost.time, time),
        ("programme.driving_cost", programme.cost.driving, driving),
    ];
    for (rule, stated, found) in parts {
        let equal = (stated - found).abs() <= RELATIVE_TOLERANCE * found.abs().max(1.0);
        breaches.require(equal, rule, || format!("{stated} stated, {found} by what is done"));
    }
}
