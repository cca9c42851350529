//! Which compactor is taken, and lanes across.

use crate::support::{Example, compactor, near, rules};
use model::quantity::InTime;
use model::quantity::{metres, seconds};
use repair::compaction::{CompactorKind, choose, lanes_across, rolling_time};
use repair::repair;

/// Common practice, no source: a drum that does not go between the sides compacts the last layer only.
#[test]
fn the_best_compactor_that_fits_is_taken() {
    let rules = rules();
    let plant = Example::worked().plant;
    // Drum 0.65 m, plate 0.45 m, clearance 0.02 m.
    for (width, kind) in [
        (0.90, CompactorKind::Roller),
        (0.67, CompactorKind::Roller),
        (0.66, CompactorKind::Plate),
        (0.47, CompactorKind::Plate),
        (0.46, CompactorKind::HandTamper),
    ] {
        assert_eq!(choose(&plant, metres(width), &rules.compactor).kind, kind, "cut {width} m wide");
    }
    let mut no_roller = plant.clone();
    no_roller.roller = None;
    let choice = choose(&no_roller, metres(2.0), &rules.compactor);
    assert_eq!(choice.kind, CompactorKind::Plate);
    assert!(choice.reason.contains("no roller aboard"), "{}", choice.reason);
}

/// Common practice, no source: one layer up to 150 mm with the roller, half as thick with a hand tamper.
#[test]
fn a_hand_tamper_needs_twice_the_layers() {
    let rules = rules();
    let wide = Example::sized(1.2, 0.9, 0.15);
    let narrow = Example::sized(1.2, 0.4, 0.15);
    assert_eq!(repair(&wide.input(), &rules).layer_count.value, 1);
    let by_hand = repair(&narrow.input(), &rules);
    assert_eq!(by_hand.layer_count.value, 2);
    assert_eq!((by_hand.static_passes.value, by_hand.vibrating_passes.value), (4, 0));
    assert!(by_hand.layer_count.why.to_string().contains("does not fit"));
}

#[test]
fn lanes_cover_the_width() {
    for (width, machine, overlap, lanes) in [
        (0.9, 0.65, 0.10, 2),
        (0.65, 0.65, 0.10, 1),
        (0.5, 0.65, 0.10, 1),
        (1.2, 0.65, 0.10, 2), // 2 * 0.65 - 0.10 is exactly 1.2
        (1.21, 0.65, 0.10, 3),
        (0.5, 0.10, 0.20, 9), // an overlap over half the machine counts as half: (0.5 - 0.05) / 0.05
    ] {
        assert_eq!(lanes_across(metres(width), metres(machine), metres(overlap)), lanes, "{width} by {machine}");
    }
}

#[test]
fn rolling_time_is_layers_by_lanes_by_passes() {
    // 3.6 km/h is 1 m/s: 2 * 3 * 14 * (4 + 5) s.
    let time = rolling_time(2, 3, 14, metres(4.0), &compactor(0.65, 3.6), seconds(5.0));
    near(time.in_seconds(), 756.0, 1e-9);
}
