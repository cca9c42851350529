//! The web app: its packages, its build, its tests.

use std::fs;
use std::path::PathBuf;
use std::process::Command;

use crate::tools::{Outcome, answers, need, root, run, target_folder};

/// The oldest Node.js that the build tool runs on.
const NODE: (u32, u32) = (20, 19);

/// The release of Node.js that is fetched where the machine has none or an older one.
const NODE_PACKAGE: &str = "node@22";

/// Installs the packages and builds `web/dist`, which the program then takes in.
pub fn build() -> Outcome {
    packages()?;
    run("web app", &mut npm(&["run", "--silent", "build"])?)
}

/// Checks types, runs the tests of the logic, builds.
pub fn check_and_build() -> Outcome {
    packages()?;
    run("types of the web app", &mut npm(&["run", "--silent", "check"])?)?;
    run("logic of the web app", &mut npm(&["test", "--silent"])?)?;
    run("web app", &mut npm(&["run", "--silent", "build"])?)
}

/// Drives the built program with a browser.
pub fn browser_tests() -> Outcome {
    need("chromium", "--version", "chromium")?;
    let mut tests = npm(&["run", "--silent", "browser"])?;
    tests.env("LENGTHSMAN", program());
    run("web app in a browser", &mut tests)
}

/// Serves the invented district with its people and phones, until Ctrl-C.
pub fn serve_demo() -> Outcome {
    let mut served = npm(&["exec", "--", "vite-node", "browser/by_hand.ts"])?;
    served.arg(program()).arg("8099");
    run("the invented district, served", &mut served)
}

fn program() -> PathBuf {
    target_folder().join("debug").join("lengthsman")
}

/// Installs the packages that the lock file names, where that was not done since it changed.
fn packages() -> Outcome {
    let written = |path: &str| fs::metadata(root().join("web").join(path)).and_then(|file| file.modified()).ok();
    let installed = written("node_modules/.package-lock.json");
    if installed.is_some() && installed >= written("package-lock.json") {
        return Ok(());
    }
    run("packages of the web app", &mut npm(&["ci", "--silent", "--no-audit", "--no-fund"])?)
}

/// An npm call in the folder of the web app, with a Node.js that is new enough.
fn npm(arguments: &[&str]) -> Result<Command, String> {
    let fetched = target_folder().join("node");
    let folder = fetched.join("node_modules").join("node").join("bin");
    if !is_new_enough("node".into()) && !is_new_enough(folder.join("node")) {
        need("npm", "--version", "npm")?;
        let mut fetch = Command::new("npm");
        fetch.args(["install", "--silent", "--no-audit", "--no-fund", "--prefix"]).arg(&fetched).arg(NODE_PACKAGE);
        run("Node.js", &mut fetch)?;
    }
    let mut command = Command::new("npm");
    command.args(arguments).current_dir(root().join("web"));
    if !is_new_enough("node".into()) {
        let path = std::env::var_os("PATH").unwrap_or_default();
        let folders = std::iter::once(folder).chain(std::env::split_paths(&path));
        command.env("PATH", std::env::join_paths(folders).map_err(|error| error.to_string())?);
    }
    if !answers("npm", "--version") {
        return Err("`npm` is missing: install Node.js 20.19 or later, then run again".to_owned());
    }
    Ok(command)
}

fn is_new_enough(node: PathBuf) -> bool {
    let Ok(said) = Command::new(node).arg("--version").output() else { return false };
    let said = String::from_utf8_lossy(&said.stdout).trim().trim_start_matches('v').to_owned();
    let mut parts = said.split('.').map(|part| part.parse::<u32>().unwrap_or(0));
    (parts.next().unwrap_or(0), parts.next().unwrap_or(0)) >= NODE
}
