//! What every map has: a frame that lines are cut at, a north arrow, a scale bar, and the line its data ask for.

use model::district::UnitSystem;

use crate::display::Units;
use crate::svg::{Drawing, Type, stroke, wrap};

/// A line on paper.
pub type Line = Vec<(f64, f64)>;

/// Weight of the frame itself, millimetres.
pub const FRAME: f64 = 0.4;
/// Size of the small words of a map.
pub const SMALL: f64 = 2.5;
/// Size of the licence line.
const LICENCE: f64 = 2.1;

/// A map's rectangle on paper, its corner at the origin; millimetres.
#[derive(Debug, Clone, Copy)]
pub struct Frame {
    pub width: f64,
    pub height: f64,
}

impl Frame {
    /// The pieces of a line inside the frame.
    pub fn clipped(self, points: &[(f64, f64)]) -> Vec<Line> {
        let mut runs: Vec<Line> = Vec::new();
        let mut open = false;
        for pair in points.windows(2) {
            let Some((a, b)) = self.clip_segment(pair[0], pair[1]) else {
                open = false;
                continue;
            };
            match runs.last_mut() {
                Some(run) if open => run.push(b),
                _ => runs.push(vec![a, b]),
            }
            open = b == pair[1];
        }
        runs
    }

    /// Whether a point is inside with a little room to spare.
    pub fn holds(self, p: (f64, f64)) -> bool {
        p.0 > 1.0 && p.1 > 1.0 && p.0 < self.width - 1.0 && p.1 < self.height - 1.0
    }

    /// The empty rectangle.
    pub fn ground(self, drawing: &mut Drawing) {
        drawing.rect((FRAME / 2.0, FRAME / 2.0), (self.width - FRAME, self.height - FRAME), "fill=\"#fff\"");
    }

    /// The rectangle's outline.
    pub fn outline(self, drawing: &mut Drawing) {
        drawing.rect((FRAME / 2.0, FRAME / 2.0), (self.width - FRAME, self.height - FRAME), &stroke(FRAME));
    }

    /// An arrow to the north in the upper right corner.
    pub fn north_arrow(self, drawing: &mut Drawing, units: Units) {
        let (x, y) = (self.width - 5.0, 5.0);
        drawing.circle((x, y + 1.2), 4.2, "fill=\"#fff\" fill-opacity=\"0.85\"");
        drawing.path(&[(x, y - 2.4), (x + 1.5, y + 2.0), (x, y + 1.0), (x - 1.5, y + 2.0)], true, "fill=\"#000\"");
        drawing.text((x, y + 4.6), &units.words.say("drawing-north"), Type::plain(2.6).bold().middle());
    }

    /// Liang–Barsky clipping.
    fn clip_segment(self, a: (f64, f64), b: (f64, f64)) -> Option<((f64, f64), (f64, f64))> {
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        let (right, low) = (self.width - FRAME, self.height - FRAME);
        for (p, q) in [(-dx, a.0 - FRAME), (dx, right - a.0), (-dy, a.1 - FRAME), (dy, low - a.1)] {
            if p == 0.0 {
                if q < 0.0 {
                    return None;
                }
            } else if p < 0.0 {
                enter = enter.max(q / p);
            } else {
                leave = leave.min(q / p);
            }
        }
        if enter > leave {
            return None;
        }
        let at = |t: f64| if t == 1.0 { b } else { (a.0 + t * dx, a.1 + t * dy) };
        Some((at(enter), at(leave)))
    }
}

/// A bar of a round length, at most 20 mm, with its length behind it; `scale` is millimetres on paper for a metre.
pub fn scale_bar(drawing: &mut Drawing, units: Units, scale: f64, at: (f64, f64)) {
    let steps: &[(f64, &str, &str)] = match units.system {
        UnitSystem::Si => &[
            (5.0, "5", "unit-m"),
            (10.0, "10", "unit-m"),
            (20.0, "20", "unit-m"),
            (50.0, "50", "unit-m"),
            (100.0, "100", "unit-m"),
            (200.0, "200", "unit-m"),
            (500.0, "500", "unit-m"),
            (1000.0, "1", "unit-km"),
            (2000.0, "2", "unit-km"),
            (5000.0, "5", "unit-km"),
            (10_000.0, "10", "unit-km"),
            (20_000.0, "20", "unit-km"),
            (50_000.0, "50", "unit-km"),
        ],
        UnitSystem::UsCustomary => &[
            (6.096, "20", "unit-ft"),
            (15.24, "50", "unit-ft"),
            (30.48, "100", "unit-ft"),
            (60.96, "200", "unit-ft"),
            (152.4, "500", "unit-ft"),
            (304.8, "1000", "unit-ft"),
            (804.672, "0.5", "unit-mi"),
            (1609.344, "1", "unit-mi"),
            (3218.688, "2", "unit-mi"),
            (8046.72, "5", "unit-mi"),
            (16_093.44, "10", "unit-mi"),
            (32_186.88, "20", "unit-mi"),
        ],
    };
    let (metres, number, unit) = steps.iter().rev().find(|(m, ..)| m * scale <= 20.0).unwrap_or(&steps[0]);
    let (x, y) = at;
    let end = x + metres * scale;
    drawing.line((x, y - 0.6), (end, y - 0.6), &stroke(0.7));
    for tick in [x, end] {
        drawing.line((tick, y - 1.6), (tick, y + 0.4), &stroke(0.3));
    }
    drawing.text((end + 1.5, y), &units.with_unit(number, unit), Type::plain(SMALL).rim());
}

/// Height the licence line takes below a map; nothing where the data ask for none.
pub fn licence_height(words: Option<&str>, width: f64) -> f64 {
    licence_lines(words, width).len() as f64 * (LICENCE + 0.5)
}

/// What the map's data ask to be said, below the frame.
pub fn licence(drawing: &mut Drawing, words: Option<&str>, frame: Frame) {
    for (index, line) in licence_lines(words, frame.width).iter().enumerate() {
        let y = frame.height + (LICENCE + 0.5) * (index as f64 + 1.0) - 0.4;
        drawing.text((0.3, y), line, Type::plain(LICENCE));
    }
}

fn licence_lines(words: Option<&str>, width: f64) -> Vec<String> {
    words.map(str::trim).filter(|w| !w.is_empty()).map_or_else(Vec::new, |w| wrap(w, LICENCE, width, 3))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_through_the_frame_is_cut_at_it() {
        let frame = Frame { width: 92.0, height: 92.0 };
        let runs = frame.clipped(&[(-50.0, 40.0), (40.0, 40.0), (40.0, 300.0), (50.0, 300.0), (50.0, 50.0)]);
        assert_eq!(runs.len(), 2);
        let near = |a: (f64, f64), b: (f64, f64)| (a.0 - b.0).hypot(a.1 - b.1) < 1e-9;
        assert!(near(runs[0][0], (FRAME, 40.0)));
        assert!(near(runs[0][runs[0].len() - 1], (40.0, 92.0 - FRAME)));
        assert!(near(runs[1][runs[1].len() - 1], (50.0, 50.0)));
    }

    #[test]
    fn the_licence_line_takes_room_only_where_there_is_one() {
        assert!(licence_height(None, 50.0) == 0.0 && licence_height(Some("  "), 50.0) == 0.0);
        assert!(licence_height(Some("Roads: somebody's open data"), 90.0) > 2.0);
    }
}
