//! Devices: what goes out comes back, in reverse; nothing stands in a lane before its warning stands.

use std::collections::BTreeSet;

use model::crew_move::CrewMove;
use model::place::Travel;
use model::plan::Plan;
use model::quantity::{InLength, InTime};
use model::queue::QueueOutlook;
use model::round::{SecondOfDay, Stop, StopKind};
use model::work_zone::{Device, DeviceKind, WorkZone};

use crate::Breaches;

pub(crate) fn check(plan: &Plan, breaches: &mut Breaches) {
    enough_at_once(plan, breaches);
    for site in &plan.sites {
        let zone = &site.zone;
        returns(zone, breaches);
        steps_add_up(zone, breaches);
        queue_holds(zone, breaches);
        warned_first(zone, breaches);
        holds_its_cuts(plan, zone, &site.jobs, breaches);
        let known = site.jobs.iter().filter(|&&job| job < plan.jobs.len()).count();
        says_it_is_shared(zone, known, breaches);
    }
}

fn returns(zone: &WorkZone, breaches: &mut Breaches) {
    let out: BTreeSet<usize> = (0..zone.devices.len()).collect();
    let back: BTreeSet<usize> = zone.removing.iter().copied().collect();
    breaches.require(out == back && zone.removing.len() == out.len(), "zone.count_back", || {
        format!("{} devices go out, {} come back", out.len(), zone.removing.len())
    });
    let reverse = zone.removing.iter().rev().copied().eq(0..zone.devices.len());
    breaches.require(reverse, "zone.removing_order", || "removing is not the reverse of placing".to_owned());
}

/// The steps out and back handle every device once, in the order of the lists, and their times are those of the zone.
fn steps_add_up(zone: &WorkZone, breaches: &mut Breaches) {
    let handled = |steps: &[CrewMove]| -> Vec<usize> { steps.iter().flat_map(|step| step.devices.clone()).collect() };
    let (out, back) = (handled(&zone.out), handled(&zone.back));
    breaches.require(out.iter().copied().eq(0..zone.devices.len()), "zone.steps_out", || {
        format!("the steps out handle {out:?} of {} devices", zone.devices.len())
    });
    breaches.require(back == zone.removing, "zone.steps_back", || {
        format!("the steps back handle {back:?}, to be removed are {:?}", zone.removing)
    });
    for (rule, steps, whole) in
        [("zone.steps_out", &zone.out, zone.set_up.value), ("zone.steps_back", &zone.back, zone.take_in.value)]
    {
        let sum: f64 = steps.iter().map(|step| step.time.value.in_seconds()).sum();
        breaches.require((sum - whole.in_seconds()).abs() < 1e-6, rule, || {
            format!("the steps take {sum} s, the zone says {} s", whole.in_seconds())
        });
        let backward = steps.iter().find(|step| {
            !(step.driven.in_metres() >= 0.0 && step.walked.in_metres() >= 0.0 && step.time.value.in_seconds() >= 0.0)
        });
        breaches.require(backward.is_none(), rule, || format!("a step takes less than nothing: {backward:?}"));
    }
}

/// A queue is there only where traffic waits, and grows only beyond what the zone carries.
fn queue_holds(zone: &WorkZone, breaches: &mut Breaches) {
    let Some(queue) = &zone.queue else { return };
    let waits = !zone.layout.mobile() && !zone.layout.on_shoulder() && zone.not_laid_out.is_none();
    breaches.require(waits, "zone.queue", || format!("{:?} has a queue", zone.layout));
    let flow = queue.flow_per_hour.as_ref().map(|flow| flow.value);
    breaches.require(flow.is_some() == queue.outlook.is_some(), "zone.queue", || {
        format!("flow {flow:?}, outlook {:?}", queue.outlook)
    });
    let grows_within = matches!(&queue.outlook, Some(QueueOutlook::Grows(_)))
        && flow.is_some_and(|flow| flow <= queue.most_per_hour.value);
    breaches.require(!grows_within, "zone.queue", || {
        format!("{flow:?} vehicles an hour make it grow, {} are carried", queue.most_per_hour.value)
    });
}

