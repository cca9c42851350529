//! Which cuts are worked under one zone: the cheapest way to part a lane's cuts into runs.

use model::place::{Side, Travel};
use model::quantity::{InLength, Length};
use model::road::SectionId;
use model::rules::traffic::TrafficRules;

use crate::cheapest_runs::cheapest_runs;

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

/// Groups of cuts (indexes into `cuts`) that share a zone, so that the sum of their prices is least; of equal sums the one
/// with the fewest zones. A group is a run of neighbours along one lane and direction, no gap above the rule's, first cut
/// to last at most the rule's longest work space. Each cut is in exactly one group.
///
/// `price` is asked for runs (indexes into `cuts`, by chainage): the price of one zone for them in whole units as small as
/// matters, `None` where they may not share. A cut always may stand alone, whatever it is told of it.
///
/// Groups are in the order of section, lane and chainage; a chainage that is not a number stands alone.
pub fn share(
    cuts: &[LaneCut],
    rules: &TrafficRules,
    price: &mut dyn FnMut(&[usize]) -> Option<u64>,
) -> Vec<Vec<usize>> {
    let mut order: Vec<usize> = (0..cuts.len()).collect();
    order.sort_by(|&a, &b| {
        let (cut, other) = (&cuts[a], &cuts[b]);
        lane(cut).cmp(&lane(other)).then_with(|| ends(cut).0.total_cmp(&ends(other).0)).then(a.cmp(&b))
    });
    let reach = Reach::of(rules);
    let mut groups = Vec::new();
    for whole_lane in order.chunk_by(|&a, &b| lane(&cuts[a]) == lane(&cuts[b])) {
        let along: Vec<(f64, f64)> = whole_lane.iter().map(|&cut| ends(&cuts[cut])).collect();
        let longest = |start: usize| start + reach.end(&along[start..]);
        let runs = cheapest_runs(whole_lane.len(), longest, |run| price(&whole_lane[run]));
        groups.extend(runs.into_iter().map(|run| whole_lane[run].to_vec()));
    }
    groups
}

/// How far one zone may reach along a lane.
struct Reach {
    /// Largest gap between two cuts, metres.
    gap_max: f64,
    /// First cut to last at most, metres.
    length_max: f64,
}

impl Reach {
    fn of(rules: &TrafficRules) -> Self {
        let metres = |in_set: f64| rules.units.length(in_set).in_metres();
        Reach {
            gap_max: metres(rules.work_space.share_gap.value),
            length_max: metres(rules.work_space.work_space_max.value),
        }
    }

    /// Where the longest run from the first of these cuts on ends. A chainage that is no number holds nothing but itself.
    fn end(&self, ends: &[(f64, f64)]) -> usize {
        let (start, mut furthest) = ends[0];
        let further = ends[1..].iter().take_while(|(from, to)| {
            let holds = from - furthest <= self.gap_max && to.max(furthest) - start <= self.length_max;
            furthest = furthest.max(*to);
            holds
        });
        1 + further.count()
    }
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
