//! Where the dimensions of a cut stand: every side once, and the whole length and width, outside of the seal.
//!
//! A side is dimensioned on the side of the drawing that it faces. Dimensions that would touch stand in rows, one further
//! out than the other.

use model::place::FramePoint;

use crate::svg::text_width;

/// From the seal to the first row, and from row to row, millimetres on paper.
pub(super) const FIRST_ROW: f64 = 4.2;
pub(super) const ROW: f64 = 4.4;
/// Size of the type.
pub(super) const TYPE: f64 = 3.0;
/// What a row takes beyond its line: its text stands above or to the left of it.
const TEXT: f64 = 3.4;
const NO_TEXT: f64 = 1.2;
/// Between two texts in a row.
const GAP: f64 = 1.0;
/// From a line to the middle of its text, and half the text's height with a little around.
const TEXT_MIDDLE: f64 = 2.0;
const TEXT_HALF: f64 = 1.4;
/// Dimensions of other sides may push one out to this row; further out there is no paper.
const LAST_ROW: usize = 3;
/// Coordinates nearer than this are the same, metres.
const SAME_M: f64 = 1e-3;

type Vector = (f64, f64);

/// One dimension. Coordinates are metres of road, turned the way the drawing lies, from its middle.
#[derive(Debug, Clone)]
pub(super) struct Dimension {
    /// The side's ends.
    pub ends: [Vector; 2],
    /// Which way it faces, a unit vector.
    pub outward: Vector,
    /// From the middle to the outermost side that faces the same way, metres.
    pub reach_m: f64,
    /// From the outside another side stands before it: its guide lines start beyond.
    pub is_hidden: bool,
    /// Its row, from 0.
    pub row: usize,
    /// Length of the side, metres.
    pub length_m: f64,
    /// Width of its words on paper, millimetres.
    pub text_mm: f64,
}

impl Dimension {
    /// Along the side, from its lesser to its greater end.
    fn stretch(&self) -> [f64; 2] {
        let along = (-self.outward.1, self.outward.0);
        let [a, b] = self.ends.map(|end| dot(end, along));
        [a.min(b), a.max(b)]
    }

    fn out(&self) -> f64 {
        dot(self.ends[0], self.outward)
    }

    fn faces_as(&self, other: &Dimension) -> bool {
        dot(self.outward, other.outward) > 0.5
    }

    fn is_parallel(&self, other: &Dimension) -> bool {
        dot(self.outward, other.outward).abs() > 0.5
    }

    /// Where the middle of its words stands on paper in a row, from the middle of the drawing.
    fn words_at(&self, row: usize, scale: f64, overlap_m: f64) -> Vector {
        let (nx, ny) = self.outward;
        let middle = (f64::midpoint(self.ends[0].0, self.ends[1].0), f64::midpoint(self.ends[0].1, self.ends[1].1));
        let out_mm = (self.reach_m + overlap_m - self.out()) * scale + FIRST_ROW + ROW * row as f64;
        // Words stand above their line, or to the left of one that runs up the paper.
        let is_outside = ny < -1e-3 || (ny.abs() <= 1e-3 && nx < 0.0);
        let out_mm = out_mm + if is_outside { TEXT_MIDDLE } else { -TEXT_MIDDLE };
        (middle.0 * scale + nx * out_mm, middle.1 * scale + ny * out_mm)
    }

    /// How low and left on paper it stands: where two would do, there nothing else is in the way.
    fn preference(&self) -> f64 {
        let middle = (f64::midpoint(self.ends[0].0, self.ends[1].0), f64::midpoint(self.ends[0].1, self.ends[1].1));
        middle.1 - middle.0
    }
}

