//! A city's export put into the record: read as a stream, its rows held against each other and against what is known, and
//! written in batches.
//!
//! Every row that can be used is a report of a hole of its own; rows of one hole are merged, with the reason, so that a merge can
//! be undone. What the office has closed is told and closed at the office's own times, and merged with nothing. The numbers of holes and events come from what stands in the rows: a file that is imported twice, or again after it
//! was interrupted, adds nothing that is there already.

pub(crate) mod job;
mod known_holes;
mod numbers;

use std::collections::{HashSet, VecDeque};
use std::io::Read;
use std::ops::ControlFlow;

use intake::bulk::{BulkOptions, BulkProgress, BulkRead, BulkRow, BulkSink, read_bulk};
use intake::repeats::{Repeated, Repeats, SameRows};
use intake::sighting::{Match, Sighting, match_report};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use journal::{Appended, HandedIn, Journal, JournalError};
use model::district::UnitSystem;
use model::problem::{Locator, Problem, ProblemSeverity};
use model::record::event::{Event, SCHEMA_VERSION};
use model::record::happened::{Happened, Position};
use model::rules::matching::MatchingRules;
use tokio::runtime::Handle;
use uuid::Uuid;

use known_holes::KnownHoles;
use numbers::{RowNumbers, begin_of, closed_at, merge_number, reopening_number};

/// Events that are sent to the record together.
const BATCH: usize = 4_000;

/// Batches that are written or wait to be while the next one is made.
const SENT_MAX: usize = 2;

/// Holes that one event merges at most.
const MERGED_MAX: usize = 1_000;

/// Rows whose reasons stand in one event; of more the number is told.
const REASONS_MAX: usize = 10;

/// How to import an export.
#[derive(Debug, Clone)]
pub struct ImportOptions {
    /// How to read it.
    pub bulk: BulkOptions,
    /// Which rows are of one hole.
    pub matching: MatchingRules,
    /// Units of the words that say why.
    pub units: UnitSystem,
    /// Account of who imports it.
    pub actor: String,
    /// The device.
    pub device: String,
}

/// What is told meanwhile.
pub trait ImportSink {
    /// Something wrong with the export.
    fn problem(&mut self, problem: Problem);

    /// How far it is; `Break` stops. What is in the record then stays there.
    fn progress(&mut self, progress: ImportProgress) -> ControlFlow<()>;
}

/// How far an import is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ImportProgress {
    /// The export is read.
    Reading(BulkProgress),
    /// Its rows are held against each other: the share that is done, 0 to 1.
    Matching(f64),
    /// Rows are written.
    Writing {
        /// So many are.
        rows: usize,
        /// Of so many.
        of: usize,
    },
}

/// What an import came to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Imported {
    /// What the export held.
    pub read: BulkRead,
    /// Reports that are in the record now and were not before.
    pub added: u64,
    /// Rows whose report was in the record before, or stood above in the export to the letter.
    pub known_before: u64,
    /// Rows that are of the hole of another row.
    pub repeats: u64,
    /// Rows that the office has closed: told and closed.
    pub closed: u64,
    /// Rows that the office has closed and that stay, since an open hole is the same as theirs.
    pub held_open: u64,
    /// Rows that the office had closed and has opened again.
    pub reopened: u64,
    /// Holes, each of one row or several, that are the same as one that was known.
    pub of_known_holes: u64,
    /// Places that many rows stand at, with how many: where an office puts what it can't find. Their rows were not matched.
    pub fallback_places: Vec<(Position, usize)>,
    /// So many rows are near each other that the matching was given up; each is a hole of its own.
    pub is_matching_given_up: bool,
    /// Whether it was stopped before its end.
    pub is_stopped: bool,
}

/// Imports an export. Blocks until it is done: call it where that may be, not inside of a task of the runtime.
///
/// `now` is the server's time. Of each row some hundred bytes are in memory at a time.
///
/// # Errors
/// The record can't be read or written. What was written before stays; the import can be done again.
pub fn import(
    journal: &Journal,
    runtime: &Handle,
    from: impl Read,
    options: &ImportOptions,
    now: Timestamp,
    sink: &mut dyn ImportSink,
) -> Result<Imported, JournalError> {
    let mut reading = Reading { rows: Vec::new(), repeats: Repeats::new(&options.matching), sink };
    let read = read_bulk(from, &options.bulk, &mut reading);
    let Reading { rows, repeats, sink } = reading;
    if read.is_stopped {
        return Ok(Imported { read, is_stopped: true, ..Imported::default() });
    }
    let found = repeats.find(&mut |share| sink.progress(ImportProgress::Matching(share)));
    drop(repeats);
    let mut imported = Imported {
        read,
        fallback_places: found.fallback_places.iter().map(|(row, count)| (rows[*row].position, *count)).collect(),
        is_matching_given_up: found.is_given_up,
        is_stopped: found.is_stopped,
        ..Imported::default()
    };
    if imported.is_stopped {
        return Ok(imported);
    }
    let known = runtime.block_on(KnownHoles::read(journal, &rows, options))?;
    let holes = in_order(&rows, found);
    let fallback: HashSet<(u64, u64)> = imported.fallback_places.iter().map(|(place, _)| bits(*place)).collect();
    let closed = if known.has_merged() { closed_holes(&rows, &options.bulk.district.zone) } else { HashSet::new() };
    let mut writing = Writing {
        closed,
        problems: Vec::new(),
        journal,
        runtime,
        now,
        batch: Vec::new(),
        seen: HashSet::new(),
        sent: VecDeque::new(),
        imported: &mut imported,
    };
    let mut done = 0;
    for hole in holes {
        writing.hole(&hole, &rows, options, &known, &fallback)?;
        for problem in writing.problems.drain(..) {
            sink.problem(problem);
        }
        let before = done / BATCH;
        done += 1 + hole.others.len();
        if done / BATCH > before && sink.progress(ImportProgress::Writing { rows: done, of: rows.len() }).is_break() {
            writing.end()?;
            imported.is_stopped = true;
            return Ok(imported);
        }
    }
    writing.end()?;
    // the end is told; there is nothing left to stop
    let _ = sink.progress(ImportProgress::Writing { rows: rows.len(), of: rows.len() });
    Ok(imported)
}

