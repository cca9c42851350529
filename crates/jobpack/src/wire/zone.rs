//! The `zone` block.

use model::crew_move::CrewMove;
use model::place::{Side, Travel};
use model::quantity::{InLength, InTime};
use model::queue::{Queue, QueueOutlook};
use model::sharing::Sharing;
use model::work_zone::{ControlMethod, Coordination, Device, DeviceKind, TrafficControl, WorkZone, ZonePartKind};
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
    /// Why this layout and not a lesser one.
    layout_reason: String,
    /// Why nothing was laid out, if nothing was.
    #[serde(skip_serializing_if = "Option::is_none")]
    not_laid_out: Option<String>,
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
    control: ControlJson,
    /// Waiting that is expected; null where nobody waits for anybody.
    queue: Option<QueueJson>,
    /// The steps in which everything goes out.
    out: Vec<MoveJson>,
    /// The steps in which everything comes in.
    back: Vec<MoveJson>,
    /// The sum of the steps out.
    set_up_s: FigureJson,
    /// The sum of the steps back.
    take_in_s: FigureJson,
    open_width_m: FigureJson,
    /// What it saves that several cuts share the zone; null where it holds one.
    shared: Option<SharedJson>,
    remarks: Vec<String>,
}

/// How traffic that takes turns is controlled.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "TrafficControl")]
struct ControlJson {
    /// `no_turns`, `self_regulating`, `one_flagger` or `flagger_each_end`.
    method: &'static str,
    /// How the ends agree: `not_needed`, `by_sight` or `by_radio_or_pilot`.
    coordination: &'static str,
    between_ends_m: f64,
    reason: String,
}

/// Waiting where traffic takes turns, or squeezes into fewer lanes, in the busiest hour.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Queue")]
struct QueueJson {
    /// Vehicles an hour, both ways where traffic takes turns; null where no count is known.
    flow_per_hour: Option<FigureJson>,
    /// The flow up to which nobody is held longer than the rule set allows.
    most_per_hour: FigureJson,
    /// Vehicles an hour by which the queue grows; null where it clears or no count is known.
    grows_per_hour: Option<FigureJson>,
    longest_stop_s: Option<FigureJson>,
    mean_wait_s: Option<FigureJson>,
    vehicles: Option<FigureJson>,
    length_m: Option<FigureJson>,
}

/// A step of putting out or taking in, with the way to it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "CrewMove")]
struct MoveJson {
    step: &'static str,
    /// Indexes into `devices`, from 0, as they are handled.
    devices: Vec<usize>,
    driven_m: f64,
    walked_m: f64,
    /// Times the vehicle turns round.
    turns: u32,
    time_s: FigureJson,
}

/// Several cuts in one zone, against a zone for each.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Sharing")]
struct SharedJson {
    cuts: u32,
    holes: u32,
    /// Setting up and taking in, moving from cut to cut taken off; below zero where sharing takes longer.
    time_saved_s: FigureJson,
    /// Devices put out, each counted once for each zone; below zero where sharing takes more.
    devices_saved: i64,
    /// Moving from cut to cut.
    between_cuts_s: FigureJson,
    /// As the sheets say it.
    words: String,
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
            layout: zone.layout.key(),
            layout_reason: zone.layout_reason.clone(),
            not_laid_out: zone.not_laid_out.clone(),
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
            control: ControlJson::from(&zone.control),
            queue: zone.queue.as_ref().map(QueueJson::from),
            out: zone.out.iter().map(MoveJson::from).collect(),
            back: zone.back.iter().map(MoveJson::from).collect(),
            set_up_s: figure(&zone.set_up, InTime::in_seconds),
            take_in_s: figure(&zone.take_in, InTime::in_seconds),
            open_width_m: figure(&zone.open_width, InLength::in_metres),
            shared: zone.shared.as_ref().map(SharedJson::from),
            remarks: zone.remarks.clone(),
        }
    }
}

impl From<&TrafficControl> for ControlJson {
    fn from(control: &TrafficControl) -> Self {
        ControlJson {
            method: match control.method {
                ControlMethod::NoTurns => "no_turns",
                ControlMethod::SelfRegulating => "self_regulating",
                ControlMethod::OneFlagger => "one_flagger",
                ControlMethod::FlaggerEachEnd => "flagger_each_end",
            },
            coordination: match control.coordination {
                Coordination::NotNeeded => "not_needed",
                Coordination::BySight => "by_sight",
                Coordination::ByRadioOrPilot => "by_radio_or_pilot",
            },
            between_ends_m: round(control.between_ends.in_metres()),
            reason: control.reason.clone(),
        }
    }
}

impl From<&Queue> for QueueJson {
    fn from(queue: &Queue) -> Self {
        let clears = match &queue.outlook {
            Some(QueueOutlook::Clears(waiting)) => Some(waiting),
            _ => None,
        };
        let grows = match &queue.outlook {
            Some(QueueOutlook::Grows(growth)) => Some(growth),
            _ => None,
        };
        let plain = |count: f64| count;
        QueueJson {
            flow_per_hour: queue.flow_per_hour.as_ref().map(|flow| figure(flow, plain)),
            most_per_hour: figure(&queue.most_per_hour, plain),
            grows_per_hour: grows.map(|growth| figure(growth, plain)),
            longest_stop_s: clears.map(|w| figure(&w.longest_stop, InTime::in_seconds)),
            mean_wait_s: clears.map(|w| figure(&w.mean_wait, InTime::in_seconds)),
            vehicles: clears.map(|w| figure(&w.vehicles, plain)),
            length_m: clears.map(|w| figure(&w.length, InLength::in_metres)),
        }
    }
}

impl From<&CrewMove> for MoveJson {
    fn from(step: &CrewMove) -> Self {
        MoveJson {
            step: step.step.key(),
            devices: step.devices.clone(),
            driven_m: round(step.driven.in_metres()),
            walked_m: round(step.walked.in_metres()),
            turns: step.turns,
            time_s: figure(&step.time, InTime::in_seconds),
        }
    }
}

impl From<&Sharing> for SharedJson {
    fn from(shared: &Sharing) -> Self {
        SharedJson {
            cuts: shared.cuts,
            holes: shared.holes,
            time_saved_s: figure(&shared.time_saved, InTime::in_seconds),
            devices_saved: shared.devices_saved.value,
            between_cuts_s: figure(&shared.between, InTime::in_seconds),
            words: shared.words(),
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
