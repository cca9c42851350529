//! A hole: where, how bad, who told of it.

use model::hole::{EarlierRepairs, Wetness};
use model::plan::{HoleReport, Plan, PlannedHole};
use model::quantity::{InArea, InLength, InVelocity};
use model::road::Surface;
use model::triage::{Outlook, Severity};
use schemars::JsonSchema;
use serde::Serialize;

use super::day::place;
use super::figures::{FigureJson, figure, round};
use super::zone::{side_word, travel_word};

/// A hole that was found on the network.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Hole")]
pub struct HoleJson {
    id: String,
    place: [f64; 2],
    depth_m: f64,
    seen: Option<String>,
    note: String,
    /// `dry`, `damp`, `wet`, `seepage` or `pumping`.
    wetness: Option<&'static str>,
    /// Who told of it, in the list's own word; empty where not said.
    source: String,
    /// Repairs made there before, in words.
    repairs: Option<String>,
    /// File, line and column it came from.
    from: String,
    road: RoadJson,
    chainage_m: f64,
    across_m: f64,
    side: &'static str,
    travel: &'static str,
    /// From the reported place to the centre line.
    distance_m: f64,
    severity: Option<&'static str>,
    severity_system: String,
    severity_why: String,
    /// As how many holes it counts in that system; null where it is not rated.
    counts_as: Option<FigureJson>,
    /// Severity and due day in one sentence, in the district's units.
    sentence: String,
    /// Points; only order and ratio matter.
    risk: FigureJson,
    risk_sentence: String,
    due: Option<String>,
    due_why: String,
    outlook: OutlookJson,
    /// Index into `jobs`.
    job: usize,
    /// Every report of it, that which gave its name and place first.
    reports: Vec<ReportJson>,
}

/// One report of a hole.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Report")]
struct ReportJson {
    id: String,
    source: String,
    seen: Option<String>,
    /// File, line and column.
    from: String,
    /// Why it is taken to be of this hole; empty where it is the only report.
    words: String,
}

/// What the hole may come to if it is left alone: an aid to ranking, no forecast.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Outlook")]
struct OutlookJson {
    /// The due day; the day of the plan where that is past or not set.
    day: String,
    depth_m: FigureJson,
    area_m2: FigureJson,
    severity: Option<&'static str>,
    risk: FigureJson,
    /// The severity it passes into next; null: none within the time looked at.
    worse: Option<&'static str>,
    /// The first day of that.
    worse_from: Option<String>,
    sentence: String,
}

/// What the plan used of the hole's road.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Road")]
struct RoadJson {
    label: String,
    source_id: String,
    class: &'static str,
    surface: &'static str,
    speed_m_per_s: f64,
    lanes: u32,
    width_m: f64,
    /// Attributes that were filled in by class default.
    defaulted: Vec<&'static str>,
}

/// The block of one hole.
pub fn hole(plan: &Plan, planned: &PlannedHole) -> HoleJson {
    let section = plan.network.section(planned.position.section);
    HoleJson {
        id: planned.hole.id.0.clone(),
        place: place(planned.hole.position),
        depth_m: round(planned.hole.depth.in_metres()),
        seen: planned.hole.seen.map(|d| d.to_string()),
        note: planned.hole.note.clone(),
        wetness: planned.hole.wetness.map(Wetness::word),
        source: planned.hole.source.clone(),
        repairs: planned.hole.repairs.as_ref().map(|repairs| match repairs {
            EarlierRepairs::Count(count) => count.to_string(),
            EarlierRepairs::Days(days) => days.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "),
        }),
        from: planned.hole.from.to_string(),
        road: RoadJson {
            label: section.label(),
            source_id: section.source_id.clone(),
            class: section.class.word(),
            surface: match section.surface {
                Surface::SurfaceTreated => "surface_treated",
                Surface::Paved => "paved",
                Surface::Rigid => "rigid",
                Surface::Unpaved => "unpaved",
                Surface::Unknown => "unknown",
            },
            speed_m_per_s: round(section.speed.in_metres_per_second()),
            lanes: section.lanes,
            width_m: round(section.width.in_metres()),
            defaulted: section.defaulted.clone(),
        },
        chainage_m: round(planned.position.chainage.in_metres()),
        across_m: round(planned.position.across.in_metres()),
        side: side_word(planned.position.side),
        travel: travel_word(planned.position.travel),
        distance_m: round(planned.position.distance.in_metres()),
        severity: severity_word(planned.judgement.severity),
        severity_system: planned.judgement.system.clone(),
        severity_why: planned.judgement.severity_why.to_string(),
        counts_as: planned.judgement.counts_as.as_ref().map(|count| figure(count, |n| n)),
        sentence: planned.judgement.sentence.clone(),
        risk: figure(&planned.judgement.risk, |r| r),
        risk_sentence: planned.judgement.risk_sentence.clone(),
        due: planned.judgement.due.map(|d| d.to_string()),
        due_why: planned.judgement.due_why.to_string(),
        outlook: outlook(&planned.judgement.outlook),
        job: planned.job,
        reports: planned.reports.iter().map(ReportJson::from).collect(),
    }
}

impl From<&HoleReport> for ReportJson {
    fn from(report: &HoleReport) -> Self {
        ReportJson {
            id: report.id.0.clone(),
            source: report.source.clone(),
            seen: report.seen.map(|day| day.to_string()),
            from: report.from.to_string(),
            words: report.words.clone(),
        }
    }
}

fn outlook(outlook: &Outlook) -> OutlookJson {
    OutlookJson {
        day: outlook.day.to_string(),
        depth_m: figure(&outlook.depth, InLength::in_metres),
        area_m2: figure(&outlook.area, InArea::in_square_metres),
        severity: severity_word(outlook.severity),
        risk: figure(&outlook.risk, |r| r),
        worse: severity_word(outlook.worse.map(|(severity, _)| severity)),
        worse_from: outlook.worse.map(|(_, day)| day.to_string()),
        sentence: outlook.sentence.clone(),
    }
}

/// The word for a severity; a hole too small to be rated has none.
fn severity_word(severity: Option<Severity>) -> Option<&'static str> {
    severity.map(|severity| Severity::word(Some(severity)))
}
