//! Which layout a place calls for.
//!
//! Of the layouts that could do, the least protected comes first; each has conditions, and one that is not met, or not
//! known to be met, leads to the next. The last of each list has none.

use model::figure::{Source, Standing};
use model::road::{Flow, RoadSection};
use model::rules::traffic::{LayoutRule, TrafficRules};
use model::work_zone::Layout;

use crate::frame::two_way;
use crate::parts::{Parts, shielded};
use crate::stopping::stopping_distance;
use crate::text::{FORGIVEN, distance_words, speed_words, tidy};
use crate::{Stay, ZoneInput};

/// The most protected layout for work on a road, whatever is known of it: shoulder work keeps the lanes open; with at
/// least two lanes in that direction one is closed; otherwise traffic takes turns.
pub fn choose_layout(section: &RoadSection, shoulder_only: bool) -> Layout {
    if shoulder_only {
        Layout::Shoulder
    } else if lanes_in_direction(section) >= 2 {
        Layout::LaneClosureMultilane
    } else {
        Layout::LaneClosureTwoWay
    }
}

/// The layouts to weigh for a lane closure, the least protected first.
pub fn candidates(input: &ZoneInput, rules: &TrafficRules) -> Vec<Layout> {
    let several = lanes_in_direction(input.section) >= 2;
    if near_junction(input, rules) {
        return vec![if several { Layout::JunctionApproachMultilane } else { Layout::JunctionApproachTwoWay }];
    }
    let without_cones = match (input.stay, several) {
        (Stay::Stationary, _) => None,
        (Stay::ShortDuration, false) => Some(Layout::ShortDurationTwoWay),
        (Stay::ShortDuration, true) => Some(Layout::ShortDurationMultilane),
        (Stay::Mobile, false) => Some(Layout::MobileTwoWay),
        (Stay::Mobile, true) => Some(Layout::MobileMultilane),
    };
    let stationary: &[Layout] = if several {
        &[Layout::LaneClosureMultilane]
    } else {
        &[Layout::LaneClosureSelfRegulating, Layout::LaneClosureOneFlagger, Layout::LaneClosureTwoWay]
    };
    without_cones.into_iter().chain(stationary.iter().copied()).collect()
}

/// Whether the work ends so near the junction ahead that it lies in its approach.
fn near_junction(input: &ZoneInput, rules: &TrafficRules) -> bool {
    let within = rules.units.length(rules.junctions.approach_within.value);
    input.junction_ahead.is_some_and(|ahead| ahead <= within)
}

/// The conditions of a layout that are not met, or not known to be met, in words that follow "since"; empty where the
/// place may have it. `at_the_place_hours` is set-up, work and take-in with this layout.
pub fn unmet(
    layout: Layout,
    input: &ZoneInput,
    speed: f64,
    parts: &Parts,
    at_the_place_hours: f64,
    rules: &TrafficRules,
) -> Vec<String> {
    let conditions: Vec<Option<String>> = match layout {
        Layout::LaneClosureSelfRegulating => {
            let longest = rules.flagging.self_regulating_work_space_max.value;
            sharing_one_lane(input, speed, parts, longest, rules.sight.beyond_stopping_distances.value, rules)
        }
        Layout::LaneClosureOneFlagger => {
            sharing_one_lane(input, speed, parts, rules.flagging.single_flagger_work_space_max.value, 1.0, rules)
        }
        Layout::ShortDurationTwoWay | Layout::MobileTwoWay => {
            let longest = rules.flagging.self_regulating_work_space_max.value;
            let beyond = rules.sight.beyond_stopping_distances.value;
            // The shield vehicle's room ahead of it is no work space that traffic passes beside people.
            let longest = longest + rules.work_space.roll_ahead.value + rules.work_space.vehicle.value;
            let mut conditions = sharing_one_lane(input, speed, parts, longest, beyond, rules);
            conditions.extend(without_cones(layout, input, speed, at_the_place_hours, rules));
            conditions
        }
        Layout::ShortDurationMultilane | Layout::MobileMultilane => {
            without_cones(layout, input, speed, at_the_place_hours, rules)
        }
        _ => return Vec::new(),
    };
    let allowed = &rules.layouts.of(layout).allowed;
    let forbidden = (!allowed.value).then(|| format!("the rule set does not allow less ({})", allowed.source));
    forbidden.into_iter().chain(conditions.into_iter().flatten()).collect()
}

