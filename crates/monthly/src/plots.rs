//! The plots: bars of months and of planned against actual, curves of what lasts. They read in grey, and in the colour of the text
//! around them. Their axes run from left to right in every language.

use std::fmt::Write;

use lasting::plot::{PlotWords, narrow_curves_svg};
use model::life::GroupCurve;
use model::month_report::PlannedLine;
use words::direction::alone;

use crate::names;
use crate::say::Say;

pub(crate) const WIDTH: f64 = 170.0;
const SIZE: f64 = 3.2;

/// Holes told of (light) beside holes mended (dark), month by month.
pub(crate) fn arrivals_svg(say: Say) -> String {
    let months = &say.report.arrivals;
    let (left, right, top, bottom) = (10.0, WIDTH - 2.0, 9.0, 46.0);
    let most = months.iter().map(|month| month.told.max(month.mended)).max().unwrap_or(0).max(1);
    let step = step(most);
    let end = most.div_ceil(step) * step;
    let y = |count: u32| bottom - (bottom - top) * f64::from(count) / f64::from(end);
    let described = months.iter().map(|month| {
        let (told, mended) = (month.told.to_string(), month.mended.to_string());
        let values = [("month", (&month.month).into()), ("told", told.into()), ("mended", mended.into())];
        say.with("report-told-and-mended-in", values)
    });
    let mut svg = open(57.0, &described.collect::<Vec<_>>().join("; "));
    for mark in (0..=end).step_by(step as usize) {
        line(&mut svg, left, y(mark), right, y(mark), "#ddd");
        text(&mut svg, left - 1.5, y(mark) + 1.1, "end", &mark.to_string());
    }
    let each = (right - left) / months.len().max(1) as f64;
    for (at, month) in months.iter().enumerate() {
        let x = left + each * (at as f64 + 0.16);
        let bar = each * 0.33;
        bar_of(&mut svg, x, y(month.told), bar, bottom - y(month.told), "#bbb");
        bar_of(&mut svg, x + bar, y(month.mended), bar, bottom - y(month.mended), "#222");
        let (year, number) = month.month.split_once('-').unwrap_or((&month.month, ""));
        let name = number.parse().map_or_else(|_| number.to_owned(), |number| say.short_month(number));
        text(&mut svg, x + bar, bottom + 4.6, "middle", &name);
        if at == 0 || number == "01" {
            text(&mut svg, x + bar, bottom + 8.6, "middle", year);
        }
    }
    line(&mut svg, left, bottom, right, bottom, "#000");
    key(&mut svg, left, &[("#bbb", &say.say("report-told")), ("#222", &say.say("report-mended"))]);
    svg.push_str("</svg>\n");
    svg
}

/// Actual as a part of planned; the line is as planned.
pub(crate) fn planned_svg(say: Say) -> String {
    let planned = &say.report.planned;
    let lines: Vec<(&PlannedLine, f64)> = planned.iter().filter_map(|line| Some((line, line.ratio?))).collect();
    let (left, right, top, row) = (34.0, WIDTH - 14.0, 5.0, 6.4);
    let bottom = top + row * lines.len() as f64;
    let most = lines.iter().map(|(_, ratio)| *ratio).fold(1.25, f64::max);
    let end = (most * 4.0).ceil() / 4.0;
    let x = |ratio: f64| left + (right - left) * ratio / end;
    let described = lines.iter().map(|(line, ratio)| {
        let values = [("what", names::planned(say, &line.what).into()), ("share", say.per_cent(*ratio, 0).into())];
        say.with("report-of-planned", values)
    });
    let mut svg = open(bottom + 7.0, &described.collect::<Vec<_>>().join("; "));
    let quarters = (end * 4.0).round() as u32;
    for quarter in 0..=quarters {
        let ratio = f64::from(quarter) / 4.0;
        line(&mut svg, x(ratio), top, x(ratio), bottom, if quarter == 4 { "#000" } else { "#ddd" });
        if quarter % 2 == 0 || quarters <= 8 {
            text(&mut svg, x(ratio), bottom + 4.6, "middle", &say.per_cent(ratio, 0));
        }
    }
    for (at, (of, ratio)) in lines.iter().enumerate() {
        let y = top + row * at as f64;
        bar_of(&mut svg, left, y + 1.3, x(*ratio) - left, row - 2.6, "#777");
        text(&mut svg, left - 1.5, y + row / 2.0 + 1.1, "end", &names::planned(say, &of.what));
        text(&mut svg, x(*ratio) + 1.2, y + row / 2.0 + 1.1, "start", &say.per_cent(*ratio, 0));
    }
    // over the bars: what they are held against
    line(&mut svg, x(1.0), top - 1.5, x(1.0), bottom, "#000");
    svg.push_str("</svg>\n");
    svg
}

