//! The day's round: which sites, in what order, with what load.

use crate::place::LonLat;
use crate::quantity::{Length, Mass, Volume};
use crate::road::NodeId;

/// A time of day in whole seconds after local midnight. Whole, so that the search is exact and repeatable.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct SecondOfDay(pub u32);

/// What the truck must give (or take) at one site; quantities at the load's confidence.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Demand {
    /// Loose base.
    pub base_volume: Volume,
    /// Mass of that base.
    pub base_mass: Mass,
    /// Loose cover stone.
    pub cover_volume: Volume,
    /// Mass of that stone.
    pub cover_mass: Mass,
    /// Binder product.
    pub binder_volume: Volume,
    /// Mass of the binder.
    pub binder_mass: Mass,
    /// Water.
    pub water_volume: Volume,
    /// Loose spoil taken on.
    pub spoil_volume: Volume,
    /// Mass of that spoil.
    pub spoil_mass: Mass,
}

/// What the search knows of one site (one work zone). All times whole seconds.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// Seconds of work there, traffic control out and in included.
    pub service_s: u32,
    /// What it takes from and gives to the truck.
    pub demand: Demand,
    /// Windows in which the work must lie whole (start and end inside), ascending, not overlapping.
    pub windows: Vec<(SecondOfDay, SecondOfDay)>,
    /// Worth of doing it today, in points; leaving it out costs as much.
    pub worth: f64,
}

/// The search's problem: one crew, one truck, one day. Place 0 is the depot, place `i + 1` is `sites[i]`, and behind the
/// sites come the yards.
#[derive(Debug, Clone, PartialEq)]
pub struct RoundProblem {
    /// The sites.
    pub sites: Vec<Site>,
    /// Names of the stockpiles and tips where the truck calls; place `sites.len() + 1 + k` is `yards[k]`. Behind them come the
    /// places of looks, once they are put on the way: the search knows none.
    pub yards: Vec<String>,
    /// Place where the truck is when the shift begins: the depot, or a yard's place when it is on the road already.
    pub start: usize,
    /// Driving seconds, row from, column to, one of each for every place; `u32::MAX`: can't be reached.
    pub travel_s: Vec<Vec<u32>>,
    /// Driving metres, same shape.
    pub travel_m: Vec<Vec<f64>>,
    /// Start of the shift at the depot.
    pub shift_start: SecondOfDay,
    /// The truck is back at the depot by then.
    pub shift_end: SecondOfDay,
    /// A break of that many seconds, begun not before and not after; taken at a site's end or at the depot.
    pub rest: Option<RestBreak>,
    /// Seconds to load at the depot before each trip.
    pub loading_s: u32,
    /// Seconds to tip the spoil at the depot after each trip.
    pub tipping_s: u32,
    /// What the truck holds.
    pub capacity: Capacity,
    /// Points that one hour of crew time costs: what a site must be worth to be driven to.
    pub points_per_hour: f64,
}

/// A break in the shift.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RestBreak {
    /// Not before.
    pub earliest: SecondOfDay,
    /// Not after.
    pub latest: SecondOfDay,
    /// How long.
    pub length_s: u32,
}

/// What the truck holds, summed over its compartments and tanks by what they may hold.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Capacity {
    /// Room for base only.
    pub base_volume: Volume,
    /// Room for spoil only.
    pub spoil_volume: Volume,
    /// Room that base and spoil share behind a movable partition.
    pub shared_volume: Volume,
    /// Room for cover stone.
    pub cover_volume: Volume,
    /// Room for binder.
    pub binder_volume: Volume,
    /// Room for water.
    pub water_volume: Volume,
    /// Greatest mass of everything loaded.
    pub payload: Mass,
}

/// The search's answer.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RoundSolution {
    /// Trips in order; each a list of indexes into `sites`.
    pub trips: Vec<Vec<usize>>,
    /// Timetable, in order.
    pub timetable: Vec<Stop>,
    /// What was left out and why; indexes into `sites`.
    pub left_out: Vec<(usize, LeftOutReason)>,
    /// Total driving.
    pub driving_s: u32,
    /// Total driving distance.
    pub driving: Length,
    /// Objective: points left undone plus points for time.
    pub objective: f64,
}

/// One line of the timetable.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stop {
    /// What happens.
    pub kind: StopKind,
    /// From.
    pub from: SecondOfDay,
    /// To.
    pub to: SecondOfDay,
}

/// What happens at a stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StopKind {
    /// Load where the truck stands, for the trip of that index.
    Load(usize),
    /// Drive to the place (0 the depot, `i + 1` a site, then the yards).
    Drive(usize),
    /// Wait for a window to open.
    Wait,
    /// Work at the site of that index.
    Work(usize),
    /// The break.
    Rest,
    /// Tip the spoil where the truck stands; counted from 0.
    Tip(usize),
    /// Look at a repair made before, by the index of the look.
    Look(usize),
}

/// Why a site is not in the round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LeftOutReason {
    /// No crew may do it or has the plant for it.
    NoCrew,
    /// One site alone is more than the truck can carry; what it is short of.
    ExceedsTruck(&'static str),
    /// No window is long enough for the work.
    NoWindow,
    /// Even alone it does not fit between shift start and end.
    ExceedsShift,
    /// The road network does not lead there and back.
    Unreachable,
    /// It would fit alone, but others were worth more for the time there is.
    LessUrgent,
    /// Its worth is less than the time it takes.
    NotWorthTheTime,
    /// No patch by the agency's limits: the engineer decides. The search never sees it.
    NotAPatch,
    /// Somebody asked for it to be left out.
    AsAsked,
}

/// A drawn way along the roads.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Way {
    /// Points on the globe.
    pub line: Vec<LonLat>,
    /// Driving seconds.
    pub travel_s: u32,
    /// Driving distance.
    pub distance: Length,
    /// Where the truck turns round to come back along the road it came on, in driving order.
    pub turns_round: Vec<TurnRound>,
}

/// A junction or dead end at which the truck turns round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurnRound {
    /// The junction.
    pub node: NodeId,
    /// Where it is.
    pub place: LonLat,
}

impl RoundProblem {
    /// The site at a place; `None` at the depot and at a yard.
    pub fn site_at(&self, place: usize) -> Option<usize> {
        place.checked_sub(1).filter(|&site| site < self.sites.len())
    }

    /// The place of a look, by its index.
    pub fn place_of_look(&self, look: usize) -> usize {
        1 + self.sites.len() + self.yards.len() + look
    }

    /// The look at a place, by its index.
    pub fn look_at(&self, place: usize) -> Option<usize> {
        place.checked_sub(1 + self.sites.len() + self.yards.len())
    }

    /// The yard at a place, by name.
    pub fn yard_at(&self, place: usize) -> Option<&str> {
        let yard = place.checked_sub(1 + self.sites.len())?;
        self.yards.get(yard).map(String::as_str)
    }
}

impl SecondOfDay {
    /// From hours and minutes.
    pub const fn hm(hour: u32, minute: u32) -> Self {
        SecondOfDay(hour * 3600 + minute * 60)
    }
}

impl std::fmt::Display for SecondOfDay {
    /// Prints `HH:MM`, rounded to the nearest minute.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let minute = (self.0 + 30) / 60;
        write!(f, "{:02}:{:02}", minute / 60, minute % 60)
    }
}
