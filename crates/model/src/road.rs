//! Roads: sections between junctions, with what the work needs to know of them.

use serde::Deserialize;

use crate::district::TruckSize;
use crate::place::{LonLat, Travel};
use crate::problem::Locator;
use crate::quantity::{InLength, InMass, Length, Mass, Velocity};
use crate::road_around::StructureKind;

/// A section's index in its network.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct SectionId(pub u32);

/// A junction's (or dead end's) index in its network.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct NodeId(pub u32);

/// All roads of a district, as imported: sections meet at nodes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RoadNetwork {
    /// Where the nodes are; indexed by [`NodeId`].
    pub nodes: Vec<LonLat>,
    /// Indexed by [`SectionId`].
    pub sections: Vec<RoadSection>,
    /// Turns that may not be made.
    pub restrictions: Vec<TurnRestriction>,
    /// The order in which the routing graph is contracted, where it has been worked out before; empty where not.
    pub contraction_order: Vec<u32>,
}

/// A road between two junctions.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadSection {
    /// Its own index.
    pub id: SectionId,
    /// Identifier in the source data, e.g. the way's number.
    pub source_id: String,
    /// Node at chainage 0.
    pub from: NodeId,
    /// Node at the end.
    pub to: NodeId,
    /// Centre line from `from` to `to`, both ends included; at least two points.
    pub line: Vec<LonLat>,
    /// Length along the line on the ellipsoid.
    pub length: Length,
    /// Class of the road.
    pub class: RoadClass,
    /// Name, empty where none is given.
    pub name: String,
    /// Road number, empty where none is given.
    pub number: String,
    /// Speed limit, or the class default.
    pub speed: Velocity,
    /// Lanes in all (both directions unless one-way).
    pub lanes: u32,
    /// Sealed width.
    pub width: Length,
    /// Paved or usable shoulder on each side.
    pub shoulder: Length,
    /// Traffic allowed: both ways, or one.
    pub flow: Flow,
    /// What the surface is.
    pub surface: Surface,
    /// Vehicles a day, where known; `None` is unknown.
    pub vehicles_per_day: Option<f64>,
    /// Built-up area (urban) or open country (rural).
    pub setting: Setting,
    /// The bridge or tunnel that carries it; `None` on the ground, or not said.
    pub structure: Option<StructureKind>,
    /// Whether it is part of a roundabout.
    pub roundabout: bool,
    /// What holds there for trucks.
    pub truck: TruckAccess,
    /// Names of the attributes above that were filled in by class default.
    pub defaulted: Vec<&'static str>,
}

/// A line as a road file gives it, before it is cut into sections at junctions. Readers make these; `roads` makes the
/// [`RoadNetwork`] of them.
#[derive(Debug, Clone, PartialEq)]
pub struct RawLine {
    /// Identifier in the source data, e.g. the way's number.
    pub source_id: String,
    /// Where in the input it came from.
    pub at: Locator,
    /// The line, in the order that [`Flow`] speaks of; at least two points.
    pub points: Vec<LonLat>,
    /// Identity of each point where the format knows it (the open map's node numbers), one per point: lines meet where
    /// a key is shared. `None` where the format has none: lines meet where points coincide.
    pub node_keys: Option<Vec<u64>>,
    /// What else is known of it; every section cut from the line gets the same.
    pub attributes: RoadAttributes,
}

/// The attributes of a road that do not depend on where it is cut into sections. Each is said at [`RoadSection`].
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)] // documented at `RoadSection`
pub struct RoadAttributes {
    pub class: RoadClass,
    pub name: String,
    pub number: String,
    pub speed: Velocity,
    pub lanes: u32,
    pub width: Length,
    pub shoulder: Length,
    pub flow: Flow,
    pub surface: Surface,
    pub vehicles_per_day: Option<f64>,
    pub setting: Setting,
    pub structure: Option<StructureKind>,
    pub roundabout: bool,
    pub truck: TruckAccess,
    pub defaulted: Vec<&'static str>,
}

/// What holds for trucks on a road. Limits are those of signs: a truck that is just at the limit may pass.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TruckAccess {
    /// Greatest gross mass; `None` where no limit is known.
    pub mass: Option<Mass>,
    /// Greatest height; `None` where no limit is known.
    pub height: Option<Length>,
    /// Greatest width; `None` where no limit is known.
    pub width: Option<Length>,
    /// Greatest length; `None` where no limit is known.
    pub length: Option<Length>,
    /// Vehicles heavier than this are barred as a class ("no lorries"); `None` where they are not.
    pub no_heavier_than: Option<Mass>,
    /// How fast a truck is known to drive here; `None`: a part of the speed limit.
    pub driving_speed: Option<Velocity>,
}

/// A turn, or a way over several junctions, that may not be driven, or the only one that may.
#[derive(Debug, Clone, PartialEq)]
pub struct TurnRestriction {
    /// Identifier in the source data.
    pub source_id: String,
    /// What it says of the path.
    pub rule: TurnRule,
    /// Whom it holds for.
    pub holds_for: HoldsFor,
    /// The sections and directions of the turn, in the order of driving: two at least, each beginning where the one
    /// before ends.
    pub path: Vec<(SectionId, Travel)>,
}

