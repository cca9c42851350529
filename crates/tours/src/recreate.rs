//! Recreate: absent visits go, one after the other, where they cost least; some places are overlooked at random (blinks).

use rand::RngExt;
use rand::seq::SliceRandom;
use rand_pcg::Pcg64Mcg;

use crate::matrix::Matrix;
use crate::nodes::Nodes;
use crate::pieces::Piece;
use crate::route::Route;
use crate::ruin::Neighbours;
use crate::state::State;

/// Chance that a place is overlooked: `beta` of the paper named in `ruin`.
const BLINK: f64 = 0.01;

/// Share of steps in which reloads are tried at every gap.
const RELOAD_ANYWHERE_SHARE: f64 = 0.15;

/// In which order visits come back, with the weights by which one is drawn.
#[derive(Clone, Copy)]
enum Order {
    Random,
    Largest,
    Farthest,
    Nearest,
    ShortestWindow,
    EarliestBegin,
    EarliestEnd,
    Dearest,
}

pub(crate) struct Recreate {
    orders: Vec<(Order, u32)>,
    weights: u32,
    keys: Vec<[i64; 7]>,
    /// Gaps until the next is overlooked.
    until_blink: u32,
    scratch: Vec<(i64, u32)>,
    /// Visit for which each route was looked at last.
    looked: Vec<u64>,
    looks: u64,
    /// Gaps of the route looked at where the visit fits but for its load.
    short: Vec<usize>,
    /// Some vehicle may reload.
    reloads: bool,
    /// Reloads are tried at every gap.
    reload_anywhere: bool,
}

/// Where a visit goes.
#[derive(Clone, Copy)]
struct Best {
    cost: i64,
    route: usize,
    position: usize,
    /// With a reload before or after the visit.
    reload: Option<(u32, bool)>,
}

/// Routes of so many nearest visits are looked at.
pub(crate) const NEAR: usize = 40;

const NO_ROUTE: usize = usize::MAX;

impl Recreate {
    pub(crate) fn new(nodes: &Nodes<'_>) -> Self {
        let problem = nodes.problem;
        let mut orders = vec![(Order::Random, 4), (Order::Largest, 4), (Order::Farthest, 2), (Order::Nearest, 1)];
        if problem.visits.iter().any(|visit| !visit.windows.is_empty()) {
            orders.extend([(Order::ShortestWindow, 2), (Order::EarliestBegin, 2), (Order::EarliestEnd, 2)]);
        }
        if problem.visits.iter().any(|visit| visit.prize.is_some()) {
            orders.push((Order::Dearest, 4));
        }
        let depot = problem.depots.iter().map(|depot| depot.place).collect::<Vec<_>>();
        let key = |visit: &crate::Visit| {
            let near = depot.iter().map(|&depot| i64::from(nodes.ways[0].distance.get(depot, visit.place))).min();
            let load = visit.delivery.iter().chain(&visit.pickup).sum::<i64>();
            let (open, close) = match (visit.windows.first(), visit.windows.last()) {
                (Some(first), Some(last)) => (first.open, last.close),
                _ => (0, crate::problem::GREATEST),
            };
            let near = near.unwrap_or(0);
            [-load, -near, near, close - open, open, close, -visit.prize.unwrap_or(crate::problem::GREATEST)]
        };
        Self {
            weights: orders.iter().map(|&(_, weight)| weight).sum(),
            orders,
            keys: problem.visits.iter().map(key).collect(),
            until_blink: 0,
            scratch: Vec::new(),
            looked: Vec::new(),
            looks: 0,
            short: Vec::new(),
            reloads: problem.vehicles.iter().any(|vehicle| !vehicle.reloads.is_empty()),
            reload_anywhere: false,
        }
    }

