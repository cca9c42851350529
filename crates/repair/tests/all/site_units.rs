//! Amounts in wheelbarrows and buckets.

use model::figure::{Figure, Source, Spread, Why};
use model::quantity::{Volume, litres};
use model::site_unit::{SiteGood, SiteUnit};
use repair::{Drawn, Part, repair, site_count};
use serde::Deserialize;

use crate::support::{Example, rules};

fn unit(name: &str, volume_l: f64, holds: &[SiteGood]) -> SiteUnit {
    SiteUnit { name: name.into(), plural: format!("{name}s"), volume: litres(volume_l), holds: holds.to_vec() }
}

/// As on the handbook's page.
fn units() -> Vec<SiteUnit> {
    vec![
        unit("bucket", 10.0, &[SiteGood::Base, SiteGood::Water]),
        unit("wheelbarrow", 60.0, &[SiteGood::Base, SiteGood::Spoil]),
        unit("shovel", 5.0, &[SiteGood::Base]),
    ]
}

fn exact(volume_l: f64) -> Figure<Volume> {
    Figure::exact(litres(volume_l), Why::new("V", Source::definition()))
}

fn spread([p10, p50, p90]: [f64; 3]) -> Figure<Volume> {
    Figure { spread: Some(Spread { p10: litres(p10), p50: litres(p50), p90: litres(p90) }), ..exact(p50 / 1.2) }
}

#[derive(Deserialize)]
struct Count {
    litres: [f64; 3],
    unit: String,
    counts: [u32; 3],
    words: String,
}

#[test]
fn the_handbooks_examples() {
    for case in testkit::worked_examples::<Count>("site-units", "count") {
        let found = site_count(SiteGood::Base, &spread(case.litres), &units()).unwrap();
        let Spread { p10, p50, p90 } = found.count.spread.unwrap();
        assert_eq!((found.name.as_str(), [p10, p50, p90]), (case.unit.as_str(), case.counts));
        assert_eq!(found.words(), case.words);
        let why = found.count.why.to_string();
        assert!(why.starts_with("n = ceil(V / v); V as surveyed = ") && why.contains(&case.unit), "{why}");
    }
}

#[test]
fn counts_are_whole_units_and_a_full_one_is_no_more_than_itself() {
    let count = |volume_l: f64| site_count(SiteGood::Spoil, &exact(volume_l), &units()).map(|found| found.count.value);
    assert_eq!(count(60.0), Some(1));
    assert_eq!(count(60.1), Some(2));
    assert_eq!(count(3.0 * 60.0), Some(3));
    assert_eq!(count(1e-3), Some(1));
    assert_eq!(count(0.0), None);
    assert_eq!(count(f64::NAN), None);
    // Two are enough to take the larger unit, a little less is not.
    let name = |volume_l: f64| site_count(SiteGood::Base, &exact(volume_l), &units()).unwrap().name;
    assert_eq!((name(120.0).as_str(), name(119.9).as_str()), ("wheelbarrow", "bucket"));
    assert_eq!((name(20.0).as_str(), name(19.9).as_str()), ("bucket", "shovel"));
    assert_eq!(name(1.0), "shovel");
    // Nothing for that good, or a unit of no size.
    assert_eq!(site_count(SiteGood::Binder, &exact(50.0), &units()), None);
    assert_eq!(site_count(SiteGood::Base, &exact(50.0), &[unit("thimble", 0.0, &[SiteGood::Base])]), None);
}

#[test]
fn a_repair_and_a_total_count_what_there_is_a_unit_for() {
    let (mut example, rules) = (Example::worked(), rules());
    assert!(repair(&example.input(), &rules).site_counts.is_empty());
    example.site_units = units();
    let found = repair(&example.input(), &rules);
    let goods: Vec<SiteGood> = found.site_counts.iter().map(|count| count.good).collect();
    assert_eq!(goods, [SiteGood::Base, SiteGood::Water, SiteGood::Spoil]);
    // 328.02 L of loose base as surveyed, 60 L a barrow; 14.1 L of water, 10 L a bucket.
    assert_eq!(found.site_counts[0].count.value, 6);
    assert_eq!((found.site_counts[1].name.as_str(), found.site_counts[1].count.value), ("bucket", 2));
    let parts = [Part { road: 0, input: example.input() }];
    let totals = Drawn::new(&parts, &rules, 1).totals(&[0]);
    assert_eq!(totals.site_counts.len(), 3);
    assert_eq!(totals.site_counts[0].count.spread, found.site_counts[0].count.spread);
}
