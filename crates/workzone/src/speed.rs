//! The speed the rules are entered with.

use model::quantity::{InVelocity, Velocity};
use model::road::RoadSection;
use model::rules::traffic::TrafficRules;

use crate::text::{FORGIVEN, mph, round_up, tidy};

/// The speed in miles per hour, taken up to the next step of the rule set and never interpolated; a speed above the
/// highest usable one is taken as that. `None` where the speed is not a number above zero.
pub fn design_speed_mph(speed: Velocity, rules: &TrafficRules) -> Option<f64> {
    let value = speed.in_miles_per_hour();
    let step = rules.speed.step_mph.value;
    (value > 0.0).then(|| round_up(value.min(rules.speed.usable_max_mph.value), step).max(step))
}

/// As [`design_speed_mph`], with the rule set's own speed where the road's can't be used; says so.
pub fn read_speed(section: &RoadSection, rules: &TrafficRules, remarks: &mut Vec<String>) -> f64 {
    let Some(speed) = design_speed_mph(section.speed, rules) else {
        let taken = rules.speed.unknown_mph.value;
        remarks.push(format!("The road has no usable speed limit; laid out for {}.", mph(taken)));
        return taken;
    };
    let (given, most) = (section.speed.in_miles_per_hour(), rules.speed.usable_max_mph.value);
    if given > most * (1.0 + FORGIVEN) {
        remarks.push(format!(
            "The speed limit of {} is above {}, the most the rule set believes: laid out for that, which is too short if the \
             limit is right. Don't use this layout before the speed is put right.",
            mph(given.min(9999.0)),
            mph(most)
        ));
    }
    let top = rules.stopping.table.value.last().map_or(f64::INFINITY, |row| row.mph);
    if speed > top {
        remarks.push(format!(
            "{} is above the rule set's tables ({} mph): stopping distance by formula.",
            mph(speed),
            tidy(top)
        ));
    }
    if section.defaulted.contains(&"speed") {
        remarks.push(format!(
            "The speed limit is a default for this class of road ({}); check the posted limit.",
            mph(speed)
        ));
    }
    speed
}
