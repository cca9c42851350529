//! The best notches in one direction: every pair of steps on a grid of stretches, then on ever finer ones.

use std::cell::OnceCell;

use model::rules::markout::MarkOutRules;

use crate::body::Body;
use crate::laid::{LEAST_NOTCH_M, Laid};
use crate::outer::{Outer, ROUNDING_M};
use crate::profile::{Profile, Span, ends, spans};
use crate::shape::{Axis, Form, Narrowest, Shape, Steps};

/// Kinds of cuts looked for on the first grid.
pub(crate) const KINDS: usize = 7;
/// Stretches of the first grid.
const STRETCHES: usize = 24;
/// What rises above a level by less, by rounding, still lies under it.
const TOUCHES_M: f64 = 1e-10;
/// Each finer grid divides the stretches on both sides of a step by this.
const DIVISION: i32 = 4;

/// Where the steps are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Pattern {
    /// One in a line.
    One(Line),
    /// Two in a line.
    Two(Line, Form),
    /// One in each line.
    Both,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Line {
    Top,
    Bottom,
}

impl Pattern {
    fn of(shape: &Shape) -> Self {
        let line = if shape.top.count > 0 { Line::Top } else { Line::Bottom };
        match shape.top.count + shape.bottom.count {
            2 if shape.top.count == 1 => Pattern::Both,
            2 => Pattern::Two(line, shape.form()),
            _ => Pattern::One(line),
        }
    }
}

/// Cuts with notches in one direction.
pub(crate) struct Notches<'a> {
    body: &'a Body,
    outer: &'a Outer,
    rules: &'a MarkOutRules,
    along: OnceCell<Vec<Span>>,
    across: OnceCell<Vec<Span>>,
}

impl<'a> Notches<'a> {
    pub fn new(body: &'a Body, outer: &'a Outer, rules: &'a MarkOutRules) -> Self {
        Notches { body, outer, rules, along: OnceCell::new(), across: OnceCell::new() }
    }

    /// Whether a notch and the arm beside it find room in both directions.
    pub fn find_room(outer: &Outer, rules: &MarkOutRules) -> bool {
        let least = rules.smallest_side_m.value + rules.smallest_notch_m.value.max(LEAST_NOTCH_M);
        outer.high.x - outer.low.x >= least && outer.high.y - outer.low.y >= least
    }

    /// On the coarse grid: the cheapest with a notch in a corner, with one in each of two corners, with a staircase, and
    /// with a notch in a side. And once more the last three, their sides too short by as much as a step can still be
    /// moved: what comes of that is for [`Notches::near`] to say.
    pub fn coarse(&self) -> [Option<Laid>; KINDS] {
        const LINES: [Line; 2] = [Line::Top, Line::Bottom];
        let mut best = [None; KINDS];
        let [corner, kinds @ ..] = &mut best;
        let along = self.grid(Axis::Along);
        for line in LINES {
            Scan::new(self, Axis::Along, &along, false).best(Pattern::One(line), |_| [true, true], corner);
        }
        if self.rules.most_corners.value == 8 {
            let across = self.grid(Axis::Across);
            let scans = |is_loose| {
                // Along the other axis all but notches in a side are the same shapes again.
                let axes = [(Axis::Along, &along), (Axis::Across, &across)];
                axes.map(|(axis, profile)| Scan::new(self, axis, profile, is_loose))
            };
            let (strict, loose) = (scans(false), scans(true));
            let (as_asked, too_short) = kinds.split_at_mut(3);
            for (kind, (as_asked, too_short)) in as_asked.iter_mut().zip(too_short).enumerate() {
                best_of_kind(kind, &loose, too_short);
                // What may be too short and is not, is the best without.
                match too_short {
                    Some(shape) if self.are_wide(shape.narrowest(), 0.0) => *as_asked = Some(*shape),
                    _ => best_of_kind(kind, &strict, as_asked),
                }
            }
        }
        // Steps that touch the hole are good places to start from, above all where there is little room.
        let tight = |shape: Shape| self.tight(shape, (shape.ends[1] - shape.ends[0]) / STRETCHES as f64);
        best.map(|shape| shape.map(|shape| Laid::new(self.body, self.outer, tight(shape), self.rules)))
    }

