//! The `zone` block.

use model::place::{Side, Travel};
use model::quantity::{InLength, InTime};
use model::work_zone::{Device, DeviceKind, Layout, WorkZone, ZonePartKind};
use schemars::JsonSchema;
use serde::Serialize;

use super::figures::{CountJson, FigureJson, count, figure, round};

/// One work zone. The layout is a proposal for the person authorised under the local traffic-control code.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "WorkZone")]
pub struct ZoneBlock {
    layout: &'static str,
    layout_name: String,
    layout_source: String,
    duration_class: String,
    /// Direction of the traffic in the worked lane: forward is with increasing chainage.
    travel: &'static str,
    /// Side of the centre line, looking along increasing chainage.
    side: &'static str,
    work_from_m: f64,
    work_to_m: f64,
    parts: Vec<PartJson>,
    /// In placing order.
    devices: Vec<DeviceJson>,
    /// Indexes into `devices`, from 0, in removing order.
    removing: Vec<usize>,
    flaggers: CountJson,
    set_up_s: FigureJson,
    take_in_s: FigureJson,
    open_width_m: FigureJson,
    remarks: Vec<String>,
}

/// A part of the zone, in the direction of traffic.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ZonePart")]
struct PartJson {
    part: &'static str,
    length_m: FigureJson,
}

/// One thing that stands on the road.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Device")]
struct DeviceJson {
    kind: &'static str,
    designation: String,
    legend: String,
    /// The traffic it is for.
    approach: &'static str,
    /// Along the section; negative or beyond its end: on the road before or after it.
    chainage_m: f64,
    /// From the centre line, positive to the right of increasing chainage.
    across_m: f64,
    spacing_m: f64,
    why: String,
}

/// `forward` or `backward`.
pub fn travel_word(travel: Travel) -> &'static str {
    match travel {
        Travel::Forward => "forward",
        Travel::Backward => "backward",
    }
}

/// `left` or `right`.
pub fn side_word(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

/// The layout's key in files.
pub fn layout_word(layout: Layout) -> &'static str {
    match layout {
        Layout::Shoulder => "shoulder",
        Layout::LaneClosureTwoWay => "lane_closure_two_way",
        Layout::LaneClosureMultilane => "lane_closure_multilane",
    }
}

/// The device's kind as files say it.
pub fn device_word(kind: DeviceKind) -> &'static str {
    match kind {
        DeviceKind::Sign => "sign",
        DeviceKind::Cone => "cone",
        DeviceKind::FlaggerStation => "flagger_station",
        DeviceKind::ShieldVehicle => "shield_vehicle",
    }
}

impl From<&WorkZone> for ZoneBlock {
    fn from(zone: &WorkZone) -> Self {
        ZoneBlock {
            layout: layout_word(zone.layout),
            layout_name: zone.layout_name.clone(),
            layout_source: zone.layout_source.to_string(),
            duration_class: zone.duration_class.clone(),
            travel: travel_word(zone.travel),
            side: side_word(zone.side),
            work_from_m: round(zone.work_from.in_metres()),
            work_to_m: round(zone.work_to.in_metres()),
            parts: zone
                .parts
                .iter()
                .map(|p| PartJson {
                    part: match p.kind {
                        ZonePartKind::AdvanceWarning => "advance_warning",
                        ZonePartKind::Taper => "taper",
                        ZonePartKind::Buffer => "buffer",
                        ZonePartKind::WorkSpace => "work_space",
                        ZonePartKind::DownstreamTaper => "downstream_taper",
                    },
                    length_m: figure(&p.length, InLength::in_metres),
                })
                .collect(),
            devices: zone.devices.iter().map(DeviceJson::from).collect(),
            removing: zone.removing.clone(),
            flaggers: count(&zone.flaggers),
            set_up_s: figure(&zone.set_up, InTime::in_seconds),
            take_in_s: figure(&zone.take_in, InTime::in_seconds),
            open_width_m: figure(&zone.open_width, InLength::in_metres),
            remarks: zone.remarks.clone(),
        }
    }
}

impl From<&Device> for DeviceJson {
    fn from(device: &Device) -> Self {
        DeviceJson {
            kind: device_word(device.kind),
            designation: device.designation.clone(),
            legend: device.legend.clone(),
            approach: travel_word(device.approach),
            chainage_m: round(device.chainage.in_metres()),
            across_m: round(device.across.in_metres()),
            spacing_m: round(device.spacing.in_metres()),
            why: device.why.to_string(),
        }
    }
}
