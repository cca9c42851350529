//! What goes out, what comes in, in which order, and where each thing stands.

use model::crew_move::CrewMove;
use model::place::Travel;
use model::plan::{Plan, PlannedSite};
use model::quantity::{Length, metres};
use model::work_zone::{Device, DeviceKind, WorkZone};
use serde::Serialize;

use super::words;
use crate::display::Units;
use crate::printable::shorten;

#[derive(Debug, Serialize)]
pub struct PlacingRow {
    number: String,
    device: String,
    designation: String,
    traffic: String,
    /// Of the traffic that comes the other way, so that nobody places it for ours.
    oncoming: bool,
    place: String,
    side: String,
    chainage: String,
    /// Time of the step that begins here, and what is walked in it; empty in its other rows.
    step: [String; 2],
}

#[derive(Debug, Serialize)]
pub struct RemovingRow {
    number: String,
    device: String,
    count: usize,
    /// Time of the step that begins here, and what is walked in it; empty in its other rows.
    step: [String; 2],
}

/// Rows in placing order.
pub fn placing(plan: &Plan, units: Units, site: &PlannedSite) -> Vec<PlacingRow> {
    let zone = &site.zone;
    let order: Vec<usize> = (0..zone.devices.len()).collect();
    runs(zone, &order)
        .into_iter()
        .map(|run| {
            let devices: Vec<&Device> = run.iter().map(|&i| &zone.devices[i]).collect();
            let (first, last) = (devices[0], devices[devices.len() - 1]);
            PlacingRow {
                number: numbers(&run),
                device: device_words(units, &devices),
                designation: shorten(&first.designation, 14),
                traffic: units.words.say(traffic(zone, first)),
                oncoming: traffic(zone, first) == ONCOMING,
                place: on_side_road(plan, units, site, first).unwrap_or_else(|| place_words(zone, units, &devices)),
                step: step_words(units, &zone.out, run[0]),
                side: side_words(units, &devices),
                chainage: if on_joining(first).is_some() {
                    String::new()
                } else if run.len() == 1 {
                    words::chainage(plan, units, site, first.chainage)
                } else {
                    words::stretch(plan, units, site, first.chainage, last.chainage)
                },
            }
        })
        .collect()
}

/// Rows in removing order.
pub fn removing(units: Units, zone: &WorkZone) -> Vec<RemovingRow> {
    let order: Vec<usize> = zone.removing.iter().copied().filter(|&i| i < zone.devices.len()).collect();
    runs(zone, &order)
        .into_iter()
        .map(|run| {
            let devices: Vec<&Device> = run.iter().map(|&i| &zone.devices[i]).collect();
            let device = match devices[0].kind {
                DeviceKind::FlaggerStation => units.words.say("sheet-flagger"),
                DeviceKind::ShieldVehicle => units.words.say("sheet-shield-vehicle"),
                DeviceKind::Sign | DeviceKind::Cone => device_words(units, &devices),
            };
            let step = step_words(units, &zone.back, run[0]);
            RemovingRow { number: numbers(&run), device, count: run.len(), step }
        })
        .collect()
}

/// `drive 3.2 km, walk 200 m, turn 6 times: 26 min`, out and back.
pub fn ways(units: Units, zone: &WorkZone) -> [String; 2] {
    [(&zone.out, zone.set_up.value), (&zone.back, zone.take_in.value)].map(|(steps, time)| {
        let driven: Length = steps.iter().map(|step| step.driven).sum();
        let walked: Length = steps.iter().map(|step| step.walked).sum();
        let turns: u32 = steps.iter().map(|step| step.turns).sum();
        units.words.say_with(
            "sheet-way-time",
            [("way", way(units, driven, walked, turns).into()), ("time", units.duration(time).into())],
        )
    })
}

/// The step that a device begins.
fn begun(steps: &[CrewMove], device: usize) -> Option<&CrewMove> {
    steps.iter().find(|step| step.devices.first() == Some(&device))
}

/// Minutes of the step that a device begins; with what is walked, where that is something.
fn step_words(units: Units, steps: &[CrewMove], device: usize) -> [String; 2] {
    let Some(step) = begun(steps, device) else { return Default::default() };
    let walked = if step.walked.value >= 0.5 { walk(units, step.walked) } else { String::new() };
    [units.duration(step.time.value), walked]
}

fn walk(units: Units, length: Length) -> String {
    units.words.say_with("sheet-walk", [("distance", units.along(length).into())])
}

