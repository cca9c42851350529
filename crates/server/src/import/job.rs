//! An import as a job: what was sent lies in the store in parts, so that a worker on any machine can take it.

use std::io::{self, Read};
use std::ops::ControlFlow;

use intake::bulk::{BulkField, BulkOptions, SlashOrder};
use intake::place::{Bounds, District};
use journal::Journal;
use journal::jobs::Job;
use model::problem::{Problem, ProblemSeverity};
use serde::{Deserialize, Serialize};
use tokio::runtime::Handle;
use uuid::Uuid;

use super::{ImportOptions, ImportProgress, ImportSink, Imported, import};
use crate::state::Server;

/// The kind of such jobs.
pub const KIND: &str = "import";

/// Problems that are told one by one; the rest are counted.
const MOST_TOLD: usize = 1_000;

/// What was asked for.
#[derive(Debug, Serialize, Deserialize)]
pub struct ImportAsked {
    /// Length of what was sent.
    pub bytes: u64,
    /// Who told of the holes, in a word.
    pub source: String,
    /// Whether the day comes first in dates with slashes.
    pub day_first: Option<bool>,
    /// Fields and the names of their columns.
    pub columns: Vec<(String, String)>,
    /// Account of who sent it.
    pub actor: String,
    /// The device.
    pub device: String,
}

/// What came of it.
#[derive(Serialize)]
struct Outcome {
    rows: u64,
    refused: u64,
    added: u64,
    known_before: u64,
    closed: u64,
    repeats: u64,
    of_known_holes: u64,
    is_matching_given_up: bool,
    /// Places where an office puts what it can't find, and how many rows stand there.
    fallback_places: Vec<FallbackPlace>,
    /// Which column was used for what.
    columns: Vec<Column>,
    problems: Vec<Told>,
    more_problems: u64,
}

#[derive(Serialize)]
struct FallbackPlace {
    lon: f64,
    lat: f64,
    rows: usize,
}

#[derive(Serialize)]
struct Column {
    field: &'static str,
    name: String,
    is_guessed: bool,
    others: Vec<String>,
}

/// A problem.
#[derive(Serialize)]
struct Told {
    code: &'static str,
    is_refused: bool,
    line: usize,
    column: usize,
    subject: String,
    wrong: String,
    right: String,
}

/// Works on an import; blocks. `progress` is told how far it is, with words; where it answers `false` nobody wants it any more.
pub fn work(
    server: &Server,
    runtime: &Handle,
    job: &Job,
    progress: &mut dyn FnMut(f64, &str) -> bool,
) -> Result<String, String> {
    let asked: ImportAsked = serde_json::from_str(&job.input).map_err(|error| error.to_string())?;
    let settings = &server.settings;
    let zone = settings.shown.books.time_zone.clone();
    let now = server.now();
    let options = ImportOptions {
        bulk: BulkOptions {
            file: "the export".to_owned(),
            columns: asked
                .columns
                .into_iter()
                .filter_map(|(word, name)| Some((BulkField::ALL.into_iter().find(|field| field.word() == word)?, name)))
                .collect(),
            source: asked.source,
            slashes: asked.day_first.map(|day| if day { SlashOrder::DayFirst } else { SlashOrder::MonthFirst }),
            today: zone.to_datetime(now).date(),
            district: District {
                bounds: settings.district.map(|[west, south, east, north]| Bounds { west, south, east, north }),
                zone,
            },
        },
        matching: settings.reports.matching.clone(),
        units: settings.reports.units,
        actor: asked.actor,
        device: asked.device,
    };
    let parts = Parts { journal: &server.journal, runtime, job: job.id, next: 0, part: Vec::new(), at: 0 };
    let mut sink = Sink { bytes: asked.bytes, progress, problems: Vec::new(), more: 0, fatal: None };
    let imported = import(&server.journal, runtime, parts, &options, now, &mut sink).map_err(|error| {
        tracing::error!(%error, "an import failed");
        "the record can't be reached; what was written before stays, send the export again later".to_owned()
    })?;
    if imported.is_stopped {
        return Err("stopped; what is in the record stays there".to_owned());
    }
    if imported.added + imported.known_before == 0
        && let Some(why) = sink.fatal
    {
        return Err(why);
    }
    serde_json::to_string(&outcome(imported, sink.problems, sink.more)).map_err(|error| error.to_string())
}

fn outcome(imported: Imported, problems: Vec<Told>, more_problems: u64) -> Outcome {
    Outcome {
        rows: imported.read.rows,
        refused: imported.read.refused,
        added: imported.added,
        known_before: imported.known_before,
        closed: imported.closed,
        repeats: imported.repeats,
        of_known_holes: imported.of_known_holes,
        is_matching_given_up: imported.is_matching_given_up,
        fallback_places: imported
            .fallback_places
            .into_iter()
            .map(|(place, rows)| FallbackPlace { lon: place.lon, lat: place.lat, rows })
            .collect(),
        columns: imported
            .read
            .columns
            .into_iter()
            .map(|used| Column {
                field: used.field.word(),
                name: used.name,
                is_guessed: used.is_guessed,
                others: used.others,
            })
            .collect(),
        problems,
        more_problems,
    }
}

struct Sink<'s> {
    bytes: u64,
    progress: &'s mut dyn FnMut(f64, &str) -> bool,
    problems: Vec<Told>,
    more: u64,
    /// Why nothing could be read.
    fatal: Option<String>,
}

impl ImportSink for Sink<'_> {
    fn problem(&mut self, problem: Problem) {
        if problem.severity == ProblemSeverity::Fatal {
            self.fatal.get_or_insert_with(|| format!("{}: {}; {}", problem.at, problem.wrong, problem.right));
        }
        if self.problems.len() >= MOST_TOLD {
            self.more += 1;
            return;
        }
        self.problems.push(Told {
            code: problem.code,
            is_refused: problem.severity >= ProblemSeverity::Refused,
            line: problem.at.line,
            column: problem.at.column,
            subject: problem.subject,
            wrong: problem.wrong,
            right: problem.right,
        });
    }

    /// A third of the time each, roughly: reading and matching are quick, writing is most of it.
    fn progress(&mut self, progress: ImportProgress) -> ControlFlow<()> {
        let (done, words) = match progress {
            ImportProgress::Reading(read) => {
                (0.2 * (read.bytes as f64 / self.bytes.max(1) as f64).min(1.0), "reading the export")
            }
            ImportProgress::Matching(done) => (0.2 + 0.2 * done, "looking for rows of one hole"),
            ImportProgress::Writing { rows, of } => (0.4 + 0.6 * rows as f64 / of.max(1) as f64, "writing the record"),
        };
        if (self.progress)(done, words) { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    }
}

/// What was sent, part by part.
struct Parts<'p> {
    journal: &'p Journal,
    runtime: &'p Handle,
    job: Uuid,
    next: u32,
    part: Vec<u8>,
    at: usize,
}

impl Read for Parts<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.at == self.part.len() {
            let part = self.runtime.block_on(self.journal.upload(self.job, self.next)).map_err(io::Error::other)?;
            let Some(part) = part else { return Ok(0) };
            self.part = part;
            self.at = 0;
            self.next += 1;
        }
        let count = buffer.len().min(self.part.len() - self.at);
        buffer[..count].copy_from_slice(&self.part[self.at..self.at + count]);
        self.at += count;
        Ok(count)
    }
}
