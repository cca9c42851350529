//! The order in which a layer is compacted.

use model::district::{Compactor, CompactorKind as Kind};
use model::place::FramePoint;
use model::quantity::{InLength, metres};
use model::repair::Stroke;
use proptest::prelude::*;
use repair::compaction::pattern::pattern;
use repair::compaction::{Ground, Machine};

use crate::support::{compactor, near, rectangle, ring, rules};

fn strokes(corners: &[FramePoint], compactor: Compactor) -> Vec<Stroke> {
    let rules = rules();
    let ground = Ground::new(corners, metres(1.2), metres(0.9));
    pattern(&Machine::new(&compactor, &rules.compactor), &ground).strokes
}

#[track_caller]
fn runs(stroke: Stroke, from: (f64, f64), to: (f64, f64)) {
    let found = [stroke.from.along_m, stroke.from.across_m, stroke.to.along_m, stroke.to.across_m];
    let expected = [from.0, from.1, to.0, to.1];
    assert!(found.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1e-9), "{found:?}, expected {expected:?}");
}

/// Drum 0.65 m, free play 20 mm: 10 mm off each side. The outer lanes lie 0.335 m inside the sides at ±0.45 m.
#[test]
fn a_roller_begins_at_opposite_corners() {
    let lanes = strokes(&rectangle(1.2, 0.9), compactor(Kind::PedestrianRoller, 0.65, 1.5));
    assert_eq!(lanes.len(), 2);
    runs(lanes[0], (-0.59, -0.115), (0.59, -0.115));
    runs(lanes[1], (0.59, 0.115), (-0.59, 0.115));
}

/// A plate of 0.45 m with 50 mm overlap in 1.5 m: ceil(1.45 / 0.40) = 4 lanes, 0.235 m inside the sides and evenly between.
#[test]
fn the_middle_comes_last() {
    let lanes = strokes(&rectangle(2.0, 1.5), compactor(Kind::VibratingPlate, 0.45, 1.2));
    let across: Vec<f64> = lanes.iter().map(|lane| lane.from.across_m).collect();
    let third = 1.03 / 3.0;
    for (found, expected) in across.iter().zip([-0.515, 0.515, -0.515 + third, 0.515 - third]) {
        near(*found, expected, 1e-9);
    }
    assert_eq!(across.len(), 4);
    assert!(lanes[0].from.along_m < lanes[0].to.along_m && lanes[1].from.along_m > lanes[1].to.along_m);
}

/// A foot of 0.2 m in a cut of 0.6 by 0.35 m: ceil(0.32 / 0.17) = 2 lanes, each from both ends to its middle.
#[test]
fn blows_go_from_the_ends_of_a_lane_to_its_middle() {
    let runs_of_blows = strokes(&rectangle(0.6, 0.35), compactor(Kind::HandTamper, 0.2, 0.3));
    assert_eq!(runs_of_blows.len(), 4);
    runs(runs_of_blows[0], (-0.2, -0.075), (0.0, -0.075));
    runs(runs_of_blows[1], (0.2, -0.075), (0.0, -0.075));
    runs(runs_of_blows[2], (-0.2, 0.075), (0.0, 0.075));
    runs(runs_of_blows[3], (0.2, 0.075), (0.0, 0.075));
}

/// A drum from above rides from end to end over the middle.
#[test]
fn a_drum_wider_than_the_cut_rides_over_its_middle() {
    let lanes = strokes(&rectangle(1.2, 0.9), compactor(Kind::TandemRoller, 1.0, 3.0));
    assert_eq!(lanes.len(), 1);
    runs(lanes[0], (-0.6, 0.0), (0.6, 0.0));
}

/// The L of 2.0 by 1.6 m with arms of 0.8 m: the long arm first, then the other from 0.1 m inside it.
#[test]
fn an_l_is_done_arm_by_arm() {
    let ell = ring(&[(0.0, 0.0), (2.0, 0.0), (2.0, 0.8), (0.8, 0.8), (0.8, 1.6), (0.0, 1.6)]);
    let lanes = strokes(&ell, compactor(Kind::PedestrianRoller, 0.65, 1.5));
    assert_eq!(lanes.len(), 4);
    runs(lanes[0], (0.01, 0.335), (1.99, 0.335));
    runs(lanes[1], (1.99, 0.465), (0.01, 0.465));
    runs(lanes[2], (0.335, 0.7), (0.335, 1.59));
    runs(lanes[3], (0.465, 1.59), (0.465, 0.7));
}

