//! The trail of who did what with the program: signed in, was refused, read people's data, gave an account, exported.
//!
//! What happened on the road is in the events; this is what happened at the desk.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sqlx::{AssertSqlSafe, Row as _};

use crate::append::damaged;
use crate::chain::{Digest, link};
use crate::journal::{Journal, JournalError};
use crate::key::{micros, time};

/// One entry.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Done {
    /// Name of the account; empty: nobody was signed in.
    pub who: String,
    /// The device or `browser`.
    pub device: String,
    /// What was done, as a word.
    pub what: String,
    /// To what.
    pub to: String,
    /// Whether it was let through.
    pub allowed: bool,
}

/// An entry as it stands in the trail.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Entry {
    /// Its position, from 1.
    pub position: u64,
    /// When, by the server's clock.
    pub at: Timestamp,
    /// What.
    #[serde(flatten)]
    pub done: Done,
}

impl Journal {
    /// Writes an entry. When this answers it is on disk.
    pub async fn note(&self, done: &Done, now: Timestamp) -> Result<(), JournalError> {
        let body = serde_json::to_string(done).map_err(|error| damaged(0, &error.to_string()))?;
        let mut transaction = self.backend.begin_write(&self.pool).await?;
        let head = sqlx::query(self.backend.head()).bind("audit").fetch_one(&mut *transaction).await?;
        let position = head.get::<i64, _>(0) + 1;
        let before: Digest = head
            .get::<Vec<u8>, _>(1)
            .try_into()
            .map_err(|_| damaged(position, "the trail's last digest is not 32 bytes long"))?;
        let digest = link(&before, position.cast_unsigned(), micros(now), &body);
        sqlx::query("INSERT INTO audit (position, at, body, digest) VALUES ($1, $2, $3, $4)")
            .bind(position)
            .bind(micros(now))
            .bind(body)
            .bind(digest.to_vec())
            .execute(&mut *transaction)
            .await?;
        sqlx::query("UPDATE head SET position = $1, digest = $2 WHERE chain = 'audit'")
            .bind(position)
            .bind(digest.to_vec())
            .execute(&mut *transaction)
            .await?;
        transaction.commit().await?;
        Ok(())
    }

    /// Entries from a position on.
    pub async fn trail_after(&self, position: u64, limit: u32) -> Result<Vec<Entry>, JournalError> {
        let sql = format!("SELECT position, at, body FROM audit WHERE position > $1 ORDER BY position LIMIT {limit}");
        let rows = sqlx::query(AssertSqlSafe(sql)).bind(position.cast_signed()).fetch_all(&self.pool).await?;
        rows.iter()
            .map(|row| {
                let position: i64 = row.get(0);
                let done = serde_json::from_str(row.get(2)).map_err(|error| damaged(position, &error.to_string()))?;
                Ok(Entry { position: position.cast_unsigned(), at: time(row.get(1)), done })
            })
            .collect()
    }
}
