//! A plane with two axes: where a value lies on paper, and the marks along the edges. Scales and marks are `plotters`'.

use plotters::coord::ranged1d::{BoldPoints, Ranged};
use plotters::coord::types::RangedCoordf64;

use crate::svg::{Drawing, Type, stroke, weight};

/// Steps in a millimetre: the scales speak in whole steps.
const STEPS: f64 = 1000.0;

/// Height of the type, millimetres: reads on a telephone too.
pub const SIZE: f64 = 3.6;

const GRID: &str = "stroke=\"#c8c8c8\" stroke-width=\"0.18\"";

/// A box on paper, millimetres.
#[derive(Debug, Clone, Copy)]
pub struct Frame {
    pub left: f64,
    pub right: f64,
    pub top: f64,
    pub bottom: f64,
}

/// A box with two scales.
pub struct Plane<X> {
    pub frame: Frame,
    across: X,
    up: RangedCoordf64,
}

impl<X: Ranged<ValueType = f64>> Plane<X> {
    /// A plane whose vertical scale is straight.
    pub fn new(frame: Frame, across: X, up: std::ops::Range<f64>) -> Self {
        Plane { frame, across, up: up.into() }
    }

    /// Where a value lies across.
    pub fn x(&self, value: f64) -> f64 {
        from_steps(self.across.map(&value, (to_steps(self.frame.left), to_steps(self.frame.right))))
    }

    /// Where a value lies up the paper.
    pub fn y(&self, value: f64) -> f64 {
        from_steps(self.up.map(&value, (to_steps(self.frame.bottom), to_steps(self.frame.top))))
    }

    /// Where both lie.
    pub fn at(&self, point: (f64, f64)) -> (f64, f64) {
        (self.x(point.0), self.y(point.1))
    }

    /// Round values across, about `count` of them.
    pub fn marks_across(&self, count: usize) -> Vec<f64> {
        self.across.key_points(BoldPoints(count))
    }

    /// Round values up, with their lines and numbers, and what they are above them.
    pub fn vertical_axis(&self, drawing: &mut Drawing, count: usize, title: &str) {
        let Frame { left, right, top, .. } = self.frame;
        for value in self.up.key_points(BoldPoints(count)) {
            let y = self.y(value);
            drawing.line((left, y), (right, y), GRID);
            drawing.text((left - 1.4, y + SIZE * 0.35), &plain(value), Type::plain(SIZE).end());
        }
        drawing.text((1.0, top - 2.4), title, Type::plain(SIZE));
    }

    /// A line of the grid across.
    pub fn grid_across(&self, drawing: &mut Drawing, value: f64) {
        let x = self.x(value);
        drawing.line((x, self.frame.top), (x, self.frame.bottom), GRID);
    }

    /// The box itself, drawn over the grid.
    pub fn outline(&self, drawing: &mut Drawing) {
        let Frame { left, right, top, bottom } = self.frame;
        drawing.rect((left, top), (right - left, bottom - top), &stroke(weight::LINE));
    }

    /// The part of a line that lies inside the heights given; its ends are cut to the edge.
    pub fn inside(points: &[(f64, f64)], low: f64, high: f64) -> Vec<(f64, f64)> {
        let mut kept: Vec<(f64, f64)> = Vec::new();
        for pair in points.windows(2) {
            let (mut a, mut b) = (pair[0], pair[1]);
            if a.1.max(b.1) < low || a.1.min(b.1) > high {
                continue;
            }
            for edge in [low, high] {
                if (a.1 < edge) != (b.1 < edge) {
                    let cut = (a.0 + (edge - a.1) / (b.1 - a.1) * (b.0 - a.0), edge);
                    let a_is_out = if edge == low { a.1 < edge } else { a.1 > edge };
                    if a_is_out {
                        a = cut;
                    } else {
                        b = cut;
                    }
                }
            }
            if kept.last() != Some(&a) {
                kept.push(a);
            }
            kept.push(b);
        }
        kept
    }
}

/// A number without needless zeros.
pub fn plain(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".into() } else { text.to_owned() }
}

fn to_steps(millimetres: f64) -> i32 {
    (millimetres * STEPS).round() as i32
}

fn from_steps(steps: i32) -> f64 {
    f64::from(steps) / STEPS
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_cut_where_it_leaves() {
        let line = [(0.0, 10.0), (1.0, 0.0), (2.0, -10.0)];
        let cut = Plane::<RangedCoordf64>::inside(&line, -5.0, 5.0);
        assert_eq!(cut, [(0.5, 5.0), (1.0, 0.0), (1.5, -5.0)]);
        assert!(Plane::<RangedCoordf64>::inside(&line, 20.0, 30.0).is_empty());
        let whole = Plane::<RangedCoordf64>::inside(&line, -50.0, 50.0);
        assert_eq!(whole, line);
        // Through both edges at once, and back in.
        let steep = [(0.0, 10.0), (1.0, -10.0), (2.0, 0.0)];
        assert_eq!(
            Plane::<RangedCoordf64>::inside(&steep, -5.0, 5.0),
            [(0.25, 5.0), (0.75, -5.0), (1.5, -5.0), (2.0, 0.0)]
        );
    }

    #[test]
    fn values_lie_where_the_scale_says() {
        let frame = Frame { left: 10.0, right: 110.0, top: 5.0, bottom: 55.0 };
        let plane = Plane::new(frame, RangedCoordf64::from(0.0..10.0), 0.0..100.0);
        assert_eq!(plane.at((5.0, 50.0)), (60.0, 30.0));
        assert_eq!(plane.at((0.0, 0.0)), (10.0, 55.0));
        assert_eq!(plain(2.50), "2.5");
        assert_eq!(plain(-0.0001), "0");
    }
}
