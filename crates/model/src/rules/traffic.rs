//! Shape of `rules/traffic/*.toml`: how a work zone is signed and coned.
//!
//! A set says its units once, in `units`; every bare distance and speed is in them, as its source prints it. `workzone`
//! computes in them and converts where its results go out.

mod faults;
mod placing;
mod units;

use schemars::JsonSchema;
use serde::Deserialize;

use super::Sourced;
use crate::figure::Source;
use crate::road::RoadClass;
use crate::work_zone::Layout;

pub use placing::PlacingRules;
pub use units::{DistanceUnit, SpeedUnit, Units};

/// One rule set for temporary traffic control.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TrafficRules {
    /// Name for the job pack.
    pub name: String,
    /// What the set is, whose it is, what it is not.
    pub about: String,
    /// Units of every distance and speed below.
    pub units: Units,
    /// How a speed limit is read.
    pub speed: SpeedRules,
    /// Taper lengths.
    pub taper: TaperRules,
    /// Distance in which a driver can stop: buffer and flagger stations.
    pub stopping: StoppingRules,
    /// Advance warning signs.
    pub advance: AdvanceRules,
    /// What drivers and flaggers must see.
    pub sight: SightRules,
    /// Work near a junction, and traffic that joins.
    pub junctions: JunctionRules,
    /// How the layout is put onto the real road.
    pub placing: PlacingRules,
    /// Distance between cones.
    pub spacing: SpacingRules,
    /// Where things stand across the road, and how much must stay open.
    pub across: AcrossRules,
    /// Length of the work space.
    pub work_space: WorkSpaceRules,
    /// Flaggers and crew.
    pub flagging: FlaggingRules,
    /// Duration classes.
    pub duration: DurationRules,
    /// Waiting where traffic takes turns or squeezes into fewer lanes.
    pub queue: QueueRules,
    /// Time to place and to remove devices.
    pub effort: EffortRules,
    /// The layouts.
    pub layouts: LayoutRules,
}

/// How a speed limit is read.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpeedRules {
    /// Speeds between two steps go up to the next.
    pub step: Sourced<f64>,
    /// The greatest speed the set is made for; nothing is laid out for a faster road.
    pub greatest: Sourced<f64>,
    /// Taken where a road has no usable speed.
    pub unknown: Sourced<f64>,
}

/// Taper lengths. L is the length of a merging taper.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TaperRules {
    /// Up to this speed L = W S² / `low_speed_divisor`; above it L = W S `high_speed_factor`.
    pub low_speed_max: Sourced<f64>,
    /// Divisor of the low-speed formula.
    pub low_speed_divisor: Sourced<f64>,
    /// Factor of the high-speed formula.
    pub high_speed_factor: Sourced<f64>,
    /// Computed lengths are rounded up to a multiple of this.
    pub round_up: Sourced<f64>,
    /// A shifting taper is L divided by this.
    pub shifting_divisor: Sourced<f64>,
    /// A shoulder taper is L divided by this.
    pub shoulder_divisor: Sourced<f64>,
    /// One-lane two-way taper: shortest.
    pub one_lane_min: Sourced<f64>,
    /// One-lane two-way taper: longest. A longer one invites drivers into the closed lane.
    pub one_lane_max: Sourced<f64>,
    /// One-lane two-way taper: chosen, kept between the two.
    pub one_lane: Sourced<f64>,
    /// Downstream taper, each lane: shortest.
    pub downstream_min: Sourced<f64>,
    /// Downstream taper, each lane: longest.
    pub downstream_max: Sourced<f64>,
    /// Downstream taper, each lane: chosen, kept between the two.
    pub downstream: Sourced<f64>,
}

/// Distance in which a driver can stop.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StoppingRules {
    /// The table, ascending; a speed between two rows takes the higher.
    pub table: Sourced<Vec<StoppingRow>>,
    /// The formula, for speeds above the table.
    pub formula: Sourced<StoppingFormula>,
}

/// One row of the stopping table.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StoppingRow {
    /// Speed.
    pub speed: f64,
    /// Distance.
    pub distance: f64,
}

