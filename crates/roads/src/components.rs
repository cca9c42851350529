//! Pieces of the network that no road joins.

use model::quantity::{Length, metres};
use model::road::{RoadNetwork, RoadSection};

use crate::geometry::Geometry;
use crate::junctions::DisjointSets;

/// One piece of the network that is joined in itself (directions of traffic not regarded).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Component {
    /// How many nodes.
    pub nodes: usize,
    /// How many sections.
    pub sections: usize,
    /// Length of its sections.
    pub length: Length,
}

pub(crate) struct Components {
    list: Vec<Component>,
    of_node: Vec<usize>,
}

impl Components {
    pub fn new(roads: &RoadNetwork, geometries: &[Geometry]) -> Self {
        let mut sets = DisjointSets::new(roads.nodes.len());
        for section in &roads.sections {
            sets.unite(section.from.0 as usize, section.to.0 as usize);
        }
        let roots: Vec<usize> = (0..roads.nodes.len()).map(|node| sets.find(node)).collect();
        let mut of_root = vec![Component { nodes: 0, sections: 0, length: metres(0.0) }; roads.nodes.len()];
        for root in &roots {
            of_root[*root].nodes += 1;
        }
        for (section, geometry) in roads.sections.iter().zip(geometries) {
            let component = &mut of_root[roots[section.from.0 as usize]];
            component.sections += 1;
            component.length += metres(geometry.length());
        }
        let mut order: Vec<usize> = (0..of_root.len()).filter(|root| of_root[*root].nodes > 0).collect();
        order.sort_by(|a, b| of_root[*b].length.value.total_cmp(&of_root[*a].length.value).then(a.cmp(b)));
        let mut place = vec![0; of_root.len()];
        for (index, root) in order.iter().enumerate() {
            place[*root] = index;
        }
        Components {
            list: order.iter().map(|root| of_root[*root]).collect(),
            of_node: roots.iter().map(|root| place[*root]).collect(),
        }
    }

    pub fn list(&self) -> &[Component] {
        &self.list
    }

    pub fn of_section(&self, section: &RoadSection) -> usize {
        self.of_node[section.from.0 as usize]
    }
}
