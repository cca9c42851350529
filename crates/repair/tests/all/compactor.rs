//! Which compactor is taken, its lanes, its time.

use crate::support::{Example, compactor, near, rectangle, ring, rules};
use model::district::{Compactor, CompactorKind, CompactorKind as Kind};
use model::place::FramePoint;
use model::quantity::{InLength, InTime, kilometres_per_hour, metres, seconds};
use repair::compaction::ground::Part;
use repair::compaction::{Ground, Machine, choose, lanes_across, rolling_time};
use repair::repair;

fn usual(kind: CompactorKind) -> Compactor {
    Compactor { kind, width: None, speed: None }
}

/// What is taken for a rectangle of that length and width, by the kinds aboard: inside, and for the last layer.
fn taken(length: f64, width: f64, depth: f64, aboard: &[Kind]) -> (Kind, Option<Kind>) {
    let compactors: Vec<Compactor> = aboard.iter().map(|kind| usual(*kind)).collect();
    let example = Example::sized(length, width, depth).with(&compactors);
    let rules = rules();
    let ground = Ground::new(&example.corners, metres(length), metres(width));
    let choice = choose(&example.plant, &ground, metres(depth), &rules.compactor);
    (choice.in_cut.kind, choice.last.map(|machine| machine.kind))
}

/// Common practice, no source: a drum that does not go between the sides compacts the last layer only.
#[test]
fn the_strongest_compactor_that_fits_is_taken() {
    let all = Kind::ALL;
    // Free play of 20 mm beside roller (0.65 m), heavy plate (0.60 m), plate (0.50 m), rammer (0.28 m).
    for (length, width, kind) in [
        (8.0, 2.00, Kind::SingleDrumRoller), // drum 1.70 m, free play 0.30 m
        (8.0, 1.99, Kind::HeavyPlate),       // quicker than the pedestrian roller at the same layer
        (5.9, 2.50, Kind::HeavyPlate),       // the single drum needs 6 m
        (0.9, 0.62, Kind::TrenchRammer), // 12 * (0.9 / 0.16667 + 2) s = 88.8 s against 12 * (0.9 / 0.33333 + 5) s = 92.4 s
        (0.9, 0.30, Kind::TrenchRammer),
        (0.9, 0.29, Kind::HandTamper),
    ] {
        assert_eq!(taken(length, width, 0.2, &all).0, kind, "{length} x {width} m");
    }
    let plates = [Kind::VibratingPlate, Kind::HeavyPlate];
    assert_eq!(taken(0.9, 0.62, 0.2, &plates).0, Kind::HeavyPlate);
    assert_eq!(taken(0.9, 0.61, 0.2, &plates).0, Kind::VibratingPlate);
    assert_eq!(taken(0.89, 0.62, 0.2, &plates).0, Kind::VibratingPlate);
    // Thinner layers only where nothing stronger goes in.
    let light = [Kind::VibratingPlate, Kind::PedestrianRoller];
    assert_eq!(taken(1.0, 0.67, 0.2, &light).0, Kind::PedestrianRoller);
    assert_eq!(taken(0.99, 0.67, 0.2, &light).0, Kind::VibratingPlate);
    assert_eq!(taken(1.0, 0.66, 0.2, &light).0, Kind::VibratingPlate);
    assert_eq!(taken(0.6, 0.52, 0.2, &light).0, Kind::VibratingPlate);
    assert_eq!(taken(0.59, 0.52, 0.2, &light).0, Kind::HandTamper);
    assert_eq!(taken(3.0, 3.0, 0.2, &[]).0, Kind::HandTamper);
    // A tandem never goes down into a cut.
    assert_eq!(taken(30.0, 3.0, 0.05, &[Kind::TandemRoller]).0, Kind::HandTamper);
}

