//! A customizable contraction hierarchy (Dibbelt, Strasser, Wagner 2016) over the library's order and structure, with
//! costs of time and length together, ways from many places to many at once, and the way itself.

use cch::graph::Graph;
use cch::{Cch, inertial_order};

use crate::cost::{Cost, UNREACHABLE};

/// So many sources are swept over the targets' part of the hierarchy together: it is the reading of the arcs that takes
/// the time, and the additions of one cache line go in parallel.
const LANES: usize = 8;

/// Marks a node without parent, or one that is not among those looked at.
const NONE: u32 = u32::MAX;

/// A directed graph: arcs by tail, within a tail by head, none twice, none from a node to itself.
pub(crate) struct ArcRows {
    pub first_out: Vec<u32>,
    pub head: Vec<u32>,
    pub cost: Vec<Cost>,
}

impl ArcRows {
    /// The arc between two nodes.
    pub fn find(&self, tail: u32, head: u32) -> Option<usize> {
        let row = self.first_out[tail as usize] as usize..self.first_out[tail as usize + 1] as usize;
        self.head[row.clone()].binary_search(&head).ok().map(|index| row.start + index)
    }

    pub fn node_count(&self) -> usize {
        self.first_out.len() - 1
    }
}

/// The hierarchy. Inside, nodes are numbered by rank: each arc goes from a lower to a higher node and has two costs.
pub(crate) struct Hierarchy {
    rank: Vec<u32>,
    order: Vec<u32>,
    /// The lowest higher neighbour; every higher neighbour is among its own ancestors.
    parent: Vec<u32>,
    first_up: Vec<u32>,
    head: Vec<u32>,
    /// Cost of going up each arc.
    up: Vec<Cost>,
    /// Cost of coming down it.
    down: Vec<Cost>,
    /// Arcs from below into each node.
    first_below: Vec<u32>,
    below: Vec<u32>,
    /// The arc of each of them.
    below_arc: Vec<u32>,
}

impl Hierarchy {
    /// Orders the nodes by cutting the map in halves (`place_of` is degrees of latitude and longitude), unless a usable
    /// order is given, and works out the shortcuts.
    pub fn new(arcs: &ArcRows, place_of: &dyn Fn(u32) -> (f64, f64), order: &[u32]) -> Self {
        let count = arcs.node_count();
        let tails =
            || (0..count).flat_map(|tail| (arcs.first_out[tail]..arcs.first_out[tail + 1]).map(move |_| tail as u32));
        let order = if is_order(order, count) {
            // That of a graph without nodes too, on which the library panics.
            order.to_vec()
        } else {
            let (latitude, longitude): (Vec<f32>, Vec<f32>) =
                (0..count as u32).map(place_of).map(|(lat, lon)| (lat as f32, lon as f32)).unzip();
            let tail: Vec<u32> = tails().collect();
            inertial_order(count as u32, &tail, &arcs.head, &latitude, &longitude)
        };
        let graph =
            Graph { first_out: arcs.first_out.clone(), head: arcs.head.clone(), weight: vec![0; arcs.head.len()] };
        let built = Cch::build(&graph, &order);
        let mut hierarchy = Hierarchy {
            up: vec![UNREACHABLE; built.up_head.len()],
            down: vec![UNREACHABLE; built.up_head.len()],
            rank: built.rank,
            order: built.order,
            parent: built.elimination_tree_parent,
            first_up: built.up_first_out,
            head: built.up_head,
            first_below: built.down_first_out,
            below: built.down_head,
            below_arc: built.down_to_up,
        };
        for (arc, tail) in tails().enumerate() {
            let (from, to) = (hierarchy.rank[tail as usize], hierarchy.rank[arcs.head[arc] as usize]);
            if let Some(own) = hierarchy.arc(from.min(to), from.max(to)) {
                let costs = if from < to { &mut hierarchy.up } else { &mut hierarchy.down };
                costs[own] = costs[own].min(arcs.cost[arc]);
            }
        }
        hierarchy.customize();
        hierarchy
    }

    /// Nodes in the order of contraction.
    pub fn order(&self) -> &[u32] {
        &self.order
    }

