//! Long work that was asked for: a row for each, which whoever works on it holds for a while at a time.
//!
//! A worker that is killed lets its hold run out, and another takes the job up from its beginning: a job has to be such that
//! beginning anew does no harm.

use jiff::{SignedDuration, Timestamp};
use serde::Serialize;
use sqlx::Row as _;
use sqlx::any::AnyRow;
use uuid::Uuid;

use crate::journal::{Journal, JournalError};
use crate::key::{micros, time};

/// How often a job is tried that nobody finishes.
const MOST_TRIES: i64 = 3;

/// A job.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Job {
    /// Number.
    pub id: Uuid,
    /// What kind of work.
    pub kind: String,
    /// How far it has come.
    pub state: JobState,
    /// Name of the account that asked for it.
    pub asked_by: String,
    /// When.
    pub asked_at: Timestamp,
    /// When it ended.
    pub ended_at: Option<Timestamp>,
    /// How much is done, 0 to 1.
    pub progress: f64,
    /// What is going on, or what went wrong.
    pub words: String,
    /// What was asked for, JSON.
    pub input: String,
    /// What came of it, JSON; empty until it is done.
    pub output: String,
}

/// How far a job has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum JobState {
    Waiting,
    Working,
    Done,
    Failed,
    Stopped,
}

impl JobState {
    fn word(self) -> &'static str {
        match self {
            JobState::Waiting => "waiting",
            JobState::Working => "working",
            JobState::Done => "done",
            JobState::Failed => "failed",
            JobState::Stopped => "stopped",
        }
    }

    fn of_word(word: &str) -> Self {
        let all = [JobState::Waiting, JobState::Working, JobState::Done, JobState::Stopped];
        all.into_iter().find(|state| state.word() == word).unwrap_or(JobState::Failed)
    }
}

impl Journal {
    /// Asks for work.
    pub async fn ask_for(
        &self,
        id: Uuid,
        kind: &str,
        input: &str,
        asked_by: &str,
        now: Timestamp,
    ) -> Result<(), JournalError> {
        sqlx::query(
            "INSERT INTO job (id, kind, state, asked_by, asked_at, input) VALUES ($1, $2, 'waiting', $3, $4, $5)",
        )
        .bind(id.as_bytes().to_vec())
        .bind(kind)
        .bind(asked_by)
        .bind(micros(now))
        .bind(input)
        .execute(&self.pool)
        .await?;
        Ok(())
    }

    /// Takes the job that waits longest, or one whose holder has been silent too long, and holds it so long.
    pub async fn take_job(&self, now: Timestamp, hold: SignedDuration) -> Result<Option<Job>, JournalError> {
        let until = now.checked_add(hold).unwrap_or(now);
        let mut transaction = self.backend.begin_write(&self.pool).await?;
        sqlx::query(
            "UPDATE job SET state = 'failed', ended_at = $1, words = 'begun several times and never finished' \
             WHERE state = 'working' AND held_until <= $1 AND tries >= $2",
        )
        .bind(micros(now))
        .bind(MOST_TRIES)
        .execute(&mut *transaction)
        .await?;
        let found = sqlx::query(self.backend.next_job()).bind(micros(now)).fetch_optional(&mut *transaction).await?;
        let Some(row) = found else {
            transaction.commit().await?;
            return Ok(None);
        };
        let id: Vec<u8> = row.get(0);
        sqlx::query("UPDATE job SET state = 'working', held_until = $1, tries = tries + 1 WHERE id = $2")
            .bind(micros(until))
            .bind(id.clone())
            .execute(&mut *transaction)
            .await?;
        transaction.commit().await?;
        self.job(Uuid::from_slice(&id).unwrap_or_default()).await
    }

    /// Tells how far a job is and holds it on. `false`: somebody stopped it, or another holds it now.
    pub async fn hold_job(
        &self,
        id: Uuid,
        progress: f64,
        words: &str,
        now: Timestamp,
        hold: SignedDuration,
    ) -> Result<bool, JournalError> {
        let until = now.checked_add(hold).unwrap_or(now);
        let held = sqlx::query(
            "UPDATE job SET progress = $1, words = $2, held_until = $3 WHERE id = $4 AND state = 'working'",
        )
        .bind(progress)
        .bind(words)
        .bind(micros(until))
        .bind(id.as_bytes().to_vec())
        .execute(&self.pool)
        .await?;
        Ok(held.rows_affected() == 1)
    }

    /// Ends a job with what came of it, or with what went wrong. `false`: it had ended before.
    pub async fn end_job(&self, id: Uuid, outcome: Result<&str, &str>, now: Timestamp) -> Result<bool, JournalError> {
        let (state, words, output) = match outcome {
            Ok(output) => (JobState::Done, "", output),
            Err(words) => (JobState::Failed, words, ""),
        };
        let ended = sqlx::query(
            "UPDATE job SET state = $1, ended_at = $2, words = $3, output = $4 WHERE id = $5 AND state = 'working'",
        )
        .bind(state.word())
        .bind(micros(now))
        .bind(words)
        .bind(output)
        .bind(id.as_bytes().to_vec())
        .execute(&self.pool)
        .await?;
        Ok(ended.rows_affected() == 1)
    }

    /// Stops a job. `false`: it had ended before.
    pub async fn stop_job(&self, id: Uuid, now: Timestamp) -> Result<bool, JournalError> {
        let stopped = sqlx::query(
            "UPDATE job SET state = 'stopped', ended_at = $1 WHERE id = $2 AND state IN ('waiting', 'working')",
        )
        .bind(micros(now))
        .bind(id.as_bytes().to_vec())
        .execute(&self.pool)
        .await?;
        Ok(stopped.rows_affected() == 1)
    }

    /// The job of a number.
    pub async fn job(&self, id: Uuid) -> Result<Option<Job>, JournalError> {
        let row = sqlx::query(
            "SELECT id, kind, state, asked_by, asked_at, ended_at, progress, words, input, output FROM job WHERE id = $1",
        )
        .bind(id.as_bytes().to_vec())
        .fetch_optional(&self.pool)
        .await?;
        Ok(row.as_ref().map(read_job))
    }

    /// The last jobs of a kind that were asked for, the newest first.
    pub async fn last_jobs(&self, kind: &str) -> Result<Vec<Job>, JournalError> {
        let rows = sqlx::query(
            "SELECT id, kind, state, asked_by, asked_at, ended_at, progress, words, input, '' FROM job \
             WHERE kind = $1 ORDER BY asked_at DESC LIMIT 50",
        )
        .bind(kind)
        .fetch_all(&self.pool)
        .await?;
        Ok(rows.iter().map(read_job).collect())
    }
}

fn read_job(row: &AnyRow) -> Job {
    let ended_at: i64 = row.get(5);
    Job {
        id: Uuid::from_slice(&row.get::<Vec<u8>, _>(0)).unwrap_or_default(),
        kind: row.get(1),
        state: JobState::of_word(row.get(2)),
        asked_by: row.get(3),
        asked_at: time(row.get(4)),
        ended_at: (ended_at != 0).then(|| time(ended_at)),
        progress: row.get(6),
        words: row.get(7),
        input: row.get(8),
        output: row.get(9),
    }
}
