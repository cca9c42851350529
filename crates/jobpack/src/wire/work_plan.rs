//! `work-plan.json`: the work of all crews over some days, with why each site is where it is.

use std::collections::BTreeMap;

use model::hole::HoleId;
use model::plan::{Changed, Explained, LeftOut, Marginal, MoreOf, OtherWay, SiteOfWork, WorkPlan};
use model::programme::ProgrammeCost;
use model::quantity::InLength;
use serde::Serialize;

use super::crew_round::RoundJson;
use super::day::{FateJson, ProblemJson, clock, place, reason_word};
use super::figures::round;
use super::learnt::LearntJson;
use super::look::LookLeftJson;

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
    left_out: Vec<LeftOutSiteJson>,
    fates: Vec<FateJson>,
    not_forecast: Vec<NotForecastJson>,
    /// Wanted looks at repairs made before that are on no round; those that are stand in the rounds' stops.
    looks_left: Vec<LookLeftJson>,
    /// What of the record the repairs are worked out with, as in `plan.json`.
    learnt: Vec<LearntJson>,
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

/// Holes that no round mends: all of one site, or one that came to no site.
#[derive(Debug, Serialize)]
struct LeftOutSiteJson {
    holes: Vec<String>,
    road: String,
    reason: Option<&'static str>,
    why: String,
    /// Of the first hole.
    place: [f64; 2],
    /// From the nearest road, where that is the reason.
    distance_m: Option<f64>,
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
            left_out: left_out(work),
            fates: work.fates.iter().map(FateJson::from).collect(),
            not_forecast: work
                .not_forecast
                .iter()
                .map(|(date, hours)| NotForecastJson {
                    date: date.to_string(),
                    hours: hours.iter().map(|&(from, to)| [clock(from), clock(to)]).collect(),
                })
                .collect(),
            looks_left: work.looks_left.iter().map(LookLeftJson::from).collect(),
            learnt: work.learnt.factors.iter().map(LearntJson::from).collect(),
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

/// Site by site, the most pressing first.
fn left_out(work: &WorkPlan) -> Vec<LeftOutSiteJson> {
    let numbered = work.sites.iter().enumerate();
    let site_of: BTreeMap<&HoleId, usize> =
        numbered.flat_map(|(site, known)| known.holes.iter().map(move |hole| (hole, site))).collect();
    let mut at: BTreeMap<usize, usize> = BTreeMap::new();
    let mut entries: Vec<LeftOutSiteJson> = Vec::new();
    for LeftOut { hole, reason, words, road, place: reported, distance } in &work.left_out {
        if let Some(site) = site_of.get(hole) {
            let entry = *at.entry(*site).or_insert(entries.len());
            if let Some(entry) = entries.get_mut(entry) {
                entry.holes.push(hole.0.clone());
                continue;
            }
        }
        entries.push(LeftOutSiteJson {
            holes: vec![hole.0.clone()],
            road: road.clone(),
            reason: reason.map(reason_word),
            why: words.clone(),
            place: place(*reported),
            distance_m: distance.map(|distance| round(distance.in_metres())),
        });
    }
    entries
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
