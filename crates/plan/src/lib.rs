//! The day's plan: calls the stages in order, plain data in and out. Read [`plan_day`] first.
//!
//! ```text
//! reports --locate--> on the network --one_hole--> holes --judge--> risk, due day
//!       --mark_out--> cuts --repair--> quantities --patches--> or the engineer's --lay_out--> zones (sites)
//!       --solve--> trips and timetable --loads--> what goes on the truck
//! ```
//!
//! Reads no file, no clock; draws no randomness but from the seed: the same input gives the same plan.

mod daylight;
mod fates;
mod finding;
mod heights;
mod hours;
mod jobs;
mod left_out;
mod loads;
mod locate;
mod one_day;
mod one_hole;
mod patches;
mod sharing;
mod sites;
mod totals;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use model::district::{District, UnitSystem};
use model::hole::{Hole, HoleId};
use model::patch::PatchDecision;
use model::place::FramePoint;
use model::plan::{DeviceNeed, LeftOut, Plan, PlannedHole, PlannedJob, PlannedSite};
use model::problem::Problem;
use model::quantity::{InTime, Length, Time, kilometres, metres, square_metres};
use model::road::{RoadNetwork, RoadSection};
use model::round::{RoundSolution, SecondOfDay, StopKind, Way};
use model::rules::markout::MarkOutRules;
use model::rules::matching::MatchingRules;
use model::rules::planning::PlanningRules;
use model::rules::repair::RepairRules;
use model::rules::severity::SeverityRules;
use model::rules::traffic::TrafficRules;
use model::total::Totals;
use roads::{AccessPlace, Network, PrepareError, SnapRefusal, TruckSpeeds};
use rounds::SearchSettings;
use thiserror::Error;
use triage::TriageInput;
use triage::same_hole::{self, Report};
use workzone::Standing;

pub use crate::heights::HeightLookup;
use crate::jobs::Refusals;
pub use crate::jobs::wheel_paths;
pub use crate::locate::Located;
use crate::locate::NotLocated;
use crate::one_day::OneDay;
pub use crate::sites::road_around;
use crate::totals::RoundTotals;

/// Everything a plan is made from.
#[derive(Debug, Clone)]
pub struct PlanInput {
    /// The district.
    pub district: District,
    /// Its roads.
    pub network: RoadNetwork,
    /// Heights of the ground along them, where they are known.
    pub heights: HeightLookup,
    /// The reports of holes, identifiers unique.
    pub holes: Vec<Hole>,
    /// What was already wrong with the input; carried into the plan.
    pub problems: Vec<Problem>,
    /// The rules.
    pub rules: Rules,
    /// What must be printed wherever the roads are drawn.
    pub road_attribution: Option<String>,
    /// The day.
    pub date: Date,
    /// Seed of the search.
    pub seed: u64,
}

/// The rule sets of all stages.
#[derive(Debug, Clone)]
pub struct Rules {
    /// How a cut is laid.
    pub mark_out: MarkOutRules,
    /// How a repair is made.
    pub repair: RepairRules,
    /// Traffic control.
    pub traffic: TrafficRules,
    /// Which reports are of the same hole.
    pub matching: MatchingRules,
    /// Severity and due days.
    pub severity: SeverityRules,
    /// How a day is put together.
    pub planning: PlanningRules,
}

