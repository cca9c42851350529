//! Section through one repair: layers, depth, crown and seal. Depth to scale, width not.

use model::figure::Why;
use model::plan::Plan;
use model::quantity::{Length, metres};
use model::repair::Repair;

use super::{input_of, length_m};
use crate::display::Units;
use crate::svg::{Drawing, Type, dashed, stroke, weight};

const WIDTH: f64 = 70.0;
const HEIGHT: f64 = 61.0;
const SURFACE: f64 = 17.0;
const BOTTOM: f64 = 52.0;
const WALLS: (f64, f64) = (15.0, 36.0);
const LAP: f64 = 4.0;
const CROWN: f64 = 2.4;
const SIZE: f64 = 2.6;

/// Draws the section of a job's repair.
///
/// # Panics
/// If `job` is not an index into `plan.jobs`.
pub fn section_svg(plan: &Plan, job: usize) -> String {
    section(&plan.jobs[job].repair, Units::of(&plan.district)).finish()
}

/// The section of one repair.
pub fn section(repair: &Repair, units: Units) -> Drawing {
    let mut drawing = Drawing::new(WIDTH, HEIGHT);
    ground(&mut drawing);
    layers(&mut drawing, repair, units);
    seal(&mut drawing, repair, units);
    depth_dimension(&mut drawing, repair.depth.value, units);
    drawing.text((2.0, 60.2), &units.words.say("drawing-section"), Type::plain(SIZE));
    drawing
}

/// The road beside and below the cut.
fn ground(drawing: &mut Drawing) {
    let (left, right) = WALLS;
    let floor = 55.5;
    let outer = (8.0, 42.0);
    for (a, b) in [(outer.0, left), (right, outer.1)] {
        let corners = [(a, SURFACE), (b, SURFACE), (b, floor), (a, floor)];
        drawing.hatch(&corners, 2.4, &stroke(0.14));
    }
    drawing.hatch(&[(left, BOTTOM), (right, BOTTOM), (right, floor), (left, floor)], 2.4, &stroke(0.14));
    for (a, b) in [(outer.0, left), (right, outer.1)] {
        drawing.line((a, SURFACE), (b, SURFACE), &stroke(weight::BOLD));
    }
}

fn layers(drawing: &mut Drawing, repair: &Repair, units: Units) {
    let (left, right) = WALLS;
    let count = repair.layer_count.value.clamp(1, 8);
    let step = (BOTTOM - SURFACE) / f64::from(count);
    drawing.path(&[(left, SURFACE), (left, BOTTOM), (right, BOTTOM), (right, SURFACE)], false, &stroke(weight::BOLD));
    let thickness = units.depth(repair.layer_thickness.value);
    let loose = units.depth(repair.loose_layer_thickness.value);
    for layer in 0..count {
        let low = BOTTOM - step * f64::from(layer);
        let high = low - step;
        if layer + 1 < count {
            drawing.line((left, high), (right, high), &dashed(weight::LINE, "2 1.2"));
        }
        let middle = f64::midpoint(low, high);
        let label = units.words.say_with("drawing-layer", [("layer", (layer + 1).into())]);
        drawing.text((f64::midpoint(left, right), middle + 0.9), &label, Type::plain(SIZE).middle().rim());
        drawing.line((right + LAP + 6.2, low), (right + LAP + 9.8, low), &stroke(weight::FINE));
        drawing.line((right + LAP + 6.2, high), (right + LAP + 9.8, high), &stroke(weight::FINE));
        drawing.dimension((right + LAP + 8.0, high), (right + LAP + 8.0, low), "", SIZE);
        let x = right + LAP + 10.5;
        if step > 6.5 {
            drawing.text((x, middle - 0.2), &thickness, Type::plain(3.0).bold());
            drawing.text(
                (x, middle + 3.1),
                &units.words.say_with("drawing-loose", [("thickness", (&loose).into())]),
                Type::plain(SIZE),
            );
        } else {
            drawing.text((x, middle + 1.0), &thickness, Type::plain(3.0).bold());
        }
    }
}

fn seal(drawing: &mut Drawing, repair: &Repair, units: Units) {
    let (left, right) = WALLS;
    let middle = f64::midpoint(left, right);
    let mut ring: Vec<(f64, f64)> = vec![(left - LAP, SURFACE - 0.3)];
    for index in 0..=16 {
        let t = f64::from(index) / 16.0;
        let x = left + t * (right - left);
        let u = (x - middle) / (right - left) * 2.0;
        ring.push((x, SURFACE - 0.3 - CROWN * (1.0 - u * u)));
    }
    ring.push((right + LAP, SURFACE - 0.3));
    drawing.path(&ring, false, &stroke(1.1));
    drawing.line((left, SURFACE), (right, SURFACE), &dashed(weight::FINE, "0.8 0.8"));
    let crown = said(&repair.fill_volume.why, "crown", units);
    let words = match crown {
        Some(crown) => units.words.say_with("drawing-seal-crown", [("crown", crown.into())]),
        None => units.words.say("drawing-seal"),
    };
    drawing.line((middle, SURFACE - CROWN - 1.2), (middle, 9.6), &stroke(weight::FINE));
    drawing.text((middle - 12.0, 8.6), &words, Type::plain(SIZE));
    let overlap = said(&repair.seal_area.why, "overlap", units);
    let words = match overlap {
        Some(overlap) => units.words.say_with("drawing-overlap-by", [("overlap", overlap.into())]),
        None => units.words.say("drawing-overlap"),
    };
    let y = 13.2;
    for x in [left - LAP, left] {
        drawing.line((x, SURFACE - 1.2), (x, y - 0.8), &stroke(weight::FINE));
    }
    drawing.line((left - LAP, y), (left, y), &stroke(weight::FINE));
    drawing.text((1.0, 3.4), &words, Type::plain(SIZE));
    drawing.line((left - LAP / 2.0, y), (left - LAP / 2.0, 4.6), &stroke(weight::FINE));
}

fn depth_dimension(drawing: &mut Drawing, depth: Length, units: Units) {
    let x = 4.6;
    for y in [SURFACE, BOTTOM] {
        drawing.line((x - 1.6, y), (WALLS.0 - 0.8, y), &stroke(weight::FINE));
    }
    drawing.dimension((x, BOTTOM), (x, SURFACE), &units.depth(depth), 3.0);
}

/// A length the working-out names, in the district's units.
fn said(why: &Why, word: &str, units: Units) -> Option<String> {
    input_of(why, word).and_then(length_m).map(|m| units.depth(metres(m)))
}
