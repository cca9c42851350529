//! Time to place and to remove the devices.

use model::figure::{Figure, Why};
use model::quantity::{InLength, InVelocity, Length, Time, metres, seconds};
use model::rules::Sourced;
use model::rules::traffic::TrafficRules;
use model::work_zone::{Device, Layout, ZonePart, ZonePartKind};

use crate::count::{DeviceCount, count};
use crate::text::{joined, tidy};

/// Time to put everything out.
pub fn set_up(devices: &[Device], parts: &[ZonePart], layout: Layout, rules: &TrafficRules) -> Figure<Time> {
    let effort = &rules.effort;
    let rates = [&effort.sign_out_s, &effort.cone_out_s, &effort.station_out_s];
    work_out(rates, devices, parts, layout, rules)
}

/// Time to take everything in.
pub fn take_in(devices: &[Device], parts: &[ZonePart], layout: Layout, rules: &TrafficRules) -> Figure<Time> {
    let effort = &rules.effort;
    let rates = [&effort.sign_in_s, &effort.cone_in_s, &effort.station_in_s];
    work_out(rates, devices, parts, layout, rules)
}

/// t = signs, cones and stations at their rates, the coned length walked, the whole zone driven.
fn work_out(
    [sign, cone, station]: [&Sourced<f64>; 3],
    devices: &[Device],
    parts: &[ZonePart],
    layout: Layout,
    rules: &TrafficRules,
) -> Figure<Time> {
    let DeviceCount { signs, cones, flagger_stations, .. } = count(devices);
    let effort = &rules.effort;
    let drives = &rules.layouts.of(layout).drives;
    let walked: f64 =
        parts.iter().filter(|p| p.kind != ZonePartKind::AdvanceWarning).map(|p| p.length.value.in_metres()).sum();
    let out_and_back = 2.0 * along_side_roads(devices);
    let driven = extent(devices).in_metres() * drives.value + out_and_back;
    let pace = |speed: f64| rules.units.velocity(speed).in_metres_per_second();
    let in_words = |speed: f64| format!("{speed} {}", rules.units.speed.symbol());
    let time = f64::from(signs) * sign.value
        + f64::from(cones) * cone.value
        + f64::from(flagger_stations) * station.value
        + walked / pace(effort.walking_speed.value)
        + driven / pace(effort.driving_speed.value);
    let source = joined(&[&sign.source, &cone.source, &station.source, &drives.source, &effort.driving_speed.source]);
    let why = Why::new("t = signs t_s + cones t_c + stations t_f + walked/v_w + driven/v_d", source)
        .with("signs", signs)
        .with("t_s", format!("{} s", sign.value))
        .with("cones", cones)
        .with("t_c", format!("{} s", cone.value))
        .with("stations", flagger_stations)
        .with("t_f", format!("{} s", station.value))
        .with("walked", format!("{} m", tidy(walked)))
        .with("v_w", in_words(effort.walking_speed.value))
        .with("driven", format!("{} m ({} times the zone{})", tidy(driven), drives.value, on_side_roads(out_and_back)))
        .with("v_d", in_words(effort.driving_speed.value));
    Figure::exact(seconds(time), why)
}

fn on_side_roads(out_and_back: f64) -> String {
    if out_and_back > 0.0 { format!(", and {} m on roads that join", tidy(out_and_back)) } else { String::new() }
}

/// Metres to the furthest device on each side road, together.
fn along_side_roads(devices: &[Device]) -> f64 {
    let mut furthest: Vec<(&str, Length, f64)> = Vec::new();
    for device in devices {
        let Some((name, distance)) = device.spot.as_ref().and_then(|spot| spot.side_road.as_ref()) else { continue };
        let known = furthest.iter_mut().find(|(road, at, _)| road == name && *at == device.chainage);
        match known {
            Some((.., far)) => *far = far.max(distance.in_metres()),
            None => furthest.push((name, device.chainage, distance.in_metres())),
        }
    }
    furthest.iter().map(|(.., far)| far).sum()
}

/// First device to last.
fn extent(devices: &[Device]) -> Length {
    let chainages = || devices.iter().map(|d| d.chainage.in_metres());
    let (low, high) = (chainages().fold(f64::INFINITY, f64::min), chainages().fold(f64::NEG_INFINITY, f64::max));
    metres(if high >= low { high - low } else { 0.0 })
}
