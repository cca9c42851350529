//! Devices on the road.

use model::figure::{Figure, Source, Why};
use model::place::Travel;
use model::plan::Plan;
use model::quantity::{millimetres, minutes};
use model::queue::{Queue, QueueOutlook};
use model::work_zone::{DeviceKind, Layout};

use super::case;
use crate::Case;

pub fn cases() -> Vec<Case> {
    vec![
        Case {
            also: &["zone.removing_order", "zone.steps_back"],
            ..case("zone.count_back", "a device stays on the road", |plan| {
                plan.sites[0].zone.removing.pop();
            })
        },
        Case {
            also: &["zone.removing_order", "zone.steps_back"],
            ..case("zone.count_back", "a device comes back twice", |plan| plan.sites[0].zone.removing.push(0))
        },
        Case {
            also: &["zone.steps_back"],
            ..case("zone.removing_order", "two devices come back in the order they went out", |plan| {
                plan.sites[0].zone.removing.swap(0, 1);
            })
        },
        case("zone.steps_out", "a step leaves a device in the truck", |plan| {
            plan.sites[0].zone.out[0].devices.pop();
        }),
        case("zone.steps_out", "a step takes longer than said", |plan| {
            plan.sites[0].zone.out[0].time.value -= minutes(1.0);
        }),
        case("zone.steps_back", "a step takes less than nothing", |plan| {
            plan.sites[0].zone.back[0].driven = millimetres(-1.0);
        }),
        case("zone.queue", "a queue beside the lanes", |plan| {
            plan.sites[0].zone.layout = Layout::Shoulder;
            plan.sites[0].zone.queue = Some(queue(None));
        }),
        case("zone.queue", "an outlook without a flow", |plan| {
            plan.sites[0].zone.queue = Some(queue(Some(100.0)));
            plan.sites[0].zone.queue.as_mut().expect("just set").flow_per_hour = None;
        }),
        case("zone.queue", "it grows though the lane carries it", |plan| {
            plan.sites[0].zone.queue = Some(queue(Some(100.0)));
        }),
        case("zone.at_once", "a cone more than stands", |plan| {
            let cones = plan.devices_at_once.iter_mut().find(|need| need.kind == DeviceKind::Cone);
            cones.expect("cones").most += 1;
        }),
        case("zone.at_once", "a sign that nobody takes along", |plan| {
            let sign = plan.devices_at_once.iter().position(|need| !need.legend.is_empty());
            plan.devices_at_once.remove(sign.expect("signs"));
        }),
        case("zone.warned_first", "cones before the first sign, increasing chainage", |plan| {
            last_sign(plan, 0, Travel::Forward);
        }),
        case("zone.warned_first", "cones before the first sign, decreasing chainage", |plan| {
            last_sign(plan, 1, Travel::Backward);
        }),
        case("zone.holds_cuts", "a cut begins before the work space", |plan| {
            plan.sites[0].zone.work_from = cut_end(plan, f64::min) + millimetres(1.0);
        }),
        case("zone.holds_cuts", "a cut ends behind the work space", |plan| {
            plan.sites[0].zone.work_to = cut_end(plan, f64::max) - millimetres(1.0);
        }),
        case("zone.shared", "two cuts in one zone, and nothing said of it", |plan| plan.sites[1].zone.shared = None),
        case("zone.shared", "one cut, said to be shared", |plan| {
            plan.sites[0].zone.shared = plan.sites[1].zone.shared.clone();
        }),
        case("zone.shared", "a hole more than there are", |plan| {
            plan.sites[1].zone.shared.as_mut().expect("two cuts").holes += 1;
        }),
        case("timetable.work_short", "no time to move from cut to cut", |plan| {
            plan.sites[1].zone.shared.as_mut().expect("two cuts").between.value = minutes(600.0);
        }),
    ]
}

/// A queue that grows at a flow of the lane's own, or has no flow.
fn queue(flow: Option<f64>) -> Queue {
    let figure = |value: f64| Figure::exact(value, Why::new("Q", Source::definition()));
    Queue {
        flow_per_hour: flow.map(figure),
        most_per_hour: figure(1000.0),
        outlook: flow.map(|_| QueueOutlook::Grows(figure(1.0))),
    }
}

/// Puts out the first sign of the worked lane's traffic last.
fn last_sign(plan: &mut Plan, site: usize, travel: Travel) {
    let zone = &mut plan.sites[site].zone;
    assert_eq!(zone.travel, travel);
    let is_first = |device: &model::work_zone::Device| device.kind == DeviceKind::Sign && device.approach == travel;
    let first = zone.devices.iter().position(is_first).expect("a sign");
    let sign = zone.devices.remove(first);
    zone.devices.push(sign);
}

fn cut_end(plan: &Plan, pick: fn(f64, f64) -> f64) -> model::quantity::Length {
    let along = plan.jobs[plan.sites[0].jobs[0]].cut.corners.iter().map(|corner| corner.along_m);
    model::quantity::metres(along.reduce(pick).expect("corners"))
}