    fn sort(&mut self, visits: &mut [u32], random: &mut Pcg64Mcg) {
        visits.shuffle(random);
        let mut draw = random.random_range(0..self.weights);
        let drawn = self.orders.iter().find(|&&(_, weight)| {
            let here = draw < weight;
            draw = draw.saturating_sub(weight);
            here
        });
        let column = match drawn.map_or(Order::Random, |&(order, _)| order) {
            Order::Random => return,
            Order::Largest => 0,
            Order::Farthest => 1,
            Order::Nearest => 2,
            Order::ShortestWindow => 3,
            Order::EarliestBegin => 4,
            Order::EarliestEnd => 5,
            Order::Dearest => 6,
        };
        self.scratch.clear();
        self.scratch.extend(visits.iter().map(|&visit| (self.keys[visit as usize][column], visit)));
        // Stable: what is equal stays in the drawn order.
        self.scratch.sort_by_key(|&(key, _)| key);
        for (visit, &(_, sorted)) in visits.iter_mut().zip(&self.scratch) {
            *visit = sorted;
        }
    }

    /// Puts back all the visits that have a place worth its cost.
    pub(crate) fn insert_all<P: Piece>(
        &mut self,
        state: &mut State<'_, P>,
        visits: &mut [u32],
        near: Option<&Neighbours>,
        prize_factor: f64,
        random: &mut Pcg64Mcg,
    ) {
        self.sort(visits, random);
        // A reload where none is needed yet makes room for what comes later.
        self.reload_anywhere =
            self.reloads && (P::TRIPS_WAIT || near.is_none() || random.random::<f64>() < RELOAD_ANYWHERE_SHARE);
        for &visit in visits.iter() {
            let prize = state.nodes.problem.visits[visit as usize].prize;
            let most = prize.map_or(i64::MAX, |prize| (prize as f64 * prize_factor) as i64);
            let mut best = Best { cost: most, route: NO_ROUTE, position: 0, reload: None };
            if let Some(neighbours) = near {
                self.looks += 1;
                self.looked.resize(state.routes.len(), 0);
                for &other in neighbours.of(visit as usize).iter().take(NEAR) {
                    if let Some((index, _)) = state.place_of(other as usize)
                        && self.looked[index] != self.looks
                    {
                        self.looked[index] = self.looks;
                        self.scan(state, index, visit, &mut best, random);
                    }
                }
            }
            let mut opened = if near.is_some() { Self::opening(state, visit, &mut best) } else { None };
            if opened.is_some() || (best.route == NO_ROUTE && (near.is_none() || prize.is_none())) {
                // A vehicle more is dear: first look everywhere.
                for index in 0..state.routes.len() {
                    self.scan(state, index, visit, &mut best, random);
                }
                if opened.is_none() || best.route != NO_ROUTE {
                    opened = Self::opening(state, visit, &mut best);
                }
            }
            if let Some(vehicle) = opened {
                let index = state.open(vehicle);
                state.insert(index, 1, &[visit]);
            } else if best.route != NO_ROUTE {
                match best.reload {
                    None => state.insert(best.route, best.position, &[visit]),
                    Some((reload, true)) => state.insert(best.route, best.position, &[reload, visit]),
                    Some((reload, false)) => state.insert(best.route, best.position, &[visit, reload]),
                }
            }
        }
    }

    /// Tells whether the next place is overlooked, by counting down a geometrically distributed number.
    #[inline]
    fn blinks(&mut self, random: &mut Pcg64Mcg) -> bool {
        if self.until_blink > 0 {
            self.until_blink -= 1;
            return false;
        }
        let uniform: f64 = 1.0 - random.random::<f64>();
        self.until_blink = (uniform.ln() / (1.0 - BLINK).ln()).min(1e6) as u32;
        true
    }

