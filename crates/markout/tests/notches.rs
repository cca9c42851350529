//! Cuts of six and eight corners, worked by hand; those of the handbook's page are read from the page.

mod common;

use common::{OPEN, ROAD, area, close, hole, moved, one, shipped_rules};
use markout::{Pavement, WheelPath, mark_out};
use model::cut_out::CutOut;
use model::quantity::{InArea, InLength};
use model::rules::markout::MarkOutRules;
use serde::Deserialize;
use testkit::worked_examples;

#[derive(Deserialize)]
struct Example {
    outline_m: Vec<(f64, f64)>,
    corners: usize,
    area_m2: f64,
    perimeter_m: f64,
    narrowest_m: f64,
}

/// A hole like an L of 1.6 by 1.2, arms 0.5 and 0.6 wide.
const L: [(f64, f64); 6] = [(0.0, 0.0), (1.6, 0.0), (1.6, 0.5), (0.6, 0.5), (0.6, 1.2), (0.0, 1.2)];

#[test]
fn the_pages_examples_at_any_angle() {
    for example in worked_examples::<Example>("mark-out", "cut") {
        for turn_deg in [0.0f64, 30.0, 90.0, 137.0, 180.0, 270.0] {
            let ring = moved(&example.outline_m, turn_deg.to_radians(), 400.0, 0.3);
            // Mirrored too: the other way round, and on the other hand.
            let mirrored: Vec<(f64, f64)> = ring.iter().map(|p| (p.0, -p.1)).collect();
            for ring in [ring, mirrored] {
                let cut = one(&ring, &OPEN, &shipped_rules());
                assert_eq!(cut.corners.len(), example.corners, "{turn_deg} {cut:?}");
                assert!(close(area(&cut), example.area_m2, 1e-9), "{turn_deg} {}", area(&cut));
                assert!(close(cut.perimeter.value.in_metres(), example.perimeter_m, 1e-9), "{turn_deg} {cut:?}");
                assert!(close(cut.narrowest.in_metres(), example.narrowest_m, 1e-9), "{turn_deg} {cut:?}");
                assert!(cut.farthest.in_metres() < 0.0355, "{turn_deg} {}", cut.farthest.in_metres());
            }
        }
    }
}

#[test]
fn extra_corners_are_explained() {
    let cut = one(&L, &OPEN, &shipped_rules());
    assert_eq!(cut.remarks, ["6 corners save 0.70 m² for 0.05 m²"]);
    assert_eq!(
        cut.area.why.to_string(),
        "A = l * w - n; l, w: rectangle around the cut; n: notches; the hole grown by m lies inside; l = 1.650 m, \
         w = 1.250 m, n = 0.7000 m², m = 25 mm, corners = 6, best rectangle = 2.0625 m² [common practice, no source]"
    );
    assert!(close(cut.length.in_metres(), 1.65, 1e-9) && close(cut.width.in_metres(), 1.25, 1e-9));
    assert!(close(cut.wasted.value.in_square_metres(), 1.3625 - 1.22, 1e-6));
    // A U has more edge than the rectangle around it.
    let u = [(0.0, 0.0), (1.5, 0.0), (1.5, 1.0), (1.1, 1.0), (1.1, 0.4), (0.5, 0.4), (0.5, 1.0), (0.0, 1.0)];
    let cut = one(&u, &OPEN, &shipped_rules());
    assert_eq!(cut.remarks, ["8 corners save 0.33 m² for 0.11 m²"]);
    let why = cut.perimeter.why.to_string();
    assert!(why.contains("+ d - e; d: both sides of a notch") && why.contains("d = 1.200 m"), "{why}");
}

#[test]
fn corners_start_behind_on_the_left_and_turn_right() {
    let corners = |cut: &CutOut| cut.corners.iter().map(|c| (c.along_m, c.across_m)).collect::<Vec<_>>();
    let expected = [(-0.025, -0.025), (1.625, -0.025), (1.625, 0.525), (0.625, 0.525), (0.625, 1.225), (-0.025, 1.225)];
    let cut = one(&L, &OPEN, &shipped_rules());
    for (got, expected) in corners(&cut).iter().zip(expected) {
        assert!(close(got.0, expected.0, 1e-9) && close(got.1, expected.1, 1e-9), "{cut:?}");
    }
}

