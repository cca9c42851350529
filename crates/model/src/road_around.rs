//! The road around a work zone, as traffic towards it meets it: along which sections it comes, how it bends and climbs,
//! what it crosses and which roads join.
//!
//! One axis goes through the section worked on and on along the road at both ends. Its chainage is the section's own,
//! negative before the section's start and beyond its length after its end.

use crate::place::{LonLat, Side, Travel};
use crate::quantity::{Length, Velocity};
use crate::road::{Flow, NodeId, RoadClass, SectionId};

/// The road through a section and the roads that join it.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadAround {
    /// The section worked on.
    pub section: SectionId,
    /// The road through it.
    pub axis: RoadAxis,
    /// Roads that join the axis, in the order of its chainage. Traffic may come out of them. Where the axis ends at a
    /// roundabout, the other legs of it.
    pub side_roads: Vec<SideRoad>,
}

/// A road followed in one line.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RoadAxis {
    /// The sections it runs on, in the order of chainage, without gaps.
    pub pieces: Vec<AxisPiece>,
    /// Its line, in the order of chainage; at least two points.
    pub points: Vec<AxisPoint>,
    /// Where other roads meet it, in the order of chainage.
    pub junctions: Vec<AxisJunction>,
    /// Where nothing can stand beside the road (bridges, tunnels), in the order of chainage.
    pub structures: Vec<Structure>,
    /// What stopped it at its smallest chainage.
    pub begins: AxisEnd,
    /// What stopped it at its largest chainage.
    pub ends: AxisEnd,
}

/// A stretch of one section on the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxisPiece {
    /// The section.
    pub section: SectionId,
    /// Smallest chainage on the axis.
    pub from: Length,
    /// Largest chainage on the axis.
    pub to: Length,
    /// The section's own chainage at `from`.
    pub section_at_from: Length,
    /// Whether the section's own chainage grows or falls as the axis' grows.
    pub direction: Travel,
    /// Traffic it allows, `Forward` being with the axis' chainage.
    pub flow: Flow,
    /// Its class.
    pub class: RoadClass,
    /// Its speed limit, or the class default.
    pub speed: Velocity,
    /// Its sealed width.
    pub width: Length,
    /// Its shoulder on each side.
    pub shoulder: Length,
}

/// A point of the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxisPoint {
    /// Chainage on the axis.
    pub chainage: Length,
    /// Metres east of the first point of the section worked on, in a flat frame; straight lines of sight are drawn here.
    pub east_m: f64,
    /// Metres north of it.
    pub north_m: f64,
    /// Height above the datum of the height data; `None` where no heights are given.
    pub height: Option<Length>,
    /// On the globe.
    pub place: LonLat,
}

/// A junction on the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxisJunction {
    /// Chainage on the axis.
    pub chainage: Length,
    /// The junction.
    pub node: NodeId,
    /// Whether the axis goes round a roundabout here.
    pub roundabout: bool,
}

/// A bridge or a tunnel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Structure {
    /// Which.
    pub kind: StructureKind,
    /// Smallest chainage on the axis.
    pub from: Length,
    /// Largest chainage on the axis.
    pub to: Length,
}

/// Kinds of structure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum StructureKind {
    Bridge,
    Tunnel,
}

/// What stops an axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum AxisEnd {
    /// As far as was asked for.
    #[default]
    AsFarAsAsked,
    /// The road ends, and the map shows other roads beyond: no road goes on that traffic could come from.
    DeadEnd,
    /// The road ends, and the map shows nothing beyond: it may be the edge of the map.
    MapEdge,
    /// A junction where no road goes straight on: what comes, turns in from the roads that meet there.
    Junction,
    /// A roundabout: what comes, comes round it from its other legs.
    Roundabout,
    /// It came back to a section that it already runs on.
    Loop,
}

/// A road that joins the axis.
#[derive(Debug, Clone, PartialEq)]
pub struct SideRoad {
    /// Chainage of the junction on the axis joined.
    pub at: Length,
    /// Side of the axis that it comes from.
    pub side: Side,
    /// Its name as a crew would use it.
    pub name: String,
    /// Its class.
    pub class: RoadClass,
    /// Its speed limit, or the class default.
    pub speed: Velocity,
    /// Whether traffic may come out of it into the axis.
    pub traffic_comes_out: bool,
    /// The road itself, chainage 0 at the junction and growing outward.
    pub axis: RoadAxis,
}
