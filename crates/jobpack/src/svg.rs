//! A small SVG writer: millimetres, black on white, text escaped.

use std::fmt::Write;

use crate::fonts;
use crate::printable::printable;
use words::direction::{alone, is_right_to_left};

/// Stroke weights in millimetres, named by what they are for.
pub mod weight {
    /// Dimension and leader lines.
    pub const FINE: f64 = 0.18;
    /// Outlines of things.
    pub const LINE: f64 = 0.35;
    /// What matters most in the drawing.
    pub const BOLD: f64 = 0.7;
}

/// Where a text hangs on its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// The text starts there.
    Start,
    /// The text is centred there.
    Middle,
    /// The text ends there.
    End,
}

/// How a text is set.
#[derive(Debug, Clone, Copy)]
pub struct Type {
    /// Height of the type, millimetres.
    pub size: f64,
    /// Bold.
    pub bold: bool,
    /// Where it hangs.
    pub anchor: Anchor,
    /// Turned by degrees, clockwise.
    pub turn: f64,
    /// A white rim, so that it reads across lines.
    pub rim: bool,
}

impl Type {
    /// Plain type of that height, starting at its point.
    pub const fn plain(size: f64) -> Self {
        Type { size, bold: false, anchor: Anchor::Start, turn: 0.0, rim: false }
    }

    /// Centred.
    pub const fn middle(self) -> Self {
        Type { anchor: Anchor::Middle, ..self }
    }

    /// Ending at its point.
    pub const fn end(self) -> Self {
        Type { anchor: Anchor::End, ..self }
    }

    /// Bold.
    pub const fn bold(self) -> Self {
        Type { bold: true, ..self }
    }

    /// With a white rim.
    pub const fn rim(self) -> Self {
        Type { rim: true, ..self }
    }

    /// Turned.
    pub const fn turned(self, degrees: f64) -> Self {
        Type { turn: degrees, ..self }
    }

    /// How wide a text is when set so.
    pub fn width(self, text: &str) -> f64 {
        printable(text).chars().map(|c| fonts::advance(c, self.bold)).sum::<f64>() * self.size
    }

    /// What a text at a point covers, from the foot of a `g` to the top of an `l`.
    pub fn area(self, at: (f64, f64), text: &str) -> Area {
        let width = self.width(text);
        let left = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -width / 2.0,
            Anchor::End => -width,
        };
        let (sin, cos) = self.turn.to_radians().sin_cos();
        let (top, bottom) = (-0.74 * self.size, 0.22 * self.size);
        let corners = [(left, top), (left + width, top), (left + width, bottom), (left, bottom)]
            .map(|(x, y)| (at.0 + x * cos - y * sin, at.1 + x * sin + y * cos));
        Area::around(&corners)
    }
}

/// A rectangle on paper, millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left and right edge.
    pub x: (f64, f64),
    /// Upper and lower edge.
    pub y: (f64, f64),
}

impl Area {
    /// The least one around points.
    pub fn around(points: &[(f64, f64)]) -> Self {
        let fold = |get: fn(&(f64, f64)) -> f64| {
            let low = points.iter().map(get).fold(f64::INFINITY, f64::min);
            let high = points.iter().map(get).fold(f64::NEG_INFINITY, f64::max);
            (low, high)
        };
        Area { x: fold(|p| p.0), y: fold(|p| p.1) }
    }

    /// Whether two have more in common than an edge.
    pub fn meets(&self, other: &Area) -> bool {
        let apart = |a: (f64, f64), b: (f64, f64)| a.1 <= b.0 + 1e-6 || b.1 <= a.0 + 1e-6;
        !apart(self.x, other.x) && !apart(self.y, other.y)
    }

    /// Larger on every side.
    pub fn grown(self, by: f64) -> Self {
        Area { x: (self.x.0 - by, self.x.1 + by), y: (self.y.0 - by, self.y.1 + by) }
    }
}

/// A drawing under way. Coordinates are millimetres on paper, y down.
#[derive(Debug)]
pub struct Drawing {
    body: String,
    width: f64,
    height: f64,
    texts: Vec<Area>,
    marks: Vec<Area>,
}

impl Drawing {
    /// An empty drawing of that size.
    pub fn new(width: f64, height: f64) -> Self {
        Drawing { body: String::new(), width, height, texts: Vec::new(), marks: Vec::new() }
    }

