//! Hand-worked rectangles. Every expected value follows from plane geometry, worked beside it; lengths in metres.

mod common;

use common::{OPEN, ROAD, area, close, hole, one, shipped_rules};
use markout::{MarkOutError, Pavement, check_outline, mark_out, size_ring};
use model::cut_out::CutOut;
use model::figure::Standing;
use model::place::FramePoint;
use model::quantity::{InArea, InLength, metres};
use model::rules::markout::MarkOutRules;

type Ring<'a> = &'a [(f64, f64)];

/// The shipped rules, four corners only.
fn rectangles() -> MarkOutRules {
    let mut rules = shipped_rules();
    rules.most_corners.value = 4;
    rules
}

/// length, width, angle in degrees, area, perimeter, waste, farthest
type Expected = [f64; 7];

#[test]
fn single_holes_on_open_pavement() {
    let s = std::f64::consts::FRAC_1_SQRT_2;
    let table: [(&str, Ring, Expected); 6] = [
        // 1.0 x 0.5 along the road, margin 25 mm: 1.05 x 0.55. Waste 0.5775 - 0.5. A corner lies 25 mm * sqrt 2 away.
        (
            "square to the road",
            &[(10.0, 1.0), (11.0, 1.0), (11.0, 1.5), (10.0, 1.5)],
            [1.05, 0.55, 0.0, 0.5775, 3.2, 0.0775, 0.025 * 2f64.sqrt()],
        ),
        // The same, lying across the road: the longer side at 90 degrees.
        (
            "across the road",
            &[(10.0, 1.0), (10.5, 1.0), (10.5, 2.0), (10.0, 2.0)],
            [1.05, 0.55, 90.0, 0.5775, 3.2, 0.0775, 0.025 * 2f64.sqrt()],
        ),
        // The same, turned right by 45 degrees about the origin: (x, y) -> (x - y, x + y) / sqrt 2.
        (
            "turned right by 45 degrees",
            &[(0.0, 0.0), (s, s), (0.5 * s, 1.5 * s), (-0.5 * s, 0.5 * s)],
            [1.05, 0.55, 45.0, 0.5775, 3.2, 0.0775, 0.025 * 2f64.sqrt()],
        ),
        // The same, turned left by 30 degrees: (x, y) -> (x cos 30 + y sin 30, -x sin 30 + y cos 30).
        (
            "turned left by 30 degrees",
            &[
                (0.0, 0.0),
                (0.8660254037844386, -0.5),
                (1.1160254037844386, -0.0669872981077807),
                (0.25, 0.4330127018922193),
            ],
            [1.05, 0.55, -30.0, 0.5775, 3.2, 0.0775, 0.025 * 2f64.sqrt()],
        ),
        // Right triangle, legs 0.4 and 0.3. Square on the legs: 0.45 * 0.35 = 0.1575; on the hypotenuse 0.5 (height
        // 0.24): 0.55 * 0.29 = 0.1595. The empty corner (0.425, 0.325) is ((0.425/0.4 + 0.325/0.3) - 1) /
        // sqrt(1/0.4^2 + 1/0.3^2) = 1.1458333 * 0.24 = 0.275 from the hypotenuse. Waste 0.1575 - 0.06.
        ("right triangle", &[(0.0, 0.0), (0.4, 0.0), (0.0, 0.3)], [0.45, 0.35, 0.0, 0.1575, 1.6, 0.0975, 0.275]),
        // 50 mm square: with the margin 0.1, widened to the tamper's 0.2. A corner lies 75 mm * sqrt 2 = 106 mm away.
        (
            "smaller than the tamper's foot",
            &[(0.0, 0.0), (0.05, 0.0), (0.05, 0.05), (0.0, 0.05)],
            [0.2, 0.2, 0.0, 0.04, 0.8, 0.0375, 0.075 * 2f64.sqrt()],
        ),
    ];
    for (name, ring, expected) in table {
        let cut = one(ring, &OPEN, &shipped_rules());
        assert_figures(name, &cut, expected);
    }
}