/// Common practice, no source: the tandem over the crown.
#[test]
fn a_drum_that_does_not_fit_may_finish_the_last_of_several_layers() {
    let aboard = [Kind::VibratingPlate, Kind::TandemRoller];
    assert_eq!(taken(1.2, 0.9, 0.18, &aboard), (Kind::VibratingPlate, Some(Kind::TandemRoller)));
    // One layer: the plate does it all.
    assert_eq!(taken(1.2, 0.9, 0.10, &aboard), (Kind::VibratingPlate, None));
    // A drum inside the cut finishes by itself.
    assert_eq!(taken(1.2, 0.9, 0.30, &[Kind::PedestrianRoller, Kind::TandemRoller]), (Kind::PedestrianRoller, None));
    // The tandem's 100 mm are less than the rammer's 150 mm layers.
    assert_eq!(taken(1.2, 0.9, 0.30, &[Kind::TrenchRammer, Kind::TandemRoller]), (Kind::TrenchRammer, None));
    // Of two that may, the quicker: one lane of 14 passes of (0.6 / 0.41667 + 5) s, 90.2 s, against one of 6 passes of
    // (0.6 / 0.83333 + 6) s, 40.3 s.
    let both = [Kind::PedestrianRoller, Kind::TandemRoller];
    assert_eq!(taken(0.6, 0.6, 0.10, &both), (Kind::HandTamper, Some(Kind::TandemRoller)));

    let rules = rules();
    let found = repair(&Example::sized(1.2, 0.9, 0.18).with(&aboard.map(usual)).input(), &rules);
    let by: Vec<&str> = found.layers.iter().map(|layer| layer.compactor.as_str()).collect();
    assert_eq!(by, ["vibrating plate", "tandem steel roller"]);
    assert_eq!(found.compactor.split(" (").next(), Some("vibrating plate, last layer tandem steel roller"));
    // Plate: 2 lanes of 6 passes of (1.2 / 0.25 + 4) s; tandem: 1 lane of 6 passes of (1.2 / 0.833333 + 6) s.
    near(found.layers[0].time.in_seconds(), 12.0 * 8.8, 1e-9);
    near(found.layers[1].time.in_seconds(), 6.0 * 7.44, 1e-9);
    near(found.rolling_time.value.in_seconds(), 150.24, 1e-9);
    assert_eq!((found.layers[1].static_passes, found.layers[1].vibrating_passes, found.layers[1].lanes), (6, 0, 1));
    assert_eq!(found.patterns.len(), 2);
    let why = found.rolling_time.why.to_string();
    assert!(why.contains("last layer: compactor = tandem steel roller") && why.contains("last layer: passes = 6"));
}

#[test]
fn the_choice_says_why() {
    let rules = rules();
    let reason = |length: f64, width: f64, aboard: &[Kind]| {
        let compactors: Vec<Compactor> = aboard.iter().map(|kind| usual(*kind)).collect();
        let example = Example::sized(length, width, 0.2).with(&compactors);
        let ground = Ground::new(&example.corners, metres(length), metres(width));
        choose(&example.plant, &ground, metres(0.2), &rules.compactor).reason
    };
    let light = [Kind::PedestrianRoller, Kind::VibratingPlate];
    assert_eq!(reason(1.2, 0.9, &light), "pedestrian roller fits between the sides");
    assert_eq!(
        reason(1.2, 0.6, &light),
        "pedestrian roller of 0.65 m does not fit a cut of 0.60 m clear width; vibrating plate fits between the sides; \
         pedestrian roller finishes the last layer from above"
    );
    assert_eq!(
        reason(0.9, 0.9, &light),
        "pedestrian roller does not fit a cut shorter than 1.0 m; vibrating plate fits between the sides; pedestrian \
         roller finishes the last layer from above"
    );
    assert_eq!(
        reason(0.5, 0.5, &[Kind::TandemRoller]),
        "tandem steel roller does not work inside a cut; a hand tamper fits every cut; tandem steel roller finishes the \
         last layer from above"
    );
}

