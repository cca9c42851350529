//! `lengthsman judge`: one hole's severity, risk and due day.

use std::path::PathBuf;

use exchange::limits::believed;
use exchange::quantity_text::read_speed;
use jiff::civil::Date;
use model::hole::{LanePosition, Wetness};
use model::quantity::{InArea, InLength, InVelocity, Length, Velocity};
use model::road::RoadClass;
use model::triage::{Judgement, Severity};
use serde_json::{Value, json};
use triage::TriageInput;

use super::given;
use crate::input;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{figure_json, print_json};

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// Length of the hole.
    #[arg(long, value_parser = given::length, allow_hyphen_values = true)]
    length: Length,
    /// Width of the hole.
    #[arg(long, value_parser = given::width, allow_hyphen_values = true)]
    width: Length,
    /// Depth of the hole.
    #[arg(long, value_parser = given::depth, allow_hyphen_values = true)]
    depth: Length,
    /// Speed limit, e.g. 50mph or 80km/h.
    #[arg(long, value_parser = speed)]
    speed: Velocity,
    /// Class of the road.
    #[arg(long, default_value = "tertiary", value_parser = class)]
    class: RoadClass,
    /// Where across the road.
    #[arg(long)]
    position: Option<Position>,
    /// How wet it and its base are: dry, damp, wet, seepage, pumping.
    #[arg(long, value_parser = super::wetness)]
    wetness: Option<Wetness>,
    /// Vehicles a day, both ways.
    #[arg(long, value_parser = given::vehicles_per_day, allow_hyphen_values = true)]
    vehicles_per_day: Option<f64>,
    /// Day it was seen.
    #[arg(long, value_parser = input::day)]
    seen: Option<Date>,
    /// The day of judging.
    #[arg(long, value_parser = input::day)]
    date: Date,
    /// District file with the rule set; without it the shipped one.
    #[arg(long)]
    district: Option<PathBuf>,
    /// JSON.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Clone, Copy, clap::ValueEnum)]
enum Position {
    Lane,
    WheelPath,
    Edge,
    Shoulder,
    Centre,
}

fn speed(text: &str) -> Result<Velocity, String> {
    let speed = read_speed(text).map_err(|error| error.to_string())?;
    believed("judgement", "speed", "speed", speed.in_kilometres_per_hour()).map(|()| speed)
}

fn class(word: &str) -> Result<RoadClass, String> {
    RoadClass::ALL.into_iter().find(|class| class.word() == word).ok_or_else(|| {
        let known: Vec<&str> = RoadClass::ALL.iter().map(|class| class.word()).collect();
        format!("known classes: {}", known.join(", "))
    })
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let (district, rules) = match input::setting_or_defaults(arguments.district.as_deref()) {
        Ok(found) => found,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let input = TriageInput {
        depth: arguments.depth,
        area: arguments.length * arguments.width,
        least_plan_dimension: arguments.length.min(arguments.width),
        lane_position: arguments.position.map(Into::into),
        wetness: arguments.wetness,
        speed: arguments.speed,
        class: arguments.class,
        vehicles_per_day: arguments.vehicles_per_day,
        seen: arguments.seen,
        sized: arguments.seen,
    };
    let judgement = triage::judge(&input, &rules.severity, arguments.date, district.units);
    if arguments.json {
        print_json(&judgement_json(&judgement));
    } else {
        print(&judgement);
    }
    Outcome::AllUsed
}

fn print(judgement: &Judgement) {
    say!("{}", judgement.sentence);
    say!("{}", judgement.risk_sentence);
    say!("{}", judgement.outlook.sentence);
    say!("");
    say!("severity  {} by {}; {}", Severity::word(judgement.severity), judgement.system, judgement.severity_why);
    if let Some(count) = &judgement.counts_as {
        say!("counts as {:.1}; {}", count.value, count.why);
    }
    say!("risk      {:.1} points; {}", judgement.risk.value, judgement.risk.why);
    say!(
        "due       {}; {}",
        judgement.due.map_or_else(|| "no day set".into(), |day| day.to_string()),
        judgement.due_why
    );
    let outlook = &judgement.outlook;
    say!("{}  depth {:.0} mm; {}", outlook.day, outlook.depth.value.in_millimetres(), outlook.depth.why);
    say!("{}  area {:.3} m²; {}", outlook.day, outlook.area.value.in_square_metres(), outlook.area.why);
    say!("{}  {}, {:.1} points", outlook.day, Severity::word(outlook.severity), outlook.risk.value);
}

fn judgement_json(judgement: &Judgement) -> Value {
    let outlook = &judgement.outlook;
    json!({
        "severity": Severity::word(judgement.severity),
        "system": judgement.system,
        "severity_why": judgement.severity_why.to_string(),
        "counts_as": judgement.counts_as.as_ref().map(|count| figure_json(count, |n| n)),
        "sentence": judgement.sentence,
        "risk_points": figure_json(&judgement.risk, |points| points),
        "risk_sentence": judgement.risk_sentence,
        "due": judgement.due.map(|day| day.to_string()),
        "due_why": judgement.due_why.to_string(),
        "outlook": {
            "day": outlook.day.to_string(),
            "depth_m": figure_json(&outlook.depth, InLength::in_metres),
            "area_m2": figure_json(&outlook.area, InArea::in_square_metres),
            "severity": Severity::word(outlook.severity),
            "risk_points": figure_json(&outlook.risk, |points| points),
            "worse": outlook.worse.map(|(severity, _)| Severity::word(Some(severity))),
            "worse_from": outlook.worse.map(|(_, day)| day.to_string()),
            "sentence": outlook.sentence,
        },
    })
}

impl From<Position> for LanePosition {
    fn from(position: Position) -> Self {
        match position {
            Position::Lane => LanePosition::Lane,
            Position::WheelPath => LanePosition::WheelPath,
            Position::Edge => LanePosition::Edge,
            Position::Shoulder => LanePosition::Shoulder,
            Position::Centre => LanePosition::Centre,
        }
    }
}
