//! People who may sign in, and what lets them in.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sqlx::Row as _;
use sqlx::any::AnyRow;
use uuid::Uuid;

use crate::chain::{Digest, sha256};
use crate::journal::{Journal, JournalError};
use crate::key::{micros, time};

/// What somebody may do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Works on the road: tells what happened, sees the round.
    Crew,
    /// Plans rounds, merges and dismisses holes.
    Planner,
    /// Keeps the stock: moves, counts, prices.
    Storekeeper,
    /// Signs, and may do what planners and storekeepers do; gives accounts.
    Engineer,
    /// Sees everything, changes nothing.
    Auditor,
}

/// Somebody who may sign in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Account {
    /// Number.
    pub id: Uuid,
    /// Name to sign in with.
    pub name: String,
    /// What the person may do.
    pub role: Role,
    /// Hash of the password, as argon2 writes it; empty: none set yet.
    pub password: String,
    /// Crew that the person works in; may be empty.
    pub crew: String,
    /// Whether the account is closed.
    pub closed: bool,
}

/// What a pass is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PassKind {
    /// A browser that is signed in.
    Session,
    /// A device that was enrolled.
    Device,
    /// The link of the first start: works once, makes the first account.
    SetUp,
    /// A link that makes a device known: works once.
    Enrolment,
    /// A link with which somebody sets a password: works once.
    Password,
}

/// What lets somebody in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pass {
    /// What it is for.
    pub kind: PassKind,
    /// Whose it is; none yet at the first start.
    pub account: Option<Uuid>,
    /// Name of the device, or nothing.
    pub name: String,
    /// When it ends.
    pub ends_at: Timestamp,
}

/// A device that is known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnownDevice {
    /// Digest of its token.
    pub digest: Digest,
    /// Account that it acts for.
    pub account: Uuid,
    /// Its name.
    pub name: String,
    /// When it was made known.
    pub made_at: Timestamp,
    /// Until when it is.
    pub ends_at: Timestamp,
}

impl KnownDevice {
    /// A number to call it by, which tells nothing of its token.
    pub fn number(&self) -> Uuid {
        let digest = sha256(&[b"device".as_slice(), &self.digest].concat());
        let mut bytes = [0; 16];
        bytes.copy_from_slice(&digest[..16]);
        uuid::Builder::from_custom_bytes(bytes).into_uuid()
    }
}

impl Role {
    /// All.
    pub const ALL: [Role; 5] = [Role::Crew, Role::Planner, Role::Storekeeper, Role::Engineer, Role::Auditor];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Role::Crew => "crew",
            Role::Planner => "planner",
            Role::Storekeeper => "storekeeper",
            Role::Engineer => "engineer",
            Role::Auditor => "auditor",
        }
    }

    /// The role of a word.
    pub fn of_word(word: &str) -> Option<Role> {
        Role::ALL.into_iter().find(|role| role.word() == word)
    }
}

impl PassKind {
    fn word(self) -> &'static str {
        match self {
            PassKind::Session => "session",
            PassKind::Device => "device",
            PassKind::SetUp => "set_up",
            PassKind::Enrolment => "enrolment",
            PassKind::Password => "password",
        }
    }

    fn of_word(word: &str) -> Option<PassKind> {
        let all = [PassKind::Session, PassKind::Device, PassKind::SetUp, PassKind::Enrolment, PassKind::Password];
        all.into_iter().find(|kind| kind.word() == word)
    }
}

/// What is kept of a secret.
pub fn digest_of_secret(secret: &str) -> Digest {
    sha256(secret.as_bytes())
}

impl Journal {
    /// Makes an account. `false`: there is one of that name.
    pub async fn make_account(&self, account: &Account, now: Timestamp) -> Result<bool, JournalError> {
        let made = sqlx::query(
            "INSERT INTO account (id, name, role, password, crew, made_at) VALUES ($1, $2, $3, $4, $5, $6) \
             ON CONFLICT (name) DO NOTHING",
        )
        .bind(account.id.as_bytes().to_vec())
        .bind(account.name.as_str())
        .bind(account.role.word())
        .bind(account.password.as_str())
        .bind(account.crew.as_str())
        .bind(micros(now))
        .execute(&self.pool)
        .await?;
        Ok(made.rows_affected() == 1)
    }