fn assert_figures(name: &str, cut: &CutOut, expected: Expected) {
    let got = [
        cut.length.in_metres(),
        cut.width.in_metres(),
        cut.angle_deg,
        area(cut),
        cut.perimeter.value.in_metres(),
        cut.wasted.value.in_square_metres(),
        cut.farthest.in_metres(),
    ];
    // The furthest distance is searched to a tenth of a millimetre; areas of unions are worked on a fine grid.
    let tolerance = [1e-9, 1e-9, 1e-6, 1e-9, 1e-9, 1e-7, 1.01e-4];
    for index in 0..7 {
        assert!(close(got[index], expected[index], tolerance[index]), "{name}: got {got:?}, expected {expected:?}");
    }
}

#[test]
fn the_far_limit_is_remarked_only_where_it_is_passed() {
    // Above: the triangle's empty corner is 275 mm away, the square-cornered hole's 35 mm.
    let triangle = one(&[(0.0, 0.0), (0.4, 0.0), (0.0, 0.3)], &OPEN, &shipped_rules());
    assert_eq!(triangle.remarks.len(), 1);
    assert!(triangle.remarks[0].contains("275 mm") && triangle.remarks[0].contains("100 mm"), "{:?}", triangle.remarks);
    let square = one(&[(0.0, 0.0), (0.4, 0.0), (0.4, 0.3), (0.0, 0.3)], &OPEN, &shipped_rules());
    assert_eq!(square.remarks, Vec::<String>::new());
}

#[test]
fn the_furthest_point_may_lie_within_a_side() {
    // A bay from the right, 0.8 wide and 0.5 deep: before it, on the cut's side 25 mm out, a point in the middle is
    // min over the bay's walls: sqrt(0.4^2 + 0.025^2) = 0.400781 from both of the bay's lips. Corners are 35 mm away.
    let bay = [(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.4, 1.0), (1.4, 0.5), (0.6, 0.5), (0.6, 1.0), (0.0, 1.0)];
    let cut = one(&bay, &OPEN, &rectangles());
    assert!(close(cut.farthest.in_metres(), 0.400781, 1.01e-4), "{}", cut.farthest.in_metres());
}

#[test]
fn a_cut_square_to_the_road_is_taken_where_it_costs_little() {
    // Rectangle 1.0 x 0.5 turned by t, cut turned with it: 0.5775. Square to the road, with c = cos t, s = sin t:
    // (c + 0.5 s + 0.05)(s + 0.5 c + 0.05). t = 0.4 deg: 1.0534663 * 0.5569686 = 0.58674781, 1.6 % more: square.
    // t = 0.6 deg: 1.0551811 * 0.5604446 = 0.59137056, 2.4 % more: turned.
    let ring = [(0.0, 0.0), (1.0, 0.0), (1.0, 0.5), (0.0, 0.5)];
    for (degrees, expected_area, expected_angle) in [(0.4f64, 0.58674781, 0.0), (0.6, 0.5775, 0.6)] {
        let cut = one(&common::moved(&ring, degrees.to_radians(), 0.0, 0.0), &OPEN, &shipped_rules());
        assert!(close(area(&cut), expected_area, 1e-6), "{degrees}: {}", area(&cut));
        assert!(close(cut.angle_deg, expected_angle, 1e-6), "{degrees}: {}", cut.angle_deg);
    }
}

#[test]
fn a_strip_as_wide_as_the_edge_gap_is_left() {
    // Numbers that are exact in binary: the strip is 0.25 m to the last digit.
    let mut rules = common::bare_rules();
    rules.edge_gap_m.value = 0.25;
    for (outer, expected) in [(2.75, 1.75), (2.7578125, 2.0)] {
        let ring = [(10.0, 1.0), (11.0, 1.0), (11.0, outer), (10.0, outer)];
        assert!(close(area(&one(&ring, &ROAD, &rules)), expected, 1e-9), "right, {outer}");
        assert!(close(area(&one(&ring.map(|(x, y)| (x, -y)), &ROAD, &rules)), expected, 1e-9), "left, {outer}");
    }
}

