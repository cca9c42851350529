//! The work of all crews over some days: the stages of [`crate::plan_day`], once for each kind of crew, with one search
//! over all of it.

mod crew_day;
mod in_parts;
mod pinned;
mod problem;
mod rest_of_day;

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;
use jiff::tz::TimeZone;
use model::district::District;
use model::forecast::Forecast;
use model::learnt::{Learnt, LearntRoad};
use model::patch::PatchDecision;
use model::pin::Pin;
use model::plan::{LeftOut, PlannedHole, PlannedSite, SiteOfWork, WorkPlan};
use model::programme::{Programme, ProgrammeProblem};
use model::road::RoadNetwork;
use model::round::SecondOfDay;
use model::so_far::SoFar;
use roads::{AccessPlace, Network, TruckSpeeds};
use rounds::SearchSettings;

use self::pinned::Pins;
use self::rest_of_day::RestOfDay;
use crate::chance::{Chances, TripSupply};
use crate::jobs::{self, Job, Refusals};
use crate::looks::Looks;
use crate::one_day::OneDay;
use crate::sites::{self, Layout, WeighedSite};
use crate::{
    PlanError, PlanInput, Step, daylight, depot, fates, finish, hours, judge_all, learnt, left_out, locate_all,
    one_hole, patches,
};

/// What a programme is made from.
#[derive(Debug, Clone)]
pub struct ProgrammeInput {
    /// District, roads, holes, rules, first day, seed.
    pub plan: PlanInput,
    /// How many days, one after the other; the first is the plan's.
    pub days: u32,
    /// The weather to come, where it is known.
    pub forecast: Option<Forecast>,
    /// How far the crews are, where the first day is under way.
    pub so_far: Option<SoFar>,
    /// What is asked for holes by name; what can't be is told.
    pub pins: Vec<Pin>,
}

/// A crew as its part of the plan is made.
pub(crate) struct CrewOfPlan {
    pub district: District,
    /// Index of its truck's network.
    pub network: usize,
    /// Index of its kind: people, plant, devices, and how fast the record says that it works.
    pub kind: usize,
    pub depot: AccessPlace,
}

/// The jobs and zones as one kind of crew makes them; the jobs and the holes in each zone are the same for all.
pub(crate) struct KindOfCrew {
    pub jobs: Vec<Job>,
    pub sites: Vec<WeighedSite>,
}

/// One day of the programme.
pub(crate) struct DayOfPlan {
    pub date: Date,
    pub daylight: Option<(SecondOfDay, SecondOfDay)>,
    /// Every hole as judged on that day.
    pub holes: Vec<PlannedHole>,
}

