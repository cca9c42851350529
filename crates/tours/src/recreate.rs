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
    DearestForItsTime,
}

pub(crate) struct Recreate {
    orders: Vec<(Order, u32)>,
    weights: u32,
    keys: Vec<[i64; 8]>,
    /// Gaps until the next is overlooked.
    until_blink: u32,
    scratch: Vec<(i64, u32)>,
    /// Visit for which each route was looked at last.
    looked: Vec<u64>,
    looks: u64,
    /// Gaps of the route looked at where the visit fits but for its load.
    short: Vec<Short>,
    /// Some vehicle may reload.
    reloads: bool,
    /// Two reloads in a row that do more than either alone, by vehicle; none where each depot gives and takes everything.
    pairs: Vec<Vec<[u32; 2]>>,
    /// Reloads are tried at every gap.
    reload_anywhere: bool,
}

/// Where a visit goes.
#[derive(Clone, Copy)]
struct Best {
    cost: i64,
    route: usize,
    position: usize,
    /// With reloads before or after the visit.
    calls: Calls,
}

/// Reloads that a visit brings with it.
#[derive(Clone, Copy)]
enum Calls {
    None,
    Before(u32),
    After(u32),
    TwoBefore([u32; 2]),
    TwoAfter([u32; 2]),
}

/// A gap where the visit fits but for its load.
struct Short {
    gap: usize,
    /// It fails by load alone, and no single reload was found that helps.
    by_load: bool,
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
            orders.push((Order::DearestForItsTime, 4));
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
            let prize = visit.prize.unwrap_or(crate::problem::GREATEST);
            let time = visit.service.iter().min().copied().unwrap_or(0);
            [-load, -near, near, close - open, open, close, -prize, -(prize / (time + 1))]
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
            pairs: (0..problem.vehicles.len()).map(|vehicle| pairs(nodes, vehicle)).collect(),
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
            Order::DearestForItsTime => 7,
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
            let mut best = Best { cost: most, route: NO_ROUTE, position: 0, calls: Calls::None };
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
            let mut opened = if near.is_some() { self.opening(state, visit, &mut best) } else { None };
            if opened.is_some() || (best.route == NO_ROUTE && (near.is_none() || prize.is_none())) {
                // A vehicle more is dear: first look everywhere.
                for index in 0..state.routes.len() {
                    self.scan(state, index, visit, &mut best, random);
                }
                if opened.is_none() || best.route != NO_ROUTE {
                    opened = self.opening(state, visit, &mut best);
                }
            }
            let (index, position) = match opened {
                Some(vehicle) => (state.open(vehicle), 1),
                None if best.route != NO_ROUTE => (best.route, best.position),
                None => continue,
            };
            let mut insert = |chain: &[u32]| state.insert(index, position, chain);
            match best.calls {
                Calls::None => insert(&[visit]),
                Calls::Before(call) => insert(&[call, visit]),
                Calls::After(call) => insert(&[visit, call]),
                Calls::TwoBefore([first, second]) => insert(&[first, second, visit]),
                Calls::TwoAfter([first, second]) => insert(&[visit, first, second]),
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
        let least = alone.as_ref().map_or(0, |alone| piece.least_time(alone));
        self.short.clear();
        for gap in 0..route.gaps.len() {
            let (length, pair) = (route.gaps[gap], &route.places[gap..gap + 2]);
            let more = into[pair[0] as usize] + out[pair[1] as usize] - length;
            let cost = i64::from(more) * kind.distance_cost;
            if cost >= best.cost || more > Matrix::NO_WAY / 2 || self.blinks(random) {
                continue;
            }
            let Some(alone) = &alone else {
                *best = Best { cost, route: index, position: gap + 1, calls: Calls::None };
                continue;
            };
            let (from, to) = (route.nodes[gap], route.nodes[gap + 1]);
            let (there, on) = (nodes.time(vehicle, from, visit), nodes.time(vehicle, visit, to));
            if !piece.may_follow(&route.before[gap], there, alone)
                || !piece.may_follow(alone, on, &route.after[gap + 1])
                || !piece.may_follow(&route.before[gap], there + least + on, &route.after[gap + 1])
            {
                continue;
            }
            if self.reload_anywhere {
                self.short.push(Short { gap, by_load: false });
            }
            let begun = piece.join(vehicle, &route.before[gap], (from, visit), alone);
            if !piece.is_possible(&begun) {
                self.fell_short(gap, vehicle, || piece.is_late(vehicle, &begun, false));
                continue;
            }
            if !piece.may_follow(&begun, on, &route.after[gap + 1]) {
                continue;
            }
            let whole = piece.join(vehicle, &begun, (visit, to), &route.after[gap + 1]);
            if piece.allows(vehicle, &whole) {
                let cost = cost + piece.price(vehicle, &whole) - route.price;
                if cost < best.cost {
                    *best = Best { cost, route: index, position: gap + 1, calls: Calls::None };
                }
            } else {
                self.fell_short(gap, vehicle, || piece.is_late(vehicle, &whole, true));
            }
        }
        // A reload helps only where the visit fits in time and not by load.
        if self.short.is_empty() {
            return;
        }
        for &depot in &kind.reloads {
            let call = nodes.reload(depot);
            for at in 0..self.short.len() {
                let tried = [([call, visit], Calls::Before(call)), ([visit, call], Calls::After(call))];
                for (chain, calls) in tried {
                    if self.scan_with_calls(state, index, at, &chain, calls, best, random) {
                        self.short[at].by_load = false;
                    }
                }
            }
        }
        // Where no depot has all that is needed, two in a row may.
        for pair in 0..self.pairs[vehicle].len() {
            let [first, second] = self.pairs[vehicle][pair];
            for at in 0..self.short.len() {
                if self.short[at].by_load {
                    let before = ([first, second, visit], Calls::TwoBefore([first, second]));
                    let after = ([visit, first, second], Calls::TwoAfter([first, second]));
                    for (chain, calls) in [before, after] {
                        self.scan_with_calls(state, index, at, &chain, calls, best, random);
                    }
                }
            }
        }
    }

