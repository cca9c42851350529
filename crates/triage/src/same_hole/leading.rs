//! What a crew leader wants of several reports of one hole: the latest measured size, else the largest told; the first
//! day it was seen; the place of the report that knows it best.

use std::cmp::Ordering;

use jiff::civil::Date;
use model::district::UnitSystem;
use model::quantity::{InLength, Length, metres};
use model::rules::matching::MatchingRules;

use super::Report;
use super::pair::{pair, size_words};

/// Which of several reports of one hole counts for what.
#[derive(Debug, Clone, PartialEq)]
pub struct Leading {
    /// The report that gives place and name: the latest measured one, else the one that is placed best.
    pub leader: usize,
    /// Length, width and depth where they are not the leader's: nobody measured, and the largest of each told counts.
    pub largest_told: Option<[Length; 3]>,
    /// Day of the size.
    pub sized: Option<Date>,
    /// The first day any of them was seen.
    pub first_seen: Option<Date>,
    /// Why each of the others is taken to be of this hole, in the order of the first day, then of the identifier.
    pub others: Vec<(usize, String)>,
}

/// Looks through the reports of one hole; `members` are indexes into `reports`, at least one. `units` are those of the
/// words.
pub fn leading(members: &[usize], reports: &[Report], rules: &MatchingRules, units: UnitSystem) -> Leading {
    let of = |member: &usize| &reports[*member];
    let measured = members.iter().filter(|member| rules.of(&of(member).source).measures);
    let latest = measured.max_by(|a, b| later(of(a), of(b))).copied();
    let placed_best = || members.iter().min_by(|a, b| placed(of(a), of(b), rules)).copied();
    let leader = latest.or_else(placed_best).unwrap_or_default();
    let largest = |size: fn(&Report) -> Length| members.iter().map(|m| size(of(m))).fold(metres(0.0), Length::max);
    let is_estimate = latest.is_none() && members.len() > 1;
    let mut others: Vec<usize> = members.iter().copied().filter(|member| *member != leader).collect();
    others.sort_by(|a, b| {
        let day = |member: &usize| of(member).seen.unwrap_or(Date::MAX);
        day(a).cmp(&day(b)).then_with(|| of(a).id.cmp(&of(b).id))
    });
    Leading {
        leader,
        largest_told: is_estimate.then(|| [largest(|r| r.length), largest(|r| r.width), largest(|r| r.depth)]),
        sized: if is_estimate { members.iter().filter_map(|m| of(m).seen).max() } else { reports[leader].seen },
        first_seen: members.iter().filter_map(|member| of(member).seen).min(),
        others: others
            .into_iter()
            .map(|other| (other, words(&reports[leader], &reports[other], latest.is_some(), rules, units)))
            .collect(),
    }
}

/// Why the other report is of the leader's hole, and what in it should make the crew look first.
fn words(leader: &Report, other: &Report, is_measured: bool, rules: &MatchingRules, units: UnitSystem) -> String {
    let close = pair(leader, other, rules, units).map_or_else(|apart| apart, |close| close.words);
    let after = other.seen.zip(leader.seen).is_none_or(|(other, leader)| other > leader);
    let ratio = rules.growth_ratio.value;
    let grown = |size: fn(&Report) -> f64| size(other) > size(leader) * ratio;
    let is_larger = grown(|r| (r.length.in_metres() * r.width.in_metres()).sqrt()) || grown(|r| r.depth.in_metres());
    if is_measured && after && is_larger {
        format!("{close}; tells of a larger hole, {}: look before loading", size_words(other, units))
    } else {
        close
    }
}

/// Later first seen; of one day the larger, then the name that comes first.
fn later(a: &Report, b: &Report) -> Ordering {
    a.seen.cmp(&b.seen).then_with(|| larger(a, b)).then_with(|| b.id.cmp(&a.id))
}

/// Placed better; of equals the later, the larger, the name that comes first.
fn placed(a: &Report, b: &Report, rules: &MatchingRules) -> Ordering {
    let off = |report: &Report| {
        let source = rules.of(&report.source);
        source.along_m.hypot(source.across_m)
    };
    off(a).total_cmp(&off(b)).then_with(|| later(b, a))
}

fn larger(a: &Report, b: &Report) -> Ordering {
    let volume = |report: &Report| report.length.in_metres() * report.width.in_metres() * report.depth.in_metres();
    volume(a).total_cmp(&volume(b))
}
