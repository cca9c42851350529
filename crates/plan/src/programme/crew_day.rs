//! One crew's round of a programme as a plan of its own, of what it mends that day.

use model::hole::Hole;
use model::patch::PatchDecision;
use model::plan::{CrewDay, NearestSupply, PlannedHole};
use model::programme::{CrewRound, CrewShift, CrewStop, CrewStopKind, ProgrammeProblem};
use model::round::{RoundProblem, RoundSolution, SecondOfDay, Site, Stop, StopKind};
use roads::AccessPlace;

use super::problem::{Source, holes_of, midnight, worth};
use crate::chance::TripSupply;
use crate::fates::Joined;
use crate::finish::{self, FoundRound};
use crate::jobs::{Job, Refusals};
use crate::learnt;
use crate::looks::Looks;
use crate::one_day::OneDay;
use crate::sites::WeighedSite;

/// What the plans of single days are written from.
pub(crate) struct Writer<'a> {
    pub source: &'a Source<'a>,
    pub problem: &'a ProgrammeProblem,
    /// By network.
    pub places: &'a [Vec<AccessPlace>],
    pub list: &'a [Hole],
    pub joined: &'a Joined,
    pub patches: &'a [PatchDecision],
    pub road_attribution: Option<&'a String>,
    pub seed: u64,
}

/// The trips of a round, and what is loaded for each; sites as in the programme. A load begins a new trip when the trip
/// before it has a site.
struct Trips {
    sites: Vec<Vec<usize>>,
    supplies: Vec<TripSupply>,
    /// Trip of each load, in the order of the stops.
    loads: Vec<usize>,
}

impl Trips {
    fn of(problem: &ProgrammeProblem, round: &CrewRound) -> Self {
        let mut all = Trips { sites: Vec::new(), supplies: Vec::new(), loads: Vec::new() };
        // The trips whose loads fill the bins and the tanks that the next site is mended from.
        let (mut bins, mut tanks) = (0, 0);
        for stop in &round.stops {
            match stop.kind {
                CrewStopKind::Load(yard) => {
                    if all.sites.last().is_none_or(|trip| !trip.is_empty()) {
                        all.begin();
                    }
                    let trip = all.sites.len() - 1;
                    all.loads.push(trip);
                    let gives = problem.yards[yard].gives;
                    bins = if gives.bins { trip } else { bins };
                    tanks = if gives.tanks { trip } else { tanks };
                }
                CrewStopKind::Work(site) => {
                    if all.sites.is_empty() {
                        all.begin();
                    }
                    all.sites.last_mut().into_iter().for_each(|trip| trip.push(site));
                    all.supplies[bins].bins.push(site);
                    all.supplies[tanks].tanks.push(site);
                }
                _ => {}
            }
        }
        all
    }

    fn begin(&mut self) {
        self.sites.push(Vec::new());
        self.supplies.push(TripSupply::default());
    }
}

/// What is loaded for each trip of a round; sites as in the programme.
pub(crate) fn supplies(problem: &ProgrammeProblem, round: &CrewRound) -> Vec<TripSupply> {
    Trips::of(problem, round).supplies
}