fn way(units: Units, driven: Length, walked: Length, turns: u32) -> String {
    let mut parts = Vec::new();
    if driven.value >= 0.5 {
        parts.push(units.words.say_with("sheet-drive", [("distance", units.along(driven).into())]));
    }
    if walked.value >= 0.5 {
        parts.push(walk(units, walked));
    }
    if turns > 0 {
        parts.push(units.counted("sheet-turn", turns as usize));
    }
    units.list(&parts)
}

fn on_joining(device: &Device) -> Option<&(String, Length)> {
    device.spot.as_ref().and_then(|spot| spot.side_road.as_ref())
}

const ONCOMING: &str = "sheet-traffic-oncoming";

/// Whose sign it is.
fn traffic(zone: &WorkZone, device: &Device) -> &'static str {
    if on_joining(device).is_some() {
        "sheet-traffic-joining"
    } else if device.approach == zone.travel {
        "sheet-traffic-our-lane"
    } else {
        ONCOMING
    }
}

/// Where a sign stands on a road that joins.
fn on_side_road(plan: &Plan, units: Units, site: &PlannedSite, device: &Device) -> Option<String> {
    let (name, distance) = on_joining(device)?;
    let junction = words::chainage(plan, units, site, device.chainage);
    let values = [
        ("road", shorten(name, 40).into()),
        ("distance", units.along(*distance).into()),
        ("junction", junction.into()),
    ];
    Some(units.words.say_with("sheet-on-side-road", values))
}

/// Neighbouring cones of one line go into one row; everything else has its own.
fn runs(zone: &WorkZone, order: &[usize]) -> Vec<Vec<usize>> {
    let mut runs: Vec<Vec<usize>> = Vec::new();
    for &index in order {
        if let Some(run) = runs.last_mut() {
            let last = run[run.len() - 1];
            let (a, b) = (&zone.devices[last], &zone.devices[index]);
            let same = a.kind == DeviceKind::Cone
                && b.kind == DeviceKind::Cone
                && a.approach == b.approach
                && a.legend == b.legend
                && last.abs_diff(index) == 1;
            // A line of cones runs one way; where it turns back, a new line begins.
            let turned = run.len() > 1 && {
                let before = &zone.devices[run[run.len() - 2]];
                (a.chainage - before.chainage).value * (b.chainage - a.chainage).value < 0.0
            };
            if same && !turned {
                run.push(index);
                continue;
            }
        }
        runs.push(vec![index]);
    }
    runs
}

fn numbers(run: &[usize]) -> String {
    match run {
        [one] => (one + 1).to_string(),
        _ => format!("{}–{}", run[0] + 1, run[run.len() - 1] + 1),
    }
}

fn device_words(units: Units, devices: &[&Device]) -> String {
    let first = devices[0];
    match first.kind {
        DeviceKind::Cone => {
            let count = units.counted("sheet-cones-counted", devices.len());
            let legend = first.legend.trim();
            let legend = legend.strip_prefix("cone, ").unwrap_or(legend);
            if legend.is_empty() || legend == "cone" { count } else { units.list(&[count, units.rule_text(legend)]) }
        }
        DeviceKind::FlaggerStation if first.legend.is_empty() => units.words.say("sheet-flagger-station"),
        DeviceKind::ShieldVehicle if first.legend.is_empty() => units.words.say("sheet-shield-vehicle"),
        _ => shorten(&units.rule_text(&first.legend), 60),
    }
}

/// Where along the road, seen by the traffic the device is for.
fn place_words(zone: &WorkZone, units: Units, devices: &[&Device]) -> String {
    let first = Spot::of(zone, devices[0]);
    let Some(last) = devices.get(1..).and_then(|rest| rest.last()) else { return first.alone(units) };
    let last = Spot::of(zone, last);
    let gaps: Vec<f64> =
        devices.windows(2).map(|w| (w[1].chainage - w[0].chainage).value.abs()).filter(|g| *g > 0.01).collect();
    let low = gaps.iter().copied().fold(f64::INFINITY, f64::min);
    let high = gaps.iter().copied().fold(0.0, f64::max);
    let spacing = if gaps.is_empty() {
        units.words.say("sheet-side-by-side")
    } else if high - low < 0.5 {
        units.words.say_with("sheet-every", [("distance", units.along(metres(high)).into())])
    } else {
        let range = units.range(&units.along(metres(low)), &units.along(metres(high)));
        units.words.say_with("sheet-apart", [("range", range.into())])
    };
    let range = |a: f64, b: f64| units.range(&units.along(metres(a)), &units.along(metres(b)));
    let place = match (first, last) {
        (Spot::Before(a), Spot::Before(b)) => {
            units.words.say_with("sheet-spot-before", [("distance", range(a, b).into())])
        }
        (Spot::Past(a), Spot::Past(b)) => units.words.say_with("sheet-spot-past", [("distance", range(a, b).into())]),
        (Spot::Start, Spot::End) | (Spot::End, Spot::Start) => units.words.say("sheet-spot-whole"),
        (a, b) if a == b => a.alone(units),
        (a, b) => between(units, a, b),
    };
    units.list(&[place, spacing])
}

