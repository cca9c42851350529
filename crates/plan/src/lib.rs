//! The day's plan: calls the stages in order, plain data in and out. Read [`plan_day`] first.
//!
//! ```text
//! reports --locate--> on the network --one_hole--> holes --judge--> risk, due day
//!       --mark_out--> cuts --repair--> quantities --patches--> or the engineer's --lay_out--> zones (sites)
//!       --solve--> trips and timetable --loads--> what goes on the truck
//! ```
//!
//! Reads no file, no clock; draws no randomness but from the seed: the same input gives the same plan.

mod chance;
mod daylight;
mod explain;
mod fates;
mod finding;
mod finish;
mod heights;
mod hours;
mod jobs;
mod learnt;
mod left_out;
mod loads;
mod locate;
mod looks;
mod one_day;
mod one_hole;
mod patches;
mod programme;
mod sharing;
mod sites;
mod totals;
mod weather_days;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use model::district::{District, UnitSystem};
use model::hole::{Hole, HoleId};
use model::learnt::Learnt;
use model::look::LooksWanted;
use model::plan::{LeftOut, NearestSupply, Plan, PlannedHole};
use model::problem::Problem;
use model::quantity::{Length, kilometres, square_metres};
use model::road::{RoadNetwork, RoadSection};
use model::round::{RoundProblem, RoundSolution};
use model::rules::markout::MarkOutRules;
use model::rules::matching::MatchingRules;
use model::rules::planning::PlanningRules;
use model::rules::repair::RepairRules;
use model::rules::severity::SeverityRules;
use model::rules::traffic::TrafficRules;
use roads::{AccessPlace, Network, PrepareError, SnapRefusal, TruckSpeeds};
use rounds::SearchSettings;
use thiserror::Error;
use triage::TriageInput;
use triage::same_hole::{self, Report};

use crate::chance::{Chances, TripSupply};
pub use crate::explain::explain;
use crate::finish::FoundRound;
pub use crate::heights::HeightLookup;
use crate::jobs::Refusals;
pub use crate::jobs::wheel_paths;
pub use crate::locate::{Located, is_kept_up};
pub use crate::programme::{ProgrammeInput, plan_programme};

use crate::locate::NotLocated;
use crate::looks::Looks;
use crate::one_day::OneDay;
use crate::sites::Layout;
pub use crate::sites::road_around;
pub use crate::weather_days::{WeatherDay, WeatherHour, weather_days};

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
    /// Looks at repairs made before, to be put on the way; `None`: none are.
    pub looks: Option<LooksWanted>,
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
    /// What the record teaches beside them; the default is nothing.
    pub learnt: Learnt,
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
    let PlanInput { district, network, heights, holes, mut problems, rules, road_attribution, .. } = input;
    let PlanInput { date, seed, looks: wanted, .. } = input;
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
    let kinds = [&district];
    let mut jobs = jobs::make(&located, &network, &kinds, &rules, &mut refusals);
    jobs::keep_made(&mut located, &mut jobs);
    let learnt = learnt::counting(&rules.learnt, &jobs, &network, &kinds);
    problems.extend(learnt::limited(&learnt));
    problems.extend(learnt::planned_otherwise(&learnt));
    let patches = patches::decide(&jobs, &located, &network, &district, &rules, date);
    let holes = judge_all(&located, &jobs, &network, &rules, date, district.units);
    let day = OneDay { network: &network, district: &district, daylight, depot };
    let layout = Layout { jobs: &jobs, patches: &patches, holes: &holes, heights: &heights, rules: &rules, date };
    let mut weighed = layout.lay_out(&day);
    let searched = sites::candidates_first(&mut weighed, &district, &rules);

    progress(Step::Distances, 0.0);
    let (places, driving) = day.driving(weighed[..searched].iter().map(|site| site.planned.position));
    let jobs_of = weighed[..searched].iter().map(|site| site.planned.jobs.clone()).collect();
    let mut chances = Chances::new(jobs_of, &jobs, &network, &kinds, &rules.repair, seed);
    let mut problem = day.problem(weighed[..searched].iter().map(|site| site.for_search(&day)).collect(), &driving);
    let round = round_that_holds(&mut problem, &mut chances, seed, district.planning.iterations, progress);
    let supplies = round.trips.iter().map(|trip| TripSupply::all(trip)).collect();
    let mut looks = Looks::new(wanted.as_ref(), &network, &district);
    let nearest = round.trips.iter().map(|trip| nearest_depot(trip, &problem, &district.depot.name)).collect();

    let found = FoundRound {
        network: &network,
        rules: &rules,
        list: &list,
        joined: &joined,
        sites: weighed,
        district: district.clone(),
        date,
        seed,
        daylight,
        holes,
        jobs,
        patches,
        places,
        end: problem.shift_end,
        problem,
        round,
        supplies,
        nearest,
        refusals,
        problems,
        learnt,
        road_attribution,
        of_work_plan: false,
    };
    let plan = finish::finish(found, &mut looks);
    Ok(Plan { looks_left: looks.left(), ..plan })
}

/// Later searches begin with what the first has found.
const SEARCH_AGAIN_SHARE: u32 = 4;

/// Searches until nothing runs out with the confidence asked for, with more room for the sites where it fell short.
fn round_that_holds(
    problem: &mut RoundProblem,
    chances: &mut Chances,
    seed: u64,
    iterations: u32,
    progress: &mut dyn FnMut(Step, f64) -> bool,
) -> RoundSolution {
    let mut found: Option<RoundSolution> = None;
    loop {
        for (index, site) in problem.sites.iter_mut().enumerate() {
            site.demand = chances.demand(index);
        }
        let steps = if found.is_some() { iterations / SEARCH_AGAIN_SHARE } else { iterations };
        let settings = SearchSettings { seed, iterations: steps };
        let all = f64::from(steps.max(1));
        let mut stopped = false;
        let round = rounds::solve_from(problem, found.as_ref(), &settings, &mut |done, _| {
            stopped |= !progress(Step::Search, f64::from(done) / all);
            !stopped
        });
        let supplies: Vec<TripSupply> = round.trips.iter().map(|trip| TripSupply::all(trip)).collect();
        if stopped || !chances.raise(&[supplies]) {
            return round;
        }
        found = Some(round);
    }
}

/// With one depot there is more of everything at the depot.
fn nearest_depot(trip: &[usize], problem: &RoundProblem, depot: &str) -> Vec<NearestSupply> {
    let travel_s = trip.iter().map(|site| problem.travel_s[site + 1][0]).max().unwrap_or(0);
    ["base and cover stone", "binder and water"]
        .map(|what| NearestSupply { what, place: depot.to_owned(), travel_s })
        .into()
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
    located: &[Located],
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
    let judged = located.iter().zip(job_of).map(|(found, job)| {
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
        PlannedHole {
            hole: found.hole.clone(),
            position: found.position,
            judgement,
            job,
            reports: found.reports.clone(),
        }
    });
    judged.collect()
}