/// d = `reaction_factor` V t + `braking_factor` V² / a, rounded up to `round_up`.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StoppingFormula {
    /// Distance travelled in a second at one unit of speed.
    pub reaction_factor: f64,
    /// Reaction time t, seconds.
    pub reaction_s: f64,
    /// Factor of the braking distance.
    pub braking_factor: f64,
    /// Deceleration a, in the unit of distance per second squared.
    pub deceleration: f64,
    /// Rounded up to a multiple of this.
    pub round_up: f64,
}

/// Advance warning signs.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AdvanceRules {
    /// Up to this speed an urban road counts as low speed; the agency sets it.
    pub urban_low_speed_max: Sourced<f64>,
    /// Classes of road signed as expressway or freeway.
    pub expressway_classes: Sourced<Vec<RoadClass>>,
    /// Urban, low speed.
    pub urban_low: Sourced<AdvanceDistances>,
    /// Urban, high speed.
    pub urban_high: Sourced<AdvanceDistances>,
    /// Rural.
    pub rural: Sourced<AdvanceDistances>,
    /// Expressway and freeway.
    pub expressway: Sourced<AdvanceDistances>,
    /// A is at least so many stopping distances; 0 where the rows stand as they are.
    pub first_least_stopping_distances: Sourced<f64>,
    /// B and C are at least the distance driven in so many seconds; 0 where the rows stand as they are.
    pub between_least_s: Sourced<f64>,
    /// End-of-work sign: how far past the last device of the closure.
    pub end_of_work: Sourced<f64>,
}

/// Distances between the restriction and the signs ahead of it.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AdvanceDistances {
    /// Restriction to the first (nearest) sign.
    pub a: f64,
    /// First to second.
    pub b: f64,
    /// Second to third.
    pub c: f64,
}

/// What drivers and flaggers must see. Where a bend or a crest hides it, the first sign or the station moves upstream.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SightRules {
    /// Height of a driver's eye above the road.
    pub eye_height: Sourced<f64>,
    /// Height of what a driver must see to stop: a device, a flagger's middle, a vehicle that waits.
    pub object_height: Sourced<f64>,
    /// Height of the middle of a sign.
    pub sign_height: Sourced<f64>,
    /// A sign must be seen this many seconds before it is passed.
    pub sign_seen_s: Sourced<f64>,
    /// And from this far at least.
    pub sign_seen_min: Sourced<f64>,
    /// Width beside the edge of the seal through which one sees on the inside of a bend.
    pub lateral_clear: Sourced<f64>,
    /// Traffic may sort itself out where drivers see through the closure and beyond it by so many stopping distances.
    pub beyond_stopping_distances: Sourced<f64>,
}

/// Work near a junction, and traffic that joins inside the zone.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JunctionRules {
    /// Work that ends nearer to the junction ahead than this is work in the junction's approach.
    pub approach_within: Sourced<f64>,
    /// Classes of road that get a flagger of their own where they join between the flaggers. Drivers who come out of another
    /// meet its sign, and the crew lets them out.
    pub flagger_classes: Sourced<Vec<RoadClass>>,
    /// Signs on each other road from which traffic may enter the zone: nearest the junction first.
    pub other_approaches: Vec<JoiningSign>,
}

/// A sign on a road that joins.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JoiningSign {
    /// Designation, e.g. `W20-1`.
    pub designation: String,
    /// Legend.
    pub legend: String,
    /// Where in the series of the joining road, counted from the junction.
    pub place: SignPlace,
    /// Where it is from.
    pub source: Source,
}

/// Distance between cones.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpacingRules {
    /// In a taper, distance for each unit of speed, at most.
    pub taper_per_speed: Sourced<f64>,
    /// Along buffer and work space, distance for each unit of speed, at most.
    pub tangent_per_speed: Sourced<f64>,
    /// In one-lane two-way and downstream tapers.
    pub short_taper: Sourced<f64>,
}

/// Where things stand across the road.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AcrossRules {
    /// Least width that must stay open to traffic.
    pub open_width_min: Sourced<f64>,
    /// Least distance from the edge of the work to the line of cones.
    pub work_clearance: Sourced<f64>,
    /// Edge of the seal to a sign.
    pub sign_offset: Sourced<f64>,
    /// Edge of the seal to a flagger.
    pub station_offset: Sourced<f64>,
    /// No road is wider than this.
    pub usable_width_max: Sourced<f64>,
    /// Lane width taken where the road's own can't be used.
    pub lane_width: Sourced<f64>,
    /// A shoulder this wide is closed ahead of a lane closure.
    pub wide_shoulder: Sourced<f64>,
}

