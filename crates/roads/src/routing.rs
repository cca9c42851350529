//! The graph the truck drives on, and its contraction hierarchy.
//!
//! Nodes are the [states](crate::turns) of the truck, nearly everywhere the network's nodes; arcs its sections in the
//! directions traffic is allowed and the truck fits, weighed by travel time. The truck may turn round at nodes (junctions
//! and dead ends) where no restriction forbids it.

use model::district::TruckSize;
use model::place::Travel;
use model::quantity::{InRatio, InVelocity};
use model::road::{Flow, RoadNetwork, RoadSection, SectionId};

use crate::cost::{Cost, CostScale, UNREACHABLE};
use crate::geometry::Geometry;
use crate::hierarchy::{ArcRows, Hierarchy};
use crate::network::TruckSpeeds;
use crate::turns::{Driven, Turns};

pub(crate) struct RoutingGraph {
    turns: Turns,
    arcs: ArcRows,
    /// What is driven along each arc.
    driven: Vec<Driven>,
    /// Milliseconds the truck takes for each section.
    section_ms: Vec<f64>,
    scale: CostScale,
    hierarchy: Hierarchy,
}

struct Arc {
    tail: u32,
    head: u32,
    cost: Cost,
    driven: Driven,
}

impl RoutingGraph {
    pub fn new(roads: &RoadNetwork, geometries: &[Geometry], speeds: TruckSpeeds, size: &TruckSize) -> Self {
        let section_ms: Vec<f64> =
            roads.sections.iter().zip(geometries).map(|(s, g)| milliseconds(s, g.length(), speeds)).collect();
        let scale = CostScale::new(geometries.iter().map(Geometry::length).sum());
        let cost = |section: SectionId| {
            let index = section.0 as usize;
            let barred = roads.section(section).truck.bars(size).is_some();
            if barred { UNREACHABLE } else { scale.section(section_ms[index], geometries[index].length()) }
        };
        let leaving = leaving(roads);
        let turns = Turns::new(roads, &leaving, size);
        let best = cheapest_arcs(roads, &turns, &leaving, &cost);
        let mut first_out = vec![0; turns.state_count() + 1];
        for arc in &best {
            first_out[arc.tail as usize + 1] += 1;
        }
        for state in 0..turns.state_count() {
            first_out[state + 1] += first_out[state];
        }
        let arcs = ArcRows {
            first_out,
            head: best.iter().map(|arc| arc.head).collect(),
            cost: best.iter().map(|arc| arc.cost).collect(),
        };
        let place_of = |state: u32| {
            let place = roads.nodes[turns.node_of(state) as usize];
            (place.lat, place.lon)
        };
        let hierarchy = Hierarchy::new(&arcs, &place_of, &roads.contraction_order);
        RoutingGraph { driven: best.iter().map(|arc| arc.driven).collect(), turns, arcs, section_ms, scale, hierarchy }
    }

    /// The order of contraction.
    pub fn order(&self) -> &[u32] {
        self.hierarchy.order()
    }

    /// How metres and milliseconds are written as a cost.
    pub fn scale(&self) -> CostScale {
        self.scale
    }

    /// What the truck pays for a part of a section of that whole length.
    pub fn part(&self, section: SectionId, metres: f64, whole: f64) -> Cost {
        self.scale.part(self.section_ms[section.0 as usize] * metres / whole, metres)
    }

    /// The state at the end of a section that the truck began between its ends.
    pub fn state_after(&self, section: SectionId, travel: Travel, roads: &RoadNetwork) -> u32 {
        self.turns.after_only(Driven::new(section, travel), roads)
    }

    /// The states from which the truck may turn into a section.
    pub fn states_before(&self, section: SectionId, travel: Travel, roads: &RoadNetwork) -> Vec<u32> {
        let driven = Driven::new(section, travel);
        let node = Driven::new(section, travel.opposite()).head(roads);
        self.turns.states_at(node).filter(|state| self.turns.after(*state, driven, roads).is_some()).collect()
    }

    /// Costs from each source state to each target state, row by row; [`UNREACHABLE`] where no road leads there.
    pub fn costs(&self, sources: &[u32], targets: &[u32]) -> Vec<Cost> {
        self.hierarchy.costs(sources, targets)
    }

    /// The sections of the cheapest path between two states; `None` where no road leads there.
    pub fn sections_between(&self, source: u32, target: u32) -> Option<Vec<(SectionId, Travel)>> {
        let states = self.hierarchy.path(&self.arcs, source, target)?;
        let driven = |pair: &[u32]| Some(self.driven[self.arcs.find(pair[0], pair[1])?]);
        states.windows(2).map(|pair| driven(pair).map(|driven| (driven.section(), driven.travel()))).collect()
    }

    /// Every arc: from state, to state, milliseconds. Sections that the truck may not drive are left out.
    pub fn arcs(&self) -> impl Iterator<Item = (u32, u32, u32)> {
        (0..self.arcs.node_count()).flat_map(move |tail| {
            let row = self.arcs.first_out[tail] as usize..self.arcs.first_out[tail + 1] as usize;
            row.filter(|arc| self.arcs.cost[*arc] < UNREACHABLE)
                .map(move |arc| (tail as u32, self.arcs.head[arc], crate::cost::milliseconds(self.arcs.cost[arc])))
        })
    }

    /// How many states there are, and the node of each.
    pub fn state_nodes(&self) -> impl Iterator<Item = u32> {
        (0..self.turns.state_count() as u32).map(|state| self.turns.node_of(state))
    }
}

/// Whether a section may be driven that way.
pub(crate) fn allows(flow: Flow, travel: Travel) -> bool {
    matches!((flow, travel), (Flow::Both, _) | (Flow::Forward, Travel::Forward) | (Flow::Backward, Travel::Backward))
}

fn milliseconds(section: &RoadSection, length_m: f64, truck: TruckSpeeds) -> f64 {
    let limit = section.speed.in_metres_per_second();
    let driven = section.truck.driving_speed.map_or(limit * truck.factor.in_fraction(), |known| {
        // Known or not, no faster than the limit.
        known.in_metres_per_second().min(limit)
    });
    let speed = driven.min(truck.max.in_metres_per_second());
    (length_m / speed * 1000.0).round().max(1.0)
}

/// What leaves each node.
fn leaving(roads: &RoadNetwork) -> Vec<Vec<Driven>> {
    let mut leaving = vec![Vec::new(); roads.nodes.len()];
    for section in &roads.sections {
        for (travel, tail) in [(Travel::Forward, section.from), (Travel::Backward, section.to)] {
            if allows(section.flow, travel) {
                leaving[tail.0 as usize].push(Driven::new(section.id, travel));
            }
        }
    }
    leaving
}

/// Arcs by tail and head, of parallel ones only the cheapest (of equally cheap ones the lowest section).
fn cheapest_arcs(
    roads: &RoadNetwork,
    turns: &Turns,
    leaving: &[Vec<Driven>],
    cost: &dyn Fn(SectionId) -> Cost,
) -> Vec<Arc> {
    let mut arcs = Vec::new();
    for tail in 0..turns.state_count() as u32 {
        for &driven in &leaving[turns.node_of(tail) as usize] {
            let Some(head) = turns.after(tail, driven, roads) else { continue };
            // Back where it began, with nothing forgotten or learnt: no cheapest path uses it.
            if head != tail {
                arcs.push(Arc { tail, head, cost: cost(driven.section()), driven });
            }
        }
    }
    arcs.sort_by_key(|arc| (arc.tail, arc.head, arc.cost, arc.driven));
    arcs.dedup_by_key(|arc| (arc.tail, arc.head));
    arcs
}
