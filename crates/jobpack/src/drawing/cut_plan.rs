//! Plan of one cut: the hole, where to saw, how far the seal goes, and how it lies to the road.
//!
//! To scale. Traffic of the worked lane goes from left to right, as on the zone's plan.

use geo::algorithm::buffer::{Buffer, BufferStyle, LineJoin};
use geo::{BooleanOps, BoundingRect, Contains, Coord, LineString, MultiPolygon, Point, Polygon, Rect};
use model::cut_out::CutOut;
use model::district::UnitSystem;
use model::place::{FramePoint, Travel};
use model::plan::Plan;
use model::quantity::{Length, metres};
use model::repair::Repair;
use words::Words;

use super::cut_dimensions::{self, FIRST_ROW, ROW, dimensions, greatest_scale};
use super::{input_of, length_m};
use crate::display::Units;
use crate::svg::{Drawing, Type, clip, dashed, stroke, weight};

const WIDTH: f64 = 88.0;
const HEIGHT: f64 = 61.0;
/// The part of the paper the scaled drawing may take; dimensions stand around it.
const FIELD: (f64, f64) = (60.0, 31.0);
/// From the middle, what drawing and dimensions may take together on each side.
const HALF: (f64, f64) = (42.5, 22.5);
const MIDDLE: (f64, f64) = (45.0, 23.5);
const SIZE: f64 = 2.6;
/// Below this nothing could be read anyway, millimetres a metre.
const SMALLEST_SCALE: f64 = 0.5;
/// Guide lines end this far beyond the dimension line, and start this far from a corner.
const BEYOND: f64 = 0.9;
const OFF_CORNER: f64 = 0.8;

/// Draws the plan of a job's cut.
///
/// # Panics
/// If `job` is not an index into `plan.jobs`.
pub fn cut_plan_svg(plan: &Plan, job: usize) -> String {
    let planned = &plan.jobs[job];
    let zone = &plan.sites[planned.site].zone;
    let half_m = plan.network.section(zone.section).width.value / 2.0;
    let units = Units::of(&plan.district);
    let seal = new_seal(&planned.cut, &planned.repair, units);
    let sign = if zone.travel == Travel::Forward { 1.0 } else { -1.0 };
    let view = View::new(&planned.cut, units, sign, Some((-half_m, half_m)), Some(seal));
    view.drawing("drawing-traffic-along").finish()
}

/// Draws a cut alone, without a plan: increasing chainage goes from left to right. `pavement` are the edges of the seal
/// across, where they are known.
pub fn cut_svg(cut: &CutOut, units: UnitSystem, words: Words, pavement: Option<(Length, Length)>) -> String {
    let edges = pavement.map(|(left, right)| (left.value, right.value));
    View::new(cut, Units::new(units, words), 1.0, edges, None).drawing("drawing-along-chainage").finish()
}

/// The drawing of one repair's cut without a road around it.
pub fn cut_plan(cut: &CutOut, repair: &Repair, units: Units) -> Drawing {
    View::new(cut, units, 1.0, None, Some(new_seal(cut, repair, units))).drawing("drawing-along")
}

/// How far the new seal laps over, and the words for it.
fn new_seal(cut: &CutOut, repair: &Repair, units: Units) -> (f64, String) {
    let overlap_m = seal_overlap_m(cut, repair);
    let words = match input_of(&repair.seal_area.why, "overlap") {
        Some(_) => units.words.say_with("drawing-new-seal-over", [("overlap", units.depth(metres(overlap_m)).into())]),
        None => units.words.say("drawing-new-seal"),
    };
    (overlap_m, words)
}

struct View<'a> {
    cut: &'a CutOut,
    units: Units,
    sign: f64,
    /// Left and right edge of the seal.
    edges: Option<(f64, f64)>,
    /// How far the new seal laps over, and the words for it.
    seal: Option<(f64, String)>,
    centre: FramePoint,
    /// Millimetres on paper for a metre of road.
    scale: f64,
    dimensions: Vec<cut_dimensions::Dimension>,
}

