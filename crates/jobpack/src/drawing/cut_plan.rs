//! Plan of one cut: the hole, where to saw, how far the seal goes, and how it lies to the road.
//!
//! To scale. Traffic of the worked lane goes from left to right, as on the zone's plan.

use model::place::{FramePoint, Travel};
use model::plan::{Plan, PlannedJob};
use model::quantity::metres;

use super::{input_of, length_m};
use crate::display::Units;
use crate::flat;
use crate::svg::{Drawing, Type, dashed, stroke, weight};

const WIDTH: f64 = 88.0;
const HEIGHT: f64 = 61.0;
/// The part of the paper the scaled drawing may take; dimensions stand around it.
const FIELD: (f64, f64) = (60.0, 31.0);
const MIDDLE: (f64, f64) = (45.0, 23.5);
const SIZE: f64 = 2.6;

/// Draws the plan of a job's cut.
///
/// # Panics
/// If `job` is not an index into `plan.jobs`.
pub fn cut_plan_svg(plan: &Plan, job: usize) -> String {
    let view = View::new(plan, &plan.jobs[job]);
    let mut drawing = Drawing::new(WIDTH, HEIGHT);
    view.road_lines(&mut drawing);
    view.seal(&mut drawing);
    view.hole_and_cut(&mut drawing);
    view.dimensions(&mut drawing);
    view.foot(&mut drawing);
    drawing.finish()
}

struct View<'a> {
    plan: &'a Plan,
    job: &'a PlannedJob,
    units: Units,
    sign: f64,
    centre: FramePoint,
    /// Millimetres on paper for a metre of road.
    scale: f64,
    overlap_m: f64,
}

impl<'a> View<'a> {
    fn new(plan: &'a Plan, job: &'a PlannedJob) -> Self {
        let zone = &plan.sites[job.site].zone;
        let overlap_m = seal_overlap_m(job);
        let centre = flat::middle(&job.cut.corners);
        let mut reach: (f64, f64) = (0.1, 0.1);
        let rings = job.cut.outlines.iter().flat_map(|o| &o.ring).chain(&job.cut.corners);
        for point in rings {
            reach.0 = reach.0.max((point.along_m - centre.along_m).abs() + overlap_m);
            reach.1 = reach.1.max((point.across_m - centre.across_m).abs() + overlap_m);
        }
        let scale = (FIELD.0 / (2.0 * reach.0)).min(FIELD.1 / (2.0 * reach.1));
        View {
            plan,
            job,
            units: Units(plan.district.units),
            sign: if zone.travel == Travel::Forward { 1.0 } else { -1.0 },
            centre,
            scale,
            overlap_m,
        }
    }

    fn at(&self, point: FramePoint) -> (f64, f64) {
        (
            MIDDLE.0 + (point.along_m - self.centre.along_m) * self.sign * self.scale,
            MIDDLE.1 + (point.across_m - self.centre.across_m) * self.sign * self.scale,
        )
    }

    /// Edges of the sealed width and the centre line, where they cross the drawing.
    fn road_lines(&self, drawing: &mut Drawing) {
        let road = self.plan.network.section(self.plan.sites[self.job.site].zone.section);
        let half = road.width.value / 2.0;
        for (across_m, words, style) in [
            (-half, "edge of the seal", stroke(weight::BOLD)),
            (half, "edge of the seal", stroke(weight::BOLD)),
            (0.0, "centre line", dashed(weight::LINE, "3 1.2")),
        ] {
            let (_, y) = self.at(FramePoint { along_m: self.centre.along_m, across_m });
            if (3.0..=46.0).contains(&y) {
                drawing.line((1.0, y), (WIDTH - 1.0, y), &style);
                let below = y < MIDDLE.1;
                let base = if below { y - 0.8 } else { y + SIZE + 0.2 };
                drawing.text((WIDTH - 1.5, base), words, Type::plain(SIZE).end().rim());
            }
        }
    }

    fn seal(&self, drawing: &mut Drawing) {
        let half = self.plan.network.section(self.plan.sites[self.job.site].zone.section).width.value / 2.0;
        let on_pavement = kept_between(grown(&self.job.cut.corners, self.overlap_m), -half, half);
        let ring: Vec<(f64, f64)> = on_pavement.into_iter().map(|p| self.at(p)).collect();
        drawing.path(&ring, true, &dashed(weight::LINE, "1.6 1"));
    }

    fn hole_and_cut(&self, drawing: &mut Drawing) {
        let cut: Vec<(f64, f64)> = self.job.cut.corners.iter().map(|p| self.at(*p)).collect();
        drawing.path(&cut, true, "fill=\"#fff\"");
        for outline in &self.job.cut.outlines {
            let ring: Vec<(f64, f64)> = outline.ring.iter().map(|p| self.at(*p)).collect();
            let style = format!("fill=\"#d9d9d9\" {}", stroke(weight::LINE));
            drawing.path(&ring, true, &style);
            let middle = self.at(flat::middle(&outline.ring));
            let label = crate::svg::clip(&outline.hole.0, SIZE, 26.0);
            drawing.text((middle.0, middle.1 + SIZE * 0.35), &label, Type::plain(SIZE).middle().rim());
        }
        drawing.path(&cut, true, &stroke(weight::BOLD));
    }

