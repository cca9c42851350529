//! From jobs to sites: jobs that share a zone, the zone's layout, and what the round needs to know of it.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;
use model::district::District;
use model::figure::{Figure, Spread};
use model::patch::PatchDecision;
use model::place::{LonLat, RoadPosition, Side, Travel};
use model::plan::{PlannedHole, PlannedSite};
use model::quantity::{InLength, InTime, Time, Velocity, metres};
use model::road::SectionId;
use model::road_around::RoadAround;
use model::round::{Demand, Site};
use model::rules::traffic::TrafficRules;
use model::work_zone::WorkZone;
use roads::Network;
use workzone::{LaneCut, Stay, WorkExtent, ZoneInput};

use crate::Rules;
use crate::finding::{self, Meeting};
use crate::heights::HeightLookup;
use crate::jobs::{self, Job};
use crate::loads;
use crate::one_day::OneDay;
use crate::sharing;

/// A site with what decides whether the search looks at it.
#[derive(Clone)]
pub(crate) struct WeighedSite {
    pub planned: PlannedSite,
    pub demand: Demand,
    pub service: Time,
    /// The part of it at the holes, without traffic control.
    pub work: Time,
    pub worth: f64,
    /// Why it can't be done as things are, in words; the search does not look at it.
    pub blocked: Option<String>,
}

impl WeighedSite {
    /// Whole seconds of work there.
    pub fn service_s(&self) -> u32 {
        self.service.in_seconds().ceil() as u32
    }

    /// What the search needs to know of it.
    pub fn for_search(&self, day: &OneDay) -> Site {
        day.site(self.planned.position.section, self.service, self.demand, self.worth)
    }
}

/// What the zones of one crew's day are laid out from.
#[derive(Clone, Copy)]
pub(crate) struct Layout<'a> {
    pub jobs: &'a [Job],
    pub patches: &'a [PatchDecision],
    pub holes: &'a [PlannedHole],
    pub heights: &'a HeightLookup,
    pub rules: &'a Rules,
    pub date: Date,
}

impl Layout<'_> {
    /// Lays out every zone. Sites come in the order of section and chainage, those that are no patch behind them.
    pub fn lay_out(&self, day: &OneDay) -> Vec<WeighedSite> {
        let road = self.on_road(day);
        // What is no patch shares no zone: its neighbours are mended without it.
        let (patch, other): (Vec<usize>, Vec<usize>) =
            (0..self.jobs.len()).partition(|&job| self.patches[job].is_patch());
        let groups = sharing::groups(&patch, &road, day).into_iter().chain(other.into_iter().map(|job| vec![job]));
        self.zones(groups, &road)
    }

    /// Lays out the zones of a crew for jobs that are parted into zones already.
    pub fn lay_out_as(&self, groups: impl IntoIterator<Item = Vec<usize>>, day: &OneDay) -> Vec<WeighedSite> {
        self.zones(groups, &self.on_road(day))
    }

    fn on_road<'a>(&'a self, day: &'a OneDay) -> OnRoad<'a> {
        let (network, district) = (day.network, day.district);
        let sections: BTreeSet<SectionId> = self.jobs.iter().map(|job| job.section).collect();
        let around = |id| (id, road_around(network, self.heights, id, &self.rules.traffic));
        let around = sections.into_iter().map(around).collect();
        OnRoad { jobs: self.jobs, holes: self.holes, network, around, district, rules: self.rules }
    }

    fn zones(&self, groups: impl IntoIterator<Item = Vec<usize>>, road: &OnRoad) -> Vec<WeighedSite> {
        let meeting = Meeting::of(road.network.roads());
        groups
            .into_iter()
            .map(|group| {
                let decision = &self.patches[group[0]];
                let mut site = site(group, road, &meeting, self.date);
                if !decision.is_patch() {
                    site.blocked = Some(decision.words());
                }
                site
            })
            .collect()
    }
}

/// The repairs on their roads, and what decides how a zone is laid out for them.
pub(crate) struct OnRoad<'a> {
    pub jobs: &'a [Job],
    pub holes: &'a [PlannedHole],
    pub network: &'a Network,
    /// The road around each section that has a job.
    pub around: BTreeMap<SectionId, RoadAround>,
    pub district: &'a District,
    pub rules: &'a Rules,
}

/// A zone for some jobs, with what it was laid out for.
pub(crate) struct LaidOut {
    pub zone: WorkZone,
    /// Median time at the cuts.
    pub work: Time,
    /// Moving from cut to cut.
    pub between: Figure<Time>,
    pub demand: Demand,
    extent: WorkExtent,
}

