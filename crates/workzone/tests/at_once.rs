//! What stands on the roads at one time.

mod common;

use common::{input, rules, two_lane};
use model::plan::DeviceNeed;
use model::quantity::feet;
use model::round::SecondOfDay;
use model::work_zone::{DeviceKind, WorkZone};
use proptest::prelude::*;
use workzone::{Standing, at_once, device_count, lay_out};

fn zone(mph: f64, shoulder: bool) -> WorkZone {
    let mut road = two_lane(mph);
    road.shoulder = feet(10.0);
    let mut input = input(&road);
    if shoulder {
        input.shoulder_only = true;
        (input.work.across_from, input.work.across_to) = (feet(14.0), feet(17.0));
    }
    lay_out(&input, &rules())
}

fn most(needs: &[DeviceNeed], kind: DeviceKind, legend: &str) -> (u32, u32) {
    let need = needs.iter().find(|need| need.kind == kind && need.legend == legend);
    need.map_or((0, 0), |need| (need.most, need.zones))
}

fn standing(zone: &WorkZone, from: u32, to: u32) -> Standing<'_> {
    Standing { zone, from: SecondOfDay(from), to: SecondOfDay(to) }
}

#[test]
fn zones_one_after_the_other_need_what_the_greater_needs() {
    let (closure, shoulder) = (zone(50.0, false), zone(50.0, true));
    let needs = at_once(&[standing(&closure, 100, 200), standing(&shoulder, 200, 300)]);
    assert_eq!(most(&needs, DeviceKind::Sign, ""), (8, 1));
    assert_eq!(
        most(&needs, DeviceKind::Cone, ""),
        (device_count(&closure).cones.max(device_count(&shoulder).cones), 1)
    );
    assert_eq!(most(&needs, DeviceKind::Sign, "ROAD WORK AHEAD"), (2, 1));
    assert_eq!(most(&needs, DeviceKind::Sign, "SHOULDER WORK"), (1, 1));
    assert_eq!(most(&needs, DeviceKind::FlaggerStation, ""), (2, 1));
}

#[test]
fn zones_of_crews_that_overlap_need_a_second_set() {
    let (one, other) = (zone(50.0, false), zone(40.0, false));
    let needs = at_once(&[standing(&one, 100, 250), standing(&other, 249, 300), standing(&one, 300, 400)]);
    assert_eq!(most(&needs, DeviceKind::Sign, ""), (16, 2));
    assert_eq!(most(&needs, DeviceKind::Sign, "ROAD WORK AHEAD"), (4, 2));
    let at = needs.iter().find(|need| need.kind == DeviceKind::Cone).unwrap().at;
    assert_eq!(at, SecondOfDay(249));
}

#[test]
fn nothing_stands_where_nothing_is_done() {
    assert!(at_once(&[]).is_empty());
}

proptest! {
    #[test]
    fn at_no_second_of_the_day_does_more_stand(times in prop::collection::vec((0..200u32, 1..60u32), 1..8)) {
        let zones = [zone(50.0, false), zone(35.0, false), zone(50.0, true)];
        let standing: Vec<Standing> =
            times.iter().enumerate().map(|(i, &(from, long))| standing(&zones[i % 3], from, from + long)).collect();
        let needs = at_once(&standing);
        let mut fullest = 0;
        for second in 0..260 {
            let signs = standing.iter().filter(|s| s.from.0 <= second && second < s.to.0).map(|s| device_count(s.zone).signs);
            fullest = fullest.max(signs.sum());
        }
        prop_assert_eq!(most(&needs, DeviceKind::Sign, "").0, fullest);
    }
}