    /// The cheapest with steps in the same lines as `like`'s and near them, which are given as parts of the sides;
    /// tight against the hole.
    pub fn near(&self, like: &Laid, rounds: usize) -> Option<Laid> {
        let axis = like.shape.axis;
        let (sides, _) = ends(self.outer, axis);
        let like_length = like.shape.ends[1] - like.shape.ends[0];
        let place = |at: f64| sides[0] + (at - like.shape.ends[0]) / like_length * (sides[1] - sides[0]);
        let pattern = Pattern::of(&like.shape);
        let mut at = steps_of(&like.shape).map(place);
        let mut step = (sides[1] - sides[0]) / STRETCHES as f64;
        let mut found = None;
        for _ in 0..rounds {
            let choices =
                at.map(|at| (-DIVISION..=DIVISION).map(move |part| at + step * f64::from(part) / f64::from(DIVISION)));
            let choices =
                choices.map(|choices| choices.filter(|&c| sides[0] < c && c < sides[1]).collect::<Vec<f64>>());
            let mut bounds = [&choices[0][..], &choices[1], &sides].concat();
            if axis == Axis::Across {
                bounds.retain(|&bound| self.outer.limits.allows(bound) || sides.contains(&bound));
            }
            bounds.sort_by(f64::total_cmp);
            bounds.dedup();
            let profile = Profile::new(self.seen(axis), bounds, self.rules.margin_m.value);
            Scan::new(self, axis, &profile, false).best(
                pattern,
                |bound| [choices[0].contains(&bound), choices[1].contains(&bound)],
                &mut found,
            );
            let Some(shape) = &found else { break };
            at = steps_of(shape);
            step /= f64::from(DIVISION);
        }
        found.map(|shape| Laid::new(self.body, self.outer, self.tight(shape, 0.0), self.rules))
    }

    fn seen(&self, axis: Axis) -> &[Span] {
        let seen = match axis {
            Axis::Along => &self.along,
            Axis::Across => &self.across,
        };
        seen.get_or_init(|| spans(self.body, self.outer.direction, axis))
    }

    fn grid(&self, axis: Axis) -> Profile {
        let ([from, to], _) = ends(self.outer, axis);
        let step = (to - from) / STRETCHES as f64;
        let mut bounds: Vec<f64> = (0..STRETCHES).map(|index| from + step * index as f64).collect();
        if axis == Axis::Across {
            let paths = self.outer.limits.wheel_paths.iter();
            let borders = paths.flat_map(|path| [path.across_min_m, path.across_max_m]);
            bounds.extend(borders.filter(|&border| from < border && border < to));
            bounds.retain(|&bound| bound == from || self.outer.limits.allows(bound));
            bounds.sort_by(f64::total_cmp);
        }
        bounds.push(to);
        Profile::new(self.seen(axis), bounds, self.rules.margin_m.value)
    }

    /// Every step moved towards the hole until it touches it, where the shape then is wide enough but for a slack.
    fn tight(&self, mut shape: Shape, slack: f64) -> Shape {
        for index in 0..shape.top.count {
            let spans = self.seen(shape.axis).iter().copied();
            let moved = moved_step(&shape.top, shape.ends, index, spans, self.rules.margin_m.value);
            let changed = Shape { top: moved, ..shape };
            if self.may_be(&changed, slack) {
                shape = changed;
            }
        }
        for index in 0..shape.bottom.count {
            let spans = self.seen(shape.axis).iter().map(|span| span.mirrored());
            let up = Steps { levels: shape.bottom.levels.map(|level| -level), ..shape.bottom };
            let moved = moved_step(&up, shape.ends, index, spans, self.rules.margin_m.value);
            let changed = Shape { bottom: Steps { levels: shape.bottom.levels, ..moved }, ..shape };
            if self.may_be(&changed, slack) {
                shape = changed;
            }
        }
        shape
    }

    /// Whether arms, notches and strips are wide enough, but for a slack.
    fn are_wide(&self, narrowest: Narrowest, slack: f64) -> bool {
        let rules = self.rules;
        narrowest.arm >= rules.smallest_side_m.value - slack - ROUNDING_M
            && narrowest.notch >= (rules.smallest_notch_m.value - slack).max(LEAST_NOTCH_M)
            // Between two steps, both of which may move.
            && narrowest.strip >= rules.merge_gap_m.value - 2.0 * slack
    }

    /// Whether a shape is wide enough everywhere, but for a slack, and its steps are out of wheel paths.
    fn may_be(&self, shape: &Shape, slack: f64) -> bool {
        self.are_wide(shape.narrowest(), slack)
            && (shape.axis == Axis::Along || steps_of(shape).iter().all(|&at| self.outer.limits.allows(at)))
    }
}

