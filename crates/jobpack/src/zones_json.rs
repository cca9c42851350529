//! The day's work zones as `GeoJSON`: every device a point, every work space a line.

use model::place::Travel;
use model::plan::{Plan, PlannedSite};
use model::quantity::{InLength, Length};
use model::work_zone::{Device, WorkZone};
use serde_json::{Value, json};

use crate::centre_line::CentreLine;
use crate::drawing::{stop_number, visited};
use crate::geo_json::{line, point, rounded};
use crate::wire::{device_word, side_word, travel_word};

/// Writes the zones of the day's round, in the order they are worked: the work space as a line along the centre line, then
/// every device as a point, in placing order, as one `FeatureCollection` (RFC 7946, WGS 84).
///
/// A device stands where the zone says it is on the real road; else on the section's line at its chainage and distance
/// across. One that is beyond the section, where no road is known, has no geometry.
pub fn zones_geojson(plan: &Plan) -> String {
    let mut features: Vec<Value> = Vec::new();
    for site in visited(plan) {
        let planned = &plan.sites[site];
        let axis = CentreLine::of(plan.network.section(planned.zone.section));
        let stop = stop_number(plan, site);
        features.push(work_space(plan, planned, &axis, stop));
        let zone = &planned.zone;
        features.extend((0..zone.devices.len()).map(|index| device(plan, zone, &axis, stop, index)));
    }
    let mut file = json!({"type": "FeatureCollection", "features": features});
    if let Some(licence) = &plan.road_attribution {
        file["attribution"] = licence.clone().into();
    }
    format!("{file:#}\n")
}

fn work_space(plan: &Plan, site: &PlannedSite, axis: &CentreLine, stop: Option<usize>) -> Value {
    let zone = &site.zone;
    json!({
        "type": "Feature",
        "geometry": line(&axis.stretch(zone.work_from, zone.work_to)),
        "properties": {
            "kind": "work_space",
            "stop": stop,
            "road": plan.network.section(zone.section).label(),
            "layout": zone.layout.key(),
            "layout_name": zone.layout_name,
            "holes": zone.holes.iter().map(|h| h.0.as_str()).collect::<Vec<_>>(),
            "travel": travel_word(zone.travel),
            "side": side_word(zone.side),
            "work_from_m": rounded(zone.work_from.in_metres(), 2),
            "work_to_m": rounded(zone.work_to.in_metres(), 2),
            "open_width_m": rounded(zone.open_width.value.in_metres(), 2),
            "flaggers": zone.flaggers.value,
        },
    })
}

/// From the centre line of the road it stands on, positive to the right of the traffic it is for.
fn right_of_traffic(device: &Device) -> Length {
    // Traffic out of a side road comes against that road's chainage, which grows outward.
    let on_side_road = device.spot.as_ref().is_some_and(|spot| spot.side_road.is_some());
    let with_chainage = !on_side_road && device.approach == Travel::Forward;
    if with_chainage { device.across } else { -device.across }
}

fn device(plan: &Plan, zone: &WorkZone, axis: &CentreLine, stop: Option<usize>, index: usize) -> Value {
    let device: &Device = &zone.devices[index];
    let spot = device.spot.as_ref();
    let place = spot.map(|s| s.place).or_else(|| axis.at(device.chainage, device.across));
    let road = spot.map_or(zone.section, |s| s.section);
    let side_road = spot.and_then(|s| s.side_road.as_ref());
    json!({
        "type": "Feature",
        "geometry": place.map(point),
        "properties": {
            "kind": device_word(device.kind),
            "stop": stop,
            "placing": index + 1,
            "removing": zone.removing.iter().position(|&i| i == index).map(|p| p + 1),
            "designation": device.designation,
            "legend": device.legend,
            "approach": travel_word(device.approach),
            "road": plan.network.section(road).label(),
            "chainage_m": rounded(device.chainage.in_metres(), 2),
            // On a side road there is no axis of the section to be beside of.
            "across_m": side_road.is_none().then(|| rounded(device.across.in_metres(), 2)),
            "right_of_traffic_m": rounded(right_of_traffic(device).in_metres(), 2),
            "side_road": side_road.map(|(name, _)| name.as_str()),
            "moved_m": spot.map(|s| rounded(s.moved.in_metres(), 2)),
            "from_junction_m": side_road.map(|(_, distance)| rounded(distance.in_metres(), 2)),
        },
    })
}
