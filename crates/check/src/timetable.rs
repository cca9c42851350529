//! The day holds together: no gap, inside shift, daylight and open hours, drives as long as their ways.

use model::figure::Figure;
use model::plan::Plan;
use model::quantity::{InTime, Time};
use model::road::SectionId;
use model::round::{SecondOfDay, Stop, StopKind};

use crate::Breaches;

pub(crate) fn check(plan: &Plan, breaches: &mut Breaches) {
    let table = &plan.round.timetable;
    if plan.round.trips.iter().all(Vec::is_empty) {
        breaches.require(table.iter().all(|s| !matches!(s.kind, StopKind::Work(_))), "timetable.empty", || {
            "work without trips".to_owned()
        });
        return;
    }
    contiguous(plan, table, breaches);
    follows_the_trips(plan, table, breaches);
    for stop in table {
        if let StopKind::Work(site) = stop.kind {
            work(plan, site, stop, breaches);
        }
    }
    drives(plan, table, breaches);
    rest(plan, table, breaches);
}

fn contiguous(plan: &Plan, table: &[Stop], breaches: &mut Breaches) {
    let start = clock(plan.district.shift.start);
    let end = clock(plan.district.shift.end);
    let first = table.first().map(|s| s.from);
    breaches.require(first.is_some_and(|f| f >= start), "timetable.start", || format!("{first:?} is before the shift"));
    let last = table.last().map(|s| s.to);
    breaches.require(last.is_some_and(|l| l <= end), "timetable.end", || format!("{last:?} is after the shift"));
    for pair in table.windows(2) {
        breaches.require(pair[0].to == pair[1].from, "timetable.gap", || format!("{:?} then {:?}", pair[0], pair[1]));
    }
    for stop in table {
        breaches.require(stop.from <= stop.to, "timetable.backwards", || format!("{stop:?}"));
    }
}

fn follows_the_trips(plan: &Plan, table: &[Stop], breaches: &mut Breaches) {
    let worked: Vec<usize> =
        table.iter().filter_map(|s| if let StopKind::Work(site) = s.kind { Some(site) } else { None }).collect();
    let ordered: Vec<usize> = plan.round.trips.iter().flatten().copied().collect();
    breaches.require(worked == ordered, "timetable.trips", || format!("worked {worked:?}, trips say {ordered:?}"));
    let mut place = plan.problem.start;
    for stop in table {
        match stop.kind {
            StopKind::Drive(to) => place = to,
            StopKind::Work(site) => breaches
                .require(place == site + 1, "timetable.place", || format!("works at site {site} but is at {place}")),
            StopKind::Load(_) | StopKind::Tip(_) => {
                let yard = place == 0 || plan.problem.yard_at(place).is_some();
                breaches.require(yard, "timetable.depot", || format!("loads or tips at place {place}"));
            }
            StopKind::Look(look) => {
                breaches.require(place == plan.problem.place_of_look(look), "timetable.look_place", || {
                    format!("makes look {look} but is at {place}")
                });
            }
            StopKind::Wait | StopKind::Rest => {}
        }
    }
    breaches.require(place == 0, "timetable.home", || format!("the day ends at place {place}, not at the depot"));
}

fn work(plan: &Plan, site: usize, stop: &Stop, breaches: &mut Breaches) {
    let Some(planned) = plan.sites.get(site) else { return };
    let between = planned.zone.shared.as_ref().map_or(0.0, |shared| shared.between.value.in_seconds());
    let least = planned.zone.set_up.value.in_seconds()
        + between
        + planned.zone.take_in.value.in_seconds()
        + planned
            .jobs
            .iter()
            .filter_map(|&job| plan.jobs.get(job))
            .map(|job| median(&job.repair.duration).in_seconds())
            .sum::<f64>();
    let given = f64::from(stop.to.0 - stop.from.0);
    breaches
        .require(given + 1.0 >= least, "timetable.work_short", || format!("site {site}: {given} s, needs {least} s"));
    breaches
        .require(is_light(plan, stop), "timetable.daylight", || format!("site {site}: {} to {}", stop.from, stop.to));
    breaches.require(!is_barred(plan, planned.zone.section, stop), "timetable.barred", || {
        format!("site {site}: {} to {} is barred", stop.from, stop.to)
    });
}

/// A day is planned on median times; the time as surveyed would overrun more often than not.
fn median(figure: &Figure<Time>) -> Time {
    figure.spread.map_or(figure.value, |spread| spread.p50)
}

pub(crate) fn is_light(plan: &Plan, stop: &Stop) -> bool {
    let margin = plan.district.shift.daylight_margin.in_seconds();
    plan.daylight.is_some_and(|(rise, set)| {
        f64::from(stop.from.0) + 1.0 >= f64::from(rise.0) + margin
            && f64::from(stop.to.0) <= f64::from(set.0) - margin + 1.0
    })
}

/// Whether hours of that road's class in which nothing may stop traffic are among them.
pub(crate) fn is_barred(plan: &Plan, section: SectionId, stop: &Stop) -> bool {
    let class = plan.network.section(section).class;
    let of_class = plan.district.barred_hours.iter().filter(|barred| barred.classes.contains(&class));
    of_class.into_iter().any(|barred| stop.from < clock(barred.to) && clock(barred.from) < stop.to)
}

fn drives(plan: &Plan, table: &[Stop], breaches: &mut Breaches) {
    let drives: Vec<&Stop> = table.iter().filter(|s| matches!(s.kind, StopKind::Drive(_))).collect();
    breaches.require(drives.len() == plan.ways.len(), "timetable.ways", || {
        format!("{} drives, {} ways", drives.len(), plan.ways.len())
    });
    for (stop, way) in drives.iter().zip(&plan.ways) {
        let given = stop.to.0 - stop.from.0;
        breaches.require(given.abs_diff(way.travel_s) <= 1, "timetable.drive", || {
            format!("{stop:?} takes {given} s, its way {} s", way.travel_s)
        });
    }
}

fn rest(plan: &Plan, table: &[Stop], breaches: &mut Breaches) {
    let Some(rest) = &plan.district.shift.rest else { return };
    let end = table.last().map_or(SecondOfDay(0), |s| s.to);
    let taken: Vec<&Stop> = table.iter().filter(|s| s.kind == StopKind::Rest).collect();
    // A day that is over before the break must have begun has none.
    if end <= clock(rest.latest) && taken.is_empty() {
        return;
    }
    let good = taken.len() == 1
        && taken[0].from >= clock(rest.earliest)
        && taken[0].from <= clock(rest.latest)
        && f64::from(taken[0].to.0 - taken[0].from.0) >= rest.length.in_seconds() - 1.0;
    breaches.require(good, "timetable.rest", || format!("{taken:?}"));
}

pub(crate) fn clock(time: jiff::civil::Time) -> SecondOfDay {
    SecondOfDay(u32::from(time.hour().unsigned_abs()) * 3600 + u32::from(time.minute().unsigned_abs()) * 60)
}
