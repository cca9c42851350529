//! The devices of one approach: its series, nearest the work first, each moved upstream as far as it must be.

use model::district::DrivingSide;
use model::place::Side;
use model::quantity::{InLength, Length, metres};
use model::road_around::{AxisEnd, SideRoad, StructureKind};
use model::work_zone::{Device, DeviceKind, Layout, WorkZone};

use super::Road;
use super::approach::Approach;
use super::place::{piece_at, spot_at};
use super::said::Said;
use crate::order::Step;
use crate::seen_from::{flagger_seen_from, sign_seen_from};
use crate::sight::{Look, SightEnd};
use crate::text::{distance_words, joined};

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

/// What becomes of a device.
enum Fate {
    /// It stands on the axis, so far downstream.
    OnAxis(f64),
    /// It stands on each road that traffic comes from where the axis ends, so far from the junction.
    OnArms(f64),
    /// Nothing comes from there.
    LeftOut(String),
    /// It can't be placed on the known road.
    Unknown(String),
}

/// Where a device was found to stand.
struct Found {
    fate: Fate,
    /// Why it does not stand where it fell.
    because: Vec<String>,
    /// It still stands where it must not: nowhere better was found.
    unsolved: bool,
}

/// Settles all devices of the approach. Gives them, and how far downstream the first of them stands on the axis.
pub(crate) fn settle(zone: &WorkZone, approach: &Approach, road: &Road, said: &mut Said) -> (Vec<Settled>, f64) {
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
    let held_from = mine().filter(|device| is_station(device)).map(at).fold(closed_from, f64::min);
    let in_series = |device: &Device| {
        is_station(device) || device.kind == DeviceKind::Sign && at(device) < held_from - SIDE_BY_SIDE_M
    };
    let mut settled: Vec<Settled> =
        mine().filter(|device| !in_series(device)).filter_map(|device| fixed(device, approach, road, said)).collect();

    let mut series: Vec<&Device> = mine().filter(|device| in_series(device)).collect();
    series.sort_by(|a, b| at(b).total_cmp(&at(a)));
    let first_at = series.last().map_or(approach.work.0, |device| at(device));
    let mut begins = settled.iter().map(|s| s.downstream).fold(approach.work.0, f64::min);
    let mut shift = 0.0;
    for group in series.chunk_by(|a, b| at(a) - at(b) < SIDE_BY_SIDE_M) {
        let (device, fell_on) = (group[0], at(group[0]) + shift);
        let is_first = at(device) - first_at < SIDE_BY_SIDE_M;
        let wanted = if is_station(device) || is_first { Some(seen_from(device, approach, road)) } else { None };
        let found = find(device, fell_on, wanted.as_ref(), approach, road);
        let now = match &found.fate {
            Fate::OnAxis(d) => *d,
            Fate::OnArms(distance) => approach.road_from - distance,
            Fate::LeftOut(_) | Fate::Unknown(_) => fell_on,
        };
        shift = now - at(device);
        if matches!(found.fate, Fate::OnAxis(_)) {
            begins = begins.min(now);
        } else if matches!(found.fate, Fate::OnArms(_)) {
            begins = approach.road_from;
        }
        for device in group {
            settled.extend(stand(device, &found, now, approach, road, said));
        }
    }
    (settled, begins)
}

/// From how far a device must be seen, and why.
struct SeenFrom {
    look: Look,
    wanted: Length,
    words: String,
}

fn seen_from(device: &Device, approach: &Approach, road: &Road) -> SeenFrom {
    let (rules, units, sight) = (road.rules, road.rules.units, &road.rules.sight);
    let (wanted, object_height) = if device.kind == DeviceKind::FlaggerStation {
        (flagger_seen_from(approach.speed, rules), &sight.object_height)
    } else {
        (sign_seen_from(approach.speed, rules), &sight.sign_height)
    };
    let source = joined(&[&wanted.why.source, &sight.eye_height.source, &object_height.source]);
    let wanted = wanted.value;
    SeenFrom {
        look: Look {
            eye_height: units.length(sight.eye_height.value),
            eye_across: metres(approach.eye_across),
            object_height: units.length(object_height.value),
            object_across: device.across,
            most: units.length(wanted),
            step: units.length(rules.placing.sight_step.value),
            source,
        },
        wanted: units.length(wanted),
        words: distance_words(wanted, units),
    }
}

