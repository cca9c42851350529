//! The floor of a cut, split into rectangles that a compactor can go over.
//!
//! A cut has right-angled corners: four, six or eight. Where it is no rectangle, the rectangles overlap: each reaches as far
//! as the cut does, so that a machine may go where one arm of an L meets the other, and each adds only the lanes that the
//! ones before it have left.

use geo::{Contains, LineString, Point, Polygon};
use model::place::FramePoint;
use model::quantity::{InLength, Length, metres};

/// Two coordinates nearer than this are the same, metres: nobody saws finer.
const SAME: f64 = 1e-3;

/// More corners than markings have; a ring with more is taken as a rectangle.
const MOST_CORNERS: usize = 12;

/// The floor of a cut in a frame along its longest side.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    origin: FramePoint,
    /// Unit vector of the first axis, along and across the road.
    axis: (f64, f64),
    /// Lines of the grid in each axis, metres, rising.
    lines: [Vec<f64>; 2],
    /// Cells of the grid that lie in the cut, row by row of the second axis.
    inside: Vec<bool>,
}

/// Cells from and to (excluded) in each axis.
type Block = [[usize; 2]; 2];

/// One rectangle of the floor with the lanes it gets; `lane` is the axis that they run in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Axis that the lanes run in, 0 or 1.
    pub lane: usize,
    /// From where to where the lanes must cover, in each axis, metres.
    pub cover: [[f64; 2]; 2],
    /// As far as the machine may go, in each axis, metres: the sides of the cut.
    pub walls: [[f64; 2]; 2],
}

impl Part {
    /// Length of the lanes.
    pub fn length_m(&self) -> f64 {
        span(self.cover[self.lane])
    }

    /// Width the lanes must cover.
    pub fn width_m(&self) -> f64 {
        span(self.cover[1 - self.lane])
    }
}

fn span([from, to]: [f64; 2]) -> f64 {
    to - from
}

impl Ground {
    /// The floor of the cut with these corners (open ring, road frame). A ring whose corners are not square is taken as a
    /// rectangle of that length and width along its longest side.
    pub fn new(corners: &[FramePoint], length: Length, width: Length) -> Self {
        let origin = corners.first().copied().unwrap_or(FramePoint { along_m: 0.0, across_m: 0.0 });
        let axis = longest_side(corners);
        let ring: Vec<(f64, f64)> = corners
            .iter()
            .map(|corner| {
                let (x, y) = (corner.along_m - origin.along_m, corner.across_m - origin.across_m);
                (x * axis.0 + y * axis.1, y * axis.0 - x * axis.1)
            })
            .collect();
        let lines = [ring.iter().map(|p| p.0).collect(), ring.iter().map(|p| p.1).collect()].map(distinct);
        if !is_square_cornered(&ring) {
            let from = lines.map(|line| line.first().copied().unwrap_or(0.0));
            let lines = [vec![from[0], from[0] + length.in_metres()], vec![from[1], from[1] + width.in_metres()]];
            return Ground { origin, axis, lines, inside: vec![true] };
        }
        let outline = Polygon::new(LineString::from(ring), vec![]);
        let mut inside = Vec::new();
        for rows in lines[1].windows(2) {
            for columns in lines[0].windows(2) {
                let middle = Point::new(f64::midpoint(columns[0], columns[1]), f64::midpoint(rows[0], rows[1]));
                inside.push(outline.contains(&middle));
            }
        }
        Ground { origin, axis, lines, inside }
    }

    /// Whether a machine that needs this width between the sides, in a place at least this long, reaches every spot.
    pub fn has_room(&self, width: Length, along: Length) -> bool {
        let fits = |block: &Block| self.short_and_long(block).is_some_and(|sides| wide_enough(sides, width, along));
        self.cells().all(|cell| self.blocks().any(|block| holds_cell(&block, cell) && fits(&block)))
    }

    /// The greatest width that a machine of no length may need.
    pub fn clear_width(&self) -> Length {
        let widest = |cell| {
            let blocks = self.blocks().filter(|block| holds_cell(block, cell));
            blocks.filter_map(|block| self.short_and_long(&block)).map(|(short, _)| short).fold(0.0, f64::max)
        };
        metres(self.cells().map(widest).fold(f64::INFINITY, f64::min))
    }

    /// The parts to go over with a machine that needs that width and length of room; `overlap` is how far the lanes of a part
    /// reach into what is compacted already. A machine that has no room goes over the surface and is not bound by it.
    pub fn parts(&self, width: Length, along: Length, overlap: Length) -> Vec<Part> {
        let bound = self.has_room(width, along);
        let allowed: Vec<Block> = self
            .blocks()
            .filter(|block| !bound || self.short_and_long(block).is_some_and(|sides| wide_enough(sides, width, along)))
            .collect();
        let mut open: Vec<(usize, usize)> = self.cells().collect();
        let mut parts = Vec::new();
        while !open.is_empty() {
            // Most of what is still open; of two alike the larger, so that a part ends at the sides of the cut.
            let gain = |block: &Block| {
                let covered = open.iter().filter(|cell| holds_cell(block, **cell)).map(|cell| self.cell_area(*cell));
                (covered.sum::<f64>(), self.area(block))
            };
            let better = |a: &&Block, b: &&Block| {
                let (a, b) = (gain(a), gain(b));
                a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
            };
            let Some(best) = allowed.iter().max_by(better) else { break };
            parts.push(self.part(best, &open, overlap.in_metres()));
            open.retain(|cell| !holds_cell(best, *cell));
        }
        parts
    }

