//! The day's round of one crew with one truck: which sites, in what order, in which trips, at what time.
//!
//! # Problem
//!
//! A truck leaves the depot with the material of a trip, works at sites one after the other, comes back, tips the spoil
//! and may load again, all within the shift. Whatever is left out costs its worth; time costs too. We minimise
//!
//! ```text
//! objective = sum of w_i over the sites left out  +  c * (e - s) / 3600
//! ```
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | `w_i` | worth of doing site `i` today | points |
//! | `c` | price of crew time | points per hour |
//! | `s` | start of the shift | s |
//! | `e` | end of the last stop: the truck is back and the last spoil is tipped; `e = s` when nothing is done | s |
//!
//! subject to:
//!
//! - the timetable begins with loading at `s`, has no gaps, and `e` is not after the shift's end;
//! - the work at a site lies whole inside one of its windows; the crew may wait for a window;
//! - one rest, begun between its earliest and its latest, at a site's end or at the depot. No rest is due when the round
//!   is over (`e`) by the latest beginning, or when the shift starts after it;
//! - the truck's rooms and payload hold at every moment of a trip (module `capacity`).
//!
//! # Method
//!
//! Ruin and recreate, from memory: *J. Christiaens, G. Vanden Berghe, "Slack Induction by String Removals for Vehicle
//! Routing Problems", Transportation Science 54 (2), 2020*: take strings of neighbouring sites out of the round (module
//! `ruin`), put sites back greedily with blinks (module `recreate`), accept by simulated annealing (module `anneal`). Its
//! values are starting points; what matters is measured. Ours beyond the paper:
//!
//! - one crew drives its trips one after the other, so an insertion can also bring a visit to the depot with it, and one
//!   trip may lose several strings;
//! - absences have a price (the worth) in place of a count; a site is put back when the time it costs is worth less, in some
//!   steps at the higher price that time has in a full shift, in a few whatever it costs, so that sites that pay only
//!   together are found;
//! - timing with several windows and a floating rest is exact in one pass by two labels, the earliest time with the rest
//!   still to take and with the rest taken (module `evaluate`); both only ever grow along the round, so the latest
//!   arrivals, computed backwards, decide feasibility of an insertion in constant time.
//!
//! Times are whole seconds and quantities whole microlitres and milligrams inside, so sums do not depend on their order.
//! The search reads no clock: the same problem, seed and number of iterations give the same bytes.

mod anneal;
mod capacity;
mod evaluate;
mod instance;
mod reasons;
mod recreate;
mod ruin;
mod solution;
mod timetable;

#[cfg(test)]
#[path = "../tests/common/mod.rs"]
mod common;
#[cfg(test)]
extern crate self as rounds;

use model::quantity::metres;
use model::round::{RoundProblem, RoundSolution};

use crate::capacity::Load;
use crate::instance::{DEPOT, Instance};
use crate::solution::Day;

/// How long and from which seed to search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SearchSettings {
    /// Seed of the random numbers.
    pub seed: u64,
    /// Number of ruin-and-recreate steps. 0 gives a greedy round.
    pub iterations: u32,
}

/// Finds a round of low objective.
///
/// `progress` hears the number of steps done and the best objective so far (points), every 128 steps and at the end; it
/// stops the search by returning `false`.
///
/// Nothing in the problem makes it panic. Matrix entries that are missing count as unreachable; windows are put in
/// order; a demand that is negative or not a number never fits; a worth or price that is not a number counts as zero.
pub fn solve(
    problem: &RoundProblem,
    settings: &SearchSettings,
    progress: &mut dyn FnMut(u32, f64) -> bool,
) -> RoundSolution {
    let instance = Instance::new(problem);
    let day = anneal::search(&instance, settings, progress);
    describe(problem, &instance, &day)
}

/// Whether a site could be done on a day that holds nothing else: its load, the way there and back, windows, rest, shift.
pub fn fits_a_day(problem: &RoundProblem, site: usize) -> bool {
    let instance = Instance::new(problem);
    let load = problem.sites.get(site).and_then(|site| Load::new(&site.demand));
    let place = site as u32 + 1;
    let mut alone = Day::empty(&instance);
    load.is_some_and(|load| instance.room.short_of(&load).is_none()) && {
        alone.set_route(&instance, &[DEPOT, place, DEPOT]);
        alone.is_in_time(&instance)
    }
}

/// Writes the found day in the words of the model.
fn describe(problem: &RoundProblem, instance: &Instance, day: &Day) -> RoundSolution {
    let trips = day.trips();
    let timetable = timetable::write(instance, &trips);
    let legs = day.route().windows(2).filter(|_| !day.is_empty());
    let (mut driving_s, mut driving_m) = (0_i64, 0.0);
    for leg in legs {
        let (from, to) = (leg[0] as usize, leg[1] as usize);
        driving_s += instance.travel(from, to);
        driving_m += problem.travel_m.get(from).and_then(|row| row.get(to)).filter(|m| m.is_finite()).unwrap_or(&0.0);
    }
    RoundSolution {
        left_out: reasons::of_left_out(problem, instance, day),
        objective: instance.points(day),
        trips: trips.iter().map(|trip| trip.iter().map(|&place| place as usize - 1).collect()).collect(),
        timetable,
        driving_s: u32::try_from(driving_s).unwrap_or(u32::MAX),
        driving: metres(driving_m),
    }
}
