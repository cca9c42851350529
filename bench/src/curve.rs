//! Curves over a common axis, both axes by powers of ten, as SVG: one picture above the other.

use std::fmt::Write as _;

pub struct Curve {
    pub name: &'static str,
    /// A line across that is not to be passed.
    pub bar: Option<(&'static str, f64)>,
    pub points: Vec<(f64, f64)>,
}

const WIDTH: f64 = 560.0;
const HEIGHT: f64 = 230.0;
const LEFT: f64 = 70.0;
const RIGHT: f64 = 30.0;
const TOP: f64 = 34.0;
const BOTTOM: f64 = 46.0;

/// The whole powers of ten around the values.
fn decades(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let (least, most) = values.map(f64::log10).fold((f64::MAX, f64::MIN), |(a, b), value| (a.min(value), b.max(value)));
    let (least, most) = ((least + 1e-9).floor(), (most - 1e-9).ceil());
    (least, most.max(least + 1.0))
}

pub fn draw(across: &str, curves: &[Curve]) -> String {
    let all = HEIGHT * curves.len() as f64;
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {all}\" width=\"{WIDTH}\" height=\"{all}\" \
         font-family=\"sans-serif\" font-size=\"12\" fill=\"#222\">\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n"
    );
    for (index, curve) in curves.iter().enumerate() {
        let _ = writeln!(svg, "<g transform=\"translate(0 {})\">", HEIGHT * index as f64);
        picture(&mut svg, across, curve);
        svg.push_str("</g>\n");
    }
    svg.push_str("</svg>\n");
    svg
}

fn picture(svg: &mut String, across: &str, curve: &Curve) {
    let (from_x, to_x) = decades(curve.points.iter().map(|point| point.0));
    let bar = curve.bar.iter().map(|bar| bar.1);
    let (from_y, to_y) = decades(curve.points.iter().map(|point| point.1).chain(bar));
    let x = |value: f64| LEFT + (value.log10() - from_x) / (to_x - from_x) * (WIDTH - LEFT - RIGHT);
    let y = |value: f64| HEIGHT - BOTTOM - (value.log10() - from_y) / (to_y - from_y) * (HEIGHT - TOP - BOTTOM);
    let (right, low) = (WIDTH - RIGHT, HEIGHT - BOTTOM);
    for power in from_x as i32..=to_x as i32 {
        let at = x(10_f64.powi(power));
        let _ = writeln!(svg, "<path d=\"M{at:.1} {TOP}V{low}\" stroke=\"#ddd\"/>");
        let _ =
            writeln!(svg, "<text x=\"{at:.1}\" y=\"{}\" text-anchor=\"middle\">{}</text>", low + 17.0, grouped(power));
    }
    for power in from_y as i32..=to_y as i32 {
        let at = y(10_f64.powi(power));
        let _ = writeln!(svg, "<path d=\"M{LEFT} {at:.1}H{right}\" stroke=\"#ddd\"/>");
        let _ = writeln!(
            svg,
            "<text x=\"{}\" y=\"{:.1}\" text-anchor=\"end\">{}</text>",
            LEFT - 8.0,
            at + 4.0,
            grouped(power)
        );
    }
    if let Some((name, value)) = curve.bar {
        let at = y(value);
        let _ = writeln!(svg, "<path d=\"M{LEFT} {at:.1}H{right}\" stroke=\"#b03020\" stroke-dasharray=\"6 4\"/>");
        let _ = writeln!(svg, "<text x=\"{}\" y=\"{:.1}\" fill=\"#b03020\">{name}</text>", LEFT + 6.0, at - 5.0);
    }
    let line: Vec<String> = curve.points.iter().map(|point| format!("{:.1},{:.1}", x(point.0), y(point.1))).collect();
    let _ =
        writeln!(svg, "<polyline points=\"{}\" fill=\"none\" stroke=\"#1f5fa8\" stroke-width=\"2\"/>", line.join(" "));
    for point in &curve.points {
        let (at_x, at_y) = (x(point.0), y(point.1));
        let label = if point.1 < 10.0 { format!("{:.1}", point.1) } else { format!("{:.0}", point.1) };
        let _ = writeln!(svg, "<circle cx=\"{at_x:.1}\" cy=\"{at_y:.1}\" r=\"3.5\" fill=\"#1f5fa8\"/>");
        let _ = writeln!(svg, "<text x=\"{at_x:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{label}</text>", at_y - 9.0);
    }
    let _ = writeln!(svg, "<text x=\"{LEFT}\" y=\"18\" font-weight=\"bold\">{}</text>", curve.name);
    let _ = writeln!(svg, "<text x=\"{right}\" y=\"{}\" text-anchor=\"end\">{across}</text>", low + 36.0);
}

/// 10 to that power, thousands apart.
fn grouped(power: i32) -> String {
    if power < 0 {
        return 10_f64.powi(power).to_string();
    }
    let digits = format!("1{}", "0".repeat(power as usize));
    let mut text = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index) % 3 == 0 {
            text.push(',');
        }
        text.push(digit);
    }
    text
}
