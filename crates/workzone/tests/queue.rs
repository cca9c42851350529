//! The queue: worked examples of the handbook, a simulation as reference, laws.

mod common;

use common::{input, one_way_two_lanes, rules, set, two_lane};
use model::quantity::{InLength, InTime, metres};
use model::queue::{QueueOutlook, Waiting};
use model::road::RoadSection;
use model::rules::traffic::TrafficRules;
use model::work_zone::{Layout, WorkZone};
use proptest::prelude::*;
use serde::Deserialize;
use testkit::worked_examples;
use workzone::lay_out;

#[derive(Deserialize)]
struct Turns {
    between_m: f64,
    vehicles_per_day: f64,
    flow: f64,
    longest_stop_s: f64,
    mean_wait_s: f64,
    vehicles: f64,
    most: f64,
}

/// A zone whose stations stand so far apart: the speed through it is made to fit, since the layout decides the length.
fn zone_of(between_m: f64, per_day: Option<f64>, rules: &TrafficRules) -> WorkZone {
    let road = RoadSection { vehicles_per_day: per_day, ..two_lane(50.0) };
    let laid_out = lay_out(&input(&road), rules);
    let mut fitted = rules.clone();
    fitted.queue.through_speed.value *= laid_out.control.between_ends.in_metres() / between_m;
    lay_out(&input(&road), &fitted)
}

fn waiting(zone: &WorkZone) -> Option<&Waiting> {
    match zone.queue.as_ref()?.outlook.as_ref()? {
        QueueOutlook::Clears(waiting) => Some(waiting),
        QueueOutlook::Grows(_) => None,
    }
}

#[test]
fn the_handbooks_examples_come_out() {
    let rules = set("low-volume-metric");
    let examples: Vec<Turns> = worked_examples("queue", "turns");
    assert!(examples.len() > 1);
    for example in examples {
        let zone = zone_of(example.between_m, Some(example.vehicles_per_day), &rules);
        let queue = zone.queue.as_ref().expect("traffic takes turns");
        let near = |found: f64, expected: f64, what: &str| {
            assert!((found - expected).abs() < 1e-3, "{what}: {found}, expected {expected}");
        };
        near(queue.flow_per_hour.as_ref().unwrap().value, example.flow, "flow");
        near(queue.most_per_hour.value, example.most, "most");
        let waiting = waiting(&zone).expect("it clears");
        near(waiting.longest_stop.value.in_seconds(), example.longest_stop_s, "longest stop");
        near(waiting.mean_wait.value.in_seconds(), example.mean_wait_s, "mean wait");
        near(waiting.vehicles.value, example.vehicles, "vehicles");
        let length = waiting.length.spread.unwrap().p90.in_metres();
        near(length, waiting.vehicles.spread.unwrap().p90 * 7.5, "length");
    }
}

/// Lets both directions through in turn, in steps of time, until the turns repeat: an independent way to the same figures.
/// Gives the longest stop, the mean wait and the most vehicles that stand.
fn simulated(lost_s: f64, flows_per_s: [f64; 2], released_per_s: f64) -> (f64, f64, f64) {
    let step = 0.01;
    let mut queues = [0.0; 2];
    let (mut stopped_at, mut longest, mut most) = ([0.0; 2], 0.0, 0.0);
    let (mut waited, mut came) = (0.0, 0.0);
    let mut now = 0.0;
    for turn in 0..200 {
        let (own, last) = (turn % 2, turn > 150);
        let mut pass = |queues: &mut [f64; 2], going: Option<usize>, now: &mut f64| {
            for direction in 0..2 {
                queues[direction] += flows_per_s[direction] * step;
                if going == Some(direction) {
                    queues[direction] -= released_per_s * step;
                }
                if last {
                    waited += queues[direction].max(0.0) * step;
                    came += flows_per_s[direction] * step;
                }
            }
            *now += step;
        };
        let mut left: f64 = lost_s;
        while left > 0.0 {
            pass(&mut queues, None, &mut now);
            left -= step;
        }
        if last {
            longest = f64::max(longest, now - stopped_at[own]);
            most = f64::max(most, queues[own]);
        }
        while queues[own] > 0.0 {
            pass(&mut queues, Some(own), &mut now);
        }
        queues[own] = 0.0;
        stopped_at[own] = now;
    }
    (longest, waited / came, most)
}

#[test]
fn a_simulation_of_the_turns_gives_the_same() {
    let rules = set("low-volume-metric");
    for (between_m, per_day) in [(80.0, 400.0), (150.0, 900.0), (300.0, 5000.0), (500.0, 8000.0)] {
        let zone = zone_of(between_m, Some(per_day), &rules);
        let found = waiting(&zone).expect("it clears");
        let lost = between_m / (30.0 / 3.6) + 10.0;
        let flow = per_day * 0.12 / 3600.0;
        let (longest, wait, most) = simulated(lost, [flow * 0.6, flow * 0.4], 1500.0 / 3600.0);
        for (value, reference, what) in [
            (found.longest_stop.value.in_seconds(), longest, "longest stop"),
            (found.mean_wait.value.in_seconds(), wait, "mean wait"),
            (found.vehicles.value, most, "vehicles"),
        ] {
            assert!((value / reference - 1.0).abs() < 0.01, "{between_m} m, {per_day}: {what} {value}, {reference}");
        }
    }
}