    /// The account of a name.
    pub async fn account_named(&self, name: &str) -> Result<Option<Account>, JournalError> {
        let row = sqlx::query("SELECT id, name, role, password, crew, closed_at FROM account WHERE name = $1")
            .bind(name)
            .fetch_optional(&self.pool)
            .await?;
        row.as_ref().map(read_account).transpose()
    }

    /// The account of a number.
    pub async fn account(&self, id: Uuid) -> Result<Option<Account>, JournalError> {
        let row = sqlx::query("SELECT id, name, role, password, crew, closed_at FROM account WHERE id = $1")
            .bind(id.as_bytes().to_vec())
            .fetch_optional(&self.pool)
            .await?;
        row.as_ref().map(read_account).transpose()
    }

    /// All accounts, by name.
    pub async fn accounts(&self) -> Result<Vec<Account>, JournalError> {
        let rows = sqlx::query("SELECT id, name, role, password, crew, closed_at FROM account ORDER BY name")
            .fetch_all(&self.pool)
            .await?;
        rows.iter().map(read_account).collect()
    }

    /// Writes an account's role, password, crew, and whether it is closed. Closing it ends all its passes.
    pub async fn change_account(&self, account: &Account, now: Timestamp) -> Result<(), JournalError> {
        let closed_at = if account.closed { micros(now) } else { 0 };
        sqlx::query("UPDATE account SET role = $1, password = $2, crew = $3, closed_at = $4 WHERE id = $5")
            .bind(account.role.word())
            .bind(account.password.as_str())
            .bind(account.crew.as_str())
            .bind(closed_at)
            .bind(account.id.as_bytes().to_vec())
            .execute(&self.pool)
            .await?;
        if account.closed {
            self.end_passes_of(account.id).await?;
        }
        Ok(())
    }

    /// Gives a pass whose secret has this digest.
    pub async fn give_pass(&self, digest: &Digest, pass: &Pass, now: Timestamp) -> Result<(), JournalError> {
        sqlx::query("INSERT INTO pass (digest, kind, account, name, made_at, ends_at) VALUES ($1, $2, $3, $4, $5, $6)")
            .bind(digest.to_vec())
            .bind(pass.kind.word())
            .bind(pass.account.map_or_else(Vec::new, |id| id.as_bytes().to_vec()))
            .bind(pass.name.as_str())
            .bind(micros(now))
            .bind(micros(pass.ends_at))
            .execute(&self.pool)
            .await?;
        Ok(())
    }

    /// The pass of a digest, if it has not ended and, if it works once, was not used.
    pub async fn pass(&self, digest: &Digest, now: Timestamp) -> Result<Option<Pass>, JournalError> {
        let row = sqlx::query(
            "SELECT kind, account, name, ends_at FROM pass WHERE digest = $1 AND ends_at > $2 AND used_at = 0",
        )
        .bind(digest.to_vec())
        .bind(micros(now))
        .fetch_optional(&self.pool)
        .await?;
        row.as_ref().map(|row| read_pass(row, 0)).transpose()
    }

    /// The same with the account that it is of, closed or not, in one look: every request asks for both.
    pub async fn pass_with_account(
        &self,
        digest: &Digest,
        now: Timestamp,
    ) -> Result<Option<(Pass, Account)>, JournalError> {
        let row = sqlx::query(
            "SELECT a.id, a.name, a.role, a.password, a.crew, a.closed_at, p.kind, p.account, p.name, p.ends_at \
             FROM pass p JOIN account a ON a.id = p.account WHERE p.digest = $1 AND p.ends_at > $2 AND p.used_at = 0",
        )
        .bind(digest.to_vec())
        .bind(micros(now))
        .fetch_optional(&self.pool)
        .await?;
        row.as_ref().map(|row| Ok((read_pass(row, 6)?, read_account(row)?))).transpose()
    }