#[test]
fn no_strip_is_left_beside_an_edge_that_the_cut_lies_on() {
    // The hole's head reaches the edge, its body stays 0.1 m away, less than the gap: no notch there, however cheap.
    let mut rules = common::bare_rules();
    (rules.most_corners.value, rules.corner_price_m2.value) = (8, 0.0);
    (rules.smallest_notch_m.value, rules.edge_gap_m.value) = (0.05, 0.15);
    let ring = [(10.0, 2.0), (13.0, 2.0), (13.0, 2.9), (10.5, 2.9), (10.5, 3.0), (10.0, 3.0)];
    let cut = one(&ring, &ROAD, &rules);
    assert!(close(area(&cut), 3.0, 1e-6) && cut.corners.len() == 4, "{cut:?}");
    // 0.2 m away, a notch is left.
    let ring = ring.map(|(x, y)| (x, if y == 2.9 { 2.8 } else { y }));
    assert!(close(area(&one(&ring, &ROAD, &rules)), 2.5, 1e-6));
}

#[test]
fn a_side_on_the_border_of_a_wheel_path_stays() {
    // Numbers that are exact in binary. The strip is narrower than a side may be moved, and yet no side is.
    let mut rules = common::bare_rules();
    rules.wheel_path.keep_clear.value = true;
    rules.wheel_path.greatest_shift_m.value = 0.75;
    let strip = WheelPath { across_min_m: 1.0, across_max_m: 1.5 };
    let road = Pavement { wheel_paths: vec![strip], ..ROAD };
    for (from, to, expected) in [(1.5, 2.0, 0.5), (0.25, 1.0, 0.75), (1.25, 2.0, 1.0)] {
        let ring = [(10.0, from), (11.0, from), (11.0, to), (10.0, to)];
        assert!(close(area(&one(&ring, &road, &rules)), expected, 1e-9), "{from} to {to}");
    }
}

#[test]
fn the_rules_bound_the_corners() {
    let staircase = [(0.0, 0.0), (1.5, 0.0), (1.5, 0.4), (1.0, 0.4), (1.0, 0.8), (0.5, 0.8), (0.5, 1.2), (0.0, 1.2)];
    let corners = |change: fn(&mut MarkOutRules)| {
        let mut rules = shipped_rules();
        change(&mut rules);
        let cut = one(&staircase, &OPEN, &rules);
        (cut.corners.len(), cut.area.value.in_square_metres())
    };
    // 1.55 by 1.25; the best single notch is 0.5 by 0.8, or 1.0 by 0.4.
    assert_eq!(corners(|_| ()).0, 8);
    let six = corners(|rules| rules.most_corners.value = 6);
    assert!(six.0 == 6 && close(six.1, 1.9375 - 0.4, 1e-9), "{six:?}");
    let four = corners(|rules| rules.most_corners.value = 4);
    assert!(four.0 == 4 && close(four.1, 1.9375, 1e-9), "{four:?}");
    // The two further corners save 0.2: worth it below 0.1 each, six corners worth it below 0.2 each. The far limit, which
    // the notches keep, is out of the way.
    let at_price = |price: f64| {
        let mut rules = shipped_rules();
        (rules.corner_price_m2.value, rules.far_limit_m.value, rules.square_tolerance.value) = (price, 10.0, 0.0);
        one(&staircase, &OPEN, &rules).corners.len()
    };
    assert_eq!([0.0999, 0.1001, 0.1999, 0.2001].map(at_price), [8, 6, 6, 4]);
}

#[test]
fn an_arm_is_as_wide_as_the_tamper() {
    // An L whose upright arm is 0.1 wide: with margins 0.15, widened to 0.2 into the notch. 1.05 by 1.05; the notch goes
    // from 0.2 to 1.05 and from 0.45 up: 0.85 by 0.6.
    let ring = [(0.0, 0.0), (1.0, 0.0), (1.0, 0.4), (0.1, 0.4), (0.1, 1.0), (0.0, 1.0)];
    let mut rules = shipped_rules();
    rules.square_tolerance.value = 0.0;
    let cut = one(&ring, &OPEN, &rules);
    assert_eq!(cut.corners.len(), 6);
    assert!(cut.narrowest.in_metres() >= 0.2 - 1e-8);
    assert!(close(area(&cut), 1.1025 - 0.51, 2e-4), "{}", area(&cut));
}

#[test]
fn a_strip_between_two_arms_holds_or_is_cut_out() {
    // A U with a bay of 0.36: with margins a strip of 0.31, more than the gap of 0.30. With a bay of 0.34 it would be 0.29.
    let u = |bay: f64| {
        let right = 0.5 + bay;
        let end = right + 0.5;
        [(0.0, 0.0), (end, 0.0), (end, 1.2), (right, 1.2), (right, 0.4), (0.5, 0.4), (0.5, 1.2), (0.0, 1.2)]
    };
    let wide = one(&u(0.36), &OPEN, &shipped_rules());
    assert!(wide.corners.len() == 8 && close(area(&wide), 1.41 * 1.25 - 0.31 * 0.8, 1e-9), "{wide:?}");
    assert_eq!(one(&u(0.34), &OPEN, &shipped_rules()).corners.len(), 4);
}

