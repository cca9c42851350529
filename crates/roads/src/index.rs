//! Which segments are near a place.

use model::place::LonLat;
use model::road::SectionId;
use rstar::RTree;
use rstar::primitives::{GeomWithData, Line};

use crate::geodesic::geocentric;
use crate::geometry::{Foot, Geometry};

/// How far apart two distances must be to count as different, metres. Below it the lower section number wins.
const TIE_M: f64 = 1e-6;

/// A chord with its section and its place in it.
type Chord = GeomWithData<Line<[f64; 3]>, (u32, u32)>;

/// Segments in geocentric coordinates, as chords.
pub(crate) struct SegmentIndex {
    tree: RTree<Chord>,
    /// A chord lies at most this far below its geodesic.
    sag: f64,
}

impl SegmentIndex {
    pub fn new(geometries: &[Geometry]) -> Self {
        let mut chords = Vec::new();
        let mut longest: f64 = 0.0;
        for (section, geometry) in geometries.iter().enumerate() {
            for segment in 0..geometry.segment_count() {
                let (from, to) = geometry.segment(segment);
                longest = longest.max(geometry.segment_length(segment));
                let chord = Line::new(geocentric(from), geocentric(to));
                chords.push(GeomWithData::new(chord, (section as u32, segment as u32)));
            }
        }
        // Sagitta of an arc of length L on radius R is L^2 / 8R; 6.3e6 m is less than the ellipsoid's mean radii on
        // roads, so it errs to the safe side.
        SegmentIndex { tree: RTree::bulk_load(chords), sag: longest * longest / (8.0 * 6.3e6) }
    }

    /// The nearest accepted section and the foot on it. Of sections equally near the lowest number, on it the lowest
    /// chainage. Searches no further than `limit` metres.
    pub fn nearest(
        &self,
        geometries: &[Geometry],
        place: LonLat,
        limit: f64,
        accept: &dyn Fn(SectionId) -> bool,
    ) -> Option<(SectionId, Foot)> {
        let mut best: Option<(u32, Foot)> = None;
        for (chord, distance2) in self.tree.nearest_neighbor_iter_with_distance_2(geocentric(place)) {
            let reach = best.map_or(limit, |(_, foot)| foot.distance + TIE_M);
            if distance2.sqrt() - self.sag > reach {
                break;
            }
            let (section, segment) = chord.data;
            if !accept(SectionId(section)) {
                continue;
            }
            let foot = geometries[section as usize].foot_on_segment(segment as usize, place);
            if foot.distance <= limit && best.is_none_or(|known| comes_before((section, foot), known)) {
                best = Some((section, foot));
            }
        }
        best.map(|(section, foot)| (SectionId(section), foot))
    }
}

fn comes_before((section, foot): (u32, Foot), (known_section, known): (u32, Foot)) -> bool {
    if (foot.distance - known.distance).abs() > TIE_M {
        return foot.distance < known.distance;
    }
    (section, foot.chainage) < (known_section, known.chainage)
}
