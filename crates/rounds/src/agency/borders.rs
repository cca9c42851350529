//! Neighbouring areas together, along their border.

use std::collections::BTreeSet;

use model::programme::CrewRound;

use super::areas::{self, Area, MOST_SITES, apart};
use super::part::Part;
use super::{Agency, AgencyProgress, AgencySettings, AgencyStage, State, seed, steps, workers};
use crate::SearchSettings;

/// With each area so many of the nearest are taken together.
const NEIGHBOURS: usize = 4;
/// A site lies along the border where the way to the nearer centre is more than this share of the way to the other.
const ALONG: f64 = 0.7;
/// A crew has time to help where its shift is over by more than this share before its end.
const SPARE: f64 = 0.25;
/// Temperature at the begin, in the engine's measure: low, since what is there is to be mended, not made anew.
const TEMPERATURE: f64 = 0.3;

/// One pass over all borders. What comes out cheaper is taken, so the programme never gets worse.
pub(super) fn improve(
    agency: &Agency<'_>,
    areas: &[Area],
    settings: &AgencySettings,
    pass: u32,
    state: &mut State,
    progress: &mut dyn FnMut(&AgencyProgress) -> bool,
) {
    let mut pairs = pairs(areas);
    let of = pairs.len() as u64;
    let mut gone_over = 0;
    while !pairs.is_empty() && !state.stopped {
        let batch = apart_from_each_other(&mut pairs);
        let (rounds, cost) = (&state.rounds, state.cost);
        let mut stopped = false;
        let work = |task: usize, tell: workers::Tell<'_>| {
            let pair = batch[task];
            let seed = seed(settings.seed, u64::from(pass) + 1, pair.0 * areas.len() + pair.1);
            solve_again(agency, [&areas[pair.0], &areas[pair.1]], rounds, settings, seed, tell)
        };
        let solved = workers::run(settings.threads, batch.len(), &work, &mut |_, _, _| {
            stopped |= !progress(&AgencyProgress { stage: AgencyStage::Borders, steps: gone_over, of, cost });
            !stopped
        });
        gone_over += batch.len() as u64;
        state.stopped = stopped;
        for better in solved.into_iter().flatten() {
            state.cost -= better.saved;
            for shift in better.shifts {
                state.rounds[shift] = None;
            }
            for round in better.rounds {
                let shift = round.shift;
                state.rounds[shift] = Some(round);
            }
        }
    }
}

/// Neighbours by the distance of their centres, ascending, each pair once.
fn pairs(areas: &[Area]) -> Vec<(usize, usize)> {
    let mut pairs = BTreeSet::new();
    for (index, area) in areas.iter().enumerate() {
        let mut others: Vec<(f64, usize)> = areas
            .iter()
            .enumerate()
            .filter(|(other, _)| *other != index)
            .map(|(other, it)| (apart(area.centre, it.centre), other))
            .collect();
        others.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        pairs.extend(others.iter().take(NEIGHBOURS).map(|&(_, other)| (index.min(other), index.max(other))));
    }
    pairs.into_iter().collect()
}

/// Takes out pairs none of which shares an area with another: they can be solved at the same time.
fn apart_from_each_other(pairs: &mut Vec<(usize, usize)>) -> Vec<(usize, usize)> {
    let mut taken = BTreeSet::new();
    let mut batch = Vec::new();
    pairs.retain(|&(a, b)| {
        let free = !taken.contains(&a) && !taken.contains(&b);
        if free {
            taken.extend([a, b]);
            batch.push((a, b));
        }
        !free
    });
    batch
}

/// Rounds in place of those that these shifts had.
struct Better {
    shifts: Vec<usize>,
    rounds: Vec<CrewRound>,
    saved: f64,
}

/// `None`: nothing better.
fn solve_again(
    agency: &Agency<'_>,
    areas: [&Area; 2],
    rounds: &[Option<CrewRound>],
    settings: &AgencySettings,
    seed: u64,
    tell: workers::Tell<'_>,
) -> Option<Better> {
    if !tell(0, 0.0) {
        return None;
    }
    // Beside an area that looks at no site everything is border.
    let empty = areas.iter().any(|area| area.sites.is_empty());
    let along = |site: usize| {
        let way = areas.map(|area| apart(agency.positions[site], area.centre));
        empty || way[0].min(way[1]) > ALONG * way[0].max(way[1])
    };
    let spare = |shift: usize| {
        let it = &agency.shifts[shift];
        let over = rounds[shift].as_ref().and_then(|round| round.stops.last()).map_or(it.from, |stop| stop.to);
        let spare = (it.to - over).max(0) as f64;
        if spare > SPARE * (it.to - it.from) as f64 { spare } else { 0.0 }
    };
    let done = |shift: usize| rounds[shift].iter().flat_map(CrewRound::sites);
    let elsewhere: BTreeSet<usize> = (0..rounds.len()).flat_map(done).collect();
    let all = || areas.iter().flat_map(|area| area.shifts.iter().copied());
    let shifts: Vec<usize> = all().filter(|&shift| spare(shift) > 0.0 || done(shift).any(along)).collect();
    let mut sites: Vec<usize> = shifts.iter().copied().flat_map(done).collect();
    let left = areas.iter().flat_map(|area| area.sites.iter().copied());
    let (near, far): (Vec<usize>, Vec<usize>) =
        left.filter(|site| !elsewhere.contains(site)).partition(|&site| along(site));
    sites.extend(near);
    // What crews with time may come to besides: also what nobody has looked at yet.
    let passed_over = areas.iter().flat_map(|area| area.passed_over.iter().copied());
    let besides: Vec<usize> = passed_over.filter(|site| !elsewhere.contains(site)).chain(far).collect();
    let idle: Vec<usize> = shifts.iter().copied().filter(|&shift| spare(shift) > 0.0).collect();
    let most = settings.looked_at * idle.iter().map(|&shift| spare(shift)).sum::<f64>();
    let room = MOST_SITES.saturating_sub(sites.len());
    sites.extend(areas::most_pressing(agency, &idle, besides, &along, most, room));
    sites.sort_unstable();
    if sites.is_empty() || shifts.is_empty() {
        return None;
    }
    let part = Part::new(agency, sites, shifts);
    let now = part.programme_of(part.shifts.iter().filter_map(|&shift| rounds[shift].as_ref()));
    let search = SearchSettings { seed, iterations: steps(settings, part.sites.len()) / 2 };
    let found = crate::search::search_at(&part.problem, Some(&now), &search, Some(TEMPERATURE), tell);
    let saved = crate::cost(&part.problem, &now).total() - found.cost.total();
    (saved > 0.0).then(|| Better { shifts: part.shifts.clone(), rounds: part.in_agency(found.rounds), saved })
}