/// Plans the work of all crews of the district over some days.
///
/// `progress` is told as in [`crate::plan_day`].
pub fn plan_programme(
    input: ProgrammeInput,
    progress: &mut dyn FnMut(Step, f64) -> bool,
) -> Result<WorkPlan, PlanError> {
    let ProgrammeInput { plan, days: day_count, forecast, so_far, pins } = input;
    let PlanInput { district, network, heights, holes: mut list, mut problems, rules, road_attribution, .. } = plan;
    let PlanInput { date, seed, looks: wanted, .. } = plan;
    let zone = TimeZone::get(&district.time_zone).map_err(|_| PlanError::TimeZone(district.time_zone.clone()))?;

    progress(Step::Roads, 0.0);
    let (networks, crews) = crews_on_roads(&network, &district, &rules.learnt)?;
    let network = &networks[0];

    progress(Step::Holes, 0.0);
    let mut refusals = Refusals::default();
    let reports = locate_all(&list, network, &district, &rules.planning, &mut refusals);
    let mut located = one_hole::join(&reports, network, &district, &rules, &mut refusals);
    let done_before = so_far.as_ref().map_or(0, |so_far| rest_of_day::take_out_done(&mut located, &mut list, so_far));
    let joined = fates::joined(&located);

    progress(Step::Repairs, 0.0);
    let of_kinds: Vec<&District> = first_of_each_kind(&crews).map(|crew| &crew.district).collect();
    let mut jobs = jobs::make(&located, network, &of_kinds, &rules, &mut refusals);
    jobs::keep_made(&mut located, &mut jobs);
    let learnt = {
        let all: Vec<&District> = crews.iter().map(|crew| &crew.district).collect();
        learnt::counting(&rules.learnt, &jobs, network, &all)
    };
    problems.extend(learnt::limited(&learnt));
    problems.extend(learnt::planned_otherwise(&learnt));
    let patches = patches::decide(&jobs, &located, network, &district, &rules, date);
    let days: Vec<DayOfPlan> = (0..day_count.max(1))
        .filter_map(|day| date.checked_add(jiff::Span::new().days(i64::from(day))).ok())
        .map(|date| DayOfPlan {
            date,
            daylight: daylight::daylight(district.depot.position, date, &zone),
            holes: judge_all(&located, &jobs, network, &rules, date, district.units),
        })
        .collect();
    let asked = Pins::new(&pins, &located);
    let first = &days[0];
    let layout = Layout { jobs: &jobs, patches: &patches, holes: &first.holes, heights: &heights, rules: &rules, date };
    let mut kinds = kinds_of_crew(&crews, &located, network, layout, first.daylight);
    let Candidates { searched, in_parts } =
        candidates_first(&mut kinds, &district, &rules, &asked, (crews.len() * days.len(), so_far.is_some()));

    progress(Step::Distances, 0.0);
    let by_crew = problem::Source {
        district: &district,
        networks: &networks,
        crews: &crews,
        kinds: &kinds,
        days: &days,
        searched,
        rules: &rules,
        zone: &zone,
        forecast: forecast.as_ref(),
    };
    let sites_of_work = sites_of_work(&kinds[0], &days, &rules, searched, network);
    let holes_of_site: Vec<_> = sites_of_work.iter().map(|site| site.holes.clone()).collect();
    let rest = so_far.as_ref().map(|so_far| RestOfDay {
        so_far,
        crews: &crews,
        kind: &kinds[0],
        holes_of_site: &holes_of_site,
    });
    let mut posed = by_crew.pose(rest.as_ref());
    let dates: Vec<Date> = days.iter().map(|day| day.date).collect();
    let pinned = asked.limit(&mut posed.problem, &kinds[0], &crews, &dates);
    if !in_parts {
        let each = networks.iter().zip(&posed.places);
        posed.problem.driving = each.map(|(network, places)| problem::driving(network, places)).collect();
    }
    let jobs_of = kinds[0].sites[..searched].iter().map(|site| site.planned.jobs.clone()).collect();
    let mut chances = Chances::new(jobs_of, &jobs, network, &of_kinds, &rules.repair, seed);
    // A programme of many shifts takes more steps than a day.
    let shifts = u32::try_from(posed.problem.shifts.len()).unwrap_or(u32::MAX).max(1);
    let search = (seed, district.planning.iterations.saturating_mul(shifts.min(MOST_TIMES)));
    let mut programme = match &rest {
        None if in_parts => in_parts::programme_that_holds(&mut posed, &networks, &mut chances, search, progress),
        None => programme_that_holds(&mut posed.problem, &mut chances, search, progress),
        Some(rest) => {
            let iterations = district.planning.iterations.min(REST_OF_DAY_STEPS);
            let saves_min = rules.planning.change_saves_min.value;
            let settings = SearchSettings { seed, iterations };
            rest.decide(&posed.problem, &settings, saves_min, &mut |done, _| {
                progress(Step::Search, f64::from(done) / f64::from(iterations.max(1)))
            })
        }
    };
    let problem::Posed { mut problem, places, .. } = posed;
    pinned.settle(&mut problem, &mut programme);
    let changes = rest.as_ref().map(|rest| rest.changes(&problem, &programme, &sites_of_work)).unwrap_or_default();

    let writer = crew_day::Writer {
        source: &by_crew,
        problem: &problem,
        places: &places,
        list: &list,
        joined: &joined,
        patches: &patches,
        road_attribution: road_attribution.as_ref(),
        seed,
    };
    let mut looks = Looks::new(wanted.as_ref(), network, &district);
    let rounds = programme.rounds.iter().map(|round| writer.write(round, &mut looks)).collect();

    let has_daylight = days.iter().any(|day| day.daylight.is_some());
    let not_forecast = by_crew.not_forecast();
    let Blocked { sites, blocked } = blocked_everywhere(kinds, &crews);
    let first_holes = days.into_iter().next().map(|day| day.holes).unwrap_or_default();
    let planned_jobs = finish::planned_jobs(jobs, patches.clone(), &sites, network);
    let planned = left_out::Planned {
        sites: &sites,
        jobs: &planned_jobs,
        holes: &first_holes,
        blocked: &blocked,
        depot: crews[0].depot.position.section,
    };
    let mut left_out: Vec<LeftOut> = refusals.left_out;
    left_out.extend(left_out::entries(&programme.left_out, searched, &planned, network, has_daylight));
    problems.extend(refusals.problems);
    let done: BTreeSet<usize> = programme.rounds.iter().flat_map(model::programme::CrewRound::sites).collect();
    let pins_refused = asked.refused(pinned, &programme, &left_out, &problems);
    let fates = fates::fates(&list, &joined, &first_holes, &planned_jobs, &done, &left_out);
    Ok(WorkPlan {
        district,
        first_day: date,
        days: day_count.max(1),
        rounds,
        sites: sites_of_work,
        problem,
        programme,
        left_out,
        fates,
        problems,
        changes,
        done_before,
        not_forecast,
        pins,
        pins_refused,
        looks_left: looks.left(),
        learnt,
    })
}

