//! The search: ruin, recreate, accept by simulated annealing, keep the best.

use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;

use crate::budget::{Budget, Progress};
use crate::nodes::Nodes;
use crate::pieces::Piece;
use crate::plan::Plan;
use crate::recreate::{NEAR, Recreate, refit};
use crate::ruin::{Neighbours, Ruin};
use crate::state::State;

/// How the search goes about.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// Seed of all randomness.
    pub seed: u64,
    /// Temperature at the begin, in the mean cost of the way from a visit to its fifth nearest; where most visits are left
    /// out, in a quarter of the mean prize.
    pub start_temperature: f64,
    /// Temperature at the end, likewise; where most visits are left out, in a fortieth of the mean prize.
    pub end_temperature: f64,
    /// Average number of visits taken out in an iteration; of large problems with windows more are.
    pub average_removed: f64,
    /// Share of iterations that look for places in all routes; the others do so near the visit only.
    pub everywhere_share: f64,
    /// Cool over this many iterations again and again, in place of once over the whole budget. A longer run is then the
    /// continuation of a shorter one and never worse; at equal length it is somewhat worse than one fitted to its budget.
    pub round: Option<u64>,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            seed: 1,
            start_temperature: 1.5,
            end_temperature: 0.1,
            average_removed: 10.0,
            everywhere_share: 0.05,
            round: None,
        }
    }
}

/// Share of steps where changed routes may go to any kind of vehicle that can drive them.
const ANY_VEHICLE_SHARE: f64 = 0.05;

/// Share of steps that empty whole routes where there are several kinds of vehicles. A long route of a large vehicle does
/// not fall apart string by string: what is left of it still needs that vehicle.
const WHOLE_ROUTES_SHARE: f64 = 0.2;

/// With windows so many times as many visits are taken out: to save a vehicle, slack must move through several routes, and
/// strings of full length come out of two or three only.
const MORE_WITH_WINDOWS: f64 = 2.5;

/// But with windows no more than this share of the visits, so that small problems keep to the option.
const MOST_WITH_WINDOWS: f64 = 0.1;

/// No more than this share of the visits that are made where most are left out.
const MOST_WHEN_CHOOSING: f64 = 0.32;

/// Left-out visits near the seed that come along with those taken out.
const MOST_OPTIONAL: usize = 8;

/// As many where most visits are left out: which ones are made then decides, and not in what order.
const MOST_OPTIONAL_WHEN_CHOOSING: usize = 24;

pub(crate) fn search<P: Piece>(
    nodes: &Nodes<'_>,
    piece: &P,
    start: Option<&Plan>,
    options: &Options,
    budget: &mut dyn Budget,
) -> Plan {
    let mut random = Pcg64Mcg::seed_from_u64(options.seed);
    let mut state = State::new(nodes, piece);
    if let Some(plan) = start {
        state.take_over(plan);
    }
    let mut recreate = Recreate::new(nodes);
    let mut ruin = Ruin::default();
    let mut visits = state.absent.clone();
    // From nothing, everything comes in first: alone hardly anything pays.
    let first_factor = if start.is_some() { 1.0 } else { f64::INFINITY };
    recreate.insert_all(&mut state, &mut visits, None, first_factor, &mut random);
    let mut best = state.plan();
    if nodes.visits == 0 {
        return best;
    }
    let neighbours = Neighbours::in_space(nodes);
    let windows = nodes.problem.visits.iter().any(|visit| !visit.windows.is_empty());
    let in_time = windows.then(|| Neighbours::in_time(nodes, NEAR));
    let mut absences = vec![1u32; nodes.visits];
    let kinds = nodes.problem.vehicles.len();
    let optional = nodes.problem.visits.iter().any(|visit| visit.prize.is_some());
    let pace = Pace::new(&state, &neighbours, windows, options);
    let mut trial = None;
    let mut iterations = 0;
    loop {
        let spent = budget.spent(&Progress { iterations, cost: best.cost, missing: best.missing });
        if spent >= 1.0 {
            return best;
        }
        let spent = options.round.map_or(spent, |round| (iterations % round) as f64 / round as f64);
        let temperature = pace.temperature(spent);
        iterations += 1;

        let before = (state.missing, state.cost);
        let weight_before = absence(&state, &absences);
        state.begin();
        let seed = random.random_range(0..nodes.visits);
        ruin.removed.clear();
        if kinds > 1 && random.random::<f64>() < WHOLE_ROUTES_SHARE {
            ruin.whole_routes(&mut state, &neighbours, seed, 2.0 * pace.removed, &mut random);
        }
        if ruin.removed.is_empty() {
            ruin.strings(&mut state, &neighbours, seed, pace.removed, &mut random);
        }
        if kinds > 1 {
            refit(&mut state, &mut trial, ANY_VEHICLE_SHARE, &mut random);
        }
        visits.clear();
        visits.extend_from_slice(&ruin.removed);
        add_absent(&state, &neighbours, seed, pace.optional, &mut visits);
        let everywhere = random.random::<f64>() < options.everywhere_share;
        let near = (!everywhere).then_some(in_time.as_ref().unwrap_or(&neighbours));
        let prize_factor = if optional { prize_factor(&mut random) } else { 1.0 };
        recreate.insert_all(&mut state, &mut visits, near, prize_factor, &mut random);
        if kinds > 1 {
            refit(&mut state, &mut trial, 0.0, &mut random);
        }

        let uniform: f64 = 1.0 - random.random::<f64>();
        let limit = before.1 as f64 - temperature * uniform.ln();
        let weight = absence(&state, &absences);
        for &visit in &state.absent {
            if nodes.problem.visits[visit as usize].prize.is_none() {
                absences[visit as usize] += 1;
            }
        }
        let accepted = match state.missing.cmp(&before.0) {
            std::cmp::Ordering::Less => true,
            std::cmp::Ordering::Equal => weight < weight_before || (state.cost as f64) < limit,
            std::cmp::Ordering::Greater => weight < weight_before,
        };
        if !accepted {
            state.undo();
        } else if (state.missing, state.cost) < (best.missing, best.cost) {
            best = state.plan();
        }
    }
}

