//! Nothing is lost and nothing counts twice: shifts, sites, the left-out list.

use std::collections::{BTreeMap, BTreeSet};

use model::programme::{Programme, ProgrammeProblem};

use crate::Breaches;

pub(crate) fn check(problem: &ProgrammeProblem, programme: &Programme, breaches: &mut Breaches) {
    shifts(problem, programme, breaches);
    let mut worked: BTreeMap<usize, usize> = BTreeMap::new();
    for site in programme.rounds.iter().flat_map(model::programme::CrewRound::sites) {
        *worked.entry(site).or_default() += 1;
    }
    for (site, times) in &worked {
        breaches.require(*times == 1, "programme.site_twice", || {
            format!("site {site} is worked in {times} pieces or times")
        });
    }
    let left_out: Vec<usize> = programme.left_out.iter().map(|(site, _)| *site).collect();
    breaches.require(left_out.is_sorted_by(|a, b| a < b), "programme.order", || format!("left out: {left_out:?}"));
    let known = 0..problem.sites.len();
    for site in worked.keys().chain(&left_out) {
        breaches.require(known.contains(site), "programme.site_unknown", || format!("site {site} does not exist"));
    }
    for site in known {
        let (done, out) = (worked.contains_key(&site), left_out.contains(&site));
        breaches.require(done != out, "programme.fate", || {
            format!("site {site} is {}", if done { "worked and left out" } else { "neither worked nor left out" })
        });
    }
}

fn shifts(problem: &ProgrammeProblem, programme: &Programme, breaches: &mut Breaches) {
    let mut seen = BTreeSet::new();
    let mut before = None;
    for round in &programme.rounds {
        let Some(shift) = problem.shifts.get(round.shift) else {
            breaches.require(false, "programme.shift_unknown", || format!("shift {} does not exist", round.shift));
            continue;
        };
        breaches.require(seen.insert(round.shift), "programme.shift_twice", || {
            format!("shift {} goes out twice", round.shift)
        });
        let now = Some((shift.day, shift.crew));
        breaches.require(before <= now, "programme.order", || {
            format!("the round of {now:?} comes after that of {before:?}")
        });
        before = now;
    }
}
