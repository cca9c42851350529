//! What is on board where depots differ: one gives both kinds of goods and takes what was picked up, another gives one of
//! them, a third only takes.
//!
//! At any stop of a stretch the load is made of what later stops will be brought, up to the next depot that gives it, and
//! of what earlier stops gave, back to the last depot that takes it. What lies outside the stretch is not known yet, so a
//! peak is kept for each combination of what may still come on top: first goods, second goods, pickups. A join then fills
//! in what the other side knows. After T. Vidal, T. G. Crainic, M. Gendreau, C. Prins, "A unified solution framework for
//! multi-attribute vehicle routing problems", European Journal of Operational Research 234 (3), 2014, from memory, whose
//! three sums are the case without depots inside; the eight peaks are ours.

use super::{Joint, Piece};
use crate::nodes::{Kind, Nodes};

/// What may still come on top of a peak, as bits: goods of the first kind, of the second, pickups.
const OPEN: usize = 8;
/// The bit of pickups.
const PICKUP: usize = 4;
/// No such stop in the stretch.
const NONE: i64 = i64::MIN / 4;

pub(crate) struct Stock<'a, const D: usize> {
    nodes: &'a Nodes<'a>,
    visits: Vec<Held<D>>,
    capacity: Vec<[i64; D]>,
}

/// Of a stretch.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Held<const D: usize> {
    /// Whether a depot of the stretch gives each kind of goods.
    gives: [bool; 2],
    /// Whether one takes what was picked up.
    takes: bool,
    /// Whether a depot gives each kind of goods up to the first that takes.
    gives_by_take: [bool; 2],
    reloads: u32,
    loads: [Dimension; D],
}

#[derive(Debug, Clone, Copy)]
struct Dimension {
    /// Brought before the first depot that gives it, by kind.
    delivery: [i64; 2],
    /// Picked up after the last depot that takes.
    pickup: i64,
    /// Most on board, by what may still come on top.
    peak: [i64; OPEN],
}

impl Dimension {
    const NOTHING: Self = Self { delivery: [0; 2], pickup: 0, peak: [NONE; OPEN] };
}

impl<'a, const D: usize> Stock<'a, D> {
    pub(crate) fn new(nodes: &'a Nodes<'a>) -> Self {
        let problem = nodes.problem;
        let at = |amounts: &[i64], index: usize| amounts.get(index).copied().unwrap_or(0);
        let visits = problem.visits.iter().map(|visit| {
            let loads = std::array::from_fn(|index| {
                let delivery = [at(&visit.delivery, index), at(&visit.second_delivery, index)];
                let (brought, pickup) = (delivery[0] + delivery[1], at(&visit.pickup, index));
                let most = if problem.pickup_first { brought + pickup } else { brought.max(pickup) };
                let mut peak = [NONE; OPEN];
                peak[OPEN - 1] = most;
                Dimension { delivery, pickup, peak }
            });
            Held { gives: [false; 2], takes: false, gives_by_take: [false; 2], reloads: 0, loads }
        });
        let capacity = problem.vehicles.iter().map(|kind| {
            std::array::from_fn(|index| kind.capacity.get(index).copied().unwrap_or(crate::problem::GREATEST))
        });
        Self { nodes, visits: visits.collect(), capacity: capacity.collect() }
    }

    /// Most on board, with what came before and what comes after filled in.
    fn most(load: &Dimension, later: [i64; 2], earlier: i64) -> i64 {
        let on_top = |open: usize| {
            let sources = [later[0], later[1], earlier];
            sources.iter().enumerate().filter(|&(bit, _)| open >> bit & 1 == 1).map(|(_, more)| more).sum::<i64>()
        };
        (0..OPEN).map(|open| load.peak[open] + on_top(open)).max().unwrap_or(NONE)
    }
}

