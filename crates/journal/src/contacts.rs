//! Where reporters can be reached: apart from the record, and forgotten when the time is over.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sqlx::Row as _;
use uuid::Uuid;

use crate::append::damaged;
use crate::journal::{Journal, JournalError};
use crate::key::micros;

/// Somebody who reported, as far as told.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Contact {
    /// Name.
    pub name: String,
    /// Address for electronic mail.
    pub email: String,
    /// Telephone number.
    pub phone: String,
}

impl Journal {
    /// Keeps a contact until that time.
    pub async fn keep_contact(
        &self,
        id: Uuid,
        contact: &Contact,
        now: Timestamp,
        until: Timestamp,
    ) -> Result<(), JournalError> {
        let body = serde_json::to_string(contact).map_err(|error| damaged(0, &error.to_string()))?;
        sqlx::query(
            "INSERT INTO contact (id, body, taken_at, forget_at) VALUES ($1, $2, $3, $4) ON CONFLICT (id) DO NOTHING",
        )
        .bind(id.as_bytes().to_vec())
        .bind(body)
        .bind(micros(now))
        .bind(micros(until))
        .execute(&self.pool)
        .await?;
        Ok(())
    }

    /// The contact of a number; `None`: there is none any more.
    pub async fn contact(&self, id: Uuid, now: Timestamp) -> Result<Option<Contact>, JournalError> {
        let row = sqlx::query("SELECT body FROM contact WHERE id = $1 AND forget_at > $2")
            .bind(id.as_bytes().to_vec())
            .bind(micros(now))
            .fetch_optional(&self.pool)
            .await?;
        row.map(|row| serde_json::from_str(row.get(0)).map_err(|error| damaged(0, &error.to_string()))).transpose()
    }

    /// Forgets contacts whose time is over. Gives how many.
    pub async fn forget_contacts(&self, now: Timestamp) -> Result<u64, JournalError> {
        let done =
            sqlx::query("DELETE FROM contact WHERE forget_at <= $1").bind(micros(now)).execute(&self.pool).await?;
        Ok(done.rows_affected())
    }

    /// Forgets one contact at once, as its person may ask. `false`: there was none.
    pub async fn forget_contact(&self, id: Uuid) -> Result<bool, JournalError> {
        let done =
            sqlx::query("DELETE FROM contact WHERE id = $1").bind(id.as_bytes().to_vec()).execute(&self.pool).await?;
        Ok(done.rows_affected() == 1)
    }
}
