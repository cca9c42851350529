//! The work zone: what stands on the road, where, and in what order it goes out and comes back.

use crate::figure::{Figure, Source};
use crate::hole::HoleId;
use crate::place::{LonLat, Side, Travel};
use crate::quantity::{Length, Time};
use crate::road::SectionId;

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
    /// Time to put everything out.
    pub set_up: Figure<Time>,
    /// Time to take everything in.
    pub take_in: Figure<Time>,
    /// Width left to traffic.
    pub open_width: Figure<Length>,
    /// Whether that is the rule set's least or more. Where not, the road must be closed or traffic led round, which the
    /// authorised person decides.
    pub passable: bool,
    /// People without whom nothing goes on: the flaggers and those at the hole.
    pub people_needed: u32,
    /// What the authorised person must look at, in words.
    pub remarks: Vec<String>,
}

/// The kinds of layout.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Layout {
    /// Work on the shoulder, lanes stay open.
    Shoulder,
    /// One lane of a two-lane two-way road closed; traffic takes turns, flaggers.
    LaneClosureTwoWay,
    /// One lane of a road with several lanes in that direction closed.
    LaneClosureMultilane,
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
