//! Devices: what goes out comes back, in reverse; nothing stands in a lane before its warning stands.

use std::collections::BTreeSet;

use model::place::Travel;
use model::plan::Plan;
use model::quantity::InLength;
use model::work_zone::{Device, DeviceKind, WorkZone};

use crate::Breaches;

pub(crate) fn check(plan: &Plan, breaches: &mut Breaches) {
    for site in &plan.sites {
        let zone = &site.zone;
        returns(zone, breaches);
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

/// At the moment any cone is placed, every sign upstream of it on its approach already stands.
fn warned_first(zone: &WorkZone, breaches: &mut Breaches) {
    for (index, device) in zone.devices.iter().enumerate() {
        if device.kind == DeviceKind::Sign {
            continue;
        }
        let late = zone.devices[index + 1..].iter().find(|other| {
            other.kind == DeviceKind::Sign && other.approach == device.approach && upstream(other, device)
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

/// Whether `a` is met before `b` by the traffic of `b`'s approach.
fn upstream(a: &Device, b: &Device) -> bool {
    match b.approach {
        Travel::Forward => a.chainage < b.chainage,
        Travel::Backward => a.chainage > b.chainage,
    }
}
