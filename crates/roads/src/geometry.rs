//! The shape of one section: chainage of its vertices, places along it, and the foot of a perpendicular.

use model::place::LonLat;

use crate::geodesic::{direct, inverse, normal_azimuth, turn};

/// A section's line with what is measured once.
#[derive(Debug, Clone)]
pub(crate) struct Geometry {
    vertices: Vec<LonLat>,
    /// Chainage of each vertex, metres; the last is the length.
    chainages: Vec<f64>,
    /// Azimuth of each segment at its start.
    azimuths: Vec<f64>,
}

/// Where a place lies beside a line.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Foot {
    pub chainage: f64,
    pub distance: f64,
    /// Signed distance, positive to the right.
    pub across: f64,
    pub azimuth: f64,
}

impl Geometry {
    /// Of a line with at least two points; points said twice in a row count once.
    pub fn new(line: &[LonLat]) -> Self {
        let mut vertices = vec![line[0]];
        let mut chainages = vec![0.0];
        let mut azimuths = Vec::new();
        for &next in &line[1..] {
            let step = inverse(vertices[vertices.len() - 1], next);
            if step.metres > 0.0 {
                chainages.push(chainages[chainages.len() - 1] + step.metres);
                azimuths.push(step.azimuth_from);
                vertices.push(next);
            }
        }
        Geometry { vertices, chainages, azimuths }
    }

    pub fn length(&self) -> f64 {
        self.chainages[self.chainages.len() - 1]
    }

    pub fn segment_count(&self) -> usize {
        self.azimuths.len()
    }

    pub fn segment(&self, index: usize) -> (LonLat, LonLat) {
        (self.vertices[index], self.vertices[index + 1])
    }

    pub fn segment_length(&self, index: usize) -> f64 {
        self.chainages[index + 1] - self.chainages[index]
    }

    /// The place at a chainage and the azimuth of the line there. Before the start and beyond the end the first and
    /// last segment go on straight.
    pub fn point_at(&self, chainage: f64) -> (LonLat, f64) {
        let segment = self.segment_at(chainage);
        let (place, azimuth) =
            direct(self.vertices[segment], self.azimuths[segment], chainage - self.chainages[segment]);
        (place, normal_azimuth(azimuth))
    }

    /// The places along the line from one chainage to another, backwards when `to` is smaller.
    pub fn slice(&self, from: f64, to: f64) -> Vec<LonLat> {
        self.slice_with_chainages(from, to).into_iter().map(|(_, place)| place).collect()
    }

    /// The same, each with its chainage.
    pub fn slice_with_chainages(&self, from: f64, to: f64) -> Vec<(f64, LonLat)> {
        let (low, high) = (from.min(to), from.max(to));
        let mut places = vec![(low, self.place_on_line(low))];
        let between = self.chainages.iter().copied().zip(self.vertices.iter().copied());
        places.extend(between.filter(|(chainage, _)| *chainage > low && *chainage < high));
        places.push((high, self.place_on_line(high)));
        if to < from {
            places.reverse();
        }
        places
    }

    /// As `point_at`, but the ends exactly as given.
    fn place_on_line(&self, chainage: f64) -> LonLat {
        if chainage <= 0.0 {
            self.vertices[0]
        } else if chainage >= self.length() {
            self.vertices[self.vertices.len() - 1]
        } else {
            self.point_at(chainage).0
        }
    }

    /// The nearest point of one segment.
    pub fn foot_on_segment(&self, index: usize, place: LonLat) -> Foot {
        let (start, azimuth, length) = (self.vertices[index], self.azimuths[index], self.segment_length(index));
        // Newton's steps along the segment until the way to the place is square to it; each step's error is of third
        // order in (distance / earth's radius), so a few reach the last digit.
        let mut along = 0.0;
        for _ in 0..6 {
            let (here, azimuth_here) = direct(start, azimuth, along);
            let to_place = inverse(here, place);
            let step = to_place.metres * turn(azimuth_here, to_place.azimuth_from).to_radians().cos();
            let next = (along + step).clamp(0.0, length);
            let moved = (next - along).abs();
            along = next;
            if moved < 1e-7 {
                break;
            }
        }
        let (here, azimuth_here) = if along >= length {
            (self.vertices[index + 1], direct(start, azimuth, length).1)
        } else {
            direct(start, azimuth, along)
        };
        let to_place = inverse(here, place);
        let azimuth = self.azimuth_for_side(index, along, length, azimuth_here);
        let right = turn(azimuth, to_place.azimuth_from) >= 0.0 || to_place.metres == 0.0;
        Foot {
            chainage: self.chainages[index] + along,
            distance: to_place.metres,
            across: if right { to_place.metres } else { -to_place.metres },
            azimuth: normal_azimuth(azimuth),
        }
    }

