//! Taking events in.
//!
//! One writer takes the batches that wait and commits them together, so that the disk is waited for once for many. On a
//! database that several servers share, each has its writer; the row of the chain's last link is the lock between them.

use std::collections::hash_map::Entry;
use std::collections::{BTreeSet, HashMap, HashSet, btree_set};
use std::sync::Arc;

use futures_util::future::join;
use jiff::Timestamp;
use model::record::event::Event;
use model::record::happened::{Happened, Position, Subject};
use sqlx::any::AnyArguments;
use sqlx::pool::PoolConnection;
use sqlx::query::Query;
use sqlx::{Any, AnyConnection, AnyPool, AssertSqlSafe, Row as _};
use tokio::sync::{mpsc, oneshot};
use uuid::Uuid;

use crate::chain::{self, Digest};
use crate::checkpoints::Checkpoints;
use crate::journal::JournalError;
use crate::key::{Key, event_key, key, micros, subject};
use crate::read::read_event;
use crate::rows::{MOST_ROWS, length_of_run, place, places, runs, runs_mut, sought};
use crate::store::Backend;
use crate::{fold, read};

/// Events in one batch at most.
pub const MOST_EVENTS_AT_ONCE: usize = 10_000;

/// Events committed together at most, so that nobody waits long.
const MOST_COMMITTED_TOGETHER: usize = 4_000;

/// What became of an event that was sent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Appended {
    /// It is in the record now.
    Recorded {
        /// Its position.
        position: u64,
    },
    /// It was in the record before.
    KnownBefore {
        /// Its position.
        position: u64,
    },
    /// Another event of that number is in the record; this one is not taken.
    OtherOfThatNumber {
        /// Position of the other.
        position: u64,
    },
}

/// An event that was sent, and as what it is written. Whoever sends it writes it out, so that the one writer need not.
#[derive(Debug)]
pub(crate) struct Sent {
    event: Arc<Event>,
    body: String,
}

impl Sent {
    pub fn new(event: Event) -> Result<Self, JournalError> {
        let body = serde_json::to_string(&event).map_err(|error| damaged(0, &error.to_string()))?;
        Ok(Self { event: Arc::new(event), body })
    }
}

/// Events that are sent together, and whom to tell.
#[derive(Debug)]
pub(crate) struct Batch {
    pub events: Vec<Sent>,
    pub now: Timestamp,
    pub answer: oneshot::Sender<Result<Vec<Appended>, JournalError>>,
}

pub(crate) struct Writer {
    pool: AnyPool,
    backend: Backend,
    /// Kept for the next transaction where that is a file: another connection would have to read again what this one has in
    /// memory. Connections to a server go back, since they can end at any time.
    connection: Option<PoolConnection<Any>>,
}

impl Writer {
    pub fn new(pool: AnyPool, backend: Backend) -> Self {
        Self { pool, backend, connection: None }
    }

    /// Writes until nobody can send any more, or the record is closed.
    pub async fn run(mut self, mut batches: mpsc::Receiver<Batch>) {
        let mut checkpoints = Checkpoints::new(self.backend, self.pool.clone());
        let pool = self.pool.clone();
        while let Ok(Some(first)) = pool.close_event().do_until(batches.recv()).await {
            let mut together = first.events.len();
            let mut group = vec![first];
            while together < MOST_COMMITTED_TOGETHER
                && let Ok(next) = batches.try_recv()
            {
                together += next.events.len();
                group.push(next);
            }
            let answers = self.write(&mut group).await;
            match answers {
                Ok(answers) => {
                    for (batch, answer) in group.into_iter().zip(answers) {
                        // whoever asked may be gone; the events are kept all the same
                        let _ = batch.answer.send(Ok(answer));
                    }
                }
                Err(error) => {
                    tracing::error!(%error, batches = group.len(), "events could not be written");
                    for batch in group {
                        let _ = batch.answer.send(Err(error.clone()));
                    }
                }
            }
            checkpoints.written(together, self.connection.as_deref_mut()).await;
        }
    }

    async fn write(&mut self, group: &mut [Batch]) -> Result<Vec<Vec<Appended>>, JournalError> {
        let mut connection = match self.connection.take() {
            Some(connection) => connection,
            None => self.backend.writing(&self.pool).await?,
        };
        match write_on(&mut connection, group, self.backend).await {
            Ok(answers) => {
                self.connection = Some(connection).filter(|_| self.backend == Backend::Sqlite);
                Ok(answers)
            }
            Err(error) => {
                // it may stand in a transaction, and of a file it has the writer's memory, which only one may have
                connection.close_on_drop();
                Err(error)
            }
        }
    }
}

