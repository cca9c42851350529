//! The rounds: which crew mends which sites on which day, in what order, in which trips, at what time.
//!
//! # Problem
//!
//! A truck leaves its depot with the material of a trip, works at sites one after the other, loads again and tips its spoil
//! at the depot or at other yards, and is back within the shift. Whatever is mended later stays on the road until then, and
//! whatever is left out stays altogether; time and kilometres cost too. We minimise, in money,
//!
//! ```text
//! sum of v_i(d) over the sites mended, on day d  +  sum of w_i over those left out
//!   +  sum over the rounds of  c * (e - s) / 3600  +  k * l / 1000
//! ```
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | `v_i(d)` | price of the risk of site `i` until day `d` | money |
//! | `w_i` | price of leaving site `i` out | money |
//! | `c` | price of crew time | money per hour |
//! | `s` | start of the shift | s |
//! | `e` | end of the last stop: the truck is back and the last spoil is tipped | s |
//! | `k` | price of driving | money per km |
//! | `l` | driven in the round | m |
//!
//! subject to:
//!
//! - the timetable begins with loading at `s`, has no gaps, and `e` is not after the shift's end;
//! - the work at a site lies whole inside one of its windows; the crew may wait for a window;
//! - one rest, begun between its earliest and its latest, at a site's end or at a yard. No rest is due when the round
//!   is over (`e`) by the latest beginning, or when the shift starts after it;
//! - the truck's rooms and payload hold at every moment (module `loads`), whatever each yard gives and takes.
//!
//! # Method
//!
//! The routing engine of `tours` searches (handbook/methods/tours.md); `translate` puts the programme in its words,
//! `timetable` writes what it finds stop by stop with the rest where the day ends soonest, `reasons` says why what is left
//! out is left out. Quantities are whole microlitres and milligrams inside, prices whole parts of the dearest. The search
//! reads no clock: the same problem, seed and number of iterations give the same programme.

mod agency;
mod explain;
mod loads;
mod one_round;
mod orders;
mod reasons;
mod search;
mod timetable;
mod translate;
mod workers;

use model::programme::{Aboard, Programme, ProgrammeProblem};
use model::round::{Demand, RoundProblem, RoundSolution};

pub use agency::{
    Agency, AgencyArea, AgencyProgress, AgencySettings, AgencyStage, DrivingBetween, agency, agency_again, areas_of,
};
pub use explain::{Alternative, alternatives, what_more_brings};
pub use orders::keep;
pub use search::cost;

/// How long and from which seed to search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SearchSettings {
    /// Seed of the random numbers.
    pub seed: u64,
    /// Number of ruin-and-recreate steps. 0 gives a greedy plan.
    pub iterations: u32,
}

/// Finds a programme of low cost, beginning with `start` where one is given.
///
/// `progress` hears the number of steps done and the least cost so far (money), every 128 steps and at the end; it stops
/// the search by returning `false`, which gives the best programme so far.
///
/// Nothing in the problem makes it panic but an index that points at nothing. Matrix entries that are missing count as
/// unreachable; windows are put in order; a demand that is negative or not a number never fits; a price that is negative or
/// not a number counts as zero.
pub fn programme(
    problem: &ProgrammeProblem,
    start: Option<&Programme>,
    settings: &SearchSettings,
    progress: &mut dyn FnMut(u32, f64) -> bool,
) -> Programme {
    search::search(problem, start, settings, progress)
}

/// The cheapest of so many searches at the same time, each on a thread and from a seed of its own.
///
/// Searches of equal length end some tenths of a percent apart, and what one misses another finds. `progress` hears the mean
/// number of steps done and the least cost.
pub fn best_programme(
    problem: &ProgrammeProblem,
    start: Option<&Programme>,
    settings: &SearchSettings,
    searches: usize,
    progress: &mut dyn FnMut(u32, f64) -> bool,
) -> Programme {
    search::best_of(problem, start, settings, searches.max(1), progress)
}

/// Finds a round of low objective for one crew on one day: the worth of the sites left out and the crew's time, in points.
///
/// `progress` is told as in [`programme`].
pub fn solve(
    problem: &RoundProblem,
    settings: &SearchSettings,
    progress: &mut dyn FnMut(u32, f64) -> bool,
) -> RoundSolution {
    solve_from(problem, None, settings, progress)
}

/// The same, beginning with a round of a like problem.
pub fn solve_from(
    problem: &RoundProblem,
    start: Option<&RoundSolution>,
    settings: &SearchSettings,
    progress: &mut dyn FnMut(u32, f64) -> bool,
) -> RoundSolution {
    let start = start.map(one_round::round_as_programme);
    let programme = search::search(&one_round::as_programme(problem), start.as_ref(), settings, progress);
    one_round::as_round(problem, &programme)
}

/// Whether a site could be done on a day that holds nothing else: its load, the way there and back, windows, rest, shift.
pub fn fits_a_day(problem: &RoundProblem, site: usize) -> bool {
    site < problem.sites.len() && reasons::fits_alone(&one_round::as_programme(problem), 0, site)
}

/// What is on a truck as a demand, so that it is rounded as demands are.
fn as_demand(aboard: &Aboard) -> Demand {
    Demand { spoil_volume: aboard.spoil_volume, spoil_mass: aboard.spoil_mass, ..aboard.supplies }
}
