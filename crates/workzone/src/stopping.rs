//! The distance in which a driver can stop: length of the buffer, place of the flagger.

use model::figure::{Figure, Why};
use model::rules::traffic::TrafficRules;

use crate::text::{round_up, speed_words};

/// Stopping distance for a speed, both in the rule set's unit: the table's row at or above the speed, the formula above the
/// table.
pub fn stopping_distance(speed: f64, rules: &TrafficRules) -> Figure<f64> {
    let stopping = &rules.stopping;
    if let Some(row) = stopping.table.value.iter().find(|row| row.speed >= speed) {
        let why = Why::new("d = table(S), next row up", stopping.table.source.clone())
            .with("S", speed_words(speed, rules.units));
        return Figure::exact(row.distance, why);
    }
    let formula = &stopping.formula.value;
    let distance = formula.distance(speed);
    let rule = format!("d = {} V t + {} V²/a, rounded up", formula.reaction_factor, formula.braking_factor);
    let why = Why::new(rule, stopping.formula.source.clone())
        .with("V", speed_words(speed, rules.units))
        .with("t", format!("{} s", formula.reaction_s))
        .with("a", format!("{} {}/s²", formula.deceleration, rules.units.distance.symbol()));
    Figure::exact(round_up(distance, formula.round_up), why)
}
