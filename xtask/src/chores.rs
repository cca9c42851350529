//! The chores that run other programs: demo, test, bench.

use std::path::PathBuf;
use std::process::{Command, Stdio};

use crate::deny::deny;
use crate::postgres::{Server, need_postgres};
use crate::room::make_room;
use crate::tidy;
use crate::tools::{Outcome, answers, cargo, need, need_that, root, run, target_folder};
use crate::web;

/// No demo sets renewals under a budget, and the solver for that builds for minutes.
const WITHOUT_SOLVER: &str = "--no-default-features";

/// Sets up, plans the invented district's day and says where the job pack lies.
pub fn demo(arguments: &[String]) -> Outcome {
    need_c_compiler()?;
    run(
        "building (the first time takes some minutes)",
        &mut cargo(&["build", "--quiet", "--package", "cli", WITHOUT_SOLVER]),
    )?;
    let out = root().join("demo").join("out");
    let mut command =
        cargo(&["run", "--quiet", "--package", "cli", WITHOUT_SOLVER, "--", "plan", "demo/district.toml"]);
    command.args(["--holes", "demo/holes.csv", "--date", "2026-06-09", "--seed", "1", "--out", "demo/out"]);
    command.args(arguments);
    eprintln!("== planning the invented district's day");
    let status = command.status().map_err(|error| error.to_string())?;
    // 3 says: produced, but some input was refused. The demo's list has bad rows on purpose.
    if status.code() != Some(3) {
        return Err(format!(
            "the demo plan ended with {status}; 3 was expected, since its hole list has bad rows on purpose"
        ));
    }
    eprintln!("== planning four days of two crews, with a forecast");
    let mut week = cargo(&["run", "--quiet", "--package", "cli", WITHOUT_SOLVER, "--", "plan", "demo/week.toml"]);
    week.args(["--holes", "demo/holes.csv", "--date", "2026-06-09", "--days", "4"]);
    week.args(["--forecast", "demo/forecast.csv", "--seed", "1", "--out", "demo/out/week"]);
    let status = week.status().map_err(|error| error.to_string())?;
    if status.code() != Some(3) {
        return Err(format!("the demo's work plan ended with {status}; 3 was expected, as above"));
    }
    println!("\nThe job pack: {}", out.join("job-pack.pdf").display());
    println!("Beside it: plan.json, holes.geojson, zones.geojson, zones-feed.geojson, load.csv");
    println!("In week/: four days of two crews, a folder for each round, and work-plan.json");
    println!("The list of holes has bad rows on purpose: what was wrong with them is printed above.");
    Ok(())
}

/// Sets up and serves the invented district, with its web app, until Ctrl-C.
pub fn serve_demo() -> Outcome {
    need_c_compiler()?;
    web::build()?;
    run(
        "building (the first time takes some minutes)",
        &mut cargo(&["build", "--quiet", "--package", "cli", WITHOUT_SOLVER]),
    )?;
    web::serve_demo()
}

/// Sets up, then format, lints, house rules and all tests.
pub fn test(arguments: &[String]) -> Outcome {
    need_c_compiler()?;
    need("pdftoppm", "-v", "poppler-utils")?;
    // The client that reads the feeds as other software will.
    need("ogrinfo", "--version", "gdal-bin")?;
    need_for_solver()?;
    // The record's second store.
    need_postgres()?;
    let tester = api_tester();
    make_room()?;
    run("format", &mut cargo(&["fmt", "--all", "--check"]))?;
    tidy::run()?;
    deny()?;
    web::check_and_build()?;
    let mut lints = cargo(&["clippy", "--quiet", "--workspace", "--all-targets", "--"]);
    // A newer compiler may know new lints: only CI, whose compiler is known, refuses warnings.
    if std::env::var_os("CI").is_some() {
        lints.args(["-D", "warnings"]);
    }
    run("lints", &mut lints)?;
    let nextest = answers("cargo-nextest", "--version") || answers("cargo", "nextest");
    let mut tests = if nextest { cargo(&["nextest", "run"]) } else { cargo(&["test"]) };
    tests.args(["--workspace", "--no-fail-fast"]).args(arguments);
    {
        let postgres = Server::start()?;
        if let Some(tester) = &tester {
            tests.env(API_TESTER, tester);
        }
        run("tests", postgres.told_to(&mut tests))?;
    }
    if nextest {
        run("examples in the documentation", &mut cargo(&["test", "--quiet", "--workspace", "--doc"]))?;
    }
    web::browser_tests()
}

/// Where the tests read which program tests the server against its document.
const API_TESTER: &str = "LENGTHSMAN_TEST_SCHEMATHESIS";

/// The tester and its version, as the Python package index has it.
const API_TESTER_PACKAGE: &str = "schemathesis==4.32.5";

/// The program that tests the server against its document (schemathesis), in a Python environment of its own beside the builds. Made
/// where that is needed and can be done; `None`: it can't, and the tests that need it say that they are skipped.
fn api_tester() -> Option<PathBuf> {
    if let Some(given) = std::env::var_os(API_TESTER) {
        return Some(given.into());
    }
    let folder = target_folder().join("api-tester");
    let program = folder.join("bin").join("schemathesis");
    if answers(&program, "--version") {
        return Some(program);
    }
    eprintln!("== installing {API_TESTER_PACKAGE}");
    let has_pip = || {
        let asked = Command::new("python3").args(["-c", "import ensurepip, venv"]).stderr(Stdio::null()).status();
        asked.is_ok_and(|status| status.success())
    };
    let made = need_that("python3 -m venv", &has_pip, "python3-venv").and_then(|()| {
        run("Python environment", Command::new("python3").args(["-m", "venv"]).arg(&folder))?;
        run(
            "its package",
            Command::new(folder.join("bin").join("pip")).args(["install", "--quiet", API_TESTER_PACKAGE]),
        )
    });
    match made {
        Err(what) if std::env::var_os("CI").is_none() => {
            eprintln!("xtask: {what}; the server is not tested against its document");
            None
        }
        // in CI a tester that is not there fails its test, which then says so
        Ok(()) | Err(_) => Some(program),
    }
}

/// Builds for release and prints the table of bench/README.md.
pub fn bench() -> Outcome {
    need_c_compiler()?;
    need_for_solver()?;
    need("hyperfine", "--version", "hyperfine")?;
    run("release build", &mut cargo(&["build", "--release", "--package", "cli", "--package", "bench"]))?;
    let built = target_folder().join("release");
    let mut script = std::process::Command::new("bash");
    script.arg("bench/run.sh").arg(built.join("lengthsman")).arg(built.join("bench")).current_dir(root());
    run("measuring", &mut script)
}

/// The solver of sets under a budget, which tests of `rounds` compare with too, is built from C++, its bindings with clang's library.
fn need_for_solver() -> Outcome {
    need("c++", "--version", "build-essential")?;
    need("cmake", "--version", "cmake")?;
    need("clang", "--version", "clang")
}

fn need_c_compiler() -> Outcome {
    // Rust links through the system's C compiler driver.
    need("cc", "--version", "build-essential")
}
