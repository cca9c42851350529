//! The record as one value: open it, append to it, read from it.

use std::sync::Arc;

use jiff::Timestamp;
use model::record::event::Event;
use sqlx::AnyPool;
use thiserror::Error;
use tokio::sync::{mpsc, oneshot};

use crate::append::{Appended, Batch, MOST_EVENTS_AT_ONCE, Sent, Writer};
use crate::store::{self, Backend, Location};

/// The record. Cheap to clone; all clones are the same record.
#[derive(Debug, Clone)]
pub struct Journal {
    pub(crate) pool: AnyPool,
    pub(crate) backend: Backend,
    queue: mpsc::Sender<Batch>,
}

/// Events that were handed in and may not be on disk yet.
#[derive(Debug)]
#[must_use = "whether the events were taken is in the answer"]
pub struct HandedIn(Option<oneshot::Receiver<Result<Vec<Appended>, JournalError>>>);

impl HandedIn {
    /// Waits until they are on disk; each has its own answer, in the order given.
    pub async fn answer(self) -> Result<Vec<Appended>, JournalError> {
        match self.0 {
            Some(answered) => answered.await.map_err(|_| JournalError::Closed)?,
            None => Ok(Vec::new()),
        }
    }
}

/// Why the record can't be read or written.
#[derive(Debug, Error, Clone)]
pub enum JournalError {
    /// The database said no.
    #[error("the record's database: {0}")]
    Database(Arc<sqlx::Error>),
    /// Its schema can't be brought up to date.
    #[error("the record's schema can't be brought up to today's: {0}")]
    Schema(Arc<sqlx::migrate::MigrateError>),
    /// No place for a file.
    #[error("`{0}` can't be the name of the record's file: it is not plain text")]
    Place(String),
    /// Something in the record is not what we write.
    #[error("entry {position} of the record can't be read: {what}")]
    Damaged {
        /// Where.
        position: i64,
        /// What is wrong.
        what: String,
    },
    /// Too much at once.
    #[error("{0} events at once are too many; send at most {MOST_EVENTS_AT_ONCE}")]
    TooMany(usize),
    /// The writer is gone: the program ends.
    #[error("the record is being closed")]
    Closed,
    /// A file of a backup.
    #[error("{0}")]
    File(String),
}

impl Journal {
    /// Opens the record and brings it to today's schema; makes it if it is not there. Needs a `tokio` runtime.
    pub async fn open(location: &Location) -> Result<Self, JournalError> {
        Self::open_up_to(location, None).await
    }

    /// The same, but stops at an older schema: for tests of what is brought up from there.
    #[doc(hidden)]
    pub async fn open_up_to(location: &Location, version: Option<i64>) -> Result<Self, JournalError> {
        let pool = store::open(location, version).await?;
        let backend = location.backend();
        let (queue, batches) = mpsc::channel(1024);
        tokio::spawn(Writer::new(pool.clone(), backend).run(batches));
        Ok(Self { pool, backend, queue })
    }

    /// Takes events in. When this answers they are on disk; each has its own answer, in the order given. All are taken in one
    /// transaction: if it fails nothing is. Sent twice is the same as once.
    ///
    /// `now` is the server's time.
    pub async fn append(&self, events: Vec<Event>, now: Timestamp) -> Result<Vec<Appended>, JournalError> {
        self.hand_in(events, now).await?.answer().await
    }

    /// The same without waiting: events that one task hands in are taken in that order. They are on disk when [`HandedIn::answer`]
    /// says so, not before.
    pub async fn hand_in(&self, events: Vec<Event>, now: Timestamp) -> Result<HandedIn, JournalError> {
        if events.len() > MOST_EVENTS_AT_ONCE {
            return Err(JournalError::TooMany(events.len()));
        }
        if events.is_empty() {
            return Ok(HandedIn(None));
        }
        let events = events.into_iter().map(Sent::new).collect::<Result<_, _>>()?;
        let (answer, answered) = oneshot::channel();
        let batch = Batch { events, now, answer };
        self.queue.send(batch).await.map_err(|_| JournalError::Closed)?;
        Ok(HandedIn(Some(answered)))
    }

    /// Whether the database answers.
    pub async fn ready(&self) -> Result<(), JournalError> {
        sqlx::query("SELECT position FROM head WHERE chain = 'event'").fetch_one(&self.pool).await?;
        Ok(())
    }

    /// The pool, for what the server keeps beside the record in the same database.
    pub fn pool(&self) -> &AnyPool {
        &self.pool
    }

    /// Ends all connections; what was acknowledged is on disk already.
    pub async fn close(&self) {
        self.pool.close().await;
    }
}

impl From<sqlx::Error> for JournalError {
    fn from(error: sqlx::Error) -> Self {
        JournalError::Database(Arc::new(error))
    }
}

impl From<sqlx::migrate::MigrateError> for JournalError {
    fn from(error: sqlx::migrate::MigrateError) -> Self {
        JournalError::Schema(Arc::new(error))
    }
}
