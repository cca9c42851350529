//! Why a site is mended when it is, and what one more of something would bring.

use model::plan::{Marginal, MoreOf};
use model::programme::{CrewRound, CrewShift, CrewStopKind, Programme, ProgrammeProblem, ProgrammeSite, Yard};
use model::quantity::{cubic_metres, kilograms};

use crate::SearchSettings;
use crate::loads::{Load, Room};
use crate::search;
use crate::timetable::{self, Step};
use crate::translate::{price, service};

/// Another way with one site, all else as it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alternative {
    /// Shift that would mend it; `None`: it is left out.
    pub shift: Option<usize>,
    /// What the whole programme would cost more, money; negative where the search has missed something.
    pub costs_more: f64,
}

/// Mass that a cubic metre of base or spoil is given, kg: moist crushed rock lies at 1,500 to 1,800 loose; common practice,
/// no source.
const CUBIC_METRE_KG: f64 = 1700.0;

/// All that could be done with a site in place of what is, the cheapest first: another shift in which it finds room as
/// that shift's round stands, or to leave it out.
pub fn alternatives(problem: &ProgrammeProblem, programme: &Programme, site: usize) -> Vec<Alternative> {
    let now = programme.rounds.iter().find(|round| round.sites().any(|other| other == site));
    let without = now.map_or(0.0, |round| {
        let steps: Vec<Step> = steps(round).into_iter().filter(|&step| step != Step::Site(site)).collect();
        round_cost(problem, round.shift, &steps).unwrap_or(f64::INFINITY) - round_cost_of(problem, round)
    });
    let left = price(problem.sites[site].left);
    let mut alternatives = Vec::new();
    if now.is_some() {
        alternatives.push(Alternative { shift: None, costs_more: without + left });
    }
    for shift in 0..problem.shifts.len() {
        if now.is_some_and(|round| round.shift == shift) || !has_way(problem, shift, site) {
            continue;
        }
        let there = programme.rounds.iter().find(|round| round.shift == shift);
        let (steps, cost) =
            there.map_or((Vec::new(), 0.0), |round| (self::steps(round), round_cost_of(problem, round)));
        let inserted = (0..=steps.len()).filter_map(|at| {
            let mut longer = steps.clone();
            longer.insert(at, Step::Site(site));
            let holds = may_do(problem, shift, site)
                && loads_hold(&problem.sites, &problem.yards, &problem.shifts[shift], &longer);
            holds.then(|| round_cost(problem, shift, &longer))?
        });
        if let Some(with) = inserted.min_by(f64::total_cmp) {
            let saved = if now.is_some() { without } else { -left };
            alternatives.push(Alternative { shift: Some(shift), costs_more: with - cost + saved });
        }
    }
    alternatives.retain(|alternative| alternative.costs_more.is_finite());
    alternatives.sort_by(|a, b| a.costs_more.total_cmp(&b.costs_more));
    alternatives
}

/// What one more of each thing would bring: the programme is searched again with it, and once without, so that more
/// searching alone does not count.
pub fn what_more_brings(
    problem: &ProgrammeProblem,
    programme: &Programme,
    settings: &SearchSettings,
    progress: &mut dyn FnMut(u32, f64) -> bool,
) -> Vec<Marginal> {
    let again = search::search(problem, Some(programme), settings, progress);
    let (cost, sites) = (again.cost.total(), mended(&again));
    let crews = problem.shifts.iter().map(|shift| shift.crew).collect::<std::collections::BTreeSet<usize>>();
    let changes = crews.into_iter().map(MoreOf::Crew).chain([MoreOf::Hour, MoreOf::CubicMetre]);
    changes
        .map(|more| {
            let changed = with_more(problem, more);
            let found = search::search(&changed, Some(&again), settings, progress);
            Marginal { more, saves: cost - found.cost.total(), sites: mended(&found) - sites }
        })
        .collect()
}

fn mended(programme: &Programme) -> i64 {
    let sites = programme.rounds.iter().flat_map(CrewRound::sites).count();
    i64::try_from(sites).unwrap_or(i64::MAX)
}

fn with_more(problem: &ProgrammeProblem, more: MoreOf) -> ProgrammeProblem {
    let mut changed = problem.clone();
    match more {
        MoreOf::Crew(crew) => {
            let next = 1 + problem.shifts.iter().map(|shift| shift.crew).max().unwrap_or(0);
            let like = problem.shifts.iter().enumerate().filter(|(_, shift)| shift.crew == crew);
            let like: Vec<(usize, CrewShift)> = like.map(|(index, shift)| (index, shift.clone())).collect();
            for (index, shift) in like {
                let new = changed.shifts.len();
                changed.shifts.push(CrewShift { crew: next, ..shift });
                // What that crew may do, the new one may.
                for allowed in changed.sites.iter_mut().filter_map(|site| site.shifts.as_mut()) {
                    if allowed.contains(&index) {
                        allowed.push(new);
                    }
                }
            }
        }
        MoreOf::Hour => changed.shifts.iter_mut().for_each(|shift| shift.to += 3600),
        MoreOf::CubicMetre => {
            for shift in &mut changed.shifts {
                shift.capacity.shared_volume += cubic_metres(1.0);
                shift.capacity.payload += kilograms(CUBIC_METRE_KG);
            }
        }
    }
    changed
}

