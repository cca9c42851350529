//! The rest of a day: what is done is out, what is begun comes first, each truck starts where it stands with what is on
//! it, and the morning's order stays unless changing it saves enough.

use std::collections::{BTreeMap, BTreeSet};

use model::hole::{Hole, HoleId};
use model::plan::{Change, Changed, SiteOfWork};
use model::programme::{Aboard, CrewRound, Programme, ProgrammeProblem, Supplies, Yard};
use model::quantity::{InTime, kilometres};
use model::road::RoadSection;
use model::round::Demand;
use model::so_far::{CrewSoFar, SoFar};
use roads::{AccessPlace, Network};
use rounds::SearchSettings;

use super::{CrewOfPlan, KindOfCrew};
use crate::Located;
use crate::jobs::Job;

/// The furthest a truck may stand from a road that is on the map.
const TRUCK_SNAP_LIMIT_KM: f64 = 2.0;

/// What is left out of a programme that must be finished counts so many times over: an open hole can't stay.
const BEGUN_WORTH: f64 = 1000.0;

/// Takes out what is mended, with every report of it. Gives how many reports went.
pub(crate) fn take_out_done(located: &mut Vec<Located>, list: &mut Vec<Hole>, so_far: &SoFar) -> usize {
    let done: BTreeSet<&HoleId> = so_far.crews.iter().flat_map(|crew| &crew.done).collect();
    let mut gone: BTreeSet<HoleId> = done.iter().map(|&id| id.clone()).collect();
    located.retain(|found| {
        let reports = || found.reports.iter().map(|report| &report.id).chain([&found.hole.id]);
        let is_done = reports().any(|id| done.contains(id));
        if is_done {
            gone.extend(reports().cloned());
        }
        !is_done
    });
    let before = list.len();
    list.retain(|hole| !gone.contains(&hole.id));
    before - list.len()
}

/// Changes the problem of the day to that of its rest.
pub(crate) struct RestOfDay<'a> {
    pub so_far: &'a SoFar,
    pub crews: &'a [CrewOfPlan],
    pub kind: &'a KindOfCrew,
    pub holes_of_site: &'a [Vec<HoleId>],
}