/// The place nearest upstream of where it fell that it may have.
fn find(device: &Device, fell_on: f64, wanted: Option<&SeenFrom>, approach: &Approach, road: &Road) -> Found {
    let (placing, units) = (&road.rules.placing, road.rules.units);
    let step = units.length(placing.move_step.value).in_metres();
    let steps = (units.length(placing.move_greatest.value).in_metres() / step).floor() as u32;
    let mut because: Vec<String> = Vec::new();
    for count in 0..=steps {
        let here = fell_on - f64::from(count) * step;
        if here < approach.road_from || here < approach.traffic_from - SIDE_BY_SIDE_M {
            let fate = beyond(device, here, approach, road);
            // Moving on to where nothing comes from would hide it from everybody: it stays, and is reported.
            if count > 0 && !matches!(fate, Fate::OnArms(_)) {
                break;
            }
            return Found { fate, because, unsolved: false };
        }
        let against = against(device, here, wanted, approach, road);
        let Some((reason, passable)) = against else {
            return Found { fate: Fate::OnAxis(here), because, unsolved: false };
        };
        if !because.contains(&reason) {
            because.push(reason);
        }
        if !passable {
            break;
        }
    }
    Found { fate: Fate::OnAxis(fell_on), because, unsolved: true }
}

/// What speaks against a place on the axis, and whether the rules let the device move on past it.
fn against(
    device: &Device,
    here: f64,
    wanted: Option<&SeenFrom>,
    approach: &Approach,
    road: &Road,
) -> Option<(String, bool)> {
    let (placing, units, axis) = (&road.rules.placing, road.rules.units, &road.around.axis);
    let chainage = approach.chainage(here);
    if let Some(on) = axis.structures.iter().find(|on| on.from <= chainage && chainage <= on.to) {
        let words = match on.kind {
            StructureKind::Bridge => "on a bridge",
            StructureKind::Tunnel => "in a tunnel",
        };
        return Some((words.to_owned(), placing.past_structures.value));
    }
    let clear = units.length(placing.junction_clear.value);
    if axis.junctions.iter().any(|junction| (junction.chainage - chainage).abs() < clear) {
        let words = format!("nearer than {} to a junction", distance_words(placing.junction_clear.value, units));
        return Some((words, placing.past_junctions.value));
    }
    let (wanted, sight) = (wanted?, road.sight.as_ref()?);
    let seen = sight.seen(chainage, device.approach, &wanted.look);
    let hidden = matches!(seen.ends_by, SightEnd::Bend | SightEnd::Crest);
    (hidden && seen.distance.value < wanted.wanted)
        .then(|| (format!("hidden by {} to drivers nearer than {} away", seen.ends_by.words(), wanted.words), true))
}

/// What becomes of a device that falls where the axis does not reach, or where its traffic can't come from.
fn beyond(device: &Device, here: f64, approach: &Approach, road: &Road) -> Fate {
    if here >= approach.road_from || approach.traffic_from > approach.road_from + SIDE_BY_SIDE_M {
        return Fate::LeftOut("the road is one-way there and no traffic comes from it".into());
    }
    let station = device.kind == DeviceKind::FlaggerStation;
    match approach.road_end {
        AxisEnd::Junction if station => Fate::Unknown(
            "the road ends at a junction before it: who holds the traffic of each road there is for the authorised person"
                .into(),
        ),
        AxisEnd::Junction if arms(approach, road).next().is_some() => {
            let clear = road.rules.units.length(road.rules.placing.junction_clear.value).in_metres();
            Fate::OnArms((approach.road_from - here).max(clear))
        }
        AxisEnd::Junction => {
            Fate::LeftOut("the road ends at a junction there and no traffic comes out of the roads it meets".into())
        }
        AxisEnd::DeadEnd if !station && road.rules.placing.dead_end_classes.value.contains(&approach.end_class) => {
            Fate::LeftOut("the road ends before it, and nothing comes from beyond".into())
        }
        AxisEnd::DeadEnd => Fate::Unknown("the road ends on the map before it, which may be the map's edge".into()),
        AxisEnd::Roundabout => {
            Fate::Unknown("a roundabout lies before it: it stands on each leg that traffic comes from".into())
        }
        AxisEnd::Loop => Fate::Unknown("the road comes back to itself before it".into()),
        AxisEnd::AsFarAsAsked => {
            Fate::Unknown("it falls beyond the road that was looked at".into())
        }
    }
}

/// The roads that traffic comes from where the axis ends upstream.
pub(crate) fn arms<'a>(approach: &'a Approach, road: &'a Road) -> impl Iterator<Item = &'a SideRoad> {
    road.around.side_roads.iter().filter(|side| {
        side.traffic_comes_out
            && !side.axis.pieces.is_empty()
            && (approach.downstream(side.at) - approach.road_from).abs() < SIDE_BY_SIDE_M
    })
}

