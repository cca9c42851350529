//! Several reports of one hole become one hole.
//!
//! Two reports can be of one hole when nothing tells them apart: distance along and across the road, place in the lane,
//! time, size, and that one pair of eyes on one day saw two ([`pair`]). Holes are then formed by **complete linkage**:
//! the nearest pairs first, and two groups join only when every report of one can be of one hole with every report of the
//! other. So no hole is wider than its reports' places are uncertain, and no row that was seen beside another ends up in
//! the same hole with it by way of a third. Ties go by identifier, so the order of the list does not matter.
//!
//! Which report the hole's size and place are taken from is in [`leading`].

mod leading;
mod pair;

use std::collections::BTreeMap;

use jiff::civil::Date;
use model::district::UnitSystem;
use model::hole::{HoleId, LanePosition};
use model::quantity::{InLength, Length};
use model::road::SectionId;
use model::rules::matching::MatchingRules;

pub use leading::{Leading, leading};
pub use pair::{Closeness, farthest_apart, pair, pair_apart};

/// What a report says, and where it was located.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// Its identifier, unique in the list.
    pub id: HoleId,
    /// Section it was located on.
    pub section: SectionId,
    /// Along the section.
    pub chainage: Length,
    /// Across, positive to the right, as located.
    pub across: Length,
    /// Where in the lane, where said.
    pub lane_position: Option<LanePosition>,
    /// Along the road, as told; no number ([`f64::NAN`]) where nothing is told, here and in width and depth. Only [`pair`] and
    /// [`pair_apart`] take such.
    pub length: Length,
    /// Across the road, as told.
    pub width: Length,
    /// Depth, as told.
    pub depth: Length,
    /// Day it was seen, where said.
    pub seen: Option<Date>,
    /// The word for its source; empty where not said.
    pub source: String,
}

/// Groups the reports into holes: each index is in exactly one group. Groups come in the order of their first member,
/// members in the order of the list.
pub fn same_holes(reports: &[Report], rules: &MatchingRules) -> Vec<Vec<usize>> {
    let each_alone = (0..reports.len()).map(|index| vec![index]).collect();
    let agree = |a: usize, b: usize| pair(&reports[a], &reports[b], rules, UnitSystem::Si).is_ok();
    join(each_alone, near_pairs(reports, rules), reports, &agree)
}

/// As [`same_holes`], where it is not known along which road the reports lie. `near` are the pairs no further apart than
/// [`farthest_apart`], each once; `apart` tells the distance of any two.
pub fn same_holes_apart(
    reports: &[Report],
    near: &[(usize, usize)],
    apart: &dyn Fn(usize, usize) -> Length,
    rules: &MatchingRules,
) -> Vec<Vec<usize>> {
    let each_alone = (0..reports.len()).map(|index| vec![index]).collect();
    let close = |a: usize, b: usize| pair_apart(&reports[a], &reports[b], apart(a, b), rules, UnitSystem::Si);
    let pairs = near.iter().filter_map(|&(a, b)| Some((close(a, b).ok()?.score, a, b))).collect();
    join(each_alone, pairs, reports, &|a, b| close(a, b).is_ok())
}

/// Joins groups, along the pairs that can be of one hole with how close they are, until no two of them can be of one hole.
/// Given its own result it changes nothing.
fn join(
    groups: Vec<Vec<usize>>,
    mut pairs: Vec<(f64, usize, usize)>,
    reports: &[Report],
    agree: &dyn Fn(usize, usize) -> bool,
) -> Vec<Vec<usize>> {
    let mut group_of: Vec<usize> = vec![0; reports.len()];
    for (group, members) in groups.iter().enumerate() {
        for &member in members {
            group_of[member] = group;
        }
    }
    let mut groups = groups;
    pairs.sort_by(|a, b| {
        let names = |pair: &(f64, usize, usize)| {
            let (one, other) = (&reports[pair.1].id, &reports[pair.2].id);
            if one < other { (one.clone(), other.clone()) } else { (other.clone(), one.clone()) }
        };
        a.0.total_cmp(&b.0).then_with(|| names(a).cmp(&names(b)))
    });
    for (_, one, other) in pairs {
        let (keep, give) = (group_of[one], group_of[other]);
        let all_agree = |groups: &[Vec<usize>]| groups[keep].iter().all(|&a| groups[give].iter().all(|&b| agree(a, b)));
        if keep != give && all_agree(&groups) {
            let moved = std::mem::take(&mut groups[give]);
            for &member in &moved {
                group_of[member] = keep;
            }
            groups[keep].extend(moved);
        }
    }
    groups.retain(|members| !members.is_empty());
    for members in &mut groups {
        members.sort_unstable();
    }
    groups.sort_unstable();
    groups
}

/// Pairs that can be of one hole, with how close they are, nearer is less.
fn near_pairs(reports: &[Report], rules: &MatchingRules) -> Vec<(f64, usize, usize)> {
    let close = |(one, other): (usize, usize)| {
        pair(&reports[one], &reports[other], rules, UnitSystem::Si).ok().map(|close| (close.score, one, other))
    };
    within_reach(reports, rules).into_iter().filter_map(close).collect()
}

/// Pairs on one section, no further apart along it than any two places may be off.
fn within_reach(reports: &[Report], rules: &MatchingRules) -> Vec<(usize, usize)> {
    let mut sections: BTreeMap<SectionId, Vec<usize>> = BTreeMap::new();
    for (index, report) in reports.iter().enumerate() {
        sections.entry(report.section).or_default().push(index);
    }
    let all_rules = rules.source.values().chain([&rules.unknown_source]);
    let reach_m = all_rules.map(|source| source.value.along_m).fold(0.0, f64::max) * std::f64::consts::SQRT_2;
    let mut pairs = Vec::new();
    for members in sections.values_mut() {
        members.sort_by(|&a, &b| reports[a].chainage.in_metres().total_cmp(&reports[b].chainage.in_metres()));
        for (place, &one) in members.iter().enumerate() {
            let near = |other: &&usize| (reports[**other].chainage - reports[one].chainage).in_metres() <= reach_m;
            pairs.extend(members[place + 1..].iter().take_while(near).map(|&other| (one.min(other), one.max(other))));
        }
    }
    pairs.sort_unstable();
    pairs
}

/// Pairs of reports in different holes that lie close enough to be one, and what tells them apart; in the order of the
/// list.
pub fn told_apart(
    reports: &[Report],
    holes: &[Vec<usize>],
    rules: &MatchingRules,
    units: UnitSystem,
) -> Vec<(usize, usize, String)> {
    let mut hole_of: Vec<usize> = vec![0; reports.len()];
    for (hole, members) in holes.iter().enumerate() {
        for &member in members {
            hole_of[member] = hole;
        }
    }
    let apart = |(one, other): (usize, usize)| {
        let words = pair::close_but_apart(&reports[one], &reports[other], rules, units)?;
        (hole_of[one] != hole_of[other]).then_some((one, other, words))
    };
    within_reach(reports, rules).into_iter().filter_map(apart).collect()
}

#[cfg(test)]
mod tests;
