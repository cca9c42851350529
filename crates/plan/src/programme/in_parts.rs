//! More sites than can be searched as a whole: by the depots' areas, each with driving times of its own.

use std::num::NonZero;

use model::place::LonLat;
use model::programme::{DrivingTimes, Programme, ProgrammeProblem};
use roads::{AccessPlace, Network};
use rounds::{Agency, AgencyProgress, AgencySettings, AgencyStage};

use super::problem::{self, Posed};
use crate::Step;
use crate::chance::Chances;
use crate::programme::crew_day;

/// Metres of a degree of latitude; straight ways only say what is near what.
const DEGREE_M: f64 = 111_320.0;

/// Share of the search that the areas take each for itself; the rest goes to their borders.
const AREAS_SHARE: f64 = 0.7;

/// Searches until on no round anything runs out with the confidence asked for. The problem gets the driving times of each area
/// in place of those of the whole.
pub(super) fn programme_that_holds(
    posed: &mut Posed,
    networks: &[Network],
    chances: &mut Chances,
    (seed, iterations): (u64, u32),
    progress: &mut dyn FnMut(Step, f64) -> bool,
) -> Programme {
    let Posed { problem, places, positions } = posed;
    let positions = on_a_plane(positions);
    let driving = |class: usize, chosen: &[usize]| between(&networks[class], &places[class], chosen);
    let sites = u32::try_from(problem.sites.len()).unwrap_or(u32::MAX).max(1);
    let settings = AgencySettings {
        seed,
        steps_per_site: (iterations / sites).max(AgencySettings::default().steps_per_site),
        threads: std::thread::available_parallelism().map_or(1, NonZero::get),
        ..AgencySettings::default()
    };
    let again =
        AgencySettings { steps_per_site: (settings.steps_per_site / crate::SEARCH_AGAIN_SHARE).max(1), ..settings };
    let mut found: Option<Programme> = None;
    loop {
        for (index, site) in problem.sites.iter_mut().enumerate() {
            site.demand = chances.demand(index);
        }
        let (sites, yards, shifts) = (&problem.sites, &problem.yards, &problem.shifts);
        let agency = Agency { sites, yards, shifts, positions: &positions, driving: &driving };
        let mut stopped = false;
        let mut tell = |at: &AgencyProgress| {
            stopped |= !progress(Step::Search, share(at));
            !stopped
        };
        let programme = match &found {
            None => rounds::agency(&agency, &settings, &mut tell),
            Some(found) => rounds::agency_again(&agency, found, &again, &mut tell),
        };
        let supplies: Vec<_> = programme.rounds.iter().map(|round| crew_day::supplies(problem, round)).collect();
        if stopped || !chances.raise(&supplies) {
            let areas = rounds::areas_of(&agency, &settings, &programme);
            for area in areas {
                with_driving(problem, &area, &driving);
            }
            return programme;
        }
        found = Some(programme);
    }
}

/// Gives an area's shifts the driving times between its sites and yards.
fn with_driving(
    problem: &mut ProgrammeProblem,
    area: &rounds::AgencyArea,
    driving: &dyn Fn(usize, &[usize]) -> DrivingTimes,
) {
    let sites = problem.sites.len();
    let of = area.shifts.iter().map(|&shift| &problem.shifts[shift]);
    let yards = of.flat_map(|shift| shift.calls.iter().copied().chain([shift.start, shift.end]));
    let mut places: Vec<usize> = yards.map(|yard| sites + yard).chain(area.sites.iter().copied()).collect();
    places.sort_unstable();
    places.dedup();
    let mut known: Vec<(usize, usize)> = Vec::new();
    for &shift in &area.shifts {
        let class = problem.shifts[shift].driving;
        let at = known.iter().find(|(other, _)| *other == class).map(|&(_, at)| at);
        let at = at.unwrap_or_else(|| {
            problem.driving.push(DrivingTimes { among: Some(places.clone()), ..driving(class, &places) });
            known.push((class, problem.driving.len() - 1));
            problem.driving.len() - 1
        });
        problem.shifts[shift].driving = at;
    }
}

fn between(network: &Network, places: &[AccessPlace], chosen: &[usize]) -> DrivingTimes {
    let chosen: Vec<AccessPlace> = chosen.iter().map(|&place| places[place]).collect();
    problem::driving(network, &chosen)
}

fn share(at: &AgencyProgress) -> f64 {
    let done = at.steps as f64 / at.of.max(1) as f64;
    match at.stage {
        AgencyStage::Areas => AREAS_SHARE * done,
        AgencyStage::Borders => AREAS_SHARE + (1.0 - AREAS_SHARE) * done,
    }
}

/// Metres from the first place east and north.
fn on_a_plane(places: &[LonLat]) -> Vec<[f64; 2]> {
    let Some(origin) = places.first() else { return Vec::new() };
    let shrink = origin.lat.to_radians().cos();
    places
        .iter()
        .map(|place| [DEGREE_M * shrink * (place.lon - origin.lon), DEGREE_M * (place.lat - origin.lat)])
        .collect()
}