/// What must hold where two directions share one lane without a flagger at each end: low volume, a short work space, sight
/// through the closure and beyond it by so many stopping distances, daylight, two lanes.
fn sharing_one_lane(
    input: &ZoneInput,
    speed: f64,
    parts: &Parts,
    longest: f64,
    beyond: f64,
    rules: &TrafficRules,
) -> Vec<Option<String>> {
    let units = rules.units;
    let most = rules.flagging.low_volume_max_per_day.value;
    let volume = match input.section.vehicles_per_day {
        Some(count) if count >= 0.0 && count <= most => None,
        Some(count) if count.is_finite() => Some(format!("the volume is {count:.0} vehicles a day, over {most:.0}")),
        _ => Some("the volume is not known".into()),
    };
    let length = parts.work_space.value;
    let needed = parts.taper_head() + parts.closure_end() + beyond * stopping_distance(speed, rules).value;
    let sight = match input.sight.map(|sight| units.distance_of(sight)) {
        Some(seen) if seen + FORGIVEN >= needed => None,
        Some(seen) if seen.is_finite() => Some(format!(
            "drivers see {} of the {} needed",
            distance_words(seen.max(0.0).floor(), units),
            distance_words(needed.ceil(), units)
        )),
        _ => Some("how far drivers see is not known".into()),
    };
    vec![
        volume,
        (length > longest + FORGIVEN).then(|| {
            format!(
                "the work space is {} long, over {}",
                distance_words(length.ceil(), units),
                distance_words(longest, units)
            )
        }),
        sight,
        input.night.then(|| "it is night work".into()),
        (!two_way(input.section) || input.section.lanes != 2)
            .then(|| "the road does not have two lanes, one each way".into()),
    ]
}

/// What must hold for work without cones: a shield vehicle, daylight, a speed that is not high, and a short stay where the
/// work does not move.
fn without_cones(
    layout: Layout,
    input: &ZoneInput,
    speed: f64,
    at_the_place_hours: f64,
    rules: &TrafficRules,
) -> Vec<Option<String>> {
    let (most, limit) = (rules.flagging.without_cones_speed_max.value, rules.duration.short_max_hours.value);
    // A time that is not a number is long.
    let short = at_the_place_hours <= limit;
    let stays_too_long = !layout.mobile() && !short;
    vec![
        (!shielded(input, rules)).then(|| "there is no vehicle to spare as a shield".into()),
        input.night.then(|| "it is night work".into()),
        (speed > most).then(|| {
            format!("the speed is {}, over {}", speed_words(speed, rules.units), speed_words(most, rules.units))
        }),
        stays_too_long
            .then(|| format!("the work takes {} h at the place, over {} h", tidy(at_the_place_hours), tidy(limit))),
    ]
}

/// Why this layout, in words.
pub fn reason(layout: Layout, input: &ZoneInput, unmet: &[String], rules: &TrafficRules) -> String {
    let mut since: Vec<&str> = Vec::new();
    for condition in unmet {
        if !since.contains(&condition.as_str()) {
            since.push(condition);
        }
    }
    let is = match layout {
        Layout::Shoulder => "Shoulder work: the lanes are not touched",
        Layout::ShoulderEncroachment => "Shoulder work: the lane beside it keeps the least width",
        Layout::LaneClosureMultilane => "One of several lanes of this direction is closed",
        Layout::LaneClosureTwoWay if two_way(input.section) => "A flagger at each end",
        Layout::LaneClosureTwoWay => "A flagger stops the one direction there is",
        Layout::LaneClosureOneFlagger => "One flagger: low volume, a short work space, seen from both directions",
        Layout::LaneClosureSelfRegulating => {
            "No flagger: low volume, a short work space, drivers see through it and beyond"
        }
        Layout::JunctionApproachTwoWay | Layout::JunctionApproachMultilane => {
            let within = distance_words(rules.junctions.approach_within.value, rules.units);
            return format!("The work ends within {within} of the junction ahead: each other approach is signed too.");
        }
        Layout::ShortDurationTwoWay | Layout::ShortDurationMultilane => {
            "No cones: short work by day behind a shield vehicle"
        }
        Layout::MobileTwoWay | Layout::MobileMultilane => "No cones: the work moves along, a shield vehicle follows",
    };
    match since.split_last() {
        None => format!("{is}."),
        Some((last, [])) => format!("{is}, since {last}."),
        Some((last, others)) => format!("{is}, since {} and {last}.", others.join(", ")),
    }
}

/// Lanes for traffic of one direction, at least one. The odd lane of a two-way road belongs to nobody.
pub fn lanes_in_direction(section: &RoadSection) -> u32 {
    match section.flow {
        Flow::Both => (section.lanes / 2).max(1),
        Flow::Forward | Flow::Backward => section.lanes.max(1),
    }
}

/// Name and source of the layout: the rule set's, but where the road or the closure is not what that name says, a name
/// that says what it is and a source that says what it was made after.
pub fn layout_name(section: &RoadSection, layout: Layout, all_lanes: bool, rule: &LayoutRule) -> (String, Source) {
    let name = match (layout.takes_turns(), section.flow == Flow::Both, section.lanes) {
        (false, ..) if all_lanes && !layout.on_shoulder() => "All lanes of this direction closed",
        (true, ..) if all_lanes => "The whole road closed",
        (true, true, 1) => "Lane closure on a one-lane road with traffic both ways, flaggers",
        (true, true, 3..) => "Lane closure on a two-way road with a middle lane, flaggers",
        (true, false, _) => "Lane closure on a one-lane one-way road, flagger",
        _ => return (rule.name.clone(), rule.source.clone()),
    };
    let cite = format!("common practice, no source (made after: {}, {})", rule.name, rule.source);
    (name.into(), Source { standing: Standing::CommonPractice, cite })
}
