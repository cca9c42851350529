//! The curve of money for renewals against what is left.

use std::fmt::Write;

use model::month_report::BudgetCorner;

use crate::plots::{WIDTH, line, open, step, text};

/// Holes to come by the money spent on renewals, in thousands; `across` and `up` say so.
pub fn budget_svg(corners: &[BudgetCorner], across: &str, up: &str) -> String {
    let (left, right, top, bottom) = (16.0, WIDTH - 6.0, 9.0, 56.0);
    let most = |of: fn(&BudgetCorner) -> f64| corners.iter().map(of).fold(1.0, f64::max);
    let (money, holes) = (most(|corner| corner.budget / 1000.0), most(|corner| corner.holes));
    // whole units of money and holes are fine enough for marks
    let (money_step, holes_step) = (step(money.ceil() as u32), step(holes.ceil() as u32));
    let end = |most: f64, step: u32| (most / f64::from(step)).ceil() * f64::from(step);
    let (money_end, holes_end) = (end(money, money_step), end(holes, holes_step));
    let x = |budget: f64| left + (right - left) * budget / money_end;
    let y = |holes: f64| bottom - (bottom - top) * holes / holes_end;
    let ends = [corners.first(), corners.last()].into_iter().flatten();
    let described = ends.map(|corner| format!("{:.0}: {:.0}", corner.budget / 1000.0, corner.holes));
    let mut svg = open(70.0, &format!("{up}, {across}: {}", described.collect::<Vec<_>>().join("; ")));
    for mark in (0..=holes_end as u32).step_by(holes_step as usize) {
        let at = y(f64::from(mark));
        line(&mut svg, left, at, right, at, "#ddd");
        text(&mut svg, left - 1.5, at + 1.1, "end", &mark.to_string());
    }
    for mark in (0..=money_end as u32).step_by(money_step as usize) {
        let at = x(f64::from(mark));
        line(&mut svg, at, bottom, at, bottom + 1.2, "#000");
        text(&mut svg, at, bottom + 5.0, "middle", &mark.to_string());
    }
    line(&mut svg, left, bottom, right, bottom, "#000");
    let points = corners.iter().map(|corner| format!("{:.2},{:.2}", x(corner.budget / 1000.0), y(corner.holes)));
    let points: Vec<String> = points.collect();
    let _ =
        writeln!(svg, "<polyline points=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.7\"/>", points.join(" "));
    text(&mut svg, left, top - 4.0, "start", up);
    text(&mut svg, right, bottom + 10.5, "end", across);
    svg.push_str("</svg>\n");
    svg
}