#[test]
fn near_the_pavements_edge() {
    // Pavement from -3 to 3. Hole 1.0 long, 0.5 wide, from 2.4 to 2.9: the grown hole ends 2.925, 75 mm from the edge.
    // The cut goes from 2.375 to 3.0: 1.05 x 0.625, one side of 1.05 not sawn: 2 (1.05 + 0.625) - 1.05 = 2.3.
    let ring = [(10.0, 2.4), (11.0, 2.4), (11.0, 2.9), (10.0, 2.9)];
    let cut = one(&ring, &ROAD, &shipped_rules());
    assert_figures("right edge", &cut, [1.05, 0.625, 0.0, 0.65625, 2.3, 0.15625, 0.1 * 1.0307764]);
    assert!(cut.remarks[0].contains("right edge"), "{:?}", cut.remarks);

    // Mirrored to the left edge.
    let cut = one(&ring.map(|(x, y)| (x, -y)), &ROAD, &shipped_rules());
    assert_figures("left edge", &cut, [1.05, 0.625, 0.0, 0.65625, 2.3, 0.15625, 0.1 * 1.0307764]);
    assert!(cut.remarks[0].contains("left edge"), "{:?}", cut.remarks);

    // 160 mm from the grown hole to the edge: more than the gap of 150 mm, so the cut stays away.
    let cut = one(&[(10.0, 2.315), (11.0, 2.315), (11.0, 2.815), (10.0, 2.815)], &ROAD, &shipped_rules());
    assert_figures("off the edge", &cut, [1.05, 0.55, 0.0, 0.5775, 3.2, 0.0775, 0.025 * 2f64.sqrt()]);
    assert!(cut.remarks.is_empty());

    // Both edges near, on a track 1.2 wide: the cut is the whole width, both sides of 1.05 not sawn: 2 * 1.2.
    let track = Pavement { across_min_m: 0.0, across_max_m: 1.2, ..ROAD };
    let cut = one(&[(10.0, 0.1), (11.0, 0.1), (11.0, 1.1), (10.0, 1.1)], &track, &shipped_rules());
    assert!(close(area(&cut), 1.26, 1e-9) && close(cut.perimeter.value.in_metres(), 2.4, 1e-9));

    // A small hole at the edge is widened away from it: from 2.8 to 3.0.
    let cut = one(&[(10.0, 2.92), (10.5, 2.92), (10.5, 2.96), (10.0, 2.96)], &ROAD, &shipped_rules());
    assert!(close(cut.width.in_metres(), 0.2, 1e-9) && close(cut.corners[0].across_m, 2.8, 1e-9), "{cut:?}");
}

#[test]
fn a_turned_cut_keeps_its_corners_from_the_edge() {
    // A strip 0.1 wide at 45 degrees: the turned cut, 1.46 x 0.2, is by far the least (square: 1.12 x 1.12), but its
    // corners reach across to about 1.12. Square to the road the cut ends at 1.07 + 0.025. An edge 0.155 beyond that is
    // too near for the turned cut (0.13 < 0.15), not for the square one.
    let strip = [(0.0, 0.0), (1.0, 1.0), (0.93, 1.07), (-0.07, 0.07)];
    let wide = Pavement { across_min_m: -3.0, across_max_m: 3.0, ..ROAD };
    assert!(close(one(&strip, &wide, &shipped_rules()).angle_deg, 45.0, 1e-6));
    let narrow = Pavement { across_min_m: -3.0, across_max_m: 1.07 + 0.025 + 0.155, ..ROAD };
    let cut = one(&strip, &narrow, &shipped_rules());
    assert!(close(cut.angle_deg, 0.0, 1e-9) && cut.perimeter.value < 2.0001 * (cut.length + cut.width));
    assert!(cut.corners.iter().all(|c| narrow.across_max_m - c.across_m >= 0.15 - 1e-9));
}

#[test]
fn a_hole_past_the_edge_is_clipped_with_a_remark() {
    // 0.4 of the hole's 0.5 width lies on the pavement: 1.05 x 0.425, waste 0.44625 - 0.4.
    let cut = one(&[(10.0, 2.6), (11.0, 2.6), (11.0, 3.1), (10.0, 3.1)], &ROAD, &shipped_rules());
    assert_figures("clipped", &cut, [1.05, 0.425, 0.0, 0.44625, 1.9, 0.04625, 0.025 * 2f64.sqrt()]);
    assert!(cut.remarks[0].contains("100 mm past"), "{:?}", cut.remarks);
    assert!(cut.outlines[0].ring.iter().all(|p| p.across_m <= 3.0));

    let beside = hole("H-9", &[(10.0, 3.2), (11.0, 3.2), (11.0, 3.6), (10.0, 3.6)]);
    let error = mark_out(&[beside], &ROAD, &shipped_rules()).unwrap_err();
    assert_eq!(
        error.to_string(),
        "hole H-9: the outline lies from 3.200 to 3.600 m across, outside the pavement from -3.000 to 3.000 m"
    );
}