struct Reading<'r> {
    rows: Vec<BulkRow>,
    repeats: Repeats<'r>,
    sink: &'r mut dyn ImportSink,
}

impl BulkSink for Reading<'_> {
    fn row(&mut self, row: BulkRow) {
        self.repeats.add(&row);
        self.rows.push(row);
    }

    fn problem(&mut self, problem: Problem) {
        self.sink.problem(problem);
    }

    fn progress(&mut self, progress: BulkProgress) -> ControlFlow<()> {
        self.sink.progress(ImportProgress::Reading(progress))
    }
}

/// Holes of the rows that the office has closed.
fn closed_holes(rows: &[BulkRow], zone: &TimeZone) -> HashSet<Uuid> {
    let closed = rows.iter().filter(|row| row.closed.is_some());
    closed.map(|row| RowNumbers::of(row, begin_of(row, zone)).hole).collect()
}

/// All rows, those of one hole together, in the order of time: so the record grows at its end.
fn in_order(rows: &[BulkRow], found: Repeated) -> Vec<SameRows> {
    let mut is_other = vec![false; rows.len()];
    for (other, _) in found.same.iter().flat_map(|same| &same.others) {
        is_other[*other] = true;
    }
    let mut holes = found.same;
    let mut stays = vec![false; rows.len()];
    for hole in &holes {
        stays[hole.stays] = true;
    }
    let alone = (0..rows.len()).filter(|row| !is_other[*row] && !stays[*row]);
    holes.extend(alone.map(|stays| SameRows { stays, others: Vec::new() }));
    holes.sort_by_key(|hole| (rows[hole.stays].at, rows[hole.stays].day, hole.stays));
    holes
}

fn bits(place: Position) -> (u64, u64) {
    (place.lon.to_bits(), place.lat.to_bits())
}

/// A batch that is being written.
struct SentBatch {
    handed_in: HandedIn,
    /// Of each of its events, whether it is a report.
    is_report: Vec<bool>,
}

struct Writing<'w> {
    journal: &'w Journal,
    runtime: &'w Handle,
    now: Timestamp,
    batch: Vec<Event>,
    /// Events of this export.
    seen: HashSet<Uuid>,
    /// Holes that it closes, where one that is known is the same as others.
    closed: HashSet<Uuid>,
    /// Not told yet.
    problems: Vec<Problem>,
    /// Batches that are being written while the next is made, the oldest first.
    sent: VecDeque<SentBatch>,
    imported: &'w mut Imported,
}

