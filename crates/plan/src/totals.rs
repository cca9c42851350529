//! What the round takes in all: by road, by trip, in the day.

use std::collections::BTreeMap;

use model::district::District;
use model::plan::PlannedSite;
use model::road::{RoadSection, SectionId};
use model::round::{Demand, RoundProblem};
use model::rules::repair::RepairRules;
use model::total::{DayTotals, RoadTotals};
use repair::{Drawn, Part};
use roads::Network;

use crate::jobs::Job;
use crate::loads;

/// The sums of a round, and what to load for each trip with the chance that it suffices.
pub(crate) struct RoundTotals {
    pub totals: DayTotals,
    pub loads: Vec<(Demand, f64)>,
}

/// Sums the jobs of the round's trips.
#[expect(
    clippy::too_many_arguments,
    reason = "each is one table of the plan; a struct of them would be the plan itself"
)]
pub(crate) fn round_totals(
    trips: &[Vec<usize>],
    problem: &RoundProblem,
    sites: &[PlannedSite],
    jobs: &[Job],
    network: &Network,
    district: &District,
    rules: &RepairRules,
    seed: u64,
) -> RoundTotals {
    let mut parts: Vec<Part> = Vec::new();
    let mut roads: Roads = Roads::default();
    let mut of_trip: Vec<Vec<usize>> = Vec::new();
    for trip in trips {
        let first = parts.len();
        for &job in trip.iter().flat_map(|&site| &sites[site].jobs) {
            let road = roads.index_of(network.section(jobs[job].section), parts.len());
            parts.push(Part { road, input: jobs[job].input(network, district) });
        }
        of_trip.push((first..parts.len()).collect());
    }
    let drawn = Drawn::new(&parts, rules, seed);
    let confidence = district.planning.load_confidence.value;
    let all: Vec<usize> = (0..parts.len()).collect();
    let of_road = |(road, group): &(String, Vec<usize>)| RoadTotals { road: road.clone(), totals: drawn.totals(group) };
    let load = |(trip, group): (&Vec<usize>, &Vec<usize>)| {
        // What every site wants for itself, which the search made room for: never more than that.
        let all_large = trip.iter().fold(Demand::default(), |sum, &site| loads::add(&sum, &problem.sites[site].demand));
        let load = loads::least(&drawn.load(group, confidence), &all_large);
        (load, drawn.chance(group, &load))
    };
    RoundTotals {
        loads: trips.iter().zip(&of_trip).map(load).collect(),
        totals: DayTotals {
            day: (!all.is_empty()).then(|| drawn.totals(&all)),
            trips: of_trip.iter().map(|group| drawn.totals(group)).collect(),
            roads: roads.groups.iter().map(of_road).collect(),
        },
    }
}

/// Roads in the order of the round, each with its parts.
#[derive(Default)]
struct Roads {
    groups: Vec<(String, Vec<usize>)>,
    index: BTreeMap<Key, usize>,
}

/// Sections of one name and number are one road; without either each section is its own.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Key {
    Named(String, String),
    Nameless(SectionId),
}

impl Roads {
    /// Adds a part to its road.
    fn index_of(&mut self, section: &RoadSection, part: usize) -> usize {
        let key = if section.name.is_empty() && section.number.is_empty() {
            Key::Nameless(section.id)
        } else {
            Key::Named(section.number.clone(), section.name.clone())
        };
        let next = self.groups.len();
        let index = *self.index.entry(key).or_insert(next);
        if index == next {
            self.groups.push((section.label(), Vec::new()));
        }
        self.groups[index].1.push(part);
        index
    }
}
