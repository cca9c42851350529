//! Finding, installing and running other programs.

use std::ffi::OsStr;
use std::path::PathBuf;
use std::process::{Command, Stdio};

/// What every chore gives: nothing, or a sentence for the person at the keyboard.
pub type Outcome = Result<(), String>;

/// The repository's root.
pub fn root() -> PathBuf {
    // As cargo says when it runs this: builds are shared between checkouts, so where it was compiled may be another one.
    let own = std::env::var_os("CARGO_MANIFEST_DIR").map(PathBuf::from);
    let own = own.unwrap_or_else(|| env!("CARGO_MANIFEST_DIR").into());
    own.parent().expect("xtask lies in the repository").to_path_buf()
}

/// Where builds go: outside the checkout, so that a fresh clone does not compile the PDF library again.
pub fn target_folder() -> PathBuf {
    if let Some(given) = std::env::var_os("CARGO_TARGET_DIR") {
        return given.into();
    }
    let cache = std::env::var_os("XDG_CACHE_HOME").map(PathBuf::from).or_else(|| {
        std::env::var_os("HOME")
            .or_else(|| std::env::var_os("USERPROFILE"))
            .map(|home| PathBuf::from(home).join(".cache"))
    });
    cache.map_or_else(|| root().join("target"), |folder| folder.join("lengthsman").join("target"))
}

/// A cargo call in the repository, building outside the checkout. Without the compiler's notes for building a crate
/// again in part: they take several times the room of what is built, and a chore builds each commit once.
pub fn cargo(arguments: &[&str]) -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.args(arguments).current_dir(root());
    command.env("CARGO_TARGET_DIR", target_folder()).env("CARGO_INCREMENTAL", "0");
    command
}

/// Runs a command, saying what it is.
pub fn run(what: &str, command: &mut Command) -> Outcome {
    eprintln!("== {what}");
    let status = command.status().map_err(|error| format!("{what}: could not start: {error}"))?;
    if status.success() { Ok(()) } else { Err(format!("{what}: {status}")) }
}

/// Whether a program answers.
pub fn answers(program: impl AsRef<OsStr>, argument: &str) -> bool {
    Command::new(program).arg(argument).stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok_and(|s| s.success())
}

/// Makes sure that a program from a Debian package is there: installs it as root where apt-get is, otherwise says what
/// to install.
pub fn need(program: &str, version_argument: &str, package: &str) -> Outcome {
    need_that(program, &|| answers(program, version_argument), package)
}

/// Makes sure that something of a Debian package works.
pub fn need_that(program: &str, works: &dyn Fn() -> bool, package: &str) -> Outcome {
    if works() {
        return Ok(());
    }
    let ask =
        format!("`{program}` is missing: install the package `{package}` ({program} on other systems), then run again");
    if !(answers("apt-get", "--version") && is_root()) {
        return Err(ask);
    }
    let quiet = |arguments: &[&str]| {
        Command::new("apt-get").args(arguments).env("DEBIAN_FRONTEND", "noninteractive").stdout(Stdio::null()).status()
    };
    eprintln!("== installing {package}");
    let _ = quiet(&["update", "-q"]);
    let _ = quiet(&["install", "-q", "-y", "--no-install-recommends", package]);
    if works() { Ok(()) } else { Err(ask) }
}

/// Whether all is allowed to us.
pub fn is_root() -> bool {
    Command::new("id").arg("-u").output().is_ok_and(|output| output.stdout.starts_with(b"0\n"))
}