/// Writes batches in one transaction.
async fn write_on(
    connection: &mut AnyConnection,
    group: &mut [Batch],
    backend: Backend,
) -> Result<Vec<Vec<Appended>>, JournalError> {
    let mut transaction = backend.begin_write_on(connection).await?;
    let head = sqlx::query(backend.head()).bind("event").fetch_one(&mut *transaction).await?;
    let position: i64 = head.get(0);
    let digest: Vec<u8> = head.get(1);
    let mut taking = Taking {
        position,
        digest: digest.try_into().map_err(|_| damaged(position, "the last digest is not 32 bytes long"))?,
        known_before: known_before(&mut transaction, backend, group).await?,
        new: Vec::new(),
    };
    let mut answers = Vec::with_capacity(group.len());
    for batch in group {
        let mut answer = Vec::with_capacity(batch.events.len());
        for sent in &mut batch.events {
            answer.push(taking.take(sent, batch.now));
        }
        answers.push(answer);
    }
    if !taking.new.is_empty() {
        insert_events(&mut transaction, backend, &mut taking.new).await?;
        Changed::new(&mut transaction, backend).write(&taking.new).await?;
        sqlx::query("UPDATE head SET position = $1, digest = $2 WHERE chain = 'event'")
            .bind(taking.position)
            .bind(taking.digest.to_vec())
            .execute(&mut *transaction)
            .await?;
    }
    transaction.commit().await?;
    Ok(answers)
}

/// A new event, with its place in the record.
struct NewEvent {
    event: Arc<Event>,
    position: i64,
    server_time: i64,
    /// Empty once it is handed to the database.
    body: String,
    digest: Digest,
}

/// An event that was there before another of its number.
enum Before {
    /// In the record: its position and as what it is written.
    InTheRecord(i64, String),
    /// Among those taken just now, there.
    JustNow(usize),
}

struct Taking {
    position: i64,
    digest: Digest,
    known_before: HashMap<Uuid, Before>,
    new: Vec<NewEvent>,
}

impl Taking {
    fn take(&mut self, sent: &mut Sent, now: Timestamp) -> Appended {
        match self.known_before.entry(sent.event.id) {
            Entry::Occupied(before) => {
                let (position, text) = match before.get() {
                    Before::InTheRecord(position, body) => (*position, body),
                    Before::JustNow(index) => (self.new[*index].position, &self.new[*index].body),
                };
                let position = position.cast_unsigned();
                if *text == sent.body {
                    Appended::KnownBefore { position }
                } else {
                    Appended::OtherOfThatNumber { position }
                }
            }
            Entry::Vacant(place) => {
                self.position += 1;
                let server_time = micros(now);
                self.digest = chain::link(&self.digest, self.position.cast_unsigned(), server_time, &sent.body);
                place.insert(Before::JustNow(self.new.len()));
                self.new.push(NewEvent {
                    event: Arc::clone(&sent.event),
                    position: self.position,
                    server_time,
                    body: std::mem::take(&mut sent.body),
                    digest: self.digest,
                });
                Appended::Recorded { position: self.position.cast_unsigned() }
            }
        }
    }
}

/// Which of the events sent are in the record already.
async fn known_before(
    connection: &mut AnyConnection,
    backend: Backend,
    group: &[Batch],
) -> Result<HashMap<Uuid, Before>, JournalError> {
    let ids: Vec<Uuid> = group.iter().flat_map(|batch| &batch.events).map(|sent| sent.event.id).collect();
    let mut known = HashMap::new();
    for run in sought(&ids) {
        let sql = format!("SELECT id, position, body FROM event WHERE id IN {}", places(backend, 1, run.len()));
        let mut query = sqlx::query(AssertSqlSafe(sql));
        for id in &run {
            query = query.bind(id.as_bytes().to_vec());
        }
        for row in query.fetch_all(&mut *connection).await? {
            let position: i64 = row.get(1);
            let id =
                Uuid::from_slice(&row.get::<Vec<u8>, _>(0)).map_err(|error| damaged(position, &error.to_string()))?;
            known.insert(id, Before::InTheRecord(position, row.get(2)));
        }
    }
    Ok(known)
}

