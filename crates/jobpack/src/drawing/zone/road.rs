//! The road, what is closed of it, and what stands on it.

use model::district::DrivingSide;
use model::road::Flow;
use model::work_zone::DeviceKind;

use super::closure::Closure;
use super::labels::MOUTH;
use super::symbols::cone_symbol;
use super::{Edge, ROAD, SHOULDER, SMALL, Sheet, WIDTH, along};
use crate::svg::{Area, Drawing, Type, dashed, stroke, weight};

/// Least size of a cut on paper.
const CUT: f64 = 1.6;

impl Sheet<'_> {
    /// The sealed width with its lanes, the shoulders, and which way traffic goes.
    pub fn surface(&self, drawing: &mut Drawing) {
        let (left, right) = (1.0, WIDTH - 1.0);
        let (top, bottom) = (self.level.road, self.level.road + ROAD);
        drawing.rect((left, top), (right - left, ROAD), "fill=\"#f4f4f4\"");
        for y in [top, bottom] {
            drawing.line((left, y), (right, y), &stroke(weight::BOLD));
        }
        for y in [top - SHOULDER, bottom + SHOULDER] {
            drawing.line((left, y), (right, y), &dashed(weight::FINE, "0.4 1"));
        }
        let lanes = self.road.lanes.clamp(1, 8);
        for lane in 1..lanes {
            let y = top + ROAD * f64::from(lane) / f64::from(lanes);
            let centre = self.road.flow == Flow::Both && lane * 2 == lanes;
            let style = if centre { dashed(weight::LINE, "3 1.2") } else { dashed(weight::FINE, "2 2") };
            drawing.line((left, y), (right, y), &style);
        }
        self.traffic_arrows(drawing);
    }

    fn traffic_arrows(&self, drawing: &mut Drawing) {
        let lanes = self.road.lanes.clamp(1, 8);
        let lane_height = ROAD / f64::from(lanes);
        let keeps_right = self.picture.driving_side == DrivingSide::Right;
        for lane in 0..lanes {
            let y = self.level.road + lane_height * (f64::from(lane) + 0.5);
            // On paper the right hand of the worked direction is below.
            let lower = f64::from(lane) + 0.5 > f64::from(lanes) / 2.0;
            let with_work = self.road.flow != Flow::Both || lanes == 1 || lower == keeps_right;
            let (from, to) = if with_work { (2.5, 8.5) } else { (WIDTH - 2.5, WIDTH - 8.5) };
            if lanes == 1 && self.road.flow == Flow::Both {
                drawing.line((WIDTH - 2.5, y), (WIDTH - 8.5, y), &stroke(weight::LINE));
                drawing.arrow_head((WIDTH - 9.5, y), (-1.0, 0.0), 2.4);
            }
            drawing.line((from, y), (to, y), &stroke(weight::LINE));
            drawing.arrow_head((to + (to - from).signum(), y), (to - from, 0.0), 2.4);
        }
    }

    /// What is closed beside the work is hatched; what stays open has its width written on.
    pub fn work_space(&self, drawing: &mut Drawing) {
        let (x0, x1) = (self.scale.x(self.work.0), self.scale.x(self.work.1));
        let Closure { closed, open } = self.closure();
        let (y0, y1) = (self.y_on_paper(closed.0), self.y_on_paper(closed.1));
        let corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)];
        drawing.path(&corners, true, "fill=\"#fff\"");
        drawing.hatch(&corners, 1.6, &stroke(0.14));
        drawing.path(&corners, true, &stroke(weight::LINE));
        for (x, y) in self.cone_places() {
            drawing.take(Area { x: (x - 0.75, x + 0.75), y: (y - 0.95, y + 0.7) });
        }
        self.cuts(drawing, (y0, y1));
        self.open_width(drawing, (x0, x1), (self.y_on_paper(open.0), self.y_on_paper(open.1)));
    }

    fn open_width(&self, drawing: &mut Drawing, (x0, x1): (f64, f64), (top, bottom): (f64, f64)) {
        let width = self.zone.open_width.value;
        let x = f64::midpoint(x0, x1);
        if bottom - top < 0.4 || width.value <= 0.0 {
            // Beside the hatch, in the end taper, where no cut lies.
            let words = self.units.words.say("drawing-nothing-open");
            let half = SMALL.bold().width(&words) / 2.0 + 2.0;
            self.free_plate(drawing, &words, &[x1 + half + 1.0, x0 - half - 1.0], &[0.5, 0.2, 0.8]);
            return;
        }
        if bottom - top > 3.6 {
            drawing.dimension((x, top + 0.2), (x, bottom - 0.2), "", SMALL.size);
        }
        let message = if self.zone.passable { "drawing-open" } else { "drawing-open-impassable" };
        let words = self.units.words.say_with(message, [("width", self.units.width(width).into())]);
        let half = SMALL.bold().width(&words) / 2.0 + 2.0;
        let y = (f64::midpoint(top, bottom) - self.level.road) / ROAD;
        // In the middle; beside it where something lies there.
        self.free_plate(drawing, &words, &[x, x0 - half, x1 + half, x0, x1], &[y, 0.5, 0.2, 0.8]);
    }

    /// Bold words at the first free place; `across` is in parts of the road from its upper edge.
    fn free_plate(&self, drawing: &mut Drawing, words: &str, along: &[f64], across: &[f64]) {
        let bold = SMALL.bold().middle();
        let half = bold.width(words) / 2.0 + 0.5;
        let places: Vec<(f64, f64)> = across
            .iter()
            .flat_map(|&y| {
                along.iter().map(move |x| (x.clamp(half + 1.5, WIDTH - half - 1.5), self.level.road + ROAD * y))
            })
            .collect();
        let free =
            places.iter().find(|(x, y)| drawing.is_free(&Area { x: (x - half, x + half), y: (y - 1.7, y + 1.7) }));
        plate(drawing, *free.unwrap_or(&places[0]), words, bold);
    }

    fn cuts(&self, drawing: &mut Drawing, (y0, y1): (f64, f64)) {
        let mut cuts: Vec<(&str, Area)> = Vec::new();
        for (number, corners) in &self.picture.cuts {
            let (left, right) = extent(corners.iter().map(|c| self.scale.x(c.along_m * self.sign)));
            let (top, bottom) = extent(corners.iter().map(|c| self.y(c.across_m)));
            let grown = |(low, high): (f64, f64)| {
                let (middle, half) = (f64::midpoint(low, high), ((high - low) / 2.0).max(CUT / 2.0));
                (middle - half, middle + half)
            };
            if left.is_finite() && top.is_finite() {
                cuts.push((number, Area { x: grown((left, right)), y: grown((top, bottom)) }));
            }
        }
        cuts.sort_by(|a, b| a.1.x.0.total_cmp(&b.1.x.0));
        for (_, area) in &cuts {
            let size = (area.x.1 - area.x.0, area.y.1 - area.y.0);
            drawing.rect((area.x.0, area.y.0), size, "fill=\"#000\" stroke=\"#fff\" stroke-width=\"0.3\"");
            drawing.take(*area);
        }
        // A shoulder is thinner than the type: its numbers stand outside the road.
        let thin = y1 - y0 < 4.0;
        let bold = SMALL.bold().middle();
        for (number, area) in &cuts {
            let (cx, cy) = (f64::midpoint(area.x.0, area.x.1), f64::midpoint(area.y.0, area.y.1));
            let half = bold.width(number) / 2.0 + 0.5;
            let (above, below) = (area.y.0 - 2.0, area.y.1 + 2.0);
            let (beyond_top, beyond_bottom) = (thin && y0 < self.level.road, thin && y1 > self.level.road + ROAD);
            // Above the cut, else below it, else beside it; numbers that would run into each other are left to the hole
            // sheets.
            let places = [
                (above > y0 + 1.6 || beyond_top).then_some((cx, above)),
                (below < y1 - 1.6 || beyond_bottom).then_some((cx, below)),
                Some((area.x.1 + half + 0.4, cy)),
                Some((area.x.0 - half - 0.4, cy)),
            ];
            let free = places.into_iter().flatten().find(|at| {
                let area = Area { x: (at.0 - half, at.0 + half), y: (at.1 - 1.7, at.1 + 1.7) };
                drawing.is_free(&area)
            });
            if let Some(at) = free {
                plate(drawing, at, number, bold);
            }
        }
    }

    /// Cones, each where it stands.
    pub fn cones(&self, drawing: &mut Drawing) {
        for at in self.cone_places() {
            cone_symbol(drawing, at);
        }
    }

    /// Cones denser than the pen are thinned out on paper only; the table counts them all.
    fn cone_places(&self) -> Vec<(f64, f64)> {
        let mut places: Vec<(f64, f64)> = Vec::new();
        for cone in self.zone.devices.iter().filter(|d| d.kind == DeviceKind::Cone && d.chainage.value.is_finite()) {
            let at = (self.scale.x(along(cone, self.sign)), self.y(cone.across.value));
            if places.iter().all(|p| (p.0 - at.0).hypot(p.1 - at.1) > 1.3) {
                places.push(at);
            }
        }
        places
    }

    /// Places on paper where the scale is broken.
    pub fn broken(&self) -> Vec<f64> {
        let closed: Vec<(f64, f64)> = self
            .parts
            .iter()
            .filter(|p| p.to <= self.core.1 + 0.1 && p.from >= self.core.0 - 0.1)
            .map(|p| (p.from, p.to))
            .collect();
        self.scale.breaks(&closed)
    }

    /// Where the scale is broken.
    pub fn breaks(&self, drawing: &mut Drawing) {
        for x in self.broken() {
            for (edge, y) in [(Edge::Top, self.level.road), (Edge::Bottom, self.level.road + ROAD)] {
                // In a mouth there is no edge to break.
                if self.mouths(edge).iter().any(|mouth| (mouth - x).abs() < MOUTH / 2.0 + 1.5) {
                    continue;
                }
                drawing.rect((x - 0.7, y - 0.8), (1.4, 1.6), "fill=\"#fff\"");
                for shift in [-0.7, 0.7] {
                    drawing.line((x + shift - 0.5, y + 1.4), (x + shift + 0.5, y - 1.4), &stroke(weight::LINE));
                }
            }
        }
    }
}

/// A short text on a white plate, so that it reads on hatch and lines; the point is its middle.
fn plate(drawing: &mut Drawing, middle: (f64, f64), words: &str, how: Type) {
    let (w, h) = (how.width(words) + 0.8, how.size * 1.12);
    drawing.rect((middle.0 - w / 2.0, middle.1 - h / 2.0), (w, h), "fill=\"#fff\"");
    drawing.text((middle.0, middle.1 + how.size * 0.36), words, how);
}

/// Least and greatest.
pub fn extent(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
}
