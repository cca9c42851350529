//! A stretch of road that a work zone hinders: what the people who warn drivers want to know of it.
//!
//! The words are those of the open standard `WZDx`, version 4.2 (`RoadEventFeature`, `Direction`, `VehicleImpact`, `Lane`), so
//! that they are told on as they were told.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::happened::Position;

/// A stretch of road for the traffic of one direction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ZoneStretch {
    /// Its places in the direction of the traffic, two or more.
    pub line: Vec<Position>,
    /// Where the traffic goes to.
    #[serde(default)]
    pub heading: Heading,
    /// What becomes of the traffic.
    #[serde(default)]
    pub impact: TrafficImpact,
    /// Whether the zone stays where it is.
    #[serde(default)]
    pub kind: ZoneKind,
    /// Lanes of this direction, from the left of the traffic; none: not known which lanes are whose.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lanes: Vec<ZoneLane>,
}

/// A quarter of the sky.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[allow(missing_docs)] // the words are the definition
pub enum Heading {
    Northbound,
    Eastbound,
    Southbound,
    Westbound,
    #[default]
    Unknown,
}

/// What a zone does to the traffic of one direction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs)] // the words are the standard's
pub enum TrafficImpact {
    AllLanesClosed,
    SomeLanesClosed,
    AllLanesOpen,
    AlternatingOneWay,
    SomeLanesClosedMergeLeft,
    SomeLanesClosedMergeRight,
    Flagging,
    #[default]
    Unknown,
}

/// Whether a zone stays where it is, or is the stretch along which work moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs)] // the words are the definition
pub enum ZoneKind {
    #[default]
    Static,
    PlannedMovingArea,
}

/// A lane, or the shoulder.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ZoneLane {
    /// Which, from 1 at the left of the traffic.
    pub order: u32,
    /// What it is.
    #[serde(rename = "type")]
    pub kind: LaneKind,
    /// What becomes of it.
    pub status: LaneStatus,
}

/// What a lane is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs)] // the words are the definition
pub enum LaneKind {
    General,
    Shoulder,
}

/// What becomes of a lane.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs)] // the words are the definition
pub enum LaneStatus {
    Open,
    Closed,
    AlternatingFlow,
}

impl Heading {
    /// The quarter that an azimuth lies in, degrees from north to the right.
    pub fn of_azimuth(azimuth_deg: f64) -> Self {
        const QUARTERS: [Heading; 4] =
            [Heading::Northbound, Heading::Eastbound, Heading::Southbound, Heading::Westbound];
        if !azimuth_deg.is_finite() {
            return Heading::Unknown;
        }
        QUARTERS[(azimuth_deg.rem_euclid(360.0) / 90.0).round() as usize % 4]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn azimuths_are_in_the_nearest_quarter() {
        use Heading::{Eastbound, Northbound, Southbound, Unknown, Westbound};
        for (azimuth, heading) in [
            (0.0, Northbound),
            (44.9, Northbound),
            (45.1, Eastbound),
            (-91.0, Westbound),
            (180.0, Southbound),
            (-45.1, Westbound),
            (-44.9, Northbound),
            (359.0, Northbound),
            (f64::NAN, Unknown),
        ] {
            assert_eq!(Heading::of_azimuth(azimuth), heading, "{azimuth}");
        }
    }
}