#[test]
fn arms_may_end_at_different_heights() {
    // A U with a left arm of 0.8 and a right one of 1.4: rectangle 1.65 by 1.45; over the left arm 0.6 by 0.6 is free as well
    // as the bay, 0.55 by 1.0, less 25 mm beside: from 0.525 to 1.075, floor at 0.425, top at 1.425.
    let ring = [(0.0, 0.0), (1.6, 0.0), (1.6, 1.4), (1.1, 1.4), (1.1, 0.4), (0.5, 0.4), (0.5, 0.8), (0.0, 0.8)];
    let mut rules = shipped_rules();
    rules.corner_price_m2.value = 0.01;
    let cut = one(&ring, &OPEN, &rules);
    // Whole 2.3925; left of the right arm, 1.1 by 0.6 above the short arm, and 0.55 by 0.4 between the arms.
    assert!(cut.corners.len() == 8 && close(area(&cut), 2.3925 - 0.66 - 0.22, 1e-9), "{cut:?}");
    assert!(close(cut.perimeter.value.in_metres(), 2.0 * (1.65 + 1.45) + 0.8, 1e-9));
}

#[test]
fn near_the_pavements_edge_notches_leave_what_holds() {
    // The L with its long arm along the right edge, 50 mm from it: cut to the edge. The notch is away from the edge.
    let ring: Vec<(f64, f64)> = L.iter().map(|p| (p.0 + 10.0, 2.95 - p.1)).collect();
    let cut = one(&ring, &ROAD, &shipped_rules());
    assert_eq!(cut.corners.len(), 6);
    // 1.65 by 1.225 + 0.05 at the edge, notch 1.0 by 0.7; a side of 1.65 is not sawn.
    assert!(close(area(&cut), 1.65 * 1.275 - 0.7, 1e-9), "{}", area(&cut));
    assert!(close(cut.perimeter.value.in_metres(), 2.0 * (1.65 + 1.275) - 1.65, 1e-9), "{:?}", cut.perimeter);

    // Turned over: the short arm ends at the edge, 0.65 of the edge are not sawn.
    let ring: Vec<(f64, f64)> = L.iter().map(|p| (p.0 + 10.0, 1.75 + p.1)).collect();
    let cut = one(&ring, &ROAD, &shipped_rules());
    assert!(cut.corners.len() == 6 && close(area(&cut), 1.65 * 1.275 - 1.0 * 0.725, 1e-9), "{cut:?}");
    assert!(close(cut.perimeter.value.in_metres(), 2.0 * (1.65 + 1.275) - 0.65, 1e-9), "{:?}", cut.perimeter);

    // A U that opens to the edge: the block between its arms would stand alone, so it is cut out.
    let u = [(0.0, 0.0), (1.5, 0.0), (1.5, 1.0), (1.1, 1.0), (1.1, 0.4), (0.5, 0.4), (0.5, 1.0), (0.0, 1.0)];
    let ring: Vec<(f64, f64)> = u.iter().map(|p| (p.0 + 10.0, 1.95 + p.1)).collect();
    assert_eq!(one(&ring, &ROAD, &shipped_rules()).corners.len(), 4);
    let ring: Vec<(f64, f64)> = u.iter().map(|p| (p.0 + 10.0, -1.95 - p.1)).collect();
    assert_eq!(one(&ring, &ROAD, &shipped_rules()).corners.len(), 4);
    // One that opens away from it stays.
    let ring: Vec<(f64, f64)> = u.iter().map(|p| (p.0 + 10.0, 2.95 - p.1)).collect();
    assert_eq!(one(&ring, &ROAD, &shipped_rules()).corners.len(), 8);
}

#[test]
fn a_hole_lies_in_the_notch_of_another_cut() {
    // The L and a square of 0.3 in its empty corner, 0.6 from both arms: two cuts. 0.2 from both arms: one.
    let square = |at: f64| hole("B", &[(at, at), (at + 0.3, at), (at + 0.3, at + 0.3), (at, at + 0.3)]);
    let cuts = mark_out(&[hole("A", &L), square(1.2)], &OPEN, &shipped_rules()).unwrap();
    assert_eq!(cuts.iter().map(|cut| cut.corners.len()).collect::<Vec<_>>(), [6, 4]);
    assert_eq!(mark_out(&[hole("A", &L), square(0.8)], &OPEN, &shipped_rules()).unwrap().len(), 1);
}

