//! The drawing of curves.

use lasting::groups::group_curves;
use lasting::plot::curves_svg;

use crate::support::{lives, rules};

fn drawn() -> String {
    let tamper = [3, 5, 6, 7, 10, 13, 15].map(|d| (f64::from(d), true));
    let roller = [(12.0, true), (14.0, false), (16.0, true), (17.0, true), (20.0, true), (24.0, false), (24.0, false)];
    let plate = [(4.0, true), (8.0, false), (9.0, true), (12.0, true), (18.0, false), (21.0, true), (24.0, false)];
    let rows = lives(&[("hand tamper", &tamper), ("roller & <two>", &roller), ("plate", &plate), ("none yet", &[])]);
    curves_svg(&group_curves(&rows, &rules()).unwrap().groups, "months")
}

#[test]
fn groups_differ_without_colour() {
    let svg = drawn();
    if let Some(path) = std::env::var_os("LENGTHSMAN_WRITE_PLOT") {
        std::fs::write(path, &svg).unwrap();
    }
    insta::assert_snapshot!(svg);
}

#[test]
fn names_are_escaped() {
    assert!(drawn().contains("roller &amp; &lt;two&gt;"));
}

#[test]
fn nothing_can_be_drawn_of_nothing() {
    let svg = curves_svg(&group_curves(&lives(&[]), &rules()).unwrap().groups, "days");
    assert!(svg.contains("</svg>") && !svg.contains("NaN"));
}
