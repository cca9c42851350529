//! Which road goes on where a section ends: the one that a driver would call the same road.

use model::place::Travel;
use model::road::{Flow, NodeId, SectionId};

use crate::geodesic::turn;
use crate::network::Network;
use crate::routing::allows;

/// Another road goes straight on if it turns by no more than this at the node.
const GREATEST_TURN_DEG: f64 = 60.0;
/// A road of the same number or name may turn by this much.
const GREATEST_TURN_OF_SAME_ROAD_DEG: f64 = 120.0;
/// Turns within this of each other look alike to a driver: the class decides.
const TURNS_ALIKE_DEG: f64 = 10.0;

/// An end of a section: the section, and whether it is its start.
pub(crate) type SectionEnd = (SectionId, bool);

impl Network {
    /// The node at a section's end.
    pub(crate) fn node_at(&self, (section, at_start): SectionEnd) -> NodeId {
        let section = self.section(section);
        if at_start { section.from } else { section.to }
    }

    /// The other section ends at the node where this one ends.
    pub(crate) fn others_at(&self, end: SectionEnd) -> impl Iterator<Item = SectionEnd> {
        let NodeId(node) = self.node_at(end);
        self.ends_at[node as usize].iter().copied().filter(move |other| *other != end)
    }

    /// The section that goes on where this one starts or ends, and whether it is entered at its own start: the road of
    /// the same number or name, else the one that turns least, else the higher class. Roads that traffic could come
    /// from go first, unless this one only leads out. Where no other road meets, the one that is left goes on however
    /// it turns. A roundabout is no road that goes on.
    pub(crate) fn going_on(&self, end: SectionEnd) -> Option<SectionEnd> {
        let (section, at_start) = end;
        let heading = self.outward(end);
        let leads_out_only = !self.traffic_comes_in(section, at_start);
        let others = self.others_at(end).count();
        self.others_at(end)
            .filter(|(other, _)| !self.section(*other).roundabout)
            .map(|(other, start)| {
                let bend = turn(heading, self.outward((other, start)) + 180.0).abs();
                let same = self.same_road(section, other);
                let wrong_way = !self.traffic_comes_in(other, start == leads_out_only);
                let alike = (bend / TURNS_ALIKE_DEG).round() as u32;
                (same, bend, (!same, wrong_way, alike, self.section(other).class), (other, start))
            })
            .filter(|&(same, bend, ..)| {
                others == 1 || bend <= if same { GREATEST_TURN_OF_SAME_ROAD_DEG } else { GREATEST_TURN_DEG }
            })
            .min_by(|(_, bend, rank, end), (_, other_bend, other_rank, other_end)| {
                rank.cmp(other_rank).then(bend.total_cmp(other_bend)).then(end.cmp(other_end))
            })
            .map(|(.., end)| end)
    }

    /// Azimuth of leaving a section by its start or end.
    pub(crate) fn outward(&self, (section, at_start): SectionEnd) -> f64 {
        let geometry = &self.geometries[section.0 as usize];
        if at_start { geometry.point_at(0.0).1 + 180.0 } else { geometry.point_at(geometry.length()).1 }
    }

    /// Whether traffic may enter a section by its start or end.
    pub(crate) fn traffic_comes_in(&self, section: SectionId, at_start: bool) -> bool {
        allows(self.section(section).flow, if at_start { Travel::Forward } else { Travel::Backward })
    }

    pub(crate) fn same_road(&self, one: SectionId, other: SectionId) -> bool {
        let (one, other) = (self.section(one), self.section(other));
        (one.number == other.number && !one.number.is_empty()) || (one.name == other.name && !one.name.is_empty())
    }
}

/// Traffic allowed as seen the other way along.
pub(crate) fn flow_seen(flow: Flow, direction: Travel) -> Flow {
    match (flow, direction) {
        (Flow::Forward, Travel::Backward) => Flow::Backward,
        (Flow::Backward, Travel::Backward) => Flow::Forward,
        _ => flow,
    }
}