/// A road with a wheel path from 0.6 to 1.2, kept clear.
fn with_wheel_path() -> (Pavement, MarkOutRules) {
    let mut rules = shipped_rules();
    rules.wheel_path.keep_clear.value = true;
    (Pavement { wheel_paths: vec![WheelPath { across_min_m: 0.6, across_max_m: 1.2 }], ..ROAD }, rules)
}

#[test]
fn joints_are_moved_out_of_a_wheel_path() {
    let (road, rules) = with_wheel_path();
    let rectangle = |from: f64, to: f64| [(10.0, from), (11.0, from), (11.0, to), (10.0, to)];
    let sides = |cut: &CutOut| {
        let across = cut.corners.iter().map(|corner| corner.across_m);
        across.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), a| (low.min(a), high.max(a)))
    };
    // Right side at 0.925: 0.275 to the border, moved. Left side at 0.875: 0.275 to the other border.
    let cut = one(&rectangle(0.0, 0.9), &road, &rules);
    assert!(close(sides(&cut).1, 1.2, 1e-9) && close(sides(&cut).0, -0.025, 1e-9), "{cut:?}");
    let cut = one(&rectangle(0.9, 1.6), &road, &rules);
    assert!(close(sides(&cut).0, 0.6, 1e-9) && close(sides(&cut).1, 1.625, 1e-9), "{cut:?}");
    // Right side at 0.885: 0.315 to the border, more than the greatest shift of 0.3: it stays, with a remark.
    let cut = one(&rectangle(0.0, 0.86), &road, &rules);
    assert!(close(sides(&cut).1, 0.885, 1e-9), "{cut:?}");
    assert_eq!(
        cut.remarks,
        ["a joint along the road lies in a wheel path: no side could be moved out by up to 300 mm"]
    );
    // Across the whole path no joint is in it; nor where the rule is off.
    assert_eq!(one(&rectangle(0.4, 1.4), &road, &rules).remarks, Vec::<String>::new());
    let cut = one(&rectangle(0.0, 0.9), &road, &shipped_rules());
    assert!(close(sides(&cut).1, 0.925, 1e-9) && cut.remarks.is_empty());
}

#[test]
fn a_notch_gives_way_to_a_wheel_path() {
    // The L from 0.0 to 1.2 with its shoulder at 0.5 + 0.4: side at 0.925, moved to 1.2. The notch left over, 1.0 by
    // 0.425, saves enough.
    let (road, rules) = with_wheel_path();
    let ring: Vec<(f64, f64)> = L.iter().map(|p| (p.0 + 10.0, p.1 + 0.4)).collect();
    let cut = one(&ring, &road, &rules);
    assert!(cut.corners.len() == 6 && close(area(&cut), 1.65 * 1.25 - 1.0 * 0.425, 1e-9), "{cut:?}");
    let in_path = cut.corners.iter().any(|corner| corner.across_m > 0.61 && corner.across_m < 1.19);
    assert!(!in_path, "{cut:?}");
}

#[test]
fn bad_wheel_paths_and_corners_are_named() {
    let road = Pavement { wheel_paths: vec![WheelPath { across_min_m: 1.0, across_max_m: 1.0 }], ..ROAD };
    let error = mark_out(&[], &road, &shipped_rules()).unwrap_err();
    assert!(error.to_string().contains("wheel path"), "{error}");
    let mut rules = shipped_rules();
    rules.most_corners.value = 5;
    assert_eq!(mark_out(&[], &ROAD, &rules).unwrap_err().to_string(), "rule most_corners is 5; 4, 6 or 8 is possible");
}

#[test]
fn the_far_limit_is_kept_where_notches_can() {
    // A square of 0.6 with a spike of 0.2 by 0.16 at one corner's end. The rectangle, 0.85 by 0.65, saves only
    // 0.2 * 0.44 = 0.088 by the notch; at a price of 0.05 a corner it does not pay, but the empty corner lies
    // further than 100 mm from the hole.
    let ring = [(0.0, 0.0), (0.8, 0.0), (0.8, 0.16), (0.6, 0.16), (0.6, 0.6), (0.0, 0.6)];
    let mut rules = shipped_rules();
    rules.corner_price_m2.value = 0.05;
    let cut = one(&ring, &OPEN, &rules);
    assert_eq!(cut.corners.len(), 6);
    assert_eq!(cut.remarks, ["6 corners save 0.09 m² for 0.10 m²: taken to keep the cut within 100 mm of the hole"]);
    rules.far_limit_m.value = 0.5;
    assert_eq!(one(&ring, &OPEN, &rules).corners.len(), 4);
}
