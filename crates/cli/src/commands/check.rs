//! `lengthsman check`: a district file and its rule sets, before they are needed at six in the morning.

use std::path::PathBuf;

use crate::input;
use crate::outcome::Outcome;
use crate::report;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// The district file.
    district: PathBuf,
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    match input::setting(&arguments.district) {
        Ok(setting) => {
            report::print(&setting.problems);
            let sets = &setting.district.rule_sets;
            say!("{}: the district `{}` can be used", arguments.district.display(), setting.district.name);
            say!(
                "rule sets: traffic {}, repair {}, severity {}, roads {}",
                sets.traffic,
                sets.repair,
                sets.severity,
                sets.roads
            );
            Outcome::AllUsed
        }
        Err(problems) => {
            report::print(&problems);
            eprintln!("{}: {} problems; the district can't be used", arguments.district.display(), problems.len());
            Outcome::NothingProduced
        }
    }
}