    /// What texts cover, and what marks were kept a place.
    #[cfg(test)]
    pub fn taken(&self) -> (&[Area], &[Area]) {
        (&self.texts, &self.marks)
    }

    /// Keeps a place for a mark, so that no text is written where [`Drawing::is_free`] is asked first.
    pub fn take(&mut self, area: Area) {
        self.marks.push(area);
    }

    /// Whether nothing that was written or kept lies there.
    pub fn is_free(&self, area: &Area) -> bool {
        self.texts.iter().chain(&self.marks).all(|taken| !taken.meets(area))
    }

    /// The finished SVG document.
    pub fn finish(self) -> String {
        self.document("", "")
    }

    /// The finished SVG document on white ground, so that it reads on any page, with a title and a description for those
    /// who hear it.
    pub fn finish_with(self, title: &str, description: &str) -> String {
        let (w, h) = (number(self.width), number(self.height));
        let (title, description) = (escape(&printable(title)), escape(&printable(description)));
        let head = format!(
            "<title>{title}</title>\n<desc>{description}</desc>\n<rect width=\"{w}\" height=\"{h}\" fill=\"#fff\"/>\n"
        );
        self.document(" role=\"img\"", &head)
    }

    fn document(self, attributes: &str, head: &str) -> String {
        let (w, h) = (number(self.width), number(self.height));
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" \
             font-family=\"Noto Sans, sans-serif\" fill=\"none\" stroke-linecap=\"round\" \
             stroke-linejoin=\"round\"{attributes}>\n{head}{}</svg>\n",
            self.body
        )
    }

    /// How high it is.
    #[cfg(test)]
    pub fn height(&self) -> f64 {
        self.height
    }

    /// Makes it as high as it turned out.
    pub fn set_height(&mut self, height: f64) {
        self.height = height;
    }

    /// How wide it is.
    pub fn width(&self) -> f64 {
        self.width
    }

    /// Another drawing inside this one, its upper left corner at a point.
    pub fn place(&mut self, inner: &Drawing, at: (f64, f64)) {
        self.element(&format!("<g transform=\"translate({} {})\">\n{}</g>", number(at.0), number(at.1), inner.body));
        let moved = |a: &Area| Area { x: (a.x.0 + at.0, a.x.1 + at.0), y: (a.y.0 + at.1, a.y.1 + at.1) };
        self.texts.extend(inner.texts.iter().map(moved));
        self.marks.extend(inner.marks.iter().map(moved));
        self.width = self.width.max(at.0 + inner.width);
        self.height = self.height.max(at.1 + inner.height);
    }

    /// A straight line.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), style: &str) {
        self.element(&format!(
            "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" {style}/>",
            number(from.0),
            number(from.1),
            number(to.0),
            number(to.1)
        ));
    }

    /// A line through points; `closed` joins the last to the first.
    pub fn path(&mut self, points: &[(f64, f64)], closed: bool, style: &str) {
        if points.len() < 2 {
            return;
        }
        let mut data = String::new();
        for (index, (x, y)) in points.iter().enumerate() {
            let _ = write!(data, "{}{} {}", if index == 0 { "M" } else { "L" }, number(*x), number(*y));
        }
        if closed {
            data.push('Z');
        }
        self.element(&format!("<path d=\"{data}\" {style}/>"));
    }

    /// A rectangle.
    pub fn rect(&mut self, corner: (f64, f64), size: (f64, f64), style: &str) {
        self.element(&format!(
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" {style}/>",
            number(corner.0),
            number(corner.1),
            number(size.0.max(0.0)),
            number(size.1.max(0.0))
        ));
    }

    /// A circle.
    pub fn circle(&mut self, centre: (f64, f64), radius: f64, style: &str) {
        self.element(&format!(
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" {style}/>",
            number(centre.0),
            number(centre.1),
            number(radius)
        ));
    }

    /// A text; its point is on the base line.
    pub fn text(&mut self, at: (f64, f64), text: &str, how: Type) {
        if text.is_empty() {
            return;
        }
        self.texts.push(how.area(at, text));
        let printed = printable(text);
        let pieces = if printed.contains(is_right_to_left) { pieces(&printed) } else { Vec::new() };
        if pieces.len() < 2 {
            self.piece(at, at, text, how);
            return;
        }
        let (width, space) = (how.width(text), how.width(" "));
        let mut x = at.0
            - match how.anchor {
                Anchor::Start => 0.0,
                Anchor::Middle => width / 2.0,
                Anchor::End => width,
            };
        for piece in pieces {
            self.piece((x, at.1), at, &piece, Type { anchor: Anchor::Start, ..how });
            x += how.width(&piece) + space;
        }
    }

    /// A text in one type, turned around a point.
    fn piece(&mut self, at: (f64, f64), around: (f64, f64), text: &str, how: Type) {
        let anchor = match how.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let weight = if how.bold { " font-weight=\"700\"" } else { "" };
        let turn = if how.turn == 0.0 {
            String::new()
        } else {
            format!(" transform=\"rotate({} {} {})\"", number(how.turn), number(around.0), number(around.1))
        };
        let shared = format!(
            "x=\"{}\" y=\"{}\" font-size=\"{}\" text-anchor=\"{anchor}\"{weight}{turn}",
            number(at.0),
            number(at.1),
            number(how.size)
        );
        let text = escape(&alone(&printable(text)));
        if how.rim {
            self.element(&format!(
                "<text {shared} fill=\"#fff\" stroke=\"#fff\" stroke-width=\"{}\" aria-hidden=\"true\">{text}</text>",
                number(how.size * 0.3)
            ));
        }
        self.element(&format!("<text {shared} fill=\"#000\">{text}</text>"));
    }

    /// Parallel strokes at 45 degrees inside a closed shape with corners in order (convex).
    pub fn hatch(&mut self, corners: &[(f64, f64)], gap: f64, style: &str) {
        let along = |p: &(f64, f64)| p.0 + p.1;
        let low = corners.iter().map(along).fold(f64::INFINITY, f64::min);
        let high = corners.iter().map(along).fold(f64::NEG_INFINITY, f64::max);
        if !(low.is_finite() && high.is_finite()) || gap <= 0.0 {
            return;
        }
        let count = ((high - low) / gap).floor().min(400.0) as usize;
        for step in 1..=count {
            let level = low + gap * step as f64;
            let mut hits: Vec<(f64, f64)> = Vec::new();
            for (index, a) in corners.iter().enumerate() {
                let b = &corners[(index + 1) % corners.len()];
                let (da, db) = (along(a) - level, along(b) - level);
                if (da <= 0.0) != (db <= 0.0) {
                    let t = da / (da - db);
                    hits.push((a.0 + t * (b.0 - a.0), a.1 + t * (b.1 - a.1)));
                }
            }
            if let [first, second, ..] = hits[..] {
                self.line(first, second, style);
            }
        }
    }

    /// A filled arrow head with its tip at a point, looking along `direction` (any length).
    pub fn arrow_head(&mut self, tip: (f64, f64), direction: (f64, f64), length: f64) {
        let size = direction.0.hypot(direction.1);
        if size == 0.0 {
            return;
        }
        let (ux, uy) = (direction.0 / size, direction.1 / size);
        let (bx, by) = (tip.0 - ux * length, tip.1 - uy * length);
        let half = length * 0.38;
        self.path(&[tip, (bx - uy * half, by + ux * half), (bx + uy * half, by - ux * half)], true, "fill=\"#000\"");
    }

    /// A dimension line between two points with heads at both ends and the text at its middle, above the line.
    pub fn dimension(&mut self, from: (f64, f64), to: (f64, f64), text: &str, size: f64) {
        let style = stroke(weight::FINE);
        self.line(from, to, &style);
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = dx.hypot(dy);
        let head = 1.5_f64.min(length * 0.3);
        self.arrow_head(to, (dx, dy), head);
        self.arrow_head(from, (-dx, -dy), head);
        // Text stands so that it reads from below or from the right.
        let mut angle = dy.atan2(dx).to_degrees();
        if angle > 89.9 {
            angle -= 180.0;
        } else if angle < -90.1 {
            angle += 180.0;
        }
        let (sin, cos) = angle.to_radians().sin_cos();
        let lift = size * 0.32;
        let middle = (f64::midpoint(from.0, to.0) + sin * lift, f64::midpoint(from.1, to.1) - cos * lift);
        self.text(middle, text, Type::plain(size).middle().rim().turned(if angle.abs() < 0.01 { 0.0 } else { angle }));
    }

    fn element(&mut self, text: &str) {
        self.body.push_str(text);
        self.body.push('\n');
    }
}

