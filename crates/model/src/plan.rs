//! The finished plan of one day: what all stages gave, in one value that job pack, files and checks read.

use jiff::civil::Date;

use crate::cut_out::CutOut;
use crate::district::District;
use crate::hole::{Hole, HoleId};
use crate::learnt::{Learnt, UseFactors};
use crate::look::{LookLeft, PlannedLook};
use crate::patch::PatchDecision;
use crate::pin::{Pin, PinRefused};
use crate::place::{LonLat, RoadPosition};
use crate::problem::{Locator, Problem};
use crate::programme::{Programme, ProgrammeProblem};
use crate::quantity::{Length, Mass, Volume};
use crate::repair::Repair;
use crate::road::RoadNetwork;
use crate::round::{Demand, LeftOutReason, RoundProblem, RoundSolution, SecondOfDay, Way};
use crate::site_unit::{SiteCount, SiteGood};
use crate::total::DayTotals;
use crate::triage::Judgement;
use crate::work_zone::{DeviceKind, WorkZone};

/// The plan of one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The district planned for.
    pub district: District,
    /// The day.
    pub date: Date,
    /// Seed of the search.
    pub seed: u64,
    /// The road network.
    pub network: RoadNetwork,
    /// Sunrise and sunset at the depot, local; `None` when the sun does not rise.
    pub daylight: Option<(SecondOfDay, SecondOfDay)>,
    /// Every usable hole; several reports of one hole are one. In the order of the list.
    pub holes: Vec<PlannedHole>,
    /// Every cut, with its repair.
    pub jobs: Vec<PlannedJob>,
    /// Every zone (site), indexed as the round's sites.
    pub sites: Vec<PlannedSite>,
    /// What the search was given.
    pub problem: RoundProblem,
    /// What it answered.
    pub round: RoundSolution,
    /// Looks at repairs made before that lie on the way, in the order in which they are made.
    pub looks: Vec<PlannedLook>,
    /// The way driven for each `Drive` of the timetable, in order.
    pub ways: Vec<Way>,
    /// Loads per trip, in order.
    pub loads: Vec<TripLoad>,
    /// Chance that nothing runs out all day, 0 to 1; `None` when nothing is done.
    pub suffices: Option<f64>,
    /// The most of each device and of each sign that stands on the roads at one time.
    pub devices_at_once: Vec<DeviceNeed>,
    /// What the round takes: each road, each trip, the day.
    pub totals: DayTotals,
    /// Holes that are not in the round, with the reason in words.
    pub left_out: Vec<LeftOut>,
    /// Every usable report of the list, in its order, and what became of it.
    pub fates: Vec<ReportFate>,
    /// Everything that was wrong with the input.
    pub problems: Vec<Problem>,
    /// Wanted looks that are not on this round; of a round of a work plan empty, which tells them itself.
    pub looks_left: Vec<LookLeft>,
    /// What of the record the repairs are worked out with: of their roads and the crew.
    pub learnt: Learnt,
    /// The timetable counts on each repair's median time. Back at the depot by then in nine days of ten, no wait counted
    /// as made up for; it may be after the shift's end. `None` when nothing is done.
    pub back_p90: Option<SecondOfDay>,
    /// What must be printed wherever the roads are drawn, e.g. the map's licence line.
    pub road_attribution: Option<String>,
    /// It is one round of a work plan, which tells of all that this round leaves out and of the input.
    pub of_work_plan: bool,
}

/// A hole that was found on the network and judged.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedHole {
    /// As reported.
    pub hole: Hole,
    /// Where on the network.
    pub position: RoadPosition,
    /// How bad.
    pub judgement: Judgement,
    /// Index of its job.
    pub job: usize,
    /// Every report of it, that which gave its name and place first, the others by their first day.
    pub reports: Vec<HoleReport>,
}

/// One report of a hole.
#[derive(Debug, Clone, PartialEq)]
pub struct HoleReport {
    /// Its identifier in the list.
    pub id: HoleId,
    /// Who told of it, in the list's own word; empty where not said.
    pub source: String,
    /// Day it was seen, where given.
    pub seen: Option<Date>,
    /// Where in the input it stands.
    pub from: Locator,
    /// Why it is taken to be of this hole; of the first, what it counts for. Empty where it is the only one.
    pub words: String,
}

