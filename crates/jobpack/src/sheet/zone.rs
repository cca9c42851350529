//! The sheet of one work zone.

use model::district::DrivingSide;
use model::place::Travel;
use model::plan::Plan;
use model::queue::QueueOutlook;
use model::round::StopKind;
use model::work_zone::{DeviceKind, WorkZone};
use serde::Serialize;

use super::alerts::lacks;
use super::hole::{HoleSheet, hole_sheet, size_words};
use super::placing::{PlacingRow, RemovingRow, placing, removing, ways};
use super::{Fact, fact, loud_fact, severity_word, words};
use crate::display::Units;
use crate::drawing::job_number;
use crate::printable::{printable, shorten, shorten_name};

#[derive(Debug, Serialize)]
pub struct ZoneSheet {
    stop: usize,
    road: String,
    from: String,
    /// `to 10:40`.
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
    /// Said in place of them where they stand on a page of their own.
    remarks_behind: String,
    /// Remarks that nobody may overlook.
    loud: Vec<String>,
    jobs: Vec<JobLine>,
    holes: Vec<HoleSheet>,
}

#[derive(Debug, Serialize)]
struct Count {
    what: String,
    count: usize,
}

#[derive(Debug, Serialize)]
struct JobLine {
    number: String,
    /// Holes, size, depth and severity.
    what: String,
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
    let remarks = remarks(units, zone);
    let clock = |time: Option<model::round::SecondOfDay>| time.map_or_else(|| "–".into(), |t| t.to_string());
    ZoneSheet {
        stop,
        road: shorten(&plan.network.section(zone.section).label(), 90),
        from: clock(work.map(|w| w.from)),
        to: units.words.say_with("sheet-until", [("time", clock(work.map(|w| w.to)).into())]),
        facts: facts(plan, units, site),
        layout: shorten(&units.rule_text(&zone.layout_name), 90),
        source: units
            .words
            .say_with("sheet-layout-source", [("source", printable(&zone.layout_source.to_string()).as_ref().into())]),
        drawing,
        map,
        chainage_rule: words::chainage_rule(units, &planned.chainage_from, &planned.chainage_towards),
        placing: placing(plan, units, planned),
        removing: removing(units, zone),
        ways: ways(units, zone),
        counts: counts(units, zone),
        loud: lacks(plan, units, site),
        remarks_behind: units.counted("sheet-remarks-behind", remarks.len()),
        remarks,
        jobs: planned.jobs.iter().map(|&job| job_line(plan, units, job)).collect(),
        holes: planned.jobs.iter().map(|&job| hole_sheet(plan, units, job, drawings)).collect(),
    }
}

fn facts(plan: &Plan, units: Units, site: usize) -> Vec<Fact> {
    let planned = &plan.sites[site];
    let zone = &planned.zone;
    let road = plan.network.section(zone.section);
    let keeps = match plan.district.driving_side {
        DrivingSide::Left => "sheet-left",
        DrivingSide::Right => "sheet-right",
    };
    let azimuth = planned.position.azimuth_deg + if zone.travel == Travel::Backward { 180.0 } else { 0.0 };
    let work = words::stretch(plan, units, planned, zone.work_from, zone.work_to);
    vec![
        fact(units, "sheet-fact-latitude", words::degrees(units, planned.place)),
        fact(units, "sheet-fact-work-space", work),
        fact(units, "sheet-fact-heads", compass(units, azimuth)),
        fact(units, "sheet-fact-speed", units.speed(road.speed)),
        fact(
            units,
            "sheet-fact-lanes",
            units.words.say_with(
                "sheet-lanes-sealed",
                [("lanes", road.lanes.into()), ("width", units.width(road.width).into())],
            ),
        ),
        fact(units, "sheet-fact-keeps", units.words.say(keeps)),
        loud_fact(units, "sheet-fact-left-open", units.width(zone.open_width.value), !zone.passable),
        fact(units, "sheet-flaggers", zone.flaggers.value.to_string()),
        fact(units, "sheet-fact-duration-class", shorten(&units.rule_text(&zone.duration_class), 30)),
        fact(
            units,
            "sheet-fact-set-up",
            units.list(&[units.duration(zone.set_up.value), units.duration(zone.take_in.value)]),
        ),
    ]
    .into_iter()
    .chain(zone.queue.as_ref().map(|queue| {
        let grows = matches!(queue.outlook, Some(QueueOutlook::Grows(_)));
        loud_fact(units, "sheet-fact-busiest-hour", words::queue(units, queue), grows)
    }))
    .chain(zone.shared.as_ref().map(|shared| fact(units, "sheet-fact-shared", words::sharing(units, shared))))
    .collect()
}

/// Why this layout, then the zone's remarks; the sentence that the sheet's own box says already is left out.
fn remarks(units: Units, zone: &WorkZone) -> Vec<String> {
    let reason = Some(&zone.layout_reason).filter(|reason| !reason.is_empty());
    reason
        .into_iter()
        .chain(&zone.remarks)
        .filter(|r| !r.starts_with("A proposal,"))
        .map(|r| shorten(&units.rule_text(r), 400))
        .collect()
}

/// Eight winds.
fn compass(units: Units, azimuth_deg: f64) -> String {
    const WINDS: [&str; 8] = [
        "wind-north",
        "wind-north-east",
        "wind-east",
        "wind-south-east",
        "wind-south",
        "wind-south-west",
        "wind-west",
        "wind-north-west",
    ];
    if !azimuth_deg.is_finite() {
        return "–".into();
    }
    units.words.say(WINDS[((azimuth_deg.rem_euclid(360.0) / 45.0).round() as usize) % 8])
}

fn job_line(plan: &Plan, units: Units, job: usize) -> JobLine {
    let planned = &plan.jobs[job];
    let holes: Vec<&str> = planned.holes.iter().map(|&h| plan.holes[h].hole.id.0.as_str()).collect();
    let worst = planned.holes.iter().filter_map(|&h| plan.holes[h].judgement.severity).max();
    JobLine {
        number: job_number(plan, job),
        what: units.list(&[
            format!("{}: {}", shorten_name(&holes.join(", "), 32), size_words(units, &planned.cut)),
            units.depth(planned.repair.depth.value),
            severity_word(units, worst),
        ]),
    }
}

fn counts(units: Units, zone: &WorkZone) -> Vec<Count> {
    [
        ("sheet-signs", DeviceKind::Sign),
        ("sheet-cones", DeviceKind::Cone),
        ("sheet-flaggers", DeviceKind::FlaggerStation),
        ("sheet-shield-vehicles", DeviceKind::ShieldVehicle),
    ]
    .into_iter()
    .map(|(what, kind)| Count {
        what: units.words.say(what),
        count: zone.devices.iter().filter(|d| d.kind == kind).count(),
    })
    .filter(|c| c.count > 0)
    .collect()
}