/// Common practice, no source: one layer up to 150 mm with the roller, half as thick with a hand tamper.
#[test]
fn a_hand_tamper_needs_twice_the_layers() {
    let rules = rules();
    let wide = Example::sized(1.2, 0.9, 0.15);
    let narrow = Example::sized(1.2, 0.4, 0.15).with(&[]);
    assert_eq!(repair(&wide.input(), &rules).layer_count.value, 1);
    let by_hand = repair(&narrow.input(), &rules);
    assert_eq!(by_hand.layer_count.value, 2);
    assert_eq!((by_hand.static_passes.value, by_hand.vibrating_passes.value), (4, 0));
    assert!(by_hand.layer_count.why.to_string().contains("hand tamper fits every cut"));
}

#[test]
fn what_the_crew_does_not_say_of_its_machine_is_as_usual() {
    let rules = rules();
    let machine = Machine::new(&usual(Kind::HeavyPlate), &rules.compactor);
    assert_eq!((machine.width.in_metres(), machine.speed), (0.6, kilometres_per_hour(1.2)));
    let own = Machine::new(&compactor(Kind::HeavyPlate, 0.7, 2.0), &rules.compactor);
    assert_eq!((own.width.in_metres(), own.speed), (0.7, kilometres_per_hour(2.0)));
    assert_eq!(own.passes(), 6);
    assert_eq!(Machine::new(&usual(Kind::PedestrianRoller), &rules.compactor).passes(), 14);
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
    let time = rolling_time(2, 3, 14, metres(4.0), kilometres_per_hour(3.6), seconds(5.0));
    near(time.in_seconds(), 756.0, 1e-9);
}

/// An L of 2.0 by 1.6 m; both arms 0.8 m wide.
fn ell() -> Vec<FramePoint> {
    ring(&[(0.0, 0.0), (2.0, 0.0), (2.0, 0.8), (0.8, 0.8), (0.8, 1.6), (0.0, 1.6)])
}

fn turned(corners: &[FramePoint], degrees: f64) -> Vec<FramePoint> {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let turn = |p: &FramePoint| FramePoint {
        along_m: 3.0 + p.along_m * cos - p.across_m * sin,
        across_m: -1.0 + p.along_m * sin + p.across_m * cos,
    };
    corners.iter().map(turn).collect()
}

#[test]
fn the_narrowest_arm_decides_what_fits() {
    for corners in [ell(), turned(&ell(), 33.0), turned(&ell(), 90.0)] {
        let ground = Ground::new(&corners, metres(2.0), metres(1.6));
        near(ground.clear_width().in_metres(), 0.8, 1e-9);
        assert!(ground.has_room(metres(0.8), metres(1.6)));
        assert!(!ground.has_room(metres(0.81), metres(1.0)));
        // The shorter arm is 1.6 m long, the longer 2.0 m.
        assert!(!ground.has_room(metres(0.8), metres(1.61)));
    }
    // A notch of 0.1 m takes nothing from the width: both rectangles around it are wide.
    let notched = ring(&[(0.0, 0.0), (1.2, 0.0), (1.2, 0.8), (0.9, 0.8), (0.9, 0.9), (0.0, 0.9)]);
    near(Ground::new(&notched, metres(1.2), metres(0.9)).clear_width().in_metres(), 0.8, 1e-9);
    // A U of eight corners: arms 0.5 m, bridge 0.6 m.
    let u = ring(&[(0.0, 0.0), (2.0, 0.0), (2.0, 1.5), (1.5, 1.5), (1.5, 0.6), (0.5, 0.6), (0.5, 1.5), (0.0, 1.5)]);
    near(Ground::new(&u, metres(2.0), metres(1.5)).clear_width().in_metres(), 0.5, 1e-9);
}

#[test]
fn a_ring_that_is_not_square_is_taken_as_a_rectangle() {
    let triangle = ring(&[(0.0, 0.0), (2.0, 0.0), (0.0, 1.0)]);
    let ground = Ground::new(&triangle, metres(1.4), metres(0.7));
    near(ground.clear_width().in_metres(), 0.7, 1e-9);
    let parts = ground.parts(metres(0.5), metres(0.5), metres(0.1));
    assert_eq!(parts.len(), 1);
    near(parts[0].length_m(), 1.4, 1e-9);
}