impl Writer<'_> {
    pub fn write(&self, round: &CrewRound, looks: &mut Looks) -> CrewDay {
        let shift = &self.problem.shifts[round.shift];
        let crew = &self.source.crews[shift.crew];
        let network = &self.source.networks[crew.network];
        let kind = &self.source.kinds[crew.kind];
        let number = shift.day as usize;
        let day = &self.source.days[number];
        let sites: Vec<usize> = round.sites().collect();
        let local = Local { sites: &sites, yards: yards_of(round, shift), depot: shift.end, problem: self.problem };
        let Trips { sites: trips, supplies, loads } = Trips::of(self.problem, round);
        let nearest = trips.iter().map(|trip| self.nearest(trip, shift.driving)).collect();
        let part = Part::of(&sites, &kind.sites, &kind.jobs, &day.holes, self.patches);
        let mut district = crew.district.clone();
        // A crew that has had its break at noon has none in the rest of the day.
        district.shift.rest = district.shift.rest.filter(|_| shift.rest.is_some());
        let one_day = OneDay { network, district: &district, daylight: day.daylight, depot: crew.depot };
        let yard_place = |yard: usize| self.problem.sites.len() + yard;
        let places: Vec<usize> = std::iter::once(yard_place(shift.end))
            .chain(sites.iter().copied())
            .chain(local.yards.iter().map(|&yard| yard_place(yard)))
            .collect();
        let driving = &self.problem.driving[shift.driving];
        let problem = RoundProblem {
            sites: sites.iter().map(|&site| self.site(site, number, kind.sites[site].service_s())).collect(),
            start: local.place(yard_place(shift.start)),
            yards: local.yards.iter().map(|&yard| self.problem.yards[yard].name.clone()).collect(),
            travel_s: places
                .iter()
                .map(|&from| places.iter().map(|&to| driving.seconds(from, to).unwrap_or(u32::MAX)).collect())
                .collect(),
            travel_m: places.iter().map(|&from| places.iter().map(|&to| driving.metres(from, to)).collect()).collect(),
            ..one_day.problem(Vec::new(), &roads::Matrix::default())
        };
        let clock = |second: i64| SecondOfDay(u32::try_from(second - midnight(number)).unwrap_or(0));
        let end = round.stops.last().map_or(shift.from, |stop| stop.to);
        let solution = RoundSolution {
            trips: trips.iter().map(|trip| trip.iter().map(|&site| local.site(site)).collect()).collect(),
            timetable: local.timetable(&round.stops, &loads, &clock),
            left_out: Vec::new(),
            driving_s: u32::try_from(round.driving_s).unwrap_or(u32::MAX),
            driving: round.driving,
            objective: problem.points_per_hour * (end - shift.from) as f64 / 3600.0,
        };
        let supplies = supplies.into_iter().map(|supply| TripSupply {
            bins: supply.bins.iter().map(|&site| local.site(site)).collect(),
            tanks: supply.tanks.iter().map(|&site| local.site(site)).collect(),
        });
        let all_places = &self.places[crew.network];
        let reported: std::collections::BTreeSet<&model::hole::HoleId> = part
            .holes
            .iter()
            .flat_map(|hole| hole.reports.iter().map(|report| &report.id).chain([&hole.hole.id]))
            .collect();
        let list: Vec<Hole> = self.list.iter().filter(|hole| reported.contains(&hole.id)).cloned().collect();
        let places: Vec<AccessPlace> = places.iter().map(|&place| all_places[place]).collect();
        let learnt = learnt::counting(&self.source.rules.learnt, &part.jobs, network, &[&crew.district]);
        let found = FoundRound {
            district,
            date: day.date,
            seed: self.seed,
            daylight: day.daylight,
            network,
            rules: self.source.rules,
            list: &list,
            joined: self.joined,
            holes: part.holes,
            jobs: part.jobs,
            patches: part.patches,
            sites: part.sites,
            places,
            problem,
            round: solution,
            supplies: supplies.collect(),
            nearest,
            refusals: Refusals::default(),
            problems: Vec::new(),
            end: clock(shift.to),
            learnt,
            road_attribution: self.road_attribution.cloned(),
            of_work_plan: true,
        };
        CrewDay { crew: shift.crew, plan: finish::finish(found, looks) }
    }

    /// A site as that day's search would see it.
    fn site(&self, index: usize, day: usize, service_s: u32) -> Site {
        let site = &self.problem.sites[index];
        let midnight = midnight(day);
        let of_day = |&(from, to): &(i64, i64)| {
            let clock = |second: i64| u32::try_from(second - midnight).ok().map(SecondOfDay);
            Some((clock(from)?, clock(to).filter(|to| to.0 <= 86_400)?))
        };
        let holes = holes_of(&self.source.kinds[0].sites[index], &self.source.kinds[0].jobs);
        Site {
            service_s,
            demand: site.demand,
            windows: site.windows.iter().filter_map(of_day).collect(),
            worth: worth(&holes, &self.source.days[day], self.source.rules),
        }
    }

    /// Where there is more of each, nearest to the site of the trip that is furthest from it.
    fn nearest(&self, trip: &[usize], driving: usize) -> Vec<NearestSupply> {
        let driving = &self.problem.driving[driving];
        let far = |yard: usize| {
            let place = self.problem.sites.len() + yard;
            trip.iter().map(|&site| driving.seconds(site, place)).try_fold(0, |most, s| Some(most.max(s?)))
        };
        let of = |what: &'static str, has: &dyn Fn(usize) -> bool| {
            let yards = (0..self.problem.yards.len()).filter(|&yard| has(yard));
            let (travel_s, yard) = yards.filter_map(|yard| Some((far(yard)?, yard))).min()?;
            Some(NearestSupply { what, place: self.problem.yards[yard].name.clone(), travel_s })
        };
        let yards = &self.problem.yards;
        [
            of("base and cover stone", &|yard| yards[yard].gives.bins),
            of("binder and water", &|yard| yards[yard].gives.tanks),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}

