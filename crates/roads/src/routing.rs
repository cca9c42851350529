//! The graph the truck drives on, and its contraction hierarchy.
//!
//! Nodes are the network's nodes, arcs its sections in the directions traffic is allowed, weights milliseconds of
//! truck travel. The truck may turn round at nodes (junctions and dead ends), so a node is all a path has to remember.

use cch::graph::Graph;
use cch::{Cch, CchView, INF_WEIGHT, Metric, PathQuery, inertial_order};
use model::place::Travel;
use model::quantity::{InRatio, InVelocity};
use model::road::{Flow, RoadNetwork, RoadSection, SectionId};

use crate::geometry::Geometry;
use crate::network::TruckSpeeds;

/// No section takes longer than this, so that sums stay below the library's mark for "unreachable" (2^31 - 1 ms).
const GREATEST_SECTION_MS: u32 = 1 << 30;

pub(crate) struct RoutingGraph {
    /// Arcs from each node, compressed rows; within a row by head.
    first_out: Vec<u32>,
    head: Vec<u32>,
    /// The section and direction of each arc.
    driven: Vec<(SectionId, Travel)>,
    /// Milliseconds the truck takes for each section.
    section_ms: Vec<u32>,
    hierarchy: Cch,
    metric: Metric,
}

struct Arc {
    tail: u32,
    head: u32,
    ms: u32,
    section: SectionId,
    travel: Travel,
}

impl RoutingGraph {
    pub fn new(roads: &RoadNetwork, geometries: &[Geometry], truck: TruckSpeeds) -> Self {
        let section_ms: Vec<u32> =
            roads.sections.iter().zip(geometries).map(|(s, g)| milliseconds(s, g.length(), truck)).collect();
        let arcs = fastest_arcs(roads, &section_ms);
        let node_count = roads.nodes.len();
        let mut first_out = vec![0; node_count + 1];
        for arc in &arcs {
            first_out[arc.tail as usize + 1] += 1;
        }
        for node in 0..node_count {
            first_out[node + 1] += first_out[node];
        }
        let tail: Vec<u32> = arcs.iter().map(|arc| arc.tail).collect();
        let graph = Graph {
            first_out,
            head: arcs.iter().map(|arc| arc.head).collect(),
            weight: arcs.iter().map(|arc| arc.ms).collect(),
        };
        let latitude: Vec<f32> = roads.nodes.iter().map(|place| place.lat as f32).collect();
        let longitude: Vec<f32> = roads.nodes.iter().map(|place| place.lon as f32).collect();
        let order = if node_count == 0 {
            // The library panics on a graph without nodes.
            Vec::new()
        } else {
            inertial_order(node_count as u32, &tail, &graph.head, &latitude, &longitude)
        };
        let hierarchy = Cch::build(&graph, &order);
        let metric = hierarchy.customize(&graph.weight);
        RoutingGraph {
            first_out: graph.first_out,
            head: graph.head,
            driven: arcs.iter().map(|arc| (arc.section, arc.travel)).collect(),
            section_ms,
            hierarchy,
            metric,
        }
    }

    /// Milliseconds the truck takes for a whole section.
    pub fn section_ms(&self, section: SectionId) -> u32 {
        self.section_ms[section.0 as usize]
    }

    /// Milliseconds from each source node to each target node, row by row; `None` where no road leads there.
    pub fn node_matrix(&self, sources: &[u32], targets: &[u32]) -> Vec<Option<u32>> {
        let flat = cch::distance_matrix(&self.hierarchy.view(), &self.metric.view(), sources, targets);
        flat.into_iter().map(|ms| (ms < INF_WEIGHT).then_some(ms)).collect()
    }

    /// The view that path queries borrow; cheap.
    pub fn view(&self) -> CchView<'_> {
        self.hierarchy.view()
    }

    /// The sections of the fastest path between two nodes; `None` where no road leads there.
    pub fn sections_between(
        &self,
        query: &mut PathQuery<'_>,
        source: u32,
        target: u32,
    ) -> Option<Vec<(SectionId, Travel)>> {
        let nodes = query.path(&self.metric.view(), source, target)?;
        nodes.windows(2).map(|pair| self.arc_between(pair[0], pair[1])).collect()
    }

    fn arc_between(&self, tail: u32, head: u32) -> Option<(SectionId, Travel)> {
        let row = self.first_out[tail as usize] as usize..self.first_out[tail as usize + 1] as usize;
        let index = self.head[row.clone()].binary_search(&head).ok()?;
        Some(self.driven[row.start + index])
    }
}

/// Whether a section may be driven that way.
pub(crate) fn allows(flow: Flow, travel: Travel) -> bool {
    matches!((flow, travel), (Flow::Both, _) | (Flow::Forward, Travel::Forward) | (Flow::Backward, Travel::Backward))
}

fn milliseconds(section: &RoadSection, length_m: f64, truck: TruckSpeeds) -> u32 {
    let limit = section.speed.in_metres_per_second() * truck.factor.in_fraction();
    let speed = limit.min(truck.max.in_metres_per_second());
    // A cast from a float saturates, so even an absurdly slow speed is safe. At least one: a way with no time at all
    // would make ties of ways that differ.
    ((length_m / speed * 1000.0).round() as u32).clamp(1, GREATEST_SECTION_MS)
}

/// Arcs by tail and head, of parallel ones only the fastest (of equally fast ones the lowest section).
fn fastest_arcs(roads: &RoadNetwork, section_ms: &[u32]) -> Vec<Arc> {
    let mut arcs = Vec::new();
    for (section, &ms) in roads.sections.iter().zip(section_ms) {
        // A loop leads back to where it began: no shortest path uses it.
        if section.from == section.to {
            continue;
        }
        for (travel, tail, head) in
            [(Travel::Forward, section.from.0, section.to.0), (Travel::Backward, section.to.0, section.from.0)]
        {
            if allows(section.flow, travel) {
                arcs.push(Arc { tail, head, ms, section: section.id, travel });
            }
        }
    }
    arcs.sort_by_key(|arc| (arc.tail, arc.head, arc.ms, arc.section));
    arcs.dedup_by_key(|arc| (arc.tail, arc.head));
    arcs
}