    /// At a bend the half-way direction, because only that tells the outside of a sharp bend from its inside;
    /// elsewhere the segment's own.
    fn azimuth_for_side(&self, index: usize, along: f64, length: f64, azimuth_here: f64) -> f64 {
        if along <= 0.0 && index > 0 {
            let before = direct(self.vertices[index - 1], self.azimuths[index - 1], self.segment_length(index - 1)).1;
            before + turn(before, azimuth_here) / 2.0
        } else if along >= length && index + 1 < self.segment_count() {
            azimuth_here + turn(azimuth_here, self.azimuths[index + 1]) / 2.0
        } else {
            azimuth_here
        }
    }

    fn segment_at(&self, chainage: f64) -> usize {
        // The first vertex starts segment 0; the last starts none.
        let after = self.chainages.partition_point(|c| *c <= chainage);
        after.saturating_sub(1).min(self.segment_count() - 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geodesic::distance;
    use model::quantity::InLength;

    const START: LonLat = LonLat { lon: 12.0, lat: 31.0 };

    #[test]
    fn outside_a_sharp_bend_both_segments_say_the_same_side() {
        // 500 m, then a turn, then 500 m; places off the corner on the outside of the bend.
        for bend in [-170.0, -120.0, -60.0, 60.0, 120.0, 170.0] {
            let corner = direct(START, 20.0, 500.0).0;
            let end = direct(corner, 20.0 + bend, 500.0).0;
            let geometry = Geometry::new(&[START, corner, end]);
            // The outside wedge opens away from both segments.
            for part in [0.05, 0.5, 0.95] {
                let towards = 20.0 + bend / 2.0 - f64::signum(bend) * (90.0 + (part - 0.5) * f64::abs(bend));
                let place = direct(corner, towards, 8.0).0;
                for segment in 0..2 {
                    let foot = geometry.foot_on_segment(segment, place);
                    assert!((foot.chainage - 500.0).abs() < 1e-6 && (foot.distance - 8.0).abs() < 1e-6);
                    assert!((foot.across + 8.0 * f64::signum(bend)).abs() < 1e-6, "{bend} {part} {segment}: {foot:?}");
                    assert!(turn(foot.azimuth, 20.0 + bend / 2.0).abs() < 0.01, "{bend} {part} {segment}: {foot:?}");
                }
            }
        }
    }

    #[test]
    fn the_foot_is_the_nearest_point_even_on_a_long_segment_far_away() {
        let end = direct(START, 70.0, 400_000.0).0;
        let geometry = Geometry::new(&[START, end]);
        let beside = direct(direct(START, 70.0, 250_000.0).0, 180.0, 300_000.0).0;
        let foot = geometry.foot_on_segment(0, beside);
        for step in 0..=4000 {
            let there = geometry.point_at(f64::from(step) * 100.0).0;
            assert!(foot.distance <= distance(there, beside).in_metres() + 1e-6);
        }
        assert!((distance(geometry.point_at(foot.chainage).0, beside).in_metres() - foot.distance).abs() < 1e-6);
    }

    #[test]
    fn a_slice_runs_either_way_and_ends_exactly_on_the_ends() {
        let middle = direct(START, 0.0, 100.0).0;
        let end = direct(middle, 90.0, 100.0).0;
        let geometry = Geometry::new(&[START, middle, end]);
        assert_eq!(geometry.slice(0.0, geometry.length()), [START, middle, end]);
        assert_eq!(geometry.slice(geometry.length(), 0.0), [end, middle, START]);
        assert_eq!(geometry.slice(20.0, 60.0).len(), 2);
        assert_eq!(geometry.slice(150.0, 50.0)[1], middle);
    }
}
