//! What devices sent and the record did not take: kept as it was sent, with the reason, so that nothing that was told is lost.

use jiff::Timestamp;
use serde::Serialize;
use sqlx::{AssertSqlSafe, Row as _};

use crate::append::damaged;
use crate::chain::{Digest, hexadecimal, sha256};
use crate::journal::{Journal, JournalError};
use crate::key::{micros, time};
use crate::rows::{places, runs};

/// Something that was not taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotTaken {
    /// Account that sent it.
    pub actor: String,
    /// Device that sent it.
    pub device: String,
    /// Why it was not taken, and what would be right.
    pub why: String,
    /// What was sent, JSON.
    pub body: String,
}

/// It, as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Refused {
    /// Its number: a digest, hexadecimal.
    pub number: String,
    /// When it was first sent, by the server's clock.
    pub at: Timestamp,
    /// Account that sent it.
    pub actor: String,
    /// Device that sent it.
    pub device: String,
    /// Why it was not taken, and what would be right.
    pub why: String,
    /// What was sent, JSON.
    pub body: String,
}

impl NotTaken {
    /// The same thing sent again by the same device and refused for the like reason is kept once; times in a reason differ.
    fn digest(&self) -> Digest {
        let mut content = Vec::new();
        for piece in [&self.actor, &self.device, &self.body] {
            content.extend((piece.len() as u64).to_be_bytes());
            content.extend(piece.as_bytes());
        }
        sha256(&content)
    }
}

impl Journal {
    /// Keeps what was not taken.
    pub async fn keep_refused(&self, all: &[NotTaken], now: Timestamp) -> Result<(), JournalError> {
        if all.is_empty() {
            return Ok(());
        }
        let mut transaction = self.backend.begin_write(&self.pool).await?;
        for run in runs(all) {
            let sql = format!(
                "INSERT INTO refused (digest, at, actor, device, why, bytes, body) VALUES {} ON CONFLICT (digest) DO NOTHING",
                places(self.backend, run.len(), 7)
            );
            let mut query = sqlx::query(AssertSqlSafe(sql));
            for one in run {
                query = query
                    .bind(one.digest().to_vec())
                    .bind(micros(now))
                    .bind(one.actor.as_str())
                    .bind(one.device.as_str())
                    .bind(one.why.as_str())
                    .bind(i64::try_from(one.body.len()).unwrap_or(i64::MAX))
                    .bind(one.body.as_str());
            }
            query.execute(&mut *transaction).await?;
        }
        transaction.commit().await?;
        Ok(())
    }

    /// How many are kept that this account sent, and their bytes.
    pub async fn refused_of(&self, actor: &str) -> Result<(u64, u64), JournalError> {
        let row = sqlx::query("SELECT COUNT(*), CAST(COALESCE(SUM(bytes), 0) AS BIGINT) FROM refused WHERE actor = $1")
            .bind(actor)
            .fetch_one(&self.pool)
            .await?;
        Ok((row.get::<i64, _>(0).cast_unsigned(), row.get::<i64, _>(1).cast_unsigned()))
    }

    /// What was not taken, the first first: after one of that time and number.
    pub async fn refused_after(
        &self,
        after: Option<(Timestamp, Digest)>,
        limit: u32,
    ) -> Result<Vec<Refused>, JournalError> {
        let (at, digest) = after.map_or((-1, Digest::default()), |(at, digest)| (micros(at), digest));
        let sql = format!(
            "SELECT digest, at, actor, device, why, body FROM refused WHERE at > $1 OR (at = $1 AND digest > $2) \
             ORDER BY at, digest LIMIT {limit}"
        );
        let rows = sqlx::query(AssertSqlSafe(sql)).bind(at).bind(digest.to_vec()).fetch_all(&self.pool).await?;
        rows.iter()
            .map(|row| {
                let digest: Vec<u8> = row.get(0);
                if digest.len() != 32 {
                    return Err(damaged(0, "the number of something refused is not 32 bytes long"));
                }
                Ok(Refused {
                    number: hexadecimal(&digest),
                    at: time(row.get(1)),
                    actor: row.get(2),
                    device: row.get(3),
                    why: row.get(4),
                    body: row.get(5),
                })
            })
            .collect()
    }
}
