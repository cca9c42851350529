//! Backups: the whole record and its photos in one file, which any store can be filled from.
//!
//! The file is a ZIP archive. Each table is a file of lines, a JSON array for each row, bytes in hexadecimal digits; photos lie
//! beside them as they are; `manifest.json` comes last and has the SHA-256 and length of every other file. It is made from one
//! snapshot of the database, so that it can be made while others write. What can be worked out again is not in it, and who is
//! signed in is not either.

use std::fs::{self, File};
use std::io::{BufRead as _, BufReader, BufWriter, Read, Write};
use std::path::{Path, PathBuf};

use futures_util::TryStreamExt as _;
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use sha2::{Digest as _, Sha256};
use sqlx::any::AnyRow;
use sqlx::{AssertSqlSafe, Row as _};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use crate::chain::hexadecimal;
use crate::journal::{Journal, JournalError};
use crate::rows::{places, runs};
use crate::store::Backend;

/// Form that is written today; older ones are read.
const FORMAT: u32 = 4;
const MANIFEST: &str = "manifest.json";

/// What a column holds.
#[derive(Debug, Clone, Copy)]
enum Column {
    Whole,
    Text,
    Bytes,
}
use Column::{Bytes, Text, Whole};

/// A table as it is written.
struct Table {
    name: &'static str,
    columns: &'static [(&'static str, Column)],
    /// Which rows.
    rows: &'static str,
    /// Form of backups that it came with; older ones have none.
    since: u32,
}

const TABLES: [Table; 11] = [
    Table {
        name: "head",
        columns: &[("chain", Text), ("position", Whole), ("digest", Bytes)],
        rows: "ORDER BY chain",
        since: 1,
    },
    Table {
        name: "event",
        columns: &[
            ("position", Whole),
            ("id", Bytes),
            ("happened_at", Whole),
            ("server_time", Whole),
            ("actor", Text),
            ("device", Text),
            ("kind", Text),
            ("body", Text),
            ("digest", Bytes),
        ],
        rows: "ORDER BY position",
        since: 1,
    },
    Table {
        name: "event_subject",
        columns: &[("subject", Bytes), ("position", Whole)],
        rows: "ORDER BY subject, position",
        since: 1,
    },
    Table {
        name: "contact",
        columns: &[("id", Bytes), ("body", Text), ("taken_at", Whole), ("forget_at", Whole)],
        rows: "ORDER BY id",
        since: 1,
    },
    Table {
        name: "photo",
        columns: &[("digest", Bytes), ("media_type", Text), ("size", Whole), ("finished_at", Whole), ("place", Text)],
        rows: "ORDER BY digest",
        // the first form had its name, and never a row
        since: 2,
    },
    Table {
        name: "account",
        columns: &[
            ("id", Bytes),
            ("name", Text),
            ("role", Text),
            ("password", Text),
            ("crew", Text),
            ("made_at", Whole),
            ("closed_at", Whole),
        ],
        rows: "ORDER BY id",
        since: 1,
    },
    Table {
        name: "audit",
        columns: &[("position", Whole), ("at", Whole), ("body", Text), ("digest", Bytes)],
        rows: "ORDER BY position",
        since: 1,
    },
    Table {
        name: "refused",
        columns: &[
            ("digest", Bytes),
            ("at", Whole),
            ("actor", Text),
            ("device", Text),
            ("why", Text),
            ("bytes", Whole),
            ("body", Text),
        ],
        rows: "ORDER BY digest",
        since: 2,
    },
    Table {
        name: "taken_plan",
        columns: &[("round", Bytes), ("job", Bytes), ("at", Whole)],
        rows: "ORDER BY round",
        since: 3,
    },
    Table {
        name: "plan_file",
        columns: &[
            ("job", Bytes),
            ("round", Bytes),
            ("name", Text),
            ("media_type", Text),
            ("at", Whole),
            ("size", Whole),
            ("digest", Bytes),
            ("content", Bytes),
        ],
        // of a round that was planned again, only what its crew goes by
        rows: "WHERE EXISTS (SELECT 1 FROM taken_plan WHERE taken_plan.job = plan_file.job AND taken_plan.round = plan_file.round) \
               ORDER BY job, round, name",
        since: 3,
    },
    Table {
        name: "gone",
        columns: &[("subject", Bytes), ("what", Text), ("position", Whole)],
        rows: "ORDER BY subject",
        since: 4,
    },
];

