//! Right-angled polygons of four, six or eight corners, in the direction of a cut.
//!
//! All of them lie between two lines that step: a top and a bottom, with together at most two steps, looked at along one
//! side of the cut or along the other. One step is a notch in a corner (six corners). Two steps in one line are a
//! staircase in a corner, a notch in each of two neighbouring corners, or a notch in a side, whose two arms may end at
//! different heights; one step in each line are notches in opposite or in neighbouring corners. A right-angled polygon of
//! eight corners turns inwards at two; going round, the corners between those two are 0 and 6, 1 and 5, 2 and 4 or 3 and
//! 3: these are the shapes named, so there are no others.

use geo::Coord;

/// Which coordinate the steps run along.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Axis {
    /// Along the cut's direction.
    Along,
    /// Across it.
    Across,
}

/// A line that steps up or down: a level for each stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Steps {
    /// How many steps, 0 to 2.
    pub count: usize,
    /// Where they are, rising.
    pub at: [f64; 2],
    /// Level of each stretch, `count + 1` of them.
    pub levels: [f64; 3],
}

/// The polygon between two such lines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Shape {
    /// What the steps run along; the levels are measured along the other.
    pub axis: Axis,
    /// Both ends along the axis.
    pub ends: [f64; 2],
    /// Upper line.
    pub top: Steps,
    /// Lower line.
    pub bottom: Steps,
}

/// What two steps in one line make.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Form {
    /// An arm between notches in two corners.
    Arm,
    /// A staircase in one corner.
    Stairs,
    /// A notch in the side, a strip between two arms.
    Strip,
}

impl Form {
    /// By the heights of the three stretches.
    pub fn of([left, middle, right]: [f64; 3]) -> Self {
        if middle > left.max(right) {
            Form::Arm
        } else if middle < left.min(right) {
            Form::Strip
        } else {
            Form::Stairs
        }
    }
}

/// How narrow a shape is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Narrowest {
    /// Widest square foot that reaches everywhere inside.
    pub arm: f64,
    /// Shortest side of a notch; infinite without one.
    pub notch: f64,
    /// Width of the strip of pavement left between two arms; infinite without one.
    pub strip: f64,
}

impl Steps {
    /// A straight line.
    pub fn level(level: f64) -> Self {
        Steps { count: 0, at: [0.0; 2], levels: [level; 3] }
    }

    /// Stretches as (from, to, level).
    pub fn stretches(&self, ends: [f64; 2]) -> impl DoubleEndedIterator<Item = (f64, f64, f64)> {
        let Steps { count, at, levels } = *self;
        (0..=count).map(move |index| {
            let from = if index == 0 { ends[0] } else { at[index - 1] };
            let to = if index == count { ends[1] } else { at[index] };
            (from, to, levels[index])
        })
    }

    fn integral(&self, ends: [f64; 2]) -> f64 {
        self.stretches(ends).map(|(from, to, level)| (to - from) * level).sum()
    }

    fn rise(&self) -> f64 {
        (0..self.count).map(|index| (self.levels[index + 1] - self.levels[index]).abs()).sum()
    }
}

impl Shape {
    /// Four, six or eight.
    pub fn corner_count(&self) -> usize {
        4 + 2 * (self.top.count + self.bottom.count)
    }

    /// Area inside.
    pub fn area(&self) -> f64 {
        self.top.integral(self.ends) - self.bottom.integral(self.ends)
    }

    /// Length all round.
    pub fn perimeter(&self) -> f64 {
        let first = self.top.levels[0] - self.bottom.levels[0];
        let last = self.top.levels[self.top.count] - self.bottom.levels[self.bottom.count];
        2.0 * (self.ends[1] - self.ends[0]) + first + last + self.top.rise() + self.bottom.rise()
    }

    /// Corners in (along, across), turning from the first coordinate to the second.
    pub fn corners(&self) -> Vec<Coord> {
        let there = self.bottom.stretches(self.ends).flat_map(|(from, to, level)| [(from, level), (to, level)]);
        let back = self.top.stretches(self.ends).rev().flat_map(|(from, to, level)| [(to, level), (from, level)]);
        let ring = there.chain(back);
        match self.axis {
            Axis::Along => ring.map(|(u, v)| Coord { x: u, y: v }).collect(),
            Axis::Across => {
                let mut ring: Vec<Coord> = ring.map(|(u, v)| Coord { x: v, y: u }).collect();
                ring.reverse();
                ring
            }
        }
    }

