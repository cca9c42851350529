//! What the tests share: the shipped rules, rings, and plain geometry written independently of the crate.
#![allow(dead_code)] // each test file uses its own part

use markout::Pavement;
use model::cut_out::{CutOut, FrameOutline};
use model::hole::HoleId;
use model::place::FramePoint;
use model::quantity::InArea;
use model::rules::markout::MarkOutRules;

/// The shipped rule file.
pub fn shipped_rules() -> MarkOutRules {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../rules/markout/common-practice.toml");
    toml::from_str(&std::fs::read_to_string(path).expect("rule file")).expect("rule file has its shape")
}

/// Rules that leave the bare least rectangle: no margin, no least side, no preference for square cuts.
pub fn bare_rules() -> MarkOutRules {
    let mut rules = shipped_rules();
    rules.margin_m.value = 0.0;
    rules.smallest_side_m.value = 0.0;
    rules.square_tolerance.value = 0.0;
    rules
}

/// So wide and long that no edge is near.
pub const OPEN: Pavement = Pavement { across_min_m: -1e5, across_max_m: 1e5, along_min_m: -1e5, along_max_m: 1e5 };

/// Two lanes of a country road, 1 km.
pub const ROAD: Pavement = Pavement { across_min_m: -3.0, across_max_m: 3.0, along_min_m: 0.0, along_max_m: 1000.0 };

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

/// Least distance of a point inside the cut to the cut's sides; negative outside.
pub fn depth_inside(cut: &CutOut, point: (f64, f64)) -> f64 {
    (0..4)
        .map(|index| {
            let (a, b) = (cut.corners[index], cut.corners[(index + 1) % 4]);
            let (dx, dy) = (b.along_m - a.along_m, b.across_m - a.across_m);
            // Corners turn right in a frame whose across axis points right, so the inside is where this is positive.
            (dx * (point.1 - a.across_m) - dy * (point.0 - a.along_m)) / dx.hypot(dy)
        })
        .fold(f64::INFINITY, f64::min)
}

/// Turns a ring about the origin and moves it.
pub fn moved(ring: &[(f64, f64)], turn: f64, along: f64, across: f64) -> Vec<(f64, f64)> {
    let (sin, cos) = turn.sin_cos();
    ring.iter().map(|(x, y)| (x * cos - y * sin + along, x * sin + y * cos + across)).collect()
}

pub fn close(a: f64, b: f64, tolerance: f64) -> bool {
    (a - b).abs() <= tolerance
}