/// The dimensions of a cut of right-angled corners, in rows for a scale in millimetres a metre; `overlap_m` is how far the
/// seal reaches beyond the cut, `words` writes a length.
pub(super) fn dimensions(
    corners: &[Vector],
    scale: f64,
    overlap_m: f64,
    words: impl Fn(f64) -> String,
) -> Vec<Dimension> {
    let mut all = without_doubles(&sides(corners));
    all.extend(wholes(&all, corners));
    for dimension in &mut all {
        dimension.text_mm = text_width(&words(dimension.length_m), TYPE);
    }
    let touch = |a: &Dimension, b: &Dimension| {
        let middle = |dimension: &Dimension| dimension.stretch().iter().sum::<f64>() / 2.0 * scale;
        overlap(a, b) || (middle(a) - middle(b)).abs() < f64::midpoint(a.text_mm, b.text_mm) + GAP
    };
    // What can be seen first, short before long, so that guide lines cross few others.
    all.sort_by(|a, b| a.is_hidden.cmp(&b.is_hidden).then(a.length_m.total_cmp(&b.length_m)));
    for index in 0..all.len() {
        let same_way = all[..index].iter().filter(|other| other.faces_as(&all[index]));
        let taken: Vec<usize> = same_way.filter(|other| touch(other, &all[index])).map(|other| other.row).collect();
        let is_free = |row: &usize| !taken.contains(row);
        // Around a corner of the cut the words of the other side may be in the way.
        let is_clear =
            |row: &usize| !all[..index].iter().any(|other| words_meet(&all[index], *row, other, scale, overlap_m));
        let clear = (0..=LAST_ROW).filter(is_free).find(is_clear);
        all[index].row = clear.or_else(|| (0..=taken.len()).find(is_free)).unwrap_or(0);
    }
    all
}

/// Whether the words of a dimension in that row would touch those of another that has its row, on a side square to it.
fn words_meet(one: &Dimension, row: usize, other: &Dimension, scale: f64, overlap_m: f64) -> bool {
    if one.is_parallel(other) {
        return false;
    }
    let (a, b) = (one.words_at(row, scale, overlap_m), other.words_at(other.row, scale, overlap_m));
    let apart = (a.0 - b.0, a.1 - b.1);
    dot(apart, other.outward).abs() < one.text_mm / 2.0 + TEXT_HALF
        && dot(apart, one.outward).abs() < other.text_mm / 2.0 + TEXT_HALF
}

/// The greatest scale at which the dimensions fit between `half` the width and height of the paper; `overlap_m` is how far
/// the seal reaches beyond the cut.
pub(super) fn greatest_scale(dimensions: &[Dimension], overlap_m: f64, half: Vector) -> f64 {
    let mut scale = f64::INFINITY;
    for dimension in dimensions {
        let (nx, ny) = dimension.outward;
        let text = if nx < -0.3 || ny < -0.3 { TEXT } else { NO_TEXT };
        let out_mm = FIRST_ROW + ROW * dimension.row as f64 + text;
        let [from, to] = dimension.ends;
        let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
        // The words may be longer than their line.
        for (at, text_mm) in [(from, 0.0), (to, 0.0), (middle, dimension.text_mm)] {
            let more_m = dimension.reach_m + overlap_m - dot(at, dimension.outward);
            for (at_m, out, along, half) in
                [(at.0 + nx * more_m, nx * out_mm, ny, half.0), (at.1 + ny * more_m, ny * out_mm, nx, half.1)]
            {
                let room = half - out.abs() - along.abs() * text_mm / 2.0;
                // Words that fit at no scale must not make all of it too small to be read.
                if room > 0.0 || text_mm == 0.0 {
                    scale = scale.min(room / at_m.abs().max(SAME_M));
                }
            }
        }
    }
    scale
}

