//! The sheet of one work zone.

use model::district::DrivingSide;
use model::place::Travel;
use model::plan::Plan;
use model::quantity::{Length, metres};
use model::round::StopKind;
use model::work_zone::{Device, DeviceKind, WorkZone};
use serde::Serialize;

use super::cover::severity_word;
use super::hole::{HoleSheet, hole_sheet, size_words};
use super::{Fact, counted, fact, shorten};
use crate::display::{Units, duration, range};
use crate::drawing::job_number;

#[derive(Debug, Serialize)]
pub struct ZoneSheet {
    stop: usize,
    road: String,
    from: String,
    to: String,
    facts: Vec<Fact>,
    layout: String,
    source: String,
    drawing: String,
    placing: Vec<PlacingRow>,
    removing: Vec<RemovingRow>,
    counts: Vec<Count>,
    remarks: Vec<String>,
    jobs: Vec<JobLine>,
    holes: Vec<HoleSheet>,
}

#[derive(Debug, Serialize)]
struct PlacingRow {
    number: String,
    device: String,
    designation: String,
    traffic: &'static str,
    place: String,
    side: String,
    chainage: String,
}

#[derive(Debug, Serialize)]
struct RemovingRow {
    number: String,
    device: String,
    count: usize,
}

#[derive(Debug, Serialize)]
struct Count {
    what: &'static str,
    count: usize,
}

#[derive(Debug, Serialize)]
struct JobLine {
    number: String,
    holes: String,
    size: String,
    severity: &'static str,
}

pub fn zone_sheet(
    plan: &Plan,
    units: Units,
    site: usize,
    stop: usize,
    drawings: &mut Vec<(String, String)>,
) -> ZoneSheet {
    let planned = &plan.sites[site];
    let zone = &planned.zone;
    let drawing = format!("zone-{stop}.svg");
    drawings.push((drawing.clone(), crate::zone_plan_svg(plan, site)));
    let work = plan.round.timetable.iter().find(|s| s.kind == StopKind::Work(site));
    let clock = |time: Option<model::round::SecondOfDay>| time.map_or_else(|| "–".into(), |t| t.to_string());
    ZoneSheet {
        stop,
        road: shorten(&plan.network.section(zone.section).label(), 90),
        from: clock(work.map(|w| w.from)),
        to: clock(work.map(|w| w.to)),
        facts: facts(plan, units, site),
        layout: zone.layout_name.clone(),
        source: zone.layout_source.to_string(),
        drawing,
        placing: placing(zone, units),
        removing: removing(zone),
        counts: counts(zone),
        remarks: zone.remarks.clone(),
        jobs: planned.jobs.iter().map(|&job| job_line(plan, units, job)).collect(),
        holes: planned.jobs.iter().map(|&job| hole_sheet(plan, units, job, drawings)).collect(),
    }
}

fn facts(plan: &Plan, units: Units, site: usize) -> Vec<Fact> {
    let planned = &plan.sites[site];
    let zone = &planned.zone;
    let road = plan.network.section(zone.section);
    let keeps = match plan.district.driving_side {
        DrivingSide::Left => "left",
        DrivingSide::Right => "right",
    };
    let azimuth = planned.position.azimuth_deg + if zone.travel == Travel::Backward { 180.0 } else { 0.0 };
    let work = format!("{} to {}", units.chainage(zone.work_from), units.chainage(zone.work_to));
    vec![
        fact("speed limit", units.speed(road.speed)),
        fact("lanes", format!("{}, sealed {}", road.lanes, units.width(road.width))),
        fact("traffic keeps", keeps),
        fact("worked lane heads", compass(azimuth)),
        fact("work space at", work),
        fact("flaggers", zone.flaggers.value.to_string()),
        fact("left open", units.width(zone.open_width.value)),
        fact("duration class", zone.duration_class.clone()),
        fact("set up", duration(zone.set_up.value)),
        fact("take in", duration(zone.take_in.value)),
    ]
}

/// Eight winds.
fn compass(azimuth_deg: f64) -> String {
    const WINDS: [&str; 8] = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];
    if !azimuth_deg.is_finite() {
        return "–".into();
    }
    WINDS[((azimuth_deg.rem_euclid(360.0) / 45.0).round() as usize) % 8].into()
}

fn job_line(plan: &Plan, units: Units, job: usize) -> JobLine {
    let planned = &plan.jobs[job];
    let holes: Vec<&str> = planned.holes.iter().map(|&h| plan.holes[h].hole.id.0.as_str()).collect();
    let worst = planned.holes.iter().filter_map(|&h| plan.holes[h].judgement.severity).max();
    JobLine {
        number: job_number(plan, job),
        holes: shorten(&holes.join(", "), 32),
        size: format!("{}, {}", size_words(units, &planned.cut), units.depth(planned.repair.depth.value)),
        severity: severity_word(worst),
    }
}

