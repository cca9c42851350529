//! A device table as the crew would read it: kept as text so that a change of any place is seen.

mod common;

use std::fmt::Write;

use common::{input, rules, two_lane};
use model::quantity::InLength;
use workzone::lay_out;

#[test]
fn two_lane_road_at_50_mph() {
    let road = two_lane(50.0);
    let zone = lay_out(&input(&road), &rules());
    let mut table = String::new();
    for (index, device) in zone.devices.iter().enumerate() {
        writeln!(
            table,
            "{:>2} {:<15} {:<8} {:<6} {:>9.2} m {:>6.2} m {:>8.2} m  {}",
            index + 1,
            format!("{:?}", device.kind),
            format!("{:?}", device.approach),
            device.designation,
            device.chainage.in_metres(),
            device.across.in_metres(),
            device.spacing.in_metres(),
            device.legend,
        )
        .unwrap();
    }
    for part in &zone.parts {
        writeln!(table, "{:?}: {:.2} m; {}", part.kind, part.length.value.in_metres(), part.length.why).unwrap();
    }
    for remark in &zone.remarks {
        writeln!(table, "- {remark}").unwrap();
    }
    insta::assert_snapshot!(table);
}
