//! What was sent to be worked on as a job: kept in parts beside the record, so that a worker on any machine finds it, and thrown away
//! when the job is over.

use jiff::Timestamp;
use sqlx::Row as _;
use uuid::Uuid;

use crate::journal::{Journal, JournalError};
use crate::key::micros;

impl Journal {
    /// Keeps a part of what a job is to work on; parts are counted from 0.
    pub async fn keep_upload(&self, job: Uuid, part: u32, content: &[u8], now: Timestamp) -> Result<(), JournalError> {
        sqlx::query("INSERT INTO upload (job, part, at, content) VALUES ($1, $2, $3, $4)")
            .bind(job.as_bytes().to_vec())
            .bind(i64::from(part))
            .bind(micros(now))
            .bind(content.to_vec())
            .execute(&self.pool)
            .await?;
        Ok(())
    }

    /// A part of what was sent. `None`: there are no more.
    pub async fn upload(&self, job: Uuid, part: u32) -> Result<Option<Vec<u8>>, JournalError> {
        let row = sqlx::query("SELECT content FROM upload WHERE job = $1 AND part = $2")
            .bind(job.as_bytes().to_vec())
            .bind(i64::from(part))
            .fetch_optional(&self.pool)
            .await?;
        Ok(row.map(|row| row.get(0)))
    }

    /// Throws away what a job worked on, part by part: whoever tells of events waits for one part at most.
    pub async fn forget_upload(&self, job: Uuid) -> Result<(), JournalError> {
        loop {
            let gone = sqlx::query(
                "DELETE FROM upload WHERE job = $1 AND part = (SELECT MAX(part) FROM upload WHERE job = $1)",
            )
            .bind(job.as_bytes().to_vec())
            .execute(&self.pool)
            .await?;
            if gone.rows_affected() == 0 {
                return Ok(());
            }
        }
    }

    /// Throws away what nobody works on any more: sent before that time, without a job that waits or is worked on. Gives how many parts.
    pub async fn forget_uploads(&self, before: Timestamp) -> Result<u64, JournalError> {
        let done = sqlx::query(
            "DELETE FROM upload WHERE at < $1 AND job NOT IN (SELECT id FROM job WHERE state IN ('waiting', 'working'))",
        )
        .bind(micros(before))
        .execute(&self.pool)
        .await?;
        Ok(done.rows_affected())
    }
}
