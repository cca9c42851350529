//! The layout put onto the road as it is: along its bends, through junctions, past bridges, up to where it ends.
//!
//! ```text
//! the closure cut to the road there is, or refused
//! each approach: series, nearest the work first ── seen? free? ── upstream ── past the road's end: arms, left out, reported
//! roads that join ── their own signs, their own flagger between the flaggers ── placing order ── people ── time ── remarks
//! ```
//!
//! A sign never moves downstream, and the distances of a series never shrink; a flagger moves downstream only where the road
//! ends before his place.

mod approach;
mod ends;
mod find;
mod joining;
mod place;
mod said;
mod series;
mod stations;

use model::figure::{Figure, Why};
use model::place::Travel;
use model::quantity::{Length, metres};
use model::road::RoadSection;
use model::road_around::RoadAround;
use model::rules::traffic::TrafficRules;
use model::work_zone::{ControlMethod, Coordination, Device, DeviceKind, WorkZone};

use crate::advance::sign_series;
use crate::crew_moves::{WorkPlace, crew_moves};
use crate::order::{self, Step};
use crate::sight::{Ground, SightRoad};
use crate::speed::design_speed;
use crate::stopping::stopping_distance;
use crate::text::distance_words;
use crate::{ZoneInput, duration_class, needs, queue, remarks};
use approach::Approach;
use said::Said;
use series::Settled;

/// Everything about one zone and its road.
pub(crate) struct Road<'a> {
    pub input: &'a ZoneInput<'a>,
    pub around: &'a RoadAround,
    pub rules: &'a TrafficRules,
    /// `None` for an axis without a line.
    pub sight: Option<SightRoad>,
}

/// Puts a zone that [`crate::lay_out`] laid out for the same input onto the real road.
///
/// Every device gets its spot. A flagger, and the first sign of an approach, that drivers can't see for as long as the rule
/// set wants (the stopping distance at least) moves upstream, and so do signs that would stand on a bridge, in a tunnel or in
/// the mouth of a junction; what is further upstream moves along, so that no distance of the series shrinks. Where no place
/// within reach is seen from far enough, the one seen from furthest is taken and the rest said. Signs that fall past a
/// junction or roundabout where the road ends stand on each road that traffic comes from there; a flagger stands before it
/// where there is room for those who wait, else one on each road. Signs past a dead end, or where one-way traffic can't come
/// from, are left out. Roads that join get their own sign, and between the flaggers one of their own. A closure longer than
/// the road is cut to it as far as the rules let it be, else nothing is laid out and `not_laid_out` says why. All of it is
/// said in the devices' `why` and in the remarks.
pub fn on_road(mut zone: WorkZone, input: &ZoneInput, around: &RoadAround, rules: &TrafficRules) -> WorkZone {
    if zone.devices.is_empty() || around.axis.points.len() < 2 {
        return zone;
    }
    let beside = rules.units.length(rules.sight.lateral_clear.value);
    let road = Road { input, around, rules, sight: SightRoad::of(&around.axis, beside, ground(rules)) };
    zone = ends::fitted(zone, &road);
    if zone.devices.is_empty() {
        return zone;
    }
    let mut said = Said::default();
    let mut placed = Vec::new();
    let mut approaches = Vec::new();
    let mut held = Vec::new();
    for travel in [zone.travel.opposite(), zone.travel] {
        let Some(approach) = Approach::of(&zone, travel, &road) else { continue };
        let settled = series::settle(&zone, &approach, &road, &mut said);
        placed.extend(settled.devices);
        held.push(approach.chainage(settled.held_at));
        // One-way traffic is held at one end; at the other the closure ends.
        held.push(approach.chainage(approach.work.1));
        approaches.push(approach.beginning_at(settled.begins));
    }
    // The traffic worked in comes first where a road joins for both.
    approaches.reverse();
    if let Some(approach) = approaches.first().filter(|_| zone.layout.flagger_each_end()) {
        let between = (smallest(&held), greatest(&held));
        placed.extend(stations::on_roads_that_join(between, approach, &road, &mut said));
    }
    placed.extend(joining::signs(&zone, &approaches, &road, &mut said));
    placed.sort_by(|a, b| a.step.cmp(&b.step).then(a.downstream.total_cmp(&b.downstream)));
    let moved_stations = placed.iter().any(|p| p.device.kind == DeviceKind::FlaggerStation && p.moved != 0.0);
    let steps: Vec<Step> = placed.iter().map(|p| p.step).collect();
    zone.devices = spaced(placed);
    zone.removing = order::removing(zone.devices.len());
    if moved_stations {
        flaggers_apart(&mut zone, rules);
        if zone.layout.takes_turns() && zone.queue.is_some() {
            zone.queue = queue::of(&zone, input.section, 1, rules);
        }
    }
    count_flaggers(&mut zone, input, rules);
    // Signs and stations may have moved.
    zone.remarks.retain(|remark| !queue::is_of_queue(remark));
    let waiting = queue::remarks(&zone, rules);
    zone.remarks.extend(waiting);
    let place = WorkPlace { travel: zone.travel, middle: (zone.work_from + zone.work_to) / 2.0 };
    let moves = crew_moves(&zone.devices, &steps, place, rules);
    (zone.out, zone.back) = (moves.out, moves.back);
    (zone.set_up, zone.take_in) = (moves.set_up, moves.take_in);
    if !zone.layout.mobile() {
        let time = zone.set_up.value + input.duration + zone.take_in.value;
        zone.duration_class = duration_class(time, input.night, rules).name;
    }
    zone.remarks.retain(|remark| !remarks::is_of_unknown_road(remark));
    // The first remark says that all of it is a proposal.
    let at = zone.remarks.len().min(1);
    zone.remarks.splice(at..at, said.into_remarks(&road));
    zone
}