impl<'a> View<'a> {
    fn new(cut: &'a CutOut, units: Units, sign: f64, edges: Option<(f64, f64)>, seal: Option<(f64, String)>) -> Self {
        let overlap_m = seal.as_ref().map_or(0.0, |(overlap_m, _)| *overlap_m);
        let centre = FramePoint::middle(&cut.corners);
        let mut reach: (f64, f64) = (0.1, 0.1);
        for point in cut.outlines.iter().flat_map(|outline| &outline.ring).chain(&cut.corners) {
            reach.0 = reach.0.max((point.along_m - centre.along_m).abs() + overlap_m);
            reach.1 = reach.1.max((point.across_m - centre.across_m).abs() + overlap_m);
        }
        let mut scale = (FIELD.0 / (2.0 * reach.0)).min(FIELD.1 / (2.0 * reach.1));
        let corners: Vec<(f64, f64)> =
            cut.corners.iter().map(|&corner| cut_dimensions::turned(corner, centre, sign)).collect();
        let at_scale = |scale: f64| dimensions(&corners, scale, overlap_m, |length_m| units.side(metres(length_m)));
        // A smaller scale may need more rows, and these a smaller scale: down by small steps until all fits.
        let mut shown = at_scale(scale);
        while greatest_scale(&shown, overlap_m, HALF) < scale && scale > SMALLEST_SCALE {
            scale *= 0.97;
            shown = at_scale(scale);
        }
        View { cut, units, sign, edges, seal, centre, scale, dimensions: shown }
    }

    fn drawing(&self, direction: &str) -> Drawing {
        let mut drawing = Drawing::new(WIDTH, HEIGHT);
        self.road_lines(&mut drawing);
        self.new_seal(&mut drawing);
        self.hole_and_cut(&mut drawing);
        self.dimension_lines(&mut drawing);
        self.foot(&mut drawing, direction);
        drawing
    }

    fn at(&self, point: FramePoint) -> (f64, f64) {
        self.on_paper(cut_dimensions::turned(point, self.centre, self.sign))
    }

    fn on_paper(&self, (x_m, y_m): (f64, f64)) -> (f64, f64) {
        (MIDDLE.0 + x_m * self.scale, MIDDLE.1 + y_m * self.scale)
    }

    /// Edges of the sealed width and the centre line, where they cross the drawing.
    fn road_lines(&self, drawing: &mut Drawing) {
        let Some((left, right)) = self.edges else { return };
        for (across_m, words, style) in [
            (left, "drawing-edge-of-seal", stroke(weight::BOLD)),
            (right, "drawing-edge-of-seal", stroke(weight::BOLD)),
            (f64::midpoint(left, right), "drawing-centre-line", dashed(weight::LINE, "3 1.2")),
        ] {
            let (_, y) = self.at(FramePoint { along_m: self.centre.along_m, across_m });
            if (3.0..=46.0).contains(&y) {
                drawing.line((1.0, y), (WIDTH - 1.0, y), &style);
                let below = y < MIDDLE.1;
                let base = if below { y - 0.8 } else { y + SIZE + 0.2 };
                drawing.text((WIDTH - 1.5, base), &self.units.words.say(words), Type::plain(SIZE).end().rim());
            }
        }
    }

    fn new_seal(&self, drawing: &mut Drawing) {
        let Some((overlap_m, _)) = self.seal else { return };
        for polygon in grown(&self.cut.corners, self.centre, overlap_m, self.edges) {
            for ring in std::iter::once(polygon.exterior()).chain(polygon.interiors()) {
                let points = &ring.0[..ring.0.len().saturating_sub(1)];
                let ring: Vec<(f64, f64)> =
                    points.iter().map(|point| self.on_paper((point.x * self.sign, point.y * self.sign))).collect();
                drawing.path(&ring, true, &dashed(weight::LINE, "1.6 1"));
            }
        }
    }