/// How much is changed in a step, and what is accepted.
struct Pace {
    /// Average number of visits taken out.
    removed: f64,
    /// Left-out visits that come along.
    optional: usize,
    start_temperature: f64,
    end_temperature: f64,
}

impl Pace {
    fn new<P: Piece>(state: &State<'_, P>, neighbours: &Neighbours, windows: bool, options: &Options) -> Self {
        let nodes = state.nodes;
        let made = nodes.visits - state.absent.len();
        let removed = average_removed(nodes, windows, options);
        let prizes: Vec<i64> = nodes.problem.visits.iter().filter_map(|visit| visit.prize).collect();
        if state.missing > 0 || prizes.len() < nodes.visits || made > nodes.visits / 2 {
            let scale = scale(nodes, neighbours);
            return Self {
                removed,
                optional: MOST_OPTIONAL,
                start_temperature: scale * options.start_temperature,
                end_temperature: scale * options.end_temperature,
            };
        }
        // One visit in the place of another changes the cost by prizes; ways are small change beside them.
        let prize = prizes.iter().map(|&prize| prize as f64).sum::<f64>() / prizes.len() as f64;
        Self {
            removed: (made as f64 * MOST_WHEN_CHOOSING).min(removed).max(1.0),
            optional: MOST_OPTIONAL_WHEN_CHOOSING,
            start_temperature: prize / 4.0 * options.start_temperature,
            end_temperature: prize / 40.0 * options.end_temperature,
        }
    }

    /// Falls geometrically.
    fn temperature(&self, spent: f64) -> f64 {
        if self.start_temperature == 0.0 {
            return 0.0;
        }
        self.start_temperature * (self.end_temperature / self.start_temperature).powf(spent.max(0.0))
    }
}

fn average_removed(nodes: &Nodes<'_>, windows: bool, options: &Options) -> f64 {
    let few = options.average_removed;
    if !windows {
        return few;
    }
    (few * MORE_WITH_WINDOWS).min(nodes.visits as f64 * MOST_WITH_WINDOWS).max(few)
}

/// What temperatures are measured in: the cost of going from a visit to a near one, which is what changes come to.
fn scale(nodes: &Nodes<'_>, neighbours: &Neighbours) -> f64 {
    let nth = 5.min(nodes.visits - 1);
    let kind = &nodes.problem.vehicles[0];
    let way = |visit: usize| {
        let other = neighbours.of(visit)[nth];
        let visit = visit as u32;
        kind.distance_cost * nodes.distance(0, visit, other) + kind.time_cost * nodes.time(0, visit, other)
    };
    (0..nodes.visits).map(|visit| way(visit) as f64).sum::<f64>() / nodes.visits as f64
}

/// In some iterations visits come back at more than they are worth, in a few at any price: some pay only together.
fn prize_factor(random: &mut Pcg64Mcg) -> f64 {
    let draw: f64 = random.random();
    if draw > 0.3 {
        1.0
    } else if draw > 0.03 {
        1.0 + 10.0 * draw
    } else {
        f64::INFINITY
    }
}

/// How often the visits that must be made and are absent were so before: those that are hard to place go first.
fn absence<P: Piece>(state: &State<'_, P>, absences: &[u32]) -> u64 {
    if state.missing == 0 {
        return 0;
    }
    let must = state.absent.iter().filter(|&&visit| state.nodes.problem.visits[visit as usize].prize.is_none());
    must.map(|&visit| u64::from(absences[visit as usize])).sum()
}

/// Absent visits that get another try: all that must be made, and some near the seed that may be left out.
fn add_absent<P: Piece>(
    state: &State<'_, P>,
    neighbours: &Neighbours,
    seed: usize,
    most: usize,
    visits: &mut Vec<u32>,
) {
    let removed = visits.len();
    if state.absent.len() == removed {
        return;
    }
    if state.missing > 0 {
        let must = |visit: &&u32| state.nodes.problem.visits[**visit as usize].prize.is_none();
        let more: Vec<u32> =
            state.absent.iter().filter(must).filter(|visit| !visits[..removed].contains(visit)).copied().collect();
        visits.extend(more);
    }
    let near = neighbours.of(seed).iter().take(10 * most).copied();
    let optional = near
        .filter(|&visit| state.is_absent(visit as usize) && state.nodes.problem.visits[visit as usize].prize.is_some());
    for visit in optional {
        if visits.len() >= 2 * removed + most {
            break;
        }
        if !visits[..removed].contains(&visit) {
            visits.push(visit);
        }
    }
}