#[test]
fn a_cut_over_the_sections_end_is_kept_and_remarked() {
    let cut = one(&[(-0.2, 0.0), (0.8, 0.0), (0.8, 0.5), (-0.2, 0.5)], &ROAD, &shipped_rules());
    assert!(close(area(&cut), 0.5775, 1e-9));
    assert!(cut.remarks.iter().any(|r| r.contains("section's end")));
}

#[test]
fn near_holes_become_one_cut() {
    let square = |id: &str, along: f64| hole(id, &[(along, 0.0), (along + 0.5, 0.0), (along + 0.5, 0.5), (along, 0.5)]);
    // Cuts reach 25 mm past the holes. Holes 0.34 apart: cuts 0.29 apart, one cut: 1.34 + 0.05 = 1.39 long, 0.55 wide,
    // waste 0.7645 - 0.5. Between the holes, on the long side, a point is sqrt(0.17^2 + 0.025^2) = 0.171828 from both.
    let cuts = mark_out(&[square("B", 10.84), square("A", 10.0)], &ROAD, &shipped_rules()).unwrap();
    assert_eq!(cuts.len(), 1);
    assert_figures("joined", &cuts[0], [1.39, 0.55, 0.0, 0.7645, 3.88, 0.2645, 0.171828]);
    assert_eq!(cuts[0].holes.iter().map(|h| h.0.as_str()).collect::<Vec<_>>(), ["B", "A"], "in input order");

    // 0.36 apart: cuts 0.31 apart, two cuts, in the order given.
    let cuts = mark_out(&[square("B", 10.86), square("A", 10.0)], &ROAD, &shipped_rules()).unwrap();
    assert_eq!(cuts.iter().map(|c| c.holes[0].0.as_str()).collect::<Vec<_>>(), ["B", "A"]);

    // The same hole reported twice: the overlap counts once, waste as for one.
    let cuts = mark_out(&[square("A", 10.0), square("again", 10.0)], &ROAD, &shipped_rules()).unwrap();
    assert_figures("twice", &cuts[0], [0.55, 0.55, 0.0, 0.3025, 2.2, 0.0525, 0.025 * 2f64.sqrt()]);

    // A and B are far from each other, but the cut around A and C comes near B.
    let a = hole("A", &[(10.0, 0.0), (10.4, 0.0), (10.4, 0.4), (10.0, 0.4)]);
    let c = hole("C", &[(10.6, 0.3), (11.0, 0.3), (11.0, 1.9), (10.6, 1.9)]);
    let b = hole("B", &[(9.9, 1.5), (10.1, 1.5), (10.1, 1.7), (9.9, 1.7)]);
    assert_eq!(mark_out(&[a.clone(), b.clone()], &ROAD, &rectangles()).unwrap().len(), 2);
    assert_eq!(mark_out(&[c.clone(), b.clone()], &ROAD, &rectangles()).unwrap().len(), 2);
    assert_eq!(mark_out(&[a.clone(), b.clone(), c.clone()], &ROAD, &rectangles()).unwrap().len(), 1);
    // With notches the cut around A and C leaves out the corner that B lies in.
    let cuts = mark_out(&[a, b, c], &ROAD, &shipped_rules()).unwrap();
    assert_eq!(cuts.iter().map(|cut| cut.holes.len()).collect::<Vec<_>>(), [2, 1]);
}

#[test]
fn a_surveyed_size_becomes_a_ring_along_the_road() {
    let ring = size_ring(metres(1.2), metres(0.8), FramePoint { along_m: 100.0, across_m: 1.5 });
    let got: Vec<(f64, f64)> = ring.iter().map(|p| (p.along_m, p.across_m)).collect();
    for (point, expected) in got.iter().zip([(99.4, 1.1), (100.6, 1.1), (100.6, 1.9), (99.4, 1.9)]) {
        assert!(close(point.0, expected.0, 1e-9) && close(point.1, expected.1, 1e-9), "{got:?}");
    }
    assert!(close(area(&one(&got, &ROAD, &shipped_rules())), 1.25 * 0.85, 1e-9));
}

