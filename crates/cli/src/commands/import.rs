//! `lengthsman import`: a city's export of reports put into a record.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::BufReader;
use std::ops::ControlFlow;
use std::path::PathBuf;

use intake::bulk::BulkOptions;
use intake::place::{Bounds, District};
use journal::Journal;
use model::problem::Problem;
use server::import::{ImportOptions, ImportProgress, ImportSink, import};

use super::record::{RecordFlags, make_folder, now};
use super::serve::{Shown, district_bounds};
use crate::outcome::Outcome;
use crate::progress::Progress;
use crate::report;

/// Problems that are printed; the rest are counted.
const MOST_PRINTED: usize = 100;

#[derive(Debug, clap::Args)]
pub(crate) struct ImportArguments {
    /// The export: CSV or GeoJSON.
    file: PathBuf,
    #[command(flatten)]
    record: RecordFlags,
    /// Who told of these holes, in a word.
    #[arg(long, value_name = "WORD", default_value = "public")]
    source: String,
}

pub(crate) fn run(arguments: &ImportArguments) -> Outcome {
    match imported(arguments) {
        Ok(outcome) => outcome,
        Err(error) => {
            eprintln!("error: {error}");
            Outcome::NothingProduced
        }
    }
}

fn imported(arguments: &ImportArguments) -> Result<Outcome, String> {
    let file = arguments.file.display().to_string();
    let from = BufReader::new(File::open(&arguments.file).map_err(|error| format!("{file}: {error}"))?);
    make_folder(&arguments.record.data)?;
    let Shown { district, matching, units, .. } = super::serve::shown(&arguments.record.data)?;
    let bounds = district_bounds(&district).map(|[west, south, east, north]| Bounds { west, south, east, north });
    let day = now();
    let options = ImportOptions {
        bulk: BulkOptions {
            file,
            columns: BTreeMap::new(),
            source: arguments.source.clone(),
            slashes: None,
            today: district.books.time_zone.to_datetime(day).date(),
            district: District { bounds, zone: district.books.time_zone },
        },
        matching,
        units,
        actor: "import".to_owned(),
        device: "command line".to_owned(),
    };
    let runtime = tokio::runtime::Runtime::new().map_err(|error| error.to_string())?;
    let location = arguments.record.location();
    let journal = runtime.block_on(Journal::open(&location)).map_err(|error| error.to_string())?;
    let mut told = Told { progress: Progress::new(), problems: Vec::new(), more: 0 };
    let outcome = import(&journal, runtime.handle(), from, &options, day, &mut told);
    runtime.block_on(journal.close());
    told.progress.done();
    let came = outcome.map_err(|error| error.to_string())?;
    report::print(&told.problems);
    if told.more > 0 {
        eprintln!("and {} more problems", told.more);
    }
    say!("rows read            {}", came.read.rows);
    say!("reports added        {}", came.added);
    say!("known before         {}", came.known_before);
    say!("of one hole          {}", came.repeats);
    say!("of a hole known      {}", came.of_known_holes);
    say!("closed at the office {}", came.closed);
    say!("rows refused         {}", came.read.refused);
    for (place, rows) in &came.fallback_places {
        say!(
            "{rows} rows stand at {} {}: where an office puts what it can't find; they were not matched",
            place.lon,
            place.lat
        );
    }
    if came.is_matching_given_up {
        say!("too many rows are near each other: each is a hole of its own");
    }
    Ok(match (came.added + came.known_before, came.read.refused) {
        (0, _) => Outcome::NothingProduced,
        (_, 0) => Outcome::AllUsed,
        _ => Outcome::SomeRefused,
    })
}

struct Told {
    progress: Progress,
    problems: Vec<Problem>,
    more: usize,
}

impl ImportSink for Told {
    fn problem(&mut self, problem: Problem) {
        if self.problems.len() < MOST_PRINTED {
            self.problems.push(problem);
        } else {
            self.more += 1;
        }
    }

    fn progress(&mut self, progress: ImportProgress) -> ControlFlow<()> {
        match progress {
            ImportProgress::Reading(_) => self.progress.at("reading the export", 0.0),
            ImportProgress::Matching(done) => self.progress.at("looking for rows of one hole", done),
            ImportProgress::Writing { rows, of } => {
                self.progress.at("writing the record", rows as f64 / of.max(1) as f64);
            }
        }
        ControlFlow::Continue(())
    }
}
