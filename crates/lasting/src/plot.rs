//! The curves drawn: steps, bands, and how many are still at risk below. Reads in grey: groups differ by the pattern of their line.

use std::fmt::Write;

use crate::groups::GroupCurve;

const WIDTH: f64 = 170.0;
/// Of a plot that stands beside another.
const NARROW: f64 = 112.0;
const LEFT: f64 = 46.0;
/// Between the end of the axis and the edge.
const MARGIN: f64 = 8.0;
const TOP: f64 = 10.0;
const BOTTOM: f64 = 84.0;
/// Of a narrow plot.
const NARROW_BOTTOM: f64 = 60.0;
const SIZE: f64 = 3.2;
const ROW: f64 = 4.6;
/// Patterns of lines, in millimetres of dash and gap, and their greys; then they begin anew, thinner.
const PATTERNS: [(&str, &str); 6] =
    [("", "#000"), ("4 1.6", "#000"), ("1 1.2", "#000"), ("", "#888"), ("6 1.4 1 1.4", "#444"), ("3 1.4", "#888")];
/// More than that many bands hide each other.
const BANDS_MAX: usize = 3;
/// Longest name in the table below, letters.
const NAME_MAX: usize = 16;

/// What a plot says beside the names of the groups.
pub struct PlotWords<'w> {
    /// Over the axis of the part that still holds.
    pub still_whole: &'w str,
    /// Unit of durations, e.g. `days`.
    pub unit: &'w str,
    /// Over the table below.
    pub at_risk: &'w str,
    /// So many per cent.
    pub per_cent: &'w dyn Fn(u32) -> String,
    /// The whole plot, for those who hear it.
    pub described: String,
}

/// Draws curves with English words; `unit` of durations, e.g. `days`.
pub fn curves_svg(groups: &[GroupCurve], unit: &str) -> String {
    let words = PlotWords {
        still_whole: "still whole",
        unit,
        at_risk: "at risk",
        per_cent: &|number| format!("{number} %"),
        described: described(groups, unit),
    };
    drawn(groups, &words, WIDTH)
}

/// The same for half a page's width: less wide, so that its words are larger there.
pub fn narrow_curves_svg(groups: &[GroupCurve], words: &PlotWords) -> String {
    drawn(groups, words, NARROW)
}

fn drawn(groups: &[GroupCurve], words: &PlotWords, width: f64) -> String {
    let last = groups.iter().filter_map(|group| group.times.last()).fold(0.0, |a: f64, b| a.max(*b));
    let step = nice_step(last.max(1e-9) / if width < WIDTH { 4.0 } else { 6.0 });
    let end = (last / step).ceil().max(1.0) * step;
    let bottom = if width < WIDTH { NARROW_BOTTOM } else { BOTTOM };
    let plane = Plane { end, right: width - MARGIN, bottom };
    let rows = groups.len() as f64;
    let height = bottom + 18.0 + ROW * rows + 3.0;
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height:.1}mm\" viewBox=\"0 0 {width} {height:.1}\" \
         font-family=\"Noto Sans, Noto Sans Arabic, sans-serif\" font-size=\"{SIZE}\" direction=\"ltr\" role=\"img\">\n<title>{}</title>\n\
         <rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n",
        escaped(&words.described)
    );
    axes(&mut svg, &plane, step, words);
    let shown = groups.iter().filter(|group| group.n > 0);
    if shown.clone().count() <= BANDS_MAX {
        shown.clone().for_each(|group| band(&mut svg, &plane, group));
    }
    for (at, group) in groups.iter().enumerate() {
        curve(&mut svg, &plane, group, at);
    }
    at_risk(&mut svg, &plane, groups, step, words.at_risk);
    svg.push_str("</svg>\n");
    svg
}

struct Plane {
    end: f64,
    /// Where the axis of durations ends, and where it lies.
    right: f64,
    bottom: f64,
}

impl Plane {
    fn x(&self, time: f64) -> f64 {
        LEFT + (self.right - LEFT) * time / self.end
    }

    fn y(&self, survival: f64) -> f64 {
        self.bottom - (self.bottom - TOP) * survival
    }
}

fn axes(svg: &mut String, plane: &Plane, step: f64, words: &PlotWords) {
    for tenth in (0..=10_u32).step_by(2) {
        let y = plane.y(f64::from(tenth) / 10.0);
        line(svg, (LEFT, y), (plane.right, y), "stroke=\"#ddd\" stroke-width=\"0.2\"");
        text(svg, (LEFT - 1.5, y + 1.1), "end", &(words.per_cent)(tenth * 10));
    }
    for mark in marks(plane.end, step) {
        let x = plane.x(mark);
        line(svg, (x, plane.bottom), (x, plane.bottom + 1.2), "stroke=\"#000\" stroke-width=\"0.3\"");
        text(svg, (x, plane.bottom + 5.0), "middle", &plain(mark));
    }
    let _ = writeln!(
        svg,
        "<path d=\"M{LEFT} {TOP}V{}H{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.3\"/>",
        plane.bottom, plane.right
    );
    text(svg, (LEFT - 10.0, TOP - 4.0), "start", words.still_whole);
    text(svg, (plane.right, plane.bottom + 9.5), "end", words.unit);
}