/// The cheapest of two notches: one in each of two corners, a staircase, or a notch in a side.
fn best_of_kind(kind: usize, [along, across]: &[Scan; 2], best: &mut Option<Shape>) {
    let anywhere = |_| [true, true];
    if kind == 0 {
        along.best(Pattern::Both, anywhere, best);
    }
    for line in [Line::Top, Line::Bottom] {
        match kind {
            0 => along.best(Pattern::Two(line, Form::Arm), anywhere, best),
            1 => along.best(Pattern::Two(line, Form::Stairs), anywhere, best),
            _ => {
                along.best(Pattern::Two(line, Form::Strip), anywhere, best);
                across.best(Pattern::Two(line, Form::Strip), anywhere, best);
            }
        }
    }
}

/// The places of the two steps of a shape; one twice where there is only one.
fn steps_of(shape: &Shape) -> [f64; 2] {
    match (shape.top.count, shape.bottom.count) {
        (2, _) => shape.top.at,
        (_, 2) => shape.bottom.at,
        (1, 1) => [shape.top.at[0], shape.bottom.at[0]],
        (1, _) => [shape.top.at[0]; 2],
        _ => [shape.bottom.at[0]; 2],
    }
}

/// An upper line with its step `index` moved from the low side to where the hole rises above it.
fn moved_step(line: &Steps, ends: [f64; 2], index: usize, spans: impl Iterator<Item = Span>, margin: f64) -> Steps {
    let mut line = *line;
    let at = line.at[index];
    let (before, after) = (line.levels[index], line.levels[index + 1]);
    let above = spans.filter_map(|span| span.above(before.min(after) - margin + TOUCHES_M));
    line.at[index] = if before < after {
        let limit = if index + 1 < line.count { line.at[index + 1] } else { ends[1] };
        // A stretch that lies under the low part belongs to the next taller part before it.
        above.filter(|&(_, to)| to + margin > at).map(|(from, _)| (from - margin).max(at)).fold(limit, f64::min)
    } else {
        let limit = if index > 0 { line.at[index - 1] } else { ends[0] };
        above.filter(|&(from, _)| from - margin < at).map(|(_, to)| (to + margin).min(at)).fold(limit, f64::max)
    };
    line
}

/// One grid along one axis, ready to be searched. All heights are measured from the opposite side of the rectangle.
struct Scan<'a> {
    notches: &'a Notches<'a>,
    axis: Axis,
    ends: [f64; 2],
    levels: [f64; 2],
    /// Sides may be too short by this.
    slack: f64,
    profile: &'a Profile,
    top: Vec<f64>,
    bottom: Vec<f64>,
}

impl<'a> Scan<'a> {
    fn new(notches: &'a Notches<'a>, axis: Axis, profile: &'a Profile, is_loose: bool) -> Self {
        let outer = notches.outer;
        let (sides, levels) = ends(outer, axis);
        let is_along = axis == Axis::Along;
        let smallest = notches.rules.smallest_side_m.value;
        let whole = levels[1] - levels[0];
        let height = |height: f64| height.max(smallest).min(whole);
        let top_level = |level: f64| if is_along { outer.limits.right_side(level) } else { level };
        let bottom_level = |level: f64| if is_along { outer.limits.left_side(level) } else { level };
        Scan {
            notches,
            axis,
            ends: sides,
            levels,
            slack: if is_loose { (sides[1] - sides[0]) / STRETCHES as f64 } else { 0.0 },
            profile,
            top: profile.top.iter().map(|&level| height(top_level(level) - levels[0])).collect(),
            bottom: profile.bottom.iter().map(|&level| height(levels[1] - bottom_level(level))).collect(),
        }
    }

