//! The rating tables, every cell and every boundary.

mod common;

use common::{TODAY, astm, judge, ltpp, round_hole};
use model::place::FramePoint;
use model::quantity::{InLength, metres, millimetres, square_metres};
use model::rules::severity::SeverityRules;
use model::triage::Severity::{self, High, Low, Medium};
use triage::{equivalent_diameter, least_plan_dimension};

fn severity(depth_mm: f64, diameter_mm: f64, rules: &SeverityRules) -> Option<Severity> {
    judge(&round_hole(depth_mm, diameter_mm), rules, TODAY).severity
}

#[test]
fn the_shipped_rules_make_sense() {
    for rules in [astm(), ltpp()] {
        assert_eq!(triage::check_rules(&rules), Ok(()), "{}", rules.name);
    }
}

/// Severity by ASTM D6433, table of potholes, from memory: the table and the cases of that memory. Shared ends of the
/// printed diameter bands go to the larger one.
#[test]
fn astm_d6433_every_cell_and_boundary() {
    let rules = astm();
    let rows = [
        // diameter    99.9   100    199.9  200          449.9        450         750         751         2000
        (12.9, [None, None, None, None, None, None, None, None, None]),
        (
            13.0,
            [None, Some(Low), Some(Low), Some(Low), Some(Low), Some(Medium), Some(Medium), Some(Medium), Some(Medium)],
        ),
        (
            25.0,
            [None, Some(Low), Some(Low), Some(Low), Some(Low), Some(Medium), Some(Medium), Some(Medium), Some(Medium)],
        ),
        (
            25.1,
            [None, Some(Low), Some(Low), Some(Medium), Some(Medium), Some(High), Some(High), Some(High), Some(High)],
        ),
        (
            50.0,
            [None, Some(Low), Some(Low), Some(Medium), Some(Medium), Some(High), Some(High), Some(High), Some(High)],
        ),
        (
            50.1,
            [
                None,
                Some(Medium),
                Some(Medium),
                Some(Medium),
                Some(Medium),
                Some(High),
                Some(High),
                Some(High),
                Some(High),
            ],
        ),
        (
            300.0,
            [
                None,
                Some(Medium),
                Some(Medium),
                Some(Medium),
                Some(Medium),
                Some(High),
                Some(High),
                Some(High),
                Some(High),
            ],
        ),
    ];
    let diameters = [99.9, 100.0, 199.9, 200.0, 449.9, 450.0, 750.0, 751.0, 2000.0];
    for (depth, expected) in rows {
        for (diameter, expected) in diameters.into_iter().zip(expected) {
            assert_eq!(severity(depth, diameter, &rules), expected, "{depth} mm deep, {diameter} mm across");
        }
    }
    let cases = [
        (20.0, 150.0, Low),
        (25.0, 300.0, Low),
        (26.0, 300.0, Medium),
        (40.0, 600.0, High),
        (60.0, 150.0, Medium),
        (60.0, 300.0, Medium),
        (60.0, 500.0, High),
    ];
    for (depth, diameter, expected) in cases {
        assert_eq!(severity(depth, diameter, &rules), Some(expected), "{depth} mm deep, {diameter} mm across");
    }
}

#[test]
fn rounding_of_a_computer_does_not_decide_at_a_boundary() {
    // 0.1 - 0.075 is 25 mm and eight attometres in floating point; 25 mm across 300 is low.
    let mut hole = round_hole(0.0, 300.0);
    hole.depth = metres(0.1 - 0.075);
    assert!(hole.depth > millimetres(25.0));
    assert_eq!(judge(&hole, &astm(), TODAY).severity, Some(Low));
}

#[test]
fn a_large_hole_counts_as_several() {
    // From memory of ASTM D6433: 30 mm deep, 1.0 m2 is two holes of high severity.
    let mut hole = round_hole(30.0, 0.0);
    hole.area = square_metres(1.0);
    let judgement = judge(&hole, &astm(), TODAY);
    assert_eq!(judgement.severity, Some(High));
    assert!(judgement.severity_why.to_string().contains("counts as = 2.0 holes"));
    hole.depth = millimetres(25.0);
    assert_eq!(judge(&hole, &astm(), TODAY).severity, Some(Medium));
}

