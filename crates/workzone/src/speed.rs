//! The speed the rules are entered with.

use model::quantity::Velocity;
use model::road::RoadSection;
use model::rules::traffic::TrafficRules;

use crate::text::{FORGIVEN, round_up, speed_words};

/// The speed in the rule set's unit, taken up to the next step of the rule set and never interpolated; a speed above the
/// highest usable one is taken as that. `None` where the speed is not a number above zero.
pub fn design_speed(speed: Velocity, rules: &TrafficRules) -> Option<f64> {
    let value = rules.units.speed_of(speed);
    let step = rules.speed.step.value;
    (value > 0.0).then(|| round_up(value.min(rules.speed.usable_max.value), step).max(step))
}

/// As [`design_speed`], with the rule set's own speed where the road's can't be used; says so.
pub fn read_speed(section: &RoadSection, rules: &TrafficRules, remarks: &mut Vec<String>) -> f64 {
    let Some(speed) = design_speed(section.speed, rules) else {
        let taken = rules.speed.unknown.value;
        remarks.push(format!("The road has no usable speed limit; laid out for {}.", speed_words(taken, rules.units)));
        return taken;
    };
    let (given, most) = (rules.units.speed_of(section.speed), rules.speed.usable_max.value);
    if given > most * (1.0 + FORGIVEN) {
        remarks.push(format!(
            "The speed limit of {} is above {}, the most the rule set believes: laid out for that, which is too short if the \
             limit is right. Don't use this layout before the speed is put right.",
            speed_words(given.min(9999.0), rules.units),
            speed_words(most, rules.units)
        ));
    }
    let top = rules.stopping.table.value.last().map_or(f64::INFINITY, |row| row.speed);
    if speed > top {
        remarks.push(format!(
            "{} is above the rule set's tables ({}): stopping distance by formula.",
            speed_words(speed, rules.units),
            speed_words(top, rules.units)
        ));
    }
    if section.defaulted.contains(&"speed") {
        remarks.push(format!(
            "The speed limit is a default for this class of road ({}); check the posted limit.",
            speed_words(speed, rules.units)
        ));
    }
    speed
}
