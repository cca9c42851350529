//! Why a site was left out.

use model::programme::{CrewRound, CrewShift, CrewStopKind, Programme, ProgrammeProblem};
use model::round::LeftOutReason;

use crate::loads::{Load, Room};
use crate::timetable::{self, Step};
use crate::translate::{price, service};

/// Every site that no round does, with the reason, ascending.
pub(crate) fn of_left_out(problem: &ProgrammeProblem, programme: &Programme) -> Vec<(usize, LeftOutReason)> {
    let mut done = vec![false; problem.sites.len()];
    for site in programme.rounds.iter().flat_map(CrewRound::sites) {
        done[site] = true;
    }
    let mut used = vec![None; problem.shifts.len()];
    for (index, round) in programme.rounds.iter().enumerate() {
        used[round.shift] = Some(index);
    }
    let rounds = |shift: usize| used[shift].map(|round: usize| &programme.rounds[round]);
    (0..problem.sites.len()).filter(|&site| !done[site]).map(|site| (site, reason(problem, &rounds, site))).collect()
}

/// How far a shift gets with a site alone. The furthest of all shifts is the reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Hurdle {
    NotAllowed,
    Truck(&'static str),
    Unreachable,
    NoWindow,
    ExceedsShift,
    None,
}

/// Whether a site could be done in that shift if it held nothing else.
pub(crate) fn fits_alone(problem: &ProgrammeProblem, shift: usize, site: usize) -> bool {
    Load::new(&problem.sites[site].demand).is_some_and(|load| hurdle(problem, shift, site, &load) == Hurdle::None)
}

/// First what would keep the site out of any round, then what keeps it out of these.
fn reason<'a>(
    problem: &ProgrammeProblem,
    round_of: &dyn Fn(usize) -> Option<&'a CrewRound>,
    site: usize,
) -> LeftOutReason {
    let Some(load) = Load::new(&problem.sites[site].demand) else {
        return LeftOutReason::ExceedsTruck("a usable demand figure");
    };
    let shifts = 0..problem.shifts.len();
    let hurdles: Vec<Hurdle> = shifts.map(|shift| hurdle(problem, shift, site, &load)).collect();
    match hurdles.iter().max() {
        None | Some(Hurdle::NotAllowed) => LeftOutReason::NoCrew,
        Some(Hurdle::Truck(short)) => LeftOutReason::ExceedsTruck(short),
        Some(Hurdle::Unreachable) => LeftOutReason::Unreachable,
        Some(Hurdle::NoWindow) => LeftOutReason::NoWindow,
        Some(Hurdle::ExceedsShift) => LeftOutReason::ExceedsShift,
        Some(Hurdle::None) => {
            let could = hurdles.iter().enumerate().filter(|(_, hurdle)| **hurdle == Hurdle::None);
            let saved = could.filter_map(|(shift, _)| Some((saved(problem, shift, site)?, shift)));
            let worth_it = saved
                .into_iter()
                .any(|(saved, shift)| cheapest(problem, round_of(shift), shift, site).is_some_and(|cost| cost < saved));
            if worth_it { LeftOutReason::LessUrgent } else { LeftOutReason::NotWorthTheTime }
        }
    }
}

/// Why a site is left out that the search was not shown: what would keep it out of any round, or that the work there alone
/// costs more than it saves, or that the sites shown were more urgent.
pub(crate) fn of_passed_over(problem: &ProgrammeProblem, site: usize) -> LeftOutReason {
    let Some(load) = Load::new(&problem.sites[site].demand) else { return reason(problem, &|_| None, site) };
    let mut could =
        (0..problem.shifts.len()).filter(|&shift| hurdle(problem, shift, site, &load) == Hurdle::None).peekable();
    if could.peek().is_none() {
        return reason(problem, &|_| None, site);
    }
    let worth_it = could.any(|shift| {
        let work = service(&problem.sites[site], &problem.shifts[shift]).unwrap_or(0) as f64;
        let work = price(problem.shifts[shift].price_per_hour) * work / 3600.0;
        saved(problem, shift, site).is_some_and(|saved| work < saved)
    });
    if worth_it { LeftOutReason::LessUrgent } else { LeftOutReason::NotWorthTheTime }
}