impl LaidOut {
    /// Where the truck arrives: at the middle of the cuts.
    pub fn position(&self, lane: (SectionId, Side, Travel), network: &Network) -> RoadPosition {
        let extent = &self.extent;
        let (chainage, across) = ((extent.from + extent.to) / 2.0, (extent.across_from + extent.across_to) / 2.0);
        jobs::position_at(network, lane, chainage, across)
    }

    /// Time at the place from the first device out to the last one in, on median times.
    pub fn service(&self) -> Time {
        self.work + self.between.value + self.zone.set_up.value + self.zone.take_in.value
    }
}

impl OnRoad<'_> {
    /// Holes of the jobs.
    fn holes_of(&self, group: &[usize]) -> Vec<usize> {
        group.iter().flat_map(|&job| self.jobs[job].holes.iter().copied()).collect()
    }

    /// One zone for all these jobs of one lane, by chainage.
    pub fn zone(&self, group: &[usize]) -> LaidOut {
        let OnRoad { jobs, network, district, rules, .. } = self;
        let first = &jobs[group[0]];
        let members = || group.iter().map(|&job| &jobs[job]);
        // The day is planned on median times; the zone's duration class is taken with room to spare.
        let time = |pick: fn(&Spread<Time>) -> Time| -> Time {
            members().map(|job| job.repair.duration.spread.as_ref().map_or(job.repair.duration.value, pick)).sum()
        };
        let (work, work_p90) = (time(|spread| spread.p50), time(|spread| spread.p90));
        let cuts: Vec<_> = members().map(lane_cut).map(|cut| (cut.from, cut.to)).collect();
        let between = workzone::between_cuts(&cuts, &rules.traffic);
        let hole_ids: Vec<_> = self.holes_of(group).iter().map(|&hole| self.holes[hole].hole.id.clone()).collect();
        let extent = extent(members());
        let around = &self.around[&first.section];
        let input = ZoneInput {
            section: network.section(first.section),
            travel: first.travel,
            side: first.side,
            driving_side: district.driving_side,
            work: extent,
            duration: work_p90 + between.value,
            night: false,
            shoulder_only: first.shoulder,
            // A cut filled and sealed stays; the map knows no hedge, so no layout rests on sight from it.
            stay: Stay::Stationary,
            sight: None,
            junction_ahead: workzone::junction_ahead(around, &extent, first.travel, &rules.traffic),
            holes: &hole_ids,
            people: district.crew.people,
            vehicles: 1,
        };
        let zone = workzone::on_road(workzone::lay_out(&input, &rules.traffic), &input, around, &rules.traffic);
        let demand = members().fold(Demand::default(), |sum, job| loads::add(&sum, &job.demand));
        LaidOut { zone, work, between, demand, extent }
    }
}

fn site(group: Vec<usize>, road: &OnRoad, meeting: &Meeting, date: Date) -> WeighedSite {
    let OnRoad { jobs, holes, network, district, rules, .. } = road;
    let laid_out = road.zone(&group);
    let service = laid_out.service();
    let first = &jobs[group[0]];
    let position = laid_out.position((first.section, first.side, first.travel), network);
    let LaidOut { mut zone, work, between, demand, .. } = laid_out;
    zone.shared = sharing::saved(&group, &zone, between, road);
    let (place, _) = network.point_at(position.section, position.chainage);
    let (chainage_from, chainage_towards) = finding::ends(network.roads(), meeting, position.section);
    WeighedSite {
        demand,
        service,
        work,
        blocked: blocked(&zone, district, rules),
        worth: road.holes_of(&group).iter().map(|&hole| worth(&holes[hole], rules, date)).sum(),
        planned: PlannedSite { jobs: group, zone, position, place, chainage_from, chainage_towards },
    }
}

/// The road that traffic to the section comes along, as far as a zone may reach, with its profile where heights are known.
pub fn road_around(network: &Network, heights: &HeightLookup, section: SectionId, rules: &TrafficRules) -> RoadAround {
    let road = network.section(section);
    let reach = workzone::reach(road, rules);
    let mut around = network.around(section, reach, reach, workzone::side_reach(road, rules));
    if let Some(height) = heights.get() {
        roads::set_heights(&mut around, rules.units.length(rules.placing.profile_step.value), height);
    }
    around
}

