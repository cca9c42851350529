//! Layers one by one, the crown, and what is said of layers too thin for their stone.

use model::quantity::{InLength, InTime, InVolume, millimetres};
use repair::repair;

use crate::support::{Example, near, rules};

/// By hand: 1.2 by 0.9 m, 0.220 m deep, in two layers of 0.110 m; loose over compacted 2156 * 1.04 / 1650 = 1.358933.
#[test]
fn each_layer_comes_out_as_by_hand() {
    let found = repair(&Example::worked().input(), &rules());
    assert_eq!(found.layers.iter().map(|layer| layer.number).collect::<Vec<_>>(), [1, 2]);
    let [first, last] = &found.layers[..] else { panic!("two layers") };
    for layer in [first, last] {
        assert_eq!(layer.compactor, "pedestrian roller");
        near(layer.thickness.in_metres(), 0.110, 1e-9);
        near(layer.loose_thickness.in_metres(), 0.149483, 1e-5);
        assert_eq!((layer.static_passes, layer.vibrating_passes, layer.lanes), (2, 12, 2));
        // 2 lanes of 14 passes of 1.2 / 0.416667 + 5 s.
        near(layer.time.in_seconds(), 220.64, 1e-9);
        assert!(layer.why.to_string().contains("t = 0.110 m"), "{}", layer.why);
    }
    // 1.08 * 0.110; and 1.08 * (0.110 + 0.0035) with its crown.
    near(first.volume.in_cubic_metres(), 0.1188, 1e-9);
    near(last.volume.in_cubic_metres(), 0.12258, 1e-9);
    near(first.loose_volume.in_cubic_metres(), 0.161441, 5e-6);
    near(last.loose_volume.in_cubic_metres(), 0.166578, 5e-6);
}

#[test]
fn the_last_layer_stands_proud_by_the_loose_height() {
    let crown = repair(&Example::worked().input(), &rules()).crown;
    near(crown.middle.value.in_millimetres(), 7.0, 1e-9);
    near(crown.mean.value.in_millimetres(), 3.5, 1e-9);
    // 110 * 1.358933 - 110 and 117 * 1.358933 - 110.
    near(crown.loose_at_sides.value.in_millimetres(), 39.4827, 1e-5);
    near(crown.loose_in_middle.value.in_millimetres(), 48.9952, 1e-5);
    assert!(crown.loose_in_middle.why.to_string().contains("crown c in the middle = 0.007 m"));
    assert!(crown.loose_at_sides.why.to_string().contains("crown c at the sides = 0.000 m"));
}

/// 2.5 times the stone: from memory, see the rules.
#[test]
fn layers_too_thin_for_their_stone_are_said_with_the_depth_that_helps() {
    let remarks = |depth: f64, stone_mm: Option<f64>| {
        let mut example = Example::sized(0.5, 0.3, depth).with(&[]);
        example.base.largest_stone = stone_mm.map(millimetres);
        repair(&example.input(), &rules()).remarks
    };
    // By hand 75 mm at most: 150 mm are two layers of 75, 100 mm two of 50, 99 mm two of 49.5.
    assert_eq!(remarks(0.150, Some(20.0)), Vec::<String>::new());
    assert_eq!(remarks(0.100, Some(20.0)), Vec::<String>::new());
    assert_eq!(remarks(0.099, None), Vec::<String>::new());
    let thin = remarks(0.099, Some(20.0));
    assert_eq!(
        thin,
        ["Layers of 50 mm are under 2.5 times the largest stone (20 mm): dig to 100 mm, or use smaller stone or a \
             stronger compactor (from memory: TRL Overseas Road Note 2 and general field practice, 2 to 3 times \
          the largest stone)."]
    );
    // One layer only: 40 mm of stones of 20 mm.
    assert!(remarks(0.040, Some(20.0))[0].contains("dig to 50 mm"));
    // 80 mm are more than a hand tamper compacts.
    let coarse = remarks(0.150, Some(32.0));
    assert!(coarse[0].contains(": use smaller stone or a stronger"), "{}", coarse[0]);
}
