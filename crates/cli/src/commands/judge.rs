//! `lengthsman judge`: one hole's severity, risk and due day.

use std::path::PathBuf;

use exchange::quantity_text::{read_length, read_speed};
use jiff::civil::Date;
use model::hole::LanePosition;
use model::quantity::{Length, Velocity};
use model::road::RoadClass;
use serde_json::json;
use triage::TriageInput;

use crate::input;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{figure_json, print_json};

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// Length of the hole.
    #[arg(long, value_parser = length)]
    length: Length,
    /// Width of the hole.
    #[arg(long, value_parser = length)]
    width: Length,
    /// Depth of the hole.
    #[arg(long, value_parser = length)]
    depth: Length,
    /// Speed limit, e.g. 50mph or 80km/h.
    #[arg(long, value_parser = |text: &str| read_speed(text).map_err(|error| error.to_string()))]
    speed: Velocity,
    /// Class of the road.
    #[arg(long, default_value = "tertiary", value_parser = class)]
    class: RoadClass,
    /// Where across the road.
    #[arg(long)]
    position: Option<Position>,
    /// Water stands in it or the base is wet.
    #[arg(long)]
    wet: bool,
    /// Vehicles a day, both ways.
    #[arg(long)]
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

fn length(text: &str) -> Result<Length, String> {
    read_length(text).map_err(|error| error.to_string())
}

fn class(word: &str) -> Result<RoadClass, String> {
    RoadClass::ALL.into_iter().find(|class| class.word() == word).ok_or_else(|| {
        let known: Vec<&str> = RoadClass::ALL.iter().map(|class| class.word()).collect();
        format!("known classes: {}", known.join(", "))
    })
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let rules = match input::setting_or_defaults(arguments.district.as_deref()) {
        Ok((_, rules)) => rules,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let input = TriageInput {
        depth: arguments.depth,
        area: arguments.length * arguments.width,
        lane_position: arguments.position.map(Into::into),
        wet: arguments.wet.then_some(true),
        speed: arguments.speed,
        class: arguments.class,
        vehicles_per_day: arguments.vehicles_per_day,
        seen: arguments.seen,
    };
    let judgement = triage::judge(&input, &rules.severity, arguments.date);
    let severity = judgement.severity.map_or_else(|| "not rated".into(), |s| format!("{s:?}").to_lowercase());
    let due = judgement.due.map(|day| day.to_string());
    if arguments.json {
        print_json(&json!({
            "severity": severity,
            "system": judgement.system,
            "severity_why": judgement.severity_why.to_string(),
            "risk_points": figure_json(&judgement.risk, |points| points),
            "due": due,
            "due_why": judgement.due_why.to_string(),
        }));
    } else {
        say!("severity  {severity} by {}; {}", judgement.system, judgement.severity_why);
        say!("risk      {:.1} points; {}", judgement.risk.value, judgement.risk.why);
        say!("due       {}; {}", due.unwrap_or_else(|| "no day set".into()), judgement.due_why);
    }
    Outcome::AllUsed
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
