//! From where to where a zone reaches along the road.

use model::place::{LonLat, Travel};
use model::work_zone::{Device, DeviceKind, WorkZone};

use crate::centre_line::CentreLine;

/// How the ends were found, in the standard's words.
pub fn method(zone: &WorkZone) -> &'static str {
    if cones(zone).next().is_some() { "channel-device-method" } else { "other" }
}

/// The centre line from the first cone to the last, in the direction of the traffic; the work space where there are no cones.
///
/// Cones before or after the section are joined by straight lines where the real road is known there; where it is not, the
/// line ends with the section. Of fewer than two places on a line without length, which no truck found.
pub fn line(zone: &WorkZone, axis: &CentreLine, travel: Travel) -> Vec<LonLat> {
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
    places
}

fn cones(zone: &WorkZone) -> impl Iterator<Item = &Device> {
    zone.devices.iter().filter(|d| d.kind == DeviceKind::Cone)
}