/// A restriction as a road file gives it, in the file's own identifiers.
#[derive(Debug, Clone, PartialEq)]
pub struct RawRestriction {
    /// Identifier in the source data.
    pub source_id: String,
    /// Where in the input it came from.
    pub at: Locator,
    /// What it says.
    pub rule: TurnRule,
    /// Whether it is about turning round: back on the road one came on, or its other carriageway.
    pub turns_round: bool,
    /// Whom it holds for.
    pub holds_for: HoldsFor,
    /// Lines ([`RawLine::source_id`]) that the turn comes from; of several each counts.
    pub from: Vec<String>,
    /// Where it turns.
    pub via: RawVia,
    /// Lines that it leads to; of several each counts.
    pub to: Vec<String>,
}

/// Where a restriction's turn is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RawVia {
    /// At a point, by its key.
    Point(u64),
    /// Along lines, in this order.
    Lines(Vec<String>),
}

/// What a restriction says of its path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TurnRule {
    /// It may not be driven.
    No,
    /// Whoever comes from its first section may drive nothing else.
    Only,
}

/// Whom a restriction holds for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HoldsFor {
    /// Every truck.
    All,
    /// Trucks heavier than this.
    HeavierThan(Mass),
    /// Trucks that are not heavier than this; and those of which no mass is known.
    UpTo(Mass),
}

/// Class of a road, from the open map's highway values, highest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum RoadClass {
    Motorway,
    Trunk,
    Primary,
    Secondary,
    Tertiary,
    Unclassified,
    Residential,
    Service,
    Track,
}

/// Directions of traffic on a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Flow {
    /// Both directions.
    Both,
    /// One-way, with increasing chainage.
    Forward,
    /// One-way, against increasing chainage.
    Backward,
}

/// Surface of a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Surface {
    /// A thin sprayed seal on a granular base: this program's trade.
    SurfaceTreated,
    /// Sealed, kind not said.
    Paved,
    /// Concrete, setts and the like.
    Rigid,
    /// No seal.
    Unpaved,
    /// Not known.
    Unknown,
}

/// Surroundings of a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Setting {
    /// Open country.
    Rural,
    /// Built-up.
    Urban,
}

impl TruckAccess {
    /// What bars a truck of this size, in words; `None` if it may pass. A figure that the truck does not give is within
    /// every limit.
    pub fn bars(&self, truck: &TruckSize) -> Option<String> {
        let tonnes = |mass: Mass| mass.in_kilograms() / 1000.0;
        let over = |own: Option<Length>, limit: Option<Length>, what: &str| {
            let (own, limit) = (own?.in_metres(), limit?.in_metres());
            (own > limit).then(|| format!("the truck is {own:.2} m {what}, the limit there {limit:.2} m"))
        };
        let heavier = |limit: Option<Mass>| {
            let (own, limit) = (tonnes(truck.gross_mass?), tonnes(limit?));
            (own > limit).then_some((own, limit))
        };
        let too_heavy = || {
            heavier(self.mass)
                .map(|(own, limit)| format!("the truck weighs {own:.1} t at most, the limit there is {limit:.1} t"))
        };
        let lorry = || {
            heavier(self.no_heavier_than).map(|(own, limit)| {
                format!("vehicles over {limit:.1} t are barred there, the truck weighs up to {own:.1} t")
            })
        };
        too_heavy()
            .or_else(|| over(truck.height, self.height, "high"))
            .or_else(|| over(truck.width, self.width, "wide"))
            .or_else(|| over(truck.length, self.length, "long"))
            .or_else(lorry)
    }
}

impl HoldsFor {
    /// Whether it holds for a truck of this size.
    pub fn includes(self, truck: &TruckSize) -> bool {
        match (self, truck.gross_mass) {
            (HoldsFor::All, _) | (HoldsFor::UpTo(_), None) => true,
            (HoldsFor::HeavierThan(_), None) => false,
            (HoldsFor::HeavierThan(limit), Some(own)) => own > limit,
            (HoldsFor::UpTo(limit), Some(own)) => own <= limit,
        }
    }
}

impl RoadNetwork {
    /// The section of that id.
    pub fn section(&self, id: SectionId) -> &RoadSection {
        &self.sections[id.0 as usize]
    }
}

impl RoadSection {
    /// The name a crew would use: number and name, or the class and the source id where the road has neither.
    pub fn label(&self) -> String {
        match (self.number.is_empty(), self.name.is_empty()) {
            (false, false) => format!("{} {}", self.number, self.name),
            (false, true) => self.number.clone(),
            (true, false) => self.name.clone(),
            (true, true) => format!("unnamed {} road {}", self.class.word(), self.source_id),
        }
    }
}

impl RoadClass {
    /// All classes, highest first.
    pub const ALL: [RoadClass; 9] = [
        RoadClass::Motorway,
        RoadClass::Trunk,
        RoadClass::Primary,
        RoadClass::Secondary,
        RoadClass::Tertiary,
        RoadClass::Unclassified,
        RoadClass::Residential,
        RoadClass::Service,
        RoadClass::Track,
    ];

    /// The class as one word.
    pub fn word(self) -> &'static str {
        match self {
            RoadClass::Motorway => "motorway",
            RoadClass::Trunk => "trunk",
            RoadClass::Primary => "primary",
            RoadClass::Secondary => "secondary",
            RoadClass::Tertiary => "tertiary",
            RoadClass::Unclassified => "unclassified",
            RoadClass::Residential => "residential",
            RoadClass::Service => "service",
            RoadClass::Track => "track",
        }
    }
}
