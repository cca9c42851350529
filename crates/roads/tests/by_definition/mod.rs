//! Driving with restrictions as their words say it: Dijkstra's algorithm (petgraph) on a graph whose nodes are the last
//! sections driven, so long that every restriction can be looked up in them.

use std::collections::BTreeMap;

use model::district::TruckSize;
use model::place::Travel;
use model::quantity::{InLength, InVelocity};
use model::road::{Flow, NodeId, RoadNetwork, SectionId, TurnRule};
use petgraph::graph::{DiGraph, NodeIndex};
use petgraph::visit::EdgeRef;
use roads::{AccessPlace, Network};

type Driven = (SectionId, Travel);

pub struct ByDefinition<'n> {
    network: &'n Network,
    size: TruckSize,
    /// So many sections are remembered.
    memory: usize,
    graph: DiGraph<Vec<Driven>, u64>,
    known: BTreeMap<Vec<Driven>, NodeIndex>,
}

impl<'n> ByDefinition<'n> {
    pub fn new(network: &'n Network, size: TruckSize) -> Self {
        let longest = network.roads().restrictions.iter().map(|restriction| restriction.path.len()).max();
        let memory = longest.map_or(1, |longest| longest - 1);
        let mut found = ByDefinition { network, size, memory, graph: DiGraph::new(), known: BTreeMap::new() };
        let mut rest: Vec<Vec<Driven>> = found.driven().map(|driven| vec![driven]).collect();
        while let Some(history) = rest.pop() {
            let from = found.node(&history);
            for next in found.onward(&history) {
                let mut after = history.clone();
                after.push(next);
                after.drain(..after.len().saturating_sub(found.memory));
                if !found.known.contains_key(&after) {
                    rest.push(after.clone());
                }
                let to = found.node(&after);
                found.graph.add_edge(from, to, found.milliseconds(next.0));
            }
        }
        found
    }

    /// Milliseconds from a place to others; `None` where no way leads there.
    pub fn times(&self, from: &AccessPlace, others: &[AccessPlace]) -> Vec<Option<f64>> {
        let mut best: BTreeMap<NodeIndex, f64> = BTreeMap::new();
        for travel in self.travels(from) {
            let start = self.known[&vec![(from.position.section, travel)]];
            let leg = self.leg(from, travel, true);
            for (node, ms) in petgraph::algo::dijkstra(&self.graph, start, None, |edge| *edge.weight()) {
                let ms = leg + ms as f64;
                best.entry(node).and_modify(|known| *known = known.min(ms)).or_insert(ms);
            }
        }
        others.iter().map(|to| if to == from { Some(0.0) } else { self.time(from, to, &best) }).collect()
    }

    fn time(&self, from: &AccessPlace, to: &AccessPlace, best: &BTreeMap<NodeIndex, f64>) -> Option<f64> {
        let mut times = Vec::new();
        for travel in self.travels(to) {
            let (here, there) = (from.position.chainage, to.position.chainage);
            let ahead = if travel == Travel::Forward { there >= here } else { there <= here };
            if from.position.section == to.position.section && ahead && self.travels(from).any(|own| own == travel) {
                times.push(self.part(from.position.section, (there - here).in_metres().abs()));
            }
            let into = (to.position.section, travel);
            for (node, ms) in best {
                let turns_in = self.graph.edges(*node).any(|edge| self.graph[edge.target()].last() == Some(&into));
                if turns_in {
                    times.push(ms + self.leg(to, travel, false));
                }
            }
        }
        times.into_iter().min_by(f64::total_cmp)
    }

    /// What may be driven after that, by the words of the restrictions.
    fn onward(&self, history: &[Driven]) -> Vec<Driven> {
        let here = self.head(history[history.len() - 1]);
        let tail = |(section, travel): Driven| self.head((section, travel.opposite()));
        let allowed = |next: &Driven| {
            self.roads().restrictions.iter().filter(|restriction| restriction.holds_for.includes(&self.size)).all(
                |restriction| {
                    let path = &restriction.path;
                    (1..path.len()).filter(|taken| history.ends_with(&path[..*taken])).all(|taken| {
                        match restriction.rule {
                            TurnRule::No => taken + 1 < path.len() || *next != path[taken],
                            TurnRule::Only => *next == path[taken],
                        }
                    })
                },
            )
        };
        self.driven().filter(|next| tail(*next) == here).filter(allowed).collect()
    }

    fn node(&mut self, history: &[Driven]) -> NodeIndex {
        let graph = &mut self.graph;
        *self.known.entry(history.to_vec()).or_insert_with(|| graph.add_node(history.to_vec()))
    }

    fn driven(&self) -> impl Iterator<Item = Driven> + use<'n> {
        let (roads, size) = (self.network.roads(), self.size);
        let usable = roads.sections.iter().filter(move |section| section.truck.bars(&size).is_none());
        usable.flat_map(|section| {
            let ways: &[Travel] = match section.flow {
                Flow::Both => &[Travel::Forward, Travel::Backward],
                Flow::Forward => &[Travel::Forward],
                Flow::Backward => &[Travel::Backward],
            };
            ways.iter().map(|travel| (section.id, *travel))
        })
    }

    fn travels(&self, place: &AccessPlace) -> impl Iterator<Item = Travel> {
        let own = self.driven().filter(|driven| driven.0 == place.position.section);
        own.map(|driven| driven.1).filter(|travel| place.both_ways || *travel == place.position.travel)
    }

    fn leg(&self, place: &AccessPlace, travel: Travel, out: bool) -> f64 {
        let length = self.network.length(place.position.section).in_metres();
        let here = place.position.chainage.in_metres();
        let to_end = (travel == Travel::Forward) == out;
        self.part(place.position.section, if to_end { length - here } else { here })
    }

    fn part(&self, section: SectionId, metres: f64) -> f64 {
        self.milliseconds(section) as f64 * metres / self.network.length(section).in_metres()
    }

    fn milliseconds(&self, section: SectionId) -> u64 {
        let speed = self.roads().section(section).speed.in_metres_per_second();
        (self.network.length(section).in_metres() / speed * 1000.0).round().max(1.0) as u64
    }

    fn head(&self, (section, travel): Driven) -> NodeId {
        let section = self.roads().section(section);
        if travel == Travel::Forward { section.to } else { section.from }
    }

    fn roads(&self) -> &RoadNetwork {
        self.network.roads()
    }
}
