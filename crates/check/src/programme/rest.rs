//! The crew's break.

use model::programme::{CrewStop, CrewStopKind, DAY_S};

use super::Replay;
use crate::Breaches;

pub(crate) fn check(round: &Replay, breaches: &mut Breaches) {
    let rests: Vec<CrewStop> =
        round.round.stops.iter().copied().filter(|stop| stop.kind == CrewStopKind::Rest).collect();
    times(round, &rests, breaches);
    places(round, breaches);
}

fn times(round: &Replay, rests: &[CrewStop], breaches: &mut Breaches) {
    let Some(rest) = round.shift.rest else {
        breaches.require(rests.is_empty(), "programme.rest", || format!("{}: {rests:?}, none planned", round.name()));
        return;
    };
    let clock = |second: u32| i64::from(round.shift.day) * DAY_S + i64::from(second);
    let (earliest, latest) = (clock(rest.earliest.0), clock(rest.latest.0));
    let good = |taken: &CrewStop| {
        earliest <= taken.from && taken.from <= latest && taken.to - taken.from == i64::from(rest.length_s)
    };
    let end = round.round.stops.last().map_or(round.shift.from, |stop| stop.to);
    let holds = match rests {
        [] => rest.length_s == 0 || end <= latest || round.shift.from > latest,
        [taken] => good(taken),
        _ => false,
    };
    breaches.require(holds, "programme.rest", || format!("{}: {rests:?}, the round ends at {end}", round.name()));
}

/// At a site the work comes first; at a yard the rest may come before or after.
fn places(round: &Replay, breaches: &mut Breaches) {
    let mut worked = false;
    for (place, stop) in round.stops() {
        match stop.kind {
            CrewStopKind::Drive(_) => worked = false,
            CrewStopKind::Work(_) => worked = true,
            CrewStopKind::Rest => {
                let at_yard = place >= round.problem.sites.len();
                breaches.require(worked || at_yard, "programme.rest_place", || {
                    format!("{}: {stop:?} at place {place}", round.name())
                });
            }
            CrewStopKind::Load(_) | CrewStopKind::Tip(_) | CrewStopKind::Wait => {}
        }
    }
}