    /// Each different side once, outside the seal; every side where the cut is not a rectangle.
    fn dimensions(&self, drawing: &mut Drawing) {
        let corners = &self.job.cut.corners;
        let sides = if corners.len() == 4 { 2 } else { corners.len() };
        let away = self.overlap_m * self.scale + 4.2;
        let middle = self.at(self.centre);
        for index in 0..sides.min(corners.len()) {
            // For a rectangle take the lower and the left side, where nothing else stands.
            let index = if corners.len() == 4 { self.chosen_side(index) } else { index };
            let (a, b) = (corners[index], corners[(index + 1) % corners.len()]);
            let (pa, pb) = (self.at(a), self.at(b));
            let (dx, dy) = (pb.0 - pa.0, pb.1 - pa.1);
            let length = dx.hypot(dy);
            if length < 1e-6 {
                continue;
            }
            let mut normal = (dy / length, -dx / length);
            let towards = (f64::midpoint(pa.0, pb.0) - middle.0, f64::midpoint(pa.1, pb.1) - middle.1);
            if normal.0 * towards.0 + normal.1 * towards.1 < 0.0 {
                normal = (-normal.0, -normal.1);
            }
            let shift = |p: (f64, f64), by: f64| (p.0 + normal.0 * by, p.1 + normal.1 * by);
            for p in [pa, pb] {
                drawing.line(shift(p, 0.8), shift(p, away + 0.9), &stroke(weight::FINE));
            }
            let real = metres((b.along_m - a.along_m).hypot(b.across_m - a.across_m));
            let (from, to) = if shift(pa, away) <= shift(pb, away) {
                (shift(pa, away), shift(pb, away))
            } else {
                (shift(pb, away), shift(pa, away))
            };
            drawing.dimension(from, to, &self.units.side(real), 3.0);
        }
    }

    /// Of a rectangle's two pairs of sides, the one of each pair that lies lowest, then leftmost, on paper.
    fn chosen_side(&self, pair: usize) -> usize {
        let corners = &self.job.cut.corners;
        let place = |side: usize| {
            let (a, b) = (self.at(corners[side]), self.at(corners[(side + 1) % 4]));
            f64::midpoint(a.1, b.1) - f64::midpoint(a.0, b.0)
        };
        if place(pair) >= place(pair + 2) { pair } else { pair + 2 }
    }

    fn foot(&self, drawing: &mut Drawing) {
        let y = 50.0;
        drawing.line((2.0, y), (15.0, y), &stroke(weight::LINE));
        drawing.arrow_head((16.5, y), (1.0, 0.0), 2.4);
        drawing.text((18.0, y + 0.95), "traffic, along the road", Type::plain(SIZE));
        let angle = self.job.cut.angle_deg;
        let turned = if angle.abs() < 0.5 {
            "long side along the road".to_owned()
        } else if (angle.abs() - 90.0).abs() < 0.5 {
            "long side square across".to_owned()
        } else {
            // Positive turns right of increasing chainage; half a turn of the paper changes nothing.
            format!("long side turned {:.0}° to the {}", angle.abs(), if angle > 0.0 { "right" } else { "left" })
        };
        drawing.text((18.0, y + 4.6), &turned, Type::plain(SIZE));
        self.scale_bar(drawing, (WIDTH - 2.0, y));
        let key = 60.2;
        drawing.rect((2.0, key - 2.0), (3.4, 2.2), &format!("fill=\"#d9d9d9\" {}", stroke(weight::FINE)));
        drawing.text((6.4, key), "hole", Type::plain(SIZE));
        drawing.line((18.0, key - 0.9), (23.0, key - 0.9), &stroke(weight::BOLD));
        drawing.text((24.0, key), "cut", Type::plain(SIZE));
        drawing.line((34.0, key - 0.9), (40.0, key - 0.9), &dashed(weight::LINE, "1.6 1"));
        let seal = match input_of(&self.job.repair.seal_area.why, "overlap") {
            Some(_) => format!("edge of the new seal, {} over", self.units.depth(metres(self.overlap_m))),
            None => "edge of the new seal".to_owned(),
        };
        drawing.text((41.0, key), &seal, Type::plain(SIZE));
    }

