//! Which jobs share a zone: each run of cuts is laid out and priced, and the cheapest way to part a lane is taken.

use model::district::District;
use model::figure::Figure;
use model::quantity::{Time, seconds};
use model::sharing::Sharing;
use model::work_zone::WorkZone;
use workzone::LaneCut;

use crate::hours;
use crate::loads;
use crate::sites::{OnRoad, blocked, lane_cut};

/// Prices are compared in millionths, so that equal ones are equal whatever the order of adding.
const STEPS: f64 = 1e6;

/// Groups of `patch` (indexes of jobs), each by chainage.
pub(crate) fn groups(patch: &[usize], road: &OnRoad) -> Vec<Vec<usize>> {
    let cuts: Vec<LaneCut> = patch.iter().map(|&job| lane_cut(&road.jobs[job])).collect();
    let of = |run: &[usize]| -> Vec<usize> { run.iter().map(|&cut| patch[cut]).collect() };
    let longest = longest_stay(road.district);
    let capacity = loads::capacity(&road.district.truck);
    let prices = &road.rules.planning.sharing;
    workzone::share(&cuts, &road.rules.traffic, &mut |run| {
        let laid_out = road.zone(&of(run));
        let fits = run.len() == 1
            || blocked(&laid_out.zone, road.district, road.rules).is_none()
                && laid_out.service() <= longest
                && rounds::short_of(&laid_out.demand, &capacity).is_none();
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

/// The shift without loading, tipping and the break: nobody can stay longer at one place.
fn longest_stay(district: &District) -> Time {
    let (start, end) = (hours::second_of_day(district.shift.start).0, hours::second_of_day(district.shift.end).0);
    let rest = district.shift.rest.as_ref().map_or(seconds(0.0), |rest| rest.length);
    seconds(f64::from(end.saturating_sub(start))) - district.planning.loading - district.planning.tipping - rest
}