    #[inline]
    fn scan<P: Piece>(
        &mut self,
        state: &State<'_, P>,
        index: usize,
        visit: u32,
        best: &mut Best,
        random: &mut Pcg64Mcg,
    ) {
        let (nodes, piece) = (state.nodes, state.piece);
        let route = &state.routes[index];
        let vehicle = route.vehicle;
        if route.visits == 0
            || !nodes.allowed(vehicle, visit as usize)
            || !piece.may_take(vehicle, route.whole(), visit as usize)
        {
            return;
        }
        let kind = &nodes.problem.vehicles[vehicle];
        let ways = nodes.ways(vehicle);
        let place = nodes.place[visit as usize] as usize;
        let (out, into) = (ways.distance.row(place), ways.row_to(place));
        let alone = if P::POSITIONAL { Some(piece.node(vehicle, visit)) } else { None };
        self.short.clear();
        for gap in 0..route.gaps.len() {
            let (length, pair) = (route.gaps[gap], &route.places[gap..gap + 2]);
            let more = into[pair[0] as usize] + out[pair[1] as usize] - length;
            let cost = i64::from(more) * kind.distance_cost;
            if cost >= best.cost || more > Matrix::NO_WAY / 2 || self.blinks(random) {
                continue;
            }
            let Some(alone) = &alone else {
                *best = Best { cost, route: index, position: gap + 1, reload: None };
                continue;
            };
            if !piece.may_follow(&route.before[gap], alone) || !piece.may_follow(alone, &route.after[gap + 1]) {
                continue;
            }
            let (from, to) = (route.nodes[gap], route.nodes[gap + 1]);
            if self.reload_anywhere {
                self.short.push(gap);
            }
            let begun = piece.join(vehicle, &route.before[gap], (from, visit), alone);
            if !piece.is_possible(&begun) {
                if !self.reload_anywhere && !piece.is_late(vehicle, &begun, false) {
                    self.short.push(gap);
                }
                continue;
            }
            if !piece.may_follow(&begun, &route.after[gap + 1]) {
                continue;
            }
            let whole = piece.join(vehicle, &begun, (visit, to), &route.after[gap + 1]);
            if piece.allows(vehicle, &whole) {
                let cost = cost + piece.price(vehicle, &whole) - route.price;
                if cost < best.cost {
                    *best = Best { cost, route: index, position: gap + 1, reload: None };
                }
            } else if !self.reload_anywhere && !piece.is_late(vehicle, &whole, true) {
                self.short.push(gap);
            }
        }
        // A reload helps only where the visit fits in time and not by load.
        if self.short.is_empty() {
            return;
        }
        for &depot in &kind.reloads {
            self.scan_with_reload(state, index, visit, nodes.reload(depot), best, random);
        }
    }

    /// The visit with a reload before or after it, so that it begins or ends a trip.
    fn scan_with_reload<P: Piece>(
        &mut self,
        state: &State<'_, P>,
        index: usize,
        visit: u32,
        reload: u32,
        best: &mut Best,
        random: &mut Pcg64Mcg,
    ) {
        let (nodes, piece) = (state.nodes, state.piece);
        let route = &state.routes[index];
        let vehicle = route.vehicle;
        let unit = nodes.problem.vehicles[vehicle].distance_cost;
        let alone = &piece.node(vehicle, visit);
        for at in 0..self.short.len() {
            let gap = self.short[at];
            let (from, to) = (route.nodes[gap], route.nodes[gap + 1]);
            for (chain, first) in [([reload, visit], true), ([visit, reload], false)] {
                if nodes.covers(vehicle, if first { from } else { to }, reload) {
                    continue;
                }
                let more = nodes.distance(vehicle, from, chain[0])
                    + nodes.distance(vehicle, chain[0], chain[1])
                    + nodes.distance(vehicle, chain[1], to)
                    - i64::from(route.gaps[gap]);
                let cost = more * unit;
                if cost >= best.cost || more > i64::from(Matrix::NO_WAY / 2) || self.blinks(random) {
                    continue;
                }
                if !piece.may_follow(&route.before[gap], alone) || !piece.may_follow(alone, &route.after[gap + 1]) {
                    continue;
                }
                let mut whole = route.before[gap];
                let mut last = from;
                for node in chain {
                    whole = piece.join(vehicle, &whole, (last, node), &piece.node(vehicle, node));
                    last = node;
                }
                if !piece.is_possible(&whole) {
                    continue;
                }
                whole = piece.join(vehicle, &whole, (last, to), &route.after[gap + 1]);
                if piece.allows(vehicle, &whole) {
                    let cost = cost + piece.price(vehicle, &whole) - route.price;
                    if cost < best.cost {
                        *best = Best { cost, route: index, position: gap + 1, reload: Some((reload, first)) };
                    }
                }
            }
        }
    }

