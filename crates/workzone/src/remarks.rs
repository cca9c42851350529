//! What the authorised person must look at, in words.

use model::quantity::InLength;
use model::rules::traffic::TrafficRules;
use model::work_zone::{Coordination, Layout, WorkZone, ZonePartKind};

use crate::frame::{Extent, two_way};
use crate::parts::shielded;
use crate::text::{FORGIVEN, metres_2};
use crate::{Stay, ZoneInput, queue};

/// Said where only the section itself is known.
const NOT_CHECKED: &str = "Side roads and driveways inside the zone, and bends and crests, were not checked: traffic that joins needs \
                           its own sign; a sign or flagger that would be hidden moves upstream, never downstream.";
/// How the remark begins that the other roads at a junction need signs.
const OTHER_ROADS: &str = "Each other road at the junction needs its own signs";
/// How the remark begins that devices stand beyond the section.
const SHORTER: &str = "The section is shorter than the zone: ";

/// How the remark begins that the crew is too small.
const CREW: &str = "The crew has ";

/// Whether a remark is about the crew being too small.
pub fn is_of_people(remark: &str) -> bool {
    remark.starts_with(CREW)
}

/// Whether a remark only holds where the road around the section is not known.
pub fn is_of_unknown_road(remark: &str) -> bool {
    remark == NOT_CHECKED || remark.starts_with(SHORTER) || remark.starts_with(OTHER_ROADS)
}

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
    said.push(NOT_CHECKED.into());
    said.push(buffer(zone, rules));
    said.extend(people(input, zone, rules));
    said.extend(flagging(input, zone, work, rules));
    said.extend(several_lanes(input, zone, work, rules));
    said.extend(junction(zone, rules));
    said.extend(stay(input, zone));
    said.extend(no_turning(input, zone));
    said.extend(queue::remarks(zone, rules));
    let length_max = rules.units.length(rules.work_space.work_space_max.value).in_metres();
    let length = rules.units.length(work.downstream - work.upstream).in_metres();
    if length > length_max {
        said.push(format!(
            "First cut to last is {}, more than the {} one work space may be long: work it in parts.",
            whole_metres(length),
            whole_metres(length_max)
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
    let stand = |count: usize| if count == 1 { "1 device stands".to_owned() } else { format!("{count} devices stand") };
    let (where_, one) = match (before, after) {
        (0, 0) => return None,
        (_, 0) => (format!("{} before its start", stand(before)), before == 1),
        (0, _) => (format!("{} beyond its end", stand(after)), after == 1),
        _ => (format!("{} before its start and {after} beyond its end", stand(before)), false),
    };
    let them = if one { "it" } else { "them" };
    Some(format!(
        "{SHORTER}{where_}, past a junction or on another road. Place {them} where that traffic \
         comes from, and sign the side roads."
    ))
}

/// The buffer is a choice, and stays empty.
pub fn buffer(zone: &WorkZone, rules: &TrafficRules) -> String {
    let rule = &rules.layouts.of(zone.layout).buffer;
    match zone.parts.iter().find(|p| p.kind == ZonePartKind::Buffer) {
        Some(part) => format!(
            "The buffer of {} is an option of the rule set, not a must. Nobody works, parks or stores anything in it.",
            whole_metres(part.length.value.in_metres())
        ),
        None => format!("No buffer is laid out ({}).", rule.source),
    }
}

/// Whether the crew is enough.
pub fn people(input: &ZoneInput, zone: &WorkZone, rules: &TrafficRules) -> Option<String> {
    let needed = zone.people_needed;
    let counted = |count: u32, one: &str, many: &str| format!("{count} {}", if count == 1 { one } else { many });
    (input.people < needed).then(|| {
        format!(
            "{CREW}{}; this takes {}: {} and at least {} at the work.",
            counted(input.people, "person", "people"),
            needed,
            counted(zone.flaggers.value, "flagger", "flaggers"),
            rules.flagging.workers_min.value
        )
    })
}

/// What goes with traffic that takes turns.
fn flagging(input: &ZoneInput, zone: &WorkZone, work: &Extent, rules: &TrafficRules) -> Vec<String> {
    if !zone.layout.takes_turns() || !two_way(input.section) {
        return Vec::new();
    }
    let mut said = Vec::new();
    if zone.control.coordination == Coordination::ByRadioOrPilot {
        said.push(
            "Flaggers who can't see each other need radio, a flag carried through, or a pilot vehicle.".to_owned(),
        );
    }
    if zone.layout == Layout::LaneClosureTwoWay && one_flagger_may_do(input, work, rules) {
        said.push(
            "Low volume and a short work space: on a straight road, one flagger seen from both directions may do, if the \
             authorised person says so. Planned here with one at each end."
                .into(),
        );
    }
    if matches!(zone.layout, Layout::LaneClosureSelfRegulating | Layout::ShortDurationTwoWay | Layout::MobileTwoWay) {
        said.push(
            "Nobody stops traffic here: look on the ground whether drivers really see through the work and beyond it, both \
             ways. Where they don't, or where more of them come than expected, put a flagger at each end."
                .into(),
        );
    }
    if input.section.lanes != 1 && work.inner + work.outer < 0.0 {
        said.push(
            "The work lies on the other side of the centre line than the lane laid out: check the direction of travel."
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

/// Whether volume and length would do for one flagger, so that only sight is open.
fn one_flagger_may_do(input: &ZoneInput, work: &Extent, rules: &TrafficRules) -> bool {
    let flagging = &rules.flagging;
    let low_volume = input.section.vehicles_per_day.is_some_and(|v| v <= flagging.low_volume_max_per_day.value);
    let short = work.downstream - work.upstream <= flagging.single_flagger_work_space_max.value;
    input.sight.is_none() && low_volume && short
}

/// Traffic that comes out of the junction the work lies before.
fn junction(zone: &WorkZone, rules: &TrafficRules) -> Option<String> {
    if !matches!(zone.layout, Layout::JunctionApproachTwoWay | Layout::JunctionApproachMultilane) {
        return None;
    }
    let signs: Vec<String> = rules
        .junctions
        .other_approaches
        .iter()
        .map(|sign| format!("{} {}", sign.designation, sign.legend).trim().to_owned())
        .collect();
    let signs = signs.join(", ");
    Some(if zone.layout.takes_turns() {
        format!(
            "{OTHER_ROADS} ({signs}), and its traffic must be held too: a flagger or \
             more at the junction, as the authorised person says. No taper or station stands in the junction."
        )
    } else {
        format!("{OTHER_ROADS} ({signs}). No taper stands in the junction.")
    })
}

/// What goes with one lane of several.
fn several_lanes(input: &ZoneInput, zone: &WorkZone, work: &Extent, rules: &TrafficRules) -> Vec<String> {
    if !zone.layout.of_several_lanes() {
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
    if two_way(input.section) && work.inner < -FORGIVEN {
        said.push(format!(
            "The work reaches {} over the centre line: the lane of the traffic the other way is neither closed nor signed \
             here, and must be.",
            metres_2(-work.inner, rules.units)
        ));
    }
    let wide = &rules.across.wide_shoulder;
    if rules.units.distance_of(input.section.shoulder) >= wide.value - FORGIVEN {
        said.push(format!(
            "The shoulder is {} or wider: close it ahead of the merging taper, so that nobody passes there ({}).",
            metres_2(wide.value, rules.units),
            wide.source
        ));
    }
    said
}

/// Where less was asked for than is given.
fn stay(input: &ZoneInput, zone: &WorkZone) -> Option<String> {
    let asked = match input.stay {
        Stay::Stationary => return None,
        Stay::ShortDuration => "short-duration work",
        Stay::Mobile => "mobile work",
    };
    let given = matches!(
        zone.layout,
        Layout::ShortDurationTwoWay | Layout::ShortDurationMultilane | Layout::MobileTwoWay | Layout::MobileMultilane
    );
    (!given && !zone.layout.on_shoulder())
        .then(|| format!("Asked for {asked}; laid out as work that stays. {}", zone.layout_reason))
}

/// What lies behind on a one-way road is not reached by turning.
fn no_turning(input: &ZoneInput, zone: &WorkZone) -> Option<String> {
    let behind = zone.out.iter().chain(&zone.back).any(|step| step.turns > 0);
    (behind && !two_way(input.section)).then(|| {
        "Taking in nearest the work first, and nobody turns round on a one-way road: each sign is reached by driving round \
         again, or with a vehicle that shields behind. The time counts a turn each and is too short for driving round."
            .into()
    })
}

/// A length along the road, as paced out.
fn whole_metres(metres: f64) -> String {
    format!("{metres:.0} m")
}
