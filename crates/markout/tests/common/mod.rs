//! What the tests share: the shipped rules, rings, and plain geometry written independently of the crate.
#![allow(dead_code)] // each test file uses its own part

use geo::{ConvexHull, Covers, LineString, MultiPoint, Polygon};
use markout::Pavement;
use model::cut_out::{CutOut, FrameOutline};
use model::hole::HoleId;
use model::place::FramePoint;
use model::quantity::{InArea, InLength};
use model::rules::markout::MarkOutRules;

/// The shipped rule file.
pub fn shipped_rules() -> MarkOutRules {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../rules/markout/common-practice.toml");
    toml::from_str(&std::fs::read_to_string(path).expect("rule file")).expect("rule file has its shape")
}

/// Rules that leave the bare least rectangle: four corners, no margin, no least side, no price, no preference for square
/// cuts.
pub fn bare_rules() -> MarkOutRules {
    let mut rules = shipped_rules();
    rules.margin_m.value = 0.0;
    rules.smallest_side_m.value = 0.0;
    rules.square_tolerance.value = 0.0;
    rules.most_corners.value = 4;
    rules.far_limit_m.value = 10.0;
    rules.edge_price_m2_per_m.value = 0.0;
    rules
}

/// The shipped rules without far limit, tolerance for square cuts, and least sides: cost alone decides.
pub fn cost_rules() -> MarkOutRules {
    let mut rules = shipped_rules();
    rules.far_limit_m.value = 10.0;
    rules.square_tolerance.value = 0.0;
    rules
}

/// So wide and long that no edge is near.
pub const OPEN: Pavement =
    Pavement { across_min_m: -1e5, across_max_m: 1e5, along_min_m: -1e5, along_max_m: 1e5, wheel_paths: Vec::new() };

/// Two lanes of a country road, 1 km.
pub const ROAD: Pavement =
    Pavement { across_min_m: -3.0, across_max_m: 3.0, along_min_m: 0.0, along_max_m: 1000.0, wheel_paths: Vec::new() };

pub fn hole(id: &str, ring: &[(f64, f64)]) -> FrameOutline {
    let ring = ring.iter().map(|&(along_m, across_m)| FramePoint { along_m, across_m }).collect();
    FrameOutline { hole: HoleId(id.to_owned()), ring }
}

pub fn one(ring: &[(f64, f64)], pavement: &Pavement, rules: &MarkOutRules) -> CutOut {
    let mut cuts = markout::mark_out(&[hole("H", ring)], pavement, rules).expect("a sane outline");
    assert_eq!(cuts.len(), 1);
    cuts.remove(0)
}

pub fn area(cut: &CutOut) -> f64 {
    cut.area.value.in_square_metres()
}

/// Area inside a simple ring, by the shoelace formula.
pub fn shoelace(ring: &[(f64, f64)]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum::<f64>().abs() / 2.0
}

/// Made-up outlines, each entry one hole or two that overlap: stars, letters with rough sides, bent strips, pairs of stars.
pub fn shapes(count: usize, seed: u64) -> Vec<Vec<Vec<(f64, f64)>>> {
    let mut draw = Draw(seed);
    (0..count)
        .map(|index| {
            let rings = match index % 4 {
                0 => vec![star(&mut draw)],
                1 => vec![letter(&mut draw)],
                2 => vec![bent_strip(&mut draw)],
                _ => {
                    let away = draw.within(0.1, 0.3);
                    vec![star(&mut draw), moved(&star(&mut draw), 0.0, away, -away)]
                }
            };
            let turn = draw.within(0.0, std::f64::consts::TAU);
            rings.iter().map(|ring| moved(ring, turn, 0.0, 0.0)).collect()
        })
        .collect()
}

/// Seeded numbers (a linear congruence with Knuth's factor).
struct Draw(u64);

impl Draw {
    fn within(&mut self, from: f64, to: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        from + (self.0 >> 11) as f64 / (1u64 << 53) as f64 * (to - from)
    }
}

fn star(draw: &mut Draw) -> Vec<(f64, f64)> {
    let (count, size) = (draw.within(6.0, 40.0) as usize, draw.within(0.3, 1.5));
    let stretch = draw.within(0.4, 1.0);
    (0..count)
        .map(|index| {
            let (sin, cos) = (std::f64::consts::TAU * index as f64 / count as f64).sin_cos();
            let radius = size * draw.within(0.35, 1.0);
            (radius * cos, stretch * radius * sin)
        })
        .collect()
}