#[test]
fn a_rectangle_is_one_part_with_lanes_along_its_longer_side() {
    for corners in [rectangle(1.2, 0.9), turned(&rectangle(1.2, 0.9), 70.0)] {
        let ground = Ground::new(&corners, metres(1.2), metres(0.9));
        let parts = ground.parts(metres(0.67), metres(1.0), metres(0.1));
        assert_eq!(parts.len(), 1);
        near(parts[0].length_m(), 1.2, 1e-9);
        near(parts[0].width_m(), 0.9, 1e-9);
    }
}

#[test]
fn the_second_part_covers_what_the_first_left_and_the_overlap() {
    let ground = Ground::new(&ell(), metres(2.0), metres(1.6));
    let parts = ground.parts(metres(0.67), metres(1.0), metres(0.1));
    let sizes: Vec<(f64, f64)> = parts.iter().map(|part| (part.length_m(), part.width_m())).collect();
    assert_eq!(sizes.len(), 2);
    near(sizes[0].0, 2.0, 1e-9);
    near(sizes[0].1, 0.8, 1e-9);
    // 0.8 m are left of the upright arm; its lanes begin 0.1 m inside the other.
    near(sizes[1].0, 0.9, 1e-9);
    near(sizes[1].1, 0.8, 1e-9);
    // The worked roller: 2 lanes in each arm, 14 passes, 1.5 km/h, 5 s to turn.
    let rules = rules();
    let machine = Machine::new(&compactor(Kind::PedestrianRoller, 0.65, 1.5), &rules.compactor);
    assert_eq!(machine.lanes(&parts, 1.0), 4);
    near(machine.layer_time(&parts, 1.0).in_seconds(), 28.0 * (2.9 / (1.5 / 3.6) + 10.0), 1e-9);
    // Grown by a tenth: 0.88 m is still two lanes, 2.0 + 0.9 m become 3.19 m.
    near(machine.layer_time(&parts, 1.1).in_seconds(), 28.0 * (3.19 / (1.5 / 3.6) + 10.0), 1e-9);
}

#[test]
fn the_part_that_covers_most_comes_first() {
    // A T: the bar has more cells, the stem, with its piece of the bar, more ground.
    let t = [(0.0, 0.0), (3.0, 0.0), (3.0, 0.7), (2.1, 0.7), (2.1, 3.7), (0.9, 3.7), (0.9, 0.7), (0.0, 0.7)];
    let ground = Ground::new(&t.map(|(along_m, across_m)| FramePoint { along_m, across_m }), metres(3.7), metres(3.0));
    let parts = ground.parts(metres(0.6), metres(0.6), metres(0.0));
    let lengths: Vec<f64> = parts.iter().map(Part::length_m).collect();
    assert_eq!(parts.len(), 2);
    near(lengths[0], 3.7, 1e-9);
    near(parts[0].width_m(), 1.2, 1e-9);
    near(lengths[1], 3.0, 1e-9);
    near(parts[1].width_m(), 0.7, 1e-9);
}

#[test]
fn a_repair_of_an_l_shaped_cut_counts_the_lanes_of_its_parts() {
    let mut example = Example::sized(2.0, 1.6, 0.14);
    example.corners = ell();
    let mut input = example.input();
    input.area = model::quantity::square_metres(2.24);
    let found = repair(&input, &rules());
    assert_eq!(found.lanes_across.value, 4);
    assert!(found.lanes_across.why.to_string().contains("W = 0.800 m, 0.800 m"), "{}", found.lanes_across.why);
    assert_eq!(found.patterns[0].strokes.len(), 4);
    assert!(found.compactor.starts_with("pedestrian roller ("), "{}", found.compactor);
}
