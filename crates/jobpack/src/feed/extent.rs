//! From where to where a zone reaches along the road.

use model::place::{LonLat, Travel};
use model::work_zone::{Device, DeviceKind, WorkZone};
use serde_json::{Value, json};

use crate::centre_line::CentreLine;
use crate::geo_json;

/// How the ends were found, in the standard's words.
pub fn method(zone: &WorkZone) -> &'static str {
    if cones(zone).next().is_some() { "channel-device-method" } else { "other" }
}

/// The centre line from the first cone to the last, in the direction of the traffic; the work space where there are no cones.
///
/// Cones before or after the section are joined by straight lines where the real road is known there; where it is not, the
/// line ends with the section.
pub fn line(zone: &WorkZone, axis: &CentreLine, travel: Travel) -> Value {
    let mut low = zone.work_from;
    let mut high = zone.work_to;
    for cone in cones(zone).filter(|c| c.chainage.value.is_finite()) {
        low = low.min(cone.chainage);
        high = high.max(cone.chainage);
    }
    let mut beyond: Vec<&Device> = cones(zone).filter(|c| c.chainage.value.is_finite()).collect();
    beyond.sort_by(|a, b| a.chainage.value.total_cmp(&b.chainage.value));
    let spots = |keep: &dyn Fn(f64) -> bool| -> Vec<LonLat> {
        beyond
            .iter()
            .filter(|c| keep(c.chainage.value))
            .filter_map(|c| c.spot.as_ref())
            .filter(|s| s.side_road.is_none())
            .map(|s| s.place)
            .collect()
    };
    let length = axis.length_m();
    let mut places = spots(&|chainage| chainage < 0.0);
    places.extend(axis.stretch(low, high));
    places.extend(spots(&|chainage| chainage > length));
    if travel == Travel::Backward {
        places.reverse();
    }
    let line = geo_json::line(&places);
    // The standard wants a geometry; a line without length is none, but never happens on a road that a truck found.
    if line.is_null() { json!({"type": "MultiPoint", "coordinates": []}) } else { line }
}

fn cones(zone: &WorkZone) -> impl Iterator<Item = &Device> {
    zone.devices.iter().filter(|d| d.kind == DeviceKind::Cone)
}