async fn insert_events(
    connection: &mut AnyConnection,
    backend: Backend,
    new: &mut [NewEvent],
) -> Result<(), JournalError> {
    let statements = runs_mut(new).map(|run| {
        let sql = format!(
            "INSERT INTO event (position, id, happened_at, server_time, actor, device, kind, body, digest) VALUES {}",
            places(backend, run.len(), 9)
        );
        let mut query = sqlx::query(AssertSqlSafe(sql));
        for new in run {
            query = query
                .bind(new.position)
                .bind(new.event.id.as_bytes().to_vec())
                .bind(micros(new.event.happened_at()))
                .bind(new.server_time)
                .bind(new.event.actor.as_str())
                .bind(new.event.device.as_str())
                .bind(new.event.happened.kind())
                .bind(std::mem::take(&mut new.body))
                .bind(new.digest.to_vec());
        }
        Ok(query)
    });
    write_all(connection, statements).await
}

/// What is known of a subject, as it is written.
struct KnownRow {
    key: Key,
    columns: read::Columns,
    body: String,
}

/// What is known anew after events came in.
pub(crate) struct Changed<'c> {
    transaction: &'c mut AnyConnection,
    backend: Backend,
    /// Events about each subject, as far as they were read.
    events: HashMap<Key, Vec<Arc<Event>>>,
    /// Events that came in just now about each subject: they need not be read.
    new: HashMap<Key, Vec<Arc<Event>>>,
    /// Position from which on events are new.
    first_new: i64,
}

impl<'c> Changed<'c> {
    /// Where nothing is new, and all is read.
    pub fn new(transaction: &'c mut AnyConnection, backend: Backend) -> Self {
        Self { transaction, backend, events: HashMap::new(), new: HashMap::new(), first_new: i64::MAX }
    }

    /// Writes which events are about what, and what is known of all that changed.
    async fn write(&mut self, new: &[NewEvent]) -> Result<(), JournalError> {
        let mut about: Vec<(Key, i64)> = Vec::new();
        for new in new {
            about.extend(new.event.happened.subjects().into_iter().map(|subject| (key(subject), new.position)));
            if let Happened::Corrected { event, .. } = &new.event.happened {
                about.push((event_key(*event), new.position));
            }
        }
        insert_subjects(self.transaction, self.backend, &about).await?;
        about.extend(self.corrections(new).await?);
        let changed: BTreeSet<Subject> = about.iter().filter_map(|(key, _)| subject(key)).collect();
        let last = new.last().map_or(0, |new| new.position);
        self.first_new = new.first().map_or(i64::MAX, |new| new.position);
        about.sort_unstable();
        about.dedup();
        for (key, position) in about.iter().filter(|(_, position)| *position >= self.first_new) {
            let event = usize::try_from(position - self.first_new).ok().and_then(|index| new.get(index));
            self.new.entry(*key).or_default().extend(event.map(|new| Arc::clone(&new.event)));
        }
        self.know_anew(changed, last).await
    }

    /// Corrections that came in, or that wait for what came in: they and what they correct are about the same subjects.
    async fn corrections(&mut self, new: &[NewEvent]) -> Result<Vec<(Key, i64)>, JournalError> {
        let keys: Vec<Key> = new.iter().map(|new| event_key(new.event.id)).collect();
        let mut begin: Vec<Uuid> = new
            .iter()
            .filter_map(|new| match &new.event.happened {
                Happened::Corrected { event, .. } => Some(*event),
                _ => None,
            })
            .collect();
        for run in sought(&keys) {
            let sql = format!(
                "SELECT DISTINCT subject FROM event_subject WHERE subject IN {}",
                places(self.backend, 1, run.len())
            );
            let mut query = sqlx::query(AssertSqlSafe(sql));
            for key in &run {
                query = query.bind(key.to_vec());
            }
            for row in query.fetch_all(&mut *self.transaction).await? {
                begin.extend(row.get::<Vec<u8>, _>(0).get(1..).and_then(|id| Uuid::from_slice(id).ok()));
            }
        }
        let mut all = Vec::new();
        let mut seen = HashSet::new();
        for event in begin {
            if !seen.contains(&event) {
                all.extend(self.tied(event, &mut seen).await?);
            }
        }
        insert_subjects(self.transaction, self.backend, &all).await?;
        Ok(all)
    }