    /// What its two steps make, where both are in one line.
    pub fn form(&self) -> Form {
        if self.top.count == 2 { Form::of(self.top.levels) } else { Form::of(self.bottom.levels.map(|level| -level)) }
    }

    /// Its arms, notches and strips.
    pub fn narrowest(&self) -> Narrowest {
        let (width, height) = (self.ends[1] - self.ends[0], self.highest() - self.lowest());
        let whole = Narrowest { arm: width.min(height), notch: f64::INFINITY, strip: f64::INFINITY };
        match (self.top.count, self.bottom.count) {
            (1, 1) => self.of_two_notches(whole),
            (_, 0) => of_steps(&self.top, self.ends, |level| level - self.lowest(), whole),
            _ => of_steps(&self.bottom, self.ends, |level| self.highest() - level, whole),
        }
    }

    /// Upper side of the rectangle around it.
    pub fn highest(&self) -> f64 {
        self.top.levels[..=self.top.count].iter().copied().fold(f64::NEG_INFINITY, f64::max)
    }

    /// Lower side of the rectangle around it.
    pub fn lowest(&self) -> f64 {
        self.bottom.levels[..=self.bottom.count].iter().copied().fold(f64::INFINITY, f64::min)
    }

    /// One notch from the top, one from the bottom.
    fn of_two_notches(&self, whole: Narrowest) -> Narrowest {
        let [from, to] = self.ends;
        let (top, bottom) = (self.top.levels, self.bottom.levels);
        let (top_drop, bottom_drop) = ((top[1] - top[0]).abs(), (bottom[1] - bottom[0]).abs());
        let (top_left, bottom_left) = (top[0] < top[1], bottom[0] > bottom[1]);
        let width = |left: bool, at: f64| if left { at - from } else { to - at };
        let (top_width, bottom_width) = (width(top_left, self.top.at[0]), width(bottom_left, self.bottom.at[0]));
        let length = to - from;
        let height = self.highest() - self.lowest();
        let between = height - top_drop - bottom_drop;
        // Notches at opposite corners leave a neck: upright between their sides, or level between their ends.
        let neck = if top_left == bottom_left { between } else { between.max(length - top_width - bottom_width) };
        let arm = [length - top_width, length - bottom_width, height - top_drop, height - bottom_drop, neck]
            .into_iter()
            .fold(whole.arm, f64::min);
        Narrowest { arm, notch: top_width.min(bottom_width).min(top_drop).min(bottom_drop), ..whole }
    }
}

/// One line steps, the other is straight.
fn of_steps(steps: &Steps, ends: [f64; 2], height: impl Fn(f64) -> f64, whole: Narrowest) -> Narrowest {
    let (mut widths, mut heights) = ([0.0; 3], [0.0; 3]);
    for (index, (from, to, level)) in steps.stretches(ends).enumerate() {
        (widths[index], heights[index]) = (to - from, height(level));
    }
    let line = match steps.count {
        0 => return whole,
        1 => Narrowest::of_two([widths[0], widths[1]], [heights[0], heights[1]]),
        _ => Narrowest::of_three(widths, heights),
    };
    Narrowest { arm: line.arm.min(whole.arm), ..line }
}

impl Narrowest {
    /// Over a straight line, two stretches of these widths and heights.
    pub fn of_two(widths: [f64; 2], heights: [f64; 2]) -> Self {
        let (low, high) = if heights[0] < heights[1] { (0, 1) } else { (1, 0) };
        let arm = heights[low].min(widths[high]);
        Narrowest { arm, notch: widths[low].min(heights[high] - heights[low]), strip: f64::INFINITY }
    }

    /// Over a straight line, three stretches of these widths and heights.
    pub fn of_three([w0, w1, w2]: [f64; 3], [h0, h1, h2]: [f64; 3]) -> Self {
        match Form::of([h0, h1, h2]) {
            Form::Strip => Narrowest { arm: w0.min(w2).min(h1), notch: w1.min(h0.min(h2) - h1), strip: w1 },
            Form::Arm => {
                let notch = w0.min(w2).min(h1 - h0).min(h1 - h2);
                Narrowest { arm: w1.min(h0).min(h2), notch, strip: f64::INFINITY }
            }
            Form::Stairs => {
                let (low_width, high_width) = if h0 < h2 { (w0, w2) } else { (w2, w0) };
                let notch = low_width.min(w1).min((h1 - h0).abs()).min((h2 - h1).abs());
                Narrowest { arm: high_width.min(h0).min(h2), notch, strip: f64::INFINITY }
            }
        }
    }
}
