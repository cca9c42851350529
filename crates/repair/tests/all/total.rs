//! The sum over holes against seeded sampling.

use crate::support::{Example, near, rules};
use model::figure::Spread;
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64;
use repair::growth::normal_quantile;
use repair::{Part, repair, total_at, total_spread};

/// Standard normal table (any textbook): 1.2816 at 0.90, 1.6449 at 0.95, 2.3263 at 0.99.
#[test]
fn normal_quantiles() {
    for (p, z) in [(0.5, 0.0), (0.9, 1.2816), (0.95, 1.6449), (0.99, 2.3263), (0.1, -1.2816)] {
        assert!((normal_quantile(p) - z).abs() < 5e-5, "p {p}");
    }
    // Out of range and not a number stay finite, on the cautious side.
    assert!(normal_quantile(f64::NAN) == normal_quantile(1.0) && normal_quantile(1.0).is_finite());
    assert!(normal_quantile(-3.0).is_finite());
}

fn parts() -> Vec<Part<u32>> {
    (0..12_u32)
        .map(|i| Part { road: i / 4, median: 0.1 + 0.05 * f64::from(i % 5), sigma: 0.20 + 0.03 * f64::from(i % 3) })
        .collect()
}

/// Quantiles of sampled sums: one common normal per road, one of its own per hole.
fn sampled(parts: &[Part<u32>], same_road: f64) -> Spread<f64> {
    const DRAWS: usize = 100_000;
    let mut chance = Pcg64::seed_from_u64(20);
    let mut normal = || normal_quantile(chance.random::<f64>());
    let mut sums: Vec<f64> = (0..DRAWS)
        .map(|_| {
            let common = [normal(), normal(), normal()];
            parts
                .iter()
                .map(|part| {
                    let z = same_road.sqrt() * common[part.road as usize] + (1.0 - same_road).sqrt() * normal();
                    part.median * (part.sigma * z).exp()
                })
                .sum()
        })
        .collect();
    sums.sort_by(f64::total_cmp);
    Spread { p10: sums[DRAWS / 10], p50: sums[DRAWS / 2], p90: sums[DRAWS * 9 / 10] }
}

/// Tolerance 0.5 %: the sampling error at these widths is below 0.2 %, the rest is the approximation.
#[test]
fn a_total_agrees_with_sampling() {
    let parts = parts();
    for same_road in [0.0, 0.5, 1.0] {
        let (found, drawn) = (total_spread(&parts, same_road), sampled(&parts, same_road));
        println!("{same_road}: {found:?} {drawn:?}");
        near(found.p10, drawn.p10, 5e-3);
        near(found.p50, drawn.p50, 5e-3);
        near(found.p90, drawn.p90, 5e-3);
    }
}

#[test]
fn a_common_factor_widens_the_total() {
    let parts = parts();
    let width = |same_road| {
        let spread = total_spread(&parts, same_road);
        spread.p90 - spread.p10
    };
    assert!(width(0.0) < width(0.5) && width(0.5) < width(1.0));
}

#[test]
fn one_hole_is_its_own_total() {
    let (example, rules) = (Example::worked(), rules());
    let spread = repair(&example.input(), &rules).fill_volume.map(|v| v.value).spread.unwrap();
    let part = Part::from_spread("road 12", &spread);
    let total = total_spread(&[part], 0.5);
    // The crown makes the volume not quite log-normal.
    near(total.p10, spread.p10, 1e-3);
    near(total.p50, spread.p50, 1e-9);
    near(total.p90, spread.p90, 1e-3);
}

#[test]
fn nothing_adds_nothing() {
    let none: [Part<u32>; 0] = [];
    assert_eq!(total_at(&none, 0.5, 0.9), 0.0);
    let dry = Part::from_spread(1, &Spread { p10: 0.0, p50: 0.0, p90: 0.0 });
    assert_eq!(total_spread(&[dry, dry], 0.5), Spread { p10: 0.0, p50: 0.0, p90: 0.0 });
}
