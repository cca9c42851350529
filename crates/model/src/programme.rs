//! The work programme: which crew mends what on which day, in what order, with what on the truck.
//!
//! Times are whole seconds on the clock, counted from midnight of the first day: day `d` begins at `d * 86_400`. Each shift
//! lies within one day, so a clock change in the night between two days changes nothing.

use crate::quantity::{Length, Mass, Volume};
use crate::round::{Capacity, Demand, LeftOutReason, RestBreak};

/// Seconds in a day on the clock.
pub const DAY_S: i64 = 86_400;

/// Who can mend what, where and when; everything that the search knows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ProgrammeProblem {
    /// The sites; site `i` is at place `i`.
    pub sites: Vec<ProgrammeSite>,
    /// Depots, stockpiles, tips and places where a truck stands now; yard `y` is at place `sites.len() + y`.
    pub yards: Vec<Yard>,
    /// Each crew's shifts, in no special order.
    pub shifts: Vec<CrewShift>,
    /// Driving between the places, by class of truck; where there are too many places, by part of the work too.
    pub driving: Vec<DrivingTimes>,
}

/// Driving between places. The default knows none.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DrivingTimes {
    /// The places between which the ways are known, ascending; `None`: all. Between others there is no way here.
    pub among: Option<Vec<usize>>,
    /// Number of places, of these where they are some.
    pub places: usize,
    /// Seconds, entry `from * places + to`; `u32::MAX`: can't be reached.
    pub seconds: Vec<u32>,
    /// Metres, same shape.
    pub metres: Vec<f32>,
}

/// One work zone.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ProgrammeSite {
    /// Seconds of work there, traffic control out and in included, by the shift's [`CrewShift::work_class`] (plant and
    /// people); `None`: that class can't do it.
    pub service_s: Vec<Option<u32>>,
    /// What it takes from and gives to the truck, what every plan makes room for.
    pub demand: Demand,
    /// Windows in which the work must lie whole, seconds, ascending, apart.
    pub windows: Vec<(i64, i64)>,
    /// Price of the risk that stays on the road until it is mended, money, by day; of a mend on day `d` entry `d`.
    pub waiting: Vec<f64>,
    /// Price of not mending it within these days, money.
    pub left: f64,
    /// Shifts (by index) that may do it; `None`: all whose work class can.
    pub shifts: Option<Vec<usize>>,
}

/// A place where a truck loads or tips.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Yard {
    /// Name for sheets.
    pub name: String,
    /// What it has.
    pub gives: Supplies,
    /// Whether it takes spoil.
    pub takes_spoil: bool,
    /// Seconds to load what it gives.
    pub loading_s: u32,
    /// Seconds to tip.
    pub tipping_s: u32,
    /// When a call may begin, seconds on the clock of any day; `None`: always.
    pub open: Option<(u32, u32)>,
}

/// Which materials a yard has. Bins are filled with base and cover stone together, tanks with binder and water together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Supplies {
    /// Base and cover stone.
    pub bins: bool,
    /// Binder and water.
    pub tanks: bool,
}

/// One crew with its truck on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct CrewShift {
    /// Which crew.
    pub crew: usize,
    /// Which day, from 0.
    pub day: u32,
    /// Yard where it begins.
    pub start: usize,
    /// Yard where it ends.
    pub end: usize,
    /// From leaving the depot to being back, seconds.
    pub from: i64,
    /// To.
    pub to: i64,
    /// The break, on the clock of that day.
    pub rest: Option<RestBreak>,
    /// What the truck holds.
    pub capacity: Capacity,
    /// Index into [`ProgrammeProblem::driving`].
    pub driving: usize,
    /// Index into [`ProgrammeSite::service_s`].
    pub work_class: usize,
    /// Yards where it may call on the way, the depot among them.
    pub calls: Vec<usize>,
    /// What is on the truck when the shift begins on the road; `None`: it loads at its start.
    pub aboard: Option<Aboard>,
    /// Price of an hour of the crew, money.
    pub price_per_hour: f64,
    /// Price of a kilometre, money.
    pub price_per_km: f64,
}

/// What is on a truck.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Aboard {
    /// Supplies left.
    pub supplies: Demand,
    /// Spoil not yet tipped.
    pub spoil_volume: Volume,
    /// Its mass.
    pub spoil_mass: Mass,
}

/// What the search found.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Programme {
    /// The rounds of the shifts that go out, by day, then crew.
    pub rounds: Vec<CrewRound>,
    /// Sites that no round does, ascending, with the reason.
    pub left_out: Vec<(usize, LeftOutReason)>,
    /// What it costs, money.
    pub cost: ProgrammeCost,
}

/// One crew's day.
#[derive(Debug, Clone, PartialEq)]
pub struct CrewRound {
    /// Index into [`ProgrammeProblem::shifts`].
    pub shift: usize,
    /// From the first load to the last tip.
    pub stops: Vec<CrewStop>,
    /// Driving, seconds.
    pub driving_s: i64,
    /// Driving.
    pub driving: Length,
}

/// One line of a crew's timetable.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CrewStop {
    /// What happens.
    pub kind: CrewStopKind,
    /// From, seconds.
    pub from: i64,
    /// To.
    pub to: i64,
}

/// What happens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CrewStopKind {
    /// Load at that yard.
    Load(usize),
    /// Tip at that yard.
    Tip(usize),
    /// Drive to that place.
    Drive(usize),
    /// Wait for a window to open.
    Wait,
    /// Work at that site.
    Work(usize),
    /// The break.
    Rest,
}

/// The parts of a programme's price, money.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ProgrammeCost {
    /// Risk on the road until each site is mended.
    pub waiting: f64,
    /// Risk that stays with what is left out.
    pub left: f64,
    /// Crew time.
    pub time: f64,
    /// Driving.
    pub driving: f64,
}

impl ProgrammeCost {
    /// All of it.
    pub fn total(&self) -> f64 {
        self.waiting + self.left + self.time + self.driving
    }
}

impl CrewRound {
    /// Sites in the order of work.
    pub fn sites(&self) -> impl Iterator<Item = usize> + '_ {
        self.stops.iter().filter_map(|stop| if let CrewStopKind::Work(site) = stop.kind { Some(site) } else { None })
    }

    /// Sites between two loads of anything.
    pub fn trips(&self) -> Vec<Vec<usize>> {
        let mut trips = vec![Vec::new()];
        for stop in &self.stops {
            match stop.kind {
                CrewStopKind::Load(_) => trips.push(Vec::new()),
                CrewStopKind::Work(site) => {
                    if let Some(trip) = trips.last_mut() {
                        trip.push(site);
                    }
                }
                _ => {}
            }
        }
        trips.retain(|trip| !trip.is_empty());
        trips
    }
}

impl DrivingTimes {
    /// Seconds; `None`: no way.
    #[inline]
    pub fn seconds(&self, from: usize, to: usize) -> Option<u32> {
        self.seconds.get(self.entry(from, to)?).copied().filter(|&seconds| seconds < u32::MAX)
    }

    /// Metres; 0 where there is no way.
    pub fn metres(&self, from: usize, to: usize) -> f64 {
        let metres = self.entry(from, to).and_then(|entry| self.metres.get(entry)).copied();
        metres.filter(|metres| metres.is_finite()).map_or(0.0, f64::from)
    }

    #[inline]
    fn entry(&self, from: usize, to: usize) -> Option<usize> {
        let Some(among) = &self.among else { return Some(from * self.places + to) };
        Some(among.binary_search(&from).ok()? * self.places + among.binary_search(&to).ok()?)
    }
}
