//! The road around a section: its axis on both sides, and the roads that join.

use std::collections::BTreeSet;

use model::place::{LonLat, Side};
use model::quantity::{InLength, Length, metres};
use model::road::SectionId;
use model::road_around::{AxisEnd, RoadAround, SideRoad};

use crate::axis::{AxisNode, Followed};
use crate::geodesic::turn;
use crate::network::Network;
use crate::straight_on::SectionEnd;

impl Network {
    /// The road through a section, followed `reach_before` out from its start and `reach_after` from its end, and the
    /// roads that join it, each followed `side_reach` out.
    ///
    /// The road goes on as a driver would take it: the road of the same number or name, else the one that turns least,
    /// else the higher class. It stops where the road ends, at a junction where none goes straight on, at a roundabout,
    /// and where it comes back to a section it already runs on. The other legs of a roundabout that ends it are among the
    /// roads that join, at the chainage where it ends. A reach below zero, or not a number, counts as zero.
    pub fn around(
        &self,
        section: SectionId,
        reach_before: Length,
        reach_after: Length,
        side_reach: Length,
    ) -> RoadAround {
        let [before_m, after_m, side_m] = [reach_before, reach_after, side_reach].map(usable);
        let mut taken = BTreeSet::from([section]);
        let [before, after] = [(true, before_m), (false, after_m)].map(|(at_start, reach)| {
            let end = (section, at_start);
            // A ring has no road that goes on: whoever comes, comes round it.
            if self.section(section).roundabout {
                Followed { strides: Vec::new(), end: AxisEnd::Roundabout }
            } else {
                self.follow(end, reach, &mut taken)
            }
        });
        let origin = self.geometries[section.0 as usize].point_at(0.0).0;
        let (axis, nodes) = self.axis(&before, Some(section), &after, origin);
        let ring_at = |end: AxisEnd, chainage: Length| (end == AxisEnd::Roundabout).then_some(chainage);
        let rings = [
            axis.pieces.first().and_then(|piece| ring_at(axis.begins, piece.from)),
            axis.pieces.last().and_then(|piece| ring_at(axis.ends, piece.to)),
        ];
        let on_ring = self.section(section).roundabout;
        let side_roads = nodes
            .iter()
            .flat_map(|node| {
                if on_ring {
                    Vec::new()
                } else if rings.contains(&Some(metres(node.chainage))) {
                    self.legs_of_ring(node, &taken, side_m, origin)
                } else {
                    self.side_roads_at(node, &taken, side_m, origin)
                }
            })
            .collect();
        RoadAround { section, axis, side_roads }
    }

    /// The roads that meet the axis at a node.
    fn side_roads_at(&self, at: &AxisNode, axis: &BTreeSet<SectionId>, reach_m: f64, origin: LonLat) -> Vec<SideRoad> {
        let ends = self.ends_at[at.node.0 as usize].iter().filter(|(section, _)| !axis.contains(section));
        ends.map(|&end| self.side_road(end, at, axis, reach_m, origin)).collect()
    }

    /// The legs of the roundabout that the axis ends at, but those it runs on: all that meets a section of the ring.
    fn legs_of_ring(&self, at: &AxisNode, axis: &BTreeSet<SectionId>, reach_m: f64, origin: LonLat) -> Vec<SideRoad> {
        let mut ring = BTreeSet::new();
        let mut nodes = vec![at.node];
        let mut seen = BTreeSet::from([at.node]);
        let mut legs = BTreeSet::new();
        while let Some(node) = nodes.pop() {
            for &(section, at_start) in &self.ends_at[node.0 as usize] {
                if !self.section(section).roundabout {
                    if !axis.contains(&section) {
                        legs.insert((section, at_start));
                    }
                } else if ring.insert(section) {
                    let (from, to) = (self.section(section).from, self.section(section).to);
                    nodes.extend([from, to].into_iter().filter(|node| seen.insert(*node)));
                }
            }
        }
        legs.into_iter().map(|end| self.side_road(end, at, axis, reach_m, origin)).collect()
    }

    fn side_road(
        &self,
        end: SectionEnd,
        at: &AxisNode,
        axis: &BTreeSet<SectionId>,
        reach_m: f64,
        origin: LonLat,
    ) -> SideRoad {
        let section = self.section(end.0);
        let first = self.stride(end, reach_m);
        let mut taken = axis.clone();
        taken.insert(end.0);
        let rest = self.follow((end.0, !end.1), reach_m - self.length_m(end.0), &mut taken);
        let strides = std::iter::once(first).filter(|first| first.metres > 0.0).chain(rest.strides).collect();
        let nothing = Followed { strides: Vec::new(), end: AxisEnd::Junction };
        let outward = Followed { strides, end: rest.end };
        // Out of the junction is against the way by which the end is left.
        let azimuth = self.outward(end) + 180.0;
        SideRoad {
            at: metres(at.chainage),
            side: if turn(at.azimuth, azimuth) >= 0.0 { Side::Right } else { Side::Left },
            name: section.label(),
            class: section.class,
            speed: section.speed,
            traffic_comes_out: self.traffic_comes_in(end.0, !end.1),
            axis: self.axis(&nothing, None, &outward, origin).0,
        }
    }
}

fn usable(reach: Length) -> f64 {
    let reach = reach.in_metres();
    // Written so that not a number gives zero.
    if reach > 0.0 { reach } else { 0.0 }
}
