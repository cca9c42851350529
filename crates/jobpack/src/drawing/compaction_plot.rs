//! Plot of a compaction test: specimens, fitted curve, its peak, lines of saturation.

use model::quantity::{InMassDensity, InRatio};
use model::soil::{CompactionFit, CompactionTest, Curve, PointFate};
use plotters::coord::types::RangedCoordf64;

use super::plane::{Frame, Plane, SIZE, plain};
use crate::svg::{Drawing, Type, dashed, stroke, weight};

const WIDTH: f64 = 120.0;
const HEIGHT: f64 = 96.0;
const FRAME: Frame = Frame { left: 14.0, right: 103.0, top: 8.0, bottom: 79.0 };

/// Draws a compaction test: moisture in per cent, dry density in kg/m3.
///
/// Filled dots are specimens in the fit, crosses those left out. Bars on the lines from the peak reach from P10
/// to P90.
pub fn compaction_plot_svg(test: &CompactionTest) -> String {
    let mut drawing = Drawing::new(WIDTH, HEIGHT);
    let Some((across, up)) = ranges(test) else {
        drawing.text((FRAME.left, 20.0), "no specimen can be drawn", Type::plain(SIZE));
        return drawing.finish();
    };
    let plane = Plane::new(FRAME, RangedCoordf64::from(across.clone()), up.clone());
    plane.vertical_axis(&mut drawing, 7, "dry density, kg/m³");
    for value in plane.marks_across(8) {
        plane.grid_across(&mut drawing, value);
        drawing.text((plane.x(value), FRAME.bottom + SIZE + 1.0), &plain(value), Type::plain(SIZE).middle());
    }
    drawing.text((FRAME.right, FRAME.bottom + 2.0 * SIZE + 2.2), "moisture, % of dry mass", Type::plain(SIZE).end());
    plane.outline(&mut drawing);
    for line in std::iter::once(&test.zero_air_voids).chain(&test.part_saturation) {
        saturation_line(&mut drawing, &plane, line, &up);
    }
    if let Ok(fit) = &test.fit {
        let points: Vec<_> = numbers(&fit.curve).into_iter().map(|point| plane.at(point)).collect();
        drawing.path(&points, false, &stroke(weight::BOLD));
        peak(&mut drawing, &plane, fit, &up);
    }
    for point in &test.points {
        let at = plane.at((point.moisture.in_percent(), point.dry_density.in_kilograms_per_cubic_metre()));
        match point.fate {
            PointFate::Used => drawing.circle(at, 1.1, "fill=\"#000\" stroke=\"#fff\" stroke-width=\"0.3\""),
            PointFate::AboveZeroAirVoids => cross(&mut drawing, at),
        }
    }
    legend(&mut drawing, test);
    drawing.finish()
}

type Range = std::ops::Range<f64>;

/// What is shown across and up; `None` without a specimen.
fn ranges(test: &CompactionTest) -> Option<(Range, Range)> {
    let line = numbers(&test.zero_air_voids);
    let (first, last) = (line.first()?.0, line.last()?.0);
    let densities = test.points.iter().map(|point| point.dry_density.in_kilograms_per_cubic_metre());
    let (low, high) = densities.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), d| (l.min(d), h.max(d)));
    let top =
        test.fit.as_ref().map_or(high, |fit| high.max(fit.maximum_dry_density.value.in_kilograms_per_cubic_metre()));
    let span = (top - low).max(0.02 * top);
    // The lines of saturation end to the right of the box where that does not flatten the curve.
    let ends =
        test.part_saturation.iter().chain([&test.zero_air_voids]).filter_map(|line| Some(numbers(line).last()?.1));
    let lowest_end = ends.fold(low, f64::min).max(low - 0.6 * span);
    let is_drawable = [first, last, low, top].iter().all(|v| v.is_finite());
    let across = if last - first > 1e-6 { first..last } else { (first - 1.0).max(0.0)..first + 1.0 };
    is_drawable.then_some((across, lowest_end - 0.12 * span..top + 0.35 * span))
}

fn numbers(curve: &Curve) -> Vec<(f64, f64)> {
    curve.points.iter().map(|(w, rho)| (w.in_percent(), rho.in_kilograms_per_cubic_metre())).collect()
}

