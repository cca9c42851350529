//! Roads: from imported lines to a network that can be snapped to, measured along and driven on.
//!
//! ```text
//! RawLine --network_from_lines--> RoadNetwork --Network::prepare--> Network
//!                                                  snap      a place  -> section, chainage, side, direction
//!                                                  point_at  chainage -> place, azimuth
//!                                                  frame_at  flat metres beside the road <-> places
//!                                                  matrix    driving times between directed positions
//!                                                  way       the line driven
//!                                                  around    the road through a section and what joins it
//!                                                  stretches_between  what of a road lies between two places
//! NamedRoad::find      a name or number -> its sections end to end, with one chainage
//! ```
//!
//! Between two vertices a road is the geodesic on the WGS 84 ellipsoid; chainage is the length along it.

mod access;
mod along;
mod around;
mod as_graph;
mod axis;
mod between;
mod components;
mod cost;
mod frame;
mod geodesic;
mod geometry;
mod heights;
mod hierarchy;
mod import;
mod index;
mod junctions;
mod matrix;
mod named;
mod network;
mod restrictions;
mod routing;
mod snap;
mod straight_on;
mod turns;
mod way;

pub use access::AccessPlace;
pub use as_graph::PlainGraph;
pub use components::Component;
pub use frame::Frame;
pub use geodesic::distance;
pub use heights::set_heights;
pub use import::{
    DEFAULT_JOINING_TOLERANCE_M, network_from_lines, network_from_lines_within, network_with_restrictions,
};
pub use matrix::{Matrix, UNREACHABLE_METRES, UNREACHABLE_MS};
pub use named::{NamedPiece, NamedRoad, NamedRoadError, SectionStretch};
pub use network::{Network, PrepareError, TruckSpeeds};
pub use snap::{NearRoad, SnapRefusal};