/// So many bytes of lines are put into the record at a time.
const TOGETHER: usize = 8 << 20;

/// What is in a backup.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Manifest {
    /// Of the file's form.
    pub format: u32,
    /// When it was made.
    pub made_at: Timestamp,
    /// Last position of the record in it.
    pub position: u64,
    /// Digest of that.
    pub digest: String,
    /// The other files.
    pub files: Vec<InBackup>,
}

/// A file in a backup.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct InBackup {
    /// Name in the archive.
    pub name: String,
    /// Length.
    pub bytes: u64,
    /// SHA-256, hexadecimal.
    pub sha256: String,
}

/// Writes a backup. The file is complete or not there: it gets its name when all is on disk.
pub async fn write(
    journal: &Journal,
    photos: &Path,
    file: &Path,
    now: Timestamp,
    tell: &mut (dyn FnMut(&str) + Send),
) -> Result<Manifest, JournalError> {
    let unfinished = file.with_extension("unfinished");
    let at = |error: &dyn std::fmt::Display| JournalError::File(format!("{}: {error}", unfinished.display()));
    let mut archive = Archive {
        zip: ZipWriter::new(BufWriter::new(File::create(&unfinished).map_err(|error| at(&error))?)),
        files: Vec::new(),
    };
    let mut snapshot = journal.backend.begin_snapshot(&journal.pool).await?;
    let mut position = 0;
    let mut digest = String::new();
    for table in &TABLES {
        archive.begin(&format!("{}.lines", table.name), CompressionMethod::Deflated).map_err(|error| at(&error))?;
        let names: Vec<&str> = table.columns.iter().map(|(name, _)| *name).collect();
        let sql = format!("SELECT {} FROM {} {}", names.join(", "), table.name, table.rows);
        let mut rows = sqlx::query(AssertSqlSafe(sql)).fetch(&mut *snapshot);
        let mut count = 0_u64;
        while let Some(row) = rows.try_next().await? {
            let line = line_of(&row, table.columns);
            archive.write(line.as_bytes()).map_err(|error| at(&error))?;
            count += 1;
            if count.is_multiple_of(100_000) {
                tell(&format!("{}: {count} rows", table.name));
            }
            if table.name == "head" && row.get::<&str, _>(0) == "event" {
                position = row.get::<i64, _>(1).cast_unsigned();
                digest = hexadecimal(&row.get::<Vec<u8>, _>(2));
            }
        }
        tell(&format!("{}: {count} rows", table.name));
    }
    for path in files_below(photos) {
        let name = format!("photos/{}", path.file_name().unwrap_or_default().to_string_lossy());
        let mut photo =
            File::open(&path).map_err(|error| JournalError::File(format!("{}: {error}", path.display())))?;
        archive.begin(&name, CompressionMethod::Stored).map_err(|error| at(&error))?;
        let mut buffer = vec![0; 1 << 16];
        loop {
            let read =
                photo.read(&mut buffer).map_err(|error| JournalError::File(format!("{}: {error}", path.display())))?;
            if read == 0 {
                break;
            }
            archive.write(&buffer[..read]).map_err(|error| at(&error))?;
        }
    }
    let manifest = archive.finish(now, position, digest).map_err(|error| at(&error))?;
    fs::rename(&unfinished, file).map_err(|error| JournalError::File(format!("{}: {error}", file.display())))?;
    Ok(manifest)
}

/// Reads a backup through and compares every file with its checksum.
pub fn verify(file: &Path) -> Result<Manifest, JournalError> {
    let wrong = |what: String| JournalError::File(format!("{}: {what}", file.display()));
    let mut archive = open(file)?;
    let manifest = read_manifest(file, &mut archive)?;
    for listed in &manifest.files {
        let mut entry =
            archive.by_name(&listed.name).map_err(|error| wrong(format!("{} is missing: {error}", listed.name)))?;
        let mut hasher = Sha256::new();
        let mut bytes = 0;
        let mut buffer = vec![0; 1 << 16];
        loop {
            let read = entry.read(&mut buffer).map_err(|error| wrong(format!("{}: {error}", listed.name)))?;
            if read == 0 {
                break;
            }
            hasher.update(&buffer[..read]);
            bytes += read as u64;
        }
        if bytes != listed.bytes || hexadecimal(&hasher.finalize()) != listed.sha256 {
            return Err(wrong(format!("{} is not what was written: its checksum differs", listed.name)));
        }
    }
    Ok(manifest)
}

