//! Which jobs share a zone: each run of cuts is laid out and priced, and the cheapest way to part a lane is taken.

use std::collections::BTreeMap;

use model::figure::Figure;
use model::place::Travel;
use model::quantity::Time;
use model::road::SectionId;
use model::sharing::Sharing;
use model::work_zone::WorkZone;
use roads::Matrix;
use workzone::LaneCut;

use crate::one_day::OneDay;
use crate::sites::{LaidOut, OnRoad, blocked, lane_cut};

/// Prices are compared in millionths, so that equal ones are equal whatever the order of adding.
const STEPS: f64 = 1e6;

/// Groups of `patch` (indexes of jobs), each by chainage.
pub(crate) fn groups(patch: &[usize], road: &OnRoad, day: &OneDay) -> Vec<Vec<usize>> {
    let cuts: Vec<LaneCut> = patch.iter().map(|&job| lane_cut(&road.jobs[job])).collect();
    let of = |run: &[usize]| -> Vec<usize> { run.iter().map(|&cut| patch[cut]).collect() };
    // The way there hardly differs along a section.
    let mut driving: BTreeMap<(SectionId, Travel), Matrix> = BTreeMap::new();
    let mut fits_the_day = |laid_out: &LaidOut, run: &[usize]| {
        let (section, side, travel) = (cuts[run[0]].section, cuts[run[0]].side, cuts[run[0]].travel);
        let there_and_back = driving
            .entry((section, travel))
            .or_insert_with(|| day.driving([laid_out.position((section, side, travel), day.network)]).1);
        let site = day.site(section, laid_out.service(), laid_out.demand, 1.0);
        rounds::fits_a_day(&day.problem(vec![site], there_and_back), 0)
    };
    let prices = &road.rules.planning.sharing;
    workzone::share(&cuts, &road.rules.traffic, &mut |run| {
        let laid_out = road.zone(&of(run));
        let fits = run.len() == 1
            || blocked(&laid_out.zone, road.district, road.rules).is_none() && fits_the_day(&laid_out, run);
        let price = workzone::zone_price(&laid_out.zone, laid_out.work, laid_out.between.value, prices);
        fits.then(|| (price.value * STEPS).round() as u64)
    })
    .into_iter()
    .map(|run| of(&run))
    .collect()
}

/// What sharing saves a group, against a zone for each job.
pub(crate) fn saved(group: &[usize], zone: &WorkZone, between: Figure<Time>, road: &OnRoad) -> Option<Sharing> {
    if group.len() < 2 {
        return None;
    }
    let alone: Vec<WorkZone> = group.iter().map(|job| road.zone(std::slice::from_ref(job)).zone).collect();
    workzone::sharing(zone, &alone.iter().collect::<Vec<_>>(), between)
}
