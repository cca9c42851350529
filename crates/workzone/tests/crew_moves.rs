//! The steps out and back: every device once, times that add up, ways that follow from where things stand.

mod common;

use common::{SETS, input, one_way_two_lanes, rules, set, two_lane};
use model::crew_move::PlacingStep::{
    Advance, EndOfOpposing, EndOfWork, Lane, OpposingAdvance, OpposingStation, Station, ToTheWork,
};
use model::crew_move::{CrewMove, PlacingStep};
use model::place::Travel;
use model::quantity::{InLength, InTime, metres};
use model::road::Setting;
use model::work_zone::WorkZone;
use proptest::prelude::*;
use workzone::lay_out;

/// Step, driven ft, walked ft, turns.
fn steps(moves: &[CrewMove]) -> Vec<(PlacingStep, i64, i64, u32)> {
    let ft = |length: model::quantity::Length| length.in_feet().round() as i64;
    moves.iter().map(|m| (m.step, ft(m.driven), ft(m.walked), m.turns)).collect()
}

#[test]
fn a_lane_closure_by_hand() {
    // The urban road of the worked examples; places in feet from the work space's upstream end, its middle at 37:
    // oncoming signs 1324, 974, 624; ours -1350, -1000, -650; flaggers 274 and -300; cones -300 to 124; ends -800 and 774.
    let mut road = two_lane(30.0);
    road.setting = Setting::Urban;
    let zone = lay_out(&input(&road), &rules());
    assert_eq!(
        steps(&zone.out),
        [
            (OpposingAdvance, 700, 0, 0),
            (Advance, 1974 + 700, 0, 1),
            (OpposingStation, 924, 0, 1),
            (Station, 574, 0, 1),
            (Lane, 0, 424, 0),
            (EndOfOpposing, 924, 0, 1),
            (EndOfWork, 1574, 0, 1),
            (ToTheWork, 737, 0, 2),
        ]
    );
    assert_eq!(
        steps(&zone.back),
        [
            (EndOfWork, 737, 0, 0),
            (EndOfOpposing, 1574, 0, 1),
            (Lane, 924, 424, 1),
            (Station, 0, 0, 0),
            (OpposingStation, 574, 0, 1),
            (Advance, 924 + 700, 0, 1 + 4),
            (OpposingAdvance, 1974 + 700, 0, 1 + 4),
        ]
    );
    // The advance signs out: 3 signs of 90 s, 2674 ft at 29.333 ft/s, one turn of 25 s.
    assert!((zone.out[1].time.value.in_seconds() - (270.0 + 2674.0 / 29.333333 + 25.0)).abs() < 0.01);
}

#[test]
fn on_a_one_way_road_what_lies_behind_is_said() {
    let zone = lay_out(&input(&one_way_two_lanes(45.0)), &rules());
    assert!(zone.remarks.iter().any(|r| r.contains("nobody turns round on a one-way road")), "{:?}", zone.remarks);
    let zone = lay_out(&input(&two_lane(45.0)), &rules());
    assert!(!zone.remarks.iter().any(|r| r.contains("nobody turns round on a one-way road")));
}

fn whole(zone: &WorkZone) {
    let handled = |moves: &[CrewMove]| moves.iter().flat_map(|m| m.devices.clone()).collect::<Vec<_>>();
    assert_eq!(handled(&zone.out), (0..zone.devices.len()).collect::<Vec<_>>());
    assert_eq!(handled(&zone.back), zone.removing);
    let sum = |moves: &[CrewMove]| moves.iter().map(|m| m.time.value.in_seconds()).sum::<f64>();
    assert_eq!(sum(&zone.out), zone.set_up.value.in_seconds());
    assert_eq!(sum(&zone.back), zone.take_in.value.in_seconds());
    // Out and back, each way visits the same places: at least from the first to the last and to the work.
    let chainages = || zone.devices.iter().map(|d| d.chainage.in_metres());
    let extent = chainages().fold(f64::NEG_INFINITY, f64::max) - chainages().fold(f64::INFINITY, f64::min);
    for moves in [&zone.out, &zone.back] {
        let moved: f64 = moves.iter().map(|m| (m.driven + m.walked).in_metres()).sum();
        assert!(moved >= extent - 1e-6, "{moved} of {extent}");
    }
}

proptest! {
    #[test]
    fn every_device_is_handled_once_and_the_times_add_up(
        speed in 20.0..70.0_f64,
        at in 400.0..1600.0_f64,
        backward: bool,
        one_way: bool,
        shoulder: bool,
        which in 0..SETS.len(),
    ) {
        let road = if one_way { one_way_two_lanes(speed) } else { two_lane(speed) };
        let mut input = input(&road);
        (input.work.from, input.work.to) = (metres(at), metres(at + 2.0));
        if backward { input.travel = Travel::Backward; }
        input.shoulder_only = shoulder;
        whole(&lay_out(&input, &set(SETS[which])));
    }
}
