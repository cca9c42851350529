//! The ways to break a plan.

mod account;
mod cuts;
mod learnt;
mod loads;
mod timetable;
mod zones;

pub use learnt::taught;
use model::patch::{AgainstPatch, PatchLimit};
use model::plan::{Fate, LeftOut, Plan};
use model::round::{LeftOutReason, StopKind};
pub use timetable::looking;

use crate::{Case, fixture};

/// Every case, at least one for each rule.
pub fn all() -> Vec<Case> {
    [account::cases(), cuts::cases(), learnt::cases(), loads::cases(), timetable::cases(), zones::cases()].concat()
}

/// A case on the small plan.
fn case(rule: &'static str, what: &'static str, spoil: fn(&mut Plan)) -> Case {
    Case { rule, also: &[], what, sound: fixture::plan, spoil }
}

/// The small plan, its last site no patch: out of the round, and left out for that reason.
pub fn waiting() -> Plan {
    let mut plan = fixture::plan();
    let site = plan.sites.len() - 1;
    let trip = plan.round.trips.pop().expect("trips");
    assert_eq!(trip, [site], "the last trip goes to the last site only");
    plan.loads.pop();
    let day = &mut plan.round.timetable;
    let rest = day.iter().position(|stop| stop.kind == StopKind::Rest).expect("a break between the trips");
    day.truncate(rest + 1);
    plan.ways.truncate(day.iter().filter(|stop| matches!(stop.kind, StopKind::Drive(_))).count());
    let jobs = plan.sites[site].jobs.clone();
    for job in jobs {
        not_a_patch(&mut plan, job);
        for hole in plan.jobs[job].holes.clone() {
            let id = plan.holes[hole].hole.id.clone();
            let fate = plan.fates.iter_mut().find(|told| told.report == id).expect("each hole's fate is told");
            fate.fate = Fate::LeftOut;
        }
        leave_out(&mut plan, job);
    }
    plan
}

/// Makes a job one for the engineer.
fn not_a_patch(plan: &mut Plan, job: usize) {
    let patch = &mut plan.jobs[job].patch;
    let words = "the cut may be 1.3 m deep, the limit is 0.5 m".to_owned();
    patch.against = vec![AgainstPatch { limit: PatchLimit::Size, words, why: patch.cut_share.why.clone() }];
}

/// Leaves a job's holes out because they are no patch.
fn leave_out(plan: &mut Plan, job: usize) {
    for hole in plan.jobs[job].holes.clone() {
        plan.left_out.push(LeftOut {
            hole: plan.holes[hole].hole.id.clone(),
            reason: Some(LeftOutReason::NotAPatch),
            words: plan.jobs[job].patch.words(),
            road: String::new(),
            place: plan.holes[hole].hole.position,
            distance: None,
        });
    }
}
