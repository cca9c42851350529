//! Nothing is lost and nothing counts twice: holes, jobs, sites, left-out list.

use std::collections::BTreeSet;

use model::plan::Plan;

use crate::Breaches;

pub(crate) fn check(plan: &Plan, breaches: &mut Breaches) {
    each_belongs_to_one(plan, breaches);
    each_is_done_or_left_out(plan, breaches);
}

fn each_belongs_to_one(plan: &Plan, breaches: &mut Breaches) {
    for (index, hole) in plan.holes.iter().enumerate() {
        let jobs: Vec<usize> = (0..plan.jobs.len()).filter(|&job| plan.jobs[job].holes.contains(&index)).collect();
        breaches.require(jobs == [hole.job], "account.hole", || format!("{}: in jobs {jobs:?}", hole.hole.id.0));
    }
    for (index, job) in plan.jobs.iter().enumerate() {
        let sites: Vec<usize> = (0..plan.sites.len()).filter(|&site| plan.sites[site].jobs.contains(&index)).collect();
        breaches.require(sites == [job.site], "account.job", || format!("job {index}: at sites {sites:?}"));
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
