//! The work zone: what stands on the road, where, and in what order it goes out and comes back.

use crate::crew_move::CrewMove;
use crate::figure::{Figure, Source};
use crate::hole::HoleId;
use crate::place::{LonLat, Side, Travel};
use crate::quantity::{Length, Time};
use crate::queue::Queue;
use crate::road::SectionId;
use crate::sharing::Sharing;

/// One layout on one road, for one or more cuts that share it. A proposal for the authorised person.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkZone {
    /// The section the work lies on.
    pub section: SectionId,
    /// Direction of the traffic in the lane that is worked in.
    pub travel: Travel,
    /// Side of the centre line that is worked on.
    pub side: Side,
    /// The holes inside.
    pub holes: Vec<HoleId>,
    /// Which layout of the rule set.
    pub layout: Layout,
    /// Name of the layout as the rule set gives it, with its source.
    pub layout_name: String,
    /// Where the layout is from.
    pub layout_source: Source,
    /// Why this layout and not a lesser one, in words.
    pub layout_reason: String,
    /// Duration class by the rule set, in words.
    pub duration_class: String,
    /// Start of the work space along the section (smaller chainage).
    pub work_from: Length,
    /// End of the work space.
    pub work_to: Length,
    /// Lengths of the parts, in the direction of traffic, for the lane worked in.
    pub parts: Vec<ZonePart>,
    /// Everything that stands on the road, in placing order.
    pub devices: Vec<Device>,
    /// Indexes into `devices`, in removing order.
    pub removing: Vec<usize>,
    /// Flaggers needed.
    pub flaggers: Figure<u32>,
    /// How traffic that takes turns is controlled.
    pub control: TrafficControl,
    /// Waiting that is expected; `None` where nobody waits for anybody.
    pub queue: Option<Queue>,
    /// The steps in which everything goes out.
    pub out: Vec<CrewMove>,
    /// The steps in which everything comes in.
    pub back: Vec<CrewMove>,
    /// Time to put everything out: the sum of the steps.
    pub set_up: Figure<Time>,
    /// Time to take everything in: the sum of the steps.
    pub take_in: Figure<Time>,
    /// Width left to traffic.
    pub open_width: Figure<Length>,
    /// Whether that is the rule set's least or more. Where not, the road must be closed or traffic led round, which the
    /// authorised person decides.
    pub passable: bool,
    /// People without whom nothing goes on: the flaggers and those at the hole.
    pub people_needed: u32,
    /// What it saves that several cuts share the zone; `None` where it holds one.
    pub shared: Option<Sharing>,
    /// What the authorised person must look at, in words.
    pub remarks: Vec<String>,
    /// Why the zone was not laid out: then it has no devices and no parts.
    pub not_laid_out: Option<String>,
}

/// The kinds of layout. "Two-way" is a road whose two directions share two lanes (or fewer), "multilane" one with several
/// lanes in the direction worked in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Layout {
    /// Work on the shoulder, lanes untouched.
    Shoulder,
    /// Work on the shoulder that takes a little of the lane beside it; the lane stays open.
    ShoulderEncroachment,
    /// One lane closed, traffic takes turns, a flagger at each end.
    LaneClosureTwoWay,
    /// One lane closed, traffic takes turns, one flagger whom both directions see.
    LaneClosureOneFlagger,
    /// One lane closed, drivers see through and beyond and sort themselves out.
    LaneClosureSelfRegulating,
    /// One lane of several in that direction closed.
    LaneClosureMultilane,
    /// One lane closed just before a junction, flaggers.
    JunctionApproachTwoWay,
    /// One lane of several closed just before a junction.
    JunctionApproachMultilane,
    /// Short work behind a shield vehicle, no cones.
    ShortDurationTwoWay,
    /// Short work in one lane of several behind a shield vehicle, no cones.
    ShortDurationMultilane,
    /// Work that moves along, a shield vehicle follows.
    MobileTwoWay,
    /// Work that moves along one lane of several, a shield vehicle follows.
    MobileMultilane,
}

/// How movements past the work are controlled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ControlMethod {
    /// Each direction keeps a lane of its own: nobody waits for anybody.
    NoTurns,
    /// Traffic takes turns and sorts itself out.
    SelfRegulating,
    /// One flagger, seen from both directions.
    OneFlagger,
    /// A flagger at each end.
    FlaggerEachEnd,
}

/// How those who control the ends know of each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Coordination {
    /// There is nobody to agree with.
    NotNeeded,
    /// They see each other.
    BySight,
    /// They do not see each other, or nobody knows whether: radio, or a pilot vehicle.
    ByRadioOrPilot,
}

/// The control of traffic that takes turns.
#[derive(Debug, Clone, PartialEq)]
pub struct TrafficControl {
    /// How.
    pub method: ControlMethod,
    /// How the ends agree.
    pub coordination: Coordination,
    /// From one station to the other (with one flagger or none: from one end of the closure to the other); zero where
    /// nobody waits.
    pub between_ends: Length,
    /// Why so, in words: "a flagger at each end, since the volume is not known".
    pub reason: String,
}

