//! A district's worth of holes at once: `cargo test -p markout --release --test speed -- --ignored --nocapture`.

mod common;

use std::time::Instant;

use common::{ROAD, hole, shipped_rules};
use markout::{Pavement, mark_out};

#[test]
#[allow(clippy::disallowed_methods)] // a test of time reads the clock
#[ignore = "measures time; run it in release on a quiet machine"]
fn a_thousand_outlines_of_a_hundred_points() {
    let ring = |middle: f64, phase: f64| -> Vec<(f64, f64)> {
        (0..100)
            .map(|index| {
                let angle = std::f64::consts::TAU * f64::from(index) / 100.0;
                let radius = 0.3 + 0.15 * (3.0 * angle + phase).sin() + 0.02 * (17.0 * angle).cos();
                (middle + radius * angle.cos(), radius * angle.sin())
            })
            .collect()
    };
    let road = Pavement { along_max_m: 1e6, ..ROAD };
    for (name, apart_m) in [("apart", 5.0), ("in one chain", 1.0)] {
        let holes: Vec<_> =
            (0..1000).map(|i| hole(&i.to_string(), &ring(5.0 + apart_m * f64::from(i), f64::from(i)))).collect();
        let start = Instant::now();
        let cuts = mark_out(&holes, &road, &shipped_rules()).unwrap();
        let seconds = start.elapsed().as_secs_f64();
        println!("1,000 holes of 100 points {name}: {} cuts in {seconds:.3} s", cuts.len());
        assert!(seconds < 1.0, "{name}: {seconds} s");
    }
}
