//! The long lists behind the cover, made short: holes left out by reason, problems of the input by record.

use std::collections::BTreeMap;

use model::hole::HoleId;
use model::plan::{LeftOut, Plan, PlannedHole, PlannedJob};
use model::problem::{Problem, ProblemSeverity};
use model::quantity::seconds;
use model::round::LeftOutReason;
use serde::Serialize;

use super::{severity_word, short_date, words};
use crate::display::Units;
use crate::printable::{shorten, shorten_name};

/// Holes listed at most; a city has thousands.
const HOLES_MAX: usize = 60;
/// Records with problems listed at most.
const RECORDS_MAX: usize = 25;
/// Problems listed of one record.
const OF_ONE_RECORD_MAX: usize = 4;

/// Reasons in the summary at most.
const SUMMARY_REASONS_MAX: usize = 6;

/// The holes that are not in the pack.
#[derive(Debug, Serialize)]
pub struct LeftOutList {
    groups: Vec<Group>,
    /// How many more there are, in words; empty where all are listed.
    more: String,
}

#[derive(Debug, Serialize)]
struct Group {
    reason: String,
    rows: Vec<LeftOutRow>,
}

#[derive(Debug, Serialize)]
struct LeftOutRow {
    hole: String,
    road: String,
    severity: String,
    due: String,
    overdue: bool,
    work: String,
    /// What is said of this hole alone.
    words: String,
}

/// A cut that is no patch.
#[derive(Debug, Serialize)]
pub struct EngineerRow {
    hole: String,
    road: String,
    chainage: String,
    due: String,
    overdue: bool,
    /// What a patch would need, at nine in ten.
    figures: String,
    reasons: String,
}

/// What was wrong with the input.
#[derive(Debug, Serialize)]
pub struct ProblemList {
    rows: Vec<RecordRow>,
    more: String,
}

#[derive(Debug, Serialize)]
struct RecordRow {
    at: String,
    subject: String,
    texts: Vec<String>,
}

/// The most pressing holes left out, under one heading for each reason.
pub fn left_out(plan: &Plan, units: Units) -> LeftOutList {
    let holes: BTreeMap<&HoleId, &PlannedHole> = plan.holes.iter().map(|h| (&h.hole.id, h)).collect();
    let risk = |l: &LeftOut| holes.get(&l.hole).map_or(f64::NEG_INFINITY, |h| h.judgement.risk.value);
    let mut order: Vec<&LeftOut> =
        plan.left_out.iter().filter(|left| left.reason != Some(LeftOutReason::NotAPatch)).collect();
    order.sort_by(|a, b| risk(b).total_cmp(&risk(a)));
    let mut said: BTreeMap<&str, usize> = BTreeMap::new();
    for left in &order {
        *said.entry(&left.words).or_default() += 1;
    }
    let mut groups: Vec<Group> = Vec::new();
    for left in order.iter().take(HOLES_MAX) {
        // A reason that only one hole has stands in its row; the same words for many stand above them once.
        let shared = said[left.words.as_str()] > 1;
        let reason = if shared { shorten(&left.words, 160) } else { units.words.say("sheet-reason-of-its-own") };
        let mut row = row(plan, units, left, holes.get(&left.hole).copied());
        if shared {
            row.words.clear();
        }
        match groups.iter_mut().find(|g| g.reason == reason) {
            Some(group) => group.rows.push(row),
            None => groups.push(Group { reason, rows: vec![row] }),
        }
    }
    let rest = order.len().saturating_sub(HOLES_MAX);
    let more = if rest == 0 { String::new() } else { units.counted("sheet-more-left-out", rest) };
    LeftOutList { groups, more }
}

/// Every cut that is no patch, the most pressing first, with its figures: what the engineer wants to know.
pub fn for_the_engineer(plan: &Plan, units: Units) -> Vec<EngineerRow> {
    let risk = |job: &PlannedJob| {
        job.holes.iter().map(|&hole| plan.holes[hole].judgement.risk.value).fold(f64::NEG_INFINITY, f64::max)
    };
    let mut jobs: Vec<&PlannedJob> = plan.jobs.iter().filter(|job| !job.patch.is_patch()).collect();
    jobs.sort_by(|a, b| risk(b).total_cmp(&risk(a)));
    jobs.into_iter().map(|job| engineer_row(plan, units, job)).collect()
}