/// Every side, with the way it faces.
fn sides(corners: &[Vector]) -> Vec<Dimension> {
    let next = || corners.iter().cycle().skip(1);
    let area: f64 = corners.iter().zip(next()).map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum();
    let turn = if area >= 0.0 { 1.0 } else { -1.0 };
    let mut all: Vec<Dimension> = corners
        .iter()
        .zip(next())
        .filter_map(|(&a, &b)| {
            let (dx, dy) = (b.0 - a.0, b.1 - a.1);
            let length_m = dx.hypot(dy);
            let outward = (dy / length_m * turn, -dx / length_m * turn);
            let side =
                Dimension { ends: [a, b], outward, reach_m: 0.0, is_hidden: false, row: 0, length_m, text_mm: 0.0 };
            (length_m > 1e-6).then_some(side)
        })
        .collect();
    for index in 0..all.len() {
        let side = all[index].clone();
        let same = || all.iter().filter(|other| other.faces_as(&side));
        let reach_m = same().map(Dimension::out).fold(f64::NEG_INFINITY, f64::max);
        let is_hidden = same().any(|other| other.out() > side.out() + SAME_M && overlap(other, &side));
        (all[index].reach_m, all[index].is_hidden) = (reach_m, is_hidden);
    }
    all
}

/// Of two sides opposite each other, over the same stretch, one is enough: the one that can be seen, or the lower, left
/// one.
fn without_doubles(sides: &[Dimension]) -> Vec<Dimension> {
    let is_worse = |side: &Dimension, other: &Dimension| {
        let [a, b] = side.stretch();
        let [d, c] = other.stretch().map(|at| -at);
        let same = !side.faces_as(other) && side.is_parallel(other) && (a - c).abs() < SAME_M && (b - d).abs() < SAME_M;
        same && (side.is_hidden, -side.preference()) > (other.is_hidden, -other.preference())
    };
    sides.iter().filter(|side| !sides.iter().any(|other| is_worse(side, other))).cloned().collect()
}

/// The whole length and width, where no side shows it.
fn wholes(sides: &[Dimension], corners: &[Vector]) -> Vec<Dimension> {
    let mut found: Vec<Dimension> = Vec::new();
    for side in sides {
        let along = (-side.outward.1, side.outward.0);
        let (low, high) = corners
            .iter()
            .map(|&corner| dot(corner, along))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
        let shown = |other: &&Dimension| other.is_parallel(side) && (other.length_m - (high - low)).abs() < SAME_M;
        if sides.iter().chain(&found).any(|other| shown(&other)) {
            continue;
        }
        let parallel = sides.iter().filter(|other| other.is_parallel(side));
        let Some(best) = parallel.max_by(|a, b| a.preference().total_cmp(&b.preference())) else { continue };
        let along = (-best.outward.1, best.outward.0);
        let of = |at: f64| (along.0 * at + best.outward.0 * best.reach_m, along.1 * at + best.outward.1 * best.reach_m);
        let (from, to) = if best.faces_as(side) { (low, high) } else { (-high, -low) };
        let whole = Dimension { ends: [of(from), of(to)], is_hidden: true, length_m: high - low, ..best.clone() };
        found.push(whole);
    }
    found
}

fn overlap(a: &Dimension, b: &Dimension) -> bool {
    let ([a0, a1], [b0, b1]) = (a.stretch(), b.stretch());
    a0 < b1 - SAME_M && b0 < a1 - SAME_M
}

fn dot(a: Vector, b: Vector) -> f64 {
    a.0 * b.0 + a.1 * b.1
}

/// A point of the road as the drawing lies: turned by half where traffic runs against increasing chainage.
pub(super) fn turned(point: FramePoint, middle: FramePoint, sign: f64) -> Vector {
    ((point.along_m - middle.along_m) * sign, (point.across_m - middle.across_m) * sign)
}

#[cfg(test)]
mod tests {
    use super::*;

    const UP: Vector = (0.0, -1.0);
    const DOWN: Vector = (0.0, 1.0);
    const LEFT: Vector = (-1.0, 0.0);
    const RIGHT: Vector = (1.0, 0.0);

    const RECTANGLE: [Vector; 4] = [(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)];
    /// A corner is missing below on the right.
    const L: [Vector; 6] = [(0.0, 0.0), (2.0, 0.0), (2.0, 0.4), (1.2, 0.4), (1.2, 1.0), (0.0, 1.0)];
    /// Its stem points down.
    const T: [Vector; 8] =
        [(0.0, 0.0), (3.0, 0.0), (3.0, 1.0), (2.0, 1.0), (2.0, 1.6), (1.2, 1.6), (1.2, 1.0), (0.0, 1.0)];