impl<const D: usize> Piece for Stock<'_, D> {
    type Segment = Held<D>;

    const POSITIONAL: bool = true;

    fn node(&self, vehicle: usize, node: u32) -> Held<D> {
        let (gives, takes, reloads) = match self.nodes.kind(node) {
            Kind::Visit(visit) => return self.visits[visit],
            Kind::Reload(depot) => {
                let depot = &self.nodes.problem.depots[depot];
                (depot.gives, depot.takes, 1)
            }
            // What is on board at the start is loaded there, or is checked where the whole route is.
            Kind::Start(_) if self.nodes.problem.vehicles[vehicle].aboard.is_none() => ([true; 2], true, 0),
            Kind::Start(_) | Kind::End(_) => ([false; 2], false, 0),
        };
        // What is on board when it drives on: all that is to be brought, and what was picked up where that stays on board. The next
        // stop may be another depot, so no visit need tell it.
        let mut load = Dimension::NOTHING;
        load.peak[if takes { OPEN - 1 - PICKUP } else { OPEN - 1 }] = 0;
        Held { gives, takes, gives_by_take: gives, reloads, loads: [load; D] }
    }

    fn join(&self, _vehicle: usize, left: &Held<D>, _joint: Joint, right: &Held<D>) -> Held<D> {
        let loads = std::array::from_fn(|index| {
            let (one, other) = (&left.loads[index], &right.loads[index]);
            let mut peak = [NONE; OPEN];
            for open in 0..OPEN {
                // Goods that later stops need are on board of the left as far as the right has no depot before them.
                let mut most = one.peak[open];
                let mut now = open;
                for kind in 0..2 {
                    if open >> kind & 1 == 1 {
                        most += other.delivery[kind];
                        if right.gives[kind] {
                            now &= !(1 << kind);
                        }
                    }
                }
                peak[now] = peak[now].max(most);
                let mut most = other.peak[open];
                let mut now = open;
                if open & PICKUP > 0 {
                    most += one.pickup;
                    if left.takes {
                        now &= !PICKUP;
                    }
                }
                peak[now] = peak[now].max(most);
            }
            Dimension {
                delivery: std::array::from_fn(|kind| {
                    one.delivery[kind] + if left.gives[kind] { 0 } else { other.delivery[kind] }
                }),
                pickup: other.pickup + if right.takes { 0 } else { one.pickup },
                peak,
            }
        });
        Held {
            gives: std::array::from_fn(|kind| left.gives[kind] || right.gives[kind]),
            takes: left.takes || right.takes,
            gives_by_take: std::array::from_fn(|kind| {
                if left.takes { left.gives_by_take[kind] } else { left.gives[kind] || right.gives_by_take[kind] }
            }),
            reloads: left.reloads + right.reloads,
            loads,
        }
    }

    fn allows(&self, vehicle: usize, whole: &Held<D>) -> bool {
        let kind = &self.nodes.problem.vehicles[vehicle];
        let at = |amounts: &[i64], index: usize| amounts.get(index).copied().unwrap_or(0);
        whole.reloads as usize <= kind.greatest_reloads
            && (0..D).all(|index| {
                let load = &whole.loads[index];
                let Some(aboard) = &kind.aboard else {
                    return Self::most(load, [0; 2], 0) <= self.capacity[vehicle][index];
                };
                let goods = [at(&aboard.delivery, index), at(&aboard.second_delivery, index)];
                if (0..2).any(|kind| load.delivery[kind] > goods[kind]) {
                    return false;
                }
                // What is on board beyond need stays there: like what was picked up, as far as the depot that takes that
                // also gives anew; all day where another takes first.
                let (mut earlier, mut always) = (at(&aboard.pickup, index), 0);
                for (kind, on_board) in goods.iter().enumerate() {
                    let surplus = on_board - load.delivery[kind];
                    if whole.gives_by_take[kind] || !whole.takes { earlier += surplus } else { always += surplus }
                }
                Self::most(load, [0; 2], earlier) + always <= self.capacity[vehicle][index]
            })
    }
}
