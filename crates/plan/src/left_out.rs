//! Why a hole is not in the day's round, in words.

use model::plan::{LeftOut, PlannedHole, PlannedJob, PlannedSite};
use model::road::SectionId;
use model::round::{LeftOutReason, RoundProblem, RoundSolution};
use roads::Network;

/// What was planned, site by site.
pub(crate) struct Planned<'a> {
    pub sites: &'a [PlannedSite],
    pub jobs: &'a [PlannedJob],
    pub holes: &'a [PlannedHole],
    /// Why a site can't be done as things are.
    pub blocked: &'a [Option<String>],
    /// The section that the round starts on.
    pub depot: SectionId,
}

/// One entry for each hole of a site that the search left out or did not look at, the most pressing first.
pub(crate) fn from_round(
    round: &RoundSolution,
    problem: &RoundProblem,
    planned: &Planned,
    network: &Network,
    has_daylight: bool,
) -> Vec<LeftOut> {
    entries(&round.left_out, problem.sites.len(), planned, network, has_daylight)
}

/// The same for any search that looked at the first `looked_at` sites and left some of them out.
pub(crate) fn entries(
    left_out: &[(usize, LeftOutReason)],
    looked_at: usize,
    planned: &Planned,
    network: &Network,
    has_daylight: bool,
) -> Vec<LeftOut> {
    let searched = left_out.iter().map(|&(site, reason)| (site, Some(reason)));
    let not_searched = (looked_at..planned.sites.len()).map(|site| (site, None));
    let mut entries = Vec::new();
    for (site, reason) in searched.chain(not_searched) {
        let section = planned.sites[site].position.section;
        let why = || match reason {
            Some(LeftOutReason::Unreachable) => unreachable(section, planned.depot, network),
            reason => words(reason, looked_at, has_daylight),
        };
        let words = planned.blocked[site].clone().unwrap_or_else(why);
        let is_patch = planned.sites[site].jobs.iter().all(|&job| planned.jobs[job].patch.is_patch());
        let reason = if is_patch { reason } else { Some(LeftOutReason::NotAPatch) };
        let road = network.section(section).label();
        for &hole in planned.sites[site].jobs.iter().flat_map(|&job| &planned.jobs[job].holes) {
            let hole = &planned.holes[hole];
            let (words, road) = (words.clone(), road.clone());
            let (id, place) = (hole.hole.id.clone(), hole.hole.position);
            let entry = LeftOut { hole: id, reason, words, road, place, distance: None };
            entries.push((hole.judgement.risk.value, entry));
        }
    }
    entries.sort_by(|(one, _), (other, _)| other.total_cmp(one));
    entries.into_iter().map(|(_, entry)| entry).collect()
}

fn unreachable(section: SectionId, depot: SectionId, network: &Network) -> String {
    if let Some(why) = network.barred(section) {
        return why;
    }
    if network.component_of(section) != network.component_of(depot) {
        return "no road on the map joins its road to the depot's: a gap in the map, or the file ends between".into();
    }
    "the roads on the map do not lead there and back (one-way roads, turns that are forbidden, limits for trucks)"
        .into()
}

fn words(reason: Option<LeftOutReason>, looked_at: usize, has_daylight: bool) -> String {
    match reason {
        None => format!("not among the {looked_at} most pressing sites looked at"),
        Some(LeftOutReason::ExceedsTruck(what)) => {
            format!("one repair alone needs more than the truck holds: {what}")
        }
        Some(LeftOutReason::NoCrew) => "no crew has the plant for it or may do it".into(),
        Some(LeftOutReason::NoWindow) if !has_daylight => "no daylight on this day".into(),
        Some(LeftOutReason::NoWindow) => "no open hours long enough for the work there".into(),
        Some(LeftOutReason::ExceedsShift) => "the work and the way there and back are longer than the shift".into(),
        // Its own words need the roads.
        Some(LeftOutReason::Unreachable) => "the roads on the map do not lead there and back".into(),
        Some(LeftOutReason::LessUrgent) => {
            "the day is full: the sites chosen take more risk off the road for their time".into()
        }
        Some(LeftOutReason::AsAsked) => "left out as asked".into(),
        // Its own words stand with the decision; these are for a decision that gave none.
        Some(LeftOutReason::NotAPatch) => "not a patch: ask the engineer".into(),
        Some(LeftOutReason::NotWorthTheTime) => "its risk is worth less than the crew's time for it".into(),
    }
}
