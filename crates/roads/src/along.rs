//! Places at a chainage, also before a section's start and beyond its end, where signs may stand.

use model::place::{FramePoint, LonLat};
use model::quantity::{InLength, Length};
use model::road::SectionId;

use crate::geodesic::{direct, normal_azimuth};
use crate::network::Network;

/// So many sections are followed at most: a short loop would otherwise be gone round for long.
const SECTIONS_FOLLOWED: usize = 200;

impl Network {
    /// The place at a chainage of a section and the azimuth of increasing chainage there, degrees clockwise from north
    /// in [0, 360).
    ///
    /// A chainage before the start or beyond the end lies on the road that goes straight on there, as in
    /// [`Network::around`]; where none does, straight on over the land.
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
            let Some((next, from_start)) = self.going_on((section, at_start)) else { break };
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
}