/// Fills an empty record and a folder of photos from a backup, which is verified first. Works out what is known anew, and
/// follows both chains. All of it or nothing goes into the record.
pub async fn restore(
    journal: &Journal,
    photos: &Path,
    file: &Path,
    tell: &mut (dyn FnMut(&str) + Send),
) -> Result<Manifest, JournalError> {
    let wrong = |what: String| JournalError::File(format!("{}: {what}", file.display()));
    let manifest = verify(file)?;
    tell("every file is as it was written");
    let mut transaction = journal.backend.begin_write(&journal.pool).await?;
    let head = sqlx::query("SELECT MAX(position) FROM head").fetch_one(&mut *transaction).await?;
    let begun: i64 = head.try_get::<i64, _>(0).unwrap_or(1);
    if begun != 0 {
        return Err(wrong("the record is not empty; restore into a new one".to_owned()));
    }
    sqlx::query("DELETE FROM head").execute(&mut *transaction).await?;
    sqlx::query("DELETE FROM pass").execute(&mut *transaction).await?;
    let mut archive = open(file)?;
    for table in TABLES.iter().filter(|table| table.since <= manifest.format) {
        let name = format!("{}.lines", table.name);
        let entry = archive.by_name(&name).map_err(|error| wrong(format!("{name}: {error}")))?;
        let mut rows = Vec::new();
        let mut bytes = 0;
        let mut count = 0;
        for (index, line) in BufReader::new(entry).lines().enumerate() {
            let line = line.map_err(|error| wrong(format!("{name}: {error}")))?;
            let row: Vec<Value> =
                serde_json::from_str(&line).map_err(|error| wrong(format!("{name}, line {}: {error}", index + 1)))?;
            if row.len() != table.columns.len() {
                return Err(wrong(format!("{name}, line {}: {} columns are wanted", index + 1, table.columns.len())));
            }
            rows.push(row);
            count += 1;
            bytes += line.len();
            if rows.len() == 2_000 || bytes > TOGETHER {
                insert(&mut transaction, journal.backend, table, &rows).await?;
                rows.clear();
                bytes = 0;
            }
        }
        insert(&mut transaction, journal.backend, table, &rows).await?;
        tell(&format!("{}: {count} rows", table.name));
    }
    for listed in manifest.files.iter().filter(|listed| listed.name.starts_with("photos/")) {
        let path =
            photo_path(photos, &listed.name).ok_or_else(|| wrong(format!("{} is no name of a photo", listed.name)))?;
        let put = |error: std::io::Error| JournalError::File(format!("{}: {error}", path.display()));
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder).map_err(put)?;
        }
        let mut entry = archive.by_name(&listed.name).map_err(|error| wrong(format!("{}: {error}", listed.name)))?;
        let mut target = File::create(&path).map_err(put)?;
        std::io::copy(&mut entry, &mut target).map_err(put)?;
        target.sync_all().map_err(put)?;
    }
    transaction.commit().await?;
    let subjects = journal.make_anew().await?;
    tell(&format!("{subjects} holes, repairs, zones and rounds worked out anew"));
    for followed in [journal.follow_events().await?, journal.follow_audit().await?] {
        if let Err(broken) = followed {
            return Err(wrong(format!("the chain is broken at entry {}: {}", broken.position, broken.words)));
        }
    }
    Ok(manifest)
}

/// Where a photo lies in its folder: below the first two digits of its digest. `None`: not the name of a photo.
pub fn photo_path(photos: &Path, name: &str) -> Option<PathBuf> {
    let digest = name.strip_prefix("photos/").unwrap_or(name);
    let is_digest = digest.len() == 64 && digest.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f'));
    is_digest.then(|| photos.join(&digest[..2]).join(digest))
}

struct Archive {
    zip: ZipWriter<BufWriter<File>>,
    files: Vec<(String, u64, Sha256)>,
}

impl Archive {
    fn begin(&mut self, name: &str, method: CompressionMethod) -> zip::result::ZipResult<()> {
        self.zip.start_file(name, SimpleFileOptions::default().compression_method(method).large_file(true))?;
        self.files.push((name.to_owned(), 0, Sha256::new()));
        Ok(())
    }

    fn write(&mut self, bytes: &[u8]) -> std::io::Result<()> {
        self.zip.write_all(bytes)?;
        if let Some((_, length, hasher)) = self.files.last_mut() {
            *length += bytes.len() as u64;
            hasher.update(bytes);
        }
        Ok(())
    }