/// A right-angled shape between a stepped top and a level bottom, or two stepped ones, its sides rough by 20 mm.
fn letter(draw: &mut Draw) -> Vec<(f64, f64)> {
    let [a, b, c] = [0; 3].map(|_| draw.within(0.25, 0.9));
    let [h1, h2, h3] = [0; 3].map(|_| draw.within(0.3, 1.5));
    let low = if draw.within(0.0, 1.0) < 0.5 { draw.within(0.0, h1.min(h2) - 0.2) } else { 0.0 };
    let ends = a + b + c;
    let corners = [
        (0.0, low),
        (a, low),
        (a, 0.0),
        (ends, 0.0),
        (ends, h3),
        (a + b, h3),
        (a + b, h2),
        (a, h2),
        (a, h1),
        (0.0, h1),
    ];
    let mut ring = Vec::new();
    for (index, from) in corners.iter().enumerate() {
        let to = corners[(index + 1) % corners.len()];
        let steps = ((to.0 - from.0).hypot(to.1 - from.1) / 0.1).ceil();
        for step in 0..steps as usize {
            let part = step as f64 / steps;
            let rough = [0; 2].map(|_| draw.within(-0.01, 0.01));
            ring.push((from.0 + part * (to.0 - from.0) + rough[0], from.1 + part * (to.1 - from.1) + rough[1]));
        }
    }
    ring
}

fn bent_strip(draw: &mut Draw) -> Vec<(f64, f64)> {
    let (radius, thickness) = (draw.within(0.4, 1.2), draw.within(0.1, 0.35));
    let (bend, steps) = (draw.within(1.2, 4.5), 16);
    let at = |radius: f64, step: usize| {
        let angle = bend * step as f64 / steps as f64;
        (radius * angle.cos(), radius * angle.sin())
    };
    let outside = (0..=steps).map(|step| at(radius + thickness / 2.0, step));
    let inside = (0..=steps).rev().map(|step| at(radius - thickness / 2.0, step));
    outside.chain(inside).collect()
}

/// The cut as a polygon.
pub fn polygon(cut: &CutOut) -> Polygon {
    Polygon::new(LineString::from(cut.corners.iter().map(|c| (c.along_m, c.across_m)).collect::<Vec<_>>()), vec![])
}

/// Whether the cut holds every edge of a ring grown by a square of half side `margin` whose sides lie along the cut's.
///
/// Each edge so grown is the hull of eight points; that the cut covers it is decided by the geometry library's exact
/// predicates. A hair less than the margin is asked for, since coordinates are rounded.
pub fn holds_grown(cut: &CutOut, ring: &[(f64, f64)], margin: f64) -> bool {
    let cut_polygon = polygon(cut);
    let (sin, cos) = cut.angle_deg.to_radians().sin_cos();
    let margin = margin - 1e-8;
    let signs = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    let square = signs.map(|(a, b)| (margin * (a * cos - b * sin), margin * (a * sin + b * cos)));
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).all(|(a, b)| {
        let points: Vec<(f64, f64)> =
            [a, b].iter().flat_map(|end| square.map(|(x, y)| (end.0 + x, end.1 + y))).collect();
        cut_polygon.covers(&MultiPoint::from(points).convex_hull())
    })
}

/// Area, prices of corners and edge, as the rules say.
pub fn cost(cut: &CutOut, rules: &MarkOutRules) -> f64 {
    area(cut)
        + rules.corner_price_m2.value * (cut.corners.len() as f64 - 4.0)
        + rules.edge_price_m2_per_m.value * cut.perimeter.value.in_metres()
}

/// Turns a ring about the origin and moves it.
pub fn moved(ring: &[(f64, f64)], turn: f64, along: f64, across: f64) -> Vec<(f64, f64)> {
    let (sin, cos) = turn.sin_cos();
    ring.iter().map(|(x, y)| (x * cos - y * sin + along, x * sin + y * cos + across)).collect()
}

pub fn close(a: f64, b: f64, tolerance: f64) -> bool {
    (a - b).abs() <= tolerance
}