    fn hole_and_cut(&self, drawing: &mut Drawing) {
        let cut: Vec<(f64, f64)> = self.cut.corners.iter().map(|p| self.at(*p)).collect();
        drawing.path(&cut, true, "fill=\"#fff\"");
        for outline in &self.cut.outlines {
            let ring: Vec<(f64, f64)> = outline.ring.iter().map(|p| self.at(*p)).collect();
            let style = format!("fill=\"#d9d9d9\" {}", stroke(weight::LINE));
            drawing.path(&ring, true, &style);
            let middle = self.at(inside(&outline.ring));
            let label = clip(&outline.hole.0, SIZE, 26.0);
            drawing.text((middle.0, middle.1 + SIZE * 0.35), &label, Type::plain(SIZE).middle().rim());
        }
        drawing.path(&cut, true, &stroke(weight::BOLD));
    }

    fn dimension_lines(&self, drawing: &mut Drawing) {
        let overlap_m = self.seal.as_ref().map_or(0.0, |(overlap_m, _)| *overlap_m);
        for dimension in &self.dimensions {
            let outward = dimension.outward;
            let out_of = |end: (f64, f64)| end.0 * outward.0 + end.1 * outward.1;
            let seal_mm = |end: (f64, f64)| (dimension.reach_m + overlap_m - out_of(end)) * self.scale;
            let line_mm = FIRST_ROW + ROW * dimension.row as f64;
            let shifted = |end: (f64, f64), by_mm: f64| {
                let (x, y) = self.on_paper(end);
                (x + outward.0 * by_mm, y + outward.1 * by_mm)
            };
            for end in dimension.ends {
                let start = if dimension.is_hidden { seal_mm(end) + OFF_CORNER } else { OFF_CORNER };
                let style = stroke(weight::FINE);
                drawing.line(shifted(end, start), shifted(end, seal_mm(end) + line_mm + BEYOND), &style);
            }
            let [a, b] = dimension.ends.map(|end| shifted(end, seal_mm(end) + line_mm));
            let (from, to) = if a <= b { (a, b) } else { (b, a) };
            drawing.dimension(from, to, &self.units.side(metres(dimension.length_m)), cut_dimensions::TYPE);
        }
    }

    fn foot(&self, drawing: &mut Drawing, direction: &str) {
        let words = self.units.words;
        let y = 50.0;
        drawing.line((2.0, y), (15.0, y), &stroke(weight::LINE));
        drawing.arrow_head((16.5, y), (1.0, 0.0), 2.4);
        drawing.text((18.0, y + 0.95), &words.say(direction), Type::plain(SIZE));
        let angle = self.cut.angle_deg;
        let turned = if angle.abs() < 0.5 {
            words.say("drawing-long-side-along")
        } else if (angle.abs() - 90.0).abs() < 0.5 {
            words.say("drawing-long-side-across")
        } else {
            // Positive turns right of increasing chainage; half a turn of the paper changes nothing.
            let message = if angle > 0.0 { "drawing-long-side-right" } else { "drawing-long-side-left" };
            words.say_with(message, [("angle", format!("{:.0}", angle.abs()).into())])
        };
        drawing.text((18.0, y + 4.6), &turned, Type::plain(SIZE));
        self.scale_bar(drawing, (WIDTH - 2.0, y));
        let key = 60.2;
        drawing.rect((2.0, key - 2.0), (3.4, 2.2), &format!("fill=\"#d9d9d9\" {}", stroke(weight::FINE)));
        drawing.text((6.4, key), &words.say("drawing-hole"), Type::plain(SIZE));
        // Each entry where it has always been, or further on where the words before it are longer.
        let how = Type::plain(SIZE);
        let x = (7.9 + how.width(&words.say("drawing-hole"))).max(18.0);
        drawing.line((x, key - 0.9), (x + 5.0, key - 0.9), &stroke(weight::BOLD));
        drawing.text((x + 6.0, key), &words.say("drawing-cut"), how);
        if let Some((_, seal)) = &self.seal {
            let x = (x + 7.5 + how.width(&words.say("drawing-cut"))).max(34.0);
            drawing.line((x, key - 0.9), (x + 6.0, key - 0.9), &dashed(weight::LINE, "1.6 1"));
            drawing.text((x + 7.0, key), &clip(seal, SIZE, WIDTH - x - 8.0), how);
        }
    }

