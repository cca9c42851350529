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
    let mut said = Vec::new();
    if let Some(back) = back_late(plan) {
        said.push(format!(
            "The shift ends at {}: back by {back} in nine days of ten, so the last stops may have to wait for another day.",
            shift_end(plan)
        ));
    }
    let engineers = plan.jobs.iter().filter(|job| !job.patch.is_patch()).count();
    if engineers > 0 {
        let (cuts, are) = if engineers == 1 { ("cut is", "is") } else { ("cuts are", "are") };
        said.push(format!(
            "{engineers} {cuts} no patch and {are} not in this pack: ask the engineer. They are listed behind this sheet."
        ));
    }
    for (index, load) in plan.loads.iter().enumerate() {
        said.extend(overload(plan, units, load).map(|what| format!("Trip {}: {what}", index + 1)));
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
    let at = |stops: &[String]| format!("{} {}", if stops.len() == 1 { "Stop" } else { "Stops" }, stops.join(", "));
    said.extend(by_text.iter().map(|(text, stops)| format!("{}: {text}", shorten(&at(stops), 80))));
    if said.len() > LISTED_MAX {
        let rest = said.split_off(LISTED_MAX - 1);
        said.push(format!("and {} more: look at every zone sheet before you leave.", rest.len()));
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
    let mut said = Vec::new();
    if !zone.passable {
        let open = zone.open_width.value;
        let open = if open.value > 0.0 {
            format!("only {} stays open", units.width(open))
        } else {
            "nothing stays open".into()
        };
        said.push(format!("{open}: traffic can't pass the work. The authorised person decides how it is led."));
    }
    let (needed, people) = (zone.people_needed, plan.district.crew.people);
    if needed > people {
        said.push(format!("{needed} people needed, flaggers included; the crew has {people}."));
    }
    let owned = &plan.district.devices_owned;
    for (what, kind, have) in [("signs", DeviceKind::Sign, owned.signs), ("cones", DeviceKind::Cone, owned.cones)] {
        let needed = zone.devices.iter().filter(|d| d.kind == kind).count();
        if needed > have as usize {
            said.push(format!("{needed} {what} needed, the depot has {have}. Don't begin without them."));
        }
    }
    said
}

fn overload(plan: &Plan, units: Units, load: &TripLoad) -> Option<String> {
    let payload = plan.district.truck.payload;
    (load.mass_max > payload).then(|| {
        format!("{} aboard at the most, the truck may carry {}.", units.mass(load.mass_max), units.mass(payload))
    })
}
