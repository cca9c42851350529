//! What is known, made anew from the events; and the chain followed from the beginning.

use std::collections::BTreeSet;

use model::record::happened::Subject;
use sqlx::Row as _;

use crate::append::Changed;
use crate::chain::{Broken, Digest, Follower};
use crate::journal::{Journal, JournalError};
use crate::key::subject;

/// Subjects worked out in one go.
const TOGETHER: usize = 1_000;

/// Events of the chain read in one go.
const LINKS: usize = 10_000;

impl Journal {
    /// Throws away what is known and works it out again from all events. In one transaction: readers see the old until the new
    /// is complete. Gives how many subjects there are.
    pub async fn make_anew(&self) -> Result<u64, JournalError> {
        let mut transaction = self.backend.begin_write(&self.pool).await?;
        // nobody appends meanwhile
        let head = sqlx::query(self.backend.head()).bind("event").fetch_one(&mut *transaction).await?;
        let position: i64 = head.get(0);
        // what does not come back is gone
        sqlx::query(
            "INSERT INTO gone (subject, what, position) SELECT subject, what, $1 FROM known WHERE 1 = 1 \
             ON CONFLICT (subject) DO UPDATE SET position = excluded.position",
        )
        .bind(position)
        .execute(&mut *transaction)
        .await?;
        sqlx::query("DELETE FROM known").execute(&mut *transaction).await?;
        let mut after: Vec<u8> = Vec::new();
        let mut count = 0;
        loop {
            let rows = sqlx::query(
                "SELECT DISTINCT subject FROM event_subject WHERE subject > $1 ORDER BY subject LIMIT 1000",
            )
            .bind(after.clone())
            .fetch_all(&mut *transaction)
            .await?;
            let keys: Vec<Vec<u8>> = rows.iter().map(|row| row.get(0)).collect();
            let Some(last) = keys.last() else { break };
            after.clone_from(last);
            let subjects: BTreeSet<Subject> = keys.iter().filter_map(|key| subject(key)).collect();
            count += subjects.len() as u64;
            let mut changed = Changed::new(&mut transaction, self.backend);
            changed.know_anew(subjects, position).await?;
            if keys.len() < TOGETHER {
                break;
            }
        }
        sqlx::query("DELETE FROM gone WHERE EXISTS (SELECT 1 FROM known WHERE known.subject = gone.subject)")
            .execute(&mut *transaction)
            .await?;
        transaction.commit().await?;
        Ok(count)
    }

    /// Follows the chain of the events from the beginning. Gives the last position and digest, or where it is broken.
    pub async fn follow_events(&self) -> Result<Result<(u64, Digest), Broken>, JournalError> {
        self.follow(
            "event",
            "SELECT position, server_time, body, digest FROM event WHERE position > $1 ORDER BY position LIMIT 10000",
        )
        .await
    }

    /// The same for the trail of who did what.
    pub async fn follow_audit(&self) -> Result<Result<(u64, Digest), Broken>, JournalError> {
        self.follow(
            "audit",
            "SELECT position, at, body, digest FROM audit WHERE position > $1 ORDER BY position LIMIT 10000",
        )
        .await
    }

    async fn follow(&self, chain: &str, sql: &'static str) -> Result<Result<(u64, Digest), Broken>, JournalError> {
        let mut snapshot = self.backend.begin_snapshot(&self.pool).await?;
        let mut follower = Follower::default();
        loop {
            let rows = sqlx::query(sql).bind(follower.last().0.cast_signed()).fetch_all(&mut *snapshot).await?;
            for row in &rows {
                let (position, time): (i64, i64) = (row.get(0), row.get(1));
                let next = follower.next(position.cast_unsigned(), time, row.get(2), &row.get::<Vec<u8>, _>(3));
                if let Err(broken) = next {
                    return Ok(Err(broken));
                }
            }
            if rows.len() < LINKS {
                break;
            }
        }
        let head = sqlx::query("SELECT position, digest FROM head WHERE chain = $1")
            .bind(chain)
            .fetch_one(&mut *snapshot)
            .await?;
        let (position, digest) = follower.last();
        if head.get::<i64, _>(0).cast_unsigned() != position || head.get::<Vec<u8>, _>(1) != digest {
            let words = "the chain ends before the last link that was written down".to_owned();
            return Ok(Err(Broken { position: position + 1, words }));
        }
        Ok(Ok((position, digest)))
    }
}
