//! How many of each device a zone takes: counted out, and counted back.

use model::work_zone::{Device, DeviceKind, WorkZone};

/// Devices of a zone by kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct DeviceCount {
    /// Signs, each with its stand.
    pub signs: u32,
    /// Cones.
    pub cones: u32,
    /// Flagger stations.
    pub flagger_stations: u32,
    /// Vehicles that shield the work.
    pub shield_vehicles: u32,
}

/// Counts a zone's devices.
pub fn device_count(zone: &WorkZone) -> DeviceCount {
    count(&zone.devices)
}

/// Counts devices.
pub fn count(devices: &[Device]) -> DeviceCount {
    let mut counted = DeviceCount::default();
    for device in devices {
        match device.kind {
            DeviceKind::Sign => counted.signs += 1,
            DeviceKind::Cone => counted.cones += 1,
            DeviceKind::FlaggerStation => counted.flagger_stations += 1,
            DeviceKind::ShieldVehicle => counted.shield_vehicles += 1,
        }
    }
    counted
}