impl Layout {
    /// Every layout, the least protected of a kind last.
    pub const ALL: [Layout; 12] = [
        Layout::Shoulder,
        Layout::ShoulderEncroachment,
        Layout::LaneClosureTwoWay,
        Layout::LaneClosureOneFlagger,
        Layout::LaneClosureSelfRegulating,
        Layout::LaneClosureMultilane,
        Layout::JunctionApproachTwoWay,
        Layout::JunctionApproachMultilane,
        Layout::ShortDurationTwoWay,
        Layout::ShortDurationMultilane,
        Layout::MobileTwoWay,
        Layout::MobileMultilane,
    ];

    /// Its name in a rule file.
    pub fn key(self) -> &'static str {
        match self {
            Layout::Shoulder => "shoulder",
            Layout::ShoulderEncroachment => "shoulder_encroachment",
            Layout::LaneClosureTwoWay => "lane_closure_two_way",
            Layout::LaneClosureOneFlagger => "lane_closure_one_flagger",
            Layout::LaneClosureSelfRegulating => "lane_closure_self_regulating",
            Layout::LaneClosureMultilane => "lane_closure_multilane",
            Layout::JunctionApproachTwoWay => "junction_approach_two_way",
            Layout::JunctionApproachMultilane => "junction_approach_multilane",
            Layout::ShortDurationTwoWay => "short_duration_two_way",
            Layout::ShortDurationMultilane => "short_duration_multilane",
            Layout::MobileTwoWay => "mobile_two_way",
            Layout::MobileMultilane => "mobile_multilane",
        }
    }

    /// Whether both directions share what stays open.
    pub fn takes_turns(self) -> bool {
        matches!(
            self,
            Layout::LaneClosureTwoWay
                | Layout::LaneClosureOneFlagger
                | Layout::LaneClosureSelfRegulating
                | Layout::JunctionApproachTwoWay
                | Layout::ShortDurationTwoWay
                | Layout::MobileTwoWay
        )
    }

    /// Whether the work is beside the lanes.
    pub fn on_shoulder(self) -> bool {
        matches!(self, Layout::Shoulder | Layout::ShoulderEncroachment)
    }

    /// Whether one of several lanes of a direction is closed.
    pub fn of_several_lanes(self) -> bool {
        !self.takes_turns() && !self.on_shoulder()
    }

    /// Whether a flagger stands at each end.
    pub fn flagger_each_end(self) -> bool {
        matches!(self, Layout::LaneClosureTwoWay | Layout::JunctionApproachTwoWay)
    }

    /// Whether the work moves along.
    pub fn mobile(self) -> bool {
        matches!(self, Layout::MobileTwoWay | Layout::MobileMultilane)
    }
}

/// A part of the zone with its length.
#[derive(Debug, Clone, PartialEq)]
pub struct ZonePart {
    /// Which part.
    pub kind: ZonePartKind,
    /// How long.
    pub length: Figure<Length>,
}

/// Parts of a work zone in the direction of traffic.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)] // the words are the definition
pub enum ZonePartKind {
    AdvanceWarning,
    Taper,
    Buffer,
    WorkSpace,
    DownstreamTaper,
}

/// One sign, cone or flagger station.
#[derive(Debug, Clone, PartialEq)]
pub struct Device {
    /// What it is.
    pub kind: DeviceKind,
    /// Sign designation by the rule set, empty for cones and stations.
    pub designation: String,
    /// What it says or is, in words.
    pub legend: String,
    /// The traffic it is for.
    pub approach: Travel,
    /// Chainage on the section's axis. May be negative or beyond the section's end: then it stands on the road before
    /// or after it.
    pub chainage: Length,
    /// Distance across from the centre line, positive to the right of increasing chainage.
    pub across: Length,
    /// Distance from the previous device of the same approach in the direction of that traffic; zero for the first.
    pub spacing: Length,
    /// How its place was worked out.
    pub why: crate::figure::Why,
    /// The place on the real road; `None` where only the section's own axis is known.
    pub spot: Option<RoadSpot>,
}

/// Where a device stands on the real road.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadSpot {
    /// The section it stands beside.
    pub section: SectionId,
    /// Chainage on that section.
    pub chainage: Length,
    /// On the globe.
    pub place: LonLat,
    /// The side road it stands on, with the distance from the junction; `chainage` of the device is then the junction's.
    pub side_road: Option<(String, Length)>,
    /// How far it stands from where the rule alone would put it, since it would be hidden or can't stand there; zero where
    /// it stands as the rule says.
    pub moved: Length,
}

/// Kinds of device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)] // the words are the definition
pub enum DeviceKind {
    Sign,
    Cone,
    FlaggerStation,
    /// A vehicle with a flashing light that shields the work.
    ShieldVehicle,
}

impl ZonePartKind {
    /// The trade's name of the part.
    pub fn words(self) -> &'static str {
        match self {
            ZonePartKind::AdvanceWarning => "advance warning",
            ZonePartKind::Taper => "taper",
            ZonePartKind::Buffer => "buffer",
            ZonePartKind::WorkSpace => "work space",
            ZonePartKind::DownstreamTaper => "downstream taper",
        }
    }
}
