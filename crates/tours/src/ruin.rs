//! Ruin: strings of neighbouring visits are taken out of routes near each other.
//!
//! *J. Christiaens, G. Vanden Berghe, "Slack Induction by String Removals for Vehicle Routing Problems", Transportation
//! Science 54 (2), 2020*, from memory, as are its values; the search's options may change them. Ours: reloads left without
//! a trip go too.

use rand::RngExt;
use rand_pcg::Pcg64Mcg;

use crate::nodes::Nodes;
use crate::pieces::Piece;
use crate::state::State;

/// Greatest length of a string: `L_max` of the paper.
const LONGEST_STRING: f64 = 10.0;
/// Share of strings that keep some visits in their midst: `alpha` of the paper.
const SPLIT_SHARE: f64 = 0.5;
/// Chance that the kept midst stops growing: `beta` of the paper.
const SPLIT_STOP: f64 = 0.01;
/// Share of reloads of changed routes that are taken out where the trips fit into one.
const MERGE_SHARE: f64 = 0.5;

/// Most neighbours known of each visit.
const MOST_NEIGHBOURS: usize = 500;

/// Other visits by nearness to each one, itself first.
pub(crate) struct Neighbours {
    count: usize,
    lists: Vec<u32>,
}

/// What a unit of waiting counts for in nearness, where a unit of the way counts 1.
const WAITING: f64 = 0.2;

impl Neighbours {
    /// Near in distance.
    pub(crate) fn in_space(nodes: &Nodes<'_>) -> Self {
        let ways = &nodes.ways[0];
        Self::by(nodes, MOST_NEIGHBOURS, |place, other, _, _| {
            i64::from(ways.distance.row(place)[other]) + i64::from(ways.row_to(place)[other])
        })
    }

    /// Near in time: little way, little waiting and little delay from one to the other. *T. Vidal, T. G. Crainic,
    /// M. Gendreau, C. Prins, "A hybrid genetic algorithm with adaptive diversity management for a large class of vehicle
    /// routing problems with time-windows", Computers & Operations Research 40 (1), 2013*, from memory.
    pub(crate) fn in_time(nodes: &Nodes<'_>, most: usize) -> Self {
        let ways = &nodes.ways[0];
        let apart = |from: &crate::Visit, to: &crate::Visit| {
            let way = ways.time(from.place, to.place);
            let service = from.service.first().copied().unwrap_or(0);
            let (Some(first), Some(last)) = (from.windows.first(), from.windows.last()) else { return way };
            let (Some(open), Some(close)) = (to.windows.first(), to.windows.last()) else { return way };
            let waiting = (open.open - last.close - service - way).max(0);
            let delay = (first.open + service + way - close.close).max(0);
            way + (WAITING * waiting as f64) as i64 + delay
        };
        let visits = &nodes.problem.visits;
        Self::by(nodes, most, |_, _, one, other| {
            apart(&visits[one], &visits[other]).min(apart(&visits[other], &visits[one]))
        })
    }

    fn by(nodes: &Nodes<'_>, most: usize, apart: impl Fn(usize, usize, usize, usize) -> i64) -> Self {
        let count = nodes.visits.min(most);
        let mut lists = Vec::with_capacity(nodes.visits * count);
        let mut order: Vec<(i64, u32)> = Vec::with_capacity(nodes.visits);
        for visit in 0..nodes.visits {
            let place = nodes.place[visit] as usize;
            order.clear();
            order.extend((0..nodes.visits).map(|other| {
                let apart = || apart(place, nodes.place[other] as usize, visit, other);
                (if other == visit { -1 } else { apart() }, other as u32)
            }));
            if count < order.len() {
                order.select_nth_unstable(count - 1);
            }
            order[..count].sort_unstable();
            lists.extend(order[..count].iter().map(|&(_, other)| other));
        }
        Self { count, lists }
    }

    pub(crate) fn of(&self, visit: usize) -> &[u32] {
        &self.lists[visit * self.count..(visit + 1) * self.count]
    }
}

/// Room for one ruin after another.
#[derive(Default)]
pub(crate) struct Ruin {
    ruined: Vec<bool>,
    stops: Vec<usize>,
    /// What was taken out last.
    pub(crate) removed: Vec<u32>,
}

impl Ruin {
    /// Takes strings near the seed visit out of their routes.
    pub(crate) fn strings<P: Piece>(
        &mut self,
        state: &mut State<'_, P>,
        neighbours: &Neighbours,
        seed: usize,
        average_removed: f64,
        random: &mut Pcg64Mcg,
    ) {
        self.removed.clear();
        self.ruined.clear();
        self.ruined.resize(state.routes.len(), false);
        let used = state.routes.iter().filter(|route| route.visits > 0).count();
        if used == 0 {
            return;
        }
        let present = state.nodes.visits - state.absent.len();
        let longest = LONGEST_STRING.min(present as f64 / used as f64);
        let most_strings = 4.0 * average_removed / (1.0 + longest) - 1.0;
        let strings = random.random_range(1.0..most_strings.max(1.0) + 1.0) as usize;
        let mut done = 0;
        for &near in neighbours.of(seed) {
            let Some((route, position)) = state.place_of(near as usize) else { continue };
            if self.ruined[route] {
                continue;
            }
            self.ruined[route] = true;
            let most = longest.min(state.routes[route].visits as f64);
            let length = random.random_range(1.0..most + 1.0) as usize;
            self.string(state, route, position, length, random);
            done += 1;
            if done >= strings {
                break;
            }
        }
    }