    /// From the lowest node on: a way over it between two higher neighbours is a way along the arc between them.
    fn customize(&mut self) {
        for low in 0..self.parent.len() {
            let row = self.row(low);
            for first in row.clone() {
                let (to_first, from_first) = (self.up[first], self.down[first]);
                let mut between = self.row(self.head[first] as usize).start;
                for second in first + 1..row.end {
                    // Both rows are in rising order, and the upper row has every head of the lower one.
                    while self.head[between] != self.head[second] {
                        between += 1;
                    }
                    self.up[between] = self.up[between].min(from_first + self.up[second]);
                    self.down[between] = self.down[between].min(self.down[second] + to_first);
                }
            }
        }
    }

    /// Costs from each source to each target, row by row.
    ///
    /// The part of the hierarchy that leads down to the targets is taken out once and swept from the top for several
    /// sources at a time (Delling, Goldberg, Werneck 2011).
    pub fn costs(&self, sources: &[u32], targets: &[u32]) -> Vec<Cost> {
        let part = Part::above(self, targets);
        let ends: Vec<usize> =
            targets.iter().map(|target| part.place[self.rank[*target as usize] as usize] as usize).collect();
        let mut above = vec![UNREACHABLE; self.parent.len()];
        let mut found = vec![[UNREACHABLE; LANES]; part.nodes.len()];
        let mut costs = Vec::with_capacity(sources.len() * targets.len());
        for batch in sources.chunks(LANES) {
            found.fill([UNREACHABLE; LANES]);
            for (lane, source) in batch.iter().enumerate() {
                self.climb(*source, &mut above, &mut |node, cost| {
                    if let Some(place) = part.place_of(node) {
                        found[place][lane] = cost;
                    }
                });
            }
            part.sweep(&mut found);
            for (lane, _) in batch.iter().enumerate() {
                costs.extend(ends.iter().map(|end| found[*end][lane]));
            }
        }
        costs
    }

    /// Visits the nodes above a source with the costs of going up to them. `above` is all [`UNREACHABLE`] before and after.
    fn climb(&self, source: u32, above: &mut [Cost], visit: &mut dyn FnMut(u32, Cost)) {
        let mut node = self.rank[source as usize];
        above[node as usize] = 0;
        while node != NONE {
            let cost = std::mem::replace(&mut above[node as usize], UNREACHABLE);
            visit(node, cost);
            if cost < UNREACHABLE {
                for arc in self.row(node as usize) {
                    let head = &mut above[self.head[arc] as usize];
                    *head = (*head).min(cost + self.up[arc]);
                }
            }
            node = self.parent[node as usize];
        }
    }

    /// The nodes of the cheapest way, both ends included; `None` where no way leads there.
    pub fn path(&self, arcs: &ArcRows, source: u32, target: u32) -> Option<Vec<u32>> {
        let up = self.climbed(source, &self.up);
        let down = self.climbed(target, &self.down);
        let meet = |step: &Climbed| {
            let other = down.binary_search_by_key(&step.node, |other| other.node).ok()?;
            Some(step.cost + down[other].cost)
        };
        let top = up.iter().filter_map(|step| Some((meet(step)?, step.node))).min()?;
        if top.0 >= UNREACHABLE {
            return None;
        }
        // From the top down the way comes back to each end.
        let mut ranks = trace(&up, top.1);
        ranks.reverse();
        ranks.extend(trace(&down, top.1).into_iter().skip(1));
        let mut path = vec![source];
        for pair in ranks.windows(2) {
            self.unpack(arcs, pair[0], pair[1], &mut path);
        }
        Some(path)
    }

    /// The nodes above one, each with its cost and the node below it on the way, from the lowest.
    fn climbed(&self, start: u32, costs: &[Cost]) -> Vec<Climbed> {
        let mut steps: Vec<Climbed> = Vec::new();
        let mut node = self.rank[start as usize];
        while node != NONE {
            steps.push(Climbed { node, cost: UNREACHABLE, from: NONE });
            node = self.parent[node as usize];
        }
        if let Some(first) = steps.first_mut() {
            first.cost = 0;
        }
        for index in 0..steps.len() {
            let step = steps[index];
            // Heads rise along the row as nodes do along the steps.
            let mut above = index + 1;
            for arc in self.row(step.node as usize) {
                while steps[above].node != self.head[arc] {
                    above += 1;
                }
                let cost = step.cost + costs[arc];
                if cost < steps[above].cost {
                    steps[above] = Climbed { node: steps[above].node, cost, from: step.node };
                }
            }
        }
        steps
    }

