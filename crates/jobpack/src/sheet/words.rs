//! Where the work is and what it is done with, in words.

use std::collections::BTreeSet;

use ::words::Language;
use model::district::Applicator;
use model::place::{LonLat, Side};
use model::plan::{Plan, PlannedSite};
use model::quantity::{InTime, Length, metres};
use model::queue::{Queue, QueueOutlook};
use model::sharing::Sharing;

use crate::display::Units;
use crate::drawing::visited;
use crate::printable::shorten;

/// Chainages closer to an end of the section than this, metres, are at the end.
const AT_END_M: f64 = 0.5;

/// `47.30000, -28.40000`: latitude first, as navigators and telephones take it.
pub fn degrees(units: Units, place: LonLat) -> String {
    if place.lat.is_finite() && place.lon.is_finite() {
        // Kept together they keep their order in a line from right to left.
        let space = if units.words.language().is_right_to_left() { '\u{a0}' } else { ' ' };
        format!("{:.5},{space}{:.5}", place.lat, place.lon)
    } else {
        "–".into()
    }
}

/// Of the road's own direction, that of growing chainage.
pub fn side(units: Units, side: Side) -> String {
    units.words.say(match side {
        Side::Left => "sheet-left",
        Side::Right => "sheet-right",
    })
}

/// `chainage counts from the junction with A towards the junction with B`.
pub fn chainage_rule(units: Units, from: &str, towards: &str) -> String {
    let ends = [from, towards].map(|end| shorten(end, 90));
    let [from, towards] = ends;
    units.words.say_with("sheet-chainage-rule", [("from", from.into()), ("towards", towards.into())])
}

/// A chainage, and where it lies beyond the section.
enum Station {
    On(String),
    /// So far before the place that chainages count from.
    Before(String, String),
    /// So far past the place that they count towards.
    Past(String, String),
}

fn station(plan: &Plan, units: Units, site: &PlannedSite, at: Length) -> Station {
    let length = plan.network.section(site.zone.section).length;
    let (before, past) = (-at.value, (at - length).value);
    if before > AT_END_M {
        Station::Before(units.along(metres(before)), shorten(&site.chainage_from, 60))
    } else if past > AT_END_M && length.value > 0.0 {
        Station::Past(units.along(metres(past)), shorten(&site.chainage_towards, 60))
    } else {
        Station::On(units.chainage(metres(at.value.max(0.0))))
    }
}

/// A chainage on the section; what stands before its start or past its end, from there.
pub fn chainage(plan: &Plan, units: Units, site: &PlannedSite, at: Length) -> String {
    match station(plan, units, site, at) {
        Station::On(chainage) => chainage,
        Station::Before(distance, place) => beyond(units, "sheet-before-place", distance, place),
        Station::Past(distance, place) => beyond(units, "sheet-past-place", distance, place),
    }
}

fn beyond(units: Units, message: &str, distance: String, place: String) -> String {
    units.words.say_with(message, [("distance", distance.into()), ("place", place.into())])
}

/// A stretch of chainages; ends beyond the section are said in words.
pub fn stretch(plan: &Plan, units: Units, site: &PlannedSite, from: Length, to: Length) -> String {
    let ends = (station(plan, units, site, from), station(plan, units, site, to));
    let both = |message: &str, near: &str, far: &str, place: &str| {
        units.words.say_with(message, [("near", near.into()), ("far", far.into()), ("place", place.into())])
    };
    // `41 m to 20 m before A` says A once.
    match &ends {
        (Station::Before(near, a), Station::Before(far, b)) if a == b => both("sheet-before-place-range", near, far, a),
        (Station::Past(near, a), Station::Past(far, b)) if a == b => both("sheet-past-place-range", near, far, a),
        _ => {
            let (low, high) = (chainage(plan, units, site, from), chainage(plan, units, site, to));
            units.words.say_with("sheet-range", [("low", low.into()), ("high", high.into())])
        }
    }
}

/// The compactor's name without the reason for it.
pub fn compactor_name(words: &str) -> &str {
    words.split_once(" (").map_or(words, |(name, _)| name).trim()
}

/// The machines in the reader's language. The reasons for them, in brackets, are worked out in English and stand only there.
pub fn compactor(units: Units, words: &str) -> String {
    if units.words.language() == Language::English {
        return words.to_owned();
    }
    machine(units, compactor_name(words))
}