    /// Empties routes near the seed visit: the nearest, and others while no more than a drawn number of visits come out.
    /// A nearest route of more than `most_removed` visits stays: it would take too long to make anew.
    pub(crate) fn whole_routes<P: Piece>(
        &mut self,
        state: &mut State<'_, P>,
        neighbours: &Neighbours,
        seed: usize,
        most_removed: f64,
        random: &mut Pcg64Mcg,
    ) {
        self.removed.clear();
        let most = random.random_range(1.0..most_removed.max(1.0) + 1.0) as usize;
        for &near in neighbours.of(seed) {
            let Some((route, _)) = state.place_of(near as usize) else { continue };
            let limit = if self.removed.is_empty() { most_removed as usize } else { most };
            if self.removed.len() + state.routes[route].visits > limit {
                break;
            }
            let nodes = state.nodes;
            self.removed.extend(state.routes[route].nodes.iter().filter(|&&node| nodes.is_visit(node)));
            empty(state, route);
        }
    }

    /// Takes a string of that many visits with the one at `position` among them out of a route.
    fn string<P: Piece>(
        &mut self,
        state: &mut State<'_, P>,
        index: usize,
        position: usize,
        length: usize,
        random: &mut Pcg64Mcg,
    ) {
        let nodes = state.nodes;
        let route = &state.routes[index];
        self.stops.clear();
        self.stops.extend((1..route.nodes.len() - 1).filter(|&stop| nodes.is_visit(route.nodes[stop])));
        let count = self.stops.len();
        let at = self.stops.partition_point(|&stop| stop < position);
        let mut kept = 0;
        if length > 1 && length < count && random.random::<f64>() < SPLIT_SHARE {
            kept = 1;
            while length + kept < count && random.random::<f64>() > SPLIT_STOP {
                kept += 1;
            }
        }
        let span = length + kept;
        let (first, last) = ((at + 1).saturating_sub(span), at.min(count - span));
        let begin = random.random_range(first..=last);
        let midst = if kept == 0 {
            begin..begin
        } else {
            let skip = begin + random.random_range(1..length.max(2));
            skip..skip + kept
        };
        let taken = |stop: usize| (begin..begin + span).contains(&stop) && !midst.contains(&stop);
        let from = self.removed.len();
        for stop in (begin..begin + span).filter(|&stop| taken(stop)) {
            self.removed.push(route.nodes[self.stops[stop]]);
        }
        let (removed, piece) = (&self.removed[from..], state.piece);
        let reloads = !nodes.problem.vehicles[route.vehicle].reloads.is_empty();
        state.change(index, |route| {
            route.nodes.retain(|node| !removed.contains(node));
            if reloads {
                drop_empty_trips(nodes, route.vehicle, &mut route.nodes);
            }
        });
        if reloads {
            merge_trips(state, index, random);
        }
        // Without the triangle inequality a route may break by losing a visit.
        if !state.routes[index].holds(piece) {
            let rest = state.routes[index].nodes.iter().filter(|&&node| nodes.is_visit(node));
            self.removed.extend(rest);
            empty(state, index);
        }
    }
}

fn empty<P: Piece>(state: &mut State<'_, P>, index: usize) {
    state.change(index, |route| {
        let end = route.nodes.len() - 1;
        route.nodes.drain(1..end);
    });
}

/// Reloads that the start, the end or another reload beside them leave nothing to do go.
fn drop_empty_trips(nodes: &Nodes<'_>, vehicle: usize, route: &mut Vec<u32>) {
    let mut index = 1;
    while index + 1 < route.len() {
        let beside = [route[index - 1], route[index + 1]];
        if beside.iter().any(|&depot| nodes.covers(vehicle, depot, route[index])) {
            route.remove(index);
            index = index.saturating_sub(1).max(1);
        } else {
            index += 1;
        }
    }
}

fn merge_trips<P: Piece>(state: &mut State<'_, P>, index: usize, random: &mut Pcg64Mcg) {
    let mut position = 1;
    while position < state.routes[index].nodes.len() - 1 {
        if !state.nodes.is_visit(state.routes[index].nodes[position]) && random.random::<f64>() < MERGE_SHARE {
            let mut trial = state.routes[index].clone();
            trial.nodes.remove(position);
            trial.update(state.nodes, state.piece);
            if trial.holds(state.piece) {
                state.change(index, |route| {
                    route.nodes.remove(position);
                });
                continue;
            }
        }
        position += 1;
    }
}
