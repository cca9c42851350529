//! What each figure says of how it was worked out: the words a road engineer signs under.

use std::fmt::Write as _;

use repair::repair;

use crate::support::{Example, rules};

macro_rules! workings {
    ($repair:expr, $($field:ident).+ $(, $($more:ident).+)* $(,)?) => {{
        let mut text = String::new();
        let figure = &$repair.$($field).+;
        writeln!(text, "{}: {}", stringify!($($field).+), figure.why).unwrap();
        $(
            let figure = &$repair.$($more).+;
            writeln!(text, "{}: {}", stringify!($($more).+), figure.why).unwrap();
        )*
        text
    }};
}

#[test]
fn every_figure_says_how_it_was_worked_out() {
    let (example, rules) = (Example::worked(), rules());
    let repair = repair(&example.input(), &rules);
    let mut text = workings!(
        repair,
        depth,
        cut_area,
        layer_count,
        layer_thickness,
        loose_layer_thickness,
        crown.middle,
        crown.mean,
        crown.loose_at_sides,
        crown.loose_in_middle,
        fill_volume,
        fill_dry_mass,
        fill_wet_mass,
        water_to_add,
        water_to_dry,
        loose_volume,
        static_passes,
        vibrating_passes,
        lanes_across,
        rolling_time,
        seal_area,
        binder_rate,
        binder_volume,
        binder_volume_hot,
        binder_containers,
        cover_rate,
        cover_mass,
        cover_volume,
        spoil_volume,
        spoil_mass,
        opening.open_after,
        opening.speed,
        opening.slow_for,
        opening.sweep_after,
        opening.sweep_again_after,
        duration,
    );
    for stage in &repair.stages {
        writeln!(text, "{}: {}", stage.stage.words(), stage.time.why).unwrap();
    }
    insta::assert_snapshot!(text);
}
