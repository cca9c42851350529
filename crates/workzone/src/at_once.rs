//! What stands on the roads at one time, of all zones together: what a crew takes along, and where crews that overlap need
//! a second set.

use std::collections::BTreeMap;

use model::plan::DeviceNeed;
use model::round::SecondOfDay;
use model::work_zone::{DeviceKind, WorkZone};

/// A zone and the time for which its devices are out of the store: from the first one placed to the last one in.
#[derive(Debug, Clone, Copy)]
pub struct Standing<'a> {
    /// The zone.
    pub zone: &'a WorkZone,
    /// First device out.
    pub from: SecondOfDay,
    /// Last device in; another zone may have it from then on.
    pub to: SecondOfDay,
}

/// The most that is needed at one time of each kind of device, and of each sign, and when. In the order of kinds; signs all
/// together first, then by their designation and words.
pub fn at_once(standing: &[Standing]) -> Vec<DeviceNeed> {
    let mut needs: BTreeMap<(DeviceKind, &str, &str), DeviceNeed> = BTreeMap::new();
    for moment in standing {
        let out: Vec<&Standing> = standing
            .iter()
            .filter(|zone| std::ptr::eq(*zone, moment) || (zone.from <= moment.from && moment.from < zone.to))
            .collect();
        let mut counted: BTreeMap<(DeviceKind, &str, &str), u32> = BTreeMap::new();
        for device in out.iter().flat_map(|zone| &zone.zone.devices) {
            let (designation, legend) = match device.kind {
                DeviceKind::Sign => (device.designation.as_str(), device.legend.as_str()),
                _ => ("", ""),
            };
            *counted.entry((device.kind, designation, legend)).or_default() += 1;
            if device.kind == DeviceKind::Sign {
                *counted.entry((device.kind, "", "")).or_default() += 1;
            }
        }
        for (key @ (kind, designation, legend), count) in counted {
            let need = needs.entry(key).or_insert_with(|| DeviceNeed {
                kind,
                designation: designation.into(),
                legend: legend.into(),
                most: 0,
                at: moment.from,
                zones: 0,
            });
            if count > need.most {
                (need.most, need.at, need.zones) = (count, moment.from, out.len() as u32);
            }
        }
    }
    needs.into_values().collect()
}
