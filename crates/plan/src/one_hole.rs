//! Several reports of one hole become one located hole.

use model::district::District;
use model::figure::Source;
use model::hole::{EarlierRepairs, Hole, Shape};
use model::plan::HoleReport;
use model::problem::{Problem, ProblemSeverity};
use model::quantity::metres;
use roads::Network;
use triage::same_hole::{Leading, Report, leading, same_holes};

use crate::Rules;
use crate::jobs::Refusals;
use crate::locate::{self, Located};

/// Joins the reports of each hole. The holes come in the order of their first report in the list.
pub(crate) fn join(
    located: &[Located],
    network: &Network,
    district: &District,
    rules: &Rules,
    refusals: &mut Refusals,
) -> Vec<Located> {
    refusals.problems.extend(located.iter().filter_map(|found| unknown_source(&found.hole, rules)));
    let reports: Vec<Report> = located.iter().map(report).collect();
    let joined = same_holes(&reports, &rules.matching).into_iter().map(|members| {
        if let [only] = members[..] {
            return located[only].clone();
        }
        let led = leading(&members, &reports, &rules.matching, district.units);
        let hole = one_hole(&led, located);
        let found = locate::lay(&hole, located[led.leader].position, network, &rules.planning);
        let source = &rules.matching.growth_ratio.source;
        Located { sized: led.sized, reports: told(&led, located, source), ..found }
    });
    joined.collect()
}

/// What the matching needs to know of a report.
pub(crate) fn report(found: &Located) -> Report {
    let extent = |get: fn(&model::place::FramePoint) -> f64| {
        let values = || found.outline.ring.iter().map(get);
        metres(values().fold(f64::NEG_INFINITY, f64::max) - values().fold(f64::INFINITY, f64::min))
    };
    Report {
        id: found.hole.id.clone(),
        section: found.position.section,
        chainage: found.position.chainage,
        across: found.position.across,
        lane_position: found.hole.lane_position,
        length: extent(|point| point.along_m),
        width: extent(|point| point.across_m),
        depth: found.hole.depth,
        seen: found.hole.seen,
        source: found.hole.source.clone(),
    }
}

/// The hole that its reports tell of together.
fn one_hole(led: &Leading, located: &[Located]) -> Hole {
    let leader = &located[led.leader].hole;
    let others = || led.others.iter().map(|(other, _)| &located[*other].hole);
    let all = || std::iter::once(leader).chain(others());
    let mut hole = Hole {
        seen: led.first_seen,
        wetness: all().filter_map(|report| report.wetness).max(),
        lane_position: all().find_map(|report| report.lane_position),
        repairs: all().filter_map(|report| report.repairs.clone()).reduce(more_repairs),
        note: joined_notes(leader, others()),
        ..leader.clone()
    };
    if let Some([length, width, depth]) = led.largest_told {
        hole.depth = depth;
        // A drawn outline is more than a guessed length and width.
        if matches!(hole.shape, Shape::Size { .. }) {
            hole.shape = Shape::Size { length, width };
        }
    }
    hole
}

/// Days told by several are the same repairs; of counts the larger.
fn more_repairs(one: EarlierRepairs, other: EarlierRepairs) -> EarlierRepairs {
    use EarlierRepairs::{Count, Days};
    match (one, other) {
        (Count(one), Count(other)) => Count(one.max(other)),
        (Days(mut one), Days(other)) => {
            one.extend(other);
            one.sort_unstable();
            one.dedup();
            Days(one)
        }
        (Count(count), Days(days)) | (Days(days), Count(count)) => {
            if count as usize > days.len() {
                Count(count)
            } else {
                Days(days)
            }
        }
    }
}

fn joined_notes<'h>(leader: &Hole, others: impl Iterator<Item = &'h Hole>) -> String {
    let own = std::iter::once(leader.note.clone());
    let told = others.filter(|other| !other.note.is_empty()).map(|other| format!("{}: {}", other.id.0, other.note));
    own.chain(told).filter(|note| !note.is_empty()).collect::<Vec<_>>().join("; ")
}

/// Every report with what it counts for.
fn told(led: &Leading, located: &[Located], source: &Source) -> Vec<HoleReport> {
    let counts_for = if led.largest_told.is_some() {
        "gives name and place; nobody measured, so the largest size told counts"
    } else {
        "gives name, place and size: the latest that was measured"
    };
    let first = std::iter::once((led.leader, format!("{counts_for} [{source}]")));
    first
        .chain(led.others.iter().cloned())
        .map(|(member, words)| HoleReport { words, ..as_report(&located[member].hole) })
        .collect()
}

/// A report that is the only one of its hole.
pub(crate) fn as_report(hole: &Hole) -> HoleReport {
    HoleReport {
        id: hole.id.clone(),
        source: hole.source.clone(),
        seen: hole.seen,
        from: hole.from.clone(),
        words: String::new(),
    }
}

/// A word that the rules do not list.
fn unknown_source(hole: &Hole, rules: &Rules) -> Option<Problem> {
    let known = &rules.matching.source;
    (!hole.source.is_empty() && !known.contains_key(&hole.source)).then(|| Problem {
        code: "plan.report.source_unknown",
        severity: ProblemSeverity::Warning,
        at: hole.from.clone(),
        subject: hole.id.0.clone(),
        wrong: format!("the source `{}` is not known and counts as not told", hole.source),
        right: format!(
            "one of: {}; or your own in matching/common-practice.toml beside the district file",
            known.keys().map(String::as_str).collect::<Vec<_>>().join(", ")
        ),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn earlier_repairs_of_several_reports() {
        let (march, june) = (date(2026, 3, 1), date(2026, 6, 1));
        let cases = [
            (EarlierRepairs::Count(2), EarlierRepairs::Count(3), EarlierRepairs::Count(3)),
            (
                EarlierRepairs::Days(vec![june]),
                EarlierRepairs::Days(vec![march, june]),
                EarlierRepairs::Days(vec![march, june]),
            ),
            (EarlierRepairs::Count(1), EarlierRepairs::Days(vec![march]), EarlierRepairs::Days(vec![march])),
            (EarlierRepairs::Days(vec![march]), EarlierRepairs::Count(2), EarlierRepairs::Count(2)),
        ];
        for (one, other, expected) in cases {
            assert_eq!(more_repairs(one, other), expected);
        }
    }
}
