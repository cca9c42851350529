//! Risk that is left: holes told of and neither mended nor resurfaced by the end.

use std::collections::{BTreeMap, HashSet};

use model::month_report::{MonthLeft, OpenHole};
use uuid::Uuid;

use crate::report::MonthFacts;

/// Holes listed at most.
const WORST: usize = 10;

pub(crate) fn left(facts: &MonthFacts) -> MonthLeft {
    let last = facts.until();
    let by_then = |repair: &&lasting::patch_lives::StudiedRepair| facts.day(repair.begin) <= last;
    let mended: HashSet<Uuid> =
        facts.study.repairs.iter().filter(by_then).flat_map(|repair| repair.holes.iter().copied()).collect();
    let mut left = MonthLeft::default();
    let mut severities: BTreeMap<&str, usize> = BTreeMap::new();
    let is_left =
        |hole: &&lasting::from_record::ToldHole| hole.counts() && !hole.is_dismissed() && !mended.contains(&hole.hole);
    for hole in facts.holes.iter().filter(is_left) {
        if hole.resurfaced.is_some_and(|at| facts.day(at) <= last) {
            continue;
        }
        let Some(told) = hole.told.map(|at| facts.day(at)).filter(|day| *day <= last) else { continue };
        left.open += 1;
        let Some(judged) = &hole.judged else { continue };
        let overdue = judged.due.is_some_and(|due| due < last);
        left.judged += 1;
        left.overdue += usize::from(overdue);
        left.risk += judged.risk;
        *severities.entry(&judged.severity).or_default() += 1;
        left.worst.push(OpenHole {
            hole: hole.hole.to_string(),
            road: hole.road.clone(),
            risk: judged.risk,
            severity: judged.severity.clone(),
            due: judged.due,
            overdue,
            days_open: told.until(last).map_or(0, |span| i64::from(span.get_days())),
        });
    }
    left.worst.sort_by(|a, b| b.risk.total_cmp(&a.risk).then(a.hole.cmp(&b.hole)));
    left.worst.truncate(WORST);
    let rank = |word: &str| ["high", "medium", "low"].iter().position(|known| *known == word).unwrap_or(3);
    left.by_severity = severities.into_iter().map(|(word, count)| (word.to_owned(), count)).collect();
    left.by_severity.sort_by_key(|(word, _)| rank(word));
    left
}