/// What became of one report.
#[derive(Debug, Clone, PartialEq)]
pub struct ReportFate {
    /// Which report.
    pub report: HoleId,
    /// Where in the input it stands.
    pub from: Locator,
    /// What became of it.
    pub fate: Fate,
}

/// What became of a report; exactly one holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Fate {
    /// Its hole is mended in this day's round.
    InRound,
    /// Its hole is in the left-out list, with the reason.
    LeftOut,
    /// It is of the same hole as the report named, whose fate it shares; with the reason.
    SameHoleAs(HoleId, String),
    /// It can't be used; the reason is among the problems.
    Refused,
}

/// A cut with its repair.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedJob {
    /// Indexes into `holes`.
    pub holes: Vec<usize>,
    /// The cut.
    pub cut: CutOut,
    /// Where the middle of the cut is: of the box around its corners, along and across the road.
    pub centre: LonLat,
    /// The repair.
    pub repair: Repair,
    /// Whether it is a patch by the agency's limits; one that is not is never in the round.
    pub patch: PatchDecision,
    /// Index of its site.
    pub site: usize,
    /// What the record teaches, as the repair holds it.
    pub factors: UseFactors,
}

/// A zone with its jobs: one stop of the round.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedSite {
    /// Indexes into `jobs`, in the order they are worked.
    pub jobs: Vec<usize>,
    /// The layout.
    pub zone: WorkZone,
    /// Chainage and direction at which the truck arrives.
    pub position: RoadPosition,
    /// Where that is.
    pub place: LonLat,
    /// Where the section's chainage counts from, in words a driver can use, e.g. `the junction with Q1 Fennow Road`.
    pub chainage_from: String,
    /// Where the section ends, in the same words.
    pub chainage_towards: String,
}

/// What to load for one trip.
#[derive(Debug, Clone, PartialEq)]
pub struct TripLoad {
    /// With this all materials of the trip suffice together with the load's confidence. Less than the sum of what each site
    /// would want for itself, since not all holes turn out large on one day.
    pub total: Demand,
    /// Chance that nothing runs out on the trip, 0 to 1.
    pub suffices: f64,
    /// The same of each material alone: base, water, binder, cover stone.
    pub suffices_by_material: [f64; 4],
    /// Where there is more of it if it runs out, and how far that is at most from the trip's sites.
    pub nearest: Vec<NearestSupply>,
    /// One line per compartment or tank.
    pub lines: Vec<LoadLine>,
    /// Greatest mass aboard at any time on the trip, every site taken to turn out large together. Spoil comes aboard before
    /// the hole is filled.
    pub mass_max: Mass,
    /// Greatest volume of base and spoil together in the bins at any time on the trip, taken likewise.
    pub body_volume_max: Volume,
    /// Most signs, cones needed at one site.
    pub signs: u32,
    /// Most cones needed at one site.
    pub cones: u32,
}

/// Where to get more of something that has run out.
#[derive(Debug, Clone, PartialEq)]
pub struct NearestSupply {
    /// What: `base and cover stone` or `binder and water`.
    pub what: &'static str,
    /// Name of the depot or supply place.
    pub place: String,
    /// Driving seconds from the trip's site that is furthest from it.
    pub travel_s: u32,
}

/// One compartment's or tank's load.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadLine {
    /// Compartment or tank.
    pub container: String,
    /// What goes in, in words.
    pub content: String,
    /// The good that is loaded; spoil where it is empty at the start.
    pub good: SiteGood,
    /// Volume loaded at the depot.
    pub volume: Volume,
    /// Mass loaded at the depot.
    pub mass: Mass,
    /// The same as the crew counts it, where there is a unit for it.
    pub site_count: Option<SiteCount>,
    /// Room of the container.
    pub room: Volume,
}

/// How many of one kind of device, or of one sign, are needed at one time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DeviceNeed {
    /// Kind.
    pub kind: DeviceKind,
    /// The sign's designation; empty for what is no sign, and for all signs together.
    pub designation: String,
    /// The sign's words; empty likewise.
    pub legend: String,
    /// How many.
    pub most: u32,
    /// The first time at which that many are out.
    pub at: SecondOfDay,
    /// Zones that stand then: more than one where crews overlap.
    pub zones: u32,
}