/// `from 104 m before it to its start`.
fn between(units: Units, from: Spot, to: Spot) -> String {
    let (from, to) = (from.in_a_row(units), to.in_a_row(units));
    units.words.say_with("sheet-spot-between", [("from", from.into()), ("to", to.into())])
}

/// A place seen from the work space, in the direction of the traffic; metres.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Spot {
    Before(f64),
    Start,
    Inside(f64),
    End,
    Past(f64),
}

impl Spot {
    fn of(zone: &WorkZone, device: &Device) -> Self {
        let sign = if device.approach == Travel::Forward { 1.0 } else { -1.0 };
        let at = device.chainage.value * sign;
        let ends = [zone.work_from.value * sign, zone.work_to.value * sign];
        let (start, end) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
        if at < start - 0.05 {
            Spot::Before(start - at)
        } else if at > end + 0.05 {
            Spot::Past(at - end)
        } else if (at - start).abs() <= 0.05 {
            Spot::Start
        } else if (at - end).abs() <= 0.05 {
            Spot::End
        } else {
            Spot::Inside(at - start)
        }
    }

    fn alone(self, units: Units) -> String {
        let at = |message: &str, m: f64| units.words.say_with(message, [("distance", units.along(metres(m)).into())]);
        match self {
            Spot::Before(m) => at("sheet-spot-before", m),
            Spot::Start => units.words.say("sheet-spot-at-start"),
            Spot::Inside(m) => at("sheet-spot-inside", m),
            Spot::End => units.words.say("sheet-spot-at-end"),
            Spot::Past(m) => at("sheet-spot-past", m),
        }
    }

    /// Behind `from` or `to`.
    fn in_a_row(self, units: Units) -> String {
        match self {
            Spot::Start => units.words.say("sheet-spot-its-start"),
            Spot::End => units.words.say("sheet-spot-its-end"),
            other => other.alone(units),
        }
    }
}

/// Right or left as the approaching driver sees it, and how far from the centre line.
fn side_words(units: Units, devices: &[&Device]) -> String {
    let one = |device: &Device| {
        let sign = if device.approach == Travel::Forward { 1.0 } else { -1.0 };
        let across = device.across.value * sign;
        let side = if across.abs() < 0.05 {
            Across::Centre
        } else if across > 0.0 {
            Across::Right
        } else {
            Across::Left
        };
        (side, units.width(device.across.abs()))
    };
    let words = |side: Across, width: &str| match side {
        Across::Centre => units.words.say("sheet-centre"),
        Across::Right => units.words.say_with("sheet-right-by", [("distance", width.into())]),
        Across::Left => units.words.say_with("sheet-left-by", [("distance", width.into())]),
    };
    let (first, last) = (one(devices[0]), one(devices[devices.len() - 1]));
    if first == last || (first.0, last.0) == (Across::Centre, Across::Centre) {
        words(first.0, &first.1)
    } else if first.0 == last.0 {
        words(first.0, &units.range(&first.1, &last.1))
    } else {
        units.range(&words(first.0, &first.1), &words(last.0, &last.1))
    }
}

/// Side of the centre line as a driver sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Across {
    Left,
    Centre,
    Right,
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::district::UnitSystem;

    #[test]
    fn places_read_as_words() {
        let si = Units::new(UnitSystem::Si, ::words::Words::default());
        assert_eq!(Spot::Before(104.0).alone(si), "104 m before it");
        assert_eq!(Spot::Start.alone(si), "at its start");
        assert_eq!(between(si, Spot::Before(104.0), Spot::Start), "from 104 m before it to its start");
    }
}