fn band(svg: &mut String, plane: &Plane, group: &GroupCurve) {
    let upper = steps(plane, group, &group.upper);
    let mut outline: Vec<(f64, f64)> = upper;
    outline.extend(steps(plane, group, &group.lower).into_iter().rev());
    let _ = writeln!(svg, "<path d=\"{}Z\" fill=\"#000\" fill-opacity=\"0.08\"/>", path(&outline));
}

fn curve(svg: &mut String, plane: &Plane, group: &GroupCurve, at: usize) {
    if group.n == 0 {
        return;
    }
    let _ =
        writeln!(svg, "<path d=\"{}\" fill=\"none\" {}/>", path(&steps(plane, group, &group.survival)), pattern(at));
    // small strokes where lives were last seen whole
    let before = survival_before(group);
    let ends = group.times.iter().zip(&group.survival).zip(&before);
    let censored =
        ends.filter(|((_, now), before)| now == before).map(|((time, now), _)| (plane.x(*time), plane.y(*now)));
    let mut ticks = String::new();
    let mut last = f64::NEG_INFINITY;
    for (x, y) in censored.skip(1).filter(|(x, _)| *x > LEFT) {
        if x - last >= 0.8 {
            let _ = write!(ticks, "M{x:.2} {:.2}v1.6", y - 0.8);
            last = x;
        }
    }
    if !ticks.is_empty() {
        let _ = writeln!(svg, "<path d=\"{ticks}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.2\"/>");
    }
}

/// The table below: sample of the line, name, how many are at risk at each mark.
fn at_risk(svg: &mut String, plane: &Plane, groups: &[GroupCurve], step: f64, words: &str) {
    let top = plane.bottom + 14.5;
    text(svg, (1.0, top - 1.0), "start", words);
    for (at, group) in groups.iter().enumerate() {
        let y = top + ROW * (at + 1) as f64 - 1.0;
        line(svg, (1.0, y - 1.1), (9.0, y - 1.1), &pattern(at));
        let name: String = group.name.chars().take(NAME_MAX).collect();
        let name = if group.name.chars().count() > NAME_MAX { format!("{name}…") } else { name };
        text(svg, (10.5, y), "start", &name);
        for mark in marks(plane.end, step) {
            text(svg, (plane.x(mark), y), "middle", &at_risk_at(group, mark).to_string());
        }
    }
}

/// How many were at risk just before a duration.
fn at_risk_at(group: &GroupCurve, time: f64) -> u64 {
    let next = group.times.partition_point(|known| *known < time);
    group.at_risk.get(next).copied().unwrap_or(0)
}

fn survival_before(group: &GroupCurve) -> Vec<f64> {
    std::iter::once(1.0).chain(group.survival.iter().copied()).take(group.survival.len()).collect()
}

fn steps(plane: &Plane, group: &GroupCurve, heights: &[f64]) -> Vec<(f64, f64)> {
    let mut points: Vec<(f64, f64)> = Vec::new();
    for (time, height) in group.times.iter().zip(heights) {
        let (x, y) = (plane.x(*time), plane.y(*height));
        if let Some((_, before)) = points.last().copied() {
            // thousands of steps in one place are one
            if points.len() > 2 && (x - points[points.len() - 1].0).abs() < 0.02 {
                points.pop();
                points.push((x, y));
                continue;
            }
            points.push((x, before));
        }
        points.push((x, y));
    }
    points
}

fn path(points: &[(f64, f64)]) -> String {
    let mut text = String::new();
    for (at, (x, y)) in points.iter().enumerate() {
        let _ = write!(text, "{}{x:.2} {y:.2}", if at == 0 { "M" } else { "L" });
    }
    text
}

fn pattern(at: usize) -> String {
    let (dashes, grey) = PATTERNS[at % PATTERNS.len()];
    let width = if at < PATTERNS.len() { 0.6 } else { 0.3 };
    let dashes = if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dashes}\"") };
    format!("stroke=\"{grey}\" stroke-width=\"{width}\"{dashes}")
}

fn line(svg: &mut String, from: (f64, f64), to: (f64, f64), style: &str) {
    let _ = writeln!(svg, "<path d=\"M{:.2} {:.2}L{:.2} {:.2}\" fill=\"none\" {style}/>", from.0, from.1, to.0, to.1);
}

fn text(svg: &mut String, at: (f64, f64), anchor: &str, words: &str) {
    let _ =
        writeln!(svg, "<text x=\"{:.2}\" y=\"{:.2}\" text-anchor=\"{anchor}\">{}</text>", at.0, at.1, escaped(words));
}

fn marks(end: f64, step: f64) -> impl Iterator<Item = f64> {
    let count = (end / step).round() as usize;
    (0..=count).map(move |mark| mark as f64 * step)
}

/// The least of 1, 2, 5 times a power of ten that is not less.
fn nice_step(least: f64) -> f64 {
    let power = 10f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|times| times * power).find(|step| *step >= least * 0.999).unwrap_or(power)
}

fn plain(number: f64) -> String {
    format!("{}", (number * 1e6).round() / 1e6)
}

fn described(groups: &[GroupCurve], unit: &str) -> String {
    let each = groups.iter().map(|group| {
        let median = group.median.map_or("not reached".to_owned(), |median| format!("{} {unit}", plain(median)));
        format!("{}: {} lives, {} failures, half outlast {median}", group.name, group.n, group.failures)
    });
    format!("Part of repairs still whole against {unit}. {}", each.collect::<Vec<String>>().join("; "))
}

fn escaped(words: &str) -> String {
    words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