/// The jobs and zones of each kind of crew, of the first crew of its kind.
fn kinds_of_crew(
    crews: &[CrewOfPlan],
    located: &[crate::Located],
    network: &Network,
    layout: Layout,
    daylight: Option<(SecondOfDay, SecondOfDay)>,
) -> Vec<KindOfCrew> {
    let mut kinds: Vec<KindOfCrew> = Vec::new();
    for crew in first_of_each_kind(crews) {
        let day = OneDay { network, district: &crew.district, daylight, depot: crew.depot };
        let Some(first) = kinds.first() else {
            let mut sites = layout.lay_out(&day);
            block_where_plant_lacks(&mut sites, layout.patches, &|job| layout.jobs[job].kind == 0);
            kinds.push(KindOfCrew { jobs: layout.jobs.to_vec(), sites });
            continue;
        };
        let groups: Vec<Vec<usize>> = first.sites.iter().map(|site| site.planned.jobs.clone()).collect();
        let made = jobs::make(located, network, &[&crew.district], layout.rules, &mut Refusals::default());
        // A cut that can't be worked out for this crew's plant stands in as another's, and is not for this crew.
        let own = |job: &Job| made.iter().find(|own| own.cut.holes == job.cut.holes).cloned();
        let (jobs, is_own): (Vec<Job>, Vec<bool>) =
            first.jobs.iter().map(|job| own(job).map_or_else(|| (job.clone(), false), |own| (own, true))).unzip();
        let mut sites = Layout { jobs: &jobs, ..layout }.lay_out_as(groups, &day);
        block_where_plant_lacks(&mut sites, layout.patches, &|job| is_own[job]);
        kinds.push(KindOfCrew { jobs, sites });
    }
    kinds
}

fn first_of_each_kind(crews: &[CrewOfPlan]) -> impl Iterator<Item = &CrewOfPlan> {
    // Kinds are numbered as they come.
    let mut next = 0;
    crews.iter().filter(move |crew| {
        let is_first = crew.kind == next;
        next += usize::from(is_first);
        is_first
    })
}