#[test]
fn figures_say_why() {
    let cut = one(&[(10.0, 1.0), (11.0, 1.0), (11.0, 1.5), (10.0, 1.5)], &ROAD, &shipped_rules());
    assert_eq!(
        cut.area.why.to_string(),
        "A = l * w; l, w: least rectangle around the hole grown by m; l = 1.050 m, w = 0.550 m, m = 25 mm \
         [common practice, no source]"
    );
    assert_eq!(cut.area.why.source.standing, Standing::CommonPractice);
    assert!(cut.perimeter.why.to_string().contains("e = 0.000 m"));
    assert!(cut.wasted.why.to_string().contains("A_h = 0.5000 m²"));
}

#[test]
fn degenerate_rings_are_refused_or_sane() {
    let refused: [(&str, Ring); 8] = [
        ("no point", &[]),
        ("one point", &[(1.0, 1.0)]),
        ("two points", &[(1.0, 1.0), (2.0, 1.0)]),
        ("one point three times", &[(1.0, 1.0), (1.0, 1.0), (1.0, 1.0)]),
        ("on one line", &[(0.0, 0.0), (0.5, 0.5), (1.0, 1.0), (2.0, 2.0)]),
        ("no number", &[(0.0, 0.0), (f64::NAN, 0.0), (1.0, 1.0)]),
        ("infinite", &[(0.0, 0.0), (1.0, f64::INFINITY), (1.0, 1.0)]),
        ("absurdly far", &[(0.0, 0.0), (1e300, 0.0), (1.0, 1.0)]),
    ];
    for (name, ring) in refused {
        let outline = hole("H", ring);
        let error = mark_out(std::slice::from_ref(&outline), &OPEN, &shipped_rules()).expect_err(name);
        assert!(error.to_string().starts_with("hole H: "), "{name}: {error}");
        // NaN is not equal to itself, so errors are compared as text.
        assert_eq!(check_outline(&outline, &OPEN).unwrap_err().to_string(), error.to_string());
    }

    let plain = one(&[(0.0, 0.0), (1.0, 0.0), (1.0, 0.5), (0.0, 0.5)], &OPEN, &shipped_rules());
    let sane: [(&str, Ring); 2] = [
        ("repeated points", &[(0.0, 0.0), (0.0, 0.0), (1.0, 0.0), (1.0, 0.5), (1.0, 0.5), (0.0, 0.5)]),
        ("closed ring", &[(0.0, 0.0), (1.0, 0.0), (1.0, 0.5), (0.0, 0.5), (0.0, 0.0)]),
    ];
    for (name, ring) in sane {
        let cut = one(ring, &OPEN, &shipped_rules());
        assert_eq!((cut.corners, cut.area.value), (plain.corners.clone(), plain.area.value), "{name}");
    }
    // A ring that crosses itself: two triangles of 0.125 each in a cut of 1.05 x 0.55.
    let bow = one(&[(0.0, 0.0), (1.0, 0.5), (1.0, 0.0), (0.0, 0.5)], &OPEN, &shipped_rules());
    assert!(close(bow.wasted.value.in_square_metres(), 0.5775 - 0.25, 1e-6), "{bow:?}");
    // A hair-thin triangle becomes a cut as wide as the tamper.
    let thin = one(&[(0.0, 0.0), (1.0, 0.0), (0.5, 1e-9)], &OPEN, &shipped_rules());
    assert!(close(thin.width.in_metres(), 0.2, 1e-9));
}

#[test]
fn nothing_given_is_nothing_cut_and_bad_settings_are_named() {
    assert_eq!(mark_out(&[], &ROAD, &shipped_rules()), Ok(Vec::new()));
    let turned = Pavement { across_min_m: 3.0, across_max_m: -3.0, ..ROAD };
    assert!(matches!(mark_out(&[], &turned, &shipped_rules()), Err(MarkOutError::BadPavement(_))));
    let mut rules = shipped_rules();
    rules.edge_gap_m.value = f64::NAN;
    assert!(matches!(mark_out(&[], &ROAD, &rules), Err(MarkOutError::BadRule { name: "edge_gap_m", .. })));
}