    fn scale_bar(&self, drawing: &mut Drawing, right: (f64, f64)) {
        let si = self.units.system == UnitSystem::Si;
        let (unit_m, unit) = if si { (1.0, "unit-m") } else { (0.3048, "unit-ft") };
        let choices = [0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0];
        let fits = choices.into_iter().rev().find(|c| c * unit_m * self.scale <= 20.0).unwrap_or(choices[0]);
        let length = fits * unit_m * self.scale;
        let (x1, y) = right;
        let x0 = x1 - length;
        drawing.line((x0, y), (x1, y), &stroke(weight::BOLD));
        for x in [x0, x1] {
            drawing.line((x, y - 1.0), (x, y + 1.0), &stroke(weight::LINE));
        }
        drawing.text((x1, y + 4.0), &self.units.with_unit(&fits.to_string(), unit), Type::plain(SIZE).end());
    }
}

/// How far the seal laps over the cut: the working-out says it; else from the sealed area as if nothing were clipped.
fn seal_overlap_m(cut: &CutOut, repair: &Repair) -> f64 {
    if let Some(length) = input_of(&repair.seal_area.why, "overlap").and_then(length_m) {
        return length;
    }
    // Every right-angled ring has four corners more that turn outwards than inwards: A + P o + 4 o^2 = S for o.
    let extra = repair.seal_area.value.value - cut.area.value.value;
    let around = around_m(&cut.corners);
    let overlap = ((around * around + 16.0 * extra.max(0.0)).sqrt() - around) / 8.0;
    if overlap.is_finite() { overlap.clamp(0.0, 0.5) } else { 0.0 }
}

fn around_m(corners: &[FramePoint]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).map(|(a, b)| (b.along_m - a.along_m).hypot(b.across_m - a.across_m)).sum()
}

/// A point well inside a ring, for the label; the middle of its box where there is none.
fn inside(ring: &[FramePoint]) -> FramePoint {
    let middle = FramePoint::middle(ring);
    let near: LineString =
        ring.iter().map(|p| Coord { x: p.along_m - middle.along_m, y: p.across_m - middle.across_m }).collect();
    let is_finite = near.0.iter().all(|point| point.x.is_finite() && point.y.is_finite());
    let polygon = Polygon::new(near, Vec::new());
    // The middle of the box itself where it lies inside: most holes are round.
    if !is_finite || polygon.contains(&Point::new(0.0, 0.0)) {
        return middle;
    }
    // Else in the middle of the longest stretch along the road that is inside: where words have most room.
    let longest = (1..12).filter_map(|step| longest_inside(polygon.exterior(), f64::from(step) / 12.0));
    longest
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map_or(middle, |(at, _)| FramePoint { along_m: middle.along_m + at.x, across_m: middle.across_m + at.y })
}

/// Middle and length of the longest stretch inside a ring at that part of its breadth.
fn longest_inside(ring: &LineString, part: f64) -> Option<(Coord, f64)> {
    let bounds = ring.bounding_rect()?;
    let y = bounds.min().y + part * bounds.height();
    let crossed = ring.lines().filter(|side| (side.start.y <= y) != (side.end.y <= y));
    let mut crossings: Vec<f64> =
        crossed.map(|side| side.start.x + (y - side.start.y) / side.dy() * side.dx()).collect();
    crossings.sort_by(f64::total_cmp);
    let stretches = crossings.chunks_exact(2).map(|ends| (ends[1] - ends[0], f64::midpoint(ends[0], ends[1])));
    stretches.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(length, x)| (Coord { x, y }, length))
}