/// Length of the work space.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WorkSpaceRules {
    /// Room for people and tools before the first cut and after the last.
    pub margin: Sourced<f64>,
    /// Room for each crew vehicle, upstream of the first cut.
    pub vehicle: Sourced<f64>,
    /// Crew vehicles from which one shields the work.
    pub shield_from_vehicles: Sourced<u32>,
    /// Free distance between a shield vehicle and the people behind it.
    pub roll_ahead: Sourced<f64>,
    /// Cuts in the same lane share a zone when the gap between them is at most this.
    pub share_gap: Sourced<f64>,
    /// Longest work space, from the first cut to the last.
    pub work_space_max: Sourced<f64>,
}

/// Flaggers and crew.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FlaggingRules {
    /// Flaggers where traffic of both directions takes turns.
    pub two_way_flaggers: Sourced<u32>,
    /// Fewest people at the work itself.
    pub workers_min: Sourced<u32>,
    /// Vehicles a day up to which a road has low volume.
    pub low_volume_max_per_day: Sourced<f64>,
    /// Work space up to which one flagger may do.
    pub single_flagger_work_space_max: Sourced<f64>,
    /// Work space up to which traffic may sort itself out.
    pub self_regulating_work_space_max: Sourced<f64>,
    /// Speed up to which short or moving work may do without cones.
    pub without_cones_speed_max: Sourced<f64>,
}

/// Duration classes.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DurationRules {
    /// Short duration up to this.
    pub short_max_hours: Sourced<f64>,
    /// One daylight period.
    pub daylight_hours: Sourced<f64>,
    /// Long term above this.
    pub long_over_hours: Sourced<f64>,
    /// Names of the classes.
    pub names: Sourced<DurationNames>,
}

/// Names of the duration classes.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DurationNames {
    /// Up to the short limit.
    pub short_duration: String,
    /// Within one daylight period.
    pub short_term: String,
    /// Up to the long limit, or at night.
    pub intermediate_term: String,
    /// Above the long limit.
    pub long_term: String,
    /// Work that moves along.
    pub mobile: String,
}

/// Waiting where traffic takes turns or squeezes into fewer lanes.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct QueueRules {
    /// Share of a day's traffic in its busiest hour.
    pub busiest_hour_share: Sourced<f64>,
    /// Share of that hour's traffic in the busier direction.
    pub busier_direction_share: Sourced<f64>,
    /// Vehicles an hour that a queue lets go past a flagger.
    pub released_per_hour: Sourced<f64>,
    /// Vehicles an hour that one open lane carries past the work.
    pub lane_carries_per_hour: Sourced<f64>,
    /// Speed of traffic through the zone.
    pub through_speed: Sourced<f64>,
    /// Lost at each change of turn: the last vehicle is seen out, the sign turned, the first one starts.
    pub change_s: Sourced<f64>,
    /// Length of road for each vehicle that stands.
    pub vehicle_spacing: Sourced<f64>,
    /// Longest a driver may be stopped.
    pub longest_stop_min: Sourced<f64>,
}

/// Time to place and to remove devices.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EffortRules {
    /// One sign out.
    pub sign_out_s: Sourced<f64>,
    /// One sign in.
    pub sign_in_s: Sourced<f64>,
    /// One cone out.
    pub cone_out_s: Sourced<f64>,
    /// One cone in.
    pub cone_in_s: Sourced<f64>,
    /// One flagger posted.
    pub station_out_s: Sourced<f64>,
    /// One flagger called in.
    pub station_in_s: Sourced<f64>,
    /// Walking along the cones.
    pub walking_speed: Sourced<f64>,
    /// Driving from sign to sign.
    pub driving_speed: Sourced<f64>,
    /// Turning the vehicle round.
    pub turn_s: Sourced<f64>,
}

