//! Holes, jobs, sites and reports: nothing lost, nothing twice.

use model::hole::HoleId;
use model::plan::{Fate, Plan};
use model::problem::ProblemSeverity;

use super::{case, waiting};
use crate::Case;

pub fn cases() -> Vec<Case> {
    [belonging(), done_or_left_out(), reports()].concat()
}

fn belonging() -> Vec<Case> {
    vec![
        case("account.hole", "a hole says it is of another job", |plan| plan.holes[0].job = 1),
        case("account.hole", "a hole is in two jobs", |plan| plan.jobs[1].holes.push(0)),
        case("account.hole_unknown", "a job has a hole that there is not", |plan| plan.jobs[0].holes.push(99)),
        case("account.job", "a job says it is of another site", |plan| plan.jobs[0].site = 1),
        case("account.job_unknown", "a site has a job that there is not", |plan| plan.sites[0].jobs.push(99)),
        Case {
            also: &["timetable.trips"],
            ..case("account.site_twice", "a site is in two trips", |plan| plan.round.trips[1].push(0))
        },
        Case {
            also: &["timetable.trips"],
            ..case("account.site_unknown", "a trip goes to a site that there is not", |plan| {
                plan.round.trips[1].push(99);
            })
        },
    ]
}

fn done_or_left_out() -> Vec<Case> {
    vec![
        case("account.left_out_twice", "a hole is left out twice", |plan| plan.left_out.push(plan.left_out[0].clone())),
        case("account.fate", "a hole in the round is left out too", |plan| {
            let mut both = plan.left_out[0].clone();
            both.hole = plan.holes[0].hole.id.clone();
            plan.left_out.push(both);
        }),
        Case {
            also: &["account.report_fate", "patch.left_out"],
            sound: waiting,
            ..case("account.fate", "a hole is neither in the round nor left out", |plan| {
                plan.left_out.pop();
            })
        },
    ]
}

fn reports() -> Vec<Case> {
    vec![
        case("account.report_twice", "a report's fate is told twice", |plan| plan.fates.push(plan.fates[1].clone())),
        case("account.report_missing", "a hole's fate is not told", |plan| {
            let id = plan.holes[1].hole.id.clone();
            plan.fates.retain(|told| told.report != id);
        }),
        case("account.report_missing", "the fate of one left out is not told", |plan| {
            let id = plan.left_out[0].hole.clone();
            plan.fates.retain(|told| told.report != id);
        }),
        case("account.report_joined", "the fate of a hole's second report is not told", |plan| {
            plan.fates.remove(0);
        }),
        case("account.report_joined", "a hole's second report is told as another hole's", |plan| {
            plan.fates[0].fate = Fate::SameHoleAs(plan.holes[1].hole.id.clone(), "near".into());
        }),
        case("account.report_fate", "told as left out, but in the round", |plan| tell(plan, 1, Fate::LeftOut)),
        case("account.report_fate", "told as in the round, but left out", |plan| {
            let last = plan.fates.len() - 1;
            tell(plan, last, Fate::InRound);
        }),
        case("account.report_fate", "told as refused without a problem, but in the round", |plan| {
            tell(plan, 1, Fate::Refused);
        }),
        case("account.report_fate", "told as refused, with a problem, but in the round all the same", |plan| {
            plan.problems[0].subject = plan.fates[1].report.0.clone();
            tell(plan, 1, Fate::Refused);
        }),
        case("account.report_fate", "told as refused for a warning", |plan| {
            let mut told = plan.fates[1].clone();
            told.report = HoleId(plan.problems[0].subject.clone());
            told.fate = Fate::Refused;
            plan.fates.push(told);
            plan.problems[0].severity = ProblemSeverity::Warning;
        }),
        case("account.report_fate", "told as another's report, but a hole of its own", |plan| {
            let other = Fate::SameHoleAs(plan.holes[0].hole.id.clone(), "near".into());
            tell(plan, 2, other);
        }),
        case("account.report_fate", "told as of a hole that nothing is told of", |plan| {
            let mut told = plan.fates[0].clone();
            told.report = HoleId("P-02".into());
            told.fate = Fate::SameHoleAs(HoleId("SM-999".into()), "near".into());
            plan.fates.push(told);
        }),
        case("account.report_fate", "told as of a report that itself is another's", |plan| {
            let mut told = plan.fates[0].clone();
            told.fate = Fate::SameHoleAs(told.report.clone(), "near".into());
            told.report = HoleId("P-02".into());
            plan.fates.push(told);
        }),
    ]
}

fn tell(plan: &mut Plan, index: usize, fate: Fate) {
    plan.fates[index].fate = fate;
}
