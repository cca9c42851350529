//! A programme from given orders of sites: what of an earlier plan can still be kept.

use model::programme::{Programme, ProgrammeProblem};

use crate::explain::{loads_hold, may_do};
use crate::search;
use crate::timetable::{self, Step};

/// The programme that keeps to each shift's order of sites as far as time and loads allow: a site that no longer fits is
/// passed over, and a call at the shift's yards is put in where the truck must load or tip before the next site.
pub fn keep(problem: &ProgrammeProblem, orders: &[(usize, Vec<usize>)]) -> Programme {
    let mut done = vec![false; problem.sites.len()];
    let mut rounds = Vec::new();
    for (index, order) in orders {
        let Some(shift) = problem.shifts.get(*index) else { continue };
        let mut steps: Vec<Step> = Vec::new();
        for &site in order {
            if site >= problem.sites.len() || done[site] || !may_do(problem, *index, site) {
                continue;
            }
            let calls = std::iter::once(None).chain(shift.calls.iter().map(|&yard| Some(Step::Call(yard))));
            let longer = calls.map(|call| {
                let mut longer = steps.clone();
                longer.extend(call);
                longer.push(Step::Site(site));
                longer
            });
            let fits = |steps: &Vec<Step>| {
                loads_hold(&problem.sites, &problem.yards, shift, steps)
                    && timetable::write(problem, shift, steps).is_some()
            };
            if let Some(longer) = longer.into_iter().find(fits) {
                steps = longer;
                done[site] = true;
            }
        }
        let stops = timetable::write(problem, shift, &steps).filter(|_| !steps.is_empty());
        rounds.extend(stops.map(|stops| search::round(problem, *index, stops)));
    }
    search::describe(problem, rounds)
}
