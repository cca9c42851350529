//! The devices of one approach: its series, nearest the work first, each moved upstream as far as it must be.

use model::district::DrivingSide;
use model::place::Side;
use model::quantity::{Length, metres};
use model::road_around::{AxisEnd, RoadAxis, SideRoad};
use model::work_zone::{Device, DeviceKind, Layout, WorkZone};

use super::Road;
use super::approach::{Approach, ends_in_truth};
use super::find::{Fate, Found, find, in_words, not_known, occupied, steps};
use super::place::{piece_at, spot_at};
use super::said::Said;
use super::stations::{before_the_junction, find_station};
use crate::order::Step;

/// Devices within this of each other stand side by side, metres.
const SIDE_BY_SIDE_M: f64 = 0.01;

/// A device with its place in the order of placing.
pub(crate) struct Settled {
    pub device: Device,
    pub step: Step,
    /// Metres downstream of its approach, on a road that the axis does not follow counted on.
    pub downstream: f64,
    /// How far upstream it was moved, metres.
    pub moved: f64,
}

/// All devices of an approach in their places.
pub(crate) struct SettledApproach {
    pub devices: Vec<Settled>,
    /// How far downstream the first of them stands on the axis; where the axis ends, if nothing stands upstream of it.
    pub begins: f64,
    /// How far downstream its traffic is held: its flagger, or the head of the closure.
    pub held_at: f64,
}

/// Settles all devices of the approach.
pub(crate) fn settle(zone: &WorkZone, approach: &Approach, road: &Road, said: &mut Said) -> SettledApproach {
    let mine = || zone.devices.iter().filter(|device| device.approach == approach.travel);
    let at = |device: &Device| approach.downstream(device.chainage);
    // One flagger for both directions stands where both see him, at the closure.
    let is_station =
        |device: &Device| device.kind == DeviceKind::FlaggerStation && zone.layout != Layout::LaneClosureOneFlagger;
    // What the closure itself is made of stays: signs that stand at it stay with it.
    let closed_from = zone
        .devices
        .iter()
        .filter(|device| device.kind != DeviceKind::Sign && !is_station(device))
        .map(at)
        .fold(approach.work.0, f64::min);
    let closed_to = zone
        .devices
        .iter()
        .filter(|device| device.kind != DeviceKind::Sign && !is_station(device))
        .map(at)
        .fold(approach.work.1, f64::max);
    let held_from = mine().filter(|device| is_station(device)).map(at).fold(closed_from, f64::min);
    let in_series = |device: &Device| {
        is_station(device) || device.kind == DeviceKind::Sign && at(device) < held_from - SIDE_BY_SIDE_M
    };
    let mut settled: Vec<Settled> = mine()
        .filter(|device| !in_series(device))
        .filter_map(|device| fixed(device, closed_to, approach, road, said))
        .collect();

    let mut series: Vec<&Device> = mine().filter(|device| in_series(device)).collect();
    series.sort_by(|a, b| at(b).total_cmp(&at(a)));
    let first_at = series.last().map_or(approach.work.0, |device| at(device));
    let nearest_at = series.iter().find(|device| !is_station(device)).map_or(approach.work.0, |device| at(device));
    let mut begins = settled.iter().map(|s| s.downstream).fold(approach.work.0, f64::min);
    let mut held_at = closed_from;
    let mut shift: f64 = 0.0;
    for group in series.chunk_by(|a, b| at(a) - at(b) < SIDE_BY_SIDE_M) {
        let (device, fell_on) = (group[0], at(group[0]) + shift);
        let is_first = at(device) - first_at < SIDE_BY_SIDE_M;
        let found = if is_station(device) {
            let junction = before_the_junction(zone, approach, road).filter(|before| *before < fell_on);
            let mut found = find_station(device, junction.unwrap_or(fell_on), closed_from, approach, road);
            if junction.is_some() {
                found.because.insert(0, "past the junction, so that nobody is stopped in it".to_owned());
            }
            found
        } else {
            find(device, fell_on, is_first, approach, road)
        };
        let now = match &found.fate {
            Fate::OnAxis(d) => *d,
            Fate::OnArms(distance) => approach.road_from - distance,
            Fate::LeftOut(_) | Fate::Unknown(_) => fell_on,
        };
        // What stands further upstream moves along, never downstream.
        shift = (now - at(device)).min(0.0);
        begins = match found.fate {
            Fate::OnAxis(_) => begins.min(now),
            // Whoever joins this side of the end has met none of it.
            Fate::OnArms(_) | Fate::LeftOut(_) => begins.min(approach.road_from),
            Fate::Unknown(_) => begins,
        };
        if is_station(device) {
            held_at = match found.fate {
                Fate::OnAxis(_) => now,
                Fate::LeftOut(_) => held_at,
                Fate::OnArms(_) | Fate::Unknown(_) => approach.road_from,
            };
        }
        for device in group {
            settled.extend(stand(device, at(device) >= nearest_at, &found, now, approach, road, said));
        }
    }
    SettledApproach { devices: settled, begins, held_at }
}