/// Yards of the round besides the depot that it ends at, each once.
fn yards_of(round: &CrewRound, shift: &CrewShift) -> Vec<usize> {
    let called = round.stops.iter().filter_map(|stop| match stop.kind {
        CrewStopKind::Load(yard) | CrewStopKind::Tip(yard) => Some(yard),
        _ => None,
    });
    let mut yards = Vec::new();
    for yard in std::iter::once(shift.start).chain(called) {
        if yard != shift.end && !yards.contains(&yard) {
            yards.push(yard);
        }
    }
    yards
}

/// The numbers of one day: its sites in the order of work, then its yards.
struct Local<'a> {
    sites: &'a [usize],
    yards: Vec<usize>,
    depot: usize,
    problem: &'a ProgrammeProblem,
}

impl Local<'_> {
    fn site(&self, site: usize) -> usize {
        self.sites.iter().position(|&other| other == site).unwrap_or(0)
    }

    fn place(&self, place: usize) -> usize {
        match place.checked_sub(self.problem.sites.len()) {
            None => self.site(place) + 1,
            Some(yard) if yard == self.depot => 0,
            Some(yard) => {
                self.yards.iter().position(|&other| other == yard).map_or(0, |index| self.sites.len() + 1 + index)
            }
        }
    }

    fn timetable(&self, stops: &[CrewStop], loads: &[usize], clock: &dyn Fn(i64) -> SecondOfDay) -> Vec<Stop> {
        let (mut loads, mut tips) = (loads.iter().copied(), 0..);
        let stop = |stop: &CrewStop| {
            let kind = match stop.kind {
                CrewStopKind::Load(_) => StopKind::Load(loads.next().unwrap_or(0)),
                CrewStopKind::Tip(_) => StopKind::Tip(tips.next().unwrap_or(0)),
                CrewStopKind::Drive(place) => StopKind::Drive(self.place(place)),
                CrewStopKind::Wait => StopKind::Wait,
                CrewStopKind::Work(site) => StopKind::Work(self.site(site)),
                CrewStopKind::Rest => StopKind::Rest,
            };
            Stop { kind, from: clock(stop.from), to: clock(stop.to) }
        };
        stops.iter().map(stop).collect()
    }
}

/// The sites, jobs and holes of one day, renumbered.
struct Part {
    sites: Vec<WeighedSite>,
    jobs: Vec<Job>,
    patches: Vec<PatchDecision>,
    holes: Vec<PlannedHole>,
}

impl Part {
    fn of(
        chosen: &[usize],
        sites: &[WeighedSite],
        jobs: &[Job],
        holes: &[PlannedHole],
        patches: &[PatchDecision],
    ) -> Self {
        let mut part = Part { sites: Vec::new(), jobs: Vec::new(), patches: Vec::new(), holes: Vec::new() };
        for &site in chosen {
            let mut site = sites[site].clone();
            for job in &mut site.planned.jobs {
                let mut made = jobs[*job].clone();
                part.patches.push(patches[*job].clone());
                *job = part.jobs.len();
                for hole in &mut made.holes {
                    part.holes.push(PlannedHole { job: *job, ..holes[*hole].clone() });
                    *hole = part.holes.len() - 1;
                }
                part.jobs.push(made);
            }
            part.sites.push(site);
        }
        part
    }
}
