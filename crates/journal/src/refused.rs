//! What devices sent and the record did not take: kept as it was sent, with the reason, so that nothing that was told is lost.

use jiff::Timestamp;
use serde::Serialize;
use sqlx::{AnyConnection, AssertSqlSafe, Row as _};

use crate::append::damaged;
use crate::chain::{Digest, hexadecimal, sha256};
use crate::journal::{Journal, JournalError};
use crate::key::{micros, time};

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

/// How much is kept that one account sent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MostRefused {
    /// Events.
    pub count: u64,
    /// Bytes of what was sent.
    pub bytes: u64,
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
    /// Keeps what was not taken of what one account sent, and says of each whether it is kept: what is kept already is, and no
    /// more than `most` of one account.
    pub async fn keep_refused(
        &self,
        all: &[NotTaken],
        most: MostRefused,
        now: Timestamp,
    ) -> Result<Vec<bool>, JournalError> {
        let Some(first) = all.first() else { return Ok(Vec::new()) };
        let mut transaction = self.backend.begin_write(&self.pool).await?;
        let (mut count, mut bytes) = refused_of(&mut transaction, &first.actor).await?;
        let mut kept = Vec::with_capacity(all.len());
        for one in all {
            let digest = one.digest().to_vec();
            let known = sqlx::query("SELECT 1 FROM refused WHERE digest = $1")
                .bind(digest.clone())
                .fetch_optional(&mut *transaction)
                .await?;
            let more = one.body.len() as u64;
            if known.is_some() || count >= most.count || bytes + more > most.bytes {
                kept.push(known.is_some());
                continue;
            }
            sqlx::query(
                "INSERT INTO refused (digest, at, actor, device, why, bytes, body) VALUES ($1, $2, $3, $4, $5, $6, $7)",
            )
            .bind(digest)
            .bind(micros(now))
            .bind(one.actor.as_str())
            .bind(one.device.as_str())
            .bind(one.why.as_str())
            .bind(i64::try_from(more).unwrap_or(i64::MAX))
            .bind(one.body.as_str())
            .execute(&mut *transaction)
            .await?;
            (count, bytes) = (count + 1, bytes + more);
            kept.push(true);
        }
        transaction.commit().await?;
        Ok(kept)
    }

    /// Forgets what was refused before that time. Gives how many.
    pub async fn forget_refused(&self, before: Timestamp) -> Result<u64, JournalError> {
        let gone = sqlx::query("DELETE FROM refused WHERE at < $1").bind(micros(before)).execute(&self.pool).await?;
        Ok(gone.rows_affected())
    }

    /// How many are kept that this account sent, and their bytes.
    pub async fn refused_of(&self, actor: &str) -> Result<(u64, u64), JournalError> {
        let mut connection = self.pool.acquire().await?;
        refused_of(&mut connection, actor).await
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

async fn refused_of(connection: &mut AnyConnection, actor: &str) -> Result<(u64, u64), JournalError> {
    let row = sqlx::query("SELECT COUNT(*), CAST(COALESCE(SUM(bytes), 0) AS BIGINT) FROM refused WHERE actor = $1")
        .bind(actor)
        .fetch_one(connection)
        .await?;
    Ok((row.get::<i64, _>(0).cast_unsigned(), row.get::<i64, _>(1).cast_unsigned()))
}