/// A device at its place, or several where it stands on several roads; none where it is left out.
fn stand(device: &Device, found: &Found, now: f64, approach: &Approach, road: &Road, said: &mut Said) -> Vec<Settled> {
    let step = step_of(device, approach);
    let mut device = device.clone();
    let moved = approach.downstream(device.chainage) - now;
    let units = road.rules.units;
    let in_words = |length_m: f64| distance_words(units.distance_of(metres(length_m)).round(), units);
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
            if found.unsolved {
                said.unsolved(&device, approach, &found.because);
            } else if moved > SIDE_BY_SIDE_M {
                said.moved(&device, approach, &in_words(moved), &found.because);
            }
            device.chainage = approach.chainage(now);
            device.across = across_there(&device, road);
            explain(&mut device, found, &in_words(moved), moved);
            device.spot = spot_at(&road.around.axis, device.chainage, device.across);
            if let Some(spot) = &mut device.spot {
                spot.moved = metres(moved.max(0.0));
            }
            vec![Settled { device, step, downstream: now, moved }]
        }
        Fate::OnArms(distance) => {
            let names: Vec<&str> = arms(approach, road).map(|side| side.name.as_str()).collect();
            said.on_arms(&device, approach, &in_words(*distance), &names);
            explain(&mut device, found, &in_words(moved), moved);
            device.why =
                device.why.with("where the road ends", format!("{} on from the junction", in_words(*distance)));
            arms(approach, road)
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
    if moved > SIDE_BY_SIDE_M && !found.unsolved {
        let reason = if found.because.is_empty() { "with the series".to_owned() } else { found.because.join(", ") };
        device.why = device.why.clone().with("moved upstream", format!("{moved_words} ({reason})"));
    } else if found.unsolved {
        device.why =
            device.why.clone().with("not moved", format!("no better place near ({})", found.because.join(", ")));
    }
}

/// Puts a sign for the traffic that comes out of a side road beside it, so far from the junction.
pub(crate) fn stand_on_side_road(device: &mut Device, side: &SideRoad, distance: Length, road: &Road) {
    let end = side.axis.pieces.last().map_or(distance, |piece| piece.to);
    let at = if distance < end { distance } else { end };
    let keeps_right = road.input.driving_side == DrivingSide::Right;
    // Traffic out of the side road runs against its chainage.
    let near = if keeps_right { -1.0 } else { 1.0 };
    let half = piece_at(&side.axis, at).map_or(road.input.section.width, |piece| piece.width) / 2.0;
    device.across = (half + road.rules.units.length(road.rules.across.sign_offset.value)) * near;
    device.chainage = side.at;
    device.spot = spot_at(&side.axis, at, device.across);
    if let Some(spot) = &mut device.spot {
        spot.side_road = Some((side.name.clone(), at));
    }
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
fn fixed(device: &Device, approach: &Approach, road: &Road, said: &mut Said) -> Option<Settled> {
    let mut device = device.clone();
    let mut downstream = approach.downstream(device.chainage);
    let past_work = device.kind == DeviceKind::Sign && downstream > approach.work.1;
    let step = match (past_work, approach.worked) {
        (true, true) => Step::EndOfWork,
        (true, false) => Step::EndOfOpposing,
        (false, _) => step_of(&device, approach),
    };
    if past_work && downstream > approach.road_to {
        match approach.road_to_end {
            AxisEnd::DeadEnd => {
                said.left_out(&device, approach, "the road ends before it");
                return None;
            }
            AxisEnd::Junction | AxisEnd::Roundabout => {
                let clear = road.rules.units.length(road.rules.placing.junction_clear.value).in_metres();
                let brought = approach.road_to - clear;
                if brought <= approach.work.1 {
                    said.left_out(&device, approach, "the road ends at a junction before it");
                    return None;
                }
                said.brought_back(&device, approach);
                device.why = device.why.with("brought back", "before the junction where the road ends");
                downstream = brought;
                device.chainage = approach.chainage(brought);
            }
            AxisEnd::Loop | AxisEnd::AsFarAsAsked => {
                said.not_placed(&device, approach, "it falls beyond the known road");
            }
        }
    }
    if past_work {
        device.across = across_there(&device, road);
    }
    device.spot = spot_at(&road.around.axis, device.chainage, device.across);
    if device.spot.is_none() && device.kind != DeviceKind::Sign {
        said.not_placed(&device, approach, "it falls beyond the known road");
    }
    Some(Settled { device, step, downstream, moved: 0.0 })
}

/// The side of the road as its own increasing chainage sees it, in words.
pub(crate) fn side_words(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}