    fn finish(mut self, made_at: Timestamp, position: u64, digest: String) -> std::io::Result<Manifest> {
        let files = self
            .files
            .into_iter()
            .map(|(name, bytes, hasher)| InBackup { name, bytes, sha256: hexadecimal(&hasher.finalize()) })
            .collect();
        let manifest = Manifest { format: FORMAT, made_at, position, digest, files };
        self.zip.start_file(MANIFEST, SimpleFileOptions::default()).map_err(std::io::Error::other)?;
        self.zip.write_all(&serde_json::to_vec_pretty(&manifest)?)?;
        let file = self.zip.finish().map_err(std::io::Error::other)?;
        file.into_inner().map_err(std::io::IntoInnerError::into_error)?.sync_all()?;
        Ok(manifest)
    }
}

fn open(file: &Path) -> Result<ZipArchive<BufReader<File>>, JournalError> {
    let wrong = |what: String| JournalError::File(format!("{}: {what}", file.display()));
    let opened = File::open(file).map_err(|error| wrong(error.to_string()))?;
    ZipArchive::new(BufReader::new(opened)).map_err(|error| wrong(format!("it is no complete backup: {error}")))
}

fn read_manifest(file: &Path, archive: &mut ZipArchive<BufReader<File>>) -> Result<Manifest, JournalError> {
    let wrong = |what: String| JournalError::File(format!("{}: {what}", file.display()));
    let entry = archive.by_name(MANIFEST).map_err(|error| wrong(format!("it is no complete backup: {error}")))?;
    let manifest: Manifest = serde_json::from_reader(entry).map_err(|error| wrong(format!("{MANIFEST}: {error}")))?;
    if !(1..=FORMAT).contains(&manifest.format) {
        return Err(wrong(format!("it is written in form {}; this program reads 1 to {FORMAT}", manifest.format)));
    }
    Ok(manifest)
}

fn line_of(row: &AnyRow, columns: &[(&str, Column)]) -> String {
    let values: Vec<Value> = columns
        .iter()
        .enumerate()
        .map(|(index, (_, column))| match column {
            Whole => Value::from(row.get::<i64, _>(index)),
            Text => Value::from(row.get::<&str, _>(index)),
            Bytes => Value::from(hexadecimal(&row.get::<Vec<u8>, _>(index))),
        })
        .collect();
    let mut line = Value::Array(values).to_string();
    line.push('\n');
    line
}

async fn insert(
    connection: &mut sqlx::AnyConnection,
    backend: Backend,
    table: &Table,
    rows: &[Vec<Value>],
) -> Result<(), JournalError> {
    let names: Vec<&str> = table.columns.iter().map(|(name, _)| *name).collect();
    for run in runs(rows) {
        let sql = format!(
            "INSERT INTO {} ({}) VALUES {}",
            table.name,
            names.join(", "),
            places(backend, run.len(), table.columns.len())
        );
        let mut query = sqlx::query(AssertSqlSafe(sql));
        for row in run {
            for (value, (name, column)) in row.iter().zip(table.columns) {
                let wrong = || JournalError::File(format!("{}.{name}: `{value}` can't be that", table.name));
                query = match column {
                    Whole => query.bind(value.as_i64().ok_or_else(wrong)?),
                    Text => query.bind(value.as_str().ok_or_else(wrong)?),
                    Bytes => query.bind(value.as_str().and_then(from_hexadecimal).ok_or_else(wrong)?),
                };
            }
        }
        query.execute(&mut *connection).await?;
    }
    Ok(())
}

fn from_hexadecimal(text: &str) -> Option<Vec<u8>> {
    if !text.len().is_multiple_of(2) || !text.is_ascii() {
        return None;
    }
    (0..text.len()).step_by(2).map(|at| u8::from_str_radix(&text[at..at + 2], 16).ok()).collect()
}

/// Files in the folders of a folder, sorted; nothing where it is not there.
fn files_below(folder: &Path) -> Vec<PathBuf> {
    let entries = |path: &Path| -> Vec<PathBuf> {
        fs::read_dir(path).map(|all| all.filter_map(|entry| Some(entry.ok()?.path())).collect()).unwrap_or_default()
    };
    let mut files: Vec<PathBuf> = entries(folder)
        .iter()
        .flat_map(|inner| entries(inner))
        .filter(|path| path.file_name().is_some_and(|name| photo_path(folder, &name.to_string_lossy()).is_some()))
        .collect();
    files.sort_unstable();
    files
}