    /// The dimensions drawn: how long, where it stands, in which row; at 40 mm a metre, so that the words need little room.
    fn drawn(corners: &[Vector]) -> Vec<(f64, Vector, usize)> {
        let dimensions = dimensions(corners, 40.0, 0.0, |length_m| format!("{length_m:.2} m"));
        let round = |x: f64| (x * 1e6).round() / 1e6 + 0.0;
        let all = dimensions.iter().map(|d| (round(d.length_m), (round(d.outward.0), round(d.outward.1)), d.row));
        let mut all: Vec<_> = all.collect();
        all.sort_by(|a, b| a.partial_cmp(b).expect("numbers"));
        all
    }

    #[test]
    fn a_rectangle_has_length_and_width_once_below_and_on_the_left() {
        assert_eq!(drawn(&RECTANGLE), [(1.0, LEFT, 0), (2.0, DOWN, 0)]);
    }

    #[test]
    fn an_l_has_every_side_once_and_the_wholes_are_sides() {
        let expected = [(0.4, RIGHT, 0), (0.6, RIGHT, 0), (0.8, DOWN, 0), (1.0, LEFT, 0), (1.2, DOWN, 0), (2.0, UP, 0)];
        assert_eq!(drawn(&L), expected);
    }

    /// Of the two ends of the bar and the two sides of the stem one each; the whole depth, that no side shows, stands a row
    /// further out.
    #[test]
    fn a_t_has_its_whole_depth_beyond_the_others() {
        let expected = [
            (0.6, LEFT, 0),
            (0.8, DOWN, 0),
            (1.0, LEFT, 0),
            (1.0, DOWN, 0),
            (1.2, DOWN, 0),
            (1.6, LEFT, 1),
            (3.0, UP, 0),
        ];
        assert_eq!(drawn(&T), expected);
    }

    #[test]
    fn the_way_round_changes_nothing() {
        for corners in [&RECTANGLE[..], &L, &T] {
            let reversed: Vec<Vector> = corners.iter().rev().copied().collect();
            assert_eq!(drawn(&reversed), drawn(corners));
        }
    }

    /// On a small scale the words of neighbours need more room than the sides have.
    #[test]
    fn words_that_would_touch_stand_in_rows() {
        let rows = |scale: f64| {
            let all = dimensions(&L, scale, 0.0, |length_m| format!("{length_m:.2} m"));
            all.iter().filter(|d| d.outward.1 > 0.5).map(|d| d.row).collect::<Vec<_>>()
        };
        // "0.80 m" and "1.20 m": 6 letters of 1.68 mm each and 1 mm between, 1 m of road between their middles.
        assert_eq!(rows(11.1), [0, 0]);
        assert_eq!(rows(11.0), [0, 1]);
    }

    /// Half a metre from the middle of a square to each side, with row and text within 20 mm.
    #[test]
    fn the_greatest_scale_lets_the_outermost_row_fit() {
        let square = [(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)];
        let all = dimensions(&square, 20.0, 0.0, |_| String::new());
        // Down: 20 - (4.2 + 1.2) = 14.6 mm for 0.6 m with the seal; left: 20 - (4.2 + 3.4) = 12.4 mm.
        assert!((greatest_scale(&all, 0.1, (100.0, 20.0)) - 14.6 / 0.6).abs() < 1e-9);
        assert!((greatest_scale(&all, 0.1, (20.0, 100.0)) - 12.4 / 0.6).abs() < 1e-9);
        // Words of 12 letters, 20.16 mm: for 0.6 m to the left no line would be as high, but the words are.
        let all = dimensions(&square, 20.0, 0.0, |_| "1".repeat(12));
        assert!((greatest_scale(&all, 0.1, (100.0, 12.0)) - 6.6 / 0.6).abs() < 1e-9);
        assert_eq!(greatest_scale(&[], 0.1, (20.0, 20.0)), f64::INFINITY);
    }
}
