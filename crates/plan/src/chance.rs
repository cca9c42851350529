//! Loads that hold when holes turn out bigger: the search makes room for each site at some quantile of what it may take,
//! and the quantiles rise until on every round nothing runs out with the confidence asked for.
//!
//! One quantile for all sites would be too much for a trip of many (not all turn out large on one day) and too little for
//! a day of many trips. What a round needs is not known before it is found: so it is found, simulated with the growths
//! that the holes have in common, and searched again with more room where it fell short.

use std::collections::BTreeMap;

use model::district::District;
use model::road::{RoadSection, SectionId};
use model::round::Demand;
use model::rules::repair::RepairRules;
use repair::{Drawn, Part, RepairInput, Supply};
use roads::Network;

use crate::jobs::Job;
use crate::loads;

/// Quantiles at which room is kept, rising.
const LEVELS: [f64; 8] = [0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 0.98, 0.995];

/// What is loaded for a trip: the sites that its base and cover stone are for, and those that its binder and water are for.
/// They differ where a truck calls at a yard that gives only the one.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct TripSupply {
    pub bins: Vec<usize>,
    pub tanks: Vec<usize>,
}

impl TripSupply {
    /// All from one place.
    pub fn all(trip: &[usize]) -> Self {
        TripSupply { bins: trip.to_vec(), tanks: trip.to_vec() }
    }
}

/// What each site may take, at the level that room is now kept at.
pub(crate) struct Chances<'a> {
    jobs: &'a [Job],
    network: &'a Network,
    /// The district as each kind of crew works in it.
    kinds: &'a [&'a District],
    rules: &'a RepairRules,
    seed: u64,
    /// Jobs of each site.
    jobs_of: Vec<Vec<usize>>,
    demand: Vec<Demand>,
    level: Vec<usize>,
}

impl<'a> Chances<'a> {
    pub fn new(
        jobs_of: Vec<Vec<usize>>,
        jobs: &'a [Job],
        network: &'a Network,
        kinds: &'a [&'a District],
        rules: &'a RepairRules,
        seed: u64,
    ) -> Self {
        let level = vec![0; jobs_of.len()];
        let mut chances =
            Chances { jobs, network, kinds, rules, seed, jobs_of, demand: vec![Demand::default(); level.len()], level };
        for site in 0..chances.demand.len() {
            chances.demand[site] = chances.at_level(site);
        }
        chances
    }

    fn at_level(&self, site: usize) -> Demand {
        let level = LEVELS[self.level[site]];
        let of_job = |&job: &usize| repair::at_quantile(&self.input(job), self.rules, level);
        self.jobs_of[site].iter().map(of_job).fold(Demand::default(), |sum, demand| loads::add(&sum, &demand))
    }

    /// What room is now kept for at a site.
    pub fn demand(&self, site: usize) -> Demand {
        self.demand[site]
    }

    /// Keeps more room for the sites of every round that falls short; whether any was raised.
    pub fn raise(&mut self, rounds: &[Vec<TripSupply>]) -> bool {
        let confidence = self.kinds[0].planning.load_confidence.value;
        let mut raised = false;
        for round in rounds {
            if round.is_empty() || self.chance(round) >= confidence {
                continue;
            }
            for &site in round.iter().flat_map(|supply| &supply.bins) {
                let most = LEVELS.len() - 1;
                if self.level[site] < most {
                    self.level[site] += 1;
                    self.demand[site] = self.at_level(site);
                    raised = true;
                }
            }
        }
        raised
    }

    fn input(&self, job: usize) -> RepairInput<'_> {
        let job = &self.jobs[job];
        job.input(self.network, self.kinds[job.kind])
    }

    /// The chance that nothing runs out on a round, with all that there is room for on the truck.
    pub fn chance(&self, round: &[TripSupply]) -> f64 {
        let mut roads = Roads::default();
        let mut parts: Vec<Part> = Vec::new();
        let mut first_of: BTreeMap<usize, usize> = BTreeMap::new();
        for &site in round.iter().flat_map(|supply| &supply.bins) {
            first_of.insert(site, parts.len());
            for &job in &self.jobs_of[site] {
                let road = roads.index_of(self.network.section(self.jobs[job].section));
                parts.push(Part { road, input: self.input(job) });
            }
        }
        let drawn = Drawn::new(&parts, self.rules, self.seed);
        let load =
            |sites: &[usize]| sites.iter().fold(Demand::default(), |sum, &site| loads::add(&sum, &self.demand(site)));
        let parts_of = |sites: &[usize]| -> Vec<usize> {
            let known = sites.iter().filter_map(|site| Some((*first_of.get(site)?, self.jobs_of[*site].len())));
            known.flat_map(|(first, count)| first..first + count).collect()
        };
        let groups: Vec<[Vec<usize>; 2]> =
            round.iter().map(|supply| [parts_of(&supply.bins), parts_of(&supply.tanks)]).collect();
        let supplies: Vec<Supply> = round
            .iter()
            .zip(&groups)
            .flat_map(|(supply, [bins, tanks])| {
                [
                    Supply { group: bins, load: load(&supply.bins), materials: [true, false, false, true] },
                    Supply { group: tanks, load: load(&supply.tanks), materials: [false, true, true, false] },
                ]
            })
            .collect();
        drawn.joint_chance(&supplies)
    }
}

/// Numbers of roads: sections of one name and number are one road; without either each section is its own.
#[derive(Default)]
pub(crate) struct Roads {
    index: BTreeMap<Key, usize>,
}

#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Key {
    Named(String, String),
    Nameless(SectionId),
}

impl Roads {
    pub fn index_of(&mut self, section: &RoadSection) -> usize {
        let key = if section.name.is_empty() && section.number.is_empty() {
            Key::Nameless(section.id)
        } else {
            Key::Named(section.number.clone(), section.name.clone())
        };
        let next = self.index.len();
        *self.index.entry(key).or_insert(next)
    }
}