/// Sites with a cut that can't be worked out for the crew's plant are not for the crew.
fn block_where_plant_lacks(sites: &mut [WeighedSite], patches: &[PatchDecision], is_own: &dyn Fn(usize) -> bool) {
    for site in sites {
        // What is no patch is the engineer's, whatever the plant.
        let is_patch = site.planned.jobs.iter().all(|&job| patches[job].is_patch());
        if is_patch && !site.planned.jobs.iter().all(|&job| is_own(job)) {
            site.blocked = Some("the repair can't be worked out for this crew's plant".into());
        }
    }
}

/// A network for each kind of truck, and the crews with their depots on it.
fn crews_on_roads(
    network: &RoadNetwork,
    district: &District,
    learnt: &Learnt,
) -> Result<(Vec<Network>, Vec<CrewOfPlan>), PlanError> {
    let mut networks: Vec<(TruckSpeeds, model::district::TruckSize, Network)> = Vec::new();
    let mut kinds: Vec<District> = Vec::new();
    let mut crews = Vec::new();
    for index in 0..district.crew_count() {
        let view = district.of_crew(index);
        let speeds = TruckSpeeds { factor: view.truck.speed_factor, max: view.truck.speed_max };
        let size = view.truck.size;
        let known = networks.iter().position(|(other, limits, _)| *other == speeds && *limits == size);
        let on = if let Some(known) = known {
            known
        } else {
            networks.push((speeds, size, Network::prepare_for(network.clone(), speeds, size)?));
            networks.len() - 1
        };
        let pace = |of: &District| learnt.factors(&LearntRoad::default(), &of.crew.name).time;
        let alike = |other: &District| {
            pace(other).total_cmp(&pace(&view)).is_eq()
                && other.crew.people == view.crew.people
                && other.plant == view.plant
                && other.devices_owned == view.devices_owned
        };
        let kind = kinds.iter().position(alike).unwrap_or_else(|| {
            kinds.push(view.clone());
            kinds.len() - 1
        });
        let depot = depot(&networks[on].2, &view)?;
        crews.push(CrewOfPlan { district: view, network: on, kind, depot });
    }
    Ok((networks.into_iter().map(|(_, _, network)| network).collect(), crews))
}

/// How many sites are looked at, and how.
struct Candidates {
    searched: usize,
    /// There are too many to be searched as a whole.
    in_parts: bool,
}

/// Puts what the search shall look at first, in one order for all kinds of crew. The rest of a day is searched as a whole.
fn candidates_first(
    kinds: &mut [KindOfCrew],
    district: &District,
    rules: &crate::Rules,
    asked: &Pins,
    (shifts, rest_of_day): (usize, bool),
) -> Candidates {
    // What any kind of crew can do is looked at.
    let open = |site: usize| kinds.iter().any(|kind| kind.sites[site].blocked.is_none());
    let all = (0..kinds[0].sites.len()).filter(|&site| open(site)).count();
    let whole = rules.planning.sites_searched_whole_max.value as usize;
    let most = rules.planning.candidate_sites_max.value as usize * shifts;
    let further = district.further_crews.iter().filter_map(|crew| crew.depot.as_ref());
    let depots: Vec<_> = std::iter::once(&district.depot).chain(further).map(|depot| depot.position).collect();
    let several_depots = depots.iter().any(|&depot| depot != depots[0]);
    let in_parts = !rest_of_day && (all.min(most) > whole || (several_depots && all > most));
    let most = if in_parts { all } else { most.min(whole) };
    let (order, count) = sites::candidates(&kinds[0].sites, &open, &depots, district.truck.speed_max, most);
    let (order, count) = asked.among_first(order, count, &kinds[0], &open);
    for kind in kinds {
        sites::in_order(&mut kind.sites, &order);
    }
    Candidates { searched: count, in_parts }
}

/// The crews wait for the plan of the rest of their day.
const REST_OF_DAY_STEPS: u32 = 4000;

/// At the same time; as many as a small computer has cores.
const SEARCHES: usize = 2;

