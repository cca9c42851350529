//! Cuts with notches against an exhaustive search over a grid: every half degree, every pair of steps on 60 positions.
//!
//! The search below shares nothing with the crate. It takes one family of shapes after the other, by the depth to which a
//! notch can go between two positions, and keeps the same least sides.

mod common;

use common::{OPEN, area, cost, cost_rules, hole, shapes};
use markout::mark_out;
use model::quantity::InArea;
use model::rules::markout::MarkOutRules;

const POSITIONS: usize = 60;
const HALF_DEGREES: usize = 180;

type Ring = Vec<(f64, f64)>;

fn rules(most_corners: u32) -> MarkOutRules {
    let mut rules = cost_rules();
    rules.most_corners.value = most_corners;
    rules.merge_gap_m.value = 0.2;
    rules
}

#[test]
fn within_a_hundredth_of_the_best_of_all() {
    let mut count_of = [0; 9];
    for (index, rings) in shapes(500, 4711).iter().enumerate() {
        let holes: Vec<_> = rings.iter().map(|ring| hole("H", ring)).collect();
        let best = exhaustive(rings, &rules(8));
        for (most_corners, best) in [(6, best.0), (8, best.1)] {
            let rules = rules(most_corners);
            let cuts = mark_out(&holes, &OPEN, &rules).unwrap();
            assert_eq!(cuts.len(), 1);
            let holes_m2 = area(&cuts[0]) - cuts[0].wasted.value.in_square_metres();
            let (ours, best) = (cost(&cuts[0], &rules) - holes_m2, best - holes_m2);
            let corners = cuts[0].corners.len();
            assert!(ours <= 1.01 * best, "shape {index}, {corners} of {most_corners} corners: {ours} {best}");
            count_of[corners] += 1;
        }
    }
    // The shapes are such that every count of corners is taken often.
    assert!(count_of[4] > 50 && count_of[6] > 150 && count_of[8] > 150, "{count_of:?}");
}

/// Area and prices of the cheapest cut on the grid with at most six corners, and with at most eight.
fn exhaustive(rings: &[Ring], rules: &MarkOutRules) -> (f64, f64) {
    let mut best = (f64::INFINITY, f64::INFINITY);
    for step in 0..HALF_DEGREES {
        let (sin, cos) = (step as f64 * 0.5f64).to_radians().sin_cos();
        let turned: Vec<Ring> = rings
            .iter()
            .map(|ring| ring.iter().map(|&(x, y)| (x * cos + y * sin, y * cos - x * sin)).collect())
            .collect();
        let here = at_this_turn(&turned, rules);
        best = (best.0.min(here.0), best.1.min(here.1));
    }
    best
}

fn at_this_turn(rings: &[Ring], rules: &MarkOutRules) -> (f64, f64) {
    let swapped: Vec<Ring> = rings.iter().map(|ring| ring.iter().map(|&(x, y)| (y, x)).collect()).collect();
    let (columns, rows) = (Columns::new(rings, rules), Columns::new(&swapped, rules));
    let edge = rules.edge_price_m2_per_m.value;
    let rectangle = columns.width * columns.height + edge * 2.0 * (columns.width + columns.height);
    let six = rectangle.min(rectangle - columns.corner() + 2.0 * rules.corner_price_m2.value);
    let saved = columns.staircase().max(columns.two_corners()).max(columns.side()).max(rows.side());
    (six, six.min(rectangle - saved + 4.0 * rules.corner_price_m2.value))
}

/// How deep the free space goes from below and from above in each of the grid's columns.
struct Columns<'a> {
    rules: &'a MarkOutRules,
    width: f64,
    height: f64,
    step: f64,
    below: Vec<f64>,
    above: Vec<f64>,
}

impl<'a> Columns<'a> {
    fn new(rings: &[Ring], rules: &'a MarkOutRules) -> Self {
        let margin = rules.margin_m.value;
        let points = || rings.iter().flatten();
        let least = |pick: fn(&(f64, f64)) -> f64| points().map(pick).fold(f64::INFINITY, f64::min) - margin;
        let most = |pick: fn(&(f64, f64)) -> f64| points().map(pick).fold(f64::NEG_INFINITY, f64::max) + margin;
        let ((x0, x1), (y0, y1)) = ((least(|p| p.0), most(|p| p.0)), (least(|p| p.1), most(|p| p.1)));
        let smallest = rules.smallest_side_m.value;
        let (width, height) = ((x1 - x0).max(smallest), (y1 - y0).max(smallest));
        let step = (x1 - x0) / POSITIONS as f64;
        let (mut below, mut above) = (vec![height; POSITIONS], vec![height; POSITIONS]);
        for ring in rings {
            for (index, &a) in ring.iter().enumerate() {
                let b = ring[(index + 1) % ring.len()];
                let (left, right) = (a.0.min(b.0), a.0.max(b.0));
                for column in 0..POSITIONS {
                    let (from, to) = (x0 + step * column as f64 - margin, x0 + step * (column + 1) as f64 + margin);
                    if right <= from || left >= to {
                        continue;
                    }
                    // The edge's ends as far as they lie within, and where it crosses the borders.
                    for point in [a, b] {
                        if (from..=to).contains(&point.0) {
                            below[column] = below[column].min(point.1 - margin - y0);
                            above[column] = above[column].min(y1 - margin - point.1);
                        }
                    }
                    for border in [from, to] {
                        if left < border && border < right {
                            let y = a.1 + (border - a.0) / (b.0 - a.0) * (b.1 - a.1);
                            below[column] = below[column].min(y - margin - y0);
                            above[column] = above[column].min(y1 - margin - y);
                        }
                    }
                }
            }
        }
        Columns { rules, width, height, step, below, above }
    }

