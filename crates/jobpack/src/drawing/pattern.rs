//! The order in which a cut is compacted: numbered lanes with arrows, from the corners towards the middle.
//!
//! To scale and turned as on the plan of the cut.

use model::cut_out::CutOut;
use model::place::FramePoint;
use model::plan::Plan;
use model::repair::{CompactionPattern, Layer, Repair};

use super::{Traffic, traffic};
use crate::display::Units;
use crate::svg::{Drawing, Type, stroke, weight, wrap};

const WIDTH: f64 = 46.0;
const HEIGHT: f64 = 61.0;
/// Highest part of the paper that drawings take.
const FIELD_HEIGHT: f64 = 56.0;
/// From one line of words to the next.
const LINE: f64 = 3.4;
const MARGIN: f64 = 2.0;
const SIZE: f64 = 2.6;
/// Radius of the circle around a number, and the least distance of two of them.
const DISC: f64 = 1.7;
const APART: f64 = 2.0 * DISC + 0.2;

/// Draws the pattern of a job's repair.
///
/// # Panics
/// If `job` is not an index into `plan.jobs`.
pub fn pattern_svg(plan: &Plan, job: usize) -> String {
    let planned = &plan.jobs[job];
    pattern(&planned.cut, &planned.repair, Units::of(&plan.district), Some(traffic(plan, job))).finish()
}

/// The patterns of one repair, one above the other, each under its machine.
pub fn pattern(cut: &CutOut, repair: &Repair, units: Units, traffic: Option<Traffic>) -> Drawing {
    let mut drawing = Drawing::new(WIDTH, HEIGHT);
    let count = repair.patterns.len().max(1);
    let height = FIELD_HEIGHT / count as f64;
    for (index, pattern) in repair.patterns.iter().enumerate() {
        let mut parts = vec![units.rule_text(&pattern.compactor), units.side(pattern.width)];
        let layer = layers_of(pattern, index, repair);
        parts.extend(layer.map(|layer| units.passes(layer.static_passes, layer.vibrating_passes)));
        let words = units.list(&parts);
        let words =
            if index > 0 { units.words.say_with("drawing-pattern-last", [("pattern", words.into())]) } else { words };
        let top = height * index as f64;
        let lines = wrap(&words, SIZE, WIDTH - 2.0 * MARGIN, 2);
        for (line, text) in lines.iter().enumerate() {
            drawing.text((MARGIN, top + 3.4 + LINE * line as f64), text, Type::plain(SIZE));
        }
        let room = 3.4 + LINE * lines.len() as f64 - SIZE;
        Panel::new(cut, traffic, (top + room, height - room)).draw(&mut drawing, cut, pattern);
    }
    drawing.text((MARGIN, 60.2), &units.words.say("drawing-pattern"), Type::plain(SIZE));
    drawing
}

/// A layer that the pattern's machine compacts: the last one for the second pattern.
fn layers_of<'a>(pattern: &CompactionPattern, index: usize, repair: &'a Repair) -> Option<&'a Layer> {
    let own = |layer: &&Layer| layer.compactor == pattern.compactor;
    if index == 0 { repair.layers.iter().find(own) } else { repair.layers.iter().rfind(own) }
}

/// A place on paper for one pattern.
struct Panel {
    middle: (f64, f64),
    centre: FramePoint,
    /// Millimetres on paper for a metre, turned with the traffic.
    scale: f64,
    /// From its middle to its nearer side on paper.
    reach: f64,
}

impl Panel {
    fn new(cut: &CutOut, traffic: Option<Traffic>, (top, height): (f64, f64)) -> Self {
        let centre = FramePoint::middle(&cut.corners);
        let reach = |get: fn(&FramePoint) -> f64| {
            cut.corners.iter().map(|corner| (get(corner) - get(&centre)).abs()).fold(0.05, f64::max)
        };
        let (along, across) = (reach(|p| p.along_m), reach(|p| p.across_m));
        let scale = ((WIDTH / 2.0 - MARGIN) / along).min((height / 2.0 - MARGIN) / across);
        Panel {
            middle: (WIDTH / 2.0, top + height / 2.0),
            centre,
            scale: scale * Traffic::sign(traffic),
            reach: along.min(across) * scale,
        }
    }