/// A black stroke of that weight.
pub fn stroke(width: f64) -> String {
    format!("stroke=\"#000\" stroke-width=\"{}\"", number(width))
}

/// A black stroke of that weight with a dash pattern.
pub fn dashed(width: f64, pattern: &str) -> String {
    format!("stroke=\"#000\" stroke-width=\"{}\" stroke-dasharray=\"{pattern}\"", number(width))
}

/// A safe guess of a text's width, for drawings that keep their labels well apart; [`Type::width`] measures.
pub fn text_width(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * size * 0.56
}

/// Breaks a text into at most `lines` lines of about `width` millimetres; what does not fit ends in an ellipsis.
pub fn wrap(text: &str, size: f64, width: f64, lines: usize) -> Vec<String> {
    let mut done: Vec<String> = vec![String::new()];
    for word in printable(text).split_whitespace() {
        let word = clip(word, size, width);
        let full = done.len() >= lines;
        let last = done.last_mut().expect("starts with one line");
        if last.is_empty() {
            last.push_str(&word);
        } else if Type::plain(size).width(&format!("{last} {word}")) <= width {
            last.push(' ');
            last.push_str(&word);
        } else if full {
            *last = clip(&format!("{last} {word}"), size, width);
            break;
        } else {
            done.push(word);
        }
    }
    done
}