fn saturation_line(drawing: &mut Drawing, plane: &Plane<RangedCoordf64>, line: &Curve, up: &Range) {
    let share = line.saturation.map_or(1.0, InRatio::in_fraction);
    let is_bound = share >= 1.0;
    let shown = Plane::<RangedCoordf64>::inside(&numbers(line), up.start, up.end);
    let Some(end) = shown.last().map(|end| plane.at(*end)) else { return };
    let points: Vec<_> = shown.iter().map(|point| plane.at(*point)).collect();
    let style = if is_bound { stroke(weight::LINE) } else { dashed(weight::FINE, "1.6 1") };
    drawing.path(&points, false, &style);
    let words = if is_bound { "S 100 %".to_owned() } else { format!("S {:.0} %", 100.0 * share) };
    // At the right of the box, or above the bottom where the line leaves through it.
    let at = if end.1 < FRAME.bottom - 0.5 {
        (FRAME.right + 1.0, end.1 + SIZE * 0.35)
    } else {
        (end.0 + 0.8, FRAME.bottom - 1.2)
    };
    drawing.text(at, &words, Type::plain(SIZE * 0.9).rim());
}

fn peak(drawing: &mut Drawing, plane: &Plane<RangedCoordf64>, fit: &CompactionFit, up: &Range) {
    let optimum = fit.optimum_moisture.value.in_percent();
    let maximum = fit.maximum_dry_density.value.in_kilograms_per_cubic_metre();
    let (x, y) = plane.at((optimum, maximum));
    let fine = dashed(weight::FINE, "0.8 0.8");
    drawing.line((x, y), (x, FRAME.bottom), &fine);
    drawing.line((FRAME.left, y), (x, y), &fine);
    let within = |value: f64, low: f64, high: f64| value.clamp(low, high);
    if let Some(spread) = fit.optimum_moisture.spread {
        let at = |w: model::quantity::Ratio| within(plane.x(w.in_percent()), FRAME.left, FRAME.right);
        let low = FRAME.bottom - 6.4;
        bar(drawing, (at(spread.p10), low), (at(spread.p90), low));
    }
    if let Some(spread) = fit.maximum_dry_density.spread {
        let at =
            |rho: model::quantity::MassDensity| plane.y(within(rho.in_kilograms_per_cubic_metre(), up.start, up.end));
        bar(drawing, (x, at(spread.p10)), (x, at(spread.p90)));
    }
    let type_ = Type::plain(SIZE).bold().rim();
    drawing.text((FRAME.left + 1.4, y - 1.2), &format!("MDD {maximum:.0}"), type_);
    let is_left = x > f64::midpoint(FRAME.left, FRAME.right) + 12.0;
    let (at, anchored) = if is_left { (x - 1.2, type_.end()) } else { (x + 1.2, type_) };
    drawing.text((at, FRAME.bottom - 1.6), &format!("OMC {optimum:.1} %"), anchored);
}

/// A bar with short ends.
fn bar(drawing: &mut Drawing, from: (f64, f64), to: (f64, f64)) {
    let style = stroke(weight::LINE);
    drawing.line(from, to, &style);
    let is_level = (from.1 - to.1).abs() < 1e-9;
    for (x, y) in [from, to] {
        let (dx, dy) = if is_level { (0.0, 1.0) } else { (1.0, 0.0) };
        drawing.line((x - dx, y - dy), (x + dx, y + dy), &style);
    }
}

fn cross(drawing: &mut Drawing, (x, y): (f64, f64)) {
    let style = stroke(weight::BOLD);
    drawing.line((x - 1.2, y - 1.2), (x + 1.2, y + 1.2), &style);
    drawing.line((x - 1.2, y + 1.2), (x + 1.2, y - 1.2), &style);
}

fn legend(drawing: &mut Drawing, test: &CompactionTest) {
    let y = HEIGHT - 3.0;
    let size = SIZE * 0.9;
    let fitted = test.fit.as_ref().map_or("no peak found", |fit| fit.degree.word());
    drawing.circle((FRAME.left, y - 1.1), 1.1, "fill=\"#000\"");
    drawing.text((FRAME.left + 2.6, y), "specimen", Type::plain(size));
    drawing.line((FRAME.left + 22.0, y - 1.1), (FRAME.left + 28.0, y - 1.1), &stroke(weight::BOLD));
    drawing.text((FRAME.left + 29.4, y), fitted, Type::plain(size));
    if test.points.iter().any(|point| point.fate == PointFate::AboveZeroAirVoids) {
        cross(drawing, (FRAME.left + 58.0, y - 1.1));
        drawing.text((FRAME.left + 60.6, y), "left out", Type::plain(size));
    }
    let gravity = format!("Gs {:.2}", test.specific_gravity.value);
    drawing.text((WIDTH - 2.0, y), &gravity, Type::plain(size).end());
}