    /// The visit does not hold in the gap by itself.
    #[inline]
    fn fell_short(&mut self, gap: usize, vehicle: usize, late: impl Fn() -> bool) {
        if !self.reload_anywhere {
            if !late() {
                self.short.push(Short { gap, by_load: true });
            }
        } else if !self.pairs[vehicle].is_empty()
            && let Some(this) = self.short.last_mut()
        {
            this.by_load = !late();
        }
    }

    /// The visit with calls before or after it, so that it begins or ends a trip. Tells whether that holds.
    #[expect(clippy::too_many_arguments, reason = "what is tried, where, against what")]
    fn scan_with_calls<P: Piece>(
        &mut self,
        state: &State<'_, P>,
        index: usize,
        at: usize,
        chain: &[u32],
        calls: Calls,
        best: &mut Best,
        random: &mut Pcg64Mcg,
    ) -> bool {
        let (nodes, piece) = (state.nodes, state.piece);
        let route = &state.routes[index];
        let vehicle = route.vehicle;
        let gap = self.short[at].gap;
        let (from, to) = (route.nodes[gap], route.nodes[gap + 1]);
        let (first, last) = (chain[0], chain[chain.len() - 1]);
        // A visit covers nothing, and nothing needs to cover it.
        if nodes.covers(vehicle, from, first) || nodes.covers(vehicle, to, last) {
            return false;
        }
        let inside: i64 = chain.windows(2).map(|pair| nodes.distance(vehicle, pair[0], pair[1])).sum();
        let more = nodes.distance(vehicle, from, first) + inside + nodes.distance(vehicle, last, to)
            - i64::from(route.gaps[gap]);
        let cost = more * nodes.problem.vehicles[vehicle].distance_cost;
        if cost >= best.cost || more > i64::from(Matrix::NO_WAY / 2) || self.blinks(random) {
            return false;
        }
        let visit = if nodes.is_visit(first) { first } else { last };
        // Without what it takes at the depots.
        let ways: i64 = chain.windows(2).map(|pair| nodes.time(vehicle, pair[0], pair[1])).sum();
        let between = nodes.time(vehicle, from, first)
            + ways
            + piece.least_time(&piece.node(vehicle, visit))
            + nodes.time(vehicle, last, to);
        if !piece.may_follow(&route.before[gap], between, &route.after[gap + 1]) {
            return false;
        }
        let mut whole = route.before[gap];
        let mut last = from;
        for &node in chain {
            whole = piece.join(vehicle, &whole, (last, node), &piece.node(vehicle, node));
            last = node;
        }
        if !piece.is_possible(&whole) {
            return false;
        }
        whole = piece.join(vehicle, &whole, (last, to), &route.after[gap + 1]);
        if !piece.allows(vehicle, &whole) {
            return false;
        }
        let cost = cost + piece.price(vehicle, &whole) - route.price;
        if cost < best.cost {
            *best = Best { cost, route: index, position: gap + 1, calls };
        }
        true
    }