    /// Kind of a free vehicle that would take the visit alone at less than the best.
    fn opening<P: Piece>(state: &State<'_, P>, visit: u32, best: &mut Best) -> Option<usize> {
        let (nodes, piece) = (state.nodes, state.piece);
        let mut opened = None;
        for (vehicle, kind) in nodes.problem.vehicles.iter().enumerate() {
            if state.free[vehicle] == 0 || !nodes.allowed(vehicle, visit as usize) {
                continue;
            }
            let (start, end) = (nodes.start(vehicle), nodes.end(vehicle));
            let distance = nodes.distance(vehicle, start, visit) + nodes.distance(vehicle, visit, end);
            let cost = kind.fixed_cost + kind.distance_cost * distance;
            if cost >= best.cost || distance > i64::from(Matrix::NO_WAY / 2) {
                continue;
            }
            let begun = piece.join(vehicle, &piece.node(vehicle, start), (start, visit), &piece.node(vehicle, visit));
            let whole = piece.join(vehicle, &begun, (visit, end), &piece.node(vehicle, end));
            if piece.allows(vehicle, &whole) && cost + piece.price(vehicle, &whole) < best.cost {
                best.cost = cost + piece.price(vehicle, &whole);
                best.route = NO_ROUTE;
                opened = Some(vehicle);
            }
        }
        opened
    }
}

/// Each changed route goes to the kind of vehicle that drives it cheapest, in a share of the steps to any that can.
pub(crate) fn refit<P: Piece>(
    state: &mut State<'_, P>,
    trial: &mut Option<Route<P::Segment>>,
    any_share: f64,
    random: &mut Pcg64Mcg,
) {
    let kinds = state.nodes.problem.vehicles.len();
    let changed: Vec<usize> = state.changed().collect();
    for index in changed {
        if state.routes[index].visits == 0 {
            continue;
        }
        let any = random.random::<f64>() < any_share;
        let now = state.routes[index].vehicle;
        let mut best = (if any { i64::MAX } else { state.routes[index].cost }, now);
        let first = random.random_range(0..kinds);
        for step in 0..kinds.min(MOST_KINDS) {
            let vehicle = (first + step) % kinds;
            if vehicle == now || state.free[vehicle] == 0 {
                continue;
            }
            let trial = trial.get_or_insert_with(|| state.routes[index].clone());
            trial.nodes.clone_from(&state.routes[index].nodes);
            trial.set_vehicle(state.nodes, vehicle);
            let visits = trial.nodes.iter().filter(|&&node| state.nodes.is_visit(node));
            let reloads =
                trial.nodes.iter().any(|&node| matches!(state.nodes.kind(node), crate::nodes::Kind::Reload(_)));
            if (reloads && state.nodes.problem.vehicles[vehicle].reloads != state.nodes.problem.vehicles[now].reloads)
                || !visits.copied().all(|visit| state.nodes.allowed(vehicle, visit as usize))
            {
                continue;
            }
            trial.update(state.nodes, state.piece);
            if trial.cost < best.0 && trial.holds(state.piece) {
                best = (trial.cost, vehicle);
                if any {
                    break;
                }
            }
        }
        if best.1 != now {
            state.change(index, |route| route.set_vehicle(state.nodes, best.1));
        }
    }
}

/// Most kinds of vehicle tried for a route in one step.
const MOST_KINDS: usize = 8;
