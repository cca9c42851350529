//! Looks on one day. That nothing of the work is the worse for them needs no rule of its own: whatever is worked has to hold
//! all the others.
//!
//! | rule | it is broken when |
//! |---|---|
//! | `timetable.looks` | a look of the plan is not made, or one that is not in it, or not in its order |
//! | `timetable.look_twice` | one repair is looked at twice |
//! | `timetable.look_left` | or is told to be left as well |
//! | `timetable.look_short` | the stop is shorter than the look takes |
//! | `timetable.look_daylight` | it is not by daylight with its margin |
//! | `timetable.look_barred` | it is in hours that are barred on its road |
//! | `timetable.look_stop` | the truck stops on a motorway, a roundabout, a bridge or in a tunnel |
//! | `timetable.look_shoulder` | the shoulder is narrower than the rule's least, or not told by the map where that must be |

use std::collections::BTreeSet;

use model::look::PlannedLook;
use model::plan::Plan;
use model::quantity::{InLength, InTime};
use model::road::RoadClass;
use model::round::{Stop, StopKind};

use crate::Breaches;
use crate::timetable::{is_barred, is_light};

pub(crate) fn check(plan: &Plan, breaches: &mut Breaches) {
    let table = &plan.round.timetable;
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
        let when = || format!("look {look}: {} to {}", stop.from, stop.to);
        breaches.require(is_light(plan, stop), "timetable.look_daylight", when);
        breaches.require(!is_barred(plan, planned.position.section, stop), "timetable.look_barred", when);
        off_the_road(plan, look, planned, breaches);
    }
}

/// A short stop without a work zone: from the shoulder, and where there is one.
fn off_the_road(plan: &Plan, look: usize, planned: &PlannedLook, breaches: &mut Breaches) {
    let section = plan.network.section(planned.position.section);
    let can_stop = section.class != RoadClass::Motorway && !section.roundabout && section.structure.is_none();
    breaches.require(can_stop, "timetable.look_stop", || format!("look {look}: on {}", section.label()));
    let is_told = planned.default_shoulder_counts || !section.defaulted.contains(&"shoulder");
    let (shoulder, least) = (section.shoulder.in_metres(), planned.shoulder_least.in_metres());
    breaches.require(is_told && shoulder >= least, "timetable.look_shoulder", || {
        format!("look {look}: {shoulder:.1} m of {least:.1} m on {}, told by the map: {is_told}", section.label())
    });
}