/// A device at its place, or several where it stands on several roads; none where it is left out.
/// `nearest` is the flagger or the sign nearest to the work.
fn stand(
    device: &Device,
    nearest: bool,
    found: &Found,
    now: f64,
    approach: &Approach,
    road: &Road,
    said: &mut Said,
) -> Vec<Settled> {
    let step = step_of(device, approach);
    let mut device = device.clone();
    let moved = approach.downstream(device.chainage) - now;
    let in_words = |length_m: f64| in_words(length_m, road);
    match &found.fate {
        Fate::LeftOut(reason) => {
            said.left_out(&device, approach, reason);
            Vec::new()
        }
        Fate::Unknown(reason) => {
            said.not_placed(&device, approach, reason);
            vec![Settled { device, step, downstream: now, moved: 0.0 }]
        }
        Fate::OnAxis(_) => {
            if let Some(unsolved) = &found.unsolved {
                said.unsolved(&device, approach, unsolved);
            } else if moved > SIDE_BY_SIDE_M {
                said.moved(&device, approach, &format!("{} upstream", in_words(moved)), &found.because);
            } else if moved < -SIDE_BY_SIDE_M {
                said.moved(&device, approach, &format!("{} towards the work", in_words(-moved)), &found.because);
            }
            device.chainage = approach.chainage(now);
            device.across = across_there(&device, road);
            explain(&mut device, found, &in_words(moved.abs()), moved);
            device.spot = spot_at(&road.around.axis, device.chainage, device.across);
            if let Some(spot) = &mut device.spot {
                spot.moved = metres(moved.abs());
            }
            vec![Settled { device, step, downstream: now, moved }]
        }
        Fate::OnArms(distance) => {
            let arms = approach.arms(road);
            let names: Vec<&str> = arms.iter().map(|side| side.name.as_str()).collect();
            said.on_arms(&device, approach, &in_words(*distance), &names);
            explain(&mut device, found, &in_words(moved.abs()), moved);
            device.why =
                device.why.with("where the road ends", format!("{} on from the junction", in_words(*distance)));
            // On an arm that ends before it in truth, nothing comes from further away than its end.
            let end_of = |side: &SideRoad| side.axis.pieces.last().map(|piece| (piece.to, piece.class));
            let comes_past = |side: &&SideRoad| {
                let known = end_of(side).is_none_or(|(to, _)| metres(*distance) <= to);
                known || !end_of(side).is_some_and(|(_, class)| ends_in_truth(side.axis.ends, class, road))
            };
            arms.into_iter()
                .filter(|side| nearest || comes_past(side))
                .map(|side| {
                    let mut device = device.clone();
                    stand_on_side_road(&mut device, side, metres(*distance), road);
                    Settled { device, step, downstream: now, moved }
                })
                .collect()
        }
    }
}

/// The step a device goes out in that is not past the work.
fn step_of(device: &Device, approach: &Approach) -> Step {
    match (device.kind, approach.worked) {
        (DeviceKind::FlaggerStation, true) => Step::Station,
        (DeviceKind::FlaggerStation, false) => Step::OpposingStation,
        (DeviceKind::Sign, true) => Step::Advance,
        (DeviceKind::Sign, false) => Step::OpposingAdvance,
        (DeviceKind::Cone | DeviceKind::ShieldVehicle, _) => Step::Lane,
    }
}

fn explain(device: &mut Device, found: &Found, moved_words: &str, moved: f64) {
    if moved.abs() > SIDE_BY_SIDE_M {
        let reason = if found.because.is_empty() { "with the series".to_owned() } else { found.because.join(", ") };
        let way = if moved > 0.0 { "moved upstream" } else { "moved towards the work" };
        device.why = device.why.clone().with(way, format!("{moved_words} ({reason})"));
    }
    if let Some(unsolved) = &found.unsolved {
        device.why = device.why.clone().with("not solved", unsolved);
    }
}

/// Puts a device for the traffic that comes out of a side road beside it, so far from the junction or, past bridges and
/// junctions, further; at its end where it is shorter.
pub(crate) fn stand_on_side_road(device: &mut Device, side: &SideRoad, distance: Length, road: &Road) {
    let at = free_from(&side.axis, distance, road);
    let keeps_right = road.input.driving_side == DrivingSide::Right;
    // Traffic out of the side road runs against its chainage.
    let near = if keeps_right { -1.0 } else { 1.0 };
    let half = piece_at(&side.axis, at).map_or(road.input.section.width, |piece| piece.width) / 2.0;
    let beside = match device.kind {
        DeviceKind::FlaggerStation => road.rules.across.station_offset.value,
        _ => road.rules.across.sign_offset.value,
    };
    device.across = (half + road.rules.units.length(beside)) * near;
    device.chainage = side.at;
    device.spot = spot_at(&side.axis, at, device.across);
    if let Some(spot) = &mut device.spot {
        spot.side_road = Some((side.name.clone(), at));
    }
}

