//! From located holes to jobs: one cut each, with its repair.

use std::collections::BTreeMap;

use markout::WheelPath;
use model::cut_out::{CutOut, FrameOutline};
use model::district::District;
use model::hole::{Hole, LanePosition};
use model::learnt::{LearntRoad, UseFactors};
use model::place::{RoadPosition, Side, Travel};
use model::plan::LeftOut;
use model::problem::{Problem, ProblemSeverity};
use model::quantity::{InLength, InRatio, Length, metres};
use model::repair::Repair;
use model::road::{RoadSection, SectionId};
use model::round::Demand;
use model::rules::markout::WheelPathRules;
use repair::RepairInput;
use roads::Network;

use crate::Rules;
use crate::locate::{Located, lane_middles};

/// A cut with its repair and what the truck must bring for it.
#[derive(Clone)]
pub(crate) struct Job {
    /// Indexes into the located holes.
    pub holes: Vec<usize>,
    pub section: SectionId,
    pub side: Side,
    pub travel: Travel,
    pub shoulder: bool,
    pub cut: CutOut,
    pub depth: Length,
    pub repair: Repair,
    /// At the load's confidence.
    pub demand: Demand,
    /// Index of the kind of crew whose plant it is worked out for: the first that can do it.
    pub kind: usize,
    /// What the record teaches of such repairs.
    pub factors: UseFactors,
}

/// What could not be made into a job.
#[derive(Default)]
pub(crate) struct Refusals {
    pub left_out: Vec<LeftOut>,
    pub problems: Vec<Problem>,
}

/// Cuts lie in one lane: the holes that may share one.
type LaneKey = (SectionId, Side, Travel, bool);

/// Marks out and works out every repair, for the first of the kinds of crew that has the plant for it; `kinds` is the district as
/// each of them works in it. Jobs come in the order of section, side and first hole.
pub(crate) fn make(
    located: &[Located],
    network: &Network,
    kinds: &[&District],
    rules: &Rules,
    refusals: &mut Refusals,
) -> Vec<Job> {
    let mut lanes: BTreeMap<LaneKey, Vec<usize>> = BTreeMap::new();
    for (index, found) in located.iter().enumerate() {
        let on_shoulder = found.hole.lane_position == Some(LanePosition::Shoulder);
        let position = &found.position;
        lanes.entry((position.section, position.side, position.travel, on_shoulder)).or_default().push(index);
    }
    let mut jobs = Vec::new();
    for (key, holes) in lanes {
        for cut in cuts(key, holes, located, network, rules, refusals) {
            jobs.extend(job(key, cut, located, network, kinds, rules, refusals));
        }
    }
    jobs
}

/// The cuts of one lane. A hole that can't be marked out is refused; the others go on without it.
fn cuts(
    key: LaneKey,
    mut holes: Vec<usize>,
    located: &[Located],
    network: &Network,
    rules: &Rules,
    refusals: &mut Refusals,
) -> Vec<CutOut> {
    let section = network.section(key.0);
    let (left, right) = pavement(section, key.3, key.1);
    let pavement = markout::Pavement {
        across_min_m: left.in_metres(),
        across_max_m: right.in_metres(),
        along_min_m: 0.0,
        along_max_m: network.length(key.0).in_metres(),
        wheel_paths: wheel_paths(section.lanes, section.width, &rules.mark_out.wheel_path),
    };
    holes.retain(|&hole| match markout::check_outline(&located[hole].outline, &pavement) {
        Ok(()) => true,
        Err(error) => {
            refuse(&located[hole].hole, &error.to_string(), "plan.hole.outline", refusals);
            false
        }
    });
    let outlines: Vec<FrameOutline> = holes.iter().map(|&hole| located[hole].outline.clone()).collect();
    match markout::mark_out(&outlines, &pavement, &rules.mark_out) {
        Ok(cuts) => cuts,
        Err(error) => {
            for hole in holes {
                refuse(&located[hole].hole, &error.to_string(), "plan.hole.outline", refusals);
            }
            Vec::new()
        }
    }
}

fn job(
    key: LaneKey,
    mut cut: CutOut,
    located: &[Located],
    network: &Network,
    kinds: &[&District],
    rules: &Rules,
    refusals: &mut Refusals,
) -> Option<Job> {
    let section = network.section(key.0);
    let holes: Vec<usize> =
        cut.holes.iter().filter_map(|id| located.iter().position(|found| found.hole.id == *id)).collect();
    cut.remarks.extend(holes.iter().map(|&hole| located[hole].remark.clone()).filter(|remark| !remark.is_empty()));
    // Dug to one firm, flat bottom: the deepest hole decides.
    let depth = holes.iter().map(|&hole| located[hole].hole.depth).fold(metres(0.0), Length::max);
    let lane = (key.1, key.3);
    let road = LearntRoad::of(section);
    let learnt = |district: &District| rules.learnt.factors(&road, &district.crew.name);
    let checked = |district: &District| input(&cut, depth, section, lane, district).learnt(learnt(district)).check();
    let Some(kind) = kinds.iter().position(|district| checked(district).is_ok()) else {
        // What the first kind lacks is said; the others lack something too.
        let errors = kinds.first().and_then(|district| checked(district).err());
        let wrong: Vec<String> = errors.iter().flatten().map(ToString::to_string).collect();
        for &hole in &holes {
            refuse(&located[hole].hole, &wrong.join("; "), "plan.repair.input", refusals);
        }
        return None;
    };
    let district = kinds[kind];
    let factors = learnt(district);
    let input = input(&cut, depth, section, lane, district).learnt(factors);
    let repair = repair::repair(&input, &rules.repair);
    let demand = repair::at_quantile(&input, &rules.repair, district.planning.load_confidence.in_fraction());
    let (section, side, travel, shoulder) = key;
    Some(Job { holes, section, side, travel, shoulder, cut, depth, repair, demand, kind, factors })
}

