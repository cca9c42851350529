//! The distance in which a driver can stop: length of the buffer, place of the flagger.

use model::figure::{Figure, Why};
use model::rules::traffic::TrafficRules;

use crate::text::{mph, round_up};

/// Stopping distance in feet for a speed in miles per hour: the table's row at or above the speed, the formula above the
/// table.
pub fn stopping_distance_ft(speed_mph: f64, rules: &TrafficRules) -> Figure<f64> {
    let stopping = &rules.stopping;
    if let Some(row) = stopping.table.value.iter().find(|row| row.mph >= speed_mph) {
        let why = Why::new("d = table(S), next row up", stopping.table.source.clone()).with("S", mph(speed_mph));
        return Figure::exact(row.ft, why);
    }
    let formula = &stopping.formula.value;
    let distance = formula.per_mph_second * speed_mph * formula.reaction_s
        + formula.braking * speed_mph * speed_mph / formula.deceleration_ft_s2;
    let why = Why::new("d = 1.47 V t + 1.075 V²/a, rounded up", stopping.formula.source.clone())
        .with("V", mph(speed_mph))
        .with("t", format!("{} s", formula.reaction_s))
        .with("a", format!("{} ft/s²", formula.deceleration_ft_s2));
    Figure::exact(round_up(distance, formula.round_up_ft), why)
}
