//! What the truck must remember of the way it came, so that forbidden turns are not made.
//!
//! Forbidden ways are sequences of directed sections. The memory is the longest end of the way driven that begins one of
//! them: the states of the automaton of Aho and Corasick (1975), which Villeneuve and Desaulniers (2005) use for shortest
//! paths with forbidden paths. Nearly everywhere nothing need be remembered, and a state is a node.

use std::collections::{BTreeMap, VecDeque};

use model::place::Travel;
use model::road::{RoadNetwork, SectionId, TurnRule};

use model::district::TruckSize;

/// A section driven one way, as one number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Driven(pub u32);

impl Driven {
    pub fn new(section: SectionId, travel: Travel) -> Self {
        Driven(section.0 << 1 | u32::from(travel == Travel::Backward))
    }

    pub fn section(self) -> SectionId {
        SectionId(self.0 >> 1)
    }

    pub fn travel(self) -> Travel {
        if self.0 & 1 == 0 { Travel::Forward } else { Travel::Backward }
    }

    /// The node it leads to.
    pub fn head(self, roads: &RoadNetwork) -> u32 {
        let section = roads.section(self.section());
        if self.travel() == Travel::Forward { section.to.0 } else { section.from.0 }
    }
}

/// Memory of nothing.
const NOTHING: usize = 0;

/// States: first the nodes of the network, where nothing is remembered, then the ways remembered.
pub(crate) struct Turns {
    nodes: usize,
    /// By what is remembered and what is driven next.
    next: BTreeMap<(usize, Driven), usize>,
    /// For each memory the longest shorter one that it ends with.
    shorter: Vec<usize>,
    /// A forbidden way has been driven.
    forbidden: Vec<bool>,
    /// The node where each way remembered ends; that of [`NOTHING`] means nothing.
    node: Vec<u32>,
    /// States beside the node itself, by node.
    remembered_at: BTreeMap<u32, Vec<u32>>,
}

impl Turns {
    /// The states for a truck of that size. `leaving` tells which sections leave each node, usable or not.
    pub fn new(roads: &RoadNetwork, leaving: &[Vec<Driven>], truck: &TruckSize) -> Self {
        let mut turns = Turns {
            nodes: roads.nodes.len(),
            next: BTreeMap::new(),
            shorter: vec![NOTHING],
            forbidden: vec![false],
            node: vec![0],
            remembered_at: BTreeMap::new(),
        };
        for restriction in roads.restrictions.iter().filter(|restriction| restriction.holds_for.includes(truck)) {
            let path: Vec<Driven> = restriction.path.iter().map(|&(section, way)| Driven::new(section, way)).collect();
            if restriction.rule == TurnRule::No {
                turns.forbid(&path, roads);
                continue;
            }
            // Only this way: at each node on it every other way on is forbidden.
            for taken in 1..path.len() {
                for other in leaving[path[taken - 1].head(roads) as usize].iter().filter(|way| **way != path[taken]) {
                    let mut forbidden = path[..taken].to_vec();
                    forbidden.push(*other);
                    turns.forbid(&forbidden, roads);
                }
            }
        }
        turns.find_shorter();
        for memory in 1..turns.node.len() {
            let (node, state) = (turns.node[memory], turns.state(memory, 0));
            turns.remembered_at.entry(node).or_default().push(state);
        }
        turns
    }

    /// How many states there are.
    pub fn state_count(&self) -> usize {
        self.nodes + self.node.len() - 1
    }

    /// The node where a state is.
    pub fn node_of(&self, state: u32) -> u32 {
        if (state as usize) < self.nodes { state } else { self.node[self.memory(state)] }
    }

    /// The states at a node.
    pub fn states_at(&self, node: u32) -> impl Iterator<Item = u32> {
        std::iter::once(node).chain(self.remembered_at.get(&node).into_iter().flatten().copied())
    }

    /// The state after driving a section from a state; `None` where that is forbidden.
    pub fn after(&self, state: u32, driven: Driven, roads: &RoadNetwork) -> Option<u32> {
        let memory = self.memory_after(self.memory(state), driven);
        (!self.forbidden[memory]).then(|| self.state(memory, driven.head(roads)))
    }

    /// The state at the end of a section when nothing is known of the way before it.
    pub fn after_only(&self, driven: Driven, roads: &RoadNetwork) -> u32 {
        // A way of one section is never forbidden.
        self.state(self.memory_after(NOTHING, driven), driven.head(roads))
    }

    fn forbid(&mut self, path: &[Driven], roads: &RoadNetwork) {
        let mut memory = NOTHING;
        for &driven in path {
            memory = *self.next.entry((memory, driven)).or_insert_with(|| {
                self.node.push(driven.head(roads));
                self.shorter.push(NOTHING);
                self.forbidden.push(false);
                self.node.len() - 1
            });
        }
        self.forbidden[memory] = true;
    }

    fn find_shorter(&mut self) {
        let mut onward: Vec<Vec<(Driven, usize)>> = vec![Vec::new(); self.node.len()];
        for (&(memory, driven), &next) in &self.next {
            onward[memory].push((driven, next));
        }
        let mut queue: VecDeque<usize> = onward[NOTHING].iter().map(|(_, next)| *next).collect();
        while let Some(memory) = queue.pop_front() {
            for &(driven, next) in &onward[memory] {
                let shorter = self.memory_after(self.shorter[memory], driven);
                self.shorter[next] = shorter;
                self.forbidden[next] |= self.forbidden[shorter];
                queue.push_back(next);
            }
        }
    }

    fn memory_after(&self, mut memory: usize, driven: Driven) -> usize {
        loop {
            if let Some(next) = self.next.get(&(memory, driven)) {
                return *next;
            }
            if memory == NOTHING {
                return NOTHING;
            }
            memory = self.shorter[memory];
        }
    }

    fn memory(&self, state: u32) -> usize {
        (state as usize + 1).saturating_sub(self.nodes)
    }

    fn state(&self, memory: usize, node: u32) -> u32 {
        if memory == NOTHING { node } else { (self.nodes + memory - 1) as u32 }
    }
}
