//! What of a road lies between two places on it.

use std::collections::HashMap;

use model::place::{LonLat, RoadPosition, Travel};
use model::quantity::{InLength, metres};
use model::road::{NodeId, RoadSection, SectionId};
use petgraph::algo::astar;
use petgraph::graph::{NodeIndex, UnGraph};
use petgraph::visit::EdgeRef as _;

use crate::named::SectionStretch;
use crate::network::Network;

/// A metre of a road of another name counts as so many: two places on a road are joined along it, not by a short cut.
/// Common practice, no source.
const OTHER_ROAD: f64 = 3.0;
/// The way leaves the box around both places by no more than its size, and this, degrees: some five hundred metres.
const LEAST_BEYOND_DEG: f64 = 0.005;

/// A piece of road between two nodes of the search, from the first node of its edge to the second.
#[derive(Clone, Copy)]
struct Piece {
    section: SectionId,
    from_m: f64,
    to_m: f64,
    cost: f64,
}

impl Network {
    /// The stretches on the shortest way along accepted sections from one position to another, in their order; whichever way
    /// traffic may go. Sections of the road that one of the two lies on are preferred. Nothing where no way leads there.
    pub fn stretches_between(
        &self,
        from: &RoadPosition,
        to: &RoadPosition,
        accept: &dyn Fn(&RoadSection) -> bool,
    ) -> Vec<SectionStretch> {
        let mut graph: UnGraph<(), Piece> = UnGraph::default();
        let (start, goal) = (graph.add_node(()), graph.add_node(()));
        let mut nodes: HashMap<NodeId, NodeIndex> = HashMap::new();
        let [here, there] = [from, to].map(|at| self.point_at(at.section, at.chainage).0);
        let near = |node: NodeId| is_near(here, there, self.roads.nodes[node.0 as usize]);
        for section in self.roads.sections.iter().filter(|section| accept(section)) {
            let is_an_end = [from.section, to.section].contains(&section.id);
            if !is_an_end && [section.from, section.to].into_iter().any(|node| !near(node)) {
                continue;
            }
            let [a, b] =
                [section.from, section.to].map(|node| *nodes.entry(node).or_insert_with(|| graph.add_node(())));
            graph.add_edge(a, b, self.piece_of(section.id, 0.0, self.length(section.id).in_metres(), (from, to)));
        }
        for (end, at) in [(start, from), (goal, to)] {
            let (section, chainage_m) = (self.section(at.section), at.chainage.in_metres());
            let length_m = self.length(at.section).in_metres();
            for (node, node_m) in [(section.from, 0.0), (section.to, length_m)] {
                if let Some(node) = nodes.get(&node) {
                    graph.add_edge(end, *node, self.piece_of(at.section, chainage_m, node_m, (from, to)));
                }
            }
        }
        if from.section == to.section && accept(self.section(from.section)) {
            let (a, b) = (from.chainage.in_metres(), to.chainage.in_metres());
            graph.add_edge(start, goal, self.piece_of(from.section, a, b, (from, to)));
        }
        let found = astar(&graph, start, |node| node == goal, |edge| edge.weight().cost, |_| 0.0);
        let Some((_, way)) = found else { return Vec::new() };
        way.windows(2).filter_map(|step| driven(&graph, step[0], step[1])).collect()
    }

    fn piece_of(&self, section: SectionId, from_m: f64, to_m: f64, (a, b): (&RoadPosition, &RoadPosition)) -> Piece {
        let same_road = [a, b].iter().any(|end| end.section == section || self.same_road(end.section, section));
        let cost = (to_m - from_m).abs() * if same_road { 1.0 } else { OTHER_ROAD };
        Piece { section, from_m, to_m, cost }
    }
}

/// The shortest piece from one node to another that has a length.
fn driven(graph: &UnGraph<(), Piece>, from: NodeIndex, to: NodeIndex) -> Option<SectionStretch> {
    let shortest = graph.edges_connecting(from, to).min_by(|a, b| a.weight().cost.total_cmp(&b.weight().cost))?;
    let Piece { section, from_m, to_m, .. } = *shortest.weight();
    // an edge is followed from its first node to its second, or the other way
    let along = graph.edge_endpoints(shortest.id())?.0 == from;
    let direction = if (to_m >= from_m) == along { Travel::Forward } else { Travel::Backward };
    let (from, to) = (metres(from_m.min(to_m)), metres(from_m.max(to_m)));
    (from < to).then_some(SectionStretch { section, from, to, direction })
}

/// Whether a place is no further from the box around two others than the box is large.
fn is_near(a: LonLat, b: LonLat, place: LonLat) -> bool {
    let east = |lon: f64| (lon - a.lon + 540.0).rem_euclid(360.0) - 180.0;
    let shrink = a.lat.to_radians().cos().max(0.01);
    let (x, y) = (east(b.lon) * shrink, b.lat - a.lat);
    let (px, py) = (east(place.lon) * shrink, place.lat - a.lat);
    let beyond = x.abs().max(y.abs()).max(LEAST_BEYOND_DEG);
    let inside = |end: f64, at: f64| (end.min(0.0) - beyond..=end.max(0.0) + beyond).contains(&at);
    inside(x, px) && inside(y, py)
}
