//! A whole agency: many depots and crews, up to some hundred thousand sites.
//!
//! Driving times between all places would not fit into memory, and most sites can't be done within the days anyway. So the
//! sites go to the depots' areas (`areas`), each area is solved for itself with the sites that its crews may come to, and
//! then what lies along the border of each two neighbouring areas is solved again, beginning with the rounds that are there
//! (`borders`). Method, sources and limits: handbook/methods/agency.md.

mod again;
mod areas;
mod borders;
mod part;

pub use self::again::{AgencyArea, agency_again, areas_of};
use model::programme::{CrewRound, CrewShift, DrivingTimes, Programme, ProgrammeCost, ProgrammeSite, Yard};
use model::round::LeftOutReason;

use crate::agency::areas::Area;
use crate::agency::part::Part;
use crate::translate::price;
use crate::{SearchSettings, reasons, workers};

/// Driving times of a class of truck between chosen places, in the order given. Of the same two places it says the same
/// each time, whatever others are asked for with them.
pub type DrivingBetween<'a> = dyn Fn(usize, &[usize]) -> DrivingTimes + Sync + 'a;

/// What [`agency`] plans for; as a [`model::programme::ProgrammeProblem`] but for the driving times.
#[derive(Clone, Copy)]
pub struct Agency<'a> {
    /// The sites; site `i` is at place `i`.
    pub sites: &'a [ProgrammeSite],
    /// Yard `y` is at place `sites.len() + y`.
    pub yards: &'a [Yard],
    /// Each crew's shifts. A crew belongs to the yard where the first of them ends.
    pub shifts: &'a [CrewShift],
    /// Of each place, metres on a plane; says only what is near what.
    pub positions: &'a [[f64; 2]],
    /// Driving times, by class of truck.
    pub driving: &'a DrivingBetween<'a>,
}

/// How to go about it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgencySettings {
    /// Seed of the random numbers.
    pub seed: u64,
    /// Search steps for each site that an area looks at; half as many for each along a border.
    pub steps_per_site: u32,
    /// An area looks at the most pressing sites up to this many times the work that its crews have time for.
    pub looked_at: f64,
    /// How often all borders are gone over.
    pub border_passes: u32,
    /// Threads. The programme does not depend on it.
    pub threads: usize,
}

impl Default for AgencySettings {
    fn default() -> Self {
        Self { seed: 1, steps_per_site: 8, looked_at: 1.0, border_passes: 1, threads: 1 }
    }
}

/// How far it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgencyProgress {
    /// What is being done.
    pub stage: AgencyStage,
    /// Search steps of this stage that are done.
    pub steps: u64,
    /// Of so many.
    pub of: u64,
    /// Least cost so far, money.
    pub cost: f64,
}

/// What is being done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AgencyStage {
    /// Each area for itself.
    Areas,
    /// Neighbouring areas together.
    Borders,
}

/// Finds a programme of low cost for the whole agency.
///
/// The same agency and settings give the same programme with any number of threads. `progress` stops the search by returning
/// `false`: areas not yet begun then get a first plan only, and the best programme so far is returned.
///
/// Bad figures are taken as by [`crate::programme`]; indices and [`Agency::positions`] must fit.
pub fn agency(
    agency: &Agency<'_>,
    settings: &AgencySettings,
    progress: &mut dyn FnMut(&AgencyProgress) -> bool,
) -> Programme {
    let areas = areas::divide(agency, settings.looked_at);
    let mut state = State { rounds: vec![None; agency.shifts.len()], cost: 0.0, stopped: false };
    alone(agency, &areas, settings, &mut state, progress);
    for pass in 0..settings.border_passes {
        if !state.stopped {
            borders::improve(agency, &areas, settings, pass, &mut state, progress);
        }
    }
    finish(agency, &areas, settings, state)
}

/// The rounds so far.
pub(crate) struct State {
    /// By shift.
    rounds: Vec<Option<CrewRound>>,
    /// Of the whole programme.
    cost: f64,
    /// Nobody wants to wait any longer.
    stopped: bool,
}