/// The place on a side road nearest to a distance from its junction, outward, where something can stand.
fn free_from(axis: &RoadAxis, distance: Length, road: &Road) -> Length {
    let end = axis.pieces.last().map_or(distance, |piece| piece.to);
    let distance = distance.min(end);
    let clear = road.rules.units.length(road.rules.placing.junction_clear.value);
    let (step, count) = steps(road);
    let free = |at: &Length| {
        let on = axis.structures.iter().any(|on| on.from <= *at && *at <= on.to);
        let near =
            axis.junctions.iter().any(|other| other.chainage.value > 0.0 && (other.chainage - *at).abs() < clear);
        *at <= end && !on && !near
    };
    (0..=count).map(|count| distance + metres(f64::from(count) * step)).find(free).unwrap_or(distance)
}

/// As far beside the seal as it was laid out, on a road that may be wider or narrower there.
fn across_there(device: &Device, road: &Road) -> Length {
    let Some(piece) = piece_at(&road.around.axis, device.chainage) else { return device.across };
    if piece.section == road.around.section || !piece.width.value.is_finite() {
        return device.across;
    }
    let beside = device.across.abs() - road.input.section.width / 2.0;
    let half = piece.width / 2.0 + beside;
    if device.across.value < 0.0 { -half } else { half }
}

/// What stays at the closure, and the signs past the work.
fn fixed(device: &Device, closed_to: f64, approach: &Approach, road: &Road, said: &mut Said) -> Option<Settled> {
    let mut device = device.clone();
    let mut downstream = approach.downstream(device.chainage);
    let past_work = device.kind == DeviceKind::Sign && downstream > approach.work.1;
    let step = match (past_work, approach.worked) {
        (true, true) => Step::EndOfWork,
        (true, false) => Step::EndOfOpposing,
        (false, _) => step_of(&device, approach),
    };
    if past_work {
        downstream = match end_of_work(downstream, closed_to, approach, road) {
            EndSign::At(there) => there,
            EndSign::Back(there) => {
                said.brought_back(&device, approach);
                device.why = device.why.with("brought back", "to where the road lets it stand");
                there
            }
            EndSign::LeftOut(reason) => {
                said.left_out(&device, approach, reason);
                return None;
            }
        };
        device.chainage = approach.chainage(downstream);
    }
    if past_work {
        device.across = across_there(&device, road);
    }
    device.spot = spot_at(&road.around.axis, device.chainage, device.across);
    if device.spot.is_none() && device.kind != DeviceKind::Sign {
        let (end, class) = if downstream < approach.axis_from {
            (approach.road_end, approach.end_class)
        } else {
            (approach.road_to_end, approach.to_class)
        };
        // A taper past a dead end leads nobody.
        if device.kind == DeviceKind::Cone && ends_in_truth(end, class, road) {
            return None;
        }
        said.not_placed(&device, approach, not_known(end));
    }
    Some(Settled { device, step, downstream, moved: 0.0 })
}

/// What becomes of a sign past the work.
enum EndSign {
    /// It stands there: where the rule puts it, or past what it can't stand on.
    At(f64),
    /// It stands nearer to the work.
    Back(f64),
    LeftOut(&'static str),
}

/// The sign past the work stands where the rule puts it or further on; nearer where the road ends before.
fn end_of_work(fell_on: f64, closed_to: f64, approach: &Approach, road: &Road) -> EndSign {
    let (step, count) = steps(road);
    let free = |at: &f64| *at <= approach.road_to && occupied(approach.chainage(*at), road).is_none();
    let along = |from: f64, way: f64| (0..=count).map(move |count| from + way * f64::from(count) * step);
    if let Some(there) = along(fell_on, 1.0).find(free) {
        return EndSign::At(there);
    }
    if approach.road_to_end == AxisEnd::DeadEnd && fell_on > approach.road_to {
        return EndSign::LeftOut("the road ends before it");
    }
    let back = along(fell_on.min(approach.road_to), -1.0).take_while(|at| *at > closed_to).find(free);
    back.map_or(EndSign::LeftOut("no place past the work is clear of junctions and bridges"), EndSign::Back)
}

/// The side of the road as its own increasing chainage sees it, in words.
pub(crate) fn side_words(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}
