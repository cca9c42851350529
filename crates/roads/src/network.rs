//! The network made ready: measured, indexed, and with its routing graph.

use model::district::TruckSize;
use model::place::Travel;
use model::quantity::{InRatio, InVelocity, Length, Ratio, Velocity, fraction, kilometres_per_hour, metres};
use model::road::{RoadNetwork, RoadSection, SectionId, TurnRestriction};
use thiserror::Error;

use crate::components::{Component, Components};
use crate::geodesic::is_on_globe;
use crate::geometry::Geometry;
use crate::index::SegmentIndex;
use crate::routing::RoutingGraph;

/// How fast the truck drives: `min(speed limit x factor, max)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TruckSpeeds {
    /// Truck speed as a fraction of the speed limit, above 0.
    pub factor: Ratio,
    /// The truck's greatest speed, above 0.
    pub max: Velocity,
}

/// A road network that can be snapped to, measured along and driven on.
pub struct Network {
    pub(crate) roads: RoadNetwork,
    /// Indexed by section.
    pub(crate) geometries: Vec<Geometry>,
    pub(crate) index: SegmentIndex,
    pub(crate) routing: RoutingGraph,
    truck: TruckSize,
    /// Section ends at each node: the section, and whether it is its start.
    pub(crate) ends_at: Vec<Vec<(SectionId, bool)>>,
    components: Components,
}

/// Why a network can't be made ready. [`crate::network_from_lines`] gives none of these (but may give speeds that do).
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PrepareError {
    /// The truck's speeds are of no use.
    #[error("truck speed factor {factor} and greatest speed {max_kmh} km/h; both must be numbers above 0")]
    TruckSpeeds {
        /// As given.
        factor: f64,
        /// As given.
        max_kmh: f64,
    },
    /// A section's number is not its index.
    #[error("section {index} has the number {id}; sections must be numbered as they are stored")]
    Numbering {
        /// Place in the list.
        index: usize,
        /// Its number.
        id: u32,
    },
    /// A section names a node that is not there.
    #[error("section {section} ({source_id}) ends at node {node}, which does not exist")]
    MissingNode {
        /// The section.
        section: u32,
        /// Identifier in the source data.
        source_id: String,
        /// The node.
        node: u32,
    },
    /// A restriction is no way through the network.
    #[error("restriction {source_id} is no way of two sections or more, each beginning where the one before ends")]
    Restriction {
        /// Identifier in the source data.
        source_id: String,
    },
    /// A section's line has no length or leaves the globe.
    #[error("section {section} ({source_id}) has no usable line; it needs two different points on the globe")]
    Line {
        /// The section.
        section: u32,
        /// Identifier in the source data.
        source_id: String,
    },
    /// A section's speed is of no use.
    #[error("section {section} ({source_id}) has the speed {kmh} km/h; it must be a number above 0")]
    Speed {
        /// The section.
        section: u32,
        /// Identifier in the source data.
        source_id: String,
        /// As given.
        kmh: f64,
    },
}

impl Network {
    /// Measures the roads, indexes them, and builds the routing graph for a truck of these speeds that is within every
    /// limit.
    pub fn prepare(roads: RoadNetwork, truck: TruckSpeeds) -> Result<Network, PrepareError> {
        Network::prepare_for(roads, truck, TruckSize::default())
    }

    /// The same for a truck of that size: roads with a lower limit are not driven. A contraction order that the roads
    /// bring along saves working it out; one that does not fit is not used.
    pub fn prepare_for(roads: RoadNetwork, truck: TruckSpeeds, size: TruckSize) -> Result<Network, PrepareError> {
        check(&roads, truck)?;
        let geometries: Vec<Geometry> = roads.sections.iter().map(|section| Geometry::new(&section.line)).collect();
        if let Some(section) = roads.sections.iter().zip(&geometries).find(|(_, g)| g.segment_count() == 0) {
            return Err(bad_line(section.0));
        }
        let mut ends_at = vec![Vec::new(); roads.nodes.len()];
        for section in &roads.sections {
            ends_at[section.from.0 as usize].push((section.id, true));
            ends_at[section.to.0 as usize].push((section.id, false));
        }
        Ok(Network {
            index: SegmentIndex::new(&geometries),
            routing: RoutingGraph::new(&roads, &geometries, truck, &size),
            truck: size,
            components: Components::new(&roads, &geometries),
            ends_at,
            geometries,
            roads,
        })
    }