/// A plate of 0.3 m with 50 mm overlap on an L of 2.0 by 0.8 m with 1.2 by 0.4 m beside it: what is left of the second part
/// begins 50 mm inside the first, at 0.75 m; its outer lanes lie half a plate from there and 0.16 m inside the far side.
#[test]
fn lanes_beside_what_is_compacted_begin_at_the_overlap() {
    let ell = ring(&[(0.0, 0.0), (2.0, 0.0), (2.0, 0.8), (1.2, 0.8), (1.2, 1.2), (0.0, 1.2)]);
    let lanes = strokes(&ell, compactor(Kind::VibratingPlate, 0.3, 1.2));
    let across: Vec<f64> = lanes.iter().map(|lane| lane.from.across_m).collect();
    for (found, expected) in across.iter().zip([0.16, 0.64, 0.4, 0.9, 1.04]) {
        near(*found, expected, 1e-9);
    }
    assert_eq!(across.len(), 5);
}

prop_compose! {
    /// L, T, Z and U shapes, at any angle: corners, and whether a spot in the shape's own frame lies inside.
    fn any_shape()(
        kind in 0..4_usize,
        w in 1.0..3.0_f64,
        h in 1.0..3.0_f64,
        a in 0.25..0.45_f64,
        b in 0.25..0.45_f64,
        degrees in 0.0..360.0_f64,
    ) -> Vec<FramePoint> {
        let (a, b) = (a * w, b * h);
        let points: Vec<(f64, f64)> = match kind {
            0 => vec![(0.0, 0.0), (w, 0.0), (w, b), (a, b), (a, h), (0.0, h)],
            1 => vec![(0.0, 0.0), (w, 0.0), (w, b), (w - a, b), (w - a, h), (a, h), (a, b), (0.0, b)],
            2 => vec![(0.0, 0.0), (w - a, 0.0), (w - a, h - b), (w, h - b), (w, h), (a, h), (a, b), (0.0, b)],
            _ => vec![(0.0, 0.0), (w, 0.0), (w, h), (w - a, h), (w - a, b), (a, b), (a, h), (0.0, h)],
        };
        let (sin, cos) = degrees.to_radians().sin_cos();
        ring(&points.into_iter().map(|(x, y)| (x * cos - y * sin, x * sin + y * cos)).collect::<Vec<_>>())
    }
}

/// Whether the foot of a machine going along a stroke touches a spot.
fn touches(stroke: &Stroke, width: f64, spot: FramePoint) -> bool {
    let (dx, dy) = (stroke.to.along_m - stroke.from.along_m, stroke.to.across_m - stroke.from.across_m);
    let length = dx.hypot(dy);
    let (ux, uy) = if length > 0.0 { (dx / length, dy / length) } else { (1.0, 0.0) };
    let (x, y) = (spot.along_m - stroke.from.along_m, spot.across_m - stroke.from.across_m);
    let (along, beside) = (x * ux + y * uy, (y * ux - x * uy).abs());
    beside <= width / 2.0 + 1e-9 && (-width / 2.0..=length + width / 2.0).contains(&along)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    /// Every spot further from the sides than the free play is compacted, whatever the shape and the machine.
    #[test]
    fn no_spot_is_left_out(
        corners in any_shape(),
        kind in prop::sample::select(Kind::ALL.to_vec()),
        at in (0.0..1.0_f64, 0.0..1.0_f64),
    ) {
        let (x, y): (Vec<f64>, Vec<f64>) = corners.iter().map(|c| (c.along_m, c.across_m)).unzip();
        let spread = |values: &[f64], t: f64| {
            let low = values.iter().copied().fold(f64::INFINITY, f64::min);
            let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            low + t * (high - low)
        };
        let spot = FramePoint { along_m: spread(&x, at.0), across_m: spread(&y, at.1) };
        prop_assume!(is_inside(&corners, spot));
        let rules = rules();
        let machine = Machine::new(&Compactor { kind, width: None, speed: None }, &rules.compactor);
        let ground = Ground::new(&corners, metres(3.0), metres(3.0));
        let found = pattern(&machine, &ground);
        // Beside the sides a strip of half the free play stays free on purpose.
        let width = machine.width.in_metres() + machine.practice.clearance_m.value;
        prop_assert!(found.strokes.iter().any(|stroke| touches(stroke, width, spot)), "{kind:?} {spot:?} {corners:?}");
    }
}

fn is_inside(corners: &[FramePoint], spot: FramePoint) -> bool {
    let next = corners.iter().cycle().skip(1);
    let crossed = corners.iter().zip(next).filter(|(a, b)| {
        (a.across_m > spot.across_m) != (b.across_m > spot.across_m)
            && spot.along_m
                < a.along_m + (spot.across_m - a.across_m) / (b.across_m - a.across_m) * (b.along_m - a.along_m)
    });
    crossed.count() % 2 == 1
}