/// Money saved by doing the site in that shift, before what it costs.
fn saved(problem: &ProgrammeProblem, shift: usize, site: usize) -> Option<f64> {
    let it = &problem.sites[site];
    let waiting = it.waiting.get(problem.shifts[shift].day as usize).copied().map_or(0.0, price);
    Some(price(it.left) - waiting).filter(|saved| saved.is_finite())
}

fn hurdle(problem: &ProgrammeProblem, index: usize, site: usize, load: &Load) -> Hurdle {
    let (it, shift) = (&problem.sites[site], &problem.shifts[index]);
    let Some(service) = service(it, shift).filter(|_| it.shifts.as_ref().is_none_or(|some| some.contains(&index)))
    else {
        return Hurdle::NotAllowed;
    };
    if let Some(short) = Room::new(&shift.capacity).short_of(load) {
        return Hurdle::Truck(short);
    }
    let (start, end) = (problem.sites.len() + shift.start, problem.sites.len() + shift.end);
    let ways = problem
        .driving
        .get(shift.driving)
        .and_then(|driving| Some((i64::from(driving.seconds(start, site)?), i64::from(driving.seconds(site, end)?))));
    let Some((there, back)) = ways else { return Hurdle::Unreachable };
    if !it.windows.iter().any(|&(open, close)| open + service <= close) {
        return Hurdle::NoWindow;
    }
    let (loading, tipping) = (loading(problem, shift), tipping(problem, shift));
    if loading + there + service + back + tipping > shift.to - shift.from {
        return Hurdle::ExceedsShift;
    }
    if timetable::write(problem, shift, &[Step::Site(site)]).is_some() {
        return Hurdle::None;
    }
    // It would fit at another time of day: the windows, or the rest, which is part of the shift, are in the way.
    let arrival = shift.from + loading + there;
    let begins = it.windows.iter().filter(|window| arrival.max(window.0) + service <= window.1);
    let end = begins.map(|window| arrival.max(window.0) + service).min();
    if end.is_some_and(|end| end + back + tipping <= shift.to) { Hurdle::ExceedsShift } else { Hurdle::NoWindow }
}

/// Money for the least time and way that the site would take: alone, or as a detour from the round if there were time and
/// room.
fn cheapest(problem: &ProgrammeProblem, round: Option<&CrewRound>, index: usize, site: usize) -> Option<f64> {
    let shift = &problem.shifts[index];
    let driving = problem.driving.get(shift.driving)?;
    let service = service(&problem.sites[site], shift)? as f64;
    let cost = |seconds: f64, metres: f64| {
        price(shift.price_per_hour) * seconds / 3600.0 + price(shift.price_per_km) * metres / 1000.0
    };
    let Some(round) = round else {
        let alone = timetable::write(problem, shift, &[Step::Site(site)])?;
        let end = alone.last()?.to;
        let (start, back) = (problem.sites.len() + shift.start, problem.sites.len() + shift.end);
        return Some(cost((end - shift.from) as f64, driving.metres(start, site) + driving.metres(site, back)));
    };
    let mut here = problem.sites.len() + shift.start;
    let mut least: Option<f64> = None;
    for stop in &round.stops {
        let CrewStopKind::Drive(to) = stop.kind else { continue };
        if let (Some(there), Some(on)) = (driving.seconds(here, site), driving.seconds(site, to)) {
            let seconds = f64::from(there) + service + f64::from(on) - (stop.to - stop.from) as f64;
            let metres = driving.metres(here, site) + driving.metres(site, to) - driving.metres(here, to);
            let detour = cost(seconds, metres);
            least = Some(least.map_or(detour, |least| least.min(detour)));
        }
        here = to;
    }
    least
}

fn loading(problem: &ProgrammeProblem, shift: &CrewShift) -> i64 {
    if shift.aboard.is_some() { 0 } else { i64::from(problem.yards[shift.start].loading_s) }
}

fn tipping(problem: &ProgrammeProblem, shift: &CrewShift) -> i64 {
    let end = &problem.yards[shift.end];
    if end.takes_spoil { i64::from(end.tipping_s) } else { 0 }
}
