//! What the search found before: the cost of every cut, and what it costs to keep it so.
//!
//! The exhaustive search bounds the cost from below to a hundredth and knows neither pavement nor wheel paths. This table
//! is finer and has both: a change of the search that makes a cut dearer is seen here, and so is one that makes it cheaper,
//! which is written down with `LENGTHSMAN_WRITE_COSTS=1`.

mod common;

use std::path::PathBuf;

use common::{OPEN, ROAD, close, cost, cost_rules, hole, shapes, shipped_rules};
use markout::{Pavement, WheelPath, mark_out};
use model::rules::markout::MarkOutRules;

const SHAPES: usize = 120;

/// A millionth of a square metre: the last digits may differ between processors.
const SAME_M2: f64 = 1e-6;

/// A name, where the hole is, its pavement, the rules.
type Setting = (&'static str, f64, Pavement, MarkOutRules);

#[test]
fn cuts_cost_what_they_did() {
    let found: Vec<(String, Vec<[f64; 2]>)> = settings().map(|setting| (setting.0.to_owned(), costs(&setting))).into();
    let path = PathBuf::from(std::env::var("CARGO_MANIFEST_DIR").unwrap()).join("tests/reference/recorded_costs.json");
    if std::env::var_os("LENGTHSMAN_WRITE_COSTS").is_some() {
        std::fs::write(&path, serde_json::to_string(&found).unwrap().replace("]],", "]],\n") + "\n").unwrap();
    }
    let recorded: Vec<(String, Vec<[f64; 2]>)> =
        serde_json::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
    for ((name, found), (_, recorded)) in found.iter().zip(&recorded) {
        assert_eq!(found.len(), recorded.len(), "{name}");
        for (index, (now, before)) in found.iter().zip(recorded).enumerate() {
            assert!(
                close(now[0], before[0], SAME_M2) && now[1] == before[1],
                "{name}, shape {index}: {now:?} {before:?}"
            );
        }
    }
    assert_eq!(recorded.len(), found.len());
}

/// Cost and corners of all cuts of each shape.
fn costs((_, across, pavement, rules): &Setting) -> Vec<[f64; 2]> {
    let of_shape = |rings: &Vec<Vec<(f64, f64)>>| {
        let moved = |ring: &Vec<(f64, f64)>| ring.iter().map(|p| (p.0 + 500.0, p.1 + across)).collect::<Vec<_>>();
        let holes: Vec<_> = rings.iter().map(|ring| hole("H", &moved(ring))).collect();
        let cuts = mark_out(&holes, pavement, rules).unwrap();
        [cuts.iter().map(|cut| cost(cut, rules)).sum(), cuts.iter().map(|cut| cut.corners.len() as f64).sum()]
    };
    shapes(SHAPES, 815).iter().map(of_shape).collect()
}

fn settings() -> [Setting; 5] {
    let mut six = cost_rules();
    six.most_corners.value = 6;
    six.edge_price_m2_per_m.value = 0.0;
    let mut thick = cost_rules();
    (thick.smallest_notch_m.value, thick.smallest_side_m.value, thick.merge_gap_m.value) = (0.3, 0.45, 0.1);
    (thick.edge_price_m2_per_m.value, thick.corner_price_m2.value) = (0.04, 0.01);
    let mut wheels = shipped_rules();
    wheels.wheel_path.keep_clear.value = true;
    let paths = [-2.4, -0.6, 0.6, 2.4].map(|at| WheelPath { across_min_m: at - 0.3, across_max_m: at + 0.3 });
    let tracked = Pavement { wheel_paths: paths.to_vec(), ..ROAD };
    [
        ("open", 0.0, OPEN, cost_rules()),
        ("six corners", 0.0, OPEN, six),
        ("thick arms", 0.0, OPEN, thick),
        ("at the edge, far limit", 2.4, ROAD, shipped_rules()),
        ("between wheel paths", -1.0, tracked, wheels),
    ]
}
