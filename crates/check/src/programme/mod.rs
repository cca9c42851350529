//! Verifies a work programme against the rules, from the problem and the programme alone.
//!
//! Each stop of each round is replayed: the clock, the place, the load. Rules, all with the family `programme`:
//!
//! | rule | it is broken when |
//! |---|---|
//! | `shift_unknown`, `site_unknown`, `place_unknown` | an index leads to nothing |
//! | `shift_twice`, `site_twice` | a shift goes out twice, a site is worked twice |
//! | `order` | rounds are not by day, then crew, or the left-out sites not ascending, each once |
//! | `fate` | a site is both worked and left out, or neither |
//! | `empty` | a round has no stops |
//! | `start`, `end` | a round does not begin with its shift, or is not over with it |
//! | `gap`, `backwards` | time between two stops, a stop that ends before it begins |
//! | `begin` | a truck with nothing aboard drives off without loading at its start, which gives something |
//! | `place` | work, loading or tipping at a place where the truck is not |
//! | `no_way`, `drive` | a drive where no way leads, or not as long as its way |
//! | `driving` | the round's sums of driving are not those of its drives |
//! | `home` | the round ends elsewhere than at the yard where its shift ends |
//! | `barred` | a site that the shift may not do |
//! | `class` | work of a class that can't do it |
//! | `service` | work not as long as that class takes |
//! | `window` | work not whole within one window |
//! | `call` | a call at a yard that is not among the shift's |
//! | `open` | a call that begins outside the yard's hours; all that is done there before the truck drives on is one call |
//! | `gives`, `takes` | loading where nothing is given, tipping where no spoil is taken |
//! | `loading`, `tipping` | not as long as the yard says |
//! | `rest` | a rest too many, none where one is due, at the wrong time or not of its length |
//! | `rest_place` | a rest on the way or before the work at a site |
//! | `runs_out` | a site needs more than is aboard |
//! | `body`, `room`, `payload` | base and spoil, cover stone, binder or water, or the mass of all, more than the truck holds |
//! | `spoil_left` | spoil aboard when the round is over |
//! | `waiting`, `left`, `time`, `driving_cost` | that part of the price is not the sum of what it is made of |

mod account;
mod cost;
mod loads;
mod rest;
mod timetable;

use model::programme::{CrewRound, CrewShift, CrewStop, CrewStopKind, Programme, ProgrammeProblem};

use crate::{Breach, Breaches};

/// Checks a work programme; an empty list is a sound one. Knows only the rules: nothing of how programmes are found, and
/// not whether a cheaper one exists.
pub fn programme_breaches(problem: &ProgrammeProblem, programme: &Programme) -> Vec<Breach> {
    let mut breaches = Breaches(Vec::new());
    account::check(problem, programme, &mut breaches);
    for round in &programme.rounds {
        // An unknown shift has been told already.
        let Some(shift) = problem.shifts.get(round.shift) else { continue };
        let round = Replay::new(problem, shift, round);
        timetable::check(&round, &mut breaches);
        rest::check(&round, &mut breaches);
        loads::check(&round, &mut breaches);
    }
    cost::check(problem, programme, &mut breaches);
    breaches.0
}

/// One round, with what it is held against.
struct Replay<'a> {
    problem: &'a ProgrammeProblem,
    shift: &'a CrewShift,
    round: &'a CrewRound,
    /// Where the truck is when each stop begins, and at the end.
    places: Vec<usize>,
}

impl<'a> Replay<'a> {
    fn new(problem: &'a ProgrammeProblem, shift: &'a CrewShift, round: &'a CrewRound) -> Self {
        let mut places = vec![problem.sites.len().saturating_add(shift.start)];
        for stop in &round.stops {
            let here = places[places.len() - 1];
            places.push(if let CrewStopKind::Drive(to) = stop.kind { to } else { here });
        }
        Self { problem, shift, round, places }
    }

    /// Stops with the place where each begins.
    fn stops(&self) -> impl Iterator<Item = (usize, CrewStop)> + '_ {
        self.places.iter().copied().zip(self.round.stops.iter().copied())
    }

    fn place_of_yard(&self, yard: usize) -> usize {
        self.problem.sites.len().saturating_add(yard)
    }

    /// For messages.
    fn name(&self) -> String {
        format!("day {}, crew {}", self.shift.day, self.shift.crew)
    }
}
