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

    /// How low and left on paper it stands: where two would do, there nothing else is in the way.
    fn preference(&self) -> f64 {
        let middle = (f64::midpoint(self.ends[0].0, self.ends[1].0), f64::midpoint(self.ends[0].1, self.ends[1].1));
        middle.1 - middle.0
    }
}

/// The dimensions of a cut of right-angled corners, in rows for a scale in millimetres a metre; `words` writes a length.
pub(super) fn dimensions(corners: &[Vector], scale: f64, words: impl Fn(f64) -> String) -> Vec<Dimension> {
    let mut all = without_doubles(&sides(corners));
    all.extend(wholes(&all, corners));
    let touch = |a: &Dimension, b: &Dimension| {
        let middle = |dimension: &Dimension| dimension.stretch().iter().sum::<f64>() / 2.0 * scale;
        let width = |dimension: &Dimension| text_width(&words(dimension.length_m), TYPE);
        overlap(a, b) || (middle(a) - middle(b)).abs() < f64::midpoint(width(a), width(b)) + GAP
    };
    // What can be seen first, short before long, so that guide lines cross few others.
    all.sort_by(|a, b| a.is_hidden.cmp(&b.is_hidden).then(a.length_m.total_cmp(&b.length_m)));
    for index in 0..all.len() {
        let same_way = all[..index].iter().filter(|other| other.faces_as(&all[index]));
        let taken: Vec<usize> = same_way.filter(|other| touch(other, &all[index])).map(|other| other.row).collect();
        all[index].row = (0..=taken.len()).find(|row| !taken.contains(row)).unwrap_or(0);
    }
    all
}

/// The greatest scale at which the dimensions fit between `half` the width and height of the paper; `overlap_m` is how far
/// the seal reaches beyond the cut.
pub(super) fn greatest_scale(dimensions: &[Dimension], overlap_m: f64, half: Vector) -> f64 {
    let mut scale = f64::INFINITY;
    for dimension in dimensions {
        let (nx, ny) = dimension.outward;
        let text = if nx < -0.3 || ny < -0.3 { TEXT } else { NO_TEXT };
        let out_mm = FIRST_ROW + ROW * dimension.row as f64 + text;
        for end in dimension.ends {
            let more_m = dimension.reach_m + overlap_m - dot(end, dimension.outward);
            for (at_m, out, half) in
                [(end.0 + nx * more_m, nx * out_mm, half.0), (end.1 + ny * more_m, ny * out_mm, half.1)]
            {
                scale = scale.min((half - out.abs()) / at_m.abs().max(SAME_M));
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
            let side = Dimension { ends: [a, b], outward, reach_m: 0.0, is_hidden: false, row: 0, length_m };
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