impl Writing<'_> {
    fn hole(
        &mut self,
        hole: &SameRows,
        rows: &[BulkRow],
        options: &ImportOptions,
        known: &KnownHoles,
        fallback: &HashSet<(u64, u64)>,
    ) -> Result<(), JournalError> {
        let zone = &options.bulk.district.zone;
        let mut told = Vec::with_capacity(1 + hole.others.len());
        for row in std::iter::once(hole.stays).chain(hole.others.iter().map(|(row, _)| *row)) {
            let row = &rows[row];
            let begin = begin_of(row, zone);
            let numbers = RowNumbers::of(row, begin);
            told.push(numbers.hole);
            if self.seen.insert(numbers.event) {
                let device_time = begin.unwrap_or(self.now);
                let event = event(numbers.event, device_time, row.happened(numbers.hole), options);
                self.push(event)?;
            } else {
                self.imported.known_before += 1;
            }
            if let Some(closing) = row.closing(numbers.hole) {
                if !known.may_close(numbers.hole, &self.closed) {
                    self.imported.held_open += 1;
                    self.problems.push(held_open(row, options));
                    continue;
                }
                let at = closed_at(row, begin, zone);
                self.imported.closed += 1;
                self.push(event(numbers.closing(row, at), at.unwrap_or(self.now), closing, options))?;
            } else if row.is_told_open
                && let Some(closing) = known.closed_at_office(numbers.hole)
            {
                self.imported.reopened += 1;
                let why = "reopened at the office".to_owned();
                let happened = Happened::Corrected { event: closing.event, instead: None, why };
                self.push(event(reopening_number(numbers.hole, closing), self.now, happened, options))?;
            }
        }
        let stays = told[0];
        let row = &rows[hole.stays];
        let is_settled = row.closed.is_some() || known.holds(stays);
        let of_known = if is_settled || fallback.contains(&bits(row.position)) {
            None
        } else {
            match match_report(&sighting(stays, row), &known.around(row.position), &options.matching, options.units) {
                Match::SameAs { hole, why } => Some((hole, why)),
                Match::New => None,
            }
        };
        self.imported.repeats += hole.others.len() as u64;
        self.imported.of_known_holes += u64::from(of_known.is_some());
        let why = |of_known: Option<&str>| reasons(hole, rows, of_known);
        let (into, merged, why) = match &of_known {
            Some((known, words)) => (*known, told.as_slice(), why(Some(words))),
            None => (stays, &told[1..], why(None)),
        };
        let mut merged: Vec<Uuid> = merged.iter().copied().filter(|other| *other != into).collect();
        merged.sort_unstable();
        merged.dedup();
        for merged in merged.chunks(MERGED_MAX) {
            let happened = Happened::HolesMerged { into, merged: merged.to_vec(), why: why.clone() };
            self.push(event(merge_number(into, merged), self.now, happened, options))?;
        }
        Ok(())
    }

    fn push(&mut self, event: Event) -> Result<(), JournalError> {
        self.batch.push(event);
        if self.batch.len() >= BATCH { self.send() } else { Ok(()) }
    }

    /// Hands the batch in, and waits where too many are under way.
    fn send(&mut self) -> Result<(), JournalError> {
        if self.batch.is_empty() {
            return Ok(());
        }
        let batch = std::mem::replace(&mut self.batch, Vec::with_capacity(BATCH));
        let is_report: Vec<bool> =
            batch.iter().map(|event| matches!(event.happened, Happened::HoleReported { .. })).collect();
        let handed_in = self.runtime.block_on(self.journal.hand_in(batch, self.now))?;
        self.sent.push_back(SentBatch { handed_in, is_report });
        self.wait(SENT_MAX)
    }

    /// Waits until no more than so many batches are under way.
    fn wait(&mut self, under_way: usize) -> Result<(), JournalError> {
        while self.sent.len() > under_way {
            let Some(sent) = self.sent.pop_front() else { break };
            let answers = self.runtime.block_on(sent.handed_in.answer())?;
            for (answer, _) in answers.iter().zip(sent.is_report).filter(|(_, is_report)| *is_report) {
                let added = matches!(answer, Appended::Recorded { .. });
                self.imported.added += u64::from(added);
                self.imported.known_before += u64::from(!added);
            }
        }
        Ok(())
    }

    fn end(&mut self) -> Result<(), JournalError> {
        self.send()?;
        self.wait(0)
    }
}

/// The closing of a hole that an open one is the same as would leave that one without a repair.
fn held_open(row: &BulkRow, options: &ImportOptions) -> Problem {
    Problem {
        code: "import.closed.held_open",
        severity: ProblemSeverity::Warning,
        at: Locator { file: options.bulk.file.clone(), line: row.line, column: 0 },
        subject: row.reference.clone(),
        wrong: "the office has closed it, but an open hole is the same as it; it stays".to_owned(),
        right: "the others closed as well, or the merge corrected".to_owned(),
    }
}

fn event(id: Uuid, device_time: Timestamp, happened: Happened, options: &ImportOptions) -> Event {
    Event {
        id,
        schema: SCHEMA_VERSION,
        actor: options.actor.clone(),
        device: options.device.clone(),
        device_time,
        clock_ahead_ms: 0,
        happened,
    }
}

fn sighting(hole: Uuid, row: &BulkRow) -> Sighting {
    Sighting {
        hole,
        same_as: None,
        position: row.position,
        on_road: None,
        size: row.size.as_deref().copied().unwrap_or_default(),
        seen: row.day,
        source: row.source.clone(),
    }
}

/// Why rows are of one hole, and of one that was known.
fn reasons(hole: &SameRows, rows: &[BulkRow], of_known: Option<&str>) -> String {
    let name = |row: usize| {
        let row: &BulkRow = &rows[row];
        if row.reference.is_empty() { format!("line {}", row.line) } else { row.reference.clone() }
    };
    let of_known = of_known.map(|why| format!("{}: {why}", name(hole.stays)));
    let others = hole.others.iter().take(REASONS_MAX).map(|(row, why)| format!("{}: {why}", name(*row)));
    let more = hole.others.len().saturating_sub(REASONS_MAX);
    let more = (more > 0).then(|| format!("{more} more for the like"));
    of_known.into_iter().chain(others).chain(more).collect::<Vec<_>>().join("; ")
}