fn engineer_row(plan: &Plan, units: Units, job: &PlannedJob) -> EngineerRow {
    let site = &plan.sites[job.site];
    let names: Vec<String> = job.cut.holes.iter().take(3).map(|id| shorten_name(&id.0, 18)).collect();
    let chainage =
        job.holes.first().map(|&hole| words::chainage(plan, units, site, plan.holes[hole].position.chainage));
    let due = job.holes.iter().filter_map(|&hole| plan.holes[hole].judgement.due).min();
    let reasons: Vec<&str> = job.patch.against.iter().map(|against| against.words.as_str()).collect();
    EngineerRow {
        hole: names.join(", "),
        road: shorten(&plan.network.section(site.zone.section).label(), 40),
        chainage: chainage.unwrap_or_default(),
        due: due.map_or_else(|| "–".into(), |day| short_date(units, day)),
        overdue: due.is_some_and(|day| day < plan.date),
        figures: units.words.say_with(
            "sheet-engineer-figures",
            [
                ("area", units.area(job.cut.area.value).into()),
                ("depth", units.depth(job.repair.depth.p90()).into()),
                ("base", units.solid(job.repair.loose_volume.p90()).into()),
                ("spoil", units.solid(job.repair.spoil_volume.p90()).into()),
                ("work", units.duration(job.repair.duration.p90()).into()),
            ],
        ),
        reasons: shorten(&reasons.join("; "), 300),
    }
}

fn row(plan: &Plan, units: Units, left: &LeftOut, hole: Option<&PlannedHole>) -> LeftOutRow {
    let service = hole
        .and_then(|h| plan.jobs.get(h.job))
        .and_then(|job| plan.problem.sites.get(job.site))
        .map(|site| units.duration(seconds(f64::from(site.service_s))));
    let due = hole.and_then(|h| h.judgement.due);
    LeftOutRow {
        hole: shorten_name(&left.hole.0, 18),
        road: shorten(&left.road, 40),
        severity: hole.map_or_else(|| "–".into(), |hole| severity_words(units, hole)),
        due: due.map_or_else(|| "–".into(), |day| short_date(units, day)),
        overdue: due.is_some_and(|day| day < plan.date),
        work: service.unwrap_or_else(|| "–".into()),
        words: shorten(&left.words, 160),
    }
}

/// The severity, and the day from which it may be worse if nothing is done.
fn severity_words(units: Units, hole: &PlannedHole) -> String {
    let now = severity_word(units, hole.judgement.severity);
    match hole.judgement.outlook.worse {
        Some((worse, day)) => {
            let (worse, day) = (severity_word(units, Some(worse)), short_date(units, day));
            let values = [("now", now.into()), ("worse", worse.into()), ("day", day.into())];
            units.words.say_with("sheet-severity-may-be-worse", values)
        }
        None => now,
    }
}

/// How many were left out, why, and how many of them are overdue.
pub fn left_out_summary(plan: &Plan, units: Units) -> String {
    if plan.of_work_plan {
        return units.words.say("sheet-left-out-of-work-plan");
    }
    if plan.left_out.is_empty() {
        return units.words.say("sheet-left-out-none");
    }
    let mut groups: BTreeMap<(u8, String), usize> = BTreeMap::new();
    for left in &plan.left_out {
        // Without a code the words say it; details after a colon stand in the list.
        let said = left.words.split(':').next().unwrap_or_default();
        let (rank, words) = match reason_key(left.reason) {
            Some((rank, key)) => (rank, units.words.say(key)),
            None if left.distance.is_none() && !said.is_empty() => (9, shorten(said, 70)),
            None => (9, units.words.say("sheet-left-out-off-roads")),
        };
        *groups.entry((rank, words)).or_default() += 1;
    }
    let several = groups.len() > SUMMARY_REASONS_MAX;
    let mut parts: Vec<String> =
        groups.iter().take(SUMMARY_REASONS_MAX).map(|((_, words), count)| format!("{count} {words}")).collect();
    if several {
        let rest: usize = groups.values().skip(SUMMARY_REASONS_MAX).sum();
        parts.push(units.counted("sheet-left-out-other", rest));
    }
    let values = [
        ("count", plan.left_out.len().into()),
        ("overdue", overdue_left_out(plan).into()),
        ("reasons", parts.join("; ").into()),
    ];
    units.words.say_with("sheet-left-out-summary", values)
}

