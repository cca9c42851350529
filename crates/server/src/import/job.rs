//! An import as a job: what was sent lies in the store in parts, so that a worker on any machine can take it.

use std::io::{self, Read};
use std::ops::ControlFlow;

use intake::bulk::{BulkField, BulkOptions, SlashOrder};
use intake::place::{Bounds, District};
use journal::jobs::Job;
use journal::{Journal, JournalError};
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
    held_open: u64,
    reopened: u64,
    repeats: u64,
    of_known_holes: u64,
    is_matching_given_up: bool,
    /// Places where an office puts what it can't find, and how many rows stand there.
    fallback_places: Vec<FallbackPlace>,
    /// Which column was used for what.
    columns: Vec<Column>,
    problems: Vec<Told>,
    more_problems: u64,
    /// Why what came after was not read; what was read before is in the record.
    #[serde(skip_serializing_if = "Option::is_none")]
    stopped_because: Option<String>,
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
                .filter_map(|(word, name)| Some((BulkField::ALL.into_iter().find(|field| field.key() == word)?, name)))
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
    let mut parts = Parts::of(&server.journal, runtime, job.id, asked.bytes);
    let mut sink = Sink { bytes: asked.bytes, progress, problems: Vec::new(), more: 0, fatal: None };
    let imported = import(&server.journal, runtime, &mut parts, &options, now, &mut sink);
    let imported = imported.and_then(|imported| parts.failed.take().map_or(Ok(imported), Err)).map_err(|error| {
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
    serde_json::to_string(&outcome(imported, sink.problems, sink.more, sink.fatal)).map_err(|error| error.to_string())
}

fn outcome(imported: Imported, problems: Vec<Told>, more_problems: u64, stopped_because: Option<String>) -> Outcome {
    Outcome {
        rows: imported.read.rows,
        refused: imported.read.refused,
        added: imported.added,
        known_before: imported.known_before,
        closed: imported.closed,
        held_open: imported.held_open,
        reopened: imported.reopened,
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
                field: used.field.key(),
                name: used.name,
                is_guessed: used.is_guessed,
                others: used.others,
            })
            .collect(),
        problems,
        more_problems,
        stopped_because,
    }
}

struct Sink<'s> {
    bytes: u64,
    progress: &'s mut dyn FnMut(f64, &str) -> bool,
    problems: Vec<Told>,
    more: u64,
    /// Why no more could be read.
    fatal: Option<String>,
}

impl ImportSink for Sink<'_> {
    fn problem(&mut self, problem: Problem) {
        let is_fatal = problem.severity == ProblemSeverity::Fatal;
        if is_fatal {
            self.fatal.get_or_insert_with(|| format!("{}: {}; {}", problem.at, problem.wrong, problem.right));
        }
        if self.problems.len() >= MOST_TOLD && !is_fatal {
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
    /// Bytes that are still to come.
    left: u64,
    /// Why the record could not be read.
    failed: Option<JournalError>,
}

impl<'p> Parts<'p> {
    fn of(journal: &'p Journal, runtime: &'p Handle, job: Uuid, bytes: u64) -> Self {
        Self { journal, runtime, job, next: 0, part: Vec::new(), at: 0, left: bytes, failed: None }
    }
}

impl Read for Parts<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.at == self.part.len() {
            let part = match self.runtime.block_on(self.journal.upload(self.job, self.next)) {
                Ok(part) => part,
                Err(error) => {
                    self.failed = Some(error);
                    return Err(io::Error::other("the record can't be reached"));
                }
            };
            let Some(part) = part else {
                return if self.left == 0 { Ok(0) } else { Err(io::ErrorKind::UnexpectedEof.into()) };
            };
            self.left = self.left.saturating_sub(part.len() as u64);
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

#[cfg(test)]
mod tests {
    use model::problem::Locator;

    use super::*;

    #[test]
    fn a_fatal_problem_is_told_however_many_were_before() {
        let mut go_on = |_: f64, _: &str| true;
        let mut sink = Sink { bytes: 1, progress: &mut go_on, problems: Vec::new(), more: 0, fatal: None };
        let problem = |severity| Problem {
            code: "file.unreadable",
            severity,
            at: Locator { file: "the export".to_owned(), line: 7, column: 0 },
            subject: String::new(),
            wrong: "it ends in the middle".to_owned(),
            right: "send it again".to_owned(),
        };
        for _ in 0..MOST_TOLD + 5 {
            sink.problem(problem(ProblemSeverity::Warning));
        }
        sink.problem(problem(ProblemSeverity::Fatal));
        assert_eq!((sink.problems.len(), sink.more), (MOST_TOLD + 1, 5));
        assert!(sink.fatal.is_some_and(|why| why.contains("in the middle")));
    }

    /// What is read of two parts of three bytes each, of which so many were sent.
    async fn read(sent: u64) -> (Vec<u8>, io::Result<usize>, bool) {
        let folder = tempfile::TempDir::new().unwrap();
        let journal = Journal::open(&journal::store::Location::in_folder(folder.path())).await.unwrap();
        let job = Uuid::from_u128(7);
        for (number, part) in [b"abc", b"def"].into_iter().enumerate() {
            let number = u32::try_from(number).unwrap();
            journal.keep_upload(job, number, part, jiff::Timestamp::UNIX_EPOCH).await.unwrap();
        }
        let work = move || {
            let runtime = Handle::current();
            let mut parts = Parts::of(&journal, &runtime, job, sent);
            let mut all = Vec::new();
            let read = parts.read_to_end(&mut all);
            (all, read, parts.failed.is_some())
        };
        tokio::task::spawn_blocking(work).await.unwrap()
    }

    #[tokio::test]
    async fn parts_that_are_missing_are_no_end() {
        let (all, whole, failed) = read(6).await;
        assert_eq!((all.as_slice(), whole.unwrap(), failed), (b"abcdef".as_slice(), 6, false));
        let (all, part, failed) = read(7).await;
        assert_eq!((all.as_slice(), failed), (b"abcdef".as_slice(), false));
        assert_eq!(part.unwrap_err().kind(), io::ErrorKind::UnexpectedEof);
    }
}
