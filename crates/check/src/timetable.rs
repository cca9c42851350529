//! The day holds together: no gap, inside shift, daylight and open hours, drives as long as their ways.

use std::collections::BTreeSet;

use model::figure::Figure;
use model::plan::Plan;
use model::quantity::{InTime, Time};
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
    looks(plan, table, breaches);
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
    let class = plan.network.section(planned.zone.section).class;
    for barred in plan.district.barred_hours.iter().filter(|b| b.classes.contains(&class)) {
        let clear = stop.to <= clock(barred.from) || stop.from >= clock(barred.to);
        breaches.require(clear, "timetable.barred", || format!("site {site}: {} to {} is barred", stop.from, stop.to));
    }
}

/// Each look once, in daylight, as long as it takes; no repair twice. That nothing of the work is the worse for them needs no
/// rule of its own: whatever is worked has to hold all the others.
fn looks(plan: &Plan, table: &[Stop], breaches: &mut Breaches) {
    let made: Vec<(usize, &Stop)> =
        table.iter().filter_map(|s| if let StopKind::Look(look) = s.kind { Some((look, s)) } else { None }).collect();
    let numbers: Vec<usize> = made.iter().map(|(look, _)| *look).collect();
    let all: Vec<usize> = (0..plan.looks.len()).collect();
    breaches.require(numbers == all, "timetable.looks", || format!("makes looks {numbers:?} of {}", plan.looks.len()));
    let repairs: BTreeSet<_> = plan.looks.iter().map(|look| look.repair).collect();
    breaches.require(repairs.len() == plan.looks.len(), "timetable.look_twice", || {
        format!("{} looks at {} repairs", plan.looks.len(), repairs.len())
    });
    let left = plan.looks_left.iter().filter(|left| repairs.contains(&left.repair)).count();
    breaches.require(left == 0, "timetable.look_left", || format!("{left} looks are made and left"));
    for (look, stop) in made {
        let Some(planned) = plan.looks.get(look) else { continue };
        let given = f64::from(stop.to.0 - stop.from.0);
        let least = planned.stop.in_seconds();
        breaches
            .require(given + 1.0 >= least, "timetable.look_short", || format!("look {look}: {given} s of {least} s"));
        breaches.require(is_light(plan, stop), "timetable.look_daylight", || {
            format!("look {look}: {} to {}", stop.from, stop.to)
        });
    }
}

/// A day is planned on median times; the time as surveyed would overrun more often than not.
fn median(figure: &Figure<Time>) -> Time {
    figure.spread.map_or(figure.value, |spread| spread.p50)
}

fn is_light(plan: &Plan, stop: &Stop) -> bool {
    let margin = plan.district.shift.daylight_margin.in_seconds();
    plan.daylight.is_some_and(|(rise, set)| {
        f64::from(stop.from.0) + 1.0 >= f64::from(rise.0) + margin
            && f64::from(stop.to.0) <= f64::from(set.0) - margin + 1.0
    })
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

fn clock(time: jiff::civil::Time) -> SecondOfDay {
    SecondOfDay(u32::from(time.hour().unsigned_abs()) * 3600 + u32::from(time.minute().unsigned_abs()) * 60)
}
