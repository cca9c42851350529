//! Nothing is lost and nothing counts twice: holes, jobs, sites, left-out list.

use std::collections::{BTreeMap, BTreeSet};

use model::hole::HoleId;
use model::plan::{Fate, Plan};
use model::problem::ProblemSeverity;

use crate::Breaches;

pub(crate) fn check(plan: &Plan, breaches: &mut Breaches) {
    each_belongs_to_one(plan, breaches);
    each_is_done_or_left_out(plan, breaches);
    each_report_has_one_fate(plan, breaches);
}

fn each_belongs_to_one(plan: &Plan, breaches: &mut Breaches) {
    for (index, hole) in plan.holes.iter().enumerate() {
        let jobs: Vec<usize> = (0..plan.jobs.len()).filter(|&job| plan.jobs[job].holes.contains(&index)).collect();
        breaches.require(jobs == [hole.job], "account.hole", || format!("{}: in jobs {jobs:?}", hole.hole.id.0));
    }
    for (index, job) in plan.jobs.iter().enumerate() {
        let sites: Vec<usize> = (0..plan.sites.len()).filter(|&site| plan.sites[site].jobs.contains(&index)).collect();
        breaches.require(sites == [job.site], "account.job", || format!("job {index}: at sites {sites:?}"));
        for &hole in &job.holes {
            breaches.require(hole < plan.holes.len(), "account.hole_unknown", || format!("hole {hole} does not exist"));
        }
    }
    for &job in plan.sites.iter().flat_map(|site| &site.jobs) {
        breaches.require(job < plan.jobs.len(), "account.job_unknown", || format!("job {job} does not exist"));
    }
    let mut seen = BTreeSet::new();
    for site in plan.round.trips.iter().flatten() {
        breaches.require(seen.insert(*site), "account.site_twice", || format!("site {site} is worked twice"));
        breaches.require(*site < plan.sites.len(), "account.site_unknown", || format!("site {site} does not exist"));
    }
}

fn each_is_done_or_left_out(plan: &Plan, breaches: &mut Breaches) {
    let done: BTreeSet<usize> = plan.round.trips.iter().flatten().copied().collect();
    let mut left_out: Vec<&str> = plan.left_out.iter().map(|l| l.hole.0.as_str()).collect();
    left_out.sort_unstable();
    let twice = left_out.windows(2).find(|pair| pair[0] == pair[1]);
    breaches.require(twice.is_none(), "account.left_out_twice", || format!("{twice:?}"));
    for hole in &plan.holes {
        let is_done = plan.jobs.get(hole.job).is_some_and(|job| done.contains(&job.site));
        let is_left_out = left_out.binary_search(&hole.hole.id.0.as_str()).is_ok();
        breaches.require(is_done != is_left_out, "account.fate", || {
            format!("{}: done {is_done}, left out {is_left_out}; exactly one must hold", hole.hole.id.0)
        });
    }
}

/// Every report of the list has one fate, and it is the true one.
fn each_report_has_one_fate(plan: &Plan, breaches: &mut Breaches) {
    let mut fates: BTreeMap<&HoleId, &Fate> = BTreeMap::new();
    for report in &plan.fates {
        let is_first = fates.insert(&report.report, &report.fate).is_none();
        breaches.require(is_first, "account.report_twice", || format!("{}: told twice", report.report.0));
    }
    let done: BTreeSet<usize> = plan.round.trips.iter().flatten().copied().collect();
    let holes: BTreeMap<&HoleId, bool> = plan
        .holes
        .iter()
        .map(|hole| (&hole.hole.id, plan.jobs.get(hole.job).is_some_and(|job| done.contains(&job.site))))
        .collect();
    let left_out: BTreeSet<&HoleId> = plan.left_out.iter().map(|left| &left.hole).collect();
    let refused: BTreeSet<&str> = plan
        .problems
        .iter()
        .filter(|problem| problem.severity != ProblemSeverity::Warning)
        .map(|problem| problem.subject.as_str())
        .collect();
    for (report, fate) in &fates {
        let holds = match fate {
            Fate::InRound => holes.get(report) == Some(&true),
            Fate::LeftOut => left_out.contains(report),
            Fate::Refused => {
                refused.contains(report.0.as_str()) && !holes.contains_key(report) && !left_out.contains(report)
            }
            Fate::SameHoleAs(of, _) => {
                let is_apart = !holes.contains_key(report) && !left_out.contains(report);
                is_apart && fates.get(of).is_some_and(|fate| !matches!(fate, Fate::SameHoleAs(..)))
            }
        };
        breaches.require(holds, "account.report_fate", || format!("{}: {fate:?} is not so", report.0));
    }
    for id in holes.keys().chain(&left_out) {
        breaches.require(fates.contains_key(id), "account.report_missing", || format!("{}: no fate is told", id.0));
    }
    for hole in &plan.holes {
        for report in hole.reports.iter().skip(1) {
            let is_told = matches!(fates.get(&report.id), Some(Fate::SameHoleAs(of, _)) if *of == hole.hole.id);
            breaches.require(is_told, "account.report_joined", || {
                format!("{}: a report of {}, but its fate is another", report.id.0, hole.hole.id.0)
            });
        }
    }
}
