//! The road's profile from heights of the ground: sampled evenly and smoothed, because the heights err by metres.

use model::quantity::InLength;
use model::road_around::RoadAxis;

/// Fewest samples on each side that a window needs to smooth at all; with less a sample stands as it is.
const SIDE_MIN: usize = 2;

/// Heights along an axis, metres, evenly sampled; `None` where the heights are not known.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    from: f64,
    step: f64,
    heights: Vec<Option<f64>>,
}

impl Profile {
    /// Samples an axis every `step` metres and smooths each known stretch over `window` metres by a parabola fitted to
    /// the samples in the window (which leaves the shape of a vertical curve as it is). `None` where no two points in a
    /// row have heights.
    pub fn of(axis: &RoadAxis, step: f64, window: f64) -> Option<Profile> {
        if !(step > 0.0 && step.is_finite() && window.is_finite()) {
            return None;
        }
        let points: Vec<(f64, Option<f64>)> = axis
            .points
            .iter()
            .map(|point| (point.chainage.in_metres(), point.height.map(InLength::in_metres)))
            .collect();
        let (first, last) = (points.first()?.0, points.last()?.0);
        let count = ((last - first) / step).floor() as usize + 1;
        let mut at = 0;
        let raw: Vec<Option<f64>> = (0..count)
            .map(|index| {
                let chainage = first + index as f64 * step;
                while at + 2 < points.len() && points[at + 1].0 < chainage {
                    at += 1;
                }
                let ((a, low), (b, high)) = (points.get(at).copied()?, points.get(at + 1).copied()?);
                let share = (chainage - a) / (b - a);
                low.zip(high).map(|(low, high)| low + share * (high - low)).filter(|height| height.is_finite())
            })
            .collect();
        let side = (window / 2.0 / step).floor().max(0.0) as usize;
        let heights = smoothed(&raw, side);
        heights.windows(2).any(|pair| pair[0].is_some() && pair[1].is_some()).then_some(Profile {
            from: first,
            step,
            heights,
        })
    }

    /// The height at a chainage, metres.
    pub fn at(&self, chainage: f64) -> Option<f64> {
        let place = (chainage - self.from) / self.step;
        // The last bit of an axis shorter than a step stays at the last sample's height.
        if place < -1e-9 || place > self.heights.len() as f64 {
            return None;
        }
        let first = (place.max(0.0).floor() as usize).min(self.heights.len() - 1);
        let share = place.max(0.0) - first as f64;
        let low = self.heights[first]?;
        match self.heights.get(first + 1) {
            Some(high) => Some(low + share * ((*high)? - low)),
            None => Some(low),
        }
    }

    /// Chainage and height of the samples strictly between two chainages; an unknown height is `None`.
    pub fn between(&self, low: f64, high: f64) -> impl Iterator<Item = (f64, Option<f64>)> {
        let first = ((low - self.from) / self.step).floor().max(-1.0) + 1.0;
        (first as usize..self.heights.len())
            .map(|index| (self.from + index as f64 * self.step, self.heights[index]))
            .skip_while(move |(chainage, _)| *chainage <= low)
            .take_while(move |(chainage, _)| *chainage < high)
    }
}

/// Each sample replaced by the value there of the parabola fitted to it and `side` samples on each side (fewer near the
/// ends of a known stretch), by the closed form for evenly spaced samples.
///
/// Source: from memory: Savitzky and Golay, Smoothing and differentiation of data by simplified least squares procedures,
/// Analytical Chemistry 36 (1964).
fn smoothed(raw: &[Option<f64>], side: usize) -> Vec<Option<f64>> {
    let mut known_from = 0;
    let mut stretch = Vec::with_capacity(raw.len());
    for (index, height) in raw.iter().enumerate() {
        if height.is_none() {
            known_from = index + 1;
        }
        stretch.push(known_from);
    }
    let mut known_to = raw.len();
    let mut smooth = vec![None; raw.len()];
    for index in (0..raw.len()).rev() {
        let Some(height) = raw[index] else {
            known_to = index;
            continue;
        };
        let room = (index - stretch[index]).min(known_to - 1 - index).min(side);
        smooth[index] = Some(if room < SIDE_MIN { height } else { parabola_at(raw, index, room) });
    }
    smooth
}

fn parabola_at(raw: &[Option<f64>], index: usize, side: usize) -> f64 {
    let m = side as f64;
    let norm = (2.0 * m + 3.0) * (2.0 * m + 1.0) * (2.0 * m - 1.0) / 3.0;
    let weight = |away: f64| (3.0 * m * m + 3.0 * m - 1.0 - 5.0 * away * away) / norm;
    (index - side..=index + side).map(|at| weight(at.abs_diff(index) as f64) * raw[at].unwrap_or_default()).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// from memory: Savitzky and Golay (1964), the row of the 5-point and the 7-point parabola.
    #[test]
    fn the_published_weights_come_out() {
        let weights = |side: usize| -> Vec<f64> {
            (0..=2 * side)
                .map(|place| {
                    let mut raw = vec![Some(0.0); 2 * side + 1];
                    raw[place] = Some(1.0);
                    parabola_at(&raw, side, side)
                })
                .collect()
        };
        let close = |found: Vec<f64>, over: f64, table: &[f64]| {
            assert!(found.iter().zip(table).all(|(f, t)| (f - t / over).abs() < 1e-12), "{found:?}");
        };
        close(weights(2), 35.0, &[-3.0, 12.0, 17.0, 12.0, -3.0]);
        close(weights(3), 21.0, &[-2.0, 3.0, 6.0, 7.0, 6.0, 3.0, -2.0]);
    }

    #[test]
    fn a_parabola_stays_and_a_gap_stays_open() {
        let curve = |i: usize| 300.0 + 0.7 * i as f64 - 0.02 * (i * i) as f64;
        let mut raw: Vec<Option<f64>> = (0..60).map(|i| Some(curve(i))).collect();
        raw[25] = None;
        let smooth = smoothed(&raw, 10);
        for (index, height) in smooth.iter().enumerate() {
            match height {
                Some(height) => assert!((height - curve(index)).abs() < 1e-9, "{index}"),
                None => assert_eq!(index, 25),
            }
        }
    }
}