/// The layouts.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LayoutRules {
    /// Work on the shoulder.
    pub shoulder: LayoutRule,
    /// Work on the shoulder that takes a little of the lane beside it.
    pub shoulder_encroachment: LayoutRule,
    /// One lane of a two-lane two-way road, a flagger at each end.
    pub lane_closure_two_way: LayoutRule,
    /// The same with one flagger whom both directions see.
    pub lane_closure_one_flagger: LayoutRule,
    /// The same, traffic sorts itself out.
    pub lane_closure_self_regulating: LayoutRule,
    /// One lane of several in that direction.
    pub lane_closure_multilane: LayoutRule,
    /// One lane of a two-lane two-way road, just before a junction.
    pub junction_approach_two_way: LayoutRule,
    /// One lane of several, just before a junction.
    pub junction_approach_multilane: LayoutRule,
    /// Short work on a two-lane two-way road behind a shield vehicle.
    pub short_duration_two_way: LayoutRule,
    /// Short work in one lane of several behind a shield vehicle.
    pub short_duration_multilane: LayoutRule,
    /// Work that moves along a two-lane two-way road.
    pub mobile_two_way: LayoutRule,
    /// Work that moves along one lane of several.
    pub mobile_multilane: LayoutRule,
}

/// One layout.
#[derive(Debug, Clone, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LayoutRule {
    /// Name for the job pack.
    pub name: String,
    /// Where the layout is from.
    pub source: Source,
    /// Whether the place may have this layout at all; where not, the next more protected one is taken.
    pub allowed: Sourced<bool>,
    /// Whether cones close what is closed; where not, a shield vehicle does and neither taper nor buffer is laid out.
    pub cones: Sourced<bool>,
    /// Whether a buffer is left between taper and work space.
    pub buffer: Sourced<bool>,
    /// Whether a taper ends the closure.
    pub downstream_taper: Sourced<bool>,
    /// Whether signs stand on both sides where the road is one-way.
    pub both_sides_when_one_way: Sourced<bool>,
    /// The signs, for each approach.
    pub signs: Vec<SignRule>,
}

/// One sign of a layout.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SignRule {
    /// Designation, e.g. `W20-1`.
    pub designation: String,
    /// Legend; `{side}` becomes LEFT or RIGHT, the side closed as its drivers see it.
    pub legend: String,
    /// Where in the series.
    pub place: SignPlace,
    /// Which approaches.
    pub approach: SignApproach,
    /// Where it is from.
    pub source: Source,
}

/// Place of a sign in its series.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SignPlace {
    /// Nearest the restriction, A ahead of it.
    First,
    /// A + B ahead.
    Second,
    /// A + B + C ahead.
    Third,
    /// At the head of the taper, or at the end of the closure for the traffic the other way.
    Closure,
    /// Past the closure.
    End,
    /// On the back of the shield vehicle.
    Vehicle,
}

/// Traffic a sign is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SignApproach {
    /// Traffic of the lane worked in.
    Worked,
    /// Traffic against it.
    Opposing,
    /// Each of the two.
    Both,
}

impl StoppingFormula {
    /// The distance for a speed, not rounded.
    pub fn distance(&self, speed: f64) -> f64 {
        self.reaction_factor * speed * self.reaction_s + self.braking_factor * speed * speed / self.deceleration
    }
}

impl LayoutRules {
    /// The rule of a layout.
    pub fn of(&self, layout: Layout) -> &LayoutRule {
        match layout {
            Layout::Shoulder => &self.shoulder,
            Layout::ShoulderEncroachment => &self.shoulder_encroachment,
            Layout::LaneClosureTwoWay => &self.lane_closure_two_way,
            Layout::LaneClosureOneFlagger => &self.lane_closure_one_flagger,
            Layout::LaneClosureSelfRegulating => &self.lane_closure_self_regulating,
            Layout::LaneClosureMultilane => &self.lane_closure_multilane,
            Layout::JunctionApproachTwoWay => &self.junction_approach_two_way,
            Layout::JunctionApproachMultilane => &self.junction_approach_multilane,
            Layout::ShortDurationTwoWay => &self.short_duration_two_way,
            Layout::ShortDurationMultilane => &self.short_duration_multilane,
            Layout::MobileTwoWay => &self.mobile_two_way,
            Layout::MobileMultilane => &self.mobile_multilane,
        }
    }
}

impl SignApproach {
    /// Whether the traffic of the lane worked in sees it.
    pub fn worked(self) -> bool {
        matches!(self, SignApproach::Worked | SignApproach::Both)
    }

    /// Whether the traffic against it sees it.
    pub fn opposing(self) -> bool {
        matches!(self, SignApproach::Opposing | SignApproach::Both)
    }
}
