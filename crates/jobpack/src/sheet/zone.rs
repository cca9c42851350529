//! The sheet of one work zone.

use model::district::DrivingSide;
use model::place::Travel;
use model::plan::Plan;
use model::queue::QueueOutlook;
use model::round::StopKind;
use model::triage::Severity;
use model::work_zone::{DeviceKind, WorkZone};
use serde::Serialize;

use super::alerts::lacks;
use super::hole::{HoleSheet, hole_sheet, size_words};
use super::placing::{PlacingRow, RemovingRow, placing, removing, ways};
use super::{Fact, fact, loud_fact, words};
use crate::display::{Units, duration};
use crate::drawing::job_number;
use crate::printable::{shorten, shorten_name};

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
    /// Map of the neighbourhood.
    map: String,
    /// Where the chainages count from.
    chainage_rule: String,
    placing: Vec<PlacingRow>,
    removing: Vec<RemovingRow>,
    /// How far is driven and walked, out and back.
    ways: [String; 2],
    counts: Vec<Count>,
    remarks: Vec<String>,
    /// Remarks that nobody may overlook.
    loud: Vec<String>,
    jobs: Vec<JobLine>,
    holes: Vec<HoleSheet>,
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
    let map = format!("place-{stop}.svg");
    drawings.push((map.clone(), crate::place_map_svg(plan, site)));
    let work = plan.round.timetable.iter().find(|s| s.kind == StopKind::Work(site));
    let clock = |time: Option<model::round::SecondOfDay>| time.map_or_else(|| "–".into(), |t| t.to_string());
    ZoneSheet {
        stop,
        road: shorten(&plan.network.section(zone.section).label(), 90),
        from: clock(work.map(|w| w.from)),
        to: clock(work.map(|w| w.to)),
        facts: facts(plan, units, site),
        layout: shorten(&zone.layout_name, 90),
        source: zone.layout_source.to_string(),
        drawing,
        map,
        chainage_rule: words::chainage_rule(planned),
        placing: placing(plan, units, planned),
        removing: removing(units, zone),
        ways: ways(units, zone),
        counts: counts(zone),
        loud: lacks(plan, units, site),
        remarks: remarks(zone),
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
    let work = words::stretch(plan, units, planned, zone.work_from, zone.work_to);
    vec![
        fact("latitude, longitude", words::degrees(planned.place)),
        fact("work space at chainage", work),
        fact("worked lane heads", compass(azimuth)),
        fact("speed limit", units.speed(road.speed)),
        fact("lanes", format!("{}, sealed {}", road.lanes, units.width(road.width))),
        fact("traffic keeps", keeps),
        loud_fact("left open", units.width(zone.open_width.value), !zone.passable),
        fact("flaggers", zone.flaggers.value.to_string()),
        fact("duration class", shorten(&zone.duration_class, 30)),
        fact("set up, take in", format!("{}, {}", duration(zone.set_up.value), duration(zone.take_in.value))),
    ]
    .into_iter()
    .chain(zone.queue.as_ref().map(|queue| {
        loud_fact("busiest hour", words::queue(units, queue), matches!(queue.outlook, Some(QueueOutlook::Grows(_))))
    }))
    .chain(zone.shared.as_ref().map(|shared| fact("shared", shared.words())))
    .collect()
}

/// Why this layout, then the zone's remarks; the sentence that the sheet's own box says already is left out.
fn remarks(zone: &WorkZone) -> Vec<String> {
    let reason = Some(&zone.layout_reason).filter(|reason| !reason.is_empty());
    reason.into_iter().chain(&zone.remarks).filter(|r| !r.starts_with("A proposal,")).map(|r| shorten(r, 400)).collect()
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
        holes: shorten_name(&holes.join(", "), 32),
        size: format!("{}, {}", size_words(units, &planned.cut), units.depth(planned.repair.depth.value)),
        severity: Severity::word(worst),
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
