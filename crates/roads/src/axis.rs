//! A road followed outward from a section's end, and the axis made of what was followed.

use std::collections::BTreeSet;

use model::place::{LonLat, Travel};
use model::quantity::metres;
use model::road::{NodeId, SectionId};
use model::road_around::{AxisEnd, AxisJunction, AxisPiece, AxisPoint, RoadAxis, Structure};

use crate::geodesic::{inverse, turn};
use crate::network::Network;
use crate::straight_on::{SectionEnd, flow_seen};

/// The map goes on beyond the end of a road where it has a node within this distance, metres, ...
const LOOKED_BEYOND_M: f64 = 1000.0;
/// ... and within this angle of the road's heading.
const LOOKED_ASIDE_DEG: f64 = 60.0;

/// Points of an axis nearer than this to each other are one point, metres.
pub(crate) const SAME_POINT_M: f64 = 1e-6;

/// A section on the way out: the end it is entered by, and how far it is followed from there, metres.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Stride {
    pub entered: SectionEnd,
    pub metres: f64,
}

/// A road followed outward.
#[derive(Debug, Clone)]
pub(crate) struct Followed {
    pub strides: Vec<Stride>,
    pub end: AxisEnd,
}

/// A stretch of a section in the order of the axis' chainage, metres.
#[derive(Debug, Clone, Copy)]
struct Run {
    section: SectionId,
    /// Chainage on the axis where it begins and ends.
    axis: (f64, f64),
    /// The section's own chainage there.
    own: (f64, f64),
}

/// A node that the axis passes or ends at.
#[derive(Debug, Clone, Copy)]
pub(crate) struct AxisNode {
    pub node: NodeId,
    /// Chainage on the axis, metres.
    pub chainage: f64,
    /// Azimuth of the axis there, half-way between coming and going on.
    pub azimuth: f64,
}

impl Network {
    /// Follows the road from a section's end so many metres out; never onto a section of `taken`, to which it adds what
    /// it follows.
    pub(crate) fn follow(&self, mut from: SectionEnd, reach_m: f64, taken: &mut BTreeSet<SectionId>) -> Followed {
        let mut strides = Vec::new();
        let mut left = reach_m;
        let end = loop {
            if left <= SAME_POINT_M {
                break AxisEnd::AsFarAsAsked;
            }
            let Some(entered) = self.going_on(from) else { break self.why_it_ends(from) };
            if !taken.insert(entered.0) {
                break AxisEnd::Loop;
            }
            strides.push(self.stride(entered, left));
            left -= self.length_m(entered.0);
            from = (entered.0, !entered.1);
        };
        Followed { strides, end }
    }

    /// A section entered by an end and followed for at most so many metres.
    pub(crate) fn stride(&self, entered: SectionEnd, most_m: f64) -> Stride {
        Stride { entered, metres: self.length_m(entered.0).min(most_m) }
    }

    pub(crate) fn length_m(&self, section: SectionId) -> f64 {
        self.geometries[section.0 as usize].length()
    }

    fn why_it_ends(&self, end: SectionEnd) -> AxisEnd {
        let mut others = self.others_at(end).peekable();
        if others.peek().is_none() {
            if self.map_goes_on(end) { AxisEnd::DeadEnd } else { AxisEnd::MapEdge }
        } else if self.section(end.0).roundabout || others.any(|(other, _)| self.section(other).roundabout) {
            AxisEnd::Roundabout
        } else {
            AxisEnd::Junction
        }
    }

    /// Whether the map shows anything beyond the end of a road, so that a road that went on would be on it.
    fn map_goes_on(&self, end: SectionEnd) -> bool {
        let nodes = &self.roads.nodes;
        let (here, heading) = (nodes[self.node_at(end).0 as usize], self.outward(end));
        // Nothing further away in latitude than this needs to be measured.
        let band_deg = LOOKED_BEYOND_M / 110_000.0;
        nodes.iter().filter(|node| (node.lat - here.lat).abs() <= band_deg).any(|&node| {
            let way = inverse(here, node);
            let ahead = way.metres > SAME_POINT_M && way.metres <= LOOKED_BEYOND_M;
            ahead && turn(heading, way.azimuth_from).abs() <= LOOKED_ASIDE_DEG
        })
    }

    /// Puts an axis together with the nodes on it. `before` was followed out from the start of `middle`, `after` from its
    /// end; chainage 0 is that start. Its flat frame has `origin` at 0, 0.
    pub(crate) fn axis(
        &self,
        before: &Followed,
        middle: Option<SectionId>,
        after: &Followed,
        origin: LonLat,
    ) -> (RoadAxis, Vec<AxisNode>) {
        let runs = self.runs(before, middle, after);
        let nodes = self.nodes_on(&runs);
        let ended_by_roundabout = |chainage: f64| {
            (before.end == AxisEnd::Roundabout && Some(chainage) == runs.first().map(|run| run.axis.0))
                || (after.end == AxisEnd::Roundabout && Some(chainage) == runs.last().map(|run| run.axis.1))
        };
        let junctions = nodes
            .iter()
            .filter(|at| self.ends_at[at.node.0 as usize].len() > 2 || ended_by_roundabout(at.chainage))
            .map(|at| AxisJunction {
                chainage: metres(at.chainage),
                node: at.node,
                roundabout: ended_by_roundabout(at.chainage),
            })
            .collect();
        let axis = RoadAxis {
            pieces: runs.iter().map(|run| self.piece(run)).collect(),
            points: self.points(&runs, origin),
            junctions,
            structures: self.structures(&runs),
            begins: before.end,
            ends: after.end,
        };
        (axis, nodes)
    }

