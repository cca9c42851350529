//! `work-plan.json`: the work of all crews over some days, with why each site is where it is.

use model::plan::{Changed, CrewDay, Explained, Marginal, MoreOf, OtherWay, SiteOfWork, WorkPlan};
use model::programme::ProgrammeCost;
use model::quantity::InLength;
use model::round::StopKind;
use serde::Serialize;

use super::day::{FateJson, LeftOutJson, ProblemJson, clock};
use super::figures::round;

/// The file.
#[derive(Debug, Serialize)]
pub struct WorkPlanFile {
    format_version: u32,
    district: String,
    first_day: String,
    days: u32,
    currency: String,
    cost: CostJson,
    rounds: Vec<RoundJson>,
    sites: Vec<SiteJson>,
    what_more_brings: Vec<MoreJson>,
    changes: Vec<ChangeJson>,
    left_out: Vec<LeftOutJson>,
    fates: Vec<FateJson>,
    not_forecast: Vec<NotForecastJson>,
    problems: Vec<ProblemJson>,
}

#[derive(Debug, Serialize)]
struct CostJson {
    risk_until_mended: f64,
    risk_left: f64,
    crew_time: f64,
    driving: f64,
    total: f64,
}

/// One crew's day.
#[derive(Debug, Serialize)]
struct RoundJson {
    date: String,
    crew: String,
    truck: String,
    begins: Option<String>,
    ends: Option<String>,
    /// Chance that nothing runs out all day.
    suffices: Option<f64>,
    driving_km: f64,
    /// In the order of work.
    stops: Vec<StopJson>,
}

#[derive(Debug, Serialize)]
struct StopJson {
    from: String,
    to: String,
    road: String,
    holes: Vec<String>,
}

/// One site, and what another way with it would cost.
#[derive(Debug, Serialize)]
struct SiteJson {
    holes: Vec<String>,
    road: String,
    /// Points of risk taken off the road by mending it, by day.
    worth: Vec<f64>,
    date: Option<String>,
    crew: Option<String>,
    why: String,
}

#[derive(Debug, Serialize)]
struct MoreJson {
    more: String,
    saves: f64,
    sites: i64,
}

#[derive(Debug, Serialize)]
struct ChangeJson {
    holes: Vec<String>,
    road: String,
    change: &'static str,
    from: Option<String>,
    to: Option<String>,
    why: String,
}

#[derive(Debug, Serialize)]
struct NotForecastJson {
    date: String,
    hours: Vec<[String; 2]>,
}

impl WorkPlanFile {
    pub fn new(work: &WorkPlan, explained: &Explained) -> Self {
        WorkPlanFile {
            format_version: 1,
            district: work.district.name.clone(),
            first_day: work.first_day.to_string(),
            days: work.days,
            currency: work.district.prices.currency.clone(),
            cost: CostJson::from(&work.programme.cost),
            rounds: work.rounds.iter().map(RoundJson::from).collect(),
            sites: work.sites.iter().zip(&explained.sites).map(|(site, way)| site_json(work, site, way)).collect(),
            what_more_brings: explained.more.iter().map(|more| more_json(work, more)).collect(),
            changes: work.changes.iter().map(ChangeJson::from).collect(),
            left_out: work.left_out.iter().map(LeftOutJson::from).collect(),
            fates: work.fates.iter().map(FateJson::from).collect(),
            not_forecast: work
                .not_forecast
                .iter()
                .map(|(date, hours)| NotForecastJson {
                    date: date.to_string(),
                    hours: hours.iter().map(|&(from, to)| [clock(from), clock(to)]).collect(),
                })
                .collect(),
            problems: work.problems.iter().map(ProblemJson::from).collect(),
        }
    }
}

impl From<&ProgrammeCost> for CostJson {
    fn from(cost: &ProgrammeCost) -> Self {
        CostJson {
            risk_until_mended: round(cost.waiting),
            risk_left: round(cost.left),
            crew_time: round(cost.time),
            driving: round(cost.driving),
            total: round(cost.total()),
        }
    }
}

impl From<&CrewDay> for RoundJson {
    fn from(day: &CrewDay) -> Self {
        let plan = &day.plan;
        let stops = plan.round.timetable.iter().filter_map(|stop| {
            let StopKind::Work(site) = stop.kind else { return None };
            let site = &plan.sites[site];
            let holes = site.jobs.iter().flat_map(|&job| &plan.jobs[job].holes);
            Some(StopJson {
                from: clock(stop.from),
                to: clock(stop.to),
                road: plan.network.section(site.zone.section).label(),
                holes: holes.map(|&hole| plan.holes[hole].hole.id.0.clone()).collect(),
            })
        });
        RoundJson {
            date: plan.date.to_string(),
            crew: plan.district.crew.name.clone(),
            truck: plan.district.truck.name.clone(),
            begins: plan.round.timetable.first().map(|stop| clock(stop.from)),
            ends: plan.round.timetable.last().map(|stop| clock(stop.to)),
            suffices: plan.suffices.map(round),
            driving_km: round(plan.round.driving.in_kilometres()),
            stops: stops.collect(),
        }
    }
}

fn site_json(work: &WorkPlan, site: &SiteOfWork, way: &OtherWay) -> SiteJson {
    let holes = || site.holes.iter().map(|hole| hole.0.clone());
    SiteJson {
        holes: holes().collect(),
        road: site.road.clone(),
        worth: site.worth.iter().map(|&worth| round(worth)).collect(),
        date: way.date.map(|date| date.to_string()),
        crew: way.crew.map(|crew| work.district.of_crew(crew).crew.name),
        why: way.words.clone(),
    }
}

fn more_json(work: &WorkPlan, more: &Marginal) -> MoreJson {
    let words = match more.more {
        MoreOf::Crew(crew) => format!("one more crew like {}", work.district.of_crew(crew).crew.name),
        MoreOf::Hour => "one hour more in every shift".to_owned(),
        MoreOf::CubicMetre => "one cubic metre more on every truck, with the payload for it".to_owned(),
    };
    MoreJson { more: words, saves: round(more.saves), sites: more.sites }
}

impl From<&model::plan::Change> for ChangeJson {
    fn from(change: &model::plan::Change) -> Self {
        let (word, from, to) = match &change.changed {
            Changed::Added { to } => ("added", None, Some(to.clone())),
            Changed::Moved { from, to } => ("moved", Some(from.clone()), Some(to.clone())),
            Changed::Dropped { from } => ("dropped", Some(from.clone()), None),
        };
        ChangeJson {
            holes: change.holes.iter().map(|hole| hole.0.clone()).collect(),
            road: change.road.clone(),
            change: word,
            from,
            to,
            why: change.words.clone(),
        }
    }
}