    /// Takes the cheapest shape of a pattern where it is cheaper than `best`. `choices` says whether a bound may be the
    /// first and the second step (or the upper and the lower one).
    fn best(&self, pattern: Pattern, choices: impl Fn(f64) -> [bool; 2], best: &mut Option<Shape>) {
        let chosen: Vec<[bool; 2]> = self.profile.bounds.iter().map(|&bound| choices(bound)).collect();
        let mut keep = Keep { scan: self, gain: best.map_or(0.0, |shape| self.gain(&shape)), best };
        match pattern {
            Pattern::One(Line::Top) => {
                self.single(&self.top, &chosen, keep.gain, |line, gain| keep.offer(Some(line), None, gain));
            }
            Pattern::One(Line::Bottom) => {
                self.single(&self.bottom, &chosen, keep.gain, |line, gain| keep.offer(None, Some(line), gain));
            }
            Pattern::Two(Line::Top, form) => {
                self.double(&self.top, form, &chosen, keep.gain, |line, gain| keep.offer(Some(line), None, gain));
            }
            Pattern::Two(Line::Bottom, form) => {
                self.double(&self.bottom, form, &chosen, keep.gain, |line, gain| keep.offer(None, Some(line), gain));
            }
            Pattern::Both => self.both(&chosen, &mut keep),
        }
    }

    /// Area saved, less the price of the edge that a notch in a side adds.
    fn gain(&self, shape: &Shape) -> f64 {
        let (width, height) = (self.ends[1] - self.ends[0], self.levels[1] - self.levels[0]);
        width * height - shape.area() - self.edge_price() * (shape.perimeter() - 2.0 * (width + height))
    }

    fn edge_price(&self) -> f64 {
        self.notches.rules.edge_price_m2_per_m.value
    }

    /// Lines of heights with one step. Only what gains more than the best so far is offered; the offer says the new best.
    fn single(&self, heights: &[f64], chosen: &[[bool; 2]], mut best: f64, mut offer: impl FnMut(Steps, f64) -> f64) {
        let (left, right) = (rising_from_start(heights), rising_from_end(heights));
        let whole = self.levels[1] - self.levels[0];
        for index in (1..heights.len()).filter(|&index| chosen[index][0]) {
            let at = self.profile.bounds[index];
            let gain = (whole - left[index]) * (at - self.ends[0]) + (whole - right[index]) * (self.ends[1] - at);
            if gain > best {
                best = offer(Steps { count: 1, at: [at, 0.0], levels: [left[index], right[index], 0.0] }, gain);
            }
        }
    }

    /// Lines of heights with two steps. Only what gains more than the best so far is offered; the offer says the new best.
    fn double(
        &self,
        heights: &[f64],
        form: Form,
        chosen: &[[bool; 2]],
        mut best: f64,
        mut offer: impl FnMut(Steps, f64) -> f64,
    ) {
        let (left, right) = (rising_from_start(heights), rising_from_end(heights));
        let whole = self.levels[1] - self.levels[0];
        let bounds = &self.profile.bounds;
        for first in (1..heights.len()).filter(|&first| chosen[first][0]) {
            let mut middle = 0.0f64;
            let saved_left = (whole - left[first]) * (bounds[first] - self.ends[0]);
            for second in first + 1..heights.len() {
                middle = middle.max(heights[second - 1]);
                let levels = [left[first], middle, right[second]];
                if !chosen[second][1] || Form::of(levels) != form {
                    continue;
                }
                let dip = left[first].min(right[second]) - middle;
                let gain = saved_left
                    + (whole - middle) * (bounds[second] - bounds[first])
                    + (whole - right[second]) * (self.ends[1] - bounds[second])
                    - 2.0 * dip.max(0.0) * self.edge_price();
                let widths =
                    [bounds[first] - self.ends[0], bounds[second] - bounds[first], self.ends[1] - bounds[second]];
                if gain > best && self.notches.are_wide(Narrowest::of_three(widths, levels), self.slack) {
                    best = offer(Steps { count: 2, at: [bounds[first], bounds[second]], levels }, gain);
                }
            }
        }
    }

