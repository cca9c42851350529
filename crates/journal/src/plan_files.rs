//! Files of a crew's day, made with a plan and kept with its job; of a plan that was taken as the crews' rounds they stay.

use jiff::Timestamp;
use sqlx::Row as _;
use uuid::Uuid;

use crate::chain::sha256;
use crate::journal::{Journal, JournalError};
use crate::key::micros;

/// A file of a crew's day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanFile {
    /// The round it is of.
    pub round: Uuid,
    /// Its name.
    pub name: String,
    /// What it is.
    pub media_type: String,
    /// What is in it.
    pub content: Vec<u8>,
}

/// A file without what is in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListedFile {
    /// Its name.
    pub name: String,
    /// What it is.
    pub media_type: String,
    /// Its length.
    pub size: u64,
    /// SHA-256 of its content.
    pub digest: Vec<u8>,
}

impl Journal {
    /// Throws away the files of a plan that is begun anew.
    pub async fn forget_files_of_plan(&self, job: Uuid) -> Result<(), JournalError> {
        sqlx::query("DELETE FROM plan_file WHERE job = $1").bind(job.as_bytes().to_vec()).execute(&self.pool).await?;
        Ok(())
    }

    /// Keeps files of a plan, of a round at a time: whoever tells of events waits for one round at most.
    pub async fn keep_plan_files(&self, job: Uuid, files: Vec<PlanFile>, now: Timestamp) -> Result<(), JournalError> {
        let mut transaction = self.backend.begin_write(&self.pool).await?;
        for file in files {
            sqlx::query(
                "INSERT INTO plan_file (job, round, name, media_type, at, size, digest, content) \
                 VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
            )
            .bind(job.as_bytes().to_vec())
            .bind(file.round.as_bytes().to_vec())
            .bind(file.name)
            .bind(file.media_type)
            .bind(micros(now))
            .bind(i64::try_from(file.content.len()).unwrap_or(i64::MAX))
            .bind(sha256(&file.content).to_vec())
            .bind(file.content)
            .execute(&mut *transaction)
            .await?;
        }
        transaction.commit().await?;
        Ok(())
    }

    /// Notes that a plan was taken for these rounds; one taken before for the same round counts no more.
    pub async fn take_plan(&self, job: Uuid, rounds: &[Uuid], now: Timestamp) -> Result<(), JournalError> {
        let mut transaction = self.backend.begin_write(&self.pool).await?;
        for round in rounds {
            sqlx::query(
                "INSERT INTO taken_plan (round, job, at) VALUES ($1, $2, $3) \
                 ON CONFLICT (round) DO UPDATE SET job = excluded.job, at = excluded.at",
            )
            .bind(round.as_bytes().to_vec())
            .bind(job.as_bytes().to_vec())
            .bind(micros(now))
            .execute(&mut *transaction)
            .await?;
        }
        transaction.commit().await?;
        Ok(())
    }

    /// The plan that was taken last for a round.
    pub async fn plan_of_round(&self, round: Uuid) -> Result<Option<Uuid>, JournalError> {
        let row = sqlx::query("SELECT job FROM taken_plan WHERE round = $1")
            .bind(round.as_bytes().to_vec())
            .fetch_optional(&self.pool)
            .await?;
        Ok(row.and_then(|row| Uuid::from_slice(&row.get::<Vec<u8>, _>(0)).ok()))
    }

    /// The files that a plan has of a round, by name.
    pub async fn plan_files(&self, job: Uuid, round: Uuid) -> Result<Vec<ListedFile>, JournalError> {
        let rows = sqlx::query(
            "SELECT name, media_type, size, digest FROM plan_file WHERE job = $1 AND round = $2 ORDER BY name",
        )
        .bind(job.as_bytes().to_vec())
        .bind(round.as_bytes().to_vec())
        .fetch_all(&self.pool)
        .await?;
        let read = |row: &sqlx::any::AnyRow| ListedFile {
            name: row.get(0),
            media_type: row.get(1),
            size: row.get::<i64, _>(2).cast_unsigned(),
            digest: row.get(3),
        };
        Ok(rows.iter().map(read).collect())
    }

    /// One of them: what it is, and what is in it.
    pub async fn plan_file(
        &self,
        job: Uuid,
        round: Uuid,
        name: &str,
    ) -> Result<Option<(String, Vec<u8>)>, JournalError> {
        let row = sqlx::query("SELECT media_type, content FROM plan_file WHERE job = $1 AND round = $2 AND name = $3")
            .bind(job.as_bytes().to_vec())
            .bind(round.as_bytes().to_vec())
            .bind(name)
            .fetch_optional(&self.pool)
            .await?;
        Ok(row.map(|row| (row.get(0), row.get(1))))
    }

    /// Throws away the files of plans that nobody took, made before that time. Gives how many.
    pub async fn forget_plan_files(&self, before: Timestamp) -> Result<u64, JournalError> {
        let done = sqlx::query("DELETE FROM plan_file WHERE at < $1 AND job NOT IN (SELECT job FROM taken_plan)")
            .bind(micros(before))
            .execute(&self.pool)
            .await?;
        Ok(done.rows_affected())
    }
}
