//! Where the work is and what it is done with, in words.

use std::collections::BTreeSet;

use model::district::Applicator;
use model::place::LonLat;
use model::plan::{Plan, PlannedSite};
use model::quantity::{Length, metres};
use model::queue::{Queue, QueueOutlook};

use crate::display::{Units, duration};
use crate::drawing::visited;
use crate::printable::shorten;

/// Chainages closer to an end of the section than this, metres, are at the end.
const AT_END_M: f64 = 0.5;

/// `47.30000, -28.40000`: latitude first, as navigators and telephones take it.
pub fn degrees(place: LonLat) -> String {
    if place.lat.is_finite() && place.lon.is_finite() {
        format!("{:.5}, {:.5}", place.lat, place.lon)
    } else {
        "–".into()
    }
}

/// `chainage counts from the junction with A towards the junction with B`.
pub fn chainage_rule(site: &PlannedSite) -> String {
    format!(
        "Chainage counts from {} towards {}.",
        shorten(&site.chainage_from, 90),
        shorten(&site.chainage_towards, 90)
    )
}

/// A chainage on the section; what stands before its start or past its end, from there.
pub fn chainage(plan: &Plan, units: Units, site: &PlannedSite, at: Length) -> String {
    let length = plan.network.section(site.zone.section).length;
    let (before, past) = (-at.value, (at - length).value);
    if before > AT_END_M {
        format!("{} before {}", units.along(metres(before)), shorten(&site.chainage_from, 60))
    } else if past > AT_END_M && length.value > 0.0 {
        format!("{} past {}", units.along(metres(past)), shorten(&site.chainage_towards, 60))
    } else {
        units.chainage(metres(at.value.max(0.0)))
    }
}

/// A stretch of chainages; ends beyond the section are said in words.
pub fn stretch(plan: &Plan, units: Units, site: &PlannedSite, from: Length, to: Length) -> String {
    let (a, b) = (chainage(plan, units, site, from), chainage(plan, units, site, to));
    // `41 m before A to 20 m before A` says A once.
    for word in [" before ", " past "] {
        if let (Some((x, place)), Some((y, other))) = (a.split_once(word), b.split_once(word))
            && place == other
        {
            return format!("{x} to {y}{word}{place}");
        }
    }
    format!("{a} to {b}")
}

/// The compactor's name without the reason for it.
pub fn compactor_name(words: &str) -> &str {
    words.split_once(" (").map_or(words, |(name, _)| name).trim()
}

/// What must be aboard today: every compactor that is taken somewhere, and what the binder goes on with.
pub fn plant(plan: &Plan) -> String {
    let taken: BTreeSet<&str> = visited(plan)
        .flat_map(|s| &plan.sites[s].jobs)
        .flat_map(|&j| &plan.jobs[j].repair.patterns)
        .map(|pattern| pattern.compactor.as_str())
        .collect();
    let applicator = match plan.district.plant.applicator {
        Applicator::Sprayer => "sprayer",
        Applicator::PouringPot => "pouring pot",
    };
    taken.into_iter().chain([applicator]).collect::<Vec<_>>().join(", ")
}

/// The queue in a few words: what comes, how long it waits, how far back it stands.
pub fn queue(units: Units, queue: &Queue) -> String {
    let most = format!("{:.0} vehicles/h", queue.most_per_hour.value);
    match (&queue.flow_per_hour, &queue.outlook) {
        (Some(flow), Some(QueueOutlook::Clears(waiting))) if waiting.longest_stop.value.value > 0.0 => {
            let (count, vehicles) = (waiting.vehicles.value, waiting.vehicles.p90());
            format!(
                "{:.0} vehicles/h: stop {}, {count:.0} to {vehicles:.0} stand, {} back",
                flow.value,
                duration(waiting.longest_stop.value),
                units.along(waiting.length.p90())
            )
        }
        (Some(flow), Some(QueueOutlook::Clears(_))) => format!("{:.0} vehicles/h, carries {most}: none", flow.value),
        (Some(flow), Some(QueueOutlook::Grows(_))) => format!("{:.0} vehicles/h, carries {most}: grows", flow.value),
        _ => format!("count not known, good up to {most}"),
    }
}
