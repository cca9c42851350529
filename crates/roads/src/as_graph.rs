//! The routing graph as plain arcs, for comparing with other programs.

use model::place::LonLat;

use crate::access::AccessPlace;
use crate::cost::milliseconds;
use crate::network::Network;

/// The graph that [`Network::matrix`] is worked out on, with two nodes of its own for each place: the fastest way from the
/// one that leaves to the one that is reached is the matrix' entry.
#[derive(Debug, Clone, PartialEq)]
pub struct PlainGraph {
    /// Where the nodes are.
    pub nodes: Vec<LonLat>,
    /// From node, to node, milliseconds.
    pub arcs: Vec<(u32, u32, u32)>,
    /// For each place the node that it is left from and the node that it is reached at.
    pub places: Vec<(u32, u32)>,
}

impl Network {
    /// The routing graph with places on it.
    pub fn as_graph(&self, places: &[AccessPlace]) -> PlainGraph {
        let mut nodes: Vec<LonLat> = self.routing.state_nodes().map(|node| self.roads.nodes[node as usize]).collect();
        let mut arcs: Vec<(u32, u32, u32)> = self.routing.arcs().collect();
        let mut doors = Vec::with_capacity(places.len());
        for place in places {
            let here = self.point_at(place.position.section, place.position.chainage).0;
            let (out, into) = (nodes.len() as u32, nodes.len() as u32 + 1);
            nodes.extend([here, here]);
            arcs.extend(self.exits(place).iter().map(|leg| (out, leg.state, milliseconds(leg.cost))));
            arcs.extend(self.entries(place).iter().map(|leg| (leg.state, into, milliseconds(leg.cost))));
            doors.push((out, into));
        }
        for (from, from_doors) in places.iter().zip(&doors) {
            for (to, to_doors) in places.iter().zip(&doors) {
                if from_doors == to_doors {
                    arcs.push((from_doors.0, to_doors.1, 0));
                } else if let Some(leg) = self.direct_way(from, to) {
                    arcs.push((from_doors.0, to_doors.1, milliseconds(leg.cost)));
                }
            }
        }
        PlainGraph { nodes, arcs, places: doors }
    }
}