/// Shortens a text to a width, with an ellipsis.
pub fn clip(text: &str, size: f64, width: f64) -> String {
    let how = Type::plain(size);
    let text = printable(text);
    if how.width(&text) <= width {
        return text.into_owned();
    }
    let mut kept = String::new();
    for c in text.chars() {
        kept.push(c);
        if how.width(&kept) + how.width("…") > width {
            kept.pop();
            break;
        }
    }
    kept + "…"
}

/// A text with Arabic letters and others in pieces of one type each, from left to right: what draws the drawings on paper
/// looks for one type that has all letters of a text.
fn pieces(text: &str) -> Vec<String> {
    let is_arabic = |word: &str| word.chars().all(|c| is_right_to_left(c) || fonts::arabic_covers(c));
    let mut pieces: Vec<(bool, String)> = Vec::new();
    for word in text.split(' ') {
        let arabic = is_arabic(word);
        match pieces.last_mut() {
            Some((last, piece)) if *last == arabic => {
                piece.push(' ');
                piece.push_str(word);
            }
            _ => pieces.push((arabic, word.to_owned())),
        }
    }
    let begins_arabic = text.chars().find(|c| c.is_alphabetic()).is_some_and(is_right_to_left);
    let mut pieces: Vec<String> = pieces.into_iter().map(|(_, piece)| piece).collect();
    if begins_arabic {
        pieces.reverse();
    }
    pieces
}

fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '&' => out.push_str("&amp;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    out
}

fn number(value: f64) -> String {
    if !value.is_finite() {
        return "0".into();
    }
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".into() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hostile_text_stays_text() {
        let mut drawing = Drawing::new(10.0, 10.0);
        drawing.text((1.0, 1.0), "</text><script>\"&'\u{0}", Type::plain(2.0));
        let svg = drawing.finish();
        assert!(!svg.contains("<script"));
        assert!(svg.contains("&lt;/text&gt;&lt;script&gt;&quot;&amp;&#39;"));
        assert!(!svg.contains('\u{0}') && svg.contains("&lt;U+0000&gt;"));
    }

    #[test]
    fn wrapped_text_keeps_to_its_lines() {
        let lines = wrap("ONE LANE ROAD AHEAD AND A VERY LONG TAIL", 2.0, 16.0, 2);
        assert_eq!(lines.len(), 2);
        assert!(lines[1].ends_with('…'));
        assert!(lines.iter().all(|l| Type::plain(2.0).width(l) <= 16.0 + 1e-9));
    }

    #[test]
    fn a_square_is_hatched_inside_only() {
        let mut drawing = Drawing::new(10.0, 10.0);
        drawing.hatch(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)], 1.0, "");
        // x + y runs from 0 to 8; at 8 only a corner is touched.
        assert_eq!(drawing.finish().matches("<line").count(), 7);
    }
}
