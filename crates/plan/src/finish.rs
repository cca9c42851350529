//! From a found round to the finished plan of one crew's day.

use jiff::civil::Date;
use model::district::District;
use model::hole::Hole;
use model::learnt::Learnt;
use model::patch::PatchDecision;
use model::place::FramePoint;
use model::plan::{DeviceNeed, NearestSupply, Plan, PlannedHole, PlannedJob, PlannedSite};
use model::quantity::{InTime, Time, metres};
use model::round::{RoundProblem, RoundSolution, SecondOfDay, StopKind, Way};
use model::total::Totals;
use roads::{AccessPlace, Network};
use workzone::Standing;

use crate::Rules;
use crate::chance::TripSupply;
use crate::fates::{self, Joined};
use crate::jobs::{Job, Refusals};
use crate::left_out;
use crate::loads;
use crate::looks::{Looks, OnRound};
use crate::sites::WeighedSite;
use crate::totals::{self, OfRound, RoundTotals};

/// Everything that one crew's day is written from. Indexes of `round` go into `sites`, those of sites into `jobs`, those of
/// jobs into `holes`.
pub(crate) struct FoundRound<'a> {
    pub district: District,
    pub date: Date,
    pub seed: u64,
    pub daylight: Option<(SecondOfDay, SecondOfDay)>,
    pub network: &'a Network,
    pub rules: &'a Rules,
    /// The reports that the plan tells the fate of.
    pub list: &'a [Hole],
    pub joined: &'a Joined,
    pub holes: Vec<PlannedHole>,
    pub jobs: Vec<Job>,
    pub patches: Vec<PatchDecision>,
    pub sites: Vec<WeighedSite>,
    /// The depot, the sites of the problem, the yards.
    pub places: Vec<AccessPlace>,
    pub problem: RoundProblem,
    pub round: RoundSolution,
    /// What is loaded for each trip.
    pub supplies: Vec<TripSupply>,
    /// Where there is more of something, for each trip.
    pub nearest: Vec<Vec<NearestSupply>>,
    pub refusals: Refusals,
    pub problems: Vec<model::problem::Problem>,
    /// The crew is back by then.
    pub end: SecondOfDay,
    /// What of the record the repairs are worked out with.
    pub learnt: Learnt,
    pub road_attribution: Option<String>,
    /// Whether it is one round of a work plan.
    pub of_work_plan: bool,
}

/// Looks, ways, loads, totals and fates of a round. The looks that are left are told by who has them all.
pub(crate) fn finish(found: FoundRound, looks: &mut Looks) -> Plan {
    let FoundRound { district, date, seed, daylight, network, rules, list, joined, holes, jobs, patches, .. } = found;
    let FoundRound { sites: weighed, mut places, problem, mut round, supplies, end, .. } = found;
    let FoundRound { nearest, refusals, mut problems, learnt, road_attribution, of_work_plan, .. } = found;
    let work: Time = round.trips.iter().flatten().map(|&site| weighed[site].work).sum();
    let blocked: Vec<Option<String>> = weighed.iter().map(|site| site.blocked.clone()).collect();
    let sites: Vec<PlannedSite> = weighed.into_iter().map(|site| site.planned).collect();
    let RoundTotals { totals, loads: wanted, suffices } = totals::round_totals(&OfRound {
        trips: &round.trips,
        supplies: &supplies,
        problem: &problem,
        sites: &sites,
        jobs: &jobs,
        network,
        district: &district,
        rules: &rules.repair,
        seed,
    });
    let overrun_s = overrun_s(work, totals.day.as_ref());
    let of_round =
        OnRound { network, district: &district, daylight, problem: &problem, end, overrun_s: overrun_s.unwrap_or(0) };
    let looks = looks.put_on(&of_round, &mut round, &mut places);
    let ways = ways(&round, problem.start, &places, network);
    let last = round.timetable.last();
    let back_p90 = last.zip(overrun_s).map(|(last, overrun_s)| SecondOfDay(last.to.0 + overrun_s));
    let jobs = planned_jobs(jobs, patches, &sites, network);
    let mut loads = loads::trip_loads(&round.trips, &wanted, &problem, &sites, &district);
    for (load, nearest) in loads.iter_mut().zip(nearest) {
        load.nearest = nearest;
    }
    let devices_at_once = devices_at_once(&round, &sites);
    let mut left_out = refusals.left_out;
    let depot = places[0].position.section;
    let planned = left_out::Planned { sites: &sites, jobs: &jobs, holes: &holes, blocked: &blocked, depot };
    left_out.extend(left_out::from_round(&round, &problem, &planned, network, daylight.is_some()));
    problems.extend(refusals.problems);
    let done = round.trips.iter().flatten().copied().collect();
    let fates = fates::fates(list, joined, &holes, &jobs, &done, &left_out);
    let network = network.roads().clone();
    Plan {
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
        looks,
        ways,
        loads,
        suffices,
        devices_at_once,
        totals,
        left_out,
        fates,
        problems,
        looks_left: Vec::new(),
        learnt,
        back_p90,
        road_attribution,
        of_work_plan,
    }
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

/// What the day's work exceeds the planned work by in nine days of ten, seconds: so much later the crew is back.
fn overrun_s(planned_work: Time, day: Option<&Totals>) -> Option<u32> {
    let overrun = day?.duration.p90() - planned_work;
    Some(overrun.in_seconds().max(0.0).ceil() as u32)
}

/// The way driven for each drive of the timetable.
fn ways(round: &RoundSolution, start: usize, places: &[AccessPlace], network: &Network) -> Vec<Way> {
    let mut here = start;
    let mut ways = Vec::new();
    for stop in &round.timetable {
        if let StopKind::Drive(to) = stop.kind {
            ways.push(network.way(&places[here], &places[to]).unwrap_or_default());
            here = to;
        }
    }
    ways
}

pub(crate) fn planned_jobs(
    jobs: Vec<Job>,
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
        let Job { holes, cut, repair, factors, .. } = job;
        PlannedJob { holes, cut, centre, repair, patch, site, factors }
    });
    planned.collect()
}