    /// Uses up a pass that works once. `None`: it has ended, or somebody was faster.
    pub async fn use_up(&self, digest: &Digest, kind: PassKind, now: Timestamp) -> Result<Option<Pass>, JournalError> {
        let Some(pass) = self.pass(digest, now).await?.filter(|pass| pass.kind == kind) else {
            return Ok(None);
        };
        let used = sqlx::query("UPDATE pass SET used_at = $1 WHERE digest = $2 AND used_at = 0")
            .bind(micros(now))
            .bind(digest.to_vec())
            .execute(&self.pool)
            .await?;
        Ok((used.rows_affected() == 1).then_some(pass))
    }

    /// The devices of an account, or of all where none is given, the first made known first.
    pub async fn devices(&self, account: Option<Uuid>, now: Timestamp) -> Result<Vec<KnownDevice>, JournalError> {
        let rows = sqlx::query(
            "SELECT digest, account, name, made_at, ends_at FROM pass WHERE kind = $1 AND ends_at > $2 \
             ORDER BY made_at, name, digest",
        )
        .bind(PassKind::Device.word())
        .bind(micros(now))
        .fetch_all(&self.pool)
        .await?;
        let damaged = || JournalError::Damaged { position: 0, what: "a device's pass".to_owned() };
        let mut devices = Vec::with_capacity(rows.len());
        for row in &rows {
            let device = KnownDevice {
                digest: row.get::<Vec<u8>, _>(0).try_into().map_err(|_| damaged())?,
                account: Uuid::from_slice(&row.get::<Vec<u8>, _>(1)).map_err(|_| damaged())?,
                name: row.get(2),
                made_at: time(row.get(3)),
                ends_at: time(row.get(4)),
            };
            if account.is_none_or(|wanted| wanted == device.account) {
                devices.push(device);
            }
        }
        Ok(devices)
    }

    /// Ends a pass.
    pub async fn end_pass(&self, digest: &Digest) -> Result<(), JournalError> {
        sqlx::query("DELETE FROM pass WHERE digest = $1").bind(digest.to_vec()).execute(&self.pool).await?;
        Ok(())
    }

    /// Ends all passes of an account.
    pub async fn end_passes_of(&self, account: Uuid) -> Result<(), JournalError> {
        sqlx::query("DELETE FROM pass WHERE account = $1")
            .bind(account.as_bytes().to_vec())
            .execute(&self.pool)
            .await?;
        Ok(())
    }

    /// Ends all passes of a kind, whosever they are.
    pub async fn end_passes_for(&self, kind: PassKind) -> Result<(), JournalError> {
        sqlx::query("DELETE FROM pass WHERE kind = $1").bind(kind.word()).execute(&self.pool).await?;
        Ok(())
    }

    /// Throws away passes that have ended. Gives how many.
    pub async fn forget_ended_passes(&self, now: Timestamp) -> Result<u64, JournalError> {
        let done = sqlx::query("DELETE FROM pass WHERE ends_at <= $1").bind(micros(now)).execute(&self.pool).await?;
        Ok(done.rows_affected())
    }
}

fn read_account(row: &AnyRow) -> Result<Account, JournalError> {
    let name: String = row.get(1);
    let role: &str = row.get(2);
    let damaged = |what: &str| JournalError::Damaged { position: 0, what: format!("account `{name}`: {what}") };
    Ok(Account {
        id: Uuid::from_slice(&row.get::<Vec<u8>, _>(0)).map_err(|error| damaged(&error.to_string()))?,
        role: Role::of_word(role).ok_or_else(|| damaged("a role that we do not know"))?,
        password: row.get(3),
        crew: row.get(4),
        closed: row.get::<i64, _>(5) != 0,
        name,
    })
}

/// A pass whose columns begin with that one.
fn read_pass(row: &AnyRow, first: usize) -> Result<Pass, JournalError> {
    let word: &str = row.get(first);
    let damaged = || JournalError::Damaged { position: 0, what: format!("a pass of the kind `{word}`") };
    Ok(Pass {
        kind: PassKind::of_word(word).ok_or_else(damaged)?,
        account: Uuid::from_slice(&row.get::<Vec<u8>, _>(first + 1)).ok(),
        name: row.get(first + 2),
        ends_at: time(row.get(first + 3)),
    })
}
