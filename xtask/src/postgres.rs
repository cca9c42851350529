//! A `PostgreSQL` for tests: of our own, on a socket in a temporary folder, gone when the tests end.

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use crate::tools::{Outcome, answers, is_root, need, run};

/// Tests read here where they may make databases.
const VARIABLE: &str = "LENGTHSMAN_TEST_POSTGRES";

/// Debian keeps the programs here, a folder for each version, and not on the path.
const DEBIAN_FOLDER: &str = "/usr/lib/postgresql";

/// Who runs it when we are root, whom it refuses; the Debian package makes this user.
const USER: &str = "postgres";

/// How long it may take to begin, in steps of a tenth of a second.
const PATIENCE_STEPS: u32 = 600;

/// A server, stopped and removed when this is dropped.
pub struct Server {
    /// `None`: somebody else's, given by the environment.
    own: Option<Own>,
    url: String,
}

struct Own {
    folder: PathBuf,
    programs: Programs,
    postmaster: Child,
}

/// Where the programs are; empty: on the path.
struct Programs(PathBuf);

/// Runs a command beside such a server: `cargo xtask with-postgres cargo nextest run --package journal`.
pub fn with_postgres(arguments: &[String]) -> Outcome {
    let [program, rest @ ..] = arguments else {
        return Err("say which command to run".to_owned());
    };
    let server = Server::start()?;
    run(program, server.told_to(Command::new(program).args(rest)))
}

/// Makes sure that a server can be started: installs it, or says what to install.
pub fn need_postgres() -> Outcome {
    if std::env::var_os(VARIABLE).is_some() { Ok(()) } else { Programs::find().map(|_| ()) }
}

impl Server {
    /// Starts one, installing it first where that is needed and can be done; or takes the one that the environment names.
    pub fn start() -> Result<Self, String> {
        if let Ok(url) = std::env::var(VARIABLE) {
            return Ok(Self { own: None, url });
        }
        let programs = Programs::find()?;
        eprintln!("== starting a PostgreSQL for the tests");
        let own = Own::start(programs)?;
        let url = format!("postgres://postgres@localhost/postgres?host={}", own.folder.display());
        Ok(Self { own: Some(own), url })
    }

    /// Tells a command where the server is.
    pub fn told_to<'c>(&self, command: &'c mut Command) -> &'c mut Command {
        command.env(VARIABLE, &self.url)
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let Some(own) = &mut self.own else { return };
        // a failure to stop it must not hide how the tests ended
        if let Err(what) = own.stop() {
            eprintln!("xtask: the tests' PostgreSQL could not be stopped: {what}");
        }
        let _ = fs::remove_dir_all(&own.folder);
    }
}