/// Each area for itself.
fn alone(
    agency: &Agency<'_>,
    areas: &[Area],
    settings: &AgencySettings,
    state: &mut State,
    progress: &mut dyn FnMut(&AgencyProgress) -> bool,
) {
    let left = |sites: &[usize]| sites.iter().map(|&site| price(agency.sites[site].left)).sum::<f64>();
    let passed_over: f64 = areas.iter().map(|area| left(&area.passed_over)).sum();
    let steps = |area: &Area| steps(settings, area.sites.len());
    let of = areas.iter().map(|area| u64::from(steps(area))).sum();
    let mut told: Vec<(u32, f64)> = areas.iter().map(|area| (0, left(&area.sites))).collect();
    let work = |index: usize, tell: workers::Tell<'_>| {
        let area = &areas[index];
        let part = Part::new(agency, area.sites.clone(), area.shifts.clone());
        let settings = SearchSettings { seed: seed(settings.seed, 0, index), iterations: steps(area) };
        let programme = crate::programme(&part.problem, None, &settings, tell);
        (part.in_agency(programme.rounds), programme.cost.total())
    };
    let mut stopped = false;
    let solved = workers::run(settings.threads, areas.len(), &work, &mut |index, steps, cost| {
        told[index] = (steps, cost);
        let steps = told.iter().map(|&(steps, _)| u64::from(steps)).sum();
        let cost = passed_over + told.iter().map(|&(_, cost)| cost).sum::<f64>();
        stopped |= !progress(&AgencyProgress { stage: AgencyStage::Areas, steps, of, cost });
        !stopped
    });
    state.stopped = stopped;
    state.cost = passed_over;
    for (rounds, cost) in solved {
        state.cost += cost;
        for round in rounds {
            let shift = round.shift;
            state.rounds[shift] = Some(round);
        }
    }
}

/// Everything together, with the reason for each site that is left out.
fn finish(agency: &Agency<'_>, areas: &[Area], settings: &AgencySettings, state: State) -> Programme {
    let mut done = vec![false; agency.sites.len()];
    for site in state.rounds.iter().flatten().flat_map(CrewRound::sites) {
        done[site] = true;
    }
    let work = |index: usize, _: workers::Tell<'_>| reasons_of(agency, &areas[index], &state.rounds, &done);
    let reasons = workers::run(settings.threads, areas.len(), &work, &mut |_, _, _| true);
    let mut left_out: Vec<(usize, LeftOutReason)> = reasons.into_iter().flatten().collect();
    if areas.is_empty() {
        left_out.extend((0..agency.sites.len()).map(|site| (site, LeftOutReason::NoCrew)));
    }
    left_out.sort_unstable_by_key(|&(site, _)| site);
    let mut rounds: Vec<CrewRound> = state.rounds.into_iter().flatten().collect();
    rounds.sort_by_key(|round| (agency.shifts[round.shift].day, agency.shifts[round.shift].crew, round.shift));
    let mut programme = Programme { rounds, left_out, cost: ProgrammeCost::default() };
    programme.cost = crate::search::cost_of(agency.sites, agency.shifts, &programme);
    programme
}

/// So many passed-over sites share one call for driving times.
const ASKED_TOGETHER: usize = 32;

fn reasons_of(
    agency: &Agency<'_>,
    area: &Area,
    rounds: &[Option<CrewRound>],
    done: &[bool],
) -> Vec<(usize, LeftOutReason)> {
    let own = area.shifts.iter().filter_map(|&shift| rounds[shift].as_ref());
    let mut sites: Vec<usize> = own.clone().flat_map(CrewRound::sites).collect();
    sites.extend(area.sites.iter().filter(|&&site| !done[site]));
    let part = Part::new(agency, sites, area.shifts.clone());
    let programme = Programme { rounds: part.in_part(own), ..Programme::default() };
    let mut found = reasons::of_left_out(&part.problem, &programme);
    for (site, _) in &mut found {
        *site = part.sites[*site];
    }
    // Crews of a neighbour may have done some of these.
    let passed_over: Vec<usize> = area.passed_over.iter().copied().filter(|&site| !done[site]).collect();
    for sites in passed_over.chunks(ASKED_TOGETHER) {
        let part = Part::new(agency, sites.to_vec(), area.shifts.clone());
        found.extend(
            sites.iter().enumerate().map(|(local, &site)| (site, reasons::of_passed_over(&part.problem, local))),
        );
    }
    found
}

fn steps(settings: &AgencySettings, sites: usize) -> u32 {
    settings.steps_per_site.saturating_mul(u32::try_from(sites).unwrap_or(u32::MAX))
}

/// A seed of its own for each search, the same whichever thread runs it.
fn seed(seed: u64, pass: u64, index: usize) -> u64 {
    // An odd constant near 2^64 over the golden ratio: neighbouring numbers come to lie far apart.
    (seed ^ (pass << 32) ^ index as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15)
}
