//! The sealed area against shapely (GEOS) on seeded cuts; `reference/seal_area.py` wrote the values.

use crate::support::{near, ring};
use model::quantity::{InArea, metres};
use repair::{Pavement, seal_area};
use serde::Deserialize;

#[derive(Deserialize)]
struct Reference {
    cases: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    corners: Vec<(f64, f64)>,
    pavement: Option<(f64, f64)>,
    overlap: f64,
    area: f64,
}

/// Tolerance 1e-6 relative: both work with mitred corners; ours on a fine integer grid.
#[test]
fn sealed_areas_agree_with_shapely() {
    let reference: Reference = serde_json::from_str(include_str!("../reference/seal_area.json")).unwrap();
    assert_eq!(reference.cases.len(), 60);
    for case in reference.cases {
        let pavement = case.pavement.map(|(left, right)| Pavement { left: metres(left), right: metres(right) });
        let found = seal_area(&ring(&case.corners), pavement, metres(case.overlap));
        near(found.in_square_metres(), case.area, 1e-6);
    }
}
