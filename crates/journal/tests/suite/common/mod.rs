//! Records to test on: one in a file of its own, and one in a database of its own where a server for tests is given.

use std::sync::atomic::{AtomicU32, Ordering};

use journal::Journal;
use journal::store::Location;
use sqlx::{Connection as _, Executor as _};
use tempfile::TempDir;

pub mod compared;
pub mod histories;

/// Environment variable with the URL of a `PostgreSQL` in which tests may make databases; the test command sets it.
const SERVER: &str = "LENGTHSMAN_TEST_POSTGRES";

static COUNT: AtomicU32 = AtomicU32::new(0);

/// A place for a record, gone with it.
pub struct Place {
    pub location: Location,
    /// Held so that the folder lasts.
    _folder: Option<TempDir>,
}

impl Place {
    pub fn file() -> Self {
        let folder = TempDir::new().unwrap();
        Self { location: Location::in_folder(folder.path()), _folder: Some(folder) }
    }

    /// A new database on the server for tests; `None` where there is no such server.
    pub async fn server() -> Option<Self> {
        let Ok(url) = std::env::var(SERVER) else {
            eprintln!("skipped on PostgreSQL: {SERVER} is not set");
            return None;
        };
        let name = format!("test_{}_{}", std::process::id(), COUNT.fetch_add(1, Ordering::Relaxed));
        let mut connection = sqlx::PgConnection::connect(&url).await.unwrap();
        // left there by a process of the same number, long ago
        connection.execute(sqlx::AssertSqlSafe(format!("DROP DATABASE IF EXISTS {name} WITH (FORCE)"))).await.unwrap();
        connection.execute(sqlx::AssertSqlSafe(format!("CREATE DATABASE {name}"))).await.unwrap();
        let (before, options) = url.split_once('?').map_or((url.as_str(), ""), |(before, options)| (before, options));
        let (server, _) = before.rsplit_once('/').unwrap();
        Some(Self { location: Location::Server(format!("{server}/{name}?{options}")), _folder: None })
    }

    /// Every store there is.
    pub async fn all() -> Vec<Self> {
        let mut all = vec![Self::file()];
        all.extend(Self::server().await);
        all
    }

    pub async fn open(&self) -> Journal {
        Journal::open(&self.location).await.unwrap()
    }
}