    fn runs(&self, before: &Followed, middle: Option<SectionId>, after: &Followed) -> Vec<Run> {
        let own = |stride: &Stride| {
            let (section, at_start) = stride.entered;
            let length = self.length_m(section);
            if at_start { (0.0, stride.metres) } else { (length, length - stride.metres) }
        };
        let mut runs = Vec::new();
        let mut here = 0.0;
        for stride in &before.strides {
            let (near, far) = own(stride);
            let there = here - stride.metres;
            runs.push(Run { section: stride.entered.0, axis: (there, here), own: (far, near) });
            here = there;
        }
        runs.reverse();
        here = 0.0;
        if let Some(section) = middle {
            let length = self.length_m(section);
            runs.push(Run { section, axis: (0.0, length), own: (0.0, length) });
            here = length;
        }
        for stride in &after.strides {
            let there = here + stride.metres;
            runs.push(Run { section: stride.entered.0, axis: (here, there), own: own(stride) });
            here = there;
        }
        runs
    }

    fn piece(&self, run: &Run) -> AxisPiece {
        let section = self.section(run.section);
        let direction = run.direction();
        AxisPiece {
            section: run.section,
            from: metres(run.axis.0),
            to: metres(run.axis.1),
            section_at_from: metres(run.own.0),
            direction,
            flow: flow_seen(section.flow, direction),
            class: section.class,
            speed: section.speed,
            width: section.width,
            shoulder: section.shoulder,
        }
    }

    fn points(&self, runs: &[Run], origin: LonLat) -> Vec<AxisPoint> {
        let mut points: Vec<AxisPoint> = Vec::new();
        for run in runs {
            let geometry = &self.geometries[run.section.0 as usize];
            let slice = geometry.slice_with_chainages(run.own.0, run.own.1);
            let last = slice.len() - 1;
            for (index, (own, place)) in slice.into_iter().enumerate() {
                let chainage = if index == last { run.axis.1 } else { run.axis.0 + (own - run.own.0).abs() };
                let is_new = points.last().is_none_or(|point| chainage - point.chainage.value > SAME_POINT_M);
                // The end of a run stays, since the next one begins there; what lies too near before it goes.
                if !is_new && index == last && points.len() > 1 {
                    points.pop();
                }
                if is_new || index == last {
                    let (sin, cos) = inverse(origin, place).azimuth_from.to_radians().sin_cos();
                    let away = inverse(origin, place).metres;
                    points.push(AxisPoint {
                        chainage: metres(chainage),
                        east_m: away * sin,
                        north_m: away * cos,
                        height: None,
                        place,
                    });
                }
            }
        }
        points
    }

    /// Bridges and tunnels; what goes on over a section's end is one.
    fn structures(&self, runs: &[Run]) -> Vec<Structure> {
        let mut structures: Vec<Structure> = Vec::new();
        for run in runs {
            let Some(kind) = self.section(run.section).structure else { continue };
            let (from, to) = (metres(run.axis.0), metres(run.axis.1));
            match structures.last_mut() {
                Some(last) if last.kind == kind && last.to == from => last.to = to,
                _ => structures.push(Structure { kind, from, to }),
            }
        }
        structures
    }

    /// The nodes that the runs begin and end at, in the order of chainage; a run that ends inside a section ends at none.
    fn nodes_on(&self, runs: &[Run]) -> Vec<AxisNode> {
        let mut nodes: Vec<AxisNode> = Vec::new();
        for run in runs {
            for (own, chainage) in [(run.own.0, run.axis.0), (run.own.1, run.axis.1)] {
                let section = self.section(run.section);
                let node = if own == 0.0 {
                    section.from
                } else if own == self.length_m(run.section) {
                    section.to
                } else {
                    continue;
                };
                let azimuth = self.azimuth_on(run, own);
                match nodes.last_mut() {
                    Some(last) if last.chainage == chainage => last.azimuth += turn(last.azimuth, azimuth) / 2.0,
                    _ => nodes.push(AxisNode { node, chainage, azimuth }),
                }
            }
        }
        nodes
    }

    /// Azimuth of growing chainage of the axis at a chainage of the section.
    fn azimuth_on(&self, run: &Run, own: f64) -> f64 {
        let (_, azimuth) = self.geometries[run.section.0 as usize].point_at(own);
        if run.direction() == Travel::Forward { azimuth } else { azimuth + 180.0 }
    }
}

impl Run {
    fn direction(&self) -> Travel {
        if self.own.1 >= self.own.0 { Travel::Forward } else { Travel::Backward }
    }
}
