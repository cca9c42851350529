//! `lengthsman zone`: the layout for work on one road, without a map.

use std::path::PathBuf;

use exchange::quantity_text::{read_length, read_speed};
use model::district::DrivingSide;
use model::hole::HoleId;
use model::place::{LonLat, Side, Travel};
use model::quantity::{InLength, InTime, Length, Velocity, kilometres, minutes};
use model::road::{Flow, NodeId, RoadClass, RoadSection, SectionId, Setting, Surface};
use model::work_zone::{DeviceKind, WorkZone};
use serde_json::json;
use workzone::{WorkExtent, ZoneInput};

use crate::input;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{Table, print_json};

#[derive(Debug, clap::Args)]
#[command(after_help = "The layout is a proposal for the person authorised under the local traffic-control code.")]
pub(crate) struct Arguments {
    /// Speed limit, e.g. 50mph or 80km/h.
    #[arg(long, value_parser = |text: &str| read_speed(text).map_err(|error| error.to_string()))]
    speed: Velocity,
    /// Sealed width.
    #[arg(long, value_parser = length, default_value = "6m")]
    width: Length,
    /// Shoulder width on each side.
    #[arg(long, value_parser = length, default_value = "0.5m")]
    shoulder: Length,
    /// Lanes in all.
    #[arg(long, default_value_t = 2)]
    lanes: u32,
    /// The road is one-way.
    #[arg(long)]
    one_way: bool,
    /// Built-up area.
    #[arg(long)]
    urban: bool,
    /// The work is on the shoulder only.
    #[arg(long)]
    on_shoulder: bool,
    /// Length of the work along the road.
    #[arg(long, value_parser = length, default_value = "2m")]
    work_length: Length,
    /// Time of the work, minutes.
    #[arg(long, default_value_t = 90.0)]
    minutes: f64,
    /// Vehicles a day, both ways.
    #[arg(long)]
    vehicles_per_day: Option<f64>,
    /// Traffic keeps to the left.
    #[arg(long)]
    left_hand_traffic: bool,
    /// District file with the rule set; without it the shipped one.
    #[arg(long)]
    district: Option<PathBuf>,
    /// JSON with SI units in the field names.
    #[arg(long)]
    json: bool,
}

fn length(text: &str) -> Result<Length, String> {
    read_length(text).map_err(|error| error.to_string())
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    if !(arguments.minutes.is_finite() && arguments.minutes > 0.0) {
        eprintln!("--minutes {}: a number over zero is needed", arguments.minutes);
        return Outcome::WrongUsage;
    }
    let (district, rules) = match input::setting_or_defaults(arguments.district.as_deref()) {
        Ok(found) => found,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let section = section(arguments);
    let driving_side = if arguments.left_hand_traffic { DrivingSide::Left } else { DrivingSide::Right };
    let side = if arguments.left_hand_traffic { Side::Left } else { Side::Right };
    let sign = if arguments.left_hand_traffic { -1.0 } else { 1.0 };
    let half = arguments.width / 2.0;
    let (near, far) = if arguments.on_shoulder {
        (half * sign, (half + arguments.shoulder) * sign)
    } else {
        (half * 0.3 * sign, half * 0.7 * sign)
    };
    let middle = section.length / 2.0;
    let hole = [HoleId("work".into())];
    let zone = workzone::lay_out(
        &ZoneInput {
            section: &section,
            travel: Travel::Forward,
            side,
            driving_side,
            work: WorkExtent {
                from: middle,
                to: middle + arguments.work_length,
                across_from: near.min(far),
                across_to: near.max(far),
            },
            duration: minutes(arguments.minutes),
            night: false,
            shoulder_only: arguments.on_shoulder,
            holes: &hole,
            people: district.crew.people,
            vehicles: 1,
        },
        &rules.traffic,
    );
    if arguments.json {
        print_json(&zone_json(&zone, middle));
    } else {
        print(&zone, middle);
    }
    Outcome::AllUsed
}

/// A straight road long enough for any layout, with the work in its middle.
fn section(arguments: &Arguments) -> RoadSection {
    RoadSection {
        id: SectionId(0),
        source_id: "given".into(),
        from: NodeId(0),
        to: NodeId(1),
        line: vec![LonLat { lon: 0.0, lat: 0.0 }, LonLat { lon: 0.1, lat: 0.0 }],
        length: kilometres(10.0),
        class: RoadClass::Tertiary,
        name: String::new(),
        number: String::new(),
        speed: arguments.speed,
        lanes: arguments.lanes,
        width: arguments.width,
        shoulder: arguments.shoulder,
        flow: if arguments.one_way { Flow::Forward } else { Flow::Both },
        surface: Surface::SurfaceTreated,
        vehicles_per_day: arguments.vehicles_per_day,
        setting: if arguments.urban { Setting::Urban } else { Setting::Rural },
        defaulted: Vec::new(),
    }
}

fn print(zone: &WorkZone, middle: Length) {
    println!("{} [{}]", zone.layout_name, zone.layout_source);
    println!("{}; flaggers {}", zone.duration_class, zone.flaggers.value);
    for part in &zone.parts {
        println!("{:?}: {:.1} m; {}", part.kind, part.length.value.in_metres(), part.length.why);
    }
    let mut table = Table::default();
    table.row(["no.", "device", "what", "for traffic", "from work", "across", "gap"].map(str::to_owned));
    for (index, device) in zone.devices.iter().enumerate() {
        table.row([
            (index + 1).to_string(),
            device_word(device.kind).to_owned(),
            format!("{} {}", device.designation, device.legend).trim().to_owned(),
            format!("{:?}", device.approach).to_lowercase(),
            format!("{:+.1} m", (device.chainage - middle).in_metres()),
            format!("{:+.1} m", device.across.in_metres()),
            format!("{:.1} m", device.spacing.in_metres()),
        ]);
    }
    table.print();
    println!("set up {:.0} min, take in {:.0} min", zone.set_up.value.in_minutes(), zone.take_in.value.in_minutes());
    for remark in &zone.remarks {
        println!("- {remark}");
    }
}

fn zone_json(zone: &WorkZone, middle: Length) -> serde_json::Value {
    json!({
        "layout": zone.layout_name,
        "source": zone.layout_source.to_string(),
        "duration_class": zone.duration_class,
        "flaggers": zone.flaggers.value,
        "set_up_s": zone.set_up.value.in_seconds(),
        "take_in_s": zone.take_in.value.in_seconds(),
        "open_width_m": zone.open_width.value.in_metres(),
        "parts": zone.parts.iter().map(|part| json!({
            "part": format!("{:?}", part.kind),
            "length_m": part.length.value.in_metres(),
            "why": part.length.why.to_string(),
        })).collect::<Vec<_>>(),
        "devices": zone.devices.iter().map(|device| json!({
            "kind": device_word(device.kind),
            "designation": device.designation,
            "legend": device.legend,
            "approach": format!("{:?}", device.approach).to_lowercase(),
            "from_work_m": (device.chainage - middle).in_metres(),
            "across_m": device.across.in_metres(),
            "spacing_m": device.spacing.in_metres(),
            "why": device.why.to_string(),
        })).collect::<Vec<_>>(),
        "removing_order": zone.removing.iter().map(|index| index + 1).collect::<Vec<_>>(),
        "remarks": zone.remarks,
    })
}

fn device_word(kind: DeviceKind) -> &'static str {
    match kind {
        DeviceKind::Sign => "sign",
        DeviceKind::Cone => "cone",
        DeviceKind::FlaggerStation => "flagger station",
        DeviceKind::ShieldVehicle => "shield vehicle",
    }
}