fn placing(zone: &WorkZone, units: Units) -> Vec<PlacingRow> {
    let order: Vec<usize> = (0..zone.devices.len()).collect();
    runs(zone, &order)
        .into_iter()
        .map(|run| {
            let devices: Vec<&Device> = run.iter().map(|&i| &zone.devices[i]).collect();
            let (first, last) = (devices[0], devices[devices.len() - 1]);
            PlacingRow {
                number: numbers(&run),
                device: device_words(&devices),
                designation: first.designation.clone(),
                traffic: if first.approach == zone.travel { "our lane" } else { "oncoming" },
                place: place_words(zone, units, &devices),
                side: side_words(units, &devices),
                chainage: if run.len() == 1 {
                    units.chainage(first.chainage)
                } else {
                    format!("{} to {}", units.chainage(first.chainage), units.chainage(last.chainage))
                },
            }
        })
        .collect()
}

fn removing(zone: &WorkZone) -> Vec<RemovingRow> {
    let order: Vec<usize> = zone.removing.iter().copied().filter(|&i| i < zone.devices.len()).collect();
    runs(zone, &order)
        .into_iter()
        .map(|run| {
            let devices: Vec<&Device> = run.iter().map(|&i| &zone.devices[i]).collect();
            let device = match devices[0].kind {
                DeviceKind::FlaggerStation => "flagger".to_owned(),
                DeviceKind::ShieldVehicle => "shield vehicle".to_owned(),
                DeviceKind::Sign | DeviceKind::Cone => device_words(&devices),
            };
            RemovingRow { number: numbers(&run), device, count: run.len() }
        })
        .collect()
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

fn device_words(devices: &[&Device]) -> String {
    let first = devices[0];
    match first.kind {
        DeviceKind::Cone => {
            let count = counted(devices.len(), "cone", "cones");
            let legend = first.legend.trim();
            let legend = legend.strip_prefix("cone, ").unwrap_or(legend);
            if legend.is_empty() || legend == "cone" { count } else { format!("{count}, {legend}") }
        }
        DeviceKind::FlaggerStation if first.legend.is_empty() => "flagger station".into(),
        DeviceKind::ShieldVehicle if first.legend.is_empty() => "shield vehicle".into(),
        _ => first.legend.clone(),
    }
}

/// Where along the road, seen by the traffic the device is for.
fn place_words(zone: &WorkZone, units: Units, devices: &[&Device]) -> String {
    let first = place_of(zone, units, devices[0]);
    let Some(last) = devices.get(1..).and_then(|rest| rest.last()) else { return first };
    let last = place_of(zone, units, last);
    let gaps: Vec<f64> =
        devices.windows(2).map(|w| (w[1].chainage - w[0].chainage).value.abs()).filter(|g| *g > 0.01).collect();
    let low = gaps.iter().copied().fold(f64::INFINITY, f64::min);
    let high = gaps.iter().copied().fold(0.0, f64::max);
    let spacing = if gaps.is_empty() {
        "side by side".to_owned()
    } else if high - low < 0.5 {
        format!("every {}", units.along(metres(high)))
    } else {
        format!("{} apart", range(&units.along(metres(low)), &units.along(metres(high))))
    };
    // `160 m before to 130 m before` says it once.
    for word in [" before", " past", " in"] {
        if let (Some(a), Some(b)) = (first.strip_suffix(word), last.strip_suffix(word)) {
            return format!("{}{word}, {spacing}", range(a, b));
        }
    }
    format!("{first} to {}, {spacing}", last.trim_start_matches("at "))
}

fn place_of(zone: &WorkZone, units: Units, device: &Device) -> String {
    let sign = if device.approach == Travel::Forward { 1.0 } else { -1.0 };
    let at = device.chainage.value * sign;
    let ends = [zone.work_from.value * sign, zone.work_to.value * sign];
    let (start, end) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
    if at < start - 0.05 {
        format!("{} before", units.along(metres(start - at)))
    } else if at > end + 0.05 {
        format!("{} past", units.along(metres(at - end)))
    } else if (at - start).abs() <= 0.05 {
        "at its start".into()
    } else if (at - end).abs() <= 0.05 {
        "at its end".into()
    } else {
        format!("{} in", units.along(metres(at - start)))
    }
}

/// Right or left as the approaching driver sees it, and how far from the centre line.
fn side_words(units: Units, devices: &[&Device]) -> String {
    let one = |device: &Device| -> (&'static str, Length) {
        let sign = if device.approach == Travel::Forward { 1.0 } else { -1.0 };
        let across = device.across.value * sign;
        let word = if across.abs() < 0.05 {
            "centre line"
        } else if across > 0.0 {
            "right"
        } else {
            "left"
        };
        (word, device.across.abs())
    };
    let words = |(word, across): (&str, Length)| {
        if word == "centre line" { word.to_owned() } else { format!("{word} {}", units.width(across)) }
    };
    let (first, last) = (one(devices[0]), one(devices[devices.len() - 1]));
    let (a, b) = (words(first), words(last));
    if a == b {
        a
    } else if first.0 == last.0 {
        format!("{} {}", first.0, range(&units.width(first.1), &units.width(last.1)))
    } else {
        format!("{a} to {b}")
    }
}

fn counts(zone: &WorkZone) -> Vec<Count> {
    [
        ("signs", DeviceKind::Sign),
        ("cones", DeviceKind::Cone),
        ("flaggers", DeviceKind::FlaggerStation),
        ("shield vehicles", DeviceKind::ShieldVehicle),
    ]
    .into_iter()
    .map(|(what, kind)| Count { what, count: zone.devices.iter().filter(|d| d.kind == kind).count() })
    .filter(|c| c.count > 0)
    .collect()
}
