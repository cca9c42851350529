//! What the authorised person must look at, in words.

use model::quantity::{InLength, feet};
use model::rules::traffic::TrafficRules;
use model::work_zone::{Layout, WorkZone, ZonePartKind};

use crate::ZoneInput;
use crate::frame::{Extent, two_way};
use crate::parts::shielded;
use crate::text::{FORGIVEN, ft, tidy};

/// What is said of every zone first.
pub fn opening() -> Vec<String> {
    vec![
        "A proposal, not checked on the ground: the person authorised under the local traffic-control code decides and may \
         change it."
            .into(),
    ]
}

/// What is said once the zone is known.
pub fn closing(input: &ZoneInput, zone: &WorkZone, work: &Extent, rules: &TrafficRules) -> Vec<String> {
    let mut said = Vec::new();
    said.extend(beyond_section(input, zone));
    said.push(
        "Side roads and driveways inside the zone, and bends and crests, were not checked: traffic that joins needs its own \
         sign; a sign or flagger that would be hidden moves upstream, never downstream."
            .into(),
    );
    said.push(buffer(zone, rules));
    said.extend(people(input, zone, rules));
    said.extend(flagging(input, zone, work, rules));
    said.extend(several_lanes(input, zone, rules));
    let length_max = rules.work_space.work_space_max_m.value;
    let length = feet(work.downstream - work.upstream).in_metres();
    if length > length_max {
        said.push(format!(
            "First cut to last is {} m, more than the {} m one work space may be long: work it in parts.",
            tidy(length),
            tidy(length_max)
        ));
    }
    if !shielded(input, rules) && input.vehicles > 0 {
        said.push("No vehicle to spare as a shield: the truck stands upstream of the cut with its beacon on.".into());
    }
    if input.night {
        said.push("Night work: every sign and cone retroreflective, flagger stations lit.".into());
    }
    if zone.duration_class == rules.duration.names.value.long_term {
        said.push("So long a stay needs a plan of its own; this layout is for a day's patching.".into());
    }
    said
}

/// Devices that stand on the road before or after the section: a junction lies between.
fn beyond_section(input: &ZoneInput, zone: &WorkZone) -> Option<String> {
    let length = input.section.length.in_metres();
    let before = zone.devices.iter().filter(|d| d.chainage.in_metres() < 0.0).count();
    let after = zone.devices.iter().filter(|d| d.chainage.in_metres() > length).count();
    (before + after > 0).then(|| {
        format!(
            "The section is shorter than the zone: {before} devices stand before its start and {after} beyond its end, past \
             a junction or on another road. Place them where that traffic comes from, and sign the side roads."
        )
    })
}

/// The buffer is a choice, and stays empty.
fn buffer(zone: &WorkZone, rules: &TrafficRules) -> String {
    let rule = &rules.layouts.of(zone.layout).buffer;
    match zone.parts.iter().find(|p| p.kind == ZonePartKind::Buffer) {
        Some(part) => format!(
            "The buffer of {} is an option of the rule set, not a must. Nobody works, parks or stores anything in it.",
            ft(part.length.value.in_feet())
        ),
        None => format!("No buffer is laid out ({}).", rule.source),
    }
}

/// Whether the crew is enough.
fn people(input: &ZoneInput, zone: &WorkZone, rules: &TrafficRules) -> Option<String> {
    let least = rules.flagging.workers_min.value;
    let needed = u64::from(zone.flaggers.value) + u64::from(least);
    (u64::from(input.people) < needed).then(|| {
        format!(
            "The crew has {} people; {} flaggers leave too few for the work, which takes at least {least}. Bring {} in all.",
            input.people, zone.flaggers.value, needed
        )
    })
}

/// What goes with traffic that takes turns.
fn flagging(input: &ZoneInput, zone: &WorkZone, work: &Extent, rules: &TrafficRules) -> Vec<String> {
    if zone.layout != Layout::LaneClosureTwoWay || !two_way(input.section) {
        return Vec::new();
    }
    let flagging = &rules.flagging;
    let mut said =
        vec!["Flaggers who can't see each other need radio, a flag carried through, or a pilot vehicle.".to_owned()];
    let low_volume = input.section.vehicles_per_day.is_some_and(|v| v <= flagging.low_volume_max_per_day.value);
    let short = work.downstream - work.upstream <= flagging.single_flagger_work_space_max_ft.value;
    if low_volume && short {
        said.push(
            "Low volume and a short work space: on a straight road, one flagger seen from both directions may do, if the \
             authorised person says so. Planned here with one at each end."
                .into(),
        );
    }
    if input.section.lanes > 2 {
        said.push(
            "The road has a middle lane: whether traffic can pass without taking turns is for the authorised person."
                .into(),
        );
    }
    said
}

/// What goes with one lane of several.
fn several_lanes(input: &ZoneInput, zone: &WorkZone, rules: &TrafficRules) -> Vec<String> {
    if zone.layout != Layout::LaneClosureMultilane {
        return Vec::new();
    }
    let mut said = Vec::new();
    if two_way(input.section) {
        said.push(
            "Traffic the other way shares this road without a median: it is not signed here; sign it too where it passes \
             close to the work."
                .into(),
        );
    }
    let wide = &rules.across.wide_shoulder_ft;
    if input.section.shoulder.in_feet() >= wide.value - FORGIVEN {
        said.push(format!(
            "The shoulder is {} or wider: close it ahead of the merging taper, so that nobody passes there ({}).",
            ft(wide.value),
            wide.source
        ));
    }
    said
}