impl RestOfDay<'_> {
    /// Where the trucks stand, on each network: the places behind all others.
    pub fn trucks(&self) -> Vec<&CrewSoFar> {
        self.so_far.crews.iter().filter(|crew| self.index_of(crew).is_some()).collect()
    }

    fn index_of(&self, crew: &CrewSoFar) -> Option<usize> {
        self.crews.iter().position(|known| known.district.crew.name == crew.crew)
    }

    pub fn snapped(&self, network: &Network, crew: &CrewSoFar) -> Option<AccessPlace> {
        let drivable = |section: &RoadSection| network.barred(section.id).is_none();
        let limit = kilometres(TRUCK_SNAP_LIMIT_KM);
        let side = self.crews[0].district.driving_side;
        network.snap(crew.position, None, limit, side, &drivable).ok().map(AccessPlace::depot)
    }

    /// The trucks' yards stand behind all others, in the order of [`Self::trucks`].
    pub fn apply(&self, problem: &mut ProgrammeProblem, first_yard: usize) {
        let now = i64::from(self.so_far.time.0);
        for shift in problem.shifts.iter_mut().filter(|shift| shift.day == 0) {
            shift.from = shift.from.max(now);
        }
        for (number, crew) in self.trucks().into_iter().enumerate() {
            problem.yards.push(Yard {
                name: format!("where {} stands", crew.crew),
                gives: Supplies::default(),
                ..Yard::default()
            });
            let Some(index) = self.index_of(crew) else { continue };
            for shift in problem.shifts.iter_mut().filter(|shift| shift.crew == index && shift.day == 0) {
                shift.start = first_yard + number;
                shift.aboard = Some(aboard(crew, &self.crews[index]));
                if crew.rested {
                    shift.rest = None;
                }
            }
        }
        self.begun(problem);
    }

    /// What is begun is finished by its crew.
    fn begun(&self, problem: &mut ProgrammeProblem) {
        let site_of = self.site_of();
        for crew in &self.so_far.crews {
            let Some(index) = self.index_of(crew) else { continue };
            let shifts: Vec<usize> = (0..problem.shifts.len())
                .filter(|&s| problem.shifts[s].crew == index && problem.shifts[s].day == 0)
                .collect();
            for half in &crew.half_done {
                let Some(&site) = site_of.get(&half.hole) else { continue };
                let others: f64 = self.other_work(site, &half.hole);
                let left = (half.left.in_seconds() + others).ceil().max(0.0) as u32;
                let it = &mut problem.sites[site];
                let whole = it.service_s.iter().flatten().max().copied().unwrap_or(1).max(1);
                it.demand = scaled(&it.demand, f64::from(left.min(whole)) / f64::from(whole));
                it.service_s.iter_mut().flatten().for_each(|service| *service = left);
                it.left = (it.left + 1.0) * BEGUN_WORTH;
                it.shifts = Some(shifts.clone());
                // The crew stands there already, whatever the hour.
                let now = i64::from(self.so_far.time.0);
                it.windows = vec![(now, now + i64::from(left) + FINISH_WITHIN_S)];
            }
        }
    }

    /// Median time at the site's other cuts, seconds.
    fn other_work(&self, site: usize, half: &HoleId) -> f64 {
        let jobs = self.kind.sites[site].planned.jobs.iter().map(|&job| &self.kind.jobs[job]);
        let other = jobs.filter(|job| !job.cut.holes.contains(half));
        let median = |job: &Job| {
            job.repair.duration.spread.as_ref().map_or(job.repair.duration.value, |spread| spread.p50).in_seconds()
        };
        other.map(median).sum()
    }

    fn site_of(&self) -> BTreeMap<HoleId, usize> {
        let of = |(site, holes): (usize, &Vec<HoleId>)| {
            holes.iter().map(move |hole| (hole.clone(), site)).collect::<Vec<_>>()
        };
        self.holes_of_site.iter().enumerate().flat_map(of).collect()
    }

    /// The morning's order, by shift: what is begun, then what was next.
    fn orders(&self, problem: &ProgrammeProblem) -> Vec<(usize, Vec<usize>)> {
        let site_of = self.site_of();
        let order = |crew: &CrewSoFar| {
            let index = self.index_of(crew)?;
            let shift = problem.shifts.iter().position(|shift| shift.crew == index && shift.day == 0)?;
            let mut sites: Vec<usize> = Vec::new();
            for hole in crew.half_done.iter().map(|half| &half.hole).chain(&crew.next) {
                if let Some(&site) = site_of.get(hole)
                    && !sites.contains(&site)
                {
                    sites.push(site);
                }
            }
            Some((shift, sites))
        };
        self.so_far.crews.iter().filter_map(order).collect()
    }

    /// The programme of the rest of the day: the morning's order as far as it can be kept, unless another saves at least
    /// `saves_min` minutes of a crew.
    pub fn decide(
        &self,
        problem: &ProgrammeProblem,
        settings: &SearchSettings,
        saves_min: f64,
        progress: &mut dyn FnMut(u32, f64) -> bool,
    ) -> Programme {
        let kept = rounds::keep(problem, &self.orders(problem));
        let found = rounds::programme(problem, Some(&kept), settings, progress);
        let hour = problem.shifts.iter().map(|shift| shift.price_per_hour).fold(0.0, f64::max);
        if kept.cost.total() - found.cost.total() > hour * saves_min / 60.0 { found } else { kept }
    }

    /// What differs from the morning's order, in words.
    pub fn changes(&self, problem: &ProgrammeProblem, programme: &Programme, sites: &[SiteOfWork]) -> Vec<Change> {
        let mut before: BTreeMap<usize, usize> = BTreeMap::new();
        for (shift, order) in self.orders(problem) {
            before.extend(order.into_iter().map(|site| (site, shift)));
        }
        let shift_of = |round: &CrewRound| round.sites().map(|site| (site, round.shift)).collect::<Vec<_>>();
        let after: BTreeMap<usize, usize> = programme.rounds.iter().flat_map(shift_of).collect();
        let crew = |shift: usize| self.crews[problem.shifts[shift].crew].district.crew.name.clone();
        let mut changes = Vec::new();
        for (&site, &shift) in &after {
            let changed = match before.get(&site) {
                Some(&other) if other == shift => continue,
                Some(&other) => Changed::Moved { from: crew(other), to: crew(shift) },
                None => Changed::Added { to: crew(shift) },
            };
            let worth = sites[site].worth.first().copied().unwrap_or(0.0);
            let words = format!("takes {worth:.1} points of risk off the road each day");
            changes.push(Change { holes: sites[site].holes.clone(), road: sites[site].road.clone(), changed, words });
        }
        for (&site, &shift) in &before {
            if after.contains_key(&site) {
                continue;
            }
            let alone = rounds::alternatives(problem, programme, site);
            let words = match alone.iter().find_map(|way| way.shift.map(|shift| (shift, way.costs_more))) {
                Some((shift, more)) => {
                    format!("{} could still do it for {more:.0} more than leaving it costs", crew(shift))
                }
                None => "no round has the time or the load for it any more".into(),
            };
            let (holes, road) = (sites[site].holes.clone(), sites[site].road.clone());
            changes.push(Change { holes, road, changed: Changed::Dropped { from: crew(shift) }, words });
        }
        changes
    }
}

/// What is begun may be finished this much after its time; the shift's end still holds.
const FINISH_WITHIN_S: i64 = 4 * 3600;

/// What is on the truck, with the masses of the district's materials.
fn aboard(crew: &CrewSoFar, of: &CrewOfPlan) -> Aboard {
    let (on, district) = (&crew.aboard, &of.district);
    let supplies = Demand {
        base_volume: on.base,
        base_mass: on.base * district.base.loose_density,
        cover_volume: on.cover_stone,
        cover_mass: on.cover_stone * district.cover_stone.loose_density,
        binder_volume: on.binder,
        binder_mass: on.binder * district.binder.density,
        water_volume: on.water,
        ..Demand::default()
    };
    // Spoil is reckoned at the density of the base.
    Aboard { supplies, spoil_volume: on.spoil, spoil_mass: on.spoil * district.base.loose_density }
}

fn scaled(demand: &Demand, share: f64) -> Demand {
    Demand {
        base_volume: demand.base_volume * share,
        base_mass: demand.base_mass * share,
        cover_volume: demand.cover_volume * share,
        cover_mass: demand.cover_mass * share,
        binder_volume: demand.binder_volume * share,
        binder_mass: demand.binder_mass * share,
        water_volume: demand.water_volume * share,
        spoil_volume: demand.spoil_volume * share,
        spoil_mass: demand.spoil_mass * share,
    }
}
