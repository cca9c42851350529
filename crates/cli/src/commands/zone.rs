//! `lengthsman zone`: the layout for work on one road, without a map.

mod limits;
mod on_road;

use std::path::{Path, PathBuf};

use exchange::quantity_text::{read_length, read_speed};
use model::crew_move::CrewMove;
use model::district::{District, DrivingSide};
use model::figure::Figure;
use model::hole::HoleId;
use model::place::{LonLat, Side, Travel};
use model::quantity::{InLength, InTime, Length, Time, Velocity, kilometres, metres, minutes};
use model::queue::{Queue, QueueOutlook};
use model::road::{Flow, NodeId, RoadClass, RoadSection, SectionId, Setting, Surface, TruckAccess};
use model::rules::traffic::TrafficRules;
use model::work_zone::{Device, DeviceKind, WorkZone};
use serde_json::json;
use workzone::{Stay, WorkExtent, ZoneInput};

use self::on_road::{NotFound, RoadFlags};
use crate::input;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{Table, print_json};

#[derive(Debug, clap::Args)]
#[command(after_help = "The layout is a proposal for the person authorised under the local traffic-control code.")]
#[expect(clippy::struct_excessive_bools, reason = "flags of a command")]
pub(crate) struct Arguments {
    /// Speed limit, e.g. 50mph or 80km/h.
    #[arg(
        long,
        required_unless_present = "road",
        value_parser = |text: &str| read_speed(text).map_err(|error| error.to_string())
    )]
    speed: Option<Velocity>,
    /// The stretch of a road of the map; the flags on speed, width, shoulder and traffic then go before the map's values.
    #[command(flatten)]
    on_road: RoadFlags,
    /// Sealed width; without it 3 m for each lane.
    #[arg(long, value_parser = length, allow_hyphen_values = true)]
    width: Option<Length>,
    /// Shoulder width on each side; without it 0.5 m.
    #[arg(long, value_parser = length, allow_hyphen_values = true)]
    shoulder: Option<Length>,
    /// Lanes in all, 1 to 8.
    #[arg(long, default_value_t = 2, value_parser = clap::value_parser!(u32).range(1..=8))]
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
    /// Distance of the work's middle from the centre line, towards the side traffic keeps to; the other way with a minus.
    /// Without it the middle of the outer lane.
    #[arg(long, value_parser = length, allow_hyphen_values = true, conflicts_with = "on_shoulder")]
    across: Option<Length>,
    /// Length of the work along the road.
    #[arg(long, value_parser = length, default_value = "2m", allow_hyphen_values = true)]
    work_length: Length,
    /// Time of the work, minutes, without setting up and taking in.
    #[arg(long, default_value_t = 90.0, allow_hyphen_values = true)]
    minutes: f64,
    /// Vehicles a day, both ways.
    #[arg(long, allow_hyphen_values = true)]
    vehicles_per_day: Option<f64>,
    /// How the work stays: short and moving work is laid out without cones only where the rule set's conditions hold.
    #[arg(long, value_enum, default_value_t = StayWord::Stationary)]
    stay: StayWord,
    /// How far one sees along the road past the work, from the end that sees less; without it nothing is taken for seen.
    #[arg(long, value_parser = length, allow_hyphen_values = true)]
    sight: Option<Length>,
    /// From the end of the work to the junction ahead of its traffic, if one is near.
    #[arg(long, value_parser = length, allow_hyphen_values = true)]
    to_junction: Option<Length>,
    /// Vehicles the crew brings; from two on one shields the work.
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u32).range(0..=50))]
    vehicles: u32,
    /// Traffic keeps to the left.
    #[arg(long)]
    left_hand_traffic: bool,
    /// District file with the rule set; without it the shipped one.
    #[arg(long)]
    district: Option<PathBuf>,
    /// Draws the zone to this file.
    #[arg(long, value_name = "FILE")]
    svg: Option<PathBuf>,
    /// JSON with SI units in the field names.
    #[arg(long)]
    json: bool,
}

/// How the work stays at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum StayWord {
    /// For its whole time.
    Stationary,
    /// For so short a time that placing cones would take longer.
    Short,
    /// It moves along.
    Mobile,
}

