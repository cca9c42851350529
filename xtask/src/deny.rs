//! What others' code we build on: its licences, where it comes from, its known weaknesses (`deny.toml`).

use std::path::PathBuf;
use std::process::Command;

use crate::tools::{Outcome, answers, cargo, root, run, target_folder};

/// Installed in this version, so that the same file means the same next year.
const VERSION: &str = "0.20.2";

/// Checks the tree of dependencies; installs the checker first where it is missing.
pub fn deny() -> Outcome {
    let program = program()?;
    run("licences and sources of dependencies", checker(&program).args(["check", "licenses", "bans", "sources"]))?;
    // The list of weaknesses lies on a site of its own and not in the registry: a machine may reach one and not the other.
    eprintln!("== known weaknesses of dependencies");
    let fetched = checker(&program).args(["fetch", "db"]).output();
    if !fetched.is_ok_and(|output| output.status.success()) {
        eprintln!("NOT CHECKED: the list of known weaknesses can't be fetched from here");
        return Ok(());
    }
    run("checking them", checker(&program).args(["check", "advisories"]))
}

fn checker(program: &PathBuf) -> Command {
    let mut command = Command::new(program);
    command.args(["--log-level", "error", "--all-features"]).current_dir(root());
    command
}

/// The checker: the one on the path, or our own beside the builds.
fn program() -> Result<PathBuf, String> {
    if answers("cargo-deny", "--version") {
        return Ok("cargo-deny".into());
    }
    let tools = target_folder().join("tools");
    let own = tools.join("bin").join("cargo-deny");
    if !answers(&own, "--version") {
        let mut install = cargo(&["install", "--quiet", "--locked", "cargo-deny", "--version", VERSION]);
        // what its building leaves is of no use to ours
        install.arg("--root").arg(&tools).env_remove("CARGO_TARGET_DIR");
        run("installing cargo-deny (once, some minutes)", &mut install)?;
    }
    Ok(own)
}