#[test]
fn more_than_the_lane_lets_go_makes_the_queue_grow() {
    // 13,000 a day: 1,560 in the busiest hour, 1,500 are let go.
    let zone = zone_of(150.0, Some(13_000.0), &set("low-volume-metric"));
    let Some(QueueOutlook::Grows(growth)) = zone.queue.as_ref().unwrap().outlook.clone() else {
        panic!("{:?}", zone.queue)
    };
    assert!((growth.value - 60.0).abs() < 1e-9);
    assert!(
        zone.remarks.iter().any(|r| r.starts_with("Queue: ") && r.contains("60 vehicles more")),
        "{:?}",
        zone.remarks
    );
}

#[test]
fn one_lane_of_several_carries_or_does_not() {
    // One way, two lanes, one left: 1,600 an hour; the busiest hour has 12 % of the day.
    for (per_day, grows) in [(10_000.0, None), (20_000.0, Some(800.0))] {
        let road = RoadSection { vehicles_per_day: Some(per_day), ..one_way_two_lanes(45.0) };
        let zone = lay_out(&input(&road), &rules());
        assert_eq!(zone.layout, Layout::LaneClosureMultilane);
        let queue = zone.queue.unwrap();
        assert_eq!(queue.most_per_hour.value, 1600.0);
        match (queue.outlook.unwrap(), grows) {
            (QueueOutlook::Grows(found), Some(expected)) => assert!((found.value - expected).abs() < 1e-9),
            (QueueOutlook::Clears(waiting), None) => assert_eq!(waiting.longest_stop.value.in_seconds(), 0.0),
            (found, expected) => panic!("{found:?}, expected {expected:?}"),
        }
    }
}

#[test]
fn nobody_waits_beside_the_lanes_and_nothing_is_estimated_without_a_count() {
    let road = two_lane(50.0);
    let mut beside = input(&road);
    beside.shoulder_only = true;
    (beside.work.across_from, beside.work.across_to) = (metres(3.8), metres(4.4));
    assert_eq!(lay_out(&beside, &rules()).queue, None);

    for count in [None, Some(f64::NAN), Some(-1.0)] {
        let unknown = RoadSection { vehicles_per_day: count, ..two_lane(50.0) };
        let queue = lay_out(&input(&unknown), &rules()).queue.unwrap();
        assert!(queue.flow_per_hour.is_none() && queue.outlook.is_none() && queue.most_per_hour.value > 0.0);
    }
}

#[test]
fn a_queue_past_the_first_sign_and_a_long_stop_are_said() {
    let rules = set("low-volume-metric");
    let said = |per_day: f64, words: &str| {
        let zone = lay_out_with(per_day, &rules);
        zone.remarks.iter().any(|r| r.starts_with("Queue: ") && r.contains(words))
    };
    assert!(!said(900.0, ""));
    assert!(said(11_500.0, "stopped for") && said(11_500.0, "past the first sign"));
}

fn lay_out_with(per_day: f64, rules: &TrafficRules) -> WorkZone {
    let road = RoadSection { vehicles_per_day: Some(per_day), ..two_lane(50.0) };
    lay_out(&input(&road), rules)
}

proptest! {
    #[test]
    fn more_traffic_or_a_longer_zone_never_waits_less(
        per_day in 0.0..12_000.0_f64,
        more in 0.0..3_000.0_f64,
        between in 30.0..2000.0_f64,
        longer in 0.0..1000.0_f64,
    ) {
        let rules = set("low-volume-metric");
        let stop = |between: f64, per_day: f64| {
            let zone = zone_of(between, Some(per_day), &rules);
            waiting(&zone).map_or(f64::INFINITY, |w| w.longest_stop.value.in_seconds())
        };
        let here = stop(between, per_day);
        prop_assert!(stop(between, per_day + more) >= here - 1e-9);
        prop_assert!(stop(between + longer, per_day) >= here - 1e-9);
    }

    #[test]
    fn the_flow_that_is_good_is_held_as_long_as_allowed(between in 30.0..2000.0_f64) {
        let rules = set("low-volume-metric");
        let most = zone_of(between, None, &rules).queue.unwrap().most_per_hour.value;
        let at = |flow: f64| {
            let zone = zone_of(between, Some(flow / 0.12), &rules);
            waiting(&zone).map_or(f64::INFINITY, |w| w.longest_stop.value.in_minutes())
        };
        prop_assert!(at(most) <= 10.0 + 1e-6);
        // Counted down to a whole vehicle.
        prop_assert!(at(most + 1.0) > 10.0 - 1e-6);
    }
}
