//! Some sites and shifts of an agency as a programme of their own.

use std::collections::{BTreeMap, BTreeSet};

use model::programme::{CrewRound, CrewShift, CrewStopKind, Programme, ProgrammeProblem, ProgrammeSite};
use model::round::LeftOutReason;

use super::Agency;

/// The part and how its numbers read in the agency.
pub(super) struct Part {
    pub problem: ProgrammeProblem,
    /// In the agency, of each site here.
    pub sites: Vec<usize>,
    yards: Vec<usize>,
    pub shifts: Vec<usize>,
    /// Number of the agency's sites.
    agency_sites: usize,
}

impl Part {
    /// Asks for the driving times between its places.
    pub fn new(agency: &Agency<'_>, sites: Vec<usize>, shifts: Vec<usize>) -> Self {
        let used = shifts.iter().map(|&shift| &agency.shifts[shift]);
        let yards = used.clone().flat_map(|shift| shift.calls.iter().copied().chain([shift.start, shift.end]));
        let yards = sorted(yards);
        let classes = sorted(used.map(|shift| shift.driving));
        let agency_sites = agency.sites.len();
        let places: Vec<usize> = sites.iter().copied().chain(yards.iter().map(|yard| agency_sites + yard)).collect();
        let here = local(&shifts);
        let problem = ProgrammeProblem {
            sites: sites.iter().map(|&site| own_site(&agency.sites[site], &here)).collect(),
            yards: yards.iter().map(|&yard| agency.yards[yard].clone()).collect(),
            shifts: shifts.iter().map(|&shift| own_shift(&agency.shifts[shift], &yards, &classes)).collect(),
            driving: classes.iter().map(|&class| (agency.driving)(class, &places)).collect(),
        };
        Self { problem, sites, yards, shifts, agency_sites }
    }

    /// Rounds of the part in the agency's numbers.
    pub fn in_agency(&self, rounds: Vec<CrewRound>) -> Vec<CrewRound> {
        let place = |place: usize| match self.sites.get(place) {
            Some(&site) => site,
            None => self.agency_sites + self.yards[place - self.sites.len()],
        };
        let shift = |shift: usize| self.shifts[shift];
        let rounds = rounds.into_iter();
        rounds
            .map(|round| renumbered(round, &shift, &|site| self.sites[site], &|yard| self.yards[yard], &place))
            .collect()
    }

    /// Rounds of the agency, of these shifts and over these sites, in the part's numbers.
    pub fn in_part<'r>(&self, rounds: impl Iterator<Item = &'r CrewRound>) -> Vec<CrewRound> {
        let (sites, yards, shifts) = (local(&self.sites), local(&self.yards), local(&self.shifts));
        let place = |place: usize| match place.checked_sub(self.agency_sites) {
            None => sites[&place],
            Some(yard) => self.sites.len() + yards[&yard],
        };
        rounds
            .map(|round| renumbered(round.clone(), &|it| shifts[&it], &|it| sites[&it], &|it| yards[&it], &place))
            .collect()
    }

    /// The part's programme as it stands, of some of the agency's rounds.
    pub fn programme_of<'r>(&self, rounds: impl Iterator<Item = &'r CrewRound>) -> Programme {
        let rounds = self.in_part(rounds);
        let done: BTreeSet<usize> = rounds.iter().flat_map(CrewRound::sites).collect();
        // Only which sites they are counts here.
        let left_out =
            (0..self.sites.len()).filter(|site| !done.contains(site)).map(|site| (site, LeftOutReason::LessUrgent));
        Programme { left_out: left_out.collect(), rounds, ..Programme::default() }
    }
}

fn renumbered(
    mut round: CrewRound,
    shift: &dyn Fn(usize) -> usize,
    site: &dyn Fn(usize) -> usize,
    yard: &dyn Fn(usize) -> usize,
    place: &dyn Fn(usize) -> usize,
) -> CrewRound {
    round.shift = shift(round.shift);
    for stop in &mut round.stops {
        match &mut stop.kind {
            CrewStopKind::Load(it) | CrewStopKind::Tip(it) => *it = yard(*it),
            CrewStopKind::Drive(it) => *it = place(*it),
            CrewStopKind::Work(it) => *it = site(*it),
            CrewStopKind::Wait | CrewStopKind::Rest => {}
        }
    }
    round
}

fn own_site(site: &ProgrammeSite, shifts: &BTreeMap<usize, usize>) -> ProgrammeSite {
    let mut site = site.clone();
    site.shifts = site.shifts.map(|allowed| allowed.iter().filter_map(|shift| shifts.get(shift).copied()).collect());
    site
}

fn own_shift(shift: &CrewShift, yards: &[usize], classes: &[usize]) -> CrewShift {
    let yard = |yard: &usize| yards.partition_point(|it| it < yard);
    CrewShift {
        start: yard(&shift.start),
        end: yard(&shift.end),
        calls: shift.calls.iter().map(yard).collect(),
        driving: classes.partition_point(|&class| class < shift.driving),
        ..shift.clone()
    }
}

fn sorted(numbers: impl Iterator<Item = usize>) -> Vec<usize> {
    let mut numbers: Vec<usize> = numbers.collect();
    numbers.sort_unstable();
    numbers.dedup();
    numbers
}

/// Where each number stands.
fn local(numbers: &[usize]) -> BTreeMap<usize, usize> {
    numbers.iter().enumerate().map(|(index, &number)| (number, index)).collect()
}
