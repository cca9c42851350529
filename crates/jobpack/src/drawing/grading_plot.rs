//! Plot of a sieve analysis on a logarithmic axis, with the envelope of a grading.

use model::quantity::{InLength, InRatio, Ratio};
use model::soil::{GradingCheck, SieveAnalysis, Standing};
use plotters::coord::combinators::{IntoLogRange, LogCoord};

use super::plane::{Frame, Plane, SIZE, plain};
use crate::svg::{Drawing, Type, clip, dashed, stroke, weight};

const WIDTH: f64 = 120.0;
const HEIGHT: f64 = 112.0;
const FRAME: Frame = Frame { left: 12.0, right: 116.0, top: 8.0, bottom: 77.0 };
/// Names of sieves stand no nearer than this.
const NAMES_APART: f64 = 4.0;

/// Draws a sieve analysis: opening in millimetres, per cent passing; with the envelope of a grading, if one is given.
///
/// A ring around a dot marks a share outside the envelope, with the points it is off.
pub fn grading_plot_svg(analysis: &SieveAnalysis, grading: Option<&GradingCheck>) -> String {
    let mut drawing = Drawing::new(WIDTH, HEIGHT);
    let Some(range) = range(analysis, grading) else {
        drawing.text((FRAME.left, 20.0), "no sieve can be drawn", Type::plain(SIZE));
        return drawing.finish();
    };
    let across: LogCoord<f64> = range.log_scale().into();
    let plane = Plane::new(FRAME, across, 0.0..100.0);
    if let Some(check) = grading {
        drawing.path(&band(&plane, check), true, "fill=\"#e2e2e2\"");
    }
    plane.vertical_axis(&mut drawing, 11, "passing, %");
    names(&mut drawing, &plane, analysis, grading);
    plane.outline(&mut drawing);
    if let Some(check) = grading {
        for limit in [|v: &model::soil::SieveVerdict| v.least, |v: &model::soil::SieveVerdict| v.most] {
            let edge: Vec<_> = check.sieves.iter().map(|v| point(&plane, v.opening, limit(v))).collect();
            drawing.path(&edge, false, &dashed(weight::LINE, "1.6 1"));
        }
        drawing.text((FRAME.right, FRAME.top - 2.4), &clip(&title(check), SIZE, 84.0), Type::plain(SIZE).end());
    }
    let curve: Vec<_> = analysis.points.iter().map(|p| point(&plane, p.opening, p.passing.value)).collect();
    drawing.path(&curve, false, &stroke(weight::BOLD));
    for at in curve {
        drawing.circle(at, 1.1, "fill=\"#000\" stroke=\"#fff\" stroke-width=\"0.3\"");
    }
    for verdict in grading.map(|check| check.sieves.as_slice()).unwrap_or_default() {
        let (Some(passing), Some(off)) = (verdict.passing, off(verdict.standing)) else { continue };
        let (x, y) = point(&plane, verdict.opening, passing);
        drawing.circle((x, y), 2.1, &stroke(weight::LINE));
        let is_high = off.starts_with('+');
        // Away from the curve: it rises to the right.
        let (at, how) = if is_high {
            ((x - 2.8, y - 0.6), Type::plain(SIZE).bold().rim().end())
        } else if x + 14.0 > FRAME.right {
            ((FRAME.right - 1.0, y + SIZE + 2.6), Type::plain(SIZE).bold().rim().end())
        } else {
            ((x + 2.8, y + SIZE * 0.9), Type::plain(SIZE).bold().rim())
        };
        drawing.text(at, &off, how);
    }
    drawing.finish()
}

fn title(check: &GradingCheck) -> String {
    format!("{}: {}", check.grading, check.fit.words())
}

/// Points outside the envelope, e.g. `+3.0`.
fn off(standing: Standing) -> Option<String> {
    match standing {
        Standing::Below(by) => Some(format!("−{:.1}", by.in_percent())),
        Standing::Above(by) => Some(format!("+{:.1}", by.in_percent())),
        Standing::Inside | Standing::NotTested => None,
    }
}

/// Openings shown, millimetres, with some room at both ends.
fn range(analysis: &SieveAnalysis, grading: Option<&GradingCheck>) -> Option<std::ops::Range<f64>> {
    let of_grading = grading.map(|check| check.sieves.iter().map(|v| v.opening)).into_iter().flatten();
    let openings = analysis.points.iter().map(|p| p.opening).chain(of_grading).map(InLength::in_millimetres);
    let (low, high) = openings
        .filter(|mm| mm.is_finite() && *mm > 0.0)
        .fold((f64::INFINITY, 0.0_f64), |(low, high), mm| (low.min(mm), high.max(mm)));
    (high > 0.0).then_some(low / 1.5..high * 1.3)
}

fn point(plane: &Plane<LogCoord<f64>>, opening: model::quantity::Length, share: Ratio) -> (f64, f64) {
    plane.at((opening.in_millimetres(), share.in_percent()))
}

/// The envelope: along its greatest shares and back along its least.
fn band(plane: &Plane<LogCoord<f64>>, check: &GradingCheck) -> Vec<(f64, f64)> {
    let over = check.sieves.iter().map(|v| point(plane, v.opening, v.most));
    let under = check.sieves.iter().rev().map(|v| point(plane, v.opening, v.least));
    over.chain(under).collect()
}

/// Sieves along the bottom, those of the grading first where room is short.
fn names(
    drawing: &mut Drawing,
    plane: &Plane<LogCoord<f64>>,
    analysis: &SieveAnalysis,
    grading: Option<&GradingCheck>,
) {
    let of_grading = grading.map(|check| check.sieves.iter().map(|v| (&v.sieve, v.opening))).into_iter().flatten();
    let of_sample = analysis.points.iter().map(|p| (&p.sieve, p.opening));
    let mut taken: Vec<f64> = Vec::new();
    for (name, opening) in of_grading.chain(of_sample) {
        let mm = opening.in_millimetres();
        plane.grid_across(drawing, mm);
        let x = plane.x(mm);
        if taken.iter().any(|other| (other - x).abs() < NAMES_APART) {
            continue;
        }
        taken.push(x);
        let size = format!("{} mm", plain(mm));
        let words = if *name == size { size } else { format!("{name} · {size}") };
        drawing.text((x + SIZE * 0.35, FRAME.bottom + 1.8), &words, Type::plain(SIZE).end().turned(-90.0));
    }
}
