//! From how far a device must be seen.

mod common;

use common::rules;
use serde::Deserialize;
use workzone::{flagger_seen_from, sign_seen_from};

#[derive(Deserialize)]
struct Row {
    device: String,
    speed_mph: f64,
    wanted_ft: f64,
}

#[test]
fn distances_reach_the_worked_examples_of_the_handbook() {
    for row in testkit::worked_examples::<Row>("placing-on-the-road", "seen_from") {
        let found = match row.device.as_str() {
            "flagger" => flagger_seen_from(row.speed_mph, &rules()),
            "first sign" => sign_seen_from(row.speed_mph, &rules()),
            other => panic!("{other}"),
        };
        assert!((found.value - row.wanted_ft).abs() < 1e-9, "{} at {} mph: {}", row.device, row.speed_mph, found.value);
    }
}

#[test]
fn what_counts_is_the_longest() {
    let mut rules = rules();
    rules.sight.sign_seen_s.value = 10.0;
    // 50 mph is 73.33 ft/s.
    assert!((sign_seen_from(50.0, &rules).value - 733.333).abs() < 0.001);
    rules.sight.sign_seen_min.value = 800.0;
    assert_eq!(sign_seen_from(50.0, &rules).value, 800.0);
    assert_eq!(flagger_seen_from(50.0, &rules).value, 425.0);
}
