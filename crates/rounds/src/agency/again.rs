//! An agency's programme taken up again: what each area has come to, and its rounds made anew where needs have grown.

use std::collections::BTreeSet;

use model::programme::{CrewRound, Programme};

use super::areas::{self, Area};
use super::part::Part;
use super::{Agency, AgencyProgress, AgencySettings, AgencyStage, State, finish, seed, steps, workers};
use crate::SearchSettings;
use crate::explain::{loads_hold, steps as steps_of};

/// An area as it stands in a programme.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AgencyArea {
    /// Its crews' shifts.
    pub shifts: Vec<usize>,
    /// What they do, and what the area looked at and nobody does, ascending.
    pub sites: Vec<usize>,
}

/// The areas of an agency, with the sites of each in that programme.
pub fn areas_of(agency: &Agency<'_>, settings: &AgencySettings, programme: &Programme) -> Vec<AgencyArea> {
    let rounds = by_shift(agency, programme);
    let done: BTreeSet<usize> = programme.rounds.iter().flat_map(CrewRound::sites).collect();
    let areas = areas::divide(agency, settings.looked_at).into_iter();
    areas.map(|area| AgencyArea { sites: sites_of(&area, &rounds, &done), shifts: area.shifts }).collect()
}

/// Goes on from a programme of the same agency whose sites may need more than they did: areas where a truck no longer holds
/// what its round needs are searched again, from the rounds as they are; the others stay.
///
/// `progress` is told as in [`super::agency`].
pub fn agency_again(
    agency: &Agency<'_>,
    programme: &Programme,
    settings: &AgencySettings,
    progress: &mut dyn FnMut(&AgencyProgress) -> bool,
) -> Programme {
    let areas = areas::divide(agency, settings.looked_at);
    let mut rounds = by_shift(agency, programme);
    let done: BTreeSet<usize> = programme.rounds.iter().flat_map(CrewRound::sites).collect();
    let holds =
        |round: &CrewRound| loads_hold(agency.sites, agency.yards, &agency.shifts[round.shift], &steps_of(round));
    let short: Vec<usize> = (0..areas.len())
        .filter(|&index| areas[index].shifts.iter().filter_map(|&shift| rounds[shift].as_ref()).any(|it| !holds(it)))
        .collect();
    let sites: Vec<Vec<usize>> = short.iter().map(|&index| sites_of(&areas[index], &rounds, &done)).collect();
    let of = sites.iter().map(|sites| u64::from(steps(settings, sites.len()))).sum();
    let work = |task: usize, tell: workers::Tell<'_>| {
        let area = &areas[short[task]];
        let part = Part::new(agency, sites[task].clone(), area.shifts.clone());
        let start = part.programme_of(area.shifts.iter().filter_map(|&shift| rounds[shift].as_ref()));
        let iterations = steps(settings, part.sites.len());
        let search = SearchSettings { seed: seed(settings.seed, u64::from(u32::MAX), short[task]), iterations };
        part.in_agency(crate::programme(&part.problem, Some(&start), &search, tell).rounds)
    };
    let mut told = vec![0; short.len()];
    let mut stopped = false;
    let cost = programme.cost.total();
    let solved = workers::run(settings.threads, short.len(), &work, &mut |task, steps, _| {
        told[task] = u64::from(steps);
        let steps = told.iter().sum();
        stopped |= !progress(&AgencyProgress { stage: AgencyStage::Areas, steps, of, cost });
        !stopped
    });
    for (&index, found) in short.iter().zip(solved) {
        for &shift in &areas[index].shifts {
            rounds[shift] = None;
        }
        for round in found {
            let shift = round.shift;
            rounds[shift] = Some(round);
        }
    }
    finish(agency, &areas, settings, State { rounds, cost, stopped })
}

fn by_shift(agency: &Agency<'_>, programme: &Programme) -> Vec<Option<CrewRound>> {
    let mut rounds = vec![None; agency.shifts.len()];
    for round in &programme.rounds {
        rounds[round.shift] = Some(round.clone());
    }
    rounds
}

fn sites_of(area: &Area, rounds: &[Option<CrewRound>], done: &BTreeSet<usize>) -> Vec<usize> {
    let own = area.shifts.iter().filter_map(|&shift| rounds[shift].as_ref()).flat_map(CrewRound::sites);
    let mut sites: Vec<usize> = own.chain(area.sites.iter().copied().filter(|site| !done.contains(site))).collect();
    sites.sort_unstable();
    sites
}