    /// The order in which the routing graph of roads is contracted, which takes longest to work out; to be kept in
    /// [`RoadNetwork::contraction_order`]. Empty for roads that can't be prepared.
    pub fn order_of(roads: &RoadNetwork) -> Vec<u32> {
        // Speeds and limits don't change what is joined.
        let speeds = TruckSpeeds { factor: fraction(1.0), max: kilometres_per_hour(100.0) };
        if check(roads, speeds).is_err() {
            return Vec::new();
        }
        let geometries: Vec<Geometry> = roads.sections.iter().map(|section| Geometry::new(&section.line)).collect();
        if geometries.iter().any(|geometry| geometry.segment_count() == 0) {
            return Vec::new();
        }
        RoutingGraph::new(roads, &geometries, speeds, &TruckSize::default()).order().to_vec()
    }

    /// The order in which the routing graph was contracted.
    pub fn order(&self) -> &[u32] {
        self.routing.order()
    }

    /// Why the truck may not drive on a section, in words; `None` if it may.
    pub fn barred(&self, id: SectionId) -> Option<String> {
        self.section(id).truck.bars(&self.truck)
    }

    /// The roads as they were given.
    pub fn roads(&self) -> &RoadNetwork {
        &self.roads
    }

    /// A section.
    pub fn section(&self, id: SectionId) -> &RoadSection {
        self.roads.section(id)
    }

    /// Length of a section as measured here, the chainage of its end.
    pub fn length(&self, id: SectionId) -> Length {
        metres(self.geometries[id.0 as usize].length())
    }

    /// The pieces that no road joins, longest first. A district has one large one; small ones are often gaps in the
    /// map.
    pub fn components(&self) -> &[Component] {
        self.components.list()
    }

    /// Index into [`Network::components`] of the piece a section belongs to.
    pub fn component_of(&self, id: SectionId) -> usize {
        self.components.of_section(self.section(id))
    }
}

fn check(roads: &RoadNetwork, truck: TruckSpeeds) -> Result<(), PrepareError> {
    let usable = |number: f64| number.is_finite() && number > 0.0;
    let (factor, max_kmh) = (truck.factor.in_fraction(), truck.max.in_kilometres_per_hour());
    if !usable(factor) || !usable(max_kmh) {
        return Err(PrepareError::TruckSpeeds { factor, max_kmh });
    }
    for (index, section) in roads.sections.iter().enumerate() {
        let SectionId(id) = section.id;
        if id as usize != index {
            return Err(PrepareError::Numbering { index, id });
        }
        if let Some(node) = [section.from, section.to].into_iter().find(|node| node.0 as usize >= roads.nodes.len()) {
            let source_id = section.source_id.clone();
            return Err(PrepareError::MissingNode { section: id, source_id, node: node.0 });
        }
        if section.line.len() < 2 || !section.line.iter().all(|place| is_on_globe(*place)) {
            return Err(bad_line(section));
        }
        let kmh = section.speed.in_kilometres_per_hour();
        if !usable(kmh) {
            return Err(PrepareError::Speed { section: id, source_id: section.source_id.clone(), kmh });
        }
    }
    match roads.restrictions.iter().find(|restriction| !is_way(roads, restriction)) {
        Some(restriction) => Err(PrepareError::Restriction { source_id: restriction.source_id.clone() }),
        None => Ok(()),
    }
}

fn is_way(roads: &RoadNetwork, restriction: &TurnRestriction) -> bool {
    let ends = |&(section, travel): &(SectionId, Travel)| {
        let section = roads.sections.get(section.0 as usize)?;
        Some(if travel == Travel::Forward { (section.from, section.to) } else { (section.to, section.from) })
    };
    let Some(ends) = restriction.path.iter().map(ends).collect::<Option<Vec<_>>>() else { return false };
    ends.len() >= 2 && ends.windows(2).all(|pair| pair[0].1 == pair[1].0)
}

fn bad_line(section: &RoadSection) -> PrepareError {
    PrepareError::Line { section: section.id.0, source_id: section.source_id.clone() }
}
