//! A hole as somebody reported or surveyed it.

use jiff::civil::Date;

use crate::place::LonLat;
use crate::problem::Locator;
use crate::quantity::Length;

/// The hole's own identifier, as given in the list.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct HoleId(pub String);

/// A hole in the seal, as surveyed.
#[derive(Debug, Clone, PartialEq)]
pub struct Hole {
    /// Identifier, unique in the list.
    pub id: HoleId,
    /// Where it is.
    pub position: LonLat,
    /// Its shape seen from above.
    pub shape: Shape,
    /// Greatest depth.
    pub depth: Length,
    /// Day it was seen, where given.
    pub seen: Option<Date>,
    /// Free text of the reporter, may be empty.
    pub note: String,
    /// Where across the road, where given.
    pub lane_position: Option<LanePosition>,
    /// How wet the hole and its base are, where said.
    pub wetness: Option<Wetness>,
    /// Who told of it, in the list's own word (patrol, public, ...); empty where not said.
    pub source: String,
    /// Repairs made at this place before, where said.
    pub repairs: Option<EarlierRepairs>,
    /// Where in the input it came from.
    pub from: Locator,
}

/// Shape seen from above.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Greatest length (taken along the road) and greatest width (across).
    Size {
        /// Along the road.
        length: Length,
        /// Across the road.
        width: Length,
    },
    /// Outline on the globe, open ring (first point not repeated), at least three points.
    Outline(Vec<LonLat>),
}

/// Where across the road a hole lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Deserialize, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LanePosition {
    /// Somewhere in the lane.
    Lane,
    /// In a wheel path.
    WheelPath,
    /// At the edge of the seal.
    Edge,
    /// On the shoulder.
    Shoulder,
    /// On the centre line.
    Centre,
}

/// How wet a hole and its base are, the drier first.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Deserialize, serde::Serialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Wetness {
    /// No water to be seen.
    Dry,
    /// The base is moist, nothing stands or moves.
    Damp,
    /// Water stands in it, or the base is soaked.
    Wet,
    /// Water comes out of the base or the side without traffic: a spring, a blocked drain.
    Seepage,
    /// Wheels press water and fines out of the base.
    Pumping,
}

/// Repairs made at a place before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum EarlierRepairs {
    /// So many; when is not known.
    Count(u32),
    /// One on each of these days, in order.
    Days(Vec<Date>),
}

impl Wetness {
    /// All, the drier first.
    pub const ALL: [Wetness; 5] = [Wetness::Dry, Wetness::Damp, Wetness::Wet, Wetness::Seepage, Wetness::Pumping];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Wetness::Dry => "dry",
            Wetness::Damp => "damp",
            Wetness::Wet => "wet",
            Wetness::Seepage => "seepage",
            Wetness::Pumping => "pumping",
        }
    }
}

impl LanePosition {
    /// Where it is, in words that follow a size.
    pub fn words(self) -> &'static str {
        match self {
            LanePosition::Lane => "in the lane",
            LanePosition::WheelPath => "in a wheel path",
            LanePosition::Edge => "at the edge of the seal",
            LanePosition::Shoulder => "on the shoulder",
            LanePosition::Centre => "on the centre line",
        }
    }
}