/// Holes left out whose day to be mended is past.
pub fn overdue_left_out(plan: &Plan) -> usize {
    let overdue: BTreeMap<&HoleId, bool> =
        plan.holes.iter().map(|h| (&h.hole.id, h.judgement.due.is_some_and(|day| day < plan.date))).collect();
    plan.left_out.iter().filter(|l| overdue.get(&l.hole) == Some(&true)).count()
}

fn reason_key(reason: Option<LeftOutReason>) -> Option<(u8, &'static str)> {
    Some(match reason? {
        LeftOutReason::LessUrgent => (0, "sheet-left-out-less-urgent"),
        LeftOutReason::NotWorthTheTime => (1, "sheet-left-out-not-worth"),
        LeftOutReason::NoWindow => (2, "sheet-left-out-no-window"),
        LeftOutReason::ExceedsShift => (3, "sheet-left-out-exceeds-shift"),
        LeftOutReason::ExceedsTruck(_) => (4, "sheet-left-out-exceeds-truck"),
        LeftOutReason::Unreachable => (5, "sheet-left-out-unreachable"),
        LeftOutReason::NotAPatch => (6, "sheet-left-out-not-a-patch"),
        LeftOutReason::NoCrew => (7, "sheet-left-out-no-crew"),
        LeftOutReason::AsAsked => (8, "sheet-left-out-as-asked"),
    })
}

/// The problems, those that cost a record first, all of one record in one row.
pub fn problems(plan: &Plan, units: Units) -> ProblemList {
    let mut order: Vec<&Problem> = plan.problems.iter().collect();
    order.sort_by_key(|p| std::cmp::Reverse(p.severity));
    let mut records: Vec<Vec<&Problem>> = Vec::new();
    let mut place: BTreeMap<(&str, usize, &str), usize> = BTreeMap::new();
    for problem in order {
        let key = (problem.at.file.as_str(), problem.at.line, problem.subject.as_str());
        let index = *place.entry(key).or_insert(records.len());
        if index == records.len() {
            records.push(Vec::new());
        }
        records[index].push(problem);
    }
    let rest: usize = records.iter().skip(RECORDS_MAX).map(Vec::len).sum();
    ProblemList {
        rows: records.iter().take(RECORDS_MAX).map(|r| record_row(units, r)).collect(),
        more: if rest == 0 { String::new() } else { units.counted("sheet-more-problems", rest) },
    }
}

fn record_row(units: Units, problems: &[&Problem]) -> RecordRow {
    let first = problems[0];
    let mut at = first.at.clone();
    at.file = at.file.rsplit(['/', '\\']).next().unwrap_or_default().to_owned();
    if problems.len() > 1 {
        at.column = 0;
    }
    let mut texts: Vec<String> = problems
        .iter()
        .take(OF_ONE_RECORD_MAX)
        .map(|p| {
            if p.right.is_empty() { shorten(&p.wrong, 220) } else { shorten(&format!("{}; {}", p.wrong, p.right), 220) }
        })
        .collect();
    if problems.len() > OF_ONE_RECORD_MAX {
        texts.push(units.counted("sheet-and-more", problems.len() - OF_ONE_RECORD_MAX));
    }
    RecordRow { at: shorten_name(&at.to_string(), 34), subject: shorten_name(&first.subject, 18), texts }
}

/// How much was wrong with the input.
pub fn problems_summary(plan: &Plan, units: Units) -> String {
    if plan.of_work_plan {
        return units.words.say("sheet-input-of-work-plan");
    }
    let all = plan.problems.len();
    if all == 0 {
        return units.words.say("sheet-input-fine");
    }
    // A row may have several things wrong with it and is refused once.
    let places = plan
        .problems
        .iter()
        .filter(|p| p.severity != ProblemSeverity::Warning)
        .map(|p| (&p.at.file, p.at.line, &p.subject));
    let refused = places.collect::<std::collections::BTreeSet<_>>().len();
    units.words.say_with("sheet-input-summary", [("count", all.into()), ("refused", refused.into())])
}
