//! What no road and no patching work has: refused with what would be right, before anything is laid out.

use model::quantity::{InLength, InVelocity, Length, metres};
use model::road::RoadSection;
use model::rules::traffic::TrafficRules;

use super::Arguments;

/// Sealed width of a road, m.
const WIDTH_M: [f64; 2] = [2.0, 40.0];
/// No lane is narrower, m.
const LANE_LEAST_M: f64 = 1.5;
/// Widest shoulder, m.
const SHOULDER_MOST_M: f64 = 10.0;
/// A shoulder narrower than this has no room for work, m.
const SHOULDER_LEAST_M: f64 = 0.2;
/// Longest stay, minutes: a week.
const MINUTES_MOST: f64 = 7.0 * 24.0 * 60.0;
/// Nobody sees further along a road, m.
const SEEN_MOST_M: f64 = 5000.0;
/// No road carries more vehicles a day.
const VEHICLES_PER_DAY_MOST: f64 = 200_000.0;

/// Everything about the arguments and the road that can't be, each with the flag and what would be right; `work` is the
/// length of the work with the flags that give it.
pub(super) fn wrong(
    arguments: &Arguments,
    road: &RoadSection,
    work: (&str, Length),
    rules: &TrafficRules,
) -> Vec<String> {
    let (width, shoulder) = (road.width.in_metres(), road.shoulder.in_metres());
    [
        speed(arguments, rules),
        (!within(width, WIDTH_M)).then(|| {
            format!("--width {width:.2} m: a road is {} to {} m wide, shoulders not counted", WIDTH_M[0], WIDTH_M[1])
        }),
        lane(road.lanes, width),
        (!within(shoulder, [0.0, SHOULDER_MOST_M]))
            .then(|| format!("--shoulder {shoulder:.2} m: a shoulder is 0 to {SHOULDER_MOST_M} m wide")),
        (arguments.on_shoulder && shoulder < SHOULDER_LEAST_M).then(|| {
            format!("--on-shoulder with a shoulder of {shoulder:.2} m: at least {SHOULDER_LEAST_M} m is needed to work on it")
        }),
        across(arguments, width),
        work_length(work, rules),
        seen("--sight", arguments.sight),
        seen("--to-junction", arguments.to_junction),
        (!(arguments.minutes > 0.0 && arguments.minutes <= MINUTES_MOST))
            .then(|| format!("--minutes {}: a number above zero and up to a week ({MINUTES_MOST})", arguments.minutes)),
        arguments
            .vehicles_per_day
            .filter(|count| !within(*count, [0.0, VEHICLES_PER_DAY_MOST]))
            .map(|count| format!("--vehicles-per-day {count}: a number from 0 to {VEHICLES_PER_DAY_MOST}")),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// A speed below the rule set's step or above its greatest is no speed limit.
fn speed(arguments: &Arguments, rules: &TrafficRules) -> Option<String> {
    let units = rules.units;
    let given = units.speed_of(arguments.speed?);
    let (least, most) = (rules.speed.step.value, rules.speed.greatest.value);
    let (unit, kmh) = (units.speed.symbol(), |speed: f64| units.velocity(speed).in_kilometres_per_hour());
    // A limit that went through another unit is still that limit.
    (!within(given, [least * (1.0 - 1e-9), most * (1.0 + 1e-9)])).then(|| {
        format!(
            "--speed {given:.1} {unit} ({:.1} km/h): {} is made for {least} to {most} {unit} ({:.0} to {:.0} km/h); nothing is \
             laid out for other roads, its distances would be wrong",
            kmh(given),
            rules.name,
            kmh(least),
            kmh(most)
        )
    })
}

fn lane(lanes: u32, width: f64) -> Option<String> {
    let lane = width / f64::from(lanes.max(1));
    (lane < LANE_LEAST_M).then(|| {
        format!("--lanes {lanes} on {width:.2} m: lanes of {lane:.2} m; no lane is narrower than {LANE_LEAST_M} m")
    })
}

fn across(arguments: &Arguments, width: f64) -> Option<String> {
    let across = arguments.across?.in_metres();
    let half = width / 2.0;
    (!within(across, [-half, half])).then(|| {
        format!(
            "--across {across:.2} m: the seal ends {half:.2} m from the centre line; for work beside it --on-shoulder"
        )
    })
}

fn work_length((flags, length): (&str, Length), rules: &TrafficRules) -> Option<String> {
    let most = rules.units.length(rules.work_space.work_space_max.value).in_metres();
    (!(length > metres(0.0) && length <= metres(most))).then(|| {
        format!(
            "{flags} {:.2} m: above zero and up to {most:.0} m, the longest work space of the rule set",
            length.in_metres()
        )
    })
}

/// A distance along the road that can be.
fn seen(flag: &str, length: Option<Length>) -> Option<String> {
    let metres = length?.in_metres();
    (!within(metres, [0.0, SEEN_MOST_M])).then(|| format!("{flag} {metres:.2} m: 0 to {SEEN_MOST_M} m"))
}

fn within(value: f64, [least, most]: [f64; 2]) -> bool {
    (least..=most).contains(&value)
}