    fn arm(&self) -> f64 {
        self.rules.smallest_side_m.value - 1e-9
    }

    fn notch(&self) -> f64 {
        self.rules.smallest_notch_m.value
    }

    /// For the four corners, (width, depth) of each notch that may be.
    fn corner_notches(&self) -> [Vec<(f64, f64)>; 4] {
        let of = |free: &mut dyn Iterator<Item = f64>| {
            let mut depth = self.height - self.rules.smallest_side_m.value;
            let mut notches = Vec::new();
            for (index, free) in free.enumerate() {
                depth = depth.min(free);
                let width = self.step * (index + 1) as f64;
                if width >= self.notch() && self.width - width >= self.arm() && depth >= self.notch() {
                    notches.push((width, depth));
                }
            }
            notches
        };
        [
            of(&mut self.below.iter().copied()),
            of(&mut self.below.iter().rev().copied()),
            of(&mut self.above.iter().copied()),
            of(&mut self.above.iter().rev().copied()),
        ]
    }

    /// Saved by one notch in a corner.
    fn corner(&self) -> f64 {
        self.corner_notches().iter().flatten().map(|(w, d)| w * d).fold(f64::NEG_INFINITY, f64::max)
    }

    /// Saved by a staircase in a corner: a deep notch, and a wider, shallower one.
    fn staircase(&self) -> f64 {
        let mut best = f64::NEG_INFINITY;
        for notches in self.corner_notches() {
            for deep in &notches {
                for wide in &notches {
                    if wide.0 - deep.0 >= self.notch() && deep.1 - wide.1 >= self.notch() {
                        best = best.max(deep.0 * deep.1 + (wide.0 - deep.0) * wide.1);
                    }
                }
            }
        }
        best
    }

    /// Saved by notches in two corners.
    fn two_corners(&self) -> f64 {
        let corners = self.corner_notches();
        let mut best = f64::NEG_INFINITY;
        // below left, below right, above left, above right
        for (first, second) in [(0, 1), (2, 3), (0, 2), (1, 3), (0, 3), (1, 2)] {
            for a in &corners[first] {
                for b in &corners[second] {
                    let beside = self.width - a.0 - b.0 >= self.arm();
                    let over = self.height - a.1 - b.1;
                    let may_be = match (first, second) {
                        (0, 1) | (2, 3) => beside,
                        (0, 2) | (1, 3) => over >= self.arm(),
                        _ => beside || over >= self.arm(),
                    };
                    if may_be {
                        best = best.max(a.0 * a.1 + b.0 * b.1);
                    } else if !matches!((first, second), (0, 1) | (2, 3)) {
                        // The shallower of the two gives way.
                        let less = self.arm() - over;
                        for (da, db) in [(a.1 - less, b.1), (a.1, b.1 - less)] {
                            if da >= self.notch() && db >= self.notch() {
                                best = best.max(a.0 * da + b.0 * db);
                            }
                        }
                    }
                }
            }
        }
        best
    }

    /// Saved by a notch in the lower or upper side, its arms as short as they may be.
    fn side(&self) -> f64 {
        let deepest = self.height - self.rules.smallest_side_m.value;
        let strip = self.rules.merge_gap_m.value.max(self.notch());
        let mut best = f64::NEG_INFINITY;
        for free in [&self.below, &self.above] {
            for first in 1..POSITIONS {
                let mut depth = deepest;
                for last in first + 1..POSITIONS {
                    depth = depth.min(free[last - 1]);
                    let least = |part: &[f64]| part.iter().copied().fold(f64::INFINITY, f64::min);
                    let (left, right) = (least(&free[..first]), least(&free[last..]));
                    let [a, b, c] = [first, last - first, POSITIONS - last].map(|count| self.step * count as f64);
                    let dip = depth - left.max(right);
                    if a >= self.arm() && c >= self.arm() && b >= strip && dip >= self.notch() {
                        let price = 2.0 * dip * self.rules.edge_price_m2_per_m.value;
                        best = best.max(a * left + b * depth + c * right - price);
                    }
                }
            }
        }
        best
    }
}