/// Why there is no plan at all.
#[derive(Debug, Error)]
pub enum PlanError {
    /// The road network can't be used.
    #[error("the roads can't be used: {0}")]
    Roads(#[from] PrepareError),
    /// The depot is not on the roads.
    #[error("the depot is not on the roads: {0}")]
    Depot(SnapRefusal),
    /// The time zone is not known.
    #[error("the time zone `{0}` is not in the zone database")]
    TimeZone(String),
}

/// Where the work stands, for a progress bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)] // the words are the definition
pub enum Step {
    Roads,
    Holes,
    Repairs,
    Distances,
    Search,
}

/// The furthest a depot's gate may be from a road that is on the map.
fn depot_snap_limit() -> Length {
    kilometres(2.0)
}

/// Plans one day of one crew.
///
/// `progress` is told the step and how much of it is done, 0 to 1; when it gives `false` the search stops with what it
/// has.
pub fn plan_day(input: PlanInput, progress: &mut dyn FnMut(Step, f64) -> bool) -> Result<Plan, PlanError> {
    let PlanInput { district, network, heights, holes, mut problems, rules, road_attribution, date, seed } = input;
    let zone = TimeZone::get(&district.time_zone).map_err(|_| PlanError::TimeZone(district.time_zone.clone()))?;
    let daylight = daylight::daylight(district.depot.position, date, &zone);

    progress(Step::Roads, 0.0);
    let network = prepare(network, &district)?;
    let depot = depot(&network, &district)?;

    progress(Step::Holes, 0.0);
    let mut refusals = Refusals::default();
    let list = holes;
    let reports = locate_all(&list, &network, &district, &rules.planning, &mut refusals);
    let mut located = one_hole::join(&reports, &network, &district, &rules, &mut refusals);
    let joined = fates::joined(&located);

    progress(Step::Repairs, 0.0);
    let mut jobs = jobs::make(&located, &network, &district, &rules, &mut refusals);
    jobs::keep_made(&mut located, &mut jobs);
    let patches = patches::decide(&jobs, &located, &network, &district, &rules, date);
    let holes = judge_all(located, &jobs, &network, &rules, date, district.units);
    let day = OneDay { network: &network, district: &district, daylight, depot };
    let mut weighed = sites::lay_out(&jobs, &patches, &holes, &heights, &day, &rules, date);
    let searched = sites::candidates_first(&mut weighed, &district, &rules);

    progress(Step::Distances, 0.0);
    let (places, driving) = day.driving(weighed[..searched].iter().map(|site| site.planned.position));
    let problem = day.problem(weighed[..searched].iter().map(|site| site.for_search(&day)).collect(), &driving);

    let settings = SearchSettings { seed, iterations: district.planning.iterations };
    let iterations = f64::from(settings.iterations.max(1));
    let round = rounds::solve(&problem, &settings, &mut |done, _| progress(Step::Search, f64::from(done) / iterations));

    let ways = ways(&round, &places, &network);
    let work: Time = round.trips.iter().flatten().map(|&site| weighed[site].work).sum();
    let blocked: Vec<Option<String>> = weighed.iter().map(|site| site.blocked.clone()).collect();
    let sites: Vec<PlannedSite> = weighed.into_iter().map(|site| site.planned).collect();
    let RoundTotals { totals, loads: wanted } =
        totals::round_totals(&round.trips, &problem, &sites, &jobs, &network, &district, &rules.repair, seed);
    let back_p90 = back_p90(&round, work, totals.day.as_ref());
    let jobs = planned_jobs(jobs, patches, &sites, &network);
    let loads = loads::trip_loads(&round.trips, &wanted, &problem, &sites, &district);
    let devices_at_once = devices_at_once(&round, &sites);
    let mut left_out = refusals.left_out;
    let planned = left_out::Planned {
        sites: &sites,
        jobs: &jobs,
        holes: &holes,
        blocked: &blocked,
        depot: depot.position.section,
    };
    left_out.extend(left_out::from_round(&round, &problem, &planned, &network, daylight.is_some()));
    problems.extend(refusals.problems);
    let fates = fates::fates(&list, &joined, &holes, &jobs, &round, &left_out);
    let network = network.roads().clone();
    Ok(Plan {
        district,
        date,
        seed,
        network,
        daylight,
        holes,
        jobs,
        sites,
        problem,
        round,
        ways,
        loads,
        devices_at_once,
        totals,
        left_out,
        fates,
        problems,
        back_p90,
        road_attribution,
    })
}

/// What stands on the roads at one time on this round.
fn devices_at_once(round: &RoundSolution, sites: &[PlannedSite]) -> Vec<DeviceNeed> {
    let standing: Vec<Standing> = round
        .timetable
        .iter()
        .filter_map(|stop| match stop.kind {
            StopKind::Work(site) => Some(Standing { zone: &sites[site].zone, from: stop.from, to: stop.to }),
            _ => None,
        })
        .collect();
    workzone::at_once(&standing)
}

/// Back at the depot in nine days of ten: what the day's work exceeds the planned work by then comes on top.
fn back_p90(round: &RoundSolution, planned_work: Time, day: Option<&Totals>) -> Option<SecondOfDay> {
    let last = round.timetable.last()?;
    let overrun = day?.duration.p90() - planned_work;
    Some(SecondOfDay(last.to.0 + overrun.in_seconds().max(0.0).ceil() as u32))
}

/// The holes that lie on this crew's roads, and what became of the others: the first stages alone.
pub fn locate_on_roads(
    holes: &[Hole],
    network: RoadNetwork,
    district: &District,
    rules: &PlanningRules,
) -> Result<LocatedHoles, PlanError> {
    let network = prepare(network, district)?;
    let mut refusals = Refusals::default();
    let located = locate_all(holes, &network, district, rules, &mut refusals);
    let Refusals { left_out, problems } = refusals;
    Ok(LocatedHoles { holes: located, left_out, problems, network: network.roads().clone() })
}

/// The holes that a list tells of, several reports of one hole joined: the stages up to there alone.
pub fn holes_on_roads(
    list: &[Hole],
    network: RoadNetwork,
    district: &District,
    rules: &Rules,
) -> Result<HolesOnRoads, PlanError> {
    let network = prepare(network, district)?;
    let mut refusals = Refusals::default();
    let located = locate_all(list, &network, district, &rules.planning, &mut refusals);
    let holes = one_hole::join(&located, &network, district, rules, &mut refusals);
    let reports: Vec<Report> = located.iter().map(one_hole::report).collect();
    let groups = same_hole::same_holes(&reports, &rules.matching);
    let told_apart = same_hole::told_apart(&reports, &groups, &rules.matching, district.units)
        .into_iter()
        .map(|(one, other, words)| (reports[one].id.clone(), reports[other].id.clone(), words))
        .collect();
    let Refusals { left_out, problems } = refusals;
    let located = LocatedHoles { holes, left_out, problems, network: network.roads().clone() };
    Ok(HolesOnRoads { located, told_apart })
}

/// What [`holes_on_roads`] gives.
#[derive(Debug, Clone)]
pub struct HolesOnRoads {
    /// The holes, each with its reports.
    pub located: LocatedHoles,
    /// Pairs of reports that lie close together and are of two holes, with what tells them apart.
    pub told_apart: Vec<(HoleId, HoleId, String)>,
}

/// What [`locate_on_roads`] gives.
#[derive(Debug, Clone)]
pub struct LocatedHoles {
    /// Holes on this crew's roads.
    pub holes: Vec<Located>,
    /// Holes that are not, with the reason.
    pub left_out: Vec<LeftOut>,
    /// Reports at fault.
    pub problems: Vec<Problem>,
    /// The roads.
    pub network: RoadNetwork,
}

/// The roads made ready for the district's truck.
fn prepare(network: RoadNetwork, district: &District) -> Result<Network, PrepareError> {
    let truck = &district.truck;
    let speeds = TruckSpeeds { factor: truck.speed_factor, max: truck.speed_max };
    Network::prepare_for(network, speeds, truck.size)
}

fn depot(network: &Network, district: &District) -> Result<AccessPlace, PlanError> {
    let drivable = |section: &RoadSection| network.barred(section.id).is_none();
    network
        .snap(district.depot.position, None, depot_snap_limit(), district.driving_side, &drivable)
        .map(AccessPlace::depot)
        .map_err(PlanError::Depot)
}

fn locate_all(
    holes: &[Hole],
    network: &Network,
    district: &District,
    rules: &PlanningRules,
    refusals: &mut Refusals,
) -> Vec<Located> {
    let mut located = Vec::new();
    for hole in holes {
        match locate::locate(hole, network, district, rules).map_err(|not| *not) {
            Ok(found) => located.push(found),
            Err(NotLocated::LeftOut(left_out)) => refusals.left_out.push(left_out),
            Err(NotLocated::Refused(problem)) => refusals.problems.push(problem),
        }
    }
    located
}

fn judge_all(
    located: Vec<Located>,
    jobs: &[jobs::Job],
    network: &Network,
    rules: &Rules,
    date: Date,
    units: UnitSystem,
) -> Vec<PlannedHole> {
    let mut job_of = vec![0; located.len()];
    for (index, job) in jobs.iter().enumerate() {
        for &hole in &job.holes {
            job_of[hole] = index;
        }
    }
    let judged = located.into_iter().zip(job_of).map(|(found, job)| {
        let section = network.section(found.position.section);
        let input = TriageInput {
            depth: found.hole.depth,
            area: square_metres(jobs::ring_area(&found.outline)),
            least_plan_dimension: triage::least_plan_dimension(&found.outline.ring),
            lane_position: found.hole.lane_position,
            wetness: found.hole.wetness,
            speed: section.speed,
            class: section.class,
            vehicles_per_day: section.vehicles_per_day,
            seen: found.hole.seen,
            sized: found.sized,
        };
        let judgement = triage::judge(&input, &rules.severity, date, units);
        PlannedHole { hole: found.hole, position: found.position, judgement, job, reports: found.reports }
    });
    judged.collect()
}

/// The way driven for each drive of the timetable.
fn ways(round: &RoundSolution, places: &[AccessPlace], network: &Network) -> Vec<Way> {
    let mut here = 0;
    let mut ways = Vec::new();
    for stop in &round.timetable {
        if let StopKind::Drive(to) = stop.kind {
            ways.push(network.way(&places[here], &places[to]).unwrap_or_default());
            here = to;
        }
    }
    ways
}

fn planned_jobs(
    jobs: Vec<jobs::Job>,
    patches: Vec<PatchDecision>,
    sites: &[PlannedSite],
    network: &Network,
) -> Vec<PlannedJob> {
    let mut site_of = vec![0; jobs.len()];
    for (index, site) in sites.iter().enumerate() {
        for &job in &site.jobs {
            site_of[job] = index;
        }
    }
    let planned = jobs.into_iter().zip(patches).zip(site_of).map(|((job, patch), site)| {
        let middle = FramePoint::middle(&job.cut.corners);
        let centre = network.frame_at(job.section, metres(middle.along_m)).to_lon_lat(middle);
        PlannedJob { holes: job.holes, cut: job.cut, centre, repair: job.repair, patch, site }
    });
    planned.collect()
}
