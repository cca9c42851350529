//! Why a hole is not in the day's round, in words.

use model::plan::{LeftOut, PlannedHole, PlannedJob, PlannedSite};
use model::quantity::{InTime, seconds};
use model::round::{LeftOutReason, RoundProblem, RoundSolution};
use roads::Network;

/// One entry for each hole of a site that the search left out or did not look at, the most pressing first.
pub(crate) fn from_round(
    round: &RoundSolution,
    problem: &RoundProblem,
    sites: &[PlannedSite],
    jobs: &[PlannedJob],
    holes: &[PlannedHole],
    network: &Network,
    has_daylight: bool,
) -> Vec<LeftOut> {
    let searched = round.left_out.iter().map(|&(site, reason)| (site, Some(reason)));
    let not_searched = (problem.sites.len()..sites.len()).map(|site| (site, None));
    let mut entries = Vec::new();
    for (site, reason) in searched.chain(not_searched) {
        let words = words(reason, problem.sites.get(site).map(|s| s.service_s), problem, has_daylight);
        let road = network.section(sites[site].position.section).label();
        for &job in &sites[site].jobs {
            for &hole in &jobs[job].holes {
                let (hole, risk) = (holes[hole].hole.id.clone(), holes[hole].judgement.risk.value);
                let entry = LeftOut { hole, reason, words: words.clone(), road: road.clone(), distance: None };
                entries.push((risk, entry));
            }
        }
    }
    entries.sort_by(|(one, _), (other, _)| other.total_cmp(one));
    entries.into_iter().map(|(_, entry)| entry).collect()
}

fn words(reason: Option<LeftOutReason>, service_s: Option<u32>, problem: &RoundProblem, has_daylight: bool) -> String {
    let takes =
        service_s.map_or_else(String::new, |s| format!("{:.0} min of work there", seconds(f64::from(s)).in_minutes()));
    match reason {
        None => format!("less urgent than the {} sites looked at for this day", problem.sites.len()),
        Some(LeftOutReason::ExceedsTruck(what)) => format!("one repair alone needs more than the truck holds: {what}"),
        Some(LeftOutReason::NoWindow) if !has_daylight => "no daylight on this day".into(),
        Some(LeftOutReason::NoWindow) => format!("no open hours long enough: {takes}"),
        Some(LeftOutReason::ExceedsShift) => format!("longer than the shift: {takes} and the way there and back"),
        Some(LeftOutReason::Unreachable) => "the roads on the map do not lead there and back".into(),
        Some(LeftOutReason::LessUrgent) => format!("fits alone, but others are worth more for the time: {takes}"),
        Some(LeftOutReason::NotWorthTheTime) => format!("its risk is worth less than the time it takes: {takes}"),
    }
}
