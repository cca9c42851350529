//! Places at a chainage, also before a section's start and beyond its end, where signs may stand.

use model::place::{FramePoint, LonLat};
use model::quantity::{InLength, Length};
use model::road::{NodeId, SectionId};

use crate::geodesic::{direct, normal_azimuth, turn};
use crate::network::Network;

/// The road goes on into another section if it turns by no more than this at the node.
const GREATEST_TURN_DEG: f64 = 60.0;
/// So many sections are followed at most: a short loop would otherwise be gone round for long.
const SECTIONS_FOLLOWED: usize = 200;

impl Network {
    /// The place at a chainage of a section and the azimuth of increasing chainage there, degrees clockwise from north
    /// in [0, 360).
    ///
    /// A chainage before the start or beyond the end lies on the road that goes on there: the section of the same
    /// name, else the one that turns least, by at most 60 degrees; where none does, straight on.
    pub fn point_at(&self, section: SectionId, chainage: Length) -> (LonLat, f64) {
        let chainage = chainage.in_metres();
        let length = self.geometries[section.0 as usize].length();
        if chainage < 0.0 {
            let (place, azimuth) = self.beyond(section, true, -chainage);
            (place, normal_azimuth(azimuth + 180.0))
        } else if chainage > length {
            let (place, azimuth) = self.beyond(section, false, chainage - length);
            (place, normal_azimuth(azimuth))
        } else {
            self.geometries[section.0 as usize].point_at(chainage)
        }
    }

    /// A point beside the road, which follows its bends: the place at that chainage, then square off it. For places of
    /// signs and cones; a cut's corners keep their shape in a [`crate::Frame`] instead.
    pub fn to_lon_lat(&self, section: SectionId, point: FramePoint) -> LonLat {
        let (place, azimuth) = self.point_at(section, model::quantity::metres(point.along_m));
        direct(place, azimuth + 90.0, point.across_m).0
    }

    /// The place so many metres out from a section's start or end, and the azimuth of going out.
    fn beyond(&self, mut section: SectionId, mut at_start: bool, mut metres: f64) -> (LonLat, f64) {
        for _ in 0..SECTIONS_FOLLOWED {
            let Some((next, from_start)) = self.going_on(section, at_start) else { break };
            let geometry = &self.geometries[next.0 as usize];
            if metres <= geometry.length() {
                let chainage = if from_start { metres } else { geometry.length() - metres };
                let (place, azimuth) = geometry.point_at(chainage);
                return (place, if from_start { azimuth } else { azimuth + 180.0 });
            }
            metres -= geometry.length();
            (section, at_start) = (next, !from_start);
        }
        let geometry = &self.geometries[section.0 as usize];
        if at_start {
            let (place, azimuth) = geometry.point_at(-metres);
            (place, azimuth + 180.0)
        } else {
            geometry.point_at(geometry.length() + metres)
        }
    }

    /// The section that goes on where this one starts or ends, and whether it is entered at its own start.
    fn going_on(&self, section: SectionId, at_start: bool) -> Option<(SectionId, bool)> {
        let NodeId(node) = if at_start { self.section(section).from } else { self.section(section).to };
        let heading = self.outward(section, at_start);
        self.ends_at[node as usize]
            .iter()
            .filter(|end| **end != (section, at_start))
            .map(|&(other, start)| {
                let bend = turn(heading, self.outward(other, start) + 180.0).abs();
                (!self.same_road(section, other), bend, (other, start))
            })
            .filter(|(_, bend, _)| *bend <= GREATEST_TURN_DEG)
            .min_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)))
            .map(|(_, _, end)| end)
    }

    /// Azimuth of leaving a section by its start or end.
    fn outward(&self, section: SectionId, at_start: bool) -> f64 {
        let geometry = &self.geometries[section.0 as usize];
        if at_start { geometry.point_at(0.0).1 + 180.0 } else { geometry.point_at(geometry.length()).1 }
    }

    fn same_road(&self, one: SectionId, other: SectionId) -> bool {
        let (one, other) = (self.section(one), self.section(other));
        (one.number == other.number && !one.number.is_empty()) || (one.name == other.name && !one.name.is_empty())
    }
}