/// Whether a way leads from where the shift begins to the site.
fn has_way(problem: &ProgrammeProblem, shift: usize, site: usize) -> bool {
    let shift = &problem.shifts[shift];
    let driving = problem.driving.get(shift.driving);
    driving.is_some_and(|driving| driving.seconds(problem.sites.len() + shift.start, site).is_some())
}

/// What a round does, without times.
pub(crate) fn steps(round: &CrewRound) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::new();
    for (index, stop) in round.stops.iter().enumerate() {
        match stop.kind {
            CrewStopKind::Work(site) => steps.push(Step::Site(site)),
            CrewStopKind::Load(yard) | CrewStopKind::Tip(yard)
                if index > 0 && index + 1 < round.stops.len() && steps.last() != Some(&Step::Call(yard)) =>
            {
                steps.push(Step::Call(yard));
            }
            _ => {}
        }
    }
    steps
}

/// Whether a shift has permission and plant for a site.
pub(crate) fn may_do(problem: &ProgrammeProblem, shift: usize, site: usize) -> bool {
    let site = &problem.sites[site];
    site.shifts.as_ref().is_none_or(|shifts| shifts.contains(&shift)) && service(site, &problem.shifts[shift]).is_some()
}

/// Follows what is on the truck step by step; see `loads`.
pub(crate) fn loads_hold(sites: &[ProgrammeSite], yards: &[Yard], shift: &CrewShift, steps: &[Step]) -> bool {
    let loads: Option<Vec<Option<Load>>> = steps
        .iter()
        .map(|step| match step {
            Step::Site(site) => Load::new(&sites[*site].demand).map(Some),
            Step::Call(_) => Some(None),
        })
        .collect();
    let Some(loads) = loads else { return false };
    let room = Room::new(&shift.capacity);
    let rooms = room.0.len();
    let need = |from: usize, of: &dyn Fn(&Load, usize) -> i64, refills: &dyn Fn(usize) -> bool, at: usize| -> i64 {
        let mut sum = 0;
        for (step, load) in steps[from..].iter().zip(&loads[from..]) {
            match (step, load) {
                (Step::Call(yard), _) if refills(*yard) => break,
                (_, Some(load)) => sum += of(load, at),
                _ => {}
            }
        }
        sum
    };
    let bins = |from: usize, at: usize| need(from, &|load, at| load.from_bins[at], &|y| yards[y].gives.bins, at);
    let tanks = |from: usize, at: usize| need(from, &|load, at| load.from_tanks[at], &|y| yards[y].gives.tanks, at);
    let aboard = shift.aboard.and_then(|aboard| Load::new(&crate::as_demand(&aboard)));
    (0..rooms).all(|at| {
        let (mut in_bins, mut in_tanks) = (bins(0, at), tanks(0, at));
        let mut spoil = 0;
        if let Some(aboard) = &aboard {
            if in_bins > aboard.from_bins[at] || in_tanks > aboard.from_tanks[at] {
                return false;
            }
            spoil = aboard.taken_on[at];
            // All of it is on the truck, needed or not.
            (in_bins, in_tanks) = (aboard.from_bins[at], aboard.from_tanks[at]);
        }
        let mut holds = in_bins + in_tanks + spoil <= room.0[at];
        for (index, (step, load)) in steps.iter().zip(&loads).enumerate() {
            match (step, load) {
                (Step::Call(yard), _) => {
                    let yard = &yards[*yard];
                    spoil = if yard.takes_spoil { 0 } else { spoil };
                    in_bins = if yard.gives.bins { bins(index + 1, at) } else { in_bins };
                    in_tanks = if yard.gives.tanks { tanks(index + 1, at) } else { in_tanks };
                }
                (Step::Site(_), Some(load)) => {
                    spoil += load.taken_on[at];
                    holds &= in_bins + in_tanks + spoil <= room.0[at];
                    in_bins -= load.from_bins[at];
                    in_tanks -= load.from_tanks[at];
                }
                (Step::Site(_), None) => {}
            }
            holds &= in_bins + in_tanks + spoil <= room.0[at];
        }
        holds
    })
}

/// What a shift's round costs with what its sites wait for; `None`: it can't be kept in time.
fn round_cost(problem: &ProgrammeProblem, shift: usize, steps: &[Step]) -> Option<f64> {
    if !steps.iter().any(|step| matches!(step, Step::Site(_))) {
        return Some(0.0);
    }
    let stops = timetable::write(problem, &problem.shifts[shift], steps)?;
    Some(round_cost_of(problem, &search::round(problem, shift, stops)))
}

fn round_cost_of(problem: &ProgrammeProblem, round: &CrewRound) -> f64 {
    let alone = Programme { rounds: vec![round.clone()], ..Programme::default() };
    search::cost(problem, &alone).total()
}
