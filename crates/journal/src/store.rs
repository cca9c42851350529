//! The two databases, and where they differ.

use std::borrow::Cow;
use std::path::{Path, PathBuf};
use std::time::Duration;

use sqlx::any::{AnyPoolOptions, install_drivers};
use sqlx::migrate::{Migration, MigrationType, Migrator};
use sqlx::pool::PoolConnection;
use sqlx::{Any, AnyConnection, AnyPool, AssertSqlSafe, Connection as _, SqlSafeStr, Transaction};

use crate::JournalError;

/// Where the record is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Location {
    /// A file; made if it is not there.
    File(PathBuf),
    /// A `PostgreSQL` database, as a URL `postgres://...`.
    Server(String),
}

/// Which of the two.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Backend {
    Sqlite,
    Postgres,
}

/// Migrations of both stores, twin by twin. Only ever added to.
const MIGRATIONS: [(i64, &str, &str, &str); 7] = [
    (
        1,
        "record",
        include_str!("../migrations/sqlite/0001_record.sql"),
        include_str!("../migrations/postgresql/0001_record.sql"),
    ),
    (
        2,
        "photo place",
        include_str!("../migrations/sqlite/0002_photo_place.sql"),
        include_str!("../migrations/postgresql/0002_photo_place.sql"),
    ),
    (
        3,
        "refused",
        include_str!("../migrations/sqlite/0003_refused.sql"),
        include_str!("../migrations/postgresql/0003_refused.sql"),
    ),
    (
        4,
        "upload",
        include_str!("../migrations/sqlite/0004_upload.sql"),
        include_str!("../migrations/postgresql/0004_upload.sql"),
    ),
    (
        5,
        "plan file",
        include_str!("../migrations/sqlite/0005_plan_file.sql"),
        include_str!("../migrations/postgresql/0005_plan_file.sql"),
    ),
    (
        6,
        "known by cell",
        include_str!("../migrations/sqlite/0006_known_by_cell.sql"),
        include_str!("../migrations/postgresql/0006_known_by_cell.sql"),
    ),
    (
        7,
        "gone",
        include_str!("../migrations/sqlite/0007_gone.sql"),
        include_str!("../migrations/postgresql/0007_gone.sql"),
    ),
];

const CONNECTIONS: u32 = 8;

/// How long to wait for a connection or for another process's write.
const PATIENCE: Duration = Duration::from_secs(30);

impl Location {
    /// The file of that name in a data folder.
    pub fn in_folder(folder: &Path) -> Self {
        Location::File(folder.join("record.sqlite"))
    }

    pub(crate) fn backend(&self) -> Backend {
        match self {
            Location::File(_) => Backend::Sqlite,
            Location::Server(_) => Backend::Postgres,
        }
    }
}

/// Opens the database and brings it to today's schema, or to an older one for tests.
pub(crate) async fn open(location: &Location, up_to: Option<i64>) -> Result<AnyPool, JournalError> {
    // every call after the first one fails, and that is well
    let _ = install_drivers(&[sqlx::sqlite::any::DRIVER, sqlx::postgres::any::DRIVER]);
    let backend = location.backend();
    let url = match location {
        Location::File(path) => {
            let text = path.to_str().ok_or_else(|| JournalError::Place(path.display().to_string()))?;
            // what a URL would read otherwise
            let escaped = text.replace('%', "%25").replace('?', "%3f").replace('#', "%23");
            format!("sqlite://{escaped}?mode=rwc")
        }
        Location::Server(url) => url.clone(),
    };
    if backend == Backend::Sqlite {
        // Once by hand: the pool would try for as long as it has patience, and then not say what was wrong.
        let mut connection = AnyConnection::connect(&url).await?;
        set_up(backend, &mut connection).await?;
        connection.close().await?;
    }
    let pool = AnyPoolOptions::new()
        .max_connections(CONNECTIONS)
        .acquire_timeout(PATIENCE)
        // a file can't hang up; a server can, and then a ping is cheaper than a request that fails
        .test_before_acquire(backend == Backend::Postgres)
        // A database that ends a transaction by itself, as SQLite does on a full disk, leaves a connection that can begin no other.
        .before_acquire(|connection, _| Box::pin(async move { Ok(!connection.is_in_transaction()) }))
        .after_connect(move |connection, _| Box::pin(set_up(backend, connection)))
        .connect(&url)
        .await?;
    migrator(backend, up_to).run(&pool).await?;
    Ok(pool)
}

