//! Where a record is, and what keeps it safe: backups, and the chain that shows whether something was changed.

use std::path::{Path, PathBuf};

use jiff::Timestamp;
use journal::Journal;
use journal::store::Location;

use crate::outcome::Outcome;

/// Where a record is.
#[derive(Debug, clap::Args)]
pub(crate) struct RecordFlags {
    /// Folder of the record: its database, photos and the district file.
    #[arg(long, value_name = "DIR")]
    pub data: PathBuf,
    /// Database of the record in place of the file in the folder: a URL that begins with `postgres:`.
    #[arg(long, value_name = "URL")]
    pub store: Option<String>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct BackupArguments {
    #[command(flatten)]
    record: RecordFlags,
    /// File to write.
    #[arg(long, value_name = "FILE")]
    to: PathBuf,
}

#[derive(Debug, clap::Args)]
pub(crate) struct RestoreArguments {
    /// The backup.
    file: PathBuf,
    #[command(flatten)]
    record: RecordFlags,
    /// Only read it through and compare the checksums.
    #[arg(long)]
    verify_only: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct AuditArguments {
    #[command(subcommand)]
    command: AuditCommand,
}

#[derive(Debug, clap::Subcommand)]
enum AuditCommand {
    /// Follow both chains of digests from the beginning: what happened, and who did what.
    Verify {
        #[command(flatten)]
        record: RecordFlags,
    },
}

impl RecordFlags {
    pub(crate) fn location(&self) -> Location {
        self.store.clone().map_or_else(|| Location::in_folder(&self.data), Location::Server)
    }

    pub(crate) fn photos(&self) -> PathBuf {
        self.data.join("photos")
    }

    /// Opens a record that is there; makes none by mistake.
    pub(crate) async fn open(&self) -> Result<Journal, String> {
        if let Location::File(file) = self.location()
            && !file.exists()
        {
            return Err(format!("{} is not there; `lengthsman serve` makes a new record", file.display()));
        }
        Journal::open(&self.location()).await.map_err(|error| error.to_string())
    }
}

pub(crate) fn backup(arguments: &BackupArguments) -> Outcome {
    run(async {
        let journal = arguments.record.open().await?;
        let photos = arguments.record.photos();
        let written = journal::backup::write(&journal, &photos, &arguments.to, now(), &mut tell)
            .await
            .map_err(|error| error.to_string())?;
        say!("{}: the record up to event {}, {} files", arguments.to.display(), written.position, written.files.len());
        say!("last digest {}", written.digest);
        Ok(())
    })
}

pub(crate) fn restore(arguments: &RestoreArguments) -> Outcome {
    run(async {
        if arguments.verify_only {
            let manifest = journal::backup::verify(&arguments.file).map_err(|error| error.to_string())?;
            say!("every file is as it was written at {}, up to event {}", manifest.made_at, manifest.position);
            return Ok(());
        }
        make_folder(&arguments.record.data)?;
        let journal = Journal::open(&arguments.record.location()).await.map_err(|error| error.to_string())?;
        let photos = arguments.record.photos();
        let manifest = journal::backup::restore(&journal, &photos, &arguments.file, &mut tell)
            .await
            .map_err(|error| error.to_string())?;
        say!("restored up to event {} of {}", manifest.position, manifest.made_at);
        Ok(())
    })
}

pub(crate) fn audit(arguments: &AuditArguments) -> Outcome {
    let AuditCommand::Verify { record } = &arguments.command;
    run(async {
        let journal = record.open().await?;
        let chains = [
            ("what happened", journal.follow_events().await.map_err(|error| error.to_string())?),
            ("who did what", journal.follow_audit().await.map_err(|error| error.to_string())?),
        ];
        let mut whole = true;
        for (name, followed) in chains {
            match followed {
                Ok((position, digest)) => {
                    say!("{name}: whole, {position} entries, last digest {}", journal::chain::hexadecimal(&digest));
                }
                Err(broken) => {
                    whole = false;
                    say!("{name}: broken at entry {}: {}", broken.position, broken.words);
                }
            }
        }
        if whole { Ok(()) } else { Err("the record was changed from outside; restore a backup made before".to_owned()) }
    })
}

/// Runs asynchronous work to its end; what went wrong is said.
pub(crate) fn run(work: impl Future<Output = Result<(), String>>) -> Outcome {
    let runtime = match tokio::runtime::Builder::new_multi_thread().enable_all().build() {
        Ok(runtime) => runtime,
        Err(error) => {
            eprintln!("error: {error}");
            return Outcome::NothingProduced;
        }
    };
    match runtime.block_on(work) {
        Ok(()) => Outcome::AllUsed,
        Err(error) => {
            eprintln!("error: {error}");
            Outcome::NothingProduced
        }
    }
}

pub(crate) fn make_folder(folder: &Path) -> Result<(), String> {
    std::fs::create_dir_all(folder).map_err(|error| format!("{}: {error}", folder.display()))
}

/// The time, for what is written down now.
#[expect(clippy::disallowed_methods, reason = "a record says when things were done")]
pub(crate) fn now() -> Timestamp {
    Timestamp::now()
}

fn tell(words: &str) {
    eprintln!("{words}");
}