/// The cut with every side moved outwards by a distance, kept between the seal's edges; metres from `middle`.
fn grown(corners: &[FramePoint], middle: FramePoint, by_m: f64, edges: Option<(f64, f64)>) -> MultiPolygon {
    // The mitre's least angle (radians) only cuts off needle corners; a cut's corners are right angles.
    const LEAST_MITRE_ANGLE: f64 = 0.2;
    let near = |p: &FramePoint| Coord { x: p.along_m - middle.along_m, y: p.across_m - middle.across_m };
    let ring: LineString = corners.iter().map(near).collect();
    if corners.len() < 3 || ring.0.iter().any(|point| !point.x.is_finite() || !point.y.is_finite()) {
        return MultiPolygon::new(Vec::new());
    }
    let style = BufferStyle::new(by_m).line_join(LineJoin::Miter(LEAST_MITRE_ANGLE));
    let grown = Polygon::new(ring, Vec::new()).buffer_with_style(style);
    match (edges, grown.bounding_rect()) {
        (Some((left, right)), Some(bounds)) => {
            let (left, right) = (left - middle.across_m, right - middle.across_m);
            let strip = Rect::new((bounds.min().x - 1.0, left), (bounds.max().x + 1.0, right));
            grown.intersection(&strip.to_polygon())
        }
        _ => grown,
    }
}

#[cfg(test)]
mod tests {
    use geo::Area;

    use super::*;

    const ORIGIN: FramePoint = FramePoint { along_m: 0.0, across_m: 0.0 };

    fn ring(points: &[(f64, f64)]) -> Vec<FramePoint> {
        points.iter().map(|&(along_m, across_m)| FramePoint { along_m, across_m }).collect()
    }

    #[test]
    fn a_ring_grows_on_all_sides_whichever_way_round() {
        // An L: 2.0 x 1.0 less 1.0 x 0.5; around 6.0. Grown by 0.1: 1.5 + 0.6 + 0.04.
        let mut corners = ring(&[(0.0, 0.0), (2.0, 0.0), (2.0, 0.5), (1.0, 0.5), (1.0, 1.0), (0.0, 1.0)]);
        for _ in 0..2 {
            assert!((grown(&corners, ORIGIN, 0.1, None).unsigned_area() - 2.14).abs() < 1e-6);
            corners.reverse();
        }
    }

    /// An L of arms half a metre wide: the label goes into the longer one, 2 m, in which the first and second level of
    /// twelve lie.
    #[test]
    fn a_label_stands_where_there_is_most_room() {
        let corners = ring(&[(0.0, 0.0), (2.0, 0.0), (2.0, 0.5), (0.5, 0.5), (0.5, 2.4), (0.0, 2.4)]);
        let at = inside(&corners);
        assert!((at.along_m - 1.0).abs() < 1e-9 && at.across_m > 0.0 && at.across_m < 0.5, "{at:?}");
        let round = ring(&[(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)]);
        assert_eq!(inside(&round), FramePoint { along_m: 1.0, across_m: 0.5 });
    }

    #[test]
    fn the_seal_ends_at_the_edge_of_the_pavement() {
        let corners = ring(&[(0.0, 2.0), (1.0, 2.0), (1.0, 4.0), (0.0, 4.0)]);
        let kept = grown(&corners, ORIGIN, 0.1, Some((-3.0, 3.0)));
        let bounds = kept.bounding_rect().unwrap();
        assert!((bounds.max().y - 3.0).abs() < 1e-6 && (bounds.min().y - 1.9).abs() < 1e-6, "{bounds:?}");
    }
}