    /// Puts the nodes after `tail` on the cheapest way along one arc.
    fn unpack(&self, arcs: &ArcRows, tail: u32, head: u32, path: &mut Vec<u32>) {
        let mut rest = vec![(tail, head)];
        while let Some((tail, head)) = rest.pop() {
            let cost = self.cost_between(tail, head);
            let (from, to) = (self.order[tail as usize], self.order[head as usize]);
            if arcs.find(from, to).is_some_and(|arc| arcs.cost[arc] == cost) {
                path.push(to);
                continue;
            }
            let below_tail = self.first_below[tail as usize] as usize..self.first_below[tail as usize + 1] as usize;
            let over = below_tail.map(|place| (self.below[place], self.below_arc[place])).find(|&(low, arc)| {
                let second = self.arc(low, head);
                low < head && second.is_some_and(|second| self.down[arc as usize] + self.up[second] == cost)
            });
            // A shortcut always has a node below it; were it not so, the ends alone would be given.
            match over {
                Some((low, _)) => rest.extend([(low, head), (tail, low)]),
                None => path.push(to),
            }
        }
    }

    fn cost_between(&self, tail: u32, head: u32) -> Cost {
        let arc = self.arc(tail.min(head), tail.max(head));
        arc.map_or(UNREACHABLE, |arc| if tail < head { self.up[arc] } else { self.down[arc] })
    }

    fn row(&self, node: usize) -> std::ops::Range<usize> {
        self.first_up[node] as usize..self.first_up[node + 1] as usize
    }

    fn arc(&self, low: u32, high: u32) -> Option<usize> {
        let row = self.row(low as usize);
        self.head[row.clone()].binary_search(&high).ok().map(|index| row.start + index)
    }
}

/// A node above a start.
#[derive(Debug, Clone, Copy)]
struct Climbed {
    node: u32,
    cost: Cost,
    from: u32,
}

/// The nodes from the top back down to the start.
fn trace(steps: &[Climbed], top: u32) -> Vec<u32> {
    let mut nodes = Vec::new();
    let mut next = top;
    for step in steps.iter().rev() {
        if step.node == next {
            nodes.push(step.node);
            next = step.from;
        }
    }
    nodes
}

/// The nodes above some targets, from the highest, and the arcs down between them.
struct Part {
    nodes: Vec<u32>,
    /// For each node of the hierarchy its place among them.
    place: Vec<u32>,
    first: Vec<u32>,
    /// Where each arc comes down from, as a place, and at what cost.
    arcs: Vec<(u32, Cost)>,
}

impl Part {
    fn above(hierarchy: &Hierarchy, targets: &[u32]) -> Self {
        let mut place = vec![NONE; hierarchy.parent.len()];
        let mut nodes = Vec::new();
        for target in targets {
            let mut node = hierarchy.rank[*target as usize];
            while node != NONE && place[node as usize] == NONE {
                place[node as usize] = 0;
                nodes.push(node);
                node = hierarchy.parent[node as usize];
            }
        }
        nodes.sort_unstable_by(|a, b| b.cmp(a));
        for (index, node) in nodes.iter().enumerate() {
            place[*node as usize] = index as u32;
        }
        let (mut first, mut arcs) = (vec![0], Vec::new());
        for node in &nodes {
            let row = hierarchy.row(*node as usize).filter(|arc| hierarchy.down[*arc] < UNREACHABLE);
            arcs.extend(row.map(|arc| (place[hierarchy.head[arc] as usize], hierarchy.down[arc])));
            first.push(arcs.len() as u32);
        }
        Part { nodes, place, first, arcs }
    }

    fn place_of(&self, node: u32) -> Option<usize> {
        let place = self.place[node as usize];
        (place != NONE).then_some(place as usize)
    }

    /// Brings the costs down from the top.
    fn sweep(&self, found: &mut [[Cost; LANES]]) {
        for place in 0..self.nodes.len() {
            let (higher, here) = found.split_at_mut(place);
            let here = &mut here[0];
            for &(from, cost) in &self.arcs[self.first[place] as usize..self.first[place + 1] as usize] {
                for (own, other) in here.iter_mut().zip(&higher[from as usize]) {
                    *own = (*own).min(other + cost);
                }
            }
        }
    }
}

/// Whether it names each node once.
fn is_order(order: &[u32], count: usize) -> bool {
    let mut seen = vec![false; count];
    order.len() == count
        && order.iter().all(|node| seen.get_mut(*node as usize).is_some_and(|seen| !std::mem::replace(seen, true)))
}