    fn scale_bar(&self, drawing: &mut Drawing, right: (f64, f64)) {
        let si = self.plan.district.units == model::district::UnitSystem::Si;
        let (unit_m, unit) = if si { (1.0, "m") } else { (0.3048, "ft") };
        let choices = [0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0];
        let fits = choices.into_iter().rev().find(|c| c * unit_m * self.scale <= 20.0).unwrap_or(choices[0]);
        let length = fits * unit_m * self.scale;
        let (x1, y) = right;
        let x0 = x1 - length;
        drawing.line((x0, y), (x1, y), &stroke(weight::BOLD));
        for x in [x0, x1] {
            drawing.line((x, y - 1.0), (x, y + 1.0), &stroke(weight::LINE));
        }
        drawing.text((x1, y + 4.0), &format!("{fits} {unit}"), Type::plain(SIZE).end());
    }
}

/// How far the seal laps over the cut: the working-out says it; else from the sealed area as if nothing were clipped.
fn seal_overlap_m(job: &PlannedJob) -> f64 {
    if let Some(length) = input_of(&job.repair.seal_area.why, "overlap").and_then(length_m) {
        return length;
    }
    // (l + 2o)(w + 2o) = S for o.
    let (l, w) = (job.cut.length.value, job.cut.width.value);
    let extra = job.repair.seal_area.value.value - l * w;
    let sum = l + w;
    let overlap = ((sum * sum + 4.0 * extra.max(0.0)).sqrt() - sum) / 4.0;
    if overlap.is_finite() { overlap.clamp(0.0, 0.5) } else { 0.0 }
}

/// The polygon with every side moved outwards by a distance.
fn grown(corners: &[FramePoint], by: f64) -> Vec<FramePoint> {
    let n = corners.len();
    if n < 3 {
        return corners.to_vec();
    }
    let area: f64 = (0..n)
        .map(|i| {
            let (a, b) = (corners[i], corners[(i + 1) % n]);
            a.along_m * b.across_m - b.along_m * a.across_m
        })
        .sum();
    let turn = if area >= 0.0 { 1.0 } else { -1.0 };
    (0..n)
        .map(|i| {
            let (before, here, after) = (corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]);
            let (n1, n2) = (outward(before, here, turn), outward(here, after, turn));
            // The corner moves along the bisector so far that both sides keep the distance.
            let grow = by / (1.0 + n1.0 * n2.0 + n1.1 * n2.1).max(0.1);
            FramePoint { along_m: here.along_m + (n1.0 + n2.0) * grow, across_m: here.across_m + (n1.1 + n2.1) * grow }
        })
        .collect()
}

/// The part of a polygon between two lines along the road (Sutherland–Hodgman clipping, one line after the other).
fn kept_between(ring: Vec<FramePoint>, low: f64, high: f64) -> Vec<FramePoint> {
    let keep = |ring: Vec<FramePoint>, sign: f64, limit: f64| -> Vec<FramePoint> {
        let mut kept = Vec::with_capacity(ring.len() + 2);
        for (index, here) in ring.iter().enumerate() {
            let next = &ring[(index + 1) % ring.len()];
            let (a, b) = (sign * here.across_m - limit, sign * next.across_m - limit);
            if a <= 0.0 {
                kept.push(*here);
            }
            if (a < 0.0 && b > 0.0) || (a > 0.0 && b < 0.0) {
                let t = a / (a - b);
                kept.push(FramePoint {
                    along_m: here.along_m + t * (next.along_m - here.along_m),
                    across_m: here.across_m + t * (next.across_m - here.across_m),
                });
            }
        }
        kept
    };
    keep(keep(ring, 1.0, high), -1.0, -low)
}

fn outward(a: FramePoint, b: FramePoint, turn: f64) -> (f64, f64) {
    let (dx, dy) = (b.along_m - a.along_m, b.across_m - a.across_m);
    let length = dx.hypot(dy).max(1e-9);
    (dy / length * turn, -dx / length * turn)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rectangle_grows_on_all_sides_whichever_way_round() {
        let p = |along_m, across_m| FramePoint { along_m, across_m };
        let ring = [p(0.0, 0.0), p(2.0, 0.0), p(2.0, 1.0), p(0.0, 1.0)];
        let mut back = ring.to_vec();
        back.reverse();
        for corners in [ring.to_vec(), back] {
            let grown = grown(&corners, 0.1);
            let low = grown.iter().map(|p| p.along_m).fold(f64::INFINITY, f64::min);
            let high = grown.iter().map(|p| p.across_m).fold(f64::NEG_INFINITY, f64::max);
            assert!((low + 0.1).abs() < 1e-12 && (high - 1.1).abs() < 1e-12, "{grown:?}");
        }
    }

    #[test]
    fn the_seal_ends_at_the_edge_of_the_pavement() {
        let p = |along_m, across_m| FramePoint { along_m, across_m };
        let ring = vec![p(0.0, 2.0), p(1.0, 2.0), p(1.0, 4.0), p(0.0, 4.0)];
        let kept = kept_between(ring, -3.0, 3.0);
        assert_eq!(kept.len(), 4);
        assert!(kept.iter().all(|q| q.across_m <= 3.0) && kept.iter().any(|q| q.across_m == 3.0), "{kept:?}");
    }
}