    /// One step in each line.
    fn both(&self, chosen: &[[bool; 2]], keep: &mut Keep) {
        let smallest = self.notches.rules.smallest_side_m.value;
        let whole = self.levels[1] - self.levels[0];
        let notches = |heights: &[f64], which: usize| -> Vec<CornerNotch> {
            let (left, right) = (rising_from_start(heights), rising_from_end(heights));
            let bounds = &self.profile.bounds;
            let of = |at: usize| CornerNotch::new(bounds[at], [left[at], right[at]], self.ends, whole);
            (1..heights.len()).filter(|&at| chosen[at][which]).map(of).filter(|n| n.drop >= LEAST_NOTCH_M).collect()
        };
        let (top, bottom) = (notches(&self.top, 0), notches(&self.bottom, 1));
        for upper in &top {
            for lower in &bottom {
                let gain = upper.width * upper.drop + lower.width * lower.drop;
                if gain <= keep.gain {
                    continue;
                }
                let neck = self.ends[1] - self.ends[0] - upper.width - lower.width;
                let excess = (upper.drop + lower.drop - (whole - smallest)).max(0.0);
                if excess > 0.0 && (upper.is_left == lower.is_left || neck < smallest) {
                    // The arm between them would be too thin: the narrower notch gives way, or else the other.
                    for (upper, lower) in [(upper.less(excess), *lower), (*upper, lower.less(excess))] {
                        let gain = upper.width * upper.drop + lower.width * lower.drop;
                        keep.offer(Some(upper.line(whole)), Some(lower.line(whole)), gain);
                    }
                } else {
                    keep.offer(Some(upper.line(whole)), Some(lower.line(whole)), gain);
                }
            }
        }
    }

    fn shape(&self, top: Option<Steps>, bottom: Option<Steps>) -> Shape {
        let whole = self.levels[1] - self.levels[0];
        // The side of the rectangle itself, not a sum that rounds past it.
        let up = |height: f64| if height == whole { self.levels[1] } else { self.levels[0] + height };
        let down = |height: f64| if height == whole { self.levels[0] } else { self.levels[1] - height };
        Shape {
            axis: self.axis,
            ends: self.ends,
            top: top.map_or(Steps::level(self.levels[1]), |line| Steps { levels: line.levels.map(up), ..line }),
            bottom: bottom.map_or(Steps::level(self.levels[0]), |line| Steps { levels: line.levels.map(down), ..line }),
        }
    }
}

/// The best shape so far.
struct Keep<'a, 'b> {
    scan: &'a Scan<'a>,
    gain: f64,
    best: &'b mut Option<Shape>,
}

impl Keep<'_, '_> {
    /// Takes lines of heights where the shape gains more and may be. Returns what the best gains.
    fn offer(&mut self, top: Option<Steps>, bottom: Option<Steps>, gain: f64) -> f64 {
        if gain > self.gain {
            let shape = self.scan.shape(top, bottom);
            if self.scan.notches.may_be(&shape, self.scan.slack) && !self.leaves_an_island(&shape) {
                (self.gain, *self.best) = (gain, Some(shape));
            }
        }
        self.gain
    }

    /// Whether a notch in a side on the pavement's edge would leave a block that nothing holds.
    fn leaves_an_island(&self, shape: &Shape) -> bool {
        let limits = &self.scan.notches.outer.limits;
        let opens = |steps: &Steps, side: f64| {
            steps.count == 2 && steps.levels[0] == side && steps.levels[2] == side && steps.levels[1] != side
        };
        shape.axis == Axis::Along
            && (limits.right_edge.is_some_and(|edge| opens(&shape.top, edge))
                || limits.left_edge.is_some_and(|edge| opens(&shape.bottom, edge)))
    }
}

/// A notch in a corner, by heights.
#[derive(Debug, Clone, Copy)]
struct CornerNotch {
    at: f64,
    is_left: bool,
    width: f64,
    drop: f64,
}

impl CornerNotch {
    fn new(at: f64, [left, right]: [f64; 2], ends: [f64; 2], whole: f64) -> Self {
        let is_left = left < right;
        let width = if is_left { at - ends[0] } else { ends[1] - at };
        CornerNotch { at, is_left, width, drop: whole - left.min(right) }
    }

    fn less(self, excess: f64) -> Self {
        CornerNotch { drop: self.drop - excess, ..self }
    }

    fn line(self, whole: f64) -> Steps {
        let low = whole - self.drop;
        let levels = if self.is_left { [low, whole, 0.0] } else { [whole, low, 0.0] };
        Steps { count: 1, at: [self.at, 0.0], levels }
    }
}

/// For each bound, the greatest height before it.
fn rising_from_start(heights: &[f64]) -> Vec<f64> {
    let mut greatest = 0.0f64;
    let mut rising = vec![0.0];
    rising.extend(heights.iter().map(|&height| {
        greatest = greatest.max(height);
        greatest
    }));
    rising
}

/// For each bound, the greatest height after it.
fn rising_from_end(heights: &[f64]) -> Vec<f64> {
    let reversed: Vec<f64> = heights.iter().rev().copied().collect();
    let mut rising = rising_from_start(&reversed);
    rising.reverse();
    rising
}
