//! Looks on the rounds of a work plan: each repair is looked at once, and every round still works what it worked without.
//!
//! | rule | it is broken when |
//! |---|---|
//! | `looks.twice` | a repair is looked at on two rounds, or on one and told to be left |
//! | `looks.work` | a round with looks works other sites, or in another order, or shorter, than the programme it was made from |
//! | `looks.window` | or outside the windows that the programme has for the site |
//! | `looks.late` | in nine days of ten the crew is back after its shift, and would be within it without its looks |

use std::collections::BTreeSet;

use model::plan::WorkPlan;
use model::programme::{CrewStopKind, DAY_S};
use model::round::StopKind;

use crate::timetable::clock;
use crate::{Breach, Breaches};

/// Checks the looks of a work plan; an empty list is a sound one.
pub fn look_breaches(work: &WorkPlan) -> Vec<Breach> {
    let mut breaches = Breaches(Vec::new());
    let mut looked = BTreeSet::new();
    let left = work.looks_left.iter().map(|left| left.repair);
    for repair in work.rounds.iter().flat_map(|day| &day.plan.looks).map(|look| look.repair).chain(left) {
        breaches.require(looked.insert(repair), "looks.twice", || repair.to_string());
    }
    for (day, round) in work.rounds.iter().zip(&work.programme.rounds) {
        let name = || format!("{}, crew {}", day.plan.date, day.crew);
        let planned: Vec<(usize, i64)> =
            round
                .stops
                .iter()
                .filter_map(|stop| {
                    if let CrewStopKind::Work(site) = stop.kind { Some((site, stop.to - stop.from)) } else { None }
                })
                .collect();
        let works = day.plan.round.timetable.iter().filter(|stop| matches!(stop.kind, StopKind::Work(_)));
        let midnight = work.problem.shifts.get(round.shift).map_or(0, |shift| i64::from(shift.day) * DAY_S);
        let worked: Vec<(i64, i64)> =
            works.map(|stop| (midnight + i64::from(stop.from.0), midnight + i64::from(stop.to.0))).collect();
        let same = worked.len() == planned.len()
            && worked.iter().zip(&planned).all(|(&(from, to), &(_, takes))| to - from == takes);
        let end = i64::from(clock(day.plan.district.shift.end).0);
        let back = day.plan.back_p90.zip(day.plan.round.timetable.last()).zip(round.stops.last());
        if let Some(((back, last), before)) = back {
            let (back, overrun) = (i64::from(back.0), i64::from(back.0) - i64::from(last.to.0));
            let was_late = before.to - midnight + overrun > end;
            breaches
                .require(back <= end || was_late, "looks.late", || format!("{}: back {back} s, end {end} s", name()));
        }
        breaches.require(same, "looks.work", || format!("{}: {worked:?} where {planned:?} was planned", name()));
        for (&(from, to), &(site, _)) in worked.iter().zip(&planned) {
            let windows = work.problem.sites.get(site).map(|site| site.windows.as_slice()).unwrap_or_default();
            let within = windows.iter().any(|&(open, close)| open <= from && to <= close);
            breaches.require(within, "looks.window", || format!("{}: site {site}, {from} to {to}", name()));
        }
    }
    breaches.0
}
