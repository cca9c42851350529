//! A crew's day holds together: no gap, within the shift, drives as long as their ways, work within windows, calls at yards
//! that are open.

use model::programme::{CrewStop, CrewStopKind, DAY_S};
use model::quantity::{InLength, metres};

use super::Replay;
use crate::Breaches;

pub(crate) fn check(round: &Replay, breaches: &mut Breaches) {
    clock(round, breaches);
    begin(round, breaches);
    drives(round, breaches);
    for (place, stop) in round.stops() {
        if let CrewStopKind::Work(site) = stop.kind {
            work(round, place, site, stop, breaches);
        }
    }
    calls(round, breaches);
}

fn clock(round: &Replay, breaches: &mut Breaches) {
    let stops = &round.round.stops;
    let (Some(first), Some(last)) = (stops.first(), stops.last()) else {
        breaches.require(false, "programme.empty", || format!("{}: no stops", round.name()));
        return;
    };
    breaches.require(first.from == round.shift.from, "programme.start", || {
        format!("{}: begins at {}, the shift at {}", round.name(), first.from, round.shift.from)
    });
    breaches.require(last.to <= round.shift.to, "programme.end", || {
        format!("{}: ends at {}, the shift at {}", round.name(), last.to, round.shift.to)
    });
    for pair in stops.windows(2) {
        breaches.require(pair[0].to == pair[1].from, "programme.gap", || {
            format!("{}: {:?} then {:?}", round.name(), pair[0], pair[1])
        });
    }
    for stop in stops {
        breaches.require(stop.from <= stop.to, "programme.backwards", || format!("{}: {stop:?}", round.name()));
    }
}

/// A truck that is empty loads where it stands before it drives off.
fn begin(round: &Replay, breaches: &mut Breaches) {
    let gives = round.problem.yards.get(round.shift.start).is_some_and(|yard| yard.gives.bins || yard.gives.tanks);
    if round.shift.aboard.is_some() || !gives {
        return;
    }
    let first = round.round.stops.iter().find(|stop| !matches!(stop.kind, CrewStopKind::Wait | CrewStopKind::Rest));
    let loads = first.is_none_or(|stop| matches!(stop.kind, CrewStopKind::Load(_)));
    breaches.require(loads, "programme.begin", || format!("{}: {first:?} before loading", round.name()));
}

fn drives(round: &Replay, breaches: &mut Breaches) {
    let Some(driving) = round.problem.driving.get(round.shift.driving) else {
        breaches.require(false, "programme.no_way", || format!("{}: no driving times", round.name()));
        return;
    };
    let places = round.problem.sites.len() + round.problem.yards.len();
    let (mut seconds, mut distance) = (0, metres(0.0));
    for (from, stop) in round.stops() {
        let CrewStopKind::Drive(to) = stop.kind else { continue };
        let given = stop.to - stop.from;
        seconds += given;
        breaches.require(to < places, "programme.place_unknown", || format!("{}: drives to place {to}", round.name()));
        // Nothing is known of the way to and from such a place.
        if from >= places || to >= places {
            continue;
        }
        distance += metres(driving.metres(from, to));
        let least = driving.seconds(from, to);
        breaches
            .require(least.is_some(), "programme.no_way", || format!("{}: from place {from} to {to}", round.name()));
        breaches.require(least.is_none_or(|least| i64::from(least) == given), "programme.drive", || {
            format!("{}: from place {from} to {to} in {given} s, the way takes {least:?} s", round.name())
        });
    }
    let (stated, driven) = (round.round.driving.in_metres(), distance.in_metres());
    let equal = seconds == round.round.driving_s && (stated - driven).abs() <= 1e-6 * driven.max(1.0);
    breaches.require(equal, "programme.driving", || {
        format!(
            "{}: {} s and {stated} m stated, {seconds} s and {driven} m driven",
            round.name(),
            round.round.driving_s
        )
    });
    let (home, last) = (round.place_of_yard(round.shift.end), round.places.last());
    breaches.require(last == Some(&home), "programme.home", || {
        format!("{}: ends at place {last:?}, home is {home}", round.name())
    });
}

fn work(round: &Replay, place: usize, site: usize, stop: CrewStop, breaches: &mut Breaches) {
    let Some(known) = round.problem.sites.get(site) else { return };
    let name = || format!("{}: site {site}", round.name());
    breaches.require(place == site, "programme.place", || format!("{}, but the truck is at place {place}", name()));
    let allowed = known.shifts.as_ref().is_none_or(|shifts| shifts.contains(&round.round.shift));
    breaches.require(allowed, "programme.barred", || format!("{} is for shifts {:?}", name(), known.shifts));
    let service = known.service_s.get(round.shift.work_class).copied().flatten();
    breaches.require(service.is_some(), "programme.class", || {
        format!("{} can't be done by class {}", name(), round.shift.work_class)
    });
    let given = stop.to - stop.from;
    breaches.require(service.is_none_or(|service| i64::from(service) == given), "programme.service", || {
        format!("{}: {given} s in place of {service:?}", name())
    });
    let within = known.windows.iter().any(|&(open, close)| open <= stop.from && stop.to <= close);
    breaches.require(within, "programme.window", || {
        format!("{}: {} to {}, windows {:?}", name(), stop.from, stop.to, known.windows)
    });
}

fn calls(round: &Replay, breaches: &mut Breaches) {
    let mut calling = false;
    for (place, stop) in round.stops() {
        let (yard, loads) = match stop.kind {
            CrewStopKind::Load(yard) => (yard, true),
            CrewStopKind::Tip(yard) => (yard, false),
            CrewStopKind::Drive(_) => {
                calling = false;
                continue;
            }
            CrewStopKind::Wait | CrewStopKind::Rest | CrewStopKind::Work(_) => continue,
        };
        let goes_on = std::mem::replace(&mut calling, true);
        let name = || format!("{}: {} at yard {yard}", round.name(), if loads { "loading" } else { "tipping" });
        let there = place == round.place_of_yard(yard);
        breaches.require(there, "programme.place", || format!("{}, but the truck is at place {place}", name()));
        let shift = round.shift;
        let among = shift.calls.contains(&yard) || yard == shift.start || yard == shift.end;
        breaches.require(among, "programme.call", || format!("{}, which is none of the shift's", name()));
        let Some(known) = round.problem.yards.get(yard) else { continue };
        let given = stop.to - stop.from;
        if loads {
            breaches.require(known.gives.bins || known.gives.tanks, "programme.gives", name);
            breaches.require(given == i64::from(known.loading_s), "programme.loading", || {
                format!("{}: {given} s in place of {}", name(), known.loading_s)
            });
        } else {
            breaches.require(known.takes_spoil, "programme.takes", name);
            breaches.require(given == i64::from(known.tipping_s), "programme.tipping", || {
                format!("{}: {given} s in place of {}", name(), known.tipping_s)
            });
        }
        let Some((open, close)) = known.open else { continue };
        let at = stop.from - i64::from(shift.day) * DAY_S;
        let open = goes_on || (i64::from(open) <= at && at <= i64::from(close));
        breaches.require(open, "programme.open", || format!("{}: {at} s after midnight, {:?}", name(), known.open));
    }
}