impl Own {
    fn start(programs: Programs) -> Result<Self, String> {
        let folder = std::env::temp_dir().join(format!("lengthsman-postgres-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        make_folder(&folder)?;
        let started = Self::start_in(&folder, programs);
        if started.is_err() {
            let _ = fs::remove_dir_all(&folder);
        }
        started
    }

    fn start_in(folder: &Path, programs: Programs) -> Result<Self, String> {
        let data = folder.join("data");
        let mut initdb = programs.command("initdb");
        initdb.arg("-D").arg(&data).args(["-A", "trust", "-U", "postgres", "-E", "UTF8", "--locale=C"]);
        silently("initdb", &mut initdb)?;
        let log = fs::File::create(folder.join("log")).map_err(|error| error.to_string())?;
        // A child of ours and not of `pg_ctl`: an interrupt from the keyboard reaches it as well.
        let mut postgres = programs.command("postgres");
        postgres.arg("-D").arg(&data).arg("-k").arg(folder).args(["-c", "listen_addresses="]);
        // as a real one: what is committed is on disk
        postgres.args(["-c", "fsync=on", "-c", "max_connections=300"]);
        postgres.stdin(Stdio::null()).stdout(Stdio::null()).stderr(log);
        let postmaster = postgres.spawn().map_err(|error| format!("postgres: {error}"))?;
        let mut own = Self { folder: folder.to_owned(), programs, postmaster };
        own.wait_until_ready().inspect_err(|_| {
            let _ = own.stop();
        })?;
        Ok(own)
    }

    fn wait_until_ready(&mut self) -> Outcome {
        for _ in 0..PATIENCE_STEPS {
            let mut asked = self.programs.command("pg_isready");
            asked.arg("-q").arg("-h").arg(&self.folder);
            if asked.status().is_ok_and(|status| status.success()) {
                return Ok(());
            }
            if let Ok(Some(status)) = self.postmaster.try_wait() {
                let log = fs::read_to_string(self.folder.join("log")).unwrap_or_default();
                return Err(format!("the tests' PostgreSQL ended with {status}:\n{log}"));
            }
            std::thread::sleep(Duration::from_millis(100));
        }
        Err("the tests' PostgreSQL does not answer".to_owned())
    }

    fn stop(&mut self) -> Outcome {
        if !matches!(self.postmaster.try_wait(), Ok(Some(_))) {
            let mut stop = self.programs.command("pg_ctl");
            stop.arg("-D").arg(self.folder.join("data")).args(["-m", "immediate", "-w", "stop"]);
            let stopped = silently("pg_ctl stop", &mut stop);
            if stopped.is_err() {
                let _ = self.postmaster.kill();
            }
            self.postmaster.wait().map_err(|error| error.to_string())?;
            stopped?;
        }
        Ok(())
    }
}

impl Programs {
    fn find() -> Result<Self, String> {
        if let Some(found) = Self::look() {
            return Ok(found);
        }
        // answers after the installation, wherever the server's own programs went
        need("psql", "--version", "postgresql")?;
        Self::look().ok_or_else(|| {
            format!("`initdb` is missing: install the package `postgresql` (the server), or name one in {VARIABLE}")
        })
    }

    fn look() -> Option<Self> {
        let mut versions: Vec<(u32, PathBuf)> = fs::read_dir(DEBIAN_FOLDER)
            .into_iter()
            .flatten()
            .flatten()
            .filter_map(|entry| Some((entry.file_name().to_str()?.parse().ok()?, entry.path().join("bin"))))
            .filter(|(_, folder)| folder.join("initdb").exists())
            .collect();
        versions.sort();
        let newest = versions.pop().map(|(_, folder)| Self(folder));
        newest.or_else(|| answers("initdb", "--version").then(|| Self(PathBuf::new())))
    }

    /// A call of one of them, as somebody who is not root.
    fn command(&self, name: &str) -> Command {
        let program = self.0.join(name);
        let mut command = if is_root() {
            let mut command = Command::new("setpriv");
            let [user, group] = ["--reuid", "--regid"].map(|what| format!("{what}={USER}"));
            command.args([&user, &group, "--init-groups", "--"]).arg(program);
            command
        } else {
            Command::new(program)
        };
        // where everybody may be
        command.current_dir("/").env_remove("PGDATA").env_remove("PGPORT");
        command
    }
}

/// Makes a folder for whoever will run the server, and for nobody else.
fn make_folder(folder: &Path) -> Outcome {
    let mut install = Command::new("install");
    if is_root() {
        install.args(["-o", USER, "-g", USER]);
    }
    let mode: [&OsStr; 3] = ["-d".as_ref(), "-m".as_ref(), "700".as_ref()];
    silently("making a folder for PostgreSQL", install.args(mode).arg(folder))
}

/// Runs a command and shows what it said only if it fails.
fn silently(what: &str, command: &mut Command) -> Outcome {
    let output = command.stdin(Stdio::null()).output().map_err(|error| format!("{what}: could not start: {error}"))?;
    if output.status.success() {
        return Ok(());
    }
    let said = [output.stdout, output.stderr].map(|bytes| String::from_utf8_lossy(&bytes).into_owned()).concat();
    Err(format!("{what}: {}\n{said}", output.status))
}
