//! A list of holes and the roads it lies on, as the commands that only place holes are given them.

use std::path::PathBuf;

use jiff::civil::Date;
use model::hole::Hole;
use model::problem::Problem;
use model::road::RoadNetwork;
use plan::Step;

use super::plan::step_words;
use crate::input::{self, Setting};
use crate::outcome::Outcome;
use crate::progress::Progress;

#[derive(Debug, clap::Args)]
pub(crate) struct HoleListFlags {
    /// The district file.
    district: PathBuf,
    /// The list of holes: CSV or GeoJSON.
    #[arg(long)]
    holes: PathBuf,
    /// The day that the list's dates are read against.
    #[arg(long, value_parser = input::day)]
    date: Date,
    /// Road file in place of the district's.
    #[arg(long)]
    roads: Option<PathBuf>,
    /// JSON with SI units in the field names.
    #[arg(long)]
    pub json: bool,
}

/// What was read.
pub(crate) struct HoleList {
    pub setting: Setting,
    pub network: RoadNetwork,
    pub holes: Vec<Hole>,
    /// Rows of the list, bad ones too.
    pub rows: usize,
    /// What could not be used.
    pub problems: Vec<Problem>,
}

impl HoleListFlags {
    /// Reads district, rules, roads and list.
    ///
    /// # Errors
    /// Every problem at once, where district or roads can't be used.
    pub(crate) fn read(&self, progress: &mut Progress) -> Result<HoleList, Vec<Problem>> {
        let setting = input::setting(&self.district)?;
        let roads = input::roads(&setting, self.roads.as_deref(), progress)?;
        let list = exchange::holes::read_holes(&self.holes, &input::hole_options(&setting), self.date);
        progress.at(step_words(Step::Holes), 0.5);
        let problems = [setting.problems.clone(), roads.problems, list.problems].concat();
        Ok(HoleList { setting, network: roads.network, holes: list.holes, rows: list.rows, problems })
    }
}

/// How a command that places holes ended.
pub(crate) fn outcome(placed: usize, problems: &[Problem]) -> Outcome {
    match (placed, problems.is_empty()) {
        (0, _) => Outcome::NothingProduced,
        (_, true) => Outcome::AllUsed,
        (_, false) => Outcome::SomeRefused,
    }
}