/// `hand tamper, last layer pedestrian roller`, without a reason.
pub fn machine(units: Units, name: &str) -> String {
    match name.split_once(", last layer ") {
        None => units.rule_text(name),
        Some((machine, last)) => units.words.say_with(
            "sheet-compactor-last-layer",
            [("machine", units.rule_text(machine).into()), ("last", units.rule_text(last).into())],
        ),
    }
}

/// What must be aboard today: every compactor that is taken somewhere, and what the binder goes on with.
pub fn plant(plan: &Plan, units: Units) -> String {
    let taken: BTreeSet<&str> = visited(plan)
        .flat_map(|s| &plan.sites[s].jobs)
        .flat_map(|&j| &plan.jobs[j].repair.patterns)
        .map(|pattern| pattern.compactor.as_str())
        .collect();
    let applicator = match plan.district.plant.applicator {
        Applicator::Sprayer => "sheet-sprayer",
        Applicator::PouringPot => "sheet-pouring-pot",
    };
    let mut names: Vec<String> = taken.into_iter().map(|name| units.rule_text(name)).collect();
    names.push(units.words.say(applicator));
    units.list(&names)
}

/// The queue in a few words: what comes, how long it waits, how far back it stands.
pub fn queue(units: Units, queue: &Queue) -> String {
    let whole = |number: f64| format!("{number:.0}");
    let most = ("most", whole(queue.most_per_hour.value).into());
    match (&queue.flow_per_hour, &queue.outlook) {
        (Some(flow), Some(QueueOutlook::Clears(waiting))) if waiting.longest_stop.value.value > 0.0 => {
            units.words.say_with(
                "sheet-queue-clears",
                [
                    ("flow", whole(flow.value).into()),
                    ("stop", units.duration(waiting.longest_stop.value).into()),
                    ("count", whole(waiting.vehicles.value).into()),
                    ("vehicles", whole(waiting.vehicles.p90()).into()),
                    ("back", units.along(waiting.length.p90()).into()),
                ],
            )
        }
        (Some(flow), Some(QueueOutlook::Clears(_))) => {
            units.words.say_with("sheet-queue-none", [("flow", whole(flow.value).into()), most])
        }
        (Some(flow), Some(QueueOutlook::Grows(_))) => {
            units.words.say_with("sheet-queue-grows", [("flow", whole(flow.value).into()), most])
        }
        _ => units.words.say_with("sheet-queue-unknown", [most]),
    }
}

/// What it saves or costs that several cuts share the zone.
pub fn sharing(units: Units, sharing: &Sharing) -> String {
    let holes = if sharing.holes == sharing.cuts {
        units.counted("sheet-holes", sharing.holes as usize)
    } else {
        units
            .words
            .say_with("sheet-holes-counted-in-cuts", [("holes", sharing.holes.into()), ("cuts", sharing.cuts.into())])
    };
    let minutes = sharing.time_saved.value.in_minutes().round() as i64;
    let devices = sharing.devices_saved.value;
    let parts = [
        (minutes, format!("{} {}", minutes.unsigned_abs(), units.words.say("unit-min"))),
        (devices, units.counted("sheet-devices", usize::try_from(devices.unsigned_abs()).unwrap_or_default())),
    ];
    let joined = |gain: bool| {
        let said =
            parts.iter().filter(|(value, _)| if gain { *value > 0 } else { *value < 0 }).map(|(_, said)| said.clone());
        said.reduce(|a, b| units.words.say_with("sheet-both", [("first", a.into()), ("second", b.into())]))
    };
    let holes = ("holes", holes.into());
    match (joined(true), joined(false)) {
        (Some(saved), None) => units.words.say_with("sheet-sharing-saves", [holes, ("saved", saved.into())]),
        (Some(saved), Some(more)) => units
            .words
            .say_with("sheet-sharing-saves-and-takes", [holes, ("saved", saved.into()), ("more", more.into())]),
        (None, Some(more)) => units.words.say_with("sheet-sharing-takes", [holes, ("more", more.into())]),
        (None, None) => units.words.say_with("sheet-sharing-as-long", [holes]),
    }
}