    /// Kind of a free vehicle that would take the visit alone at less than the best. One that begins in the midst of a trip may
    /// call at depots first.
    fn opening<P: Piece>(&self, state: &State<'_, P>, visit: u32, best: &mut Best) -> Option<usize> {
        let nodes = state.nodes;
        let mut opened = None;
        for (vehicle, kind) in nodes.problem.vehicles.iter().enumerate() {
            if state.free[vehicle] == 0 || !nodes.allowed(vehicle, visit as usize) {
                continue;
            }
            let mut take = |chain: &[u32], calls: Calls| {
                if let Some(cost) = alone(state, vehicle, chain, best.cost) {
                    *best = Best { cost, route: NO_ROUTE, position: 1, calls };
                    opened = Some(vehicle);
                }
            };
            take(&[visit], Calls::None);
            if kind.aboard.is_some() {
                for &depot in &kind.reloads {
                    let call = nodes.reload(depot);
                    take(&[call, visit], Calls::Before(call));
                }
                for &[first, second] in &self.pairs[vehicle] {
                    take(&[first, second, visit], Calls::TwoBefore([first, second]));
                }
            }
        }
        opened
    }
}

/// What a route of these stops alone costs, if it holds and costs less than that.
fn alone<P: Piece>(state: &State<'_, P>, vehicle: usize, chain: &[u32], less_than: i64) -> Option<i64> {
    let (nodes, piece) = (state.nodes, state.piece);
    let kind = &nodes.problem.vehicles[vehicle];
    let (start, end) = (nodes.start(vehicle), nodes.end(vehicle));
    let stops = || chain.iter().copied().chain([end]);
    let mut last = start;
    let mut distance = 0;
    for node in stops() {
        let way = nodes.distance(vehicle, last, node);
        if way > i64::from(Matrix::GREATEST) {
            return None;
        }
        distance += way;
        last = node;
    }
    let cost = kind.fixed_cost + kind.distance_cost * distance;
    if cost >= less_than {
        return None;
    }
    let mut whole = piece.node(vehicle, start);
    let mut last = start;
    for node in stops() {
        whole = piece.join(vehicle, &whole, (last, node), &piece.node(vehicle, node));
        last = node;
    }
    let cost = cost + piece.price(vehicle, &whole);
    (cost < less_than && piece.allows(vehicle, &whole)).then_some(cost)
}

/// Of each depot that lacks something (goods of a kind, a place for what was picked up), with the nearest that has it.
fn pairs(nodes: &Nodes<'_>, vehicle: usize) -> Vec<[u32; 2]> {
    let reloads = &nodes.problem.vehicles[vehicle].reloads;
    let has = |depot: usize| {
        let depot = &nodes.problem.depots[depot];
        [depot.gives[0], depot.gives[1], depot.takes]
    };
    let mut pairs = Vec::new();
    for &one in reloads {
        let first = nodes.reload(one);
        for what in (0..3).filter(|&what| !has(one)[what]) {
            let others = reloads.iter().filter(|&&other| has(other)[what]).map(|&other| nodes.reload(other));
            // Who has all that the first has does it alone.
            let others = others.filter(|&other| !nodes.covers(vehicle, other, first));
            let nearest = others.min_by_key(|&second| (nodes.distance(vehicle, first, second), second));
            pairs.extend(nearest.map(|second| [first, second]));
        }
    }
    pairs.sort_unstable();
    pairs.dedup();
    pairs
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
