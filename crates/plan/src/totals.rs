//! What the round takes in all: by road, by trip, in the day; and what to load for each trip.

use std::collections::BTreeMap;

use model::district::District;
use model::plan::PlannedSite;
use model::round::{Demand, RoundProblem};
use model::rules::repair::RepairRules;
use model::total::{DayTotals, RoadTotals};
use repair::{Drawn, Part, Supply};
use roads::Network;

use crate::chance::{Roads, TripSupply};
use crate::jobs::Job;
use crate::loads;

/// The sums of a round, and what to load for each trip with the chance that it suffices.
pub(crate) struct RoundTotals {
    pub totals: DayTotals,
    pub loads: Vec<WantedLoad>,
    /// Chance that nothing runs out all day; `None` when nothing is done.
    pub suffices: Option<f64>,
}

/// What to load for a trip.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WantedLoad {
    pub load: Demand,
    /// Chance that nothing of it runs out.
    pub suffices: f64,
    /// The same of base, water, binder, cover stone alone.
    pub by_material: [f64; 4],
}

/// What a round is summed from.
pub(crate) struct OfRound<'a> {
    pub trips: &'a [Vec<usize>],
    /// What is loaded for each trip, in the same order.
    pub supplies: &'a [TripSupply],
    pub problem: &'a RoundProblem,
    pub sites: &'a [PlannedSite],
    pub jobs: &'a [Job],
    pub network: &'a Network,
    pub district: &'a District,
    pub rules: &'a RepairRules,
    pub seed: u64,
}

/// Sums the jobs of the round's trips.
pub(crate) fn round_totals(of: &OfRound) -> RoundTotals {
    let mut parts: Vec<Part> = Vec::new();
    let mut roads = Roads::default();
    let mut by_road: Vec<(String, Vec<usize>)> = Vec::new();
    let mut first_of: BTreeMap<usize, usize> = BTreeMap::new();
    for &site in of.trips.iter().flatten() {
        first_of.insert(site, parts.len());
        for &job in &of.sites[site].jobs {
            let section = of.network.section(of.jobs[job].section);
            let road = roads.index_of(section);
            if road == by_road.len() {
                by_road.push((section.label(), Vec::new()));
            }
            by_road[road].1.push(parts.len());
            parts.push(Part { road, input: of.jobs[job].input(of.network, of.district) });
        }
    }
    let parts_of = |group: &[usize]| -> Vec<usize> {
        group.iter().flat_map(|site| first_of[site]..first_of[site] + of.sites[*site].jobs.len()).collect()
    };
    let drawn = Drawn::new(&parts, of.rules, of.seed);
    let all: Vec<usize> = (0..parts.len()).collect();
    let supplied: Vec<Supplied> = of
        .supplies
        .iter()
        .map(|supply| Supplied { sites: supply, bins: parts_of(&supply.bins), tanks: parts_of(&supply.tanks) })
        .collect();
    let loads = wanted_loads(&drawn, &supplied, of.problem, of.district.planning.load_confidence.value);
    let road_totals =
        |(road, group): &(String, Vec<usize>)| RoadTotals { road: road.clone(), totals: drawn.totals(group) };
    RoundTotals {
        suffices: (!all.is_empty()).then(|| joint_chance(&drawn, &supplied, &loads)),
        loads: supplied.iter().zip(&loads).map(|(supply, load)| wanted(&drawn, supply, *load)).collect(),
        totals: DayTotals {
            day: (!all.is_empty()).then(|| drawn.totals(&all)),
            trips: of.trips.iter().map(|trip| drawn.totals(&parts_of(trip))).collect(),
            roads: by_road.iter().map(road_totals).collect(),
        },
    }
}

/// A trip's supply with its parts.
struct Supplied<'a> {
    sites: &'a TripSupply,
    bins: Vec<usize>,
    tanks: Vec<usize>,
}

/// Confidences tried for single trips, as shares of the way from the day's confidence to certainty.
const STEPS: [f64; 6] = [0.0, 0.2, 0.4, 0.6, 0.8, 0.95];

/// As little for each trip as keeps the whole round at the confidence, and never more than there is room for.
fn wanted_loads(drawn: &Drawn, supplied: &[Supplied], problem: &RoundProblem, confidence: f64) -> Vec<Demand> {
    let at = |level: f64| -> Vec<Demand> {
        let load = |supply: &Supplied| {
            // What every site wants for itself, which the search made room for: never more than that.
            let room = |sites: &[usize]| {
                sites.iter().fold(Demand::default(), |sum, &site| loads::add(&sum, &problem.sites[site].demand))
            };
            let bins = loads::least(&drawn.load(&supply.bins, level), &room(&supply.sites.bins));
            let tanks = loads::least(&drawn.load(&supply.tanks, level), &room(&supply.sites.tanks));
            loads::of_bins_and_tanks(&bins, &tanks)
        };
        supplied.iter().map(load).collect()
    };
    let mut loads = Vec::new();
    for step in STEPS {
        loads = at(confidence + step * (1.0 - confidence));
        if joint_chance(drawn, supplied, &loads) >= confidence {
            break;
        }
    }
    loads
}

fn joint_chance(drawn: &Drawn, supplied: &[Supplied], loads: &[Demand]) -> f64 {
    let supplies: Vec<Supply> = supplied.iter().zip(loads).flat_map(|(supply, load)| supplies(supply, *load)).collect();
    drawn.joint_chance(&supplies)
}

fn supplies<'a>(supply: &'a Supplied, load: Demand) -> [Supply<'a>; 2] {
    [
        Supply { group: &supply.bins, load, materials: [true, false, false, true] },
        Supply { group: &supply.tanks, load, materials: [false, true, true, false] },
    ]
}

fn wanted(drawn: &Drawn, supply: &Supplied, load: Demand) -> WantedLoad {
    let [base, _, _, cover] = drawn.chance_by_material(&supply.bins, &load);
    let [_, water, binder, _] = drawn.chance_by_material(&supply.tanks, &load);
    let suffices = drawn.joint_chance(&supplies(supply, load));
    WantedLoad { load, suffices, by_material: [base, water, binder, cover] }
}
