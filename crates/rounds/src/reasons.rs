//! Why a site was left out.

use model::round::{LeftOutReason, RoundProblem, Site};

use crate::capacity::Load;
use crate::instance::{DEPOT, Instance, NEVER};
use crate::recreate::best_insertion;
use crate::solution::Day;

/// Every site that is not in the day, with the reason, in the order of the problem.
pub(crate) fn of_left_out(problem: &RoundProblem, instance: &Instance, day: &Day) -> Vec<(usize, LeftOutReason)> {
    (0..problem.sites.len())
        .filter(|&index| !day.has(index as u32 + 1))
        .map(|index| (index, reason(&problem.sites[index], instance, day, index as u32 + 1)))
        .collect()
}

/// First what would keep the site out of any round, then what keeps it out of this one.
fn reason(site: &Site, instance: &Instance, day: &Day, place: u32) -> LeftOutReason {
    let Some(load) = Load::new(&site.demand) else { return LeftOutReason::ExceedsTruck("a usable demand figure") };
    if let Some(short) = instance.room.short_of(&load) {
        return LeftOutReason::ExceedsTruck(short);
    }
    let at = place as usize;
    if instance.travel(0, at) >= NEVER || instance.travel(at, 0) >= NEVER {
        return LeftOutReason::Unreachable;
    }
    if !site.windows.iter().any(|(from, to)| from.0.checked_add(site.service_s).is_some_and(|end| end <= to.0)) {
        return LeftOutReason::NoWindow;
    }
    let there_and_back = instance.loading + instance.travel(0, at) + instance.service[at] + instance.travel(at, 0);
    if there_and_back + instance.tipping > instance.shift {
        return LeftOutReason::ExceedsShift;
    }
    let mut alone = Day::empty(instance);
    alone.set_route(instance, &[DEPOT, place, DEPOT]);
    if !alone.is_in_time(instance) {
        // it would fit at another time of day: the windows (or the rest, which is part of the shift) are in the way
        return if meets_a_window(instance, at) { LeftOutReason::ExceedsShift } else { LeftOutReason::NoWindow };
    }
    if cheapest_cost(instance, day, &alone, place) >= instance.worth[at] {
        LeftOutReason::NotWorthTheTime
    } else {
        LeftOutReason::LessUrgent
    }
}

/// Whether the site could be served alone in some window if there were no rest.
fn meets_a_window(instance: &Instance, at: usize) -> bool {
    let start = instance.earliest_start(at, instance.loading + instance.travel(0, at));
    start + instance.service[at] + instance.travel(at, 0) + instance.tipping <= instance.shift
}

/// Points for the least time that the site would take: alone, put into this day, or as a detour from this day if there
/// were time and room.
fn cheapest_cost(instance: &Instance, day: &Day, alone: &Day, place: u32) -> f64 {
    let at = place as usize;
    let detour = day.route().windows(2).filter(|_| !day.is_empty()).map(|leg| {
        let (from, to) = (leg[0] as usize, leg[1] as usize);
        instance.travel(from, at) + instance.service[at] + instance.travel(at, to) - instance.travel(from, to)
    });
    let inserted = best_insertion(instance, day, place, || false).map(|insertion| insertion.end);
    let seconds = detour.chain(inserted).chain([alone.finish()]).min().unwrap_or(NEVER);
    instance.points_per_second * seconds as f64
}