/// Makes a new connection ready.
async fn set_up(backend: Backend, connection: &mut AnyConnection) -> Result<(), sqlx::Error> {
    if backend == Backend::Sqlite {
        // Pages of 8 kB (a new file's; an old one keeps its own): a row of what is known takes up to a kilobyte, and with 4 kB the
        // tree of such rows is deep. Synchronous full: what is acknowledged outlives a power cut. Temporary data in memory: what
        // undoes half a statement would otherwise go through a file for every statement of many rows. Moving the log into the
        // file is `checkpoints`' work; the limit here, 128 MB, is for when that can't keep up.
        let settings = "PRAGMA page_size = 8192; PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; \
                        PRAGMA busy_timeout = 30000; PRAGMA foreign_keys = ON; PRAGMA cache_size = -32768; \
                        PRAGMA temp_store = MEMORY; PRAGMA wal_autocheckpoint = 16384;";
        sqlx::raw_sql(settings).execute(connection).await?;
    }
    Ok(())
}

fn migrator(backend: Backend, up_to: Option<i64>) -> Migrator {
    let migrations: Vec<Migration> = MIGRATIONS
        .iter()
        .filter(|(version, ..)| up_to.is_none_or(|last| *version <= last))
        .map(|(version, name, sqlite, postgres)| {
            let sql = match backend {
                Backend::Sqlite => *sqlite,
                Backend::Postgres => *postgres,
            };
            Migration::new(*version, Cow::Borrowed(*name), MigrationType::Simple, sql.into_sql_str(), false)
        })
        .collect();
    Migrator { migrations: Cow::Owned(migrations), ..Migrator::DEFAULT }
}

/// Versions of the schema, the first first.
pub fn schema_versions() -> impl Iterator<Item = i64> {
    MIGRATIONS.iter().map(|(version, ..)| *version)
}

impl Backend {
    /// Begins a transaction that writes: at once, so that it never has to give way half-way.
    pub(crate) async fn begin_write(self, pool: &AnyPool) -> Result<Transaction<'static, Any>, sqlx::Error> {
        match self {
            Backend::Sqlite => pool.begin_with("BEGIN IMMEDIATE").await,
            Backend::Postgres => pool.begin().await,
        }
    }

    /// The same on that connection.
    pub(crate) async fn begin_write_on(
        self,
        connection: &mut AnyConnection,
    ) -> Result<Transaction<'_, Any>, sqlx::Error> {
        match self {
            Backend::Sqlite => connection.begin_with("BEGIN IMMEDIATE").await,
            Backend::Postgres => connection.begin().await,
        }
    }

    /// A connection for the one who writes events, with more memory for what it has read.
    pub(crate) async fn writing(self, pool: &AnyPool) -> Result<PoolConnection<Any>, sqlx::Error> {
        let mut connection = pool.acquire().await?;
        if self == Backend::Sqlite {
            sqlx::raw_sql("PRAGMA cache_size = -131072").execute(&mut *connection).await?;
        }
        Ok(connection)
    }

    /// Begins a transaction that sees the record as it is now, whatever is written meanwhile.
    pub(crate) async fn begin_snapshot(self, pool: &AnyPool) -> Result<Transaction<'static, Any>, sqlx::Error> {
        match self {
            Backend::Sqlite => pool.begin().await,
            Backend::Postgres => pool.begin_with("BEGIN ISOLATION LEVEL REPEATABLE READ").await,
        }
    }

    /// Reads the last link of a chain; other writers wait from here on.
    pub(crate) fn head(self) -> AssertSqlSafe<&'static str> {
        AssertSqlSafe(match self {
            Backend::Sqlite => "SELECT position, digest FROM head WHERE chain = $1",
            Backend::Postgres => "SELECT position, digest FROM head WHERE chain = $1 FOR UPDATE",
        })
    }

    /// What is known, to be found by its place. `SQLite` has to be told how: it takes an index that is in the order asked for to be
    /// better, and would go through all there is.
    pub(crate) fn known_by_place(self) -> &'static str {
        match self {
            Backend::Sqlite => "known INDEXED BY known_by_cell",
            Backend::Postgres => "known",
        }
    }

    /// Finds the next job to do; workers that look at the same time find different ones.
    pub(crate) fn next_job(self) -> AssertSqlSafe<&'static str> {
        AssertSqlSafe(match self {
            Backend::Sqlite => {
                "SELECT id FROM job WHERE state = 'waiting' OR (state = 'working' AND held_until <= $1) \
                 ORDER BY asked_at LIMIT 1"
            }
            Backend::Postgres => {
                "SELECT id FROM job WHERE state = 'waiting' OR (state = 'working' AND held_until <= $1) \
                 ORDER BY asked_at LIMIT 1 FOR UPDATE SKIP LOCKED"
            }
        })
    }
}