/// What this crew lacks for this layout.
pub(crate) fn blocked(zone: &WorkZone, district: &District, rules: &Rules) -> Option<String> {
    let people = zone.people_needed;
    let count = workzone::device_count(zone);
    let owned = &district.devices_owned;
    if let Some(why) = &zone.not_laid_out {
        return Some(why.clone());
    }
    if !zone.passable && !rules.planning.full_closure_allowed.value {
        return Some("traffic can't pass the work: the road must be closed or traffic led round, which the authorised person decides".into());
    }
    if people > district.crew.people {
        return Some(format!("the layout needs {people} people, the crew has {}", district.crew.people));
    }
    if count.signs > owned.signs || count.cones > owned.cones {
        return Some(format!(
            "the layout needs {} signs and {} cones, the depot has {} and {}",
            count.signs, count.cones, owned.signs, owned.cones
        ));
    }
    None
}

/// A hole is worth the mean of its risk now and of what it may be by its day; more from that day on.
pub(crate) fn worth(hole: &PlannedHole, rules: &Rules, date: Date) -> f64 {
    let judgement = &hole.judgement;
    let due = judgement.due.is_some_and(|due| due <= date);
    let risk = f64::midpoint(judgement.risk.value, judgement.outlook.risk.value);
    risk * if due { rules.planning.overdue_worth.value } else { 1.0 }
}

/// The box around all cuts of a zone.
fn extent<'a>(jobs: impl Iterator<Item = &'a Job>) -> WorkExtent {
    let corners: Vec<_> = jobs.flat_map(|job| job.cut.corners.iter().copied()).collect();
    let least =
        |read: fn(&model::place::FramePoint) -> f64| metres(corners.iter().map(read).fold(f64::INFINITY, f64::min));
    let most =
        |read: fn(&model::place::FramePoint) -> f64| metres(corners.iter().map(read).fold(f64::NEG_INFINITY, f64::max));
    WorkExtent {
        from: least(|c| c.along_m),
        to: most(|c| c.along_m),
        across_from: least(|c| c.across_m),
        across_to: most(|c| c.across_m),
    }
}

/// Puts the sites the search shall look at first, see [`candidates`]. Gives how many there are.
pub(crate) fn candidates_first(sites: &mut Vec<WeighedSite>, district: &District, rules: &Rules) -> usize {
    let open = |site: usize| sites[site].blocked.is_none();
    let most = rules.planning.candidate_sites_max.value as usize;
    let (order, count) = candidates(sites, &open, &[district.depot.position], district.truck.speed_max, most);
    in_order(sites, &order);
    count
}

/// Puts the sites into that order; each is named once. They are large: none is copied.
pub(crate) fn in_order(sites: &mut Vec<WeighedSite>, order: &[usize]) {
    let mut before: Vec<Option<WeighedSite>> = std::mem::take(sites).into_iter().map(Some).collect();
    sites.extend(order.iter().filter_map(|&site| before[site].take()));
}

/// The order of the sites with those first that the search shall look at, and how many these are, at most `most`: half of
/// them by worth, half by worth for the time they take, the way from the nearest depot as the crow flies counted; none that is
/// not open.
pub(crate) fn candidates(
    sites: &[WeighedSite],
    open: &dyn Fn(usize) -> bool,
    depots: &[LonLat],
    speed: Velocity,
    most: usize,
) -> (Vec<usize>, usize) {
    let per_time = |site: &WeighedSite| {
        let ways = depots.iter().map(|&depot| roads::distance(depot, site.planned.place).in_metres());
        let there: Time = metres(ways.fold(f64::INFINITY, f64::min)) / speed;
        site.worth / (site.service + there).in_seconds().max(1.0)
    };
    let ranked = |key: &dyn Fn(&WeighedSite) -> f64| {
        let keys: Vec<f64> = sites.iter().map(key).collect();
        let mut order: Vec<usize> = (0..sites.len()).filter(|&site| open(site)).collect();
        order.sort_by(|&a, &b| keys[b].total_cmp(&keys[a]).then(a.cmp(&b)));
        order
    };
    let mut chosen = vec![false; sites.len()];
    let mut count = 0;
    for (by_worth, by_time) in ranked(&|s| s.worth).into_iter().zip(ranked(&per_time)) {
        for index in [by_worth, by_time] {
            if count < most && !chosen[index] {
                chosen[index] = true;
                count += 1;
            }
        }
    }
    let (first, rest): (Vec<usize>, Vec<usize>) = (0..sites.len()).partition(|&site| chosen[site]);
    (first.into_iter().chain(rest).collect(), count)
}

pub(crate) fn lane_cut(job: &Job) -> LaneCut {
    let along =
        |pick: fn(f64, f64) -> f64, start: f64| metres(job.cut.corners.iter().map(|c| c.along_m).fold(start, pick));
    LaneCut {
        section: job.section,
        travel: job.travel,
        side: job.side,
        shoulder_only: job.shoulder,
        from: along(f64::min, f64::INFINITY),
        to: along(f64::max, f64::NEG_INFINITY),
    }
}
