//! Moving what was written from `SQLite`'s log into its file, beside the writer.
//!
//! `SQLite` would have whoever commits do it, and everybody who waits for the writer would wait for that too. Another connection
//! does it while the writer goes on; what was written meanwhile is little and moved between two transactions, so that the log
//! is empty once and the next transaction writes it from its beginning: else it would grow for as long as there is work. What
//! is acknowledged is in the log, flushed, before any of this.

use sqlx::{AnyConnection, AnyPool};
use tokio::task::JoinHandle;

use crate::store::Backend;

/// Pages in the log after which to begin, as guessed: at most 64 MB.
const PAGES_BETWEEN: usize = 8_192;

/// Pages that a transaction writes besides those of its events, at most as a rule: the ends of all tables and indexes.
const PAGES_OF_ANY: usize = 20;

/// Pages of an event, rather too many: the one of its place is seldom that of another.
const PAGES_OF_AN_EVENT: usize = 2;

pub(crate) struct Checkpoints {
    backend: Backend,
    pool: AnyPool,
    /// In the log, as guessed.
    pages: usize,
    running: Option<JoinHandle<()>>,
}

impl Checkpoints {
    pub fn new(backend: Backend, pool: AnyPool) -> Self {
        Self { backend, pool, pages: 0, running: None }
    }

    /// Says that so many events were written in a transaction, on the writer's own connection while it has one.
    pub async fn written(&mut self, events: usize, own: Option<&mut AnyConnection>) {
        if self.backend != Backend::Sqlite {
            return;
        }
        self.pages += PAGES_OF_ANY + PAGES_OF_AN_EVENT * events;
        if let Some(task) = &self.running {
            // Not on one of the pool's: the writer would wait until a reader gives one back.
            if task.is_finished()
                && let Some(own) = own
            {
                self.running = None;
                move_log(own).await;
            }
        } else if self.pages >= PAGES_BETWEEN {
            self.pages = 0;
            let pool = self.pool.clone();
            self.running = Some(tokio::spawn(async move {
                match pool.acquire().await {
                    Ok(mut connection) => move_log(&mut connection).await,
                    Err(error) => tracing::warn!(%error, "no connection to move the log of the record"),
                }
            }));
        }
    }
}

/// Moves as much as can be moved without waiting for anybody.
async fn move_log(connection: &mut AnyConnection) {
    if let Err(error) = sqlx::query("PRAGMA wal_checkpoint(PASSIVE)").execute(connection).await {
        // nothing is lost: it stays in the log, and whoever writes next says what is wrong
        tracing::warn!(%error, "the log of the record could not be moved into its file");
    }
}
