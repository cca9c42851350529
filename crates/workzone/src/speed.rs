//! The speed the rules are entered with.

use model::quantity::Velocity;
use model::road::RoadSection;
use model::rules::traffic::TrafficRules;

use crate::text::{FORGIVEN, round_up, speed_words};

/// The speed in the rule set's unit, taken up to the next step of the rule set and never interpolated. `None` where the
/// speed is not a number above zero, or above the greatest the set is made for.
pub fn design_speed(speed: Velocity, rules: &TrafficRules) -> Option<f64> {
    let value = rules.units.speed_of(speed);
    let (step, greatest) = (rules.speed.step.value, rules.speed.greatest.value);
    // A limit that went through another unit is still that limit.
    (value > 0.0 && value <= greatest * (1.0 + FORGIVEN)).then(|| round_up(value, step).max(step).min(greatest))
}

/// As [`design_speed`], with the rule set's own speed where the road has none that can be used; says so. A road faster
/// than the set is made for is refused, in words.
pub fn read_speed(section: &RoadSection, rules: &TrafficRules, remarks: &mut Vec<String>) -> Result<f64, String> {
    let units = rules.units;
    let given = units.speed_of(section.speed);
    let greatest = &rules.speed.greatest;
    let Some(speed) = design_speed(section.speed, rules) else {
        if given > greatest.value {
            return Err(format!(
                "The speed limit of {} is above {}, the greatest that the rule set is made for ({}). Nothing is laid out: \
                 its distances would be too short. Check the limit; for a road that fast the traffic-control authority's \
                 own plan is needed.",
                speed_words(given.min(9999.0), units),
                speed_words(greatest.value, units),
                greatest.source
            ));
        }
        let taken = rules.speed.unknown.value;
        remarks.push(format!("The road has no usable speed limit; laid out for {}.", speed_words(taken, units)));
        return Ok(taken);
    };
    let top = rules.stopping.table.value.last().map_or(f64::INFINITY, |row| row.speed);
    if speed > top {
        remarks.push(format!(
            "{} is above the rule set's tables ({}): stopping distance by formula.",
            speed_words(speed, units),
            speed_words(top, units)
        ));
    }
    if section.defaulted.contains(&"speed") {
        remarks.push(format!(
            "The speed limit is a default for this class of road ({}); check the posted limit.",
            speed_words(speed, units)
        ));
    }
    Ok(speed)
}