    /// All events that are tied to one by corrections, each with the subjects of all.
    async fn tied(&mut self, event: Uuid, seen: &mut HashSet<Uuid>) -> Result<Vec<(Key, i64)>, JournalError> {
        let mut open = vec![event];
        let mut positions = Vec::new();
        let mut subjects = BTreeSet::new();
        while let Some(id) = open.pop() {
            if !seen.insert(id) {
                continue;
            }
            let itself = sqlx::query("SELECT position, body FROM event WHERE id = $1")
                .bind(id.as_bytes().to_vec())
                .fetch_optional(&mut *self.transaction)
                .await?;
            if let Some(row) = itself {
                let (position, event) = read_event(&row)?;
                positions.push(position);
                let mut at = Some(&event.happened);
                while let Some(happened) = at {
                    subjects.extend(happened.subjects());
                    at = None;
                    if let Happened::Corrected { event, instead, .. } = happened {
                        open.push(*event);
                        at = instead.as_deref();
                    }
                }
            }
            let corrections = sqlx::query(
                "SELECT e.id FROM event_subject s JOIN event e ON e.position = s.position WHERE s.subject = $1",
            )
            .bind(event_key(id).to_vec())
            .fetch_all(&mut *self.transaction)
            .await?;
            for row in corrections {
                open.extend(Uuid::from_slice(&row.get::<Vec<u8>, _>(0)).ok());
            }
        }
        Ok(subjects
            .into_iter()
            .flat_map(|subject| positions.iter().map(move |position| (key(subject), *position)))
            .collect())
    }

    /// Works out what is known of the subjects, and of all that hangs on them, and writes it down.
    pub async fn know_anew(&mut self, changed: BTreeSet<Subject>, position: i64) -> Result<(), JournalError> {
        self.load(changed.iter().copied()).await?;
        let mut all = changed.clone();
        for subject in changed {
            all.extend(fold::hang_on_it(subject, self.about(subject)));
        }
        self.load(all.iter().copied()).await?;
        let mut hangs_on = HashMap::new();
        for subject in &all {
            hangs_on.insert(*subject, fold::hangs_on(*subject, self.about(*subject)));
        }
        self.load(hangs_on.values().flatten().copied()).await?;

        let statements = Known {
            subjects: all.into_iter(),
            events: &self.events,
            hangs_on: &hangs_on,
            position,
            backend: self.backend,
            placed: Vec::new(),
            unplaced: Vec::new(),
            gone: Vec::new(),
            noted: None,
        };
        write_all(&mut *self.transaction, statements).await
    }

    /// Events about a subject that were read.
    fn about(&self, subject: Subject) -> impl Iterator<Item = &Event> {
        about(&self.events, subject)
    }

    /// Reads the events about subjects that were not read yet.
    async fn load(&mut self, subjects: impl Iterator<Item = Subject>) -> Result<(), JournalError> {
        let missing: Vec<Key> = subjects.map(key).filter(|key| !self.events.contains_key(key)).collect();
        for key in &missing {
            let new = self.new.remove(key).unwrap_or_default();
            self.events.insert(*key, new);
        }
        for run in sought(&missing) {
            let sql = format!(
                "SELECT e.position, e.body, s.subject FROM event_subject s JOIN event e ON e.position = s.position \
                 WHERE s.subject IN {} AND s.position < {}",
                places(self.backend, 1, run.len()),
                place(self.backend, run.len() + 1)
            );
            let mut query = sqlx::query(AssertSqlSafe(sql));
            for key in &run {
                query = query.bind(key.to_vec());
            }
            query = query.bind(self.first_new);
            for row in query.fetch_all(&mut *self.transaction).await? {
                let (position, event) = read_event(&row)?;
                let subject: Key = row
                    .get::<Vec<u8>, _>(2)
                    .try_into()
                    .map_err(|_| damaged(position, "its subject is not 17 bytes"))?;
                self.events.entry(subject).or_default().push(Arc::new(event));
            }
        }
        Ok(())
    }
}

/// Works out what is known of subjects, statement by statement.
struct Known<'c> {
    subjects: btree_set::IntoIter<Subject>,
    /// Events about them and what they hang on.
    events: &'c HashMap<Key, Vec<Arc<Event>>>,
    hangs_on: &'c HashMap<Subject, Vec<Subject>>,
    position: i64,
    backend: Backend,
    /// Worked out and not written yet: what has a place, what has none, and of what nothing is known any more.
    placed: Vec<KnownRow>,
    unplaced: Vec<KnownRow>,
    gone: Vec<Key>,
    /// Noted as gone and not taken away yet.
    noted: Option<Key>,
}