/// How many repairs are still whole against their age, by group; for half a page's width.
pub(crate) fn curves_svg(say: Say, mut curves: Vec<GroupCurve>, caption: &str) -> String {
    let described = curves.iter().map(|curve| {
        let median = curve.median.map_or_else(
            || say.say("report-not-reached"),
            |days| say.counted("report-days", days.round().max(0.0) as usize),
        );
        say.with(
            "report-curve-in-words",
            [
                ("group", (&curve.name).into()),
                ("lives", curve.n.to_string().into()),
                ("failures", curve.failures.to_string().into()),
                ("median", median.into()),
            ],
        )
    });
    let described = format!("{caption}. {}", described.collect::<Vec<_>>().join("; "));
    for curve in &mut curves {
        curve.name = alone(&curve.name).into_owned();
    }
    let [still_whole, unit, at_risk] =
        ["report-still-whole", "report-days-unit", "report-at-risk"].map(|key| alone(&say.say(key)).into_owned());
    let words = PlotWords {
        still_whole: &still_whole,
        unit: &unit,
        at_risk: &at_risk,
        per_cent: &|number| say.per_cent(f64::from(number) / 100.0, 0),
        described,
    };
    narrow_curves_svg(&curves, &words)
}

/// The least of 1, 2, 5 times a power of ten that gives six marks at most.
pub(crate) fn step(most: u32) -> u32 {
    let steps = (0..9).flat_map(|power| [1, 2, 5].map(|times: u32| times * 10_u32.pow(power)));
    steps.into_iter().find(|step| most.div_ceil(*step) <= 6).unwrap_or(most)
}

pub(crate) fn open(height: f64, described: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{WIDTH}mm\" height=\"{height:.1}mm\" viewBox=\"0 0 {WIDTH} {height:.1}\" \
         font-family=\"Noto Sans, Noto Sans Arabic, sans-serif\" font-size=\"{SIZE}\" direction=\"ltr\" role=\"img\">\n<title>{}</title>\n\
         <rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n",
        escaped(described)
    )
}

fn key(svg: &mut String, left: f64, entries: &[(&str, &str)]) {
    for (at, (fill, words)) in entries.iter().enumerate() {
        let x = left + 26.0 * at as f64;
        bar_of(svg, x, 1.6, 3.2, 3.2, fill);
        text(svg, x + 4.4, 4.4, "start", words);
    }
}

fn bar_of(svg: &mut String, x: f64, y: f64, width: f64, height: f64, fill: &str) {
    let height = height.max(0.0);
    let _ =
        writeln!(svg, "<rect x=\"{x:.2}\" y=\"{y:.2}\" width=\"{width:.2}\" height=\"{height:.2}\" fill=\"{fill}\"/>");
}

pub(crate) fn line(svg: &mut String, x1: f64, y1: f64, x2: f64, y2: f64, stroke: &str) {
    let _ = writeln!(svg, "<path d=\"M{x1:.2} {y1:.2}L{x2:.2} {y2:.2}\" stroke=\"{stroke}\" stroke-width=\"0.3\"/>");
}

pub(crate) fn text(svg: &mut String, x: f64, y: f64, anchor: &str, words: &str) {
    let _ = writeln!(svg, "<text x=\"{x:.2}\" y=\"{y:.2}\" text-anchor=\"{anchor}\">{}</text>", escaped(&alone(words)));
}

pub(crate) fn escaped(words: &str) -> String {
    words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