/// Severity by the LTPP manual (FHWA-HRT-13-092), limits from memory.
#[test]
fn ltpp_every_boundary() {
    let rules = ltpp();
    let cases = [
        (5.0, 150.0, Some(Low)),
        (24.0, 400.0, Some(Low)),
        (25.0, 400.0, Some(Medium)),
        (50.0, 400.0, Some(Medium)),
        (51.0, 400.0, Some(High)),
        (60.0, 149.9, None),
        (60.0, 150.0, Some(High)),
        (60.0, 3000.0, Some(High)),
    ];
    for (depth, diameter, expected) in cases {
        assert_eq!(severity(depth, diameter, &rules), expected, "{depth} mm deep, {diameter} mm across");
    }
}

#[test]
fn the_two_systems_differ_and_say_which_they_are() {
    let hole = round_hole(60.0, 150.0);
    let (astm, ltpp) = (judge(&hole, &astm(), TODAY), judge(&hole, &ltpp(), TODAY));
    assert_eq!((astm.severity, astm.system.as_str()), (Some(Medium), "ASTM D6433"));
    assert_eq!((ltpp.severity, ltpp.system.as_str()), (Some(High), "LTPP"));
    assert!(ltpp.severity_why.to_string().contains("FHWA-HRT-13-092"));
}

#[test]
fn a_rating_says_why() {
    let why = judge(&round_hole(26.0, 300.0), &astm(), TODAY).severity_why;
    assert_eq!(
        why.to_string(),
        "severity = table(D, d_e); d_e = sqrt(4 * A / pi); system = ASTM D6433, D = 26 mm, A = 0.071 m², d_e = 300 mm, \
         least width = 300 mm, depth band = more than 25 mm to 50 mm inclusive, diameter band = from 200 mm to less than 450 mm \
         [from memory: ASTM D6433, potholes]"
    );
    let why = judge(&round_hole(12.0, 300.0), &astm(), TODAY).severity_why;
    assert!(why.to_string().contains("not rated = less than 13 mm deep"), "{why}");
}

#[test]
fn equivalent_diameters() {
    // By definition of the circle's area: 0.2 x 0.2 m is as large as a circle of 225.68 mm.
    for (area, expected_mm) in [(0.04, 225.6758), (std::f64::consts::PI, 2000.0), (0.0, 0.0)] {
        assert!((equivalent_diameter(square_metres(area)).in_millimetres() - expected_mm).abs() < 1e-4);
    }
}

#[test]
fn least_plan_dimensions() {
    let ring = |points: &[(f64, f64)]| -> Vec<FramePoint> {
        points.iter().map(|&(along_m, across_m)| FramePoint { along_m, across_m }).collect()
    };
    // A rectangle turned by a quarter of a right angle is as narrow as before; a triangle's least width is its least
    // height; a star is as wide as its hull.
    let root = std::f64::consts::FRAC_1_SQRT_2;
    let cases = [
        (ring(&[(0.0, 0.0), (0.8, 0.0), (0.8, 0.3), (0.0, 0.3)]), 0.3),
        (ring(&[(0.0, 0.0), (0.8 * root, 0.8 * root), (0.5 * root, 1.1 * root), (-0.3 * root, 0.3 * root)]), 0.3),
        (ring(&[(0.0, 0.0), (3.0, 0.0), (0.0, 4.0)]), 2.4),
        (ring(&[(0.0, 0.0), (1.0, 0.4), (2.0, 0.0), (1.0, 2.0)]), 4.0 / f64::hypot(1.0, 2.0)),
        (ring(&[(0.0, 0.0), (1.0, 1.0)]), 0.0),
        (ring(&[]), 0.0),
    ];
    for (ring, expected_m) in cases {
        let width = least_plan_dimension(&ring).in_metres();
        assert!((width - expected_m).abs() < 1e-9, "{width}, expected {expected_m}");
    }
}