/// How much road to look at on each side of a section, so that every device of every layout and the sight towards it fit.
pub fn reach(section: &RoadSection, rules: &TrafficRules) -> Length {
    let (work, placing) = (&rules.work_space, &rules.placing);
    let speed = design_speed(section.speed, rules).unwrap_or(rules.speed.greatest.value);
    let stopping = |speed: f64| stopping_distance(speed, rules).value;
    // Buffer and station on each side of the work, and sight to the first sign, which faster traffic may come to.
    let stopped = 3.0 * stopping(speed) + stopping(rules.speed.greatest.value);
    let works = work.work_space_max.value + work.vehicle.value + work.roll_ahead.value;
    let series = sign_series(section, speed, rules).third.value;
    rules.units.length(series + stopped + works + placing.move_greatest.value)
}

/// How much of each road that joins to look at: a whole series, where the road ends at it.
pub fn side_reach(section: &RoadSection, rules: &TrafficRules) -> Length {
    let speed = design_speed(section.speed, rules).unwrap_or(rules.speed.greatest.value);
    let series = sign_series(section, speed, rules).third.value;
    rules.units.length(series.max(rules.advance.expressway.value.a) + rules.placing.move_greatest.value)
}

fn ground(rules: &TrafficRules) -> Ground {
    let (units, placing) = (rules.units, &rules.placing);
    Ground {
        step: units.length(placing.profile_step.value),
        window: units.length(placing.profile_window.value),
        error: units.length(placing.height_error.value),
    }
}

/// The devices, each with its distance from the one before on its approach and road.
fn spaced(settled: Vec<Settled>) -> Vec<Device> {
    let mut last: Vec<(Travel, Option<String>, f64)> = Vec::new();
    settled
        .into_iter()
        .map(|settled| {
            let Settled { mut device, downstream, step, .. } = settled;
            device.spacing = metres(0.0);
            if !matches!(step, Step::Joining | Step::JoiningStation) {
                let road = device.spot.as_ref().and_then(|spot| spot.side_road.as_ref()).map(|(name, _)| name.clone());
                let same_approach = || last.iter().rev().filter(|(travel, ..)| *travel == device.approach);
                let before = same_approach()
                    .find(|(_, other, _)| *other == road)
                    .or_else(|| same_approach().next().filter(|_| road.is_none()));
                if let Some((.., at)) = before {
                    device.spacing = metres(downstream - at);
                }
                last.push((device.approach, road, downstream));
            }
            device
        })
        .collect()
}

/// Says again how far the flaggers stand apart when one has moved.
fn flaggers_apart(zone: &mut WorkZone, rules: &TrafficRules) {
    if zone.control.method != ControlMethod::FlaggerEachEnd {
        return;
    }
    let stations: Vec<Length> = stations(zone).filter(|d| !on_side_road(d)).map(|d| d.chainage).collect();
    let [one, other] = stations[..] else { return };
    zone.control.between_ends = (one - other).abs();
    zone.control.coordination = Coordination::ByRadioOrPilot;
    let apart = distance_words(rules.units.distance_of(zone.control.between_ends).round(), rules.units);
    zone.control.reason =
        format!("The flaggers stand {apart} apart, not both where the rule puts them: radio, or a pilot vehicle.");
}

/// Says again how many flaggers it takes where it is not one at each end.
fn count_flaggers(zone: &mut WorkZone, input: &ZoneInput, rules: &TrafficRules) {
    let count = stations(zone).count() as u32;
    if !zone.layout.flagger_each_end() || count == zone.flaggers.value {
        return;
    }
    let joining = stations(zone).filter(|d| on_side_road(d)).count() as u32;
    let why = Why::new(
        "one at each end that traffic comes from, one on each road that joins between",
        rules.flagging.two_way_flaggers.source.clone(),
    )
    .with("at the ends", count - joining)
    .with("on roads that join or that the road ends at", joining);
    zone.flaggers = Figure::exact(count, why);
    zone.people_needed = needs::people_needed(count, rules);
    if joining > 0 {
        zone.control.coordination = Coordination::ByRadioOrPilot;
        zone.control.reason =
            format!("{count} flaggers, {joining} of them on other roads at a junction: radio. One of them leads.");
    } else if count == 1 {
        zone.control.method = ControlMethod::OneFlagger;
        zone.control.coordination = Coordination::NotNeeded;
        zone.control.reason = "One flagger: at the other end the road ends, and nothing comes from there.".into();
    }
    zone.remarks.retain(|remark| !remarks::is_of_people(remark));
    zone.remarks.extend(remarks::people(input, zone, rules));
}

fn stations(zone: &WorkZone) -> impl Iterator<Item = &Device> {
    zone.devices.iter().filter(|device| device.kind == DeviceKind::FlaggerStation)
}

fn on_side_road(device: &Device) -> bool {
    device.spot.as_ref().is_some_and(|spot| spot.side_road.is_some())
}

fn smallest(lengths: &[Length]) -> Length {
    lengths.iter().copied().fold(metres(f64::INFINITY), Length::min)
}

fn greatest(lengths: &[Length]) -> Length {
    lengths.iter().copied().fold(metres(f64::NEG_INFINITY), Length::max)
}
