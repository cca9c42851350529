//! The sealed area against areas worked out by hand.

use crate::support::{Example, near, rectangle, ring, rules};
use model::quantity::{InArea, InVolume, metres};
use repair::{Pavement, repair, seal_area};

const OVERLAP: f64 = 0.08;
// The polygon library works on a fine integer grid: areas hold to about 1e-7.
const GRID: f64 = 1e-6;

#[track_caller]
fn area(points: &[(f64, f64)], pavement: Option<(f64, f64)>, expected: f64) {
    let pavement = pavement.map(|(left, right)| Pavement { left: metres(left), right: metres(right) });
    near(seal_area(&ring(points), pavement, metres(OVERLAP)).in_square_metres(), expected, GRID);
}

#[test]
fn a_rectangle_grows_on_each_side() {
    // 1.36 x 1.06, whichever way the ring runs.
    area(&[(0.0, 0.0), (1.2, 0.0), (1.2, 0.9), (0.0, 0.9)], None, 1.4416);
    area(&[(0.0, 0.9), (1.2, 0.9), (1.2, 0.0), (0.0, 0.0)], None, 1.4416);
}

#[test]
fn a_turned_rectangle_grows_alike() {
    let (sin, cos) = 0.4_f64.sin_cos();
    let turned: Vec<(f64, f64)> = [(0.0, 0.0), (1.2, 0.0), (1.2, 0.9), (0.0, 0.9)]
        .iter()
        .map(|&(x, y)| (350.0 + cos * x - sin * y, -1.5 + sin * x + cos * y))
        .collect();
    area(&turned, None, 1.4416);
}

#[test]
fn an_l_shape_keeps_its_notch_and_its_mitred_corners() {
    // 2 x 2 less a corner of 1 x 1, grown by 0.08: 2.16 x 2.16 less a notch of 1 x 1 (moved, not smaller).
    area(&[(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.0, 1.0), (1.0, 2.0), (0.0, 2.0)], None, 2.16 * 2.16 - 1.0);
}

#[test]
fn the_pavement_edge_ends_the_seal() {
    let cut = [(0.0, 0.0), (1.2, 0.0), (1.2, 0.9), (0.0, 0.9)];
    // On the right edge: no overlap there. 0.05 m from it: 0.05 m of overlap. Both edges: none across.
    area(&cut, Some((-3.0, 0.9)), 1.36 * 0.98);
    area(&cut, Some((-3.0, 0.95)), 1.36 * 1.03);
    area(&cut, Some((0.0, 0.9)), 1.36 * 0.9);
    area(&cut, Some((-3.0, 3.0)), 1.4416);
}

#[test]
fn what_is_no_polygon_has_no_area() {
    area(&[(0.0, 0.0), (1.0, 0.0)], None, 0.0);
    area(&[(0.0, 0.0), (1.0, f64::NAN), (1.0, 1.0)], None, 0.0);
}

#[test]
fn at_the_edge_a_cut_grows_inwards() {
    let (mut example, rules) = (Example::worked(), rules());
    example.corners = rectangle(1.2, 0.9);
    for (left, right) in [(-6.0, 0.45), (-0.45, 6.0)] {
        let mut input = example.input();
        input.pavement = Some(Pavement { left: metres(left), right: metres(right) });
        let found = repair(&input, &rules).seal_area;
        near(found.value.in_square_metres(), 1.36 * 0.98, GRID);
        // P90: sides grow by the root of 1.222253; the overlap is there on three sides still.
        let side = 1.222253_f64.sqrt();
        near(found.p90().in_square_metres(), (1.2 * side + 0.16) * (0.9 * side + 0.08), 1e-5);
    }
}

#[test]
fn all_that_is_cut_is_sealed_even_over_the_edge() {
    let example = Example::worked();
    let mut input = example.input();
    // A strip narrower than the cut: road data is seldom right to the centimetre.
    input.pavement = Some(Pavement { left: metres(-0.3), right: metres(0.3) });
    let found = repair(&input, &rules());
    near(found.seal_area.value.in_square_metres(), 1.08, GRID);
    near(found.binder_volume.value.in_litres(), found.binder_rate.value.0 * 1.08, GRID);
}
