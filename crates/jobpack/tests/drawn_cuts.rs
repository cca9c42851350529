//! The plan of a cut as drawn: every label can be read.

mod fixture;

use geo::{Coord, Intersects, LineString, Polygon};
use model::cut_out::CutOut;
use model::district::UnitSystem;
use model::place::FramePoint;
use model::quantity::metres;

/// Forms of 4, 6 and 8 corners, along and across in metres: with long sides, short sides and narrow notches.
fn forms() -> Vec<Vec<(f64, f64)>> {
    let rectangle = |l: f64, w: f64| vec![(0.0, 0.0), (l, 0.0), (l, w), (0.0, w)];
    let notched = |l: f64, w: f64, dl: f64, dw: f64| {
        vec![(0.0, 0.0), (l, 0.0), (l, w - dw), (l - dl, w - dw), (l - dl, w), (0.0, w)]
    };
    let stem = |l: f64, w: f64, from: f64, to: f64, dw: f64| {
        vec![(0.0, 0.0), (l, 0.0), (l, w - dw), (to, w - dw), (to, w), (from, w), (from, w - dw), (0.0, w - dw)]
    };
    let stairs = |s: f64| {
        vec![
            (0.0, 0.0),
            (3.0 * s, 0.0),
            (3.0 * s, s),
            (2.0 * s, s),
            (2.0 * s, 2.0 * s),
            (s, 2.0 * s),
            (s, 3.0 * s),
            (0.0, 3.0 * s),
        ]
    };
    let notch_in_side = |l: f64, w: f64, from: f64, to: f64, dw: f64| {
        vec![(0.0, 0.0), (l, 0.0), (l, w), (to, w), (to, w - dw), (from, w - dw), (from, w), (0.0, w)]
    };
    vec![
        rectangle(1.2, 0.9),
        rectangle(0.4, 0.4),
        rectangle(9.0, 0.6),
        rectangle(3.0, 3.0),
        notched(2.2, 1.4, 1.45, 0.65),
        notched(2.0, 1.0, 0.2, 0.2),
        notched(6.0, 2.5, 0.3, 2.0),
        notched(0.8, 0.7, 0.4, 0.3),
        stem(3.0, 1.6, 1.2, 2.0, 0.6),
        stem(5.0, 2.0, 0.3, 0.7, 0.2),
        stem(1.0, 0.9, 0.3, 0.6, 0.3),
        stairs(0.3),
        stairs(1.0),
        notch_in_side(3.0, 1.2, 1.0, 1.6, 0.5),
        notch_in_side(6.0, 0.9, 0.3, 0.6, 0.3),
    ]
}

fn cut(form: &[(f64, f64)], angle_deg: f64) -> CutOut {
    let (sin, cos) = angle_deg.to_radians().sin_cos();
    let corners: Vec<FramePoint> = form
        .iter()
        .map(|(x, y)| FramePoint { along_m: 400.0 + x * cos - y * sin, across_m: 1.5 + x * sin + y * cos })
        .collect();
    let mut cut = fixture::plan().jobs[0].cut.clone();
    cut.outlines.clear();
    cut.corners = corners;
    cut
}

/// A text of a drawing.
struct Label {
    words: String,
    /// What it covers on paper.
    place: Polygon,
}

fn attribute<'a>(element: &'a str, name: &str) -> Option<&'a str> {
    element.split(&format!(" {name}=\"")).nth(1)?.split('"').next()
}

/// Every text, its white rim left out.
fn labels(svg: &str) -> Vec<Label> {
    let texts = svg.lines().filter(|line| line.starts_with("<text") && !line.contains("aria-hidden"));
    texts.map(label).filter(|label| !label.words.is_empty()).collect()
}

fn label(element: &str) -> Label {
    let number = |name: &str| -> f64 { attribute(element, name).expect(name).parse().expect("a number") };
    let (x, y, size) = (number("x"), number("y"), number("font-size"));
    let words = element.split('>').nth(1).and_then(|rest| rest.split('<').next()).expect("words").to_owned();
    // Figures and lower-case letters of the type are about 0.56 of its height wide, figures 0.72 high.
    let width = words.chars().count() as f64 * size * 0.56;
    let left = match attribute(element, "text-anchor") {
        Some("middle") => -width / 2.0,
        Some("end") => -width,
        _ => 0.0,
    };
    let turn = attribute(element, "transform").map_or(0.0, |text| {
        let inside = text.trim_start_matches("rotate(").split(' ').next().expect("an angle");
        inside.parse::<f64>().expect("an angle")
    });
    let (sin, cos) = turn.to_radians().sin_cos();
    let at = |(u, v): (f64, f64)| (x + u * cos - v * sin, y + u * sin + v * cos);
    let high = -0.72 * size;
    let ring = [(left, 0.0), (left + width, 0.0), (left + width, high), (left, high)].map(at);
    Label { words, place: Polygon::new(LineString::from(ring.to_vec()), Vec::new()) }
}

#[test]
fn labels_of_a_cut_do_not_overlap_and_all_are_on_the_paper() {
    let mut seen = 0;
    let mut wrong = Vec::new();
    for form in forms() {
        for angle_deg in [0.0, 12.0, 45.0, 67.0, 90.0, -30.0, -80.0] {
            for units in [UnitSystem::Si, UnitSystem::UsCustomary] {
                let svg = jobpack::cut_svg(&cut(&form, angle_deg), units, words::Words::default(), None);
                let labels = labels(&svg);
                let mut say = |words: String| wrong.push(format!("{form:?} at {angle_deg}, {units:?}: {words}"));
                for (index, one) in labels.iter().enumerate() {
                    for other in labels[..index].iter().filter(|other| one.place.intersects(&other.place)) {
                        say(format!("`{}` on `{}`", one.words, other.words));
                    }
                    let is_on_paper = |at: &Coord| (0.0..=88.0).contains(&at.x) && (0.0..=61.0).contains(&at.y);
                    let is_all = one.place.exterior().coords().all(is_on_paper);
                    assert!(is_all, "{form:?} at {angle_deg}: `{}` is off the paper", one.words);
                }
                seen += labels.len();
            }
        }
    }
    assert!(seen > 1500, "{seen} labels");
    assert!(!wrong.iter().any(|words| words.contains(", Si: ")), "{}", wrong.join("\n"));
    // Feet and inches are long words: around a cut of 8 corners turned far there may be no row left for one.
    assert!(wrong.len() <= 3, "{} of {seen}:\n{}", wrong.len(), wrong.join("\n"));
}

/// Every side is dimensioned once, in words as the crew reads them.
#[test]
fn a_notched_cut_shows_each_of_its_sides() {
    let svg = jobpack::cut_svg(
        &cut(&forms()[4], 0.0),
        UnitSystem::Si,
        words::Words::default(),
        Some((metres(-3.2), metres(3.2))),
    );
    let mut words: Vec<String> = labels(&svg).into_iter().map(|label| label.words).collect();
    // Two decimals; the scale bar has one or none.
    words.retain(|words| words.split('.').nth(1).is_some_and(|rest| rest.len() == 4 && rest.ends_with(" m")));
    words.sort();
    assert_eq!(words, ["0.65 m", "0.75 m", "0.75 m", "1.40 m", "1.45 m", "2.20 m"]);
}