/// What the repair of a cut is worked out from.
fn input<'a>(
    cut: &'a CutOut,
    depth: Length,
    section: &RoadSection,
    (side, on_shoulder): (Side, bool),
    district: &'a District,
) -> RepairInput<'a> {
    let (left, right) = pavement(section, on_shoulder, side);
    let pavement = Some(repair::Pavement { left, right });
    RepairInput::for_cut(cut, pavement, depth, None, section.vehicles_per_day, district).on_road(section.class)
}

impl Job {
    /// What its repair is worked out from.
    pub fn input<'a>(&'a self, network: &Network, district: &'a District) -> RepairInput<'a> {
        let section = network.section(self.section);
        input(&self.cut, self.depth, section, (self.side, self.shoulder), district).learnt(self.factors)
    }
}

/// Edges of the seal across, or of the shoulder where the work lies on it.
fn pavement(section: &RoadSection, on_shoulder: bool, side: Side) -> (Length, Length) {
    let half = section.width / 2.0;
    match (on_shoulder, side) {
        (false, _) => (-half, half),
        (true, Side::Right) => (-half, half + section.shoulder),
        (true, Side::Left) => (-half - section.shoulder, half),
    }
}

/// The strips that wheels run on: two in each lane, beside its middle; lanes share the seal's width evenly.
pub fn wheel_paths(lanes: u32, width: Length, rules: &WheelPathRules) -> Vec<WheelPath> {
    let (offset, half_strip) = (rules.offset_m.value, rules.strip_m.value / 2.0);
    if half_strip <= 0.0 {
        return Vec::new();
    }
    lane_middles(lanes, width)
        .flat_map(|middle| [middle - offset, middle + offset])
        .map(|middle| WheelPath { across_min_m: middle - half_strip, across_max_m: middle + half_strip })
        .collect()
}

/// Plan area of a ring, m2, by the shoelace formula.
pub(crate) fn ring_area(outline: &FrameOutline) -> f64 {
    let ring = &outline.ring;
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(a, b)| a.along_m * b.across_m - b.along_m * a.across_m).sum::<f64>().abs() / 2.0
}

/// Drops the holes that no job holds, so that every hole left has one.
pub(crate) fn keep_made(located: &mut Vec<Located>, jobs: &mut [Job]) {
    let mut made = vec![false; located.len()];
    jobs.iter().flat_map(|job| &job.holes).for_each(|&hole| made[hole] = true);
    let mut next = 0;
    let moved: Vec<usize> = made
        .iter()
        .map(|&is_made| {
            next += usize::from(is_made);
            next.saturating_sub(1)
        })
        .collect();
    for hole in jobs.iter_mut().flat_map(|job| &mut job.holes) {
        *hole = moved[*hole];
    }
    let mut is_made = made.into_iter();
    located.retain(|_| is_made.next().unwrap_or(false));
}

fn refuse(hole: &Hole, wrong: &str, code: &'static str, refusals: &mut Refusals) {
    refusals.problems.push(Problem {
        code,
        severity: ProblemSeverity::Refused,
        at: hole.from.clone(),
        subject: hole.id.0.clone(),
        wrong: wrong.to_owned(),
        right: "correct the hole's size or outline, or the district file".into(),
    });
}

/// A position of that chainage on the lane of `like`.
pub(crate) fn position_at(
    network: &Network,
    like: (SectionId, Side, Travel),
    chainage: Length,
    across: Length,
) -> RoadPosition {
    let length = network.length(like.0);
    let chainage = chainage.max(metres(0.0)).min(length);
    let (_, azimuth_deg) = network.point_at(like.0, chainage);
    RoadPosition { section: like.0, chainage, across, side: like.1, travel: like.2, distance: metres(0.0), azimuth_deg }
}

#[cfg(test)]
mod tests {
    use model::figure::Source;
    use model::rules::Sourced;

    use super::*;

    #[test]
    fn each_lane_has_two_wheel_paths() {
        fn sourced<T>(value: T) -> Sourced<T> {
            Sourced { value, source: Source::common_practice() }
        }
        let mut rules = WheelPathRules {
            keep_clear: sourced(true),
            offset_m: sourced(0.9),
            strip_m: sourced(0.6),
            greatest_shift_m: sourced(0.3),
        };
        // Two lanes of 3.2 m: middles at -1.6 and 1.6, paths around -2.5, -0.7, 0.7 and 2.5.
        let borders = |paths: &[WheelPath]| paths.iter().map(|p| [p.across_min_m, p.across_max_m]).collect::<Vec<_>>();
        let expected = [[-2.8, -2.2], [-1.0, -0.4], [0.4, 1.0], [2.2, 2.8]];
        for (got, expected) in borders(&wheel_paths(2, metres(6.4), &rules)).iter().zip(expected) {
            assert!((got[0] - expected[0]).abs() < 1e-9 && (got[1] - expected[1]).abs() < 1e-9, "{got:?} {expected:?}");
        }
        // No lane count is one lane.
        assert_eq!(wheel_paths(0, metres(3.0), &rules).len(), 2);
        rules.strip_m.value = 0.0;
        assert!(wheel_paths(2, metres(6.4), &rules).is_empty());
    }
}
