//! Shape of `[placing]`: how the layout is put onto the real road.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::road::RoadClass;
use crate::rules::Sourced;

/// How devices are placed on the road as it is. Distances in the set's unit.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlacingRules {
    /// No sign nearer to a junction than this: it would stand in its mouth.
    pub junction_clear: Sourced<f64>,
    /// A sign or station that can't stand where it falls is moved upstream in steps of this.
    pub move_step: Sourced<f64>,
    /// By this much at most. Where no place up to there is seen from far enough, the one seen best is taken and reported.
    pub move_greatest: Sourced<f64>,
    /// Whether it may move past a junction.
    pub past_junctions: Sourced<bool>,
    /// Whether it may move past a bridge or tunnel.
    pub past_structures: Sourced<bool>,
    /// Classes of road that get their own sign where they join.
    pub side_road_classes: Sourced<Vec<RoadClass>>,
    /// Classes of road of which the end at the map's edge is taken for the road's end, so that nothing comes from beyond
    /// it. Of other classes the road may go on there.
    pub dead_end_classes: Sourced<Vec<RoadClass>>,
    /// Sight is worked out in steps of this.
    pub sight_step: Sourced<f64>,
    /// The profile is sampled this often.
    pub profile_step: Sourced<f64>,
    /// And smoothed over this length.
    pub profile_window: Sourced<f64>,
    /// One in ten heights is further off than this on either side after smoothing, against heights a window away.
    pub height_error: Sourced<f64>,
}