/// At the moment any cone is placed, every sign upstream of it on its approach already stands.
fn warned_first(zone: &WorkZone, breaches: &mut Breaches) {
    for (index, device) in zone.devices.iter().enumerate() {
        if device.kind == DeviceKind::Sign {
            continue;
        }
        let late = zone.devices[index + 1..].iter().find(|other| {
            let same_road = on_side_road(other) == on_side_road(device);
            other.kind == DeviceKind::Sign && same_road && other.approach == device.approach && upstream(other, device)
        });
        breaches.require(late.is_none(), "zone.warned_first", || {
            format!("device {} stands before the sign {:?} upstream of it", index + 1, late.map(|d| &d.legend))
        });
    }
}

fn holds_its_cuts(plan: &Plan, zone: &WorkZone, jobs: &[usize], breaches: &mut Breaches) {
    let (from, to) = (zone.work_from.in_metres(), zone.work_to.in_metres());
    for job in jobs.iter().filter_map(|&job| plan.jobs.get(job)) {
        for corner in &job.cut.corners {
            let inside = corner.along_m >= from - 1e-6 && corner.along_m <= to + 1e-6;
            breaches.require(inside, "zone.holds_cuts", || {
                format!("cut corner at {} m is outside the work space {from} to {to} m", corner.along_m)
            });
        }
    }
}

/// A zone for several cuts says what that saves, of all its cuts and holes; one for a single cut says nothing.
fn says_it_is_shared(zone: &WorkZone, cuts: usize, breaches: &mut Breaches) {
    let said = zone.shared.as_ref().map(|shared| (shared.cuts as usize, shared.holes as usize));
    let true_ = (cuts > 1).then_some((cuts, zone.holes.len()));
    breaches.require(said == true_, "zone.shared", || format!("cuts and holes that share are {said:?}, not {true_:?}"));
}

/// What is said to be needed at one time is what stands at the fullest time: no zone of the round needs more, and one needs
/// that many where they do not overlap.
fn enough_at_once(plan: &Plan, breaches: &mut Breaches) {
    let stops: Vec<(&WorkZone, &Stop)> = plan
        .round
        .timetable
        .iter()
        .filter_map(|stop| match stop.kind {
            StopKind::Work(site) => plan.sites.get(site).map(|planned| (&planned.zone, stop)),
            _ => None,
        })
        .collect();
    let standing_at = |moment: SecondOfDay, wanted: &dyn Fn(&Device) -> bool| {
        let zones = stops.iter().filter(|(_, stop)| stop.from <= moment && moment < stop.to);
        zones.flat_map(|(zone, _)| &zone.devices).filter(|device| wanted(device)).count()
    };
    for need in &plan.devices_at_once {
        let all_of_kind = need.designation.is_empty() && need.legend.is_empty();
        let wanted = |device: &Device| {
            device.kind == need.kind
                && (all_of_kind || (device.designation == need.designation && device.legend == need.legend))
        };
        let most = stops.iter().map(|(_, stop)| standing_at(stop.from, &wanted)).max().unwrap_or(0);
        breaches.require(most == need.most as usize, "zone.at_once", || {
            format!("{} of {:?} {} stand at once, not {}", most, need.kind, need.legend, need.most)
        });
    }
    for (kind, signs) in stops.iter().flat_map(|(zone, _)| &zone.devices).map(|d| (d.kind, &d.legend)) {
        let said =
            plan.devices_at_once.iter().any(|n| n.kind == kind && (n.legend == *signs || kind != DeviceKind::Sign));
        breaches.require(said, "zone.at_once", || format!("{kind:?} {signs} is not among the needs"));
    }
}

/// The side road that a device stands on.
fn on_side_road(device: &Device) -> Option<&str> {
    device.spot.as_ref().and_then(|spot| spot.side_road.as_ref()).map(|(name, _)| name.as_str())
}

/// Whether `a` is met before `b` by the traffic of `b`'s approach.
fn upstream(a: &Device, b: &Device) -> bool {
    match b.approach {
        Travel::Forward => a.chainage < b.chainage,
        Travel::Backward => a.chainage > b.chainage,
    }
}