impl Iterator for Known<'_> {
    type Item = Result<Statement, JournalError>;

    fn next(&mut self) -> Option<Self::Item> {
        while self.placed.len() < MOST_ROWS
            && self.unplaced.len() < MOST_ROWS
            && let Some(subject) = self.subjects.next()
        {
            if let Err(error) = self.work_out(subject) {
                return Some(Err(error));
            }
        }
        let is_placed = self.unplaced.len() < MOST_ROWS && !self.placed.is_empty();
        let rows = if is_placed { &mut self.placed } else { &mut self.unplaced };
        if let Some(length) = length_of_run(rows.len()) {
            let run = rows.split_off(rows.len() - length);
            return Some(Ok(upsert(self.backend, run, self.position, is_placed)));
        }
        // noted as gone where something was known, then taken away
        if let Some(key) = self.noted.take() {
            return Some(Ok(sqlx::query(AssertSqlSafe("DELETE FROM known WHERE subject = $1")).bind(key.to_vec())));
        }
        let key = self.gone.pop()?;
        self.noted = Some(key);
        let sql = "INSERT INTO gone (subject, what, position) SELECT subject, what, $2 FROM known WHERE subject = $1 \
                   ON CONFLICT (subject) DO UPDATE SET position = excluded.position";
        Some(Ok(sqlx::query(AssertSqlSafe(sql)).bind(key.to_vec()).bind(self.position)))
    }
}

impl Known<'_> {
    fn work_out(&mut self, subject: Subject) -> Result<(), JournalError> {
        let events = std::iter::once(subject)
            .chain(self.hangs_on[&subject].iter().copied())
            .flat_map(|subject| about(self.events, subject));
        let Some(known) = fold::known(subject, events) else {
            self.gone.push(key(subject));
            return Ok(());
        };
        let body = serde_json::to_string(&known).map_err(|error| damaged(self.position, &error.to_string()))?;
        let columns = read::in_columns(&known);
        let rows = if columns.place.is_some() { &mut self.placed } else { &mut self.unplaced };
        rows.push(KnownRow { key: key(subject), columns, body });
        Ok(())
    }
}

fn about(events: &HashMap<Key, Vec<Arc<Event>>>, subject: Subject) -> impl Iterator<Item = &Event> {
    events[&key(subject)].iter().map(AsRef::as_ref)
}

/// Writes what is known of subjects that all have a place, or none. (A statement that is kept ready takes no nothing where it
/// took a number before.)
fn upsert(backend: Backend, rows: Vec<KnownRow>, position: i64, is_placed: bool) -> Statement {
    let (more, count) = if is_placed { (", lon, lat", 8) } else { ("", 6) };
    let sql = format!(
        "INSERT INTO known (subject, what, state, last_told, position, body{more}) VALUES {} ON CONFLICT (subject) DO \
         UPDATE SET state = excluded.state, lon = excluded.lon, lat = excluded.lat, last_told = excluded.last_told, \
         position = excluded.position, body = excluded.body",
        places(backend, rows.len(), count)
    );
    let mut query = sqlx::query(AssertSqlSafe(sql));
    for row in rows {
        query = query
            .bind(row.key.to_vec())
            .bind(row.columns.what)
            .bind(row.columns.state)
            .bind(micros(row.columns.last_told))
            .bind(position)
            .bind(row.body);
        if let Some(Position { lon, lat }) = row.columns.place.filter(|_| is_placed) {
            query = query.bind(lon).bind(lat);
        }
    }
    query
}

async fn insert_subjects(
    connection: &mut AnyConnection,
    backend: Backend,
    about: &[(Key, i64)],
) -> Result<(), JournalError> {
    let statements = runs(about).map(|run| {
        let sql = format!(
            "INSERT INTO event_subject (subject, position) VALUES {} ON CONFLICT (subject, position) DO NOTHING",
            places(backend, run.len(), 2)
        );
        let mut query = sqlx::query(AssertSqlSafe(sql));
        for (key, position) in run {
            query = query.bind(key.to_vec()).bind(*position);
        }
        Ok(query)
    });
    write_all(connection, statements).await
}

type Statement = Query<'static, Any, AnyArguments>;

/// Executes statements, making the next one ready while the database works on the one before.
async fn write_all<'q>(
    connection: &mut AnyConnection,
    mut statements: impl Iterator<Item = Result<Query<'q, Any, AnyArguments>, JournalError>>,
) -> Result<(), JournalError> {
    let mut ready = statements.next();
    while let Some(statement) = ready {
        // the first is asked first, so the statement is on its way
        let (written, next) = join(statement?.execute(&mut *connection), async { statements.next() }).await;
        written?;
        ready = next;
    }
    Ok(())
}

pub(crate) fn damaged(position: i64, what: &str) -> JournalError {
    JournalError::Damaged { position, what: what.to_owned() }
}