/// A hole that is not in the round.
#[derive(Debug, Clone, PartialEq)]
pub struct LeftOut {
    /// Which.
    pub hole: HoleId,
    /// Code of the reason, where the search gave it.
    pub reason: Option<LeftOutReason>,
    /// In words.
    pub words: String,
    /// Where, if known.
    pub road: String,
    /// Where it was reported.
    pub place: LonLat,
    /// Distance from the nearest road, where that is the reason.
    pub distance: Option<Length>,
}

/// The work of all crews of a district over some days.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkPlan {
    /// The district.
    pub district: District,
    /// First day.
    pub first_day: Date,
    /// How many days.
    pub days: u32,
    /// The rounds, by day, then crew; each a plan of its own, of the holes that it mends.
    pub rounds: Vec<CrewDay>,
    /// Every zone that the search looked at, indexed as the problem's sites.
    pub sites: Vec<SiteOfWork>,
    /// What the search was given.
    pub problem: ProgrammeProblem,
    /// What it answered.
    pub programme: Programme,
    /// Holes that no round mends, with the reason in words.
    pub left_out: Vec<LeftOut>,
    /// Every usable report of the list, in its order, and what became of it.
    pub fates: Vec<ReportFate>,
    /// Everything that was wrong with the input.
    pub problems: Vec<Problem>,
    /// What differs from the order that the crews went out with; empty unless it is the rest of a day that is planned.
    pub changes: Vec<Change>,
    /// Reports that are out because their hole is mended already.
    pub done_before: usize,
    /// Working hours that the forecast does not speak of, by day; empty where no forecast is given.
    pub not_forecast: Vec<(Date, Vec<(SecondOfDay, SecondOfDay)>)>,
    /// What was asked for holes by name.
    pub pins: Vec<Pin>,
    /// What of it can't be.
    pub pins_refused: Vec<PinRefused>,
    /// Wanted looks that are on no round.
    pub looks_left: Vec<LookLeft>,
    /// What of the record the repairs are worked out with: of their roads and all crews.
    pub learnt: Learnt,
}

/// One crew's day.
#[derive(Debug, Clone, PartialEq)]
pub struct CrewDay {
    /// Index of the crew, see [`District::of_crew`].
    pub crew: usize,
    /// The plan, of what this crew mends on this day alone.
    pub plan: Plan,
}

/// What a zone of the programme is, in words.
#[derive(Debug, Clone, PartialEq)]
pub struct SiteOfWork {
    /// Its holes.
    pub holes: Vec<HoleId>,
    /// Its road.
    pub road: String,
    /// Risk taken off the road by mending it, points, on each day.
    pub worth: Vec<f64>,
}

/// A site that is mended by another crew than planned, or is not, or is new.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// Its holes.
    pub holes: Vec<HoleId>,
    /// Its road.
    pub road: String,
    /// How.
    pub changed: Changed,
    /// Why.
    pub words: String,
}

/// How a plan changed for a site; crews by name.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs)] // the words are the definition
pub enum Changed {
    Added { to: String },
    Moved { from: String, to: String },
    Dropped { from: String },
}

/// Why each site is where it is, and what one more of something would bring.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Explained {
    /// One for each site of the work plan.
    pub sites: Vec<OtherWay>,
    /// Empty where it was not asked for.
    pub more: Vec<Marginal>,
}

/// Where a site is, and what another way with it would cost.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherWay {
    /// Day on which it is mended; `None`: left out.
    pub date: Option<Date>,
    /// Crew that mends it.
    pub crew: Option<usize>,
    /// In words.
    pub words: String,
}

/// What one more of something would bring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Marginal {
    /// Of what.
    pub more: MoreOf,
    /// Money saved: risk less crew time and driving; the thing itself is not paid for.
    pub saves: f64,
    /// Sites mended more, fewer if negative.
    pub sites: i64,
}

/// One more of what.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MoreOf {
    /// One more crew with a truck like that of the crew of this index, on all its days.
    Crew(usize),
    /// An hour at the end of every shift, daylight and windows as they are.
    Hour,
    /// A cubic metre in the body of every truck, and the payload for it.
    CubicMetre,
}