impl From<StayWord> for Stay {
    fn from(word: StayWord) -> Self {
        match word {
            StayWord::Stationary => Stay::Stationary,
            StayWord::Short => Stay::ShortDuration,
            StayWord::Mobile => Stay::Mobile,
        }
    }
}

/// Width of the work across the road, as part of a lane.
const WORK_OF_LANE: f64 = 0.4;

fn length(text: &str) -> Result<Length, String> {
    read_length(text).map_err(|error| error.to_string())
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    match (&arguments.on_road.road, &arguments.district) {
        (Some(road), Some(district)) => run_on_road(arguments, road, district),
        _ => run_as_described(arguments),
    }
}

/// The layout on a stretch of the map, each device on its place of the road.
fn run_on_road(arguments: &Arguments, road: &str, district: &Path) -> Outcome {
    let setting = match input::setting(district) {
        Ok(setting) => setting,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let found = match on_road::find(&arguments.on_road, road, &setting) {
        Ok(found) => found,
        Err(NotFound::Problems(problems)) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
        Err(NotFound::Wrong(line)) => {
            eprintln!("{line}");
            return Outcome::WrongUsage;
        }
    };
    report::print(&found.problems);
    let (district, rules) = (&setting.district, &setting.rules.traffic);
    let section = arguments.over(&found.section);
    let wrong = limits::wrong(arguments, &section, ("--from to --to:", found.to - found.from), rules);
    if !wrong.is_empty() {
        for line in wrong {
            eprintln!("{line}");
        }
        return Outcome::WrongUsage;
    }
    let (near, far) = arguments.extent(section.width, lane(&section), section.shoulder);
    let sign = if found.side == Side::Right { 1.0 } else { -1.0 };
    let work = WorkExtent {
        from: found.from,
        to: found.to,
        across_from: (near * sign).min(far * sign),
        across_to: (near * sign).max(far * sign),
    };
    let hole = [HoleId("work".into())];
    let input = ZoneInput {
        section: &section,
        travel: found.travel,
        side: found.side,
        driving_side: district.driving_side,
        work,
        duration: minutes(arguments.minutes),
        night: false,
        shoulder_only: arguments.on_shoulder,
        stay: arguments.stay.into(),
        // Only what was seen: hedges and banks are on no map.
        sight: arguments.sight,
        junction_ahead: workzone::junction_ahead(&found.around, &work, found.travel, rules),
        holes: &hole,
        people: district.crew.people,
        vehicles: arguments.vehicles,
    };
    let zone = workzone::on_road(workzone::lay_out(&input, rules), &input, &found.around, rules);
    let picture = jobpack::zone_svg(&jobpack::ZonePicture {
        zone: &zone,
        road: &section,
        driving_side: district.driving_side,
        units: district.units,
        words: jobpack::words_of(district),
        cuts: Vec::new(),
        ends: None,
        azimuth_deg: Some(found.azimuth_deg),
    });
    show(arguments, &zone, found.from, &found.said, &picture)
}

/// Draws, prints or writes what was asked for.
fn show(arguments: &Arguments, zone: &WorkZone, from: Length, said: &[String], picture: &str) -> Outcome {
    if let Some(path) = &arguments.svg
        && let Err(error) = std::fs::write(path, picture)
    {
        eprintln!("{}: {error}; give a file that can be written to", path.display());
        return Outcome::NothingProduced;
    }
    if arguments.json {
        print_json(&zone_json(zone, from, arguments));
    } else {
        for line in said {
            say!("{line}");
        }
        print(zone, from, arguments);
    }
    if zone.not_laid_out.is_some() { Outcome::NothingProduced } else { Outcome::AllUsed }
}

/// The layout on a straight road as the flags describe it.
fn run_as_described(arguments: &Arguments) -> Outcome {
    let (district, rules) = match input::setting_or_defaults(arguments.district.as_deref()) {
        Ok(found) => found,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let section = arguments.section();
    let wrong = limits::wrong(arguments, &section, ("--work-length", arguments.work_length), &rules.traffic);
    if !wrong.is_empty() {
        for line in wrong {
            eprintln!("{line}");
        }
        return Outcome::WrongUsage;
    }
    let middle = section.length / 2.0;
    let zone = arguments.lay_out(&section, middle, &district, &rules.traffic);
    let picture = arguments.drawing(&zone, &section, &district);
    show(arguments, &zone, middle, &[], &picture)
}

/// Width of a lane; a two-way road without two lanes still has two halves.
fn lane(section: &RoadSection) -> Length {
    section.width / f64::from(if section.flow == Flow::Both { section.lanes.max(2) } else { section.lanes.max(1) })
}

impl Arguments {
    /// The map's section with what the flags say of it.
    fn over(&self, section: &RoadSection) -> RoadSection {
        let mut over = section.clone();
        over.speed = self.speed.unwrap_or(section.speed);
        over.width = self.width.unwrap_or(section.width);
        over.shoulder = self.shoulder.unwrap_or(section.shoulder);
        over.vehicles_per_day = self.vehicles_per_day.or(section.vehicles_per_day);
        let given = [
            ("speed", self.speed.is_some()),
            ("width", self.width.is_some()),
            ("shoulder", self.shoulder.is_some()),
            ("vehicles_per_day", self.vehicles_per_day.is_some()),
        ];
        over.defaulted.retain(|name| !given.contains(&(name, true)));
        over
    }

    /// Sealed width, given or from the lanes.
    fn width(&self) -> Length {
        self.width.unwrap_or_else(|| metres(3.0) * f64::from(self.lanes))
    }

    /// Width of each shoulder, given or taken.
    fn shoulder(&self) -> Length {
        self.shoulder.unwrap_or(metres(0.5))
    }

    /// The layout, with the work at `middle`.
    fn lay_out(&self, section: &RoadSection, middle: Length, district: &District, rules: &TrafficRules) -> WorkZone {
        let (near, far) = self.extent(section.width, lane(section), section.shoulder);
        // On a two-way road work beyond the centre line is in the lane of the traffic the other way.
        let beyond = near + far < metres(0.0);
        let travel = if beyond && !self.one_way { Travel::Backward } else { Travel::Forward };
        let left = self.left_hand_traffic != beyond;
        let sign = if self.left_hand_traffic { -1.0 } else { 1.0 };
        let (a, b) = (near * sign, far * sign);
        let hole = [HoleId("work".into())];
        let input = ZoneInput {
            section,
            travel,
            side: if left { Side::Left } else { Side::Right },
            driving_side: self.driving_side(),
            work: WorkExtent {
                from: middle,
                to: middle + self.work_length,
                across_from: a.min(b),
                across_to: a.max(b),
            },
            duration: minutes(self.minutes),
            night: false,
            shoulder_only: self.on_shoulder,
            stay: self.stay.into(),
            sight: self.sight,
            junction_ahead: self.to_junction,
            holes: &hole,
            people: district.crew.people,
            vehicles: self.vehicles,
        };
        workzone::lay_out(&input, rules)
    }

    /// The zone as a picture, in the district's units.
    fn drawing(&self, zone: &WorkZone, section: &RoadSection, district: &District) -> String {
        jobpack::zone_svg(&jobpack::ZonePicture {
            zone,
            road: section,
            driving_side: self.driving_side(),
            units: district.units,
            words: jobpack::words_of(district),
            cuts: Vec::new(),
            ends: None,
            azimuth_deg: None,
        })
    }

    fn driving_side(&self) -> DrivingSide {
        if self.left_hand_traffic { DrivingSide::Left } else { DrivingSide::Right }
    }

    /// Edges of the work from the centre line, towards the side that its lane is on.
    fn extent(&self, width: Length, lane: Length, shoulder: Length) -> (Length, Length) {
        let half = width / 2.0;
        if self.on_shoulder {
            return (half, half + shoulder);
        }
        let middle = self.across.unwrap_or(half - lane / 2.0);
        let reach = lane * (WORK_OF_LANE / 2.0);
        (middle - reach, middle + reach)
    }
}

impl Arguments {
    /// A straight road long enough for any layout, with the work in its middle.
    fn section(&self) -> RoadSection {
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
            speed: self.speed.unwrap_or_default(),
            lanes: self.lanes,
            width: self.width(),
            shoulder: self.shoulder(),
            flow: if self.one_way { Flow::Forward } else { Flow::Both },
            surface: Surface::SurfaceTreated,
            vehicles_per_day: self.vehicles_per_day,
            setting: if self.urban { Setting::Urban } else { Setting::Rural },
            structure: None,
            roundabout: false,
            truck: TruckAccess::default(),
            defaulted: Vec::new(),
        }
    }
}

fn print(zone: &WorkZone, middle: Length, arguments: &Arguments) {
    say!("{} [{}]", zone.layout_name, zone.layout_source);
    say!("{}", zone.layout_reason);
    let (out, work, back) = (zone.set_up.value, minutes(arguments.minutes), zone.take_in.value);
    say!(
        "{}: {:.0} min at the place (set-up {:.0}, work {:.0}, take-in {:.0})",
        zone.duration_class,
        (out + work + back).in_minutes(),
        out.in_minutes(),
        work.in_minutes(),
        back.in_minutes()
    );
    say!("flaggers {}, people needed {}", zone.flaggers.value, zone.people_needed);
    say!("{}", zone.control.reason);
    if let Some(queue) = &zone.queue {
        print_queue(queue);
    }
    let passes = if zone.passable { "traffic can pass" } else { "traffic can't pass" };
    say!("open to traffic: {:.2} m; {passes}", zone.open_width.value.in_metres());
    for part in &zone.parts {
        say!("{}: {:.1} m; {}", part.kind.words(), part.length.value.in_metres(), part.length.why);
    }
    let mut table = Table::default();
    table.row(["no.", "device", "what", "for traffic", "from work", "across", "gap"].map(str::to_owned));
    for (index, device) in zone.devices.iter().enumerate() {
        table.row([
            (index + 1).to_string(),
            device_word(device.kind).to_owned(),
            what(device),
            if device.approach == zone.travel { "lane worked in" } else { "the other way" }.to_owned(),
            format!("{:+.1} m", (device.chainage - middle).in_metres()),
            format!("{:+.1} m", device.across.in_metres()),
            format!("{:.1} m", device.spacing.in_metres()),
        ]);
    }
    table.print();
    print_moves("out", &zone.out);
    print_moves("back", &zone.back);
    for remark in &zone.remarks {
        say!("- {remark}");
    }
}

/// Waiting in the busiest hour, and what the zone carries.
fn print_queue(queue: &Queue) {
    match &queue.flow_per_hour {
        Some(flow) => say!("busiest hour: {:.0} vehicles; {}", flow.value, flow.why),
        None => say!("busiest hour: no count of the road is known (--vehicles-per-day)"),
    }
    say!("good up to {:.0} vehicles an hour; {}", queue.most_per_hour.value, queue.most_per_hour.why);
    match &queue.outlook {
        Some(QueueOutlook::Clears(waiting)) => {
            let minutes = |time: &Figure<Time>| time.value.in_minutes();
            say!("longest stop {:.1} min; {}", minutes(&waiting.longest_stop), waiting.longest_stop.why);
            say!("mean wait {:.1} min; {}", minutes(&waiting.mean_wait), waiting.mean_wait.why);
            say!(
                "queue {:.1} vehicles, {:.0} in nine turns of ten, {:.0} m back; {}",
                waiting.vehicles.value,
                waiting.vehicles.p90(),
                waiting.length.p90().in_metres(),
                waiting.length.why
            );
        }
        Some(QueueOutlook::Grows(growth)) => {
            say!("the queue grows by {:.0} vehicles an hour; {}", growth.value, growth.why);
        }
        None => {}
    }
}

/// The way the crew takes, step by step.
fn print_moves(way: &str, moves: &[CrewMove]) {
    if moves.is_empty() {
        return;
    }
    let mut table = Table::default();
    table.row([way, "devices", "driven", "walked", "turns", "min"].map(str::to_owned));
    for step in moves {
        let numbers: Vec<String> = step.devices.iter().map(|index| (index + 1).to_string()).collect();
        table.row([
            step.step.words().to_owned(),
            match &numbers[..] {
                [] => "-".to_owned(),
                [one] => one.clone(),
                [first, .., last] => format!("{first} to {last}"),
            },
            format!("{:.0} m", step.driven.in_metres()),
            format!("{:.0} m", step.walked.in_metres()),
            step.turns.to_string(),
            format!("{:.1}", step.time.value.in_minutes()),
        ]);
    }
    table.print();
}

fn moves_json(moves: &[CrewMove]) -> Vec<serde_json::Value> {
    let step = |step: &CrewMove| {
        json!({
            "step": step.step.key(),
            "devices": step.devices.iter().map(|index| index + 1).collect::<Vec<_>>(),
            "driven_m": step.driven.in_metres(),
            "walked_m": step.walked.in_metres(),
            "turns": step.turns,
            "time_s": step.time.value.in_seconds(),
            "why": step.time.why.to_string(),
        })
    };
    moves.iter().map(step).collect()
}

fn queue_json(queue: &Queue) -> serde_json::Value {
    let (clears, grows) = match &queue.outlook {
        Some(QueueOutlook::Clears(waiting)) => (Some(waiting), None),
        Some(QueueOutlook::Grows(growth)) => (None, Some(growth.value)),
        None => (None, None),
    };
    json!({
        "flow_per_hour": queue.flow_per_hour.as_ref().map(|flow| flow.value),
        "most_per_hour": queue.most_per_hour.value,
        "grows_per_hour": grows,
        "longest_stop_s": clears.map(|waiting| waiting.longest_stop.value.in_seconds()),
        "mean_wait_s": clears.map(|waiting| waiting.mean_wait.value.in_seconds()),
        "vehicles": clears.map(|waiting| waiting.vehicles.value),
        "vehicles_p90": clears.map(|waiting| waiting.vehicles.p90()),
        "length_p90_m": clears.map(|waiting| waiting.length.p90().in_metres()),
    })
}

/// What a device is or says, and the road that joins where it stands on one.
fn what(device: &Device) -> String {
    let words = format!("{} {}", device.designation, device.legend).trim().to_owned();
    match device.spot.as_ref().and_then(|spot| spot.side_road.as_ref()) {
        Some((name, distance)) => format!("{words}; on {name}, {:.0} m in", distance.in_metres()),
        None => words,
    }
}

fn zone_json(zone: &WorkZone, middle: Length, arguments: &Arguments) -> serde_json::Value {
    let at_the_place = zone.set_up.value + minutes(arguments.minutes) + zone.take_in.value;
    json!({
        "layout": zone.layout_name,
        "source": zone.layout_source.to_string(),
        "reason": zone.layout_reason,
        "control": zone.control.reason,
        "duration_class": zone.duration_class,
        "flaggers": zone.flaggers.value,
        "people_needed": zone.people_needed,
        "passable": zone.passable,
        "at_the_place_s": at_the_place.in_seconds(),
        "queue": zone.queue.as_ref().map(queue_json),
        "out": moves_json(&zone.out),
        "back": moves_json(&zone.back),
        "set_up_s": zone.set_up.value.in_seconds(),
        "take_in_s": zone.take_in.value.in_seconds(),
        "open_width_m": zone.open_width.value.in_metres(),
        "parts": zone.parts.iter().map(|part| json!({
            "part": part.kind.words().replace(' ', "_"),
            "length_m": part.length.value.in_metres(),
            "why": part.length.why.to_string(),
        })).collect::<Vec<_>>(),
        "devices": zone.devices.iter().map(|device| json!({
            "kind": device_word(device.kind),
            "designation": device.designation,
            "legend": device.legend,
            "approach": match device.approach {
                Travel::Forward => "forward",
                Travel::Backward => "backward",
            },
            "from_work_m": (device.chainage - middle).in_metres(),
            "across_m": device.across.in_metres(),
            "spacing_m": device.spacing.in_metres(),
            "lon": device.spot.as_ref().map(|spot| spot.place.lon),
            "lat": device.spot.as_ref().map(|spot| spot.place.lat),
            "side_road": device.spot.as_ref().and_then(|spot| spot.side_road.as_ref()).map(|(name, _)| name),
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