    fn at(&self, point: FramePoint) -> (f64, f64) {
        (
            self.middle.0 + (point.along_m - self.centre.along_m) * self.scale,
            self.middle.1 + (point.across_m - self.centre.across_m) * self.scale,
        )
    }

    fn draw(&self, drawing: &mut Drawing, cut: &CutOut, pattern: &CompactionPattern) {
        self.first_strip(drawing, pattern);
        let ring: Vec<(f64, f64)> = cut.corners.iter().map(|corner| self.at(*corner)).collect();
        drawing.path(&ring, true, &stroke(weight::BOLD));
        let mut numbered: Vec<(f64, f64)> = Vec::new();
        for (index, lane) in pattern.strokes.iter().enumerate() {
            let (from, to) = (self.at(lane.from), self.at(lane.to));
            let (dx, dy) = (to.0 - from.0, to.1 - from.1);
            let length = dx.hypot(dy).max(1e-9);
            let (ux, uy) = (dx / length, dy / length);
            // The head stands short of where the lane ends; the number where it begins, or further on where lanes lie close.
            let tip = (to.0 - ux * 0.5, to.1 - uy * 0.5);
            drawing.line(from, (tip.0 - ux * 1.5, tip.1 - uy * 1.5), &stroke(weight::LINE));
            drawing.arrow_head(tip, (dx, dy), 2.0_f64.min(length * 0.4));
            let along = |place: f64| (from.0 + ux * place, from.1 + uy * place);
            let free = |at: &(f64, f64)| numbered.iter().all(|other| (other.0 - at.0).hypot(other.1 - at.1) >= APART);
            let places = (0..8).map(|step| DISC + 0.3 + f64::from(step) * APART / 2.0);
            let beside = places.take_while(|place| *place < length - DISC - 2.0).map(along).find(free);
            if let Some(at) = beside.or_else(|| Some(along(DISC)).filter(free)) {
                let style = format!("fill=\"#fff\" {}", stroke(weight::FINE));
                drawing.circle(at, DISC, &style);
                drawing.text((at.0, at.1 + 0.8), &(index + 1).to_string(), Type::plain(2.2).bold().middle());
                numbered.push(at);
            }
        }
    }

    /// The ground under the first lane, as wide as the machine.
    fn first_strip(&self, drawing: &mut Drawing, pattern: &CompactionPattern) {
        let Some(lane) = pattern.strokes.first() else { return };
        // A drum wider than the cut shows as just that.
        let half = (pattern.width.value * self.scale.abs() / 2.0).min(self.reach + 1.2);
        // Blows begin half a foot off the side; lanes run from end to end.
        let is_blows = pattern.strokes.get(1).is_some_and(|second| second.to == lane.to);
        let strip = strip(self.at(lane.from), self.at(lane.to), half, if is_blows { half } else { 0.0 });
        drawing.path(&strip, true, "fill=\"#e4e4e4\"");
    }
}

/// Corners of a strip from one point to another, `half` wide to both sides, begun `back` before the first.
fn strip(from: (f64, f64), to: (f64, f64), half: f64, back: f64) -> [(f64, f64); 4] {
    let (x, y) = (to.0 - from.0, to.1 - from.1);
    let length = x.hypot(y).max(1e-9);
    let (x, y) = (x / length, y / length);
    let from = (from.0 - x * back, from.1 - y * back);
    let side = (-y * half, x * half);
    [
        (from.0 + side.0, from.1 + side.1),
        (to.0 + side.0, to.1 + side.1),
        (to.0 - side.0, to.1 - side.1),
        (from.0 - side.0, from.1 - side.1),
    ]
}

#[cfg(test)]
mod tests {
    use super::strip;

    #[test]
    fn a_strip_is_as_wide_wherever_it_begins() {
        // A foot of 2 at (3, 1), blows towards (1, 1): from its far side at 4, one to each side.
        let corners = strip((3.0, 1.0), (1.0, 1.0), 1.0, 1.0);
        assert_eq!(corners, [(4.0, 0.0), (1.0, 0.0), (1.0, 2.0), (4.0, 2.0)]);
    }
}