/// Searches until on no round anything runs out with the confidence asked for.
fn programme_that_holds(
    problem: &mut ProgrammeProblem,
    chances: &mut Chances,
    (seed, iterations): (u64, u32),
    progress: &mut dyn FnMut(Step, f64) -> bool,
) -> Programme {
    let mut found: Option<Programme> = None;
    loop {
        for (index, site) in problem.sites.iter_mut().enumerate() {
            site.demand = chances.demand(index);
        }
        let steps = if found.is_some() { iterations / crate::SEARCH_AGAIN_SHARE } else { iterations };
        let settings = SearchSettings { seed, iterations: steps };
        let all = f64::from(steps.max(1));
        let mut stopped = false;
        let programme = rounds::best_programme(problem, found.as_ref(), &settings, SEARCHES, &mut |done, _| {
            stopped |= !progress(Step::Search, f64::from(done) / all);
            !stopped
        });
        let supplies: Vec<Vec<TripSupply>> =
            programme.rounds.iter().map(|round| crew_day::supplies(problem, round)).collect();
        if stopped || !chances.raise(&supplies) {
            return programme;
        }
        found = Some(programme);
    }
}

/// The search of a programme takes up to so many times the steps of a day's.
const MOST_TIMES: u32 = 4;

/// Sites as planned, and why no kind of crew can do them.
struct Blocked {
    sites: Vec<PlannedSite>,
    blocked: Vec<Option<String>>,
}

/// Sites hold their drawn zones and are large: none is copied.
fn blocked_everywhere(kinds: Vec<KindOfCrew>, crews: &[CrewOfPlan]) -> Blocked {
    let all = 0..kinds[0].sites.len();
    let crew_of = |kind: usize| crews.iter().find(|crew| crew.kind == kind).map(|crew| &crew.district.crew.name);
    let why = |site: usize| {
        let words: Option<Vec<&String>> = kinds.iter().map(|kind| kind.sites[site].blocked.as_ref()).collect();
        let words = words?;
        if words.iter().all(|other| other == &words[0]) {
            return words.first().map(|&words| words.clone());
        }
        let by_crew = words.iter().enumerate().filter_map(|(kind, words)| Some(format!("{}: {words}", crew_of(kind)?)));
        Some(by_crew.collect::<Vec<_>>().join("; "))
    };
    let blocked = all.map(why).collect();
    let sites = kinds.into_iter().next().map(|kind| kind.sites).unwrap_or_default();
    Blocked { blocked, sites: sites.into_iter().map(|site| site.planned).collect() }
}

fn sites_of_work(
    kind: &KindOfCrew,
    days: &[DayOfPlan],
    rules: &crate::Rules,
    searched: usize,
    network: &Network,
) -> Vec<SiteOfWork> {
    kind.sites[..searched]
        .iter()
        .map(|site| {
            let holes: Vec<usize> = problem::holes_of(site, &kind.jobs);
            SiteOfWork {
                holes: holes.iter().map(|&hole| days[0].holes[hole].hole.id.clone()).collect(),
                road: network.section(site.planned.position.section).label(),
                worth: days.iter().map(|day| problem::worth(&holes, day, rules)).collect(),
            }
        })
        .collect()
}

impl problem::Source<'_> {
    /// Working hours of each day that the forecast does not speak of.
    fn not_forecast(&self) -> Vec<(Date, Vec<(SecondOfDay, SecondOfDay)>)> {
        let Some(forecast) = self.forecast else { return Vec::new() };
        let mut silent: BTreeMap<Date, Vec<(SecondOfDay, SecondOfDay)>> = BTreeMap::new();
        for day in self.days {
            let shift = &self.district.shift;
            let working = vec![(hours::second_of_day(shift.start), hours::second_of_day(shift.end))];
            let spans = hours::hours_not_known(&working, day.date, self.zone, forecast, &self.rules.planning.weather);
            if !spans.is_empty() {
                silent.insert(day.date, spans);
            }
        }
        silent.into_iter().collect()
    }
}
