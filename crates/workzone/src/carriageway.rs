//! The road across: edges, lanes and shoulder in the traffic's frame.

use model::road::RoadSection;
use model::rules::traffic::TrafficRules;
use model::work_zone::Layout;

use crate::frame::{two_way, usable};
use crate::layout_choice::lanes_in_direction;
use crate::text::metres_2;

/// Guard against absurd input: no road has more lanes.
const LANES_MAX: u32 = 20;

/// The road across, in the rule set's unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carriageway {
    /// Centre line to the edge of the seal.
    pub half: f64,
    /// Inner edge of what this direction of traffic may use.
    pub inner: f64,
    /// Width of a lane.
    pub lane: f64,
    /// Lanes of this direction.
    pub lanes: u32,
    /// Width of the shoulder.
    pub shoulder: f64,
}

impl Carriageway {
    /// Reads the road across; a width that can't be used is made up from lanes of the rule set's width.
    pub fn of(section: &RoadSection, layout: Layout, rules: &TrafficRules, remarks: &mut Vec<String>) -> Self {
        let in_all = section.lanes.clamp(1, LANES_MAX);
        let mut width = rules.units.distance_of(section.width);
        if !(width > 0.0 && width <= rules.across.usable_width_max.value) {
            width = f64::from(in_all.max(if two_way(section) { 2 } else { 1 })) * rules.across.lane_width.value;
            remarks.push(format!("The road has no usable width; taken as {}.", metres_2(width, rules.units)));
        } else if section.defaulted.contains(&"width") {
            remarks.push(format!(
                "The road's width is a default for its class ({}); measure it.",
                metres_2(width, rules.units)
            ));
        }
        let half = width / 2.0;
        let lanes = lanes_in_direction(section).min(LANES_MAX);
        let inner = if two_way(section) && layout.of_several_lanes() { 0.0 } else { -half };
        let lane = if layout.of_several_lanes() {
            (half - inner) / f64::from(lanes)
        } else if layout.on_shoulder() && section.lanes == 1 {
            // Beside shoulder work the one lane of a one-lane road is all of it.
            width
        } else if two_way(section) {
            // A two-way road without two marked lanes still has two halves.
            width / f64::from(in_all.max(2))
        } else {
            width / f64::from(in_all)
        };
        Carriageway {
            half,
            inner,
            lane,
            lanes,
            shoulder: usable(rules.units.distance_of(section.shoulder), 0.0)
                .clamp(0.0, rules.across.usable_width_max.value),
        }
    }
}
