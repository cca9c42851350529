//! What must not be overlooked before the truck leaves.

use jiff::civil::Time;
use model::plan::{Plan, TripLoad};
use model::round::SecondOfDay;
use model::work_zone::DeviceKind;

use crate::display::Units;
use crate::drawing::visited;
use crate::printable::shorten;

/// Lines at most: a wall of warnings warns of nothing.
const LISTED_MAX: usize = 7;

/// Everything loud, in the order of the day: the day's end, the loads, then stop by stop.
pub fn alerts(plan: &Plan, units: Units) -> Vec<String> {
    let words = units.words;
    let mut said = Vec::new();
    if let Some(back) = back_late(plan) {
        let (end, back) = (shift_end(plan).to_string(), back.to_string());
        said.push(words.say_with("sheet-alert-back-late", [("end", end.into()), ("back", back.into())]));
    }
    let engineers = plan.jobs.iter().filter(|job| !job.patch.is_patch()).count();
    if engineers > 0 {
        said.push(words.say_with("sheet-alert-no-patch", [("count", engineers.into())]));
    }
    for (index, load) in plan.loads.iter().enumerate() {
        said.extend(overload(plan, units, index + 1, load));
    }
    // The same lack at many stops is said once.
    let mut by_text: Vec<(String, Vec<String>)> = Vec::new();
    for (index, site) in visited(plan).enumerate() {
        for text in lacks(plan, units, site) {
            let stop = (index + 1).to_string();
            match by_text.iter_mut().find(|(known, _)| *known == text) {
                Some((_, stops)) => stops.push(stop),
                None => by_text.push((text, vec![stop])),
            }
        }
    }
    said.extend(by_text.iter().map(|(text, stops)| {
        let listed = shorten(&stops.join(", "), 72);
        let values = [("count", stops.len().into()), ("stops", listed.into()), ("what", text.into())];
        words.say_with("sheet-alert-at-stops", values)
    }));
    if said.len() > LISTED_MAX {
        let rest = said.split_off(LISTED_MAX - 1);
        said.push(words.say_with("sheet-alert-more", [("count", rest.len().into())]));
    }
    said
}

/// The time of return at nine in ten, where it is after the shift's end.
pub fn back_late(plan: &Plan) -> Option<SecondOfDay> {
    plan.back_p90.filter(|back| *back > shift_end(plan))
}

pub fn shift_end(plan: &Plan) -> SecondOfDay {
    second_of_day(plan.district.shift.end)
}

pub fn second_of_day(time: Time) -> SecondOfDay {
    SecondOfDay(time.hour() as u32 * 3600 + time.minute() as u32 * 60 + time.second() as u32)
}

/// What one stop lacks: room for traffic, people, devices.
pub fn lacks(plan: &Plan, units: Units, site: usize) -> Vec<String> {
    let zone = &plan.sites[site].zone;
    let words = units.words;
    let mut said = Vec::new();
    if !zone.passable {
        let open = zone.open_width.value;
        said.push(if open.value > 0.0 {
            words.say_with("sheet-alert-too-narrow", [("width", units.width(open).into())])
        } else {
            words.say("sheet-alert-closed")
        });
    }
    let (needed, people) = (zone.people_needed, plan.district.crew.people);
    if needed > people {
        said.push(words.say_with("sheet-alert-people", [("needed", needed.into()), ("people", people.into())]));
    }
    let owned = &plan.district.devices_owned;
    for (message, kind, have) in
        [("sheet-alert-signs", DeviceKind::Sign, owned.signs), ("sheet-alert-cones", DeviceKind::Cone, owned.cones)]
    {
        let needed = zone.devices.iter().filter(|d| d.kind == kind).count();
        if needed > have as usize {
            said.push(words.say_with(message, [("needed", needed.into()), ("have", have.into())]));
        }
    }
    said
}

fn overload(plan: &Plan, units: Units, trip: usize, load: &TripLoad) -> Option<String> {
    let payload = plan.district.truck.payload;
    (load.mass_max > payload).then(|| {
        let (most, allowed) = (units.mass(load.mass_max), units.mass(payload));
        let values = [("trip", trip.into()), ("most", most.into()), ("allowed", allowed.into())];
        units.words.say_with("sheet-alert-overload", values)
    })
}
