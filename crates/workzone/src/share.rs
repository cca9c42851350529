//! Which cuts are worked under one zone.

use model::place::{Side, Travel};
use model::quantity::{InLength, Length};
use model::road::SectionId;
use model::rules::traffic::TrafficRules;

/// A cut's place in its lane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LaneCut {
    /// The section.
    pub section: SectionId,
    /// Direction of the traffic in its lane.
    pub travel: Travel,
    /// Side of the centre line.
    pub side: Side,
    /// Whether it lies on the shoulder only.
    pub shoulder_only: bool,
    /// Smallest chainage.
    pub from: Length,
    /// Largest chainage.
    pub to: Length,
}

/// Groups of cuts (indexes into `cuts`) that share a zone: same lane and direction, gap along the road at most the rule's,
/// first cut to last at most the rule's longest work space. Greedy along the chainage; each cut is in exactly one group.
/// Groups are in the order of section, lane and chainage; a chainage that is not a number stands alone.
pub fn share(cuts: &[LaneCut], rules: &TrafficRules) -> Vec<Vec<usize>> {
    let mut order: Vec<usize> = (0..cuts.len()).collect();
    order.sort_by(|&a, &b| {
        let (cut, other) = (&cuts[a], &cuts[b]);
        lane(cut).cmp(&lane(other)).then_with(|| ends(cut).0.total_cmp(&ends(other).0)).then(a.cmp(&b))
    });
    let gap_max = rules.units.length(rules.work_space.share_gap.value).in_metres();
    let length_max = rules.units.length(rules.work_space.work_space_max.value).in_metres();
    let mut groups: Vec<Vec<usize>> = Vec::new();
    // The group being filled: its first chainage and its last.
    let mut open: Option<(f64, f64)> = None;
    for index in order {
        let cut = &cuts[index];
        let (from, to) = ends(cut);
        let joined = open.zip(groups.last_mut()).filter(|((start, end), group)| {
            lane(&cuts[group[0]]) == lane(cut) && from - end <= gap_max && to.max(*end) - start <= length_max
        });
        if let Some(((start, end), group)) = joined {
            group.push(index);
            open = Some((start, end.max(to)));
        } else {
            groups.push(vec![index]);
            open = Some((from, to));
        }
    }
    groups
}

/// What cuts of one lane have in common.
fn lane(cut: &LaneCut) -> (SectionId, Travel, Side, bool) {
    (cut.section, cut.travel, cut.side, cut.shoulder_only)
}

/// The cut's chainages in metres, the smaller first; both not a number where one is.
fn ends(cut: &LaneCut) -> (f64, f64) {
    let (from, to) = (cut.from.in_metres(), cut.to.in_metres());
    if from.is_finite() && to.is_finite() { (from.min(to), from.max(to)) } else { (f64::NAN, f64::NAN) }
}