    /// A point of this frame in the road's.
    pub fn on_road(&self, x: f64, y: f64) -> FramePoint {
        FramePoint {
            along_m: self.origin.along_m + x * self.axis.0 - y * self.axis.1,
            across_m: self.origin.across_m + x * self.axis.1 + y * self.axis.0,
        }
    }

    /// The part of a block that covers what is open in it.
    fn part(&self, block: &Block, open: &[(usize, usize)], overlap: f64) -> Part {
        let walls = [0, 1].map(|axis| self.extent(axis, block[axis]));
        let cover = [0, 1].map(|axis| {
            let own = open.iter().filter(|cell| holds_cell(block, **cell)).map(|cell| [cell.0, cell.1][axis]);
            let (first, last) = own.fold((usize::MAX, 0), |(first, last), at| (first.min(at), last.max(at)));
            let [from, to] = self.extent(axis, [first, last + 1]);
            // Where the part ends at no side of the cut, it reaches into what is compacted already.
            [(from - overlap).max(walls[axis][0]), (to + overlap).min(walls[axis][1])]
        });
        let lane = usize::from(span(walls[1]) > span(walls[0]) + SAME);
        Part { lane, cover, walls }
    }

    fn extent(&self, axis: usize, [from, to]: [usize; 2]) -> [f64; 2] {
        let line = |at: usize| self.lines[axis].get(at).copied().unwrap_or(0.0);
        [line(from), line(to)]
    }

    fn columns(&self) -> usize {
        self.lines[0].len().saturating_sub(1)
    }

    fn rows(&self) -> usize {
        self.lines[1].len().saturating_sub(1)
    }

    fn is_inside(&self, (column, row): (usize, usize)) -> bool {
        self.inside.get(row * self.columns() + column).copied().unwrap_or(false)
    }

    fn cells(&self) -> impl Iterator<Item = (usize, usize)> + '_ {
        let all = (0..self.rows()).flat_map(|row| (0..self.columns()).map(move |column| (column, row)));
        all.filter(|cell| self.is_inside(*cell))
    }

    /// Every rectangle of cells that lies in the cut.
    fn blocks(&self) -> impl Iterator<Item = Block> + '_ {
        let pairs = |count: usize| (0..count).flat_map(move |from| (from + 1..=count).map(move |to| [from, to]));
        pairs(self.columns()).flat_map(move |columns| pairs(self.rows()).map(move |rows| [columns, rows])).filter(
            |[columns, rows]| {
                (rows[0]..rows[1]).all(|row| (columns[0]..columns[1]).all(|column| self.is_inside((column, row))))
            },
        )
    }

    fn short_and_long(&self, block: &Block) -> Option<(f64, f64)> {
        let [a, b] = [0, 1].map(|axis| span(self.extent(axis, block[axis])));
        (a > 0.0 && b > 0.0).then(|| (a.min(b), a.max(b)))
    }

    fn area(&self, block: &Block) -> f64 {
        span(self.extent(0, block[0])) * span(self.extent(1, block[1]))
    }

    fn cell_area(&self, (column, row): (usize, usize)) -> f64 {
        self.area(&[[column, column + 1], [row, row + 1]])
    }
}

fn wide_enough((short, long): (f64, f64), width: Length, along: Length) -> bool {
    width.in_metres() <= short + 1e-9 && along.in_metres() <= long + 1e-9
}

fn holds_cell([columns, rows]: &Block, (column, row): (usize, usize)) -> bool {
    (columns[0]..columns[1]).contains(&column) && (rows[0]..rows[1]).contains(&row)
}

/// Direction of the longest side; of sides alike the first. Along the road where there is no side.
fn longest_side(corners: &[FramePoint]) -> (f64, f64) {
    let next = corners.iter().cycle().skip(1);
    let sides = corners.iter().zip(next).map(|(a, b)| (b.along_m - a.along_m, b.across_m - a.across_m));
    let (mut best, mut longest) = ((1.0, 0.0), SAME);
    for (x, y) in sides {
        let length = f64::hypot(x, y);
        if length > longest + SAME {
            (best, longest) = ((x / length, y / length), length);
        }
    }
    best
}

/// Rising, without those that are the same as the one before.
fn distinct(mut values: Vec<f64>) -> Vec<f64> {
    values.sort_by(f64::total_cmp);
    let mut kept: Vec<f64> = Vec::new();
    for value in values {
        if kept.last().is_none_or(|last| value - last > SAME) {
            kept.push(value);
        }
    }
    kept
}

fn is_square_cornered(ring: &[(f64, f64)]) -> bool {
    let next = ring.iter().cycle().skip(1);
    ring.len() >= 4
        && ring.len() <= MOST_CORNERS
        && ring.iter().zip(next).all(|(a, b)| (a.0 - b.0).abs() <= SAME || (a.1 - b.1).abs() <= SAME)
}
